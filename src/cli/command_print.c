#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "cli/commands.h"
#include "cli/groups.h"
#include "cli/project.h"
#include "figures/dates.h"
#include "layout/sheet.h"
#include "render/render.h"
#include "rules/rules.h"

struct printing {
    const struct options *options;
    struct project *project;
    struct type *type;
    struct arena *scenes; /* of the sheet being made; emptied for the next */
    int made;
    bool failed;          /* a file could not be written */
};

static const char *date_words(struct arena *arena, int day)
{
    static const char *const days[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
    static const char *const months[] = {"January", "February", "March", "April", "May", "June", "July", "August",
                                         "September", "October", "November", "December"};
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return "";
    return arena_printf(arena, "%s %d %s %d", days[date_weekday(day) - 1], of_month, months[month - 1], year);
}

/* --- names of files --- */

/* NAME as a part of a file name: small letters and digits of any script, everything else a hyphen. */
static const char *slug(struct arena *arena, const char *name)
{
    const char *folded = text_fold(arena, name, strlen(name));
    char *out = arena_alloc(arena, strlen(folded) + 1);
    size_t n = 0;
    for (const char *p = folded; *p; p++) {
        unsigned char c = (unsigned char)*p;
        bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
        if (keep)
            out[n++] = *p;
        else if (n && out[n - 1] != '-')
            out[n++] = '-';
    }
    while (n && out[n - 1] == '-')
        n--;
    out[n] = '\0';
    return n ? out : "session";
}

static const char *file_name(struct arena *arena, const struct occasion *occasion, const char *kind,
                             const char *athlete)
{
    char day[DATE_TEXT_SIZE];
    date_format(occasion->date, day);
    const char *hour = occasion->clock >= 0 ? arena_printf(arena, "-%02d%02d", occasion->clock / 3600 % 24,
                                                           occasion->clock / 60 % 60)
                                            : "";
    return arena_printf(arena, "%s%s-%s%s%s-%s", day, hour, slug(arena, occasion->session->name.shown),
                        athlete ? "-" : "", athlete ? slug(arena, athlete) : "", kind);
}

/* --- one sheet --- */

/* What the layout could not do well, as findings at the session. */
static void report_problems(struct printing *printing, const struct scene *scene, const struct sheet *sheet,
                            const struct occasion *occasion)
{
    static const char *const names[] = {
        [PROBLEM_ELLIPSISED] = "text-cut", [PROBLEM_UNKNOWN_GLYPH] = "no-glyph", [PROBLEM_OUTSIDE] = "beyond-margin",
        [PROBLEM_OVERLAP] = "texts-touch", [PROBLEM_TOO_SMALL] = "too-small-to-read"};
    struct diag *diag = printing->project->diag;
    struct arena *arena = printing->project->arena;
    for (size_t i = 0; i < scene->problem_count; i++) {
        const struct layout_problem *problem = &scene->problems[i];
        struct finding *finding =
            diag_report(diag, SEVERITY_WARNING, names[problem->kind], occasion->session->name.span, "%s: %s",
                        sheet->name, arena_copy(arena, problem->words, strlen(problem->words)));
        if (problem->help)
            diag_help(diag, finding, "%s", problem->help);
    }
}

static void write_file(struct printing *printing, const char *name, const struct text *bytes)
{
    const char *path = arena_printf(printing->project->arena, "%s/%s", printing->options->out, name);
    const char *wrong = output_write(path, text_get(bytes), bytes->length);
    if (wrong) {
        fprintf(stderr, "bellsheet: error: %s: %s\n", path, wrong);
        printing->failed = true;
        return;
    }
    printf("%s\n", path);
    printing->made++;
}

static void write_rendered(struct printing *printing, const char *name, const char *wrong, const struct text *bytes)
{
    if (!wrong) {
        write_file(printing, name, bytes);
        return;
    }
    fprintf(stderr, "bellsheet: error: %s: %s\n", name, wrong);
    printing->failed = true;
}

static void write_pdf(struct printing *printing, const struct scene *scene, const char *name)
{
    struct text bytes = {0};
    const struct scene *const scenes[] = {scene};
    const char *wrong = render_pdf(scenes, 1, printing->options->created, &bytes);
    write_rendered(printing, name, wrong, &bytes);
    text_free(&bytes);
}

/* An SVG holds one page: the second and further ones are files of their own. */
static void write_svgs(struct printing *printing, const struct scene *scene, const char *name)
{
    struct arena *arena = printing->project->arena;
    for (int page = 1; page <= (int)scene->page_count && !printing->failed; page++) {
        struct text bytes = {0};
        const char *wrong = render_svg(scene, page, &bytes);
        const char *full = page == 1 ? arena_printf(arena, "%s.svg", name) : arena_printf(arena, "%s-%d.svg", name, page);
        write_rendered(printing, full, wrong, &bytes);
        text_free(&bytes);
    }
}

static void make_sheet(struct printing *printing, const struct sheet *sheet, const struct occasion *const *occasions,
                       size_t count)
{
    struct project *project = printing->project;
    const struct options *options = printing->options;
    const char *athlete = sheet->one_athlete ? occasions[0]->athlete->name.shown : NULL;
    const char *name = file_name(project->arena, occasions[0], sheet->name, athlete);
    const char *full = arena_printf(project->arena, "%s.%s", name, sheet->one_athlete ? "svg" : "pdf");
    if (options->list) {
        printf("%s/%s\n", options->out ? options->out : ".", full);
        printing->made++;
        return;
    }
    struct arena *arena = arena_new();
    const struct gym *gym = occasions[0]->athlete->gym;
    struct sheet_request request = {
        .arena = arena, .type = printing->type, .programme = project->programme, .occasions = occasions,
        .count = count, .paper = !sheet->one_athlete && options->paper ? paper_find(options->paper) : NULL,
        .landscape = options->landscape, .distance = sheet->one_athlete ? 0 : options->read_from,
        .plan = occasions[0]->camp->name.shown,
        .version = options->revision ? options->revision : project->version,
        .date_words = date_words(arena, occasions[0]->date), .author = gym ? gym->name.shown : ""};
    struct scene *scene = sheet_make(sheet, &request);
    report_problems(printing, scene, sheet, occasions[0]);
    if (sheet->one_athlete)
        write_svgs(printing, scene, name);
    else
        write_pdf(printing, scene, full);
    arena_free(arena);
}

static bool wants(const struct options *options, const struct sheet *sheet)
{
    if (!options->sheet)
        return true;
    size_t length = strlen(sheet->name);
    for (const char *at = options->sheet; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL)
        if (strncmp(at, sheet->name, length) == 0 && (at[length] == ',' || at[length] == '\0'))
            return true;
    return false;
}

static void make_group(struct printing *printing, const struct occasion *const *occasions, size_t count)
{
    for (size_t s = 0; s < sheet_count && !printing->failed; s++) {
        if (!wants(printing->options, &sheets[s]))
            continue;
        if (!sheets[s].one_athlete)
            make_sheet(printing, &sheets[s], occasions, count);
        for (size_t i = 0; i < count && sheets[s].one_athlete && !printing->failed; i++)
            make_sheet(printing, &sheets[s], &occasions[i], 1);
    }
}

/* --- what was asked for --- */

static bool known_sheets(const char *list)
{
    char name[32];
    for (const char *at = list; *at;) {
        size_t length = strcspn(at, ",");
        snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : sizeof name - 1), at);
        if (!sheet_find(name)) {
            fprintf(stderr, "bellsheet: error: there is no sheet `%s`:", name);
            for (size_t i = 0; i < sheet_count; i++)
                fprintf(stderr, "%s %s", i ? "," : "", sheets[i].name);
            fputs("\n", stderr);
            return false;
        }
        at += length + (at[length] == ',');
    }
    return true;
}

static bool options_fit(const struct options *options)
{
    const char *wrong = NULL;
    if (!options->week && !options->day && !options->all)
        wrong = "say which: --week N, --on DAY or --all";
    else if (!options->out && !options->list)
        wrong = "say where the files go: --out FOLDER";
    else if (options->paper && !paper_find(options->paper))
        wrong = "there is no such paper: A4, A3, A2, A1, Letter or Tabloid";
    if (wrong)
        fprintf(stderr, "bellsheet: error: %s\n", wrong);
    return !wrong && (!options->sheet || known_sheets(options->sheet));
}

static int finish(struct printing *printing)
{
    struct project *project = printing->project;
    if (printing->failed)
        return EXIT_COULD_NOT;
    if (fflush(stdout) != 0) {
        fprintf(stderr, "bellsheet: error: standard output: %s\n", strerror(errno));
        return EXIT_COULD_NOT;
    }
    if (!printing->made) {
        fputs("bellsheet: error: no session is planned then\n", stderr);
        return EXIT_COULD_NOT;
    }
    return project_verdict(project, printing->options);
}

static int print_all(struct printing *printing)
{
    const struct options *options = printing->options;
    if (!options->list) {
        const char *wrong = output_make_folder(options->out);
        if (wrong) {
            fprintf(stderr, "bellsheet: error: %s: %s\n", options->out, wrong);
            return EXIT_COULD_NOT;
        }
        printing->type = type_open(&wrong);
        if (!printing->type) {
            fprintf(stderr, "bellsheet: error: %s\n", wrong);
            return EXIT_COULD_NOT;
        }
    }
    struct occasion_groups groups = groups_find(printing->project, options);
    for (size_t i = 0; i < groups.count && !printing->failed; i++)
        make_group(printing, groups.items[i].occasions, groups.items[i].count);
    if (printing->type)
        type_close(printing->type);
    return finish(printing);
}

int command_print(const struct options *options)
{
    if (!options_fit(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED)) {
        /* A plan that cannot be read is not printed: a sheet with a hole in it looks like a plan. */
        struct printing printing = {.options = options, .project = &project};
        status = diag_count(project.diag, SEVERITY_ERROR) ? project_verdict(&project, options) : print_all(&printing);
    }
    project_close(&project);
    return status;
}

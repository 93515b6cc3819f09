/* `bellsheet close`: what was planned on past days goes into a record beside the plan, one file for each month. From
 * then on these days come from there. */
#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "export/record.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan/plan_files.h"
#include "syntax/format.h"

#define HELD_UNTIL "held until "

struct closing {
    const struct options *options;
    struct arena *arena;
    const struct programme *programme;
    const struct phrasebook *phrases;
    const char *folder; /* of the record */
};

static int complain(const char *name, const char *why)
{
    tell_error("%s: %s", name, why);
    return EXIT_COULD_NOT;
}

static const char *iso(struct arena *arena, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(arena, text, strlen(text));
}

/* The last day of DAY's month. */
static int month_end(int day)
{
    int year, month, of_month;
    date_to_ymd(day, &year, &month, &of_month);
    return (month == 12 ? date_from_ymd(year + 1, 1, 1) : date_from_ymd(year, month + 1, 1)) - 1;
}

/* OLD, a month's file or "", with its days closed until DAY. */
static void add_until(const char *old, const char *day, struct text *out)
{
    static const char mark[] = "\xef\xbb\xbf";
    old += g_str_has_prefix(old, mark) ? sizeof mark - 1 : 0;
    const char *line = g_str_has_prefix(old, HELD_UNTIL) ? old : strstr(old, "\n" HELD_UNTIL);
    if (!line) {
        text_addf(out, "# Written by `bellsheet close`: what was planned on these days, whatever the plan says since.\n\n"
                       HELD_UNTIL "%s\n%s", day, old);
        return;
    }
    const char *at = line + strlen(HELD_UNTIL) + (*line == '\n');
    text_add_bytes(out, old, (size_t)(at - old));
    text_add(out, day);
    text_add(out, at + strspn(at, "0123456789-"));
}

/* Brings BYTES into canonical layout in OUT. Returns NULL or what went wrong. */
static const char *lay_out(const struct closing *closing, const char *path, const struct text *bytes, struct text *out)
{
    struct sources sources = {.arena = closing->arena};
    struct diag *diag = diag_new(closing->arena, &sources);
    int file = source_add(&sources, path, text_get(bytes), bytes->length);
    enum format_outcome outcome =
        format_source(closing->arena, &sources, (unsigned)file, closing->phrases, diag, out);
    if (outcome == FORMAT_FAULTY || outcome == FORMAT_UNPROVEN)
        return "left as it is, because the record would not read as it was planned; this is a fault in bellsheet";
    return NULL;
}

/* Closes the days from FIRST to LAST, which are of one month. */
static const char *write_month(const struct closing *closing, int first, int last)
{
    struct arena *arena = closing->arena;
    const char *path = arena_printf(arena, "%s/%.7s.bell", closing->folder, iso(arena, first)), *wrong;
    gchar *old = NULL;
    struct text bytes = {.arena = arena}, out = {.arena = arena};
    bool there = g_file_get_contents(path, &old, NULL, NULL);
    add_until(there ? old : "", iso(arena, last), &bytes);
    for (size_t i = 0; i < closing->programme->occasion_count; i++) {
        const struct occasion *occasion = &closing->programme->occasions[i];
        if (!occasion->held && occasion->date >= first && occasion->date <= last)
            record_occasion(arena, occasion, &bytes);
    }
    wrong = lay_out(closing, path, &bytes, &out);
    if (!wrong && !(there && strcmp(old, text_get(&out)) == 0)) {
        wrong = output_keep(path, text_get(&out), out.length);
        if (!wrong)
            puts(path);
    }
    g_free(old);
    return wrong;
}

/* The first day that is planned and open; 0: none is. */
static int first_open(const struct programme *programme)
{
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (!programme->occasions[i].held)
            return programme->occasions[i].date;
    return 0;
}

/* Writes month by month, the earliest first, so that a run which is interrupted leaves whole months behind. */
static int write_record(const struct closing *closing)
{
    const struct programme *programme = closing->programme;
    int until = closing->options->until, day = programme->closed ? programme->closed + 1 : first_open(programme);
    if (!day || day > until) {
        fprintf(stderr, "there is nothing to close until %s\n", iso(closing->arena, until));
        return EXIT_CLEAN;
    }
    const char *wrong = output_make_folder(closing->folder, 0777, NULL);
    if (!wrong)
        wrong = output_keep_name(closing->folder);
    while (!wrong && day <= until) {
        int last = month_end(day) < until ? month_end(day) : until;
        wrong = write_month(closing, day, last);
        day = last + 1;
    }
    if (wrong)
        return complain(closing->folder, wrong);
    return fflush(stdout) == 0 ? EXIT_CLEAN : complain("standard output", strerror(errno));
}

/* Where the record of the plan PATH is: in its folder, or beside it. */
static const char *record_folder(struct arena *arena, const char *path)
{
    const char *shown = plan_shown(arena, path);
    if (!plan_is_name(shown))
        return arena_printf(arena, "%s/record", shown);
    const char *slash = strrchr(shown, '/');
    return arena_printf(arena, "%.*srecord", slash ? (int)(slash - shown + 1) : 0, shown);
}

/* Was a day given, and is it past? Says so if not. */
static bool is_day_known(const struct options *options)
{
    if (!options->until)
        tell_error("say until which day: `bellsheet close gym/ --until 2027-01-31`");
    else if (options->today && options->until > options->today)
        tell_error("a day that is still to come cannot be closed");
    else if (options->path_count > 1 || (options->path_count && strcmp(options->paths[0], "-") == 0))
        tell_error("close takes one plan: its folder");
    else
        return true;
    return false;
}

int command_close(const struct options *options)
{
    if (!is_day_known(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED)) {
        const char *path = options->path_count ? options->paths[0] : ".";
        struct closing closing = {.options = options, .arena = project.arena, .programme = project.programme,
                                  .phrases = phrasebook_new(project.arena),
                                  .folder = record_folder(project.arena, path)};
        status = project_verdict(&project, options);
        if (status == EXIT_CLEAN)
            status = write_record(&closing);
        else
            tell_error("nothing is closed while the plan has errors");
    }
    project_close(&project);
    return status;
}

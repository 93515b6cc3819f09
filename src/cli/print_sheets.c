/* print_sheets.c - which sheets are made of which part of the plan. */
#include <stdio.h>
#include <string.h>

#include "cli/print.h"
#include "figures/dates.h"

/* Pages the wall may take before its letters are said to be too small: two stand side by side on any wall. */
static const int PAGES = 2;

static const char *const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};

const char *print_day_words(struct arena *arena, int day)
{
    static const char *const days[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return "";
    return arena_printf(arena, "%s %d %s %d", days[date_weekday(day) - 1], of_month,
                        months[month - 1], year);
}

/* "8 to 14 March 2027", "29 March to 4 April 2027". */
static const char *span_words(struct arena *arena, int first, int last)
{
    int year, month, day, last_year, last_month, last_day;
    if (!date_to_ymd(first, &year, &month, &day) ||
        !date_to_ymd(last, &last_year, &last_month, &last_day))
        return "";
    const char *start = arena_printf(arena, "%d", day);
    if (month != last_month || year != last_year)
        start = arena_printf(arena, "%s %s", start, months[month - 1]);
    if (year != last_year)
        start = arena_printf(arena, "%s %d", start, year);
    return arena_printf(arena, "%s to %d %s %d", start, last_day, months[last_month - 1], last_year);
}

static const char *date_words(struct arena *arena, const struct sheet *sheet,
                              const struct occasion *occasion)
{
    int monday = date_monday(occasion->date);
    if (sheet->scope == SCOPE_WEEK_EACH)
        return span_words(arena, monday, monday + 6);
    if (sheet->scope == SCOPE_CAMP_EACH)
        return span_words(arena, occasion->camp->first, occasion->camp->last);
    return print_day_words(arena, occasion->date);
}

/* What the layout could not do well, as findings at the session or camp. */
static void report_problems(struct printing *printing, const struct scene *scene,
                            const struct sheet *sheet, const struct occasion *occasion)
{
    static const char *const names[] = {[PROBLEM_ELLIPSISED] = "text-cut",
                                        [PROBLEM_UNKNOWN_GLYPH] = "no-glyph",
                                        [PROBLEM_OUTSIDE] = "beyond-margin",
                                        [PROBLEM_OVERLAP] = "texts-touch",
                                        [PROBLEM_TOO_SMALL] = "too-small-to-read"};
    struct diag *diag = printing->project->diag;
    struct arena *arena = printing->project->arena;
    bool session = sheet->scope == SCOPE_SESSION || sheet->scope == SCOPE_SESSION_EACH;
    struct span span = session ? occasion->session->name.span : occasion->camp->name.span;
    for (size_t i = 0; i < scene->problem_count; i++) {
        const struct layout_problem *problem = &scene->problems[i];
        struct finding *finding =
            diag_report(diag, SEVERITY_WARNING, names[problem->kind], span, "%s: %s", sheet->name,
                        arena_copy(arena, problem->words, strlen(problem->words)));
        if (problem->help)
            diag_help(diag, finding, "%s", problem->help);
    }
}

/* The paper asked for is the wall's: the other sheets are made for one size. */
static bool takes_paper(const struct sheet *sheet)
{
    return strcmp(sheet->name, "wall") == 0;
}

static struct sheet_request request_for(struct printing *printing, const struct sheet *sheet,
                                        const struct occasion_group *group)
{
    const struct options *options = printing->options;
    const struct occasion *first = group->occasions[0];
    const struct gym *gym = first->athlete->gym;
    bool wall = takes_paper(sheet);
    struct sheet_request request = {
        .type = printing->type,
        .programme = printing->project->programme,
        .occasions = group->occasions,
        .count = group->count,
        .paper = wall && options->paper      ? paper_find(options->paper)
                 : wall && options->landscape ? paper_find(sheet->paper)
                                              : NULL,
        .landscape = options->landscape,
        .distance = wall ? options->read_from : 0,
        .pages = options->pages ? options->pages : PAGES,
        .plan = first->camp->name.shown,
        .version = options->revision ? options->revision : printing->project->version,
        .date_words = date_words(printing->project->arena, sheet, first),
        .author = gym ? gym->name.shown : "",
        .coach = options->coach};
    if (sheet->scope == SCOPE_WEEK_EACH || sheet->scope == SCOPE_CAMP_EACH)
        request.bounds = print_bounds(printing->project->arena, first->camp, first->athlete,
                                      &request.bound_count);
    return request;
}

static void make_sheet(struct printing *printing, const struct sheet *sheet,
                       const struct occasion_group *group)
{
    struct arena *arena = printing->project->arena;
    const struct occasion *first = group->occasions[0];
    if (printing->options->list) {
        const char *end = sheet->scope == SCOPE_SESSION_EACH ? "svg" : "pdf";
        print_note(printing, (struct printed){.sheet = sheet,
                                              .occasion = first,
                                              .name = arena_printf(arena, "%s.%s",
                                                                   print_name(arena, sheet, first),
                                                                   end)});
        return;
    }
    struct sheet_request request = request_for(printing, sheet, group);
    request.arena = arena_new();
    struct scene *scene = sheet_make(sheet, &request);
    report_problems(printing, scene, sheet, first);
    print_scene(printing, sheet, first, scene);
    arena_free(request.arena);
}

/* Without a wish, what is used on the day: the wall and the cards. */
static bool wants(const struct options *options, const struct sheet *sheet)
{
    const char *list = options->sheet ? options->sheet : "wall,card";
    size_t length = strlen(sheet->name);
    for (const char *at = list; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL)
        if (strncmp(at, sheet->name, length) == 0 && (at[length] == ',' || at[length] == '\0'))
            return true;
    return false;
}

static void make_session(struct printing *printing, const struct occasion_group *group)
{
    for (size_t s = 0; s < sheet_count && !printing->failed; s++) {
        const struct sheet *sheet = &sheets[s];
        if (!wants(printing->options, sheet))
            continue;
        if (sheet->scope == SCOPE_SESSION)
            make_sheet(printing, sheet, group);
        for (size_t i = 0; i < group->count && sheet->scope == SCOPE_SESSION_EACH && !printing->failed; i++)
            make_sheet(printing, sheet,
                       &(struct occasion_group){.occasions = &group->occasions[i], .count = 1});
    }
}

/* Sheets of a week or a camp, for each athlete that something is asked for. */
static void make_each(struct printing *printing, const struct sheet *sheet)
{
    bool weekly = sheet->scope == SCOPE_WEEK_EACH;
    struct occasion_groups groups = groups_of_athletes(printing->project, printing->options, weekly);
    for (size_t i = 0; i < groups.count && !printing->failed; i++)
        make_sheet(printing, sheet, &groups.items[i]);
}

void print_sheets(struct printing *printing)
{
    struct occasion_groups groups = groups_find(printing->project, printing->options);
    for (size_t i = 0; i < groups.count && !printing->failed; i++)
        make_session(printing, &groups.items[i]);
    for (size_t s = 0; s < sheet_count && !printing->failed; s++)
        if (wants(printing->options, &sheets[s]) && (sheets[s].scope == SCOPE_WEEK_EACH ||
                                                     sheets[s].scope == SCOPE_CAMP_EACH))
            make_each(printing, &sheets[s]);
}

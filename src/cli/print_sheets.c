/* print_sheets.c - which sheets are made from which part of the plan. */
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "cli/print.h"
#include "cli/progress.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "cli/workers.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "squad/squad.h"

/* What sheets are made from. */
static struct sheet_origin origin_of(const struct printing *printing)
{
    const struct options *options = printing->options;
    return (struct sheet_origin){.programme = printing->project->programme,
                                 .arena = printing->project->arena,
                                 .version = printing->version,
                                 .paper = options->paper ? paper_find(options->paper) : NULL,
                                 .landscape = options->landscape,
                                 .read_from = options->read_from,
                                 .pages = options->pages,
                                 .coach = options->coach,
                                 .memo = printing->memo};
}

/* A sheet to be made. */
struct job {
    const struct sheet *sheet;
    struct occasion_group group;
    const char *stem; /* of its files' names */
};

struct jobs {
    struct printing *printing;
    struct job *items;
    size_t count, capacity;
    GHashTable *stems; /* those taken */
    struct progress progress;
};

/* The sheet's usual name or, if another sheet has it (two camps, one session, one hour), that name with the camp's. */
static const char *unused_stem(const struct jobs *jobs, const struct sheet *sheet,
                               const struct occasion_group *group)
{
    struct arena *arena = jobs->printing->project->arena;
    const struct occasion *occasion = group->occasions[0];
    const char *stem = print_name(arena, sheet, group), *fresh = stem;
    if (g_hash_table_contains(jobs->stems, fresh))
        stem = fresh = arena_printf(arena, "%s-%s", stem, print_slug(arena, occasion->camp->name.shown));
    for (int i = 2; g_hash_table_contains(jobs->stems, fresh); i++)
        fresh = arena_printf(arena, "%s-%d", stem, i);
    g_hash_table_add(jobs->stems, (gpointer)fresh);
    return fresh;
}

static void add_job(struct jobs *jobs, const struct sheet *sheet, struct occasion_group group)
{
    jobs->items = arena_grow(jobs->printing->project->arena, jobs->items, jobs->count, &jobs->capacity,
                             sizeof *jobs->items);
    jobs->items[jobs->count++] =
        (struct job){sheet, group, unused_stem(jobs, sheet, &group)};
}

/* What the layout could not do well: a letter for its kind, then the words. */
static void record_problems(const struct scene *scene, struct text *record)
{
    for (size_t i = 0; i < scene->problem_count; i++) {
        const struct layout_problem *problem = &scene->problems[i];
        print_record(record, PRINT_PROBLEM, "%c%s", 'a' + (int)problem->kind, problem->words);
        if (problem->help)
            print_record(record, PRINT_HELP, "%s", problem->help);
    }
}

/* The same as a finding at the session or camp. */
static struct finding *report_problem(struct printing *printing, const struct job *job, const char *words)
{
    static const enum diagnostic found[] = {[PROBLEM_ELLIPSISED] = DIAG_TEXT_CUT,
                                            [PROBLEM_UNKNOWN_GLYPH] = DIAG_NO_GLYPH,
                                            [PROBLEM_OUTSIDE] = DIAG_BEYOND_MARGIN,
                                            [PROBLEM_OVERLAP] = DIAG_TEXTS_TOUCH,
                                            [PROBLEM_TOO_SMALL] = DIAG_TOO_SMALL_TO_READ,
                                            [PROBLEM_PAGES] = DIAG_TOO_MANY_PAGES};
    const struct occasion *occasion = job->group.occasions[0];
    bool session = job->sheet->scope == SCOPE_SESSION || job->sheet->scope == SCOPE_SESSION_EACH;
    struct span span = session ? occasion->session->name.span : occasion->camp->name.span;
    return diag_report(printing->project->diag, SEVERITY_WARNING, found[*words - 'a'], span, "%s: %s",
                       job->sheet->name, words + 1);
}

static const char *begin(void *with)
{
    struct jobs *jobs = with;
    const char *wrong = NULL;
    jobs->printing->type = type_open(&wrong);
    jobs->printing->memo = squad_memo_new(jobs->printing->project->arena);
    return wrong;
}

static void end(void *with)
{
    struct jobs *jobs = with;
    type_close(jobs->printing->type);
    jobs->printing->type = NULL;
}

/* Writes one sheet. Its files and findings go into RECORD as texts with a NUL after each. */
static void make(void *with, size_t number, struct text *record)
{
    struct jobs *jobs = with;
    const struct job *job = &jobs->items[number];
    const struct sheet_origin origin = origin_of(jobs->printing);
    struct sheet_request request = sheet_request_for(&origin, job->sheet, &job->group);
    request.type = jobs->printing->type;
    request.arena = arena_new();
    struct scene *scene = sheet_make(job->sheet, &request);
    print_scene(jobs->printing, job->sheet, job->stem, scene, record);
    record_problems(scene, record);
    arena_free(request.arena);
}

/* Says what RECORD holds. */
static bool take(void *with, size_t number, const struct text *record)
{
    struct jobs *jobs = with;
    struct printing *printing = jobs->printing;
    const struct job *job = &jobs->items[number];
    struct printed printed = {.sheet = job->sheet, .occasion = job->group.occasions[0], .title = ""};
    struct finding *finding = NULL;
    progress_hide(&jobs->progress);
    const char *end_of_record = text_get(record) + record->length;
    for (const char *at = text_get(record); at < end_of_record; at += strlen(at) + 1) {
        const char *words = arena_copy(printing->project->arena, at + 1, strlen(at + 1));
        switch ((enum print_mark)*at) {
        case PRINT_TITLE: printed.title = words; break;
        case PRINT_FILE:
            printed.name = words;
            printed.page++;
            print_note(printing, printed);
            break;
        case PRINT_WRONG:
            tell_error("%s", words);
            printing->failed = true;
            break;
        case PRINT_HELP: diag_help(printing->project->diag, finding, "%s", words); break;
        default: finding = report_problem(printing, job, words);
        }
    }
    if (number + 1 < jobs->count)
        progress_show(&jobs->progress, number + 1, jobs->count);
    return !printing->failed;
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

static void add_group(struct jobs *jobs, const struct sheet *sheet, const struct occasion_group *group)
{
    const struct sheet_origin origin = origin_of(jobs->printing);
    struct occasion_group shown = sheet_held_last(&origin, sheet, group);
    if (shown.count)
        add_job(jobs, sheet, shown);
}

/* Do the sessions of a week share SHEET, because one athlete is asked for? */
static bool gathers(const struct jobs *jobs, const struct sheet *sheet)
{
    return sheet->gathers && jobs->printing->options->athlete;
}

/* One SHEET for the sessions of each week in GROUPS, which are one athlete's; a session alone has its own. */
static void add_gathered(struct jobs *jobs, const struct sheet *sheet, const struct occasion_groups *groups)
{
    struct arena *arena = jobs->printing->project->arena;
    for (size_t i = 0, end; i < groups->count; i = end) {
        struct occasion_group week = {0};
        size_t sessions = 0;
        int monday = date_monday(groups->items[i].occasions[0]->date);
        for (end = i; end < groups->count && date_monday(groups->items[end].occasions[0]->date) == monday; end++) {
            const struct occasion_group *group = &groups->items[end];
            sessions += group->count > 0;
            for (size_t k = 0; k < group->count; k++) {
                week.occasions = arena_grow(arena, week.occasions, week.count, &week.capacity, sizeof *week.occasions);
                week.occasions[week.count++] = group->occasions[k];
            }
        }
        week.of_athlete = sessions > 1;
        if (week.count)
            add_group(jobs, sheet, &week);
    }
}

static void add_session(struct jobs *jobs, const struct occasion_group *group)
{
    for (size_t s = 0; s < sheet_count; s++) {
        const struct sheet *sheet = &sheets[s];
        if (!wants(jobs->printing->options, sheet))
            continue;
        if (sheet->scope == SCOPE_SESSION && !gathers(jobs, sheet))
            add_group(jobs, sheet, group);
        for (size_t i = 0; i < group->count && sheet->scope == SCOPE_SESSION_EACH; i++)
            add_job(jobs, sheet, (struct occasion_group){.occasions = &group->occasions[i], .count = 1});
    }
}

static bool is_barred(const struct jobs *jobs, const struct occasion *occasion)
{
    return jobs->printing->barred[occasion - jobs->printing->project->programme->occasions];
}

/* Takes out of GROUP what is barred; how many are left. */
static size_t without_barred(const struct jobs *jobs, struct occasion_group *group)
{
    size_t kept = 0;
    for (size_t i = 0; i < group->count; i++)
        if (!is_barred(jobs, group->occasions[i]))
            group->occasions[kept++] = group->occasions[i];
    return group->count = kept;
}

/* What each SHEET of a week, a camp or a season is made of. */
static struct occasion_groups groups_for(struct project *project, const struct options *options, const struct sheet *sheet)
{
    if (sheet_is_of_season(sheet))
        return groups_of_seasons(project, options, sheet->scope == SCOPE_SEASON_EACH);
    return groups_of_athletes(project, options, sheet->scope == SCOPE_WEEK_EACH);
}

/* Sheets of a week, a camp or a season, for each athlete that something is asked for. */
static void add_each(struct jobs *jobs, const struct sheet *sheet)
{
    struct occasion_groups groups = groups_for(jobs->printing->project, jobs->printing->options, sheet);
    for (size_t i = 0; i < groups.count; i++) {
        size_t all = groups.items[i].count;
        if (without_barred(jobs, &groups.items[i]) == all)
            add_job(jobs, sheet, groups.items[i]);
    }
}

struct wanted print_wanted(struct project *project, const struct options *options)
{
    const struct programme *programme = project->programme;
    struct wanted wanted = selection_wanted(project, options);
    for (size_t s = 0; s < sheet_count; s++) {
        if (!wants(options, &sheets[s]) || !sheet_is_for_each(&sheets[s]))
            continue;
        struct occasion_groups groups = groups_for(project, options, &sheets[s]);
        for (size_t i = 0; i < groups.count; i++)
            for (size_t k = 0; k < groups.items[i].count; k++)
                wanted.occasions[groups.items[i].occasions[k] - programme->occasions] = true;
    }
    return wanted;
}

static void find_jobs(struct jobs *jobs)
{
    const struct options *options = jobs->printing->options;
    struct occasion_groups groups = groups_find(jobs->printing->project, options);
    jobs->stems = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < groups.count; i++)
        if (without_barred(jobs, &groups.items[i]))
            add_session(jobs, &groups.items[i]);
    for (size_t s = 0; s < sheet_count; s++)
        if (wants(options, &sheets[s]) && gathers(jobs, &sheets[s]))
            add_gathered(jobs, &sheets[s], &groups);
    for (size_t s = 0; s < sheet_count; s++)
        if (wants(options, &sheets[s]) && sheet_is_for_each(&sheets[s]))
            add_each(jobs, &sheets[s]);
    g_hash_table_destroy(jobs->stems);
}

static void list_jobs(const struct jobs *jobs)
{
    for (size_t i = 0; i < jobs->count; i++) {
        const struct job *job = &jobs->items[i];
        const char *name = print_file_name(jobs->printing, job->sheet, job->stem, 1);
        print_note(jobs->printing, (struct printed){.sheet = job->sheet, .occasion = job->group.occasions[0],
                                                    .name = name});
    }
}

void print_sheets(struct printing *printing)
{
    struct jobs jobs = {.printing = printing};
    find_jobs(&jobs);
    if (printing->options->list) {
        list_jobs(&jobs);
        return;
    }
    struct work work = {&jobs, jobs.count, begin, make, take, end};
    progress_start(&jobs.progress);
    const char *wrong = workers_run(&work, workers_wanted());
    progress_hide(&jobs.progress);
    if (wrong) {
        tell_error("%s", wrong);
        printing->failed = true;
    }
}

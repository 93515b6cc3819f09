/* print_changed.c - what in a folder is still as the plan has it, what has to be made, and what is out of date. */
#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/print.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "model/programme.h"
#include "squad/squad.h"

const char *print_own_name(const struct printing *printing, const struct athlete *athlete, const char *end)
{
    struct arena *arena = printing->project->arena;
    const struct programme *programme = printing->project->programme;
    const char *slug = sheet_slug(arena, athlete->name.shown);
    int alike = 1;
    for (size_t i = 0; i < programme->athlete_count && programme->athletes[i] != athlete; i++)
        alike += strcmp(sheet_slug(arena, programme->athletes[i]->name.shown), slug) == 0;
    return alike > 1 ? arena_printf(arena, "%s-%d-%s", slug, alike, end) : arena_printf(arena, "%s-%s", slug, end);
}

const char *print_job_name(const struct printing *printing, const struct sheet_job *job)
{
    return sheet_file_name(printing->project->arena, printing->options, job->sheet, job->stem, 1);
}

struct listed_sheet *print_entry(const struct printing *printing, const struct sheet_job *job)
{
    return sheet_list_find(&printing->list, print_job_name(printing, job));
}

/* How SHEET was asked for, apart from what is on it. */
static const char *form_of(struct arena *arena, const struct options *options, const struct sheet *sheet)
{
    struct text out = {.arena = arena};
    if (sheet->scope == SCOPE_SESSION_EACH)
        return "";
    if (options->paper)
        text_addf(&out, "%s", options->paper);
    if (sheet->hangs && options->landscape)
        text_add(&out, " landscape");
    if (sheet->hangs && options->read_from > 0)
        text_addf(&out, " from %.0f cm", options->read_from);
    if (sheet->hangs && options->pages)
        text_addf(&out, " %d pages", options->pages);
    if (sheet_parts(options, sheet))
        text_addf(&out, " in %s", options->tile);
    return text_keep(arena, &out);
}

/* The athlete, if any, whose name limits what is on SHEET: otherwise others would be on it too. */
static const char *athlete_of(const struct options *options, const struct sheet *sheet)
{
    return sheet->scope == SCOPE_SESSION ? options->athlete : NULL;
}

static bool same_words(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool is_made(const struct printing *printing, const struct listed_sheet *entry, const struct sheet_job *job)
{
    const struct options *options = printing->options;
    struct arena *arena = printing->project->arena;
    return entry && !options->all_again && strcmp(entry->version, job->version) == 0 &&
           strcmp(entry->form, form_of(arena, options, job->sheet)) == 0 &&
           same_words(entry->athlete, athlete_of(options, job->sheet)) && listed_is_there(arena, entry, options->out);
}

/* Puts JOB into the list as about to be made. Its pages stay until it has been made; those it no longer has are
 * removed then. */
static void announce(struct printing *printing, size_t number, const struct sheet_job *job)
{
    const struct options *options = printing->options;
    struct listed_sheet *entry = sheet_list_put(&printing->list, print_job_name(printing, job));
    printing->before[number] = *entry->sheet ? entry->version : NULL;
    *entry = (struct listed_sheet){.name = entry->name, .sheet = job->sheet->name,
                                   .plan = printing->project->name, .version = "", .title = "",
                                   .pages = entry->pages, .athlete = athlete_of(options, job->sheet),
                                   .coach = options->coach, .private = options->private && job->sheet->own,
                                   .form = form_of(printing->project->arena, options, job->sheet)};
}

static void fail(struct printing *printing, const char *wrong)
{
    tell_error("%s: %s", printing->options->out, wrong);
    printing->failed = true;
}

size_t print_compare(struct printing *printing, struct sheet_jobs *jobs, size_t *todo)
{
    struct arena *arena = printing->project->arena;
    struct sheet_origin origin = sheet_jobs_origin(jobs);
    origin.memo = printing->memo;
    struct sheet_versions *versions = sheet_versions_new(&origin);
    size_t count = 0;
    const char *wrong = sheet_list_read(&printing->list, arena, printing->options->out);
    if (wrong) {
        fail(printing, wrong);
        return 0;
    }
    printing->before = arena_alloc(arena, (jobs->count + 1) * sizeof *printing->before);
    for (size_t i = 0; i < jobs->count; i++) {
        struct sheet_job *job = &jobs->items[i];
        job->version = sheet_version(versions, job->sheet, &job->group);
        if (!is_made(printing, print_entry(printing, job), job))
            todo[count++] = i;
    }
    printing->pages = arena_alloc(arena, (jobs->count + 1) * sizeof *printing->pages);
    for (size_t i = 0; i < count; i++) {
        announce(printing, todo[i], &jobs->items[todo[i]]);
        printing->pages[todo[i]] = print_entry(printing, &jobs->items[todo[i]])->pages;
    }
    if (count && (wrong = sheet_list_write(&printing->list, printing->options->out)) != NULL)
        fail(printing, wrong);
    return count;
}

/* --- what no longer holds --- */

/* Sheets that were printed and are out of date, in words. */
struct stale {
    struct project *project;
    const struct options *options;
    const struct sheet_list *list;
    struct text words; /* a line each */
    size_t count;
};

static void add_stale(struct stale *stale, const char *name, const char *version, const char *why)
{
    struct arena *arena = stale->project->arena;
    text_addf(&stale->words, "  %s", text_shown(arena, name));
    if (*version)
        text_addf(&stale->words, " (version %s)", text_shown(arena, version));
    text_addf(&stale->words, ": %s\n", why);
    stale->count++;
}

/* Sheets that were asked for in the same way: for whom, and whether they are the coach's. */
static bool is_alike(const struct listed_sheet *a, const struct listed_sheet *b)
{
    return same_words(a->athlete, b->athlete) && a->coach == b->coach && a->private == b->private;
}

/* All sheets of the plan that ENTRY and entries like it can stand for. */
static struct sheet_jobs jobs_like(const struct stale *stale, const struct listed_sheet *entry, struct options *options,
                                   const bool *barred)
{
    struct text kinds = {.arena = stale->project->arena};
    for (size_t s = 0; s < sheet_count; s++)
        text_addf(&kinds, "%s%s", s ? "," : "", sheets[s].name);
    *options = (struct options){.all = true, .athlete = entry->athlete, .coach = entry->coach, .private = entry->private,
                                .sheet = text_keep(stale->project->arena, &kinds)};
    struct sheet_jobs jobs = {.project = stale->project, .options = options, .barred = barred};
    sheet_jobs_find(&jobs);
    return jobs;
}

/* The name of ENTRY without the part that says how its file is made. */
static const char *stem_of(struct arena *arena, const struct listed_sheet *entry)
{
    static const char *const ends[] = {"-tiles.pdf", ".pdf", ".svg"};
    size_t length = strlen(entry->name);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        size_t end = strlen(ends[i]);
        if (length > end && strcmp(entry->name + length - end, ends[i]) == 0)
            return arena_copy(arena, entry->name, length - end);
    }
    return entry->name;
}

static struct sheet_job *find_job(const struct sheet_jobs *jobs, const char *stem)
{
    for (size_t i = 0; i < jobs->count; i++)
        if (strcmp(jobs->items[i].stem, stem) == 0)
            return &jobs->items[i];
    return NULL;
}

/* Compares all entries like the one at FIRST with the plan. Sets GONE for those that the plan no longer has. */
static void compare_alike(struct stale *stale, size_t first, const bool *barred, bool *gone)
{
    const struct sheet_list *list = stale->list;
    struct arena *arena = stale->project->arena;
    struct options options, free_options;
    const struct sheet_jobs jobs = jobs_like(stale, &list->items[first], &options, barred);
    const struct sheet_jobs all = jobs_like(stale, &list->items[first], &free_options, NULL);
    const struct sheet_origin origin = sheet_jobs_origin(&jobs);
    struct sheet_versions *versions = sheet_versions_new(&origin);
    for (size_t i = first; i < list->count; i++) {
        struct listed_sheet *entry = &list->items[i];
        if (entry->seen || !is_alike(&list->items[first], entry))
            continue;
        entry->seen = true;
        const char *stem = stem_of(arena, entry);
        const struct sheet_job *job = find_job(&jobs, stem);
        if (!find_job(&all, stem)) {
            gone[i] = true;
            add_stale(stale, entry->name, entry->version, "the plan no longer has it");
        } else if (!job) {
            add_stale(stale, entry->name, entry->version, "what the plan has in its place contains an error");
        } else if (strcmp(sheet_version(versions, job->sheet, &job->group), entry->version) != 0) {
            add_stale(stale, entry->name, entry->version, "the plan has changed since");
        }
    }
}

/* Sheets of another plan, and what is not a sheet of a group (calendars, pages for the phone), are left alone. */
static void pass_over_others(const struct stale *stale)
{
    for (size_t i = 0; i < stale->list->count; i++) {
        struct listed_sheet *entry = &stale->list->items[i];
        bool anothers = *entry->plan && strcmp(entry->plan, stale->project->name) != 0;
        entry->seen = entry->seen || anothers || !sheet_find(entry->sheet);
    }
}

/* Compares those entries of the list that were not compared yet. */
static bool *compare_others(struct stale *stale)
{
    const struct programme *programme = stale->project->programme;
    struct arena *arena = stale->project->arena;
    bool *gone = arena_alloc(arena, stale->list->count + 1), *barred = NULL;
    pass_over_others(stale);
    for (size_t i = 0; i < stale->list->count; i++) {
        if (stale->list->items[i].seen)
            continue;
        if (!barred) {
            struct wanted wanted = selection_wanted(stale->project, &(struct options){.all = true});
            wanted.unhelped = true;
            barred = arena_alloc(arena, programme->occasion_count + 1);
            rules_run_wanted(programme, &wanted, SEVERITY_ERROR, barred, diag_new(arena, programme->sources));
        }
        compare_alike(stale, i, barred, gone);
    }
    return gone;
}

static void tell_stale(struct stale *stale, FILE *out)
{
    if (stale->count)
        fprintf(out, "stale: %zu of these %s printed before and no longer %s\n%s", stale->count,
                stale->count == 1 ? "was" : "were", stale->count == 1 ? "holds" : "hold", text_get(&stale->words));
}

/* Removes what is GONE from the list and from the folder. */
static void remove_gone(struct printing *printing, const bool *gone)
{
    struct sheet_list *list = &printing->list;
    size_t kept = 0;
    for (size_t i = 0; i < list->count; i++) {
        if (gone[i])
            listed_remove(printing->project->arena, &list->items[i], 0, printing->options->out);
        else
            list->items[kept++] = list->items[i];
    }
    list->count = kept;
}

/* Which of JOBS were there before and were printed again. */
static void settle_jobs(struct printing *printing, const struct sheet_jobs *jobs, struct stale *stale)
{
    struct arena *arena = printing->project->arena;
    for (size_t i = 0; i < jobs->count; i++) {
        const struct sheet_job *job = &jobs->items[i];
        struct listed_sheet *entry = print_entry(printing, job);
        entry->seen = true;
        if (!*entry->version)
            continue;
        const char *before = printing->before[i];
        if (before && *before && strcmp(before, job->version) != 0)
            add_stale(stale, entry->name, before, arena_printf(arena, "printed again as version %s", job->version));
        if (printing->pages[i] > entry->pages) {
            struct listed_sheet old = *entry;
            old.pages = printing->pages[i];
            listed_remove(arena, &old, listed_files(entry), printing->options->out);
        }
    }
}

void print_settle(struct printing *printing, const struct sheet_jobs *jobs)
{
    struct stale stale = {.project = printing->project, .options = printing->options, .list = &printing->list,
                          .words = {.arena = printing->project->arena}};
    settle_jobs(printing, jobs, &stale);
    if (!printing->failed)
        remove_gone(printing, compare_others(&stale));
    tell_stale(&stale, stderr);
    const char *wrong = sheet_list_write(&printing->list, printing->options->out);
    if (wrong)
        fail(printing, wrong);
}

/* --- print --stale --- */

/* Says for each version asked about whether a sheet of the plan has it. False if one is not there. */
static bool tell_versions(struct project *project, const struct options *options)
{
    struct arena *arena = project->arena;
    struct options wish;
    struct stale stale = {.project = project, .options = options};
    bool all_hold = true;
    const struct sheet_jobs jobs = jobs_like(&stale, &(struct listed_sheet){.athlete = options->athlete,
                                                                             .coach = options->coach}, &wish, NULL);
    const struct sheet_origin origin = sheet_jobs_origin(&jobs);
    struct sheet_versions *versions = sheet_versions_new(&origin);
    for (size_t i = 0; i < jobs.count; i++)
        jobs.items[i].version = sheet_version(versions, jobs.items[i].sheet, &jobs.items[i].group);
    for (const char *at = options->versions; *at;) {
        size_t length = strcspn(at, ","), i = 0;
        const char *asked = text_shown(arena, arena_copy(arena, at, length));
        while (i < jobs.count && strcmp(jobs.items[i].version, asked) != 0)
            i++;
        if (i < jobs.count)
            printf("%s holds: %s\n", asked, jobs.items[i].stem);
        else
            printf("%s: take it down; no sheet of the plan is like it\n", asked);
        all_hold = all_hold && i < jobs.count;
        at += length + (at[length] == ',');
    }
    return all_hold;
}

int print_stale(struct project *project, const struct options *options)
{
    struct sheet_list list = {0};
    struct stale stale = {.project = project, .options = options, .list = &list, .words = {.arena = project->arena}};
    bool hold = !options->versions || tell_versions(project, options);
    const char *wrong = options->out ? sheet_list_read(&list, project->arena, options->out) : NULL;
    if (wrong || (options->out && !list.count)) {
        tell_error("%s: %s", options->out, wrong ? wrong : "nothing that `print` made is there");
        return EXIT_COULD_NOT;
    }
    compare_others(&stale);
    tell_stale(&stale, stdout);
    return hold && !stale.count ? EXIT_CLEAN : EXIT_PLAN;
}

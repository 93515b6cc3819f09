#include "cli/sheet_jobs.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "measure/person.h"
#include "measure/tests.h"
#include "model/programme.h"

/* --- names --- */

const char *sheet_slug(struct arena *arena, const char *name)
{
    enum { LONGEST = 60 };
    const char *folded = text_fold(arena, name, strlen(name));
    char *out = arena_alloc(arena, strlen(folded) + 1);
    size_t n = 0;
    for (const char *p = folded; *p; p++) {
        unsigned char c = (unsigned char)*p;
        bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
        bool inside = (c & 0xc0) == 0x80; /* no character is cut */
        if (n >= LONGEST && !inside)
            break;
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

/* Slugs that were made before, by the letters of the name: a club's sheets repeat the same few names. */
struct slugs {
    struct arena *arena;
    GHashTable *made;
    GHashTable *persons; /* of each athlete; told apart if names differ in signs alone, whoever is asked for */
    const struct occasion *named; /* whose session's name was made last: its sheets follow one another */
    const char *name;
};

static const char *slug_of(struct slugs *slugs, const struct name *name)
{
    const char *slug = g_hash_table_lookup(slugs->made, name->shown);
    if (!slug) {
        slug = sheet_slug(slugs->arena, name->shown);
        g_hash_table_insert(slugs->made, (gpointer)name->shown, (gpointer)slug);
    }
    return slug;
}

static struct slugs slugs_open(struct arena *arena, const struct programme *programme)
{
    struct slugs slugs = {.arena = arena, .made = g_hash_table_new(g_direct_hash, g_direct_equal),
                          .persons = g_hash_table_new(g_direct_hash, g_direct_equal)};
    GHashTable *alike = g_hash_table_new(g_str_hash, g_str_equal); /* how many have a slug */
    for (size_t i = 0; i < programme->athlete_count; i++) {
        const struct athlete *athlete = programme->athletes[i];
        const char *slug = slug_of(&slugs, &athlete->name);
        int *count = g_hash_table_lookup(alike, slug);
        if (!count) {
            count = arena_alloc(arena, sizeof *count);
            g_hash_table_insert(alike, (gpointer)slug, count);
        }
        ++*count;
        g_hash_table_insert(slugs.persons, (gpointer)athlete,
                            (gpointer)(*count > 1 ? arena_printf(arena, "%s-%d", slug, *count) : slug));
    }
    g_hash_table_destroy(alike);
    return slugs;
}

static void slugs_close(struct slugs *slugs)
{
    g_hash_table_destroy(slugs->made);
    g_hash_table_destroy(slugs->persons);
}

static const char *session_name(struct slugs *slugs, const struct occasion *occasion)
{
    const struct occasion *named = slugs->named;
    if (named && named->session == occasion->session && named->date == occasion->date && named->clock == occasion->clock)
        return slugs->name;
    char day[DATE_TEXT_SIZE];
    struct text name = {.arena = slugs->arena};
    text_add(&name, date_format(occasion->date, day));
    if (occasion->clock >= 0)
        text_addf(&name, "-%02d%02d", occasion->clock / 3600 % 24, occasion->clock / 60 % 60);
    text_add_char(&name, '-');
    text_add(&name, slug_of(slugs, &occasion->session->name));
    slugs->named = occasion;
    return slugs->name = text_keep(slugs->arena, &name);
}

/* A-B. */
static const char *hyphened(struct arena *arena, const char *a, const char *b)
{
    struct text both = {.arena = arena};
    text_add(&both, a);
    text_add_char(&both, '-');
    text_add(&both, b);
    return text_keep(arena, &both);
}

static const char *usual_stem(struct slugs *slugs, const struct sheet *sheet, const struct occasion_group *group)
{
    struct arena *arena = slugs->arena;
    const struct occasion *occasion = group->occasions[0];
    const char *athlete = g_hash_table_lookup(slugs->persons, occasion->athlete);
    const char *camp = slug_of(slugs, &occasion->camp->name);
    int year, week;
    switch (sheet->scope) {
    case SCOPE_SESSION:
        if (group->of_athlete && date_iso_week(occasion->date, &year, &week))
            return arena_printf(arena, "%04d-w%02d-%s-%s", year, week, athlete, sheet->name);
        return hyphened(arena, session_name(slugs, occasion), sheet->name);
    case SCOPE_SESSION_EACH:
        return hyphened(arena, hyphened(arena, session_name(slugs, occasion), athlete), sheet->name);
    case SCOPE_WEEK_EACH:
        for (size_t i = 1; i < group->count; i++)
            if (sheet_begins_camp(group, i) && date_iso_week(occasion->date, &year, &week))
                return arena_printf(arena, "%04d-w%02d-%s-%s", year, week, athlete, sheet->name);
        return arena_printf(arena, "%s-week-%02d-%s-%s", camp, occasion->week, athlete, sheet->name);
    case SCOPE_WEEK:
        if (date_iso_week(occasion->date, &year, &week))
            return arena_printf(arena, "%04d-w%02d-%s", year, week, sheet->name);
        break;
    case SCOPE_CAMP:
        return arena_printf(arena, "%s-%s", camp, sheet->name);
    case SCOPE_SEASON_EACH:
        return arena_printf(arena, "%s-%s-%s", slug_of(slugs, &group->season->name), athlete, sheet->name);
    case SCOPE_SEASON:
        return arena_printf(arena, "%s-%s", slug_of(slugs, &group->season->name), sheet->name);
    case SCOPE_CAMP_EACH:
        break;
    }
    return arena_printf(arena, "%s-%s-%s", camp, athlete, sheet->name);
}

const struct paper *sheet_parts(const struct options *options, const struct sheet *sheet)
{
    const char *paper = options->tile;
    return paper && sheet->hangs ? paper_find(paper) : NULL;
}

const char *sheet_file_name(struct arena *arena, const struct options *options, const struct sheet *sheet, const char *stem,
                            int page)
{
    if (sheet->scope != SCOPE_SESSION_EACH)
        return arena_printf(arena, "%s%s.pdf", stem, sheet_parts(options, sheet) ? "-tiles" : "");
    return page == 1 ? arena_printf(arena, "%s.svg", stem) : arena_printf(arena, "%s-%d.svg", stem, page);
}

/* --- which --- */

/* No page, and not among the sheets that are laid out. */
static const char CALENDAR[] = "calendar";

bool sheet_jobs_known(const char *list)
{
    char name[32];
    const char *at = list;
    do {
        size_t length = strcspn(at, ",");
        snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : sizeof name - 1), at);
        if (!sheet_find(name) && strcmp(name, CALENDAR) != 0 && strcmp(name, "phone") != 0) {
            struct text known = {0};
            for (size_t i = 0; i < sheet_count; i++)
                text_addf(&known, "%s %s", i ? "," : "", sheets[i].name);
            text_addf(&known, ", phone, %s", CALENDAR);
            tell_error("there is no sheet `%s`:%s", name, text_get(&known));
            text_free(&known);
            return false;
        }
        at += length + (at[length] == ',');
    } while (*at);
    return true;
}

struct job_search {
    struct sheet_jobs *jobs;
    GHashTable *stems; /* the names that are taken */
    struct slugs *slugs;
    bool *wanted; /* for each sheet */
};

struct sheet_origin sheet_jobs_origin(const struct sheet_jobs *jobs)
{
    const struct options *options = jobs->options;
    return (struct sheet_origin){.programme = jobs->project->programme,
                                 .arena = jobs->project->arena,
                                 .paper = options->paper ? paper_find(options->paper) : NULL,
                                 .landscape = options->landscape,
                                 .read_from = options->read_from,
                                 .pages = options->pages,
                                 .coach = options->coach,
                                 .private = options->private};
}

/* The sheet's usual name or, if another sheet has it (two camps, one session, one hour), that name with the camp's. */
static const char *unused_stem(const struct job_search *search, const struct sheet *sheet, const struct occasion_group *group)
{
    struct arena *arena = search->jobs->project->arena;
    const struct occasion *occasion = group->occasions[0];
    const char *stem = usual_stem(search->slugs, sheet, group), *fresh = stem;
    if (sheet->own && search->jobs->options->private)
        stem = fresh = arena_printf(arena, "%s-private", stem);
    if (g_hash_table_contains(search->stems, fresh))
        stem = fresh = arena_printf(arena, "%s-%s", stem, slug_of(search->slugs, &occasion->camp->name));
    for (int i = 2; g_hash_table_contains(search->stems, fresh); i++)
        fresh = arena_printf(arena, "%s-%d", stem, i);
    g_hash_table_add(search->stems, (gpointer)fresh);
    return fresh;
}

static void add_job(const struct job_search *search, const struct sheet *sheet, struct occasion_group group)
{
    struct sheet_jobs *jobs = search->jobs;
    jobs->items = arena_grow(jobs->project->arena, jobs->items, jobs->count, &jobs->capacity, sizeof *jobs->items);
    jobs->items[jobs->count++] = (struct sheet_job){.sheet = sheet, .group = group,
                                                    .stem = unused_stem(search, sheet, &group)};
}

/* If none is asked for, what is used on the day: the wall and the cards. */
bool sheet_jobs_want(const struct options *options, const char *name)
{
    const char *list = options->sheet ? options->sheet : "wall,card";
    size_t length = strlen(name);
    for (const char *at = list; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL)
        if (strncmp(at, name, length) == 0 && (at[length] == ',' || at[length] == '\0'))
            return true;
    return false;
}

static bool wants(const struct options *options, const struct sheet *sheet)
{
    return sheet_jobs_want(options, sheet->name);
}

static void add_group(const struct job_search *search, const struct sheet *sheet, const struct occasion_group *group)
{
    const struct sheet_origin origin = sheet_jobs_origin(search->jobs);
    struct occasion_group shown = sheet_held_last(&origin, sheet, group);
    if (shown.count)
        add_job(search, sheet, shown);
}

/* Do the sessions of a week share SHEET, because one athlete is asked for? */
static bool gathers(const struct sheet_jobs *jobs, const struct sheet *sheet)
{
    return sheet->gathers && jobs->options->athlete;
}

/* One SHEET for the sessions of each week in GROUPS, which are one athlete's; a session alone has its own. */
static void add_gathered(const struct job_search *search, const struct sheet *sheet, const struct occasion_groups *groups)
{
    struct arena *arena = search->jobs->project->arena;
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
            add_group(search, sheet, &week);
    }
}

static void add_session(const struct job_search *search, const struct occasion_group *group)
{
    for (size_t s = 0; s < sheet_count; s++) {
        const struct sheet *sheet = &sheets[s];
        if (!search->wanted[s])
            continue;
        if (sheet->scope == SCOPE_SESSION && !gathers(search->jobs, sheet))
            add_group(search, sheet, group);
        for (size_t i = 0; i < group->count && sheet->scope == SCOPE_SESSION_EACH; i++)
            add_job(search, sheet, (struct occasion_group){.occasions = &group->occasions[i], .count = 1});
    }
}

static bool is_barred(const struct sheet_jobs *jobs, const struct occasion *occasion)
{
    return jobs->barred && jobs->barred[occasion - jobs->project->programme->occasions];
}

/* Removes from GROUP what is barred; returns how many are left. */
static size_t without_barred(const struct sheet_jobs *jobs, struct occasion_group *group)
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
    if (sheet->scope == SCOPE_WEEK || sheet->scope == SCOPE_CAMP)
        return groups_of_everybody(project, options, sheet->scope == SCOPE_WEEK);
    return groups_of_athletes(project, options, sheet->scope == SCOPE_WEEK_EACH);
}

static bool any_bout(const struct occasion_group *group)
{
    for (size_t i = 0; i < group->count; i++)
        if (occasion_bout(group->occasions[i]))
            return true;
    return false;
}

/* Whether SHEET is for the athlete of GROUP: pages for the day of a bout are for who has one, those for parents for the young, those of tests for who was tested. */
static bool is_for(const struct sheet_jobs *jobs, const struct sheet *sheet, const struct occasion_group *group)
{
    enum { GROWN = 18 };
    const struct occasion *first = group->count ? group->occasions[0] : NULL;
    if (sheet->of_bout)
        return any_bout(group);
    if (sheet->young)
        return first && athlete_under(first->athlete, first->date, GROWN);
    return !sheet->measured || (first && tests_shown(jobs->project->arena, jobs->project->programme, first->athlete,
                                                     first->camp->last, jobs->options->private));
}

/* Sheets of a week, a camp or a season, for each athlete for whom something was asked. */
static void add_each(const struct job_search *search, const struct sheet *sheet)
{
    const struct sheet_jobs *jobs = search->jobs;
    struct occasion_groups groups = groups_for(jobs->project, jobs->options, sheet);
    for (size_t i = 0; i < groups.count; i++) {
        size_t all = groups.items[i].count;
        bool whole = sheet->reports || without_barred(jobs, &groups.items[i]) == all;
        if (whole && is_for(jobs, sheet, &groups.items[i]))
            add_job(search, sheet, groups.items[i]);
    }
}

/* A calendar has everything planned for an athlete, if anything was asked for that athlete. */
static void want_calendars(const struct programme *programme, bool *occasions)
{
    for (size_t a = 0; a < programme->athlete_count; a++) {
        bool asked = false;
        for (size_t i = 0; i < programme->occasion_count && !asked; i++)
            asked = programme->occasions[i].athlete == programme->athletes[a] && occasions[i];
        for (size_t i = 0; i < programme->occasion_count && asked; i++)
            if (programme->occasions[i].athlete == programme->athletes[a])
                occasions[i] = true;
    }
}

/* Is everything that was asked for without prescribed work? */
static bool only_reports(const struct options *options)
{
    bool reports = options->sheet && !sheet_jobs_want(options, CALENDAR) && !sheet_jobs_want(options, "phone");
    for (size_t s = 0; s < sheet_count && reports; s++)
        reports = sheets[s].reports || !wants(options, &sheets[s]);
    return reports;
}

struct wanted sheet_jobs_wanted(struct project *project, const struct options *options)
{
    const struct programme *programme = project->programme;
    struct wanted wanted = selection_wanted(project, options);
    if (only_reports(options))
        memset(wanted.occasions, false, programme->occasion_count), memset(wanted.left_out, false, programme->left_out_count);
    for (size_t s = 0; s < sheet_count; s++) {
        if (!wants(options, &sheets[s]) || !sheet_is_for_each(&sheets[s]) || sheets[s].reports)
            continue;
        struct occasion_groups groups = groups_for(project, options, &sheets[s]);
        for (size_t i = 0; i < groups.count; i++)
            for (size_t k = 0; k < groups.items[i].count; k++)
                wanted.occasions[groups.items[i].occasions[k] - programme->occasions] = true;
    }
    if (sheet_jobs_want(options, CALENDAR))
        want_calendars(programme, wanted.occasions);
    return wanted;
}

const char *sheet_jobs_missing(struct project *project, const struct options *options)
{
    const struct wanted wanted = selection_wanted(project, options);
    const char *missing = NULL;
    bool planned = false, more = sheet_jobs_want(options, CALENDAR) || sheet_jobs_want(options, "phone");
    for (size_t i = 0; i < project->programme->occasion_count && !planned; i++)
        planned = wanted.occasions[i];
    for (size_t s = 0; s < sheet_count; s++) {
        if (!wants(options, &sheets[s]))
            continue;
        more = more || !sheets[s].missing;
        missing = missing ? missing : sheets[s].missing;
    }
    return planned && missing && !more ? missing : "no session is planned then";
}

void sheet_jobs_find(struct sheet_jobs *jobs)
{
    struct occasion_groups groups = groups_find(jobs->project, jobs->options);
    struct slugs slugs = slugs_open(jobs->project->arena, jobs->project->programme);
    struct job_search search = {jobs, g_hash_table_new(g_str_hash, g_str_equal), &slugs,
                                arena_alloc(slugs.arena, sheet_count)};
    for (size_t s = 0; s < sheet_count; s++)
        search.wanted[s] = wants(jobs->options, &sheets[s]);
    for (size_t i = 0; i < groups.count; i++)
        if (without_barred(jobs, &groups.items[i]))
            add_session(&search, &groups.items[i]);
    for (size_t s = 0; s < sheet_count; s++)
        if (search.wanted[s] && gathers(jobs, &sheets[s]))
            add_gathered(&search, &sheets[s], &groups);
    for (size_t s = 0; s < sheet_count; s++)
        if (search.wanted[s] && sheet_is_for_each(&sheets[s]))
            add_each(&search, &sheets[s]);
    g_hash_table_destroy(search.stems);
    slugs_close(&slugs);
}

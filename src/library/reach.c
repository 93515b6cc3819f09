#include "library/reach.h"
#include "model/programme.h"

#include <string.h>

#include "plan/kept.h"
#include "resolve/resolve.h"
#include "rules/rules.h"

/* --- what is kept --- */

static void free_pending(struct reach *reach)
{
    for (struct athlete_kept *one = reach->pending, *next; one; one = next) {
        next = one->next;
        arena_free(one->arena);
    }
    reach->pending = NULL;
    arena_free(reach->next);
    reach->next = NULL;
}

static struct athlete_kept *kept_new(struct reach *reach)
{
    struct arena *arena = arena_open(reach->memory);
    struct athlete_kept *one = arena_alloc(arena, sizeof *one);
    *one = (struct athlete_kept){.arena = arena, .next = reach->pending};
    reach->pending = one;
    return one;
}

/* --- parts of files --- */

/* The parts of all files as they are now. */
static struct parts *list_parts(const struct reach *reach, const struct project *project)
{
    struct parts *files = arena_alloc(project->arena, (project->kept_count + 1) * sizeof *files);
    for (size_t i = 0; i < project->kept_count; i++) {
        const struct kept_file *file = project->kept[i];
        bool same = reach->arena && i < reach->file_count && reach->files[i].content == file->content;
        files[i] = same ? reach->files[i] : parts_read(project->arena, file);
    }
    return files;
}

static void number_parts(struct partial *partial, const struct project *project, const struct parts *files)
{
    struct file_parts *numbered = arena_alloc(project->arena, (project->kept_count + 1) * sizeof *numbered);
    for (size_t i = 0; i < project->kept_count; i++) {
        numbered[i] = (struct file_parts){files[i].starts, files[i].count, partial->part_count};
        partial->part_count += files[i].count;
    }
    partial->parts = numbered;
}

/* How the files have changed since the base; NULL if more may have to be looked at again than the athletes who
 * depend on that. */
static struct parts_change *compare_files(const struct reach *reach, const struct project *project, const struct parts *files)
{
    if (!reach->arena || project->kept_count != reach->file_count)
        return NULL;
    struct parts_change *changes = arena_alloc(project->arena, (reach->file_count + 1) * sizeof *changes);
    for (size_t i = 0; i < reach->file_count; i++) {
        changes[i] = (struct parts_change){.head = reach->files[i].count};
        if (files[i].content != reach->files[i].content && !parts_compare(&reach->files[i], &files[i], &changes[i]))
            return NULL;
    }
    return changes;
}

/* Which parts of FILES differ from the base, by number. */
static bool *changed_parts(const struct reach *reach, const struct project *project, const struct parts *files,
                           const struct partial *partial, const struct parts_change *changes)
{
    bool *changed = arena_alloc(project->arena, partial->part_count + 1);
    for (size_t i = 0; i < reach->file_count; i++) {
        const struct parts_change *change = &changes[i];
        bool *here = changed + partial->parts[i].first;
        for (size_t k = 0, before; k < files[i].count && files[i].content != reach->files[i].content; k++)
            here[k] = !parts_before(change, k, &before) || reach->files[i].marks[before].words != files[i].marks[k].words;
    }
    return changed;
}

/* Where the things that the base keeps are in FILES. */
static struct shift shift_since(const struct reach *reach, const struct project *project, const struct parts *files,
                                const struct parts_change *changes)
{
    struct file_shift *shifts = arena_alloc(project->arena, (reach->file_count + 1) * sizeof *shifts);
    bool any = false;
    for (size_t i = 0; i < reach->file_count; i++) {
        if (reach->files[i].content == files[i].content)
            continue;
        shifts[i] = parts_shift(project->arena, &reach->files[i], &files[i], &changes[i]);
        any = true;
    }
    return (struct shift){shifts, any ? reach->file_count : 0};
}

/* --- working out --- */

/* SETTLED with its parts renumbered, now that some have come and gone; NULL if it depends on one that has gone. */
static const struct settled *renumbered(const struct reach *reach, struct arena *arena, const struct settled *settled,
                                        const struct partial *partial, const struct parts_change *changes)
{
    struct settled *now = arena_alloc(arena, sizeof *now);
    *now = *settled;
    now->parts = arena_alloc(arena, partial->part_count + 1);
    const bool *from = settled->parts;
    for (size_t i = 0; i < reach->file_count; i++) {
        const struct parts_change *change = &changes[i];
        size_t behind = change->head + change->gone;
        bool *to = now->parts + partial->parts[i].first;
        if (memchr(from + change->head, 1, change->gone))
            return NULL;
        memcpy(to, from, change->head);
        memcpy(to + change->head + change->come, from + behind, reach->files[i].count - behind);
        from += reach->files[i].count;
    }
    return now;
}

/* What is kept of each athlete; NULL: nothing that can be used. */
static const struct settled *const *settled_before(const struct reach *reach, struct arena *arena,
                                                   const struct partial *partial, const struct parts_change *changes)
{
    const struct settled **before = arena_alloc(arena, (reach->athlete_count + 1) * sizeof *before);
    for (size_t a = 0; a < reach->athlete_count; a++)
        if (reach->athletes[a])
            before[a] = renumbered(reach, arena, reach->athletes[a]->settled, partial, changes);
    return before;
}

static struct programme *resolve(struct project *project, int today, struct partial *partial)
{
    return programme_resolve_partial(project->arena, &project->sources, project->trees, project->tree_count, today,
                                     project->diag, partial);
}

/* A copy of READ, the findings from reading the files, to start from again. */
static struct diag *diag_of_files(const struct project *project, const struct diag *read)
{
    struct diag *diag = diag_new(project->arena, &project->sources);
    diag_add_kept(diag, read);
    return diag;
}

static void work_out(struct reach *reach, struct project *project, const struct parts *files, int today,
                     struct partial *partial)
{
    struct diag *read = diag_of_files(project, project->diag);
    number_parts(partial, project, files);
    const struct partial fresh = *partial;
    const struct parts_change *changes = compare_files(reach, project, files);
    if (changes) {
        partial->changed = changed_parts(reach, project, files, partial, changes);
        partial->before = settled_before(reach, project->arena, partial, changes);
        partial->shift = shift_since(reach, project, files, changes);
        partial->first_day_before = reach->first_day;
        partial->placed_before = reach->placed;
    }
    project->programme = resolve(project, today, partial);
    if (partial->changed && (partial->failed || partial->loose)) {
        project->diag = read;
        *partial = fresh;
        project->programme = resolve(project, today, partial);
    }
}

/* --- checking --- */

struct checking {
    struct reach *reach;
    struct athlete_kept **made; /* by athlete */
};

static struct arena *arena_for(void *with, size_t number)
{
    struct checking *checking = with;
    checking->made[number] = kept_new(checking->reach);
    return checking->made[number]->arena;
}

static bool is_unclear(const struct project *project, size_t athlete)
{
    return project->programme->unclear && project->programme->unclear[athlete];
}

static void check(struct reach *reach, struct project *project, const struct partial *partial,
                  struct athlete_kept **made)
{
    struct arena *arena = project->arena;
    size_t athletes = project->programme->athlete_count;
    bool *wanted = arena_alloc(arena, athletes + 1);
    const struct recall **before = arena_alloc(arena, (athletes + 1) * sizeof *before);
    struct recall **after = arena_alloc(arena, (athletes + 1) * sizeof *after);
    for (size_t a = 0; a < athletes; a++) {
        bool unclear = is_unclear(project, a);
        wanted[a] = partial->reached[a] && !unclear;
        before[a] = partial->reached[a] || unclear ? NULL : reach->athletes[a]->recall;
    }
    struct checking checking = {reach, made};
    const struct recalls recalls = {.wanted = wanted, .before = before, .after = after, .shift = partial->shift,
                                    .arena_for = arena_for, .with = &checking};
    rules_run_recalling(project->programme, &recalls, project->diag);
    for (size_t a = 0; a < athletes; a++)
        if (made[a])
            made[a]->recall = after[a];
}

/* --- the base --- */

/* Is what was just compiled the better base: does it keep more of the athletes than are lost with the old one, since they
 * are in doubt now? */
static bool is_better_base(const struct reach *reach, const struct project *project, struct athlete_kept *const *made)
{
    size_t gained = 0, lost = 0;
    for (size_t a = 0; a < project->programme->athlete_count; a++) {
        gained += made[a] != NULL;
        lost += is_unclear(project, a) && a < reach->athlete_count && reach->athletes[a];
    }
    return !project->programme->incomplete || gained > lost;
}

/* Makes what was just compiled the base. MADE are the athletes who were reached; nothing is kept of those in doubt. */
static void become_base(struct reach *reach, const struct project *project, const struct parts *now,
                        const struct partial *partial, struct athlete_kept **made)
{
    size_t athletes = project->programme->athlete_count;
    struct arena *arena = reach->next = arena_open(reach->memory);
    struct parts *files = arena_alloc(arena, (project->kept_count + 1) * sizeof *files);
    struct athlete_kept **kept = arena_alloc(arena, (athletes + 1) * sizeof(struct athlete_kept *));
    bool **parts = arena_alloc(arena, (athletes + 1) * sizeof *parts); /* whose numbers may have changed */
    for (size_t i = 0; i < project->kept_count; i++)
        files[i] = parts_keep(arena, &now[i]);
    for (size_t a = 0; a < athletes; a++) {
        kept[a] = made[a] ? made[a] : is_unclear(project, a) ? NULL : reach->athletes[a];
        if (made[a])
            made[a]->settled = settled_keep(made[a]->arena, &partial->settled[a]);
        parts[a] = arena_alloc(arena, partial->part_count + 1);
        memcpy(parts[a], partial->settled[a].parts, partial->part_count);
    }
    /* Nothing is allocated from here on, so either all of it becomes the base, or nothing does. */
    for (size_t a = 0; a < reach->athlete_count; a++)
        if (reach->athletes[a] && (a >= athletes || reach->athletes[a] != kept[a]))
            arena_free(reach->athletes[a]->arena);
    for (size_t a = 0; a < athletes; a++) {
        if (kept[a])
            kept[a]->settled->parts = parts[a];
        if (made[a] || !kept[a])
            continue;
        settled_move(&partial->shift, kept[a]->settled);
        recall_move(&partial->shift, kept[a]->recall);
    }
    arena_free(reach->arena);
    *reach = (struct reach){.memory = reach->memory, .arena = arena, .files = files,
                            .file_count = project->kept_count, .athletes = kept, .athlete_count = athletes,
                            .first_day = partial->first_day, .placed = partial->placed};
}

void reach_compile(struct reach *reach, struct project *project, int today, bool *whole)
{
    enum { MOST_MEGABYTES = 256 }; /* far below the limit on a plan, to which what is left out does not count */
    struct partial partial = {0};
    free_pending(reach);
    const struct parts *files = list_parts(reach, project);
    work_out(reach, project, files, today, &partial);
    size_t athletes = project->programme->athlete_count;
    *whole = true;
    for (size_t a = 0; a < athletes; a++)
        *whole = *whole && partial.wanted[a];
    struct athlete_kept **made = arena_alloc(project->arena, (athletes + 1) * sizeof(struct athlete_kept *));
    check(reach, project, &partial, made);
    diag_sort(project->diag);
    if (!partial.loose && arena_used(project->arena) >> 20 < MOST_MEGABYTES && is_better_base(reach, project, made))
        become_base(reach, project, files, &partial, made);
}

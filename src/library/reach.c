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

/* --- files --- */

/* The kinds whose changes reach no further than the athletes who depend on their file. */
static bool is_local(enum node_kind kind)
{
    return kind == STATEMENT_ATHLETE || kind == STATEMENT_PRIVATE || kind == STATEMENT_LOG ||
           kind == STATEMENT_SESSION || kind == STATEMENT_CAMP;
}

/* What the file declares, kind by kind and name by name; NULL if it contains something else. Two files of one shape
 * mean the same to whoever only names what is in them. */
static const char *shape_of(struct arena *arena, const struct tree *tree)
{
    struct text shape = {.arena = arena};
    for (const struct node *node = tree->root->first; node; node = node->next) {
        if (!is_local(node->kind))
            return NULL;
        const struct node *name = node->kind == STATEMENT_LOG ? NULL : node_find(node, NODE_NAME);
        text_addf(&shape, "%d %s\n", (int)node->kind, name ? name->text : "");
    }
    return text_keep(arena, &shape);
}

/* Which files differ from the base, by number; NULL if more than these may have to be looked at again. */
static bool *changed_files(const struct reach *reach, const struct project *project)
{
    if (!reach->arena || project->kept_count != reach->file_count)
        return NULL;
    bool *changed = arena_alloc(project->arena, reach->file_count + 1);
    for (size_t i = 0; i < reach->file_count; i++) {
        const struct file_kept *before = &reach->files[i];
        if (project->kept[i]->content == before->content)
            continue;
        const char *shape = before->shape ? shape_of(project->arena, project->trees[i]) : NULL;
        if (!shape || strcmp(shape, before->shape) != 0)
            return NULL;
        changed[i] = true;
    }
    return changed;
}

/* --- working out --- */

static const struct settled *const *settled_before(const struct reach *reach, struct arena *arena)
{
    const struct settled **before = arena_alloc(arena, (reach->athlete_count + 1) * sizeof *before);
    for (size_t a = 0; a < reach->athlete_count; a++)
        before[a] = reach->athletes[a]->settled;
    return before;
}

static struct programme *resolve(struct project *project, int today, struct partial *partial)
{
    return programme_resolve_partial(project->arena, &project->sources, project->trees, project->tree_count, today,
                                     project->diag, partial);
}

/* A copy of READ, what was found while the files were read: to start from again. */
static struct diag *diag_of_files(const struct project *project, const struct diag *read)
{
    struct diag *diag = diag_new(project->arena, &project->sources);
    diag_add_kept(diag, read);
    return diag;
}

static void work_out(const struct reach *reach, struct project *project, int today, struct partial *partial)
{
    struct diag *read = diag_of_files(project, project->diag);
    const bool *changed = changed_files(reach, project);
    if (changed)
        *partial = (struct partial){.changed = changed, .before = settled_before(reach, project->arena),
                                    .first_day_before = reach->first_day, .placed_before = reach->placed};
    project->programme = resolve(project, today, partial);
    if (changed && (partial->failed || partial->loose)) {
        project->diag = read;
        *partial = (struct partial){0};
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

static void check(struct reach *reach, struct project *project, const struct partial *partial,
                  struct athlete_kept **made)
{
    struct arena *arena = project->arena;
    size_t athletes = project->programme->athlete_count;
    const struct recall **before = arena_alloc(arena, (athletes + 1) * sizeof *before);
    struct recall **after = arena_alloc(arena, (athletes + 1) * sizeof *after);
    for (size_t a = 0; a < athletes; a++)
        before[a] = partial->reached[a] ? NULL : reach->athletes[a]->recall;
    struct checking checking = {reach, made};
    const struct recalls recalls = {.wanted = partial->reached, .before = before, .after = after,
                                    .arena_for = arena_for, .with = &checking};
    rules_run_recalling(project->programme, &recalls, project->diag);
    for (size_t a = 0; a < athletes; a++)
        if (made[a])
            made[a]->recall = after[a];
}

/* --- the base --- */

static void keep_files(struct reach *reach, const struct project *project, struct file_kept *files)
{
    for (size_t i = 0; i < project->kept_count; i++) {
        bool same = reach->arena && i < reach->file_count && reach->files[i].content == project->kept[i]->content;
        const char *shape = same ? reach->files[i].shape : shape_of(project->arena, project->trees[i]);
        files[i] = (struct file_kept){project->kept[i]->content,
                                      shape ? arena_copy(reach->next, shape, strlen(shape)) : NULL};
    }
}

/* What was just compiled is the base from now on. MADE are the athletes who were reached. */
static void become_base(struct reach *reach, const struct project *project, const struct partial *partial,
                        struct athlete_kept **made)
{
    size_t athletes = project->programme->athlete_count;
    struct arena *arena = reach->next = arena_open(reach->memory);
    struct file_kept *files = arena_alloc(arena, (project->kept_count + 1) * sizeof *files);
    struct athlete_kept **kept = arena_alloc(arena, (athletes + 1) * sizeof(struct athlete_kept *));
    keep_files(reach, project, files);
    for (size_t a = 0; a < athletes; a++) {
        kept[a] = made[a] ? made[a] : reach->athletes[a];
        if (made[a])
            made[a]->settled = settled_keep(made[a]->arena, &partial->settled[a], project->sources.count);
    }
    /* Nothing is allocated from here on: either all of it becomes the base, or nothing. */
    for (size_t a = 0; a < reach->athlete_count; a++)
        if (a >= athletes || made[a])
            arena_free(reach->athletes[a]->arena);
    arena_free(reach->arena);
    *reach = (struct reach){.memory = reach->memory, .arena = arena, .files = files,
                            .file_count = project->kept_count, .athletes = kept, .athlete_count = athletes,
                            .first_day = partial->first_day, .placed = partial->placed};
}

void reach_compile(struct reach *reach, struct project *project, int today, bool *whole)
{
    enum { MOST_MEGABYTES = 256 }; /* far below what a plan may take, which what is left out does not count for */
    struct partial partial = {0};
    free_pending(reach);
    work_out(reach, project, today, &partial);
    size_t athletes = project->programme->athlete_count;
    *whole = true;
    for (size_t a = 0; a < athletes; a++)
        *whole = *whole && partial.wanted[a];
    if (project->programme->incomplete) {
        diag_sort(project->diag);
        return;
    }
    struct athlete_kept **made = arena_alloc(project->arena, (athletes + 1) * sizeof(struct athlete_kept *));
    check(reach, project, &partial, made);
    diag_sort(project->diag);
    if (!partial.loose && arena_used(project->arena) >> 20 < MOST_MEGABYTES)
        become_base(reach, project, &partial, made);
}

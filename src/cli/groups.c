#include "cli/groups.h"

#include "cli/selection.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "model/programme.h"

static bool together(const struct occasion *a, const struct occasion *b)
{
    return a->session == b->session && a->date == b->date && a->clock == b->clock && a->camp == b->camp;
}

static struct occasion_group *add_group(struct arena *arena, struct occasion_groups *groups)
{
    groups->items = arena_grow(arena, groups->items, groups->count, &groups->capacity,
                               sizeof *groups->items);
    struct occasion_group *group = &groups->items[groups->count++];
    *group = (struct occasion_group){0};
    return group;
}

static void add_occasion(struct arena *arena, struct occasion_group *group,
                         const struct occasion *occasion)
{
    group->occasions = arena_grow(arena, group->occasions, group->count, &group->capacity,
                                  sizeof *group->occasions);
    group->occasions[group->count++] = occasion;
}

struct occasion_groups groups_find(struct project *project, const struct options *options)
{
    struct arena *arena = project->arena;
    const struct programme *programme = project->programme;
    struct occasion_groups groups = {0};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (!occasion->session || !selection_holds(arena, options, occasion))
            continue;
        struct occasion_group *group = NULL;
        /* Occasions are sorted by day, so the group is among the last. */
        for (size_t k = groups.count; k > 0 && !group; k--) {
            struct occasion_group *other = &groups.items[k - 1];
            if (other->occasions[0]->date != occasion->date)
                break;
            if (together(other->occasions[0], occasion))
                group = other;
        }
        if (!group)
            group = add_group(arena, &groups);
        add_occasion(arena, group, occasion);
    }
    return groups;
}

/* A week is an athlete's, whatever camps it is made of. */
static bool belongs(const struct occasion_group *group, const struct occasion *occasion, bool weekly)
{
    const struct occasion *first = group->occasions[0];
    return first->athlete == occasion->athlete &&
           (weekly ? date_monday(first->date) == date_monday(occasion->date) : first->camp == occasion->camp);
}

static bool any_belongs(const struct occasion_groups *groups, const struct occasion *occasion,
                        bool weekly)
{
    for (size_t i = 0; i < groups->count; i++)
        if (belongs(&groups->items[i], occasion, weekly))
            return true;
    return false;
}

struct occasion_groups groups_of_athletes(struct project *project, const struct options *options,
                                          bool weekly)
{
    struct arena *arena = project->arena;
    const struct programme *programme = project->programme;
    struct occasion_groups groups = {0};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (!selection_holds(arena, options, occasion) || any_belongs(&groups, occasion, weekly))
            continue;
        struct occasion_group *group = add_group(arena, &groups);
        add_occasion(arena, group, occasion);
        group->count = 0; /* asked for, but not the first of its week */
        for (size_t k = 0; k < programme->occasion_count; k++)
            if (belongs(&(struct occasion_group){.occasions = &occasion},
                        &programme->occasions[k], weekly))
                add_occasion(arena, group, &programme->occasions[k]);
    }
    return groups;
}

static bool is_shared(const struct occasion *a, const struct occasion *b, bool weekly)
{
    return weekly ? date_monday(a->date) == date_monday(b->date) : a->camp == b->camp;
}

struct occasion_groups groups_of_everybody(struct project *project, const struct options *options, bool weekly)
{
    struct arena *arena = project->arena;
    const struct programme *programme = project->programme;
    struct occasion_groups groups = {0};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        bool there = !selection_holds(arena, options, occasion);
        for (size_t g = 0; g < groups.count && !there; g++)
            there = is_shared(groups.items[g].occasions[0], occasion, weekly);
        if (there)
            continue;
        struct occasion_group *group = add_group(arena, &groups);
        for (size_t k = 0; k < programme->occasion_count; k++)
            if (is_shared(occasion, &programme->occasions[k], weekly))
                add_occasion(arena, group, &programme->occasions[k]);
    }
    return groups;
}

/* The group of SEASON, of ATHLETE unless NULL, in GROUPS, which is added if it is not there. */
static struct occasion_group *season_group(struct arena *arena, struct occasion_groups *groups, const struct season *season,
                                           const struct athlete *athlete)
{
    for (size_t i = 0; i < groups->count; i++)
        if (groups->items[i].season == season && (!athlete || groups->items[i].occasions[0]->athlete == athlete))
            return &groups->items[i];
    struct occasion_group *group = add_group(arena, groups);
    group->season = season;
    return group;
}

struct occasion_groups groups_of_seasons(struct project *project, const struct options *options, bool each)
{
    struct arena *arena = project->arena;
    const struct programme *programme = project->programme;
    struct occasion_groups asked = {0}, groups = {0};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        const struct season *season = season_of(programme, occasion->date);
        if (!season || !selection_holds(arena, options, occasion))
            continue;
        struct occasion_group *group = season_group(arena, &asked, season, each ? occasion->athlete : NULL);
        if (!group->count)
            add_occasion(arena, group, occasion);
    }
    for (size_t g = 0; g < asked.count; g++) {
        const struct season *season = asked.items[g].season;
        const struct athlete *athlete = asked.items[g].occasions[0]->athlete;
        struct occasion_group *group = add_group(arena, &groups);
        group->season = season;
        for (size_t i = 0; i < programme->occasion_count; i++) {
            const struct occasion *occasion = &programme->occasions[i];
            if (season_has(season, occasion->date) && (!each || occasion->athlete == athlete))
                add_occasion(arena, group, occasion);
        }
    }
    return groups;
}

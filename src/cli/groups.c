#include "cli/groups.h"

#include "cli/selection.h"

static bool together(const struct occasion *a, const struct occasion *b)
{
    return a->session == b->session && a->date == b->date && a->clock == b->clock && a->camp == b->camp;
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
        if (!group) {
            groups.items = arena_grow(arena, groups.items, groups.count, &groups.capacity, sizeof *groups.items);
            group = &groups.items[groups.count++];
            *group = (struct occasion_group){0};
        }
        group->occasions = arena_grow(arena, group->occasions, group->count, &group->capacity,
                                      sizeof *group->occasions);
        group->occasions[group->count++] = occasion;
    }
    return groups;
}

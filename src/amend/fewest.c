#include "amend/fewest.h"

struct seeking {
    const struct fewest *fewest;
    struct fewest_found found;
    int asked;
};

static bool go_together(const struct fewest *fewest, const struct fewest_way *way, size_t change)
{
    for (size_t i = 0; fewest->groups && i < way->count; i++)
        if (fewest->groups[way->changes[i]] == fewest->groups[change])
            return false;
    return true;
}

/* Asks about all sets of SIZE changes that begin with those of WAY, as long as it may ask. */
static void seek(struct seeking *seeking, struct fewest_way *way, size_t size, size_t from)
{
    const struct fewest *fewest = seeking->fewest;
    if (way->count == size) {
        if (seeking->asked++ < fewest->asks && fewest->holds(fewest->with, way->changes, size))
            seeking->found.ways[seeking->found.count++] = *way;
        return;
    }
    for (size_t i = from; i < fewest->count && seeking->found.count < FEWEST_WAYS && seeking->asked <= fewest->asks; i++) {
        if (!go_together(fewest, way, i))
            continue;
        way->changes[way->count++] = i;
        seek(seeking, way, size, i + 1);
        way->count--;
    }
}

struct fewest_found fewest_find(const struct fewest *fewest)
{
    struct seeking seeking = {.fewest = fewest};
    for (size_t size = 1; size <= FEWEST_TOGETHER && !seeking.found.count && seeking.asked <= fewest->asks; size++) {
        struct fewest_way way = {.count = 0};
        seeking.found.all_asked = true;
        seek(&seeking, &way, size, 0);
        if (!seeking.found.count)
            seeking.found.all_asked = seeking.asked <= fewest->asks;
    }
    return seeking.found;
}

#include "resolve/names.h"

#include <stdint.h>
#include <string.h>

#include "base/text.h"
#include "model/quantity.h"

struct names_entry {
    const struct name *name;
    void *thing;
    uint32_t hash;
};

struct names {
    struct arena *arena;
    struct names_entry *slots; /* open addressing; a power of two, at most half full */
    size_t room, count;
    size_t compared; /* names looked at for one that is near */
};

struct names *names_new(struct arena *arena)
{
    struct names *names = arena_alloc(arena, sizeof *names);
    names->arena = arena;
    names->room = 64;
    names->slots = arena_alloc(arena, names->room * sizeof *names->slots);
    return names;
}

/* FNV-1a. */
static uint32_t hash_of(const char *text)
{
    uint32_t hash = 2166136261u;
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * 16777619u;
    return hash;
}

static struct names_entry *slot_of(const struct names *names, const char *folded, uint32_t hash)
{
    for (size_t i = hash & (names->room - 1);; i = (i + 1) & (names->room - 1)) {
        struct names_entry *slot = &names->slots[i];
        if (!slot->name || (slot->hash == hash && strcmp(slot->name->folded, folded) == 0))
            return slot;
    }
}

static void grow(struct names *names)
{
    struct names_entry *old = names->slots;
    size_t room = names->room;
    names->room *= 2;
    names->slots = arena_alloc(names->arena, names->room * sizeof *names->slots);
    for (size_t i = 0; i < room; i++)
        if (old[i].name)
            *slot_of(names, old[i].name->folded, old[i].hash) = old[i];
}

void *names_add(struct names *names, const struct name *name, void *thing)
{
    if (names->count * 2 >= names->room)
        grow(names);
    uint32_t hash = hash_of(name->folded);
    struct names_entry *slot = slot_of(names, name->folded, hash);
    if (slot->name)
        return slot->thing;
    *slot = (struct names_entry){name, thing, hash};
    names->count++;
    return NULL;
}

void names_redirect(struct names *names, const void *old, void *thing)
{
    for (size_t i = 0; i < names->room; i++)
        if (names->slots[i].name && names->slots[i].thing == old)
            names->slots[i].thing = thing;
}

void *names_find(const struct names *names, const char *folded)
{
    return slot_of(names, folded, hash_of(folded))->thing;
}

const struct name *names_declared(const struct names *names, const char *folded)
{
    return slot_of(names, folded, hash_of(folded))->name;
}

/* With thousands of wrong names a guess for each helps nobody, and it would take time in proportion to their square. */
const char *names_nearest(struct names *names, const char *folded)
{
    enum { MOST_COMPARED = 500000 };
    const struct name *best = NULL;
    if (names->compared > MOST_COMPARED)
        return NULL;
    names->compared += names->count;
    size_t length = strlen(folded);
    unsigned least = length < 5 ? 2 : length < 12 ? 3 : 4;
    for (size_t i = 0; i < names->room; i++) {
        const struct name *name = names->slots[i].name;
        if (!name)
            continue;
        unsigned distance = text_distance(folded, name->folded, least);
        if (distance > least || (best && distance == least && strcmp(name->folded, best->folded) > 0))
            continue;
        if (distance == least && !best)
            continue; /* as far as the limit is too far */
        least = distance;
        best = name;
    }
    return best ? best->shown : NULL;
}

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

/* May all names be compared once more? With thousands of wrong names a guess for each helps nobody, and it would take time
 * in proportion to their square. */
static bool may_compare(struct names *names)
{
    enum { MOST_COMPARED = 500000 };
    if (names->compared > MOST_COMPARED)
        return false;
    names->compared += names->count;
    return true;
}

const char *names_nearest(struct names *names, const char *folded)
{
    const struct name *best = NULL;
    if (!may_compare(names))
        return NULL;
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

/* The words of a name, but for those that say nothing alone. */
struct words {
    struct {
        const char *at;
        size_t length;
    } items[8];
    size_t count;
};

static bool is_small(const char *word, size_t length)
{
    static const char *const small[] = {"a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "the", "to", "with"};
    for (size_t i = 0; i < sizeof small / sizeof *small; i++)
        if (strlen(small[i]) == length && memcmp(small[i], word, length) == 0)
            return true;
    return false;
}

static struct words words_of(const char *folded)
{
    struct words words = {0};
    for (const char *at = folded; *at && words.count < sizeof words.items / sizeof *words.items;) {
        size_t length = strcspn(at, " ");
        if (length && !is_small(at, length)) {
            words.items[words.count].at = at;
            words.items[words.count++].length = length;
        }
        at += length + (at[length] == ' ');
    }
    return words;
}

/* Also one and several: knee and knees. */
static bool is_same_word(const char *word, size_t length, const char *other, size_t other_length)
{
    size_t least = length < other_length ? length : other_length, most = length + other_length - least;
    const char *longer = length == most ? word : other;
    return memcmp(word, other, least) == 0 && (most == least || (most == least + 1 && longer[least] == 's'));
}

static bool holds_all(const struct words *words, const struct words *some)
{
    for (size_t i = 0; i < some->count; i++) {
        size_t k = 0;
        while (k < words->count && !is_same_word(words->items[k].at, words->items[k].length, some->items[i].at,
                                                 some->items[i].length))
            k++;
        if (k == words->count)
            return false;
    }
    return some->count > 0;
}

/* Names that hold all the words of WRITTEN; or, where TURNED, whose words are at least half of it. */
static bool is_alike(const struct words *written, const struct words *name, bool turned)
{
    return turned ? 2 * name->count >= written->count && holds_all(written, name) : holds_all(name, written);
}

/* What has been found alike, one name of each thing, in the order of the alphabet. */
struct shortlist {
    const struct names_entry *items[NAMES_ALIKE];
    size_t count;
    bool too_many;
};

static void add_alike(struct shortlist *list, const struct names_entry *entry)
{
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i]->thing == entry->thing)
            return;
    list->too_many = list->too_many || list->count == NAMES_ALIKE;
    if (list->too_many)
        return;
    size_t at = list->count++;
    for (; at && strcmp(list->items[at - 1]->name->folded, entry->name->folded) > 0; at--)
        list->items[at] = list->items[at - 1];
    list->items[at] = entry;
}

size_t names_alike(struct names *names, const char *folded, const char *alike[NAMES_ALIKE])
{
    const struct words written = words_of(folded);
    struct shortlist found = {0};
    for (int turned = 0; turned < 2 && !found.count && may_compare(names); turned++)
        for (size_t i = 0; i < names->room; i++) {
            const struct names_entry *entry = &names->slots[i];
            if (!entry->name)
                continue;
            const struct words words = words_of(entry->name->folded);
            if (is_alike(&written, &words, turned))
                add_alike(&found, entry);
        }
    for (size_t i = 0; i < found.count; i++)
        alike[i] = found.items[i]->name->shown;
    return found.too_many ? 0 : found.count;
}

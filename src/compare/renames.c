#include "compare/renames.h"

#include <string.h>

#include "compare/digest.h"
#include "base/text.h"

/* A name of a kind that only one of the plans has, and what distinguishes it from others. */
struct lone {
    const char *name;
    uint64_t digest;
    size_t uses;
};

struct lones {
    struct lone *items;
    size_t count, capacity;
};

static const char *name_of(const struct part_of_plan *part, enum part_kind kind)
{
    if (kind == PART_CAMP)
        return part->kind == PART_CAMP ? part->name : part->camp;
    if (kind == PART_ATHLETE)
        return part->kind == PART_ATHLETE ? part->name : part->athlete;
    return part->name;
}

/* When and for whom things called NAME are done, without their names; for an athlete or a camp, when and what. */
static uint64_t uses_of(const struct plan_parts *parts, enum part_kind kind, const char *name, size_t *uses)
{
    struct digest digest = {0};
    *uses = 0;
    for (size_t i = 0; i < parts->count; i++) {
        const struct part_of_plan *part = &parts->items[i];
        if (part->kind != PART_OCCASION || strcmp(name_of(part, kind), name) != 0)
            continue;
        digest_words(&digest, kind == PART_ATHLETE ? "" : part->athlete);
        digest_words(&digest, kind == PART_OCCASION ? "" : part->name);
        digest_number(&digest, part->date);
        digest_number(&digest, part->clock);
        ++*uses;
    }
    return digest.hash;
}

static void add_lone(struct comparison *comparison, struct lones *lones, const struct plan_parts *parts, enum part_kind kind,
                     const char *name, uint64_t facts)
{
    struct lone lone = {.name = name};
    struct digest digest = {.hash = facts};
    for (size_t i = 0; i < lones->count; i++)
        if (strcmp(lones->items[i].name, name) == 0)
            return;
    if (kind == PART_ATHLETE || kind == PART_CAMP || kind == PART_OCCASION)
        digest_number(&digest, (int64_t)uses_of(parts, kind, name, &lone.uses));
    lone.digest = digest.hash;
    lones->items = arena_grow(comparison->arena, lones->items, lones->count, &lones->capacity, sizeof *lones->items);
    lones->items[lones->count++] = lone;
}

struct lone_names {
    const struct part_of_plan **items; /* the first part of each name */
    size_t count, capacity;
};

/* The names of KIND in PARTS. Parts of one session share the letters of its name, so that most are told apart by where
 * those are. */
static struct lone_names names_of(struct comparison *comparison, const struct plan_parts *parts, enum part_kind kind)
{
    struct lone_names names = {0};
    for (size_t i = 0; i < parts->count; i++) {
        const struct part_of_plan *part = &parts->items[i];
        bool known = part->kind != kind;
        for (size_t k = names.count; k > 0 && !known; k--)
            known = names.items[k - 1]->name == part->name;
        if (known)
            continue;
        names.items = arena_grow(comparison->arena, names.items, names.count, &names.capacity, sizeof *names.items);
        names.items[names.count++] = part;
    }
    return names;
}

static bool has_name(const struct lone_names *names, const char *name)
{
    for (size_t i = 0; i < names->count; i++)
        if (strcmp(names->items[i]->name, name) == 0)
            return true;
    return false;
}

/* Those of NAMES, of PARTS, that OTHER does not have. */
static struct lones lones_of(struct comparison *comparison, const struct plan_parts *parts, const struct lone_names *names,
                             const struct lone_names *other, enum part_kind kind)
{
    struct lones lones = {0};
    for (size_t i = 0; i < names->count; i++)
        if (!has_name(other, names->items[i]->name))
            add_lone(comparison, &lones, parts, kind, names->items[i]->name,
                     kind == PART_OCCASION ? 0 : names->items[i]->digest);
    return lones;
}

static void call_otherwise(struct plan_parts *parts, enum part_kind kind, const char *was, const char *is)
{
    for (size_t i = 0; i < parts->count; i++) {
        struct part_of_plan *part = &parts->items[i];
        bool session = kind == PART_OCCASION && (part->kind == PART_OCCASION || part->kind == PART_ROOM);
        if ((part->kind == kind || session) && strcmp(part->name, was) == 0)
            part->name = is;
        if (kind == PART_CAMP && part->kind != PART_LIMIT && strcmp(part->camp, was) == 0)
            part->camp = is;
        if (kind == PART_ATHLETE && strcmp(part->athlete, was) == 0)
            part->athlete = is;
        for (size_t k = 0; k < part->facts.count; k++) {
            struct fact *fact = &part->facts.items[k];
            if (kind == PART_ATHLETE && part->kind == PART_CAMP && strcmp(fact->label, was) == 0)
                fact->label = is;
            if (kind == PART_GYM && strcmp(fact->words, was) == 0)
                fact->words = is;
        }
    }
}

/* The one of LONES that equals ONE, if there is exactly one. USED: things that nobody uses match nothing, because
 * they would all be equal. */
static const struct lone *twin_of(const struct lones *lones, const struct lone *one, bool used)
{
    const struct lone *found = NULL;
    for (size_t i = 0; i < lones->count; i++) {
        if (lones->items[i].digest != one->digest || (used && !one->uses))
            continue;
        if (found)
            return NULL;
        found = &lones->items[i];
    }
    return found;
}

static void find_kind(struct comparison *comparison, enum part_kind kind)
{
    const struct lone_names old_names = names_of(comparison, &comparison->old, kind);
    const struct lone_names new_names = names_of(comparison, &comparison->now, kind);
    const struct lones old = lones_of(comparison, &comparison->old, &old_names, &new_names, kind);
    const struct lones now = lones_of(comparison, &comparison->now, &new_names, &old_names, kind);
    bool used = kind == PART_ATHLETE || kind == PART_OCCASION;
    for (size_t i = 0; i < old.count; i++) {
        const struct lone *is = twin_of(&now, &old.items[i], used), *back = is ? twin_of(&old, is, used) : NULL;
        if (!back)
            continue;
        comparison->renamings = arena_grow(comparison->arena, comparison->renamings, comparison->renaming_count,
                                           &comparison->renaming_capacity, sizeof *comparison->renamings);
        comparison->renamings[comparison->renaming_count++] = (struct renaming){kind, old.items[i].name, is->name};
        call_otherwise(&comparison->old, kind, old.items[i].name, is->name);
    }
    if (old.count && now.count)
        parts_sort(&comparison->old);
}

void renames_find(struct comparison *comparison)
{
    static const enum part_kind kinds[] = {PART_GYM, PART_EXERCISE, PART_OCCASION, PART_ATHLETE, PART_CAMP};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        find_kind(comparison, kinds[i]);
}

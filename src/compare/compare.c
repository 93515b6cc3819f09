#include "compare/compare.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "compare/bouts.h"
#include "compare/renames.h"

enum { NEAR_DAYS = 6 }; /* what is no longer on its day but this close to it was moved */

const struct part_of_plan *change_part(const struct plan_change *change)
{
    return change->now ? change->now : change->old;
}

static struct plan_change *add_change(struct comparison *comparison, struct plan_change change)
{
    comparison->changes = arena_grow(comparison->arena, comparison->changes, comparison->count, &comparison->capacity,
                                     sizeof *comparison->changes);
    comparison->changes[comparison->count] = change;
    return &comparison->changes[comparison->count++];
}

/* --- the facts of two states of a part --- */

static const struct fact *find_fact(const struct facts *facts, const struct fact *like)
{
    for (size_t i = 0; i < facts->count; i++)
        if (strcmp(facts->items[i].label, like->label) == 0 && strcmp(facts->items[i].aspect, like->aspect) == 0)
            return &facts->items[i];
    return NULL;
}

static struct fact_change *add_fact(struct comparison *comparison, struct plan_change *change, struct fact_change fact)
{
    change->facts = arena_grow(comparison->arena, change->facts, change->count, &change->capacity, sizeof *change->facts);
    change->facts[change->count] = fact;
    return &change->facts[change->count++];
}

static bool was_renamed(const struct comparison *comparison, const char *was, const char *is)
{
    for (size_t i = 0; i < comparison->renaming_count; i++)
        if (strcmp(comparison->renamings[i].was, was) == 0 && strcmp(comparison->renamings[i].is, is) == 0)
            return true;
    return false;
}

/* Beside a share that changes, the load is shown even if it is built as before: it is what the coach wants to know. */
static void add_unchanged_load(struct comparison *comparison, struct plan_change *change, const struct facts *now,
                               const struct fact *share)
{
    const struct fact like = {.label = share->label, .aspect = "load"};
    const struct fact *load = find_fact(now, &like);
    if (load && strcmp(share->aspect, "share") == 0)
        add_fact(comparison, change, (struct fact_change){load->label, load->aspect, load->words, load->words, true});
}

static void compare_facts(struct comparison *comparison, struct plan_change *change, const struct facts *old,
                          const struct facts *now, bool *excused)
{
    for (size_t i = 0; i < old->count; i++) {
        const struct fact *was = &old->items[i], *is = find_fact(now, was);
        if (is && strcmp(was->words, is->words) == 0)
            continue;
        if (is && was_renamed(comparison, was->words, is->words)) {
            *excused = true;
            continue;
        }
        const struct fact like = {.label = was->label, .aspect = "load"};
        const struct fact *load = find_fact(old, &like), *load_now = find_fact(now, &like);
        bool stays = load && load_now && strcmp(load->words, load_now->words) == 0;
        add_fact(comparison, change, (struct fact_change){was->label, was->aspect, was->words, is ? is->words : NULL, false});
        if (is && stays)
            add_unchanged_load(comparison, change, now, was);
    }
    for (size_t i = 0; i < now->count; i++)
        if (!find_fact(old, &now->items[i]))
            add_fact(comparison, change, (struct fact_change){now->items[i].label, now->items[i].aspect, NULL,
                                                              now->items[i].words, false});
}

/* For a difference that no fact shows, says only that there is one. */
static void add_rest(struct comparison *comparison, struct plan_change *change)
{
    struct arena *arena = comparison->arena;
    add_fact(comparison, change, (struct fact_change){
        "", "details", arena_printf(arena, "%08x", (unsigned)(change->old->digest >> 32)),
        arena_printf(arena, "%08x", (unsigned)(change->now->digest >> 32)), false});
}

static void compare_pair(struct comparison *comparison, struct part_of_plan *old, struct part_of_plan *now, bool with_bout)
{
    struct plan_change change = {.kind = CHANGE_DIFFERS, .old = old, .now = now, .with_bout = with_bout};
    bool moved = old->date != now->date || old->clock != now->clock, excused = false;
    bool same = old->kind == PART_OCCASION && old->digest == now->digest;
    if (!same) {
        part_tell(comparison->arena, old);
        part_tell(comparison->arena, now);
        compare_facts(comparison, &change, &old->facts, &now->facts, &excused);
        if (!change.count && !excused && old->kind == PART_OCCASION)
            add_rest(comparison, &change);
    }
    if (moved)
        change.kind = CHANGE_MOVED;
    if (moved || change.count)
        add_change(comparison, change);
}

static void add_alone(struct comparison *comparison, struct part_of_plan *part, bool came)
{
    struct plan_change change = {.kind = came ? CHANGE_CAME : CHANGE_WENT, .old = came ? NULL : part, .now = came ? part : NULL};
    part_tell(comparison->arena, part);
    for (size_t i = 0; i < part->facts.count; i++) {
        const struct fact *fact = &part->facts.items[i];
        add_fact(comparison, &change, (struct fact_change){fact->label, fact->aspect, came ? NULL : fact->words,
                                                           came ? fact->words : NULL, false});
    }
    add_change(comparison, change);
}

/* --- which part of the one is which of the other --- */

/* Parts with no part of the other plan in their place. */
struct left {
    struct part_of_plan **items;
    size_t count, capacity;
};

static void leave(struct comparison *comparison, struct left *left, struct part_of_plan *part)
{
    left->items = arena_grow(comparison->arena, left->items, left->count, &left->capacity, sizeof(struct part_of_plan *));
    left->items[left->count++] = part;
}

static int order_of_names(const struct part_of_plan *a, const struct part_of_plan *b)
{
    int order = (int)a->kind - (int)b->kind;
    order = order ? order : strcmp(a->athlete, b->athlete);
    order = order ? order : strcmp(a->camp, b->camp);
    return order;
}

int parts_order(const struct part_of_plan *a, const struct part_of_plan *b)
{
    int order = order_of_names(a, b);
    order = order ? order : a->date - b->date;
    order = order ? order : a->clock - b->clock;
    order = order ? order : strcmp(a->name, b->name);
    return order ? order : a->nth - b->nth;
}

/* How many days NOW, which has the same name as OLD, is away from it; NEAR_DAYS + 1 if it is something else. */
static int distance_of(const struct part_of_plan *old, const struct part_of_plan *now)
{
    bool same = now && order_of_names(old, now) == 0 && strcmp(old->name, now->name) == 0;
    return same ? abs(now->date - old->date) : NEAR_DAYS + 1;
}

/* Pairs what is left of OLD with what is nearest; removes what is paired. */
static void pair_left(struct comparison *comparison, struct left *old, struct left *now)
{
    size_t kept = 0;
    for (size_t i = 0; i < old->count; i++) {
        struct part_of_plan *part = old->items[i];
        size_t nearest = now->count;
        bool dated = part->kind == PART_OCCASION || part->kind == PART_ROOM;
        int least = NEAR_DAYS + 1;
        for (size_t k = 0; k < now->count && dated && least; k++) {
            int distance = distance_of(part, now->items[k]);
            if (distance < least) {
                least = distance;
                nearest = k;
            }
        }
        if (nearest == now->count) {
            old->items[kept++] = part;
            continue;
        }
        compare_pair(comparison, part, now->items[nearest], false);
        now->items[nearest] = NULL;
    }
    old->count = kept;
}

static void pair_moved(struct comparison *comparison)
{
    for (size_t i = 0; i < comparison->old.count; i++) {
        struct part_of_plan *part = &comparison->old.items[i];
        if (part->pair)
            compare_pair(comparison, part, part->pair, true);
    }
}

static void pair_parts(struct comparison *comparison)
{
    struct plan_parts *old = &comparison->old, *now = &comparison->now;
    struct left gone = {0}, come = {0};
    bouts_pair(comparison);
    pair_moved(comparison);
    for (size_t i = 0, k = 0; i < old->count || k < now->count;) {
        if (i < old->count && old->items[i].pair) {
            i++;
            continue;
        }
        if (k < now->count && now->items[k].pair) {
            k++;
            continue;
        }
        int order = i == old->count ? 1 : k == now->count ? -1 : parts_order(&old->items[i], &now->items[k]);
        if (order == 0)
            compare_pair(comparison, &old->items[i++], &now->items[k++], false);
        else if (order < 0)
            leave(comparison, &gone, &old->items[i++]);
        else
            leave(comparison, &come, &now->items[k++]);
    }
    pair_left(comparison, &gone, &come);
    for (size_t i = 0; i < gone.count; i++)
        add_alone(comparison, gone.items[i], false);
    for (size_t i = 0; i < come.count; i++)
        if (come.items[i])
            add_alone(comparison, come.items[i], true);
}

static int by_part(const void *one, const void *other)
{
    const struct plan_change *a = one, *b = other;
    int order = parts_order(change_part(a), change_part(b));
    return order ? order : (int)a->kind - (int)b->kind;
}

void compare_plans(struct comparison *comparison, struct arena *arena, const struct plan_parts *old,
                   const struct plan_parts *now)
{
    *comparison = (struct comparison){.arena = arena, .old = *old, .now = *now};
    comparison->partial = comparison->old.incomplete || comparison->now.incomplete;
    renames_find(comparison);
    pair_parts(comparison);
    if (comparison->count)
        qsort(comparison->changes, comparison->count, sizeof *comparison->changes, by_part);
}

bool comparison_is_empty(const struct comparison *comparison)
{
    return !comparison->count && !comparison->renaming_count && !comparison->finding_count && !comparison->sheet_count;
}

void compare_sheet(struct comparison *comparison, const char *name, const char *was, const char *is)
{
    if (was && is && strcmp(was, is) == 0)
        return;
    comparison->sheets = arena_grow(comparison->arena, comparison->sheets, comparison->sheet_count,
                                    &comparison->sheet_capacity, sizeof *comparison->sheets);
    comparison->sheets[comparison->sheet_count++] =
        (struct sheet_change){was && is ? SHEET_STALE : was ? SHEET_GONE : SHEET_NEW, name, was, is};
}

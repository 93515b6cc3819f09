#include "squad/squad.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "measure/avoid.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "squad/parts.h"

enum {
    GROWN = 18,
    MOST_STEPS = 2500, /* sets and turns of a whole squad, beyond which no timetable is worked out: 40 athletes with
                        * eight blocks have 1,500 of them and take a second, and time grows with their number
                        * (bench_room) */
    COACHES = 1        /* if the plan does not say; common practice, no source */
};

/* A block of the room: a block of the session, or the warm-up sets for one that rings. */
struct room_place {
    const struct block *block; /* as the first who does it does it */
    bool ramp;
};

struct builder {
    struct arena *arena;
    struct squad *squad;
    struct squad_kit kit;
    struct room_place *places;
    size_t place_count, place_capacity;
    struct time_ramp *ramps; /* of each member; count 0: none */
    struct squad_part *parts;
    struct room_athlete *athletes;
    struct room_part *room_parts;
    struct room_substitute *substitutes;
    size_t substitute_count, substitute_capacity;
    size_t steps;
};

static bool same_block(const struct block *a, const struct block *b)
{
    return a->span.file == b->span.file && a->span.start == b->span.start;
}

/* --- which blocks there are --- */

static size_t find_place(const struct builder *builder, const struct block *block, bool ramp)
{
    size_t i = 0;
    while (i < builder->place_count
           && !(same_block(builder->places[i].block, block) && builder->places[i].ramp == ramp))
        i++;
    return i;
}

/* Puts BLOCK at AT, if it is not known yet; returns the place after it. */
static size_t add_place(struct builder *builder, const struct block *block, bool ramp, size_t at)
{
    size_t known = find_place(builder, block, ramp);
    if (known < builder->place_count)
        return known + 1;
    builder->places = arena_grow(builder->arena, builder->places, builder->place_count, &builder->place_capacity,
                                 sizeof *builder->places);
    memmove(&builder->places[at + 1], &builder->places[at], (builder->place_count - at) * sizeof *builder->places);
    builder->places[at] = (struct room_place){block, ramp};
    builder->place_count++;
    return at + 1;
}

/* Whether the warm-up sets of MEMBER need a place of their own before block B, because they fit into no bell. */
static bool ramp_stands_alone(const struct builder *builder, size_t member, size_t b)
{
    const struct time_ramp *ramp = &builder->ramps[member];
    return ramp->count && ramp->block == b && block_has_bell(&builder->squad->members[member]->blocks[b]);
}

static void find_places(struct builder *builder)
{
    const struct squad *squad = builder->squad;
    builder->ramps = arena_alloc(builder->arena, squad->count * sizeof *builder->ramps);
    for (size_t i = 0; i < squad->count; i++) {
        const struct occasion *member = squad->members[i];
        struct time_ramp *ramp = &builder->ramps[i];
        size_t at = 0;
        if (!time_ramp_find(member->blocks, member->block_count, member->athlete, occasion_gym(member), member->date, ramp))
            ramp->count = 0;
        for (size_t b = 0; b < member->block_count; b++) {
            if (ramp_stands_alone(builder, i, b))
                at = add_place(builder, &member->blocks[b], true, at);
            at = add_place(builder, &member->blocks[b], false, at);
        }
    }
}

/* --- bells --- */

static const int *bell_rounds(struct arena *arena, const struct block *block, size_t *count)
{
    int times = block->times > 1 ? block->times : 1, rest = (block->rest_low + block->rest_high + 1) / 2;
    int each = block->kind == BLOCK_EVERY && block->interval ? block->interval : block->work + rest;
    int rounds = block->kind == BLOCK_ROUNDS  ? block->sets
                 : block->kind == BLOCK_EVERY ? (block->interval ? block->work / block->interval : 1)
                                              : 1;
    int once = (block->seconds - (times - 1) * block->times_rest) / times;
    if (rounds < 1 || (block->kind == BLOCK_ROUNDS && !block->work)) {
        rounds = 1;
        each = once;
    }
    int *starts = arena_alloc(arena, (size_t)rounds * (size_t)times * sizeof *starts);
    *count = 0;
    for (int t = 0; t < times; t++)
        for (int i = 0; i < rounds; i++)
            starts[(*count)++] = t * (once + block->times_rest) + i * each;
    return starts;
}

/* --- blocks of the room --- */

static bool is_care(const struct block *block)
{
    const unsigned care = 1u << PATTERN_NECK | 1u << PATTERN_SHOULDER_CARE;
    for (size_t i = 0; i < block->item_count; i++)
        if (block->items[i].exercise->patterns & care || block->items[i].exercise->loads[REGION_NECK] > 0)
            return true;
    return false;
}

static const char *block_name(struct arena *arena, const struct room_place *place)
{
    const struct block *block = place->block;
    const char *name = block->letter ? arena_printf(arena, "%c", block->letter) : block_kinds.names[block->kind];
    return place->ramp ? arena_printf(arena, "warm-up sets of %s", name) : name;
}

static struct room_block room_block_of(struct arena *arena, const struct session *session, const struct room_place *place)
{
    const struct block *block = place->block;
    struct room_block out = {.name = block_name(arena, place), .keep = block->keep, .care = is_care(block)};
    out.bell = block_has_bell(block) && !place->ramp;
    out.fixed = !block->letter || place->ramp;
    out.free = session->order != ORDER_WRITTEN && block->letter && !out.bell && !place->ramp
               && session->free_blocks >> (block->letter - 'A') & 1;
    if (out.bell)
        out.rounds = bell_rounds(arena, block, &out.round_count);
    if (place->ramp)
        out.keep = 0;
    return out;
}

static void list_blocks(struct builder *builder, const struct session *session)
{
    static const enum room_order orders[] = {ROOM_AS_WRITTEN, ROOM_ANY_ORDER, ROOM_WAVES};
    struct room *room = &builder->squad->room;
    struct room_block *blocks = arena_alloc(builder->arena, (builder->place_count + 1) * sizeof *blocks);
    for (size_t i = 0; i < builder->place_count; i++)
        blocks[i] = room_block_of(builder->arena, session, &builder->places[i]);
    room->blocks = blocks;
    room->block_count = builder->place_count;
    room->order = orders[session->order];
}

/* --- partners --- */

/* Whether MEMBER brings the kit that a pair shares at a bell: every other one does. */
static bool holds_for_pair(const struct squad *squad, size_t member)
{
    const struct attendance *attendance = squad->members[member]->attendance;
    for (size_t i = 0; attendance && i < attendance->pair_count; i++)
        for (size_t k = 0; k < attendance->pairs[i].count; k++)
            if (attendance->pairs[i].athletes[k] == squad->members[member]->athlete)
                return k % 2 == 0;
    return member % 2 == 0;
}

static int member_of(const struct squad *squad, const struct athlete *athlete)
{
    for (size_t i = 0; i < squad->count; i++)
        if (squad->members[i]->athlete == athlete)
            return (int)i;
    return ROOM_NONE;
}

/* The groups that are named, as far as they are there, and the others in pairs, in squad order; an odd last one
 * joins the group before. */
static void name_groups(struct builder *builder, const struct attendance *attendance)
{
    struct squad *squad = builder->squad;
    struct room_group *groups = arena_alloc(builder->arena, (attendance->pair_count + squad->count + 1) * sizeof *groups);
    int *members = arena_alloc(builder->arena, (squad->count + 1) * sizeof *members);
    bool *taken = arena_alloc(builder->arena, (squad->count + 1) * sizeof *taken);
    size_t count = 0, at = 0;
    for (size_t i = 0; i < attendance->pair_count; i++) {
        groups[count] = (struct room_group){&members[at], 0};
        for (size_t k = 0; k < attendance->pairs[i].count; k++) {
            int member = member_of(squad, attendance->pairs[i].athletes[k]);
            if (member == ROOM_NONE || taken[member])
                continue;
            taken[member] = true;
            members[at++] = member;
            groups[count].count++;
        }
        if (groups[count].count > 1) {
            count++;
        } else if (groups[count].count) {
            taken[members[--at]] = false;
        }
    }
    for (size_t i = 0, open = 0; i < squad->count; i++) {
        if (taken[i])
            continue;
        if (!open)
            groups[count++] = (struct room_group){&members[at], 0};
        members[at++] = (int)i;
        open = ++groups[count - 1].count % 2;
    }
    if (count > 1 && groups[count - 1].count == 1) {
        count--;
        groups[count - 1].count++; /* the members follow one another */
    }
    squad->room.groups = groups;
    squad->room.group_count = count;
}

/* --- athletes --- */

static int arrival_of(const struct occasion *member)
{
    const struct attendance *attendance = member->attendance;
    for (size_t i = 0; attendance && i < attendance->late_count; i++)
        if (attendance->late[i].athlete == member->athlete)
            return attendance->late[i].seconds;
    return 0;
}

static void make_part(struct builder *builder, struct squad_maker *maker, size_t member, size_t place)
{
    const struct squad *squad = builder->squad;
    const struct occasion *occasion = squad->members[member];
    const struct room_place *where = &builder->places[place];
    size_t at = member * builder->place_count + place, b = 0;
    while (b < occasion->block_count && !same_block(&occasion->blocks[b], where->block))
        b++;
    if (b == occasion->block_count || (where->ramp && !ramp_stands_alone(builder, member, b)))
        return;
    const struct block *block = &occasion->blocks[b];
    bool in_pairs = squad->count > 1 && block_has_bell(block) && block_needs_partner(block);
    squad_part_begin(maker, block);
    if (where->ramp || (builder->ramps[member].block == b && !block_has_bell(block)))
        squad_part_ramp(maker, &builder->ramps[member]);
    if (!where->ramp)
        squad_part_sets(maker, block, in_pairs, !in_pairs || holds_for_pair(squad, member));
    builder->room_parts[at] = (struct room_part){maker->sets, maker->set_count};
    builder->parts[at] = maker->part;
    builder->steps += maker->task_count;
}

static void list_athletes(struct builder *builder)
{
    struct squad *squad = builder->squad;
    size_t all = squad->count * builder->place_count;
    builder->parts = arena_alloc(builder->arena, (all + 1) * sizeof *builder->parts);
    builder->room_parts = arena_alloc(builder->arena, (all + 1) * sizeof *builder->room_parts);
    builder->athletes = arena_alloc(builder->arena, squad->count * sizeof *builder->athletes);
    for (size_t i = 0; i < squad->count; i++) {
        const struct occasion *member = squad->members[i];
        struct squad_maker maker = {.arena = builder->arena, .kit = &builder->kit, .occasion = member};
        maker.coached = athlete_under(member->athlete, member->date, GROWN);
        for (size_t p = 0; p < builder->place_count && builder->steps <= MOST_STEPS; p++)
            make_part(builder, &maker, i, p);
        builder->athletes[i] = (struct room_athlete){athlete_called(member->athlete), arrival_of(member),
                                                     &builder->room_parts[i * builder->place_count]};
    }
    squad->parts = builder->parts;
    squad->room.athletes = builder->athletes;
    squad->room.athlete_count = squad->count;
    squad->too_large = builder->steps > MOST_STEPS;
}

/* --- what can be done instead --- */

/* Somebody on hold does what the hold's step names, and nothing instead of it. */
static bool may_do(const struct occasion *member, const struct exercise *exercise)
{
    const struct athlete *athlete = member->athlete;
    if (athlete->hold_count || gym_missing(occasion_gym(member), exercise)
        || exercise->level > athlete_level_on(athlete, member->date))
        return false;
    for (size_t i = 0; i < athlete->avoid_count; i++)
        if (avoid_stands(&athlete->avoids[i], member->date) && avoid_bars(&athlete->avoids[i], exercise))
            return false;
    return true;
}

/* EXERCISE or what stands in for it, whichever MEMBER's gym has the kit for; NULL if it has none, or MEMBER may not
 * do it. */
static const struct exercise *within_reach(const struct occasion *member, const struct exercise *exercise)
{
    enum { LONGEST_CHAIN = 8 };
    for (int i = 0; i < LONGEST_CHAIN; i++) {
        const struct need *missing = gym_missing(occasion_gym(member), exercise);
        const struct exercise *next = NULL;
        for (size_t k = 0; missing && k < exercise->without_count && !next; k++)
            if (text_same(exercise->without[k].kit.folded, missing->name.folded))
                next = exercise->without[k].instead;
        if (!next)
            return may_do(member, exercise) ? exercise : NULL;
        exercise = next;
    }
    return NULL;
}

/* BLOCK with INSTEAD done in item AT. If a kilogram means something else for INSTEAD, its sets have no load. */
static struct block *exchanged(struct arena *arena, const struct block *block, size_t at, const struct exercise *instead,
                               bool same_load)
{
    struct block *copy = arena_alloc(arena, sizeof *copy);
    struct item *items = arena_alloc(arena, block->item_count * sizeof *items);
    memcpy(items, block->items, block->item_count * sizeof *items);
    *copy = *block;
    copy->items = items;
    items[at].exercise = instead;
    if (same_load)
        return copy;
    struct set_run *runs = arena_alloc(arena, items[at].run_count * sizeof *runs);
    memcpy(runs, items[at].runs, items[at].run_count * sizeof *runs);
    for (size_t r = 0; r < items[at].run_count; r++)
        runs[r].load = (struct load){0};
    items[at].runs = runs;
    return copy;
}

static bool is_written(const struct item *item, const struct substitute *way)
{
    return way >= item->without && way < item->without + item->without_count;
}

static void add_substitute(struct builder *builder, size_t member, size_t place, size_t at, const struct block *block,
                           const struct substitute *way, const struct exercise *instead)
{
    const struct occasion *occasion = builder->squad->members[member];
    const struct exercise *planned = block->items[at].exercise;
    bool same_load = loads_alike(occasion_gym(occasion), planned, instead);
    struct squad_maker maker = {.arena = builder->arena, .kit = &builder->kit, .occasion = occasion,
                                .coached = athlete_under(occasion->athlete, occasion->date, GROWN)};
    squad_part_begin(&maker, block);
    squad_part_sets(&maker, exchanged(builder->arena, block, at, instead, same_load), false, true);
    builder->substitutes = arena_grow(builder->arena, builder->substitutes, builder->substitute_count,
                                      &builder->substitute_capacity, sizeof *builder->substitutes);
    builder->substitutes[builder->substitute_count++] = (struct room_substitute){
        (int)member, (int)place, (int)squad_kit_named(&builder->kit, way->kit.folded),
        {maker.sets, maker.set_count},
        arena_printf(builder->arena, "%s instead of %s%s", instead->name.shown, planned->name.shown,
                     is_written(&block->items[at], way) ? ", as its line says"
                     : same_load || !instead->need_count ? "" : " (its load is yours to set)")};
}

static bool names_kit(const struct item *item, const char *folded)
{
    for (size_t i = 0; i < item->without_count; i++)
        if (text_same(item->without[i].kit.folded, folded))
            return true;
    return false;
}

/* What the line itself names comes before what its exercise names. */
static void list_ways(struct builder *builder, size_t member, size_t place, size_t at, const struct block *block)
{
    const struct item *item = &block->items[at];
    const struct exercise *planned = item->exercise;
    for (size_t i = 0; i < item->without_count + planned->without_count && !item->filler; i++) {
        bool written = i < item->without_count;
        const struct substitute *way = written ? &item->without[i] : &planned->without[i - item->without_count];
        const struct exercise *instead = within_reach(builder->squad->members[member], way->instead);
        if (instead && squad_kit_named(&builder->kit, way->kit.folded) < builder->kit.count
            && (written || !names_kit(item, way->kit.folded)))
            add_substitute(builder, member, place, at, block, way, instead);
    }
}

/* The warm-up sets of a lift that is left out are not kept, so nothing is exchanged if they are in the block. */
static void list_substitutes(struct builder *builder)
{
    builder->kit.later = true;
    for (size_t m = 0; m < builder->squad->count; m++) {
        const struct occasion *member = builder->squad->members[m];
        for (size_t b = 0; b < member->block_count; b++) {
            const struct block *block = &member->blocks[b];
            size_t place = find_place(builder, block, false);
            if (block_has_bell(block) || (builder->ramps[m].count && builder->ramps[m].block == b))
                continue;
            for (size_t i = 0; i < block->item_count; i++)
                list_ways(builder, m, place, i, block);
        }
    }
}

/* --- the room --- */

/* From here on, needs are numbered by the kinds that are used. Somebody who trains alone finds someone to hold for
 * them. */
static void renumber_part(struct builder *builder, const struct room_part *part)
{
    for (size_t s = 0; s < part->set_count; s++)
        for (size_t i = 0; i < part->sets[s].item_count; i++) {
            /* All of these were made above, and until now only the builder has them. */
            struct room_item *item = (struct room_item *)&part->sets[s].items[i];
            struct room_need *needs = (struct room_need *)item->needs;
            item->partner = item->partner && builder->squad->count > 1;
            for (size_t n = 0; n < item->need_count; n++)
                needs[n].kind = builder->kit.kinds[needs[n].kind].number;
        }
}

static void renumber(struct builder *builder)
{
    size_t all = builder->squad->count * builder->place_count;
    for (size_t p = 0; p < all; p++)
        renumber_part(builder, &builder->room_parts[p]);
    for (size_t i = 0; i < builder->substitute_count; i++) {
        const struct squad_kind *kind = &builder->kit.kinds[builder->substitutes[i].kind];
        builder->substitutes[i].kind = kind->used ? kind->number : ROOM_NONE;
        renumber_part(builder, &builder->substitutes[i].part);
    }
    builder->squad->room.substitutes = builder->substitutes;
    builder->squad->room.substitute_count = builder->substitute_count;
}

/* Seconds from the session's hour until the doors close; without doors, the time that the session should stay under. */
static int doors_of(const struct occasion *member)
{
    if (member->attendance && member->attendance->out_by >= 0 && member->clock >= 0)
        return member->attendance->out_by - member->clock;
    return member->session->under > 0 ? member->session->under : ROOM_NONE;
}

static const struct squad *build(struct arena *arena, const struct occasion *const *members, size_t count,
                                 bool substitutes)
{
    const struct occasion *first = members[0];
    const struct attendance *attendance = first->attendance;
    const struct gym *gym = occasion_gym(first);
    struct squad *squad = arena_alloc(arena, sizeof *squad);
    *squad = (struct squad){.members = members, .count = count, .gym = gym};
    struct builder builder = {.arena = arena, .squad = squad};
    int coaches = attendance && attendance->coaches ? attendance->coaches : COACHES;
    builder.kit = squad_kit_of(arena, gym, coaches);
    find_places(&builder);
    list_blocks(&builder, first->session);
    list_athletes(&builder);
    if (substitutes && !squad->too_large)
        list_substitutes(&builder);
    squad_kit_list(&builder.kit, &squad->room);
    renumber(&builder);
    if (attendance && attendance->pair_count)
        name_groups(&builder, attendance);
    squad->room.changeover = gym->between_athletes;
    squad->room.disc = gym->plate_change;
    squad->room.between = time_usual.between_blocks;
    squad->room.doors = doors_of(first);
    return squad;
}

const struct squad *squad_of(struct arena *arena, const struct occasion *const *members, size_t count)
{
    return build(arena, members, count, false);
}

const struct room *squad_room_with_substitutes(struct arena *arena, const struct squad *squad)
{
    return &build(arena, squad->members, squad->count, true)->room;
}

const struct squad_task *squad_task(const struct squad *squad, const struct room_row *row)
{
    const struct squad_part *part = &squad->parts[(size_t)row->athlete * squad->room.block_count + (size_t)row->block];
    return &part->tasks[part->first[row->set] + (size_t)row->item];
}

const char *squad_line(struct arena *arena, const struct squad_task *task)
{
    if (!task->block->letter)
        return block_kinds.names[task->block->kind];
    return task->item ? arena_printf(arena, "%c%d", task->block->letter, task->item->index + 1)
                      : arena_printf(arena, "%c", task->block->letter);
}

#include "room/room_check.h"

#include <stdlib.h>
#include <string.h>

enum { CHECK_MOST = 4096 };

static const char *who(const struct room_check *check, const struct room_row *row)
{
    return check->room->athletes[row->athlete].name;
}

static void fault(struct room_check *check, const struct room_row *row, const char *what, int figure)
{
    text_addf(&check->faults, "%s %s%d.%d at %d: %s %d\n", who(check, row), check->room->blocks[row->block].name,
              row->set + 1, row->item + 1, row->start, what, figure);
}

static const struct room_set *set_of(const struct room_check *check, const struct room_row *row)
{
    return &check->room->athletes[row->athlete].parts[row->block].sets[row->set];
}

static const struct room_item *item_of(const struct room_check *check, const struct room_row *row)
{
    return &set_of(check, row)->items[row->item];
}

static bool is_bell(const struct room_check *check, const struct room_row *row)
{
    return check->room->blocks[row->block].bell;
}

/* The rows of one athlete by start; returns how many. */
static size_t rows_of(const struct room_check *check, int athlete, const struct room_row **own)
{
    size_t count = 0;
    for (size_t i = 0; i < check->count; i++) {
        if (check->rows[i].athlete != athlete)
            continue;
        size_t at = count++;
        while (at > 0 && own[at - 1]->start > check->rows[i].start) {
            own[at] = own[at - 1];
            at--;
        }
        own[at] = &check->rows[i];
    }
    return count;
}

/* --- the opening bell --- */

static void find_opening(struct room_check *check)
{
    const struct room *room = check->room;
    bool rings = false;
    check->opening = ROOM_NONE;
    if (!room->block_count || !room->blocks[0].bell)
        return;
    int earliest = room->athletes[0].arrival;
    for (size_t i = 0; i < room->athlete_count; i++) {
        rings |= room->athletes[i].parts[0].set_count > 0;
        if (room->athletes[i].arrival < earliest)
            earliest = room->athletes[i].arrival;
    }
    if (rings)
        check->opening = earliest;
}

/* When ATHLETE joins the opening bell; ROOM_NONE: not at all. */
static int joins(const struct room_check *check, int athlete)
{
    const struct room_athlete *who_comes = &check->room->athletes[athlete];
    const struct room_block *block = &check->room->blocks[0];
    if (check->opening == ROOM_NONE || !who_comes->parts[0].set_count)
        return ROOM_NONE;
    if (who_comes->arrival == check->opening)
        return check->opening;
    for (size_t i = 0; i < block->round_count; i++) {
        if (check->opening + block->rounds[i] >= who_comes->arrival)
            return check->opening + block->rounds[i];
    }
    return ROOM_NONE;
}

/* --- all that is planned, once, in order --- */

static bool is_planned(const struct room_check *check, int athlete, size_t block)
{
    const struct room_part *part = &check->room->athletes[athlete].parts[block];
    if (block == 0 && check->room->blocks[0].bell)
        return joins(check, athlete) != ROOM_NONE;
    return part->set_count > 0;
}

static void check_row(struct room_check *check, const struct room_row *row)
{
    const struct room_part *part = &check->room->athletes[row->athlete].parts[row->block];
    if (row->set < 0 || (size_t)row->set >= part->set_count || row->item < 0
        || (size_t)row->item >= part->sets[row->set].item_count) {
        text_addf(&check->faults, "%s does what is not planned\n", who(check, row));
        return;
    }
    int work = item_of(check, row)->work;
    if (row->block == 0 && is_bell(check, row)) {
        int joined = joins(check, row->athlete);
        if (row->start != joined || row->end != check->opening + work)
            fault(check, row, "does not join the opening bell at", joined);
    } else if (row->end - row->start != work) {
        fault(check, row, "does not last", work);
    }
    if (row->start < check->room->athletes[row->athlete].arrival)
        fault(check, row, "before arriving at", check->room->athletes[row->athlete].arrival);
}

/* NEXT may follow ROW. Counts what is waited beyond the plan. */
static void check_gap(struct room_check *check, const struct room_row *row, const struct room_row *next)
{
    const struct room_set *set = set_of(check, row);
    const struct room_part *part = &check->room->athletes[row->athlete].parts[row->block];
    int gap = next->start - row->end, least = 0, most = ROOM_ANY_GAP;
    if (next->block != row->block) {
        least = check->room->between;
        if ((size_t)row->set + 1 != part->set_count || (size_t)row->item + 1 != set->item_count)
            fault(check, next, "the block before is left in set", row->set + 1);
        if (next->set || next->item)
            fault(check, next, "begins in set", next->set + 1);
    } else if (next->set != row->set) {
        least = set->rest;
        if (next->set != row->set + 1 || next->item || (size_t)row->item + 1 != set->item_count)
            fault(check, next, "out of order after set", row->set + 1);
    } else {
        least = item_of(check, next)->gap_least;
        most = item_of(check, next)->gap_most;
        if (next->item != row->item + 1)
            fault(check, next, "out of order after item", row->item + 1);
    }
    if (gap < least)
        fault(check, next, "the pause before it is too short:", gap);
    if (most != ROOM_ANY_GAP && gap > most)
        fault(check, next, "the gap before it is too long:", gap);
    check->wait += gap - least;
}

/* The blocks that ATHLETE does, as they come in OWN. */
static size_t blocks_done(const struct room_row *const *own, size_t count, int *blocks)
{
    size_t done = 0;
    for (size_t i = 0; i < count; i++) {
        if (!done || blocks[done - 1] != own[i]->block)
            blocks[done++] = own[i]->block;
    }
    return done;
}

static bool has_warm_up_sets(const struct room *room, int block)
{
    for (size_t i = 0; i < room->athlete_count; i++) {
        for (size_t j = 0; j < room->athletes[i].parts[block].set_count; j++) {
            if (room->athletes[i].parts[block].sets[j].ramp)
                return true;
        }
    }
    return false;
}

/* Free blocks (WRITTEN, as they are written) in the order DONE: round from one of them, or with heavy ones in order. */
static bool order_is_allowed(const struct room *room, const int *written, const int *done, size_t count)
{
    size_t first = 0;
    int heavy = -1;
    while (first < count && written[first] != done[0])
        first++;
    for (size_t i = 0; i < count; i++) {
        if (room->order == ROOM_WAVES && done[i] != written[(first + i) % count])
            return false;
        if (room->order == ROOM_AS_WRITTEN && done[i] != written[i])
            return false;
        if (!has_warm_up_sets(room, done[i]))
            continue;
        if (room->order == ROOM_ANY_ORDER && done[i] < heavy)
            return false;
        heavy = done[i];
    }
    return true;
}

static void check_blocks(struct room_check *check, int athlete, const struct room_row *const *own, size_t count)
{
    const struct room *room = check->room;
    int done[CHECK_MOST], written[CHECK_MOST];
    size_t n = blocks_done(own, count, done), at = 0, first_free = 0, free_count = 0;
    for (size_t i = 0; i < room->block_count; i++) {
        if (!is_planned(check, athlete, i))
            continue;
        if (room->blocks[i].free && room->order != ROOM_AS_WRITTEN && !free_count++)
            first_free = at;
        written[at++] = (int)i;
    }
    if (n != at) {
        text_addf(&check->faults, "%s does %zu blocks, not %zu\n", room->athletes[athlete].name, n, at);
        return;
    }
    for (size_t i = 0; i < n; i++) {
        bool is_free = i >= first_free && i < first_free + free_count;
        if (!is_free && done[i] != written[i])
            text_addf(&check->faults, "%s does block %zu out of order\n", room->athletes[athlete].name, i + 1);
    }
    if (free_count && !order_is_allowed(room, &written[first_free], &done[first_free], free_count))
        text_addf(&check->faults, "%s takes free blocks in an order that is none\n", room->athletes[athlete].name);
}

static void check_athlete(struct room_check *check, int athlete)
{
    const struct room_row *own[CHECK_MOST];
    size_t count = rows_of(check, athlete, own), planned = 0;
    for (size_t i = 0; i < check->room->block_count; i++) {
        const struct room_part *part = &check->room->athletes[athlete].parts[i];
        for (size_t j = 0; is_planned(check, athlete, i) && j < part->set_count; j++)
            planned += part->sets[j].item_count;
    }
    if (count != planned)
        text_addf(&check->faults, "%s does %zu items, not %zu\n", check->room->athletes[athlete].name, count, planned);
    if (!count)
        return;
    check->wait += own[0]->start - check->room->athletes[athlete].arrival;
    for (size_t i = 1; i < count; i++)
        check_gap(check, own[i - 1], own[i]);
    if (own[count - 1]->end > check->finish)
        check->finish = own[count - 1]->end;
    check_blocks(check, athlete, own, count);
}

/* --- kit --- */

static void check_needs(struct room_check *check, const struct room_row *row)
{
    const struct room_item *item = item_of(check, row);
    size_t wanted = 0;
    for (size_t i = 0; i < item->need_count; i++) {
        int taken = 0;
        for (size_t j = 0; j < row->unit_count; j++)
            taken += row->units[j].kind == item->needs[i].kind;
        if (taken != item->needs[i].count)
            fault(check, row, "takes the wrong number of kind", item->needs[i].kind);
        wanted += (size_t)item->needs[i].count;
    }
    if (row->unit_count != wanted)
        fault(check, row, "takes so many pieces of kit:", (int)row->unit_count);
    for (size_t i = 0; i < row->unit_count; i++) {
        const struct room_unit *unit = &row->units[i];
        if (unit->number < 1 || unit->number > check->room->kinds[unit->kind].count)
            fault(check, row, "there is no number", unit->number);
        for (size_t j = 0; j < i; j++) {
            if (row->units[j].kind == unit->kind && row->units[j].number == unit->number)
                fault(check, row, "takes twice number", unit->number);
        }
    }
}

static bool uses(const struct room_row *row, int kind, int number)
{
    for (size_t i = 0; i < row->unit_count; i++) {
        if (row->units[i].kind == kind && row->units[i].number == number)
            return true;
    }
    return false;
}

static int discs_between(const struct room_item *a, const struct room_item *b)
{
    size_t same = 0;
    while (same < a->stack_count && same < b->stack_count && a->stack[same] == b->stack[same])
        same++;
    return (int)(a->stack_count - same + b->stack_count - same);
}

/* Turns at one piece of kit. Between a bell and what goes before or behind it nothing but the bell's pauses is asked:
 * only that nobody else holds the piece. */
static void check_unit(struct room_check *check, int kind, int number)
{
    const struct room *room = check->room;
    const struct room_row *last = NULL, *last_turn = NULL;
    for (;;) {
        const struct room_row *next = NULL;
        for (size_t i = 0; i < check->count; i++) {
            const struct room_row *row = &check->rows[i];
            bool behind = !last || row->start > last->start || (row->start == last->start && row > last);
            if (behind && uses(row, kind, number) && (!next || row->start < next->start))
                next = row;
        }
        if (!next)
            return;
        if (last && next->start < last->end)
            fault(check, next, "its kit is still used until", last->end);
        if (last_turn && !is_bell(check, next)) {
            int discs = room->kinds[kind].seat ? discs_between(item_of(check, last_turn), item_of(check, next)) : 0;
            int least = (last_turn->athlete == next->athlete ? 0 : room->changeover) + room->disc * discs;
            check->discs += discs;
            if (next->start < last_turn->end + least)
                fault(check, next, "its kit is not ready before", last_turn->end + least);
        }
        last = next;
        last_turn = is_bell(check, next) ? last_turn : next;
    }
}

/* How many of PART all seats in use at TIME hold. */
static int in_use(const struct room_check *check, int part, int time)
{
    int count = 0;
    for (size_t i = 0; i < check->count; i++) {
        const struct room_row *row = &check->rows[i];
        const struct room_item *item = item_of(check, row);
        if (row->start > time || row->end <= time)
            continue;
        for (size_t j = 0; j < row->unit_count; j++) {
            const struct room_kind *kind = &check->room->kinds[row->units[j].kind];
            for (size_t k = 0; kind->seat && k < item->stack_count; k++)
                count += item->stack[k] == part ? (k == 0 || kind->one_sleeve ? 1 : 2) : 0;
        }
    }
    return count;
}

static void check_stock(struct room_check *check)
{
    for (size_t i = 0; i < check->count; i++) {
        for (size_t part = 0; part < check->room->stock_count; part++) {
            int wanted = in_use(check, (int)part, check->rows[i].start);
            if (wanted > check->room->stock[part].count)
                fault(check, &check->rows[i], "bars or discs in use:", wanted);
        }
    }
}

/* --- bells --- */

static void check_bell(struct room_check *check, int block)
{
    const struct room_row *first = NULL;
    for (size_t i = 0; i < check->count; i++) {
        const struct room_row *row = &check->rows[i];
        if (row->block != block || (block == 0 && joins(check, row->athlete) != check->opening))
            continue;
        if (first && row->start != first->start)
            fault(check, row, "the bell rang at", first->start);
        first = first ? first : row;
    }
}

/* --- partners --- */

/* The group of ATHLETE: as named, else pairs in squad order of those who do partner work. */
static size_t group_of(const struct room_check *check, int athlete, int *members)
{
    const struct room *room = check->room;
    size_t count = 0;
    for (size_t i = 0; i < room->group_count; i++) {
        bool own = false;
        for (size_t j = 0; j < room->groups[i].count; j++)
            own |= room->groups[i].members[j] == athlete;
        for (size_t j = 0; own && j < room->groups[i].count; j++)
            members[count++] = room->groups[i].members[j];
    }
    if (room->group_count)
        return count;
    int all[CHECK_MOST];
    size_t n = 0, at = 0;
    for (size_t i = 0; i < room->athlete_count; i++) {
        bool partner = false;
        for (size_t j = 0; j < room->block_count; j++) {
            const struct room_part *part = &room->athletes[i].parts[j];
            for (size_t k = 0; !room->blocks[j].bell && k < part->set_count; k++) {
                for (size_t m = 0; m < part->sets[k].item_count; m++)
                    partner |= part->sets[k].items[m].partner;
            }
        }
        if (partner)
            all[n++] = (int)i;
    }
    while (at < n && all[at] != athlete)
        at++;
    size_t first = at / 2 * 2;
    if (n % 2 && n > 1 && first + 1 == n)
        first -= 2;
    for (size_t i = first; at < n && i < n && i < first + 2 + (n % 2 && first + 3 == n); i++)
        members[count++] = all[i];
    return count;
}

static int holder_of(const struct room_check *check, int athlete)
{
    int members[CHECK_MOST];
    size_t count = group_of(check, athlete, members);
    for (size_t i = 0; count > 1 && i < count; i++) {
        if (members[i] == athlete)
            return members[(i + 1) % count];
    }
    return ROOM_NONE;
}

static void check_holding(struct room_check *check, const struct room_row *row)
{
    int holder = holder_of(check, row->athlete), pause = check->room->changeover;
    if (holder == ROOM_NONE) {
        fault(check, row, "nobody holds", 0);
        return;
    }
    if (row->start < check->room->athletes[holder].arrival)
        fault(check, row, "the holder comes at", check->room->athletes[holder].arrival);
    for (size_t i = 0; i < check->count; i++) {
        const struct room_row *other = &check->rows[i];
        if (other->athlete == holder && other->start < row->end + pause && row->start < other->end + pause)
            fault(check, row, "the holder works at", other->start);
        if (other != row && !is_bell(check, other) && item_of(check, other)->partner
            && holder_of(check, other->athlete) == holder && other->start < row->end && row->start < other->end)
            fault(check, row, "the holder holds for another at", other->start);
    }
}

static bool is_in(const int *members, size_t count, int athlete)
{
    for (size_t i = 0; i < count; i++) {
        if (members[i] == athlete)
            return true;
    }
    return false;
}

/* The group of ROW's athlete has come before the block begins, and nobody leaves it before the last is through. */
static void check_group(struct room_check *check, const struct room_row *row)
{
    int members[CHECK_MOST], start = row->start, end = row->end, between = check->room->between;
    size_t count = group_of(check, row->athlete, members);
    for (size_t i = 0; i < check->count; i++) {
        const struct room_row *other = &check->rows[i];
        if (other->block != row->block || !is_in(members, count, other->athlete))
            continue;
        start = other->start < start ? other->start : start;
        end = other->end > end ? other->end : end;
    }
    for (size_t i = 0; i < check->count; i++) {
        const struct room_row *other = &check->rows[i];
        if (other->block == row->block || !is_in(members, count, other->athlete)
            || !check->room->athletes[other->athlete].parts[row->block].set_count)
            continue;
        bool before = other->end + between <= start, behind = other->start >= end + between;
        if (!before && !behind)
            fault(check, other, "the group is in a block of partners from", start);
    }
}

/* --- all of it --- */

struct room_check room_check(const struct room *room, const struct room_row *rows, size_t count)
{
    struct room_check check = {.room = room, .rows = rows, .count = count};
    find_opening(&check);
    for (size_t i = 0; i < count; i++)
        check_row(&check, &rows[i]);
    if (check.faults.length)
        return check;
    for (size_t i = 0; i < room->athlete_count; i++)
        check_athlete(&check, (int)i);
    for (size_t i = 0; i < count; i++)
        check_needs(&check, &rows[i]);
    for (size_t i = 0; i < room->kind_count; i++) {
        for (int number = 1; number <= room->kinds[i].count; number++)
            check_unit(&check, (int)i, number);
    }
    check_stock(&check);
    for (size_t i = 0; i < room->block_count; i++) {
        if (room->blocks[i].bell)
            check_bell(&check, (int)i);
    }
    for (size_t i = 0; i < count; i++) {
        if (is_bell(&check, &rows[i]) || !item_of(&check, &rows[i])->partner)
            continue;
        check_holding(&check, &rows[i]);
        check_group(&check, &rows[i]);
    }
    return check;
}

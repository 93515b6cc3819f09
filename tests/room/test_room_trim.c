/* A session cut to the time there is: against all cuts there are, on random sessions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "room/room_check.c"
#include "room/trim.h"

enum { SESSIONS = 300, SQUADS = 40, BLOCKS_MOST = 5, LINES_MOST = 2, ATHLETES_MOST = 3 };

struct maker {
    struct arena *arena;
    uint64_t chance;
};

static int pick(struct maker *maker, int from, int to)
{
    maker->chance ^= maker->chance >> 12;
    maker->chance ^= maker->chance << 25;
    maker->chance ^= maker->chance >> 27;
    return from + (int)((maker->chance * UINT64_C(2685821657736338717) >> 33) % (unsigned)(to - from + 1));
}

/* --- sessions at random --- */

static struct room_part bell_part(struct maker *maker, int seconds)
{
    struct room_item *item = arena_alloc(maker->arena, sizeof *item);
    struct room_set *set = arena_alloc(maker->arena, sizeof *set);
    *item = (struct room_item){.name = "rounds", .work = seconds, .gap_most = ROOM_ANY_GAP};
    *set = (struct room_set){.items = item, .item_count = 1};
    return (struct room_part){set, 1};
}

/* Lines one behind the other, each with warm-up sets or none. */
static struct room_part lines_part(struct maker *maker, const int *sets, int lines, bool rack)
{
    static const struct room_need need = {0, 1};
    struct room_set *all = arena_alloc(maker->arena, 16 * sizeof *all);
    struct room_part part = {.sets = all};
    for (int i = 0; i < lines; i++) {
        struct room_item *item = arena_alloc(maker->arena, sizeof *item);
        *item = (struct room_item){.name = "lift", .work = 10 * pick(maker, 2, 6), .gap_most = ROOM_ANY_GAP,
                                   .needs = &need, .need_count = rack};
        int rest = 30 * pick(maker, 1, 4);
        bool ramp = pick(maker, 1, 4) == 1;
        for (int j = 0; j < sets[i] + ramp; j++)
            all[part.set_count++] = (struct room_set){item, 1, rest, i, ramp && j == 0};
    }
    return part;
}

static struct room make_room(struct maker *maker, int athletes, int blocks_most)
{
    static const char *const names[] = {"A", "B", "C", "D", "E"}, *const people[] = {"Ama", "Bram", "Cosima"};
    static const struct room_kind rack = {"rack", "racks", 1, false, false};
    static const int rounds[] = {0, 90, 180, 270};
    int count = pick(maker, 2, blocks_most);
    struct room_block *blocks = arena_alloc(maker->arena, BLOCKS_MOST * sizeof *blocks);
    struct room_athlete *squad = arena_alloc(maker->arena, ATHLETES_MOST * sizeof *squad);
    for (int i = 0; i < athletes; i++)
        squad[i] = (struct room_athlete){people[i], 0, arena_alloc(maker->arena, BLOCKS_MOST * sizeof(struct room_part))};
    for (int i = 0; i < count; i++) {
        int sets[LINES_MOST] = {pick(maker, 1, 3), pick(maker, 1, 2)}, lines = pick(maker, 1, LINES_MOST);
        blocks[i] = (struct room_block){.name = names[i], .keep = pick(maker, 0, 3), .bell = pick(maker, 1, 4) == 1,
                                        .care = pick(maker, 1, 8) == 1,
                                        .least = pick(maker, 1, 5) == 1 ? 30 * pick(maker, 1, 5) : 0};
        if (blocks[i].bell) {
            blocks[i].rounds = rounds;
            blocks[i].round_count = (size_t)pick(maker, 1, 4);
        }
        bool on_rack = pick(maker, 0, 1);
        for (int j = 0; j < athletes; j++)
            ((struct room_part *)squad[j].parts)[i] =
                blocks[i].bell ? bell_part(maker, rounds[blocks[i].round_count - 1] + 60)
                               : lines_part(maker, sets, lines, on_rack);
    }
    return (struct room){.kinds = &rack, .kind_count = 1, .blocks = blocks, .block_count = (size_t)count,
                         .athletes = squad, .athlete_count = (size_t)athletes, .changeover = 20, .disc = 8,
                         .between = 120, .doors = ROOM_NONE};
}

/* --- all cuts there are --- */

/* What is lost, the worst first: blocks and sets of keep 2, of keep 3, then how early. */
struct loss {
    int parts[5];
};

static int compare(const struct loss *a, const struct loss *b)
{
    for (int i = 0; i < 5; i++) {
        if (a->parts[i] != b->parts[i])
            return a->parts[i] < b->parts[i] ? -1 : 1;
    }
    return 0;
}

static struct loss loss_of(const struct room *room, const struct room_cut *cut)
{
    struct loss loss = {{0}};
    for (int i = 0; i < (int)room->block_count; i++) {
        int at = room->blocks[i].keep == 2 ? 0 : 2, sets = 0;
        for (size_t j = 0; j < cut->line_count; j++) {
            if (cut->lines[j].block == i)
                sets += cut->dropped[i] ? cut->lines[j].sets : cut->lines[j].off;
        }
        loss.parts[at] += cut->dropped[i];
        loss.parts[at + 1] += sets;
        loss.parts[4] += sets * ((int)room->block_count - i);
    }
    return loss;
}

/* Seconds of a block after the cut, worked out from the sets that stay. */
static int seconds_left(const struct room *room, const struct room_cut *cut, int athlete, int block)
{
    const struct room_part *part = &room->athletes[athlete].parts[block];
    int seconds = 0, rest = 0, done[LINES_MOST] = {0};
    if (cut->dropped[block])
        return 0;
    for (size_t i = 0; i < part->set_count; i++) {
        const struct room_set *set = &part->sets[i];
        const struct room_line *line = cut->lines;
        while (line->block != block || line->line != set->line)
            line++;
        if (room->blocks[block].bell)
            return set->items[0].work - 90 * line->off;
        if (!set->ramp && ++done[set->line] > line->sets - line->off)
            continue;
        seconds += rest + set->items[0].work;
        rest = set->rest;
    }
    return seconds;
}

static bool is_allowed(const struct room *room, const struct room_cut *cut)
{
    for (int i = 0; i < (int)room->block_count; i++) {
        const struct room_block *block = &room->blocks[i];
        bool touched = cut->dropped[i];
        for (size_t j = 0; j < cut->line_count; j++)
            touched |= cut->lines[j].block == i && cut->lines[j].off > 0;
        if (!touched)
            continue;
        if (block->keep < 2 || block->care)
            return false;
        for (int j = 0; j < (int)room->athlete_count; j++) {
            if (seconds_left(room, cut, j, i) < block->least)
                return false;
        }
    }
    return true;
}

static int finish_of(struct arena *arena, const struct room *room, const struct room_cut *cut)
{
    int finish = 0;
    if (room->athlete_count > 1)
        return room_solve(arena, room_with_cut(arena, room, cut))->finish;
    for (int i = 0; i < (int)room->block_count; i++) {
        int seconds = seconds_left(room, cut, 0, i);
        finish += seconds ? seconds + (finish ? room->between : 0) : 0;
    }
    return finish;
}

/* The next cut of all; false: that was the last. */
static bool next_cut(const struct room *room, struct room_cut *cut)
{
    for (size_t i = 0; i < cut->line_count; i++) {
        if (++cut->lines[i].off < cut->lines[i].sets)
            return true;
        cut->lines[i].off = 0;
    }
    for (size_t i = 0; i < room->block_count; i++) {
        cut->dropped[i] = !cut->dropped[i];
        if (cut->dropped[i])
            return true;
    }
    return false;
}

/* A block that is left out has no sets off besides. */
static bool is_plain(const struct room_cut *cut)
{
    for (size_t i = 0; i < cut->line_count; i++) {
        if (cut->dropped[cut->lines[i].block] && cut->lines[i].off)
            return false;
    }
    return true;
}

/* Whether some cut fits, and the least loss of those that do. */
static bool best_of_all(struct arena *arena, const struct room *room, int seconds, struct loss *best)
{
    struct room_cut cut = room_cut_none(arena, room);
    bool found = false;
    do {
        if (!is_plain(&cut) || !is_allowed(room, &cut))
            continue;
        struct loss loss = loss_of(room, &cut);
        if ((found && compare(&loss, best) >= 0) || finish_of(arena, room, &cut) > seconds)
            continue;
        *best = loss;
        found = true;
    } while (next_cut(room, &cut));
    return found;
}

/* --- the comparison --- */

static void compare_with_all(struct maker *maker, int athletes, int blocks, int *cuts, int *hopeless)
{
    struct room room = make_room(maker, athletes, blocks);
    int finish = room_solve(maker->arena, &room)->finish, seconds = finish - finish * pick(maker, 1, 7) / 10;
    const struct room_trim *trim = room_trim(maker->arena, &room, seconds);
    struct loss best, loss;
    bool found = best_of_all(maker->arena, &room, seconds, &best);
    assert_non_null(trim);
    assert_int_equal(trim->fits, found);
    assert_int_equal(trim->loss, room_loss(&room, &trim->cut));
    struct room_check check = room_check(trim->room, trim->table->rows, trim->table->row_count);
    assert_string_equal(text_get(&check.faults), "");
    text_free(&check.faults);
    *hopeless += !found;
    if (!found)
        return;
    loss = loss_of(&room, &trim->cut);
    assert_true(trim->table->finish <= seconds);
    assert_true(is_allowed(&room, &trim->cut));
    assert_int_equal(compare(&loss, &best), 0);
    assert_true(athletes > 1 || trim->proven);
    *cuts += 1;
}

static void no_cut_loses_less(void **state)
{
    (void)state;
    int cuts = 0, hopeless = 0;
    for (int i = 0; i < SESSIONS; i++) {
        struct maker maker = {arena_new(), (uint64_t)(i + 1) * UINT64_C(0x9e3779b97f4a7c15)};
        bool squad = i < SQUADS;
        compare_with_all(&maker, squad ? pick(&maker, 2, ATHLETES_MOST) : 1, squad ? 3 : BLOCKS_MOST, &cuts, &hopeless);
        arena_free(maker.arena);
    }
    assert_true(cuts > SESSIONS / 3);
    assert_true(hopeless > SESSIONS / 10);
}

static void what_is_in_time_stays_whole(void **state)
{
    (void)state;
    struct maker maker = {arena_new(), 7};
    struct room room = make_room(&maker, 1, 4);
    int finish = room_solve(maker.arena, &room)->finish;
    const struct room_trim *trim = room_trim(maker.arena, &room, finish);
    assert_true(trim->fits && trim->proven);
    assert_int_equal(trim->loss, 0);
    assert_string_equal(room_cut_words(maker.arena, &room, &trim->cut), "");
    arena_free(maker.arena);
}

/* Three blocks of three sets, 30 s of work and 60 s of rest: 3 x 210 + 240 = 870 s. */
static void sets_go_before_blocks_and_keep_3_before_keep_2(void **state)
{
    (void)state;
    static const struct {
        int seconds;
        const char *words;
    } cases[] = {
        {870, ""},
        {780, "one set fewer of C"},
        {779, "two sets fewer of C"},
        {690, "two sets fewer of C"},
        {689, "without C"},
        {540, "without C"},
        {539, "one set fewer of B and without C"},
        {360, "two sets fewer of B and without C"},
        {359, "without B and without C"},
        {210, "without B and without C"},
    };
    struct arena *arena = arena_new();
    struct room_item item = {.name = "lift", .work = 30, .gap_most = ROOM_ANY_GAP};
    const struct room_set sets[] = {{&item, 1, 60, 0, false}, {&item, 1, 60, 0, false}, {&item, 1, 60, 0, false}};
    const struct room_part parts[] = {{sets, 3}, {sets, 3}, {sets, 3}};
    const struct room_block blocks[] = {{.name = "A", .keep = 1}, {.name = "B", .keep = 2}, {.name = "C", .keep = 3}};
    const struct room_athlete athlete = {"Ama", 0, parts};
    const struct room room = {.blocks = blocks, .block_count = 3, .athletes = &athlete, .athlete_count = 1,
                              .changeover = 20, .disc = 8, .between = 120, .doors = ROOM_NONE};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct room_trim *trim = room_trim(arena, &room, cases[i].seconds);
        assert_true(trim->fits && trim->proven);
        assert_string_equal(room_cut_words(arena, &room, &trim->cut), cases[i].words);
        assert_true(trim->table->finish <= cases[i].seconds);
    }
    const struct room_trim *trim = room_trim(arena, &room, 209);
    assert_false(trim->fits);
    assert_int_equal(trim->table->finish, 210);
    assert_int_equal(trim->table->over, 1);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_in_time_stays_whole),
        cmocka_unit_test(sets_go_before_blocks_and_keep_3_before_keep_2),
        cmocka_unit_test(no_cut_loses_less),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

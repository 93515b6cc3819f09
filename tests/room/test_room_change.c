/* A room with something changed: each change does what it says, and leaves the rest, and the room it is made from, alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "room/change.h"
#include "room/propose.h"

enum { PEOPLE = 3, BLOCKS = 3, RACK = 0, BAG = 1, KINDS = 2 };

/* Block A has two lines in turn, of which the first has a warm-up set; B is a bell of four rounds; C one line. Ama does all, Bram
 * a set less of A's first line and no C, Cosima no A. */
struct bench {
    struct arena *arena;
    struct room_item lift[2], bag, push;
    struct room_set a[PEOPLE][6], b, c[3];
    struct room_part parts[PEOPLE][BLOCKS];
    struct room_athlete athletes[PEOPLE];
    struct room_block blocks[BLOCKS];
    struct room_kind kinds[KINDS];
    struct room_substitute substitutes[2];
    struct room room;
};

static const int rounds[] = {0, 90, 180, 300};
static const struct room_need one_bag = {BAG, 1};

static void bench_open(struct bench *bench)
{
    *bench = (struct bench){.arena = arena_new()};
    bench->lift[0] = (struct room_item){.name = "squat", .work = 40};
    bench->lift[1] = (struct room_item){.name = "jump", .work = 10, .gap_least = 30};
    bench->bag = (struct room_item){.name = "bag", .work = 360, .needs = &one_bag, .need_count = 1};
    bench->push = (struct room_item){.name = "push-up", .work = 20};
    for (int who = 0; who < PEOPLE; who++)
        for (int set = 0; set < 6; set++)
            bench->a[who][set] = (struct room_set){.items = bench->lift, .item_count = set < 4 ? 2 : 1, .rest = 100,
                                                   .line = set < 4 ? 0 : 1, .ramp = set == 0};
    bench->b = (struct room_set){.items = &bench->bag, .item_count = 1};
    for (int set = 0; set < 3; set++)
        bench->c[set] = (struct room_set){.items = &bench->push, .item_count = 1, .rest = 50};
    bench->parts[0][0] = (struct room_part){bench->a[0], 6};
    bench->parts[1][0] = (struct room_part){bench->a[1] + 1, 5}; /* without the warm-up */
    for (int who = 0; who < PEOPLE; who++)
        bench->parts[who][1] = (struct room_part){&bench->b, 1};
    bench->parts[0][2] = bench->parts[2][2] = (struct room_part){bench->c, 3};
    static const char *const names[] = {"Ama Tidewell", "Bram Oxlade", "Cosima Pell"}, *const letters[] = {"A", "B", "C"};
    for (int who = 0; who < PEOPLE; who++)
        bench->athletes[who] = (struct room_athlete){names[who], 0, bench->parts[who]};
    for (int i = 0; i < BLOCKS; i++)
        bench->blocks[i] = (struct room_block){.name = letters[i], .bell = i == 1, .keep = i + 1};
    bench->blocks[1].rounds = rounds;
    bench->blocks[1].round_count = 4;
    bench->kinds[RACK] = (struct room_kind){"rack", "racks", 1, true, false};
    bench->kinds[BAG] = (struct room_kind){"bag", "bags", 3, false, false};
    bench->room = (struct room){.kinds = bench->kinds, .kind_count = KINDS, .blocks = bench->blocks, .block_count = BLOCKS,
                                .athletes = bench->athletes, .athlete_count = PEOPLE, .doors = ROOM_NONE};
}

static size_t sets_in(const struct room *room, int who, int block)
{
    return room->athletes[who].parts[block].set_count;
}

/* --- cuts --- */

static void nothing_is_cut_at_first(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    struct room_cut cut = room_cut_none(bench.arena, &bench.room);
    static const struct room_line lines[] = {{0, 0, 3, 0}, {0, 1, 2, 0}, {1, 0, 4, 0}, {2, 0, 3, 0}};
    assert_int_equal(cut.line_count, 4);
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(cut.lines[i].block, lines[i].block);
        assert_int_equal(cut.lines[i].line, lines[i].line);
        assert_int_equal(cut.lines[i].sets, lines[i].sets);
        assert_int_equal(cut.lines[i].off, 0);
    }
    for (int i = 0; i < BLOCKS; i++)
        assert_false(cut.dropped[i]);
    struct room_cut copy = room_cut_copy(bench.arena, &bench.room, &cut);
    copy.lines[3].off = 2;
    copy.dropped[2] = true;
    assert_int_equal(cut.lines[3].off, 0);
    assert_false(cut.dropped[2]);
    assert_int_equal(copy.lines[2].sets, 4);
    bench.blocks[1].round_count = 0; /* it rings once */
    assert_int_equal(room_cut_none(bench.arena, &bench.room).lines[2].sets, 1);
    arena_free(bench.arena);
}

static void what_may_be_cut(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    static const bool may[] = {false, false, true, true};
    for (int keep = 0; keep < 4; keep++) {
        bench.blocks[2].keep = keep;
        assert_int_equal(room_may_cut(&bench.room, 2), may[keep]);
    }
    bench.blocks[2].care = true;
    assert_false(room_may_cut(&bench.room, 2));
    arena_free(bench.arena);
}

/* Sets go from the end of a line; the warm-up stays, and so does one set. */
static void sets_go_from_the_end(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    static const struct {
        int line, off;
        size_t ama, bram;
    } cases[] = {{0, 1, 5, 4}, {0, 2, 4, 3}, {0, 3, 4, 3}, {0, 9, 4, 3}, {1, 1, 5, 4}, {1, 2, 5, 4}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct room_cut cut = room_cut_none(bench.arena, &bench.room);
        cut.lines[cases[i].line].off = cases[i].off;
        const struct room *less = room_with_cut(bench.arena, &bench.room, &cut);
        assert_int_equal(sets_in(less, 0, 0), cases[i].ama);
        assert_int_equal(sets_in(less, 1, 0), cases[i].bram);
        assert_int_equal(sets_in(less, 2, 0), 0);
        assert_int_equal(sets_in(less, 0, 2), 3);
        const struct room_part *ama = &less->athletes[0].parts[0];
        assert_true(ama->sets[0].ramp);
        assert_int_equal(ama->sets[1].line, 0);
        assert_int_equal(ama->sets[ama->set_count - 1].line, 1);
        assert_int_equal(sets_in(&bench.room, 0, 0), 6);
    }
    arena_free(bench.arena);
}

/* Four rounds from 0, 90, 180 and 300 s on, all in all 360 s. */
static void rounds_go_from_the_end(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    static const struct {
        int off;
        size_t rounds;
        int work;
    } cases[] = {{1, 3, 240}, {2, 2, 150}, {3, 1, 60}, {4, 1, 60}, {9, 1, 60}};
    bench.parts[1][1].set_count = 0;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct room_cut cut = room_cut_none(bench.arena, &bench.room);
        cut.lines[2].off = cases[i].off;
        const struct room *less = room_with_cut(bench.arena, &bench.room, &cut);
        assert_int_equal(less->blocks[1].round_count, cases[i].rounds);
        assert_int_equal(less->athletes[0].parts[1].sets[0].items[0].work, cases[i].work);
        assert_int_equal(less->athletes[2].parts[1].sets[0].items[0].work, cases[i].work);
        assert_int_equal(sets_in(less, 1, 1), 0);
        assert_int_equal(bench.bag.work, 360);
        assert_int_equal(bench.blocks[1].round_count, 4);
    }
    bench.blocks[1].round_count = 1;
    struct room_cut cut = room_cut_none(bench.arena, &bench.room);
    cut.lines[2].off = 1;
    assert_int_equal(room_with_cut(bench.arena, &bench.room, &cut)->athletes[0].parts[1].sets[0].items[0].work, 360);
    arena_free(bench.arena);
}

static void a_block_that_is_dropped_is_done_by_nobody(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    struct room_cut cut = room_cut_none(bench.arena, &bench.room);
    cut.dropped[1] = true;
    cut.lines[2].off = 1;
    const struct room *less = room_with_cut(bench.arena, &bench.room, &cut);
    assert_int_equal(less->block_count, BLOCKS);
    assert_int_equal(less->blocks[1].round_count, 4);
    for (int who = 0; who < PEOPLE; who++)
        assert_int_equal(sets_in(less, who, 1), 0);
    assert_int_equal(sets_in(less, 0, 0), 6);
    assert_int_equal(sets_in(less, 2, 2), 3);
    arena_free(bench.arena);
}

/* Ama's four sets of two items, 40 + 30 + 10 s, two of one, 40 s, and five rests of 100 s. */
static void how_long_a_block_takes(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    assert_int_equal(room_block_seconds(&bench.room, 0, 0), 4 * 80 + 2 * 40 + 5 * 100);
    assert_int_equal(room_block_seconds(&bench.room, 1, 0), 3 * 80 + 2 * 40 + 4 * 100);
    assert_int_equal(room_block_seconds(&bench.room, 2, 0), 0);
    assert_int_equal(room_block_seconds(&bench.room, 0, 2), 3 * 20 + 2 * 50);
    arena_free(bench.arena);
}

/* --- in words --- */

static void cuts_in_words(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    static const struct {
        int off[4];
        bool dropped[BLOCKS];
        const char *words;
    } cases[] = {
        {{0}, {false}, ""},
        {{1}, {false}, "one set fewer of A"},
        {{1, 1}, {false}, "two sets fewer of A"},
        {{0, 0, 1}, {false}, "one round fewer of B"},
        {{0, 0, 3}, {false}, "three rounds fewer of B"},
        {{0, 2, 3}, {false, false, true}, "two sets fewer of A, three rounds fewer of B and without C"},
        {{3, 0, 3}, {true, false, true}, "without A, three rounds fewer of B and without C"},
        {{3, 3, 0, 6}, {false}, "six sets fewer of A and six sets fewer of C"},
        {{3, 4}, {false}, "7 sets fewer of A"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct room_cut cut = room_cut_none(bench.arena, &bench.room);
        for (size_t line = 0; line < 4; line++)
            cut.lines[line].off = cases[i].off[line];
        memcpy(cut.dropped, cases[i].dropped, sizeof cases[i].dropped);
        assert_string_equal(room_cut_words(bench.arena, &bench.room, &cut), cases[i].words);
    }
    assert_string_equal(room_number_words(bench.arena, 0), "no");
    assert_string_equal(room_number_words(bench.arena, 6), "six");
    assert_string_equal(room_number_words(bench.arena, 7), "7");
    assert_string_equal(room_number_words(bench.arena, -1), "-1");
    arena_free(bench.arena);
}

static void what_was_tried_in_words(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    assert_null(room_tried_words(arena, 0));
    assert_string_equal(room_tried_words(arena, 1U << REMEDY_BELLS), "more bells");
    assert_string_equal(room_tried_words(arena, 1U << REMEDY_FEWER | 1U << REMEDY_WAVES | 1U << REMEDY_SUBSTITUTE),
                        "waves, other exercises for the scarce kit, fewer sets of what has `keep` 2 or 3");
    assert_string_equal(room_tried_words(arena, 1U << REMEDY_ANY_ORDER | 1U << REMEDY_MOVE), "any order, another order of blocks");
    arena_free(arena);
}

/* --- orders --- */

static void blocks_that_may_change_places(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    const struct room *changed = room_with_order(bench.arena, &bench.room, 1, 2, ROOM_WAVES);
    assert_int_equal(changed->order, ROOM_WAVES);
    for (int i = 0; i < BLOCKS; i++) {
        assert_int_equal(changed->blocks[i].free, i > 0);
        assert_false(bench.blocks[i].free);
    }
    arena_free(bench.arena);
}

static void a_block_that_moves(void **state)
{
    (void)state;
    static const struct {
        int from, to;
        const char *order;
    } cases[] = {{0, 2, "BCA"}, {2, 0, "CAB"}, {0, 1, "BAC"}, {1, 0, "BAC"}, {1, 2, "ACB"}, {2, 1, "ACB"}, {1, 1, "ABC"}};
    struct bench bench;
    bench_open(&bench);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct room *moved = room_with_move(bench.arena, &bench.room, cases[i].from, cases[i].to);
        for (int block = 0; block < BLOCKS; block++) {
            assert_int_equal(moved->blocks[block].name[0], cases[i].order[block]);
            for (int who = 0; who < PEOPLE; who++)
                assert_ptr_equal(moved->athletes[who].parts[block].sets, bench.parts[who][cases[i].order[block] - 'A'].sets);
        }
    }
    arena_free(bench.arena);
}

/* --- bells and substitutes --- */

/* As many bells as it takes; those behind it keep their work. */
static void one_bell_becomes_several(void **state)
{
    (void)state;
    for (int bags = 0; bags < 4; bags++) {
        struct bench bench;
        bench_open(&bench);
        bench.kinds[BAG].count = bags;
        const struct room *more = room_with_bells(bench.arena, &bench.room, 1);
        static const size_t counts[] = {0, 5, 4, 3};
        static const char *const names[] = {"", "ABBBC", "ABBC", "ABC"};
        static const int bells[][PEOPLE] = {{0}, {1, 2, 3}, {1, 1, 2}, {1, 1, 1}};
        if (!bags) {
            assert_null(more);
            arena_free(bench.arena);
            continue;
        }
        assert_int_equal(more->block_count, counts[bags]);
        for (int block = 0; block < (int)more->block_count; block++) {
            assert_int_equal(more->blocks[block].name[0], names[bags][block]);
            for (int who = 0; who < PEOPLE; who++) {
                bool bell = names[bags][block] == 'B';
                const struct room_part *was = &bench.parts[who][names[bags][block] - 'A'];
                assert_int_equal(sets_in(more, who, block), !bell || bells[bags][who] == block ? was->set_count : 0);
            }
        }
        arena_free(bench.arena);
    }
}

static void who_leaves_the_bell_out_takes_no_bag(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    bench.kinds[BAG].count = 2;
    bench.parts[0][1].set_count = 0;
    const struct room *same = room_with_bells(bench.arena, &bench.room, 1);
    assert_int_equal(same->block_count, BLOCKS);
    assert_int_equal(sets_in(same, 0, 1), 0);
    assert_int_equal(sets_in(same, 2, 1), 1);
    arena_free(bench.arena);
}

static void some_do_a_substitute(void **state)
{
    (void)state;
    struct bench bench;
    bench_open(&bench);
    bench.substitutes[0] = (struct room_substitute){0, 0, RACK, {bench.c, 3}, "push-up"};
    bench.substitutes[1] = (struct room_substitute){1, 0, RACK, {bench.c, 2}, "push-up"};
    bench.room.substitutes = bench.substitutes;
    bench.room.substitute_count = 2;
    const bool second[] = {false, true}, both[] = {true, true};
    const struct room *one = room_with_substitutes(bench.arena, &bench.room, second);
    assert_int_equal(sets_in(one, 0, 0), 6);
    assert_int_equal(sets_in(one, 1, 0), 2);
    const struct room *two = room_with_substitutes(bench.arena, &bench.room, both);
    assert_int_equal(sets_in(two, 0, 0), 3);
    assert_int_equal(sets_in(two, 1, 0), 2);
    assert_int_equal(sets_in(two, 2, 0), 0);
    assert_int_equal(sets_in(&bench.room, 0, 0), 6);
    arena_free(bench.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_cut_at_first),
        cmocka_unit_test(what_may_be_cut),
        cmocka_unit_test(sets_go_from_the_end),
        cmocka_unit_test(rounds_go_from_the_end),
        cmocka_unit_test(a_block_that_is_dropped_is_done_by_nobody),
        cmocka_unit_test(how_long_a_block_takes),
        cmocka_unit_test(cuts_in_words),
        cmocka_unit_test(what_was_tried_in_words),
        cmocka_unit_test(blocks_that_may_change_places),
        cmocka_unit_test(a_block_that_moves),
        cmocka_unit_test(one_bell_becomes_several),
        cmocka_unit_test(who_leaves_the_bell_out_takes_no_bag),
        cmocka_unit_test(some_do_a_substitute),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

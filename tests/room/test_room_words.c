/* What a timetable and its kit amount to, in words, for tables that are made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "room/room.h"

static struct room_kind kinds[] = {{"rack", "racks", 1, true, false}, {"20 kg dumbbell", "20 kg dumbbells", 2, false, false},
                                   {"thing of ours", "things of ours", 3, false, false}};
static const struct room_block blocks[] = {{.name = "A"}, {.name = "rounds", .bell = true}};
static struct room_unit on_rack[] = {{.kind = 0}};
static const struct room_row rows[] = {{.block = 0, .set = 2, .units = on_rack, .unit_count = 1}, {.block = 0, .set = 0},
                                       {.block = 1, .set = 1}};

/* Spaces of all kinds as plain ones. */
static const char *plain(struct arena *arena, const char *words)
{
    char *out = arena_alloc(arena, strlen(words) + 1);
    size_t length = 0;
    for (; *words; words++) {
        bool gap = strncmp(words, "\xc2\xa0", 2) == 0;
        out[length++] = gap ? ' ' : *words;
        words += gap;
    }
    out[length] = '\0';
    return out;
}

static void expect_words(struct arena *arena, const char *words, const char *expected)
{
    assert_string_equal(words ? plain(arena, words) : "", expected);
}

/* --- what is busy --- */

static void how_long_each_piece_is_busy(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const struct room room = {.kinds = kinds, .kind_count = 3};
    static const struct room_busy busy[] = {{0, 1, 750}, {1, 1, 89}, {1, 2, 90}, {2, 1, 600}, {2, 2, 540}, {2, 3, 0}};
    struct room_table table = {.busy = busy, .busy_count = 6, .finish = 1529};
    static const char *const expected[] = {"rack: 13 of 25 min busy", "20 kg dumbbells: 1 and 2 of 25 min busy",
                                           "things of ours: 10, 9 and 0 of 25 min busy"};
    for (int kind = 0; kind < 3; kind++) {
        table.bottleneck = kind;
        expect_words(arena, room_bottleneck_words(arena, &room, &table), expected[kind]);
    }
    table.bottleneck = ROOM_NONE;
    expect_words(arena, room_bottleneck_words(arena, &room, &table), "kit delays nobody's end");
    arena_free(arena);
}

/* --- who waits --- */

static void expect_wait(int wait, int before, const char *expected)
{
    struct arena *arena = arena_new();
    static const struct room_athlete athletes[] = {{.name = "Ama Tidewell"}, {.name = "Bram Oxlade"}};
    const struct room room = {.kinds = kinds, .kind_count = 3, .blocks = blocks, .block_count = 2, .athletes = athletes, .athlete_count = 2};
    const struct room_fare fares[] = {{.wait = 600}, {.wait = wait, .before = before}};
    const struct room_table table = {.fares = fares, .rows = rows, .row_count = 3};
    expect_words(arena, room_wait_words(arena, &room, &table, 1), expected);
    arena_free(arena);
}

static void who_waits_and_before_what(void **state)
{
    (void)state;
    expect_wait(14, 0, "");
    expect_wait(15, ROOM_NONE, "Bram Oxlade waits 15 s more than planned");
    expect_wait(59, 0, "Bram Oxlade waits 59 s more than planned, most of it before A3 (rack)");
    expect_wait(60, 1, "Bram Oxlade waits 1 min more than planned, most of it before A1");
    expect_wait(89, 2, "Bram Oxlade waits 1 min more than planned, most of it before the bell of rounds");
    expect_wait(90, ROOM_NONE, "Bram Oxlade waits 2 min more than planned");
}

static void the_earliest_or_how_early_it_could_be(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    expect_words(arena, room_bound_words(arena, &(struct room_table){.finish = 600, .bound = 600}), "this is the earliest possible");
    expect_words(arena, room_bound_words(arena, &(struct room_table){.finish = 601, .bound = 600}), "no timetable ends before 10 min");
    expect_words(arena, room_bound_words(arena, &(struct room_table){.finish = 700, .bound = 659}), "no timetable ends before 10 min");
    arena_free(arena);
}

/* --- too many --- */

enum { PEOPLE = 4 };

/* Each works for so many seconds at the rack, in two sets; 0: not at all. */
static void expect_too_many(const int seconds[PEOPLE], int racks, int doors, const char *expected)
{
    struct arena *arena = arena_new();
    static const struct room_need rack = {0, 1}, ball = {1, 1};
    struct room_kind kit[] = {{"rack", "racks", racks, true, false}, {"ball", "balls", 9, false, false}};
    struct room_item items[PEOPLE][2];
    struct room_set sets[PEOPLE][2];
    struct room_part parts[PEOPLE];
    struct room_athlete athletes[PEOPLE];
    for (int i = 0; i < PEOPLE; i++) {
        for (int s = 0; s < 2; s++) {
            items[i][s] = (struct room_item){.name = "press", .work = s ? seconds[i] - seconds[i] / 3 : seconds[i] / 3,
                                             .needs = seconds[i] ? &rack : &ball, .need_count = 1};
            sets[i][s] = (struct room_set){.items = &items[i][s], .item_count = 1};
        }
        parts[i] = (struct room_part){sets[i], 2};
        athletes[i] = (struct room_athlete){.name = "somebody", .parts = &parts[i]};
    }
    const struct room room = {.kinds = kit, .kind_count = 2, .blocks = blocks, .block_count = 1, .athletes = athletes,
                              .athlete_count = PEOPLE, .doors = doors};
    expect_words(arena, room_serves_words(arena, &room), expected);
    arena_free(arena);
}

static void those_with_the_shortest_turns_fit_in(void **state)
{
    (void)state;
    const int turns[PEOPLE] = {900, 300, 0, 600};
    expect_too_many(turns, 1, 1800, "");
    expect_too_many(turns, 2, 900, "");
    expect_too_many(turns, 1, ROOM_NONE, "");
    expect_too_many(turns, 1, 1799, "the sets of 3 athletes take 30 min of work at 1 rack, which is there for 29 min: at most 2 of them fit in");
    expect_too_many(turns, 1, 900, "the sets of 3 athletes take 30 min of work at 1 rack, which is there for 15 min: at most 2 of them fit in");
    expect_too_many(turns, 1, 899, "the sets of 3 athletes take 30 min of work at 1 rack, which is there for 14 min: at most 1 of them fit in");
    expect_too_many(turns, 1, 299, "the sets of 3 athletes take 30 min of work at 1 rack, which is there for 4 min: at most 0 of them fit in");
    const int uneven[PEOPLE] = {601, 601, 601, 1};
    expect_too_many(uneven, 2, 600, "the sets of 4 athletes take 31 min of work at 2 racks, which are there for 10 min: at most 2 of them fit in");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_long_each_piece_is_busy),
        cmocka_unit_test(who_waits_and_before_what),
        cmocka_unit_test(the_earliest_or_how_early_it_could_be),
        cmocka_unit_test(those_with_the_shortest_turns_fit_in),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

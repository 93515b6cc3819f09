/* What is proposed where a session does not fit: each proposal is a timetable that does, and the cheapest comes first. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cases.h"
#include "room/propose.h"
#include "room/room_case.c"
#include "room/room_check.c"
#include "room/room_maker.c"

static void assert_valid(const struct room *room, const struct room_table *table)
{
    assert_null(table->refused);
    struct room_check check = room_check(room, table->rows, table->row_count);
    assert_string_equal(text_get(&check.faults), "");
    assert_int_equal(check.finish, table->finish);
    text_free(&check.faults);
}

static const struct room_proposal *propose(struct arena *arena, const struct room *room)
{
    unsigned tried;
    const struct room_proposal *proposal = room_propose(arena, room, room_solve(arena, room), &tried);
    if (proposal)
        assert_valid(proposal->room, proposal->table);
    return proposal;
}

static struct room_block *block(struct room *room, int at)
{
    return (struct room_block *)&room->blocks[at];
}

static void expect(const struct room_proposal *proposal, enum room_remedy remedy, const char *words, int finish)
{
    assert_non_null(proposal);
    assert_int_equal(proposal->remedy, remedy);
    assert_string_equal(proposal->words, words);
    assert_int_equal(proposal->table->finish, finish);
    assert_int_equal(proposal->table->over, 0);
}

/* --- one remedy each --- */

static void what_fits_needs_no_remedy(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/any-order.json");
    room_case.room.order = ROOM_AS_WRITTEN;
    room_case.room.doors = 1050;
    assert_null(propose(room_case.arena, &room_case.room));
    room_case_close(&room_case);
}

static void waves_come_first(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/any-order.json");
    room_case.room.order = ROOM_AS_WRITTEN;
    room_case.room.doors = 1049;
    block(&room_case.room, 1)->keep = 3;
    expect(propose(room_case.arena, &room_case.room), REMEDY_WAVES, "A and B in waves", 700);
    block(&room_case.room, 0)->fixed = true; /* a warm-up stays where it is, so that there is nothing to go round */
    expect(propose(room_case.arena, &room_case.room), REMEDY_FEWER, "one set fewer of B", 950);
    room_case_close(&room_case);
}

/* Two sets of 40 s with 120 s between them take two athletes 260 s at one rack, three take them 420 s. */
static void sets_go_by_keep_and_the_last_block_goes_first(void **state)
{
    (void)state;
    static const struct {
        int keep, least, doors;
        const char *words;
    } cases[] = {
        {3, 0, 419, "one set fewer of A"},
        {3, 0, 260, "one set fewer of A"},
        {2, 0, 259, "two sets fewer of A"},
        {3, 200, 259, NULL},   /* no less than 200 s of it, which two sets make */
        {3, 201, 419, NULL},
        {1, 0, 419, NULL},     /* what matters most stays */
        {0, 0, 419, NULL},     /* and what nothing was said of */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct room_case room_case = room_case_open("tests/room/cases/two-at-one-rack.json");
        room_case.room.doors = cases[i].doors;
        block(&room_case.room, 0)->keep = cases[i].keep;
        block(&room_case.room, 0)->least = cases[i].least;
        const struct room_proposal *proposal = propose(room_case.arena, &room_case.room);
        assert_string_equal(proposal ? proposal->words : "", cases[i].words ? cases[i].words : "");
        block(&room_case.room, 0)->care = true;
        assert_null(propose(room_case.arena, &room_case.room));
        room_case_close(&room_case);
    }
}

static void a_substitute_is_for_who_waits_longest(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/two-at-one-rack.json");
    struct room *room = &room_case.room;
    struct room_item item = {.name = "goblet squat", .work = 40, .gap_most = ROOM_ANY_GAP};
    const struct room_set sets[] = {{&item, 1, 120, 0, false}, {&item, 1, 120, 0, false}, {&item, 1, 120, 0, false}};
    const struct room_substitute substitutes[] = {
        {0, 0, 0, {sets, 3}, "goblet squat"},
        {1, 0, 0, {sets, 3}, "goblet squat"},
    };
    room->substitutes = substitutes;
    room->substitute_count = 2;
    room->doors = 419;
    expect(propose(room_case.arena, room), REMEDY_SUBSTITUTE, "Bram Oxlade does goblet squat", 360);
    room->doors = 359;
    assert_null(propose(room_case.arena, room));
    room_case_close(&room_case);
}

static void one_bell_for_too_few_bags_rings_twice(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/bags-at-one-bell.json");
    const struct room_proposal *proposal = propose(room_case.arena, &room_case.room);
    expect(proposal, REMEDY_BELLS,
           "two bells of A, one after the other: Ama Tidewell and Bram Oxlade, then Cosima Pell", 980);
    room_case_close(&room_case);
}

/* Where the coach has said already what may change places, whole blocks are moved. */
static void another_order_of_the_blocks_is_tried(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct room room = room_make(arena, 484);
    assert_int_equal(room.order, ROOM_WAVES);
    room.doors = 779;
    assert_true(room_solve(arena, &room)->over > 0);
    expect(propose(arena, &room), REMEDY_MOVE, "B before A", 694);
    for (size_t i = 0; i < room.block_count; i++)
        block(&room, (int)i)->fixed = true;
    assert_null(propose(arena, &room));
    arena_free(arena);
}

/* --- rooms at random --- */

enum { ROOMS = 1500, SAMPLE = 80 };

static void each_proposal_fits(void **state)
{
    (void)state;
    int counts[REMEDY_COUNT] = {0}, said = 0, unsaid = 0;
    const struct cases rooms = cases_of(ROOMS, SAMPLE);
    for (unsigned seed = rooms.from; seed < rooms.to; seed++) {
        struct arena *arena = arena_new();
        struct room room = room_make(arena, seed);
        const struct room_table *table = room_solve(arena, &room);
        for (size_t i = 0; i < room.block_count; i++)
            block(&room, (int)i)->keep = (int)i % 4;
        if (!table->refused) {
            room.doors = table->finish - table->finish / 8;
            const struct room_proposal *proposal = propose(arena, &room);
            if (proposal) {
                counts[proposal->remedy]++;
                assert_true(proposal->table->finish <= room.doors);
            }
            room.doors = table->finish / 2;
            const char *words = room_serves_words(arena, &room);
            assert_true(!words || table->bound > room.doors); /* whoever cannot be served until then ends later */
            said += words != NULL;
            unsaid += !words;
        }
        arena_free(arena);
    }
    assert_true(said > 0 && unsaid > 0);
    assert_true(counts[REMEDY_WAVES] > 0);
    assert_true(counts[REMEDY_ANY_ORDER] > 0 || !is_sample());
    assert_true(counts[REMEDY_FEWER] > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_fits_needs_no_remedy),
        cmocka_unit_test(waves_come_first),
        cmocka_unit_test(sets_go_by_keep_and_the_last_block_goes_first),
        cmocka_unit_test(a_substitute_is_for_who_waits_longest),
        cmocka_unit_test(one_bell_for_too_few_bags_rings_twice),
        cmocka_unit_test(another_order_of_the_blocks_is_tried),
        cmocka_unit_test(each_proposal_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

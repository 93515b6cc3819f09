/* Rooms that no timetable can serve are refused, with the reason; the edges of what can be served are not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "room/room_check.c"

enum { PEOPLE = 2, BLOCKS = 2 };

/* Two athletes, a rack, a ball and two bars; each does one set of `item` in block A. */
struct bench {
    struct arena *arena;
    struct room_stock stock[2];
    struct room_kind kinds[2];
    struct room_item items[2];
    struct room_set set;
    struct room_part parts[PEOPLE][BLOCKS];
    struct room_athlete athletes[PEOPLE];
    struct room_block blocks[BLOCKS];
    struct room room;
};

static const struct room_need on_rack = {0, 1}, two_balls = {1, 2};
static const int light[] = {0, 1}, heavy[] = {0, 1, 1};

static struct bench *bench_new(void)
{
    struct arena *arena = arena_new();
    struct bench *bench = arena_alloc(arena, sizeof *bench);
    *bench = (struct bench){
        .arena = arena,
        .stock = {{"20 kg barbell", 2}, {"10 kg disc", 4}},
        .kinds = {{"rack", "racks", 1, true, false}, {"ball", "balls", 2, false, false}},
        .athletes = {{"Ama Tidewell", 0, bench->parts[0]}, {"Bram Oxlade", 0, bench->parts[1]}},
        .blocks = {{.name = "A"}, {.name = "B"}},
    };
    for (int i = 0; i < 2; i++)
        bench->items[i] = (struct room_item){.name = i ? "ball throw" : "back squat", .work = 30,
                                             .gap_most = ROOM_ANY_GAP};
    bench->set = (struct room_set){.items = bench->items, .item_count = 1, .rest = 60};
    for (int i = 0; i < PEOPLE; i++)
        bench->parts[i][0] = (struct room_part){&bench->set, 1};
    bench->room = (struct room){.stock = bench->stock, .stock_count = 2, .kinds = bench->kinds, .kind_count = 2,
                                .blocks = bench->blocks, .block_count = BLOCKS, .athletes = bench->athletes,
                                .athlete_count = PEOPLE, .changeover = 20, .disc = 8, .between = 120,
                                .doors = ROOM_NONE};
    return bench;
}

/* Expects REASON, or a valid timetable where that is NULL; ends the bench. */
static void expect(struct bench *bench, const char *reason)
{
    const struct room_table *table = room_solve(bench->arena, &bench->room);
    if (reason) {
        assert_non_null(table->refused);
        assert_string_equal(table->refused, reason);
        assert_int_equal(table->row_count, 0);
    } else {
        assert_null(table->refused);
        struct room_check check = room_check(&bench->room, table->rows, table->row_count);
        assert_string_equal(text_get(&check.faults), "");
        text_free(&check.faults);
    }
    arena_free(bench->arena);
}

static void nobody_is_there(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    bench->room.athlete_count = 0;
    expect(bench, "nobody is there");
}

static void nobody_has_anything_to_do(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    bench->parts[0][0].set_count = bench->parts[1][0].set_count = 0;
    bench->athletes[1].arrival = 600;
    const struct room_table *table = room_solve(bench->arena, &bench->room);
    assert_int_equal(table->finish, 0);
    assert_int_equal(table->wait, 0);
    assert_int_equal(table->bound, 0);
    expect(bench, NULL);
}

static void kit_is_missing(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    bench->items[0].needs = &on_rack;
    bench->items[0].need_count = 1;
    bench->kinds[0].count = 0;
    expect(bench, "back squat in block A needs 1 x rack, the room has none");
    for (int balls = 1; balls < 3; balls++) {
        bench = bench_new();
        bench->items[0].needs = &two_balls;
        bench->items[0].need_count = 1;
        bench->kinds[1].count = balls;
        expect(bench, balls == 1 ? "back squat in block A needs 2 x ball, the room has 1" : NULL);
    }
}

static void a_load_takes_more_discs_than_there_are(void **state)
{
    (void)state;
    for (int discs = 3; discs < 5; discs++) {
        struct bench *bench = bench_new();
        bench->items[0].needs = &on_rack;
        bench->items[0].need_count = 1;
        bench->items[0].stack = heavy;
        bench->items[0].stack_count = 3;
        bench->stock[1].count = discs;
        expect(bench, discs == 3 ? "the load of back squat in block A takes 4 x 10 kg disc, the gym has 3" : NULL);
    }
}

/* A bar that is loaded at one end takes each disc once. */
static void a_bar_loaded_at_one_end_takes_half(void **state)
{
    (void)state;
    static const int three[] = {0, 1, 1, 1};
    static const char *const reasons[][2] = {
        {"the load of back squat in block A takes 6 x 10 kg disc, the gym has 4", NULL},
        {"the load of back squat in block A takes 6 x 10 kg disc, the gym has 2",
         "the load of back squat in block A takes 3 x 10 kg disc, the gym has 2"},
    };
    for (int few = 0; few < 2; few++)
        for (int one_end = 0; one_end < 2; one_end++) {
            struct bench *bench = bench_new();
            bench->kinds[0].one_sleeve = one_end;
            bench->items[0].needs = &on_rack;
            bench->items[0].need_count = 1;
            bench->items[0].stack = three;
            bench->items[0].stack_count = 4;
            bench->stock[1].count = few ? 2 : 4;
            expect(bench, reasons[few][one_end]);
        }
}

/* Everybody answers the bell of A at once, and each works with a ball. */
static void one_bell_for_all(void **state)
{
    (void)state;
    static const struct room_need one_ball = {1, 1};
    for (int lettered = 0; lettered < 2; lettered++)
        for (int balls = 1; balls < 3; balls++) {
            struct bench *bench = bench_new();
            bench->blocks[0].bell = true;
            bench->blocks[0].name = lettered ? "A" : "rounds";
            bench->items[0].needs = &one_ball;
            bench->items[0].need_count = 1;
            bench->kinds[1].count = balls;
            expect(bench, balls == 2 ? NULL
                          : lettered ? "block A wants 2 x ball at one bell, the room has 1"
                                     : "the rounds want 2 x ball at one bell, the room has 1");
        }
}

/* Two discs move between the items: 8 s, and 35 s are allowed. With 40 s a disc that is too long at the only rack. */
static void discs_take_longer_than_a_gap(void **state)
{
    (void)state;
    for (int i = 0; i < 3; i++) {
        struct bench *bench = bench_new();
        for (int j = 0; j < 2; j++) {
            bench->items[j].needs = &on_rack;
            bench->items[j].need_count = 1;
            bench->items[j].stack = j ? heavy : light;
            bench->items[j].stack_count = j ? 3 : 2;
        }
        bench->items[1].gap_least = 20;
        bench->items[1].gap_most = 35;
        bench->set.item_count = 2;
        bench->room.disc = i ? 40 : 8;
        bench->kinds[0].count = i == 2 ? 2 : 1;
        bench->stock[1].count = 8;
        expect(bench, i == 1 ? "between back squat and ball throw in block A the discs take 40 s to change, and there are "
                               "35 s at most"
                             : NULL);
    }
}

static void a_partner_is_missing(void **state)
{
    (void)state;
    static const int one[] = {0}, both[] = {1, 0};
    static const struct room_group alone = {one, 1}, pair = {both, 2};
    for (int i = 0; i < 4; i++) {
        struct bench *bench = bench_new();
        bench->items[0].partner = true;
        if (i == 1)
            bench->parts[1][0].set_count = 0; /* the other does something else */
        bench->room.groups = i == 2 ? &alone : &pair;
        bench->room.group_count = i > 1;
        expect(bench, i == 1 || i == 2 ? "block A is done with a partner, and Ama Tidewell has none" : NULL);
    }
}

static void what_may_change_places_stands_together(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    bench->room.order = ROOM_WAVES;
    bench->blocks[0].free = bench->blocks[1].free = true;
    expect(bench, NULL);
    bench = bench_new();
    bench->room.order = ROOM_WAVES;
    bench->blocks[0].free = bench->blocks[1].free = bench->blocks[1].bell = true;
    bench->parts[0][1] = bench->parts[1][1] = bench->parts[0][0];
    expect(bench, "only neighbouring blocks without bells may change places");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nobody_is_there),
        cmocka_unit_test(nobody_has_anything_to_do),
        cmocka_unit_test(kit_is_missing),
        cmocka_unit_test(a_load_takes_more_discs_than_there_are),
        cmocka_unit_test(a_bar_loaded_at_one_end_takes_half),
        cmocka_unit_test(one_bell_for_all),
        cmocka_unit_test(discs_take_longer_than_a_gap),
        cmocka_unit_test(a_partner_is_missing),
        cmocka_unit_test(what_may_change_places_stands_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

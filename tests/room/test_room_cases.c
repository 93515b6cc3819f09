/* Rooms whose best timetable is known: the least finish of each is proved, by a bound or by a search through all. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "room/room_case.c"
#include "room/room_check.c"

static int expected(const struct room_case *room_case, const char *figure)
{
    const json_t *value = json_object_get(json_object_get(room_case->json, "expected"), figure);
    assert_true(json_is_integer(value));
    return (int)json_integer_value(value);
}

/* TABLE is valid, and its figures are what its rows come to. */
static void assert_valid(const struct room *room, const struct room_table *table)
{
    assert_null(table->refused);
    struct room_check check = room_check(room, table->rows, table->row_count);
    assert_string_equal(text_get(&check.faults), "");
    assert_int_equal(table->finish, check.finish);
    assert_int_equal(table->wait, check.wait);
    assert_int_equal(table->discs, check.discs);
    text_free(&check.faults);
}

static void the_best_is_found(void **state)
{
    struct room_case room_case = room_case_open(*state);
    const struct room_table *table = room_solve(room_case.arena, &room_case.room);
    assert_valid(&room_case.room, table);
    assert_int_equal(table->finish, expected(&room_case, "finish"));
    assert_int_equal(table->wait, expected(&room_case, "wait"));
    assert_int_equal(table->discs, expected(&room_case, "discs"));
    assert_int_equal(table->bound, expected(&room_case, "bound"));
    assert_true(table->decodes <= ROOM_DECODES);
    room_case_close(&room_case);
}

static void one_bell_for_too_few_bags_is_refused(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/bags-at-one-bell.json");
    const struct room_table *table = room_solve(room_case.arena, &room_case.room);
    const json_t *reason = json_object_get(json_object_get(room_case.json, "expected"), "refused");
    assert_string_equal(table->refused, json_string_value(reason));
    assert_int_equal(table->refused_block, 0);
    assert_int_equal(table->row_count, 0);
    room_case_close(&room_case);
}

/* Two blocks that may change places, as written and in waves. */
static void waves_gain_what_any_order_does(void **state)
{
    (void)state;
    static const int finishes[] = {[ROOM_AS_WRITTEN] = 1050, [ROOM_ANY_ORDER] = 700, [ROOM_WAVES] = 700};
    struct room_case room_case = room_case_open("tests/room/cases/any-order.json");
    for (enum room_order order = ROOM_AS_WRITTEN; order <= ROOM_WAVES; order++) {
        room_case.room.order = order;
        const struct room_table *table = room_solve(room_case.arena, &room_case.room);
        assert_valid(&room_case.room, table);
        assert_int_equal(table->finish, finishes[order]);
    }
    room_case_close(&room_case);
}

static void the_late_join_the_next_round(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/bells-and-one-late.json");
    const struct room_table *table = room_solve(room_case.arena, &room_case.room);
    assert_int_equal(table->fares[3].missed, 2);
    assert_int_equal(table->fares[3].alone, 1020);
    assert_int_equal(table->fares[3].wait, 540);
    assert_int_equal(table->fares[0].missed, 0);
    for (size_t i = 0; i < table->row_count; i++) {
        if (table->rows[i].athlete == 3 && table->rows[i].block == 0)
            assert_int_equal(table->rows[i].start, 320);
    }
    room_case_close(&room_case);
}

static void a_timetable_is_told_in_words(void **state)
{
    (void)state;
    static const struct {
        const char *file, *bottleneck, *bound;
        int athlete;
        const char *wait;
    } cases[] = {
        {"alone", "kit delays nobody's end", "this is the earliest possible", 0, NULL},
        {"two-at-one-rack", "rack: 6 of 7 min busy", "this is the earliest possible", 1,
         "Bram Oxlade waits 1 min more than planned, most of it before A1 (rack)"},
        {"rests-cover-the-turns", "rack: 12 of 22 min busy", "this is the earliest possible", 1,
         "Bram Oxlade waits 45 s more than planned, most of it before A1 (rack)"},
        {"discs", "rack: 9 of 11 min busy", "no timetable ends before 8 min", 0, NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char path[64];
        snprintf(path, sizeof path, "tests/room/cases/%s.json", cases[i].file);
        struct room_case room_case = room_case_open(path);
        const struct room_table *table = room_solve(room_case.arena, &room_case.room);
        const char *wait = room_wait_words(room_case.arena, &room_case.room, table, cases[i].athlete);
        assert_string_equal(room_bottleneck_words(room_case.arena, &room_case.room, table), cases[i].bottleneck);
        assert_string_equal(room_bound_words(room_case.arena, table), cases[i].bound);
        assert_string_equal(wait ? wait : "", cases[i].wait ? cases[i].wait : "");
        room_case_close(&room_case);
    }
}

/* The checker can say no: a valid timetable with one row moved, or one unit swapped, is none. */
static void the_checker_finds_faults(void **state)
{
    (void)state;
    struct room_case room_case = room_case_open("tests/room/cases/contrast.json");
    const struct room_table *table = room_solve(room_case.arena, &room_case.room);
    size_t found = 0;
    for (size_t i = 0; i < table->row_count; i++) {
        struct room_row *rows = arena_alloc(room_case.arena, table->row_count * sizeof *rows);
        memcpy(rows, table->rows, table->row_count * sizeof *rows);
        rows[i].start -= 40;
        rows[i].end -= 40;
        struct room_check check = room_check(&room_case.room, rows, table->row_count);
        found += check.faults.length > 0;
        text_free(&check.faults);
    }
    assert_int_equal(found, table->row_count);
    room_case_close(&room_case);
}

int main(void)
{
    static char files[][48] = {
        "tests/room/cases/alone.json",
        "tests/room/cases/two-at-one-rack.json",
        "tests/room/cases/rests-cover-the-turns.json",
        "tests/room/cases/eight.json",
        "tests/room/cases/discs.json",
        "tests/room/cases/bells-and-one-late.json",
        "tests/room/cases/contrast.json",
        "tests/room/cases/any-order.json",
    };
    struct CMUnitTest cases[sizeof files / sizeof files[0]];
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_bell_for_too_few_bags_is_refused),
        cmocka_unit_test(waves_gain_what_any_order_does),
        cmocka_unit_test(the_late_join_the_next_round),
        cmocka_unit_test(a_timetable_is_told_in_words),
        cmocka_unit_test(the_checker_finds_faults),
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        cases[i] = (struct CMUnitTest){files[i], the_best_is_found, NULL, NULL, files[i]};
    int failed = cmocka_run_group_tests_name("the best is found", cases, NULL, NULL);
    return failed + cmocka_run_group_tests_name("rooms", tests, NULL, NULL);
}

/* How much of a limit is reached, and which waiver covers what is past it, for verdicts and waivers made by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "limits/limit_verdict.h"
#include "limits/waive.h"
#include "model/programme.h"

/* --- how much is reached --- */

static void a_share_of_the_figure_that_holds(void **state)
{
    (void)state;
    const struct {
        bool most, ratio;
        milli value, low, high, other_low, other_high, reached;
    } cases[] = {
        {true, false, 22000, 5000, 11000, 0, 0, 500},
        {true, false, 22000, 5000, 22000, 0, 0, 1000},
        {true, false, 22000, 5000, 33000, 0, 0, 1500},
        {true, false, 3000, 0, 1000, 0, 0, 333},
        {false, false, 10000, 5000, 20000, 0, 0, 500},
        {false, false, 10000, 10000, 20000, 0, 0, 1000},
        /* Three to two where three to two may be, and one to four where one to two is wanted. */
        {true, true, 1500, 1, 30000, 20000, 99000, 1000},
        {false, true, 500, 10000, 99000, 1, 40000, 500},
        {true, true, 1500, 0, 30000, 0, 20000, 0},
        {false, true, 500, 1000, 1000, 1, 0, 0},
        /* Where nothing may be, something is twice as much as there may be. */
        {true, false, 0, 0, 0, 0, 0, 0},
        {true, false, 0, 0, 1, 0, 0, 2000},
        {true, false, 1, 0, 1, 0, 0, 1000},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct layered layered = {.counted = COUNTED_SETS, .against = cases[i].ratio ? COUNTED_TIME : COUNTED_NONE};
        const struct in_force in_force = {.layered = &layered};
        const struct limit_end end = {.asked = true, .whole = cases[i].value, .value = cases[i].value};
        struct limit_verdict verdict = {.in_force = &in_force, .amount = {cases[i].low, cases[i].high},
                                        .other = {cases[i].other_low, cases[i].other_high}};
        if (cases[i].most)
            verdict.most = end;
        else
            verdict.least = end;
        assert_int_equal(limit_reached(&verdict), cases[i].reached);
    }
}

/* --- which figure a waiver caps --- */

static void a_figure_as_its_message_has_it(void **state)
{
    (void)state;
    struct gym kilograms = {.unit = MASS_IN_KG}, pounds = {.unit = MASS_IN_LB};
    struct athlete in_kg = {.gym = &kilograms}, in_lb = {.gym = &pounds};
    assert_int_equal(limit_figure(&in_kg, COUNTED_TONNAGE, 1000000), 1000000);
    assert_int_equal(limit_figure(&in_lb, COUNTED_TONNAGE, 1000000), 2205000); /* 2204.623 lb */
    assert_int_equal(limit_figure(&in_lb, COUNTED_TONNAGE, 100000), 220000);   /* 220.462 lb */
    assert_int_equal(limit_figure(&in_lb, COUNTED_SETS, 100000), 100000);
    assert_int_equal(limit_figure(&in_lb, COUNTED_TIME, 5400000), 90000); /* minutes */
}

static void a_cap_is_an_end(void **state)
{
    (void)state;
    const struct waiver open = {.capped = false}, capped = {.capped = true, .cap = 30000};
    static const milli figures[] = {0, 1, 29999, 30000, 30001};
    static const bool up_to[] = {false, true, true, true, false}, down_to[] = {false, false, false, true, true};
    for (size_t i = 0; i < 5; i++) {
        assert_true(waiver_covers(&open, figures[i], false));
        assert_int_equal(waiver_covers(&capped, figures[i], false), up_to[i]);
        assert_int_equal(waiver_covers(&capped, figures[i], true), down_to[i]);
    }
}

/* --- where a waiver is in force --- */

static void days_that_a_waiver_reaches(void **state)
{
    (void)state;
    const struct athlete wren = {.number = 0}, nils = {.number = 1};
    const struct athlete *members[] = {&wren};
    const struct camp camp = {.athletes = members, .athlete_count = 1}, other = {.athlete_count = 0};
    int here = 0, there = 0;
    const struct occasion placed = {.place = &here};
    const struct occasion *occasions[] = {&placed};
    const struct waived_days week = {.athlete = &wren, .first = 8, .last = 14, .occasions = occasions, .count = 1};
    struct waived_days of_nobody = week, of_nils = week, of_camp = week;
    of_nobody.athlete = NULL;
    of_nils.athlete = &nils;
    of_camp.camp = &camp;
    const struct waiver all = {.first = 8, .last = 14}, late = {.first = 9, .last = 14}, early = {.first = 8, .last = 13};
    assert_true(waiver_reaches(&all, &week));
    assert_false(waiver_reaches(&late, &week));
    assert_false(waiver_reaches(&early, &week));
    assert_false(waiver_reaches(&all, &of_nobody));
    const struct waiver of_its_camp = {.first = 8, .last = 14, .camp = &camp}, of_other = {.first = 8, .last = 14, .camp = &other};
    assert_true(waiver_reaches(&of_its_camp, &week));
    assert_true(waiver_reaches(&of_its_camp, &of_camp));
    assert_false(waiver_reaches(&of_its_camp, &of_nils));
    assert_false(waiver_reaches(&of_other, &week));
    assert_false(waiver_reaches(&of_other, &of_camp));
    /* Below a line it is enough that one of the days is among its own. */
    const struct {
        int first, last;
        const void *place;
        bool reaches;
    } lines[] = {{14, 20, &here, true}, {15, 20, &here, false}, {1, 8, &here, true}, {1, 7, &here, false}, {8, 14, &there, false}};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const struct waiver below = {.first = lines[i].first, .last = lines[i].last, .place = lines[i].place};
        assert_int_equal(waiver_reaches(&below, &week), lines[i].reaches);
    }
}

static void the_first_that_covers_it(void **state)
{
    (void)state;
    struct gym gym = {.unit = MASS_IN_KG};
    const struct athlete wren = {.gym = &gym};
    struct waiver waivers[] = {
        {.check = "sets-over", .first = 8, .last = 14, .capped = true, .cap = 20000},
        {.check = "sets-over", .first = 8, .last = 14, .capped = true, .cap = 30000},
        {.check = "sets-under", .first = 8, .last = 14, .capped = true, .cap = 5000},
        {.check = "ratio-outside", .first = 8, .last = 14},
    };
    const struct programme programme = {.waivers = waivers, .waiver_count = 4};
    const struct judged_work work = {.programme = &programme, .athlete = &wren, .first = 8, .last = 14};
    const struct layered sets = {.counted = COUNTED_SETS, .against = COUNTED_NONE, .kind = GROUP_SETS};
    const struct layered ratio = {.counted = COUNTED_SETS, .against = COUNTED_TIME, .kind = GROUP_SETS};
    const struct {
        const struct layered *layered;
        bool most;
        milli low, high;
        int waiver; /* -1: none */
    } cases[] = {{&sets, true, 0, 20000, 0}, {&sets, true, 0, 20001, 1}, {&sets, true, 0, 30001, -1}, {&sets, false, 5000, 99000, 2},
                 {&sets, false, 4999, 99000, -1}, {&ratio, true, 1000, 99000, 3}, {&ratio, false, 1000, 99000, 3}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct in_force in_force = {.layered = cases[i].layered};
        struct limit_verdict verdict = {.in_force = &in_force, .amount = {cases[i].low, cases[i].high}};
        const struct waiver *found = limit_waiver(&work, &verdict, cases[i].most ? &verdict.most : &verdict.least);
        assert_ptr_equal(found, cases[i].waiver < 0 ? NULL : &waivers[cases[i].waiver]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_share_of_the_figure_that_holds),
        cmocka_unit_test(a_figure_as_its_message_has_it),
        cmocka_unit_test(a_cap_is_an_end),
        cmocka_unit_test(days_that_a_waiver_reaches),
        cmocka_unit_test(the_first_that_covers_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Which step of a protocol is in force: each entry from both sides of its border (Patricios et al. 2023, Br J Sports Med
 * 57:695-711: at least a day a step, symptoms repeat it, and from step 4 on lead back to 3). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/hold.h"
#include "model/programme.h"
#include "plan_reader.h"

enum { KNOCK = 100000, MOST = 8 };

enum { ONE, TWO_A, TWO_B, THREE, FOUR, FIVE, SIX };

struct script {
    struct hold_entry entries[MOST]; /* days are counted from the knock */
    size_t count;
    bool young;
    enum hold_fault fault; /* of the last entry */
    int step, began;       /* after it */
    bool ended;
};

static struct hold_entry doctor_agrees_on(int day)
{
    return (struct hold_entry){.kind = ENTRY_AGREED, .day = day, .doctor = true};
}

static struct hold_entry reached(int step, int day)
{
    return (struct hold_entry){.kind = ENTRY_REACHED, .step = step, .day = day};
}

static struct hold_entry by_doctor(struct hold_entry entry)
{
    entry.doctor = true;
    return entry;
}

static struct hold_entry symptoms(int day)
{
    return (struct hold_entry){.kind = ENTRY_SYMPTOMS, .day = day};
}

static struct hold_entry ended(int day)
{
    return (struct hold_entry){.kind = ENTRY_ENDED, .day = day, .doctor = true};
}

static const struct protocol *head_protocol(struct plan_reader *reader)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    static const char plan[] = "athlete Tevita Sorrel\n    hold head\n        since 2027-01-20\n";
    plan_reader_text(reader, "plan.bell", plan, strlen(plan));
    plan_reader_resolve(reader);
    return reader->programme->athletes[0]->holds[0].protocol;
}

static void run_script(const struct protocol *protocol, const struct script *script)
{
    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = protocol};
    struct hold_state state = hold_begin(&hold);
    enum hold_fault fault = HOLD_FINE;
    for (size_t i = 0; i < script->count; i++) {
        struct hold_entry entry = script->entries[i];
        entry.day += KNOCK;
        if (i + 1 < script->count)
            assert_int_equal(hold_enter(&state, &hold, &entry, script->young, 0), HOLD_FINE);
        else
            fault = hold_enter(&state, &hold, &entry, script->young, 0);
    }
    assert_int_equal(fault, script->fault);
    assert_int_equal(state.step, script->step);
    assert_int_equal(state.began - KNOCK, script->began);
    assert_int_equal(state.ended, script->ended);
}

static void steps_take_their_days(void **state)
{
    (void)state;
    struct plan_reader reader;
    const struct protocol *protocol = head_protocol(&reader);
    const struct script scripts[] = {
        {{reached(ONE, 0)}, 1, false, HOLD_BEFORE, ONE, 1, false},
        {{reached(TWO_A, 1)}, 1, false, HOLD_EARLY, ONE, 1, false},
        {{reached(TWO_A, 2)}, 1, false, HOLD_FINE, TWO_A, 2, false},
        {{reached(ONE, 3), reached(TWO_A, 3)}, 2, false, HOLD_EARLY, ONE, 3, false},
        {{reached(TWO_B, 9)}, 1, false, HOLD_SKIPS, ONE, 1, false},
        {{reached(TWO_A, 2), reached(TWO_B, 2)}, 2, false, HOLD_EARLY, TWO_A, 2, false},
        {{reached(TWO_A, 2), reached(TWO_B, 3)}, 2, false, HOLD_FINE, TWO_B, 3, false},
        {{reached(SIX, 9)}, 1, false, HOLD_IS_END, ONE, 1, false},
        {{reached(TWO_A, 2), reached(TWO_B, 3), reached(TWO_A, 5)}, 3, false, HOLD_FINE, TWO_A, 5, false},
    };
    for (size_t i = 0; i < sizeof scripts / sizeof *scripts; i++)
        run_script(protocol, &scripts[i]);
    plan_reader_close(&reader);
}

static void the_young_take_longer(void **state)
{
    (void)state;
    struct plan_reader reader;
    const struct protocol *protocol = head_protocol(&reader);
    const struct script scripts[] = {
        {{by_doctor(reached(TWO_A, 2))}, 1, true, HOLD_EARLY, ONE, 1, false},
        {{by_doctor(reached(TWO_A, 3))}, 1, true, HOLD_FINE, TWO_A, 3, false},
        {{reached(TWO_A, 3)}, 1, true, HOLD_NO_DOCTOR, ONE, 1, false},
        {{by_doctor(reached(TWO_A, 3)), by_doctor(reached(TWO_B, 4))}, 2, true, HOLD_EARLY, TWO_A, 3, false},
        {{by_doctor(reached(TWO_A, 3)), by_doctor(reached(TWO_B, 5))}, 2, true, HOLD_FINE, TWO_B, 5, false},
    };
    for (size_t i = 0; i < sizeof scripts / sizeof *scripts; i++)
        run_script(protocol, &scripts[i]);
    plan_reader_close(&reader);
}

/* The first entries lead to step LAST, a day each from the second on. */
static struct script climbed(int last)
{
    struct script script = {.step = last, .began = last + 1};
    for (int step = TWO_A; step <= last; step++)
        script.entries[script.count++] = step == FIVE ? by_doctor(reached(step, step + 1)) : reached(step, step + 1);
    return script;
}

static struct script then(struct script script, struct hold_entry entry, enum hold_fault fault)
{
    script.entries[script.count++] = entry;
    script.fault = fault;
    return script;
}

static void symptoms_set_it_back(void **state)
{
    (void)state;
    struct plan_reader reader;
    const struct protocol *protocol = head_protocol(&reader);
    for (int step = ONE; step <= FOUR; step++) {
        struct script script = then(climbed(step), symptoms(9), HOLD_FINE);
        script.step = step == FOUR ? THREE : step; /* before 4 the step again, from 4 on step 3 */
        script.began = 10;
        run_script(protocol, &script);
        struct script early = then(script, reached(script.step + 1, 10), HOLD_EARLY);
        run_script(protocol, &early);
        struct script onward = then(script, reached(script.step + 1, 11), HOLD_FINE);
        onward.step = script.step + 1;
        onward.began = 11;
        run_script(protocol, &onward);
    }
    plan_reader_close(&reader);
}

static void a_doctor_agrees_and_ends(void **state)
{
    (void)state;
    struct plan_reader reader;
    const struct protocol *protocol = head_protocol(&reader);
    struct script four = climbed(FOUR), agreed = then(four, doctor_agrees_on(6), HOLD_FINE);
    run_script(protocol, &agreed);
    struct script unagreed = then(four, reached(FIVE, 6), HOLD_UNAGREED);
    run_script(protocol, &unagreed);
    struct script five = then(agreed, reached(FIVE, 6), HOLD_FINE);
    five.step = FIVE;
    five.began = 6;
    run_script(protocol, &five);
    struct script few = then(four, ended(9), HOLD_TOO_FEW);
    run_script(protocol, &few);
    struct script early = then(five, ended(6), HOLD_EARLY);
    run_script(protocol, &early);
    struct script over = then(five, ended(7), HOLD_FINE);
    over.ended = true;
    over.began = 7;
    run_script(protocol, &over);
    struct script late = then(over, reached(TWO_A, 8), HOLD_OVER);
    run_script(protocol, &late);
    /* What was agreed counts no more after symptoms. */
    struct script back = then(then(agreed, symptoms(7), HOLD_FINE), reached(FOUR, 9), HOLD_FINE);
    back = then(back, reached(FIVE, 10), HOLD_UNAGREED);
    back.step = FOUR;
    back.began = 9;
    run_script(protocol, &back);
    plan_reader_close(&reader);
}

/* Symptoms after the end open the hold again, and an entry of a day to come counts for nothing. */
static void no_end_is_for_ever(void **state)
{
    (void)state;
    struct plan_reader reader;
    const struct protocol *protocol = head_protocol(&reader);
    struct hold_entry entries[] = {reached(TWO_A, 2), reached(TWO_B, 3), reached(THREE, 4), reached(FOUR, 5),
                                   doctor_agrees_on(6), reached(FIVE, 6), ended(7), symptoms(9)};
    for (size_t i = 0; i < MOST; i++)
        entries[i].day += KNOCK;
    const struct athlete athlete = {0};
    struct hold hold = {.since = KNOCK, .clock = -1, .protocol = protocol, .entries = entries, .entry_count = MOST};
    assert_false(hold_stands(&hold, &athlete, KNOCK - 1, 0));
    assert_true(hold_stands(&hold, &athlete, KNOCK + 6, 0));
    assert_false(hold_stands(&hold, &athlete, KNOCK + 7, 0));
    assert_true(hold_stands(&hold, &athlete, KNOCK + 7, KNOCK + 6)); /* the end is still to come */
    assert_true(hold_stands(&hold, &athlete, KNOCK + 9, 0));
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 10, 0, HOLD_ALL).step, THREE);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_take_their_days), cmocka_unit_test(the_young_take_longer),
        cmocka_unit_test(symptoms_set_it_back), cmocka_unit_test(a_doctor_agrees_and_ends),
        cmocka_unit_test(no_end_is_for_ever),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

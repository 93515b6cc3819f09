/* A hold at its borders: a step that is reached again, ends, and is capped; what else keeps an athlete away. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "measure/hold.h"
#include "model/programme.h"

enum { KNOCK = 100000 };

static const struct permit everything[] = {{.training = true, .pattern = -1, .kind = -1}};

static struct hold_entry entry_on(enum hold_entry_kind kind, int step, int day)
{
    return (struct hold_entry){.kind = kind, .step = step, .day = KNOCK + day};
}

/* --- from step to step --- */

/* Two steps for which a doctor must have agreed, with one that needs nobody before them; the last row is of no step. */
static const struct protocol_step steps[] = {
    {.days = 1, .young_days = 1, .back = -1},
    {.days = 2, .young_days = 2, .back = -1},
    {.days = 1, .young_days = 1, .back = -1, .young_doctor = true, .wants_agreed = true},
    {.days = 1, .young_days = 1, .back = -1, .young_doctor = true},
    {.end = true, .back = -1},
    {.end = true, .back = -1},
};
static const struct protocol protocol = {.steps = steps, .step_count = 5};

static void a_step_is_reached_again(void **state)
{
    (void)state;
    static const struct {
        int at, began, agreed; /* before the entry */
        int step, day;         /* of the entry, without a doctor */
        bool young;
        enum hold_fault fault;
    } rows[] = {
        {0, 1, 0, 1, 2, true, HOLD_FINE},        /* this step needs no doctor */
        {1, 2, 0, 2, 4, true, HOLD_NO_DOCTOR},
        {1, 2, 0, 2, 4, false, HOLD_UNAGREED},
        {1, 2, 3, 2, 4, false, HOLD_FINE},
        {1, 2, 3, 2, 3, false, HOLD_EARLY},
        {1, 2, 0, 1, 2, false, HOLD_FINE},       /* the same step needs no days */
        {2, 5, 0, 2, 6, false, HOLD_FINE},       /* and nobody who agrees once more */
        {2, 5, 0, 2, 6, true, HOLD_FINE},
        {2, 5, 0, 1, 5, false, HOLD_FINE},       /* nor does an earlier one */
        {3, 5, 0, 2, 6, true, HOLD_FINE},
        {2, 5, 0, 1, 4, false, HOLD_EARLY},      /* but the step before it had not begun */
        {3, 5, 0, 4, 9, false, HOLD_IS_END},
        {0, 1, 0, 5, 9, false, HOLD_SKIPS},      /* there is no such step */
    };
    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &protocol};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct hold_state at = {.step = rows[i].at, .began = KNOCK + rows[i].began, .agreed = rows[i].agreed ? KNOCK + rows[i].agreed : 0};
        const struct hold_entry entry = entry_on(ENTRY_REACHED, rows[i].step, rows[i].day);
        bool fine = rows[i].fault == HOLD_FINE;
        assert_int_equal(hold_enter(&at, &hold, &entry, rows[i].young, 0), rows[i].fault);
        assert_int_equal(at.step, fine ? rows[i].step : rows[i].at);
        assert_int_equal(at.began, KNOCK + (fine ? rows[i].day : rows[i].began));
    }
}

static void a_step_lasts_a_day_at_least(void **state)
{
    (void)state;
    static const struct {
        int days, next;
    } rows[] = {{0, 2}, {1, 2}, {2, 3}, {14, 15}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct protocol_step only[] = {{.days = rows[i].days, .young_days = 30, .back = -1}};
        const struct protocol one = {.steps = only, .step_count = 1};
        const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &one};
        const struct hold_state begun = hold_begin(&hold);
        assert_int_equal(hold_next_day(&begun, &hold, false), KNOCK + rows[i].next);
        assert_int_equal(hold_next_day(&begun, &hold, true), KNOCK + 31);
    }
}

/* What is entered on a day counts in its morning, but for symptoms; a hold that has ended bars nothing. */
static void a_morning_and_an_end(void **state)
{
    (void)state;
    const struct protocol_step short_steps[] = {{.days = 1, .back = -1}, {.end = true, .back = -1}};
    const struct protocol brief = {.steps = short_steps, .step_count = 2};
    const struct hold_entry reached[] = {entry_on(ENTRY_REACHED, 1, 2)};
    const struct hold_entry ended[] = {entry_on(ENTRY_ENDED, 0, 2), entry_on(ENTRY_AGREED, 0, 7)};
    const struct athlete nobody = {0};
    const struct hold on_steps = {.since = KNOCK, .clock = -1, .protocol = &protocol, .entries = reached, .entry_count = 1};
    assert_int_equal(hold_on(&on_steps, &nobody, KNOCK + 2, 0, HOLD_MORNING).step, 1);
    assert_int_equal(hold_on(&on_steps, &nobody, KNOCK + 1, 0, HOLD_MORNING).step, 0);

    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &brief, .entries = ended, .entry_count = 2};
    const struct athlete athlete = {.holds = &hold, .hold_count = 1};
    const struct programme programme = {0};
    for (int day = 0; day <= 3; day++) {
        const struct occasion occasion = {.athlete = &athlete, .date = KNOCK + day, .clock = -1};
        assert_int_equal(hold_reaches(&athlete, &occasion, 0, NULL), day < 2);
        assert_int_equal(athlete_stands_still(&athlete, KNOCK + day, 0), day < 2);
    }
    assert_false(athlete_away(&programme, &athlete, KNOCK + 6, KNOCK + 8)); /* what is entered later opens nothing */
    assert_true(athlete_away(&programme, &athlete, KNOCK + 1, KNOCK + 8));
}

/* What was done on a day with symptoms was done before them, so that the step of the morning allows it. */
static void done_before_the_symptoms(void **state)
{
    (void)state;
    const struct exercise squat = {.kind = EXERCISE_STRENGTH};
    const struct item item = {.exercise = &squat};
    const struct block block = {.kind = BLOCK_STRAIGHT};
    const struct protocol_step all[] = {{.allows = {everything, 1}, .days = 1, .back = -1}};
    const struct protocol one = {.steps = all, .step_count = 1};
    const struct hold_entry entries[] = {entry_on(ENTRY_SYMPTOMS, 0, 4)};
    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &one, .entries = entries, .entry_count = 1};
    const struct athlete athlete = {.holds = &hold, .hold_count = 1};
    struct occasion occasion = {.athlete = &athlete, .date = KNOCK + 4, .clock = -1};
    assert_false(hold_allows_item(&occasion, &block, &item, 0));
    occasion.logged = true;
    assert_true(hold_allows_item(&occasion, &block, &item, 0));
    occasion.logged = false;
    occasion.date = KNOCK + 5;
    assert_true(hold_allows_item(&occasion, &block, &item, 0));
}

/* --- what it allows --- */

static void the_effort_that_a_set_asks_for(void **state)
{
    (void)state;
    static const struct {
        struct load load;
        bool work_up, max;
        milli reps, session, cap;
        bool allowed;
    } rows[] = {
        {{.effort = EFFORT_EASY}, false, true, 0, 0, 10000, true}, /* as many as possible is 10 */
        {{.effort = EFFORT_EASY}, false, true, 0, 0, 9999, false},
        {{.effort = EFFORT_EASY}, true, false, 5000, 0, 10000, true},
        {{.effort = EFFORT_EASY}, true, false, 5000, 0, 9999, false},
        {{.kind = LOAD_PERCENT, .percent = {80000, 80000}}, false, false, 1000, 0, 10000, true}, /* heavy */
        {{.kind = LOAD_PERCENT, .percent = {80000, 80000}}, false, false, 1000, 0, 9999, false},
        {{.kind = LOAD_PERCENT, .percent = {75000, 75000}}, false, false, 8000, 0, 7000, true}, /* hard: two of ten are left */
        {{.kind = LOAD_PERCENT, .percent = {75000, 75000}}, false, false, 8000, 0, 6999, false},
        {{.kind = LOAD_PERCENT, .percent = {75000, 75000}, .effort = EFFORT_RPE, .effort_band = {5000, 6999}}, false, false, 8000, 0, 6999, false},
        {{.kind = LOAD_PERCENT, .percent = {75000, 75000}}, false, false, 1000, 0, 10000, false}, /* neither: nobody can say */
        {{.effort = EFFORT_RPE, .effort_band = {7000, 8000}}, false, false, 5000, 0, 8000, true},
        {{.effort = EFFORT_RPE, .effort_band = {7000, 8000}}, false, false, 5000, 0, 7999, false},
        {{.effort = EFFORT_EASY}, false, false, 5000, 0, 3000, true},
        {{.effort = EFFORT_EASY}, false, false, 5000, 0, 2999, false},
        {{.effort = EFFORT_NONE}, false, false, 5000, 1, 5000, true}, /* the session's own effort */
        {{.effort = EFFORT_NONE}, false, false, 5000, 0, 5000, false},
        {{.effort = EFFORT_RPE, .effort_band = {1, 2}}, false, false, 5000, 0, 1, false},
    };
    const struct exercise squat = {.kind = EXERCISE_STRENGTH};
    const struct block block = {.kind = BLOCK_STRAIGHT};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct permit capped[] = {{.exercise = &squat, .pattern = -1, .kind = -1, .cap = rows[i].cap}};
        const struct protocol_step only[] = {{.allows = {capped, 1}, .days = 1, .back = -1}};
        const struct protocol one = {.steps = only, .step_count = 1};
        const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &one};
        const struct athlete athlete = {.holds = &hold, .hold_count = 1};
        const struct part parts[] = {{.unit = UNIT_REPS, .amount = {rows[i].reps, rows[i].reps}, .max = rows[i].max}};
        struct set_run runs[] = {{.load = rows[i].load, .work_up = rows[i].work_up, .parts = parts, .part_count = 1}};
        const struct item item = {.exercise = &squat, .runs = runs, .run_count = 1};
        const struct occasion occasion = {.athlete = &athlete, .date = KNOCK + 2, .clock = -1, .rpe = {0, rows[i].session}};
        assert_int_equal(hold_allows_item(&occasion, &block, &item, 0), rows[i].allowed);
    }
}

static void names_and_nothing(void **state)
{
    (void)state;
    const struct exercise of_all = {.patterns = ~0u, .kind = EXERCISE_STRENGTH};
    const struct permit none[] = {{.pattern = -1, .kind = -1}}, squats[] = {{.exercise = &of_all, .pattern = -1, .kind = -1}};
    const struct permits nameless = {none, 1};
    assert_false(permits_name(&nameless, &of_all));
    static const struct {
        size_t allowed, agreed;
        bool nothing;
    } rows[] = {{0, 0, true}, {1, 0, false}, {0, 1, false}, {1, 1, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct protocol_step only[] = {{.allows = {squats, rows[i].allowed}, .if_agreed = {squats, rows[i].agreed}, .back = -1}};
        const struct protocol one = {.steps = only, .step_count = 1};
        const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &one};
        const struct athlete athlete = {.holds = &hold, .hold_count = 1};
        const struct occasion occasion = {.athlete = &athlete, .date = KNOCK + 2, .clock = -1};
        assert_int_equal(hold_allows_nothing(&occasion, 0), rows[i].nothing);
    }
}

/* --- days that are missed --- */

static void one_absence_within_another(void **state)
{
    (void)state;
    const struct out outs[] = {{.first = 100, .last = 110}, {.first = 102, .last = 104}};
    const struct athlete athlete = {.outs = outs, .out_count = 2}, nobody = {0};
    assert_int_equal(athlete_not_out(&athlete, 100, 200), 111);
    assert_int_equal(athlete_not_out(&athlete, 103, 200), 111);
    assert_int_equal(athlete_not_out(&athlete, 111, 200), 111);
    assert_int_equal(athlete_not_out(&nobody, 1, 5), 1); /* the first day that there is */
}

/* What is left out stands athlete by athlete, day by day. */
static void what_is_left_out(void **state)
{
    (void)state;
    struct athlete people[6];
    for (size_t i = 0; i < 6; i++)
        people[i] = (struct athlete){.number = i};
    const struct left_out left[] = {
        {.occasion = {.athlete = &people[1], .date = 100}, .why = LEFT_ABSENT},
        {.occasion = {.athlete = &people[1], .date = 110}, .why = LEFT_OUT},
        {.occasion = {.athlete = &people[1], .date = 120}, .why = LEFT_CLOSED},
        {.occasion = {.athlete = &people[2], .date = 105}, .why = LEFT_HELD},
        {.occasion = {.athlete = &people[4], .date = 90}, .why = LEFT_CLOSED},
    };
    const struct programme programme = {.left_out = left, .left_out_count = 5};
    static const size_t firsts[] = {0, 0, 3, 0, 4, 0}, counts[] = {0, 3, 1, 0, 1, 0};
    for (size_t i = 0; i < 6; i++) {
        size_t count;
        const struct left_out *of = athlete_left_out(&programme, &people[i], &count);
        assert_int_equal(count, counts[i]);
        assert_ptr_equal(of, counts[i] ? &left[firsts[i]] : NULL);
    }
    static const struct {
        int who, first, last;
        bool away;
    } rows[] = {{1, 99, 99, false},   {1, 100, 100, true},  {1, 90, 99, false}, {1, 101, 119, false}, {1, 110, 110, false},
                {1, 101, 120, true},  {1, 120, 130, true},  {1, 121, 130, false}, {2, 100, 110, false}, {4, 90, 90, true},
                {0, 1, 1000, false},  {3, 1, 1000, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(athlete_away(&programme, &people[rows[i].who], rows[i].first, rows[i].last), rows[i].away);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_is_reached_again),
        cmocka_unit_test(a_step_lasts_a_day_at_least),
        cmocka_unit_test(a_morning_and_an_end),
        cmocka_unit_test(done_before_the_symptoms),
        cmocka_unit_test(the_effort_that_a_set_asks_for),
        cmocka_unit_test(names_and_nothing),
        cmocka_unit_test(one_absence_within_another),
        cmocka_unit_test(what_is_left_out),
    };
    return cmocka_run_group_tests_name("a hold at its borders", tests, NULL, NULL);
}

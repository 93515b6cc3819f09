/* On which days a hold stands, what it reaches and what its step allows, with a protocol of a few lines: every condition
 * from both sides. How steps follow each other is tried in test_hold.c. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "measure/hold.h"
#include "model/programme.h"

enum { KNOCK = 100000, NOON = 12 * 3600 };

/* --- days out --- */

static void days_out_and_days_away(void **state)
{
    (void)state;
    const struct out outs[] = {{.first = 100, .last = 103}, {.first = 104, .last = 104, .away = true}, {.first = 110, .last = DATE_LAST}};
    const struct athlete athlete = {.outs = outs, .out_count = 3}, nobody = {0};
    static const struct {
        int day;
        bool out, away;
    } rows[] = {{99, false, false}, {100, true, false}, {103, true, false}, {104, true, true},
                {105, false, false}, {109, false, false}, {110, true, false}, {5000, true, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(athlete_out(&athlete, rows[i].day), rows[i].out);
        assert_int_equal(athlete_said_away(&athlete, rows[i].day), rows[i].away);
        assert_false(athlete_out(&nobody, rows[i].day));
    }
}

static void the_first_day_that_is_not_out(void **state)
{
    (void)state;
    const struct out outs[] = {{.first = 100, .last = 103}, {.first = 102, .last = 104}, {.first = 110, .last = DATE_LAST}};
    const struct athlete athlete = {.outs = outs, .out_count = 3};
    assert_int_equal(athlete_not_out(&athlete, 99, 200), 99);
    assert_int_equal(athlete_not_out(&athlete, 100, 200), 105);
    assert_int_equal(athlete_not_out(&athlete, 104, 200), 105);
    assert_int_equal(athlete_not_out(&athlete, 105, 105), 105);
    assert_int_equal(athlete_not_out(&athlete, 100, 104), 0);
    assert_int_equal(athlete_not_out(&athlete, 110, DATE_LAST), 0);
    assert_int_equal(athlete_not_out(&athlete, 109, DATE_LAST), 109);
    assert_int_equal(athlete_not_out(&athlete, 106, 105), 0);
    const struct out nearly[] = {{.first = 100, .last = DATE_LAST - 1}};
    const struct athlete back = {.outs = nearly, .out_count = 1};
    assert_int_equal(athlete_not_out(&back, 100, DATE_LAST), DATE_LAST);
}

/* --- a hold on its days --- */

static const struct exercise jog_drill = {.patterns = 1u << PATTERN_LUNGE, .kind = EXERCISE_MOBILITY};
static const struct activity bike = {.bout = false};

static const struct permit light[] = {{.exercise = &jog_drill, .pattern = -1, .kind = -1, .cap = 5000},
                                      {.activity = &bike, .pattern = -1, .kind = -1, .cap = 4000}};
static const struct permit everything[] = {{.training = true, .pattern = -1, .kind = -1}};

/* Rest, light work, all training, the end. */
static const struct protocol_step steps[] = {
    {.days = 1, .young_days = 2, .back = -1},
    {.allows = {light, 2}, .days = 1, .young_days = 2, .back = 0},
    {.allows = {everything, 1}, .days = 1, .young_days = 2, .back = 1},
    {.end = true, .back = -1},
};
static const struct protocol protocol = {.steps = steps, .step_count = 4};

static struct hold_entry entry_on(enum hold_entry_kind kind, int step, int day)
{
    return (struct hold_entry){.kind = kind, .step = step, .day = KNOCK + day, .doctor = true};
}

static void the_days_between_two(void **state)
{
    (void)state;
    const struct hold_entry entries[] = {entry_on(ENTRY_REACHED, 1, 2), entry_on(ENTRY_REACHED, 2, 3), entry_on(ENTRY_ENDED, 0, 5),
                                         entry_on(ENTRY_SYMPTOMS, 0, 9)};
    struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &protocol, .entries = entries, .entry_count = 3};
    const struct athlete athlete = {.holds = &hold, .hold_count = 1};
    const struct programme programme = {0};
    static const struct {
        int first, last;
        bool held, again; /* again: when there were symptoms on the ninth day */
    } rows[] = {{-9, -1, false, false}, {-9, 0, true, true}, {-1, 20, true, true}, {4, 4, true, true}, {5, 8, false, false},
                {5, 9, false, true},    {9, 9, false, true},  {6, 20, false, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        hold.entry_count = 3;
        assert_int_equal(athlete_away(&programme, &athlete, KNOCK + rows[i].first, KNOCK + rows[i].last), rows[i].held);
        hold.entry_count = 4;
        assert_int_equal(athlete_away(&programme, &athlete, KNOCK + rows[i].first, KNOCK + rows[i].last), rows[i].again);
    }
    const struct out out = {.first = KNOCK - 20, .last = KNOCK - 10};
    const struct athlete away = {.outs = &out, .out_count = 1};
    assert_true(athlete_away(&programme, &away, KNOCK - 30, KNOCK - 20));
    assert_false(athlete_away(&programme, &away, KNOCK - 30, KNOCK - 21));
    assert_true(athlete_away(&programme, &away, KNOCK - 10, KNOCK));
    assert_false(athlete_away(&programme, &away, KNOCK - 9, KNOCK));
}

static void held_and_standing_still(void **state)
{
    (void)state;
    const struct hold_entry entries[] = {entry_on(ENTRY_REACHED, 1, 2), entry_on(ENTRY_REACHED, 2, 3), entry_on(ENTRY_ENDED, 0, 5)};
    const struct hold holds[] = {{.since = KNOCK + 50, .clock = -1},
                                 {.since = KNOCK, .clock = -1, .protocol = &protocol, .entries = entries, .entry_count = 3}};
    const struct athlete athlete = {.holds = holds, .hold_count = 2}, nobody = {0};
    static const struct {
        int day;
        bool held, still;
    } rows[] = {{-1, false, false}, {0, true, true}, {2, true, true}, {3, true, false}, {4, true, false}, {5, false, false},
                {49, false, false}, {50, true, true}, {500, true, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(athlete_held(&athlete, KNOCK + rows[i].day, 0), rows[i].held);
        assert_int_equal(athlete_stands_still(&athlete, KNOCK + rows[i].day, 0), rows[i].still);
        assert_false(athlete_held(&nobody, KNOCK + rows[i].day, 0));
        assert_false(athlete_stands_still(&nobody, KNOCK + rows[i].day, 0));
    }
}

/* What a copy without the private file knows, and what was known in the morning of a day with symptoms. */
static void whose_entries_are_looked_at(void **state)
{
    (void)state;
    struct hold_entry entries[] = {entry_on(ENTRY_REACHED, 1, 2), entry_on(ENTRY_REACHED, 2, 3), entry_on(ENTRY_SYMPTOMS, 0, 6)};
    entries[1].private = true;
    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &protocol, .entries = entries, .entry_count = 3};
    const struct athlete athlete = {0};
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 5, 0, HOLD_ALL).step, 2);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 5, 0, HOLD_SHARED).step, 1);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 6, 0, HOLD_ALL).step, 1);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 6, 0, HOLD_ALL).upset, KNOCK + 6);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 6, 0, HOLD_MORNING).step, 2);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 7, 0, HOLD_MORNING).step, 1);
    assert_int_equal(hold_on(&hold, &athlete, KNOCK + 6, 0, HOLD_SHARED).step, 0); /* its symptoms count there, too */
}

/* Edges of entries: the day of the knock, steps that there are not, and a hold without a protocol. */
static void entries_at_the_edges(void **state)
{
    (void)state;
    const struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &protocol}, bare = {.since = KNOCK, .clock = -1};
    struct hold_state begun = hold_begin(&hold);
    struct hold_entry entry = entry_on(ENTRY_AGREED, 0, 0);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_FINE);
    assert_int_equal(begun.agreed, KNOCK);
    entry = entry_on(ENTRY_AGREED, 0, -1);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_BEFORE);
    entry = entry_on(ENTRY_REACHED, 4, 9);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_SKIPS);
    entry = entry_on(ENTRY_REACHED, 3, 9);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_IS_END);
    entry = entry_on(ENTRY_ENDED, 0, 9);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_TOO_FEW);
    entry = entry_on(ENTRY_SYMPTOMS, 0, 3);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_FINE);
    assert_int_equal(begun.step, 0);
    assert_int_equal(begun.began, KNOCK + 4);
    assert_int_equal(begun.agreed, 0);
    entry = entry_on(ENTRY_REACHED, 1, 9);
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_FINE);
    entry = entry_on(ENTRY_SYMPTOMS, 0, 10); /* from the second step back to the first */
    assert_int_equal(hold_enter(&begun, &hold, &entry, false, 0), HOLD_FINE);
    assert_int_equal(begun.step, 0);

    struct hold_state open = hold_begin(&bare);
    assert_int_equal(hold_next_day(&open, &bare, false), KNOCK + 2);
    entry = entry_on(ENTRY_REACHED, 0, 9);
    assert_int_equal(hold_enter(&open, &bare, &entry, false, 0), HOLD_SKIPS);
    entry = entry_on(ENTRY_ENDED, 0, 9);
    assert_int_equal(hold_enter(&open, &bare, &entry, false, 0), HOLD_TOO_FEW);
    entry = entry_on(ENTRY_SYMPTOMS, 0, 9);
    assert_int_equal(hold_enter(&open, &bare, &entry, false, 0), HOLD_FINE);
    assert_int_equal(open.began, KNOCK + 10);
}

/* --- what it reaches --- */

static void from_its_moment_on(void **state)
{
    (void)state;
    struct hold hold = {.since = KNOCK, .clock = NOON};
    const struct athlete athlete = {.holds = &hold, .hold_count = 1};
    const struct activity bout = {.bout = true};
    struct occasion occasion = {.athlete = &athlete, .date = KNOCK, .clock = NOON};
    const struct hold *found = NULL;
    assert_true(hold_reaches(&athlete, &occasion, 0, &found));
    assert_ptr_equal(found, &hold);
    assert_true(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.clock = NOON - 1;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.clock = 0;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.clock = -1; /* no hour: what was planned is reached, what was done or fought is not */
    assert_true(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.activity = &bout;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.activity = &bike;
    occasion.logged = true;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.clock = NOON + 1;
    assert_true(hold_reaches(&athlete, &occasion, 0, NULL));
    hold.clock = -1;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    hold.clock = 0; /* midnight is an hour */
    assert_true(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.date = KNOCK - 1;
    assert_false(hold_reaches(&athlete, &occasion, 0, NULL));
    occasion.date = KNOCK + 1;
    occasion.clock = -1;
    assert_true(hold_reaches(&athlete, &occasion, 0, NULL));
}

/* --- what a step allows --- */

static void what_permits_name(void **state)
{
    (void)state;
    const struct need needs[] = {{.name = {.folded = "rack"}}, {.name = {.folded = "barbell"}}};
    const struct exercise squat = {.patterns = 1u << PATTERN_SQUAT, .kind = EXERCISE_STRENGTH, .needs = (struct need *)needs, .need_count = 2};
    const struct exercise first = {.patterns = 1u, .kind = (enum exercise_kind)0};
    struct permit items[] = {{.pattern = -1, .kind = -1}, {.pattern = -1, .kind = -1}};
    const struct permits permits = {items, 2}, none = {items, 0};
    struct permit *permit = &items[1], empty = items[1];
    assert_false(permits_name(&permits, &squat));
    permit->exercise = &squat;
    assert_true(permits_name(&permits, &squat));
    assert_false(permits_name(&none, &squat));
    assert_false(permits_name(&permits, &first));
    *permit = empty;
    permit->pattern = PATTERN_SQUAT;
    assert_true(permits_name(&permits, &squat));
    permit->pattern = 0;
    assert_int_equal(permits_name(&permits, &squat), PATTERN_SQUAT == 0);
    assert_true(permits_name(&permits, &first));
    *permit = empty;
    permit->kind = EXERCISE_STRENGTH;
    assert_true(permits_name(&permits, &squat));
    permit->kind = EXERCISE_POWER;
    assert_false(permits_name(&permits, &squat));
    *permit = empty;
    permit->kit = "barbell";
    assert_true(permits_name(&permits, &squat));
    permit->kit = "rack";
    assert_true(permits_name(&permits, &squat));
    permit->kit = "sled";
    assert_false(permits_name(&permits, &squat));
    assert_false(permits_name(&permits, &first));
    *permit = empty;
    permit->training = true;
    assert_true(permits_name(&permits, &first));
    items[0].exercise = &squat;
    items[0].cap = 6000;
    permit->cap = 5000;
    assert_int_equal(permits_cap(&permits, &squat), 6000); /* the highest of those that name it */
    permit->cap = 7000;
    assert_int_equal(permits_cap(&permits, &squat), 7000);
    assert_int_equal(permits_cap(&permits, &first), 7000);
    permit->training = false;
    assert_int_equal(permits_cap(&permits, &squat), 6000);
    assert_int_equal(permits_cap(&permits, &first), 0);
}

/* An athlete who has reached light work, and an occasion of the day after. */
struct on_light {
    struct hold_entry entries[3];
    struct hold hold;
    struct athlete athlete;
    struct occasion occasion;
};

static struct occasion *light_occasion(struct on_light *made, size_t entries)
{
    made->entries[0] = entry_on(ENTRY_REACHED, 1, 2);
    made->entries[1] = entry_on(ENTRY_REACHED, 2, 3);
    made->entries[2] = entry_on(ENTRY_ENDED, 0, 4);
    made->hold = (struct hold){.since = KNOCK, .clock = -1, .protocol = &protocol, .entries = made->entries, .entry_count = entries};
    made->athlete = (struct athlete){.holds = &made->hold, .hold_count = 1};
    made->occasion = (struct occasion){.athlete = &made->athlete, .date = KNOCK + 4, .clock = -1};
    return &made->occasion;
}

static void items_within_their_cap(void **state)
{
    (void)state;
    static const struct {
        struct load load;
        bool work_up, max;
        enum block_kind block;
        milli session; /* RPE of the occasion */
        bool allowed;
    } rows[] = {
        {{.effort = EFFORT_RPE, .effort_band = {4000, 5000}}, false, false, BLOCK_STRAIGHT, 0, true},
        {{.effort = EFFORT_RPE, .effort_band = {4000, 5001}}, false, false, BLOCK_STRAIGHT, 0, false},
        {{.effort = EFFORT_RPE, .effort_band = {1, 1}}, false, false, BLOCK_STRAIGHT, 0, true},
        {{.effort = EFFORT_EASY}, false, false, BLOCK_STRAIGHT, 0, true},
        {{.effort = EFFORT_EASY}, false, true, BLOCK_STRAIGHT, 0, false},  /* as many as possible */
        {{.effort = EFFORT_EASY}, true, false, BLOCK_STRAIGHT, 0, false},  /* works up */
        {{.effort = EFFORT_NONE}, false, false, BLOCK_STRAIGHT, 0, false}, /* says nothing */
        {{.effort = EFFORT_NONE}, false, false, BLOCK_STRAIGHT, 5000, true},
        {{.effort = EFFORT_NONE}, false, false, BLOCK_STRAIGHT, 5001, false},
        {{.effort = EFFORT_NONE}, false, false, BLOCK_FOR_TIME, 5000, false},
        {{.effort = EFFORT_NONE}, false, false, BLOCK_AS_MANY, 5000, false},
        {{.kind = LOAD_MASS, .effort = EFFORT_NONE}, false, false, BLOCK_STRAIGHT, 5000, false},
        {{.effort = EFFORT_ALL_OUT}, false, false, BLOCK_STRAIGHT, 3000, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct on_light made;
        struct occasion *occasion = light_occasion(&made, 1);
        const struct part parts[] = {{.amount = {5000, 5000}}, {.max = rows[i].max}};
        const struct set_run runs[] = {{.load = {.effort = EFFORT_EASY}},
                                       {.load = rows[i].load, .work_up = rows[i].work_up, .parts = parts, .part_count = 2}};
        const struct item item = {.exercise = &jog_drill, .runs = (struct set_run *)runs, .run_count = 2};
        const struct block block = {.kind = rows[i].block};
        occasion->rpe.high = rows[i].session;
        assert_int_equal(hold_allows_item(occasion, &block, &item, 0), rows[i].allowed);
    }
}

static void items_by_step(void **state)
{
    (void)state;
    const struct exercise squat = {.patterns = 1u << PATTERN_SQUAT, .kind = EXERCISE_STRENGTH};
    const struct item other = {.exercise = &squat}, drill = {.exercise = &jog_drill};
    const struct block block = {.kind = BLOCK_STRAIGHT};
    struct on_light made;
    struct occasion *occasion = light_occasion(&made, 1);
    assert_true(hold_allows_item(occasion, &block, &drill, 0));
    assert_false(hold_allows_item(occasion, &block, &other, 0));
    assert_false(hold_allows_nothing(occasion, 0));
    occasion->date = KNOCK + 1; /* before light work was reached */
    assert_false(hold_allows_item(occasion, &block, &drill, 0));
    assert_true(hold_allows_nothing(occasion, 0));
    occasion->date = KNOCK;
    assert_true(hold_allows_nothing(occasion, 0));
    occasion->date = KNOCK - 1;
    assert_true(hold_allows_item(occasion, &block, &other, 0));
    assert_false(hold_allows_nothing(occasion, 0));
    occasion = light_occasion(&made, 2);
    assert_true(hold_allows_item(occasion, &block, &other, 0));
    made.hold.protocol = NULL;
    assert_false(hold_allows_item(occasion, &block, &other, 0));
    occasion = light_occasion(&made, 3);
    assert_true(hold_allows_item(occasion, &block, &other, 0));
    made.athlete.hold_count = 0;
    assert_true(hold_allows_item(occasion, &block, &other, 0));
}

/* What a step bars, and what it allows only once a doctor has agreed. */
static void barred_and_agreed(void **state)
{
    (void)state;
    const struct activity swim = {.bout = false};
    const struct exercise squat = {.kind = EXERCISE_STRENGTH}, press = {.kind = EXERCISE_STRENGTH};
    const struct permit all[] = {{.training = true, .pattern = -1, .kind = -1}};
    const struct permit bars[] = {{.exercise = &press, .pattern = -1, .kind = -1}, {.activity = &swim, .pattern = -1, .kind = -1}};
    const struct permit agreed[] = {{.exercise = &squat, .pattern = -1, .kind = -1, .cap = 5000},
                                    {.activity = &bike, .pattern = -1, .kind = -1, .cap = 5000}};
    const struct protocol_step only[] = {{.allows = {all, 1}, .bars = {bars, 2}, .if_agreed = {agreed, 2}, .back = -1}};
    const struct protocol one = {.steps = only, .step_count = 1};
    const struct hold_entry entries[] = {entry_on(ENTRY_AGREED, 0, 3)};
    struct hold hold = {.since = KNOCK, .clock = -1, .protocol = &one, .entries = entries, .entry_count = 1};
    const struct athlete athlete = {.holds = &hold, .hold_count = 1};
    struct set_run runs[] = {{.load = {.effort = EFFORT_RPE, .effort_band = {5000, 5000}}}};
    const struct item squats = {.exercise = &squat, .runs = runs, .run_count = 1}, presses = {.exercise = &press};
    const struct item drill = {.exercise = &jog_drill};
    const struct block block = {.kind = BLOCK_STRAIGHT};
    for (int day = 2; day <= 3; day++) {
        struct occasion occasion = {.athlete = &athlete, .date = KNOCK + day, .clock = -1, .rpe = {5000, 5000}};
        assert_true(hold_allows_item(&occasion, &block, &drill, 0));
        assert_false(hold_allows_item(&occasion, &block, &presses, 0));
        runs[0].load.effort_band.high = 5000;
        assert_int_equal(hold_allows_item(&occasion, &block, &squats, 0), day == 3);
        runs[0].load.effort_band.high = 5001;
        assert_false(hold_allows_item(&occasion, &block, &squats, 0));
        occasion.activity = &swim;
        assert_false(hold_allows_activity(&occasion, 0));
        occasion.activity = &bike;
        assert_int_equal(hold_allows_activity(&occasion, 0), day == 3);
        occasion.rpe.high = 5001;
        assert_false(hold_allows_activity(&occasion, 0));
        const struct activity other = {.bout = false};
        occasion.activity = &other;
        assert_true(hold_allows_activity(&occasion, 0));
    }
}

static void activities_within_their_cap(void **state)
{
    (void)state;
    const struct activity pads = {.contact = true}, spar = {.sparring = true}, head = {.head = true}, rest = {.rest = true};
    const struct activity *const blows[] = {&pads, &spar, &head};
    struct on_light made;
    struct occasion *occasion = light_occasion(&made, 1);
    occasion->activity = &bike;
    occasion->rpe.high = 4000;
    assert_true(hold_allows_activity(occasion, 0));
    occasion->rpe.high = 1;
    assert_true(hold_allows_activity(occasion, 0));
    occasion->rpe.high = 4001;
    assert_false(hold_allows_activity(occasion, 0));
    occasion->rpe.high = 0; /* where there is a cap the line says its effort */
    assert_false(hold_allows_activity(occasion, 0));
    occasion->activity = &rest;
    assert_true(hold_allows_activity(occasion, 0));
    for (size_t i = 0; i < 3; i++) { /* no name allows blows */
        const struct permit named[] = {{.activity = blows[i], .pattern = -1, .kind = -1}};
        const struct protocol_step only[] = {{.allows = {named, 1}, .back = -1}};
        const struct protocol one = {.steps = only, .step_count = 1};
        made.hold.protocol = &one;
        made.hold.entry_count = 0;
        occasion->activity = blows[i];
        assert_false(hold_allows_activity(occasion, 0));
    }
    made.athlete.hold_count = 0;
    assert_true(hold_allows_activity(occasion, 0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_out_and_days_away),
        cmocka_unit_test(the_first_day_that_is_not_out),
        cmocka_unit_test(the_days_between_two),
        cmocka_unit_test(held_and_standing_still),
        cmocka_unit_test(whose_entries_are_looked_at),
        cmocka_unit_test(entries_at_the_edges),
        cmocka_unit_test(from_its_moment_on),
        cmocka_unit_test(what_permits_name),
        cmocka_unit_test(items_within_their_cap),
        cmocka_unit_test(items_by_step),
        cmocka_unit_test(barred_and_agreed),
        cmocka_unit_test(activities_within_their_cap),
    };
    return cmocka_run_group_tests_name("what a hold reaches", tests, NULL, NULL);
}

/* The order of a session, its fillers and its wraps, on both sides of every border: which lines it is said of, and what. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

/* A block of KIND on the bench's own day. */
static struct block *block_of(struct bench *bench, enum block_kind kind)
{
    if (!bench->occasion)
        bench->occasion = bench_place(bench, 0);
    return plan_block(bench->plan, bench->occasion, kind, 3);
}

static struct item *add(struct bench *bench, struct block *block, const struct exercise *exercise)
{
    struct item *item = plan_item(bench->plan, block, exercise);
    plan_sets(bench->plan, item, 3, 5, UNIT_REPS);
    return item;
}

static struct set_run *sets_of(struct item *item)
{
    return (struct set_run *)item->runs;
}

/* Words, notes and help of the first finding of NAME, a line each; "" where there is none. */
static const char *said(struct bench *bench, const char *name)
{
    struct text all = {.arena = bench->plan->arena};
    const struct finding *finding = plan_finding(bench->plan, name);
    if (!finding)
        return "";
    text_addf(&all, "%s", finding->words);
    for (size_t i = 0; i < finding->note_count; i++)
        text_addf(&all, "\n%s", finding->notes[i].words);
    if (finding->help)
        text_addf(&all, "\n%s", finding->help);
    return text_keep(bench->plan->arena, &all);
}

/* --- hands that have to be fast --- */

static void which_hands_are_fast(void **state)
{
    (void)state;
    static const struct {
        enum pattern pattern;
        unsigned workers;
        size_t found;
    } rows[] = {
        {PATTERN_THROW, 0, 1}, {PATTERN_THROW, WORKER_REAR_LEG, 1},
        {PATTERN_STRIKE, 0, 1}, {PATTERN_STRIKE, WORKER_LEAD_HAND, 1},
        {PATTERN_STRIKE, WORKER_REAR_HAND, 1}, {PATTERN_STRIKE, WORKER_HAND, 1},
        {PATTERN_STRIKE, WORKER_HAND | WORKER_LEG, 1}, {PATTERN_STRIKE, WORKER_LEG, 0},
        {PATTERN_STRIKE, WORKER_LEAD_LEG, 0}, {PATTERN_STRIKE, WORKER_REAR_LEG, 0},
        {PATTERN_STRIKE, WORKER_LEAD_HIP, 0}, {PATTERN_STRIKE, WORKER_HIP, 0},
        {PATTERN_PUSH, WORKER_HAND, 0}, {PATTERN_JUMP, 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *hang = plan_exercise(bench.plan, "towel hang", EXERCISE_STRENGTH, PATTERN_GRIP);
        struct exercise *fast = plan_exercise(bench.plan, "fast", EXERCISE_POWER, rows[i].pattern);
        fast->workers = rows[i].workers;
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        add(&bench, block, hang);
        add(&bench, block, fast);
        plan_check(bench.plan);
        assert_string_equal(said(&bench, "grip-before-hands"),
                            rows[i].found ? "A.2 fast comes right after A.1 towel hang, which tires the hand it needs\n"
                                            "grip or holding work here\ncommon practice, no source\nput the fast work first"
                                          : "");
        plan_free(bench.plan);
    }
}

/* A hold of LOW to HIGH seconds (LOW -1: as long as can be), of an exercise or of a dose that is one, that loads REGION by SHARE. */
struct holding {
    enum exercise_kind kind;
    bool hold;
    double low, high;
    double rpe;
    enum region region;
    milli share;
    size_t found;
};

static size_t tired_by(const struct holding *row, int set, int part)
{
    struct bench bench = bench_new();
    struct exercise *lean = plan_exercise(bench.plan, "lean", row->kind, PATTERN_PUSH);
    lean->loads[row->region] = row->share;
    struct block *block = block_of(&bench, BLOCK_CIRCUIT);
    struct item *item = add(&bench, block, lean);
    for (int i = 0; i < set; i++)
        plan_sets(bench.plan, item, 1, 5, UNIT_REPS);
    struct set_run *run = &sets_of(item)[set];
    *plan_part(run, 0) = (struct part){.amount = {1000, 1000}, .unit = UNIT_SECONDS};
    *plan_part(run, (size_t)part) = (struct part){.unit = UNIT_SECONDS, .max = row->low < 0};
    if (row->low >= 0)
        plan_part(run, (size_t)part)->amount = (struct range){(milli)(row->low * 1000 + 0.5), (milli)(row->high * 1000 + 0.5)};
    run->hold = row->hold;
    if (row->rpe > 0)
        plan_effort(run, EFFORT_RPE, row->rpe);
    add(&bench, block, bench_throw(&bench));
    plan_check(bench.plan);
    size_t found = plan_found(bench.plan, "grip-before-hands");
    plan_free(bench.plan);
    return found;
}

static void which_holds_tire_the_hand(void **state)
{
    (void)state;
    static const struct holding rows[] = {
        {EXERCISE_HOLD, false, 20, 20, 9, REGION_ARM, 500, 1},      {EXERCISE_HOLD, false, 19.99, 19.99, 9, REGION_ARM, 500, 0},
        {EXERCISE_HOLD, false, 10, 20, 9, REGION_ARM, 500, 1},      {EXERCISE_HOLD, false, 10, 19.9, 9, REGION_ARM, 500, 0},
        {EXERCISE_HOLD, false, 20, 20, 8.999, REGION_ARM, 500, 0},    {EXERCISE_HOLD, false, 20, 20, 0, REGION_ARM, 500, 0},
        {EXERCISE_HOLD, false, -1, 0, 9, REGION_ARM, 500, 1},       {EXERCISE_HOLD, false, -1, 0, 8.9, REGION_ARM, 500, 0},
        {EXERCISE_STRENGTH, true, 20, 20, 9, REGION_ARM, 500, 1},   {EXERCISE_STRENGTH, false, 20, 20, 9, REGION_ARM, 500, 0},
        {EXERCISE_HOLD, true, 20, 20, 9, REGION_ARM, 500, 1},       {EXERCISE_HOLD, false, 20, 20, 9, REGION_ARM, 499, 0},
        {EXERCISE_HOLD, false, 20, 20, 9, REGION_SHOULDER, 500, 1}, {EXERCISE_HOLD, false, 20, 20, 9, REGION_SHOULDER, 499, 0},
        {EXERCISE_HOLD, false, 20, 20, 9, REGION_GRIP, 500, 1},     {EXERCISE_HOLD, false, 20, 20, 9, REGION_GRIP, 499, 0},
        {EXERCISE_HOLD, false, 20, 20, 9, REGION_HIPS, 1000, 0},    {EXERCISE_STRENGTH, false, 1, 1, 0, REGION_GRIP, 1000, 1},
        {EXERCISE_STRENGTH, false, 1, 1, 0, REGION_GRIP, 999, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int set = 0; set < 3; set++)
            for (int part = 0; part < 3; part++)
                assert_int_equal(tired_by(&rows[i], set, part), rows[i].found);
}

/* Right after is the line above, of the block before too; `g` grips, `s` squats, `t` throws, `/` begins a block. */
static void right_before_is_the_line_above(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        size_t found;
    } rows[] = {{"gt", 1}, {"g/t", 1}, {"gst", 0}, {"g/s/t", 0}, {"tg", 0}, {"t/g", 0}, {"gtgt", 2}, {"tt", 0}, {"gg/tt", 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench), *toss = bench_throw(&bench);
        struct exercise *hang = plan_exercise(bench.plan, "towel hang", EXERCISE_STRENGTH, PATTERN_GRIP);
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        for (const char *line = rows[i].lines; *line; line++)
            if (*line == '/')
                block = block_of(&bench, BLOCK_CIRCUIT);
            else
                add(&bench, block, *line == 'g' ? hang : *line == 's' ? squat : toss);
        bench_expect(&bench, "grip-before-hands", rows[i].found);
    }
}

/* One line after two others, on two days, is reported of both. */
static void of_each_line_that_tires(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *toss = bench_throw(&bench);
    struct span span = {0};
    for (int day = 0; day < 3; day++) {
        struct exercise *hang = day < 2 ? plan_exercise(bench.plan, day ? "towel hang" : "pinch", EXERCISE_STRENGTH, PATTERN_GRIP)
                                        : bench.plan->programme.exercises[bench.plan->programme.exercise_count - 1];
        bench.occasion = bench_place(&bench, day);
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        add(&bench, block, hang);
        struct item *item = add(&bench, block, toss);
        span = day ? span : item->span;
        item->span = span;
    }
    bench_expect(&bench, "grip-before-hands", 2);
}

/* --- new skills --- */

static void what_exhausts(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind kind;
        double rpe[2];
        size_t found;
    } rows[] = {
        {EXERCISE_STRENGTH, {9, 0}, 1},     {EXERCISE_STRENGTH, {8.999, 0}, 0}, {EXERCISE_STRENGTH, {0, 9}, 1},
        {EXERCISE_STRENGTH, {8, 9}, 1},     {EXERCISE_STRENGTH, {8, 8.9}, 0}, {EXERCISE_CONDITIONING, {9, 0}, 1},
        {EXERCISE_CONDITIONING, {8.9, 0}, 0}, {EXERCISE_POWER, {9.5, 0}, 0},  {EXERCISE_SKILL, {9.5, 0}, 0},
        {EXERCISE_HOLD, {9.5, 0}, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        struct item *item = add(&bench, block, plan_exercise(bench.plan, "hard", rows[i].kind, PATTERN_SQUAT));
        plan_sets(bench.plan, item, 1, 5, UNIT_REPS);
        for (int k = 0; k < 2; k++)
            if (rows[i].rpe[k] > 0)
                plan_effort(&sets_of(item)[k], EFFORT_RPE, rows[i].rpe[k]);
        add(&bench, block, plan_exercise(bench.plan, "feint", EXERCISE_SKILL, PATTERN_FOOTWORK));
        plan_check(bench.plan);
        assert_string_equal(said(&bench, "skill-after-work"),
                            rows[i].found ? "A.2 feint is new, and comes after exhausting work\nRPE 9 and up here\n"
                                            "common practice, no source\nlearn it fresh: put it first"
                                          : "");
        plan_free(bench.plan);
    }
}

/* `h` is hard, `s` a squat that is not, `f` a new skill; anything before it exhausts, not only the line above. */
static void anything_before_a_skill_exhausts(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        size_t found;
    } rows[] = {{"hf", 1}, {"fh", 0}, {"hsf", 1}, {"h/s/f", 1}, {"sf", 0}, {"f/h", 0}, {"hff", 2}, {"hs", 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        struct exercise *feint = plan_exercise(bench.plan, "feint", EXERCISE_SKILL, PATTERN_FOOTWORK);
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        for (const char *line = rows[i].lines; *line; line++)
            if (*line == '/')
                block = block_of(&bench, BLOCK_CIRCUIT);
            else {
                struct item *item = add(&bench, block, *line == 'f' ? feint : squat);
                if (*line == 'h')
                    plan_effort(sets_of(item), EFFORT_RPE, 9);
            }
        bench_expect(&bench, "skill-after-work", rows[i].found);
    }
}

/* A skill is new for the week from the day that it is first done. */
static void a_skill_is_new_for_a_week(void **state)
{
    (void)state;
    for (int days = 6; days < 8; days++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        struct exercise *feint = plan_exercise(bench.plan, "feint", EXERCISE_SKILL, PATTERN_FOOTWORK);
        add(&bench, block_of(&bench, BLOCK_CIRCUIT), feint);
        bench.occasion = bench_place(&bench, days);
        struct block *block = block_of(&bench, BLOCK_CIRCUIT);
        plan_effort(sets_of(add(&bench, block, squat)), EFFORT_RPE, 9);
        add(&bench, block, feint);
        bench_expect(&bench, "skill-after-work", days == 6 ? 1 : 0);
    }
}

/* --- fillers --- */

static struct exercise *loading(struct bench *bench, const char *name, enum region region, milli share)
{
    struct exercise *exercise = plan_exercise(bench->plan, name, EXERCISE_PREHAB, PATTERN_BRACE);
    exercise->loads[region] = share;
    return exercise;
}

/* Lines of a round: lower case what fills its rests, by region: s shoulder, h hips, g neck, n none. */
static void fillers_spare_what_the_round_needs(void **state)
{
    (void)state;
    static const struct {
        const char *lines;
        size_t found;
        const char *words;
    } rows[] = {
        {"Ss", 1, "s in the rests loads the shoulder, which S needs"},
        {"sS", 1, "s in the rests loads the shoulder, which S needs"},
        {"Sh", 0, NULL}, {"ss", 0, NULL}, {"SS", 0, NULL}, {"s", 0, NULL},
        {"NSs", 1, "s in the rests loads the shoulder, which S needs"},
        {"sNS", 1, "s in the rests loads the shoulder, which S needs"},
        {"Hsh", 1, "h in the rests loads the hips, which H needs"},
        {"Gg", 1, "g in the rests loads the neck, which G needs"},
        {"SHsh", 2, "s in the rests loads the shoulder, which S needs"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_ROUNDS);
        for (const char *line = rows[i].lines; *line; line++) {
            const char *name = arena_copy(bench.plan->arena, line, 1);
            enum region region = strchr("sS", *line) ? REGION_SHOULDER : strchr("gG", *line) ? REGION_NECK : REGION_HIPS;
            bool none = *line == 'n' || *line == 'N';
            add(&bench, block, loading(&bench, name, region, none ? 0 : 500))->filler = *line >= 'a';
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "filler-loads-round"), rows[i].found);
        if (rows[i].words)
            assert_string_equal(said(&bench, "filler-loads-round"),
                                arena_printf(bench.plan->arena,
                                             "%s\nthe round it rests from\ncommon practice, no source", rows[i].words));
        plan_free(bench.plan);
    }
}

/* The seconds of three fillers, the last in two goes, against a rest; what is said points at the longest. */
static void fillers_fit_the_rest(void **state)
{
    (void)state;
    static const struct {
        int seconds[4], low, high;
        const char *words;
        int at; /* the line that it points at */
    } rows[] = {
        {{10, 10, 5, 5}, 30, 30, NULL, 0},
        {{10, 10, 5, 6}, 30, 30, "the fillers take 31 s and the rest is 30 s", 1},
        {{10, 11, 5, 5}, 30, 30, "the fillers take 31 s and the rest is 30 s", 2},
        {{10, 10, 11, 1}, 30, 30, "the fillers take 32 s and the rest is 30 s", 3},
        {{10, 10, 1, 11}, 30, 30, "the fillers take 32 s and the rest is 30 s", 3},
        {{10, 10, 5, 5}, 20, 30, NULL, 0},
        {{10, 10, 5, 6}, 20, 30, "the fillers take 31 s and the rest is 30 s", 1},
        {{10, 10, 5, 5}, 30, 0, NULL, 0},
        {{10, 10, 5, 6}, 30, 0, "the fillers take 31 s and the rest is 30 s", 1},
        {{0, 0, 0, 1}, 0, 0, "the fillers take 1 s and the rest is 0 s", 3},
        {{0, 0, 0, 0}, 0, 0, NULL, 0},
        {{1300, 1100, 0, 0}, 2000, 2000, "the fillers take 40 min and the rest is 33 min 20 s", 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct item *lines[4];
        struct block *block = block_of(&bench, BLOCK_ROUNDS);
        block->rest_low = rows[i].low;
        block->rest_high = rows[i].high;
        for (int k = 0; k < 4; k++) {
            lines[k] = add(&bench, block, loading(&bench, "line", REGION_FOOT, 0));
            lines[k]->filler = k > 0;
            sets_of(lines[k])->seconds = k ? rows[i].seconds[k - 1] : 120;
        }
        plan_sets(bench.plan, lines[3], 1, 5, UNIT_REPS)->seconds = rows[i].seconds[3];
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "filler-too-long"), rows[i].words ? 1 : 0);
        if (rows[i].words) {
            assert_string_equal(said(&bench, "filler-too-long"),
                                arena_printf(bench.plan->arena, "%s\nthe rest is set here", rows[i].words));
            assert_int_equal(plan_finding(bench.plan, "filler-too-long")->span.start, lines[rows[i].at]->span.start);
        }
        plan_free(bench.plan);
    }
}

/* Of the weeks that it is done in the longest is reported. */
static void the_longest_of_the_weeks_is_told(void **state)
{
    (void)state;
    static const int seconds[] = {41, 43, 42};
    struct bench bench = bench_new();
    struct exercise *circles = loading(&bench, "arm circles", REGION_SHOULDER, 0);
    struct span span = {0};
    for (int week = 0; week < 3; week++) {
        bench.occasion = bench_place(&bench, 7 * week);
        struct block *block = block_of(&bench, BLOCK_ROUNDS);
        block->rest_low = block->rest_high = 40;
        struct item *item = add(&bench, block, circles);
        item->filler = true;
        sets_of(item)->seconds = seconds[week];
        span = week ? span : item->span;
        item->span = span;
    }
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "filler-too-long"), 1);
    assert_string_equal(plan_finding(bench.plan, "filler-too-long")->words, "the fillers take 43 s and the rest is 40 s");
    plan_free(bench.plan);
}

/* --- wraps --- */

static void time_to_wrap(void **state)
{
    (void)state;
    static const struct {
        enum exercise_kind lift;
        const char *kit;
        bool filler;
        int after;
        size_t found;
    } rows[] = {
        {EXERCISE_STRENGTH, "heavy bag", false, 59, 1}, {EXERCISE_STRENGTH, "heavy bag", false, 60, 0},
        {EXERCISE_STRENGTH, "heavy bag", false, -1, 1}, {EXERCISE_STRENGTH, "heavy bag", true, 0, 0},
        {EXERCISE_STRENGTH, "sled", false, 0, 0},       {EXERCISE_CONDITIONING, "heavy bag", false, 0, 0},
        {EXERCISE_POWER, "heavy bag", false, 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int before = 0; before < 2; before++) { /* a line stands before both, and it is no lift */
            struct bench bench = bench_new();
            struct exercise *lift = plan_exercise(bench.plan, "lift", rows[i].lift, PATTERN_SQUAT);
            struct exercise *bag = plan_exercise(bench.plan, "cross on the bag", EXERCISE_SKILL, PATTERN_STRIKE);
            plan_need(bench.plan, bag, rows[i].kit);
            struct block *block = block_of(&bench, BLOCK_CIRCUIT);
            if (before)
                add(&bench, block, loading(&bench, "circles", REGION_FOOT, 0));
            add(&bench, block, lift);
            struct item *item = add(&bench, block, bag);
            item->filler = rows[i].filler;
            item->after = rows[i].after;
            plan_check(bench.plan);
            assert_string_equal(said(&bench, "wraps-on"),
                                !rows[i].found ? ""
                                : before       ? "no time to wrap the hands between A.2 lift and A.3 cross on the bag\n"
                                                 "common practice, no source\nwraps on before the lift"
                                               : "no time to wrap the hands between A.1 lift and A.2 cross on the bag\n"
                                                 "common practice, no source\nwraps on before the lift");
            plan_free(bench.plan);
        }
}

static void what_is_waived_is_not_said(void **state)
{
    (void)state;
    static const char *const checks[] = {"skill-after-work", "filler-loads-round", "filler-too-long", "wraps-on"};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            struct exercise *squat = bench_squat(&bench);
            struct exercise *cross = plan_exercise(bench.plan, "cross on the bag", EXERCISE_SKILL, PATTERN_STRIKE);
            plan_need(bench.plan, cross, "heavy bag");
            if (waived)
                bench_waive(&bench, checks[i]);
            struct block *block = block_of(&bench, i == 1 || i == 2 ? BLOCK_ROUNDS : BLOCK_CIRCUIT);
            plan_effort(sets_of(add(&bench, block, squat)), EFFORT_RPE, 9);
            struct item *second = add(&bench, block, i == 1 ? squat : cross);
            second->filler = i == 1 || i == 2;
            sets_of(second)->seconds = i == 2;
            bench_expect(&bench, checks[i], waived ? 0 : 1);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(which_hands_are_fast),
        cmocka_unit_test(which_holds_tire_the_hand),
        cmocka_unit_test(right_before_is_the_line_above),
        cmocka_unit_test(of_each_line_that_tires),
        cmocka_unit_test(what_exhausts),
        cmocka_unit_test(anything_before_a_skill_exhausts),
        cmocka_unit_test(a_skill_is_new_for_a_week),
        cmocka_unit_test(fillers_spare_what_the_round_needs),
        cmocka_unit_test(fillers_fit_the_rest),
        cmocka_unit_test(the_longest_of_the_weeks_is_told),
        cmocka_unit_test(time_to_wrap),
        cmocka_unit_test(what_is_waived_is_not_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

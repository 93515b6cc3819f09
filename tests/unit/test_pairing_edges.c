/* What stands beside what, on both sides of every border: which lines it is said of, and what is said. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "unit/plan_builder.c"

/* A block of KIND on the bench's first day, with three minutes of rest. */
static struct block *block_of(struct bench *bench, enum block_kind kind)
{
    if (!bench->occasion)
        bench->occasion = bench_place(bench, 0);
    struct block *block = plan_block(bench->plan, bench->occasion, kind, 3);
    block->rest_low = block->rest_high = 180;
    return block;
}

/* EXERCISE for three sets of five; RPE 0: nothing is said of its effort. */
static struct item *add(struct bench *bench, struct block *block, const struct exercise *exercise, double rpe)
{
    struct item *item = plan_item(bench->plan, block, exercise);
    struct set_run *sets = plan_sets(bench->plan, item, 3, 5, UNIT_REPS);
    if (rpe > 0)
        plan_effort(sets, EFFORT_RPE, rpe);
    return item;
}

static struct exercise *of_pattern(struct bench *bench, const char *name, enum pattern pattern)
{
    return plan_exercise(bench->plan, name, EXERCISE_STRENGTH, pattern);
}

/* All that the first finding of NAME says, a line each; "" where there is none. */
static const char *said(struct bench *bench, const char *name)
{
    struct text all = {.arena = bench->plan->arena};
    plan_check(bench->plan);
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

/* --- supersets --- */

static void the_region_that_both_work_most(void **state)
{
    (void)state;
    static const struct {
        milli chest[2], arm[2];
        const char *words;
    } rows[] = {
        {{1000, 1000}, {500, 500}, "both load the chest"},
        {{500, 500}, {1000, 1000}, "both load the arm"},
        {{1000, 500}, {750, 750}, "both load the arm"},
        {{750, 750}, {1000, 500}, "both load the chest"},
        {{750, 750}, {750, 750}, "both load the chest"},
        {{499, 1000}, {500, 1000}, "both load the arm"},
        {{1000, 499}, {1000, 499}, NULL},
        {{499, 1000}, {1000, 499}, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_SUPERSET);
        for (int k = 0; k < 2; k++) {
            struct exercise *exercise = of_pattern(&bench, k ? "push-up" : "dip", PATTERN_PUSH);
            exercise->loads[REGION_CHEST] = rows[i].chest[k];
            exercise->loads[REGION_ARM] = rows[i].arm[k];
            add(&bench, block, exercise, 7);
        }
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "pair-same-region");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding)
            assert_non_null(strstr(finding->words, rows[i].words));
        plan_free(bench.plan);
    }
}

/* Of regions, only the last of the body's is shared: it counts too. */
static void the_last_region_counts(void **state)
{
    (void)state;
    static const enum region ends[] = {0, REGION_COUNT - 1};
    for (size_t i = 0; i < 2; i++) {
        struct bench bench = bench_new();
        struct exercise *raise = of_pattern(&bench, "raise", PATTERN_BRACE), *hop = of_pattern(&bench, "hop", PATTERN_JUMP);
        raise->loads[ends[i]] = 1000;
        hop->loads[ends[i]] = 500;
        struct block *block = block_of(&bench, BLOCK_SUPERSET);
        add(&bench, block, raise, 7);
        add(&bench, block, hop, 9);
        assert_string_equal(said(&bench, "pair-same-region"),
                            arena_printf(bench.plan->arena,
                                         "A.1 raise and A.2 hop both load the %s, and both are hard\n"
                                         "1 of a set for the %s here, 0.5 there\n"
                                         "hard is RPE 7 and up: common practice, no source\n"
                                         "pair it with another region; if you mean it, add a line `on purpose` that says why",
                                         regions.names[ends[i]], regions.names[ends[i]]));
        plan_free(bench.plan);
    }
}

/* Each with the one before it, of three; and no other block is a superset. */
static void neighbours_in_a_superset(void **state)
{
    (void)state;
    static const struct {
        enum block_kind kind;
        bool on_purpose;
        double rpe[3];
        size_t found;
    } rows[] = {
        {BLOCK_SUPERSET, false, {7, 7, 7}, 2}, {BLOCK_SUPERSET, false, {7, 6.9, 7}, 0},
        {BLOCK_SUPERSET, false, {6.9, 7, 7}, 1}, {BLOCK_SUPERSET, false, {7, 7, 6.9}, 1},
        {BLOCK_SUPERSET, true, {7, 7, 7}, 0}, {BLOCK_CIRCUIT, false, {7, 7, 7}, 0},
        {BLOCK_STRAIGHT, false, {7, 7, 7}, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        block_of(&bench, BLOCK_STRAIGHT); /* the one in question is the second */
        add(&bench, (struct block *)bench.occasion->blocks, bench_press(&bench), 7);
        struct block *block = block_of(&bench, rows[i].kind);
        block->on_purpose = rows[i].on_purpose ? "they meant it" : NULL;
        for (int k = 0; k < 3; k++)
            add(&bench, block, squat, rows[i].rpe[k]);
        bench_expect(&bench, "pair-same-region", rows[i].found);
    }
}

/* A contrast is proposed for heavy work before the fast work that it prepares, and for nothing else. */
static void a_pair_that_could_be_a_contrast(void **state)
{
    (void)state;
    static const struct {
        double rpe;
        bool fast, throws, contrast;
    } rows[] = {
        {8, true, false, true}, {7.9, true, false, false}, {8, false, false, false}, {8, true, true, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct exercise *squat = bench_squat(&bench);
        struct exercise *second = of_pattern(&bench, "second", rows[i].throws ? PATTERN_THROW : PATTERN_JUMP);
        second->loads[REGION_FRONT_THIGH] = 1000;
        second->ballistic = rows[i].fast;
        struct block *block = block_of(&bench, BLOCK_SUPERSET);
        add(&bench, block, squat, rows[i].rpe);
        add(&bench, block, second, 8);
        plan_check(bench.plan);
        assert_int_equal(strstr(plan_finding(bench.plan, "pair-same-region")->help, "`contrast`") != NULL, rows[i].contrast);
        plan_free(bench.plan);
    }
    struct bench bench = bench_new(); /* a row prepares no jump */
    struct exercise *row = of_pattern(&bench, "row", PATTERN_PULL), *jump = of_pattern(&bench, "jump", PATTERN_JUMP);
    row->loads[REGION_HIPS] = jump->loads[REGION_HIPS] = 500;
    jump->ballistic = true;
    struct block *block = block_of(&bench, BLOCK_SUPERSET);
    add(&bench, block, row, 8);
    add(&bench, block, jump, 8);
    plan_check(bench.plan);
    assert_null(strstr(plan_finding(bench.plan, "pair-same-region")->help, "`contrast`"));
    plan_free(bench.plan);
}

/* --- contrasts --- */

/* Fast work that each heavy pattern prepares, as coaches teach it: legs jump, sprint, kick and throw, hands strike and throw. */
static const char *prepared_by_the(enum pattern heavy)
{
    switch (heavy) {
    case PATTERN_HINGE:
    case PATTERN_SQUAT:
    case PATTERN_LUNGE: return "hinge squat lunge jump throw strike footwork locomotion";
    case PATTERN_PUSH: return "push throw strike";
    case PATTERN_PULL: return "push pull throw strike";
    case PATTERN_ROTATE:
    case PATTERN_BRACE: return "push rotate throw strike";
    default: return NULL; /* all of it: nothing is known of its limbs */
    }
}

static void what_each_pattern_prepares(void **state)
{
    (void)state;
    for (int heavy = 0; heavy < PATTERN_COUNT; heavy++)
        for (int fast = 0; fast < PATTERN_COUNT; fast++) {
            const char *prepared = prepared_by_the((enum pattern)heavy);
            struct bench bench = bench_new();
            struct exercise *second = of_pattern(&bench, "fast", (enum pattern)fast);
            second->ballistic = true;
            struct block *block = block_of(&bench, BLOCK_CONTRAST);
            add(&bench, block, of_pattern(&bench, "heavy", (enum pattern)heavy), 8);
            add(&bench, block, second, 0);
            assert_string_equal(said(&bench, "contrast-not-explosive"),
                                !prepared || strstr(prepared, patterns.names[fast])
                                    ? ""
                                    : "A.1 heavy does not prepare A.2 fast: they drive with different limbs\nthe heavy part\n"
                                      "common practice, no source");
            if (*said(&bench, "contrast-not-explosive"))
                assert_int_equal(plan_finding(bench.plan, "contrast-not-explosive")->severity, SEVERITY_INFO);
            plan_free(bench.plan);
        }
}

/* A pattern more on either side is enough. */
static void one_pattern_of_several_prepares(void **state)
{
    (void)state;
    for (int more = 0; more < 3; more++) {
        struct bench bench = bench_new();
        struct exercise *press = bench_press(&bench), *jump = of_pattern(&bench, "jump", PATTERN_JUMP);
        jump->ballistic = true;
        press->patterns |= more == 1 ? 1u << PATTERN_SQUAT : 0;
        jump->patterns |= more == 2 ? 1u << PATTERN_STRIKE : 0;
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        add(&bench, block, press, 8);
        add(&bench, block, jump, 0);
        bench_expect(&bench, "contrast-not-explosive", more ? 0 : 1);
    }
}

/* What the first part's two sets ask for in turn: `%` of the best, `r` RPE, `e` easy, `-` nothing. */
static void the_first_part_is_heavy(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        double figures[2];
        bool light;
    } rows[] = {
        {"%%", {74.999, 74.999}, true}, {"%%", {75, 70}, false}, {"%%", {70, 75}, false}, {"rr", {7.999, 7.999}, true},
        {"rr", {7.9, 8}, false}, {"rr", {8, 7}, false}, {"ee", {0}, true}, {"--", {0}, false}, {"-e", {0}, true},
        {"e-", {0}, true}, {"-%", {0, 70}, true}, {"%-", {70, 0}, true}, {"-r", {0, 7}, true}, {"r-", {7, 0}, true},
        {"-r", {0, 8}, false}, {"%%", {0.001, 0.001}, true}, {"rr", {0.001, 0.001}, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        struct item *squat = plan_item(bench.plan, block, bench_squat(&bench));
        for (int k = 0; k < 2; k++) {
            struct set_run *sets = plan_sets(bench.plan, squat, 1, 3, UNIT_REPS);
            if (rows[i].what[k] == '%')
                plan_percent(sets, rows[i].figures[k]);
            else if (rows[i].what[k] != '-')
                plan_effort(sets, rows[i].what[k] == 'e' ? EFFORT_EASY : EFFORT_RPE, rows[i].figures[k]);
        }
        add(&bench, block, bench_throw(&bench), 0);
        assert_string_equal(said(&bench, "contrast-not-heavy"),
                            rows[i].light ? "A.1 back squat is not heavy: the first part of a contrast is at 75 % or RPE 8 and up\n"
                                            "what it should prepare\ncommon practice, no source"
                                          : "");
        plan_free(bench.plan);
    }
}

/* A range is heavy by its top. */
static void the_top_of_a_range_is_heavy(void **state)
{
    (void)state;
    for (int top = 0; top < 2; top++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        struct item *squat = add(&bench, block, bench_squat(&bench), 0);
        plan_percent((struct set_run *)squat->runs, 70);
        ((struct set_run *)squat->runs)->load.percent.high = top ? 75000 : 74000;
        add(&bench, block, bench_throw(&bench), 0);
        bench_expect(&bench, "contrast-not-heavy", top ? 0 : 1);
    }
}

/* Which of four items stand in: `f` a filler, `l` light, `p` a press (slow), `t` a throw, each of them. */
static void parts_of_a_contrast(void **state)
{
    (void)state;
    static const struct {
        const char *items;
        enum block_kind kind;
        size_t light, slow; /* findings of each */
    } rows[] = {
        {"lt", BLOCK_CONTRAST, 1, 0},  {"lp", BLOCK_CONTRAST, 1, 1},   {"flt", BLOCK_CONTRAST, 1, 0},
        {"lft", BLOCK_CONTRAST, 1, 0}, {"lfp", BLOCK_CONTRAST, 1, 1},  {"ltp", BLOCK_CONTRAST, 1, 0},
        {"lpt", BLOCK_CONTRAST, 1, 1}, {"l", BLOCK_CONTRAST, 0, 0},    {"lf", BLOCK_CONTRAST, 0, 0},
        {"lt", BLOCK_SUPERSET, 0, 0},  {"lp", BLOCK_CIRCUIT, 0, 0},    {"", BLOCK_CONTRAST, 0, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, rows[i].kind);
        for (const char *what = rows[i].items; *what; what++) {
            const struct exercise *exercise = *what == 't'   ? bench_throw(&bench)
                                              : *what == 'p' ? bench_press(&bench)
                                                             : bench_squat(&bench);
            add(&bench, block, exercise, *what == 'l' ? 7 : 0)->filler = *what == 'f';
        }
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "contrast-not-heavy"), rows[i].light);
        assert_int_equal(plan_found(bench.plan, "contrast-not-explosive"), rows[i].slow);
        plan_free(bench.plan);
    }
}

/* What a line below says for somebody is meant as it is. */
static void what_is_somebodys_own_is_meant(void **state)
{
    (void)state;
    for (int own = 0; own < 4; own++) {
        struct bench bench = bench_new();
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        add(&bench, block, bench_squat(&bench), 7)->own = own & 1;
        add(&bench, block, bench_press(&bench), 0)->own = own & 2;
        plan_check(bench.plan);
        assert_int_equal(plan_found(bench.plan, "contrast-not-heavy"), own & 1 ? 0 : 1);
        assert_int_equal(plan_found(bench.plan, "contrast-not-explosive"), own ? 0 : 1);
        plan_free(bench.plan);
    }
}

/* The longer of the gap and the rest counts, against the coach's own figure too. */
static void what_a_contrast_rests(void **state)
{
    (void)state;
    static const struct {
        int rest, after;
        milli most; /* of the limit; 0: none */
        milli left;
        const char *words;
    } rows[] = {
        {179, 20, 0, PLAN_NOTHING_LEFT, "contrast A rests 2 min 59 s; the effect is best after 3 min and longer"},
        {180, 20, 0, PLAN_NOTHING_LEFT, ""},
        {20, 179, 0, PLAN_NOTHING_LEFT, "contrast A rests 2 min 59 s; the effect is best after 3 min and longer"},
        {20, 180, 0, PLAN_NOTHING_LEFT, ""},
        {60, 20, 90000, -30000, "contrast A rests 1 min; the effect is best after 1 min 30 s and longer"},
        {90, 20, 90000, 0, ""},
        {91, 20, 90000, 1000, ""},
        {20, 95, 90000, 5000, ""},
        {179, 20, 179100, -100, "contrast A rests 2 min 59 s; the effect is best after 2 min 59 s and longer"},
        {1000, 20, 1200000, -200000, "contrast A rests 16 min 40 s; the effect is best after 20 min and longer"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct limit *limit = rows[i].most ? plan_limit(bench.plan, bench.limits, LIMIT_SESSION, "contrast rest",
                                                        LIMIT_AT_LEAST, rows[i].most)
                                           : NULL;
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        block->rest_low = block->rest_high = rows[i].rest;
        add(&bench, block, bench_squat(&bench), 8);
        add(&bench, block, bench_throw(&bench), 0)->after = rows[i].after;
        const char *words = said(&bench, "contrast-rest-short");
        assert_int_equal(strncmp(words, rows[i].words, strlen(rows[i].words)), 0);
        assert_int_equal(*words != '\0', *rows[i].words != '\0');
        if (limit)
            assert_int_equal(plan_left(bench.plan, limit, COUNTED_CONTRAST_REST), rows[i].left);
        plan_free(bench.plan);
    }
}

/* Of the weeks that a line is done in the shortest rest is reported. */
static void the_shortest_rest_is_told(void **state)
{
    (void)state;
    static const int rests[] = {150, 120, 140};
    struct bench bench = bench_new();
    struct exercise *squat = bench_squat(&bench), *toss = bench_throw(&bench);
    struct span first = {0};
    for (int week = 0; week < 3; week++) {
        bench.occasion = bench_place(&bench, 7 * week);
        struct block *block = block_of(&bench, BLOCK_CONTRAST);
        block->rest_low = block->rest_high = rests[week];
        first = week ? first : block->span;
        block->span = first;
        add(&bench, block, squat, 8);
        add(&bench, block, toss, 0);
    }
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "contrast-rest-short"), 1);
    assert_string_equal(plan_finding(bench.plan, "contrast-rest-short")->words,
                        "contrast A rests 2 min; the effect is best after 3 min and longer");
    plan_free(bench.plan);
}

/* A line that two others come before, each on its own day, is reported of both. */
static void of_each_partner(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    struct exercise *firsts[] = {bench_press(&bench), of_pattern(&bench, "dip", PATTERN_PUSH)}, *second = firsts[0];
    firsts[1]->loads[REGION_CHEST] = 1000;
    struct span span = {0};
    for (int day = 0; day < 3; day++) {
        bench.occasion = bench_place(&bench, day);
        struct block *block = block_of(&bench, BLOCK_SUPERSET);
        add(&bench, block, firsts[day / 2], 7);
        struct item *item = add(&bench, block, second, 7);
        span = day ? span : item->span;
        item->span = span;
    }
    plan_check(bench.plan);
    assert_int_equal(bench.plan->diag->count, 2);
    plan_free(bench.plan);
}

static void what_is_waived_is_not_said(void **state)
{
    (void)state;
    static const char *const checks[] = {"pair-same-region", "contrast-not-heavy", "contrast-not-explosive",
                                         "contrast-rest-short", "grip-before-hands"};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            struct exercise *squat = bench_squat(&bench), *toss = bench_throw(&bench);
            struct exercise *hang = plan_exercise(bench.plan, "towel hang", EXERCISE_STRENGTH, PATTERN_GRIP);
            if (waived)
                bench_waive(&bench, checks[i]);
            struct block *block = block_of(&bench, i ? BLOCK_CONTRAST : BLOCK_SUPERSET);
            block->rest_low = block->rest_high = i == 3 ? 60 : 180;
            add(&bench, block, i == 4 ? hang : squat, i == 1 ? 7 : 8);
            add(&bench, block, i == 1 || i == 4 ? toss : squat, 8);
            bench_expect(&bench, checks[i], waived ? 0 : 1);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_region_that_both_work_most),
        cmocka_unit_test(the_last_region_counts),
        cmocka_unit_test(neighbours_in_a_superset),
        cmocka_unit_test(a_pair_that_could_be_a_contrast),
        cmocka_unit_test(what_each_pattern_prepares),
        cmocka_unit_test(one_pattern_of_several_prepares),
        cmocka_unit_test(the_first_part_is_heavy),
        cmocka_unit_test(the_top_of_a_range_is_heavy),
        cmocka_unit_test(parts_of_a_contrast),
        cmocka_unit_test(what_is_somebodys_own_is_meant),
        cmocka_unit_test(what_a_contrast_rests),
        cmocka_unit_test(the_shortest_rest_is_told),
        cmocka_unit_test(of_each_partner),
        cmocka_unit_test(what_is_waived_is_not_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

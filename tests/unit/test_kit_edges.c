/* What a gym has, on both sides of every border: kit that is missing, and bars, stations and discs wanted twice at once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "unit/plan_builder.c"

static struct gym *slipway(struct bench *bench)
{
    struct gym *gym = plan_gym(bench->plan, "Slipway");
    bench->athlete->gym = gym;
    bench->occasion = bench_place(bench, 0);
    return gym;
}

/* COUNT sets in LINE of BLOCK at BAR (or none) with DISCS of 10 kg a side; 0: nothing is loaded. */
static void sets_at(struct bench *bench, struct item *line, int count, const struct kit *bar, int discs)
{
    struct set_run *run = plan_sets(bench->plan, line, count, 5, UNIT_REPS);
    run->load.plating.bar = bar;
    run->load.plating.disc_count = discs;
    for (int i = 0; i < discs; i++)
        run->load.plating.discs[i] = KG(10);
}

static struct item *line_of(struct bench *bench, struct block *block, const char *name)
{
    return plan_item(bench->plan, block, plan_exercise(bench->plan, name, EXERCISE_STRENGTH, PATTERN_SQUAT));
}

/* --- what is missing --- */

static void how_many_are_needed(void **state)
{
    (void)state;
    static const struct {
        int needed, had;
        const char *words;
    } rows[] = {
        {1, 0, "A.1 back squat needs box, and Slipway has none"},
        {1, 1, NULL},
        {0, 1, NULL},
        {0, 0, "A.1 back squat needs box, and Slipway has none"},
        {2, 0, "A.1 back squat needs box, and Slipway has none"},
        {2, 1, "A.1 back squat needs 2 x box, and Slipway has 1"},
        {2, 2, NULL},
        {3, 2, "A.1 back squat needs 3 x box, and Slipway has 2"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int away = 0; away < 3; away++) { /* at the athlete's gym, at another, and neither */
            struct bench bench = bench_new();
            struct gym *gym = slipway(&bench);
            if (rows[i].had)
                plan_kit(bench.plan, gym, "box", rows[i].had);
            if (away) {
                struct gym *home = plan_gym(bench.plan, "Home");
                plan_kit(bench.plan, home, "box", away == 1 ? 9 : 0);
                bench.athlete->gym = home;
                bench.occasion->gym = gym;
            }
            struct exercise *squat = bench_squat(&bench);
            plan_need(bench.plan, squat, "box");
            squat->needs[0].count = rows[i].needed;
            bench_sets(&bench, bench.occasion, squat, 3, 5, UNIT_REPS);
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "kit-missing");
            assert_int_equal(plan_found(bench.plan, "kit-missing"), rows[i].words ? 1 : 0);
            if (finding) {
                assert_string_equal(finding->words, rows[i].words);
                assert_string_equal(finding->notes[0].words, "what Slipway has is listed here");
                assert_null(finding->help);
            }
            plan_free(bench.plan);
        }
}

/* Each thing that is missing is reported, of each line; and by what the exercise names in its stead. */
static void each_need_is_told(void **state)
{
    (void)state;
    struct bench bench = bench_new();
    slipway(&bench);
    struct exercise *squat = bench_squat(&bench), *other = bench_press(&bench);
    struct substitute without[3] = {{.instead = NULL}, {.instead = other}, {.instead = squat}};
    static const char *const kit[] = {"box", "sled", "rack"};
    for (size_t i = 0; i < 3; i++) {
        plan_need(bench.plan, squat, kit[i]);
        without[i].kit = squat->needs[i].name;
    }
    squat->without = without;
    squat->without_count = 2;
    for (int line = 0; line < 2; line++)
        bench_sets(&bench, bench.occasion, squat, 3, 5, UNIT_REPS);
    plan_check(bench.plan);
    assert_int_equal(plan_found(bench.plan, "kit-missing"), 6);
    static const char *const helps[] = {NULL, "below the line, write `without sled, bench press`", NULL};
    for (size_t i = 0; i < bench.plan->diag->count; i++) {
        const struct finding *finding = bench.plan->diag->items[i];
        for (size_t k = 0; k < 3; k++)
            if (strstr(finding->words, kit[k]))
                assert_int_equal(helps[k] ? strcmp(finding->help, helps[k]) : finding->help != NULL, 0);
    }
    plan_free(bench.plan);
}

/* --- what is done instead --- */

static void what_is_done_instead_is_told_once(void **state)
{
    (void)state;
    static const struct {
        enum exchange exchange;
        bool another, load_left, no_effort;
        const char *words;
    } rows[] = {
        {EXCHANGE_KIT, true, false, false, "Oriel Tamsin does bench press in place of back squat: no rack"},
        {EXCHANGE_KIT, false, false, false, NULL},
        {EXCHANGE_WRITTEN, true, false, false, NULL},
        {EXCHANGE_AVOID, true, false, false, "Oriel Tamsin does bench press in place of back squat"},
        {EXCHANGE_KIT, true, true, false, "Oriel Tamsin does bench press in place of back squat: no rack"},
        {EXCHANGE_KIT, true, true, true, NULL},
        {EXCHANGE_KIT, true, false, true, "Oriel Tamsin does bench press in place of back squat: no rack"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            slipway(&bench);
            struct exercise *squat = bench_squat(&bench), *press = bench_press(&bench);
            if (waived)
                bench_waive(&bench, "substituted");
            for (int week = 0; week < 2; week++) {
                struct occasion *occasion = bench_place(&bench, 7 * week);
                struct item *item = plan_item(bench.plan, plan_block(bench.plan, occasion, BLOCK_STRAIGHT, 3), press);
                struct set_run *run = plan_sets(bench.plan, item, 3, 5, UNIT_REPS);
                if (!rows[i].no_effort)
                    plan_effort(run, EFFORT_RPE, 6);
                item->line_exercise = rows[i].another ? squat : NULL;
                item->exchange = rows[i].exchange;
                item->load_left = rows[i].load_left;
                item->why = "no rack";
            }
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "substituted");
            assert_int_equal(plan_found(bench.plan, "substituted"), rows[i].words && !waived ? 1 : 0);
            if (finding) {
                bool kit = rows[i].exchange == EXCHANGE_KIT;
                assert_string_equal(finding->words, rows[i].words);
                assert_int_equal(finding->severity, kit ? SEVERITY_WARNING : SEVERITY_INFO);
                assert_int_equal(finding->span.start, bench.plan->occasions[1]->blocks[0].items[0].span.start);
                assert_int_equal(finding->note_count, rows[i].load_left ? 1 : 0);
                assert_int_equal(finding->help != NULL, kit);
                if (kit)
                    assert_string_equal(finding->help, "if you mean that, say so below the line: `for Oriel Tamsin, bench press`");
                else
                    assert_string_equal(finding->neutral, "this work is not for Oriel Tamsin");
            }
            plan_free(bench.plan);
        }
}

/* --- wanted twice at once --- */

/* The discs in each of three lines' sets, a figure a set; `-`: unloaded; `|`: what follows is written by itself. */
static void which_sets_collide(void **state)
{
    (void)state;
    static const struct {
        const char *lines[3];
        enum block_kind kind;
        int bars;
        const char *words;
    } rows[] = {
        {{"111", "111"}, BLOCK_SUPERSET, 1, NULL},
        {{"111", "222"}, BLOCK_SUPERSET, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"111", "222"}, BLOCK_CIRCUIT, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"111", "222"}, BLOCK_STRAIGHT, 1, NULL},
        {{"111", "222"}, BLOCK_SUPERSET, 2, NULL},
        {{"111", "112"}, BLOCK_SUPERSET, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"112", "112"}, BLOCK_SUPERSET, 1, NULL},
        {{"1", "112"}, BLOCK_SUPERSET, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"122", "1"}, BLOCK_SUPERSET, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"121", "111"}, BLOCK_SUPERSET, 1, "A.1 a and A.2 b both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"---", "222"}, BLOCK_SUPERSET, 1, NULL},
        {{"1|12", "112"}, BLOCK_SUPERSET, 1, NULL},
        {{"1111", "1112"}, BLOCK_SUPERSET, 1, NULL}, /* the block has three sets */
        {{"111", "111", "222"}, BLOCK_SUPERSET, 1, "A.1 a and A.3 c both need the 20 kg barbell with different loads, and Slipway has 1"},
        {{"111", "222", "333"}, BLOCK_SUPERSET, 2, "A.1 a and A.3 c both need the 20 kg barbell with different loads, and Slipway has 2"},
        {{"111", "222", "333"}, BLOCK_SUPERSET, 3, NULL},
        {{"---", "111", "222"}, BLOCK_SUPERSET, 1, "A.2 b and A.3 c both need the 20 kg barbell with different loads, and Slipway has 1"},
    };
    static const char *const names[] = {"a", "b", "c"};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct gym *gym = slipway(&bench);
        plan_bar(bench.plan, gym, "barbell", KG(20), rows[i].bars);
        plan_bar(bench.plan, gym, "barbell", KG(15), 9);
        gym->discs[gym->disc_count++] = (struct disc){KG(10), 99};
        struct block *block = plan_block(bench.plan, bench.occasion, rows[i].kind, 3);
        for (int k = 0; k < 3 && rows[i].lines[k]; k++) {
            struct item *line = line_of(&bench, block, names[k]);
            const char *sets = rows[i].lines[k];
            while (*sets) {
                sets += *sets == '|';
                int alike = (int)strspn(sets, (char[]){*sets, '\0'});
                sets_at(&bench, line, alike, *sets == '-' ? NULL : &gym->bars[0], *sets == '-' ? 0 : *sets - '0');
                sets += alike;
            }
        }
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "kit-twice");
        assert_int_equal(plan_found(bench.plan, "kit-twice"), rows[i].words ? 1 : 0);
        if (finding) {
            assert_string_equal(finding->words, rows[i].words);
            assert_string_equal(finding->notes[0].words, rows[i].kind == BLOCK_SUPERSET ? "loaded here in the same superset"
                                                                                        : "loaded here in the same circuit");
            assert_string_equal(finding->help, "give both the same load, or put them in blocks of their own");
        }
        plan_free(bench.plan);
    }
}

/* Two bars of one name and another mass are two; a filler waits; a bar in pounds is named as it is stamped. */
static void what_is_one_bar(void **state)
{
    (void)state;
    static const struct {
        int second; /* the bar of the second line */
        bool filler, pounds;
        const char *words;
    } rows[] = {
        {0, false, false, "need the 20 kg barbell with different"}, {1, false, false, NULL}, {0, true, false, NULL},
        {0, false, true, "need the 45 lb barbell with different"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct gym *gym = slipway(&bench);
        plan_bar(bench.plan, gym, "barbell", rows[i].pounds ? 45 * MASS_LB : KG(20), 1);
        plan_bar(bench.plan, gym, "barbell", KG(15), 1);
        gym->discs[gym->disc_count++] = (struct disc){KG(10), 99};
        struct block *block = plan_block(bench.plan, bench.occasion, BLOCK_SUPERSET, 3);
        sets_at(&bench, line_of(&bench, block, "a"), 3, &gym->bars[0], 1);
        struct item *second = line_of(&bench, block, "b");
        sets_at(&bench, second, 3, &gym->bars[rows[i].second], 2);
        second->filler = rows[i].filler;
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "kit-twice");
        assert_int_equal(finding != NULL, rows[i].words != NULL);
        if (finding)
            assert_non_null(strstr(finding->words, rows[i].words));
        plan_free(bench.plan);
    }
}

/* However many sets there are, the last is looked at. */
static void the_last_of_many_sets(void **state)
{
    (void)state;
    for (int waived = 0; waived < 2; waived++) {
        struct bench bench = bench_new();
        struct gym *gym = slipway(&bench);
        plan_bar(bench.plan, gym, "barbell", KG(20), 1);
        gym->discs[gym->disc_count++] = (struct disc){KG(10), 99};
        struct block *block = plan_block(bench.plan, bench.occasion, BLOCK_SUPERSET, 100);
        sets_at(&bench, line_of(&bench, block, "a"), 100, &gym->bars[0], 1);
        struct item *second = line_of(&bench, block, "b");
        sets_at(&bench, second, 99, &gym->bars[0], 1);
        sets_at(&bench, second, 1, &gym->bars[0], 2);
        if (waived)
            bench_waive(&bench, "kit-twice");
        bench_expect(&bench, "kit-twice", waived ? 0 : 1);
    }
}

/* Two stations are not one, and one line alone collides with nothing, whatever the gym has. */
static void stations_are_not_mixed_up(void **state)
{
    (void)state;
    for (int have = 0; have < 2; have++) {
        struct bench bench = bench_new();
        struct gym *gym = slipway(&bench);
        static const char *const stations[] = {"sled", "landmine"};
        gym->discs[gym->disc_count++] = (struct disc){KG(10), 99};
        struct block *block = plan_block(bench.plan, bench.occasion, BLOCK_SUPERSET, 3);
        for (int k = 0; k < 2; k++) {
            struct item *line = line_of(&bench, block, stations[k]);
            plan_need(bench.plan, (struct exercise *)line->exercise, stations[k]);
            sets_at(&bench, line, 3, NULL, 1 + k);
            if (have)
                plan_kit(bench.plan, gym, stations[k], 1);
        }
        bench_expect(&bench, "kit-twice", 0);
    }
}

/* A sled and a landmine are stations: their bars may be as many as they like, or none. */
static void one_station_for_two_loads(void **state)
{
    (void)state;
    static const struct {
        const char *station;
        int stations;
        bool bar;
        int discs[2];
        size_t found;
    } rows[] = {
        {"sled", 1, false, {1, 2}, 1}, {"sled", 2, false, {1, 2}, 0}, {"sled", 1, false, {2, 2}, 0}, {"sled", 1, false, {0, 2}, 0},
        {"landmine", 1, true, {1, 2}, 1}, {"landmine", 2, true, {1, 2}, 0}, {"box", 1, false, {1, 2}, 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct bench bench = bench_new();
        struct gym *gym = slipway(&bench);
        plan_bar(bench.plan, gym, "barbell", KG(20), 2);
        plan_kit(bench.plan, gym, rows[i].station, rows[i].stations);
        gym->discs[gym->disc_count++] = (struct disc){KG(10), 99};
        struct block *block = plan_block(bench.plan, bench.occasion, BLOCK_SUPERSET, 3);
        for (int k = 0; k < 2; k++) {
            struct item *line = line_of(&bench, block, k ? "b" : "a");
            plan_need(bench.plan, (struct exercise *)line->exercise, rows[i].station);
            sets_at(&bench, line, 3, rows[i].bar ? &gym->bars[0] : NULL, rows[i].discs[k]);
        }
        plan_check(bench.plan);
        const struct finding *finding = plan_finding(bench.plan, "kit-twice");
        assert_int_equal(plan_found(bench.plan, "kit-twice"), rows[i].found);
        if (finding)
            assert_string_equal(finding->words,
                                arena_printf(bench.plan->arena,
                                             "A.1 a and A.2 b both need the %s with different loads, and Slipway has 1",
                                             rows[i].station));
        plan_free(bench.plan);
    }
}

/* --- discs --- */

static void discs_of_all_that_is_loaded(void **state)
{
    (void)state;
    static const struct {
        int discs[2];
        bool one_sleeve, bars;
        int had;
        const char *words;
    } rows[] = {
        {{1, 2}, false, true, 6, NULL},
        {{1, 2}, false, true, 5, "A.1 a and A.2 b together need 6 discs of 10 kg, and Slipway has 5"},
        {{1, 2}, true, true, 3, NULL},
        {{1, 2}, true, true, 2, "A.1 a and A.2 b together need 3 discs of 10 kg, and Slipway has 2"},
        {{1, 2}, false, false, 3, NULL},
        {{1, 2}, false, false, 2, "A.1 a and A.2 b together need 3 discs of 10 kg, and Slipway has 2"},
        {{2, 2}, false, true, 2, NULL}, /* one load: they share it */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct bench bench = bench_new();
            struct gym *gym = slipway(&bench);
            plan_bar(bench.plan, gym, "barbell", KG(20), 2);
            gym->discs[gym->disc_count++] = (struct disc){KG(20), 0};
            gym->discs[gym->disc_count++] = (struct disc){KG(10), rows[i].had};
            if (waived)
                bench_waive(&bench, "discs-short");
            struct block *block = plan_block(bench.plan, bench.occasion, BLOCK_SUPERSET, 3);
            for (int k = 0; k < 2; k++) {
                struct item *line = line_of(&bench, block, k ? "b" : "a");
                sets_at(&bench, line, 3, rows[i].bars ? &gym->bars[0] : NULL, rows[i].discs[k]);
                ((struct set_run *)line->runs)->load.plating.one_sleeve = rows[i].one_sleeve;
            }
            plan_check(bench.plan);
            const struct finding *finding = plan_finding(bench.plan, "discs-short");
            assert_int_equal(plan_found(bench.plan, "discs-short"), rows[i].words && !waived ? 1 : 0);
            if (finding) {
                assert_string_equal(finding->words, rows[i].words);
                assert_string_equal(finding->notes[0].words, "loaded at the same time");
            }
            plan_free(bench.plan);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(how_many_are_needed),
        cmocka_unit_test(each_need_is_told),
        cmocka_unit_test(what_is_done_instead_is_told_once),
        cmocka_unit_test(which_sets_collide),
        cmocka_unit_test(what_is_one_bar),
        cmocka_unit_test(the_last_of_many_sets),
        cmocka_unit_test(stations_are_not_mixed_up),
        cmocka_unit_test(one_station_for_two_loads),
        cmocka_unit_test(discs_of_all_that_is_loaded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

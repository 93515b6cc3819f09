/* A squad's session in its room against the doors and its own time, and who waits, on both sides of each border. */
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

enum { SIX = 18 * 3600 };

/* PEOPLE who each squat SETS of a minute, with a minute's rest, at one rack, at six. */
struct squad_bench {
    struct bench bench;
    struct gym *gym;
    struct exercise *squat;
    struct attendance attendance;
};

static const char *const people[] = {"Oriel Tamsin", "Bram Oxlade", "Nils Ferrow"};

static void squad_new(struct squad_bench *squad, int racks)
{
    *squad = (struct squad_bench){.bench = bench_new(), .attendance = {.out_by = -1}};
    squad->gym = plan_gym(squad->bench.plan, "Net loft");
    if (racks)
        plan_kit(squad->bench.plan, squad->gym, "rack", racks);
    squad->bench.athlete->gym = squad->gym;
    squad->squat = bench_squat(&squad->bench);
    plan_need(squad->bench.plan, squad->squat, "rack");
}

/* COUNT of them on DAY of the camp, each day by a line of its own. */
static void squad_add(struct squad_bench *squad, int count, int day, int sets)
{
    struct bench *bench = &squad->bench;
    const struct occasion *line = NULL;
    for (int k = 0; k < count; k++) {
        if (bench->camp->athlete_count <= (size_t)k) {
            struct athlete *athlete = plan_athlete(bench->plan, people[k], STANCE_ORTHODOX);
            athlete->gym = squad->gym;
            plan_join(bench->plan, bench->camp, athlete);
        }
        struct occasion *occasion = plan_place(bench->plan, bench->camp, bench->camp->athletes[k], bench->session,
                                               bench->monday + day);
        struct set_run *run = bench_sets(bench, occasion, squad->squat, sets, 5, UNIT_REPS);
        ((struct block *)occasion->blocks)->rest_low = ((struct block *)occasion->blocks)->rest_high = 60;
        run->seconds = 60;
        occasion->clock = SIX;
        occasion->seconds = sets * 120 - 60;
        occasion->attendance = &squad->attendance;
        line = line ? line : occasion;
        occasion->place = line;
        occasion->span = line->span;
    }
}

static bool is_noted(const struct finding *finding, const char *words)
{
    for (size_t i = 0; i < finding->note_count; i++)
        if (strstr(finding->notes[i].words, words))
            return true;
    return false;
}

/* Expects WORDS (NULL: nothing) of the first finding of NAME, and ends the bench. */
static void expect(struct squad_bench *squad, const char *name, const char *words)
{
    struct plan *plan = squad->bench.plan;
    plan_check(plan);
    const struct finding *finding = plan_finding(plan, name);
    if (!finding != !words)
        print_error("%s: %s\n%s\n", name, words ? words : "none", plan_shown(plan));
    assert_int_equal(finding != NULL, words != NULL);
    if (finding)
        assert_string_equal(finding->words, words);
    plan_free(plan);
}

/* Nine sets of a minute or so at one rack, one after another. */
static void a_squad_keeps_to_the_doors_and_its_time(void **state)
{
    (void)state;
    static const struct {
        int minute, out_by, under;
        const char *words;
    } rows[] = {
        {60, 540, 0, NULL},
        {60, 539, 0, "Hips before hands on 2027-03-01: 3 athletes finish at 18:09, but the doors close at 18:08"},
        {61, 540, 0, "Hips before hands on 2027-03-01: 3 athletes finish at 18:10, but the doors close at 18:09"},
        {60, -1, 515, NULL},
        {60, -1, 514, "Hips before hands on 2027-03-01: 3 athletes take 9 min, and it should stay under 8 min"},
        {61, -1, 480, "Hips before hands on 2027-03-01: 3 athletes take 10 min, and it should stay under 8 min"},
        {60, -1, 0, NULL},
        {60, 540, 514, NULL},
        {60, 0, 0, "Hips before hands on 2027-03-01: 3 athletes finish at 18:09, but the doors close at 18:00"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad.attendance.out_by = rows[i].out_by < 0 ? -1 : SIX + rows[i].out_by;
        squad.bench.session->under = rows[i].under;
        squad_add(&squad, 3, 0, 3);
        for (size_t k = 0; k < squad.bench.plan->occasion_count; k++)
            ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = rows[i].minute;
        expect(&squad, "room-overrun", rows[i].words);
    }
}

/* A second after the minute is the next minute, and after midnight hours begin anew. */
static void minutes_begun_and_midnight(void **state)
{
    (void)state;
    static const struct {
        int clock, out_by, seconds;
        const char *words;
    } rows[] = {
        {SIX, SIX + 540, 180, NULL},
        {SIX, SIX + 540, 181, "Hips before hands on 2027-03-01: 3 athletes finish at 18:10, but the doors close at 18:09"},
        {SIX, SIX + 540, 240, "Hips before hands on 2027-03-01: 3 athletes finish at 18:10, but the doors close at 18:09"},
        {SIX, SIX + 540, 241, "Hips before hands on 2027-03-01: 3 athletes finish at 18:11, but the doors close at 18:09"},
        {SIX + 3000, SIX + 3480, 180, "Hips before hands on 2027-03-01: 3 athletes finish at 18:59, but the doors close at 18:58"},
        {86280, 86340, 180, "Hips before hands on 2027-03-01: 3 athletes finish at 00:07, but the doors close at 23:59"},
        {86280, 86340, 3780, "Hips before hands on 2027-03-01: 3 athletes finish at 01:07, but the doors close at 23:59"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad.attendance.out_by = rows[i].out_by;
        squad_add(&squad, 3, 0, 1);
        for (size_t k = 0; k < 3; k++) {
            squad.bench.plan->occasions[k]->clock = rows[i].clock;
            ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = k < 2 ? 180 : rows[i].seconds;
        }
        expect(&squad, "room-overrun", rows[i].words);
    }
}

/* Minutes begun count whole, and the bound on it is worded in whole minutes. */
static void minutes_taken(void **state)
{
    (void)state;
    static const struct {
        int seconds, under;
        const char *words;
    } rows[] = {
        {180, 480, "Hips before hands on 2027-03-01: 3 athletes take 9 min, and it should stay under 8 min"},
        {181, 480, "Hips before hands on 2027-03-01: 3 athletes take 10 min, and it should stay under 8 min"},
        {240, 535, "Hips before hands on 2027-03-01: 3 athletes take 10 min, and it should stay under 8 min"},
        {241, 540, "Hips before hands on 2027-03-01: 3 athletes take 11 min, and it should stay under 9 min"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad.bench.session->under = rows[i].under;
        squad_add(&squad, 3, 0, 1);
        for (size_t k = 0; k < 3; k++)
            ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = k < 2 ? 180 : rows[i].seconds;
        expect(&squad, "room-overrun", rows[i].words);
    }
}

/* Kit that is missing for one of them is reported of that one, and the room is not said to be refused. */
static void what_one_of_them_lacks(void **state)
{
    (void)state;
    for (size_t who = 0; who < 3; who++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad_add(&squad, 3, 0, 3);
        struct exercise *push = plan_exercise(squad.bench.plan, "sled push", EXERCISE_STRENGTH, PATTERN_SQUAT);
        plan_need(squad.bench.plan, push, "sled");
        ((struct item *)squad.bench.plan->occasions[who]->blocks[0].items)->exercise = push;
        plan_check(squad.bench.plan);
        assert_int_equal(plan_found(squad.bench.plan, "room-refused"), 0);
        assert_int_equal(plan_found(squad.bench.plan, "kit-missing"), 1);
        plan_free(squad.bench.plan);
    }
}

/* With three racks nobody is in anybody's way, and with none there is no timetable to be late by. */
static void racks_for_all_and_for_none(void **state)
{
    (void)state;
    for (int racks = 0; racks < 4; racks += 3) {
        struct squad_bench squad;
        squad_new(&squad, racks);
        squad.attendance.out_by = SIX + 300;
        squad_add(&squad, 3, 0, 3);
        plan_check(squad.bench.plan);
        assert_int_equal(plan_found(squad.bench.plan, "room-overrun"), 0);
        assert_int_equal(plan_found(squad.bench.plan, "room-refused"), 0);
        assert_int_equal(plan_found(squad.bench.plan, "kit-missing"), racks ? 0 : 3);
        plan_free(squad.bench.plan);
    }
}

/* What is found when one line has placed all that is there. */
static const struct finding *found_of_one_line(struct squad_bench *squad)
{
    struct plan *plan = squad->bench.plan;
    for (size_t k = 0; k < plan->occasion_count; k++) {
        plan->occasions[k]->place = plan->occasions[0];
        plan->occasions[k]->span = plan->occasions[0]->span;
    }
    plan_check(plan);
    assert_int_equal(plan_found(plan, "room-overrun"), 1);
    return plan_finding(plan, "room-overrun");
}

/* Of the days of a line the latest is reported, and what was tried for it. */
static void the_latest_day_of_a_line_is_told(void **state)
{
    (void)state;
    for (int worst = 0; worst < 3; worst++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad.attendance.out_by = SIX + 300;
        for (int week = 0; week < 3; week++)
            squad_add(&squad, 3, 7 * week, week == worst ? 4 : 3);
        const struct finding *finding = found_of_one_line(&squad);
        static const char *const days[] = {"on 2027-03-01: 3 athletes finish at 18:12", "on 2027-03-08: 3 athletes finish at 18:12",
                                           "on 2027-03-15: 3 athletes finish at 18:12"};
        assert_non_null(strstr(finding->words, days[worst]));
        assert_true(is_noted(finding, "tried, and not enough"));
        assert_true(is_noted(finding, "rack: 12 of 12 min busy"));
        plan_free(squad.bench.plan);
    }
}

/* Ways out are tried for the latest day alone, so that earlier ones do not use up what may be tried. */
static void the_latest_day_is_tried_behind_many(void **state)
{
    (void)state;
    struct squad_bench squad;
    squad_new(&squad, 1);
    squad.attendance.out_by = SIX + 300;
    for (int day = 0; day < 6; day++)
        squad_add(&squad, 3, day, day == 5 ? 4 : 3);
    const struct finding *finding = found_of_one_line(&squad);
    assert_non_null(strstr(finding->words, "on 2027-03-06: 3 athletes finish at 18:12"));
    assert_true(is_noted(finding, "tried, and not enough"));
    plan_free(squad.bench.plan);
}

/* Each line has a latest day of its own, however late another line is. */
static void each_line_is_tried_by_itself(void **state)
{
    (void)state;
    struct squad_bench squad;
    squad_new(&squad, 1);
    squad.attendance.out_by = SIX + 300;
    for (int day = 0; day < 3; day++)
        squad_add(&squad, 3, day, 3 + day % 2);
    plan_check(squad.bench.plan);
    assert_int_equal(plan_found(squad.bench.plan, "room-overrun"), 3);
    for (size_t i = 0; i < squad.bench.plan->diag->count; i++)
        if (strcmp(diagnostic_name(squad.bench.plan->diag->items[i]->diagnostic), "room-overrun") == 0)
            assert_true(is_noted(squad.bench.plan->diag->items[i], "tried, and not enough"));
    plan_free(squad.bench.plan);
}

/* Ways out are tried four times for those that one athlete leads. */
static void ways_out_are_tried_four_times(void **state)
{
    (void)state;
    struct squad_bench squad;
    squad_new(&squad, 1);
    squad.attendance.out_by = SIX + 300;
    for (int day = 0; day < 6; day++)
        squad_add(&squad, 3, day, 3);
    plan_check(squad.bench.plan);
    assert_int_equal(plan_found(squad.bench.plan, "room-overrun"), 6);
    int tried = 0;
    for (size_t i = 0; i < squad.bench.plan->diag->count; i++)
        tried += is_noted(squad.bench.plan->diag->items[i], "tried, and not enough");
    assert_int_equal(tried, 4);
    plan_free(squad.bench.plan);
}

/* One alone, or what is no session, against the doors, with how late it comes. */
static void one_alone_keeps_to_the_doors(void **state)
{
    (void)state;
    static const struct {
        int seconds, clock, late, others_late;
        bool activity;
        const char *words;
    } rows[] = {
        {300, SIX, 0, 0, false, NULL},
        {301, SIX, 0, 0, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
        {360, SIX, 0, 0, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
        {361, SIX, 0, 0, true, "Oriel Tamsin: roadwork on 2027-03-01 ends at 18:07, but the doors close at 18:05"},
        {240, SIX, 60, 0, false, NULL},
        {240, SIX, 61, 0, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
        {240, SIX, 61, 0, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
        {240, SIX, 0, 600, false, NULL},
        {240, SIX, 61, 600, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
        {30 * 3600, -1, 0, 0, false, NULL},
        {SIX + 301, 0, 0, 0, false, "Oriel Tamsin: Hips before hands on 2027-03-01 ends at 18:06, but the doors close at 18:05"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int doors = 0; doors < 3; doors++) { /* none, open without an end, until five past */
            struct squad_bench squad;
            squad_new(&squad, 1);
            struct bench *bench = &squad.bench;
            struct athlete *other = plan_athlete(bench->plan, "Bram Oxlade", STANCE_ORTHODOX);
            struct lateness late[] = {{other, rows[i].others_late}, {bench->athlete, rows[i].late}};
            struct lateness turned[] = {late[1], late[0]};
            squad.attendance.late = i % 2 ? turned : late;
            squad.attendance.late_count = 2;
            squad.attendance.out_by = doors == 2 ? SIX + 300 : -1;
            struct occasion *occasion = rows[i].activity ? plan_do(bench->plan, bench->camp, bench->athlete,
                                                                   plan_activity(bench->plan, "roadwork"), bench->monday)
                                                         : bench_place(bench, 0);
            occasion->clock = rows[i].clock;
            occasion->seconds = rows[i].seconds;
            occasion->attendance = doors ? &squad.attendance : NULL;
            expect(&squad, "room-overrun", doors == 2 ? rows[i].words : NULL);
        }
}

/* One set each at one rack: who comes second waits as long as the first takes, and the third for both. */
static void who_waits_for_long(void **state)
{
    (void)state;
    static const struct {
        int people, seconds, out_by;
        const char *words;
        bool another;
    } rows[] = {
        {2, 299, -1, NULL, false},
        {2, 300, -1, "Hips before hands on 2027-03-01: Bram Oxlade waits 5 min more than planned, most of it before A1 (rack)", false},
        {3, 200, -1, "Hips before hands on 2027-03-01: Nils Ferrow waits 7 min more than planned, most of it before A1 (rack)", false},
        {3, 300, -1, "Hips before hands on 2027-03-01: Nils Ferrow waits 10 min more than planned, most of it before A1 (rack)", true},
        {2, 300, 599, NULL, false}, /* who is late at that has other worries */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int waived = 0; waived < 2; waived++) {
            struct squad_bench squad;
            squad_new(&squad, 1);
            squad.attendance.out_by = rows[i].out_by < 0 ? -1 : SIX + rows[i].out_by;
            squad_add(&squad, rows[i].people, 0, 1);
            for (size_t k = 0; k < squad.bench.plan->occasion_count; k++)
                ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = rows[i].seconds;
            if (waived)
                bench_waive(&squad.bench, "room-wait");
            plan_check(squad.bench.plan);
            const struct finding *finding = plan_finding(squad.bench.plan, "room-wait");
            assert_int_equal(finding != NULL, rows[i].words && !waived);
            if (finding) {
                assert_string_equal(finding->words, rows[i].words);
                assert_int_equal(finding->severity, SEVERITY_INFO);
                assert_int_equal(is_noted(finding, "Bram Oxlade waits 5 min"), rows[i].another);
                assert_true(is_noted(finding, "this is the earliest possible"));
            }
            plan_free(squad.bench.plan);
        }
}

/* Who waits is not reported where only warnings are wanted; but a waiver of it is needed all the same, and one of nothing is not. */
static void a_waiver_of_waiting_is_needed_unseen(void **state)
{
    (void)state;
    for (int seconds = 299; seconds < 301; seconds++) {
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad_add(&squad, 2, 0, 1);
        for (size_t k = 0; k < squad.bench.plan->occasion_count; k++)
            ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = seconds;
        bench_waive(&squad.bench, "room-wait");
        plan_check(squad.bench.plan);
        struct diag *diag = diag_new(squad.bench.plan->arena, &squad.bench.plan->sources);
        rules_run_wanted(&squad.bench.plan->programme, NULL, SEVERITY_WARNING, NULL, diag);
        bool unused = false;
        for (size_t i = 0; i < diag->count; i++)
            unused |= strcmp(diagnostic_name(diag->items[i]->diagnostic), "waiver-unused") == 0;
        assert_int_equal(unused, seconds < 300);
        plan_free(squad.bench.plan);
    }
}

/* A waiver up to so many minutes. */
static void minutes_that_are_waived(void **state)
{
    (void)state;
    static const struct {
        const char *check;
        milli cap;
        bool found;
    } rows[] = {{"room-overrun", 9000, false}, {"room-overrun", 8999, true}, {"room-wait", 5000, false}, {"room-wait", 4999, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        bool waits = strcmp(rows[i].check, "room-wait") == 0;
        struct squad_bench squad;
        squad_new(&squad, 1);
        squad.attendance.out_by = waits ? -1 : SIX + 300;
        squad_add(&squad, waits ? 2 : 3, 0, waits ? 1 : 3);
        for (size_t k = 0; waits && k < 2; k++)
            ((struct set_run *)squad.bench.plan->occasions[k]->blocks[0].items[0].runs)->seconds = 300;
        struct waiver *waiver = bench_waive(&squad.bench, rows[i].check);
        waiver->capped = true;
        waiver->cap = rows[i].cap;
        bench_expect(&squad.bench, rows[i].check, rows[i].found);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_squad_keeps_to_the_doors_and_its_time),
        cmocka_unit_test(minutes_begun_and_midnight),
        cmocka_unit_test(minutes_taken),
        cmocka_unit_test(what_one_of_them_lacks),
        cmocka_unit_test(racks_for_all_and_for_none),
        cmocka_unit_test(the_latest_day_of_a_line_is_told),
        cmocka_unit_test(the_latest_day_is_tried_behind_many),
        cmocka_unit_test(each_line_is_tried_by_itself),
        cmocka_unit_test(ways_out_are_tried_four_times),
        cmocka_unit_test(one_alone_keeps_to_the_doors),
        cmocka_unit_test(who_waits_for_long),
        cmocka_unit_test(a_waiver_of_waiting_is_needed_unseen),
        cmocka_unit_test(minutes_that_are_waived),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

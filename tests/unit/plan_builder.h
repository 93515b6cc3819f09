/* plan_builder.h - programmes made by hand, line by line, for tests of counts and rules.
 *
 * Everything that is added writes a line into the plan's one source, so that findings point at
 * something. Names are folded by the caller: they are lower case already. Included as
 * plan_builder.c by one test. */
#ifndef BELL_TESTS_PLAN_BUILDER_H
#define BELL_TESTS_PLAN_BUILDER_H

#include "base/text.h"
#include "measure/counts.h"
#include "model/programme.h"
#include "source/diag.h"

enum { PLAN_MOST = 8, PLAN_MOST_LISTED = 256, PLAN_NOTHING_LEFT = INT32_MAX };

struct plan {
    struct arena *arena;
    struct sources sources;
    struct programme programme;
    struct diag *diag;
    struct text text;            /* of the source, as it grows */
    struct occasion **occasions; /* in order of being added */
    size_t occasion_count, occasion_capacity;
};

struct plan *plan_new(void);
void plan_free(struct plan *plan);

struct athlete *plan_athlete(struct plan *plan, const char *name, enum stance stance);
struct gym *plan_gym(struct plan *plan, const char *name);
void plan_kit(struct plan *plan, struct gym *gym, const char *name, int count);
void plan_bar(struct plan *plan, struct gym *gym, const char *name, mass weight, int count);
void plan_best(struct plan *plan, struct athlete *athlete, const struct exercise *exercise,
               mass one_max, int date);

/* A camp from the Monday FIRST over so many weeks. */
struct camp *plan_camp(struct plan *plan, const char *name, int first, int weeks);
void plan_join(struct plan *plan, struct camp *camp, struct athlete *athlete);
/* A bout of CAMP on DAY, after those that it has. */
struct bout *plan_bout(struct plan *plan, struct camp *camp, int day);
struct phase *plan_phase(struct plan *plan, struct camp *camp, const char *name, int first,
                         int last);
struct limits *plan_limits(struct plan *plan, struct camp *camp, const char *name);
struct limit *plan_limit(struct plan *plan, struct limits *limits, enum limit_scope scope,
                         const char *counted, enum limit_bound bound, milli value);

struct exercise *plan_exercise(struct plan *plan, const char *name, enum exercise_kind kind,
                               enum pattern pattern);
void plan_need(struct plan *plan, struct exercise *exercise, const char *kit);
struct activity *plan_activity(struct plan *plan, const char *name);
struct session *plan_session(struct plan *plan, const char *name);

struct occasion *plan_place(struct plan *plan, const struct camp *camp,
                            const struct athlete *athlete, struct session *session, int date);
struct occasion *plan_do(struct plan *plan, const struct camp *camp, const struct athlete *athlete,
                         const struct activity *activity, int date);
struct block *plan_block(struct plan *plan, struct occasion *occasion, enum block_kind kind,
                         int sets);
struct item *plan_item(struct plan *plan, struct block *block, const struct exercise *exercise);
/* COUNT sets of one part: AMOUNT plain units of UNIT. */
struct set_run *plan_sets(struct plan *plan, struct item *item, int count, int amount,
                          enum unit unit);
struct part *plan_part(struct set_run *run, size_t index);

/* Loads and efforts; percentages and RPE as plain numbers. */
void plan_percent(struct set_run *run, double percent);
void plan_kilograms(struct set_run *run, double kilograms);
void plan_effort(struct set_run *run, enum effort_kind kind, double figure);

/* Puts the occasions in order and runs the rules. */
void plan_check(struct plan *plan);
/* How many findings have NAME, and the first of them or NULL. */
size_t plan_found(const struct plan *plan, const char *name);
const struct finding *plan_finding(const struct plan *plan, const char *name);
/* The least that is left up to LIMIT, of COUNTED, in a plan that has been checked; PLAN_NOTHING_LEFT: nobody measures it. */
milli plan_left(const struct plan *plan, const struct limit *limit, enum counted counted);
/* All findings as they would be shown, infos too. */
const char *plan_shown(struct plan *plan);

/* --- a plan that most tests begin with --- */

/* One athlete, one camp of four weeks from Monday 2027-03-01, a set of limits and one session. */
struct bench {
    struct plan *plan;
    struct athlete *athlete;
    struct camp *camp;
    struct limits *limits;
    struct session *session;
    struct occasion *occasion; /* for a test's own use */
    int monday;
};

struct bench bench_new(void);

/* The session, DAYS after the Monday; and so many rounds of hard sparring, three minutes each. */
struct occasion *bench_place(struct bench *bench, int days);
struct occasion *bench_spar(struct bench *bench, int rounds, int days);

/* One item of COUNT sets of AMOUNT, in a straight block of its own. */
struct set_run *bench_sets(struct bench *bench, struct occasion *occasion,
                           const struct exercise *exercise, int count, int amount, enum unit unit);

/* A squat that loads the front of the thigh, a press that loads chest and half the shoulder, and a
 * throw with the rear hand. */
struct exercise *bench_squat(struct bench *bench);
struct exercise *bench_press(struct bench *bench);
struct exercise *bench_throw(struct bench *bench);

/* Waives CHECK in the whole camp. */
struct waiver *bench_waive(struct bench *bench, const char *check);

/* Runs the rules, expects so many findings of NAME, or that the first of them has SEVERITY and
 * WORDS, and ends the bench. */
void bench_expect(struct bench *bench, const char *name, size_t count);
void bench_expect_words(struct bench *bench, const char *name, enum severity severity,
                        const char *words);

/* A limit on the phase `taper`; TOP of a LIMIT_WITHIN. */
struct limit *bench_phase_limit(struct bench *bench, const char *counted, enum limit_bound bound, milli value, milli top);

/* A base from the first day of the camp, and a taper from the day FIRST of it on to LAST. */
struct bench bench_taper(int first, int last);

/* SETS of five on DAY, in an occasion of their own. */
void bench_sets_on(struct bench *bench, const struct exercise *exercise, int day, int sets);

#endif

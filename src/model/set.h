/* set.h - sets as one athlete does them on one day: amounts, load, tempo. */
#ifndef BELL_MODEL_SET_H
#define BELL_MODEL_SET_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/quantity.h"

struct best;
struct kit;
struct test;

enum dose_side {
    DOSE_WHOLE,      /* both limbs at once, or nothing to split */
    DOSE_EACH_SIDE,  /* so many on the left and so many on the right */
    DOSE_EACH_WAY,   /* so many in each direction, of which the exercise has two or four */
    DOSE_ORTHODOX,
    DOSE_SOUTHPAW,
    DOSE_LEFT,
    DOSE_RIGHT
};

/* One summand of a set: `4 orthodox` of `4 orthodox + 2 southpaw`. */
struct part {
    struct range amount;  /* milli reps, seconds x 1000, metres x 1000, ...; high 0 with MAX */
    enum unit unit;
    enum dose_side side;
    unsigned workers;     /* 0: the exercise's own; else the limb the dose names (`3 lead hand`) */
    bool max;             /* as many as possible */
    bool several;         /* one time is more than one strike: a combination */
    bool assumed_each;    /* the dose named no side and the exercise is one-sided: meant on each */
};

enum { MOST_DISCS = 12 };

/* What goes on a bar: the discs of one side (or of the one sleeve), heaviest first. */
struct plating {
    const struct kit *bar; /* NULL for dumbbells, kettlebells and balls */
    mass collar;
    bool one_sleeve;
    int disc_count;
    mass discs[MOST_DISCS];
    bool both_units; /* the gym has discs in kilograms and in pounds, so each is shown with its unit */
};

struct load {
    enum load_kind kind;
    struct range percent;     /* LOAD_PERCENT; LOAD_BODY: share of body mass */
    mass asked, made;         /* what was meant, and what the gym's kit makes of it (equal if it makes nothing) */
    mass asked_high;          /* top of a range, else 0 */
    mass added;               /* LOAD_BODY: the kilograms on top of the share, as written: all a sheet may say */
    mass body;                /* LOAD_BODY: the share in kilograms, 0 where body mass is not known. It reveals what
                               * somebody weighs, so it is in neither ASKED nor MADE: only what was asked for with
                               * --private reads it */
    enum mass_unit unit;      /* the unit of all these: what is stamped on an implement, otherwise the gym's */
    int pieces;               /* `2 x 16 kg`: 2; else 1 */
    const char *thing;        /* LOAD_BAND */
    const struct test *test;  /* LOAD_TEST: PERCENT of its latest result is TARGET, in its unit; 0: there is none */
    struct range target;
    const struct best *best;  /* the best a percentage was taken from, or NULL */
    bool estimated;
    bool rounded_down;
    struct plating plating;   /* meant when plating.bar or plating.disc_count */
    enum effort_kind effort;  /* may accompany any kind of load */
    struct range effort_band; /* RPE, reps in reserve, rep maximum or beats a minute */
};

/* Seconds; fast marks a place written X (counted one second). All zero: none given. */
struct item_tempo {
    int lower, low_pause, lift, high_pause;
    bool lower_fast, low_pause_fast, lift_fast, high_pause_fast;
    bool given;
};

/* COUNT sets that are alike. */
struct set_run {
    int count;
    const struct part *parts;
    size_t part_count;
    bool hold;             /* `hold 25 s` */
    bool alternating;      /* one repetition in each stance in turn; the parts say how many that makes for each */
    bool cut;              /* of intervals: what the bell leaves of the last one */
    bool work_up;          /* `work up to a 3RM`: as many sets as it takes; the parts are those of the last */
    int repeats;           /* `6 x 40 m`: repeats inside the set; else 1 */
    int rest_low, rest_high; /* seconds between repeats; in a set not repeated, between its parts (a cluster's 2+2+2) */
    int within;            /* seconds that one repeat should take (`500 m in 2:00`); 0: not given */
    struct load load;
    struct item_tempo tempo;
    int seconds;           /* of one set of this run, both sides */
    struct span span;      /* of the dose */
};

#endif

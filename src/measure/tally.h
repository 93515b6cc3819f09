/* tally.h - what volume means: every count of an occasion worked out in one pass, in whole
 * thousandths.
 *
 * A range keeps both ends, so that "at most" is compared with the top and "at least" with the bottom. */
#ifndef BELL_MEASURE_TALLY_H
#define BELL_MEASURE_TALLY_H

#include "measure/counts.h"
#include "measure/tonnage.h"

struct block;
struct item;
struct occasion;
struct range;

/* Work that a count ought to include but the plan does not count, in seconds. */
enum uncounted {
    UNCOUNTED_STRIKES, /* timed strikes, pads, sparring */
    UNCOUNTED_LOAD, /* sessions without an effort for the whole */
    UNCOUNTED_SPARRING, /* sparring in minutes, not in rounds */
    UNCOUNTED_COUNT
};

/* Starts as {0}. */
struct tally {
    struct range sum[COUNTED_COUNT];
    struct range side[COUNTED_SIDED_COUNT][2]; /* left, right */
    int64_t uncounted[UNCOUNTED_COUNT];
    int open; /* sets of as many as possible, which count as none */
    milli left_out[GAP_COUNT]; /* what is not in the tonnage */
    milli body_unknown;        /* repetitions of a body mass that is not known */
    int64_t zoned;             /* repetitions x percentages of the lifts in the zones */
    /* Session load as it turned out: according to logs, or as planned if there are none. */
    struct range done;
    int64_t done_uncounted; /* seconds without an effort */
    bool logged;        /* a log covers some of it */
};

/* Adds an occasion, one item of it alone, or one tally to another. */
void tally_occasion(struct tally *tally, const struct occasion *occasion);
void tally_item(struct tally *tally, const struct occasion *occasion, const struct block *block,
                const struct item *item);
void tally_add(struct tally *tally, const struct tally *other);

/* Adds the session load of an occasion and nothing else of it. */
void tally_load_alone(struct tally *tally, const struct occasion *occasion);

/* Mean percentage of the best over the lifts for which it is known, each repetition counted once; 0 if there are
 * none. */
milli tally_intensity(const struct tally *tally);

/* The session load: as it turned out if a log covers some of it, otherwise as planned; and the seconds without an
 * effort that it leaves out. */
struct range tally_load(const struct tally *tally);
int64_t tally_load_uncounted(const struct tally *tally);

/* The highest session load of WEEKS as they turned out, or 0 if one of them is not fully counted: compared with part of a
 * load every week would be a rise. */
milli tally_highest_done(const struct tally *const *weeks, size_t count);

/* Seconds that COUNTED leaves out in TALLY; 0 for counts that leave out nothing. */
int64_t tally_uncounted(const struct tally *tally, enum counted counted);

enum side { SIDE_ALL = -1, SIDE_LEFT, SIDE_RIGHT };

/* One line of the plan and what it adds to a count over the occasions asked about. */
struct share {
    struct span span;
    struct range amount;
    const struct occasion *occasion; /* the first that holds it */
    const struct block *block;       /* NULL where the line places a session or an activity */
    const struct item *item;         /* NULL where the line is a block's heading, too */
    int times;                       /* in how many occasions */
};

/* The lines that add up to SIDE of COUNTED over OCCASIONS, largest top first; lines that add
 * nothing are left out. Returns how many, in *SHARES. This walks every line again: for findings
 * only. */
size_t tally_shares(struct arena *arena, const struct occasion *const *occasions, size_t count,
                    enum counted counted, enum side side, struct share **shares);

/* The same of the session load as it turned out. */
size_t tally_shares_done(struct arena *arena, const struct occasion *const *occasions, size_t count,
                         struct share **shares);

#endif

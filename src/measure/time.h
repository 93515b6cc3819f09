/* time.h - how long sets, blocks and sessions take. Whole seconds; never over a week (CLOCK_LIMIT), to which everything
 * longer is cut. The functions fill what the resolver owns while it builds it. */
#ifndef BELL_MEASURE_TIME_H
#define BELL_MEASURE_TIME_H

#include "figures/clock.h"
#include "measure/loads.h"
#include "model/quantity.h"

struct athlete;
struct block;
struct exercise;
struct item;
struct set_run;

/* What the clock counts if the plan says nothing. */
struct time_settings {
    struct tempo tempo; /* of a repetition */
    int ballistic_rep;  /* seconds of a throw or a jump, including getting set again */
    int strike;         /* seconds of a strike */
    int contact;        /* seconds of a landing */
    int stance_change;  /* seconds from one stance to the other, if they alternate */
    int pace;           /* centimetres a second, for metres without a time of their own */
    int max_reps;       /* repetitions, strikes, landings or metres assumed for `max` */
    int max_seconds;    /* seconds assumed for a hold of `max` */
    int change_over;    /* seconds from one item of a pair or circuit to the next */
    int between_blocks; /* seconds from the end of one block to the start of the next */
    int ramp_rest;      /* seconds after each warm-up set */
    int work_up_sets;   /* sets on the way to a rep maximum, including that one */
    int work_up_rest;   /* seconds between those */
};

/* Every one of them common practice, no source. */
extern const struct time_settings time_usual;

/* The middle of a range, half up. */
milli range_middle(struct range range);

/* Seconds of one set of RUN, every side, stance and way of it and its repeats with their rests;
 * kept in run->seconds. Repetitions go by the tempo, ranges by their middle, holds and clock
 * amounts by the clock. */
int time_run(struct set_run *run, const struct exercise *exercise,
             const struct time_settings *settings);

/* How often ITEM does a set of RUN in BLOCK. In a block of rounds a run is what one round holds:
 * it is done in every round, or in the one named; a filler's in every rest, which is once less. */
int time_run_count(const struct block *block, const struct item *item, const struct set_run *run);

/* Seconds of BLOCK from the start of its first set to the end of its last, from the runs'
 * seconds; kept in block->seconds. Fillers lie in the rests and take none of their own. */
int time_block(struct block *block, const struct time_settings *settings);

/* The warm-up to the first heavy lift of a session: sets of that lift before its block. */
struct time_ramp {
    size_t block; /* before which of the blocks */
    const struct item *item;
    const struct set_run *run; /* what it leads to */
    struct ramp_step steps[RAMP_STEPS];
    int count;
};

/* Finds it among the BLOCKS that ATHLETE (who may be NULL) does on DAY; false: nothing heavy is lifted. */
bool time_ramp_find(const struct block *blocks, size_t count, const struct athlete *athlete, const struct gym *gym, int day,
                    struct time_ramp *ramp);

/* Seconds of one of its sets, both sides, without the rest after it. */
int time_ramp_set(const struct time_ramp *ramp, int step, const struct time_settings *settings);

/* Fills seconds and starts of the BLOCKS that ATHLETE does on DAY and returns the seconds of the
 * whole: the blocks, the time between them, and before the block with the first heavy lift the
 * warm-up sets that GYM can load. ATHLETE may be NULL; there is no ramp then. */
int time_session(struct block *blocks, size_t count, const struct athlete *athlete, const struct gym *gym, int day,
                 const struct time_settings *settings);

#endif

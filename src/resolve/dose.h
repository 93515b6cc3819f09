/* dose.h - a dose as written, with its series still open; shared by the resolve_*.c files only. */
#ifndef BELL_RESOLVE_DOSE_H
#define BELL_RESOLVE_DOSE_H

#include "resolve/resolver.h"

enum { MOST_PARTS = 8 };

struct dose_part {
    struct figures *figures;
    enum side_word side;
    struct span span;
};

/* What follows the @. */
struct dose_load {
    bool given;
    enum load_word word;
    struct figures *figures; /* mass, share or rep maximum */
    struct figures *extra;   /* behind a + */
    int pieces;
    const char *thing, *ref;
    struct span span;
};

struct dose_effort {
    bool given;
    enum effort_word word;
    struct figures *figures;
    struct span span;
};

/* A dose or a block's header. What was not written is NULL or not given. */
struct dose {
    struct figures *sets;        /* `3/3/4 sets`, or the count before an `x` */
    struct figures *times;       /* the count before `x`: repeats, rounds or sets, depending on the block */
    struct figures *outer_times; /* a second count before that: `2 x 3 x 2:00` */
    struct dose_part parts[MOST_PARTS];
    int part_count;
    bool hold;
    struct dose_load load;
    struct dose_effort effort;
    struct item_tempo tempo;
    struct figures *rest, *block_rest, *over, *within, *work_up;
    struct figures *speed;       /* of the bar; only in a log */
    bool alternates;             /* `alternating stances` */
    struct span alternating;     /* these words */
    struct dose *next;           /* of intervals: what follows this one */
    struct span span;
};

/* Reads a DOSE or INTERVALS node. Never NULL; whatever makes no sense is reported and left out. */
struct dose *dose_read(struct resolver *r, const struct node *node);

/* BASE with the parts that CHANGE gives put in their place. Either may be NULL. */
struct dose *dose_merge(struct resolver *r, const struct dose *base, const struct dose *change);

/* Warns about a series, and those in a dose (either may be NULL), that is longer than what the plan used. */
void figures_report_unused(struct resolver *r, const struct figures *figures);
void dose_report_unused(struct resolver *r, const struct dose *dose);

/* --- making it definite --- */

/* What is known when a dose becomes an athlete's sets. */
struct dose_setting {
    const struct athlete *athlete;
    const struct gym *gym;        /* where it is done */
    int date, column;
    enum block_kind block;
    int sets;                     /* of the block; 0 not given */
    int work;                     /* seconds of one round of the block; 0 where it has none */
    const struct item *items;     /* those above it in the block, for `50% of A.1` */
    size_t item_count;
    const struct block *blocks;   /* the blocks above */
    size_t block_count;
    bool alternates; /* the block's line says `alternating stances` */
    bool down;     /* loads are rounded down: in a taper, with a restriction, under 18 */
    bool held;     /* a closed day: its loads were made then, whatever the gym has now */
    bool poisoned; /* the block's line, or one of the session, was not understood */
};

/* Fills ITEM's runs from DOSE (NULL: none written) for its exercise. */
void dose_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                 struct item *item);

/* The same of a dose of several pieces (resolve_pieces.c). */
void dose_settle_pieces(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item);

/* Places in lists from which a set is taken, from 0. */
struct at {
    int amount, load;
};

/* Fills RUN with one set of DOSE, which has an amount or fills the round. */
void run_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item,
                struct at at, struct set_run *run);

/* Would the two be one line on a sheet? */
bool runs_alike(const struct set_run *a, const struct set_run *b);

/* The parts of one set of DOSE as ATHLETE did them; *COUNT is 0 where something is wrong, which is reported. */
const struct part *dose_parts(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                              const struct exercise *exercise, int set, size_t *count);

/* What kind of effort a word of a dose is. */
enum effort_kind effort_kind_of(enum effort_word word);

/* How many values a list of the dose has; 0 if it has none. Lists of different lengths are reported. */
int dose_listed(struct resolver *r, const struct dose *dose);

/* How many sets DOSE is, LISTED of them in lists. */
int dose_set_count(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, int listed);

/* dose_settle for a dose met again: takes the sets made before for one like it. */
void dose_settle_alike(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item);

/* Whether DOSE is done one repetition a stance in turn, by its own words or its block's. Words that cannot apply are
 * reported. */
bool dose_takes_turns(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                      const struct exercise *exercise);

/* What each stance does of WHOLE, all of which is done in turn, or, if EACH, as much in each stance: two parts, or one
 * of a single repetition. An odd one falls to the athlete's own stance, which is first. SPAN is where WHOLE is
 * written. */
size_t split_in_turns(struct resolver *r, const struct part *whole, bool each, struct span span,
                      const struct athlete *athlete, struct part parts[2]);

/* Fills LOAD, which is empty, for one set: the setting's column of series, SET of lists (from 0). */
void load_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                 const struct exercise *exercise, int set, struct load *load);

/* Index of the value that FIGURES have for SET of the setting. */
int figures_index(struct resolver *r, struct figures *figures, const struct dose_setting *setting, int set);

#endif

/* block.h - a session as it is declared, and its blocks and items as one athlete does them. */
#ifndef BELL_MODEL_BLOCK_H
#define BELL_MODEL_BLOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "model/kinds.h"
#include "model/set.h"

struct exercise;
struct substitute;

/* Why a different exercise is done from the one in the line. */
enum exchange {
    EXCHANGE_NONE,    /* it is done itself */
    EXCHANGE_WRITTEN, /* a line below says so */
    EXCHANGE_AVOID,   /* in place of what the athlete has to avoid */
    EXCHANGE_KIT      /* the gym lacks what it needs */
};

/* How a line's load goes on from what was done (`next time`). */
enum progress_kind {
    PROGRESS_RANGE,   /* every set at the top of BAND: up by STEP */
    PROGRESS_TWICE,   /* two repetitions over in the last set, twice running: up by STEP */
    PROGRESS_EFFORT,  /* by how far the effort was outside BAND */
    PROGRESS_LAST_SET /* by the repetitions of the last set, by the table for OF */
};

struct next_rule {
    enum progress_kind kind;
    struct range band;
    mass step;
    int of; /* 3, 6 or 10 */
    struct span span;
};

/* One exercise of a block as one athlete does it. */
struct item {
    const struct exercise *exercise;
    const struct exercise *line_exercise; /* the one in the line; NULL: the same */
    enum exchange exchange;
    bool load_left;           /* the line's load is for the other implement, and only its effort carried over */
    const char *ref;          /* "A.1" */
    int index;                /* from 0 in its block, as in the session declared: pairs items across athletes */
    bool test;                /* done `as a test` */
    bool filler;              /* done in the rests of rounds */
    int round;                /* of `round 2 : ...`; 0 is every round */
    int after;                /* seconds before it starts, after the item above it; -1: not given */
    const struct set_run *runs; /* of a block of rounds: what is done in one round, or in one rest by a filler */
    size_t run_count;
    int sets;                 /* sum of the runs' counts */
    const struct next_rule *next; /* what its next load goes by, or NULL */
    const char *cue;          /* the line's own cue, else NULL */
    const char *stop;         /* the line's own stop rule, else the exercise's, or NULL */
    const char *why;          /* why a variant was taken, for `show`; NULL if none was */
    unsigned sides_out;       /* bits of enum barred: the side of the body that a restriction leaves out */
    bool own;                 /* chosen for the athlete, by a line `for` or by a restriction */
    const struct substitute *without; /* what stands under the line for want of kit that is there */
    size_t without_count;
    struct span span;         /* of the line, or of the one below it that says what is done here */
};

struct block {
    enum block_kind kind;
    char letter;              /* 'A'...; 0 for rounds without one */
    int sets;                 /* sets or rounds */
    int work;                 /* seconds of one round, or of the whole for `every` and `as many` */
    int interval;             /* `every 1:00 for 10:00`: 60; else 0 */
    int rest_low, rest_high;  /* seconds between sets or rounds */
    int times;                /* `2 x` before rounds: how often the whole block is done; 0 and 1: once */
    int times_rest;           /* seconds between those */
    int keep;                 /* 1 matters most .. 3; 0 not given */
    int poor_sets;            /* sets or rounds on a poor day, 0: nothing is said of one */
    struct range poor_rpe;    /* and how hard then; high 0: as ever */
    const char *on_purpose;   /* why its partners load one region, as the plan says; or NULL */
    const struct item *items;
    size_t item_count;
    int seconds;              /* of the whole block, including rests inside it */
    int starts;               /* seconds from the start of the session */
    struct span span;         /* of the header line */
};

/* Whether each athlete may do some of the blocks in an order of their own. */
enum block_order {
    ORDER_WRITTEN,
    ORDER_ANY,
    ORDER_WAVES /* each starts at any of them and goes round from there */
};

/* A session as declared; its doses are resolved for each athlete and day. */
struct session {
    struct name name;
    const char *purpose;
    int under;                /* seconds; 0 none */
    enum block_order order;
    uint32_t free_blocks;     /* bits by letter, A first, of the blocks that this order covers */
    const void *node;         /* the tree it came from, and what was read from it: */
    void *template;           /* only the resolver looks at these two */
    int placed;               /* how often */
    int from;                 /* the first day of this version; 0: it is the only one, or the earliest */
    struct session *first, *later; /* the version that was declared first, itself mostly, and the next of its row, or NULL */
    bool is_base;             /* another is based on it: it need not be placed itself */
    size_t number;            /* place in programme.sessions, from 1 */
};

#endif

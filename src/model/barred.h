/* barred.h - what an athlete must not do, for how long and who ends it. Never why. */
#ifndef BELL_MODEL_BARRED_H
#define BELL_MODEL_BARRED_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct activity;
struct exercise;
struct recovery;

/* The repetitions that a restriction bars, as bits. */
enum barred { BARRED_LEFT = 1, BARRED_RIGHT = 2, BARRED_ALL = BARRED_LEFT | BARRED_RIGHT };

/* What an athlete must not do until somebody with the right to say so ends it. Never why. */
struct avoid {
    const char *shown;         /* as written: "overhead press" */
    const struct exercise *exercise; /* what is meant: this, */
    int pattern, region, kind; /* of the vocabularies, or -1, */
    const char *position;      /* folded: "overhead"; or NULL, */
    int joint, demand;         /* of the vocabularies, or -1: any; both -1: none. `avoid neck` is a region and a joint */
    unsigned sides;            /* bits of enum barred, of a joint or a region; 0: whichever side */
    bool all_out;              /* efforts: nothing all-out or at RPE 9 and up */
    const struct recovery *recovery; /* this is a stage of a way back, and bars what its steps so far do not name; or NULL */
    int recovery_step;         /* of that stage; -1: none is reached */
    bool private;              /* written in a private file alone */
    int since;                 /* its first day, or 0: it always stood */
    int expected;              /* day until which it is expected to stand, or 0; lifts nothing */
    int review;                /* day, or 0 */
    int ended;                 /* day on which it was ended, or 0 */
    const char *ended_by;
    const struct exercise *instead; /* or NULL */
    const struct exercise **can_do; /* exercises that stay allowed */
    size_t can_do_count;
    unsigned can_do_patterns;  /* bits of patterns that stay allowed (`all pulling`) */
    struct span span;
};

/* Work that a step of a protocol names. A name may belong to an exercise, an activity and more at once: all are
 * meant. */
struct permit {
    const struct exercise *exercise;
    const struct activity *activity;
    int pattern, kind; /* of the vocabularies, or -1 */
    const char *kit;   /* folded: all that needs it; or NULL */
    bool training;     /* any there is */
    milli cap;         /* RPE at most; 0: none */
};

struct permits {
    const struct permit *items;
    size_t count;
};

/* A step on the way back. Whatever it does not name is barred. */
struct protocol_step {
    const char *name, *title;  /* "2a", "light aerobic work" */
    struct permits allows;
    struct permits if_agreed;  /* only once a doctor has agreed, whatever `allows` says */
    struct permits bars;       /* not even where `allows` says so */
    int days, young_days;      /* how long it lasts at least, and under 18 */
    bool young_doctor;         /* under 18 a doctor enters that it was reached */
    bool wants_agreed;         /* a doctor has agreed before it begins */
    int back;                  /* the step that symptoms lead back to; -1: this one, again */
    bool end;                  /* it allows everything: its entry is `ended by` */
    struct span span;
};

struct protocol {
    struct name name;
    const struct protocol_step *steps;
    size_t step_count;
};

enum hold_entry_kind { ENTRY_REACHED, ENTRY_AGREED, ENTRY_ENDED, ENTRY_SYMPTOMS };

/* What somebody entered below a hold. */
struct hold_entry {
    enum hold_entry_kind kind;
    int day;
    int step;         /* of ENTRY_REACHED: place in the protocol's steps */
    const char *by;   /* "doctor Ines Tarrant"; NULL of symptoms */
    bool doctor;      /* its first word says so */
    bool private;     /* from a private file */
    struct span span;
};

/* A suspected concussion: no training from its moment on, then what the step of the protocol that was reached names. */
struct hold {
    int since, clock;                /* CLOCK: seconds from midnight, -1 not given */
    const struct protocol *protocol; /* NULL: none yet, and nothing is allowed */
    const struct hold_entry *entries; /* by day; within one day symptoms come last */
    size_t entry_count;
    bool private;                    /* written in a private file alone */
    struct span span;
};

/* Days for which nothing is planned. */
struct out {
    int first, last; /* both inside; LAST is DATE_LAST while it is open */
    bool away;       /* given with its days, by `away`: no hold takes its place */
    struct span span;
};

/* Days away with a fever or chest symptoms, as the private file says: a doctor first. */
struct illness {
    int first, last; /* both inside */
    int seen;        /* day on which a doctor saw the athlete, or 0 */
    struct span span;
};

/* A commission's or federation's own bar. The days are the first allowed; 0: none, DATE_LAST: until further notice. */
struct suspension {
    const char *by;
    int since; /* 0: not given */
    int contact, bout;
    struct span span, contact_span, bout_span;
};

/* A blow to the head that somebody wrote down. */
struct knock {
    int day, clock; /* -1: no hour */
    bool shared;    /* not in a private file, where it belongs */
    struct span span;
};

#endif

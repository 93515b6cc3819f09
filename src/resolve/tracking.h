/* tracking.h - what each athlete's sessions rest on and leave to others, noted while they are worked out; shared by the
 * resolve_*.c files only. Nothing is noted where nobody asks: r->tracking is NULL. */
#ifndef BELL_RESOLVE_TRACKING_H
#define BELL_RESOLVE_TRACKING_H

#include <glib.h>

#include "resolve/partial.h"
#include "resolve/resolver.h"
#include "resolve/template.h"

/* A series that is being used, for those who get its sets from somebody else's. */
struct touch {
    struct figures *figures;
    int used;
};

struct tracking {
    struct partial *partial;
    const struct athlete *athlete; /* whose sessions are worked out now; NULL: none are */
    size_t errors;                 /* findings before */
    int *placed;                   /* by athlete: how many of the placed have been met */
    GHashTable *places;            /* series and variants by their place */
    struct touch *touched;         /* by the session that is worked out now */
    size_t touched_count, touched_capacity;
};

struct tracking *tracking_new(struct resolver *r, struct partial *partial);

/* The athletes are known. */
void track_open(struct resolver *r);

/* FIGURES, a series that may come to be too long, and VARIANT can be marked from now on. */
void track_series(struct resolver *r, struct figures *figures);
void track_variant(struct resolver *r, struct variant *variant);

/* COLUMNS of FIGURES are used, and VARIANT is met, by the athlete whose sessions are worked out. */
void track_used(struct resolver *r, struct figures *figures, int columns);
void track_met(struct resolver *r, struct variant *variant);

/* ATHLETE's sessions rest on the part of a file that SPAN starts in. */
void track_part(struct resolver *r, const struct athlete *athlete, struct span span);

/* All is placed: notes on which parts that rests, and says whose sessions are to be worked out. */
void track_choose(struct resolver *r, int first_day);

/* Are ATHLETE's sessions worked out? */
bool track_wants(const struct resolver *r, const struct athlete *athlete);

/* The working out of PLACED begins; false: it is not wanted, and what was found before stands again. And it ends. */
bool track_begin(struct resolver *r, const struct placed *placed);
void track_end(struct resolver *r);

/* FINDING came of a log of ATHLETE's and what is planned. */
void track_log(struct resolver *r, const struct athlete *athlete, struct finding *finding);

/* What was found in the logs of those who are not worked out stands again. */
void track_logs_again(struct resolver *r);

/* What is not worked out leaves its marks again. */
void track_others(struct resolver *r);

#endif

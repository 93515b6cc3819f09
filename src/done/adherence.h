/* adherence.h - what was done of what was planned, as far as the logs tell.
 *
 * Counted are days gone by: those before today, and up to the athlete's last log. Of these what no log tells of was not
 * done. What may be left out is asked of nobody: where it was not done there is a range, from the
 * share of all to the share of what had to be done. */
#ifndef BELL_DONE_ADHERENCE_H
#define BELL_DONE_ADHERENCE_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct athlete;
struct occasion;
struct programme;

enum adherence_of { ADHERENCE_SESSIONS, ADHERENCE_SETS, ADHERENCE_LOAD, ADHERENCE_COUNT };

/* One sum, in thousandths: sessions and other placed work; sets of exercises; session load. */
struct done_share {
    milli done;
    struct range planned; /* without and with what may be left out and was */
};

struct adherence {
    bool known; /* something was planned on the days that count, and logs tell of the athlete */
    struct done_share of[ADHERENCE_COUNT];
};

/* The last day that counts for ATHLETE, or 0: no log tells of the athlete. */
int adherence_last(const struct programme *programme, const struct athlete *athlete);

/* Of COUNT occasions of one athlete, those up to LAST. */
struct adherence adherence_of(const struct occasion *const *occasions, size_t count, int last);

/* DONE of PLANNED in thousandths of a per cent, cut; false where nothing was planned. */
bool kept_share(const struct done_share *kept, struct range *share);

#endif

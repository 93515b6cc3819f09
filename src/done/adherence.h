/* adherence.h - how much of what was planned was done, as far as the logs say.
 *
 * * Past days count: those before today, up to the athlete's last log. Work on these days that no log mentions was
 * not done. Nobody has to do what may be left out: if it was not done, the result is a range, from the share of
 * everything to the share of what had to be done. */
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
    struct range planned; /* without and with what could be left out and was */
};

struct adherence {
    bool known; /* something was planned on the days that count, and the athlete has logs */
    struct done_share of[ADHERENCE_COUNT];
};

/* The last day that counts for ATHLETE, or 0 if the athlete has no log. */
int adherence_last(const struct programme *programme, const struct athlete *athlete);

/* The adherence to COUNT occasions of one athlete, as far as they are not after LAST. */
struct adherence adherence_of(const struct occasion *const *occasions, size_t count, int last);

/* DONE of PLANNED in thousandths of a per cent, rounded down; false if nothing was planned. */
bool kept_share(const struct done_share *kept, struct range *share);

#endif

/* share.h - how much of a limit a week is held to: a week that the camp, a phase or a bout cuts short to its days' share,
 * a floor besides to what the phase and the athlete's restrictions leave of it. */
#ifndef BELL_LIMITS_SHARE_H
#define BELL_LIMITS_SHARE_H

#include "limits/limits.h"

struct athlete;
struct phase;
struct programme;

enum { DAYS_OF_WEEK = 7 };

/* Whether the limit counts only some days of the camp: those of a phase, or near a bout. */
bool limit_is_of_days(const struct in_force *in_force);

/* Days of the week from FIRST to LAST on which the plan can do what a limit asks for at least: those of the camp, before
 * the bout, and of the phase or stretch where the limit names one. */
int limit_days(const struct in_force *in_force, int first, int last);

/* What of a week's VALUE is left on DAYS of it, in whole units where it is one or more. */
milli limit_for_days(milli value, int days);

/* What is left of a floor. */
struct floor {
    milli value;               /* 0: nothing is asked */
    int days;                  /* of the week that count */
    const struct phase *phase; /* whose volume is to come down, and the floor with it; or NULL */
    bool restricted;           /* less is asked, for some of what would count is barred */
};

/* What of the floor that IN_FORCE sets is asked of ATHLETE in the week from FIRST to LAST. TABLE is that of its camp. */
struct floor limit_floor(const struct programme *programme, const struct limit_table *table,
                         const struct in_force *in_force, const struct athlete *athlete, int first, int last);

#endif

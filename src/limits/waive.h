/* waive.h - which findings a plan waives, and whether a verdict is one of them. */
#ifndef BELL_LIMITS_WAIVE_H
#define BELL_LIMITS_WAIVE_H

#include "limits/limit_verdict.h"

struct waiver;

/* What somebody does from FIRST to LAST. */
struct waived_days {
    const struct athlete *athlete;
    const struct camp *camp; /* NULL: days of every camp that the athlete is in */
    int first, last;
    const struct occasion *const *occasions;
    size_t count;
};

/* Whether WAIVER reaches DAYS: all of them, or, if it stands under a line that places something, any with what that line
 * places. */
bool waiver_reaches(const struct waiver *waiver, const struct waived_days *days);

/* Whether WAIVER goes as far as FIGURE, in the unit in which a message gives it; of a finding without one it is 0. FLOOR:
 * too little was found, not too much. */
bool waiver_covers(const struct waiver *waiver, milli figure, bool floor);

/* AMOUNT as a message gives it to ATHLETE: time in minutes, mass in the unit of the gym and pounds whole. */
milli limit_figure(const struct athlete *athlete, enum counted counted, milli amount);

/* The finding that reports END of a limit of LAYERED's kind, its "at most" if MOST. */
enum diagnostic limit_diagnostic(const struct layered *layered, bool most);

/* The waiver that keeps quiet that END of VERDICT, about WORK in every camp, is broken; NULL: none does. */
const struct waiver *limit_waiver(const struct judged_work *work, const struct limit_verdict *verdict,
                                  const struct limit_end *end);

/* The first that keeps quiet what WHAT finds in WORK at FIGURE; too little of it if FLOOR. NULL: none does. */
const struct waiver *work_waiver(const struct judged_work *work, enum diagnostic what, milli figure, bool floor);

#endif

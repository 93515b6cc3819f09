/* limit_verdict.h - the verdict on a limit: what it asks of an athlete on some days, what the plan comes to there, and
 * whether that keeps it. It is worked out here and nowhere else: a check reports it, a tally shows what is left, a sheet
 * draws it. */
#ifndef BELL_LIMITS_LIMIT_VERDICT_H
#define BELL_LIMITS_LIMIT_VERDICT_H

#include "limits/share.h"
#include "measure/tally.h"
#include "source/diag.h"

/* What is compared with a limit: an athlete's work from FIRST to LAST, the days of the limit's scope. */
struct judged_work {
    const struct programme *programme;
    const struct athlete *athlete;
    int first, last;
    const struct occasion *const *occasions; /* all of them, in every camp */
    size_t count;
    const struct tally *tallies; /* of each */
    const struct tally *tally;   /* of them all */
};

/* One end of a limit: its "at least" or its "at most". */
struct limit_end {
    bool asked;   /* something is asked here: else the rest is 0 */
    milli whole;  /* the figure that the limit says */
    milli value;  /* the figure that holds on these days: a cut week's share */
    bool broken;
    milli passed; /* if broken: which of the two figures the message gives */
    milli left;   /* up to VALUE; below 0 past it */
    enum severity severity; /* if broken; a warning at most where the figure reveals body mass */
};

struct limit_verdict {
    const struct in_force *in_force;
    enum side side;
    struct range amount; /* what the limit counts; session load as it turned out */
    struct range other;  /* of a ratio: what it is compared with; else 0 */
    struct limit_end least, most;
    int days;            /* of a week: how many of its days count; else 7 */
    struct floor floor;  /* of a week with an "at least" */
    int64_t uncounted;   /* seconds of work that the count leaves out */
    int open;            /* sets of as many as possible, counted as none */
    bool tells_body;     /* it is for the coach alone */
};

/* The verdict on one SIDE of a limit that applies to the athlete of WORK; of one that is no sum or ratio only the figures,
 * because a check of its own measures what it bounds. TABLE is that of the limit's camp. */
void limit_judge(const struct judged_work *work, const struct limit_table *table, const struct in_force *in_force,
                 enum side side, struct limit_verdict *verdict);

/* The sides to ask for: left and right where the limit bounds each, else all. */
enum side limit_first_side(const struct layered *layered);
enum side limit_last_side(const struct layered *layered);

/* How much of the figure that holds is reached, in thousandths: of the "at most", or else of the "at least". */
milli limit_reached(const struct limit_verdict *verdict);

#endif

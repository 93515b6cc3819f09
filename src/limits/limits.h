/* limits.h - which limits hold where: layers laid one over the other, the closer word winning. */
#ifndef BELL_LIMITS_LIMITS_H
#define BELL_LIMITS_LIMITS_H

#include "measure/accounts.h"
#include "model/programme.h"
#include "source/diag.h"

/* A limit of a camp's layers. */
struct layered {
    const struct limit *limit;
    const struct limits *set;
    enum account account, against; /* against: ACCOUNT_NONE where nothing is compared */
    enum account_group kind;       /* of the account; GROUP_MEASURED where it is held against a peak */
    int layer;                     /* 0 is the nearest to the camp */
    int line;                      /* place in its set */
    size_t next;  /* of the next limit about the account, counted from 1; 0: there is none */
    size_t group; /* limits of one group are about the same thing: one of them holds */
};

struct limit_table {
    const struct camp *camp;
    struct layered *items; /* by group */
    size_t count, group_count;
    size_t about[ACCOUNT_END]; /* the first limit about the account, counted from 1; 0: there is none */
};

/* Whom a limit is asked for, and when. */
struct holder {
    const struct athlete *athlete;
    const struct phase *phase; /* or NULL */
    int first, last;           /* days, both inside; ages are those of the first */
};

/* A limit that holds in a window, and for whom it was picked. */
struct in_force {
    const struct layered *layered;
    const struct camp *camp;
    const struct phase *phase;
    int first, last; /* the days of the camp that it counts; all days where it names none */
};

/* The layers of CAMP. Of its `limits` lines a later one stands above an earlier one and all that
 * that is based on; each set stands above its base, and a base of several below them all. Limits on
 * accounts that do not exist are left out; whoever reads the plan has reported them. */
void limit_table_build(struct arena *arena, const struct camp *camp, struct limit_table *table);

/* Puts the limits of SCOPE that hold for HOLDER into OUT, which has room for table->group_count.
 * The more specific wins (athlete, then age, then lifting age, then days before or after, then
 * phase), then the nearer layer, then the later line. Returns how many. */
size_t limit_table_pick(const struct limit_table *table, enum limit_scope scope,
                        const struct holder *holder, struct in_force *out);

/* The one limit about ACCOUNT that holds, of any scope, or NULL; none that speaks of a peak week. */
const struct layered *limit_table_find(const struct limit_table *table, enum account account,
                                       const struct holder *holder);

/* The same of limits that hold ACCOUNT, a sum, against the peak week. */
const struct layered *limit_table_find_peak(const struct limit_table *table, enum account account,
                                            const struct holder *holder);

/* What breaking LIMIT is; without FAILS it is a warning at most: a floor, or a figure that is not fully
 * counted. */
enum severity limit_severity(const struct limit *limit, bool fails);

/* Whether LIMIT holds for HOLDER in CAMP, were it alone. */
bool limit_holds(const struct limit *limit, const struct camp *camp, const struct holder *holder);

/* The phase of CAMP that most of the days from FIRST to LAST lie in, the earlier of two, or NULL. */
const struct phase *camp_phase_between(const struct camp *camp, int first, int last);

#endif

/* limits.h - which limits apply where: layers laid over one another, the closer one winning. */
#ifndef BELL_LIMITS_LIMITS_H
#define BELL_LIMITS_LIMITS_H

#include "measure/counts.h"
#include "model/limit.h"
#include "source/diag.h"

struct athlete;
struct camp;
struct phase;
struct programme;

/* To whom the lists `under 18` and `novices` apply by themselves, whatever a camp says. */
enum for_whom { FOR_YOUNG = 1, FOR_NOVICE = 2, GROWN = 18 };

/* A limit of a camp's layers. */
struct layered {
    const struct limit *limit;
    const struct limits *set;
    enum counted counted, against; /* against: COUNTED_NONE where nothing is compared */
    enum counted_group kind;       /* of the count; GROUP_MEASURED if it is compared with a peak */
    bool named;                    /* it is in the camp's own layers */
    unsigned for_whom;             /* it applies by itself to these, as bits of enum for_whom */
    int layer;                     /* 0 is the nearest to the camp */
    int line;                      /* place in its set */
    size_t next;  /* of the next limit about the count, counted from 1; 0: there is none */
    size_t group; /* limits of one group are about the same thing: one of them applies */
};

struct limit_table {
    const struct camp *camp;
    struct layered *items; /* by group */
    size_t count, group_count;
    size_t most; /* that can apply at once */
    size_t about[COUNTED_END]; /* the first limit about the count, counted from 1; 0: there is none */
};

/* For whom a limit is looked up, and when. */
struct holder {
    const struct athlete *athlete;
    const struct phase *phase; /* or NULL */
    int first, last;           /* days, both inside; ages are those of the first */
};

/* A limit that applies in a window, and for whom it was picked. */
struct in_force {
    const struct layered *layered;
    const struct camp *camp;
    const struct phase *phase;
    int first, last; /* the days of the camp that it counts; all days if it names none */
};

/* The layers of CAMP. Of its `limits` lines a later one stands above an earlier one and everything that one is based
 * on; each set stands above its base, and a base shared by several stands below them all. Limits on counts that do not
 * exist are left out; whoever reads the plan has reported them. Below them stand the lists of PROGRAMME that apply by
 * themselves to somebody in the camp. */
void limit_table_build(struct arena *arena, const struct programme *programme, const struct camp *camp,
                       struct limit_table *table);

/* Puts the limits of SCOPE that apply to HOLDER into OUT, which has room for table->most. The more specific wins
 * (athlete, then age, then lifting age, then days before or after, then phase), then the nearer layer, then the later
 * line. A limit of a list that applies by itself wins wherever it is tighter, except over what the coach says of the
 * very same people. In a week that has days before a bout and days behind it, or the first days of a camp, limits of
 * days that have none in common hold beside each other. Returns how many. */
size_t limit_table_pick(const struct limit_table *table, enum limit_scope scope,
                        const struct holder *holder, struct in_force *out);

/* The one limit about COUNTED that applies, of any scope, or NULL; none that refers to a peak week. */
const struct layered *limit_table_find(const struct limit_table *table, enum counted counted,
                                       const struct holder *holder);

/* The same for limits that compare COUNTED, a sum, with the peak week. */
const struct layered *limit_table_find_peak(const struct limit_table *table, enum counted counted,
                                            const struct holder *holder);

/* The limit about COUNTED that applies by itself to HOLDER beside what limit_table_find gives, because it is a bound of
 * another kind; or NULL. */
const struct layered *limit_table_find_beside(const struct limit_table *table, enum counted counted,
                                              const struct holder *holder);

/* Which of the lists that apply by themselves apply to ATHLETE on DAY, as far as the plan says: bits of enum
 * for_whom. */
unsigned limit_for_whom(const struct athlete *athlete, int day);

/* Whether the coach says NAMED of the very people to whom ITSELF, about the same count, applies by itself: by name, by
 * age or lifting age, or in a list that is based on it. */
bool limit_is_said_of_them(const struct layered *named, const struct layered *itself);

/* How grave it is to break LIMIT; without FAILS it is a warning at most: a floor, or a figure that is not fully
 * counted. */
enum severity limit_severity(const struct limit *limit, bool fails);

/* Whether ITEM of TABLE would apply to HOLDER if it were alone. */
bool limit_holds(const struct limit_table *table, const struct layered *item, const struct holder *holder);

/* Whether A leaves less room than B, which is about the same thing. */
bool limit_is_tighter(const struct limit *a, const struct limit *b);

/* The phase of CAMP that most of the days from FIRST to LAST lie in, the earlier of two, or NULL. */
const struct phase *camp_phase_between(const struct camp *camp, int first, int last);

#endif

/* finding_groups.h - findings so far, by what they are about: one fault that turns up week after week, or with athlete
 * after athlete, is reported once. Read by report.c, which makes them, and recall.c, which keeps them. */
#ifndef BELL_RULES_FINDING_GROUPS_H
#define BELL_RULES_FINDING_GROUPS_H

#include <glib.h>

#include "rules/run.h"

struct key {
    enum diagnostic diagnostic;
    struct span span, other; /* OTHER as in struct about */
    const void *subject;
    int64_t number;
    size_t identity; /* in place of SUBJECT, of what was kept from another run; 0: none */
};

enum { NAMED = 3 }; /* names of athletes, or days */

/* A fault as it was reported: each time it is worse than before. */
struct telling {
    milli weight;
    enum severity severity;
    bool private;
};

struct finding_group {
    struct key key;
    const struct rule *rule;
    struct finding *finding;
    milli weight;
    bool uneven; /* it was not always equally bad */
    int met;
    bool of_work;               /* it was met in something done on a day, not in the athlete as a whole */
    const struct window *of;    /* that of the one that is reported, or NULL */
    const struct athlete *last; /* of whom it was met most lately */
    int athletes;               /* they come one after another, so that a change is a new one */
    const char *names[NAMED];
    int day, day_count; /* of the first athlete, the days on which it was met */
    int days[NAMED];
    run_sayer say; /* NULL: it was worded when it was met */
    void *what;
    struct telling *tellings; /* while they are kept apart, see run.recall */
    size_t telling_count, telling_capacity;
};

struct groups {
    GHashTable *table;
    struct finding_group **items; /* in the order in which they were met */
    size_t count, capacity;
    struct finding_group *last; /* whose finding run_meet returned last */
};

/* The group of KEY, or NULL; and a new one, which reports FINDING. */
struct finding_group *group_find(const struct run *run, const struct key *key);
struct finding_group *group_new(struct run *run, const struct rule *rule, const struct key *key,
                                struct finding *finding);

/* Words findings that wait for it, and says whom they are about: everything needed for one athlete's. */
void groups_word(struct run *run);

#endif

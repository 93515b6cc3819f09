/* whereabouts.h - days and places as lines tell them: from when to when, where, who is not there. Shared by the resolve_*.c
 * files only. */
#ifndef BELL_RESOLVE_WHEREABOUTS_H
#define BELL_RESOLVE_WHEREABOUTS_H

#include "resolve/resolver.h"

/* The days that LINE tells, `2027-04-02 to 2027-04-11` or one alone, both inside; reports days that end before they begin
 * and returns false. */
bool whereabouts_days(struct resolver *r, const struct node *line, int *first, int *last);

/* Why, as LINE says behind `because`; NULL where it does not. Reports a reason of health outside of `private`. */
const char *whereabouts_reason(struct resolver *r, const struct node *line);

/* Keeps why the line at NODE takes DAY out of the weeks of CAMP; no sheet gives a reason of health, and it is not
 * kept. */
void whereabouts_keep_off(struct resolver *r, const struct node *node, struct camp *camp, int day);

/* Reports WORDS, a TEXT node of a log, where they tell how somebody is and others read them. */
void whereabouts_words(struct resolver *r, const struct node *words);

/* What the lines `at` and `absent` below a placed session say. */
struct whereabouts {
    struct stay *stays; /* of all days of the line */
    size_t stay_count, stay_capacity;
    struct absent_line *absences;
    size_t absence_count, absence_capacity;
};

/* Reads them from below the line at NODE, of CAMP. */
void whereabouts_read(struct resolver *r, const struct node *node, const struct camp *camp,
                      struct whereabouts *where);

/* Where ATHLETE is on DAY by the line's whereabouts (NULL: it says nothing), else by its camp's; NULL: where the athlete
 * trains. */
const struct gym *whereabouts_gym(const struct whereabouts *where, const struct camp *camp,
                                  const struct athlete *athlete, int day);

/* Is ATHLETE absent on DAY? */
bool whereabouts_absent(struct whereabouts *where, const struct athlete *athlete, int day);

/* Warns of absences on a day on which the line placed nothing. */
void whereabouts_report_unmet(struct resolver *r, const struct whereabouts *where);

/* Reads the lines `at` of the camp at NODE, and the lines `closed` of the gym at NODE. */
void resolve_stays(struct resolver *r, const struct node *node, struct camp *camp);
void resolve_closures(struct resolver *r, const struct node *node, struct gym *gym);

/* The athlete of CAMP whom NAME names; reports anybody else and returns NULL. */
const struct athlete *whereabouts_member(struct resolver *r, const struct node *name, const struct camp *camp);

#endif

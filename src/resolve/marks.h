/* marks.h - days and places as lines tell them: from when to when, where, who is not there. Shared by the resolve_*.c
 * files only. */
#ifndef BELL_RESOLVE_MARKS_H
#define BELL_RESOLVE_MARKS_H

#include "resolve/resolver.h"

/* The days that LINE tells, `2027-04-02 to 2027-04-11` or one alone, both inside; reports days that end before they begin
 * and returns false. */
bool marks_days(struct resolver *r, const struct node *line, int *first, int *last);

/* Why, as LINE says behind `because`; NULL where it does not. Reports a reason of health outside of `private`. */
const char *marks_reason(struct resolver *r, const struct node *line);

/* What the lines `at` and `absent` below a placed session say. */
struct marks {
    struct stay *stays; /* of all days of the line */
    size_t stay_count, stay_capacity;
    struct absence *absences;
    size_t absence_count, absence_capacity;
};

/* Reads them from below the line at NODE, of CAMP. */
void marks_read(struct resolver *r, const struct node *node, const struct camp *camp, struct marks *marks);

/* Where ATHLETE is on DAY by the line's marks, else by its camp's; NULL: where the athlete trains. */
const struct gym *marks_gym(const struct marks *marks, const struct camp *camp, const struct athlete *athlete, int day);

/* Is ATHLETE absent on DAY? */
bool marks_absent(struct marks *marks, const struct athlete *athlete, int day);

/* Warns of absences on a day on which the line placed nothing. */
void marks_report_unmet(struct resolver *r, const struct marks *marks);

/* Reads the lines `at` of the camp at NODE, and the lines `closed` of the gym at NODE. */
void resolve_stays(struct resolver *r, const struct node *node, struct camp *camp);
void resolve_closures(struct resolver *r, const struct node *node, struct gym *gym);

#endif

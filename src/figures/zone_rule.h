/* zone_rule.h - when clocks change in years to come: the text at the end of a TZif file, such as
 * "GMT0BST,M3.5.0/1,M10.5.0", which is POSIX's form of TZ with the wider hours of RFC 9636, 3.3.1. For zone.c alone. */
#ifndef BELL_FIGURES_ZONE_RULE_H
#define BELL_FIGURES_ZONE_RULE_H

#include "figures/zone.h"

/* A day of each year, and the hour on it. */
struct zone_day {
    enum { ZONE_JULIAN, ZONE_YEAR_DAY, ZONE_WEEKDAY } kind; /* 1-365 without 29 February; 0-365; the nth weekday */
    int month, week, day; /* WEEK 5 is the last; DAY of ZONE_WEEKDAY is 0 for Sunday */
    int seconds;          /* from midnight, by the clocks until then; also below 0 and over a day */
};

struct zone_rule {
    struct zone_clocks winter, summer;
    bool changes; /* else it is always winter */
    struct zone_day begins, ends; /* of the summer's time */
};

/* Reads the LENGTH bytes of TEXT; false where they are no such rule. */
bool zone_rule_read(struct arena *arena, const char *text, size_t length, struct zone_rule *rule);

struct zone_clocks zone_rule_at(const struct zone_rule *rule, int64_t moment);
int64_t zone_rule_change_after(const struct zone_rule *rule, int64_t moment);

#endif

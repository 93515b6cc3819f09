/* ahead.h - the weigh-ins and bouts of the days to come, as a card or the coach's notes announce them. */
#ifndef BELL_LAYOUT_AHEAD_H
#define BELL_LAYOUT_AHEAD_H

#include "layout/frame.h"

struct athlete;
struct group;
struct programme;

/* "Weigh-in Sat 13 Feb 17:00. Bout Sun 14 Feb 19:30." of ATHLETE, in whatever camps, from DAY to a week later; or "". */
const char *ahead_words(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int day);

/* The same for everybody in GROUP on the day of its session, a line for all who have the same to come; an empty piece if
 * nobody has. */
struct box *ahead_box(const struct frame *frame, const struct group *group, struct face face);

#endif

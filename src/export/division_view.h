/* division_view.h - how far an athlete's last weighing is above a bout's division; for the coach alone. */
#ifndef BELL_EXPORT_DIVISION_VIEW_H
#define BELL_EXPORT_DIVISION_VIEW_H

#include "base/text.h"

struct camp;
struct athlete;
struct programme_view;

/* A line on ATHLETE and CAMP's division as of DAY; nothing unless VIEW is private, and nothing for anybody under 18
 * or without a weighing. It says where somebody is and not what to do: no mass to lose, no day. */
void division_text(const struct programme_view *view, const struct athlete *athlete, const struct camp *camp, int day,
                   struct text *out);

#endif

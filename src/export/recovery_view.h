/* recovery_view.h - how far an athlete is on a way back, and what the next step requires; for the coach alone. */
#ifndef BELL_EXPORT_RECOVERY_VIEW_H
#define BELL_EXPORT_RECOVERY_VIEW_H

#include "base/text.h"

struct athlete;
struct programme_view;

/* ATHLETE's ways back that are open on DAY; nothing unless VIEW is private. Nothing here says that anybody may go
 * on: only a person enters that a step was reached. */
void recoveries_text(const struct programme_view *view, const struct athlete *athlete, int day, struct text *out);

#endif

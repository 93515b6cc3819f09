/* morning_view.h - an athlete's mornings, for the coach alone: each compared with the athlete's own days before it. */
#ifndef BELL_EXPORT_MORNING_VIEW_H
#define BELL_EXPORT_MORNING_VIEW_H

#include <jansson.h>

#include "base/text.h"

struct athlete;
struct programme_view;

/* The mornings from FIRST to LAST, a line each; nothing unless VIEW is private. */
void mornings_text(const struct programme_view *view, const struct athlete *athlete, int first, int last, struct text *out);

/* All of them. The caller has asked for what is private. */
json_t *mornings_json(const struct programme_view *view, const struct athlete *athlete);

#endif

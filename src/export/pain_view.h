/* pain_view.h - where it hurt and how much, for the coach alone. */
#ifndef BELL_EXPORT_PAIN_VIEW_H
#define BELL_EXPORT_PAIN_VIEW_H

#include <jansson.h>

#include "base/text.h"

struct athlete;
struct programme_view;

/* The pains entered from FIRST to LAST, a line each; nothing unless VIEW is private. */
void pains_text(const struct programme_view *view, const struct athlete *athlete, int first, int last, struct text *out);

/* All of it. The caller has asked for what is private. */
json_t *pains_json(const struct programme_view *view, const struct athlete *athlete);

#endif

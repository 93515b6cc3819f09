/* tests_view.h - test results and what they mean, for people and for programs. Those from a private file only if the
 * view asks for private parts. */
#ifndef BELL_EXPORT_TESTS_VIEW_H
#define BELL_EXPORT_TESTS_VIEW_H

#include <jansson.h>

#include "export/show_programme.h"
#include "measure/tests.h"

struct athlete;

/* Adds the results of the athletes in VIEW; nothing if there are none. */
void tests_text(const struct programme_view *view, struct text *out);

/* The results of ATHLETE; an empty array if there are none. */
json_t *tests_json(const struct programme_view *view, const struct athlete *athlete);

#endif

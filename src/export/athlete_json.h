/* athlete_json.h - an athlete of a programme for other programs, without what is private unless the view asks for it. Read
 * by the files of this room only. */
#ifndef BELL_EXPORT_ATHLETE_JSON_H
#define BELL_EXPORT_ATHLETE_JSON_H

#include "export/json_text.h"
#include "export/show_programme.h"

struct athlete;
struct best;

json_t *athlete_json(const struct programme_view *view, const struct athlete *athlete);
json_t *best_json(const struct programme_view *view, const struct best *best);

/* Sets KEY to a day, unless it is 0. */
void json_put_day(const struct programme_view *view, json_t *json, const char *key, int day);

#endif

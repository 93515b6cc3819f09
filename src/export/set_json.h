/* set_json.h - sets, as planned and as they were done, for programme_json.c: what share/schema/programme-3.schema.json
 * calls amounts, masses, parts and logs. */
#ifndef BELL_EXPORT_SET_JSON_H
#define BELL_EXPORT_SET_JSON_H

#include <jansson.h>

#include "export/show_programme.h"
#include "model/log.h"
#include "model/set.h"

/* Both ends; put_range leaves out one whose HIGH is 0. */
json_t *range_json(struct range range);
void put_range(json_t *json, const char *key, struct range range);

json_t *part_json(const struct part *part);

/* What a log says. Its note, and why something was missed or left out, only if everything was asked for: words may
 * reveal somebody's health. */
json_t *log_json(const struct programme_view *view, const struct done *log);

#endif

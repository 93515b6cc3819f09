/* camp_json.h - a camp for other programs; a part of programme_json.c. */
#ifndef BELL_EXPORT_CAMP_JSON_H
#define BELL_EXPORT_CAMP_JSON_H

#include "export/json_text.h"
#include "export/show_programme.h"
#include "model/season.h"

/* Its days, its phases, its bout and the result, and who is in it from when to when. */
json_t *camp_json(const struct programme_view *view, const struct camp *camp);

#endif

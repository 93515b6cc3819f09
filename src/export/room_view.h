/* room_view.h - the timetables of squads' rooms as text and as JSON. Read by the files of this room only. */
#ifndef BELL_EXPORT_ROOM_VIEW_H
#define BELL_EXPORT_ROOM_VIEW_H

#include <jansson.h>

#include "export/show_programme.h"
#include "squad/squad.h"

/* A squad with somebody in view, and its timetable. */
struct room_view {
    const struct squad *squad;
    const struct room_table *table; /* NULL: too large */
    const bool *seen;               /* of each member */
    bool all_seen;
};

/* Those of VIEW, by date, in the view's arena; returns how many. */
size_t room_views(const struct programme_view *view, struct room_view **rooms);

/* "60 kg", "12 kg each hand": what ROW is done with; "" without a load in kilograms. */
const char *room_row_load(const struct programme_view *view, const struct squad_task *task);

/* Adds the rooms of VIEW to OUT. */
void rooms_text(const struct programme_view *view, struct text *out);
json_t *rooms_json(const struct programme_view *view);

#endif

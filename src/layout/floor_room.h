/* floor_room.h - the floor sheet's pages of the room: who is where when, station by station, with bells across. */
#ifndef BELL_LAYOUT_FLOOR_ROOM_H
#define BELL_LAYOUT_FLOOR_ROOM_H

#include "layout/frame.h"
#include "layout/group.h"
#include "layout/rota.h"

/* Adds the pages of ROOM, which GROUP is in, under TITLE to SCENE. Feet and last lines are left to the caller, who has room for them below BOTTOM. */
void floor_room_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title,
                      const struct group *group, const struct rota *room, double bottom);

#endif

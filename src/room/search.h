/* search.h - the best list for one piece of the session that a capped search finds.
 *
 * Lists are made by simple rules; a small room is then searched whole (beam.h); what is left of the cap goes into small
 * changes of the best lists, drawn with a fixed generator, most of them where somebody waits for kit on the way to the
 * last end. */
#ifndef BELL_ROOM_SEARCH_H
#define BELL_ROOM_SEARCH_H

#include "room/list.h"

/* The best list from search->start on; the worst score: nobody can go on. */
const struct room_list *room_search_best(struct room_search *search);

#endif

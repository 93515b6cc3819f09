/* search.h - the best list for one piece of the session that a capped search finds.
 *
 * * Simple rules make the first lists. A small room is then searched completely (beam.h). The rest of the cap goes
 * into small changes of the best lists, drawn by a fixed generator, most of them where somebody on the way to the
 * last end waits for kit. */
#ifndef BELL_ROOM_SEARCH_H
#define BELL_ROOM_SEARCH_H

#include "room/list.h"

/* The best list from search->start on; it has the worst score if nobody can go on. */
const struct room_list *room_search_best(struct room_search *search);

#endif

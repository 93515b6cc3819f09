/* beam.h - all lists of turns side by side, turn by turn, as far as they are worth it.
 *
 * Of each length only those beginnings are kept that can still beat the best list, that no other beginning is at least
 * as good as in every respect, and, where these are too many, that promise most. Of a small room nothing is lost by
 * that, so that the best list of all is found. */
#ifndef BELL_ROOM_BEAM_H
#define BELL_ROOM_BEAM_H

#include "room/list.h"

/* Puts a list into BEST that is better, if it finds one; search->tried grows by as many lists as the work compares to. */
void room_beam(struct room_search *search, struct room_list *best);

#endif

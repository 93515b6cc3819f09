/* beam.h - a beam search: it extends all promising lists of turns side by side, one turn at a time.
 *
 * * Of each length it keeps only the beginnings that can still beat the best list and that no other beginning equals
 * or beats in every respect. If these are too many, it keeps the most promising. A small room never has too many, so
 * there the search finds the best list of all. */
#ifndef BELL_ROOM_BEAM_H
#define BELL_ROOM_BEAM_H

#include "room/list.h"

/* Puts a better list into BEST if it finds one. Adds to search->tried the number of lists that would have been as
 * much work. */
void room_beam(struct room_search *search, struct room_list *best);

#endif

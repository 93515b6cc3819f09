/* change.h - a room with something changed, from which proposals and cuts are made. What does not change is shared. */
#ifndef BELL_ROOM_CHANGE_H
#define BELL_ROOM_CHANGE_H

#include "base/text.h"
#include "room/room.h"

/* One line of a block: its sets that can be cut, without warm-up sets. A bell is one line with a set for each round. */
struct room_line {
    int block, line;
    int sets; /* the most sets that any athlete does */
    int off;  /* how many sets are cut from its end; each athlete keeps one */
};

struct room_cut {
    struct room_line *lines; /* block by block */
    size_t line_count;
    bool *dropped;           /* of each block */
};

/* All lines, with nothing cut. */
struct room_cut room_cut_none(struct arena *arena, const struct room *room);
struct room_cut room_cut_copy(struct arena *arena, const struct room *room, const struct room_cut *cut);
/* May sets or rounds be taken from the block, or the block left out, to save time? */
bool room_may_cut(const struct room *room, int block);
/* Seconds that the block takes ATHLETE alone; 0 if ATHLETE does not do it. */
int room_block_seconds(const struct room *room, int athlete, int block);

const struct room *room_with_cut(struct arena *arena, const struct room *room, const struct room_cut *cut);
/* The blocks FROM to TO may change places as ORDER says, and no others. */
const struct room *room_with_order(struct arena *arena, const struct room *room, int from, int to,
                                   enum room_order order);
/* Moves the block FROM to TO; those between move up. */
const struct room *room_with_move(struct arena *arena, const struct room *room, int from, int to);
/* Makes several bells of BLOCK's, one after the other, each for as many as there is kit for; NULL if there is too
 * little even for one. */
const struct room *room_with_bells(struct arena *arena, const struct room *room, int block);
/* Has some athletes do the substitute for a block: TAKEN marks which of room->substitutes. */
const struct room *room_with_substitutes(struct arena *arena, const struct room *room, const bool *taken);

/* --- in words, in change_words.c --- */

/* "two", or a figure. */
const char *room_number_words(struct arena *arena, int number);
/* Adds one of a row of names: "A, B and C". */
void room_add_name(struct text *text, const char *name, bool first, bool last);
/* "two sets fewer of B and without D"; empty where nothing is cut. */
const char *room_cut_words(struct arena *arena, const struct room *room, const struct room_cut *cut);

#endif

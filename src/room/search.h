/* search.h - the best list for one piece of the session that a capped search finds.
 *
 * Lists are made by simple rules, the best of them are improved by moving single turns, and what is left of the cap
 * goes into small random changes, with numbers from a fixed generator. */
#ifndef BELL_ROOM_SEARCH_H
#define BELL_ROOM_SEARCH_H

#include "room/decode.h"
#include "room/orders.h"

/* A list of turns, and the order in which each athlete takes the blocks. */
struct room_list {
    int *turns;
    int length;
    int *perms; /* as in orders.h */
    int *legs;  /* what they come to */
    struct room_score score;
    int *ends;  /* of each athlete: between equal scores the lesser list is better */
};

struct room_search {
    struct arena *arena;
    struct room_decoder *decoder;
    const struct room_orders *orders;
    const struct room_state *start;
    struct room_score goal; /* no list can be better */
    int cap;                /* lists that may be tried */
    int tried;
};

/* The best list from search->start on. */
const struct room_list *room_search_best(struct room_search *search);
/* First come, first served, as written. */
const struct room_list *room_search_queue(struct room_search *search);

#endif

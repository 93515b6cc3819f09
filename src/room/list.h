/* list.h - a list of turns, of which decode.h makes a timetable, and what it comes to. */
#ifndef BELL_ROOM_LIST_H
#define BELL_ROOM_LIST_H

#include "room/decode.h"
#include "room/orders.h"

struct room_list {
    int *turns; /* as in decode.h */
    int length;
    int *perms; /* the order in which each athlete takes the blocks, as in orders.h */
    int *legs;  /* what these come to */
    struct room_score score;
    int *ends;  /* of each athlete: between equal scores the lesser ends are better */
};

/* What a search for the best list of one piece works with. */
struct room_search {
    struct arena *arena;
    struct room_decoder *decoder;
    const struct room_orders *orders;
    const struct room_state *start;
    struct room_score goal; /* no list can be better */
    const struct room_enough *enough; /* a list of the last piece as good as this ends the search; NULL: none does */
    int cap;                /* lists that may be tried */
    int tried;
};

/* A list with the worst score. */
struct room_list *room_list_new(const struct room_search *search);
void room_list_copy(const struct room_search *search, struct room_list *to, const struct room_list *from);
int room_list_compare(const struct room_search *search, const struct room_list *a, const struct room_list *b);
/* Whether LIST is as good as need be. */
bool room_list_is_enough(const struct room_search *search, const struct room_list *list);
/* Brings STATE to where LIST begins. */
void room_list_begin(struct room_search *search, struct room_state *state, const struct room_list *list);
/* The list has its score from STATE, to which it led. */
void room_list_score(const struct room_search *search, struct room_list *list, const struct room_state *state);

#endif

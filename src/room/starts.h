/* starts.h - lists that simple rules make: at each turn, of the athletes who could start soonest, one is chosen. */
#ifndef BELL_ROOM_STARTS_H
#define BELL_ROOM_STARTS_H

#include "room/list.h"

enum {
    START_LISTS = 3,
    RULE_QUEUE = 0,  /* first come, first served */
    RULE_COUNT = 16
};

/* A step that could be next. */
struct room_bid {
    int athlete;
    int ready, start, end;
    int left;  /* seconds alone from its start to the piece's end */
    int discs;
};

struct room_maker {
    struct room_search *search;
    struct room_state *state; /* where the making of a list starts from */
    struct room_bid *bids;
};

struct room_maker room_maker_new(struct room_search *search);

/* How many tried lists the making of one counts for: as many as are as much work. */
int room_rule_cost(const struct room_search *search);

/* Makes LIST, whose orders are set, by a rule from the turn FROM on. maker->state stands at FROM; if FROM is the
 * first turn, it may stand anywhere. False: the list is worse than LIMIT, or somebody can never go on. */
bool room_list_by_rule(struct room_maker *maker, struct room_list *list, int from, int rule,
                       const struct room_score *limit);

/* Puts the START_LISTS best lists of all rules, with different scores, into BEST, the best first. If there are
 * fewer, the others keep the worst score. First come, first served is always tried, whatever the search's cap. */
void room_start_lists(struct room_maker *maker, struct room_list **best);

/* First come, first served, as written. */
const struct room_list *room_queue_list(struct room_search *search);

#endif

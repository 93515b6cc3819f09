#include "room/starts.h"

#include <limits.h>
#include <string.h>

/* Asking this many athletes at every turn is as much work as one more list. */
enum { ATHLETES_TRIED = 8 };

/* Which athlete is chosen, and from those who could start by when. */
enum room_wish { FIRST_COME, MOST_LEFT, EARLIEST, FEWEST_DISCS, LEAST_LEFT, EARLIEST_MOST_LEFT };
enum room_window { AT_LEAST_START, WITHIN_CHANGEOVER, BEFORE_LEAST_END, ANY_TIME };

struct room_rule {
    enum room_wish wish;
    enum room_window window;
};

static const struct room_rule rules[RULE_COUNT] = {
    [RULE_QUEUE] = {FIRST_COME, ANY_TIME},
    {MOST_LEFT, AT_LEAST_START},
    {EARLIEST, AT_LEAST_START},
    {FEWEST_DISCS, AT_LEAST_START},
    {LEAST_LEFT, AT_LEAST_START},
    {EARLIEST_MOST_LEFT, AT_LEAST_START},
    {MOST_LEFT, WITHIN_CHANGEOVER},
    {EARLIEST, WITHIN_CHANGEOVER},
    {FEWEST_DISCS, WITHIN_CHANGEOVER},
    {LEAST_LEFT, WITHIN_CHANGEOVER},
    {EARLIEST_MOST_LEFT, WITHIN_CHANGEOVER},
    {MOST_LEFT, BEFORE_LEAST_END},
    {EARLIEST, BEFORE_LEAST_END},
    {FEWEST_DISCS, BEFORE_LEAST_END},
    {LEAST_LEFT, BEFORE_LEAST_END},
    {EARLIEST_MOST_LEFT, BEFORE_LEAST_END},
};

static bool is_better(enum room_wish wish, const struct room_bid *a, const struct room_bid *b)
{
    switch (wish) {
    case FIRST_COME:
        return a->ready < b->ready;
    case MOST_LEFT:
        return a->left > b->left;
    case EARLIEST:
        return a->start < b->start;
    case FEWEST_DISCS:
        return a->discs != b->discs ? a->discs < b->discs : a->left > b->left;
    case LEAST_LEFT:
        return a->left < b->left;
    default:
        return a->start != b->start ? a->start < b->start : a->left > b->left;
    }
}

/* What ATHLETE would do next; false if ATHLETE cannot go on now. */
static bool bid_of(struct room_decoder *decoder, struct room_state *state, int athlete, struct room_bid *bid)
{
    decoder->patient = false;
    if (!room_can_go(decoder, state, athlete) || !room_try(decoder, state, athlete))
        return false;
    const struct room_turn *turn = &state->turns[athlete];
    const struct room_step *step = &room_next_leg(decoder, state, athlete)->steps[turn->step];
    *bid = (struct room_bid){athlete, turn->ready, decoder->trial.starts[0], decoder->trial.end,
                             step->length + step->left + turn->ahead, 0};
    for (int i = 0; i < step->task_count; i++)
        bid->discs += decoder->trial.discs[i];
    return true;
}

/* Lowers LATEST to where the window that BID opens closes, if that is earlier. */
static void narrow(enum room_window window, const struct room_bid *bid, int changeover, int *latest)
{
    const int ends[] = {bid->start, bid->start + changeover, bid->end + changeover - 1, INT_MAX};
    *latest = ends[window] < *latest ? ends[window] : *latest;
}

/* Of those who can go on, the one who is ready first; or ROOM_NONE. */
static int first_ready(const struct room_decoder *decoder, const struct room_state *state)
{
    int first = ROOM_NONE;
    for (int i = 0; i < decoder->chains->count; i++) {
        if ((first == ROOM_NONE || state->turns[i].ready < state->turns[first].ready) && room_can_go(decoder, state, i))
            first = i;
    }
    return first;
}

/* Fills BIDS with all that are ready before the window closes, and some more; returns how many. */
static int bid_all(struct room_decoder *decoder, struct room_state *state, enum room_window window,
                   struct room_bid *bids, int *latest)
{
    int count = 0, changeover = decoder->chains->room->changeover, first = first_ready(decoder, state);
    *latest = INT_MAX;
    if (first != ROOM_NONE && bid_of(decoder, state, first, bids))
        narrow(window, bids, changeover, latest); /* so that the rest are not tried in vain */
    for (int i = 0; i < decoder->chains->count; i++) {
        if (state->turns[i].ready > *latest || !bid_of(decoder, state, i, &bids[count]))
            continue;
        narrow(window, &bids[count++], changeover, latest);
    }
    return count;
}

/* The best of those that start before the window closes. */
static const struct room_bid *pick_bid(const struct room_bid *bids, int count, const struct room_rule *rule, int latest)
{
    const struct room_bid *best = NULL;
    for (int i = 0; i < count; i++) {
        if (bids[i].start <= latest && (!best || is_better(rule->wish, &bids[i], best)))
            best = &bids[i];
    }
    return best;
}

struct room_maker room_maker_new(struct room_search *search)
{
    const struct room_chains *chains = search->decoder->chains;
    struct room_maker maker = {.search = search, .state = room_state_new(search->arena, chains)};
    maker.bids = arena_alloc(search->arena, (size_t)chains->count * sizeof *maker.bids);
    return maker;
}

int room_rule_cost(const struct room_search *search)
{
    return 1 + search->decoder->chains->count / ATHLETES_TRIED;
}

bool room_list_by_rule(struct room_maker *maker, struct room_list *list, int from, int rule,
                       const struct room_score *limit)
{
    struct room_decoder *decoder = maker->search->decoder;
    struct room_state *state = maker->state;
    maker->search->tried += room_rule_cost(maker->search);
    list->score = (struct room_score){INT_MAX, 0, 0};
    decoder->orders = list->legs;
    if (!from)
        room_list_begin(maker->search, state, list);
    for (int i = from; i < list->length; i++) {
        int latest, count = bid_all(decoder, state, rules[rule].window, maker->bids, &latest);
        const struct room_bid *bid = pick_bid(maker->bids, count, &rules[rule], latest);
        if (!bid || !room_take_turn(decoder, state, bid->athlete) || room_compare(&state->score, limit) > 0)
            return false;
        list->turns[i] = bid->athlete;
    }
    room_list_score(maker->search, list, state);
    return true;
}

static void set_orders(const struct room_search *search, struct room_list *list, enum room_split split)
{
    room_orders_split(search->orders, split, list->perms);
    room_orders_legs(search->orders, list->perms, list->legs);
}

/* Keeps LIST if it is one of the START_LISTS best of different scores. */
static void keep_best(const struct room_search *search, struct room_list **best, const struct room_list *list)
{
    int at = 0;
    while (at < START_LISTS && room_list_compare(search, best[at], list) < 0)
        at++;
    if (at == START_LISTS || room_list_compare(search, best[at], list) == 0)
        return;
    struct room_list *last = best[START_LISTS - 1];
    memmove(&best[at + 1], &best[at], (size_t)(START_LISTS - 1 - at) * sizeof(*best));
    room_list_copy(search, last, list);
    best[at] = last;
}

static const struct room_score no_limit = {INT_MAX, LONG_MAX, INT_MAX};

void room_start_lists(struct room_maker *maker, struct room_list **best)
{
    struct room_search *search = maker->search;
    struct room_list *list = room_list_new(search);
    for (enum room_split split = 0; split < (search->orders->count ? SPLIT_COUNT : 1); split++) {
        set_orders(search, list, split);
        for (int rule = 0; rule < RULE_COUNT; rule++) {
            if (search->tried && search->tried + room_rule_cost(search) > search->cap)
                return;
            if (search->enough && room_list_is_enough(search, best[0]))
                return;
            if (room_list_by_rule(maker, list, 0, rule, &no_limit))
                keep_best(search, best, list);
        }
    }
}

const struct room_list *room_queue_list(struct room_search *search)
{
    struct room_maker maker = room_maker_new(search);
    struct room_list *list = room_list_new(search);
    set_orders(search, list, SPLIT_NONE);
    room_list_by_rule(&maker, list, 0, RULE_QUEUE, &no_limit);
    return list;
}

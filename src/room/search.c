#include "room/search.h"

#include <limits.h>
#include <string.h>

enum {
    KEPT = 3,       /* start lists that are improved */
    REACH = 3,      /* a turn moves forward by up to so many rounds of the squad */
    PATIENCE = 400, /* changes in vain before it goes back to the best */
    STRIDE = 16     /* turns between two states that are kept of the present list */
};

struct room_seeker {
    struct room_search *search;
    struct room_state *state;
    struct room_state **kept; /* of the present list, before every STRIDE-th turn */
    struct room_list *present, *trial, *best;
    unsigned chance;
};

/* --- lists --- */

static struct room_list *list_new(const struct room_search *search)
{
    const struct room_chains *chains = search->decoder->chains;
    size_t athletes = (size_t)chains->count;
    struct room_list *list = arena_alloc(search->arena, sizeof *list);
    *list = (struct room_list){.length = search->decoder->piece->steps, .score = {INT_MAX, 0, 0}};
    list->turns = arena_alloc(search->arena, (size_t)(list->length + 1) * sizeof *list->turns);
    list->perms = arena_alloc(search->arena, (athletes * (size_t)search->orders->count + 1) * sizeof *list->perms);
    list->legs = arena_alloc(search->arena, (athletes * chains->room->block_count + 1) * sizeof *list->legs);
    list->ends = arena_alloc(search->arena, athletes * sizeof *list->ends);
    return list;
}

static void list_copy(const struct room_search *search, struct room_list *to, const struct room_list *from)
{
    const struct room_chains *chains = search->decoder->chains;
    size_t athletes = (size_t)chains->count;
    memcpy(to->turns, from->turns, (size_t)from->length * sizeof *to->turns);
    memcpy(to->perms, from->perms, athletes * (size_t)search->orders->count * sizeof *to->perms);
    memcpy(to->legs, from->legs, athletes * chains->room->block_count * sizeof *to->legs);
    memcpy(to->ends, from->ends, athletes * sizeof *to->ends);
    to->score = from->score;
}

static int compare_lists(const struct room_search *search, const struct room_list *a, const struct room_list *b)
{
    int order = room_compare(&a->score, &b->score);
    for (int i = 0; !order && i < search->decoder->chains->count; i++)
        order = (a->ends[i] > b->ends[i]) - (a->ends[i] < b->ends[i]);
    return order;
}

static void note_score(const struct room_search *search, struct room_list *list, const struct room_state *state)
{
    list->score = state->score;
    for (int i = 0; i < search->decoder->chains->count; i++)
        list->ends[i] = state->turns[i].ends;
}

static void begin(struct room_search *search, struct room_state *state, const struct room_list *list)
{
    room_state_copy(search->decoder->chains, state, search->start);
    search->decoder->orders = list->legs;
    room_piece_start(search->decoder, state);
}

/* --- start lists --- */

enum room_rule { QUEUE, MOST_LEFT, EARLIEST, FEWEST_DISCS, LEAST_LEFT, EARLIEST_MOST_LEFT, RULE_COUNT };
enum room_window { AT_LEAST_START, WITHIN_CHANGEOVER, BEFORE_LEAST_END, ANY_TIME };

/* A step that could be next. */
struct room_bid {
    int athlete;
    int ready, start, end;
    int left;  /* seconds alone from its start to the piece's end */
    int discs;
};

static bool is_better(enum room_rule rule, const struct room_bid *a, const struct room_bid *b)
{
    switch (rule) {
    case QUEUE:
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

static int bid_all(struct room_decoder *decoder, struct room_state *state, struct room_bid *bids)
{
    int count = 0;
    for (int i = 0; i < decoder->chains->count; i++) {
        if (!room_can_go(decoder, state, i) || !room_try(decoder, state, i))
            continue;
        const struct room_turn *turn = &state->turns[i];
        const struct room_leg *leg = room_next_leg(decoder, state, i);
        const struct room_step *step = &leg->steps[turn->step];
        struct room_bid *bid = &bids[count++];
        *bid = (struct room_bid){i, turn->ready, decoder->trial.starts[0], decoder->trial.end,
                                 step->length + step->left + turn->ahead, 0};
        for (int j = 0; j < step->task_count; j++)
            bid->discs += decoder->trial.discs[j];
    }
    return count;
}

static const struct room_bid *pick_bid(const struct room_bid *bids, int count, enum room_rule rule,
                                       enum room_window window, int changeover)
{
    int start = INT_MAX, end = INT_MAX;
    const struct room_bid *best = NULL;
    for (int i = 0; i < count; i++) {
        start = bids[i].start < start ? bids[i].start : start;
        end = bids[i].end < end ? bids[i].end : end;
    }
    const int latest[] = {start, start + changeover, end + changeover - 1, INT_MAX};
    for (int i = 0; i < count; i++) {
        if (bids[i].start <= latest[window] && (!best || is_better(rule, &bids[i], best)))
            best = &bids[i];
    }
    return best;
}

/* Fills LIST, whose orders are set, turn by turn; it keeps the worst score where somebody can never go on. */
static void list_by_rule(struct room_search *search, struct room_state *state, struct room_list *list,
                         struct room_bid *bids, enum room_rule rule, enum room_window window)
{
    struct room_decoder *decoder = search->decoder;
    search->tried++;
    list->score = (struct room_score){INT_MAX, 0, 0};
    begin(search, state, list);
    for (int i = 0; i < list->length; i++) {
        int count = bid_all(decoder, state, bids);
        const struct room_bid *bid = pick_bid(bids, count, rule, window, decoder->chains->room->changeover);
        if (!bid || !room_take_turn(decoder, state, bid->athlete))
            return;
        list->turns[i] = bid->athlete;
    }
    note_score(search, list, state);
}

static void set_orders(const struct room_search *search, struct room_list *list, enum room_split split)
{
    room_orders_split(search->orders, split, list->perms);
    room_orders_legs(search->orders, list->perms, list->legs);
}

/* Keeps LIST if it is one of the KEPT best of different scores. */
static void keep_best(const struct room_search *search, struct room_list **best, const struct room_list *list)
{
    int at = 0;
    while (at < KEPT && compare_lists(search, best[at], list) < 0)
        at++;
    if (at == KEPT || compare_lists(search, best[at], list) == 0)
        return;
    struct room_list *last = best[KEPT - 1];
    memmove(&best[at + 1], &best[at], (size_t)(KEPT - 1 - at) * sizeof(*best));
    list_copy(search, last, list);
    best[at] = last;
}

static void start_lists(struct room_seeker *seeker, struct room_list **best)
{
    struct room_search *search = seeker->search;
    struct room_bid *bids = arena_alloc(search->arena, (size_t)search->decoder->chains->count * sizeof *bids);
    for (enum room_split split = 0; split < (search->orders->count ? SPLIT_COUNT : 1); split++) {
        set_orders(search, seeker->trial, split);
        list_by_rule(search, seeker->state, seeker->trial, bids, QUEUE, ANY_TIME);
        keep_best(search, best, seeker->trial);
        for (enum room_window window = AT_LEAST_START; window < ANY_TIME; window++) {
            for (enum room_rule rule = MOST_LEFT; rule < RULE_COUNT; rule++) {
                list_by_rule(search, seeker->state, seeker->trial, bids, rule, window);
                keep_best(search, best, seeker->trial);
            }
        }
    }
}

/* --- trying a changed list --- */

static bool is_over(const struct room_seeker *seeker)
{
    const struct room_search *search = seeker->search;
    return search->tried >= search->cap || room_compare(&seeker->best->score, &search->goal) <= 0;
}

/* Works out the trial, which is as the present list up to the turn FROM. False: it is worse than the present. */
static bool evaluate(struct room_seeker *seeker, int from)
{
    struct room_search *search = seeker->search;
    struct room_list *trial = seeker->trial;
    struct room_state *state = seeker->state;
    search->tried++;
    search->decoder->orders = trial->legs;
    from -= from % STRIDE;
    if (from)
        room_state_copy(search->decoder->chains, state, seeker->kept[from / STRIDE]);
    else
        begin(search, state, trial);
    for (int i = from; i < trial->length; i++) {
        if (!room_take_turn(search->decoder, state, trial->turns[i])
            || room_compare(&state->score, &seeker->present->score) > 0)
            return false;
    }
    note_score(search, trial, state);
    return true;
}

/* Keeps the states of the present list from the turn FROM on. */
static void keep_states(struct room_seeker *seeker, int from)
{
    struct room_search *search = seeker->search;
    struct room_state *state = seeker->state;
    struct room_list *present = seeker->present;
    search->decoder->orders = present->legs;
    from -= from % STRIDE;
    if (from)
        room_state_copy(search->decoder->chains, state, seeker->kept[from / STRIDE]);
    else
        begin(search, state, present);
    for (int i = from; i < present->length; i++) {
        if (i % STRIDE == 0)
            room_state_copy(search->decoder->chains, seeker->kept[i / STRIDE], state);
        room_take_turn(search->decoder, state, present->turns[i]);
    }
}

/* The trial, which differs from the turn FROM on, becomes the present list. */
static void accept(struct room_seeker *seeker, int from)
{
    struct room_list *list = seeker->present;
    seeker->present = seeker->trial;
    seeker->trial = list;
    keep_states(seeker, from);
    if (compare_lists(seeker->search, seeker->present, seeker->best) < 0)
        list_copy(seeker->search, seeker->best, seeker->present);
}

static void go_on_from(struct room_seeker *seeker, const struct room_list *list)
{
    list_copy(seeker->search, seeker->present, list);
    keep_states(seeker, 0);
}

static void move_turn(int *turns, int from, int to)
{
    int athlete = turns[from];
    if (to < from)
        memmove(&turns[to + 1], &turns[to], (size_t)(from - to) * sizeof *turns);
    else
        memmove(&turns[from], &turns[from + 1], (size_t)(to - from) * sizeof *turns);
    turns[to] = athlete;
}

static void turn_order(struct room_seeker *seeker, int athlete, int first, int second)
{
    struct room_list *trial = seeker->trial;
    room_orders_turn(seeker->search->orders, trial->perms, athlete, first, second);
    room_orders_legs(seeker->search->orders, trial->perms, trial->legs);
}

/* --- improving --- */

/* Takes the trial if it is better; ready for the next in any case. */
static bool take_if_better(struct room_seeker *seeker, int from)
{
    bool better = evaluate(seeker, from) && compare_lists(seeker->search, seeker->trial, seeker->present) < 0;
    if (better)
        accept(seeker, from);
    return better;
}

static bool move_gains(struct room_seeker *seeker, int to, int from)
{
    if (seeker->present->turns[from] == seeker->present->turns[from - 1])
        return false; /* the same as to move the one before it */
    list_copy(seeker->search, seeker->trial, seeker->present);
    move_turn(seeker->trial->turns, from, to);
    return take_if_better(seeker, to);
}

static bool moves_gain(struct room_seeker *seeker, int end)
{
    int length = seeker->present->length, reach = REACH * seeker->search->decoder->chains->count;
    bool gained = false;
    for (int to = 0; to < length; to++) {
        for (int from = to + 1; from < length && from <= to + reach; from++) {
            if (is_over(seeker) || seeker->search->tried >= end)
                return false;
            gained |= move_gains(seeker, to, from);
        }
    }
    return gained;
}

static bool orders_gain(struct room_seeker *seeker, int end)
{
    const struct room_orders *orders = seeker->search->orders;
    bool gained = false;
    for (int i = 0; i < seeker->search->decoder->chains->count; i++) {
        if (orders->leaders[i] != i)
            continue;
        for (int first = 0; first < orders->count; first++) {
            bool waves = seeker->search->decoder->chains->room->order == ROOM_WAVES;
            for (int second = first + 1; second < (waves ? first + 2 : orders->count); second++) {
                if (is_over(seeker) || seeker->search->tried >= end)
                    return false;
                list_copy(seeker->search, seeker->trial, seeker->present);
                turn_order(seeker, i, first, second);
                gained |= take_if_better(seeker, 0);
            }
        }
    }
    return gained;
}

/* Up to where nothing gains, or END lists were tried. */
static void improve(struct room_seeker *seeker, int end)
{
    for (bool gained = true; gained;) {
        gained = orders_gain(seeker, end);
        gained |= moves_gain(seeker, end);
    }
}

/* --- shaking --- */

static int draw(struct room_seeker *seeker, int below)
{
    seeker->chance = seeker->chance * 1664525U + 1013904223U;
    return (int)((seeker->chance >> 8) % (unsigned)below);
}

/* One small change of the trial; returns the first turn that it touches. */
static int shake_once(struct room_seeker *seeker)
{
    struct room_list *trial = seeker->trial;
    const struct room_orders *orders = seeker->search->orders;
    int kind = draw(seeker, orders->count > 1 ? 3 : 2);
    if (kind == 2) {
        int athlete = draw(seeker, seeker->search->decoder->chains->count);
        int first = draw(seeker, orders->count);
        turn_order(seeker, athlete, first, draw(seeker, orders->count));
        return 0;
    }
    int a = draw(seeker, trial->length), b = draw(seeker, trial->length);
    if (kind == 0) {
        int athlete = trial->turns[a];
        trial->turns[a] = trial->turns[b];
        trial->turns[b] = athlete;
    } else {
        move_turn(trial->turns, a, b);
    }
    return a < b ? a : b;
}

/* What is no worse is taken, so that the search drifts along; it goes back to the best when that leads nowhere. */
static void shake(struct room_seeker *seeker)
{
    int vain = 0;
    while (!is_over(seeker)) {
        int from = INT_MAX;
        list_copy(seeker->search, seeker->trial, seeker->present);
        for (int times = 1 + draw(seeker, 3); times; times--) {
            int touched = shake_once(seeker);
            from = touched < from ? touched : from;
        }
        struct room_score best = seeker->best->score;
        if (evaluate(seeker, from))
            accept(seeker, from);
        vain = room_compare(&seeker->best->score, &best) < 0 ? 0 : vain + 1;
        if (vain == PATIENCE) {
            go_on_from(seeker, seeker->best);
            vain = 0;
        }
    }
}

/* --- the search --- */

static void seeker_open(struct room_seeker *seeker, struct room_search *search)
{
    const struct room_chains *chains = search->decoder->chains;
    size_t kept = (size_t)search->decoder->piece->steps / STRIDE + 1;
    *seeker = (struct room_seeker){.search = search, .chance = 1};
    seeker->state = room_state_new(search->arena, chains);
    seeker->present = list_new(search);
    seeker->trial = list_new(search);
    seeker->best = list_new(search);
    seeker->kept = arena_alloc(search->arena, kept * sizeof *seeker->kept);
    for (size_t i = 0; i < kept; i++)
        seeker->kept[i] = room_state_new(search->arena, chains);
}

const struct room_list *room_search_queue(struct room_search *search)
{
    struct room_seeker seeker;
    struct room_bid *bids = arena_alloc(search->arena, (size_t)search->decoder->chains->count * sizeof *bids);
    seeker_open(&seeker, search);
    set_orders(search, seeker.best, SPLIT_NONE);
    list_by_rule(search, seeker.state, seeker.best, bids, QUEUE, ANY_TIME);
    return seeker.best;
}

const struct room_list *room_search_best(struct room_search *search)
{
    struct room_seeker seeker;
    struct room_list *starts[KEPT];
    seeker_open(&seeker, search);
    for (int i = 0; i < KEPT; i++)
        starts[i] = list_new(search);
    start_lists(&seeker, starts);
    list_copy(search, seeker.best, starts[0]);
    for (int i = 0; i < KEPT && starts[i]->score.finish != INT_MAX && !is_over(&seeker); i++) {
        go_on_from(&seeker, starts[i]);
        improve(&seeker, search->tried + (search->cap - search->tried) / (KEPT + 1 - i));
    }
    if (seeker.best->length && seeker.best->score.finish != INT_MAX) {
        go_on_from(&seeker, seeker.best);
        shake(&seeker);
    }
    return seeker.best;
}

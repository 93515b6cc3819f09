#include "room/list.h"

#include <limits.h>
#include <string.h>

struct room_list *room_list_new(const struct room_search *search)
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

void room_list_copy(const struct room_search *search, struct room_list *to, const struct room_list *from)
{
    const struct room_chains *chains = search->decoder->chains;
    size_t athletes = (size_t)chains->count;
    memcpy(to->turns, from->turns, (size_t)from->length * sizeof *to->turns);
    memcpy(to->perms, from->perms, athletes * (size_t)search->orders->count * sizeof *to->perms);
    memcpy(to->legs, from->legs, athletes * chains->room->block_count * sizeof *to->legs);
    memcpy(to->ends, from->ends, athletes * sizeof *to->ends);
    to->score = from->score;
}

int room_list_compare(const struct room_search *search, const struct room_list *a, const struct room_list *b)
{
    int order = room_compare(&a->score, &b->score);
    for (int i = 0; !order && i < search->decoder->chains->count; i++)
        order = (a->ends[i] > b->ends[i]) - (a->ends[i] < b->ends[i]);
    return order;
}

void room_list_score(const struct room_search *search, struct room_list *list, const struct room_state *state)
{
    list->score = state->score;
    for (int i = 0; i < search->decoder->chains->count; i++)
        list->ends[i] = state->turns[i].ends;
}

bool room_list_is_enough(const struct room_search *search, const struct room_list *list)
{
    const struct room_chains *chains = search->decoder->chains;
    if (room_compare(&list->score, &search->goal) <= 0)
        return true;
    if (!search->enough || list->score.finish == INT_MAX || list->score.finish > search->enough->finish)
        return false;
    for (int i = 0; i < chains->count; i++) {
        if (list->ends[i] - chains->room->athletes[i].arrival - chains->chains[i].alone >= search->enough->wait)
            return false;
    }
    return true;
}

void room_list_begin(struct room_search *search, struct room_state *state, const struct room_list *list)
{
    room_state_copy(search->decoder->chains, state, search->start);
    search->decoder->orders = list->legs;
    room_piece_start(search->decoder, state);
}

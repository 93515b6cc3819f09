#include "room/tidy.h"

/* The next row of the same set, if a longest gap ties it to this one; ROWS are sorted by start. */
static const struct room_row *tied_next(const struct room *room, const struct room_row *rows, size_t count, size_t at)
{
    const struct room_row *row = &rows[at];
    const struct room_set *set = &room->athletes[row->athlete].parts[row->block].sets[row->set];
    size_t next = (size_t)row->item + 1;
    if (next >= set->item_count || set->items[next].gap_most == ROOM_ANY_GAP)
        return NULL;
    for (size_t i = at + 1; i < count; i++) {
        const struct room_row *other = &rows[i];
        if (other->athlete == row->athlete && other->block == row->block && other->set == row->set
            && other->item == (int)next)
            return other;
    }
    return NULL;
}

/* The latest end of ROW that leaves time to turn UNIT over to its next user. */
static int latest_end(const struct room *room, const struct room_row *row, const struct room_row *next,
                      const struct room_unit *unit)
{
    int turn = next->athlete == row->athlete ? 0 : room->changeover;
    int discs = room->kinds[unit->kind].seat ? room_discs_between(row->what, next->what) : 0;
    return next->start - turn - room->disc * discs;
}

static void shift(const struct room_chains *chains, struct room_row *rows, size_t count, size_t at,
                  struct room_row *const *next_use)
{
    const struct room *room = chains->room;
    struct room_row *row = &rows[at];
    const struct room_row *next = tied_next(room, rows, count, at);
    if (!next || chains->chains[row->athlete].group != ROOM_NONE)
        return; /* a shift could run into holding for another */
    int end = next->start - next->what->gap_least;
    for (size_t i = 0; i < row->unit_count; i++) {
        const struct room_row *user = next_use[chains->first_unit[row->units[i].kind] + row->units[i].number - 1];
        int latest = user ? latest_end(room, row, user, &row->units[i]) : end;
        end = latest < end ? latest : end;
    }
    if (end > row->end) {
        row->start += end - row->end;
        row->end = end;
    }
}

void room_tidy(struct arena *arena, const struct room_chains *chains, struct room_row *rows, size_t count)
{
    struct room_row **next_use = arena_alloc(arena, (size_t)(chains->unit_count + 1) * sizeof(*next_use));
    for (size_t i = count; i-- > 0;) {
        shift(chains, rows, count, i, next_use);
        for (size_t j = 0; j < rows[i].unit_count; j++)
            next_use[chains->first_unit[rows[i].units[j].kind] + rows[i].units[j].number - 1] = &rows[i];
    }
}

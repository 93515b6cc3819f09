#include "rules/rooms.h"

#include <stdlib.h>

/* What one check may cost, in sets of rooms that are solved fully; some seconds. And how often changes are tried. */
enum { SETS_SOLVED = 6000, PROPOSALS = 4 };

struct rooms {
    struct room_meeting *meetings;
    size_t count;
    size_t *of_occasion; /* by its place in the programme: its meeting and 1, or 0 */
    struct squad_memo *memo;
    int sets, proposals; /* spent */
};

static struct rooms *rooms_new(struct run *run)
{
    const struct programme *programme = run->programme;
    struct rooms *rooms = arena_alloc(run->arena, sizeof *rooms);
    struct squad_meeting *found;
    rooms->count = squad_meetings(run->arena, programme->occasions, programme->occasion_count, &found);
    rooms->meetings = arena_alloc(run->arena, (rooms->count + 1) * sizeof *rooms->meetings);
    rooms->of_occasion = arena_alloc(run->arena, (programme->occasion_count + 1) * sizeof *rooms->of_occasion);
    rooms->memo = squad_memo_new(run->arena);
    for (size_t i = 0; i < rooms->count; i++) {
        const struct occasion *const *members = (const struct occasion *const *)found[i].members;
        rooms->meetings[i] = (struct room_meeting){.members = members, .count = found[i].count};
        for (size_t k = 0; k < found[i].count; k++)
            rooms->of_occasion[members[k] - programme->occasions] = i + 1;
    }
    return rooms;
}

static struct room_meeting *meeting_of(struct run *run, const struct occasion *occasion)
{
    if (!run->rooms)
        run->rooms = rooms_new(run);
    size_t number = run->rooms->of_occasion[occasion - run->programme->occasions];
    return number ? &run->rooms->meetings[number - 1] : NULL;
}

bool run_is_in_squad(struct run *run, const struct window *window)
{
    return meeting_of(run, window->occasions[0]) != NULL;
}

/* The first of MEETING that is asked for. */
static const struct occasion *first_wanted(const struct run *run, const struct room_meeting *meeting)
{
    for (size_t i = 0; i < meeting->count; i++)
        if (!run->wanted || run->wanted->occasions[meeting->members[i] - run->programme->occasions])
            return meeting->members[i];
    return NULL;
}

static int longest_wait(const struct room_table *table, size_t count)
{
    int longest = 0;
    for (size_t i = 0; i < count; i++)
        longest = table->fares[i].wait > longest ? table->fares[i].wait : longest;
    return longest;
}

static int sets_in(const struct squad *squad)
{
    int sets = 0;
    for (size_t i = 0; i < squad->count; i++)
        for (size_t b = 0; b < squad->room.block_count; b++)
            sets += (int)squad->room.athletes[i].parts[b].set_count;
    return sets;
}

/* Without any plan first: where that fits and nobody waits for long, no better one need be looked for. */
static void work_out(struct run *run, struct room_meeting *meeting)
{
    meeting->squad = squad_of(run->arena, meeting->members, meeting->count);
    if (meeting->squad->too_large)
        return;
    const struct room_table *queue = meeting->table = room_queue(run->arena, &meeting->squad->room);
    if (queue->refused || (!queue->over && longest_wait(queue, meeting->count) < LONG_WAIT))
        return;
    int sets = sets_in(meeting->squad);
    const struct room_table *known = squad_solved(run->rooms->memo, meeting->squad);
    if (!known && run->rooms->sets + sets > SETS_SOLVED)
        return;
    run->rooms->sets += known ? 0 : sets;
    meeting->table = squad_solve(run->rooms->memo, meeting->squad);
    meeting->solved = true;
}

const struct room_meeting *run_meeting(struct run *run, const struct window *window)
{
    struct room_meeting *meeting = meeting_of(run, window->occasions[0]);
    if (!meeting || first_wanted(run, meeting) != window->occasions[0])
        return NULL;
    if (!meeting->squad)
        work_out(run, meeting);
    return meeting;
}

struct window room_window(const struct window *window, const struct room_meeting *meeting)
{
    struct window whole = *window;
    whole.occasions = meeting->members;
    whole.count = meeting->count;
    return whole;
}

bool run_may_propose(struct run *run)
{
    return run->rooms->proposals++ < PROPOSALS;
}

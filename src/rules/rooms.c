#include "rules/rooms.h"
#include "model/programme.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* What the squads that one athlete leads may cost, in sets of rooms that are solved fully: 12 athletes with eight blocks have
 * 300 and take a sixth of a second (bench_room), so that 6,000 take three or four. And how often changes
 * are tried. It depends on nobody else, so that a check of some athletes says the same as one of all. */
enum { SETS_SOLVED = 6000, PROPOSALS = 4 };

struct rooms {
    struct room_meeting *meetings;
    size_t count;
    bool *in_squad; /* by place in the programme's occasions */
    const struct athlete *leader; /* whose meetings are looked at now */
    struct room_meeting **led;
    size_t led_count;
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
    rooms->led = arena_alloc(run->arena, (rooms->count + 1) * sizeof *rooms->led);
    rooms->in_squad = arena_alloc(run->arena, (programme->occasion_count + 1) * sizeof *rooms->in_squad);
    rooms->memo = squad_memo_new(run->arena);
    for (size_t i = 0; i < rooms->count; i++) {
        const struct occasion *const *members = (const struct occasion *const *)found[i].members;
        rooms->meetings[i] = (struct room_meeting){.members = members, .count = found[i].count};
        for (size_t k = 0; k < found[i].count; k++)
            rooms->in_squad[members[k] - programme->occasions] = true;
    }
    return rooms;
}

bool run_is_in_squad(struct run *run, const struct occasion *occasion)
{
    return run->rooms->in_squad[occasion - run->programme->occasions];
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

/* At the doors nobody is let off; what a session should stay under may be passed by a twentieth, as by one athlete alone. */
static int latest_of(const struct room_meeting *meeting)
{
    const struct attendance *attendance = meeting->members[0]->attendance;
    int doors = meeting->squad->room.doors;
    if (doors == ROOM_NONE)
        return INT_MAX;
    return attendance && attendance->out_by >= 0 ? doors : (int)((int64_t)doors * 21 / 20);
}

/* Whether it matters who waits for long: it only informs, unless somebody has waived it. */
static bool waits_matter(const struct run *run)
{
    for (size_t i = 0; i < run->programme->waiver_count; i++)
        if (strcmp(run->programme->waivers[i].check, diagnostic_name(DIAG_ROOM_WAIT)) == 0)
            return true;
    return run->least == SEVERITY_INFO;
}

/* Without any plan first: where that fits and nobody waits for long, no better one need be looked for. */
static void work_out(struct run *run, struct room_meeting *meeting)
{
    struct room_enough enough = {.wait = waits_matter(run) ? LONG_WAIT : INT_MAX};
    meeting->squad = squad_of(run->arena, meeting->members, meeting->count);
    if (meeting->squad->too_large)
        return;
    const struct room_table *queue = meeting->table = room_queue(run->arena, &meeting->squad->room);
    enough.finish = meeting->latest = latest_of(meeting);
    if (queue->refused || (queue->finish <= enough.finish && longest_wait(queue, meeting->count) < enough.wait))
        return;
    int sets = sets_in(meeting->squad);
    const struct room_table *known = squad_solved(run->rooms->memo, meeting->squad, enough);
    if (!known && run->rooms->sets + sets > SETS_SOLVED)
        return;
    run->rooms->sets += known ? 0 : sets;
    meeting->table = squad_solve_until(run->rooms->memo, meeting->squad, enough);
    meeting->solved = true;
}

/* Who answers for MEETING: the first of it that is asked for, or NULL. */
static const struct athlete *leader_of(const struct run *run, const struct room_meeting *meeting)
{
    for (size_t i = 0; i < meeting->count; i++)
        if (!run->wanted || run->wanted->occasions[meeting->members[i] - run->programme->occasions])
            return meeting->members[i]->athlete;
    return NULL;
}

struct room_meeting *const *run_meetings(struct run *run, const struct window *window, size_t *count)
{
    if (!run->rooms)
        run->rooms = rooms_new(run);
    struct rooms *rooms = run->rooms;
    if (rooms->leader != window->athlete) {
        rooms->leader = window->athlete;
        rooms->led_count = 0;
        rooms->sets = rooms->proposals = 0;
        for (size_t i = 0; i < rooms->count; i++) {
            if (leader_of(run, &rooms->meetings[i]) != window->athlete)
                continue;
            work_out(run, &rooms->meetings[i]);
            rooms->led[rooms->led_count++] = &rooms->meetings[i];
            arena_poll(run->arena);
        }
    }
    *count = rooms->led_count;
    return rooms->led;
}

const struct window *room_window(struct run *run, const struct window *window, const struct occasion *const *members,
                                 size_t count)
{
    struct window *of_squad = arena_alloc(run->arena, sizeof *of_squad);
    *of_squad = (struct window){.scope = SCOPE_OCCASION,
                                .timeline = window->timeline,
                                .athlete = window->athlete,
                                .camp = members[0]->camp,
                                .phase = members[0]->phase,
                                .first = members[0]->date,
                                .last = members[0]->date,
                                .occasions = members,
                                .count = count};
    return of_squad;
}

bool run_may_propose(struct run *run)
{
    return !(run->wanted && run->wanted->unhelped) && run->rooms->proposals++ < PROPOSALS;
}

/* Which occasions are one squad's. */
#include <stdlib.h>

#include "measure/kit.h"
#include "squad/squad.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"

static bool same_hour(const struct occasion *a, const struct occasion *b)
{
    return a->date == b->date && a->clock == b->clock && a->session == b->session;
}

static bool same_squad(const struct occasion *a, const struct occasion *b)
{
    return a->camp == b->camp && occasion_gym(a) == occasion_gym(b) && a->place == b->place;
}

static size_t place_in_camp(const struct occasion *occasion)
{
    size_t i = 0;
    while (i < occasion->camp->athlete_count && occasion->camp->athletes[i] != occasion->athlete)
        i++;
    return i;
}

static int by_squad_order(const void *left, const void *right)
{
    size_t a = place_in_camp(*(const struct occasion *const *)left), b = place_in_camp(*(const struct occasion *const *)right);
    return a < b ? -1 : a > b;
}

/* Those of FIRST's squad among the COUNT occasions of one hour that start at FIRST. */
static struct squad_meeting gather(struct arena *arena, const struct occasion *first, size_t count)
{
    struct squad_meeting meeting = {arena_alloc(arena, count * sizeof *meeting.members), 0};
    for (size_t i = 0; i < count; i++)
        if (same_squad(first, &first[i]))
            meeting.members[meeting.count++] = &first[i];
    qsort(meeting.members, meeting.count, sizeof *meeting.members, by_squad_order);
    return meeting;
}

/* Is there one of OCCASION's squad among the COUNT before it? */
static bool was_gathered(const struct occasion *occasion, size_t count)
{
    for (size_t i = 1; i <= count; i++)
        if (same_squad(occasion, occasion - i))
            return true;
    return false;
}

size_t squad_meetings(struct arena *arena, const struct occasion *all, size_t count, struct squad_meeting **meetings)
{
    size_t found = 0, capacity = 0;
    *meetings = NULL;
    for (size_t begin = 0, end; begin < count; begin = end) {
        for (end = begin + 1; end < count && same_hour(&all[begin], &all[end]);)
            end++;
        for (size_t i = begin; i < end; i++) {
            const struct occasion *first = &all[i];
            if (!first->session || first->clock < 0 || !occasion_gym(first) || was_gathered(first, i - begin))
                continue;
            struct squad_meeting meeting = gather(arena, first, end - i);
            if (meeting.count < 2)
                continue;
            *meetings = arena_grow(arena, *meetings, found, &capacity, sizeof **meetings);
            (*meetings)[found++] = meeting;
        }
    }
    return found;
}

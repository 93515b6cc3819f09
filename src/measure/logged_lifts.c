/* logged_lifts.c - see logged_lifts.h. */
#include "measure/logged_lifts.h"
#include "model/programme.h"

int lifted_order(const struct logged_line *a, const struct logged_line *b)
{
    const struct done *one = a->log, *other = b->log;
    if (one->athlete != other->athlete)
        return one->athlete->number < other->athlete->number ? -1 : 1;
    if (a->exercise != b->exercise)
        return a->exercise->number < b->exercise->number ? -1 : 1;
    if (one->date != other->date)
        return one->date < other->date ? -1 : 1;
    if (one->clock != other->clock)
        return one->clock < other->clock ? -1 : 1;
    if (one != other) /* both of programme.logs */
        return one < other ? -1 : 1;
    return (a > b) - (a < b);
}

/* The first of programme.lifted that comes after those of ATHLETE, EXERCISE and all days before DAY. */
static size_t first_from(const struct programme *programme, const struct athlete *athlete,
                         const struct exercise *exercise, int day)
{
    size_t low = 0, high = programme->lifted_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        const struct logged_line *line = programme->lifted[middle];
        const struct done *log = line->log;
        bool before = log->athlete != athlete     ? log->athlete->number < athlete->number
                      : line->exercise != exercise ? line->exercise->number < exercise->number
                                                   : log->date < day;
        if (before)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Of LINE's last set with a mass; 0 if none has one. */
static mass last_mass(const struct logged_line *line)
{
    for (size_t i = line->set_count; i-- > 0;)
        if (line->sets[i].kind == LOAD_MASS && line->sets[i].pieces == 1)
            return line->sets[i].load;
    return 0;
}

mass lifted_last(const struct programme *programme, const struct athlete *athlete, const struct exercise *exercise,
                 int day)
{
    for (size_t i = first_from(programme, athlete, exercise, day); i-- > 0;) {
        const struct logged_line *line = programme->lifted[i];
        if (line->log->athlete != athlete || line->exercise != exercise)
            break;
        mass last = last_mass(line);
        if (last)
            return last;
    }
    return 0;
}

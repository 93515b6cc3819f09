#include "measure/absence.h"

#include "measure/hold.h"
#include "measure/kit.h"
#include "model/athlete.h"
#include "model/occasion.h"

/* By what was placed for the day and is not planned. */
static enum absence left_out_on(const struct programme *programme, const struct athlete *athlete, int day)
{
    size_t count;
    const struct left_out *left_out = athlete_left_out(programme, athlete, &count);
    for (size_t i = 0; i < count; i++) {
        if (left_out[i].occasion.date != day || !left_out[i].whole)
            continue;
        switch (left_out[i].why) {
        case LEFT_OUT: return ABSENCE_AWAY;
        case LEFT_CLOSED: return ABSENCE_CLOSED;
        case LEFT_ABSENT: return ABSENCE_ABSENT;
        case LEFT_HELD: break;
        }
    }
    return ABSENCE_NONE;
}

enum absence athlete_absence(const struct programme *programme, const struct athlete *athlete, int day)
{
    if (athlete_out(athlete, day))
        return ABSENCE_AWAY;
    enum absence absence = left_out_on(programme, athlete, day);
    return absence == ABSENCE_NONE && gym_closed(athlete->gym, day) ? ABSENCE_CLOSED : absence;
}

const char *absence_name(enum absence absence)
{
    static const char *const names[] = {"", "away", "closed", "absent"};
    return names[absence];
}

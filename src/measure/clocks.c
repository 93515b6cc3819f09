#include "measure/clocks.h"

#include <stddef.h>
#include <string.h>

#include "figures/zone.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "wording/wording.h"

enum { DAY = 86400 };

/* How far the clocks of TO are ahead of those of FROM. */
static int ahead_of(const struct occasion *from, const struct occasion *to)
{
    return from->zone && to->zone ? to->ahead - from->ahead : 0;
}

int64_t seconds_from_start(const struct occasion *earlier, const struct occasion *later)
{
    int64_t seconds = (int64_t)(later->date - earlier->date) * DAY;
    if (earlier->clock >= 0 && later->clock >= 0)
        seconds += later->clock - earlier->clock - ahead_of(earlier, later);
    return seconds;
}

int64_t seconds_from_end(const struct occasion *earlier, const struct occasion *later, bool *clocked)
{
    bool both = earlier->clock >= 0 && later->clock >= 0;
    if (clocked)
        *clocked = both;
    return seconds_from_start(earlier, later) - (both ? earlier->seconds : 0);
}

void occasion_end(const struct occasion *occasion, const struct occasion *other, int *date, int *clock)
{
    const struct occasion *there = other && other->zone ? other : occasion;
    int64_t end = (int64_t)occasion->clock + occasion->seconds;
    if (occasion->zone) {
        int64_t over = zone_moment(occasion->zone, occasion->date, occasion->clock, NULL) + occasion->seconds;
        zone_shown(over, zone_at(there->zone, over).ahead, date, clock);
        return;
    }
    *date = occasion->date + (int)(end / DAY);
    *clock = (int)(end % DAY);
}

static bool is_same(const struct zone *one, const struct zone *other)
{
    return one == other || (one && other && strcmp(zone_name(one), zone_name(other)) == 0);
}

bool clocks_differ(const struct occasion *one, const struct occasion *other)
{
    return one->zone && other->zone && !is_same(one->zone, other->zone);
}

bool clocks_change(const struct occasion *const *occasions, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!is_same(occasions[i]->zone, occasions[0]->zone))
            return true;
    return false;
}

const struct zone *zone_abroad(const struct occasion *occasion)
{
    const struct gym *home = occasion->athlete->gym;
    return is_same(occasion->zone, home ? home->zone : NULL) ? NULL : occasion->zone;
}

const char *abroad_words(struct arena *arena, const struct occasion *occasion)
{
    return wording_local_time(arena, zone_abroad(occasion));
}

#include "done/week_load.h"

#include "figures/load.h"
#include "measure/tally.h"
#include "model/occasion.h"

enum { WEEK = LOAD_DAYS };

static milli to_milli(double value)
{
    return (milli)(value + 0.5);
}

static void widen(struct range *range, milli value, bool first)
{
    range->low = first || value < range->low ? value : range->low;
    range->high = first || value > range->high ? value : range->high;
}

/* Each day's range has two ends, and all weeks that these ends can make are looked at. Between the ends, monotony
 * rises and falls once, so it is never lower than at one of them. */
static void try_weeks(const struct range days[WEEK], struct week_load *week)
{
    bool first = true;
    for (unsigned ends = 0; ends < 1u << WEEK; ends++) {
        int64_t daily[WEEK];
        bool new = true;
        for (int i = 0; i < WEEK && new; i++) {
            bool high = ends >> i & 1u;
            new = !high || days[i].low != days[i].high;
            daily[i] = high ? days[i].high : days[i].low;
        }
        if (!new)
            continue;
        struct load_week tried = load_week_of(daily, LOAD_SAMPLE);
        if (tried.even) {
            week->even = true;
            continue;
        }
        widen(&week->monotony, to_milli(tried.monotony * 1000), first);
        widen(&week->strain, to_milli(tried.strain), first);
        first = false;
    }
}

struct week_load week_load_from(const struct occasion *const *occasions, size_t count, int monday,
                                enum week_load_kind kind)
{
    struct week_load week = {.counted = true};
    struct range days[WEEK] = {{0, 0}};
    for (size_t i = 0; i < count; i++) {
        int day = occasions[i]->date - monday;
        if (day < 0 || day >= WEEK)
            continue;
        struct tally tally = {0};
        tally_load_alone(&tally, occasions[i]);
        struct range load = kind == LOAD_AS_DONE ? tally.done : tally.sum[COUNTED_SESSION_LOAD];
        int64_t uncounted = kind == LOAD_AS_DONE ? tally.done_uncounted : tally.uncounted[UNCOUNTED_LOAD];
        week.logged |= tally.logged;
        week.counted &= uncounted == 0;
        days[day].low += load.low;
        days[day].high += load.high;
    }
    for (int i = 0; i < WEEK; i++) {
        week.total.low += days[i].low;
        week.total.high += days[i].high;
    }
    week.counted &= week.total.high > 0;
    if (week.total.high > 0)
        try_weeks(days, &week);
    return week;
}

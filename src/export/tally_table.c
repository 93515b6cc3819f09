/* tally_table.c - the figures of every week of an athlete's camps. */
#include <stdlib.h>
#include <string.h>

#include "export/tally_formats.h"
#include "figures/dates.h"
#include "figures/load.h"
#include "figures/mass.h"
#include "limits/share.h"
#include "measure/kit.h"
#include "measure/limbs.h"
#include "measure/member.h"
#include "measure/tally.h"
#include "model/programme.h"

/* The sums of weeks on end. */
struct weeks {
    struct tally *tallies;
    struct ledger *ledgers;
};

const char *tally_unit(enum counted counted, enum mass_unit unit)
{
    if (counted == COUNTED_SPARRING_TIME)
        return "min";
    switch (counted) {
    case COUNTED_DAYS_BETWEEN_HEAVY:
    case COUNTED_LEGS_BEFORE_SPARRING:
    case COUNTED_NECK_BEFORE_SPARRING:
        return "h";
    case COUNTED_CONTRAST_REST:
        return "s";
    case COUNTED_AGE_OF_BEST:
        return "weeks";
    case COUNTED_PHASE_DAYS:
        return "days";
    case COUNTED_LOAD_RISE:
    case COUNTED_INTENSITY:
    case COUNTED_VOLUME:
    case COUNTED_STRENGTH_BALANCE:
    case COUNTED_STRIKE_BALANCE:
    case COUNTED_ADHERENCE:
        return "%";
    default:
        break;
    }
    switch (counted_group(counted)) {
    case GROUP_TIME:
        return "min";
    case GROUP_HOLDS:
        return "s";
    case GROUP_DISTANCE:
        return "m";
    case GROUP_TONNAGE:
        return mass_unit_name(unit);
    default:
        return "";
    }
}

milli tally_in_unit(enum counted counted, milli value, enum mass_unit unit)
{
    if (counted_group(counted) == GROUP_TONNAGE && unit == MASS_IN_LB)
        return (mass_sum_to_lb(value) + (value < 0 ? -500 : 500)) / 1000 * 1000;
    if (strcmp(tally_unit(counted, unit), "min") != 0)
        return value;
    return value < 0 ? -((30 - value) / 60) : (value + 30) / 60;
}

struct tally_row *tally_row_add(const struct tally_view *view, struct tally_table *table,
                                const char *group, const char *name, const char *side,
                                const char *unit)
{
    table->rows = arena_grow(view->arena, table->rows, table->count, &table->capacity,
                             sizeof *table->rows);
    struct tally_row *row = &table->rows[table->count++];
    size_t weeks = (size_t)table->weeks;
    *row = (struct tally_row){.group = group,
                              .name = name,
                              .side = side,
                              .unit = unit,
                              .bound = "",
                              .cells = arena_alloc(view->arena, weeks * sizeof(struct range)),
                              .known = arena_alloc(view->arena, weeks * sizeof(bool))};
    return row;
}

static void set_cell(struct tally_row *row, int week, struct range value)
{
    row->cells[week] = value;
    row->known[week] = true;
}

/* --- counts --- */

struct range tally_range(const struct athlete *athlete, enum counted counted, struct range range)
{
    enum mass_unit unit = gym_unit(athlete->gym);
    return (struct range){tally_in_unit(counted, range.low, unit), tally_in_unit(counted, range.high, unit)};
}

/* Only "neck sets" are those of the region. */
static const char *row_name(const struct tally_view *view, enum counted counted)
{
    const char *name = counted_name(view->arena, counted);
    return counted_find(name) == counted ? name : arena_printf(view->arena, "%s, by pattern", name);
}

static void add_counted(const struct tally_view *view, struct tally_table *table,
                        const struct weeks *weeks, enum counted counted, enum side side)
{
    static const char *const sides[] = {"left", "right"};
    bool any = false;
    if (counted_tells_body(counted) && !view->private)
        return;
    for (int w = 0; w < table->weeks; w++)
        any = any || weeks->tallies[w].sum[counted].high > 0;
    if (!any)
        return;
    struct tally_row *row =
        tally_row_add(view, table, "count", row_name(view, counted),
                      side == SIDE_ALL ? "" : sides[side], tally_unit(counted, gym_unit(table->athlete->gym)));
    for (int w = 0; w < table->weeks; w++)
        set_cell(row, w,
                 tally_range(table->athlete, counted, side == SIDE_ALL ? weeks->tallies[w].sum[counted]
                                                   : weeks->tallies[w].side[counted][side]));
}

static void add_accounts(const struct tally_view *view, struct tally_table *table,
                         const struct weeks *weeks)
{
    for (int counted = 0; counted < COUNTED_COUNT; counted++)
        for (int side = SIDE_ALL; side <= (counted_is_sided((enum counted)counted) ? SIDE_RIGHT
                                                                                   : SIDE_ALL);
             side++)
            add_counted(view, table, weeks, (enum counted)counted, (enum side)side);
}

/* A row of what the counts do not include, VALUES by week; no row if all are 0. */
static void add_not_counted(const struct tally_view *view, struct tally_table *table, const char *name,
                            const char *unit, const milli *values)
{
    bool any = false;
    for (int w = 0; w < table->weeks; w++)
        any = any || values[w] > 0;
    if (!any)
        return;
    struct tally_row *row = tally_row_add(view, table, "not counted", name, "", unit);
    for (int w = 0; w < table->weeks; w++)
        set_cell(row, w, (struct range){values[w], values[w]});
}

/* Minutes, sets of as many as possible, and work that the tonnage leaves out. */
static void add_uncounted(const struct tally_view *view, struct tally_table *table,
                          const struct weeks *weeks)
{
    static const char *const names[] = {"strikes", "session load", "sparring rounds"};
    milli *values = arena_alloc(view->arena, (size_t)table->weeks * sizeof *values);
    for (int uncounted = 0; uncounted < UNCOUNTED_COUNT; uncounted++) {
        for (int w = 0; w < table->weeks; w++)
            values[w] = (weeks->tallies[w].uncounted[uncounted] * 1000 + 30) / 60;
        add_not_counted(view, table, names[uncounted], "min", values);
    }
    for (int w = 0; w < table->weeks; w++)
        values[w] = (milli)weeks->tallies[w].open * 1000;
    add_not_counted(view, table, "sets of max", "", values);
    for (int gap = 0; gap < GAP_COUNT; gap++) {
        for (int w = 0; w < table->weeks; w++)
            values[w] = weeks->tallies[w].left_out[gap];
        add_not_counted(view, table,
                        arena_printf(view->arena, "tonnage, %s", tonnage_gap_name((enum tonnage_gap)gap)),
                        tonnage_gap_unit((enum tonnage_gap)gap), values);
    }
}

/* Of the lifts in the zones. */
static void add_intensity(const struct tally_view *view, struct tally_table *table,
                          const struct weeks *weeks)
{
    struct tally_row *row = NULL;
    for (int w = 0; w < table->weeks; w++) {
        milli mean = tally_intensity(&weeks->tallies[w]);
        if (mean > 0 && !row)
            row = tally_row_add(view, table, "intensity", "mean intensity of lifts", "", "%");
        if (mean > 0)
            set_cell(row, w, (struct range){mean, mean});
    }
}

/* --- limbs --- */

static void add_limb(const struct tally_view *view, struct tally_table *table,
                     const struct weeks *weeks, int unit, int limb, int stance)
{
    static const char *const stances[] = {"no stance", "orthodox", "southpaw"};
    bool any = false;
    for (int w = 0; w < table->weeks; w++)
        any = any || weeks->ledgers[w].limbs[unit][limb][stance].high > 0;
    if (!any)
        return;
    struct tally_row *row = tally_row_add(view, table, "limb", limbs.names[limb], stances[stance],
                                          units.names[unit]);
    for (int w = 0; w < table->weeks; w++)
        set_cell(row, w, weeks->ledgers[w].limbs[unit][limb][stance]);
}

static void add_limbs(const struct tally_view *view, struct tally_table *table,
                      const struct weeks *weeks)
{
    for (int unit = 0; unit < UNIT_COUNT; unit++)
        for (int limb = 0; limb < LIMB_COUNT; limb++)
            for (int stance = 0; stance < STANCE_COUNT; stance++)
                add_limb(view, table, weeks, unit, limb, stance);
}

/* --- load --- */

static milli to_milli(double value)
{
    return (milli)(value * 1000 + 0.5);
}

/* Session loads of the days from FIRST, DAYS of them, in thousandths, as they turned out; the middle of a range. */
static void fill_days(const struct diary *diary, int first, int days, int64_t *daily)
{
    memset(daily, 0, (size_t)days * sizeof *daily);
    for (size_t i = 0; i < diary->count; i++) {
        int day = diary->occasions[i]->date - first;
        if (day < 0 || day >= days)
            continue;
        struct tally tally = {0};
        tally_occasion(&tally, diary->occasions[i]);
        daily[day] += (tally.done.low + tally.done.high) / 2;
    }
}

/* The loads are in thousandths, so that what is a load here is in thousandths again; the ratios have no unit. */
static void add_load(const struct tally_view *view, struct tally_table *table,
                     const struct diary *diary)
{
    static const char *const names[] = {"load a day, 7 days",
                                        "load a day, 28 days",
                                        "7 days to 28",
                                        "7 days to the 21 before",
                                        "7 days to 28, weighted"};
    enum { ROWS = sizeof names / sizeof *names };
    size_t first_row = table->count;
    for (size_t i = 0; i < ROWS; i++)
        tally_row_add(view, table, "load", names[i], "", "");
    struct tally_row *rows = &table->rows[first_row];
    int start = diary->count ? diary->occasions[0]->date : 0;
    int last = tally_monday(table, table->weeks - 1) + 6, days = last - start + 1;
    if (!start || days < 1)
        return;
    int64_t *daily = arena_alloc(view->arena, (size_t)(days + 7) * sizeof *daily);
    /* A week may begin before the first day on which anything is done. */
    fill_days(diary, start - 7, days + 7, daily);
    for (int w = 0; w < table->weeks; w++) {
        int monday = tally_monday(table, w) - (start - 7);
        if (monday < 0)
            continue;
        size_t so_far = (size_t)monday; /* from START to the week's Sunday */
        struct load_trend rolling =
            load_rolling(daily + 7, so_far, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
        struct load_trend uncoupled =
            load_uncoupled(daily + 7, so_far, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
        struct load_trend weighted =
            load_weighted(daily + 7, so_far, LOAD_ACUTE_DAYS, LOAD_CHRONIC_DAYS);
        const double values[ROWS] = {rolling.acute / 1000, rolling.chronic / 1000, rolling.ratio, uncoupled.ratio,
                                     weighted.ratio};
        const bool known[ROWS] = {rolling.known, rolling.known, rolling.known, uncoupled.known, weighted.known};
        for (size_t i = 0; i < ROWS; i++)
            if (known[i])
                set_cell(&rows[i], w, (struct range){to_milli(values[i]), to_milli(values[i])});
    }
}

/* If a week has a log: its session load as it turned out. */
static void add_done(const struct tally_view *view, struct tally_table *table, const struct weeks *weeks)
{
    struct tally_row *row = NULL;
    for (int w = 0; w < table->weeks; w++) {
        if (!weeks->tallies[w].logged)
            continue;
        if (!row)
            row = tally_row_add(view, table, "load", "session load, as done", "", "");
        set_cell(row, w, weeks->tallies[w].done);
    }
}

/* --- shares of the peak week --- */

/* The taper of CAMP that DAY or the following days reach before another bout; or NULL. */
static const struct phase *taper_after(const struct camp *camp, int day)
{
    int first = camp_towards_from(camp, day);
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        if (strcmp(phase->name.folded, "taper") == 0 && phase->last >= day && camp_towards_from(camp, phase->first) == first)
            return phase;
    }
    return NULL;
}

/* The largest week of COUNTED in the camp before the taper of the bout that MONDAY leads to; weeks up to an earlier
 * bout do not count. */
static milli peak_of(const struct camp *camp, const struct weeks *all, int monday, enum counted counted)
{
    int first = camp_towards_from(camp, monday);
    const struct phase *taper = taper_after(camp, first);
    milli peak = 0;
    for (int w = 0; w < camp->weeks; w++) {
        int sunday = date_monday(camp->first) + 7 * w + 6;
        bool other = sunday < first || camp_towards_from(camp, sunday - 6) != first;
        if (!other && (!taper || sunday < taper->first) && all->tallies[w].sum[counted].high > peak)
            peak = all->tallies[w].sum[counted].high;
    }
    return peak;
}

/* CAMP's weeks as shares of the peak week of COUNTED; ALL: the sums of all weeks of the camp. */
static void add_share(const struct tally_view *view, struct tally_table *table, const struct tally_camp *camp,
                      const struct weeks *all, enum counted counted)
{
    struct tally_row *row = NULL;
    for (int w = 0; w < table->weeks; w++) {
        int week = tally_camp_week(camp, tally_monday(table, w));
        milli peak = week ? peak_of(camp->camp, all, tally_monday(table, w), counted) : 0;
        if (peak <= 0)
            continue;
        if (!row) {
            row = tally_row_add(view, table, "share",
                                arena_printf(view->arena, "%s, of the peak week", counted_name(view->arena, counted)), "", "%");
            row->camp = camp->camp;
        }
        milli share = to_milli((double)all->tallies[week - 1].sum[counted].high * 100 / (double)peak);
        set_cell(row, w, (struct range){share, share});
    }
}

/* --- one table --- */

static struct weeks sum_weeks(const struct tally_view *view, int monday, int count, const struct diary *diary)
{
    size_t size = (size_t)(count > 0 ? count : 1);
    struct weeks weeks = {.tallies = arena_alloc(view->arena, size * sizeof(struct tally)),
                          .ledgers = arena_alloc(view->arena, size * sizeof(struct ledger))};
    for (size_t i = 0; i < diary->count; i++) {
        int days = diary->occasions[i]->date - monday;
        if (days < 0 || days / DAYS_OF_WEEK >= count)
            continue;
        tally_occasion(&weeks.tallies[days / DAYS_OF_WEEK], diary->occasions[i]);
        ledger_occasion(&weeks.ledgers[days / DAYS_OF_WEEK], diary->occasions[i]);
    }
    return weeks;
}

static void add_shares(const struct tally_view *view, struct tally_table *table, const struct diary *diary)
{
    static const enum counted counts[] = {COUNTED_SETS, COUNTED_TONNAGE, COUNTED_SESSION_LOAD};
    for (size_t c = 0; c < table->camp_count; c++) {
        const struct camp *camp = table->camps[c].camp;
        struct weeks all = sum_weeks(view, date_monday(camp->first), camp->weeks, diary);
        for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
            add_share(view, table, &table->camps[c], &all, counts[i]);
    }
}

void tally_fill(const struct tally_view *view, struct tally_table *table,
                       const struct diary *diary)
{
    struct weeks shown = sum_weeks(view, table->monday, table->weeks, diary);
    add_accounts(view, table, &shown);
    add_intensity(view, table, &shown);
    add_uncounted(view, table, &shown);
    add_limbs(view, table, &shown);
    add_done(view, table, &shown);
    tally_add_loads(view, table, diary);
    add_load(view, table, diary);
    tally_add_adherence(view, table, diary);
    tally_add_felt(view, table, diary);
    add_shares(view, table, diary);
}

struct diary tally_diary(const struct tally_view *view, const struct athlete *athlete)
{
    const struct programme *programme = view->programme;
    struct diary diary = {
        .occasions = arena_alloc(view->arena, (programme->occasion_count + 1) *
                                                  sizeof(struct occasion *))};
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].athlete == athlete)
            diary.occasions[diary.count++] = &programme->occasions[i];
    return diary;
}

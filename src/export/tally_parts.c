/* tally_parts.c - volume load, lifts by zone and mean intensity of each lift, session, day or week. */
#include <string.h>

#include "export/tally_formats.h"
#include "figures/dates.h"
#include "measure/kit.h"
#include "measure/tally.h"
#include "model/programme.h"

/* A part as it is added up. */
struct sum {
    struct tally_part part;
    const void *key; /* the exercise, or what is done on the day at an hour */
    int clock;
    int64_t zoned;
};

struct sums {
    const struct tally_view *view;
    struct sum *items;
    size_t count, capacity, first; /* FIRST: of the present athlete */
};

const char *tally_by_name(enum tally_by by)
{
    static const char *const names[] = {"", "lift", "session", "day", "week"};
    return names[by];
}

const char *tally_iso_week(struct arena *arena, int day)
{
    int year, week;
    date_iso_week(day, &year, &week);
    return arena_printf(arena, "%04d-W%02d", year, week);
}

static void add_range(struct range *sum, struct range more)
{
    sum->low += more.low;
    sum->high += more.high;
}

static void add_tally(struct sum *sum, const struct tally *tally)
{
    struct tally_part *part = &sum->part;
    for (int i = 0; i < 4; i++)
        add_range(&part->tonnage[i], tally->sum[COUNTED_TONNAGE + i]);
    add_range(&part->lifts, tally->sum[COUNTED_LIFTS]);
    for (int zone = 0; zone < EFFORT_ZONES; zone++)
        add_range(&part->zones[zone], tally->sum[COUNTED_LIFTS_BELOW_70 + zone]);
    for (int gap = 0; gap < GAP_COUNT; gap++)
        part->left_out[gap] += tally->left_out[gap];
    sum->zoned += tally->zoned;
}

static bool is_empty(const struct tally *tally)
{
    milli all = tally->sum[COUNTED_TONNAGE_WITH_ALL].high + tally->sum[COUNTED_LIFTS].high;
    for (int gap = 0; gap < GAP_COUNT; gap++)
        all += tally->left_out[gap];
    return all == 0;
}

/* Adds TALLY, of OCCASION, to its part: that of KEY at CLOCK on DATE (0: in the whole week). */
static void add_part(struct sums *sums, const struct occasion *occasion, int date, int clock, const void *key,
                     const char *what, const struct tally *tally)
{
    int monday = date_monday(occasion->date);
    if (is_empty(tally))
        return;
    for (size_t i = sums->first; i < sums->count; i++) {
        struct sum *sum = &sums->items[i];
        if (sum->part.monday == monday && sum->part.date == date && sum->clock == clock && sum->key == key) {
            add_tally(sum, tally);
            return;
        }
    }
    sums->items = arena_grow(sums->view->arena, sums->items, sums->count, &sums->capacity, sizeof *sums->items);
    struct sum *sum = &sums->items[sums->count++];
    *sum = (struct sum){.part = {.athlete = occasion->athlete, .monday = monday, .date = date, .what = what},
                        .key = key,
                        .clock = clock};
    add_tally(sum, tally);
}

static void add_lifts(struct sums *sums, const struct occasion *occasion)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            struct tally tally = {0};
            tally_item(&tally, occasion, &occasion->blocks[b], item);
            for (int counted = 0; occasion->optional && counted < COUNTED_COUNT; counted++)
                tally.sum[counted].low = 0;
            add_part(sums, occasion, 0, 0, item->exercise, item->exercise->name.shown, &tally);
        }
}

static void add_occasion(struct sums *sums, const struct occasion *occasion)
{
    struct tally tally = {0};
    if (sums->view->by == BY_LIFT) {
        add_lifts(sums, occasion);
        return;
    }
    tally_occasion(&tally, occasion);
    if (sums->view->by == BY_SESSION && occasion->session)
        add_part(sums, occasion, occasion->date, occasion->clock, occasion->session, occasion->session->name.shown,
                 &tally);
    else if (sums->view->by != BY_SESSION)
        add_part(sums, occasion, sums->view->by == BY_DAY ? occasion->date : 0, 0, NULL, "", &tally);
}

static milli mean_of(const struct sum *sum)
{
    milli lifts = 0;
    for (int zone = 0; zone < EFFORT_ZONES; zone++)
        lifts += sum->part.zones[zone].high / 1000;
    return lifts > 0 ? (sum->zoned + lifts / 2) / lifts : 0;
}

size_t tally_parts(const struct tally_view *view, struct tally_part **parts)
{
    struct sums sums = {.view = view};
    for (size_t a = 0; a < view->programme->athlete_count; a++) {
        const struct athlete *athlete = view->programme->athletes[a];
        if (view->athlete && athlete != view->athlete)
            continue;
        struct diary diary = tally_diary(view, athlete);
        sums.first = sums.count;
        for (size_t i = 0; i < diary.count; i++)
            if (tally_wants(view, diary.occasions[i]))
                add_occasion(&sums, diary.occasions[i]);
    }
    *parts = arena_alloc(view->arena, (sums.count + 1) * sizeof **parts);
    for (size_t i = 0; i < sums.count; i++) {
        (*parts)[i] = sums.items[i].part;
        (*parts)[i].intensity = mean_of(&sums.items[i]);
    }
    return sums.count;
}

size_t tally_part_figures(const struct tally_view *view, const struct tally_part *part,
                          struct tally_figure figures[PART_FIGURES])
{
    const char *unit = mass_unit_name(gym_unit(part->athlete->gym));
    size_t all = 0, kept = 0;
    for (int i = 0; i < 4; i++) {
        enum counted counted = (enum counted)(COUNTED_TONNAGE + i);
        if (!counted_tells_body(counted) || view->private)
            figures[all++] = (struct tally_figure){"count", counted_name(view->arena, counted), unit,
                                                   tally_range(part->athlete, counted, part->tonnage[i])};
    }
    figures[all++] = (struct tally_figure){"count", counted_name(view->arena, COUNTED_LIFTS), "", part->lifts};
    for (int zone = 0; zone < EFFORT_ZONES; zone++)
        figures[all++] = (struct tally_figure){
            "count", counted_name(view->arena, (enum counted)(COUNTED_LIFTS_BELOW_70 + zone)), "", part->zones[zone]};
    figures[all++] = (struct tally_figure){"intensity", "mean intensity of lifts", "%", {part->intensity, part->intensity}};
    for (int gap = 0; gap < GAP_COUNT; gap++) {
        enum tonnage_gap left = (enum tonnage_gap)gap;
        figures[all++] = (struct tally_figure){
            "not counted", arena_printf(view->arena, "tonnage, %s", tonnage_gap_name(left)), tonnage_gap_unit(left),
            {part->left_out[gap], part->left_out[gap]}};
    }
    for (size_t i = 0; i < all; i++)
        if (figures[i].range.high > 0)
            figures[kept++] = figures[i];
    return kept;
}

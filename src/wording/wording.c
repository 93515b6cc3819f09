#include "wording/wording.h"

#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "figures/zone.h"
#include "model/barred.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"

#define GAP WORDING_GAP
#define TIMES GAP WORDING_TIMES GAP
#define DOT " " WORDING_DOT " "

const char *wording_number(struct arena *arena, milli number)
{
    char text[32], *end = text + sizeof text, *p = end;
    int64_t size = number < 0 ? -number : number, part = size % 1000;
    int places = part ? 3 : 0;
    for (; places > 0 && part % 10 == 0; places--)
        part /= 10;
    for (int i = 0; i < places; i++, part /= 10)
        *--p = (char)('0' + part % 10);
    if (places > 0)
        *--p = '.';
    for (size /= 1000; size >= 10; size /= 10)
        *--p = (char)('0' + size % 10);
    *--p = (char)('0' + size);
    if (number < 0)
        *--p = '-';
    return arena_copy(arena, p, (size_t)(end - p));
}

const char *wording_range(struct arena *arena, struct range range)
{
    if (range.low == range.high)
        return wording_number(arena, range.high);
    return arena_printf(arena, "%s" WORDING_TO "%s", wording_number(arena, range.low),
                        wording_number(arena, range.high));
}

const char *wording_clock(struct arena *arena, int seconds)
{
    if (seconds >= 3600)
        return arena_printf(arena, "%d:%02d:%02d", seconds / 3600, seconds / 60 % 60, seconds % 60);
    int minutes = seconds / 60, rest = seconds % 60;
    const char text[] = {(char)('0' + minutes / 10), (char)('0' + minutes % 10), ':', (char)('0' + rest / 10),
                         (char)('0' + rest % 10)};
    size_t from = minutes < 10;
    return arena_copy(arena, text + from, sizeof text - from);
}

const char *wording_time(struct arena *arena, int seconds)
{
    if (seconds < 100 && seconds % 60 != 0)
        return arena_printf(arena, "%d" GAP "s", seconds);
    if (seconds % 60 == 0)
        return arena_printf(arena, "%d" GAP "min", seconds / 60);
    return arena_printf(arena, "%s" GAP "min", wording_clock(arena, seconds));
}

const char *wording_mass(struct arena *arena, mass load, enum mass_unit unit, bool pounds)
{
    char text[MASS_TEXT_SIZE], lb[MASS_TEXT_SIZE];
    const char *words = text_joined(arena, mass_format(load, unit, text), unit == MASS_IN_LB ? GAP "lb" : GAP "kg");
    return pounds && unit == MASS_IN_KG
               ? arena_printf(arena, "%s (%s" GAP "lb)", words, mass_format_quarters(load, lb))
               : words;
}

const char *wording_stamped(struct arena *arena, mass thing)
{
    return wording_mass(arena, thing, mass_written_in(thing), false);
}

const char *wording_unit(const struct part *part)
{
    bool one = part->amount.high == 1000;
    if (part->max)
        return "";
    switch (part->unit) {
    case UNIT_METRES:
        return GAP "m";
    case UNIT_CONTACTS:
        return one ? GAP "contact" : GAP "contacts";
    case UNIT_STRIKES:
        if (part->several && !part->workers)
            return one ? GAP "time" : GAP "times";
        return one ? GAP "strike" : GAP "strikes";
    default:
        return "";
    }
}

const char *wording_amount(struct arena *arena, const struct part *part)
{
    if (part->max)
        return "max";
    if (part->unit == UNIT_SECONDS && part->amount.low == part->amount.high)
        return wording_time(arena, (int)(part->amount.high / 1000));
    if (part->unit == UNIT_SECONDS)
        return arena_printf(arena, "%s" GAP "s", wording_range(arena, part->amount));
    return text_joined(arena, wording_range(arena, part->amount), wording_unit(part));
}

static const char *limb_named(unsigned workers)
{
    switch (workers) {
    case WORKER_LEAD_HAND:
        return "lead" GAP "hand";
    case WORKER_REAR_HAND:
        return "rear" GAP "hand";
    case WORKER_LEAD_LEG:
        return "lead" GAP "leg";
    case WORKER_REAR_LEG:
        return "rear" GAP "leg";
    case WORKER_LEAD_HIP:
        return "lead" GAP "hip";
    case WORKER_REAR_HIP:
        return "rear" GAP "hip";
    default:
        return "";
    }
}

const char *wording_side(const struct part *part)
{
    switch (part->side) {
    case DOSE_EACH_SIDE:
        return "each" GAP "side";
    case DOSE_EACH_WAY:
        return "each" GAP "way";
    case DOSE_ORTHODOX:
        return "orthodox";
    case DOSE_SOUTHPAW:
        return "southpaw";
    case DOSE_LEFT:
        return "left";
    case DOSE_RIGHT:
        return "right";
    case DOSE_WHOLE:
        break;
    }
    return limb_named(part->workers);
}

struct part wording_whole(const struct set_run *run)
{
    struct part whole = run->parts[0];
    for (size_t i = 1; i < run->part_count; i++) {
        whole.amount.low += run->parts[i].amount.low;
        whole.amount.high += run->parts[i].amount.high;
    }
    whole.side = DOSE_WHOLE;
    return whole;
}

static void add_part(struct arena *arena, const struct part *part, struct text *out)
{
    text_add(out, wording_amount(arena, part));
    const char *side = wording_side(part);
    const char *limb = part->side == DOSE_WHOLE ? "" : limb_named(part->workers);
    if (*side) {
        text_add(out, GAP);
        text_add(out, side);
    }
    if (*limb) {
        text_add(out, " ");
        text_add(out, limb);
    }
}

const char *wording_rest_inside(struct arena *arena, const struct set_run *run)
{
    if (run->rest_high <= 0 || (run->repeats <= 1 && run->part_count <= 1))
        return "";
    if (run->rest_low == run->rest_high)
        return arena_printf(arena, "rest" GAP "%s", wording_time(arena, run->rest_high));
    if (run->rest_high < 100)
        return arena_printf(arena, "rest" GAP "%d" WORDING_TO "%d" GAP "s", run->rest_low, run->rest_high);
    return arena_printf(arena, "rest" GAP "%s" WORDING_TO "%s", wording_clock(arena, run->rest_low),
                        wording_clock(arena, run->rest_high));
}

const char *wording_set(struct arena *arena, const struct set_run *run)
{
    struct text out = {.arena = arena};
    if (run->work_up) {
        const char *side = run->part_count > 1 ? "each" GAP "stance" : wording_side(run->parts);
        return arena_printf(arena, "work up%s%s to", *side ? " " : "", side);
    }
    if (run->hold)
        text_add(&out, "hold" GAP);
    if (run->repeats > 1)
        text_addf(&out, "%d" TIMES, run->repeats);
    if (run->alternating) {
        const struct part whole = wording_whole(run);
        add_part(arena, &whole, &out);
        text_add(&out, " alternating" GAP "stances");
    }
    for (size_t i = 0; i < run->part_count && !run->alternating; i++) {
        if (i)
            text_add(&out, " +" GAP);
        add_part(arena, &run->parts[i], &out);
    }
    if (run->within > 0)
        text_addf(&out, " in" GAP "%s", wording_clock(arena, run->within));
    const char *rest = wording_rest_inside(arena, run);
    text_add(&out, *rest ? " " : "");
    text_add(&out, rest);
    return text_keep(arena, &out);
}

bool wording_counts_sets(const struct block *block)
{
    switch (block->kind) {
    case BLOCK_ROUNDS:
    case BLOCK_CIRCUIT:
    case BLOCK_EVERY:
    case BLOCK_AS_MANY:
    case BLOCK_FOR_TIME:
        return false;
    default:
        return true;
    }
}

static bool same_dose(struct arena *arena, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_set(arena, &item->runs[0]), wording_set(arena, &item->runs[i])) != 0)
            return false;
    return true;
}

bool wording_once(const struct item *item)
{
    const struct set_run *first = &item->runs[0];
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        bool sided = !run->alternating && (run->part_count != 1 || run->parts->side != first->parts->side);
        if (sided || run->alternating != first->alternating || run->repeats > 1 ||
            run->hold != first->hold || run->parts->unit != first->parts->unit ||
            run->parts->workers != first->parts->workers || run->parts->unit == UNIT_SECONDS)
            return false;
    }
    return true;
}

/* "8, 8, 10, 12 each side", with the unit and the side after the last. */
static const char *listed_dose(struct arena *arena, const struct item *item)
{
    struct text out = {.arena = arena};
    bool once = wording_once(item);
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        for (int set = 0; set < run->count; set++) {
            bool last = i + 1 == item->run_count && set + 1 == run->count;
            if (once && !last)
                text_add(&out, run->parts->max ? "max" : wording_range(arena, wording_whole(run).amount));
            else
                text_add(&out, wording_set(arena, run));
            if (!last)
                text_add(&out, ", ");
        }
    }
    return text_keep(arena, &out);
}

size_t wording_intervals(const struct block *block, const struct item *item)
{
    size_t count = item->run_count;
    if (block->kind != BLOCK_ROUNDS || count < 2)
        return 0;
    bool cut = item->runs[count - 1].cut;
    count -= cut;
    for (size_t i = 1; i < count; i++)
        if (item->runs[i].count != item->runs[0].count - (cut ? 1 : 0) &&
            item->runs[i].count != item->runs[0].count)
            return 0;
    return count;
}

/* "4 × (5 s all-out, 25 s easy)" of COUNT pieces. */
static const char *intervals(struct arena *arena, const struct item *item, size_t count)
{
    struct text out = {.arena = arena};
    int times = item->runs[0].count;
    if (times > 1)
        text_addf(&out, "%d" TIMES "(", times);
    for (size_t i = 0; i < count; i++) {
        const char *load = wording_load(arena, item->exercise, &item->runs[i].load, false);
        text_addf(&out, "%s%s%s%s", i ? ", " : "", wording_set(arena, &item->runs[i]),
                  *load ? " " : "", load);
    }
    text_add(&out, times > 1 ? ")" : "");
    return text_keep(arena, &out);
}

/* The block's heading already says how long a round is. */
static bool fills_round(const struct block *block, const struct item *item)
{
    const struct set_run *run = &item->runs[0];
    return block->kind == BLOCK_ROUNDS && item->run_count == 1 && run->part_count == 1 &&
           run->repeats <= 1 && run->parts->unit == UNIT_SECONDS && !run->parts->max &&
           run->parts->side == DOSE_WHOLE && run->parts->amount.high == (milli)block->work * 1000;
}

const char *wording_dose(struct arena *arena, const struct block *block, const struct item *item)
{
    if (item->run_count == 0 || fills_round(block, item))
        return "";
    size_t pieces = wording_intervals(block, item);
    if (pieces)
        return intervals(arena, item, pieces);
    if (!same_dose(arena, item))
        return listed_dose(arena, item);
    const char *set = wording_set(arena, &item->runs[0]);
    if (!wording_counts_sets(block) || item->sets < 2)
        return set;
    if (item->runs[0].repeats > 1)
        return arena_printf(arena, "%d" TIMES "(%s)", item->sets, set);
    return *set ? arena_printf(arena, "%d" TIMES "%s", item->sets, set)
                : arena_printf(arena, "%d" GAP "sets", item->sets);
}

const char *wording_tempo(struct arena *arena, const struct item_tempo *tempo)
{
    const int seconds[] = {tempo->lower, tempo->low_pause, tempo->lift, tempo->high_pause};
    const bool fast[] = {tempo->lower_fast, tempo->low_pause_fast, tempo->lift_fast,
                         tempo->high_pause_fast};
    if (!tempo->given)
        return "";
    struct text out = {.arena = arena};
    for (size_t i = 0; i < 4; i++) {
        text_add(&out, i ? "-" : "");
        if (fast[i])
            text_add(&out, "X");
        else
            text_addf(&out, "%d", seconds[i]);
    }
    return text_keep(arena, &out);
}

const char *wording_rest(struct arena *arena, const struct block *block)
{
    if (block->rest_high <= 0)
        return "";
    if (block->rest_low == block->rest_high)
        return wording_clock(arena, block->rest_high);
    return arena_printf(arena, "%s" WORDING_TO "%s", wording_clock(arena, block->rest_low),
                        wording_clock(arena, block->rest_high));
}

const char *wording_sides_out(const struct item *item)
{
    switch (item->sides_out) {
    case BARRED_LEFT: return "left side left out";
    case BARRED_RIGHT: return "right side left out";
    case BARRED_ALL: return "a side left out";
    default: return "";
    }
}

const char *wording_rounds(struct arena *arena, int first, int last)
{
    if (first == last)
        return arena_printf(arena, "round" GAP "%d", first);
    return arena_printf(arena, "rounds" GAP "%d" WORDING_TO "%d", first, last);
}

static const char *block_measure(struct arena *arena, const struct block *block)
{
    const char *plural = block->sets == 1 ? "" : "s";
    switch (block->kind) {
    case BLOCK_ROUNDS:
        return arena_printf(arena, "rounds" DOT "%d" TIMES "%s", block->sets,
                            wording_clock(arena, block->work));
    case BLOCK_EVERY:
        return arena_printf(arena, "every" GAP "%s for" GAP "%s",
                            wording_clock(arena, block->interval),
                            wording_clock(arena, block->work));
    case BLOCK_AS_MANY:
        return arena_printf(arena, "as many rounds as possible in" GAP "%s",
                            wording_clock(arena, block->work));
    case BLOCK_CIRCUIT:
    case BLOCK_FOR_TIME:
        return arena_printf(arena, "%s" DOT "%d" GAP "round%s%s%s", block_kinds.names[block->kind],
                            block->sets, plural, block->kind == BLOCK_FOR_TIME && block->work ? " in" GAP : "",
                            block->kind == BLOCK_FOR_TIME && block->work ? wording_clock(arena, block->work) : "");
    case BLOCK_STRAIGHT:
        return arena_printf(arena, "%d" GAP "set%s", block->sets, plural);
    default:
        return arena_printf(arena, "%s" DOT "%d" GAP "set%s", block_kinds.names[block->kind],
                            block->sets, plural);
    }
}

const char *wording_block(struct arena *arena, const struct block *block)
{
    const char *rest = wording_rest(arena, block);
    const char *measure = block_measure(arena, block);
    if (block->times > 1)
        return arena_printf(arena, "%d" GAP "times (%s%s%s)%s%s", block->times, measure,
                            *rest ? DOT "rest" GAP : "", rest,
                            block->times_rest > 0 ? DOT "rest between" GAP : "",
                            block->times_rest > 0 ? wording_clock(arena, block->times_rest) : "");
    return *rest ? text_joined(arena, measure, text_joined(arena, DOT "rest" GAP, rest)) : measure;
}

const char *wording_poor_day(struct arena *arena, const struct block *block)
{
    const char *what = block->kind == BLOCK_ROUNDS ? "round" : "set";
    if (!block->poor_sets)
        return "";
    const char *sets = arena_printf(arena, "on a poor day: %d" GAP "%s%s", block->poor_sets, what,
                                    block->poor_sets == 1 ? "" : "s");
    return block->poor_rpe.high > 0 ? arena_printf(arena, "%s, RPE" GAP "%s", sets, wording_range(arena, block->poor_rpe))
                                    : sets;
}

const char *wording_weeks_out(struct arena *arena, int weeks)
{
    if (weeks < 0)
        return "";
    if (weeks == 0)
        return "bout week";
    return arena_printf(arena, "%d" GAP "week%s out", weeks, weeks == 1 ? "" : "s");
}

const char *wording_left_phases(struct arena *arena, const struct camp *camp)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < camp->left_phase_count; i++)
        text_addf(&out, "%s%s", i ? ", " : "left out: ", camp->left_phases[i].shown);
    return text_keep(arena, &out);
}

const char *wording_zones(struct arena *arena, milli zones)
{
    milli count = zones < 0 ? -zones : zones;
    return arena_printf(arena, "%s time zone%s %s", wording_number(arena, count), count == 1000 ? "" : "s",
                        zones < 0 ? "west" : "east");
}

const char *wording_zones_written(struct arena *arena, milli zones)
{
    return arena_printf(arena, "%s %s", wording_number(arena, zones < 0 ? -zones : zones), zones < 0 ? "west" : "east");
}

const char *wording_local_time(struct arena *arena, const struct zone *zone)
{
    return zone ? arena_printf(arena, "%s time", zone_place(arena, zone)) : "";
}

int wording_days_to_bout(const struct camp *camp, int day)
{
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        bool called_off = bout->cancelled && day >= bout->cancelled;
        for (size_t d = 0; d < bout->day_count && !called_off; d++)
            if (bout->days[d] >= day && (!bout->out || bout->days[d] <= bout->out))
                return bout->days[d] - day;
    }
    return -1;
}

const char *wording_before_bout(struct arena *arena, const struct occasion *occasion)
{
    enum { DAYS_OF_WEEK = 7 };
    int days = wording_days_to_bout(occasion->camp, occasion->date);
    if (days < 0 || days > DAYS_OF_WEEK)
        return "";
    if (days == 0)
        return "the day of the bout";
    return days == 1 ? "the day before the bout"
                     : arena_printf(arena, "%d days before the bout", days);
}

const char *wording_out(struct arena *arena, const struct occasion *occasion)
{
    const char *days = wording_before_bout(arena, occasion);
    return *days ? days : wording_weeks_out(arena, occasion->weeks_out);
}

const char *wording_optional(const struct occasion *occasion)
{
    return occasion->optional ? "may be left out" : "";
}

const char *wording_occasion(struct arena *arena, const struct occasion *occasion)
{
    struct text out = {.arena = arena};
    if (occasion->rounds > 0 && occasion->round_seconds > 0)
        text_addf(&out, "%d" TIMES "%s", occasion->rounds,
                  wording_clock(arena, occasion->round_seconds));
    else if (occasion->rounds > 0)
        text_addf(&out, "%d" GAP "round%s", occasion->rounds, occasion->rounds == 1 ? "" : "s");
    else
        text_addf(&out, "%d" GAP "min", (occasion->seconds + 30) / 60);
    if (occasion->metres.high > 0)
        text_addf(&out, DOT "%s" GAP "m", wording_range(arena, occasion->metres));
    if (occasion->pulse.high > 0)
        text_addf(&out, DOT "pulse" GAP "%s", wording_range(arena, occasion->pulse));
    if (occasion->rpe.high > 0)
        text_addf(&out, DOT "RPE" GAP "%s", wording_range(arena, occasion->rpe));
    text_add(&out, occasion->deload ? DOT "deload" : "");
    text_addf(&out, "%s%s", occasion->zones ? DOT : "", occasion->zones ? wording_zones(arena, occasion->zones) : "");
    const char *optional = wording_optional(occasion);
    text_addf(&out, "%s%s", *optional ? DOT : "", optional);
    return text_keep(arena, &out);
}

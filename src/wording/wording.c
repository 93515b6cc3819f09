#include "wording/wording.h"

#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "figures/zone.h"
#include "language/language.h"
#include "model/activity.h"
#include "model/barred.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/set.h"

#define GAP WORDING_GAP
#define TIMES GAP WORDING_TIMES GAP
#define DOT " " WORDING_DOT " "

const char *wording_exercise(const struct arena *arena, const struct exercise *exercise)
{
    return said_as(arena, "exercise", exercise->name.shown);
}

const char *wording_activity(const struct arena *arena, const struct activity *activity)
{
    return said_as(arena, "activity", activity->name.shown);
}

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
    return said_figures(arena, arena_copy(arena, p, (size_t)(end - p)));
}

/* What the rule of a plural is asked of an amount of thousandths: of a fraction, as of several. */
static long plural_of(milli amount)
{
    enum { SEVERAL = 2 };
    return amount % 1000 ? SEVERAL : (long)(amount / 1000);
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
        return arena_printf(arena, said(arena, "%d\u00a0s"), seconds);
    if (seconds % 60 == 0)
        return arena_printf(arena, said(arena, "%d\u00a0min"), seconds / 60);
    return arena_printf(arena, said(arena, "%s\u00a0min"), wording_clock(arena, seconds));
}

const char *wording_mass_unit(const struct arena *arena, enum mass_unit unit)
{
    return unit == MASS_IN_LB ? said_as(arena, "unit", "lb") : said_as(arena, "unit", "kg");
}

/* LOAD, whose figure is FIGURE, with pounds beside it if POUNDS. */
static const char *with_pounds(struct arena *arena, const char *figure, mass load, enum mass_unit unit, bool pounds)
{
    char lb[MASS_TEXT_SIZE];
    const char *words = arena_printf(arena, "%s" GAP "%s", said_figures(arena, figure), wording_mass_unit(arena, unit));
    return pounds && unit == MASS_IN_KG
               ? arena_printf(arena, "%s (%s" GAP "%s)", words, said_figures(arena, mass_format_quarters(load, lb)),
                              wording_mass_unit(arena, MASS_IN_LB))
               : words;
}

const char *wording_mass(struct arena *arena, mass load, enum mass_unit unit, bool pounds)
{
    char text[MASS_TEXT_SIZE];
    return with_pounds(arena, mass_format(load, unit, text), load, unit, pounds);
}

const char *wording_mass_exact(struct arena *arena, mass load, enum mass_unit unit, bool pounds)
{
    char text[MASS_TEXT_SIZE];
    return with_pounds(arena, mass_format_exact(load, unit, text), load, unit, pounds);
}

const char *wording_stamped(struct arena *arena, mass thing)
{
    return wording_mass_exact(arena, thing, mass_written_in(thing), false);
}

const char *wording_unit(const struct arena *arena, const struct part *part)
{
    long count = plural_of(part->amount.high);
    if (part->max)
        return "";
    switch (part->unit) {
    case UNIT_METRES:
        return said(arena, "\u00a0m");
    case UNIT_CONTACTS:
        return said_count(arena, count, "\u00a0contact", "\u00a0contacts");
    case UNIT_STRIKES:
        if (part->several && !part->workers)
            return said_count(arena, count, "\u00a0time", "\u00a0times");
        return said_count(arena, count, "\u00a0strike", "\u00a0strikes");
    default:
        return "";
    }
}

const char *wording_amount(struct arena *arena, const struct part *part)
{
    if (part->max)
        return said(arena, "max");
    if (part->unit == UNIT_SECONDS && part->amount.low == part->amount.high)
        return wording_time(arena, (int)(part->amount.high / 1000));
    if (part->unit == UNIT_SECONDS)
        return arena_printf(arena, said(arena, "%s\u00a0s"), wording_range(arena, part->amount));
    return text_joined(arena, wording_range(arena, part->amount), wording_unit(arena, part));
}

static const char *limb_named(const struct arena *arena, unsigned workers)
{
    switch (workers) {
    case WORKER_LEAD_HAND:
        return said(arena, "lead\u00a0hand");
    case WORKER_REAR_HAND:
        return said(arena, "rear\u00a0hand");
    case WORKER_LEAD_LEG:
        return said(arena, "lead\u00a0leg");
    case WORKER_REAR_LEG:
        return said(arena, "rear\u00a0leg");
    case WORKER_LEAD_HIP:
        return said(arena, "lead\u00a0hip");
    case WORKER_REAR_HIP:
        return said(arena, "rear\u00a0hip");
    default:
        return "";
    }
}

const char *wording_side(const struct arena *arena, const struct part *part)
{
    switch (part->side) {
    case DOSE_EACH_SIDE:
        return said(arena, "each\u00a0side");
    case DOSE_EACH_WAY:
        return said(arena, "each\u00a0way");
    case DOSE_ORTHODOX:
        return said(arena, "orthodox");
    case DOSE_SOUTHPAW:
        return said(arena, "southpaw");
    case DOSE_LEFT:
        return said(arena, "left");
    case DOSE_RIGHT:
        return said(arena, "right");
    case DOSE_WHOLE:
        break;
    }
    return limb_named(arena, part->workers);
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
    const char *side = wording_side(arena, part);
    const char *limb = part->side == DOSE_WHOLE ? "" : limb_named(arena, part->workers);
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
        return arena_printf(arena, said(arena, "rest\u00a0%s"), wording_time(arena, run->rest_high));
    if (run->rest_high < 100)
        return arena_printf(arena, said(arena, "rest\u00a0%d\u2013%d\u00a0s"), run->rest_low, run->rest_high);
    return arena_printf(arena, said(arena, "rest\u00a0%s\u2013%s"), wording_clock(arena, run->rest_low),
                        wording_clock(arena, run->rest_high));
}

const char *wording_set(struct arena *arena, const struct set_run *run)
{
    struct text out = {.arena = arena};
    if (run->work_up) {
        const char *side = run->part_count > 1 ? said(arena, "each\u00a0stance") : wording_side(arena, run->parts);
        return *side ? arena_printf(arena, said(arena, "work up %s to"), side) : said(arena, "work up to");
    }
    if (run->hold)
        text_add(&out, said(arena, "hold\u00a0"));
    if (run->repeats > 1)
        text_addf(&out, "%d" TIMES, run->repeats);
    if (run->alternating) {
        const struct part whole = wording_whole(run);
        add_part(arena, &whole, &out);
        text_add(&out, said(arena, " alternating\u00a0stances"));
    }
    for (size_t i = 0; i < run->part_count && !run->alternating; i++) {
        if (i)
            text_add(&out, " +" GAP);
        add_part(arena, &run->parts[i], &out);
    }
    if (run->within > 0)
        text_addf(&out, said(arena, " in\u00a0%s"), wording_clock(arena, run->within));
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
                text_add(&out, run->parts->max ? said(arena, "max") : wording_range(arena, wording_whole(run).amount));
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
                : arena_printf(arena, said_count(arena, item->sets, "%d\u00a0set", "%d\u00a0sets"), item->sets);
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

const char *wording_sides_out(const struct arena *arena, const struct item *item)
{
    switch (item->sides_out) {
    case BARRED_LEFT: return said(arena, "left side left out");
    case BARRED_RIGHT: return said(arena, "right side left out");
    case BARRED_ALL: return said(arena, "a side left out");
    default: return "";
    }
}

const char *wording_rounds(struct arena *arena, int first, int last)
{
    if (first == last)
        return arena_printf(arena, said(arena, "round\u00a0%d"), first);
    return arena_printf(arena, said(arena, "rounds\u00a0%d\u2013%d"), first, last);
}

/* "circuit · 3 rounds", "contrast · 1 set". */
static const char *kind_and_count(struct arena *arena, const struct block *block, const char *form)
{
    return arena_printf(arena, "%s" DOT "%s", said_as(arena, "block", block_kinds.names[block->kind]),
                        arena_printf(arena, form, block->sets));
}

static const char *block_measure(struct arena *arena, const struct block *block)
{
    const char *rounds = said_count(arena, block->sets, "%d\u00a0round", "%d\u00a0rounds");
    const char *sets = said_count(arena, block->sets, "%d\u00a0set", "%d\u00a0sets");
    switch (block->kind) {
    case BLOCK_ROUNDS:
        return arena_printf(arena, said(arena, "rounds \u00b7 %d\u00a0\u00d7\u00a0%s"), block->sets,
                            wording_clock(arena, block->work));
    case BLOCK_EVERY:
        return arena_printf(arena, said(arena, "every\u00a0%s for\u00a0%s"), wording_clock(arena, block->interval),
                            wording_clock(arena, block->work));
    case BLOCK_AS_MANY:
        return arena_printf(arena, said(arena, "as many rounds as possible in\u00a0%s"), wording_clock(arena, block->work));
    case BLOCK_FOR_TIME:
        if (block->work)
            return text_joined(arena, kind_and_count(arena, block, rounds),
                               arena_printf(arena, said(arena, " in\u00a0%s"), wording_clock(arena, block->work)));
        return kind_and_count(arena, block, rounds);
    case BLOCK_CIRCUIT:
        return kind_and_count(arena, block, rounds);
    case BLOCK_STRAIGHT:
        return arena_printf(arena, sets, block->sets);
    default:
        return kind_and_count(arena, block, sets);
    }
}

const char *wording_block(struct arena *arena, const struct block *block)
{
    const char *rest = wording_rest(arena, block);
    const char *measure = block_measure(arena, block);
    if (*rest)
        measure = text_joined(arena, measure, arena_printf(arena, said(arena, " \u00b7 rest\u00a0%s"), rest));
    if (block->times <= 1)
        return measure;
    measure = arena_printf(arena, said_count(arena, block->times, "%d\u00a0time (%s)", "%d\u00a0times (%s)"), block->times,
                           measure);
    return block->times_rest > 0 ? text_joined(arena, measure, arena_printf(arena, said(arena, " \u00b7 rest between\u00a0%s"),
                                                                            wording_clock(arena, block->times_rest)))
                                 : measure;
}

bool wording_in_rounds(const struct block *block)
{
    return block->kind == BLOCK_ROUNDS || block->kind == BLOCK_CIRCUIT || block->kind == BLOCK_FOR_TIME;
}

const char *wording_poor_day(struct arena *arena, const struct block *block)
{
    if (!block->poor_sets)
        return "";
    const char *form = wording_in_rounds(block)
                           ? said_count(arena, block->poor_sets, "on a poor day: %d\u00a0round", "on a poor day: %d\u00a0rounds")
                           : said_count(arena, block->poor_sets, "on a poor day: %d\u00a0set", "on a poor day: %d\u00a0sets");
    const char *sets = arena_printf(arena, form, block->poor_sets);
    return block->poor_rpe.high > 0
               ? text_joined(arena, sets, arena_printf(arena, said(arena, ", RPE\u00a0%s"), wording_range(arena, block->poor_rpe)))
               : sets;
}

const char *wording_zones(struct arena *arena, milli zones)
{
    milli count = zones < 0 ? -zones : zones;
    long whole = plural_of(count);
    const char *form = zones < 0 ? said_count(arena, whole, "%s time zone west", "%s time zones west")
                                 : said_count(arena, whole, "%s time zone east", "%s time zones east");
    return arena_printf(arena, form, wording_number(arena, count));
}

const char *wording_zones_written(struct arena *arena, milli zones)
{
    return arena_printf(arena, "%s %s", wording_number(arena, zones < 0 ? -zones : zones), zones < 0 ? "west" : "east");
}

const char *wording_local_time(struct arena *arena, const struct zone *zone)
{
    return zone ? arena_printf(arena, said(arena, "%s time"), zone_place(arena, zone)) : "";
}

#include "export/record.h"

#include <string.h>

#include "figures/dates.h"
#include "figures/mass.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/season.h"
#include "wording/wording.h"

/* --- figures --- */

/* Thousandths without trailing zeros. */
static const char *plain(struct arena *arena, milli value)
{
    char *text = (char *)arena_printf(arena, "%lld.%03lld", (long long)(value / 1000), (long long)(value % 1000));
    size_t end = strlen(text);
    while (text[end - 1] == '0')
        end--;
    text[text[end - 1] == '.' ? end - 1 : end] = '\0';
    return text;
}

static const char *range_text(struct arena *arena, struct range range)
{
    const char *low = plain(arena, range.low);
    return range.high > range.low ? arena_printf(arena, "%s-%s", low, plain(arena, range.high)) : low;
}

static const char *time_text(struct arena *arena, int seconds)
{
    return arena_printf(arena, "%d:%02d", seconds / 60, seconds % 60);
}

static void add_rest(struct arena *arena, const char *word, int low, int high, struct text *out)
{
    if (high > low)
        text_addf(out, " %s %s-%s", word, time_text(arena, low), time_text(arena, high));
    else if (high > 0)
        text_addf(out, " %s %s", word, time_text(arena, high));
}

/* --- sets --- */

static const char *unit_text(const struct item *item, const struct part *part)
{
    switch (part->unit) {
    case UNIT_SECONDS: return part->max ? "" : " s";
    case UNIT_METRES: return " m";
    case UNIT_CONTACTS: return part->max ? "" : " contacts";
    case UNIT_STRIKES: return part->max || part->several || item->exercise->counts != UNIT_STRIKES ? "" : " strikes";
    default: return "";
    }
}

static const char *side_text(const struct part *part)
{
    static const char *const sides[] = {
        [DOSE_WHOLE] = "",           [DOSE_EACH_SIDE] = " each side", [DOSE_EACH_WAY] = " each way",
        [DOSE_ORTHODOX] = " orthodox", [DOSE_SOUTHPAW] = " southpaw",   [DOSE_LEFT] = " left",
        [DOSE_RIGHT] = " right"};
    switch (part->workers) {
    case WORKER_LEAD_HAND: return " lead hand";
    case WORKER_REAR_HAND: return " rear hand";
    case WORKER_LEAD_LEG: return " lead leg";
    case WORKER_REAR_LEG: return " rear leg";
    default: return sides[part->side];
    }
}

static void add_part(struct arena *arena, const struct item *item, const struct part *part, struct text *out)
{
    text_addf(out, "%s%s", part->max ? "max" : range_text(arena, part->amount), unit_text(item, part));
}

static void add_amounts(struct arena *arena, const struct item *item, const struct set_run *run, struct text *out)
{
    if (run->hold)
        text_add(out, "hold ");
    if (run->alternating) {
        const struct part whole = wording_whole(run);
        add_part(arena, item, &whole, out);
        text_add(out, " alternating stances");
        return;
    }
    for (size_t i = 0; i < run->part_count; i++) {
        text_add(out, i ? " + " : "");
        add_part(arena, item, &run->parts[i], out);
        text_add(out, side_text(&run->parts[i]));
    }
}

static const char *mass_text(struct arena *arena, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(arena, "%s", mass_format(value, unit, text));
}

static void add_kilograms(struct arena *arena, const struct load *load, struct text *out)
{
    const char *made = mass_text(arena, load->made, load->unit);
    text_add(out, " @ ");
    if (load->pieces > 1)
        text_addf(out, "%d x ", load->pieces);
    text_add(out, made);
    if (load->asked_high > load->made)
        text_addf(out, "-%s", mass_text(arena, load->asked_high, load->unit));
    text_addf(out, " %s", mass_unit_name(load->unit));
}

static void add_body(struct arena *arena, const struct load *load, struct text *out)
{
    text_add(out, " @ ");
    if (load->percent.low != 100000 || load->percent.high != 100000)
        text_addf(out, "%s%% of ", range_text(arena, load->percent));
    text_add(out, "body mass");
    if (load->added > 0)
        text_addf(out, " + %s %s", mass_text(arena, load->added, load->unit), mass_unit_name(load->unit));
}

static void add_load(struct arena *arena, const struct load *load, struct text *out)
{
    switch (load->kind) {
    case LOAD_NONE: break;
    case LOAD_BAND: text_addf(out, " @ %s", load->thing); break;
    case LOAD_BODY: add_body(arena, load, out); break;
    case LOAD_MASS:
    case LOAD_PERCENT:
        if (load->made > 0)
            add_kilograms(arena, load, out);
    }
}

static void add_effort(struct arena *arena, const struct set_run *run, struct text *out)
{
    const char *band = range_text(arena, run->load.effort_band);
    switch (run->load.effort) {
    case EFFORT_NONE: break;
    case EFFORT_RPE: text_addf(out, " RPE %s", band); break;
    case EFFORT_RESERVE: text_addf(out, " %s in reserve", band); break;
    case EFFORT_ALL_OUT: text_add(out, " all-out"); break;
    case EFFORT_EASY: text_add(out, " easy"); break;
    case EFFORT_REP_MAX:
        if (!run->work_up)
            text_addf(out, " @ %sRM", band);
        break;
    case EFFORT_PULSE: text_addf(out, " pulse %s", band); break;
    }
}

static void add_run(struct arena *arena, const struct item *item, const struct set_run *run, struct text *out)
{
    text_add(out, " : ");
    if (run->work_up) {
        text_addf(out, "%d sets work up to a %sRM", run->count, range_text(arena, run->parts[0].amount));
    } else {
        if (run->count > 1 || run->repeats > 1)
            text_addf(out, "%d x ", run->count);
        if (run->repeats > 1)
            text_addf(out, "%d x ", run->repeats);
        add_amounts(arena, item, run, out);
    }
    if (run->within > 0)
        text_addf(out, " in %s", time_text(arena, run->within));
    add_load(arena, &run->load, out);
    add_effort(arena, run, out);
    if (run->tempo.given)
        text_addf(out, " tempo %s", wording_tempo(arena, &run->tempo));
    add_rest(arena, "rest", run->rest_low, run->rest_high, out);
    text_add_char(out, '\n');
}

/* --- items and blocks --- */

/* "A1 " of "A.1" */
static const char *ref_text(struct arena *arena, const char *ref)
{
    return *ref ? arena_printf(arena, "%c%s ", *ref, ref + 2) : "";
}

static void add_item(struct arena *arena, const struct item *item, struct text *out)
{
    if (item->after >= 0)
        text_addf(out, "        after %s\n", time_text(arena, item->after));
    for (size_t i = 0; i < item->run_count; i++) {
        text_add(out, "        ");
        if (item->filler)
            text_add(out, "filler ");
        else if (item->round)
            text_addf(out, "round %d : ", item->round);
        text_addf(out, "%s%s", ref_text(arena, item->ref), item->exercise->name.shown);
        add_run(arena, item, &item->runs[i], out);
        const struct load *load = &item->runs[i].load;
        if (load->kind == LOAD_PERCENT && load->made > 0)
            text_addf(out, "            was %s%%\n", range_text(arena, load->percent));
        if (item->cue && !i)
            text_addf(out, "            cue %s\n", item->cue);
        if (item->stop && !i && item->stop != item->exercise->stop)
            text_addf(out, "            stop %s\n", item->stop);
    }
}

static void add_header(struct arena *arena, const struct block *block, struct text *out)
{
    switch (block->kind) {
    case BLOCK_ROUNDS:
        if (block->times > 1)
            text_addf(out, " %d x", block->times);
        text_addf(out, " %d x %s", block->sets, time_text(arena, block->work));
        break;
    case BLOCK_EVERY:
        text_addf(out, " %s for %s", time_text(arena, block->interval), time_text(arena, block->work));
        break;
    case BLOCK_AS_MANY:
        text_addf(out, " in %s", time_text(arena, block->work));
        break;
    case BLOCK_FOR_TIME:
    case BLOCK_CIRCUIT:
        text_addf(out, " %d rounds", block->sets);
        if (block->work > 0)
            text_addf(out, " in %s", time_text(arena, block->work));
        break;
    default:
        text_addf(out, " %d sets", block->sets);
    }
    add_rest(arena, "rest", block->rest_low, block->rest_high, out);
    add_rest(arena, "block rest", block->times_rest, block->times_rest, out);
}

static void add_block(struct arena *arena, const struct block *block, struct text *out)
{
    text_addf(out, "    %s", block_kinds.names[block->kind]);
    if (block->letter)
        text_addf(out, " %c", block->letter);
    add_header(arena, block, out);
    text_add_char(out, '\n');
    if (block->keep)
        text_addf(out, "        keep %d\n", block->keep);
    if (block->on_purpose)
        text_addf(out, "        on purpose %s\n", block->on_purpose);
    for (size_t i = 0; i < block->item_count; i++)
        add_item(arena, &block->items[i], out);
}

/* --- the whole --- */

/* `53 min`, or minutes and seconds where it does not come out even. */
static const char *length_text(struct arena *arena, int seconds)
{
    return seconds % 60 ? time_text(arena, seconds) : arena_printf(arena, "%d min", seconds / 60);
}

static void add_planned(struct arena *arena, const struct occasion *occasion, struct text *out)
{
    text_addf(out, "    planned %s", length_text(arena, occasion->seconds));
    if (occasion->rpe.high > 0)
        text_addf(out, " RPE %s", range_text(arena, occasion->rpe));
    text_add_char(out, '\n');
    if (occasion->rounds > 0 && occasion->round_seconds > 0)
        text_addf(out, "    planned %d x %s\n", occasion->rounds, time_text(arena, occasion->round_seconds));
    else if (occasion->rounds > 0)
        text_addf(out, "    planned %d rounds\n", occasion->rounds);
    if (occasion->metres.high > 0)
        text_addf(out, "    planned %s m\n", range_text(arena, occasion->metres));
    if (occasion->pulse.high > 0)
        text_addf(out, "    planned pulse %s\n", range_text(arena, occasion->pulse));
}

void record_occasion(struct arena *arena, const struct occasion *occasion, struct text *out)
{
    char date[DATE_TEXT_SIZE];
    const char *what = occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    text_addf(out, "\nheld %s ", (date_format(occasion->date, date), date));
    if (occasion->clock >= 0)
        text_addf(out, "%02d:%02d ", occasion->clock / 3600, occasion->clock / 60 % 60);
    text_addf(out, "%s, %s\n    camp %s\n", occasion->athlete->name.shown, what, occasion->camp->name.shown);
    if (occasion->phase)
        text_addf(out, "    phase %s\n", occasion->phase->name.shown);
    text_addf(out, "    in week %d", occasion->week);
    if (occasion->session)
        text_addf(out, ", column %d", occasion->column + 1);
    if (occasion->weeks_out >= 0)
        text_addf(out, ", %d week%s out", occasion->weeks_out, occasion->weeks_out == 1 ? "" : "s");
    text_add_char(out, '\n');
    add_planned(arena, occasion, out);
    if (occasion->gym)
        text_addf(out, "    at %s\n", occasion->gym->name.shown);
    if (occasion->optional)
        text_add(out, "    optional\n");
    for (size_t i = 0; i < occasion->block_count; i++)
        add_block(arena, &occasion->blocks[i], out);
}

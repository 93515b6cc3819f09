#include "export/record.h"

#include "export/notation.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/season.h"
#include "wording/wording.h"

/* --- sets --- */

static void add_rest(struct arena *arena, const char *word, int low, int high, struct text *out)
{
    if (high > low)
        text_addf(out, " %s %s-%s", word, notation_time(arena, low), notation_time(arena, high));
    else if (high > 0)
        text_addf(out, " %s %s", word, notation_time(arena, high));
}

static void add_effort(struct arena *arena, const struct set_run *run, struct text *out)
{
    const char *band = notation_range(arena, run->load.effort_band);
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
        text_addf(out, "%d sets work up to a %sRM", run->count, notation_range(arena, run->parts[0].amount));
    } else {
        if (run->count > 1 || run->repeats > 1)
            text_addf(out, "%d x ", run->count);
        if (run->repeats > 1)
            text_addf(out, "%d x ", run->repeats);
        notation_amounts(arena, item, run, out);
    }
    if (run->within > 0)
        text_addf(out, " in %s", notation_time(arena, run->within));
    notation_load(arena, &run->load, LOAD_PLANNED, out);
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
        text_addf(out, "        after %s\n", notation_time(arena, item->after));
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
            text_addf(out, "            was %s%%\n", notation_range(arena, load->percent));
        if (item->test && !i)
            text_add(out, "            as a test\n");
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
        text_addf(out, " %d x %s", block->sets, notation_time(arena, block->work));
        break;
    case BLOCK_EVERY:
        text_addf(out, " %s for %s", notation_time(arena, block->interval), notation_time(arena, block->work));
        break;
    case BLOCK_AS_MANY:
        text_addf(out, " in %s", notation_time(arena, block->work));
        break;
    case BLOCK_FOR_TIME:
    case BLOCK_CIRCUIT:
        text_addf(out, " %d rounds", block->sets);
        if (block->work > 0)
            text_addf(out, " in %s", notation_time(arena, block->work));
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
    if (block->poor_sets)
        text_addf(out, "        on a poor day %d %s", block->poor_sets, wording_in_rounds(block) ? "rounds" : "sets");
    if (block->poor_sets && block->poor_rpe.high > 0)
        text_addf(out, " RPE %s", notation_range(arena, block->poor_rpe));
    if (block->poor_sets)
        text_add_char(out, '\n');
    if (block->on_purpose)
        text_addf(out, "        on purpose %s\n", block->on_purpose);
    for (size_t i = 0; i < block->item_count; i++)
        add_item(arena, &block->items[i], out);
}

/* --- the whole --- */

static void add_planned(struct arena *arena, const struct occasion *occasion, struct text *out)
{
    text_addf(out, "    planned %s", notation_length(arena, occasion->seconds));
    if (occasion->rpe.high > 0)
        text_addf(out, " RPE %s", notation_range(arena, occasion->rpe));
    text_add_char(out, '\n');
    if (occasion->rounds > 0 && occasion->round_seconds > 0)
        text_addf(out, "    planned %d x %s\n", occasion->rounds, notation_time(arena, occasion->round_seconds));
    else if (occasion->rounds > 0)
        text_addf(out, "    planned %d rounds\n", occasion->rounds);
    if (occasion->metres.high > 0)
        text_addf(out, "    planned %s m\n", notation_range(arena, occasion->metres));
    if (occasion->pulse.high > 0)
        text_addf(out, "    planned pulse %s\n", notation_range(arena, occasion->pulse));
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
    if (occasion->zone)
        text_addf(out, "    zone %s\n", zone_name(occasion->zone));
    if (occasion->zones)
        text_addf(out, "    time zones %s\n", wording_zones_written(arena, occasion->zones));
    for (size_t i = 0; i < occasion->block_count; i++)
        add_block(arena, &occasion->blocks[i], out);
}

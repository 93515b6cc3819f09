/* card_words.c - what a card's lines say, before anything is known of their size. */
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/card.h"
#include "layout/group.h"
#include "layout/marks.h"
#include "layout/ramp_words.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const char *timing(struct arena *arena, const struct item *item, int rounds)
{
    if (item->filler)
        return said(arena, " (in the rests)");
    if (item->round > 0)
        return arena_printf(arena, " (%s)",
                            wording_rounds(arena, item->round, item->round + rounds - 1));
    if (item->after >= 0)
        return arena_printf(arena, said(arena, " (after\u00a0%s)"), wording_clock(arena, item->after));
    return "";
}

/* Whether it is noted by a tick that the item was done: rounds by the clock, and what nobody counts anew each time. */
static bool is_ticked(const struct block *block)
{
    return block->kind == BLOCK_ROUNDS || block->kind == BLOCK_EVERY;
}

/* How many times the item is done and can be noted: ROUNDS if it names them; fillers not at all, nor what the score of a whole
 * block tells. */
static int blanks_of(const struct block *block, const struct item *item, int rounds)
{
    if (item->filler || block->kind == BLOCK_AS_MANY || block->kind == BLOCK_FOR_TIME)
        return 0;
    if (item->round > 0)
        return rounds;
    return wording_counts_sets(block) ? item->sets : block->sets;
}

/* What is written down of a whole block against the clock. */
static void add_scores(const struct block *block, struct card_line *line)
{
    static const char *const as_many[] = {SAID("rounds"), SAID("+ reps")}, *const for_time[] = {SAID("time")};
    line->scores = block->kind == BLOCK_AS_MANY ? as_many : for_time;
    line->score_count = block->kind == BLOCK_AS_MANY ? 2 : block->kind == BLOCK_FOR_TIME ? 1 : 0;
}

static const char *cue_of(const struct arena *arena, const struct item *item)
{
    if (item->cue)
        return said_as(arena, "cue", item->cue);
    return item->exercise->cue_count ? said_as(arena, "cue", item->exercise->cues[0]) : "";
}

/* ITEM done once, as set RUN. */
static struct item one_set(const struct item *item, struct set_run *run)
{
    struct item one = *item;
    run->count = 1;
    one.runs = run;
    one.run_count = 1;
    one.sets = 1;
    return one;
}

static const char *planned_of(struct arena *arena, const struct set_run *run)
{
    return wording_load_mass(arena, &run->load, false);
}

/* A row for each set where they differ. */
static void word_sets(struct arena *arena, bool pounds, const struct block *block, const struct item *item, struct card_line *line)
{
    if (item->run_count < 2 || line->ticks || !line->blanks || wording_intervals(block, item) || line->blanks != item->sets)
        return;
    struct card_set *sets = arena_alloc(arena, (size_t)item->sets * sizeof *sets);
    for (size_t r = 0; r < item->run_count; r++)
        for (int i = 0; i < item->runs[r].count; i++) {
            struct set_run *run = arena_alloc(arena, sizeof *run);
            *run = item->runs[r];
            const struct item one = one_set(item, run);
            struct card_set *set = &sets[line->set_count++];
            *set = (struct card_set){.dose = {.arena = arena}, .marks = {.arena = arena}, .planned = planned_of(arena, run)};
            dose_add_amounts(&set->dose, block, &one);
            dose_add_loads(&set->dose, block, &one, pounds, false);
            dose_add_shares(&set->dose, &one, pounds);
            dose_add_bars(&set->marks, &one);
        }
    line->sets = sets;
}

static struct card_line word_item(const struct card *card, const struct block *block, const struct item *item, int rounds)
{
    struct arena *arena = card->press.arena;
    bool pounds = card->occasion->athlete->pounds;
    struct card_line line = {.dose = {.arena = arena},
                             .marks = {.arena = arena},
                             .blanks = blanks_of(block, item, rounds),
                             .ticks = is_ticked(block),
                             .planned = item->run_count ? planned_of(arena, &item->runs[0]) : "",
                             .ramp = ramp_words(arena, card->occasion, item),
                             .turns = "",
                             .last = card_last(arena, card->request->programme, card->occasion, item),
                             .cue = cue_of(arena, item),
                             .stop = mark_stop_words(arena, item->stop),
                             .filler = item->filler};
    const char *out = wording_sides_out(arena, item);
    const char *ref = block->letter && block->item_count > 1 ? arena_printf(arena, "%c%d ", block->letter, item->index + 1) : "";
    line.name = arena_printf(arena, "%s%s%s%s%s%s", ref, wording_exercise(arena, item->exercise), timing(arena, item, rounds),
                             *out ? " (" : "", out, *out ? ")" : "");
    word_sets(arena, pounds, block, item, &line);
    dose_add_tempo(&line.marks, item, 1);
    if (line.set_count)
        return line;
    dose_add_amounts(&line.dose, block, item);
    dose_add_loads(&line.dose, block, item, pounds, false);
    dose_add_shares(&line.dose, item, pounds);
    dose_add_bars(&line.marks, item);
    return line;
}

/* The block's heading with the hour at which it begins, where a squad's room tells it. */
static const char *timed_heading(const struct card *card, const struct block *block)
{
    struct arena *arena = card->press.arena;
    const char *heading = wording_block(arena, block);
    const char *hour = card->room ? rota_block_hour(arena, card->room, card->member, block) : "";
    return *hour ? arena_printf(arena, "%s " WORDING_DOT " %s", hour, heading) : heading;
}

void card_words(struct card *card)
{
    struct arena *arena = card->press.arena;
    struct card_line *lines = NULL;
    size_t capacity = 0;
    for (size_t b = 0; b < card->occasion->block_count; b++) {
        const struct block *block = &card->occasion->blocks[b];
        const char *heading = timed_heading(card, block);
        const char *continued = text_joined(arena, heading, said(arena, " \u00b7 continued"));
        const char *letter = block->letter ? arena_copy(arena, &block->letter, 1) : "";
        size_t rounds = 1;
        for (size_t i = 0; i < block->item_count; i += rounds) {
            const struct item *item = &block->items[i];
            rounds = group_rounds_alike(arena, block, i);
            lines = arena_grow(arena, lines, card->line_count, &capacity, sizeof *lines);
            struct card_line *line = &lines[card->line_count++];
            *line = word_item(card, block, item, (int)rounds);
            line->first = i == 0;
            line->letter = letter;
            line->heading = heading;
            line->continued = continued;
            line->poor = wording_poor_day(arena, block);
            if (i + rounds >= block->item_count)
                add_scores(block, line);
            if (card->room && !item->filler)
                line->turns = rota_turns(arena, card->room, card->member, block, item->index);
        }
    }
    card->lines = lines;
}

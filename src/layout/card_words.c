/* card_words.c - what a card's lines say, before anything is known of their size. */
#include <string.h>

#include "base/text.h"
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
        return " (in the rests)";
    if (item->round > 0)
        return arena_printf(arena, " (%s)",
                            wording_rounds(arena, item->round, item->round + rounds - 1));
    if (item->after >= 0)
        return arena_printf(arena, " (after" WORDING_GAP "%s)", wording_clock(arena, item->after));
    return "";
}

/* How many times the item is done and can be noted: ROUNDS if it names them; fillers not at all. */
static int blanks_of(const struct block *block, const struct item *item, int rounds)
{
    if (item->filler)
        return 0;
    if (block->kind == BLOCK_AS_MANY || block->kind == BLOCK_FOR_TIME)
        return 1;
    if (item->round > 0)
        return rounds;
    return wording_counts_sets(block) ? item->sets : block->sets;
}

static const char *cue_of(const struct item *item)
{
    if (item->cue)
        return item->cue;
    return item->exercise->cue_count ? item->exercise->cues[0] : "";
}

static struct card_line word_item(struct arena *arena, bool pounds, const struct block *block,
                                  const struct item *item, int rounds)
{
    struct card_line line = {.dose = {.arena = arena},
                             .marks = {.arena = arena},
                             .blanks = blanks_of(block, item, rounds),
                             .ramp = "",
                             .turns = "",
                             .cue = cue_of(item),
                             .stop = mark_stop_words(arena, item->stop),
                             .filler = item->filler};
    const char *out = wording_sides_out(item);
    line.name = arena_printf(arena, "%s%s%s%s%s", item->exercise->name.shown, timing(arena, item, rounds),
                             *out ? " (" : "", out, *out ? ")" : "");
    dose_add_amounts(&line.dose, block, item);
    dose_add_loads(&line.dose, block, item, pounds, false);
    dose_add_shares(&line.dose, item, pounds);
    dose_add_tempo(&line.marks, item, 1);
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
    const struct athlete *athlete = card->occasion->athlete;
    struct card_line *lines = NULL;
    size_t capacity = 0;
    for (size_t b = 0; b < card->occasion->block_count; b++) {
        const struct block *block = &card->occasion->blocks[b];
        const char *heading = timed_heading(card, block);
        const char *continued = arena_printf(arena, "%s " WORDING_DOT " continued", heading);
        const char *letter = block->letter ? arena_copy(arena, &block->letter, 1) : "";
        size_t rounds = 1;
        for (size_t i = 0; i < block->item_count; i += rounds) {
            const struct item *item = &block->items[i];
            rounds = group_rounds_alike(arena, block, i);
            lines = arena_grow(arena, lines, card->line_count, &capacity, sizeof *lines);
            struct card_line *line = &lines[card->line_count++];
            *line = word_item(arena, athlete->pounds, block, item, (int)rounds);
            line->first = i == 0;
            line->letter = letter;
            line->heading = heading;
            line->continued = continued;
            line->poor = wording_poor_day(arena, block);
            if (card->room && !item->filler)
                line->turns = rota_turns(arena, card->room, card->member, block, item->index);
            line->ramp = ramp_words(arena, card->occasion, item);
        }
    }
    card->lines = lines;
}

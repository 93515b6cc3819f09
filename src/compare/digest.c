#include "compare/digest.h"

#include <string.h>

#include "base/arena.h"
#include "base/text.h"
#include "figures/zone.h"
#include "measure/clocks.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

void digest_number(struct digest *digest, int64_t number)
{
    digest->hash = (digest->hash ^ (uint64_t)number) * UINT64_C(0x9e3779b97f4a7c15);
    digest->hash ^= digest->hash >> 32;
}

void digest_words(struct digest *digest, const char *words)
{
    if (words)
        digest->hash = text_hash(digest->hash, words, strlen(words));
    else
        digest_number(digest, -1);
}

static void add_range(struct digest *digest, struct range range)
{
    digest_number(digest, range.low);
    digest_number(digest, range.high);
}

/* --- loads and sets --- */

static void add_plating(struct digest *digest, const struct plating *plating)
{
    digest_words(digest, plating->bar ? plating->bar->name.folded : NULL);
    digest_number(digest, plating->bar ? plating->bar->mass : 0);
    digest_number(digest, plating->collar);
    digest_number(digest, plating->one_sleeve | plating->both_units << 1);
    digest_number(digest, plating->disc_count);
    for (int i = 0; i < plating->disc_count; i++)
        digest_number(digest, plating->discs[i]);
}

static void add_load(struct digest *digest, const struct load *load, unsigned sight)
{
    bool asked = sight & DIGEST_SHARES || load->made <= 0;
    digest_number(digest, load->kind);
    add_range(digest, asked ? load->percent : (struct range){0});
    digest_number(digest, asked ? load->asked : 0);
    digest_number(digest, load->made);
    digest_number(digest, load->asked_high);
    digest_number(digest, load->added);
    digest_number(digest, load->unit);
    digest_number(digest, load->pieces);
    digest_words(digest, load->thing);
    digest_number(digest, load->estimated);
    digest_number(digest, load->best && load->estimated ? load->best->equation : -1);
    add_range(digest, load->target);
    digest_number(digest, load->effort);
    add_range(digest, load->effort_band);
    add_plating(digest, &load->plating);
}

static void add_part(struct digest *digest, const struct part *part)
{
    add_range(digest, part->amount);
    digest_number(digest, part->unit);
    digest_number(digest, part->side);
    digest_number(digest, part->workers);
    digest_number(digest, part->max | part->several << 1 | part->assumed_each << 2);
}

static void add_tempo(struct digest *digest, const struct item_tempo *tempo)
{
    digest_number(digest, tempo->lower);
    digest_number(digest, tempo->low_pause);
    digest_number(digest, tempo->lift);
    digest_number(digest, tempo->high_pause);
    digest_number(digest, tempo->lower_fast | tempo->low_pause_fast << 1 | tempo->lift_fast << 2 |
                              tempo->high_pause_fast << 3 | tempo->given << 4);
}

static void add_run(struct digest *digest, const struct set_run *run, unsigned sight)
{
    digest_number(digest, run->count);
    digest_number(digest, (int64_t)run->part_count);
    for (size_t i = 0; i < run->part_count; i++)
        add_part(digest, &run->parts[i]);
    digest_number(digest, run->hold | run->alternating << 1 | run->cut << 2 | run->work_up << 3);
    digest_number(digest, run->repeats);
    digest_number(digest, run->rest_low);
    digest_number(digest, run->rest_high);
    digest_number(digest, run->within);
    add_load(digest, &run->load, sight);
    add_tempo(digest, &run->tempo);
}

/* --- exercises and lines --- */

/* A memo may forget: two exercises with the same place replace each other. */
enum { REMEMBERED_BITS = 9 };

struct remembered {
    const struct exercise *of;
    uint64_t hash;
};

struct digest_memo {
    struct remembered of[2][1 << REMEMBERED_BITS]; /* without notes, and with them */
};

struct digest_memo *digest_memo_new(struct arena *arena)
{
    return arena_alloc(arena, sizeof(struct digest_memo));
}

static void add_notes(struct digest *digest, const struct exercise *exercise)
{
    digest_words(digest, exercise->stop);
    digest_words(digest, exercise->easier ? exercise->easier->name.shown : NULL);
    digest_words(digest, exercise->harder ? exercise->harder->name.shown : NULL);
    digest_number(digest, exercise->patterns);
    for (size_t i = 0; i < exercise->fault_count; i++) {
        digest_words(digest, exercise->faults[i].fault);
        digest_words(digest, exercise->faults[i].fix);
    }
}

/* What it counts as is left out: that shows in the tallies of the sheets that have them. */
static uint64_t exercise_hash(const struct exercise *exercise, bool notes)
{
    struct digest digest = {0};
    size_t cues = notes ? exercise->cue_count : exercise->cue_count > 0;
    digest_words(&digest, exercise->name.shown);
    digest_number(&digest, exercise->kind);
    digest_number(&digest, exercise->side);
    digest_number(&digest, exercise->weigh);
    digest_number(&digest, exercise->counts);
    for (size_t i = 0; i < exercise->need_count; i++) {
        digest_words(&digest, exercise->needs[i].name.shown);
        digest_number(&digest, exercise->needs[i].count);
    }
    for (size_t i = 0; i < cues; i++)
        digest_words(&digest, exercise->cues[i]);
    if (notes)
        add_notes(&digest, exercise);
    return digest.hash;
}

static uint64_t remembered_hash(struct digest_memo *memo, const struct exercise *exercise, bool notes)
{
    const uint64_t place = (uint64_t)(uintptr_t)exercise * UINT64_C(0x9e3779b97f4a7c15);
    struct remembered *one = &memo->of[notes][place >> (64 - REMEMBERED_BITS)];
    if (one->of != exercise)
        *one = (struct remembered){exercise, exercise_hash(exercise, notes)};
    return one->hash;
}

void digest_exercise(struct digest *digest, const struct exercise *exercise, unsigned sight)
{
    bool notes = sight & DIGEST_NOTES;
    digest_number(digest, (int64_t)(digest->memo ? remembered_hash(digest->memo, exercise, notes)
                                                 : exercise_hash(exercise, notes)));
}

void digest_item(struct digest *digest, const struct item *item, unsigned sight)
{
    digest_words(digest, item->ref);
    digest_exercise(digest, item->exercise, sight);
    digest_words(digest, item->line_exercise ? item->line_exercise->name.shown : NULL);
    digest_number(digest, item->exchange);
    digest_number(digest, item->index);
    digest_number(digest, item->filler | item->load_left << 1 | item->own << 2 | item->test << 3);
    digest_number(digest, item->round);
    digest_number(digest, item->after);
    digest_number(digest, item->sets);
    digest_number(digest, item->sides_out);
    digest_words(digest, item->cue);
    digest_words(digest, item->stop);
    digest_number(digest, (int64_t)item->run_count);
    for (size_t i = 0; i < item->run_count; i++)
        add_run(digest, &item->runs[i], sight);
}

void digest_block(struct digest *digest, const struct block *block)
{
    digest_number(digest, block->kind);
    digest_number(digest, block->letter);
    digest_number(digest, block->sets);
    digest_number(digest, block->work);
    digest_number(digest, block->interval);
    digest_number(digest, block->rest_low);
    digest_number(digest, block->rest_high);
    digest_number(digest, block->times);
    digest_number(digest, block->times_rest);
    digest_number(digest, block->seconds);
    digest_number(digest, block->starts);
}

/* --- occasions --- */

static void add_session(struct digest *digest, const struct session *session)
{
    digest_words(digest, session->purpose);
    digest_number(digest, session->order);
    digest_number(digest, session->free_blocks);
}

static void add_activity(struct digest *digest, const struct occasion *occasion)
{
    const struct activity *activity = occasion->activity;
    digest_number(digest, activity->rest | activity->bout << 1 | activity->counts_rounds << 2);
    const struct bout *bout = occasion_bout(occasion);
    digest_words(digest, bout ? bout->words : NULL);
    digest_number(digest, occasion->rounds);
    digest_number(digest, occasion->round_seconds);
    add_range(digest, occasion->pulse);
    add_range(digest, occasion->metres);
    if (occasion->zones)
        digest_number(digest, occasion->zones);
}

static void add_outcome(struct digest *digest, const struct outcome *outcome)
{
    digest_number(digest, outcome->logged | outcome->timed << 1);
    digest_number(digest, outcome->seconds);
    add_range(digest, outcome->rpe);
}

static void add_phase(struct digest *digest, const struct occasion *occasion)
{
    const struct phase *phase = occasion->phase;
    bool known = phase && phase->bout && phase->bout->result_known && phase->bout->checked;
    digest_words(digest, phase ? phase->name.shown : NULL);
    digest_number(digest, phase && phase->after_bout ? 1 + known : 0);
}

/* Only as far as sheets count them: up to seven, else -1. */
static int days_to_bout(const struct occasion *occasion)
{
    int days = wording_days_to_bout(occasion->camp, occasion->date);
    return days > 7 ? -1 : days;
}

/* All but the blocks and what logs say. */
static void add_frame(struct digest *digest, const struct occasion *occasion)
{
    digest_number(digest, occasion->seconds);
    digest_number(digest, occasion->optional | (occasion->deload != 0) << 1);
    digest_words(digest, occasion->attendance ? occasion->attendance->run_by : NULL);
    add_range(digest, occasion->rpe);
    if (occasion->session)
        add_session(digest, occasion->session);
    else
        add_activity(digest, occasion);
}

void digest_work(struct digest *digest, const struct occasion *occasion, unsigned sight)
{
    add_frame(digest, occasion);
    if (sight & DIGEST_OUTCOME)
        add_outcome(digest, &occasion->outcome);
    digest_number(digest, (int64_t)occasion->block_count);
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        digest_block(digest, block);
        digest_number(digest, (int64_t)block->item_count);
        for (size_t i = 0; i < block->item_count; i++)
            digest_item(digest, &block->items[i], sight);
    }
}

static void add_logged(struct digest *digest, const struct logged_set *set)
{
    digest_number(digest, set->count);
    digest_number(digest, set->kind);
    digest_number(digest, set->effort);
    digest_number(digest, set->pieces);
    digest_number(digest, set->load);
    digest_words(digest, set->thing);
    digest_number(digest, set->effort_band.low);
    digest_number(digest, set->effort_band.high);
    for (size_t i = 0; i < set->part_count; i++) {
        digest_number(digest, set->parts[i].amount.low);
        digest_number(digest, set->parts[i].amount.high);
        digest_number(digest, set->parts[i].unit | set->parts[i].side << 8);
    }
}

void digest_log(struct digest *digest, const struct done *log)
{
    digest_number(digest, !log ? 0 : log->missed ? 1 : 2);
    for (size_t i = 0; log && i < log->line_count; i++) {
        const struct logged_line *line = &log->lines[i];
        digest_words(digest, line->ref);
        digest_number(digest, line->skipped | line->poor << 1);
        digest_number(digest, (int64_t)line->set_count);
        for (size_t k = 0; k < line->set_count; k++)
            add_logged(digest, &line->sets[k]);
    }
}

void digest_zone(struct digest *digest, const struct zone *zone)
{
    digest_words(digest, zone ? zone_name(zone) : NULL);
}

static void add_when(struct digest *digest, const struct occasion *occasion)
{
    digest_number(digest, occasion->date);
    digest_number(digest, occasion->clock);
    digest_number(digest, occasion->weeks_out);
    digest_number(digest, days_to_bout(occasion));
    add_phase(digest, occasion);
    digest_zone(digest, zone_abroad(occasion));
    digest_words(digest, occasion->session ? occasion->session->name.shown : occasion->activity->name.shown);
}

void digest_occasion(struct digest *digest, const struct occasion *occasion, unsigned sight)
{
    add_when(digest, occasion);
    digest_work(digest, occasion, sight);
}

void digest_outline(struct digest *digest, const struct occasion *occasion)
{
    add_when(digest, occasion);
    add_frame(digest, occasion);
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            digest_words(digest, occasion->blocks[b].items[i].exercise->name.shown);
}

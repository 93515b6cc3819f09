/* resolve_items.c - a session's template made definite for one athlete on one day. */
#include <string.h>

#include "measure/avoid.h"
#include "measure/bars.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/person.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/season.h"
#include "resolve/template.h"

/* --- headers --- */

static int header_count(struct resolver *r, struct figures *figures, int column, const char *what)
{
    struct range value = figures->values[figures_column(r, figures, column)];
    if (value.low % 1000 || value.low < 1000 || value.low > 100000 || value.low != value.high || figures->list) {
        diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "%s is a whole number from 1 to 100", what);
        return 1;
    }
    return (int)(value.low / 1000);
}

static int header_seconds(struct resolver *r, struct figures *figures, int column, bool high)
{
    if (!figures)
        return 0;
    struct range value = figures->values[figures_column(r, figures, column)];
    int seconds = figures_seconds(r, figures, high ? value.high : value.low);
    return seconds < 0 ? 0 : seconds;
}

/* A length that the clock must know: no range. */
static int header_length(struct resolver *r, struct figures *figures, int column)
{
    int seconds = header_seconds(r, figures, column, false);
    if (figures && seconds != header_seconds(r, figures, column, true))
        diag_error(r->diag, DIAG_NOT_ONE_TIME, figures->span, "the clock needs one time here, not a range");
    return seconds;
}

static void settle_poor_day(struct resolver *r, const struct dose *poor, int column, struct block *block)
{
    struct figures *rpe = poor->effort.given ? poor->effort.figures : NULL;
    block->poor_sets = header_count(r, poor->sets, column, "the number of sets");
    if (rpe)
        block->poor_rpe = rpe->values[figures_column(r, rpe, column)];
}

static void settle_rounds(struct resolver *r, const struct dose *header, int column, struct block *block)
{
    if (header->part_count != 1 || !header->times) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_ROUNDS, header->span,
                                             "rounds need a number and a length");
        diag_help(r->diag, finding, "write them like `rounds 4 x 2:00 rest 0:40`");
        block->sets = block->sets ? block->sets : 1;
        return;
    }
    block->sets = header_count(r, header->times, column, "the number of rounds");
    block->times = header->outer_times ? header_count(r, header->outer_times, column, "how often") : 1;
    block->work = header_length(r, header->parts[0].figures, column);
}

static const char *clock_words(struct resolver *r, int seconds)
{
    return arena_printf(r->arena, "%d:%02d", seconds / 60, seconds % 60);
}

static void report_every(struct resolver *r, const struct template_block *from, const struct block *block)
{
    if (!block->interval || !block->work) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_EVERY, from->span, "how often, and for how long?");
        diag_help(r->diag, finding, "write it like `every 1:00 for 10:00`");
        return;
    }
    int times = block->work / block->interval;
    struct finding *finding =
        diag_error(r->diag, DIAG_BAD_EVERY, from->span, "%s does not go evenly into %s",
                   clock_words(r, block->interval), clock_words(r, block->work));
    diag_help(r->diag, finding, "make it last %s or %s", clock_words(r, times * block->interval),
              clock_words(r, (times + 1) * block->interval));
}

void block_settle_header(struct resolver *r, const struct template_block *from, int column, struct block *block)
{
    const struct dose none = {.span = from->span};
    const struct dose *header = from->header ? from->header : &none;
    *block = (struct block){.kind = from->kind, .letter = from->letter, .keep = from->keep, .on_purpose = from->on_purpose, .times = 1,
                            .span = from->span};
    if (header->sets)
        block->sets = header_count(r, header->sets, column, "the number of sets");
    if (from->poor)
        settle_poor_day(r, from->poor, column, block);
    block->rest_low = header_seconds(r, header->rest, column, false);
    block->rest_high = header_seconds(r, header->rest, column, true);
    block->times_rest = header_length(r, header->block_rest, column);
    if (from->kind == BLOCK_ROUNDS) {
        settle_rounds(r, header, column, block);
    } else if (from->kind == BLOCK_EVERY) {
        block->interval = header->part_count ? header_length(r, header->parts[0].figures, column) : 0;
        block->work = header_length(r, header->over, column);
        if (!block->interval || !block->work || block->work % block->interval)
            report_every(r, from, block);
        else
            block->sets = block->work / block->interval;
    } else if (from->kind == BLOCK_AS_MANY) {
        block->work = header_length(r, header->within, column);
        if (!block->work) {
            struct finding *finding = diag_error(r->diag, DIAG_LINE_TOO_SHORT, from->span, "this block gives no time");
            diag_help(r->diag, finding, "write it like `as many rounds as possible in 8:00`");
        }
    } else if (header->part_count || header->times) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_HEADER, header->span, "a block's line gives sets and rest");
        diag_help(r->diag, finding, "write it like `%s A 3 sets rest 1:30`", block_kinds.names[from->kind]);
    } else if (from->kind == BLOCK_FOR_TIME) {
        block->work = header_length(r, header->within, column); /* a cap; without one, 0 */
    }
}

/* --- items --- */

struct settling {
    struct resolver *r;
    const struct occasion *occasion;
    struct dose_setting setting;
    bool poisoned; /* a line of the session was not understood */
    struct item *items;
    size_t count, capacity;
};

/* A line's own rest (`5 @ 80% rest 2:00`) comes between its set and what follows. In a set with repeats or parts it
 * lies inside the set and stays there. */
static const struct set_run *own_rest(const struct item *item)
{
    const struct set_run *run = item->runs;
    if (!item->run_count || run->repeats != 1 || !run->rest_high)
        return NULL;
    return run->part_count > 1 && run->parts[0].side == DOSE_WHOLE ? NULL : run;
}

static void add_item(struct settling *s, const struct template_item *from, int round)
{
    struct resolver *r = s->r;
    struct choice choice = choose_work(r, from, s->occasion);
    s->items = arena_grow(r->arena, s->items, s->count, &s->capacity, sizeof *s->items);
    struct item *item = &s->items[s->count];
    *item = (struct item){.exercise = choice.exercise,
                          .line_exercise = choice.exercise == from->exercise ? NULL : from->exercise,
                          .exchange = choice.exchange, .load_left = choice.left != NULL, .ref = from->ref, .index = from->index,
                          .filler = from->filler, .test = from->test, .round = round,
                          .after = s->count ? from->after : -1, /* the line before it may have been dropped */
                          .cue = from->cue, .next = from->next, .why = choice.why,
                          .stop = from->stop ? from->stop : choice.exercise->stop, .own = choice.own,
                          .without = from->without,
                          .without_count = choice.exercise == from->exercise ? from->without_count : 0,
                          .span = choice.span};
    s->setting.items = s->items;
    s->setting.item_count = s->count;
    if (choice.dose == from->dose)
        dose_settle_alike(r, choice.dose, &s->setting, item);
    else
        dose_settle(r, choice.dose, &s->setting, item);
    leave_sides_out(r, s->occasion, item);
    s->count++;
}

/* Lines that name no round apply to the rounds that no line names. */
static void add_round_items(struct settling *s, const struct template_block *from, const struct block *block)
{
    for (size_t i = 0; i < from->item_count; i++) {
        const struct template_item *item = &from->items[i];
        if (item->round_last > block->sets)
            diag_error(s->r->diag, DIAG_NO_SUCH_ROUND, item->span, "this block has %d rounds", block->sets);
        for (int round = 1; round <= block->sets; round++) {
            bool named = false;
            for (size_t k = 0; k < from->item_count && !item->round_first; k++)
                named = named || (from->items[k].round_first && round >= from->items[k].round_first &&
                                  round <= from->items[k].round_last);
            bool in = item->round_first ? round >= item->round_first && round <= item->round_last : !named;
            if (in && !item->filler)
                add_item(s, item, round);
        }
        if (item->filler)
            add_item(s, item, 0);
    }
}

static bool has_named_rounds(const struct template_block *block)
{
    for (size_t i = 0; i < block->item_count; i++)
        if (block->items[i].round_first)
            return true;
    return false;
}

/* How many lines share one round: without amounts of their own they share its time. */
static int sharing(const struct template_block *from)
{
    int count = 0;
    for (size_t i = 0; i < from->item_count; i++)
        count += !from->items[i].filler && !from->items[i].round_first;
    return count ? count : 1;
}

static void two_rests(struct resolver *r, const struct set_run *run, struct span other)
{
    struct finding *finding = diag_error(r->diag, DIAG_TWO_RESTS, run->span,
                                         "two rests are given for the time after this set");
    diag_note(r->diag, finding, other, "the other is here");
    diag_help(r->diag, finding, "leave one of them out, or give the exercise a block of its own");
}

/* Are all the sets of one line done before those of the next? */
static bool is_straight(const struct block *block)
{
    return block->kind == BLOCK_STRAIGHT || block->kind == BLOCK_CLUSTER || block->kind == BLOCK_LADDER;
}

/* The rest in the line of item INDEX is the time up to the next line of a pair or circuit, or else the block's rest. */
static void place_rest(struct settling *s, struct block *block, size_t index, const struct set_run *run)
{
    struct item *next = index + 1 < s->count && !is_straight(block) ? &s->items[index + 1] : NULL;
    if (next && next->after >= 0)
        two_rests(s->r, run, next->span);
    else if (next)
        next->after = (run->rest_low + run->rest_high + 1) / 2;
    else if (block->rest_high && (block->rest_low != run->rest_low || block->rest_high != run->rest_high))
        two_rests(s->r, run, block->span);
    else {
        block->rest_low = run->rest_low;
        block->rest_high = run->rest_high;
    }
}

static void place_rests(struct settling *s, struct block *block)
{
    for (size_t i = 0; i < s->count; i++) {
        const struct set_run *first = block->kind == BLOCK_ROUNDS ? NULL : own_rest(&s->items[i]);
        if (!first)
            continue;
        place_rest(s, block, i, first);
        for (size_t k = 0; k < s->items[i].run_count; k++) {
            struct set_run *run = (struct set_run *)&s->items[i].runs[k];
            run->rest_low = run->rest_high = 0;
            time_run(run, s->items[i].exercise, &time_usual);
        }
    }
}

static bool is_any_from_stance(const struct template_block *block)
{
    bool any = false;
    for (size_t i = 0; i < block->item_count; i++)
        any |= block->items[i].exercise && block->items[i].exercise->side == SIDE_PER_STANCE;
    return any;
}

static void report_no_turns(struct resolver *r, const struct template_block *block)
{
    struct finding *finding = diag_error(r->diag, DIAG_NOT_IN_TURN, block->header->alternating,
                                         "nothing in this block is done from a stance");
    diag_help(r->diag, finding, "leave `alternating stances` out");
}

static void settle_block(struct settling *s, const struct template_block *from, struct block *block)
{
    struct resolver *r = s->r;
    size_t errors = resolver_errors(r);
    block_settle_header(r, from, s->occasion->column, block);
    s->setting.poisoned = s->poisoned || resolver_errors(r) > errors;
    s->items = arena_alloc(r->arena, from->item_count * sizeof *s->items);
    s->capacity = from->item_count; /* lines of single rounds can be more */
    s->count = 0;
    s->setting.block = from->kind;
    s->setting.sets = block->sets;
    s->setting.alternates = from->header && from->header->alternates;
    s->setting.work = from->kind == BLOCK_ROUNDS ? block->work / sharing(from) : 0;
    if (from->kind == BLOCK_ROUNDS && has_named_rounds(from))
        add_round_items(s, from, block);
    else
        for (size_t i = 0; i < from->item_count; i++)
            add_item(s, &from->items[i], 0);
    if (s->setting.alternates && !is_any_from_stance(from))
        report_no_turns(r, from);
    place_rests(s, block);
    for (size_t i = 0; i < s->count && from->kind != BLOCK_ROUNDS; i++)
        if (s->items[i].sets > block->sets)
            block->sets = s->items[i].sets;
    block->items = s->items;
    block->item_count = s->count;
    if (block_shares_time(block))
        bars_part(r->arena, occasion_gym(s->occasion), s->items, s->count);
}

/* Should the athlete lift a little less rather than a little more? */
static bool is_spared(const struct occasion *occasion, int today)
{
    bool taper = occasion->phase && strcmp(occasion->phase->name.folded, "taper") == 0;
    return taper || athlete_restricted(occasion->athlete, occasion->date) ||
           athlete_held(occasion->athlete, occasion->date, today) ||
           athlete_under(occasion->athlete, occasion->date, 18);
}

void occasion_settle(struct resolver *r, const struct template *template, struct occasion *occasion)
{
    struct block *blocks = arena_alloc(r->arena, template->block_count * sizeof *blocks);
    struct settling s = {.r = r, .occasion = occasion, .poisoned = resolver_is_poisoned(r, template),
                         .setting = {.athlete = occasion->athlete, .gym = occasion_gym(occasion), .date = occasion->date,
                                     .column = occasion->column, .blocks = blocks, .down = is_spared(occasion, r->today)}};
    for (size_t i = 0; i < template->block_count; i++) {
        s.setting.block_count = i;
        settle_block(&s, &template->blocks[i], &blocks[i]);
    }
    occasion->blocks = blocks;
    occasion->block_count = template->block_count;
    occasion->seconds = time_session(blocks, template->block_count, occasion->athlete, occasion_gym(occasion), occasion->date,
                                     &time_usual);
}

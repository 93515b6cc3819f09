/* resolve_items.c - a session's template made definite for one athlete on one day. */
#include <string.h>

#include "measure/avoid.h"
#include "measure/bars.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/person.h"
#include "resolve/template.h"
#include "measure/time.h"

/* --- who does what --- */

static bool variant_holds(const struct variant *variant, const struct occasion *occasion)
{
    const struct athlete *athlete = occasion->athlete;
    int age = athlete_age(athlete, occasion->date);
    switch (variant->kind) {
    case VARIANT_ATHLETE: return variant->athlete == athlete;
    case VARIANT_KIT: return athlete->gym && gym_count(athlete->gym, variant->kit) == 0;
    case VARIANT_AGE:
        return age >= 0 && (!variant->age_below || age < variant->age_below) && age >= variant->age_from;
    case VARIANT_LEVEL: return athlete_level_on(athlete, occasion->date) == variant->level;
    case VARIANT_WEEKS: return occasion->week >= variant->first && occasion->week <= variant->last;
    }
    return false;
}

/* Weeks first narrow the line itself; of the others the most specific wins: athlete, kit, age, lifting age. */
static bool more_specific(const struct variant *a, const struct variant *b)
{
    if (a->kind == VARIANT_WEEKS)
        return a->last - a->first < b->last - b->first;
    return a->kind < b->kind;
}

static void report_tie(struct resolver *r, const struct variant *a, const struct variant *b,
                       const struct occasion *occasion)
{
    struct finding *finding = diag_error(r->diag, "variants-tie", b->span,
                                         "two variants of one line hold for %s", occasion->athlete->name.shown);
    diag_note(r->diag, finding, a->span, "the other is here");
    diag_help(r->diag, finding, "make one of them narrower, or name the athlete");
}

/* The variant of the line that holds: among its weeks, or among the others. */
static struct variant *choose(struct resolver *r, const struct template_item *item,
                              const struct occasion *occasion, bool weeks)
{
    struct variant *best = NULL;
    for (size_t i = 0; i < item->variant_count; i++) {
        struct variant *variant = &item->variants[i];
        if ((variant->kind == VARIANT_WEEKS) != weeks || !variant_holds(variant, occasion))
            continue;
        if (!best || more_specific(variant, best)) {
            best = variant;
        } else if (!more_specific(best, variant)) {
            variant->met = true;
            report_tie(r, best, variant, occasion);
        }
    }
    if (best)
        best->met = true;
    return best;
}

/* A substitute keeps the dose, but a percentage only where the athlete has a best for it. */
static const struct dose *for_substitute(struct resolver *r, const struct dose *dose,
                                         const struct exercise *exercise, const struct occasion *occasion)
{
    bool share = dose && dose->load.given && dose->load.word == LOAD_WORD_FIGURE &&
                 dose->load.figures->measure == MEASURE_PERCENT;
    if (!share || athlete_best(occasion->athlete, exercise->base, occasion->date))
        return dose;
    struct dose *without = dose_merge(r, dose, NULL);
    without->load = (struct dose_load){0};
    return without;
}

static const char *variant_reason(struct resolver *r, const struct variant *variant, const struct athlete *athlete)
{
    switch (variant->kind) {
    case VARIANT_ATHLETE: return arena_printf(r->arena, "for %s", athlete->name.shown);
    case VARIANT_KIT: return arena_printf(r->arena, "no %s at %s", variant->kit, athlete->gym->name.shown);
    case VARIANT_AGE: return "for the age group";
    case VARIANT_LEVEL: return arena_printf(r->arena, "for %s", levels.names[variant->level]);
    case VARIANT_WEEKS: return "for these weeks";
    }
    return NULL;
}

/* gym_lacks, worked out once for each gym and exercise. */
static const struct need *find_lack(struct resolver *r, const struct gym *gym, const struct exercise *exercise)
{
    struct lack **lacks = &r->lacks[gym->number];
    if (!*lacks)
        *lacks = arena_alloc(r->arena, r->programme->exercise_count * sizeof **lacks);
    struct lack *lack = &(*lacks)[exercise->number];
    if (!lack->known)
        *lack = (struct lack){true, gym_lacks(gym, exercise)};
    return lack->need;
}

/* What the shelf says replaces an exercise whose kit the gym lacks. */
static const struct exercise *without_kit(struct resolver *r, const struct exercise *exercise,
                                          const struct athlete *athlete, const char **why)
{
    enum { LONGEST_CHAIN = 8 };
    for (int i = 0; i < LONGEST_CHAIN && athlete->gym; i++) {
        const struct need *lacking = find_lack(r, athlete->gym, exercise);
        const struct exercise *instead = NULL;
        for (size_t k = 0; lacking && k < exercise->without_count && !instead; k++)
            if (strcmp(exercise->without[k].kit.folded, lacking->name.folded) == 0)
                instead = exercise->without[k].instead;
        if (!instead)
            return exercise;
        *why = arena_printf(r->arena, "no %s at %s", lacking->name.shown, athlete->gym->name.shown);
        exercise = instead;
    }
    return exercise;
}

/* What a standing restriction says is done in place of what it bars. It is told as a line of the athlete's own would
 * be: that there is a restriction is for the coach alone. */
static const struct exercise *instead_of_avoided(struct resolver *r, const struct exercise *exercise,
                                                 const struct occasion *occasion, const char **why)
{
    const struct athlete *athlete = occasion->athlete;
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        if (avoid->instead && avoid_stands(avoid, occasion->date) && avoid_bars(avoid, exercise)) {
            *why = arena_printf(r->arena, "for %s", athlete->name.shown);
            return avoid->instead;
        }
    }
    return exercise;
}

struct choice {
    const struct exercise *exercise;
    const struct dose *dose;
    const char *why;
    bool load_gone; /* a share of a best, of which the exercise taken instead has none */
    bool kit_gone;  /* the last exchange was for kit that the gym lacks */
    bool own;       /* so chosen for the athlete */
    struct span span; /* of the line that says so */
};

/* Exchanges the exercise; the dose stays. */
static void exchange(struct resolver *r, struct choice *choice, const struct exercise *exercise,
                     const struct occasion *occasion)
{
    const struct dose *dose = for_substitute(r, choice->dose, exercise, occasion);
    choice->load_gone = choice->load_gone || dose != choice->dose;
    choice->exercise = exercise;
    choice->dose = dose;
}

/* Where the load goes with the exercise, nobody must find out at the bar. */
static void report_load_gone(struct resolver *r, const struct template_item *item, const struct occasion *occasion,
                             const struct choice *choice)
{
    struct finding *finding = diag_report(
        r->diag, SEVERITY_WARNING, "load-gone", item->span, "%s does %s here, without a load: %s",
        occasion->athlete->name.shown, choice->exercise->name.shown, choice->why);
    const struct gym *gym = choice->kit_gone ? occasion->athlete->gym : NULL;
    if (gym)
        diag_note(r->diag, finding, gym->name.span, "the kit of %s", gym->name.shown);
    diag_help(r->diag, finding, "say what is done instead, `for %s, %s : 8 @ RPE 7`%s",
              occasion->athlete->name.shown, choice->exercise->name.shown, gym ? ", or mend the gym's list" : "");
}

/* A restriction comes before what the gym lacks: what a physiotherapist chose is not to be undone by a missing bench. */
static void keep_from_avoided(struct resolver *r, struct choice *choice, const struct occasion *occasion)
{
    const struct exercise *instead = instead_of_avoided(r, choice->exercise, occasion, &choice->why);
    if (instead == choice->exercise)
        return;
    choice->kit_gone = false;
    choice->own = true;
    exchange(r, choice, instead, occasion);
}

static struct choice choose_work(struct resolver *r, const struct template_item *item,
                                 const struct occasion *occasion)
{
    struct choice choice = {.exercise = item->exercise, .dose = item->dose, .span = item->span};
    struct variant *weeks = choose(r, item, occasion, true);
    if (weeks) {
        choice.dose = dose_merge(r, choice.dose, weeks->dose);
        choice.span = weeks->span;
        choice.why = variant_reason(r, weeks, occasion->athlete);
    }
    struct variant *variant = choose(r, item, occasion, false);
    if (variant) {
        if (variant->exercise)
            exchange(r, &choice, variant->exercise, occasion);
        if (variant->dose && variant->dose->part_count)
            choice.load_gone = false; /* its own amount: the coach thought of what is done */
        choice.dose = dose_merge(r, choice.dose, variant->dose);
        choice.span = variant->span;
        choice.own = variant->kind != VARIANT_KIT;
        choice.why = variant_reason(r, variant, occasion->athlete);
    }
    keep_from_avoided(r, &choice, occasion);
    const struct exercise *there = without_kit(r, choice.exercise, occasion->athlete, &choice.why);
    if (there != choice.exercise) {
        choice.kit_gone = true;
        exchange(r, &choice, there, occasion);
        keep_from_avoided(r, &choice, occasion);
    }
    if (choice.load_gone && !choice.dose->load.given && !choice.dose->effort.given)
        report_load_gone(r, item, occasion, &choice);
    return choice;
}

/* --- headers --- */

static int header_count(struct resolver *r, struct figures *figures, int column, const char *what)
{
    struct range value = figures->values[figures_column(r, figures, column)];
    if (value.low % 1000 || value.low < 1000 || value.low > 100000 || value.low != value.high) {
        diag_error(r->diag, "bad-count", figures->span, "%s is a whole number from 1 to 100", what);
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
        diag_error(r->diag, "not-one-time", figures->span, "the clock needs one time here, not a range");
    return seconds;
}

static void settle_rounds(struct resolver *r, const struct dose *header, int column, struct block *block)
{
    if (header->part_count != 1 || !header->times) {
        struct finding *finding = diag_error(r->diag, "bad-rounds", header->span,
                                             "rounds need how many and how long");
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
        struct finding *finding = diag_error(r->diag, "bad-every", from->span, "how often, and for how long?");
        diag_help(r->diag, finding, "write it like `every 1:00 for 10:00`");
        return;
    }
    int times = block->work / block->interval;
    struct finding *finding =
        diag_error(r->diag, "bad-every", from->span, "%s does not come out even in %s",
                   clock_words(r, block->interval), clock_words(r, block->work));
    diag_help(r->diag, finding, "let it go on for %s or %s", clock_words(r, times * block->interval),
              clock_words(r, (times + 1) * block->interval));
}

static void settle_header(struct resolver *r, const struct template_block *from, int column, struct block *block)
{
    const struct dose none = {.span = from->span};
    const struct dose *header = from->header ? from->header : &none;
    *block = (struct block){.kind = from->kind, .letter = from->letter, .keep = from->keep, .on_purpose = from->on_purpose, .times = 1,
                            .span = from->span};
    if (header->sets)
        block->sets = header_count(r, header->sets, column, "the number of sets");
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
            struct finding *finding = diag_error(r->diag, "line-too-short", from->span, "this block says no time");
            diag_help(r->diag, finding, "write it like `as many rounds as possible in 8:00`");
        }
    } else if (header->part_count || header->times) {
        struct finding *finding = diag_error(r->diag, "bad-header", header->span, "a block's line gives sets and rest");
        diag_help(r->diag, finding, "write it like `%s A 3 sets rest 1:30`", block_kinds.names[from->kind]);
    } else if (from->kind == BLOCK_FOR_TIME) {
        block->work = header_length(r, header->within, column); /* a cap; without one, 0 */
    }
}

/* --- items --- */

struct settling {
    struct resolver *r;
    const struct occasion *occasion;
    struct setting setting;
    bool doubtful; /* a line of the session was not understood */
    struct item *items;
    size_t count, capacity;
};

/* A line's own rest (`5 @ 80% rest 2:00`) stands between its set and what comes next. In a repeated or parted set it
 * lies inside the set and stays there. */
static const struct set_run *own_rest(const struct item *item)
{
    const struct set_run *run = item->runs;
    if (!item->run_count || run->repeats != 1 || !run->rest_high)
        return NULL;
    return run->part_count > 1 && run->parts[0].side == DOSE_WHOLE ? NULL : run;
}

static void add_item(struct settling *s, const struct template_item *from, size_t index, int round)
{
    struct resolver *r = s->r;
    struct choice choice = choose_work(r, from, s->occasion);
    s->items = arena_grow(r->arena, s->items, s->count, &s->capacity, sizeof *s->items);
    struct item *item = &s->items[s->count];
    *item = (struct item){.exercise = choice.exercise, .ref = from->ref, .index = (int)index, .filler = from->filler,
                          .round = round, .after = from->after, .cue = from->cue, .why = choice.why,
                          .stop = from->stop ? from->stop : choice.exercise->stop, .own = choice.own,
                          .span = choice.span};
    s->setting.items = s->items;
    s->setting.item_count = s->count;
    if (choice.dose == from->dose)
        dose_settle_alike(r, choice.dose, &s->setting, item);
    else
        dose_settle(r, choice.dose, &s->setting, item);
    s->count++;
}

/* Lines that name no round hold in the rounds that no line names. */
static void add_round_items(struct settling *s, const struct template_block *from, const struct block *block)
{
    for (size_t i = 0; i < from->item_count; i++) {
        const struct template_item *item = &from->items[i];
        if (item->round_last > block->sets)
            diag_error(s->r->diag, "no-such-round", item->span, "this block has %d rounds", block->sets);
        for (int round = 1; round <= block->sets; round++) {
            bool named = false;
            for (size_t k = 0; k < from->item_count && !item->round_first; k++)
                named = named || (from->items[k].round_first && round >= from->items[k].round_first &&
                                  round <= from->items[k].round_last);
            bool in = item->round_first ? round >= item->round_first && round <= item->round_last : !named;
            if (in && !item->filler)
                add_item(s, item, i, round);
        }
        if (item->filler)
            add_item(s, item, i, 0);
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
    struct finding *finding = diag_error(r->diag, "two-rests", run->span,
                                         "two rests are given for the time after this set");
    diag_note(r->diag, finding, other, "the other is here");
    diag_help(r->diag, finding, "leave one of them out, or give the exercise a block of its own");
}

/* Are all the sets of one line done before those of the next? */
static bool is_straight(const struct block *block)
{
    return block->kind == BLOCK_STRAIGHT || block->kind == BLOCK_CLUSTER || block->kind == BLOCK_LADDER;
}

/* The rest that stands in the line of item INDEX is the time up to the next line of a pair or circuit, or else the
 * block's. */
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

static void settle_block(struct settling *s, const struct template_block *from, struct block *block)
{
    struct resolver *r = s->r;
    size_t errors = resolver_errors(r);
    settle_header(r, from, s->occasion->column, block);
    s->setting.doubtful = s->doubtful || resolver_errors(r) > errors;
    s->items = arena_alloc(r->arena, from->item_count * sizeof *s->items);
    s->capacity = from->item_count; /* lines of single rounds can be more */
    s->count = 0;
    s->setting.block = from->kind;
    s->setting.sets = block->sets;
    s->setting.work = from->kind == BLOCK_ROUNDS ? block->work / sharing(from) : 0;
    if (from->kind == BLOCK_ROUNDS && has_named_rounds(from))
        add_round_items(s, from, block);
    else
        for (size_t i = 0; i < from->item_count; i++)
            add_item(s, &from->items[i], i, 0);
    place_rests(s, block);
    for (size_t i = 0; i < s->count && from->kind != BLOCK_ROUNDS; i++)
        if (s->items[i].sets > block->sets)
            block->sets = s->items[i].sets;
    block->items = s->items;
    block->item_count = s->count;
    if (block_shares_time(block))
        bars_part(r->arena, s->occasion->athlete->gym, s->items, s->count);
}

/* Is the athlete rather to lift a little less than a little more? */
static bool is_spared(const struct occasion *occasion)
{
    bool taper = occasion->phase && strcmp(occasion->phase->name.folded, "taper") == 0;
    return taper || athlete_restricted(occasion->athlete, occasion->date) ||
           athlete_under(occasion->athlete, occasion->date, 18);
}

void occasion_settle(struct resolver *r, const struct template *template, struct occasion *occasion)
{
    struct block *blocks = arena_alloc(r->arena, template->block_count * sizeof *blocks);
    struct settling s = {.r = r, .occasion = occasion, .doubtful = resolver_doubts(r, template),
                         .setting = {.athlete = occasion->athlete, .date = occasion->date,
                                     .column = occasion->column, .blocks = blocks, .down = is_spared(occasion)}};
    for (size_t i = 0; i < template->block_count; i++) {
        s.setting.block_count = i;
        settle_block(&s, &template->blocks[i], &blocks[i]);
    }
    occasion->blocks = blocks;
    occasion->block_count = template->block_count;
    occasion->seconds = time_session(blocks, template->block_count, occasion->athlete, occasion->date, &time_usual);
}

/* resolve_sets.c - an athlete's sets from a dose: how many, of what, on which side. */
#include <assert.h>
#include <string.h>

#include "resolve/dose.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"

static const char *unit_fix(enum unit unit)
{
    return unit == UNIT_SECONDS ? "s" : unit == UNIT_METRES ? "m" : "";
}

/* Is one time of EXERCISE more than one strike, as of a jab, cross, hook? */
static bool is_combination(const struct exercise *exercise)
{
    return exercise->counts == UNIT_STRIKES &&
           (exercise->again || (exercise->workers & (exercise->workers - 1)));
}

/* The unit that FIGURES count for EXERCISE; reports one that does not fit. */
static enum unit amount_unit(struct resolver *r, const struct figures *figures, const struct exercise *exercise,
                             bool hold)
{
    enum unit own = exercise->counts;
    switch (figures->measure) {
    case MEASURE_SECOND: case MEASURE_MINUTE: case MEASURE_HOUR: case MEASURE_CLOCK: return UNIT_SECONDS;
    case MEASURE_METRE: if (own == UNIT_METRES || exercise->lost) return UNIT_METRES; break;
    case MEASURE_REPS: if (own != UNIT_SECONDS && own != UNIT_METRES) return own; break;
    case MEASURE_STRIKES: if (exercise->lost) return UNIT_STRIKES; if (own == UNIT_STRIKES && !is_combination(exercise)) return own; break;
    case MEASURE_CONTACTS: if (own == UNIT_CONTACTS || exercise->lost) return UNIT_CONTACTS; break;
    case MEASURE_NONE:
        if (!hold && own != UNIT_SECONDS && own != UNIT_METRES)
            return own;
        if (figures->max[0])
            return hold ? UNIT_SECONDS : own;
        break;
    default: break;
    }
    if (figures->measure == MEASURE_STRIKES && own == UNIT_STRIKES) {
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span,
                   "each %s is several strikes: say how many times it is done, without a unit", exercise->name.shown);
        return own;
    }
    enum unit right = hold ? UNIT_SECONDS : own;
    if (figures->measure == MEASURE_NONE) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_UNIT, figures->span, "%s is counted in %s, and this has no unit",
                                             exercise->name.shown, units.names[right]);
        diag_fix(r->diag, finding, figures->span,
                 arena_printf(r->arena, "%s %s", resolver_written(r, figures->span), unit_fix(right)));
    } else {
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "%s is counted in %s, not in %s", exercise->name.shown,
                   units.names[right], measure_words(figures->measure));
    }
    return right;
}

/* Amounts of time are kept in thousandths of seconds, whatever they were written in. */
static struct range scaled(const struct figures *figures, struct range value)
{
    milli times = figures->measure == MEASURE_MINUTE ? 60 : figures->measure == MEASURE_HOUR ? 3600 : 1;
    return (struct range){value.low * times, value.high * times};
}

/* --- sides --- */

static enum dose_side stance_side(enum stance stance, bool other)
{
    if (stance == STANCE_UNKNOWN)
        return DOSE_WHOLE;
    return (stance == STANCE_ORTHODOX) != other ? DOSE_ORTHODOX : DOSE_SOUTHPAW;
}

static void wrong_side(struct resolver *r, const struct dose_part *part, const struct exercise *exercise)
{
    static const char *const rules[] = {"with both sides at once", "on each side, whatever the stance", "each way",
                                        "from a stance"};
    static const char *const fixes[] = {"", " each side", " each way", " each stance"};
    struct finding *finding = diag_error(r->diag, DIAG_WRONG_SIDE, part->span, "%s is done %s", exercise->name.shown,
                                         rules[exercise->side]);
    diag_note(r->diag, finding, exercise->name.span, "declared here");
    struct span side = {part->span.file, part->figures->span.end, part->span.end};
    diag_fix(r->diag, finding, side, fixes[exercise->side]);
    if (*fixes[exercise->side])
        diag_help(r->diag, finding, "write `%s`", fixes[exercise->side] + 1);
    else
        diag_help(r->diag, finding, "leave the side out");
}

/* Does the dose's word for the side go with the exercise? */
static bool side_fits(enum side_word word, enum side_rule rule)
{
    switch (word) {
    case SIDE_WORD_NONE: return true;
    case SIDE_WORD_EACH_SIDE: return rule == SIDE_EACH_SIDE;
    case SIDE_WORD_EACH_WAY: return rule == SIDE_EACH_WAY;
    case SIDE_WORD_LEFT: case SIDE_WORD_RIGHT: return rule == SIDE_EACH_SIDE || rule == SIDE_PER_STANCE;
    default: return rule == SIDE_PER_STANCE;
    }
}

struct part_list {
    struct part items[2 * MOST_PARTS];
    size_t count;
};

static void add_part(struct part_list *list, struct part part, enum dose_side side)
{
    part.side = side;
    list->items[list->count++] = part;
}

/* A count without a side on a one-sided exercise is meant for each side. Time that is not a hold runs on the clock,
 * whichever side works. */
static void add_unsided(struct part_list *list, struct part part, const struct exercise *exercise,
                        const struct athlete *athlete, bool clock)
{
    if (exercise->side == SIDE_BOTH) {
        add_part(list, part, DOSE_WHOLE);
        return;
    }
    if (clock) {
        add_part(list, part, exercise->side == SIDE_PER_STANCE ? stance_side(athlete->stance, false) : DOSE_WHOLE);
        return;
    }
    part.assumed_each = true;
    if (exercise->side == SIDE_PER_STANCE) {
        add_part(list, part, DOSE_ORTHODOX);
        add_part(list, part, DOSE_SOUTHPAW);
    } else {
        add_part(list, part, exercise->side == SIDE_EACH_WAY ? DOSE_EACH_WAY : DOSE_EACH_SIDE);
    }
}

static void add_sided(struct resolver *r, struct part_list *list, struct part part, const struct dose_part *from,
                      const struct athlete *athlete)
{
    static const unsigned limb[] = {[SIDE_WORD_LEAD_HAND] = WORKER_LEAD_HAND, [SIDE_WORD_REAR_HAND] = WORKER_REAR_HAND,
                                    [SIDE_WORD_LEAD_LEG] = WORKER_LEAD_LEG, [SIDE_WORD_REAR_LEG] = WORKER_REAR_LEG};
    switch (from->side) {
    case SIDE_WORD_EACH_SIDE: add_part(list, part, DOSE_EACH_SIDE); break;
    case SIDE_WORD_EACH_WAY: add_part(list, part, DOSE_EACH_WAY); break;
    case SIDE_WORD_EACH_STANCE:
        add_part(list, part, DOSE_ORTHODOX);
        add_part(list, part, DOSE_SOUTHPAW);
        break;
    case SIDE_WORD_ORTHODOX: add_part(list, part, DOSE_ORTHODOX); break;
    case SIDE_WORD_SOUTHPAW: add_part(list, part, DOSE_SOUTHPAW); break;
    case SIDE_WORD_LEFT: add_part(list, part, DOSE_LEFT); break;
    case SIDE_WORD_RIGHT: add_part(list, part, DOSE_RIGHT); break;
    case SIDE_WORD_OWN: case SIDE_WORD_SWITCHED:
        if (athlete->stance == STANCE_UNKNOWN && !resolver_is_poisoned(r, &athlete->stance)) {
            struct finding *finding = diag_error(r->diag, DIAG_NO_STANCE, from->span, "%s has no stance",
                                                 athlete->name.shown);
            diag_note(r->diag, finding, athlete->name.span, "declared here");
            diag_help(r->diag, finding, "add `stance orthodox` or `stance southpaw` below the athlete");
            resolver_poison(r, &athlete->stance, athlete->name.span);
        }
        add_part(list, part, stance_side(athlete->stance, from->side == SIDE_WORD_SWITCHED));
        break;
    default:
        part.workers = limb[from->side];
        add_part(list, part, stance_side(athlete->stance, false));
    }
}

/* `6/6` on a one-sided exercise is meant as six on each far more often than as two weeks of six. */
static bool diagnose_each_side(struct resolver *r, const struct dose_part *part, const struct exercise *exercise)
{
    const struct figures *figures = part->figures;
    if (exercise->side == SIDE_BOTH || part->side != SIDE_WORD_NONE || !figures->series || figures->count != 2 ||
        figures->repeat_last || figures->values[0].low != figures->values[1].low)
        return false;
    const char *each = exercise->side == SIDE_PER_STANCE ? "each stance" : "each side";
    struct finding *finding = diag_error(r->diag, DIAG_SLASH_FOR_SIDES, part->span,
                                         "a slash separates weeks, not sides");
    diag_fix(r->diag, finding, part->span,
             arena_printf(r->arena, "%d %s", (int)(figures->values[0].low / 1000), each));
    return true;
}

/* One repetition a stance in turn: how many that makes of each. */
static void add_turns(struct resolver *r, struct part_list *list, struct part part, bool each, struct span span,
                      const struct athlete *athlete)
{
    list->count += split_in_turns(r, &part, each, span, athlete, &list->items[list->count]);
}

/* Reps, contacts and strikes come one by one; seconds and metres do not. */
static bool is_counted(enum unit unit)
{
    return unit == UNIT_REPS || unit == UNIT_CONTACTS || unit == UNIT_STRIKES;
}

static bool is_whole(struct range amount)
{
    return amount.low % 1000 == 0 && amount.high % 1000 == 0;
}

static void settle_parts(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                         const struct exercise *exercise, int set, bool turns, struct part_list *list)
{
    for (int i = 0; i < dose->part_count; i++) {
        const struct dose_part *from = &dose->parts[i];
        bool hold = dose->hold || exercise->kind == EXERCISE_HOLD;
        if (diagnose_each_side(r, from, exercise))
            return;
        int index = figures_index(r, from->figures, setting, set);
        struct part part = {.amount = scaled(from->figures, from->figures->values[index]),
                            .unit = amount_unit(r, from->figures, exercise, dose->hold),
                            .several = is_combination(exercise),
                            .max = from->figures->max[index]};
        if (!part.max && part.amount.low <= 0) {
            diag_error(r->diag, DIAG_BAD_COUNT, from->figures->span, "an amount is more than 0");
            return;
        }
        if (is_counted(part.unit) && !is_whole(from->figures->values[index])) {
            diag_error(r->diag, DIAG_BAD_COUNT, from->figures->span,
                       "reps, contacts and strikes are whole numbers");
            return;
        }
        if (!side_fits(from->side, exercise->side) && !exercise->lost) {
            wrong_side(r, from, exercise);
            return; /* of `4 orthodox + 4 southpaw` the other half is as wrong */
        }
        if (turns)
            add_turns(r, list, part, from->side == SIDE_WORD_EACH_STANCE, from->span, setting->athlete);
        else if (from->side == SIDE_WORD_NONE)
            add_unsided(list, part, exercise, setting->athlete, part.unit == UNIT_SECONDS && !hold);
        else
            add_sided(r, list, part, from, setting->athlete);
    }
}

static const struct part *kept_parts(struct resolver *r, const struct part_list *list)
{
    struct part *parts = arena_alloc(r->arena, list->count * sizeof *parts);
    memcpy(parts, list->items, list->count * sizeof *parts);
    return parts;
}

const struct part *dose_parts(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                              const struct exercise *exercise, int set, size_t *count)
{
    struct part_list list;
    list.count = 0;
    settle_parts(r, dose, setting, exercise, set, dose_takes_turns(r, dose, setting, exercise), &list);
    *count = list.count;
    return kept_parts(r, &list);
}

/* A line without an amount fills the round it stands in. */
static void fill_round(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                       const struct exercise *exercise, const struct item *item, bool turns, struct part_list *list)
{
    if (setting->work) {
        struct part part = {.amount = {setting->work * 1000, setting->work * 1000}, .unit = UNIT_SECONDS};
        if (turns)
            add_turns(r, list, part, false, item->span, setting->athlete);
        else
            add_unsided(list, part, exercise, setting->athlete, true);
        return;
    }
    if (setting->poisoned)
        return;
    struct finding *finding = diag_error(r->diag, DIAG_NO_AMOUNT, dose ? dose->span : item->span, "how many of %s?",
                                         exercise->name.shown);
    diag_help(r->diag, finding, "give reps, seconds or metres: `%s : 5`", exercise->name.shown);
}

/* --- sets --- */

int dose_listed(struct resolver *r, const struct dose *dose)
{
    const struct figures *lists[MOST_PARTS + 3];
    int count = 0, length = 0;
    for (int i = 0; i < dose->part_count; i++)
        lists[count++] = dose->parts[i].figures;
    lists[count++] = dose->load.given ? dose->load.figures : NULL;
    lists[count++] = dose->effort.given ? dose->effort.figures : NULL;
    lists[count++] = dose->speed;
    const struct figures *first = NULL;
    for (int i = 0; i < count; i++) {
        if (!lists[i] || !lists[i]->list)
            continue;
        if (first && lists[i]->count != length) {
            struct finding *finding = diag_error(r->diag, DIAG_LISTS_DISAGREE, lists[i]->span,
                                                 "this list has %d figures and the one before has %d",
                                                 lists[i]->count, length);
            diag_note(r->diag, finding, first->span, "%d here", length);
        }
        first = first ? first : lists[i];
        length = length ? length : lists[i]->count;
    }
    return length;
}

static int whole(struct resolver *r, struct figures *figures, const struct dose_setting *setting, int most,
                 const char *what)
{
    struct range value = figures->values[figures_column(r, figures, setting->column)];
    if (value.low % 1000 || value.low < 1000 || value.low > most * 1000 || value.low != value.high || figures->list) {
        diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "%s is a whole number from 1 to %d", what, most);
        return 1;
    }
    return (int)(value.low / 1000);
}

int dose_set_count(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, int listed)
{
    enum { MOST_SETS = 100 };
    int sets = setting->block == BLOCK_ROUNDS ? 1 : setting->sets;
    if (dose->sets && setting->block != BLOCK_ROUNDS)
        sets = whole(r, dose->sets, setting, MOST_SETS, "the number of sets");
    else if (!sets && dose->times)
        sets = whole(r, dose->times, setting, MOST_SETS, "the number of sets");
    if (listed && sets && listed != sets) {
        diag_error(r->diag, DIAG_SETS_DISAGREE, dose->span, "this lists %d sets and the block has %d", listed, sets);
        return sets;
    }
    return listed ? listed : sets ? sets : 1;
}

/* The ends of a length of time; both 0 if none is given. */
static void settle_seconds(struct resolver *r, struct figures *figures, const struct dose_setting *setting, int *low,
                           int *high)
{
    *low = *high = 0;
    if (!figures)
        return;
    struct range value = figures->values[figures_column(r, figures, setting->column)];
    int first = figures_seconds(r, figures, value.low), last = figures_seconds(r, figures, value.high);
    *low = first > 0 ? first : 0;
    *high = last > 0 ? last : 0;
}

static bool same_range(struct range a, struct range b)
{
    return a.low == b.low && a.high == b.high;
}

static bool same_part(const struct part *a, const struct part *b)
{
    return same_range(a->amount, b->amount) && a->max == b->max && a->unit == b->unit && a->side == b->side &&
           a->workers == b->workers;
}

static bool same_load(const struct load *a, const struct load *b)
{
    return a->kind == b->kind && a->made == b->made && a->asked == b->asked && a->pieces == b->pieces &&
           a->thing == b->thing && same_range(a->percent, b->percent) && a->effort == b->effort &&
           same_range(a->effort_band, b->effort_band);
}

bool runs_alike(const struct set_run *a, const struct set_run *b)
{
    if (a->part_count != b->part_count || a->hold != b->hold || a->repeats != b->repeats ||
        !same_load(&a->load, &b->load))
        return false;
    for (size_t i = 0; i < a->part_count; i++)
        if (!same_part(&a->parts[i], &b->parts[i]))
            return false;
    return true;
}

/* `3 x 5` in a block of three sets would be three times three fives: far more often the sets are meant. */
static void report_sets_twice(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                              const struct set_run *run)
{
    if (run->repeats < 2 || run->repeats != setting->sets || run->rest_high || run->hold || !run->part_count ||
        run->parts[0].unit != UNIT_REPS)
        return;
    assert(dose->times); /* what gave the repeats */
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_SETS_TWICE, dose->times->span,
                                          "the block already has %d sets: this is done %d times in each of them",
                                          setting->sets, run->repeats);
    diag_help(r->diag, finding, "leave out the `%d x`, or give the rest inside the set", run->repeats);
}

void run_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item,
                struct at at, struct set_run *run)
{
    int set = at.amount;
    struct part_list list;
    list.count = 0;
    *run = (struct set_run){.count = 1, .repeats = 1, .hold = dose->hold, .tempo = dose->tempo, .span = dose->span};
    load_settle(r, dose, setting, item->exercise, at.load, &run->load);
    run->alternating = dose_takes_turns(r, dose, setting, item->exercise);
    if (dose->work_up) {
        struct range top = dose->work_up->values[figures_index(r, dose->work_up, setting, set)];
        struct part part = {.amount = top, .unit = UNIT_REPS};
        run->load.effort = EFFORT_REP_MAX;
        run->load.effort_band = top;
        run->work_up = true;
        add_unsided(&list, part, item->exercise, setting->athlete, false);
    } else if (dose->part_count) {
        settle_parts(r, dose, setting, item->exercise, set, run->alternating, &list);
    } else {
        fill_round(r, dose, setting, item->exercise, item, run->alternating, &list);
    }
    run->parts = kept_parts(r, &list);
    run->part_count = list.count;
    bool counts_sets = !setting->sets && !dose->outer_times && setting->block != BLOCK_ROUNDS;
    struct figures *times = counts_sets ? NULL : dose->times;
    if (times)
        run->repeats = whole(r, times, setting, 100, "the number of repeats");
    settle_seconds(r, dose->rest, setting, &run->rest_low, &run->rest_high);
    int within_low;
    settle_seconds(r, dose->within, setting, &within_low, &run->within);
    report_sets_twice(r, dose, setting, run);
    time_run(run, item->exercise, &time_usual);
}

void dose_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, struct item *item)
{
    if (!dose) {
        const struct dose none = {.span = item->span};
        dose_settle(r, &none, setting, item);
        return;
    }
    if (dose->next) {
        dose_settle_pieces(r, dose, setting, item);
        return;
    }
    int listed = dose_listed(r, dose);
    int sets = dose_set_count(r, dose, setting, listed);
    struct set_run *runs = arena_alloc(r->arena, (size_t)(listed ? sets : 1) * sizeof *runs);
    size_t count = 0;
    for (int set = 0; set < (listed ? sets : 1); set++) {
        run_settle(r, dose, setting, item, (struct at){set, set}, &runs[count]);
        if (count && runs_alike(&runs[count - 1], &runs[count]))
            runs[count - 1].count++;
        else
            count++;
    }
    if (!listed)
        runs[0].count = sets;
    item->runs = runs;
    item->run_count = count;
    item->sets = sets;
}

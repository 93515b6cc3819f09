/* resolve_turns.c - `alternating stances`: one repetition a stance in turn. */
#include "resolve/dose.h"
#include "model/athlete.h"
#include "model/exercise.h"

/* Does DOSE leave it open which stance does how many, or give as many to each? */
static bool shares_evenly(const struct dose *dose)
{
    if (dose->part_count == 0)
        return true;
    enum side_word side = dose->parts[0].side;
    return dose->part_count == 1 && (side == SIDE_WORD_NONE || side == SIDE_WORD_EACH_STANCE);
}

/* Is it done in repetitions, or by the clock? What is held, worked up to or run stays in its stance. */
static bool has_turns(const struct dose *dose, const struct exercise *exercise)
{
    return !dose->hold && !dose->work_up && exercise->kind != EXERCISE_HOLD && exercise->counts != UNIT_METRES;
}

static void report_no_stance_to_change(struct resolver *r, const struct dose *dose, const struct exercise *exercise)
{
    struct finding *finding = diag_error(r->diag, DIAG_WRONG_SIDE, dose->alternating, "%s is not done from a stance",
                                         exercise->name.shown);
    diag_note(r->diag, finding, exercise->name.span, "declared here");
    diag_help(r->diag, finding, "leave `alternating stances` out");
}

bool dose_takes_turns(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                      const struct exercise *exercise)
{
    bool from_stance = exercise->side == SIDE_PER_STANCE;
    if (!dose->alternates) /* the block's words apply to whatever they can */
        return setting->alternates && from_stance && has_turns(dose, exercise) && shares_evenly(dose);
    if (!from_stance) {
        report_no_stance_to_change(r, dose, exercise);
        return false;
    }
    if (!has_turns(dose, exercise)) {
        diag_error(r->diag, DIAG_NOT_IN_TURN, dose->alternating,
                   "only repetitions can alternate between the stances");
        return false;
    }
    if (!shares_evenly(dose)) {
        struct finding *finding = diag_error(r->diag, DIAG_NOT_IN_TURN, dose->alternating,
                                             "alternating stances take one amount for both");
        diag_help(r->diag, finding, "write `10 alternating stances`, or `5 each stance alternating stances`");
        return false;
    }
    return true;
}

/* What the first of two stances does of AMOUNT: half of a time, and one more of an odd number of repetitions. */
static milli first_share(milli amount, bool clock)
{
    milli one = clock ? 1 : 1000;
    return amount - amount / one / 2 * one;
}

static bool is_odd(const struct part *part)
{
    bool clock = part->unit == UNIT_SECONDS;
    return !clock && (part->amount.low / 1000 % 2 || part->amount.high / 1000 % 2);
}

static void report_odd(struct resolver *r, struct span span, const struct athlete *athlete)
{
    if (resolver_is_poisoned(r, &athlete->stance))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_NO_STANCE, span, "%s has no stance, and one of the two does one more here",
                                         athlete->name.shown);
    diag_note(r->diag, finding, athlete->name.span, "declared here");
    diag_help(r->diag, finding, "make the number even, or add `stance orthodox` or `stance southpaw` below the athlete");
    resolver_poison(r, &athlete->stance, athlete->name.span);
}

size_t split_in_turns(struct resolver *r, const struct part *whole, bool each, struct span span,
                      const struct athlete *athlete, struct part parts[2])
{
    bool southpaw = athlete->stance == STANCE_SOUTHPAW, clock = whole->unit == UNIT_SECONDS;
    parts[0] = parts[1] = *whole;
    parts[0].side = DOSE_ORTHODOX;
    parts[1].side = DOSE_SOUTHPAW;
    if (each || whole->max)
        return 2;
    if (athlete->stance == STANCE_UNKNOWN && is_odd(whole))
        report_odd(r, span, athlete);
    struct part *own = &parts[southpaw], *other = &parts[!southpaw];
    own->amount.low = first_share(whole->amount.low, clock);
    own->amount.high = first_share(whole->amount.high, clock);
    other->amount.low = whole->amount.low - own->amount.low;
    other->amount.high = whole->amount.high - own->amount.high;
    if (other->amount.high > 0)
        return 2;
    parts[0] = *own; /* a single repetition */
    return 1;
}

#include "limits/limit_verdict.h"

#include "measure/hold.h"
#include "measure/member.h"
#include "model/occasion.h"
#include "model/season.h"

static bool is_ratio(const struct layered *layered)
{
    return layered->against != COUNTED_NONE;
}

/* The top of "within", or the figure of "at most". */
static milli most_of(const struct limit *limit)
{
    return limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
}

/* Whatever reveals body mass is for the coach alone, and nothing may be barred because of it. */
static enum severity severity_of(const struct limit_verdict *verdict, bool fails)
{
    enum severity severity = limit_severity(verdict->in_force->layered->limit, fails);
    return verdict->tells_body && severity == SEVERITY_ERROR ? SEVERITY_WARNING : severity;
}

/* --- what is counted --- */

/* The sums that a limit counts: of all the work, or only of the days that it names. */
static const struct tally *counted_tally(const struct judged_work *work, const struct in_force *in_force,
                                         struct tally *scratch)
{
    int first = in_force->first, last = in_force->last;
    if (in_force->layered->limit->scope == LIMIT_SESSION || !limit_is_of_days(in_force) ||
        (first <= work->first && last >= work->last))
        return work->tally;
    *scratch = (struct tally){0};
    for (size_t i = 0; i < work->count; i++)
        if (work->occasions[i]->date >= first && work->occasions[i]->date <= last)
            tally_add(scratch, &work->tallies[i]);
    return scratch;
}

static void measure(const struct tally *tally, enum counted counted, struct limit_verdict *verdict)
{
    enum side side = verdict->side;
    verdict->open = tally->open;
    if (counted == COUNTED_SESSION_LOAD) {
        verdict->amount = tally_load(tally);
        verdict->uncounted = tally_load_uncounted(tally);
        return;
    }
    verdict->amount = side == SIDE_ALL ? tally->sum[counted] : tally->side[counted][side];
    verdict->uncounted = tally_uncounted(tally, counted);
}

/* --- sums --- */

static void judge_most(struct limit_verdict *verdict)
{
    const struct layered *layered = verdict->in_force->layered;
    const struct limit *limit = layered->limit;
    milli whole = most_of(limit), high = verdict->amount.high;
    /* A minute or two over in a session is nobody's fault: 5 % is let pass. */
    milli grace = limit->scope == LIMIT_SESSION && layered->counted == COUNTED_TIME ? whole / 20 : 0;
    bool cut = limit_is_of_days(verdict->in_force) && verdict->days < DAYS_OF_WEEK && verdict->days > 0;
    milli value = cut ? limit_for_days(whole, verdict->days) : whole;
    bool all_of_it = high > whole + grace;
    /* Strikes of rounds and pads go uncounted in most weeks, so a plan that counts some of them would fail while one
     * that counts none would pass. Nor does a week fail that keeps the figure and breaks only its days' share. */
    bool fails = all_of_it && (layered->kind != GROUP_STRIKES || verdict->uncounted == 0);
    verdict->most = (struct limit_end){.asked = true,
                                       .whole = whole,
                                       .value = value,
                                       .broken = all_of_it || (cut && high > value),
                                       .passed = all_of_it ? whole : value,
                                       .left = value - high,
                                       .severity = severity_of(verdict, fails)};
}

static bool is_bout_week(const struct judged_work *work, const struct camp *camp)
{
    for (size_t i = 0; i < camp->bout_count; i++)
        if (camp->bouts[i]->day <= work->last && bout_end(camp->bouts[i]) >= work->first)
            return true;
    return false;
}

/* Never more than a warning: a plan may ask for less than a limit for reasons that it need not give. */
static void judge_least(const struct judged_work *work, const struct limit_table *table, bool body_unknown,
                        struct limit_verdict *verdict)
{
    const struct in_force *in_force = verdict->in_force;
    const struct limit *limit = in_force->layered->limit;
    milli value = limit->value, low = verdict->amount.low;
    if (limit->scope == LIMIT_WEEK) {
        if (in_force->layered->kind == GROUP_SESSIONS && is_bout_week(work, in_force->camp))
            return;
        verdict->floor = limit_floor(work->programme, table, in_force, work->athlete, work->first, work->last);
        value = verdict->floor.value;
        if (value == 0)
            return;
    }
    if (verdict->tells_body && body_unknown)
        return;
    verdict->least = (struct limit_end){.asked = true,
                                        .whole = limit->value,
                                        .value = value,
                                        .broken = low < value,
                                        .passed = value,
                                        .left = low - value,
                                        .severity = severity_of(verdict, false)};
}

/* --- one count against another --- */

/* What is left is rounded so that it is below 0 wherever the limit is broken, and only there. */
static void judge_ratio(const struct judged_work *work, struct limit_verdict *verdict)
{
    const struct limit *limit = verdict->in_force->layered->limit;
    struct range one = verdict->amount, other = verdict->other;
    milli most = most_of(limit);
    if (other.high == 0 || verdict->days == 0 ||
        athlete_away(work->programme, work->athlete, work->first, work->last))
        return;
    bool under = limit->bound != LIMIT_AT_MOST && one.low * 1000 < limit->value * other.high;
    bool over = limit->bound != LIMIT_AT_LEAST && one.high * 1000 > most * other.low;
    if (limit->bound != LIMIT_AT_MOST)
        verdict->least = (struct limit_end){.asked = true,
                                            .whole = limit->value,
                                            .value = limit->value,
                                            .broken = under,
                                            .passed = limit->value,
                                            .left = one.low * 1000 / other.high - limit->value,
                                            .severity = severity_of(verdict, over)};
    if (limit->bound != LIMIT_AT_LEAST)
        verdict->most = (struct limit_end){.asked = true,
                                           .whole = most,
                                           .value = most,
                                           .broken = over,
                                           .passed = most,
                                           .left = other.low > 0
                                                       ? most - (one.high * 1000 + other.low - 1) / other.low
                                                   : one.high > 0 ? -one.high
                                                                  : most,
                                           .severity = severity_of(verdict, over)};
}

/* --- the verdict --- */

/* The figures of a limit on what a check of its own measures: nothing is compared. */
static void say_ends(struct limit_verdict *verdict)
{
    const struct limit *limit = verdict->in_force->layered->limit;
    if (limit->bound != LIMIT_AT_MOST)
        verdict->least = (struct limit_end){.asked = true, .whole = limit->value, .value = limit->value};
    if (limit->bound != LIMIT_AT_LEAST)
        verdict->most = (struct limit_end){.asked = true, .whole = most_of(limit), .value = most_of(limit)};
}

void limit_judge(const struct judged_work *work, const struct limit_table *table, const struct in_force *in_force,
                 enum side side, struct limit_verdict *verdict)
{
    const struct layered *layered = in_force->layered;
    *verdict = (struct limit_verdict){.in_force = in_force, .side = side, .days = DAYS_OF_WEEK};
    verdict->tells_body = counted_tells_body(layered->counted) || (is_ratio(layered) && counted_tells_body(layered->against));
    if (layered->limit->scope == LIMIT_WEEK)
        verdict->days = limit_days(in_force, work->first, work->last);
    if (layered->kind == GROUP_MEASURED) {
        say_ends(verdict);
        return;
    }
    if (is_ratio(layered)) {
        verdict->amount = work->tally->sum[layered->counted];
        verdict->other = work->tally->sum[layered->against];
        judge_ratio(work, verdict);
        return;
    }
    struct tally scratch;
    const struct tally *tally = counted_tally(work, in_force, &scratch);
    measure(tally, layered->counted, verdict);
    if (layered->limit->bound != LIMIT_AT_LEAST)
        judge_most(verdict);
    if (layered->limit->bound != LIMIT_AT_MOST)
        judge_least(work, table, tally->body_unknown > 0, verdict);
}

static bool has_sides(const struct layered *layered)
{
    return layered->limit->a_side && counted_is_sided(layered->counted);
}

enum side limit_first_side(const struct layered *layered)
{
    return has_sides(layered) ? SIDE_LEFT : SIDE_ALL;
}

enum side limit_last_side(const struct layered *layered)
{
    return has_sides(layered) ? SIDE_RIGHT : SIDE_ALL;
}

milli limit_reached(const struct limit_verdict *verdict)
{
    const struct limit_end *end = verdict->most.asked ? &verdict->most : &verdict->least;
    milli amount = verdict->most.asked ? verdict->amount.high : verdict->amount.low;
    if (verdict->in_force->layered->against != COUNTED_NONE) {
        milli of = verdict->most.asked ? verdict->other.low : verdict->other.high;
        amount = of > 0 ? amount * 1000 / of : 0;
    }
    return end->value > 0 ? amount * 1000 / end->value : amount > 0 ? 2000 : 0;
}

/* How much: every count compared with its limit, in a session, a week, a phase and a camp. */
#include <string.h>

#include "figures/mass.h"
#include "limits/share.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "rules/checks.h"
#include "rules/suggest.h"
#include "rules/run.h"

/* What a limit looks at in a window. */
struct measured {
    const struct in_force *in_force;
    const struct limit *limit;
    enum counted counted;
    enum side side;
    struct range amount;
    int days;          /* of a week: how many of its days count */
    struct floor floor; /* of a week compared with one */
    int64_t uncounted; /* seconds that are not counted in the count */
    int open;          /* sets of `max`, counted as none */
    milli body_unknown; /* repetitions of a body mass that is not known */
};

static const char *side_words(enum side side)
{
    return side == SIDE_LEFT ? " on the left" : side == SIDE_RIGHT ? " on the right" : "";
}

/* The sums that a limit counts: all of the window, or of a week only the days that it names. */
static const struct tally *measured_tally(const struct window *window, const struct measured *measured,
                                   struct tally *scratch)
{
    int first = measured->in_force->first, last = measured->in_force->last;
    if (window->scope == SCOPE_OCCASION || !limit_is_of_days(measured->in_force) ||
        (first <= window->first && last >= window->last))
        return window->tally;
    *scratch = (struct tally){0};
    for (size_t i = 0; i < window->count; i++) {
        int day = window->occasions[i]->date;
        if (day >= first && day <= last)
            tally_add(scratch, &window->timeline->tallies[window->at + i]);
    }
    return scratch;
}

static void measure(const struct window *window, const struct in_force *in_force, enum side side,
                    struct measured *measured)
{
    struct tally scratch;
    *measured = (struct measured){.in_force = in_force,
                                  .limit = in_force->layered->limit,
                                  .counted = in_force->layered->counted,
                                  .side = side,
                                  .days = DAYS_OF_WEEK};
    const struct tally *tally = measured_tally(window, measured, &scratch);
    measured->amount =
        side == SIDE_ALL ? tally->sum[measured->counted] : tally->side[measured->counted][side];
    measured->uncounted = tally_uncounted(tally, measured->counted);
    if (measured->counted == COUNTED_SESSION_LOAD) {
        measured->amount = tally_load(tally);
        measured->uncounted = tally_load_uncounted(tally);
    }
    measured->open = tally->open;
    measured->body_unknown = tally->body_unknown;
    if (window->scope == SCOPE_WEEK)
        measured->days = limit_days(in_force, window->first, window->last);
}

/* --- reporting --- */

static void note_gaps(struct run *run, struct finding *finding, const struct measured *measured)
{
    if (measured->uncounted > 0)
        diag_remark(run->diag, finding, "and %lld min not counted",
                    (long long)((measured->uncounted + 59) / 60));
    enum counted_group group = counted_group(measured->counted);
    bool of_reps = group == GROUP_LIFTS || group == GROUP_TONNAGE || group == GROUP_STRIKES ||
                   group == GROUP_THROWS || group == GROUP_CONTACTS || group == GROUP_HOLDS;
    if (of_reps && measured->open > 0)
        diag_remark(run->diag, finding, "and %d %s of as many as possible not counted",
                    measured->open, measured->open == 1 ? "set" : "sets");
}

/* Why ALLOWED is not the WHOLE of what a week's limit says. */
static void note_share(struct run *run, struct finding *finding, const struct window *window,
                       const struct measured *measured, milli allowed, milli whole)
{
    const char *part = run_amount(run, window, measured->counted, allowed);
    const char *of = run_amount(run, window, measured->counted, whole);
    if (measured->days < DAYS_OF_WEEK)
        diag_remark(run->diag, finding, "%d of the week's 7 days count: %s of the %s for a whole week",
                    measured->days, part, of);
    if (measured->floor.phase)
        diag_remark(run->diag, finding, "volume comes down in %s, and this with it: %s of the usual %s",
                    measured->floor.phase->name.shown, part, of);
    if (measured->floor.restricted)
        diag_remark(run->diag, finding, "less is asked of this athlete: %s of the usual %s", part, of);
}

/* Points FINDING at the line that adds most, or at the first thing done, and notes the lines. */
static void tell_lines(struct run *run, struct finding *finding, const struct window *window,
                       enum counted counted, enum side side)
{
    struct span largest;
    bool any = run_note_lines(run, finding, window, counted, side, &largest);
    if (window->scope != SCOPE_OCCASION && window->count > 0)
        finding->span = any ? largest : window->occasions[0]->span;
}

/* What a finding about LIMIT is about: one for a session, else one for a camp's squad and week. Where it points is
 * worked out only when it is reported, because that takes a walk over every line. */
static struct about about_limit(const struct window *window, const struct in_force *in_force,
                                enum side side, bool over, enum severity severity, milli weight)
{
    bool alone = window->scope == SCOPE_OCCASION;
    return (struct about){
        .window = window,
        .severity = severity,
        .span = alone ? window->occasions[0]->session->name.span : in_force->camp->name.span,
        .subject = in_force->layered->limit,
        .subject_number = (alone || !over ? 0 : (int64_t)window->first * 4) + side,
        .weight = weight};
}

/* A floor that is not met, as a row of the table of its week. */
static const struct table_row *row_of(struct run *run, const struct window *window, const struct measured *measured,
                                      milli amount, milli allowed)
{
    const char *source = measured->limit->source;
    struct table_row *row = arena_alloc(run->arena, sizeof *row);
    *row = (struct table_row){
        .is = arena_printf(run->arena, "%s%s", run_figure(run, window, measured->counted, amount),
                           side_words(measured->side)),
        .least = arena_printf(run->arena, "at least %s", run_amount(run, window, measured->counted, allowed)),
        .source = source ? arena_copy(run->arena, source, strcspn(source, ",(")) : "no source"};
    return row;
}

/* Whatever reveals body mass is for the coach alone, and no verdict and no sheet may depend on it. */
static enum severity for_coach(enum severity severity, bool body)
{
    return body && severity == SEVERITY_ERROR ? SEVERITY_WARNING : severity;
}

/* The figure of the message: time in minutes, mass in the gym's unit and pounds whole. */
static milli shown_figure(const struct window *window, enum counted counted, milli amount)
{
    enum counted_group group = counted_group(counted);
    if (group == GROUP_TONNAGE && gym_unit(window->athlete->gym) == MASS_IN_LB)
        return (mass_sum_to_lb(amount) + 500) / 1000 * 1000;
    return group == GROUP_TIME ? amount / 60 : amount;
}

static void report(struct run *run, const struct rule *rule, const struct window *window,
                   const struct measured *measured, milli amount, milli allowed,
                   enum severity severity)
{
    const struct limit *limit = measured->limit;
    bool over = amount > allowed;
    bool ranged = measured->amount.low != measured->amount.high;
    struct about about = about_limit(window, measured->in_force, measured->side, over, severity,
                                     over ? amount : -amount);
    about.figure = shown_figure(window, measured->counted, amount);
    about.floor = !over;
    about.severity = for_coach(about.severity, counted_tells_body(measured->counted));
    struct finding *finding = run_meet(run, rule, &about);
    if (!finding)
        return;
    run_say(run, finding, "%s: %s%s%s in %s, %s %s%s", window->athlete->name.shown,
            !ranged ? ""
            : over  ? "up to "
                    : "as few as ",
            run_figure(run, window, measured->counted, amount), side_words(measured->side),
            window_words(run, window), over ? "at most" : "at least",
            run_amount(run, window, measured->counted, allowed),
            measured->side == SIDE_ALL ? "" : " a side");
    diag_set_neutral(finding, !over && measured->floor.restricted ? "" : NULL);
    if (counted_tells_body(measured->counted))
        diag_set_private(run->diag, finding);
    finding->row = over || window->scope == SCOPE_OCCASION ? NULL : row_of(run, window, measured, amount, allowed);
    tell_lines(run, finding, window, measured->counted, measured->side);
    note_gaps(run, finding, measured);
    note_share(run, finding, window, measured, allowed,
               over && limit->bound == LIMIT_WITHIN ? limit->top : limit->value);
    run_note_limit(run, finding, limit);
    struct suggestion_aim aim = {measured->counted, measured->side, allowed, window->first, window->last};
    if (window->scope != SCOPE_OCCASION && limit_is_of_days(measured->in_force)) {
        aim.first = measured->in_force->first;
        aim.last = measured->in_force->last;
    }
    bool history = measured->counted == COUNTED_SESSION_LOAD && window->tally->logged;
    const char *suggestion = over && !history ? suggest_over(run, window, &aim) : NULL;
    if (suggestion)
        diag_help(run->diag, finding, "%s", suggestion);
}

/* --- over --- */

static void judge_over(struct run *run, const struct rule *rule, const struct window *window,
                       const struct measured *measured_in)
{
    struct measured measured = *measured_in;
    const struct limit *limit = measured.limit;
    milli most = limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
    /* A minute or two over in a session is nobody's fault: 5 % is let pass. */
    milli grace =
        window->scope == SCOPE_OCCASION && measured.counted == COUNTED_TIME ? most / 20 : 0;
    bool cut = limit_is_of_days(measured.in_force) && measured.days < DAYS_OF_WEEK && measured.days > 0;
    milli share = cut ? limit_for_days(most, measured.days) : most;
    /* Strikes of rounds and pads go uncounted in most weeks, so a plan that counts some of them would fail while one
     * that counts none would pass. */
    bool fails = rule->group != GROUP_STRIKES || measured.uncounted == 0;
    enum severity severity = limit_severity(limit, fails);
    run_margin(run, window, limit, measured.counted, measured.side, share - measured.amount.high);
    if (measured.amount.high > most + grace) {
        measured.days = DAYS_OF_WEEK;
        report(run, rule, window, &measured, measured.amount.high, most, severity);
    } else if (cut && measured.amount.high > share) {
        report(run, rule, window, &measured, measured.amount.high, share,
               limit_severity(limit, false));
    }
}

typedef void (*judge_limit)(struct run *run, const struct rule *rule, const struct window *window,
                            const struct measured *measured);

/* Calls JUDGE for each limit of the rule's group that bounds the side in question, and each side of
 * it. */
static void each_limit(struct run *run, const struct rule *rule, const struct window *window,
                       enum limit_bound bound, judge_limit judge)
{
    bool any = window->kinds >> rule->group & 1u; /* each rule of the many is asked, and most have no limit */
    for (size_t i = 0; any && i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        if (layered->kind != rule->group || layered->against != COUNTED_NONE ||
            (layered->limit->bound != bound && layered->limit->bound != LIMIT_WITHIN))
            continue;
        bool sides = layered->limit->a_side && counted_is_sided(layered->counted);
        for (int side = sides ? SIDE_LEFT : SIDE_ALL; side <= (sides ? SIDE_RIGHT : SIDE_ALL);
             side++) {
            struct measured measured;
            measure(window, &window->limits[i], (enum side)side, &measured);
            judge(run, rule, window, &measured);
        }
    }
}

void check_over(struct run *run, const struct rule *rule, const struct window *window)
{
    each_limit(run, rule, window, LIMIT_AT_MOST, judge_over);
}

/* --- under --- */

static bool is_bout_week(const struct window *window, const struct camp *camp)
{
    return window->scope == SCOPE_WEEK && camp->bout >= window->first && camp->bout <= window->last;
}

/* Never more than a warning: a plan may ask for less than a limit for reasons that it need not give. */
static void judge_under(struct run *run, const struct rule *rule, const struct window *window,
                        const struct measured *measured_in)
{
    struct measured measured = *measured_in;
    const struct in_force *in_force = measured.in_force;
    milli least = measured.limit->value;
    if (window->scope == SCOPE_WEEK) {
        if (rule->group == GROUP_SESSIONS && is_bout_week(window, in_force->camp))
            return;
        measured.floor = limit_floor(run->programme, run_table(run, in_force->camp), in_force, window->athlete,
                                     window->first, window->last);
        least = measured.floor.value;
        if (least == 0)
            return;
    }
    /* Asking less of somebody reveals what is restricted, so a tally does not say it. */
    bool unknown = counted_tells_body(measured.counted) && measured.body_unknown > 0;
    if (!measured.floor.restricted && !unknown)
        run_margin(run, window, measured.limit, measured.counted, measured.side, measured.amount.low - least);
    if (measured.amount.low < least && !unknown)
        report(run, rule, window, &measured, measured.amount.low, least, limit_severity(measured.limit, false));
}

void check_under(struct run *run, const struct rule *rule, const struct window *window)
{
    each_limit(run, rule, window, LIMIT_AT_LEAST, judge_under);
}

/* --- one count against another --- */

/* Of ONE to 1 of OTHER, in thousandths, what is left up to LIMIT; rounded so that it is below 0
 * wherever the limit is broken, and only there. */
static milli ratio_left(const struct limit *limit, struct range one, struct range other)
{
    milli above = one.low * 1000 / other.high - limit->value;
    milli most = limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
    if (limit->bound == LIMIT_AT_LEAST)
        return above;
    milli below = other.low > 0  ? most - (one.high * 1000 + other.low - 1) / other.low
                  : one.high > 0 ? -one.high
                                 : most;
    return limit->bound == LIMIT_AT_MOST || below < above ? below : above;
}

void check_ratio(struct run *run, const struct rule *rule, const struct window *window)
{
    if (athlete_away(run->programme, window->athlete, window->first, window->last))
        return;
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        const struct limit *limit = layered->limit;
        if (layered->against == COUNTED_NONE || layered->kind == GROUP_MEASURED)
            continue;
        struct range one = window->tally->sum[layered->counted];
        struct range other = window->tally->sum[layered->against];
        bool under = limit->bound != LIMIT_AT_MOST && one.low * 1000 < limit->value * other.high;
        milli most = limit->bound == LIMIT_WITHIN ? limit->top : limit->value;
        bool over = limit->bound != LIMIT_AT_LEAST && one.high * 1000 > most * other.low;
        struct measured measured;
        if (other.high == 0)
            continue;
        measure(window, &window->limits[i], SIDE_ALL, &measured);
        if (window->scope == SCOPE_WEEK && measured.days == 0)
            continue;
        run_margin(run, window, limit, layered->counted, SIDE_ALL, ratio_left(limit, one, other));
        if (!under && !over)
            continue;
        struct about about =
            about_limit(window, &window->limits[i], SIDE_ALL, over, limit_severity(limit, over), 0);
        bool body = counted_tells_body(layered->counted) || counted_tells_body(layered->against);
        about.severity = for_coach(about.severity, body);
        struct finding *finding = run_meet(run, rule, &about);
        if (!finding)
            continue;
        run_say(run, finding, "%s: %s to %s in %s, %s %s to 1", window->athlete->name.shown,
                run_figure(run, window, layered->counted, under ? one.low : one.high),
                run_figure(run, window, layered->against, under ? other.high : other.low),
                window_words(run, window), under ? "at least" : "at most",
                counted_amount(run->arena, COUNTED_SETS, under ? limit->value : most));
        if (body)
            diag_set_private(run->diag, finding);
        tell_lines(run, finding, window, layered->against, SIDE_ALL);
        tell_lines(run, finding, window, layered->counted, SIDE_ALL);
        run_note_limit(run, finding, limit);
    }
}

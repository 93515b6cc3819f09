/* How much: every count compared with its limit, in a session, a week, a phase and a camp. */
#include <string.h>

#include "limits/waive.h"
#include "model/athlete.h"
#include "model/season.h"
#include "rules/checks.h"
#include "rules/suggest.h"
#include "rules/run.h"

static const char *side_words(enum side side)
{
    return side == SIDE_LEFT ? " on the left" : side == SIDE_RIGHT ? " on the right" : "";
}

/* --- reporting --- */

static const struct limit *limit_of(const struct limit_verdict *verdict)
{
    return verdict->in_force->layered->limit;
}

static enum counted counted_by(const struct limit_verdict *verdict)
{
    return verdict->in_force->layered->counted;
}

static void note_gaps(struct run *run, struct finding *finding, const struct limit_verdict *verdict)
{
    if (verdict->uncounted > 0)
        diag_remark(run->diag, finding, "and %lld min not counted",
                    (long long)((verdict->uncounted + 59) / 60));
    enum counted_group group = verdict->in_force->layered->kind;
    bool of_reps = group == GROUP_LIFTS || group == GROUP_TONNAGE || group == GROUP_STRIKES ||
                   group == GROUP_THROWS || group == GROUP_CONTACTS || group == GROUP_HOLDS;
    if (of_reps && verdict->open > 0)
        diag_remark(run->diag, finding, "and %d %s of as many as possible not counted",
                    verdict->open, verdict->open == 1 ? "set" : "sets");
}

/* Why END asks something else than what a week's limit says. */
static void note_share(struct run *run, struct finding *finding, const struct window *window,
                       const struct limit_verdict *verdict, const struct limit_end *end)
{
    const char *part = run_amount(run, window, counted_by(verdict), end->passed);
    const char *of = run_amount(run, window, counted_by(verdict), end->whole);
    bool floor = end == &verdict->least;
    if (verdict->days < DAYS_OF_WEEK && (floor || end->passed != end->whole))
        diag_remark(run->diag, finding, "%d of the week's 7 days count: %s of the %s for a whole week",
                    verdict->days, part, of);
    if (floor && verdict->floor.phase)
        diag_remark(run->diag, finding, "volume comes down in %s, and this limit with it: %s of the usual %s",
                    verdict->floor.phase->name.shown, part, of);
    if (floor && verdict->floor.restricted)
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

/* What a finding about END of a limit is about: one for a session, else one for a camp's squad and week. Where it points
 * is worked out only when it is reported, because that takes a walk over every line. */
static struct about about_limit(const struct window *window, const struct limit_verdict *verdict,
                                const struct limit_end *end)
{
    bool alone = window->scope == SCOPE_OCCASION, over = end == &verdict->most;
    return (struct about){
        .window = window,
        .severity = end->severity,
        .span = alone ? window->occasions[0]->session->name.span : verdict->in_force->camp->name.span,
        .subject = limit_of(verdict),
        .subject_number = (alone || !over ? 0 : (int64_t)window->first * 4) + verdict->side};
}

/* A floor that is not met, as a row of the table of its week. */
static const struct table_row *row_of(struct run *run, const struct window *window,
                                      const struct limit_verdict *verdict)
{
    const char *source = limit_of(verdict)->source;
    struct table_row *row = arena_alloc(run->arena, sizeof *row);
    *row = (struct table_row){
        .is = arena_printf(run->arena, "%s%s", run_figure(run, window, counted_by(verdict), verdict->amount.low),
                           side_words(verdict->side)),
        .least = arena_printf(run->arena, "at least %s",
                              run_amount(run, window, counted_by(verdict), verdict->least.passed)),
        .source = source ? arena_copy(run->arena, source, strcspn(source, ",(")) : "no source"};
    return row;
}

/* The least edit after which the limit is kept, or NULL; what a log says is history. */
static const char *suggest_end(struct run *run, const struct window *window, const struct limit_verdict *verdict,
                               const struct limit_end *end)
{
    bool history = counted_by(verdict) == COUNTED_SESSION_LOAD && window_tally(window)->logged;
    if (end == &verdict->least || history)
        return NULL;
    struct suggestion_aim aim = {counted_by(verdict), verdict->side, end->passed, window->first, window->last};
    if (window->scope != SCOPE_OCCASION && limit_is_of_days(verdict->in_force)) {
        aim.first = verdict->in_force->first;
        aim.last = verdict->in_force->last;
    }
    return suggest_over(run, window, &aim);
}

static const char *words_of(struct run *run, const struct window *window, const struct limit_verdict *verdict,
                            const struct limit_end *end)
{
    bool over = end == &verdict->most, ranged = verdict->amount.low != verdict->amount.high;
    enum counted counted = counted_by(verdict);
    return arena_printf(run->arena, "%s: %s%s%s in %s, %s %s%s", window->athlete->name.shown,
                        !ranged ? "" : over ? "up to " : "as few as ",
                        run_figure(run, window, counted, over ? verdict->amount.high : verdict->amount.low),
                        side_words(verdict->side), window_words(run, window), over ? "at most" : "at least",
                        run_amount(run, window, counted, end->passed), verdict->side == SIDE_ALL ? "" : " a side");
}

/* Reports END of a sum's limit where it is broken. */
static void report(struct run *run, const struct rule *rule, const struct window *window,
                   const struct limit_verdict *verdict, const struct limit_end *end)
{
    bool over = end == &verdict->most;
    if (!end->broken)
        return;
    milli amount = over ? verdict->amount.high : verdict->amount.low;
    struct about about = about_limit(window, verdict, end);
    about.weight = over ? amount : -amount;
    about.figure = limit_figure(window->athlete, counted_by(verdict), amount);
    about.floor = !over;
    struct finding *finding = run_meet(run, rule, &about);
    if (!finding)
        return;
    finding->words = words_of(run, window, verdict, end);
    diag_set_neutral(finding, !over && verdict->floor.restricted ? "" : NULL);
    if (verdict->tells_body)
        diag_set_private(run->diag, finding);
    finding->row = over || window->scope == SCOPE_OCCASION ? NULL : row_of(run, window, verdict);
    tell_lines(run, finding, window, counted_by(verdict), verdict->side);
    note_gaps(run, finding, verdict);
    note_share(run, finding, window, verdict, end);
    run_note_limit(run, finding, limit_of(verdict));
    const char *suggestion = suggest_end(run, window, verdict, end);
    if (suggestion)
        diag_help(run->diag, finding, "%s", suggestion);
}

/* --- asking for verdicts --- */

static void judge(struct run *run, const struct window *window, const struct in_force *in_force, enum side side,
                  struct limit_verdict *verdict)
{
    const struct judged_work work = {.programme = run->programme,
                                     .athlete = window->athlete,
                                     .first = window->first,
                                     .last = window->last,
                                     .occasions = window->occasions,
                                     .count = window->count,
                                     .tallies = window->timeline->tallies + window->at,
                                     .tally = window_tally(window)};
    limit_judge(&work, run_table(run, in_force->camp), in_force, side, verdict);
}

static void keep_margin(struct run *run, const struct window *window, const struct limit_verdict *verdict, milli left)
{
    run_margin(run, window, limit_of(verdict), counted_by(verdict), verdict->side, left);
}

typedef void (*judge_limit)(struct run *run, const struct rule *rule, const struct window *window,
                            const struct limit_verdict *verdict);

/* Calls TELL with the verdict on each limit of the rule's group that bounds the side in question, and each side of
 * it. */
static void each_limit(struct run *run, const struct rule *rule, const struct window *window,
                       enum limit_bound bound, judge_limit tell)
{
    bool any = window->kinds >> rule->group & 1u; /* each rule of the many is asked, and most have no limit */
    for (size_t i = 0; any && i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        if (layered->kind != rule->group || layered->against != COUNTED_NONE ||
            (layered->limit->bound != bound && layered->limit->bound != LIMIT_WITHIN))
            continue;
        int last = limit_last_side(layered);
        for (int side = limit_first_side(layered); side <= last; side++) {
            struct limit_verdict verdict;
            judge(run, window, &window->limits[i], (enum side)side, &verdict);
            tell(run, rule, window, &verdict);
        }
    }
}

static void tell_over(struct run *run, const struct rule *rule, const struct window *window,
                      const struct limit_verdict *verdict)
{
    keep_margin(run, window, verdict, verdict->most.left);
    report(run, rule, window, verdict, &verdict->most);
}

void check_over(struct run *run, const struct rule *rule, const struct window *window)
{
    each_limit(run, rule, window, LIMIT_AT_MOST, tell_over);
}

/* Asking less of somebody reveals what is restricted, so a tally does not say it. */
static void tell_under(struct run *run, const struct rule *rule, const struct window *window,
                       const struct limit_verdict *verdict)
{
    if (verdict->least.asked && !verdict->floor.restricted)
        keep_margin(run, window, verdict, verdict->least.left);
    report(run, rule, window, verdict, &verdict->least);
}

void check_under(struct run *run, const struct rule *rule, const struct window *window)
{
    each_limit(run, rule, window, LIMIT_AT_LEAST, tell_under);
}

/* --- one count against another --- */

static void report_ratio(struct run *run, const struct rule *rule, const struct window *window,
                         const struct limit_verdict *verdict)
{
    const struct layered *layered = verdict->in_force->layered;
    bool under = verdict->least.broken;
    const struct limit_end *end = under ? &verdict->least : &verdict->most;
    struct about about = about_limit(window, verdict, end);
    struct finding *finding = run_meet(run, rule, &about);
    if (!finding)
        return;
    run_say(run, finding, "%s: %s to %s in %s, %s %s to 1", window->athlete->name.shown,
            run_figure(run, window, layered->counted, under ? verdict->amount.low : verdict->amount.high),
            run_figure(run, window, layered->against, under ? verdict->other.high : verdict->other.low),
            window_words(run, window), under ? "at least" : "at most",
            counted_amount(run->arena, COUNTED_SETS, end->passed));
    if (verdict->tells_body)
        diag_set_private(run->diag, finding);
    tell_lines(run, finding, window, layered->against, SIDE_ALL);
    tell_lines(run, finding, window, layered->counted, SIDE_ALL);
    run_note_limit(run, finding, layered->limit);
}

/* The nearer end is the margin. */
static milli ratio_left(const struct limit_verdict *verdict)
{
    if (!verdict->least.asked || !verdict->most.asked)
        return verdict->least.asked ? verdict->least.left : verdict->most.left;
    return verdict->most.left < verdict->least.left ? verdict->most.left : verdict->least.left;
}

void check_ratio(struct run *run, const struct rule *rule, const struct window *window)
{
    for (size_t i = 0; i < window->limit_count; i++) {
        const struct layered *layered = window->limits[i].layered;
        if (layered->against == COUNTED_NONE || layered->kind == GROUP_MEASURED)
            continue;
        struct limit_verdict verdict;
        judge(run, window, &window->limits[i], SIDE_ALL, &verdict);
        if (!verdict.least.asked && !verdict.most.asked)
            continue;
        keep_margin(run, window, &verdict, ratio_left(&verdict));
        if (verdict.least.broken || verdict.most.broken)
            report_ratio(run, rule, window, &verdict);
    }
}

/* What was really done: the last loads, and how long and hard a session or activity was. */
#include <stdlib.h>

#include "figures/dates.h"
#include "resolve/dose.h"
#include "resolve/template.h"

/* What was lifted in one line of a log: `@ last` asks for it. */
static void read_sets(struct resolver *r, const struct node *line, const struct athlete *athlete,
                      const struct exercise *exercise, int date)
{
    for (const struct node *set = line->last->first; set; set = set->next) {
        const struct dose *dose = dose_read(r, set);
        bool weighed = dose->load.given && dose->load.word == LOAD_WORD_FIGURE &&
                       (dose->load.figures->measure == MEASURE_KG || dose->load.figures->measure == MEASURE_LB);
        if (!weighed)
            continue;
        r->logged = arena_grow(r->arena, r->logged, r->logged_count, &r->logged_capacity, sizeof *r->logged);
        r->logged[r->logged_count++] = (struct logged){.athlete = athlete, .exercise = exercise, .date = date,
                                                       .load = figures_mass(r, dose->load.figures, 0)};
    }
}

/* Nothing but a time that a session can take, an RPE, or both. */
static bool is_outcome(struct resolver *r, const struct dose *dose, struct outcome *outcome)
{
    const struct dose_part *part = &dose->parts[0];
    const struct figures *time = dose->part_count == 1 ? part->figures : NULL;
    const struct dose_effort *effort = &dose->effort;
    bool rated = effort->given && effort->word == EFFORT_WORD_RPE, more = dose->times || dose->sets || dose->hold ||
                 dose->load.given || dose->rest || dose->within || dose->over || dose->tempo.given || dose->next;
    if (more || dose->part_count > 1 || effort->given != rated || (!time && !rated) || (time && part->side))
        return false;
    outcome->told = true;
    outcome->timed = time != NULL;
    if (time)
        outcome->seconds = figures_seconds(r, time, time->values[0].high);
    if (rated)
        outcome->rpe = effort->figures->values[0];
    return (!time || time->count == 1) && (!rated || effort->figures->count == 1);
}

/* `took 64 min RPE 7`. False where it says nothing. */
static bool read_took(struct resolver *r, const struct node *took, struct outcome *outcome)
{
    size_t findings = r->diag->count;
    const struct dose *dose = dose_read(r, took->first);
    if (r->diag->count > findings)
        return false;
    if (is_outcome(r, dose, outcome))
        return true;
    if (r->diag->count == findings) {
        struct finding *finding =
            diag_error(r->diag, "bad-log", took->span, "what a session took is a time, an RPE, or both");
        diag_help(r->diag, finding, "write it like `took 64 min RPE 7`");
    }
    return false;
}

/* The lines of a log of a session. */
static void read_lines(struct resolver *r, const struct node *log, const struct athlete *athlete,
                       struct session *session, int date)
{
    const struct template *template = template_of(r, session);
    for (const struct node *line = log->first; line; line = line->next) {
        bool logged = line->kind == STATEMENT_LOGGED;
        if ((logged || line->kind == STATEMENT_SKIPPED) && template_has(r, template, line->first) && logged)
            read_sets(r, line, athlete, template_exercise(template, line->first->text), date);
    }
}

/* An activity has no lines of its own. */
static void refuse_lines(struct resolver *r, const struct node *log, const struct activity *activity)
{
    for (const struct node *line = log->first; line; line = line->next) {
        if (line->kind != STATEMENT_LOGGED && line->kind != STATEMENT_SKIPPED)
            continue;
        struct finding *finding = diag_error(r->diag, "unknown-item", line->first->span,
                                             "`%s` is an activity and has no lines", activity->name.shown);
        diag_help(r->diag, finding, "say what it took: `took 30 min RPE 8`");
    }
}

static void unknown_done(struct resolver *r, const struct node *name)
{
    if (resolver_doubts(r, r->sessions) || resolver_doubts(r, r->activities))
        return;
    const char *folded = resolver_fold(r, name), *near = names_nearest(r->sessions, folded);
    struct finding *finding = diag_error(r->diag, "unknown-session", name->span,
                                         "there is no session or activity called `%s`", name->text);
    if (!near)
        near = names_nearest(r->activities, folded);
    if (near)
        diag_fix(r->diag, finding, name->span, near);
}

void resolve_log(struct resolver *r, const struct node *node)
{
    const struct node *who = node_find(node, NODE_NAME), *what = who ? node_next_alike(who) : NULL;
    struct done done = {.date = (int)node_find(node, NODE_DATE)->number, .span = node->span};
    done.athlete = who ? resolver_find(r, who, "athlete", r->athletes) : NULL;
    if (who && !what)
        diag_error(r->diag, "line-too-short", node->span, "a log names the athlete and then the session");
    /* Of one name, it is the session, as where it is placed. */
    struct session *session = what ? names_find(r->sessions, resolver_fold(r, what)) : NULL;
    done.activity = what && !session ? names_find(r->activities, resolver_fold(r, what)) : NULL;
    if (what && !session && !done.activity)
        unknown_done(r, what);
    if (!done.athlete || (!session && !done.activity))
        return;
    done.session = session;
    if (session)
        read_lines(r, node, done.athlete, session, done.date);
    else
        refuse_lines(r, node, done.activity);
    const struct node *took = resolver_single(r, node, STATEMENT_TOOK);
    if (!took || !read_took(r, took, &done.outcome))
        return;
    r->done = arena_grow(r->arena, r->done, r->done_count, &r->done_capacity, sizeof *r->done);
    r->done[r->done_count++] = done;
}

/* --- which of what was planned it was --- */

/* The first occasion on DAY or after it. */
static size_t first_from(const struct programme *programme, int day)
{
    size_t low = 0, high = programme->occasion_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (programme->occasions[middle].date < day)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Puts DONE into the first occasion from FIRST to LAST that it can have been; false where there is none. */
static bool settle_between(const struct programme *programme, struct occasion *occasions, const struct done *done,
                           int first, int last)
{
    for (size_t i = first_from(programme, first); i < programme->occasion_count; i++) {
        struct occasion *occasion = &occasions[i];
        if (occasion->date > last)
            return false;
        if (occasion->athlete != done->athlete || occasion->session != done->session ||
            occasion->activity != done->activity || occasion->outcome.told)
            continue;
        occasion->outcome = done->outcome;
        return true;
    }
    return false;
}

/* What is planned for an athlete in a week. */
struct planned {
    bool anything, this; /* anything at all; what the log is of */
};

static struct planned planned_in(const struct programme *programme, const struct done *done, int monday)
{
    struct planned planned = {false, false};
    for (size_t i = first_from(programme, monday); i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->date > monday + 6)
            break;
        bool mine = occasion->athlete == done->athlete;
        planned.anything |= mine;
        planned.this |= mine && occasion->session == done->session && occasion->activity == done->activity;
    }
    return planned;
}

/* Logs of camps that are no longer kept ask for nothing. */
static void report_unplanned(struct resolver *r, const struct done *done, int monday)
{
    struct planned planned = planned_in(r->programme, done, monday);
    if (!planned.anything || resolver_doubts(r, r->programme))
        return;
    const char *what = done->session ? done->session->name.shown : done->activity->name.shown;
    struct finding *finding =
        diag_report(r->diag, SEVERITY_WARNING, "log-without-plan", done->span,
                    planned.this ? "another log tells already of each %s of %s in this week: this one is not counted"
                                 : "no %s was planned for %s in this week: what it took is not counted",
                    what, done->athlete->name.shown);
    diag_help(r->diag, finding, "check the day, or place it in the camp's week as it was done");
}

/* First what was done on its day: what was moved to another day of the week then takes what is left. */
void settle_logs(struct resolver *r, struct occasion *occasions)
{
    bool *settled = arena_alloc(r->arena, r->done_count + 1);
    for (size_t i = 0; i < r->done_count; i++)
        settled[i] = settle_between(r->programme, occasions, &r->done[i], r->done[i].date, r->done[i].date);
    for (size_t i = 0; i < r->done_count; i++) {
        const struct done *done = &r->done[i];
        int monday = date_monday(done->date);
        if (!settled[i] && !settle_between(r->programme, occasions, done, monday, monday + 6))
            report_unplanned(r, done, monday);
    }
}

/* What was really done: the last loads, and how long and hard a session or activity was. */
#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"
#include "model/programme.h"
#include "resolve/dose.h"
#include "resolve/tracking.h"
#include "resolve/whereabouts.h"
#include "source/span_order.h"

/* Nothing but a time that a session can take, an RPE, or both. */
static bool is_outcome(struct resolver *r, const struct dose *dose, struct outcome *outcome)
{
    const struct dose_part *part = &dose->parts[0];
    const struct figures *time = dose->part_count == 1 ? part->figures : NULL;
    const struct dose_effort *effort = &dose->effort;
    bool rated = effort->given && effort->word == EFFORT_WORD_RPE, more = dose->times || dose->sets || dose->hold ||
                 dose->load.given || dose->rest || dose->within || dose->over || dose->tempo.given || dose->alternates || dose->next;
    if (more || dose->part_count > 1 || effort->given != rated || (!time && !rated) || (time && part->side))
        return false;
    outcome->logged = true;
    outcome->timed = time != NULL;
    if (time)
        outcome->seconds = figures_seconds(r, time, time->values[0].high);
    if (rated)
        outcome->rpe = effort->figures->values[0];
    return (!time || time->count == 1) && (!rated || effort->figures->count == 1);
}

/* `took 64 min RPE 7`. False if it says nothing. */
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
            diag_error(r->diag, DIAG_BAD_LOG, took->span, "what a session took is a time, an RPE, or both");
        diag_help(r->diag, finding, "write it like `took 64 min RPE 7`");
    }
    return false;
}

/* An activity has no lines of its own. */
static void refuse_lines(struct resolver *r, const struct node *log, const struct activity *activity)
{
    for (const struct node *line = log->first; line; line = line->next) {
        if (line->kind != STATEMENT_LOGGED && line->kind != STATEMENT_SKIPPED)
            continue;
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ITEM, line->first->span,
                                             "`%s` is an activity and has no lines", activity->name.shown);
        diag_help(r->diag, finding, "say what it took: `took 30 min RPE 8`");
    }
}

static void unknown_done(struct resolver *r, const struct node *name)
{
    if (resolver_is_poisoned(r, r->sessions) || resolver_is_poisoned(r, r->activities)) {
        resolver_mark_unclear(r, name->span);
        return;
    }
    struct names *const tables[] = {r->sessions, r->activities};
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_SESSION, name->span,
                                         "there is no session or activity called `%s`", name->text);
    resolver_propose(r, finding, name, tables, 2);
}

/* A day that has not come was mistyped, or a line was written ahead. Reported once for all of them. */
static void look_at_day(struct resolver *r, const struct node *node, int date)
{
    if (!r->today || date <= r->today || r->log_to_come)
        return;
    r->log_to_come = true;
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_TO_COME, node_find(node, NODE_DATE)->span,
                                          "this day is still to come, and a log is for what was done");
    diag_help(r->diag, finding, "check the year; `--date` sets another day as today");
}

static void report_empty(struct resolver *r, const struct node *node)
{
    for (const struct node *child = node->first; child; child = child->next)
        if (node_is_statement(child) || child->kind == NODE_BROKEN)
            return;
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_EMPTY, node->span, "this log says nothing");
    diag_help(r->diag, finding, "write `as planned`, `took 64 min RPE 7` or the sets below it, or leave it out");
}

/* Whose log it is, and of what; false where that is not known. */
static bool read_done(struct resolver *r, const struct node *node, struct done *done)
{
    const struct node *who = node_find(node, NODE_NAME), *what = who ? node_next_alike(who) : NULL;
    const struct node *clock = node_find(node, NODE_CLOCK);
    *done = (struct done){.date = (int)node_find(node, NODE_DATE)->number,
                          .clock = clock ? (int)clock->number : -1, .span = node->span};
    done->athlete = who ? resolver_find(r, who, "athlete", r->athletes) : NULL;
    if (who && !what)
        diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->span, "a log names the athlete and then the session");
    /* If both have one name, it is the session, as where it is placed. */
    struct session *session = what ? names_find(r->sessions, resolver_fold(r, what)) : NULL;
    done->session = session ? session_on(session, done->date) : NULL;
    done->activity = what && !done->session ? names_find(r->activities, resolver_fold(r, what)) : NULL;
    if (what && !done->session && !done->activity)
        unknown_done(r, what);
    return done->athlete && (done->session || done->activity);
}

/* The first line of a log, after VERDICT has been read, that VERDICT leaves no room for; NULL if there is none. */
static const struct node *contradicting(const struct node *log, const struct node *verdict)
{
    bool missed = verdict->kind == STATEMENT_MISSED;
    for (const struct node *line = log->first; line; line = line->next)
        if (line->kind == STATEMENT_LOGGED || line->kind == STATEMENT_SKIPPED ||
            (missed && (line->kind == STATEMENT_TOOK || line->kind == STATEMENT_AS_PLANNED)))
            return line;
    return NULL;
}

/* Reports a log that says both VERDICT, all or none of it, and something else. */
static void check_verdict(struct resolver *r, const struct node *log, const struct node *verdict)
{
    const struct node *other = contradicting(log, verdict);
    if (!other)
        return;
    bool missed = verdict->kind == STATEMENT_MISSED;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_LOG, verdict->span, "%s",
                                         missed ? "this was missed, and the same log says what was done"
                                                : "this was done as planned, and the same log says what was different");
    diag_note(r->diag, finding, other->span, "here");
    diag_help(r->diag, finding, missed ? "leave one of the two out" : "leave `as planned` out: what a log does not say stays as planned");
}

/* `as planned`, `missed because ...` and `note ...`. */
static void read_verdict(struct resolver *r, const struct node *node, struct done *done)
{
    const struct node *planned = resolver_single(r, node, STATEMENT_AS_PLANNED);
    const struct node *missed = resolver_single(r, node, STATEMENT_MISSED);
    const struct node *note = resolver_single(r, node, STATEMENT_LOG_NOTE);
    if (planned)
        check_verdict(r, node, planned);
    if (missed)
        check_verdict(r, node, missed);
    done->as_planned = planned && !missed;
    done->missed = missed != NULL;
    done->because = resolver_text(missed);
    done->note = resolver_text(note);
    if (missed)
        whereabouts_words(r, missed->first);
    if (note)
        whereabouts_words(r, note->first);
    if (missed)
        done->outcome = (struct outcome){.logged = true, .timed = true};
    else if (planned)
        done->outcome.logged = true;
}

void resolve_log(struct resolver *r, const struct node *node)
{
    struct done done;
    bool known = read_done(r, node, &done);
    if (done.athlete)
        resolve_knocks(r, node, (struct athlete *)done.athlete);
    if (done.athlete)
        resolve_pains(r, node, (struct athlete *)done.athlete);
    if (!known)
        return;
    look_at_day(r, node, done.date);
    report_empty(r, node);
    if (done.session)
        resolve_logged(r, node, &done);
    else
        refuse_lines(r, node, done.activity);
    const struct node *took = resolver_single(r, node, STATEMENT_TOOK);
    if (took && !read_took(r, took, &done.outcome))
        done.outcome = (struct outcome){0};
    read_verdict(r, node, &done);
    r->done = arena_grow(r->arena, r->done, r->done_count, &r->done_capacity, sizeof *r->done);
    r->done[r->done_count++] = done;
}

/* --- which of what was planned it was --- */

static const char *name_of(const struct done *done)
{
    return done->session ? done->session->name.shown : done->activity->name.shown;
}

/* What each athlete does, by day: all logs of a club may be of one week. */
struct agenda {
    const struct occasion *occasions;
    const size_t *items;  /* numbers of occasions, athlete by athlete */
    const size_t *starts; /* of each athlete's, by number, and the end of the last */
};

static struct agenda make_agenda(struct resolver *r)
{
    const struct programme *programme = r->programme;
    size_t *starts = arena_alloc(r->arena, (programme->athlete_count + 2) * sizeof *starts);
    size_t *items = arena_alloc(r->arena, (programme->occasion_count + 1) * sizeof *items);
    for (size_t i = 0; i < programme->occasion_count; i++)
        starts[programme->occasions[i].athlete->number + 2]++;
    for (size_t i = 2; i < programme->athlete_count + 2; i++)
        starts[i] += starts[i - 1];
    for (size_t i = 0; i < programme->occasion_count; i++)
        items[starts[programme->occasions[i].athlete->number + 1]++] = i;
    return (struct agenda){programme->occasions, items, starts};
}

/* Numbers of one athlete's occasions from AT up to, not including, END. */
struct day_occasions {
    const size_t *at, *end;
};

/* Those of ATHLETE from DAY on. */
static struct day_occasions days_from(const struct agenda *agenda, const struct athlete *athlete, int day)
{
    size_t low = agenda->starts[athlete->number], end = agenda->starts[athlete->number + 1], high = end;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (agenda->occasions[agenda->items[middle]].date < day)
            low = middle + 1;
        else
            high = middle;
    }
    return (struct day_occasions){agenda->items + low, agenda->items + end};
}

static bool is_of(const struct done *done, const struct occasion *occasion)
{
    const struct session *planned = occasion->session ? occasion->session->first : NULL;
    return occasion->athlete == done->athlete && planned == (done->session ? done->session->first : NULL) &&
           occasion->activity == done->activity;
}

/* Assigns DONE to the first occasion from FIRST to LAST that it can have been, with AT_HOUR only to one at its hour;
 * false if there is none. */
static bool settle_between(const struct agenda *agenda, struct occasion *occasions, const struct done *done, int first,
                           int last, bool at_hour)
{
    for (struct day_occasions days = days_from(agenda, done->athlete, first); days.at < days.end; days.at++) {
        struct occasion *occasion = &occasions[*days.at];
        if (occasion->date > last)
            return false;
        if (!is_of(done, occasion) || occasion->log || (at_hour && occasion->clock != done->clock))
            continue;
        occasion->outcome = done->outcome;
        occasion->log = done;
        return true;
    }
    return false;
}

/* What is planned for an athlete in a week. */
struct planned {
    bool anything, this; /* anything at all; what the log is of */
};

static struct planned planned_in(const struct agenda *agenda, const struct done *done, int monday)
{
    struct planned planned = {false, false};
    for (struct day_occasions days = days_from(agenda, done->athlete, monday); days.at < days.end; days.at++) {
        const struct occasion *occasion = &agenda->occasions[*days.at];
        if (occasion->date > monday + 6)
            break;
        planned.anything = true;
        planned.this |= is_of(done, occasion);
    }
    return planned;
}

/* Logs of camps that are no longer kept ask for nothing. */
static void report_unplanned(struct resolver *r, const struct agenda *agenda, const struct done *done, int monday)
{
    struct planned planned = planned_in(agenda, done, monday);
    if (planned.anything && resolver_is_poisoned(r, r->programme))
        resolver_mark_unclear(r, done->span);
    if (!planned.anything || resolver_is_poisoned(r, r->programme))
        return;
    const char *what = name_of(done);
    struct finding *finding =
        diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_WITHOUT_PLAN, done->span,
                    planned.this ? "other logs already cover each %s of %s in this week: this one is not counted"
                                 : "no %s was planned for %s in this week: what it took is not counted",
                    what, done->athlete->name.shown);
    diag_help(r->diag, finding, "check the day, or place it in the camp's week as it was done");
    track_log(r, done->athlete, finding);
}

/* --- logs of one day --- */

static int by_key(const void *left, const void *right)
{
    const struct done *a = *(struct done *const *)left, *b = *(struct done *const *)right;
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (a->session != b->session)
        return (uintptr_t)a->session < (uintptr_t)b->session ? -1 : 1;
    if (a->activity != b->activity)
        return (uintptr_t)a->activity < (uintptr_t)b->activity ? -1 : 1;
    if (a->clock != b->clock)
        return a->clock < b->clock ? -1 : 1;
    return span_order(a->span, b->span);
}

/* How often what DONE is of is planned on its day. */
static int times_planned(const struct agenda *agenda, const struct done *done)
{
    int times = 0;
    for (struct day_occasions days = days_from(agenda, done->athlete, done->date); days.at < days.end; days.at++) {
        if (agenda->occasions[*days.at].date > done->date)
            break;
        times += is_of(done, &agenda->occasions[*days.at]);
    }
    return times;
}

/* What is logged twice counts once; if a name appears twice on a day, the hour says which is meant. */
static void report_twice(struct resolver *r, struct done *done, const struct done *before)
{
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_TWICE, done->span,
                                          "%s of %s is logged twice for this day, and counts once", name_of(done),
                                          done->athlete->name.shown);
    diag_note(r->diag, finding, before->span, "the first is here");
    diag_help(r->diag, finding, "leave one out; if there were two that day, give each its hour: `log 2027-03-02 18:00 "
                                "...`");
    done->outcome = (struct outcome){0};
    done->again = true;
}

static void report_no_hour(struct resolver *r, const struct done *done)
{
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_WITHOUT_HOUR, done->span,
                                          "%s is planned more than once on this day, and the log does not say which it "
                                          "is",
                                          name_of(done));
    diag_help(r->diag, finding, "write the hour after the day: `log 2027-03-02 18:00 ...`");
    track_log(r, done->athlete, finding);
}

/* Only the first of several logs with one key keeps its outcome. */
static void look_at_keys(struct resolver *r, const struct agenda *agenda)
{
    struct done **order = r->done_order;
    for (size_t i = 0; i < r->done_count; i++) {
        const struct done *before = i ? order[i - 1] : NULL;
        bool again = before && before->athlete == order[i]->athlete && before->date == order[i]->date &&
                     before->session == order[i]->session && before->activity == order[i]->activity &&
                     before->clock == order[i]->clock;
        if (again)
            report_twice(r, order[i], before);
        else if (order[i]->clock < 0 && times_planned(agenda, order[i]) > 1)
            report_no_hour(r, order[i]);
    }
}

void order_logs(struct resolver *r)
{
    order_lifted(r);
    r->done_order = arena_alloc(r->arena, (r->done_count + 1) * sizeof *r->done_order);
    for (size_t i = 0; i < r->done_count; i++)
        r->done_order[i] = &r->done[i];
    if (r->done_count > 1)
        qsort(r->done_order, r->done_count, sizeof *r->done_order, by_key);
}

static bool log_is_of(const struct done *done, const struct occasion *occasion)
{
    bool undone = done->outcome.logged && done->outcome.timed && done->outcome.seconds == 0;
    return is_of(done, occasion) && done->date == occasion->date && !undone &&
           (done->clock < 0 || occasion->clock < 0 || done->clock == occasion->clock);
}

/* Does LOG come before those of OCCASION's athlete and day? */
static bool comes_before(const struct done *log, const struct occasion *occasion)
{
    if (log->athlete != occasion->athlete)
        return log->athlete->number < occasion->athlete->number;
    return log->date < occasion->date;
}

bool occasion_is_logged(const struct resolver *r, const struct occasion *occasion)
{
    size_t low = 0, high = r->done_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (comes_before(r->done_order[middle], occasion))
            low = middle + 1;
        else
            high = middle;
    }
    for (; low < r->done_count; low++) {
        const struct done *done = r->done_order[low];
        if (done->athlete != occasion->athlete || done->date != occasion->date)
            return false;
        if (log_is_of(done, occasion))
            return true;
    }
    return false;
}

/* First what was done at its hour, then on its day: what was moved to another day of the week then takes what is
 * left. */
void settle_logs(struct resolver *r, struct occasion *occasions)
{
    bool *settled = arena_alloc(r->arena, r->done_count + 1);
    const struct agenda agenda = make_agenda(r);
    look_at_keys(r, &agenda);
    for (size_t i = 0; i < r->programme->occasion_count; i++)
        occasions[i].logged = occasion_is_logged(r, &occasions[i]); /* with or without what it took */
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < r->done_count; i++) {
            const struct done *done = &r->done[i];
            bool at_hour = pass == 0;
            if (!done->again && !settled[i] && (!at_hour || done->clock >= 0))
                settled[i] = settle_between(&agenda, occasions, done, done->date, done->date, at_hour);
        }
    for (size_t i = 0; i < r->done_count; i++) {
        const struct done *done = &r->done[i];
        int monday = date_monday(done->date);
        if (!done->again && !settled[i] && !settle_between(&agenda, occasions, done, monday, monday + 6, false) &&
            done->outcome.logged)
            report_unplanned(r, &agenda, done, monday);
    }
}

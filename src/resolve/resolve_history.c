/* resolve_history.c - closed days on which a plan still says something else than the record, by its own line: an edit that
 * was meant for days to come, and reaches into those gone by. What moved with a bout, a restriction or a gym does not
 * count. */
#include <string.h>

#include "figures/dates.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "resolve/template.h"

static const char *iso(struct resolver *r, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(r->arena, text, strlen(text));
}

static bool same_range(struct range a, struct range b)
{
    return a.low == b.low && a.high == b.high;
}

/* May ATHLETE have done HELD where the line says PLANNED, for a restriction or for want of kit? */
static bool may_replace(const struct athlete *athlete, const struct exercise *planned, const struct exercise *held)
{
    bool may = planned->easier == held || held->lost;
    for (size_t i = 0; i < athlete->avoid_count; i++)
        may = may || athlete->avoids[i].instead == held;
    for (size_t i = 0; i < planned->without_count; i++)
        may = may || planned->without[i].instead == held;
    return may;
}

/* A share of a best is not compared: the best, the gym and a taper have their say in it. */
static bool same_load(const struct load *planned, const struct load *held)
{
    bool written = planned->kind == LOAD_MASS && planned->percent.high == 0;
    bool same = !written || planned->asked == held->made || planned->made == held->made;
    same = same && (planned->kind != LOAD_BODY || held->kind != LOAD_BODY || planned->added == held->added);
    return same && planned->effort == held->effort && same_range(planned->effort_band, held->effort_band);
}

static bool same_run(const struct set_run *planned, const struct set_run *held)
{
    bool same = planned->part_count == held->part_count && planned->repeats == held->repeats &&
                same_load(&planned->load, &held->load);
    for (size_t i = 0; same && i < planned->part_count; i++)
        same = same_range(planned->parts[i].amount, held->parts[i].amount) && planned->parts[i].max == held->parts[i].max &&
               planned->parts[i].side == held->parts[i].side;
    return same;
}

static bool same_item(const struct athlete *athlete, const struct item *planned, const struct item *held)
{
    bool exchanged = planned->exchange == EXCHANGE_AVOID || planned->exchange == EXCHANGE_KIT;
    if (planned->exercise != held->exercise)
        return exchanged || may_replace(athlete, planned->exercise, held->exercise);
    bool same = exchanged || (planned->sets == held->sets && planned->run_count == held->run_count);
    for (size_t i = 0; same && !exchanged && i < planned->run_count; i++)
        same = planned->runs[i].count == held->runs[i].count && same_run(&planned->runs[i], &held->runs[i]);
    return same;
}

static bool same_header(const struct block *planned, const struct block *held)
{
    bool same = planned->kind == held->kind && planned->letter == held->letter && planned->item_count == held->item_count;
    return same && (planned->kind != BLOCK_ROUNDS || (planned->sets == held->sets && planned->work == held->work));
}

/* The line that says something else than HELD had; a span of no file: none does. */
static bool find_other(const struct occasion *planned, const struct occasion *held, struct span *where)
{
    size_t blocks = planned->block_count < held->block_count ? planned->block_count : held->block_count;
    for (size_t b = 0; b < blocks; b++) {
        const struct block *one = &planned->blocks[b], *other = &held->blocks[b];
        *where = one->span;
        if (!same_header(one, other))
            return true;
        for (size_t i = 0; i < one->item_count; i++) {
            *where = one->items[i].span;
            if (!same_item(planned->athlete, &one->items[i], &other->items[i]))
                return true;
        }
    }
    *where = planned->session->name.span;
    return planned->block_count != held->block_count;
}

static void report_session(struct resolver *r, const struct occasion *planned, const struct occasion *held,
                           struct span where)
{
    const struct session *session = planned->session;
    struct finding *finding =
        diag_error(r->diag, DIAG_HISTORY_CHANGED, where, "%s is closed, and %s was planned differently then",
                   iso(r, held->date), session->name.shown);
    diag_note(r->diag, finding, held->span, "the record of that day is here, and stays as it is");
    const char *later = arena_printf(r->arena, "%s from %s", session->name.shown, iso(r, r->closed + 1));
    diag_help(r->diag, finding, "make it a later version: a line `session %s`, and below it what applies from then "
                                "on", later);
    diag_fix(r->diag, finding, session->name.span, later);
}

/* The session as the plan has it now for a closed day. What is wrong with that is of no interest. */
static struct occasion settle_again(struct resolver *r, const struct placed *placed, const struct occasion *held)
{
    struct occasion again = placed->occasion;
    struct diag *diag = r->diag;
    r->diag = diag_new(r->arena, r->sources);
    again.column = held->column;
    again.week = held->week;
    occasion_settle(r, placed->template, &again);
    r->diag = diag;
    return again;
}

/* What was reported already: each session and each line of an activity once. */
struct reports {
    const void **things;
    size_t count, capacity;
};

static bool is_reported(const struct reports *reports, const void *thing)
{
    for (size_t i = 0; i < reports->count; i++)
        if (reports->things[i] == thing)
            return true;
    return false;
}

static void keep_reported(struct resolver *r, struct reports *reports, const void *thing)
{
    reports->things = arena_grow(r->arena, reports->things, reports->count, &reports->capacity, sizeof *reports->things);
    reports->things[reports->count++] = thing;
}

static void compare_session(struct resolver *r, struct reports *reports, const struct placed *placed,
                            const struct occasion *held)
{
    const struct athlete *athlete = held->athlete;
    const struct session *session = placed->occasion.session;
    struct occasion again = settle_again(r, placed, held);
    struct span where;
    bool partly = athlete->hold_count || session->from > held->date || is_reported(reports, session);
    if (partly || !find_other(&again, held, &where))
        return;
    report_session(r, &again, held, where);
    keep_reported(r, reports, session);
}

static void compare_activity(struct resolver *r, struct reports *reports, const struct occasion *planned, const struct occasion *held)
{
    bool same = planned->seconds == held->seconds && planned->rounds == held->rounds &&
                planned->round_seconds == held->round_seconds;
    if (same || is_reported(reports, planned->place))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_HISTORY_CHANGED, planned->span,
                                         "%s is closed, and %s was planned differently then", iso(r, held->date),
                                         planned->activity->name.shown);
    diag_note(r->diag, finding, held->span, "the record of that day is here, and stays as it is");
    diag_help(r->diag, finding, "leave this line as it was, and give the open weeks one of their own");
    keep_reported(r, reports, planned->place);
}

void compare_history(struct resolver *r)
{
    struct reports reports = {0};
    for (size_t i = 0; i < r->overtaken_count; i++) {
        const struct placed *placed = &r->overtaken[i];
        const struct occasion *planned = &placed->occasion;
        const struct occasion *held = held_of(r, planned);
        if (held && held->session && placed->template)
            compare_session(r, &reports, placed, held);
        else if (held && held->activity)
            compare_activity(r, &reports, planned, held);
    }
}

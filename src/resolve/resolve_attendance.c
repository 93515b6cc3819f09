/* Below a placed session: who comes when, who holds for whom, when the doors close. */
#include <stdlib.h>

#include "resolve/calendar.h"
#include "model/athlete.h"
#include "model/season.h"
#include "resolve/place.h"

enum { MOST_COACHES = 50, MOST_LATE = 4 * 3600, MOST_PARTNERS = 6 };

/* The athlete at NAME, who has to be in CAMP; reports and returns NULL otherwise. */
static const struct athlete *member_at(struct resolver *r, const struct node *name, const struct camp *camp)
{
    const struct athlete *athlete = resolver_athlete(r, name);
    for (size_t i = 0; athlete && i < camp->athlete_count; i++)
        if (camp->athletes[i] == athlete)
            return athlete;
    if (athlete && !resolver_is_poisoned(r, camp))
        diag_error(r->diag, DIAG_UNKNOWN_ATHLETE, name->span, "%s is not in `%s`", athlete->name.shown, camp->name.shown);
    return NULL;
}

/* --- late --- */

static bool is_late_already(const struct lateness *late, size_t count, const struct athlete *athlete)
{
    for (size_t i = 0; i < count; i++)
        if (late[i].athlete == athlete)
            return true;
    return false;
}

/* Whoever comes once the doors are closed does not come at all. */
static void report_too_late(struct resolver *r, const struct node *name, const struct attendance *doors, int comes)
{
    struct finding *finding = diag_error(r->diag, DIAG_BAD_CLOCK, name->span, "%s comes at %02d:%02d, but the doors close at %02d:%02d",
                                         resolver_written(r, name->span), comes / 3600 % 24, comes / 60 % 60,
                                         doors->out_by / 3600, doors->out_by / 60 % 60);
    diag_note(r->diag, finding, doors->out_by_span, "the doors");
    diag_help(r->diag, finding, "after `absent`, name whoever does not come");
}

static void read_late(struct resolver *r, const struct node *node, const struct camp *camp, int clock,
                      struct attendance *out)
{
    size_t capacity = 0;
    struct lateness *late = NULL;
    for (const struct node *line = node_find(node, STATEMENT_LATE); line; line = node_next_alike(line)) {
        const struct node *by = node_find(line, NODE_BY);
        int seconds = figures_time_of(r, by->first);
        if (seconds > MOST_LATE)
            diag_error(r->diag, DIAG_BAD_TIME, by->span, "who comes more than four hours late is absent");
        for (const struct node *name = node_find(line, NODE_NAME); name && seconds <= MOST_LATE;
             name = node_next_alike(name)) {
            const struct athlete *athlete = member_at(r, name, camp);
            if (!athlete)
                continue;
            if (is_late_already(late, out->late_count, athlete)) {
                diag_error(r->diag, DIAG_SAID_TWICE, name->span, "how late %s comes is said already", athlete->name.shown);
                continue;
            }
            if (out->out_by >= 0 && clock + seconds >= out->out_by) {
                report_too_late(r, name, out, clock + seconds);
                continue;
            }
            late = arena_grow(r->arena, late, out->late_count, &capacity, sizeof *late);
            late[out->late_count++] = (struct lateness){athlete, seconds};
        }
    }
    out->late = late;
}

/* --- pairs --- */

static bool is_paired(const struct pairing *pairs, size_t count, const struct athlete *athlete)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < pairs[i].count; k++)
            if (pairs[i].athletes[k] == athlete)
                return true;
    return false;
}

/* Those of one line `pair`; the count is 0 where they are none. */
static struct pairing read_pair(struct resolver *r, const struct node *line, const struct camp *camp,
                                const struct pairing *pairs, size_t count)
{
    const struct athlete **athletes = arena_alloc(r->arena, MOST_PARTNERS * sizeof *athletes);
    struct pairing pair = {athletes, 0};
    for (const struct node *name = line->first; name; name = name->next) {
        const struct athlete *athlete = member_at(r, name, camp);
        if (!athlete)
            return (struct pairing){0};
        if (is_paired(pairs, count, athlete) || is_paired(&pair, 1, athlete)) {
            diag_error(r->diag, DIAG_BAD_PAIR, name->span, "%s has a partner already", athlete->name.shown);
            return (struct pairing){0};
        }
        if (pair.count == MOST_PARTNERS)
            break;
        athletes[pair.count++] = athlete;
    }
    if (pair.count > 1 && !(pair.count == MOST_PARTNERS && resolver_count(line->first) > MOST_PARTNERS))
        return pair;
    diag_error(r->diag, DIAG_BAD_PAIR, line->span, "partners are two, or a group of up to %d", MOST_PARTNERS);
    return (struct pairing){0};
}

static void read_pairs(struct resolver *r, const struct node *node, const struct camp *camp, struct attendance *out)
{
    size_t capacity = 0;
    struct pairing *pairs = NULL;
    for (const struct node *line = node_find(node, STATEMENT_PAIR); line; line = node_next_alike(line)) {
        struct pairing pair = read_pair(r, line, camp, pairs, out->pair_count);
        if (!pair.count)
            continue;
        pairs = arena_grow(r->arena, pairs, out->pair_count, &capacity, sizeof *pairs);
        pairs[out->pair_count++] = pair;
    }
    out->pairs = pairs;
}

/* --- doors and coaches --- */

static void read_doors(struct resolver *r, const struct node *statement, int clock, struct attendance *out)
{
    out->out_by = -1;
    if (!statement)
        return;
    int out_by = (int)statement->first->number;
    if (clock < 0) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_CLOCK, statement->span,
                                             "the doors close at an hour, but the line above names no hour to start at");
        diag_help(r->diag, finding, "write the hour after the day, such as `tuesday 18:30`");
    } else if (out_by <= clock) {
        diag_error(r->diag, DIAG_BAD_CLOCK, statement->first->span, "the doors close before the session starts, or just then, at %02d:%02d",
                   clock / 3600, clock / 60 % 60);
    } else {
        out->out_by = out_by;
        out->out_by_span = statement->span;
    }
}

static int read_coaches(struct resolver *r, const struct node *statement)
{
    if (!statement)
        return 0;
    const struct figures *figures = figures_alone(r, statement->first);
    milli value = figures && figures->measure == MEASURE_NONE ? figures->values[0].low : 0;
    if (value >= 1000 && value <= MOST_COACHES * 1000 && value % 1000 == 0)
        return (int)(value / 1000);
    diag_error(r->diag, DIAG_BAD_COUNT, statement->first->span, "how many coaches is a whole number from 1 to %d", MOST_COACHES);
    return 0;
}

const struct attendance *attendance_read(struct resolver *r, const struct node *node, const struct camp *camp, int clock)
{
    const struct node *out_by = resolver_single(r, node, STATEMENT_OUT_BY);
    const struct node *coaches = resolver_single(r, node, STATEMENT_COACHES);
    const struct node *run_by = resolver_single(r, node, STATEMENT_RUN_BY);
    if (!out_by && !coaches && !run_by && !node_find(node, STATEMENT_LATE) && !node_find(node, STATEMENT_PAIR))
        return NULL;
    struct attendance *out = arena_alloc(r->arena, sizeof *out);
    read_doors(r, out_by, clock, out);
    out->coaches = read_coaches(r, coaches);
    out->run_by = resolver_text(run_by);
    read_late(r, node, camp, clock, out);
    read_pairs(r, node, camp, out);
    return out;
}

/* A camp's bout: on which days it is, and whether it was postponed or cancelled. */
#include <string.h>

#include "figures/dates.h"
#include "model/season.h"
#include "resolve/resolver.h"

/* The days of the line at BOUT, which rise. */
static void read_bout_days(struct resolver *r, const struct node *bout, struct camp *camp)
{
    enum { MOST_DAYS = 30 };
    int *days = NULL;
    size_t capacity = 0;
    for (const struct node *date = bout->first; date && date->kind == NODE_DATE; date = date->next) {
        int day = (int)date->number;
        if (camp->bout_day_count && day <= days[camp->bout_day_count - 1]) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "the days of a tournament follow one another");
            continue;
        }
        if (camp->bout_day_count == MOST_DAYS) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "a tournament has at most %d days", MOST_DAYS);
            break;
        }
        days = arena_grow(r->arena, days, camp->bout_day_count, &capacity, sizeof *days);
        days[camp->bout_day_count++] = day;
    }
    camp->bout_days = days;
    camp->bout = days[0];
    camp->bout_last = days[camp->bout_day_count - 1];
}

/* Has the day of ENTRY, `on DATE`, come? Reports one that has not: an entry ahead does not count. */
static bool has_come(struct resolver *r, const struct node *entry)
{
    int day = (int)node_find(entry, NODE_ON)->number;
    if (!r->today || day <= r->today)
        return true;
    diag_error(r->diag, DIAG_FUTURE_ENTRY, entry->span, "an entry dated in the future does not count");
    return false;
}

static void postpone(struct resolver *r, const struct node *line, struct camp *camp)
{
    int to = (int)node_find(line, NODE_TO)->first->number, on = (int)node_find(line, NODE_ON)->number;
    if (!has_come(r, line))
        return;
    if (to <= on) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, line->span,
                                             "a bout is postponed to a day that is to come");
        diag_help(r->diag, finding, "first the new day, then the day on which that was told: `to 2027-06-12 on 2027-05-20`");
        return;
    }
    int by = to - camp->bout;
    int *days = arena_alloc(r->arena, camp->bout_day_count * sizeof *days);
    for (size_t i = 0; i < camp->bout_day_count; i++)
        days[i] = camp->bout_days[i] + by;
    camp->moved_on = on;
    camp->planned_bout = camp->bout;
    camp->bout_days = days;
    camp->bout += by;
    camp->bout_last += by;
}

void resolve_bout(struct resolver *r, const struct node *bout, struct camp *camp)
{
    const struct node *words = node_find(bout, NODE_TEXT);
    read_bout_days(r, bout, camp);
    camp->bout_words = words ? words->text : NULL;
    camp->bout_span = bout->span;
    const struct node *postponed = resolver_single(r, bout, STATEMENT_POSTPONED);
    const struct node *cancelled = resolver_single(r, bout, STATEMENT_CANCELLED);
    const struct node *checked = resolver_single(r, bout, STATEMENT_CHECKED);
    if (postponed)
        postpone(r, postponed, camp);
    if (cancelled && has_come(r, cancelled)) {
        camp->cancelled = (int)node_find(cancelled, NODE_ON)->number;
        camp->bout_words = camp->bout_words ? arena_printf(r->arena, "%s, cancelled", camp->bout_words) : "cancelled";
    }
    camp->checked = checked && entered_on(r, checked);
    resolve_result(r, bout, camp);
    if (camp->cancelled && node_find(bout, STATEMENT_RESULT))
        diag_error(r->diag, DIAG_BAD_BOUT, node_find(bout, STATEMENT_RESULT)->span, "a bout that was cancelled has no result");
}

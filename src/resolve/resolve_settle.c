/* From what is placed to occasions: which column of its series each takes, how hard it is, in what phase. */
#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"
#include "measure/hold.h"
#include "measure/member.h"
#include "model/programme.h"
#include "resolve/calendar.h"
#include "resolve/local_time.h"
#include "resolve/place.h"
#include "resolve/template.h"
#include "resolve/tracking.h"
#include "source/span_order.h"

/* Whose series it belongs to: the versions of a session continue one. 0: an activity, which has its own. */
static size_t series_of(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->first->number : 0;
}

static int by_athlete_session_date(const void *left, const void *right)
{
    const struct placed *a = *(struct placed *const *)left, *b = *(struct placed *const *)right;
    if (a->occasion.athlete != b->occasion.athlete)
        return a->occasion.athlete->number < b->occasion.athlete->number ? -1 : 1;
    size_t s = series_of(&a->occasion), t = series_of(&b->occasion);
    if (s != t)
        return s < t ? -1 : 1;
    if (a->occasion.camp != b->occasion.camp)
        return a->occasion.camp->number < b->occasion.camp->number ? -1 : 1;
    if (a->occasion.date != b->occasion.date)
        return a->occasion.date < b->occasion.date ? -1 : 1;
    return a->occasion.clock < b->occasion.clock ? -1 : a->occasion.clock > b->occasion.clock;
}

/* Is it a day on which loads do not rise: not all training is allowed? What was logged was done all the same. */
static bool stands_still(const struct resolver *r, const struct occasion *occasion)
{
    return occasion->athlete->hold_count && athlete_stands_still(occasion->athlete, occasion->date, r->today);
}

/* A series takes the next column in each week of a camp in which the athlete meets the session, or that of the camp's week;
 * it stands still where a hold does. On closed days the columns are those of the record, and it goes on from there. */
static void find_columns(struct resolver *r)
{
    struct placed **order = arena_alloc(r->arena, r->placed_count * sizeof *order);
    size_t count = 0;
    for (size_t i = 0; i < r->placed_count; i++)
        if (track_wants(r, r->placed[i].occasion.athlete))
            order[count++] = &r->placed[i];
    if (count > 1)
        qsort(order, count, sizeof *order, by_athlete_session_date);
    const struct placed *before = NULL;
    int column = 0;
    const void *place = NULL;
    for (size_t i = 0; i < count; i++) {
        struct placed *now = order[i];
        bool same = before && before->occasion.athlete == now->occasion.athlete &&
                    series_of(&before->occasion) == series_of(&now->occasion) &&
                    before->occasion.camp == now->occasion.camp;
        bool new_week = !same || date_monday(before->occasion.date) != date_monday(now->occasion.date);
        bool still = stands_still(r, &now->occasion);
        column = !same ? 0 : column + (new_week && !still);
        if (now->from_column >= 0 && (!same || (!still && place != now->occasion.place)))
            column = now->from_column;
        if (now->by_camp && !(same && still))
            column = now->occasion.week - 1;
        if (now->occasion.held)
            column = now->occasion.column;
        place = now->occasion.place;
        if (now->occasion.session)
            now->occasion.column = column;
        before = now;
    }
}

static int by_date(const void *left, const void *right)
{
    const struct occasion *a = left, *b = right;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (a->clock != b->clock)
        return a->clock < b->clock ? -1 : 1;
    size_t s = a->session ? a->session->number : 0, t = b->session ? b->session->number : 0;
    if (s != t)
        return s < t ? -1 : 1;
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    return span_order(a->span, b->span);
}

/* For each athlete, by number, the camps with a bout in the order of the programme. */
static const struct own_camp **find_own_camps(struct resolver *r)
{
    const struct programme *programme = r->programme;
    const struct own_camp **own = arena_alloc(r->arena, (programme->athlete_count + 1) * sizeof *own);
    for (size_t i = programme->camp_count; i-- > 0;) {
        const struct camp *camp = programme->camps[i];
        for (size_t k = 0; k < camp->athlete_count && camp->bout_count; k++) {
            const struct own_camp **first = &own[camp->athletes[k]->number];
            struct own_camp *one = arena_alloc(r->arena, sizeof *one);
            *one = (struct own_camp){camp, *first};
            *first = one;
        }
    }
    return own;
}

/* Phase and weeks out come from the athlete's OWN camps if the camp that places it has no bout (a squad's). */
static void find_phase(const struct own_camp *own, struct occasion *occasion)
{
    const struct camp *camp = occasion->camp;
    occasion->phase = camp_phase(camp, occasion->date);
    occasion->weeks_out = camp_weeks_out(camp, occasion->date);
    for (; own && !camp->bout_count && !camp->phase_count; own = own->next) {
        if (occasion->date < own->camp->first || !camp_has(own->camp, occasion->athlete, occasion->date))
            continue;
        if (!occasion->phase)
            occasion->phase = camp_phase(own->camp, occasion->date);
        if (occasion->weeks_out < 0)
            occasion->weeks_out = camp_weeks_out(own->camp, occasion->date);
    }
}

/* How hard the session as a whole is: as its line says, otherwise as the session does. An activity's own line was read
 * before. */
static void settle_rpe(struct resolver *r, const struct placed *placed, struct occasion *occasion)
{
    struct figures *rpe = placed->rpe ? placed->rpe : placed->template ? placed->template->rpe : NULL;
    if (rpe)
        occasion->rpe = rpe->values[figures_column(r, rpe, occasion->column)];
}

static void report_unused_rpe(struct resolver *r)
{
    for (size_t i = 0; i < r->placed_count; i++) {
        struct figures *rpe = r->placed[i].rpe;
        if (!rpe || rpe->reported)
            continue;
        figures_report_unused(r, rpe);
        rpe->reported = true; /* once for all that the line places */
    }
}

/* Reports once for each line that a day has no room for it. */
static void bound_length(struct resolver *r, struct occasion *occasion)
{
    enum { DAY = 24 * 3600 };
    if (occasion->seconds <= DAY)
        return;
    const char *what = occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    if (!resolver_is_poisoned(r, occasion->place))
        diag_error(r->diag, DIAG_FIGURE_TOO_LARGE, occasion->span, "%s comes to more than a day here, which is too "
                                                                   "long", what);
    resolver_poison(r, occasion->place, occasion->span);
    occasion->seconds = DAY;
}

/* The most for one athlete on one day: everything done on a day is compared with everything else. Reports the first
 * that is too many. */
static bool is_day_full(struct resolver *r, const struct occasion *occasions, size_t count)
{
    enum { MOST_A_DAY = 100 };
    struct {
        int date, count;
    } *days = arena_alloc(r->arena, (r->programme->athlete_count + 1) * sizeof *days);
    for (size_t i = 0; i < count; i++) {
        const struct athlete *athlete = occasions[i].athlete;
        int today = days[athlete->number].date == occasions[i].date ? days[athlete->number].count + 1 : 1;
        days[athlete->number].date = occasions[i].date;
        days[athlete->number].count = today;
        if (today <= MOST_A_DAY)
            continue;
        diag_error(r->diag, DIAG_TOO_MANY_SESSIONS, occasions[i].span, "%s has more than %d sessions and activities on this day",
                   athlete->name.shown, MOST_A_DAY);
        resolver_poison(r, r->programme, occasions[i].span);
        r->unclear_all = true; /* no logs are read */
        return true;
    }
    return false;
}

static void settle_placed(struct resolver *r, const struct placed *placed, const struct own_camp *own,
                          struct occasion *occasion)
{
    *occasion = placed->occasion;
    settle_clocks(r, occasion);
    if (occasion->held) {
        occasion->phase = pinned_phase(r, own, placed);
        return;
    }
    find_phase(own, occasion);
    settle_rpe(r, placed, occasion);
    if (placed->template)
        occasion_settle(r, placed->template, occasion);
    if (placed->template && placed->deload)
        deload_apply(r, placed->deload, occasion);
    bound_length(r, occasion);
}

/* Works out what is placed, into OCCASIONS; returns how many that are. */
static size_t settle_all(struct resolver *r, const struct own_camp *const *own, struct occasion *occasions)
{
    size_t count = 0;
    for (size_t i = 0; i < r->placed_count; i++) {
        const struct placed *placed = &r->placed[i];
        if (resolver_is_too_large(r, placed->occasion.span)) {
            r->placed_count = i;
            break;
        }
        if (!track_begin(r, placed))
            continue;
        settle_placed(r, placed, own[placed->occasion.athlete->number], &occasions[count++]);
        track_end(r);
    }
    return count;
}

void settle_occasions(struct resolver *r)
{
    close_placed(r);
    leave_out_placed(r);
    find_columns(r);
    const struct own_camp **own = find_own_camps(r);
    pin_phases(r, own);
    struct occasion *occasions = arena_alloc(r->arena, r->placed_count * sizeof *occasions);
    size_t count = settle_all(r, own, occasions);
    track_others(r);
    compare_history(r);
    report_unused_rpe(r);
    if (count > 1)
        qsort(occasions, count, sizeof *occasions, by_date);
    r->programme->occasions = occasions;
    r->programme->occasion_count = count;
    if (is_day_full(r, occasions, count))
        return;
    settle_logs(r, occasions);
    track_logs_again(r);
    leave_out_items(r, occasions, &r->programme->occasion_count);
    for (size_t i = 0; i < r->placed_count; i++)
        if (r->placed[i].template)
            template_report_unused(r, r->placed[i].template);
}

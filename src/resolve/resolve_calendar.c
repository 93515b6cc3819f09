#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "model/season.h"
#include "resolve/calendar.h"

int camp_week(const struct camp *camp, int day)
{
    return (date_monday(day) - date_monday(camp->first)) / 7 + 1;
}

/* The day of the bout to which the days of DAY's week count: the first that is then or later, as was known on DAY; 0: none
 * is. A week with a bout is that bout's until its Sunday. */
static int bout_of_week(const struct camp *camp, int day)
{
    int found = 0;
    for (size_t i = 0; i < camp->bout_count; i++) {
        int bout = bout_as_planned(camp->bouts[i], day), last = bout + camp->bouts[i]->last - camp->bouts[i]->day;
        if (date_monday(last) >= date_monday(day) && (!found || bout < found))
            found = bout;
    }
    return found;
}

int camp_weeks_out(const struct camp *camp, int day)
{
    const struct bout *next = camp_next_bout(camp, day);
    int bout = next ? bout_as_planned(next, day) : 0, week = bout_of_week(camp, day);
    if (!next || date_monday(week) < date_monday(bout))
        return -1;
    return day > bout ? 0 : (date_monday(bout) - date_monday(day)) / 7;
}

const struct phase *camp_phase(const struct camp *camp, int day)
{
    for (size_t i = 0; i < camp->phase_count; i++)
        if (day >= camp->phases[i].first && day <= camp->phases[i].last)
            return &camp->phases[i];
    return NULL;
}

/* The smaller and larger whole number of a NUMBER or RANGE. */
static bool whole_range(struct resolver *r, const struct node *node, int *low, int *high)
{
    int64_t a = node->kind == NODE_RANGE ? node->first->number : node->number;
    int64_t b = node->kind == NODE_RANGE ? node->last->number : node->number;
    bool clock = node->code == 1 || (node->first && node->first->code == 1);
    if (node->kind == NODE_MAX || clock || a % 1000 || b % 1000 || a > MOST_WEEKS * 7000 || b > MOST_WEEKS * 7000) {
        diag_error(r->diag, DIAG_WRONG_WEEKS, node->span, "weeks and days are whole numbers, at most %d weeks", MOST_WEEKS);
        return false;
    }
    *low = (int)((a < b ? a : b) / 1000);
    *high = (int)((a < b ? b : a) / 1000);
    return true;
}

static bool needs_bout(struct resolver *r, const struct camp *camp, const struct node *when)
{
    if (camp->bout_count)
        return true;
    if (resolver_is_poisoned(r, camp))
        return false;
    resolver_poison(r, r->programme, when->span);
    struct finding *finding = diag_error(r->diag, DIAG_NO_BOUT, when->span, "this camp has no bout to count back from");
    diag_help(r->diag, finding, "count forward: `weeks 1-4`; or give the camp a `bout`");
    return false;
}

static void unknown_phase(struct resolver *r, const struct camp *camp, const struct node *name, const char *folded)
{
    resolver_poison(r, r->programme, name->span);
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_PHASE, name->span, "this camp has no phase called `%s`",
                                         name->text);
    if (camp->phase_count)
        diag_note(r->diag, finding, camp->phases[0].name.span, "its phases are listed here");
    for (size_t i = 0; i < camp->phase_count; i++)
        if (text_distance(folded, camp->phases[i].name.folded, 2) <= 2)
            diag_fix(r->diag, finding, name->span, camp->phases[i].name.shown);
}

static bool cover_phase(struct resolver *r, const struct camp *camp, const struct node *when,
                        struct days_covered *covered)
{
    const char *folded = resolver_fold(r, when->first);
    for (size_t i = 0; i < camp->phase_count; i++) {
        if (strcmp(camp->phases[i].name.folded, folded) != 0)
            continue;
        bool again = covered->phase != NULL; /* once for each bout, or as the bout was postponed in between */
        covered->first = again && covered->first < camp->phases[i].first ? covered->first : camp->phases[i].first;
        covered->last = camp->phases[i].last;
        covered->phase = folded;
    }
    for (size_t i = 0; i < camp->left_phase_count; i++)
        covered->left_out |= !covered->phase && strcmp(camp->left_phases[i].folded, folded) == 0;
    if (covered->left_out)
        covered->first = 1; /* and ends before that */
    if (covered->phase || covered->left_out)
        return true;
    if (!resolver_is_poisoned(r, camp))
        unknown_phase(r, camp, when->first, folded);
    return false;
}

/* The days from the first to the last that lie COVERED->LOW to HIGH days or weeks before a bout, as it was or is planned. */
static void cover_days_out(const struct camp *camp, struct days_covered *covered)
{
    int per = covered->by_days ? 1 : 7;
    covered->count = (covered->high - covered->low + 1) * per;
    for (size_t i = 0; i < camp->bout_count; i++)
        for (int as = 0; as < 2; as++) {
            int bout = as ? camp->bouts[i]->day : bout_as_planned(camp->bouts[i], 0);
            int day = covered->by_days ? bout : date_monday(bout);
            int first = day - per * covered->high, last = day - per * covered->low + per - 1;
            covered->last = as && last > covered->last ? last : covered->last; /* a bout that came nearer is no more ahead */
            covered->first = covered->first && covered->first < first ? covered->first : first;
        }
}

/* Is DAY so many days or weeks out? Days count to the bout that comes next, and behind the last one to that. */
static bool is_so_far_out(const struct days_covered *covered, const struct camp *camp, int day)
{
    int bout = 0;
    for (size_t i = 0; i < camp->bout_count && covered->by_days; i++) {
        int other = bout_as_planned(camp->bouts[i], day);
        bool ahead = day <= other + camp->bouts[i]->last - camp->bouts[i]->day;
        bout = ahead && (!bout || other < bout) ? other : bout;
    }
    if (!covered->by_days)
        bout = bout_of_week(camp, day);
    int out = covered->by_days ? bout - day : (date_monday(bout) - date_monday(day)) / 7;
    return bout && out >= covered->low && out <= covered->high;
}

bool camp_covers(struct resolver *r, const struct camp *camp, const struct node *when, struct days_covered *covered)
{
    int low = 0, high = 0, monday = date_monday(camp->first);
    *covered = (struct days_covered){0};
    switch (when->code) {
    case WHEN_WEEKS:
        if (!resolver_whole_range(r, when->first, MOST_WEEKS, "the weeks of a camp", &low, &high))
            return false;
        covered->first = monday + 7 * (low - 1);
        covered->last = monday + 7 * high - 1;
        break;
    case WHEN_WEEKS_OUT: case WHEN_DAYS_OUT:
        if (!needs_bout(r, camp, when) || !whole_range(r, when->first, &covered->low, &covered->high))
            return false;
        covered->back = true;
        covered->by_days = when->code == WHEN_DAYS_OUT;
        cover_days_out(camp, covered);
        return true;
    case WHEN_PHASE:
        if (!cover_phase(r, camp, when, covered))
            return false;
        break;
    default: /* WHEN_EVERY_OTHER: the grammar has no more for days of a camp */
        if (when->first && !resolver_whole_range(r, when->first, MOST_WEEKS, "the weeks of a camp", &low, &high))
            return false;
        covered->every_other_from = when->first ? low : 1;
        covered->first = monday + 7 * (covered->every_other_from - 1);
        covered->last = camp->last ? camp->last : covered->first + 7 * MOST_WEEKS;
        break;
    }
    covered->count = (covered->last - covered->first + 1) / (covered->every_other_from ? 2 : 1);
    return true;
}

bool covers_day(const struct days_covered *covered, const struct camp *camp, int day)
{
    if (day < covered->first || day > covered->last)
        return false;
    if (covered->back)
        return is_so_far_out(covered, camp, day);
    if (covered->phase) {
        const struct phase *phase = camp_phase(camp, day);
        return phase && strcmp(phase->name.folded, covered->phase) == 0;
    }
    return !covered->every_other_from || (camp_week(camp, day) - covered->every_other_from) % 2 == 0;
}

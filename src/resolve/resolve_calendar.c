#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/season.h"
#include "resolve/calendar.h"

enum { MOST_PHASES = 20 };

static const char *iso(struct resolver *r, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(r->arena, text, strlen(text));
}

/* --- phases --- */

struct span_of_phase {
    struct phase phase;
    const struct node *node;
    int days;   /* 0: until something */
    bool after; /* comes after the bout */
};

static int phase_days(struct resolver *r, const struct node *when)
{
    const struct node *figure = when->first;
    struct figures *figures = figures_read(r, figure);
    milli value = figures->values[0].low;
    bool weeks = figures->measure == MEASURE_WEEKS;
    if ((!weeks && figures->measure != MEASURE_DAYS) || value % 1000 || value < 1000 || value > 366000 ||
        figures->values[0].high != value) {
        diag_error(r->diag, DIAG_WRONG_UNIT, when->span, "a phase lasts whole weeks or days: `4 weeks`, `10 days`");
        return 7;
    }
    return (int)(value / 1000) * (weeks ? 7 : 1);
}

static bool is_phase(const struct span_of_phase *phases, int count, const char *folded)
{
    for (int i = 0; i < count; i++)
        if (strcmp(phases[i].phase.name.folded, folded) == 0)
            return true;
    return false;
}

/* Reads the lines of `phases`. Recovery, and what is listed after it, comes after the bout. */
static int read_phases(struct resolver *r, const struct node *statement, struct span_of_phase phases[MOST_PHASES])
{
    int count = 0;
    bool after = false;
    for (const struct node *line = statement->first; line; line = line->next) {
        if (line->kind != STATEMENT_PHASE)
            continue;
        if (count == MOST_PHASES) {
            diag_error(r->diag, DIAG_TOO_MANY_PHASES, line->span, "a camp has at most %d phases", MOST_PHASES);
            break;
        }
        struct span_of_phase *phase = &phases[count];
        *phase = (struct span_of_phase){.node = line, .phase.name = resolver_name(r, line->first)};
        if (is_phase(phases, count, phase->phase.name.folded))
            diag_error(r->diag, DIAG_DECLARED_TWICE, line->first->span, "this camp has two phases with the same name");
        after = after || strcmp(phase->phase.name.folded, "recovery") == 0;
        phase->after = after;
        if (line->last->code == WHEN_LENGTH)
            phase->days = phase_days(r, line->last);
        count++;
    }
    return count;
}

/* `base : until strength` must name the phase that follows; `until medical check` is open. */
static void check_until(struct resolver *r, const struct span_of_phase *phases, int count, int index)
{
    const struct node *until = phases[index].node->last;
    if (until->code != WHEN_UNTIL || until->first->kind != NODE_NAME)
        return;
    const char *folded = resolver_fold(r, until->first);
    bool next = index + 1 < count && strcmp(phases[index + 1].phase.name.folded, folded) == 0;
    if (next || phases[index].after)
        return;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_PHASE, until->first->span,
                                         "a phase lasts until the one below it");
    if (index + 1 < count)
        diag_fix(r->diag, finding, until->first->span, phases[index + 1].phase.name.shown);
}

static void no_room(struct resolver *r, const struct node *node, int need, int from, int to)
{
    struct finding *finding = diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, node->span,
                                         "these phases take %d days, and from %s to %s there are %d", need,
                                         iso(r, from), iso(r, to), to >= from ? to - from + 1 : 0);
    diag_help(r->diag, finding, "start earlier, shorten a phase, or move the bout");
}

/* For a phase that lasts until a day on or before the one on which it would begin. */
static void ends_before_it_begins(struct resolver *r, const struct node *phase, int first)
{
    struct finding *finding = diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, phase->last->span,
                                         "this phase begins on %s and should be over by then", iso(r, first));
    diag_help(r->diag, finding, "give it a later day, or shorten what comes before it");
}

static void in_no_phase(struct resolver *r, const struct node *node, int first, int last, const char *until)
{
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_DAYS_IN_NO_PHASE, node->span,
                                          "%d days from %s belong to no phase", last - first + 1, iso(r, first));
    diag_help(r->diag, finding, "let the phase there last `until %s`", until);
}

/* The day before which a phase ends that lasts `until` a day, or 0. */
static int until_day(const struct span_of_phase *phase)
{
    const struct node *until = phase->node->last;
    return !phase->days && until->first->kind == NODE_DATE ? (int)until->first->number : 0;
}

/* Phases between two days that are both known: FIRST, and LAST, on which the last of them ends. */
struct phase_stretch {
    struct span_of_phase *phases;
    int count;
    int first, last;
    const struct node *node; /* what is reported if they do not fit */
};

/* Forward from the first day up to the phase that has no length of its own, and backward from the last day down to it. */
static void place_stretch(struct resolver *r, const struct phase_stretch *stretch)
{
    struct span_of_phase *phases = stretch->phases;
    int open = -1, need = 0, first = stretch->first, last = stretch->last;
    for (int i = 0; i < stretch->count; i++) {
        need += phases[i].days;
        if (phases[i].days)
            continue;
        if (open >= 0)
            diag_error(r->diag, DIAG_TWO_OPEN_PHASES, phases[i].node->span, "only one phase can last until the next");
        open = i;
    }
    if (last < first && need == 0) {
        ends_before_it_begins(r, stretch->node, first);
        return;
    }
    if (need + (open >= 0) > last - first + 1) {
        no_room(r, stretch->node, need + (open >= 0), first, last);
        return;
    }
    for (int i = 0; i < open; i++) {
        phases[i].phase.first = first;
        phases[i].phase.last = first + phases[i].days - 1;
        first += phases[i].days;
    }
    for (int i = stretch->count - 1; i > open; i--) {
        phases[i].phase.last = last;
        phases[i].phase.first = last - phases[i].days + 1;
        last -= phases[i].days;
    }
    if (open >= 0) {
        phases[open].phase.first = first;
        phases[open].phase.last = last;
    } else if (stretch->count && last >= first) {
        in_no_phase(r, stretch->node, first, last, stretch->count > 1 ? phases[1].phase.name.shown : "the next");
    }
}

/* Before the bout: from the start to each phase that ends on a day of its own, and from the last of these to the bout. */
static void place_before(struct resolver *r, struct camp *camp, const struct node *node,
                         struct span_of_phase *phases, int count)
{
    struct phase_stretch stretch = {.phases = phases, .first = camp->first};
    for (int i = 0; i < count; i++) {
        int until = until_day(&phases[i]);
        stretch.count++;
        if (!until)
            continue;
        stretch.last = until - 1;
        stretch.node = phases[i].node;
        if (stretch.last > camp->bout) {
            diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, phases[i].node->last->span,
                       "this phase lasts beyond the bout on %s", iso(r, camp->bout));
            return;
        }
        place_stretch(r, &stretch);
        stretch = (struct phase_stretch){.phases = &phases[i + 1], .first = until};
    }
    stretch.last = camp->bout;
    stretch.node = node;
    if (stretch.count)
        place_stretch(r, &stretch);
    else if (count && stretch.first <= camp->bout)
        in_no_phase(r, phases[count - 1].node, stretch.first, camp->bout, iso(r, camp->bout + 1));
}

static void place_forward(struct resolver *r, const struct camp *camp, struct span_of_phase *phases, int count,
                          int first)
{
    for (int i = 0; i < count; i++) {
        struct phase *phase = &phases[i].phase;
        const struct node *until = phases[i].node->last;
        phase->first = first;
        if (phases[i].days) {
            phase->last = first + phases[i].days - 1;
        } else if (until->first->kind == NODE_DATE) {
            phase->last = (int)until->first->number - 1;
            if (phase->last < first)
                ends_before_it_begins(r, phases[i].node, first);
        } else {
            phase->open = true;
            phase->last = first + 364;
            if (!phases[i].after && !resolver_is_poisoned(r, camp))
                diag_error(r->diag, DIAG_OPEN_PHASE, until->span,
                           "without a bout a phase needs a length or a day: `4 weeks`, `until 2027-05-01`");
        }
        first = phase->last + 1;
    }
}

static void phases_once(struct resolver *r, const struct node *node, struct camp *camp)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_PHASES);
    struct span_of_phase phases[MOST_PHASES];
    size_t errors = resolver_errors(r);
    if (statement)
        resolver_filled(r, statement);
    if (statement && node_is_broken(statement)) {
        resolver_poison(r, camp); /* with a phase missing, none has its place */
        return;
    }
    int count = statement ? read_phases(r, statement, phases) : 0, before = 0;
    for (int i = 0; i < count; i++) {
        check_until(r, phases, count, i);
        before += !phases[i].after;
    }
    if (camp->bout) {
        place_before(r, camp, statement ? statement : node, phases, before);
        if (before && phases[before - 1].phase.last == camp->bout)
            phases[before - 1].phase.last = camp->bout_last; /* the days of a tournament are one */
        place_forward(r, camp, phases + before, count - before, camp->bout_last + 1);
    } else {
        place_forward(r, camp, phases, count, camp->first);
    }
    camp->phases = arena_alloc(r->arena, (size_t)count * sizeof *camp->phases);
    for (int i = 0; i < count; i++) {
        phases[i].phase.after_bout = camp->bout && phases[i].after;
        if (phases[i].phase.first)
            camp->phases[camp->phase_count++] = phases[i].phase;
    }
    if (resolver_errors(r) > errors)
        resolver_poison(r, camp);
}

/* Of two lists of phases the days before MOVED of the first and those from it on of the second. */
static void splice_phases(struct resolver *r, struct camp *camp, const struct phase *old, size_t old_count)
{
    const struct phase *fresh = camp->phases;
    size_t fresh_count = camp->phase_count, count = 0;
    struct phase *phases = arena_alloc(r->arena, (old_count + fresh_count) * sizeof *phases);
    for (size_t i = 0; i < old_count; i++) {
        if (old[i].first >= camp->moved_on)
            continue;
        phases[count] = old[i];
        if (phases[count].last >= camp->moved_on)
            phases[count].last = camp->moved_on - 1;
        count++;
    }
    for (size_t i = 0; i < fresh_count; i++) {
        if (fresh[i].last < camp->moved_on)
            continue;
        struct phase phase = fresh[i];
        bool goes_on = phase.first <= camp->moved_on && count &&
                       strcmp(phases[count - 1].name.folded, phase.name.folded) == 0;
        if (phase.first < camp->moved_on)
            phase.first = goes_on ? phases[count - 1].first : camp->moved_on;
        else if (goes_on)
            phase.first = phases[count - 1].first;
        count -= goes_on;
        phases[count++] = phase;
    }
    camp->phases = phases;
    camp->phase_count = count;
}

/* A bout that was postponed moves what is to come; days before that stay as they were. */
void resolve_phases(struct resolver *r, const struct node *node, struct camp *camp)
{
    if (!camp->moved_on) {
        phases_once(r, node, camp);
        return;
    }
    const int bout = camp->bout, last = camp->bout_last;
    camp->bout_last += camp->planned_bout - bout;
    camp->bout = camp->planned_bout;
    phases_once(r, node, camp);
    const struct phase *old = camp->phases;
    const size_t old_count = camp->phase_count;
    camp->phase_count = 0;
    camp->bout = bout;
    camp->bout_last = last;
    phases_once(r, node, camp);
    splice_phases(r, camp, old, old_count);
}

/* --- weeks --- */

int camp_week(const struct camp *camp, int day)
{
    return (date_monday(day) - date_monday(camp->first)) / 7 + 1;
}

int camp_weeks_out(const struct camp *camp, int day)
{
    int bout = day < camp->moved_on ? camp->planned_bout : camp->bout;
    int last = camp->moved_on || camp->bout_last < bout ? bout : camp->bout_last;
    if (!bout || day > last)
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
    if (camp->bout)
        return true;
    if (resolver_is_poisoned(r, camp))
        return false;
    resolver_poison(r, r->programme);
    struct finding *finding = diag_error(r->diag, DIAG_NO_BOUT, when->span, "this camp has no bout to count back from");
    diag_help(r->diag, finding, "count forward: `weeks 1-4`; or give the camp a `bout`");
    return false;
}

static void unknown_phase(struct resolver *r, const struct camp *camp, const struct node *name, const char *folded)
{
    resolver_poison(r, r->programme);
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
        bool again = covered->phase != NULL; /* begun twice, as the bout was postponed in between */
        covered->first = again && covered->first < camp->phases[i].first ? covered->first : camp->phases[i].first;
        covered->last = camp->phases[i].last;
        covered->phase = folded;
    }
    if (covered->phase)
        return true;
    if (!resolver_is_poisoned(r, camp))
        unknown_phase(r, camp, when->first, folded);
    return false;
}

/* The days that lie LOW to HIGH days or weeks before BOUT. */
static void cover_days_out(int bout, bool days, int low, int high, int *first, int *last)
{
    *first = days ? bout - high : date_monday(bout) - 7 * high;
    *last = days ? bout - low : date_monday(bout) - 7 * low + 6;
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
        if (!needs_bout(r, camp, when) || !whole_range(r, when->first, &low, &high))
            return false;
        cover_days_out(camp->bout, when->code == WHEN_DAYS_OUT, low, high, &covered->first, &covered->last);
        if (camp->moved_on) {
            covered->moved_on = camp->moved_on;
            cover_days_out(camp->planned_bout, when->code == WHEN_DAYS_OUT, low, high, &covered->old_first,
                           &covered->old_last);
        }
        break;
    case WHEN_PHASE:
        if (!cover_phase(r, camp, when, covered))
            return false;
        break;
    case WHEN_EVERY_OTHER:
        if (when->first && !whole_range(r, when->first, &low, &high))
            return false;
        covered->every_other_from = low ? low : 1;
        covered->first = monday + 7 * (covered->every_other_from - 1);
        covered->last = camp->last ? camp->last : covered->first + 7 * MOST_WEEKS;
        break;
    default:
        diag_error(r->diag, DIAG_WRONG_WEEKS, when->span, "write weeks of the camp here: `weeks 1-4`");
        return false;
    }
    covered->count = (covered->last - covered->first + 1) / (covered->every_other_from ? 2 : 1);
    return true;
}

bool covers_day(const struct days_covered *covered, const struct camp *camp, int day)
{
    if (covered->moved_on && day < covered->moved_on)
        return day >= covered->old_first && day <= covered->old_last;
    if (day < covered->first || day > covered->last)
        return false;
    if (covered->phase) {
        const struct phase *phase = camp_phase(camp, day);
        return phase && strcmp(phase->name.folded, covered->phase) == 0;
    }
    return !covered->every_other_from || (camp_week(camp, day) - covered->every_other_from) % 2 == 0;
}

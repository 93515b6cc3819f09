/* resolve_phases.c - the days of a camp's phases: back from each of its bouts, or forward where there is none. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/season.h"
#include "resolve/calendar.h"
#include "resolve/stretch.h"

/* The whole days that FIGURE means at VALUE, or 0. */
static int whole_days(const struct figures *figures, milli value)
{
    bool weeks = figures->measure == MEASURE_WEEKS;
    if ((!weeks && figures->measure != MEASURE_DAYS) || value % 1000 || value < 1000 || value > 366000)
        return 0;
    return (int)(value / 1000) * (weeks ? 7 : 1);
}

static void read_length(struct resolver *r, const struct node *when, struct phase_length *fit)
{
    struct figures *figures = figures_read(r, when->first);
    fit->shortest = whole_days(figures, figures->values[0].low);
    fit->longest = whole_days(figures, figures->values[0].high);
    if (fit->shortest && fit->longest)
        return;
    diag_error(r->diag, DIAG_WRONG_UNIT, when->span,
               "a phase lasts whole weeks or days: `4 weeks`, `10 days`, `2-5 weeks keep 2`");
    fit->shortest = fit->longest = 7;
}

static int read_keep(struct resolver *r, const struct node *line)
{
    const struct node *keep = node_find(line, NODE_KEEP);
    milli value = keep ? keep->first->number : 0;
    if (!keep || value == 1000 || value == 2000 || value == 3000)
        return (int)(value / 1000);
    diag_error(r->diag, DIAG_BAD_KEEP, keep->span, "how much a phase matters is 1 (most), 2 or 3");
    return 0;
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
        *phase = (struct span_of_phase){.node = line, .length = node_find(line, NODE_WHEN),
                                        .phase.name = resolver_name(r, line->first)};
        if (is_phase(phases, count, phase->phase.name.folded))
            diag_error(r->diag, DIAG_DECLARED_TWICE, line->first->span, "this camp has two phases with the same name");
        after = after || strcmp(phase->phase.name.folded, "recovery") == 0;
        phase->after = after;
        phase->fit.keep = read_keep(r, line);
        phase->fit.open = phase->length->code != WHEN_LENGTH;
        if (!phase->fit.open)
            read_length(r, phase->length, &phase->fit);
        phase->phase.longest = phase->fit.longest;
        count++;
    }
    return count;
}

/* `base : until strength` must name the phase that follows; `until medical check` is open. */
static void check_until(struct resolver *r, const struct span_of_phase *phases, int count, int index)
{
    const struct node *until = phases[index].length;
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

/* The day before which a phase ends that lasts `until` a day, or 0. */
static int until_day(const struct span_of_phase *phase)
{
    const struct node *until = phase->length;
    return phase->fit.open && until->first->kind == NODE_DATE ? (int)until->first->number : 0;
}

/* The phases as the lines of a camp, or of one of its bouts, have them. */
struct phase_lines {
    struct span_of_phase items[MOST_PHASES];
    int count, before;       /* BEFORE of them come before the bout */
    const struct node *node; /* the line `phases`, or else the camp */
};

/* What leads to a bout and follows it: its phases, on which days it is planned, and from which day on it is looked to. */
struct approach {
    const struct bout *bout; /* NULL: the camp has none */
    const struct phase_lines *lines;
    int first, day, last;
    bool between;            /* another bout comes before it */
    bool goes_on;            /* another bout comes after it */
};

/* All of a camp's approaches, in the order of their bouts. */
struct schedule {
    struct approach *items;
    size_t count, phases;           /* PHASES of them all */
    const struct phases_past *past; /* what is over where a bout came nearer; or NULL */
    bool quiet;                     /* it is not the last: what is left out of it is not reported */
};

/* Before the bout: from the start to each phase that ends on a day of its own, and from the last of these to the bout. */
static void place_before(struct resolver *r, const struct approach *approach, struct phase_lines *lines,
                         const struct schedule *schedule)
{
    struct span_of_phase *phases = lines->items;
    const struct phase_stretch empty = {.bout = approach->bout, .between = approach->between, .quiet = schedule->quiet};
    struct phase_stretch stretch = empty;
    stretch.phases = phases;
    stretch.first = approach->first;
    for (int i = 0; i < lines->before; i++) {
        int until = until_day(&phases[i]);
        stretch.count++;
        if (!until)
            continue;
        stretch.last = until - 1;
        stretch.node = phases[i].node;
        if (stretch.last > approach->day) {
            diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, phases[i].length->span,
                       "this phase lasts beyond the bout on %s", phase_day(r, approach->day));
            return;
        }
        take_past(&stretch, schedule->past);
        place_stretch(r, &stretch);
        stretch = empty;
        stretch.phases = &phases[i + 1];
        stretch.first = until;
    }
    stretch.last = approach->day;
    stretch.to_bout = true;
    stretch.node = lines->node;
    if (stretch.count) {
        take_past(&stretch, schedule->past);
        place_stretch(r, &stretch);
    } else if (lines->before && stretch.first <= approach->day) {
        in_no_phase(r, phases[lines->before - 1].node, stretch.first, approach->day, phase_day(r, approach->day + 1));
    }
}

static void report_open(struct resolver *r, const struct span_of_phase *phase, bool goes_on)
{
    const struct node *until = phase->length;
    if (goes_on)
        diag_error(r->diag, DIAG_OPEN_PHASE, until->span,
                   "between two bouts a phase needs a length or a day: `1 week`, `until 2027-05-01`");
    else if (!phase->after)
        diag_error(r->diag, DIAG_OPEN_PHASE, until->span,
                   "without a bout a phase needs a length or a day: `4 weeks`, `until 2027-05-01`");
}

static void place_forward(struct resolver *r, const struct camp *camp, struct span_of_phase *phases, int count,
                          int first, bool goes_on)
{
    for (int i = 0; i < count; i++) {
        struct phase *phase = &phases[i].phase;
        const struct node *until = phases[i].length;
        phase->first = first;
        if (!phases[i].fit.open) {
            phase->last = first + phases[i].fit.longest - 1;
        } else if (until->first->kind == NODE_DATE) {
            phase->last = (int)until->first->number - 1;
            if (phase->last < first)
                ends_before_it_begins(r, phases[i].node, first);
        } else {
            phase->open = !goes_on;
            phase->last = first + (goes_on ? 0 : 364);
            if (!resolver_is_poisoned(r, camp))
                report_open(r, &phases[i], goes_on);
        }
        first = phase->last + 1;
    }
}

/* Notes the phases before a bout for which there are no days, each once. */
static void note_left_out(struct camp *camp, const struct phase_lines *lines)
{
    for (int i = 0; i < lines->before; i++) {
        const struct span_of_phase *item = &lines->items[i];
        bool noted = !item->fit.out || item->begun;
        for (size_t k = 0; k < camp->left_phase_count; k++)
            noted |= strcmp(camp->left_phases[k].folded, item->phase.name.folded) == 0;
        if (!noted)
            camp->left_phases[camp->left_phase_count++] = item->phase.name;
    }
}

/* Puts the phases of APPROACH on their days, and returns the last of these. */
static int place_approach(struct resolver *r, struct camp *camp, const struct approach *approach,
                          const struct schedule *schedule)
{
    struct phase_lines lines = *approach->lines;
    struct span_of_phase *items = lines.items;
    int behind = approach->first;
    if (approach->bout) {
        place_before(r, approach, &lines, schedule);
        for (int i = 0; i < lines.before; i++)
            if (items[i].phase.last == approach->day)
                items[i].phase.last = approach->last; /* the days of a tournament are one */
        behind = approach->last + 1;
    }
    int done = approach->bout ? lines.before : 0;
    place_forward(r, camp, items + done, lines.count - done, behind, approach->goes_on);
    for (int i = 0; i < lines.count; i++) {
        struct phase *phase = &items[i].phase;
        phase->after_bout = approach->bout && items[i].after;
        phase->bout = approach->bout;
        if (phase->first)
            camp->phases[camp->phase_count++] = *phase;
    }
    if (!schedule->quiet)
        note_left_out(camp, &lines);
    return lines.count > lines.before ? items[lines.count - 1].phase.last : approach->last;
}

static int by_day(const void *left, const void *right)
{
    const struct approach *a = left, *b = right;
    return a->day < b->day ? -1 : a->day > b->day;
}

static void place_schedule(struct resolver *r, struct camp *camp, struct schedule *schedule)
{
    qsort(schedule->items, schedule->count, sizeof *schedule->items, by_day);
    camp->phases = arena_alloc(r->arena, schedule->phases * sizeof *camp->phases);
    camp->phase_count = 0;
    int first = camp->first;
    for (size_t i = 0; i < schedule->count; i++) {
        struct approach *approach = &schedule->items[i];
        approach->first = first;
        approach->between = i > 0;
        approach->goes_on = i + 1 < schedule->count;
        first = place_approach(r, camp, approach, schedule) + 1;
    }
}

/* Of two lists of phases the days before MOVED of the first and those from it on of the second. */
static void splice_phases(struct resolver *r, struct camp *camp, const struct phases_past *old)
{
    const struct phase *fresh = camp->phases;
    size_t fresh_count = camp->phase_count, count = 0;
    struct phase *phases = arena_alloc(r->arena, (old->count + fresh_count) * sizeof *phases);
    for (size_t i = 0; i < old->count; i++) {
        if (old->phases[i].first >= old->from)
            continue;
        phases[count] = old->phases[i];
        if (phases[count].last >= old->from)
            phases[count].last = old->from - 1;
        count++;
    }
    for (size_t i = 0; i < fresh_count; i++) {
        if (fresh[i].last < old->from)
            continue;
        struct phase phase = fresh[i];
        bool goes_on = phase.first <= old->from && count && phases[count - 1].bout == phase.bout &&
                       strcmp(phases[count - 1].name.folded, phase.name.folded) == 0;
        if (phase.first < old->from)
            phase.first = goes_on ? phases[count - 1].first : old->from;
        else if (goes_on)
            phase.first = phases[count - 1].first;
        count -= goes_on;
        phases[count++] = phase;
    }
    camp->phases = phases;
    camp->phase_count = count;
}

/* Reads what is below `phases` of NODE, a camp or a bout; false where a line could not be read: with a phase missing, none
 * has its place. */
static bool read_lines(struct resolver *r, const struct node *node, struct phase_lines *lines)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_PHASES);
    lines->node = statement ? statement : node;
    lines->count = lines->before = 0;
    if (!statement)
        return true;
    resolver_filled(r, statement);
    if (node_is_broken(statement))
        return false;
    lines->count = read_phases(r, statement, lines->items);
    for (int i = 0; i < lines->count; i++) {
        check_until(r, lines->items, lines->count, i);
        lines->before += !lines->items[i].after;
    }
    return true;
}

static bool any_bends(const struct phase_lines *lines)
{
    for (int i = 0; i < lines->before; i++)
        if (lines->items[i].fit.keep || lines->items[i].fit.shortest < lines->items[i].fit.longest)
            return true;
    return false;
}

/* The bout of which SCHEDULE does not know yet that it was postponed; of several the one of which it was noted first. */
static struct approach *next_moved(const struct schedule *schedule)
{
    struct approach *next = NULL;
    for (size_t i = 0; i < schedule->count; i++) {
        struct approach *item = &schedule->items[i];
        bool open = item->bout && item->bout->moved_on && item->day != item->bout->day;
        if (open && (!next || item->bout->moved_on < next->bout->moved_on))
            next = item;
    }
    return next;
}

/* A bout that was postponed moves what is to come; days before that stay as they were. If it came nearer and phases can
 * give way, only what is to come does. */
static void place_moved(struct resolver *r, struct camp *camp, struct schedule *schedule)
{
    struct approach *moved = next_moved(schedule);
    schedule->quiet = moved != NULL;
    place_schedule(r, camp, schedule);
    while ((moved = next_moved(schedule))) {
        const struct bout *bout = moved->bout;
        const struct phases_past past = {camp->phases, camp->phase_count, bout->moved_on};
        schedule->past = bout->day < moved->day && any_bends(moved->lines) ? &past : NULL;
        moved->last += bout->day - moved->day;
        moved->day = bout->day;
        schedule->quiet = next_moved(schedule) != NULL;
        place_schedule(r, camp, schedule);
        splice_phases(r, camp, &past);
    }
}

/* The line of NODE, a camp, that is BOUT. */
static const struct node *line_of(const struct node *node, const struct bout *bout)
{
    const struct node *line = node_find(node, STATEMENT_BOUT);
    while (line && line->span.start != bout->span.start)
        line = node_next_alike(line);
    return line;
}

/* Reads the phases of the camp at NODE, LINES, and those of each of its bouts that has its own; false where a line could not
 * be read. */
static bool read_schedule(struct resolver *r, const struct node *node, const struct camp *camp, struct phase_lines *lines,
                          struct schedule *schedule)
{
    bool read = read_lines(r, node, lines), used = camp->bout_count == 0;
    *schedule = (struct schedule){.count = camp->bout_count ? camp->bout_count : 1};
    schedule->items = arena_alloc(r->arena, schedule->count * sizeof *schedule->items);
    schedule->items[0] = (struct approach){.lines = lines};
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        const struct node *line = line_of(node, bout);
        int day = bout->moved_on ? bout->planned : bout->day;
        schedule->items[i] = (struct approach){.bout = bout, .lines = lines, .day = day, .last = day + bout->last - bout->day};
        if (line && node_find(line, STATEMENT_PHASES)) {
            struct phase_lines *own = arena_alloc(r->arena, sizeof *own);
            read &= read_lines(r, line, own);
            schedule->items[i].lines = own;
        }
        used |= schedule->items[i].lines == lines;
    }
    for (size_t i = 0; i < schedule->count; i++)
        schedule->phases += (size_t)schedule->items[i].lines->count;
    if (!used && lines->node != node)
        diag_error(r->diag, DIAG_BAD_BOUT, lines->node->span, "each bout has its own `phases`, and these lead to no bout");
    return read;
}

void resolve_phases(struct resolver *r, const struct node *node, struct camp *camp)
{
    struct phase_lines lines;
    struct schedule schedule;
    size_t errors = resolver_errors(r);
    if (!read_schedule(r, node, camp, &lines, &schedule)) {
        resolver_poison(r, camp, node->span);
        return;
    }
    camp->left_phases = arena_alloc(r->arena, schedule.phases * sizeof *camp->left_phases);
    place_moved(r, camp, &schedule);
    if (resolver_errors(r) > errors)
        resolver_poison(r, camp, node->span);
}

/* resolve_phases.c - the days of a camp's phases: back from the bout, or forward where there is none. */
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "figures/phases.h"
#include "model/season.h"
#include "resolve/calendar.h"

enum { MOST_PHASES = 20 };

static const char *iso(struct resolver *r, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(r->arena, text, strlen(text));
}

struct span_of_phase {
    struct phase phase;
    const struct node *node, *length; /* its line, and how long that says it is */
    struct phase_length fit;
    bool after; /* comes after the bout */
    bool begun; /* some of it was over when the bout was moved */
    bool past;  /* all of it was */
};

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
    const struct node *length = node_find(phase, NODE_WHEN);
    struct finding *finding = diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, length ? length->span : phase->span,
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
    const struct node *until = phase->length;
    return phase->fit.open && until->first->kind == NODE_DATE ? (int)until->first->number : 0;
}

/* Phases between two days that are both known: FIRST, and LAST, on which the last of them ends. */
struct phase_stretch {
    struct span_of_phase *phases;
    int count;
    int first, last;
    const struct node *node; /* what is reported if they do not fit */
    bool to_bout;            /* LAST is the bout's day */
    bool quiet;               /* what is left out of it is not reported */
};

static void report_two_open(struct resolver *r, const struct phase_stretch *stretch)
{
    const struct span_of_phase *open = NULL;
    for (int i = 0; i < stretch->count; i++) {
        if (!stretch->phases[i].fit.open)
            continue;
        if (open)
            diag_error(r->diag, DIAG_TWO_OPEN_PHASES, stretch->phases[i].node->span, "only one phase can last until the next");
        open = &stretch->phases[i];
    }
}

static bool is_left_out(const struct span_of_phase *phase)
{
    return phase->fit.out && !phase->begun;
}

/* "base, strength and power": those that are left out, or those that are not. */
static const char *phase_list(struct resolver *r, const struct phase_stretch *stretch, bool out)
{
    struct text words = {.arena = r->arena};
    int more = 0;
    for (int i = 0; i < stretch->count; i++)
        more += is_left_out(&stretch->phases[i]) == out && (out || stretch->phases[i].phase.first);
    for (int i = 0; i < stretch->count; i++) {
        const struct span_of_phase *phase = &stretch->phases[i];
        if (is_left_out(phase) != out || (!out && !phase->phase.first))
            continue;
        text_addf(&words, "%s%s", phase->phase.name.shown, --more > 1 ? ", " : more == 1 ? " and " : "");
    }
    return text_keep(r->arena, &words);
}

/* Says what of STRETCH is left out, and what is left. */
static void report_left_out(struct resolver *r, const struct phase_stretch *stretch)
{
    const struct span_of_phase *first = NULL;
    int count = 0, days = stretch->last - stretch->first + 1;
    for (int i = stretch->count - 1; i >= 0; i--)
        if (is_left_out(&stretch->phases[i])) {
            first = &stretch->phases[i];
            count++;
        }
    if (!first || stretch->quiet)
        return;
    const char *left = phase_list(r, stretch, false);
    struct finding *finding = diag_report(
        r->diag, SEVERITY_WARNING, DIAG_PHASE_LEFT_OUT, first->node->span, "from %s to %s%s there %s %d day%s: %s %s left out",
        iso(r, stretch->first), stretch->to_bout ? "the bout on " : "", iso(r, stretch->last), days == 1 ? "is" : "are", days,
        days == 1 ? "" : "s", phase_list(r, stretch, true), count == 1 ? "is" : "are");
    diag_help(r->diag, finding, *left ? "what is left is %s" : "no phase is left; give the last one fewer days at least%s", left);
}

/* Puts the phases of STRETCH on their days, one behind the other up to its last. */
static void set_days(const struct phase_stretch *stretch)
{
    int last = stretch->last;
    for (int i = stretch->count - 1; i >= 0; i--) {
        struct span_of_phase *phase = &stretch->phases[i];
        if (phase->past || phase->fit.days == 0)
            continue;
        phase->phase.last = last;
        phase->phase.first = last - phase->fit.days + 1;
        last = phase->phase.first - 1;
    }
}

static void place_stretch(struct resolver *r, const struct phase_stretch *stretch)
{
    struct phase_length lengths[MOST_PHASES];
    int count = 0, days = stretch->last - stretch->first + 1;
    bool all_open = true;
    report_two_open(r, stretch);
    for (int i = 0; i < stretch->count; i++) {
        all_open &= stretch->phases[i].fit.open;
        if (!stretch->phases[i].past)
            lengths[count++] = stretch->phases[i].fit;
    }
    if (days <= 0 && all_open) {
        ends_before_it_begins(r, stretch->node, stretch->first);
        return;
    }
    int rest = phases_fit(lengths, count, days);
    if (rest < 0) {
        no_room(r, stretch->node, phases_least(lengths, count), stretch->first, stretch->last);
        return;
    }
    bool out = false;
    for (int i = 0, k = 0; i < stretch->count; i++) {
        if (!stretch->phases[i].past)
            stretch->phases[i].fit = lengths[k++];
        out |= stretch->phases[i].fit.out;
    }
    set_days(stretch);
    report_left_out(r, stretch);
    if (rest > 0 && !out)
        in_no_phase(r, stretch->node, stretch->first, stretch->first + rest - 1,
                    stretch->count > 1 ? stretch->phases[1].phase.name.shown : "the next");
}

/* The phases of a camp as its lines have them. */
struct phase_lines {
    struct span_of_phase items[MOST_PHASES];
    int count, before;       /* BEFORE of them come before the bout */
    const struct node *node; /* the line `phases`, or else the camp */
};

/* What was over when the bout was moved. */
struct phases_past {
    const struct phase *phases; /* as they were counted to the day planned at first */
    size_t count;
    int from; /* the first day that is to come */
};

static const struct phase *past_called(const struct phases_past *past, const char *folded)
{
    for (size_t i = 0; past && i < past->count; i++)
        if (past->phases[i].first < past->from && strcmp(past->phases[i].name.folded, folded) == 0)
            return &past->phases[i];
    return NULL;
}

/* What is over of STRETCH needs no days any more: only what is to come shares those that are left. A phase that has begun
 * may end at once if it may be left out. */
static void take_past(struct phase_stretch *stretch, const struct phases_past *past)
{
    int begun = -1;
    for (int i = 0; past && stretch->last >= past->from && i < stretch->count; i++)
        begun = past_called(past, stretch->phases[i].phase.name.folded) ? i : begun;
    for (int i = 0; i <= begun; i++) {
        struct span_of_phase *phase = &stretch->phases[i];
        const struct phase *old = past_called(past, phase->phase.name.folded);
        int had = old ? past->from - old->first : 0;
        phase->begun = old != NULL;
        phase->fit.out = !old; /* there were no days for it before */
        phase->past = i < begun || (old && old->last < past->from);
        phase->fit.shortest = phase->fit.shortest > had && !phase->fit.keep ? phase->fit.shortest - had : 0;
        phase->fit.longest = phase->fit.longest > had ? phase->fit.longest - had : 0;
    }
    if (begun >= 0)
        stretch->first = past->from;
}

/* Before the bout: from the start to each phase that ends on a day of its own, and from the last of these to the bout. */
static void place_before(struct resolver *r, const struct camp *camp, struct phase_lines *lines,
                         const struct phases_past *past, bool quiet)
{
    struct span_of_phase *phases = lines->items;
    struct phase_stretch stretch = {.phases = phases, .first = camp->first, .quiet = quiet};
    for (int i = 0; i < lines->before; i++) {
        int until = until_day(&phases[i]);
        stretch.count++;
        if (!until)
            continue;
        stretch.last = until - 1;
        stretch.node = phases[i].node;
        if (stretch.last > camp->bout) {
            diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, phases[i].length->span,
                       "this phase lasts beyond the bout on %s", iso(r, camp->bout));
            return;
        }
        take_past(&stretch, past);
        place_stretch(r, &stretch);
        stretch = (struct phase_stretch){.phases = &phases[i + 1], .first = until, .quiet = quiet};
    }
    stretch.last = camp->bout;
    stretch.to_bout = true;
    stretch.node = lines->node;
    if (stretch.count) {
        take_past(&stretch, past);
        place_stretch(r, &stretch);
    } else if (lines->before && stretch.first <= camp->bout) {
        in_no_phase(r, phases[lines->before - 1].node, stretch.first, camp->bout, iso(r, camp->bout + 1));
    }
}

static void place_forward(struct resolver *r, const struct camp *camp, struct span_of_phase *phases, int count,
                          int first)
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
            phase->open = true;
            phase->last = first + 364;
            if (!phases[i].after && !resolver_is_poisoned(r, camp))
                diag_error(r->diag, DIAG_OPEN_PHASE, until->span,
                           "without a bout a phase needs a length or a day: `4 weeks`, `until 2027-05-01`");
        }
        first = phase->last + 1;
    }
}

/* The phases of LINES on the days of CAMP. Where PAST is not NULL, some are over. */
static void place_phases(struct resolver *r, struct camp *camp, struct phase_lines *lines,
                         const struct phases_past *past, bool quiet)
{
    struct span_of_phase *items = lines->items;
    if (camp->bout) {
        place_before(r, camp, lines, past, quiet);
        for (int i = 0; i < lines->before; i++)
            if (items[i].phase.last == camp->bout)
                items[i].phase.last = camp->bout_last; /* the days of a tournament are one */
        place_forward(r, camp, items + lines->before, lines->count - lines->before, camp->bout_last + 1);
    } else {
        place_forward(r, camp, items, lines->count, camp->first);
    }
    camp->phase_count = 0;
    camp->phases = arena_alloc(r->arena, (size_t)lines->count * sizeof *camp->phases);
    for (int i = 0; i < lines->count; i++) {
        items[i].phase.after_bout = camp->bout && items[i].after;
        if (items[i].phase.first)
            camp->phases[camp->phase_count++] = items[i].phase;
    }
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

/* Reads what is below `phases`; false where a line could not be read: with a phase missing, none has its place. */
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

/* A bout that was postponed moves what is to come; days before that stay as they were. If it came nearer and phases can
 * give way, only what is to come does. */
static void place_moved(struct resolver *r, struct camp *camp, struct phase_lines *lines)
{
    const int bout = camp->bout, last = camp->bout_last;
    struct phase_lines before = *lines;
    camp->bout_last += camp->planned_bout - bout;
    camp->bout = camp->planned_bout;
    place_phases(r, camp, &before, NULL, true);
    const struct phases_past past = {camp->phases, camp->phase_count, camp->moved_on};
    camp->bout = bout;
    camp->bout_last = last;
    place_phases(r, camp, lines, bout < camp->planned_bout && any_bends(lines) ? &past : NULL, false);
    splice_phases(r, camp, past.phases, past.count);
}

/* Notes the phases for which there are no days. */
static void note_left_out(struct resolver *r, struct camp *camp, const struct phase_lines *lines)
{
    camp->left_phases = arena_alloc(r->arena, ((size_t)lines->before + 1) * sizeof *camp->left_phases);
    for (int i = 0; i < lines->before; i++) {
        bool there = false;
        for (size_t k = 0; k < camp->phase_count; k++)
            there |= strcmp(camp->phases[k].name.folded, lines->items[i].phase.name.folded) == 0;
        if (lines->items[i].fit.out && !there)
            camp->left_phases[camp->left_phase_count++] = lines->items[i].phase.name;
    }
}

void resolve_phases(struct resolver *r, const struct node *node, struct camp *camp)
{
    struct phase_lines lines;
    size_t errors = resolver_errors(r);
    if (!read_lines(r, node, &lines)) {
        resolver_poison(r, camp);
        return;
    }
    if (camp->moved_on)
        place_moved(r, camp, &lines);
    else
        place_phases(r, camp, &lines, NULL, false);
    note_left_out(r, camp, &lines);
    if (resolver_errors(r) > errors)
        resolver_poison(r, camp);
}

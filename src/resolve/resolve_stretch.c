/* resolve_stretch.c - phases between two days that are both known: how long each is, and which are left out. */
#include "resolve/stretch.h"

#include <string.h>

#include "base/text.h"
#include "figures/dates.h"

const char *phase_day(struct resolver *r, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(r->arena, text, strlen(text));
}

static void no_room(struct resolver *r, const struct phase_stretch *stretch, int need)
{
    int days = stretch->last - stretch->first + 1;
    struct finding *finding = diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, stretch->node->span,
                                         "these phases take %d days, but from %s to %s there are only %d", need,
                                         phase_day(r, stretch->first), phase_day(r, stretch->last), days > 0 ? days : 0);
    if (!stretch->between) {
        diag_help(r->diag, finding, "start earlier, shorten a phase, or move the bout");
        return;
    }
    diag_note(r->diag, finding, stretch->bout->span, "up to this bout, from the one before it");
    diag_help(r->diag, finding, "shorten a phase, give this bout `phases` of its own below it, or move it");
}

void ends_before_it_begins(struct resolver *r, const struct node *phase, int first)
{
    const struct node *length = node_find(phase, NODE_WHEN);
    struct finding *finding = diag_error(r->diag, DIAG_PHASES_DO_NOT_FIT, length ? length->span : phase->span,
                                         "this phase begins on %s, when it should be over", phase_day(r, first));
    diag_help(r->diag, finding, "give it a later day, or shorten what comes before it");
}

void in_no_phase(struct resolver *r, const struct node *node, int first, int last, const char *until)
{
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_DAYS_IN_NO_PHASE, node->span,
                                          "%d days from %s belong to no phase", last - first + 1, phase_day(r, first));
    diag_help(r->diag, finding, "make the phase there last `until %s`", until);
}

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
        phase_day(r, stretch->first), stretch->to_bout ? "the bout on " : "", phase_day(r, stretch->last), days == 1 ? "is" : "are", days,
        days == 1 ? "" : "s", phase_list(r, stretch, true), count == 1 ? "is" : "are");
    diag_help(r->diag, finding, *left ? "what is left is %s" : "no phase is left; give the last one a shorter minimum%s", left);
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

void place_stretch(struct resolver *r, const struct phase_stretch *stretch)
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
        no_room(r, stretch, phases_least(lengths, count));
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

/* The phase called FOLDED that leads to BOUT and had begun, or NULL. */
static const struct phase *past_called(const struct phases_past *past, const struct bout *bout, const char *folded)
{
    for (size_t i = 0; past && i < past->count; i++) {
        const struct phase *phase = &past->phases[i];
        if (phase->bout == bout && phase->first < past->from && strcmp(phase->name.folded, folded) == 0)
            return phase;
    }
    return NULL;
}

/* A phase that has begun may end at once if it may be left out. */
void take_past(struct phase_stretch *stretch, const struct phases_past *past)
{
    int begun = -1;
    for (int i = 0; past && stretch->last >= past->from && i < stretch->count; i++)
        begun = past_called(past, stretch->bout, stretch->phases[i].phase.name.folded) ? i : begun;
    for (int i = 0; i <= begun; i++) {
        struct span_of_phase *phase = &stretch->phases[i];
        const struct phase *old = past_called(past, stretch->bout, phase->phase.name.folded);
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


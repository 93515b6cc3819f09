#include "amend/proposed.h"

#include <string.h>

#include "figures/mass.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "model/programme.h"
#include "rules/rules.h"
#include "wording/wording.h"

/* --- one line --- */

static const char *plain_range(struct arena *arena, struct range range)
{
    const char *low = wording_number(arena, range.low);
    return range.low == range.high ? low : arena_printf(arena, "%s-%s", low, wording_number(arena, range.high));
}

static const char *effort_words(struct arena *arena, const struct load *load)
{
    const char *band = plain_range(arena, load->effort_band);
    switch (load->effort) {
    case EFFORT_RPE: return arena_printf(arena, " RPE %s", band);
    case EFFORT_RESERVE: return arena_printf(arena, " %s in reserve", band);
    case EFFORT_PULSE: return arena_printf(arena, " pulse %s", band);
    case EFFORT_ALL_OUT: return " all-out";
    case EFFORT_EASY: return " easy";
    case EFFORT_NONE: case EFFORT_REP_MAX: break;
    }
    return "";
}

static const char *side_words(const struct part *part)
{
    return part->side == DOSE_EACH_SIDE ? " each side" : part->side == DOSE_EACH_WAY ? " each way" : "";
}

const char *proposed_dose(struct arena *arena, const struct proposal *proposal)
{
    const struct set_run *run = &proposal->item->runs[0];
    struct text out = {.arena = arena};
    char mass_text[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(proposal->load);
    for (int i = 0; proposal->reps && i < proposal->item->sets; i++)
        text_addf(&out, "%s%d", i ? ", " : "", proposal->reps);
    if (proposal->reps)
        text_addf(&out, "%s ", side_words(&run->parts[0]));
    text_add(&out, "@ ");
    if (run->load.pieces > 1)
        text_addf(&out, "%d x ", run->load.pieces);
    text_addf(&out, "%s %s%s", mass_format_exact(proposal->load, unit, mass_text), mass_unit_name(unit),
              effort_words(arena, &run->load));
    return text_keep(arena, &out);
}

/* --- the lines of a placed session --- */

static bool same_place(const struct occasion *a, const struct occasion *b)
{
    return a->place == b->place && a->date == b->date;
}

/* Is OCCASION's line for nobody else that day, and is nothing below it for a single athlete yet? */
static bool is_alone(const struct project *project, const struct occasion *occasion)
{
    const struct programme *programme = project->programme;
    const struct node *line = placed_statement(project, occasion->span);
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (&programme->occasions[i] != occasion && same_place(&programme->occasions[i], occasion))
            return false;
    return !node_find(line, STATEMENT_FOR_ONE);
}

/* The lines to put below the line of PROPOSED's item FIRST, from all proposals for that line and day. */
static const char *lines_of(struct arena *arena, const struct project *before, const struct proposed *proposed, size_t first)
{
    struct text out = {.arena = arena};
    const struct occasion *occasion = proposed->items[first].occasion;
    const struct athlete *last = NULL;
    bool alone = is_alone(before, occasion);
    for (size_t i = first; i < proposed->count; i++) {
        const struct proposal *one = &proposed->items[i];
        if (proposed->refused[i] || !same_place(one->occasion, occasion))
            continue;
        if (!alone && one->occasion->athlete != last)
            text_addf(&out, "for %s\n", one->occasion->athlete->name.shown);
        last = one->occasion->athlete;
        text_addf(&out, "%schange %s : %s\n", alone ? "" : "    ", one->item->ref, proposed_dose(arena, one));
    }
    return text_keep(arena, &out);
}

static bool is_first(const struct proposed *proposed, size_t at)
{
    for (size_t i = 0; i < at; i++)
        if (!proposed->refused[i] && same_place(proposed->items[i].occasion, proposed->items[at].occasion))
            return false;
    return !proposed->refused[at];
}

/* Writes those groups not yet WRITTEN whose files have not been changed since the last compile; false, with the
 * reason, if one cannot be written. *ANY: some were written. */
static bool write_round(struct arena *arena, const struct project *before, struct proposed *proposed, bool *written,
                        bool *any)
{
    const struct project *now = &proposed->attempt.project;
    bool *touched = arena_alloc(arena, now->sources.count + 1);
    *any = false;
    for (size_t i = 0; i < proposed->count; i++) {
        const struct occasion *again =
            written[i] || !is_first(proposed, i) ? NULL : occasion_again(now->programme, proposed->items[i].occasion);
        struct amended amended;
        if (!again || touched[again->span.file])
            continue;
        proposed->wrong = placed_add(arena, now, again, lines_of(arena, before, proposed, i), &amended);
        if (proposed->wrong)
            return false;
        touched[again->span.file] = written[i] = *any = true;
        proposed->attempt.request = attempt_request(arena, &proposed->attempt.request, now, &amended);
    }
    return true;
}

void proposed_write(struct arena *arena, const struct project_request *request, const struct project *before,
                    struct proposed *proposed)
{
    bool *written = arena_alloc(arena, proposed->count + 1), any = true;
    proposed->attempt = (struct attempt){.project = *before, .request = *request};
    while (any && write_round(arena, before, proposed, written, &any)) {
        proposed->unread = any && !project_load(&proposed->attempt.project, arena, &proposed->attempt.request);
        if (proposed->unread || (any && proposed->attempt.project.programme->incomplete))
            proposed->wrong = "the plan with it cannot be read";
        if (proposed->wrong)
            return;
    }
    if (proposed->wrong)
        return;
    attempt_check(&proposed->attempt, before);
    if (proposed->attempt.errors)
        proposed->wrong = proposed->attempt.first->words;
}

/* --- what goes past a limit --- */

/* Puts PROPOSAL into its programme; returns what was there. */
static struct item put(struct arena *arena, const struct proposal *proposal)
{
    struct item *item = (struct item *)proposal->item;
    const struct item was = *item;
    struct set_run *runs = arena_alloc(arena, item->run_count * sizeof *runs);
    for (size_t i = 0; i < item->run_count; i++) {
        runs[i] = item->runs[i];
        load_make(occasion_gym(proposal->occasion), item->exercise, proposal->load, runs[i].load.pieces, false,
                  &runs[i].load);
        if (!proposal->reps)
            continue;
        struct part *part = arena_alloc(arena, sizeof *part);
        *part = runs[i].parts[0];
        part->amount = (struct range){(milli)proposal->reps * 1000, (milli)proposal->reps * 1000};
        runs[i].parts = part;
    }
    item->runs = runs;
    return was;
}

/* Refuses the increases for those whom WORDS names, or for everybody if it is NULL, because of REASON; false if there were
 * none. */
static bool refuse_for(struct proposed *proposed, const char *words, const char *reason)
{
    bool any = false;
    for (size_t i = 0; i < proposed->count; i++) {
        const struct proposal *one = &proposed->items[i];
        bool up = one->reps || one->load > one->item->runs[0].load.made;
        if (proposed->refused[i] || !up || (words && !strstr(words, one->occasion->athlete->name.shown)))
            continue;
        proposed->refused[i] = reason;
        any = true;
    }
    return any;
}

/* Refuses the increases for the athlete whom FINDING names, or else for all who have it, because of an error that several
 * have the words are those of the worst; or for everybody if it names nobody. False if there were none. */
static bool refuse_named(struct arena *arena, struct proposed *proposed, const struct finding *finding)
{
    const char *reason = arena_copy(arena, finding->words, strlen(finding->words));
    const char *of_all = finding->met_words ? arena_printf(arena, "%s (%s)", reason, finding->met_words) : reason;
    bool named = false;
    for (size_t i = 0; i < proposed->count; i++)
        named = named || strstr(of_all, proposed->items[i].occasion->athlete->name.shown);
    return named ? refuse_for(proposed, reason, reason) || refuse_for(proposed, of_all, of_all) : refuse_for(proposed, NULL, of_all);
}

/* Refuses increases for one of the errors of NOW that are not among those KNOWN; false if none of these is due to an
 * increase: a load that goes down changes the words of an error that was there. */
static bool refuse_some(struct arena *arena, struct proposed *proposed, const struct diag *known, const struct diag *now)
{
    size_t from = 0;
    for (const struct finding *error; (error = attempt_new_error(known, now, &from));)
        if (refuse_named(arena, proposed, error))
            return true;
    return false;
}

/* The errors in the sessions, weeks, phases and camps of what is PROPOSED; other loads there cannot cause errors
 * elsewhere. */
static struct diag *errors_around(struct arena *arena, const struct project *before, const struct proposed *proposed)
{
    const struct programme *programme = before->programme;
    struct diag *diag = diag_new(arena, &before->sources);
    const struct wanted wanted = {arena_alloc(arena, programme->occasion_count + 1),
                                  arena_alloc(arena, programme->left_out_count + 1), .unhelped = true};
    for (size_t i = 0; i < proposed->count; i++)
        wanted.occasions[proposed->items[i].occasion - programme->occasions] = true;
    rules_run_wanted(programme, &wanted, SEVERITY_ERROR, NULL, diag);
    return diag;
}

/* The errors that the programme has with all that is not refused. The programme itself is checked with the new loads and
 * then restored, so no text has to be read. */
static struct diag *errors_with(struct arena *arena, const struct project *before, const struct proposed *proposed)
{
    struct item *were = arena_alloc(arena, (proposed->count + 1) * sizeof *were);
    for (size_t i = 0; i < proposed->count; i++)
        if (!proposed->refused[i])
            were[i] = put(arena, &proposed->items[i]);
    struct diag *diag = errors_around(arena, before, proposed);
    for (size_t i = 0; i < proposed->count; i++)
        if (!proposed->refused[i])
            *(struct item *)proposed->items[i].item = were[i];
    return diag;
}

struct proposed proposed_of(struct arena *arena, const struct project *before, struct proposal *items, size_t count)
{
    struct proposed proposed = {.items = items, .count = count};
    proposed.refused = arena_alloc(arena, (count + 1) * sizeof *proposed.refused);
    const struct diag *known = count ? errors_around(arena, before, &proposed) : NULL;
    while (count && refuse_some(arena, &proposed, known, errors_with(arena, before, &proposed)))
        ;
    for (size_t i = 0; i < proposed.count; i++)
        proposed.standing += !proposed.refused[i];
    return proposed;
}

struct proposed proposed_week(struct arena *arena, const struct project *before, int week, const struct athlete *athlete)
{
    struct proposal *items = NULL;
    size_t count = next_of(arena, before->programme, week, athlete, &items);
    return proposed_of(arena, before, items, count);
}

/* resolve_progress.c - `next time` below an exercise: how its load goes on from what was done. */
#include "resolve/template.h"

enum { REPS_MOST = 50 };

static bool bad_rule(struct resolver *r, struct span span, const char *words, const char *help)
{
    diag_help(r->diag, diag_error(r->diag, DIAG_BAD_PROGRESS, span, "%s", words), "%s", help);
    return false;
}

/* --- the line that it stands below --- */

static bool is_one_mass(const struct dose *dose)
{
    const struct dose_load *load = &dose->load;
    const struct figures *figures = load->figures;
    return (load->word == LOAD_WORD_FIGURE || load->word == LOAD_WORD_PIECES) && figures && !figures->series &&
           figures->count == 1 && (figures->measure == MEASURE_KG || figures->measure == MEASURE_LB) &&
           figures->values[0].low == figures->values[0].high;
}

/* Reports a load of DOSE, which may be NULL, that no rule can move. */
static bool has_fit_load(struct resolver *r, const struct node *node, const struct dose *dose, bool needed)
{
    if (!dose || (!dose->load.given && !needed))
        return !needed;
    if (dose->load.given && is_one_mass(dose) && !dose->next)
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_PROGRESS, node->span,
                                         "`next time` changes a single load in kg or lb, and this line has %s",
                                         !dose->load.given ? "none" : dose->next ? "several doses" : "another kind");
    if (dose->load.given)
        diag_note(r->diag, finding, dose->load.span, "this load");
    diag_help(r->diag, finding, "give the line one load, such as `@ 60 kg`, or leave the rule out");
    return false;
}

static bool line_fits(struct resolver *r, const struct node *node, const struct template_item *item)
{
    bool fits = has_fit_load(r, node, item->dose, true);
    for (size_t i = 0; fits && i < item->variant_count; i++)
        fits = has_fit_load(r, node, item->variants[i].dose, false);
    return fits;
}

/* --- the rule --- */

/* A plain number or range; false where it is a time or `max`. */
static bool read_band(const struct node *node, struct range *band)
{
    const struct node *low = node->kind == NODE_RANGE ? node->first : node;
    const struct node *high = node->kind == NODE_RANGE ? node->last : node;
    if (low->kind != NODE_NUMBER || low->code || high->code)
        return false;
    *band = (struct range){low->number, high->number};
    return band->low <= band->high;
}

static bool is_whole(struct range band)
{
    return band.low % 1000 == 0 && band.high % 1000 == 0 && band.low >= 1000 && band.high <= REPS_MOST * 1000;
}

static bool read_step(struct resolver *r, const struct node *node, struct next_rule *progress)
{
    const struct figures *figures = figures_read(r, node);
    bool weighed = figures->measure == MEASURE_KG || figures->measure == MEASURE_LB;
    if (!weighed || figures->series || figures->count != 1 || figures->values[0].low != figures->values[0].high ||
        figures->values[0].low <= 0)
        return bad_rule(r, node->span, "a load goes up by one step in kg or lb", "write it like `8-10, then 2.5 kg`");
    progress->step = figures_mass(r, figures, 0);
    return progress->step > 0;
}

static bool read_rule(struct resolver *r, const struct node *rule, struct next_rule *progress)
{
    const struct node *plain = rule->first;
    switch ((enum next_word)rule->code) {
    case NEXT_WORD_RANGE:
        progress->kind = PROGRESS_RANGE;
        if (!read_band(plain, &progress->band) || !is_whole(progress->band))
            return bad_rule(r, plain->span, "a load goes up at a number of repetitions, 1 to 50",
                            "write it like `8-10, then 2.5 kg`");
        return read_step(r, rule->last, progress);
    case NEXT_WORD_TWICE:
        progress->kind = PROGRESS_TWICE;
        return read_step(r, rule->last, progress);
    case NEXT_WORD_EFFORT:
        progress->kind = PROGRESS_EFFORT;
        if (!read_band(plain, &progress->band) || progress->band.low < 5000 || progress->band.high > 10000)
            return bad_rule(r, plain->span, "effort is an RPE from 5 to 10", "write it like `by effort 7-8`");
        return true;
    case NEXT_WORD_LAST_SET:
        break;
    }
    progress->kind = PROGRESS_LAST_SET;
    if (!read_band(plain, &progress->band) || progress->band.low != progress->band.high ||
        (progress->band.low != 3000 && progress->band.low != 6000 && progress->band.low != 10000))
        return bad_rule(r, plain->span, "the table is for a last set of 3, 6 or 10",
                        "write `by the last set of 3`, `6` or `10`");
    progress->of = (int)(progress->band.low / 1000);
    return true;
}

const struct next_rule *progress_read(struct resolver *r, const struct node *node, const struct template_item *item)
{
    struct next_rule *progress = arena_alloc(r->arena, sizeof *progress);
    *progress = (struct next_rule){.span = node->span};
    return line_fits(r, node, item) && read_rule(r, node->first, progress) ? progress : NULL;
}

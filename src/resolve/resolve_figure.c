#include <assert.h>
#include <inttypes.h>

#include "figures/mass.h"
#include "resolve/resolver.h"
#include "resolve/tracking.h"

static bool read_value(struct resolver *r, const struct node *node, struct range *value, bool *max)
{
    if (node->kind == NODE_RANGE) {
        assert(node->first && node->last);
        value->low = node->first->number;
        value->high = node->last->number;
        if (value->low > value->high) {
            struct finding *finding =
                diag_error(r->diag, DIAG_RANGE_BACKWARD, node->span, "a range runs from the smaller to the larger");
            diag_fix(r->diag, finding, node->span,
                     arena_printf(r->arena, "%s-%s", resolver_written(r, node->last->span), resolver_written(r, node->first->span)));
            value->high = value->low;
        }
        return node->first->code == 1;
    }
    *max = node->kind == NODE_MAX;
    value->low = value->high = node->number;
    return node->code == 1;
}

/* Distances are metres everywhere after the reader. */
static void in_metres(struct figures *figures)
{
    for (int i = 0; i < figures->count; i++) {
        figures->values[i].low *= 1000;
        figures->values[i].high *= 1000;
    }
    figures->measure = MEASURE_METRE;
}

/* --- what a figure can be --- */

/* The most that a figure of a plan can be in each unit, in thousandths; for sets, rounds and RM their own statements
 * allow less. More is a slip of the keyboard, and what is worked out from less stays far below the largest number that
 * the program can represent. Common practice, no source: a day, a walk of 100 km, what no gym has in one place. */
static const struct {
    milli most;
    const char *words;
} bounds[] = {
    [MEASURE_NONE] = {10000000, "10000"},        [MEASURE_KG] = {2000000, "2000 kg"},
    [MEASURE_LB] = {5000000, "5000 lb"},         [MEASURE_SECOND] = {86400000, "24 hours"},
    [MEASURE_MINUTE] = {1440000, "24 hours"},    [MEASURE_HOUR] = {24000, "24 hours"},
    [MEASURE_METRE] = {100000000, "100 km"},     [MEASURE_KILOMETRE] = {100000, "100 km"},
    [MEASURE_METRE_A_SECOND] = {100000, "100 m/s"},
    [MEASURE_NEWTON] = {100000000, "100000 N"},  [MEASURE_WATT] = {100000000, "100000 W"},
    [MEASURE_CM] = {10000000, "100 m"},          [MEASURE_PERCENT] = {1000000, "1000%"},
    [MEASURE_REPS] = {10000000, "10000 reps"},   [MEASURE_SETS] = {10000000, "10000 sets"},
    [MEASURE_ROUNDS] = {10000000, "10000 rounds"}, [MEASURE_STRIKES] = {10000000, "10000 strikes"},
    [MEASURE_CONTACTS] = {10000000, "10000 contacts"}, [MEASURE_RM] = {100000, "100 RM"},
    [MEASURE_WEEKS] = {1000000, "1000 weeks"},   [MEASURE_DAYS] = {1000000, "1000 days"},
    [MEASURE_CLOCK] = {86400000, "24 hours"},
};

static bool is_time(enum measure measure)
{
    return measure == MEASURE_CLOCK || measure == MEASURE_SECOND || measure == MEASURE_MINUTE || measure == MEASURE_HOUR;
}

/* Reports figures that are over their bound, and continues with 1 in their place, about which nothing more will be
 * reported. For a camp as a whole a YEAR of time is allowed. */
static void bound_figures(struct resolver *r, struct figures *figures, bool year)
{
    enum { DAYS_OF_YEAR = 365 };
    milli most = bounds[figures->measure].most * (year ? DAYS_OF_YEAR : 1);
    for (int i = 0; i < figures->count; i++) {
        struct range *value = &figures->values[i];
        figures->cut = figures->cut || value->low > most || value->high > most;
        if (value->low > most || value->high > most)
            *value = (struct range){1000, 1000};
    }
    if (!figures->cut)
        return;
    resolver_poison(r, r->programme, figures->span);
    diag_error(r->diag, DIAG_FIGURE_TOO_LARGE, figures->span, "`%s` is too large: it can be at most %s",
               resolver_written(r, figures->span), year ? "a year" : bounds[figures->measure].words);
}

/* --- reading --- */

static struct figures *read_any(struct resolver *r, const struct node *node)
{
    const struct node *inner = node->first;
    bool several = inner->kind == NODE_SERIES || inner->kind == NODE_LIST;
    int count = 1;
    if (several) {
        count = 0;
        for (const struct node *child = inner->first; child; child = child->next)
            count += child->kind != NODE_REPEAT_LAST;
    }
    struct figures *figures = arena_alloc(r->arena, sizeof *figures);
    *figures = (struct figures){
        .measure = (enum measure)node->code,
        .count = count,
        .values = arena_alloc(r->arena, (size_t)count * sizeof(struct range)),
        .max = arena_alloc(r->arena, (size_t)count * sizeof(bool)),
        .series = inner->kind == NODE_SERIES,
        .list = inner->kind == NODE_LIST,
        .repeat_last = inner->last && inner->last->kind == NODE_REPEAT_LAST,
        .span = node->span,
    };
    track_series(r, figures);
    int clocks = 0, index = 0;
    for (const struct node *child = several ? inner->first : inner; child && index < count;
         child = child->next) {
        clocks += read_value(r, child, &figures->values[index], &figures->max[index]);
        index++;
    }
    if (clocks && (clocks < count || figures->measure != MEASURE_NONE))
        diag_error(r->diag, DIAG_WRONG_UNIT, node->span,
                   "minutes:seconds needs no unit and cannot stand beside plain figures");
    if (clocks)
        figures->measure = MEASURE_CLOCK;
    return figures;
}

struct figures *figures_read(struct resolver *r, const struct node *node)
{
    struct figures *figures = node ? read_any(r, node) : NULL;
    if (figures)
        bound_figures(r, figures, false);
    if (figures && figures->measure == MEASURE_KILOMETRE)
        in_metres(figures);
    return figures;
}

struct figures *figures_read_total(struct resolver *r, const struct node *node)
{
    struct figures *figures = read_any(r, node);
    if (is_time(figures->measure))
        bound_figures(r, figures, true);
    if (figures->measure == MEASURE_KILOMETRE)
        in_metres(figures);
    return figures;
}

const char *measure_words(enum measure measure)
{
    switch (measure) {
    case MEASURE_NONE: return "a figure without a unit";
    case MEASURE_KG: return "kg";
    case MEASURE_LB: return "lb";
    case MEASURE_SECOND: return "seconds";
    case MEASURE_MINUTE: return "minutes";
    case MEASURE_HOUR: return "hours";
    case MEASURE_METRE: case MEASURE_KILOMETRE: return "metres";
    case MEASURE_METRE_A_SECOND: return "metres a second";
    case MEASURE_NEWTON: return "newtons";
    case MEASURE_WATT: return "watts";
    case MEASURE_CM: return "centimetres";
    case MEASURE_PERCENT: return "a percentage";
    case MEASURE_REPS: return "reps";
    case MEASURE_SETS: return "sets";
    case MEASURE_ROUNDS: return "rounds";
    case MEASURE_STRIKES: return "strikes";
    case MEASURE_CONTACTS: return "contacts";
    case MEASURE_RM: return "a rep maximum";
    case MEASURE_WEEKS: return "weeks";
    case MEASURE_DAYS: return "days";
    case MEASURE_CLOCK: return "a time";
    }
    return "";
}

mass figures_mass(struct resolver *r, const struct figures *figures, int index)
{
    milli value = figures->values[index].low;
    if (figures->measure == MEASURE_KG || figures->measure == MEASURE_LB)
        return mass_from(value, figures->measure == MEASURE_LB ? MASS_IN_LB : MASS_IN_KG);
    if (figures->measure != MEASURE_NONE) {
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "a mass is in kg or lb, not in %s",
                   measure_words(figures->measure));
        return -1;
    }
    struct finding *finding = diag_error(r->diag, DIAG_NO_UNIT, figures->span, "a mass needs its unit, kg or lb");
    diag_help(r->diag, finding, "write `kg` or `lb` after the last figure of the line");
    return -1;
}

int figures_seconds(struct resolver *r, const struct figures *figures, milli value)
{
    switch (figures->measure) {
    case MEASURE_CLOCK: case MEASURE_SECOND: return (int)((value + 500) / 1000);
    case MEASURE_MINUTE: return (int)((value * 60 + 500) / 1000);
    case MEASURE_HOUR: return (int)((value * 3600 + 500) / 1000);
    default: break;
    }
    if (figures->measure != MEASURE_NONE) {
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "a time is written 1:30, 90 s or 5 min, not in %s",
                   measure_words(figures->measure));
        return -1;
    }
    struct finding *finding = diag_error(r->diag, DIAG_NO_UNIT, figures->span, "a time needs its unit");
    int number = (int)(value / 1000);
    diag_help(r->diag, finding, "write `%d s` or `%d min`, whichever is meant, or both like `1:30`", number, number);
    return -1;
}

/* AMOUNT is all that is said, and no more than figures: no hold, no times, no side, no second part. */
static bool is_plain(const struct node *amount)
{
    const struct node *part = amount->first;
    return amount->kind == NODE_AMOUNT && !amount->code && !amount->next && !amount->number && !part->next && !part->code;
}

bool figures_is_one(const struct figures *figures)
{
    return figures->count == 1 && !figures->series && !figures->max[0] && figures->values[0].low == figures->values[0].high;
}

struct figures *figures_alone(struct resolver *r, const struct node *dose)
{
    if (dose->kind != NODE_DOSE || !is_plain(dose->first))
        return NULL;
    struct figures *figures = figures_read(r, dose->first->first->first);
    return figures_is_one(figures) ? figures : NULL;
}

int figures_time_of(struct resolver *r, const struct node *dose)
{
    const struct figures *figures = figures_alone(r, dose);
    if (!figures) {
        diag_error(r->diag, DIAG_WRONG_UNIT, dose->span, "write a single time here, such as 0:20 or 70 min");
        return 0;
    }
    int seconds = figures_seconds(r, figures, figures->values[0].low);
    return seconds < 0 ? 0 : seconds;
}

struct figures *figures_rpe(struct resolver *r, const struct node *statement)
{
    const struct node *amount = statement ? statement->first->first : NULL;
    if (!amount)
        return NULL;
    if (!is_plain(amount)) {
        diag_error(r->diag, DIAG_BAD_RPE, statement->span, "an effort is a figure or a range, such as 6-8");
        return NULL;
    }
    struct figures *figures = figures_read(r, amount->first->first);
    if (!figures)
        return NULL;
    bool fits = figures->measure == MEASURE_NONE && !figures->list;
    for (int i = 0; i < figures->count && fits; i++)
        fits = !figures->max[i] && figures->values[i].low >= 1000 && figures->values[i].high <= 10000;
    if (fits)
        return figures;
    diag_error(r->diag, DIAG_BAD_RPE, figures->span, "RPE is from 1 to 10");
    return NULL;
}

/* Reports that FIGURES, a series, end before column NUMBER, from 1; the furthest of them all, so that whoever adds what is
 * missing need not come back for the next week. */
static void report_too_short(struct resolver *r, struct figures *figures, int number, bool further)
{
    const char *const words = "this gives %d weeks, but the plan reaches week %d of this session";
    if (figures->too_short && further)
        diag_reword(r->diag, figures->too_short, words, figures->count, number);
    if (figures->reported)
        return;
    figures->reported = true;
    figures->too_short =
        diag_error(r->diag, DIAG_SERIES_TOO_SHORT, figures->span, words, figures->count, number);
    diag_help(r->diag, figures->too_short, "add a figure for each week, or end with `/...` to repeat the last");
}

int figures_column(struct resolver *r, struct figures *figures, int column)
{
    if (!figures->series)
        return 0;
    bool further = figures->used < column + 1;
    if (further)
        figures->used = column + 1;
    track_used(r, figures, column + 1);
    if (column < figures->count)
        return column;
    if (!figures->repeat_last)
        report_too_short(r, figures, column + 1, further);
    return figures->count - 1;
}

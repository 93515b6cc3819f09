/* tally_margin.c - how far each week is from each limit that is held against a week or a session.
 * A limit of a phase counts the phase's days alone, as its check does; what is broken or cut short
 * is not pro-rated here. */
#include <string.h>

#include "export/tally.h"
#include "figures/dates.h"
#include "model/tally.h"
#include "model/wording.h"
#include "rules/limits.h"

struct margins {
    const struct tally_view *view;
    struct tally_table *table;
    const struct occasion *const *occasions;
    size_t count;
};

static struct range amount_of(const struct tally *tally, enum account account, enum side side)
{
    return side == SIDE_ALL ? tally->sum[account] : tally->side[account][side];
}

/* What is left up to the limit, below 0 where it is broken; the nearer end of a band. */
static milli margin_of(const struct limit *limit, struct range amount)
{
    milli below = (limit->bound == LIMIT_WITHIN ? limit->top : limit->value) - amount.high;
    milli above = amount.low - limit->value;
    if (limit->bound == LIMIT_AT_MOST)
        return below;
    if (limit->bound == LIMIT_AT_LEAST)
        return above;
    return below < above ? below : above;
}

/* One account in proportion to another, both ends, in thousandths. False where there is none of
 * the other. */
static bool ratio_of(const struct tally *tally, const struct layered *layered, struct range *ratio)
{
    struct range one = tally->sum[layered->account], other = tally->sum[layered->against];
    if (other.low <= 0)
        return false;
    *ratio = (struct range){one.low * 1000 / other.high, one.high * 1000 / other.low};
    return true;
}

static const char *bound_words(const struct tally_view *view, const struct layered *layered)
{
    const struct limit *limit = layered->limit;
    enum account account = layered->against == ACCOUNT_NONE ? layered->account : ACCOUNT_SETS;
    const char *value = account_amount(view->arena, account, limit->value);
    const char *top = limit->bound == LIMIT_WITHIN
                          ? arena_printf(view->arena, " to %s",
                                         account_amount(view->arena, account, limit->top))
                          : "";
    static const char *const bounds[] = {"at most ", "at least ", "within "};
    return arena_printf(view->arena, "%s%s%s%s%s%s, %s", bounds[limit->bound], value, top,
                        layered->against == ACCOUNT_NONE ? "" : " to 1 of ",
                        layered->against == ACCOUNT_NONE
                            ? ""
                            : account_name(view->arena, layered->against),
                        limit->scope == LIMIT_SESSION ? " a session" : " a week",
                        forces.names[limit->force]);
}

/* The row of LAYERED and SIDE, made where there is none yet. */
static struct tally_row *row_of(struct margins *margins, const struct layered *layered,
                                enum side side)
{
    static const char *const sides[] = {"left", "right"};
    const char *bound = bound_words(margins->view, layered);
    const char *name = account_name(margins->view->arena, layered->account);
    const char *of_side = side == SIDE_ALL ? "" : sides[side];
    for (size_t i = 0; i < margins->table->count; i++) {
        struct tally_row *row = &margins->table->rows[i];
        if (strcmp(row->name, name) == 0 && strcmp(row->bound, bound) == 0 &&
            strcmp(row->side, of_side) == 0)
            return row;
    }
    const char *unit = layered->against == ACCOUNT_NONE ? tally_unit(layered->account) : "to 1";
    struct tally_row *row =
        tally_row_add(margins->view, margins->table, "margin", name, of_side, unit);
    row->bound = bound;
    return row;
}

/* Puts the margin into the row; of several in one week the least. */
static void put_margin(struct margins *margins, const struct layered *layered, enum side side,
                       const struct tally *tally, int week)
{
    milli margin;
    struct range ratio;
    if (layered->against != ACCOUNT_NONE) {
        if (!ratio_of(tally, layered, &ratio))
            return;
        margin = margin_of(layered->limit, ratio);
    } else {
        margin = tally_in_unit(layered->account,
                               margin_of(layered->limit, amount_of(tally, layered->account, side)));
    }
    struct tally_row *row = row_of(margins, layered, side);
    if (row->known[week] && row->cells[week].low <= margin)
        return;
    row->cells[week] = (struct range){margin, margin};
    row->known[week] = true;
}

static void hold_against(struct margins *margins, const struct in_force *in_force,
                         const struct tally *tally, int week)
{
    const struct layered *layered = in_force->layered;
    if (layered->account >= ACCOUNT_COUNT || layered->limit->first_weeks || layered->limit->below_peak)
        return;
    bool sides = layered->limit->a_side && account_is_sided(layered->account);
    for (int side = sides ? SIDE_LEFT : SIDE_ALL; side <= (sides ? SIDE_RIGHT : SIDE_ALL); side++)
        put_margin(margins, layered, (enum side)side, tally, week);
}

/* The sums of a week, or of those of its days that lie in PHASE. */
static struct tally week_tally(const struct margins *margins, int monday, const struct phase *phase)
{
    struct tally tally = {0};
    for (size_t i = 0; i < margins->count; i++) {
        int day = margins->occasions[i]->date;
        if (day >= monday && day <= monday + 6 &&
            (!phase || (day >= phase->first && day <= phase->last)))
            tally_occasion(&tally, margins->occasions[i]);
    }
    return tally;
}

static void add_week(struct margins *margins, const struct limit_table *limits, int week,
                     struct in_force *picked)
{
    int monday = tally_monday(margins->table, week);
    const struct phase *phase = camp_phase_between(limits->camp, monday, monday + 6);
    struct tally whole = week_tally(margins, monday, NULL);
    struct tally in_phase = week_tally(margins, monday, phase);
    struct holder holder = {margins->table->athlete, phase, monday, monday + 6};
    size_t count = limit_table_pick(limits, LIMIT_WEEK, &holder, picked);
    for (size_t i = 0; i < count; i++)
        hold_against(margins, &picked[i],
                     picked[i].layered->limit->phase ? &in_phase : &whole, week);
}

static void add_sessions(struct margins *margins, const struct limit_table *limits, int week,
                         struct in_force *picked)
{
    int monday = tally_monday(margins->table, week);
    for (size_t o = 0; o < margins->count; o++) {
        const struct occasion *occasion = margins->occasions[o];
        if (!occasion->session || occasion->camp != limits->camp || occasion->date < monday ||
            occasion->date > monday + 6)
            continue;
        struct tally tally = {0};
        tally_occasion(&tally, occasion);
        struct holder holder = {occasion->athlete, occasion->phase, occasion->date, occasion->date};
        size_t count = limit_table_pick(limits, LIMIT_SESSION, &holder, picked);
        for (size_t i = 0; i < count; i++)
            hold_against(margins, &picked[i], &tally, week);
    }
}

void tally_add_margins(const struct tally_view *view, struct tally_table *table,
                       const struct occasion *const *occasions, size_t count)
{
    struct margins margins = {view, table, occasions, count};
    struct limit_table limits;
    limit_table_build(view->arena, table->camp, &limits);
    struct in_force *picked = arena_alloc(view->arena, (limits.group_count + 1) * sizeof *picked);
    for (int week = 0; week < table->weeks; week++) {
        add_week(&margins, &limits, week, picked);
        add_sessions(&margins, &limits, week, picked);
    }
}

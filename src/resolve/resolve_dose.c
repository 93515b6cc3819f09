#include <ctype.h>
#include <string.h>

#include "resolve/dose.h"
#include "model/programme.h"

static void twice(struct resolver *r, const struct node *clause, const char *what)
{
    diag_error(r->diag, DIAG_SAID_TWICE, clause->span, "this dose gives %s twice", what);
}

/* One place of a tempo: seconds, or X. */
static const char *read_place(const char *text, int *seconds, bool *fast)
{
    *fast = toupper((unsigned char)*text) == 'X';
    *seconds = 0;
    if (*fast)
        return text + 2;
    while (isdigit((unsigned char)*text) && *seconds < 1000)
        *seconds = *seconds * 10 + (*text++ - '0');
    return text + 1;
}

static void read_tempo(struct resolver *r, const struct node *node, struct item_tempo *tempo)
{
    enum { LONGEST = 60 };
    const char *text = node->text;
    text = read_place(text, &tempo->lower, &tempo->lower_fast);
    text = read_place(text, &tempo->low_pause, &tempo->low_pause_fast);
    text = read_place(text, &tempo->lift, &tempo->lift_fast);
    read_place(text, &tempo->high_pause, &tempo->high_pause_fast);
    tempo->given = true;
    if (tempo->lower > LONGEST || tempo->low_pause > LONGEST || tempo->lift > LONGEST || tempo->high_pause > LONGEST)
        diag_error(r->diag, DIAG_BAD_TEMPO, node->span, "each figure of a tempo is at most 60 seconds");
}

/* Is the first figure of such a load its weight or its share, and not what is added to it? */
static bool starts_with_figure(enum load_word word)
{
    switch (word) {
    case LOAD_WORD_FIGURE: case LOAD_WORD_PIECES: case LOAD_WORD_SHARE_BODY: case LOAD_WORD_SHARE_REF:
    case LOAD_WORD_SHARE_TEST: return true;
    case LOAD_WORD_BODY: case LOAD_WORD_LAST: case LOAD_WORD_THING: break;
    }
    return false;
}

/* Offers VALUE with the units that can be meant: of masses those that the plan's gyms lead with. */
static void help_load_unit(struct resolver *r, struct finding *finding, milli value)
{
    bool leads[2] = {false, false};
    for (size_t i = 0; i < r->programme->gym_count; i++)
        leads[r->programme->gyms[i]->unit] = true;
    char text[MASS_TEXT_SIZE];
    const char *number = mass_format(mass_from(value, MASS_IN_KG), MASS_IN_KG, text);
    const char *masses = arena_printf(r->arena, "`%s %s`", number, leads[MASS_IN_LB] ? "lb" : "kg");
    if (leads[MASS_IN_KG] && leads[MASS_IN_LB])
        masses = arena_printf(r->arena, "`%s kg`, %s", number, masses);
    if (value <= 10000)
        diag_help(r->diag, finding, "write %s, `%s%%` or `RPE %s`, whichever is meant", masses, number, number);
    else
        diag_help(r->diag, finding, "write %s or `%s%%`, whichever is meant", masses, number);
}

static void read_load(struct resolver *r, const struct node *node, struct dose_load *load)
{
    const struct node *figure = node_find(node, NODE_FIGURE);
    const struct node *second = figure ? node_next_alike(figure) : NULL;
    const struct node *name = node_find(node, NODE_NAME), *ref = node_find(node, NODE_REF);
    bool share = starts_with_figure((enum load_word)node->code);
    *load = (struct dose_load){.given = true, .word = (enum load_word)node->code, .span = node->span,
                               .pieces = node->number ? (int)(node->number / 1000) : 1,
                               .figures = figures_read(r, share ? figure : NULL),
                               .extra = figures_read(r, share ? second : figure),
                               .thing = name ? resolver_name(r, name).shown : NULL,
                               .ref = ref ? ref->text : NULL};
    load->given = !(load->figures && load->figures->cut) && !(load->extra && load->extra->cut);
    if (load->pieces < 1 || load->pieces > 2) {
        diag_error(r->diag, DIAG_BAD_COUNT, node->span, "a load is held in one piece or two: `2 x 16 kg`");
        load->pieces = 1;
    }
    if (load->word == LOAD_WORD_FIGURE && load->figures->measure == MEASURE_NONE) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_UNIT, load->figures->span, "a load needs its unit");
        help_load_unit(r, finding, load->figures->values[0].low);
        load->given = false;
    }
}

static void read_effort(struct resolver *r, const struct node *node, struct dose_effort *effort)
{
    /* Nobody can judge more than ten in reserve, and a pulse has to be one that a heart can have. Common practice, no
     * source. */
    static const struct {
        milli low, high;
        const char *words;
    } bounds[] = {
        [EFFORT_WORD_RPE] = {1000, 10000, ""},
        [EFFORT_WORD_RESERVE] = {0, 10000, "reps in reserve are from 0 to 10"},
        [EFFORT_WORD_PULSE] = {30000, 250000, "a pulse is from 30 to 250 beats a minute"},
    };
    *effort = (struct dose_effort){.given = true, .word = (enum effort_word)node->code, .span = node->span,
                                   .figures = figures_read(r, node_find(node, NODE_FIGURE))};
    for (int i = 0; effort->figures && effort->given && i < effort->figures->count; i++) {
        const struct range *value = &effort->figures->values[i];
        effort->given = value->low >= bounds[effort->word].low && value->high <= bounds[effort->word].high &&
                        !effort->figures->max[i];
    }
    if (effort->given)
        return;
    if (effort->word == EFFORT_WORD_RPE)
        diag_error(r->diag, DIAG_BAD_RPE, effort->figures->span, "RPE is from 1 to 10");
    else
        diag_error(r->diag, DIAG_BAD_EFFORT, effort->figures->span, "%s", bounds[effort->word].words);
}

static bool is_count(const struct figures *figures)
{
    return figures->measure == MEASURE_NONE || figures->measure == MEASURE_SETS ||
           figures->measure == MEASURE_ROUNDS;
}

static bool is_load(const struct figures *figures)
{
    return figures->measure == MEASURE_KG || figures->measure == MEASURE_LB || figures->measure == MEASURE_PERCENT;
}

/* `3 x 5`, `2 x 3 x 2:00`: the counts before each x, then the amount. */
static const struct node *read_times(struct resolver *r, const struct node *amount, struct dose *dose)
{
    while (amount->number == 1 && amount->kind == NODE_AMOUNT) {
        struct node wrapper = {.kind = NODE_FIGURE, .span = amount->first->span, .first = amount->first,
                               .last = amount->first};
        struct figures *times = figures_read(r, &wrapper);
        if (dose->outer_times)
            diag_error(r->diag, DIAG_SAID_TWICE, amount->first->span, "more than two counts before a dose");
        dose->outer_times = dose->times;
        dose->times = times;
        amount = amount->last;
    }
    return amount;
}

/* A speed of the bar is what was measured, and so stands in a log alone. */
static void read_speed(struct resolver *r, const struct node *amount, struct figures *figures, struct dose *dose)
{
    bool log = amount->parent->parent->kind == NODE_LOGGED_SETS;
    if (!log)
        diag_help(r->diag, diag_error(r->diag, DIAG_WRONG_UNIT, amount->span, "a bar speed belongs only in a log"),
                  "give the effort of a plan as RPE or reps in reserve");
    else if (dose->speed)
        twice(r, amount, "a bar speed");
    else
        dose->speed = figures;
}

static void read_amount(struct resolver *r, const struct node *node, struct dose *dose)
{
    const struct node *amount = read_times(r, node, dose);
    const struct node *first = amount->first;
    struct figures *figures = figures_read(r, first->first);
    if (!first->next && is_count(figures) && figures->measure != MEASURE_NONE) {
        if (dose->sets)
            twice(r, node, "the sets");
        dose->sets = figures;
        return;
    }
    if (!first->next && !first->code && amount == node && figures->measure == MEASURE_METRE_A_SECOND) {
        read_speed(r, node, figures, dose);
        return;
    }
    if (dose->part_count && is_load(figures) && !first->next) {
        struct finding *finding = diag_error(r->diag, DIAG_MISSING_AT, node->span, "a load follows `@`");
        diag_fix(r->diag, finding, node->span, arena_printf(r->arena, "@ %s", resolver_written(r, node->span)));
        return;
    }
    if (dose->part_count) {
        struct finding *finding = diag_error(r->diag, DIAG_TWO_AMOUNTS, node->span, "this dose gives two amounts");
        diag_note(r->diag, finding, dose->parts[0].span, "the first is here");
        diag_help(r->diag, finding, "separate them: `+` joins the parts of one set, `@` comes before a load");
        return;
    }
    dose->hold = amount->code == 1;
    for (const struct node *part = first; part; part = part->next) {
        if (dose->part_count == MOST_PARTS) {
            diag_error(r->diag, DIAG_TOO_MANY_PARTS, part->span, "a set has at most %d parts", MOST_PARTS);
            return;
        }
        dose->parts[dose->part_count++] = (struct dose_part){
            .figures = part == first ? figures : figures_read(r, part->first),
            .side = (enum side_word)part->code,
            .span = part->span};
    }
}

static void read_single_figure(struct resolver *r, const struct node *clause, struct figures **slot,
                               const char *what)
{
    if (*slot)
        twice(r, clause, what);
    struct figures *figures = *slot = figures_read(r, clause->first);
    if (figures->list && clause->kind != NODE_WORK_UP)
        diag_help(r->diag, diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "%s is the same for all sets", what),
                  "write one time, a range, or `/` between the weeks");
}

/* How long a block goes on is said in the line of an `every`, or in a change of one. */
static void read_length(struct resolver *r, const struct node *clause, struct dose *dose)
{
    enum node_kind kind = clause->parent->parent->kind;
    if (kind == STATEMENT_EVERY || kind == STATEMENT_CHANGE)
        read_single_figure(r, clause, &dose->over, "a length");
    else
        diag_error(r->diag, DIAG_SYNTAX, clause->span, "only a block `every` goes on for a time");
}

static void read_clause(struct resolver *r, const struct node *clause, struct dose *dose)
{
    switch (clause->kind) {
    case NODE_AMOUNT: read_amount(r, clause, dose); break;
    case NODE_LOAD:
        if (dose->load.given)
            twice(r, clause, "a load");
        read_load(r, clause, &dose->load);
        break;
    case NODE_EFFORT:
        if (dose->effort.given)
            twice(r, clause, "an effort");
        read_effort(r, clause, &dose->effort);
        break;
    case NODE_TEMPO:
        if (dose->tempo.given)
            twice(r, clause, "a tempo");
        read_tempo(r, clause, &dose->tempo);
        break;
    case NODE_REST: read_single_figure(r, clause, &dose->rest, "a rest"); break;
    case NODE_BLOCK_REST: read_single_figure(r, clause, &dose->block_rest, "a rest between blocks"); break;
    case NODE_FOR_SPAN: read_length(r, clause, dose); break;
    case NODE_WITHIN_SPAN: read_single_figure(r, clause, &dose->within, "a time"); break;
    case NODE_WORK_UP: read_single_figure(r, clause, &dose->work_up, "a maximum"); break;
    case NODE_ON:
        diag_error(r->diag, DIAG_SYNTAX, clause->span, "a day does not fit here: a dose has the day of its session");
        break;
    default: /* NODE_ALTERNATING, the last that the grammar has */
        if (dose->alternates)
            twice(r, clause, "`alternating stances`");
        dose->alternates = true;
        dose->alternating = clause->span;
    }
}

static struct dose *read_one(struct resolver *r, const struct node *node)
{
    struct dose *dose = arena_alloc(r->arena, sizeof *dose);
    dose->span = node->span;
    for (const struct node *clause = node->first; clause; clause = clause->next)
        read_clause(r, clause, dose);
    return dose;
}

struct dose *dose_read(struct resolver *r, const struct node *node)
{
    if (node->kind != NODE_INTERVALS)
        return read_one(r, node);
    struct dose *first = NULL, **next = &first;
    for (const struct node *child = node->first; child; child = child->next) {
        *next = read_one(r, child);
        next = &(*next)->next;
    }
    return first;
}

/* Does DOSE's rest lie inside its set: between the repeats of `6 x 40 m`, between the parts of `2+2+2`? */
static bool rests_inside(const struct dose *dose)
{
    return dose->times || (dose->part_count > 1 && dose->parts[0].side == SIDE_WORD_NONE);
}

/* The pieces from PIECE on without a load: a new one takes its place in all of them. */
static struct dose *unloaded(struct resolver *r, const struct dose *piece)
{
    struct dose *first = NULL, **next = &first;
    for (; piece; piece = piece->next) {
        struct dose *copy = arena_alloc(r->arena, sizeof *copy);
        *copy = *piece;
        copy->load.given = copy->effort.given = false;
        *next = copy;
        next = &copy->next;
    }
    return first;
}

struct dose *dose_merge(struct resolver *r, const struct dose *base, const struct dose *change)
{
    struct dose *merged = arena_alloc(r->arena, sizeof *merged);
    if (base)
        *merged = *base;
    if (!change)
        return merged;
    merged->span = change->span;
    if (change->part_count && rests_inside(merged) && !rests_inside(change))
        merged->rest = NULL; /* it goes with the amount that it was part of */
    if (change->part_count) {
        memcpy(merged->parts, change->parts, sizeof merged->parts);
        merged->part_count = change->part_count;
        merged->hold = change->hold;
        merged->times = change->times;
        merged->outer_times = change->outer_times;
        merged->next = change->next;
        merged->work_up = NULL;
    }
    if (change->alternates || (change->part_count && change->parts[0].side != SIDE_WORD_NONE)) {
        merged->alternates = change->alternates; /* whoever names a side says how it is done now */
        merged->alternating = change->alternating;
    }
    if (change->sets)
        merged->sets = change->sets;
    if (change->load.given || change->effort.given) {
        if (!change->part_count && merged->next && (merged->load.given || !merged->effort.given))
            merged->next = unloaded(r, merged->next);
        merged->load = change->load;
        merged->effort = change->effort;
    }
    if (change->tempo.given)
        merged->tempo = change->tempo;
    if (change->rest)
        merged->rest = change->rest;
    if (change->block_rest)
        merged->block_rest = change->block_rest;
    if (change->over)
        merged->over = change->over;
    if (change->within)
        merged->within = change->within;
    if (change->work_up) {
        merged->work_up = change->work_up;
        merged->part_count = 0;
    }
    return merged;
}

void figures_report_unused(struct resolver *r, const struct figures *figures)
{
    if (!figures || !figures->series || figures->repeat_last || !figures->used || figures->used >= figures->count)
        return;
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_SERIES_TOO_LONG, figures->span,
                                          "this gives %d weeks, but the plan uses only %d of them", figures->count,
                                          figures->used);
    diag_help(r->diag, finding, "leave out the last %d, or place the session in more weeks",
              figures->count - figures->used);
}

void dose_report_unused(struct resolver *r, const struct dose *dose)
{
    if (!dose)
        return;
    for (int i = 0; i < dose->part_count; i++)
        figures_report_unused(r, dose->parts[i].figures);
    figures_report_unused(r, dose->sets);
    figures_report_unused(r, dose->times);
    figures_report_unused(r, dose->rest);
    figures_report_unused(r, dose->load.figures);
    figures_report_unused(r, dose->effort.figures);
}

void resolve_clock(struct resolver *r, const struct node *node, int *rounds, int *work, int *rest)
{
    enum { MOST_ROUNDS = 100 };
    struct dose *dose = dose_read(r, node);
    if (!dose->times || dose->part_count != 1 || dose->alternates) {
        diag_error(r->diag, DIAG_BAD_CLOCK, node->span, "a clock is written like `5 x 3:00 rest 1:00`");
        return;
    }
    struct range times = dose->times->values[0];
    if (times.low != times.high || times.low % 1000 || times.low < 1000 || times.low > MOST_ROUNDS * 1000) {
        diag_error(r->diag, DIAG_BAD_CLOCK, dose->times->span, "the rounds of a clock are a whole number from 1 to %d", MOST_ROUNDS);
        return;
    }
    *rounds = (int)(times.low / 1000);
    *work = figures_seconds(r, dose->parts[0].figures, dose->parts[0].figures->values[0].low);
    *rest = dose->rest ? figures_seconds(r, dose->rest, dose->rest->values[0].low) : 0;
}

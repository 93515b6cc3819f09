#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "resolve/local_time.h"
#include "resolve/whereabouts.h"

enum { MOST_OF_ONE = 999 };

/* The list of KIND in the gym, or NULL. */
static const struct node *find_list(struct resolver *r, const struct node *gym, enum node_kind kind)
{
    enum { MOST_ENTRIES = 200 };
    const struct node *statement = resolver_single(r, gym, kind);
    size_t entries = statement ? resolver_count(statement->first) : 0;
    if (entries <= MOST_ENTRIES)
        return statement;
    diag_error(r->diag, DIAG_TOO_MUCH_KIT, statement->span, "a list of kit has at most %d entries, and this one has %zu",
               MOST_ENTRIES, entries);
    return NULL;
}

/* One entry of a kit list, as written. */
struct kit_entry {
    const struct node *node;
    const struct node *name; /* or NULL */
    int count;               /* 1 where none is written */
    struct figures *figures, *step;
};

static struct kit_entry read_entry(struct resolver *r, const struct node *node)
{
    struct kit_entry entry = {.node = node, .name = node_find(node, NODE_NAME), .count = 1};
    const struct node *figure = node_find(node, NODE_FIGURE);
    entry.figures = figures_read(r, figure);
    entry.step = figures_read(r, figure ? node_next_alike(figure) : NULL);
    if (node->number) {
        entry.count = (int)(node->number / 1000);
        if (entry.count > MOST_OF_ONE)
            diag_error(r->diag, DIAG_BAD_COUNT, node->span, "how many there are is a whole number from 1 to 999");
        if (entry.count < 1 || entry.count > MOST_OF_ONE)
            entry.count = 1; /* what is not a whole number was reported when the line was read */
    }
    return entry;
}

/* The first unit from ENTRY of a list on. */
static enum measure measure_from(const struct node *entry)
{
    for (; entry; entry = entry->next)
        for (const struct node *figure = node_find(entry, NODE_FIGURE); figure; figure = node_next_alike(figure))
            if (figure->code)
                return (enum measure)figure->code;
    return MEASURE_NONE;
}

/* A unit follows the last of the figures that it is for: the next unit is meant, or after the last unit that one. */
static enum measure entry_measure(const struct node *statement, const struct node *entry)
{
    enum measure measure = measure_from(entry), last = MEASURE_NONE;
    for (const struct node *other = statement->first; other && measure == MEASURE_NONE; other = other->next)
        for (const struct node *figure = node_find(other, NODE_FIGURE); figure; figure = node_next_alike(figure))
            last = figure->code ? (enum measure)figure->code : last;
    return measure == MEASURE_NONE ? last : measure;
}

/* The unit of the gym's other lists, to be put behind a figure; NULL where they have both. */
static const char *unit_beside(const struct node *statement)
{
    bool kg = false, lb = false;
    for (const struct node *list = statement->parent->first; list; list = list->next) {
        enum measure measure = measure_from(list->first);
        kg |= measure == MEASURE_KG;
        lb |= measure == MEASURE_LB;
    }
    return kg && lb ? NULL : lb ? " lb" : " kg";
}

/* Does the list have a unit if it has figures? Reports, once, that it has none. */
static bool list_has_unit(struct resolver *r, const struct node *statement)
{
    const struct node *last = NULL;
    for (const struct node *entry = statement->first; entry; entry = entry->next)
        if (node_find(entry, NODE_FIGURE))
            last = node_find(entry, NODE_FIGURE);
    if (!last || measure_from(statement->first) != MEASURE_NONE)
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_NO_UNIT, last->span, "this list has no unit");
    struct span end = {last->span.file, last->span.end, last->span.end};
    const char *unit = unit_beside(statement);
    if (unit)
        diag_fix(r->diag, finding, end, unit);
    diag_help(r->diag, finding, "write `kg` or `lb` after the last figure");
    return false;
}

static mass entry_mass(struct resolver *r, struct figures *figures, enum measure measure)
{
    if (figures->measure == MEASURE_NONE)
        figures->measure = measure;
    if (figures->measure == MEASURE_NONE)
        return -1; /* see list_has_unit */
    if (!figures_is_one(figures)) {
        diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "one thing has one mass");
        return -1;
    }
    mass value = figures_mass(r, figures, 0);
    if (value == 0) {
        diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "nothing weighs 0");
        return -1;
    }
    return value;
}

static void add_disc(struct resolver *r, struct disc **discs, size_t *count, size_t *capacity, mass value,
                     int pieces)
{
    for (size_t i = 0; i < *count; i++) {
        if ((*discs)[i].mass == value) {
            (*discs)[i].count += pieces;
            return;
        }
    }
    *discs = arena_grow(r->arena, *discs, *count, capacity, sizeof **discs);
    (*discs)[(*count)++] = (struct disc){value, pieces};
}

/* `pairs 4-30 kg by 2`: every step from low to high. */
static void add_steps(struct resolver *r, const struct kit_entry *entry, enum measure measure, int pieces,
                      struct disc **discs, size_t *count, size_t *capacity)
{
    enum { MOST_STEPS = 200 };
    struct figures *range = entry->figures;
    if (range->measure == MEASURE_NONE)
        range->measure = measure;
    mass low = figures_mass(r, range, 0);
    struct figures top = *range;
    top.values = &(struct range){range->values[0].high, range->values[0].high};
    mass high = figures_mass(r, &top, 0);
    mass step = entry->step ? entry_mass(r, entry->step, measure) : 0;
    if (low == 0)
        diag_error(r->diag, DIAG_BAD_COUNT, range->span, "nothing weighs 0");
    if (low <= 0 || high < 0 || step < 0)
        return;
    if (low != high && step == 0) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_STEP, range->span, "a range of kit needs its steps");
        diag_help(r->diag, finding, measure == MEASURE_LB ? "write `by 5` after it, for every 5 lb"
                                                          : "write `by 2` after it, for every 2 kg");
        return;
    }
    if (step && (high - low) / step > MOST_STEPS) {
        diag_error(r->diag, DIAG_BAD_COUNT, range->span, "this is more than %d different weights", MOST_STEPS);
        return;
    }
    for (mass value = low; value <= high; value += step ? step : high + 1)
        add_disc(r, discs, count, capacity, value, pieces);
}

static int heavier_first(const void *left, const void *right)
{
    const struct disc *a = left, *b = right;
    return a->mass < b->mass ? 1 : a->mass > b->mass ? -1 : 0;
}

/* A list of things that differ only by mass. PAIRS doubles the count where `pairs` is written. */
static void read_discs(struct resolver *r, const struct node *gym, enum node_kind kind, struct disc **discs,
                       size_t *count)
{
    size_t capacity = 0;
    *discs = NULL;
    *count = 0;
    const struct node *statement = find_list(r, gym, kind);
    if (!statement)
        return;
    if (!list_has_unit(r, statement))
        return;
    for (const struct node *node = statement->first; node; node = node->next) {
        struct kit_entry entry = read_entry(r, node);
        if (!entry.figures || entry.name) {
            diag_error(r->diag, DIAG_NO_MASS, node->span, "each of these is named by its mass: `4 x 25 kg`");
            continue;
        }
        add_steps(r, &entry, entry_measure(statement, node), entry.count * (node->code == 1 ? 2 : 1), discs, count, &capacity);
    }
    if (*count > 1)
        qsort(*discs, *count, sizeof **discs, heavier_first);
}

static void add_bar(struct resolver *r, struct gym *gym, size_t *capacity, struct name name, mass value,
                    int count)
{
    gym->bars = arena_grow(r->arena, gym->bars, gym->bar_count, capacity, sizeof *gym->bars);
    gym->bars[gym->bar_count++] = (struct kit){.name = name, .mass = value, .count = count};
}

static void read_bars(struct resolver *r, const struct node *node, struct gym *gym)
{
    size_t capacity = 0;
    const struct node *statement = find_list(r, node, STATEMENT_BARBELLS);
    if (statement && !list_has_unit(r, statement))
        statement = NULL;
    for (const struct node *child = statement ? statement->first : NULL; child; child = child->next) {
        struct kit_entry entry = read_entry(r, child);
        mass value = entry.figures ? entry_mass(r, entry.figures, entry_measure(statement, child)) : -1;
        if (!entry.figures || entry.name)
            diag_error(r->diag, DIAG_NO_MASS, child->span, "a barbell is named by its mass: `3 x 20 kg`");
        else if (value > 0)
            add_bar(r, gym, &capacity, (struct name){"barbell", "barbell", child->span}, value, entry.count);
    }
    statement = find_list(r, node, STATEMENT_BARS);
    if (statement && !list_has_unit(r, statement))
        statement = NULL;
    for (const struct node *child = statement ? statement->first : NULL; child; child = child->next) {
        struct kit_entry entry = read_entry(r, child);
        if (!entry.figures || !entry.name) {
            diag_error(r->diag, DIAG_NO_MASS, child->span, "a bar has a name and a mass: `trap bar 25 kg`");
            continue;
        }
        mass value = entry_mass(r, entry.figures, entry_measure(statement, child));
        if (value > 0)
            add_bar(r, gym, &capacity, resolver_name(r, entry.name), value, entry.count);
    }
}

static void read_others(struct resolver *r, const struct node *node, enum node_kind kind, struct gym *gym,
                        size_t *capacity)
{
    const struct node *statement = find_list(r, node, kind);
    for (const struct node *child = statement ? statement->first : NULL; child; child = child->next) {
        struct kit_entry entry = read_entry(r, child);
        if (!entry.name) {
            diag_error(r->diag, DIAG_NO_NAME, child->span, "this needs a name: `2 x rack`");
            continue;
        }
        struct kit kit = {.name = resolver_name(r, entry.name), .count = entry.count};
        if (kind == STATEMENT_BANDS && !strstr(kit.name.folded, "band")) {
            kit.name.shown = arena_printf(r->arena, "%s band", kit.name.shown);
            kit.name.folded = arena_printf(r->arena, "%s band", kit.name.folded);
        }
        gym->others = arena_grow(r->arena, gym->others, gym->other_count, capacity, sizeof *gym->others);
        gym->others[gym->other_count++] = kit;
    }
}

/* `5, 3, 2 @ 40, 60, 80%` as the steps of GYM's warm-up: as many reps as shares, which rise and stay below 100 %. */
static bool read_steps(struct resolver *r, const struct node *dose, struct gym *gym)
{
    const struct node *amount = dose->kind == NODE_DOSE ? node_find(dose, NODE_AMOUNT) : NULL;
    const struct node *load = amount ? node_find(dose, NODE_LOAD) : NULL;
    if (!load || load->code != LOAD_WORD_FIGURE || dose->first != amount || amount->next != load || load->next ||
        amount->number || amount->first->next || amount->first->code)
        return false;
    const struct figures *reps = figures_read(r, amount->first->first), *shares = figures_read(r, load->first);
    bool counted = reps->measure == MEASURE_NONE || reps->measure == MEASURE_REPS;
    if (!counted || shares->measure != MEASURE_PERCENT || reps->series || shares->series ||
        reps->count != shares->count || reps->count > RAMP_STEPS)
        return false;
    milli before = 0;
    for (int i = 0; i < reps->count; i++) {
        struct range times = reps->values[i], share = shares->values[i];
        if (reps->max[i] || times.low != times.high || times.low % 1000 || times.low <= 0 || times.low > 20000 ||
            share.low != share.high || share.low <= before || share.low >= 100000)
            return false;
        before = share.low;
        gym->ramp[i] = (struct ramp_wish){share.low, (int)(times.low / 1000)};
    }
    gym->ramp_count = reps->count;
    return true;
}

static void read_ramp(struct resolver *r, const struct node *node, struct gym *gym)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_WARM_UP);
    if (!statement || read_steps(r, statement->first, gym))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_WARM_UP, statement->first->span,
                                         "a warm-up is up to %d sets, their reps and the shares of the load, rising",
                                         RAMP_STEPS);
    diag_help(r->diag, finding, "write it like `warm up 5, 3, 2, 1 @ 40, 60, 75, 85%%`");
}

/* --- the unit that leads --- */

/* How many of the gym's weighed things are marked in each unit. */
static void count_discs(const struct disc *discs, size_t count, size_t marked[2])
{
    for (size_t i = 0; i < count; i++)
        marked[mass_written_in(discs[i].mass)]++;
}

static enum mass_unit unit_of_kit(const struct gym *gym)
{
    size_t marked[2] = {0, 0};
    for (size_t i = 0; i < gym->bar_count; i++)
        marked[mass_written_in(gym->bars[i].mass)]++;
    count_discs(gym->discs, gym->disc_count, marked);
    count_discs(gym->dumbbells, gym->dumbbell_count, marked);
    count_discs(gym->kettlebells, gym->kettlebell_count, marked);
    count_discs(gym->balls, gym->ball_count, marked);
    return marked[MASS_IN_LB] && !marked[MASS_IN_KG] ? MASS_IN_LB : MASS_IN_KG;
}

/* `unit lb`; a gym whose kit is all in pounds need not say it. */
static void read_unit(struct resolver *r, const struct node *node, struct gym *gym)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_UNIT);
    size_t discs[2] = {0, 0};
    gym->unit = unit_of_kit(gym);
    count_discs(gym->discs, gym->disc_count, discs);
    gym->both_units = discs[MASS_IN_KG] && discs[MASS_IN_LB];
    if (!statement)
        return;
    const char *word = resolver_fold(r, statement->first);
    if (strcmp(word, "lb") == 0 || strcmp(word, "kg") == 0)
        gym->unit = strcmp(word, "lb") == 0 ? MASS_IN_LB : MASS_IN_KG;
    else
        diag_help(r->diag,
                  diag_error(r->diag, DIAG_UNKNOWN_WORD, statement->first->span, "a gym's masses are in kg or in lb"),
                  "write `unit lb` or `unit kg`");
}

/* The time that the statement of KIND gives, or USUAL if there is none. */
static int read_time(struct resolver *r, const struct node *node, enum node_kind kind, int usual)
{
    enum { LONGEST = 600 };
    const struct node *statement = resolver_single(r, node, kind);
    if (!statement)
        return usual;
    int seconds = figures_time_of(r, statement->first);
    if (seconds <= LONGEST)
        return seconds;
    diag_error(r->diag, DIAG_BAD_TIME, statement->first->span, "two turns at one piece of kit are at most ten minutes apart");
    return usual;
}

/* How long kit takes from one athlete to the next; common practice, no source, unless the gym says. */
static void read_changes(struct resolver *r, const struct node *node, struct gym *gym)
{
    enum { USUAL_BETWEEN = 20, USUAL_DISC = 8 };
    gym->between_athletes = read_time(r, node, STATEMENT_BETWEEN_ATHLETES, USUAL_BETWEEN);
    gym->plate_change = read_time(r, node, STATEMENT_PLATE_CHANGE, USUAL_DISC);
}

void resolve_gym(struct resolver *r, const struct node *node, struct gym *gym)
{
    size_t errors = resolver_errors(r);
    read_bars(r, node, gym);
    read_discs(r, node, STATEMENT_PLATES, &gym->discs, &gym->disc_count);
    read_discs(r, node, STATEMENT_DUMBBELLS, &gym->dumbbells, &gym->dumbbell_count);
    read_discs(r, node, STATEMENT_KETTLEBELLS, &gym->kettlebells, &gym->kettlebell_count);
    read_discs(r, node, STATEMENT_BALLS, &gym->balls, &gym->ball_count);
    struct disc *collars;
    size_t collar_count;
    read_discs(r, node, STATEMENT_COLLARS, &collars, &collar_count);
    gym->collar = collar_count ? collars[0].mass : 0;
    gym->zone = gym_zone_read(r, node);
    gym->language = resolver_language(r, node);
    resolve_closures(r, node, gym);
    read_unit(r, node, gym);
    read_ramp(r, node, gym);
    read_changes(r, node, gym);
    size_t capacity = 0;
    read_others(r, node, STATEMENT_BANDS, gym, &capacity);
    read_others(r, node, STATEMENT_STATIONS, gym, &capacity);
    read_others(r, node, STATEMENT_OTHER_KIT, gym, &capacity);
    if (gym_prepare(r->arena, gym) != PLATE_OK)
        diag_error(r->diag, DIAG_TOO_MUCH_KIT, gym->name.span,
                   "these plates make too many different loads to work out; leave out the odd ones");
    if (node_is_broken(node) || resolver_errors(r) > errors)
        resolver_poison(r, gym, node->span); /* what it seems to lack may be in the line that was not understood */
}

/* --- names --- */

/* Is CANDIDATE most likely what NAME was meant to be: `squat rack` the rack, `pull up bar` the pull-up bar, `ropes` the
 * rope? */
static bool means(const char *name, const char *candidate)
{
    size_t length = strlen(name), tail = strlen(candidate);
    if (length > tail && name[length - tail - 1] == ' ' && strcmp(name + length - tail, candidate) == 0)
        return true;
    if (length == tail + 1 && name[tail] == 's' && strncmp(name, candidate, tail) == 0)
        return true;
    enum { LONG_ENOUGH = 6 }; /* `ring` and `rings` are two things */
    return length >= LONG_ENOUGH && text_distance(name, candidate, 1) <= 1;
}

/* What some exercise needs and NAME most likely means, or NULL; also NULL if some exercise needs NAME itself. */
static const char *meant_kit(struct resolver *r, const struct gym *gym, const char *name)
{
    enum { MOST_COMPARED = 500000 }; /* beyond, as in names_nearest */
    if (names_find(r->kit, name) || r->kit_compared > MOST_COMPARED)
        return NULL;
    r->kit_compared += r->needed_count;
    for (size_t i = 0; i < r->needed_count; i++)
        if (means(name, r->needed[i]) && gym_count(gym, r->needed[i]) == 0)
            return r->needed[i];
    return NULL;
}

void gym_check_names(struct resolver *r, const struct gym *gym)
{
    for (size_t i = 0; i < gym->other_count; i++) {
        const struct name *name = &gym->others[i].name;
        const char *meant = meant_kit(r, gym, name->folded);
        if (!meant)
            continue;
        struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_UNKNOWN_KIT, name->span,
                                              "no exercise needs `%s`", name->shown);
        diag_help(r->diag, finding, "did you mean `%s`?", meant);
        diag_fix(r->diag, finding, name->span, meant);
    }
}

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "figures/onerm.h"
#include "measure/avoid.h"
#include "model/programme.h"
#include "resolve/local_time.h"
#include "resolve/resolver.h"
#include "source/span_order.h"

static int date_of(const struct node *statement)
{
    return statement ? (int)node_find(statement, statement->first->kind)->number : 0;
}

static void unknown_stance(struct resolver *r, const struct node *name, const char *folded)
{
    static const char *const stances[] = {"orthodox", "southpaw"};
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span, "a stance is orthodox or southpaw");
    for (size_t i = 0; i < sizeof stances / sizeof *stances; i++)
        if (text_distance(folded, stances[i], 3) <= 3)
            diag_fix(r->diag, finding, name->span, stances[i]);
}

static void read_stance(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_STANCE);
    if (!statement)
        return;
    const char *folded = resolver_fold(r, statement->first);
    if (strcmp(folded, "orthodox") == 0)
        athlete->stance = STANCE_ORTHODOX;
    else if (strcmp(folded, "southpaw") == 0)
        athlete->stance = STANCE_SOUTHPAW;
    else
        unknown_stance(r, statement->first, folded);
    if (athlete->stance == STANCE_UNKNOWN)
        resolver_poison(r, &athlete->stance, statement->span);
}

static void read_level(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    const struct node *since = resolver_single(r, node, STATEMENT_LIFTING_SINCE);
    if (since)
        athlete->lifting_since = date_of(since);
    const struct node *age = resolver_single(r, node, STATEMENT_LIFTING_AGE);
    int level = age ? resolver_word(r, age->first, &levels) : -1;
    if (level >= 0) {
        athlete->level = (enum level)level;
        athlete->level_given = true;
    }
}

static void read_masses(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    enum { MOST_MASSES = 5000 };
    size_t capacity = arena_room(athlete->mass_count);
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind != STATEMENT_BODY_MASS)
            continue;
        struct figures *figures = figures_read(r, child->first);
        mass value = figures_mass(r, figures, 0);
        if (value < 0)
            continue;
        if (value == 0 || !figures_is_one(figures)) {
            diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "a body mass is one figure above 0, as the scales showed it");
            continue;
        }
        if (resolver_is_full(r, &athlete->masses, athlete->mass_count, MOST_MASSES, child->span, "an athlete", "body masses"))
            break;
        athlete->masses = arena_grow(r->arena, athlete->masses, athlete->mass_count, &capacity,
                                     sizeof *athlete->masses);
        athlete->masses[athlete->mass_count++] =
            (struct body_mass){.mass = value, .date = (int)child->last->number,
                               .private = node->kind == STATEMENT_PRIVATE};
    }
}

/* Does DOSE say anything but AMOUNT, LOAD and ON? */
static bool says_more(const struct node *dose, const struct node *amount, const struct node *load, const struct node *on)
{
    for (const struct node *clause = dose->first; clause; clause = clause->next)
        if (clause != amount && clause != load && clause != on)
            return true;
    return amount->first->next || amount->first->code || amount->code;
}

/* What a line below `bests` or `tests` gives of a lift: reps @ mass on date. */
static bool read_best(struct resolver *r, const struct node *line, enum onerm_equation equation,
                      struct best *best)
{
    const struct node *dose = node_find(line, NODE_DOSE);
    const struct node *amount = dose ? node_find(dose, NODE_AMOUNT) : NULL;
    const struct node *load = dose ? node_find(dose, NODE_LOAD) : NULL;
    const struct node *on = dose ? node_find(dose, NODE_ON) : NULL;
    if (!dose && resolver_missing_colon(r, line->first, r->exercises, "the exercise and its best"))
        return false;
    int day = results_day(line);
    if (!amount || !load || (!on == !day) || amount->number || load->code != LOAD_WORD_FIGURE || says_more(dose, amount, load, on)) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_BEST, line->span,
                                             "a best is reps, load and day");
        diag_help(r->diag, finding, "write it like `%s : 1 @ 92.5 kg%s`", line->first->text, day ? "" : " on 2027-01-05");
        return false;
    }
    best->exercise = resolver_find(r, line->first, "exercise", r->exercises);
    struct figures *reps = figures_read(r, amount->first->first), *lifted = figures_read(r, load->first);
    if (!figures_is_one(reps) || !figures_is_one(lifted)) {
        diag_error(r->diag, DIAG_BAD_BEST, dose->span, "a best is one set: so many reps with one load");
        return false;
    }
    best->reps = reps->values[0].low;
    best->load = figures_mass(r, lifted, 0);
    best->date = on ? (int)on->number : day;
    best->span = line->span;
    best->estimated = best->reps > 1000;
    if (!best->exercise || best->load < 0)
        return false;
    enum onerm_status status = best->reps % 1000
                                   ? ONERM_REFUSED
                                   : onerm_estimate(equation, best->load, (int)(best->reps / 1000), &best->one_max);
    if (status == ONERM_REFUSED)
        diag_error(r->diag, DIAG_BAD_BEST, amount->span, "no maximum can be worked out from this many reps");
    else if (status == ONERM_OUTSIDE)
        diag_report(r->diag, SEVERITY_WARNING, DIAG_FAR_ESTIMATE, amount->span,
                    "a maximum worked out from more than %d reps is a rough guess", ONERM_REPS_MOST);
    return status != ONERM_REFUSED;
}

static int later_first(const void *left, const void *right)
{
    const struct best *a = left, *b = right;
    return a->date != b->date ? (a->date > b->date ? -1 : 1) : span_order(a->span, b->span);
}

/* The lines below `bests` and `tests` of one block of an athlete, which are read alike. */
struct results {
    struct resolver *r;
    struct athlete *athlete;
    enum onerm_equation equation;
    bool private;
    size_t best_capacity, result_capacity;
};

/* A lift. One that is itself a test, and was lifted once, is a result of it too. */
static void read_lift(struct results *results, const struct node *line)
{
    enum { MOST_BESTS = 1000 };
    struct resolver *r = results->r;
    struct athlete *athlete = results->athlete;
    struct best best = {.equation = (int)results->equation, .private = results->private};
    if (!read_best(r, line, results->equation, &best) ||
        resolver_is_full(r, &athlete->bests, athlete->best_count, MOST_BESTS, line->span, "an athlete", "bests"))
        return;
    athlete->bests = arena_grow(r->arena, athlete->bests, athlete->best_count, &results->best_capacity,
                                sizeof *athlete->bests);
    athlete->bests[athlete->best_count++] = best;
    const struct test *test = names_find(r->tests, best.exercise->name.folded);
    struct test_result result;
    if (test && best_as_result(r, &best, test, &result))
        keep_result(r, athlete, &result, &results->result_capacity);
}

/* One result, of a lift or of a test: a lift has a load. */
static void read_line(struct results *results, const struct node *line)
{
    struct resolver *r = results->r;
    const struct node *dose = node_find(line, NODE_DOSE);
    const char *folded = resolver_fold(r, line->first);
    const struct test *test = names_find(r->tests, folded);
    bool lift = (dose && node_find(dose, NODE_LOAD)) || (!test && names_find(r->exercises, folded));
    if (!dose && !lift && resolver_missing_colon(r, line->first, r->tests, "the test and its result"))
        return;
    if (lift || (!test && line->parent->kind == STATEMENT_BESTS)) {
        read_lift(results, line);
        return;
    }
    struct test_result result;
    if (!test)
        resolver_unknown(r, line->first, "test", r->tests);
    else if (read_outcome(r, line, test, &result)) {
        result.private = results->private;
        keep_result(r, results->athlete, &result, &results->result_capacity);
    }
}

static struct results results_of(struct resolver *r, const struct node *node, struct athlete *athlete,
                                 enum onerm_equation equation)
{
    return (struct results){.r = r, .athlete = athlete, .equation = equation,
                            .private = node->kind == STATEMENT_PRIVATE || diag_is_private(r->diag, node->span),
                            .best_capacity = arena_room(athlete->best_count),
                            .result_capacity = arena_room(athlete->result_count)};
}

/* The lines of BLOCK; false if one is wrong. */
static bool read_block(struct results *results, const struct node *block)
{
    struct resolver *r = results->r;
    resolver_filled(r, block);
    size_t errors = resolver_errors(r);
    for (const struct node *line = block->first; line; line = line->next)
        if (line->kind == STATEMENT_BEST)
            read_line(results, line);
    return !node_is_broken(block) && resolver_errors(r) == errors;
}

void resolve_results(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    struct results results = results_of(r, node, athlete, (enum onerm_equation)athlete->equation);
    if (!read_block(&results, node))
        resolver_poison(r, athlete, node->span);
}

static void read_bests(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    enum onerm_equation equation = ONERM_EPLEY;
    const struct node *estimate = resolver_single(r, node, STATEMENT_ESTIMATE);
    if (estimate && !onerm_from_name(resolver_fold(r, estimate->first), &equation)) {
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, estimate->first->span,
                                             "there is no equation called `%s`", estimate->first->text);
        diag_help(r->diag, finding, "epley, brzycki, lombardi, mayhew, oconner, wathen or lander");
    }
    if (estimate)
        athlete->equation = (int)equation;
    static const enum node_kind blocks[] = {STATEMENT_BESTS, STATEMENT_TESTS};
    struct results results = results_of(r, node, athlete, equation);
    bool broken = node_is_broken(node);
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++) {
        const struct node *block = resolver_single(r, node, blocks[i]);
        if (block)
            broken |= !read_block(&results, block);
    }
    if (broken)
        resolver_poison(r, athlete, node->span);
}

/* --- restrictions --- */

static void nearer(const char *folded, const char *name, unsigned *least, const char **near)
{
    unsigned distance = text_distance(folded, name, 3);
    if (distance < *least) {
        *least = distance;
        *near = name;
    }
}

/* The nearest pattern, region, joint, kind or position, or else the nearest exercise. */
static const char *nearest_avoided(struct resolver *r, const char *folded)
{
    const struct vocabulary *const words[] = {&regions, &joints, &patterns, &exercise_kinds};
    const char *near = NULL;
    unsigned least = strlen(folded) < 6 ? 2 : 3;
    for (size_t w = 0; w < sizeof words / sizeof *words; w++)
        for (size_t i = 0; i < words[w]->count; i++)
            nearer(folded, words[w]->names[i], &least, &near);
    for (size_t i = 0; i < r->programme->exercise_count; i++)
        for (size_t k = 0; k < r->programme->exercises[i]->position_count; k++)
            nearer(folded, r->programme->exercises[i]->positions[k], &least, &near);
    near = near ? near : nearest_joint(r, folded);
    return near ? near : names_nearest(r->exercises, folded);
}

/* Which of the things that can be avoided NODE names. */
static bool read_avoided(struct resolver *r, const struct node *node, struct avoid *avoid)
{
    const char *folded = resolver_fold(r, node);
    avoid->shown = node->text;
    avoid->pattern = avoid->region = avoid->kind = avoid->joint = avoid->demand = -1;
    avoid->exercise = names_find(r->exercises, folded);
    if (avoid->exercise || read_avoided_joint(r, node, folded, avoid))
        return true; /* a word for a region and a pattern means the region, which includes more */
    avoid->pattern = vocabulary_find(&patterns, folded);
    avoid->kind = vocabulary_find(&exercise_kinds, folded);
    avoid->all_out = strcmp(folded, "all-out") == 0;
    avoid->position = names_find(r->positions, folded) ? folded : NULL;
    if (strcmp(folded, demands.names[DEMAND_OVERHEAD]) == 0)
        avoid->demand = DEMAND_OVERHEAD; /* of whichever joint */
    if (avoid->pattern >= 0 || avoid->kind >= 0 || avoid->all_out || avoid->position || avoid->demand >= 0)
        return true;
    struct finding *finding = diag_error(
        r->diag, DIAG_UNKNOWN_AVOID, node->span,
        "`%s` is not an exercise, pattern, body region, joint, kind, position or effort", node->text);
    const char *near = nearest_avoided(r, folded);
    if (near) {
        diag_help(r->diag, finding, "did you mean `%s`?", near);
        diag_fix(r->diag, finding, node->span, near);
    }
    return false;
}

/* `can do landmine press, all pulling`. */
static void read_can_do(struct resolver *r, const struct node *statement, struct avoid *avoid)
{
    size_t capacity = 0;
    for (const struct node *name = statement ? statement->first : NULL; name; name = name->next) {
        const char *folded = resolver_fold(r, name);
        if (strncmp(folded, "all ", 4) == 0) {
            const char *word = folded + 4;
            size_t length = strlen(word);
            bool ing = length > 3 && strcmp(word + length - 3, "ing") == 0;
            int pattern = vocabulary_find(&patterns, word);
            const char *stem = ing ? arena_copy(r->arena, word, length - 3) : word;
            if (pattern < 0)
                pattern = vocabulary_find(&patterns, stem);
            if (pattern < 0) /* `all hinging` */
                pattern = vocabulary_find(&patterns, arena_printf(r->arena, "%se", stem));
            if (pattern >= 0)
                avoid->can_do_patterns |= 1u << pattern;
            else
                diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span, "`%s` does not name a pattern", name->text);
            continue;
        }
        const struct exercise *exercise = resolver_find(r, name, "exercise", r->exercises);
        if (!exercise)
            continue;
        avoid->can_do = arena_grow(r->arena, avoid->can_do, avoid->can_do_count, &capacity,
                                   sizeof *avoid->can_do);
        avoid->can_do[avoid->can_do_count++] = exercise;
    }
}

/* A private file repeats a restriction to keep its reason, and leaves what it rules out to the plan. BEFORE are the COUNT
 * restrictions that stand above NODE. */
static bool only_gives_reason(const struct node *node, const struct avoid *avoid, const struct avoid *before,
                              size_t count)
{
    if (!node_find(node, STATEMENT_BECAUSE) || avoid->review || avoid->can_do_count || avoid->can_do_patterns ||
        avoid->instead || avoid->ended_by)
        return false;
    for (size_t i = 0; i < count; i++) {
        const struct avoid *other = &before[i];
        bool same_position = avoid->position && other->position ? strcmp(avoid->position, other->position) == 0
                                                                : avoid->position == other->position;
        if (other->exercise == avoid->exercise && other->pattern == avoid->pattern && other->region == avoid->region &&
            other->kind == avoid->kind && other->all_out == avoid->all_out && other->joint == avoid->joint &&
            other->demand == avoid->demand && other->sides == avoid->sides && same_position)
            return true;
    }
    return false;
}

/* What takes the place of something barred must not be barred by the same line. */
static void report_instead_barred(struct resolver *r, const struct node *instead, const struct avoid *avoid)
{
    struct finding *finding = diag_error(r->diag, DIAG_INSTEAD_BARRED, instead->first->span,
                                         "%s takes the place of what is avoided, but `avoid %s` bars it too",
                                         avoid->instead->name.shown, avoid->shown);
    diag_help(r->diag, finding, "name another exercise, or say that this one stays allowed: `can do %s`",
              avoid->instead->name.shown);
}

/* From when a restriction stands that does not say so: what was done before it was written down was no breach. */
static int first_open_day(const struct resolver *r)
{
    return r->closed ? r->closed + 1 : r->today;
}

static struct avoid read_avoid_shared(struct resolver *r, const struct node *node)
{
    struct avoid shared = {.span = node->span, .private = node->parent->kind == STATEMENT_PRIVATE};
    const struct node *since = resolver_single(r, node, STATEMENT_AVOID_SINCE);
    shared.since = since ? date_of(since) : first_open_day(r);
    shared.expected = date_of(resolver_single(r, node, STATEMENT_EXPECTED_UNTIL));
    shared.review = date_of(resolver_single(r, node, STATEMENT_REVIEW_ON));
    read_can_do(r, resolver_single(r, node, STATEMENT_CAN_DO), &shared);
    const struct node *instead = resolver_single(r, node, STATEMENT_INSTEAD_DO);
    if (instead)
        shared.instead = resolver_find(r, instead->first, "exercise", r->exercises);
    const struct node *ended = resolver_single(r, node, STATEMENT_ENDED_BY);
    if (ended) {
        shared.ended_by = ended->first->text;
        shared.ended = (int)ended->last->first->number;
        if (r->today && shared.ended > r->today) {
            diag_error(r->diag, DIAG_FUTURE_ENTRY, ended->span, "an end on a day in the future does not count");
            shared.ended = 0;
        }
    }
    return shared;
}

static void read_avoid(struct resolver *r, const struct node *node, struct athlete *athlete,
                       size_t *capacity)
{
    const struct avoid shared = read_avoid_shared(r, node);
    const struct node *instead = node_find(node, STATEMENT_INSTEAD_DO);
    const struct avoid *before = athlete->avoids; /* the list may move as it grows; these stay where they are */
    const size_t before_count = athlete->avoid_count;
    struct avoid *avoids = (struct avoid *)athlete->avoids;
    for (const struct node *name = node_find(node, NODE_NAME); name; name = node_next_alike(name)) {
        struct avoid avoid = shared;
        if (!read_avoided(r, name, &avoid) || only_gives_reason(node, &avoid, before, before_count))
            continue;
        if (resolver_is_full(r, &athlete->avoids, athlete->avoid_count, MOST_BARRED, name->span, "an athlete", "restrictions"))
            break;
        if (avoid.instead && avoid_bars(&avoid, avoid.instead))
            report_instead_barred(r, instead, &avoid);
        avoids = arena_grow(r->arena, avoids, athlete->avoid_count, capacity, sizeof *avoids);
        avoids[athlete->avoid_count++] = avoid;
    }
    athlete->avoids = avoids;
}

/* `age group under 18`. */
static void read_age_group(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    const struct node *group = resolver_single(r, node, STATEMENT_AGE_GROUP);
    if (!group)
        return;
    const char *folded = resolver_fold(r, group->first);
    const char *digits = strncmp(folded, "under ", 6) == 0 ? folded + 6 : "";
    size_t length = strlen(digits);
    if (length > 0 && length < 3 && strspn(digits, "0123456789") == length && atoi(digits) > 0) {
        athlete->under_age = atoi(digits);
        athlete->under_span = group->span;
        return;
    }
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, group->first->span,
                                         "an age group is an age that the athlete has not reached");
    diag_help(r->diag, finding, "write it like `under 18`");
}

/* What limits are chosen by is in the plan, or a copy without the private file would apply others. */
static void check_shared(struct resolver *r, const struct node *node, const struct athlete *athlete)
{
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind != STATEMENT_AGE_GROUP && child->kind != STATEMENT_LIFTING_SINCE &&
            child->kind != STATEMENT_LIFTING_AGE && child->kind != STATEMENT_ZONE_DAYS)
            continue;
        struct finding *finding = diag_error(r->diag, DIAG_MUST_BE_SHARED, child->span,
                                             "limits depend on this line, so it belongs in the plan, where everybody "
                                             "can see it");
        diag_help(r->diag, finding, "move it below `athlete %s`", athlete->name.shown);
    }
}

/* `called Lua`: on a wall two of one name would lift each other's loads. */
static void read_called(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    const struct node *called = resolver_single(r, node, STATEMENT_CALLED);
    if (!called)
        return;
    struct name *name = arena_alloc(r->arena, sizeof *name);
    *name = resolver_name(r, called->first);
    const struct athlete *other = names_find(r->athletes, name->folded);
    resolver_report_comma(r, name, "athlete");
    if (node->kind == STATEMENT_PRIVATE) {
        diag_error(r->diag, DIAG_MUST_BE_SHARED, called->span, "what hangs on the wall is not secret: write it in the "
                                                               "plan");
        return;
    }
    bool taken = other && other != athlete;
    if (taken || names_add(r->called, name, athlete)) {
        struct span first = taken ? other->name.span : names_declared(r->called, name->folded)->span;
        struct finding *finding = diag_error(r->diag, DIAG_CALLED_TWICE, called->span, "somebody else is called `%s`",
                                             name->shown);
        diag_note(r->diag, finding, first, "here");
        diag_help(r->diag, finding, "add something that tells the two apart: `called %s B`", name->shown);
        return;
    }
    const struct name *alike = resolver_find_alike(r, r->athletes, name, athlete, "athlete");
    if (!alike)
        alike = resolver_find_alike(r, r->called, name, athlete, "athlete");
    if (alike)
        resolver_report_alike(r, name, alike, "athlete");
    athlete->called = name->shown;
}

void resolve_athlete(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    read_called(r, node, athlete);
    const struct node *born = resolver_single(r, node, STATEMENT_BORN);
    if (born && node->kind == STATEMENT_PRIVATE) {
        athlete->born_private = date_of(born);
        athlete->born_span = born->span;
    } else if (born)
        athlete->born = date_of(born);
    if (born && r->today && date_of(born) > r->today)
        diag_error(r->diag, DIAG_FUTURE_ENTRY, born->span, "nobody is born in the future");
    if (node->kind == STATEMENT_PRIVATE)
        check_shared(r, node, athlete);
    read_age_group(r, node, athlete);
    read_stance(r, node, athlete);
    read_level(r, node, athlete);
    read_masses(r, node, athlete);
    read_bests(r, node, athlete);
    const struct node *gym = resolver_single(r, node, STATEMENT_TRAINS_AT);
    if (gym)
        athlete->gym = resolver_find(r, gym->first, "gym", r->gyms);
    const struct node *print = resolver_single(r, node, STATEMENT_PRINT);
    if (print && strcmp(resolver_fold(r, print->first), "pounds too") == 0)
        athlete->pounds = true;
    else if (print)
        diag_error(r->diag, DIAG_UNKNOWN_WORD, print->first->span, "write `print pounds too`, or `print in` and a language");
    athlete->language = resolver_language(r, node);
    size_t avoids = arena_room(athlete->avoid_count);
    for (const struct node *child = node->first; child; child = child->next)
        if (child->kind == STATEMENT_AVOID)
            read_avoid(r, child, athlete, &avoids);
    if (node->kind == STATEMENT_ATHLETE) {
        zone_days_read(r, node, &athlete->zone_days, &athlete->zone_day_count);
        zone_days_check(r, athlete->zone_days, athlete->zone_day_count, athlete);
    }
    resolve_barred(r, node, athlete);
    resolve_knocks(r, node, athlete);
    resolve_mornings(r, node, athlete);
    resolve_pains(r, node, athlete);
    resolve_returns(r, node, athlete);
}

void order_entries(struct athlete *athlete)
{
    if (athlete->best_count > 1)
        qsort(athlete->bests, athlete->best_count, sizeof *athlete->bests, later_first);
    order_results(athlete);
    order_mornings(athlete);
}

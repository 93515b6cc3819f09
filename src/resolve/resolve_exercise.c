#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "model/activity.h"
#include "model/exercise.h"
#include "resolve/resolver.h"

struct side_phrase {
    const char *words;
    enum side_rule rule;
    unsigned worker; /* 0: the word is a rule, not a limb */
    int ways;
};

static const struct side_phrase side_phrases[] = {
    {"both", SIDE_BOTH, 0, 0},
    {"each side", SIDE_EACH_SIDE, 0, 0},
    {"each way", SIDE_EACH_WAY, 0, 2},
    {"four ways", SIDE_EACH_WAY, 0, 4},
    {"per stance", SIDE_PER_STANCE, 0, 0},
    {"each stance", SIDE_PER_STANCE, 0, 0},
    {"lead hand", SIDE_PER_STANCE, WORKER_LEAD_HAND, 0},
    {"rear hand", SIDE_PER_STANCE, WORKER_REAR_HAND, 0},
    {"lead leg", SIDE_PER_STANCE, WORKER_LEAD_LEG, 0},
    {"rear leg", SIDE_PER_STANCE, WORKER_REAR_LEG, 0},
    {"lead hip", SIDE_PER_STANCE, WORKER_LEAD_HIP, 0},
    {"rear hip", SIDE_PER_STANCE, WORKER_REAR_HIP, 0},
    {"hand", SIDE_EACH_SIDE, WORKER_HAND, 0},
    {"leg", SIDE_EACH_SIDE, WORKER_LEG, 0},
    {"hip", SIDE_EACH_SIDE, WORKER_HIP, 0},
};

enum { SIDE_PHRASE_COUNT = sizeof side_phrases / sizeof *side_phrases };

static const struct side_phrase *find_side(struct resolver *r, const struct node *name)
{
    const char *folded = resolver_fold(r, name);
    for (size_t i = 0; i < SIDE_PHRASE_COUNT; i++)
        if (text_same(side_phrases[i].words, folded))
            return &side_phrases[i];
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span, "`%s` is not a side", name->text);
    for (size_t i = 0; i < SIDE_PHRASE_COUNT; i++) {
        if (text_distance(folded, side_phrases[i].words, 1) <= 1) {
            diag_fix(r->diag, finding, name->span, side_phrases[i].words);
            return NULL;
        }
    }
    diag_help(r->diag, finding, "both, each side, each way, four ways or per stance; then the limb: lead hand, rear "
                                "hand, lead leg, rear leg, lead hip, rear hip; hand, leg or hip where no stance "
                                "matters");
    return NULL;
}

static void read_side(struct resolver *r, const struct node *statement, struct exercise *exercise)
{
    const struct side_phrase *rule = statement ? find_side(r, statement->first) : NULL;
    if (!rule)
        return;
    if (rule->worker) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_SIDE_RULE, statement->first->span,
                                             "how the sides are counted comes before the limb");
        diag_fix(r->diag, finding, statement->first->span,
                 arena_printf(r->arena, "%s, %s", rule->rule == SIDE_PER_STANCE ? "per stance" : "each side",
                              rule->words));
        return;
    }
    exercise->side = rule->rule;
    exercise->ways = rule->ways;
    for (const struct node *name = statement->first->next; name; name = name->next) {
        const struct side_phrase *limb = find_side(r, name);
        if (!limb)
            continue;
        if (!limb->worker || (limb->rule == SIDE_PER_STANCE) != (rule->rule == SIDE_PER_STANCE))
            diag_error(r->diag, DIAG_WRONG_LIMB, name->span, "`%s` does not go with `%s`", limb->words, rule->words);
        else if (exercise->again & limb->worker)
            diag_error(r->diag, DIAG_LIMB_THRICE, name->span, "a limb is named at most twice");
        else if (exercise->workers & limb->worker)
            exercise->again |= limb->worker;
        else
            exercise->workers |= limb->worker;
    }
}

static void read_patterns(struct resolver *r, const struct node *statement, struct exercise *exercise)
{
    bool first = true;
    for (const struct node *name = statement ? statement->first : NULL; name; name = name->next) {
        int pattern = resolver_word(r, name, &patterns);
        if (pattern < 0)
            continue;
        exercise->patterns |= 1u << pattern;
        if (first)
            exercise->pattern = (enum pattern)pattern;
        first = false;
    }
}

static void read_shares(struct resolver *r, const struct node *statement, struct exercise *exercise)
{
    for (const struct node *share = statement ? statement->first : NULL; share; share = share->next) {
        if (share->kind != NODE_SHARE)
            continue;
        int region = resolver_word(r, share->first, &regions);
        const struct node *number = share->last;
        if (number->number > 1000)
            diag_error(r->diag, DIAG_BAD_SHARE, number->span, "a share of a set is from 0 to 1");
        else if (region >= 0)
            exercise->loads[region] = number->number;
    }
}

/* `2 x rack` is read as a name, which no gym's kit has: whoever does the exercise needs one. */
static bool report_counted(struct resolver *r, const struct node *name)
{
    const char *after = name->text + strspn(name->text, "0123456789");
    if (after == name->text)
        return false;
    after += strspn(after, " ");
    size_t sign = strncmp(after, "\u00d7", strlen("\u00d7")) == 0 ? strlen("\u00d7") : *after == 'x' || *after == 'X';
    const char *kit = after + sign + strspn(after + sign, " ");
    if (!sign || kit == after + sign || !*kit)
        return false;
    struct finding *finding = diag_error(r->diag, DIAG_KIT_COUNT, name->span,
                                         "an exercise names the kit that it needs, without a count");
    diag_fix(r->diag, finding, name->span, kit);
    diag_help(r->diag, finding, "write `%s`", kit);
    return true;
}

static void read_needs(struct resolver *r, const struct node *statement, struct exercise *exercise)
{
    if (!statement)
        return;
    exercise->needs = arena_alloc(r->arena, resolver_count(statement->first) * sizeof *exercise->needs);
    for (const struct node *name = statement->first; name; name = name->next) {
        if (report_counted(r, name))
            continue;
        struct need *need = &exercise->needs[exercise->need_count++];
        *need = (struct need){.name = resolver_name(r, name), .count = 1};
        if (names_add(r->kit, &need->name, need))
            continue;
        r->needed = arena_grow(r->arena, r->needed, r->needed_count, &r->needed_capacity, sizeof *r->needed);
        r->needed[r->needed_count++] = need->name.folded;
    }
}

/* How many statements of the kind of FIRST stand from there on; FIRST may be NULL. */
static size_t count_alike(const struct node *first)
{
    size_t count = 0;
    for (; first; first = node_next_alike(first))
        count++;
    return count;
}

static void read_teaching(struct resolver *r, const struct said *said, struct exercise *exercise)
{
    const struct node *cue = said->first[STATEMENT_CUE], *fault = said->first[STATEMENT_FAULT];
    if (cue)
        exercise->cues = arena_alloc(r->arena, count_alike(cue) * sizeof *exercise->cues);
    for (; cue; cue = node_next_alike(cue))
        exercise->cues[exercise->cue_count++] = resolver_text(cue);
    if (fault)
        exercise->faults = arena_alloc(r->arena, count_alike(fault) * sizeof *exercise->faults);
    for (; fault; fault = node_next_alike(fault))
        exercise->faults[exercise->fault_count++] = (struct fault){
            .fault = resolver_text(fault), .fix = resolver_text(node_find(fault, STATEMENT_FIX))};
    exercise->stop = resolver_text(resolver_said_once(r, said, STATEMENT_STOP));
}

static const struct exercise *read_other(struct resolver *r, const struct said *said, enum node_kind kind)
{
    const struct node *statement = resolver_said_once(r, said, kind);
    return statement ? resolver_find(r, statement->first, "exercise", r->exercises) : NULL;
}

enum { SLOWEST_LEAST = 50, SLOWEST_MOST = 1500 }; /* thousandths of a metre a second */

/* A share of another lift's best. The other's own base does not count: a chain would hide whose best it is. */
static void read_base(struct resolver *r, const struct said *said, struct exercise *exercise)
{
    exercise->base = exercise;
    exercise->factor = 1000;
    const struct node *statement = resolver_said_once(r, said, STATEMENT_PERCENT_OF);
    if (!statement)
        return;
    const struct exercise *base = resolver_find(r, statement->first, "exercise", r->exercises);
    if (base)
        exercise->base = base;
    if (base == exercise)
        diag_error(r->diag, DIAG_CIRCULAR_PERCENT, statement->span, "a lift cannot be a share of itself");
    const struct node *factor = node_find(statement, NODE_NUMBER);
    if (factor && (factor->number < 100 || factor->number > 3000))
        diag_error(r->diag, DIAG_BAD_SHARE, factor->span, "a factor is from 0.1 to 3");
    else if (factor)
        exercise->factor = factor->number;
}

/* `slowest rep 0.17 m/s`. */
static void read_slowest(struct resolver *r, const struct said *said, struct exercise *exercise)
{
    const struct node *statement = resolver_said_once(r, said, STATEMENT_SLOWEST);
    if (!statement)
        return;
    const struct figures *figures = figures_alone(r, statement->first);
    if (figures && figures->measure == MEASURE_METRE_A_SECOND && figures->values[0].low >= SLOWEST_LEAST &&
        figures->values[0].low <= SLOWEST_MOST) {
        exercise->slowest = figures->values[0].low;
        return;
    }
    struct finding *finding = diag_error(r->diag, DIAG_BAD_SPEED, statement->first->span,
                                         "the slowest repetition is one speed of the bar, from 0.05 to 1.5 m/s");
    diag_help(r->diag, finding, "write it like `slowest rep 0.17 m/s`");
}

static void read_without(struct resolver *r, const struct node *first, struct exercise *exercise)
{
    if (first)
        exercise->without = arena_alloc(r->arena, count_alike(first) * sizeof *exercise->without);
    for (const struct node *child = first; child; child = node_next_alike(child)) {
        const struct node *other = child->first->next;
        if (!other || other->kind != NODE_NAME) {
            diag_error(r->diag, DIAG_LINE_TOO_SHORT, child->span, "what replaces it? `without %s, ...`",
                       child->first->text);
            continue;
        }
        struct substitute substitute = {.kit = resolver_name(r, child->first),
                                        .instead_name = resolver_name(r, other),
                                        .instead = resolver_find(r, other, "exercise", r->exercises)};
        if (substitute.instead)
            exercise->without[exercise->without_count++] = substitute;
    }
}

static void read_positions(struct resolver *r, const struct node *statement, struct exercise *exercise)
{
    if (!statement)
        return;
    exercise->positions = arena_alloc(r->arena, resolver_count(statement->first) * sizeof *exercise->positions);
    for (const struct node *name = statement->first; name; name = name->next) {
        struct name *position = arena_alloc(r->arena, sizeof *position);
        *position = resolver_name(r, name);
        names_add(r->positions, position, position);
        exercise->positions[exercise->position_count++] = position->folded;
    }
}

static bool is_ballistic(const struct exercise *exercise)
{
    const unsigned fast = 1u << PATTERN_JUMP | 1u << PATTERN_THROW | 1u << PATTERN_STRIKE;
    return exercise->kind == EXERCISE_POWER || (1u << exercise->pattern & fast);
}

static void no_kind(struct resolver *r, const struct node *node, const struct exercise *exercise)
{
    struct text all = {.arena = r->arena};
    for (size_t i = 0; i < exercise_kinds.count; i++)
        text_addf(&all, "%s%s", i ? ", " : "", exercise_kinds.names[i]);
    struct finding *finding = diag_error(r->diag, DIAG_NO_KIND, node->first->span, "`%s` does not say its kind",
                                         exercise->name.shown);
    diag_help(r->diag, finding, "add a line `kind` with one of: %s", text_get(&all));
}

/* The index in WORDS of what the statement of KIND says; MISSING if there is none or it is not one of them. */
static int word_said(struct resolver *r, const struct said *said, enum node_kind kind, const struct vocabulary *words,
                     int missing)
{
    const struct node *statement = resolver_said_once(r, said, kind);
    int index = statement ? resolver_word(r, statement->first, words) : -1;
    return index >= 0 ? index : missing;
}

void resolve_exercise(struct resolver *r, const struct node *node, struct exercise *exercise)
{
    const struct said said = resolver_said(node);
    exercise->kind = (enum exercise_kind)word_said(r, &said, STATEMENT_KIND, &exercise_kinds, EXERCISE_STRENGTH);
    if (!said.first[STATEMENT_KIND] && !node_is_broken(node))
        no_kind(r, node, exercise);
    read_patterns(r, resolver_said_once(r, &said, STATEMENT_PATTERN), exercise);
    read_side(r, resolver_said_once(r, &said, STATEMENT_SIDE), exercise);
    read_needs(r, resolver_said_once(r, &said, STATEMENT_NEEDS), exercise);
    read_shares(r, resolver_said_once(r, &said, STATEMENT_LOADS), exercise);
    read_positions(r, resolver_said_once(r, &said, STATEMENT_POSITION), exercise);
    read_strains(r, resolver_said_once(r, &said, STATEMENT_JOINTS),
                 resolver_said_once(r, &said, STATEMENT_JOINTS_OF_BOTH), &exercise->strains);
    exercise->level = (enum level)word_said(r, &said, STATEMENT_LIFTING_AGE, &levels, LEVEL_NOVICE);
    exercise->counts = (enum unit)word_said(r, &said, STATEMENT_COUNTS, &units, UNIT_REPS);
    exercise->weigh = (enum weigh)word_said(r, &said, STATEMENT_WEIGH, &weighs, WEIGH_UNSAID);
    read_teaching(r, &said, exercise);
    read_base(r, &said, exercise);
    read_slowest(r, &said, exercise);
    exercise->easier = read_other(r, &said, STATEMENT_EASIER);
    exercise->harder = read_other(r, &said, STATEMENT_HARDER);
    read_without(r, said.first[STATEMENT_INSTEAD], exercise);
    exercise->ballistic = is_ballistic(exercise);
}

struct name *declare_aliases(struct resolver *r, const struct node *node, struct names *table, void *thing,
                             const char *what, size_t *count)
{
    *count = 0;
    const struct node *alias_line = node_find(node, STATEMENT_ALIAS);
    const struct node *first = alias_line ? alias_line : node_find(node, STATEMENT_FORMER_NAME);
    for (const struct node *child = first; child; child = node_next_alike(child))
        *count += resolver_count(child->first);
    struct name *aliases = arena_alloc(r->arena, *count * sizeof *aliases), *alias = aliases;
    for (const struct node *child = first; child; child = node_next_alike(child)) {
        for (const struct node *name = child->first; name; name = name->next, alias++) {
            *alias = resolver_name(r, name);
            resolver_declare(r, table, alias, thing, what);
        }
    }
    return aliases;
}

/* The words of NODE's only line of KIND, folded; NULL where it has none. */
static const char *folded_words(struct resolver *r, const struct node *node, enum node_kind kind)
{
    const struct node *line = resolver_single(r, node, kind);
    return line ? resolver_fold(r, line->first) : NULL;
}

void resolve_activity(struct resolver *r, const struct node *node, struct activity *activity)
{
    const struct figures *rpe = figures_rpe(r, resolver_single(r, node, STATEMENT_WHOLE_RPE));
    if (rpe)
        activity->rpe = rpe->values[0];
    const char *contact = folded_words(r, node, STATEMENT_CONTACT);
    if (contact && strcmp(contact, "none") != 0 && strcmp(contact, "body") != 0 && strcmp(contact, "head") != 0)
        diag_error(r->diag, DIAG_UNKNOWN_WORD, node_find(node, STATEMENT_CONTACT)->first->span,
                   "contact is none, body or head");
    activity->contact = contact && strcmp(contact, "none") != 0;
    activity->head = contact && strcmp(contact, "head") == 0;
    read_strains(r, resolver_single(r, node, STATEMENT_JOINTS), NULL, &activity->strains);
    const char *counts = folded_words(r, node, STATEMENT_COUNTS);
    if (counts && strcmp(counts, "rounds") != 0 && strcmp(counts, "minutes") != 0)
        diag_error(r->diag, DIAG_UNKNOWN_WORD, node_find(node, STATEMENT_COUNTS)->first->span,
                   "an activity counts minutes or rounds");
    activity->counts_rounds = counts && strcmp(counts, "rounds") == 0;
    const struct node *sparring = resolver_single(r, node, STATEMENT_SPARRING);
    activity->sparring = sparring && resolver_yes(r, sparring);
    const struct node *bag = resolver_single(r, node, STATEMENT_BAG);
    activity->bag = bag && resolver_yes(r, bag);
    const struct node *training = resolver_single(r, node, STATEMENT_TRAINING);
    activity->rest = training && !resolver_yes(r, training);
    if (activity->rest && rpe)
        diag_error(r->diag, DIAG_WRONG_EFFORT, node_find(node, STATEMENT_WHOLE_RPE)->span,
                   "what is not training has no effort");
    const struct node *at_gym = resolver_single(r, node, STATEMENT_AT_THE_GYM);
    activity->outside = activity->rest || (at_gym && !resolver_yes(r, at_gym));
    activity->bout = strcmp(activity->name.folded, "bout") == 0;
    activity->strikes = activity->bag || activity->sparring || activity->contact ||
                        strstr(activity->name.folded, "pad") != NULL;
    activity->source = resolver_text(resolver_single(r, node, STATEMENT_SOURCE));
    const struct node *clock = resolver_single(r, node, STATEMENT_CLOCK);
    if (clock)
        resolve_clock(r, clock->first, &activity->clock_rounds, &activity->clock_work, &activity->clock_rest);
}

#include "lsp/index.h"

#include <string.h>

#include "base/text.h"

/* --- which names stand where --- */

/* FIRST is what the first name of a line may name, REST what the others may, BEHIND what the one after its stop may. */
static const struct {
    enum node_kind statement;
    unsigned first, rest, behind;
} rows[] = {
    {STATEMENT_PRIVATE, NAMED_ATHLETE, 0, 0},
    {STATEMENT_SESSION, 0, 0, NAMED_SESSION},
    {STATEMENT_RESULTS, NAMED_ATHLETE, 0, 0},
    {STATEMENT_LOG, NAMED_ATHLETE, NAMED_SESSION | NAMED_ACTIVITY, 0},
    {STATEMENT_LIFTING_AGE, NAMED_LEVEL, 0, 0},
    {STATEMENT_TRAINS_AT, NAMED_GYM, 0, 0},
    {STATEMENT_AVOID, NAMED_EXERCISE | NAMED_PATTERN | NAMED_REGION | NAMED_KIND,
     NAMED_EXERCISE | NAMED_PATTERN | NAMED_REGION | NAMED_KIND, 0},
    {STATEMENT_BEST, NAMED_EXERCISE | NAMED_TEST, 0, 0},
    {STATEMENT_RATIO_OF, NAMED_TEST, NAMED_TEST, 0},
    {STATEMENT_HEIGHT_FROM, NAMED_TEST, 0, 0},
    {STATEMENT_INSTEAD_DO, NAMED_EXERCISE, 0, 0},
    {STATEMENT_CAN_DO, NAMED_EXERCISE, NAMED_EXERCISE, 0},
    {STATEMENT_ALLOWS, NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT,
     NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT, 0},
    {STATEMENT_IF_AGREED, NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT,
     NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT, 0},
    {STATEMENT_STEP_BARS, NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT,
     NAMED_EXERCISE | NAMED_ACTIVITY | NAMED_PATTERN | NAMED_KIND | NAMED_KIT, 0},
    {STATEMENT_BARS, NAMED_KIT, NAMED_KIT, 0},
    {STATEMENT_STATIONS, NAMED_KIT, NAMED_KIT, 0},
    {STATEMENT_OTHER_KIT, NAMED_KIT, NAMED_KIT, 0},
    {STATEMENT_KIND, NAMED_KIND, 0, 0},
    {STATEMENT_PATTERN, NAMED_PATTERN, NAMED_PATTERN, 0},
    {STATEMENT_NEEDS, NAMED_KIT, NAMED_KIT, 0},
    {STATEMENT_LOADS, NAMED_REGION, NAMED_REGION, 0},
    {STATEMENT_PERCENT_OF, NAMED_EXERCISE, 0, 0},
    {STATEMENT_EASIER, NAMED_EXERCISE, 0, 0},
    {STATEMENT_HARDER, NAMED_EXERCISE, 0, 0},
    {STATEMENT_INSTEAD, NAMED_KIT, NAMED_KIT | NAMED_EXERCISE, 0},
    {STATEMENT_REPLACES, NAMED_EXERCISE | NAMED_ACTIVITY, 0, 0},
    {STATEMENT_FILLER, NAMED_EXERCISE, 0, 0},
    {STATEMENT_ROUND, NAMED_EXERCISE, 0, 0},
    {STATEMENT_ITEM, NAMED_EXERCISE, 0, 0},
    {STATEMENT_FOR, NAMED_ATHLETE | NAMED_LEVEL, NAMED_EXERCISE, 0},
    {STATEMENT_WITHOUT, NAMED_KIT, NAMED_EXERCISE, 0},
    {STATEMENT_MEMBERS, NAMED_ATHLETE, NAMED_ATHLETE, 0},
    {STATEMENT_PHASE, NAMED_PHASE, 0, 0},
    {STATEMENT_IN_FORCE, NAMED_LIMITS, 0, 0},
    {STATEMENT_PLACE, NAMED_SESSION | NAMED_ACTIVITY, NAMED_SESSION | NAMED_ACTIVITY, 0},
    {STATEMENT_ADD, NAMED_EXERCISE, 0, 0},
    {STATEMENT_WAIVE, NAMED_CHECK, 0, NAMED_PHASE},
    {STATEMENT_BASED_ON, NAMED_LIMITS, 0, 0},
    {STATEMENT_SCOPE, NAMED_ATHLETE | NAMED_LEVEL, NAMED_ATHLETE | NAMED_LEVEL, 0},
    {STATEMENT_LIMIT, NAMED_COUNT, 0, 0},
    {STATEMENT_FOR_ONE, NAMED_ATHLETE, NAMED_ATHLETE, 0},
    {STATEMENT_ABSENT, NAMED_ATHLETE, NAMED_ATHLETE, 0},
    {STATEMENT_LATE, NAMED_ATHLETE, NAMED_ATHLETE, 0},
    {STATEMENT_PAIR, NAMED_ATHLETE, NAMED_ATHLETE, 0},
    {STATEMENT_AT, NAMED_GYM, 0, NAMED_ATHLETE},
    {STATEMENT_AT_DAYS, NAMED_GYM, 0, NAMED_ATHLETE},
    {STATEMENT_HELD, NAMED_ATHLETE, NAMED_SESSION | NAMED_ACTIVITY, 0},
    {STATEMENT_HELD_CAMP, NAMED_CAMP, 0, 0},
    {STATEMENT_COUNTS, NAMED_UNIT, 0, 0},
    {STATEMENT_WEIGH, NAMED_WEIGH, 0, 0},
    /* The coach's own words, and words that each have their statement: */
    {STATEMENT_SEASON, 0, 0, 0},
    {STATEMENT_TAKES, 0, 0, 0},
    {STATEMENT_CALLED, 0, 0, 0},
    {STATEMENT_HELD_PHASE, 0, 0, 0},
    {STATEMENT_HELD_IN, 0, 0, 0},
    {STATEMENT_AGE_GROUP, 0, 0, 0},
    {STATEMENT_STANCE, 0, 0, 0},
    {STATEMENT_ESTIMATE, 0, 0, 0},
    {STATEMENT_SUSPENDED, 0, 0, 0},
    {STATEMENT_PRINT, 0, 0, 0},
    {STATEMENT_PRINT_IN, 0, 0, 0},
    {STATEMENT_ENDED_BY, 0, 0, 0},
    {STATEMENT_REACHED, 0, 0, 0},
    {STATEMENT_AGREED_BY, 0, 0, 0},
    {STATEMENT_WHEN, 0, 0, 0},
    {STATEMENT_BACK_TO, 0, 0, 0},
    {STATEMENT_REACHED_BY, 0, 0, 0},
    {STATEMENT_UNIT, 0, 0, 0},
    {STATEMENT_SIDE, 0, 0, 0},
    {STATEMENT_MORNING, 0, 0, 0},
    {STATEMENT_PAIN, 0, 0, 0},
    {STATEMENT_RETURN, 0, 0, 0},
    {STATEMENT_TIME_ZONES, 0, 0, 0},
    {STATEMENT_TIME_ZONE, 0, 0, 0},
    {STATEMENT_ZONE_DAYS, 0, 0, 0},
    {STATEMENT_HELD_ZONE, 0, 0, 0},
    {STATEMENT_DIVISION, 0, 0, 0},
    {STATEMENT_JOINTS, 0, 0, 0},
    {STATEMENT_JOINTS_OF_BOTH, 0, 0, 0},
    {STATEMENT_POSITION, 0, 0, 0},
    {STATEMENT_ALIAS, 0, 0, 0},
    {STATEMENT_FORMER_NAME, 0, 0, 0},
    {STATEMENT_CONTACT, 0, 0, 0},
    {STATEMENT_SPARRING, 0, 0, 0},
    {STATEMENT_BAG, 0, 0, 0},
    {STATEMENT_AT_THE_GYM, 0, 0, 0},
    {STATEMENT_TRAINING, 0, 0, 0},
    {STATEMENT_RESULT, 0, 0, 0},
    {STATEMENT_SEEN_BY, 0, 0, 0},
    {STATEMENT_CHECKED, 0, 0, 0},
};

unsigned statement_names(enum node_kind statement, size_t number, bool behind_stop)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (rows[i].statement == statement)
            return behind_stop ? rows[i].behind : number ? rows[i].rest : rows[i].first;
    return NAMED_NOTHING;
}

bool statement_is_known(enum node_kind statement)
{
    bool known = statement_declares(statement) != NAMED_NOTHING;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        known |= rows[i].statement == statement;
    return known;
}

enum named statement_declares(enum node_kind statement)
{
    switch ((int)statement) {
    case STATEMENT_ATHLETE: return NAMED_ATHLETE;
    case STATEMENT_SESSION: return NAMED_SESSION;
    case STATEMENT_EXERCISE: return NAMED_EXERCISE;
    case STATEMENT_ACTIVITY: return NAMED_ACTIVITY;
    case STATEMENT_GYM: return NAMED_GYM;
    case STATEMENT_CAMP: return NAMED_CAMP;
    case STATEMENT_LIMITS: return NAMED_LIMITS;
    case STATEMENT_PROTOCOL: return NAMED_PROTOCOL;
    case STATEMENT_TEST: return NAMED_TEST;
    default: return NAMED_NOTHING;
    }
}

/* --- making --- */

struct making {
    struct arena *arena;
    struct index *index;
    GHashTable *found; /* things by their kind and folded name */
};

static const char *key_of(struct arena *arena, unsigned what, const char *folded)
{
    return arena_printf(arena, "%u %s", what, folded);
}

static const char *folded_name(struct arena *arena, const struct node *name)
{
    return text_is_folded(name->text) ? name->text : text_fold(arena, name->text, strlen(name->text));
}

static void add_thing(struct making *making, const struct node *statement, const struct node *name, bool shelf, bool alias)
{
    struct index *index = making->index;
    enum named what = statement_declares(statement->kind);
    const char *folded = folded_name(making->arena, name), *key = key_of(making->arena, what, folded);
    if (g_hash_table_contains(making->found, key))
        return;
    struct thing *thing = arena_alloc(making->arena, sizeof *thing);
    *thing = (struct thing){what, name->text, folded, name, statement, shelf, alias};
    index->things = arena_grow(making->arena, index->things, index->thing_count, &index->thing_capacity,
                               sizeof *index->things);
    index->things[index->thing_count++] = thing;
    g_hash_table_insert(making->found, (char *)key, thing);
}

/* Adds the names in LINE and in the lines of its kind after it, which are other names of what STATEMENT declares. */
static void add_aliases(struct making *making, const struct node *statement, const struct node *line, bool shelf)
{
    for (; line; line = node_next_alike(line))
        for (const struct node *alias = line->first; alias; alias = alias->next)
            if (alias->kind == NODE_NAME)
                add_thing(making, statement, alias, shelf, true);
}

/* The declarations of TREE: the plan's come before the shelf's, which they may replace. */
static void add_things(struct making *making, const struct tree *tree, bool shelf)
{
    for (const struct node *at = tree->root->first; at; at = at->next) {
        const struct node *name = node_is_statement(at) ? node_find(at, NODE_NAME) : NULL;
        if (!name || !statement_declares(at->kind))
            continue;
        add_thing(making, at, name, shelf, false);
        add_aliases(making, at, node_find(at, STATEMENT_ALIAS), shelf);
        add_aliases(making, at, node_find(at, STATEMENT_FORMER_NAME), shelf);
    }
}

static const struct thing *find_thing(const struct making *making, unsigned what, const char *folded)
{
    for (unsigned bit = 1; bit <= NAMED_TEST; bit <<= 1) {
        const struct thing *thing =
            what & bit ? g_hash_table_lookup(making->found, key_of(making->arena, bit, folded)) : NULL;
        if (thing)
            return thing;
    }
    return NULL;
}

/* What is called by another of its names is the same thing as under its first. */
static const struct thing *first_named(const struct making *making, const struct thing *thing)
{
    const struct node *name = thing && thing->alias ? node_find(thing->statement, NODE_NAME) : NULL;
    return name ? find_thing(making, thing->what, folded_name(making->arena, name)) : thing;
}

static void add_use(struct making *making, const struct node *name, unsigned what, bool declares)
{
    struct index *index = making->index;
    const char *folded = folded_name(making->arena, name);
    const struct thing *thing = first_named(making, find_thing(making, what, folded));
    if (!thing)
        return;
    index->uses = arena_grow(making->arena, index->uses, index->use_count, &index->use_capacity, sizeof *index->uses);
    index->uses[index->use_count++] =
        (struct use){name, thing, declares && name == thing->name, text_same(folded, thing->folded)};
}

/* The names in the values below PARENT, which belong to STATEMENT's line; *NUMBER counts those that are directly in
 * it. */
static void add_uses(struct making *making, const struct node *statement, const struct node *parent, size_t *number)
{
    bool placed = parent == statement || parent->kind == NODE_IN_TURN;
    bool behind = parent->kind == NODE_BASED || parent->kind == NODE_FOR_NAMES;
    for (const struct node *at = parent->first; at; at = at->next) {
        if (node_is_statement(at) || at->kind == NODE_BROKEN)
            continue;
        if (at->kind != NODE_NAME) {
            add_uses(making, statement, at, number);
            continue;
        }
        bool declares = statement_declares(statement->kind) && placed;
        unsigned what = declares ? (unsigned)statement_declares(statement->kind)
                                 : statement_names(statement->kind, placed ? (*number)++ : 0, behind);
        if (what && (placed || behind))
            add_use(making, at, what, declares);
    }
}

static void walk(struct making *making, const struct node *parent)
{
    for (const struct node *at = parent->first; at; at = at->next) {
        if (!node_is_statement(at))
            continue;
        size_t number = 0;
        add_uses(making, at, at, &number);
        walk(making, at);
    }
}

static struct index *index_make(struct arena *arena, const struct project *project)
{
    struct index *index = arena_alloc(arena, sizeof *index);
    struct making making = {arena, index, g_hash_table_new(g_str_hash, g_str_equal)};
    for (int shelf = 0; shelf < 2; shelf++)
        for (size_t i = 0; i < project->tree_count; i++)
            if (project->sources.items[project->trees[i]->file].shelf == shelf)
                add_things(&making, project->trees[i], shelf);
    for (size_t i = 0; i < project->tree_count; i++)
        if (!project->sources.items[project->trees[i]->file].shelf)
            walk(&making, project->trees[i]->root);
    g_hash_table_destroy(making.found);
    return index;
}

const struct index *club_index(struct club *club)
{
    if (!club->index)
        club->index = index_make(club->arena, &club->session->project);
    return club->index;
}

/* --- asking --- */

const struct use *index_at(const struct index *index, unsigned file, size_t offset)
{
    for (size_t i = 0; i < index->use_count; i++) {
        const struct span span = index->uses[i].name->span;
        if (span.file == file && span.start <= offset && offset <= span.end)
            return &index->uses[i];
    }
    return NULL;
}

const struct thing *index_find(const struct index *index, unsigned what, const char *folded)
{
    for (size_t i = 0; i < index->thing_count; i++)
        if (what & index->things[i]->what && text_same(index->things[i]->folded, folded))
            return index->things[i];
    return NULL;
}

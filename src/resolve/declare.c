/* declare.c - the first pass over the trees: which names there are, before anything is worked out. */
#include "resolve/declare.h"

#include <string.h>

#include "model/programme.h"
#include "resolve/names.h"
#include "resolve/template.h"

static void remember(struct resolver *r, struct declarations *list, const struct node *node, void *thing)
{
    list->items = arena_grow(r->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    list->items[list->count++] = (struct declared){node, thing};
}

/* The club's entry takes the place of a shelf entry only if it says so. Returns false when it must not. */
static bool replaces(struct resolver *r, const struct node *node, const struct name *name, struct names *table,
                     void *thing, bool (*is_shelf)(const void *), const char *what)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_REPLACES);
    void *same = names_find(table, name->folded);
    if (statement) {
        void *old = resolver_find(r, statement->first, what, table);
        if (old && !is_shelf(old))
            diag_error(r->diag, DIAG_REPLACES_OWN, statement->span, "only an entry of the shelf can be replaced");
        else if (old)
            names_redirect(table, old, thing);
        return true;
    }
    if (!same || !is_shelf(same))
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_HIDES_SHELF, name->span, "the shelf has %s called `%s`",
                                         strcmp(what, "activity") == 0 ? "an activity" : "an exercise", name->shown);
    diag_help(r->diag, finding, "add `replaces %s` to take its place, or choose another name", name->shown);
    return false;
}

static bool shelf_exercise(const void *thing)
{
    return ((const struct exercise *)thing)->shelf;
}

static bool shelf_activity(const void *thing)
{
    return ((const struct activity *)thing)->shelf;
}

static void declare_exercise(struct pass *pass, const struct node *node, bool shelf)
{
    struct resolver *r = &pass->r;
    struct exercise *exercise = arena_alloc(r->arena, sizeof *exercise);
    exercise->name = resolver_name(r, node->first);
    exercise->shelf = shelf;
    exercise->number = pass->exercises.count;
    exercise->base = exercise;
    exercise->factor = 1000;
    const struct node *statement = shelf ? NULL : node_find(node, STATEMENT_REPLACES);
    struct exercise *old = statement ? names_find(r->exercises, resolver_fold(r, statement->first)) : NULL;
    if (!shelf && !replaces(r, node, &exercise->name, r->exercises, exercise, shelf_exercise, "exercise"))
        return;
    if (old)
        old->replaced = old->shelf;
    if (shelf || names_find(r->exercises, exercise->name.folded) != exercise)
        resolver_declare(r, r->exercises, &exercise->name, exercise, "exercise");
    exercise->aliases = declare_aliases(r, node, r->exercises, exercise, "exercise", &exercise->alias_count);
    remember(r, &pass->exercises, node, exercise);
}

static void declare_activity(struct pass *pass, const struct node *node, bool shelf)
{
    struct resolver *r = &pass->r;
    struct activity *activity = arena_alloc(r->arena, sizeof *activity);
    activity->name = resolver_name(r, node->first);
    activity->shelf = shelf;
    if (!shelf && !replaces(r, node, &activity->name, r->activities, activity, shelf_activity, "activity"))
        return;
    if (shelf || names_find(r->activities, activity->name.folded) != activity)
        resolver_declare(r, r->activities, &activity->name, activity, "activity");
    size_t aliases;
    declare_aliases(r, node, r->activities, activity, "activity", &aliases);
    remember(r, &pass->activities, node, activity);
}

/* Declarations whose first member is their name. */
static void declare(struct pass *pass, const struct node *node, size_t size, struct names *table,
                    struct declarations *list, const char *what)
{
    struct resolver *r = &pass->r;
    void *thing = arena_alloc(r->arena, size);
    struct name *name = thing;
    *name = resolver_name(r, node->first);
    resolver_declare(r, table, name, thing, what);
    remember(r, list, node, thing);
}

/* A declaration that could not be read: its name is missing from a table, or from any where its kind is not known. */
static void poison_names(struct resolver *r, const struct node *node, int kind)
{
    const struct {
        int kind;
        const struct names *table;
    } tables[] = {{STATEMENT_EXERCISE, r->exercises}, {STATEMENT_ACTIVITY, r->activities},
                  {STATEMENT_GYM, r->gyms},           {STATEMENT_ATHLETE, r->athletes},
                  {STATEMENT_SESSION, r->sessions},   {STATEMENT_CAMP, r->camps},
                  {STATEMENT_LIMITS, r->limits},     {STATEMENT_PROTOCOL, r->protocols},
                  {STATEMENT_TEST, r->tests}};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
        if (kind == 0 || kind == STATEMENT_USE || kind == tables[i].kind)
            resolver_poison(r, tables[i].table, node->span);
}

/* Adds a later version of the session FIRST to its row. */
static void declare_version(struct pass *pass, const struct node *node, struct session *first, int from)
{
    struct resolver *r = &pass->r;
    struct session *session = arena_alloc(r->arena, sizeof *session);
    *session = (struct session){.name = resolver_name(r, node->first), .from = from, .first = first};
    for (struct session *other = first; other; other = other->later) {
        if (other->from != from)
            continue;
        struct finding *finding = diag_error(r->diag, DIAG_DECLARED_TWICE, session->name.span,
                                             "two versions of `%s` begin on the same day", session->name.shown);
        diag_note(r->diag, finding, other->name.span, "the other is here");
        return;
    }
    session->later = first->later;
    first->later = session;
    remember(r, &pass->sessions, node, session);
}

/* A session, or a later version of one, which says from which day on it holds. */
static void declare_session(struct pass *pass, const struct node *node)
{
    struct resolver *r = &pass->r;
    const struct node *from = node_find(node, NODE_FROM);
    int day = from ? (int)from->first->number : 0;
    struct session *same = names_find(r->sessions, resolver_fold(r, node->first)), *session;
    if (same && (day || same->from)) {
        declare_version(pass, node, same, day);
        return;
    }
    declare(pass, node, sizeof *session, r->sessions, &pass->sessions, "session");
    session = pass->sessions.items[pass->sessions.count - 1].thing;
    session->first = session;
    session->from = day;
    size_t aliases;
    declare_aliases(r, node, r->sessions, session, "session", &aliases);
}

static void declare_athlete(struct pass *pass, const struct node *node)
{
    struct resolver *r = &pass->r;
    size_t aliases;
    declare(pass, node, sizeof(struct athlete), r->athletes, &pass->athletes, "athlete");
    declare_aliases(r, node, r->athletes, pass->athletes.items[pass->athletes.count - 1].thing, "athlete", &aliases);
}

/* What a club says of a test of the shelf is added to that, once. */
static void declare_test(struct pass *pass, const struct node *node, bool shelf)
{
    struct resolver *r = &pass->r;
    struct test *same = names_find(r->tests, resolver_fold(r, node->first));
    if (!shelf && same && same->shelf && !same->changed) {
        struct span *span = arena_alloc(r->arena, sizeof *span);
        *span = node->first->span;
        same->changed = span;
        remember(r, &pass->test_changes, node, same);
        return;
    }
    if (!shelf && same && same->changed) {
        struct finding *finding = diag_error(r->diag, DIAG_DECLARED_TWICE, node->first->span,
                                             "there is another test called `%s`", same->name.shown);
        diag_note(r->diag, finding, *same->changed, "the first one is here");
        diag_help(r->diag, finding, "put what both say into one");
        return;
    }
    declare(pass, node, sizeof(struct test), r->tests, &pass->tests, "test");
    struct test *test = pass->tests.items[pass->tests.count - 1].thing;
    test->shelf = shelf;
    test->number = pass->tests.count - 1;
    test->aliases = declare_aliases(r, node, r->tests, test, "test", &test->alias_count);
}

/* Each camp has a table of the limits in force in it, so there must be a bound. */
static void declare_camp(struct pass *pass, const struct node *node)
{
    enum { MOST_CAMPS = 5000 };
    struct resolver *r = &pass->r;
    if (pass->camps.count < MOST_CAMPS) {
        declare(pass, node, sizeof(struct camp), r->camps, &pass->camps, "camp");
        size_t aliases;
        declare_aliases(r, node, r->camps, pass->camps.items[pass->camps.count - 1].thing, "camp", &aliases);
        return;
    }
    if (!resolver_is_poisoned(r, r->camps))
        diag_error(r->diag, DIAG_TOO_MANY_CAMPS, node->span, "a plan can have at most %d camps", MOST_CAMPS);
    resolver_poison(r, r->camps, node->span);
}

void declare_statement(struct pass *pass, const struct node *node, bool shelf)
{
    struct resolver *r = &pass->r;
    switch ((int)node->kind) {
    case STATEMENT_EXERCISE: declare_exercise(pass, node, shelf); break;
    case STATEMENT_ACTIVITY: declare_activity(pass, node, shelf); break;
    case STATEMENT_GYM: declare(pass, node, sizeof(struct gym), r->gyms, &pass->gyms, "gym"); break;
    case STATEMENT_ATHLETE: declare_athlete(pass, node); break;
    case STATEMENT_SESSION:
        declare_session(pass, node);
        break;
    case STATEMENT_LIMITS:
        declare(pass, node, sizeof(struct limits), r->limits, &pass->limits, "limits");
        break;
    case STATEMENT_CAMP: declare_camp(pass, node); break;
    case STATEMENT_TEST: declare_test(pass, node, shelf); break;
    case STATEMENT_SEASON:
        declare(pass, node, sizeof(struct season), r->seasons, &pass->seasons, "season");
        break;
    case STATEMENT_PROTOCOL:
        declare(pass, node, sizeof(struct protocol), r->protocols, &pass->protocols, "protocol");
        break;
    case STATEMENT_PRIVATE: remember(r, &pass->privates, node, NULL); break;
    case STATEMENT_RESULTS: remember(r, &pass->results, node, NULL); break;
    case STATEMENT_LOG: remember(r, &pass->logs, node, NULL); break;
    case STATEMENT_HELD: remember(r, &pass->held, node, NULL); break;
    case STATEMENT_HELD_UNTIL: remember(r, &pass->closings, node, NULL); break;
    case STATEMENT_USE: /* was followed when the files were read */
        if (node->code == USE_FAILED)
            poison_names(r, node, (int)node->kind);
        break;
    case NODE_BROKEN: poison_names(r, node, node->code); break;
    default: break;
    }
}

/* --- what only the record still names --- */

/* Adds to LIST a thing that NAME_NODE names in the record and nothing declares, called as FOLDED. Its first member is its
 * name. */
static void *declare_lost(struct pass *pass, const struct node *name_node, const char *folded, size_t size,
                          struct names *table, struct declarations *list, const char *what)
{
    struct resolver *r = &pass->r;
    void *thing = arena_alloc(r->arena, size);
    struct name *name = thing;
    const char *text = name_node->text + (strlen(name_node->text) > strlen(folded)
                                              ? strlen(name_node->text) - strlen(folded) : 0);
    *name = (struct name){.shown = text, .folded = folded, .span = name_node->span};
    names_add(table, name, thing);
    remember(r, list, NULL, thing);
    struct finding *finding = diag_report(r->diag, SEVERITY_INFO, DIAG_HELD_LOST, name_node->span,
                                          "only the record of closed days still names the %s `%s`", what, text);
    diag_help(r->diag, finding, "nothing need be done; if it has another name now, `also known as` joins the two");
    return thing;
}

static void declare_held_items(struct pass *pass, const struct node *node)
{
    struct resolver *r = &pass->r;
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_ITEM || child->kind == STATEMENT_FILLER || child->kind == STATEMENT_ROUND) {
            const char *ref, *folded = held_exercise(r, child, &ref);
            if (names_find(r->exercises, folded) || resolver_is_poisoned(r, r->exercises))
                continue;
            size_t number = pass->exercises.count;
            struct exercise *exercise = declare_lost(pass, node_find(child, NODE_NAME), folded, sizeof *exercise,
                                                     r->exercises, &pass->exercises, "exercise");
            exercise->lost = true;
            exercise->number = number;
            exercise->base = exercise;
            exercise->factor = 1000;
        } else if (node_is_statement(child)) {
            declare_held_items(pass, child);
        }
    }
}

void declare_lost_names(struct pass *pass)
{
    struct resolver *r = &pass->r;
    for (size_t i = 0; i < pass->held.count; i++) {
        const struct node *node = pass->held.items[i].node, *who = node_find(node, NODE_NAME);
        const struct node *what = who ? node_next_alike(who) : NULL, *camp = node_find(node, STATEMENT_HELD_CAMP);
        const char *folded = what ? resolver_fold(r, what) : "";
        if (what && !names_find(r->sessions, folded) && !names_find(r->activities, folded) &&
            !resolver_is_poisoned(r, r->sessions)) {
            struct session *session = declare_lost(pass, what, folded, sizeof *session, r->sessions, &pass->sessions,
                                                   "session");
            session->first = session;
        }
        if (camp && !names_find(r->camps, resolver_fold(r, camp->first)) && !resolver_is_poisoned(r, r->camps))
            declare_lost(pass, camp->first, resolver_fold(r, camp->first), sizeof(struct camp), r->camps, &pass->camps,
                         "camp");
        declare_held_items(pass, node);
    }
}

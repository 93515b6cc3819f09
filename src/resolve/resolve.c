#include "resolve/resolve.h"

#include <string.h>

#include "measure/person.h"
#include "model/programme.h"
#include "resolve/place.h"
#include "resolve/rows.h"
#include "resolve/template.h"
#include "resolve/tracking.h"

/* A declaration on its way from its name to its meaning. */
struct declared {
    const struct node *node;
    void *thing;
};

struct declarations {
    struct declared *items;
    size_t count, capacity;
};

struct pass {
    struct resolver r;
    struct declarations gyms, exercises, activities, athletes, privates, sessions, limits, camps, logs, protocols, held,
        closings, seasons, tests, test_changes;
};

static void remember(struct resolver *r, struct declarations *list, const struct node *node, void *thing)
{
    list->items = arena_grow(r->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    list->items[list->count++] = (struct declared){node, thing};
}

/* --- first pass: names --- */

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
static void poison_names(struct resolver *r, int kind)
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
            resolver_poison(r, tables[i].table);
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
                                             "two versions of `%s` begin on one day", session->name.shown);
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
    resolver_poison(r, r->camps);
}

static void declare_statement(struct pass *pass, const struct node *node, bool shelf)
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
    case STATEMENT_LOG: remember(r, &pass->logs, node, NULL); break;
    case STATEMENT_HELD: remember(r, &pass->held, node, NULL); break;
    case STATEMENT_HELD_UNTIL: remember(r, &pass->closings, node, NULL); break;
    case STATEMENT_USE: /* was followed when the files were read */
        if (node->code == USE_FAILED)
            poison_names(r, (int)node->kind);
        break;
    case NODE_BROKEN: poison_names(r, node->code); break;
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

/* A name that a plan or the shelf no longer has is no fault of the record: what was held keeps it. */
static void declare_held(struct pass *pass)
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

/* --- second pass: meaning --- */

static void **things_of(struct resolver *r, const struct declarations *list)
{
    void **things = arena_alloc(r->arena, list->count * sizeof *things);
    for (size_t i = 0; i < list->count; i++)
        things[i] = list->items[i].thing;
    return things;
}

static void publish(struct pass *pass)
{
    struct resolver *r = &pass->r;
    struct programme *programme = r->programme;
    programme->exercises = (struct exercise **)things_of(r, &pass->exercises);
    programme->exercise_count = pass->exercises.count;
    programme->activities = (struct activity **)things_of(r, &pass->activities);
    programme->activity_count = pass->activities.count;
    programme->gyms = (struct gym **)things_of(r, &pass->gyms);
    programme->gym_count = pass->gyms.count;
    programme->athletes = (struct athlete **)things_of(r, &pass->athletes);
    programme->athlete_count = pass->athletes.count;
    programme->sessions = (struct session **)things_of(r, &pass->sessions);
    programme->session_count = pass->sessions.count;
    programme->limits = (struct limits **)things_of(r, &pass->limits);
    programme->limits_count = pass->limits.count;
    programme->camps = (struct camp **)things_of(r, &pass->camps);
    programme->camp_count = pass->camps.count;
    programme->seasons = (struct season **)things_of(r, &pass->seasons);
    programme->season_count = pass->seasons.count;
    programme->tests = (struct test **)things_of(r, &pass->tests);
    programme->test_count = pass->tests.count;
}

static void report_base(struct resolver *r, const struct declared *declared, bool circle)
{
    const struct exercise *exercise = declared->thing, *base = exercise->base;
    const struct node *statement = node_find(declared->node, STATEMENT_PERCENT_OF);
    struct finding *finding =
        circle ? diag_error(r->diag, DIAG_CIRCULAR_PERCENT, statement->span,
                            "%s takes its percentage from %s, which leads back to it", exercise->name.shown,
                            base->name.shown)
               : diag_error(r->diag, DIAG_CHAINED_PERCENT, statement->span, "%s is itself taken as a share of %s",
                            base->name.shown, base->base->name.shown);
    diag_note(r->diag, finding, base->name.span, "`%s` is declared here", base->name.shown);
    if (circle)
        diag_help(r->diag, finding, "name a lift that has bests of its own");
    else
        diag_help(r->diag, finding, "name `%s` here", base->base->name.shown);
}

/* A share is of a lift that has bests of its own. Each circle is reported once, at its first lift. */
static void check_bases(struct resolver *r, const struct declarations *exercises)
{
    size_t count = exercises->count, *next = arena_alloc(r->arena, count * sizeof *next);
    for (size_t i = 0; i < count; i++) {
        const struct exercise *exercise = exercises->items[i].thing;
        next[i] = exercise->base == exercise ? count : exercise->base->number;
    }
    int *rows = rows_measure(r->arena, next, count);
    for (size_t i = 0; i < count; i++) {
        bool circle = rows_take_circle(rows, next, i);
        if (circle || rows[i] > 1)
            report_base(r, &exercises->items[i], circle);
    }
}

/* Where limits say what they are based on. */
static struct span base_span(const struct declared *declared)
{
    return node_find(declared->node, STATEMENT_BASED_ON)->first->span;
}

/* What is reported is cut, so that whoever follows a chain of limits comes to its end. */
static void check_limits_bases(struct resolver *r, const struct declarations *list)
{
    enum { MOST_BASES = 64 };
    size_t count = list->count, *next = arena_alloc(r->arena, count * sizeof *next);
    for (size_t i = 0; i < count; i++) {
        const struct limits *base = ((const struct limits *)list->items[i].thing)->base;
        next[i] = base ? base->number : count;
    }
    int *rows = rows_measure(r->arena, next, count);
    for (size_t i = 0; i < count; i++) {
        struct limits *limits = list->items[i].thing;
        struct finding *finding = NULL;
        bool circle = rows_take_circle(rows, next, i);
        if (circle)
            finding = diag_error(r->diag, DIAG_CIRCULAR_BASE, base_span(&list->items[i]),
                                 "these limits are based on themselves");
        else if (rows[i] == MOST_BASES + 1)
            finding = diag_error(r->diag, DIAG_TOO_DEEP, base_span(&list->items[i]),
                                 "more than %d lists of limits are based on one another", MOST_BASES);
        if (finding)
            diag_note(r->diag, finding, limits->base->name.span, "`%s` is declared here", limits->base->name.shown);
        if (circle || rows[i] > MOST_BASES)
            limits->base = NULL;
    }
}

static void resolve_privates(struct pass *pass)
{
    struct resolver *r = &pass->r;
    for (size_t i = 0; i < pass->privates.count; i++) {
        const struct node *node = pass->privates.items[i].node;
        struct athlete *athlete = resolver_find(r, node->first, "athlete", r->athletes);
        if (athlete)
            resolve_athlete(r, node, athlete);
    }
}

static void resolve_sessions(struct pass *pass)
{
    struct resolver *r = &pass->r;
    for (size_t i = 0; i < pass->sessions.count; i++) {
        struct session *session = pass->sessions.items[i].thing;
        session->node = pass->sessions.items[i].node;
        session->number = i + 1;
    }
    for (size_t i = 0; i < pass->sessions.count; i++)
        if (pass->sessions.items[i].node)
            template_of(r, pass->sessions.items[i].thing);
}

static void resolve_record(struct pass *pass)
{
    struct resolver *r = &pass->r;
    for (size_t i = 0; i < pass->held.count; i++)
        resolve_held(r, pass->held.items[i].node);
    check_held(r);
}

/* A club's lines on a test of the shelf are read after those of the shelf. */
static void resolve_tests(struct pass *pass)
{
    const struct declarations *const lists[] = {&pass->tests, &pass->test_changes};
    for (size_t list = 0; list < 2; list++)
        for (size_t i = 0; i < lists[list]->count; i++)
            resolve_test(&pass->r, lists[list]->items[i].node, lists[list]->items[i].thing);
    for (size_t list = 0; list < 2; list++)
        for (size_t i = 0; i < lists[list]->count; i++)
            check_test(&pass->r, lists[list]->items[i].node, lists[list]->items[i].thing);
}

static int first_day(const struct declarations *camps)
{
    int first = 0;
    for (size_t i = 0; i < camps->count; i++) {
        const struct camp *camp = camps->items[i].thing;
        if (camp->first && (!first || camp->first < first))
            first = camp->first;
    }
    return first;
}

/* Which parts of files athletes depend on through their declarations. What is placed for them comes later. */
static void track_declared(struct pass *pass)
{
    struct resolver *r = &pass->r;
    if (!r->tracking)
        return;
    track_open(r);
    for (size_t i = 0; i < pass->athletes.count; i++) {
        const struct athlete *athlete = pass->athletes.items[i].thing;
        track_part(r, athlete, athlete->name.span);
    }
    const struct declarations *const lists[] = {&pass->privates, &pass->logs};
    for (size_t list = 0; list < 2; list++)
        for (size_t i = 0; i < lists[list]->count; i++) {
            const struct node *node = lists[list]->items[i].node, *name = node_find(node, NODE_NAME);
            const struct athlete *athlete = name ? names_find(r->athletes, resolver_fold(r, name)) : NULL;
            if (athlete)
                track_part(r, athlete, node->span);
        }
}

static void resolve_things(struct pass *pass)
{
    struct resolver *r = &pass->r;
    r->missing = arena_alloc(r->arena, pass->gyms.count * sizeof *r->missing);
    for (size_t i = 0; i < pass->gyms.count; i++) {
        struct gym *gym = pass->gyms.items[i].thing;
        gym->number = i;
        resolve_gym(r, pass->gyms.items[i].node, gym);
    }
    for (size_t i = 0; i < pass->exercises.count && pass->exercises.items[i].node; i++) /* those lost come last */
        resolve_exercise(r, pass->exercises.items[i].node, pass->exercises.items[i].thing);
    check_bases(r, &pass->exercises);
    for (size_t i = 0; i < pass->gyms.count; i++)
        gym_check_names(r, pass->gyms.items[i].thing);
    for (size_t i = 0; i < pass->activities.count; i++)
        resolve_activity(r, pass->activities.items[i].node, pass->activities.items[i].thing);
    for (size_t i = 0; i < pass->protocols.count; i++)
        resolve_protocol(r, pass->protocols.items[i].node, pass->protocols.items[i].thing);
    resolve_tests(pass);
    for (size_t i = 0; i < pass->closings.count; i++) /* restrictions hold from the first day that is open */
        resolve_held_until(r, pass->closings.items[i].node);
    for (size_t i = 0; i < pass->athletes.count; i++) {
        struct athlete *athlete = pass->athletes.items[i].thing;
        athlete->number = i;
        resolve_athlete(r, pass->athletes.items[i].node, athlete);
    }
    resolve_privates(pass);
    for (size_t i = 0; i < pass->limits.count; i++) {
        struct limits *limits = pass->limits.items[i].thing;
        limits->number = i;
        resolve_limits(r, pass->limits.items[i].node, limits);
    }
    check_limits_bases(r, &pass->limits);
    resolve_sessions(pass);
    track_declared(pass);
    resolve_record(pass);
    for (size_t i = 0; i < pass->camps.count; i++) {
        struct camp *camp = pass->camps.items[i].thing;
        arena_poll(r->arena);
        camp->number = i;
        if (pass->camps.items[i].node)
            resolve_camp(r, pass->camps.items[i].node, camp);
    }
    for (size_t i = 0; i < pass->logs.count; i++) /* their lines are those of what is placed */
        resolve_log(r, pass->logs.items[i].node);
    order_logs(r);
    for (size_t i = 0; i < pass->seasons.count; i++)
        resolve_season(r, pass->seasons.items[i].node, pass->seasons.items[i].thing);
    report_seasons_overlap(r);
    int first = first_day(&pass->camps);
    track_choose(r, first);
    settle_occasions(r);
    for (size_t i = 0; i < pass->athletes.count; i++) {
        struct athlete *athlete = pass->athletes.items[i].thing;
        athlete->level = athlete_level_on(athlete, first);
    }
}

struct programme *programme_resolve_partial(struct arena *arena, const struct sources *sources,
                                            struct tree *const *trees, size_t count, int today, struct diag *diag,
                                            struct partial *partial)
{
    bool unread = diag_count(diag, SEVERITY_ERROR) > 0;
    struct programme *programme = arena_alloc(arena, sizeof *programme);
    *programme = (struct programme){.arena = arena, .sources = sources, .today = today};
    struct pass pass = {.r = {.arena = arena, .diag = diag, .sources = sources, .programme = programme,
                              .exercises = names_new(arena), .activities = names_new(arena),
                              .gyms = names_new(arena), .athletes = names_new(arena), .called = names_new(arena),
                              .sessions = names_new(arena), .camps = names_new(arena),
                              .limits = names_new(arena), .protocols = names_new(arena),
                              .seasons = names_new(arena), .tests = names_new(arena),
                              .kit = names_new(arena), .looks = names_new(arena), .positions = names_new(arena), .today = today}};
    if (partial)
        pass.r.tracking = tracking_new(&pass.r, partial);
    for (size_t i = 0; i < count; i++)
        if (!sources->items[trees[i]->file].shelf)
            resolve_private_parts(&pass.r, trees[i]);
    /* The shelf first: what a club declares is then compared with it, in whatever order the files came. */
    for (int shelf = 1; shelf >= 0; shelf--)
        for (size_t i = 0; i < count; i++)
            for (const struct node *node = trees[i]->root->first; node; node = node->next)
                if (sources->items[trees[i]->file].shelf == (shelf == 1))
                    declare_statement(&pass, node, shelf == 1);
    declare_held(&pass);
    publish(&pass);
    resolve_things(&pass);
    programme->incomplete = unread || pass.r.poisoned_count;
    programme->left_out = pass.r.left_out;
    programme->left_out_count = pass.r.left_out_count;
    programme->closed = pass.r.closed;
    programme->logs = pass.r.done;
    programme->log_count = pass.r.done_count;
    programme->has_private = pass.privates.count > 0;
    programme->waivers = pass.r.waivers;
    programme->waiver_count = pass.r.waiver_count;
    return programme;
}

struct programme *programme_resolve(struct arena *arena, const struct sources *sources, struct tree *const *trees,
                                    size_t count, int today, struct diag *diag)
{
    return programme_resolve_partial(arena, sources, trees, count, today, diag, NULL);
}

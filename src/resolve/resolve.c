#include "resolve/resolve.h"

#include <string.h>

#include "measure/person.h"
#include "model/programme.h"
#include "resolve/declare.h"
#include "resolve/place.h"
#include "resolve/rows.h"
#include "resolve/template.h"
#include "resolve/tracking.h"

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

/* What was measured on a day, which stands apart from its athlete. */
static void resolve_day_results(struct pass *pass)
{
    struct resolver *r = &pass->r;
    for (size_t i = 0; i < pass->results.count; i++) {
        const struct node *node = pass->results.items[i].node;
        struct athlete *athlete = resolver_find(r, node_find(node, NODE_NAME), "athlete", r->athletes);
        if (athlete)
            resolve_results(r, node, athlete);
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
    const struct declarations *const lists[] = {&pass->privates, &pass->results, &pass->logs};
    for (size_t list = 0; list < sizeof lists / sizeof *lists; list++)
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
    resolve_day_results(pass);
    for (size_t i = 0; i < pass->athletes.count; i++)
        order_entries(pass->athletes.items[i].thing);
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
    for (size_t i = 0; i < pass->athletes.count; i++)
        order_pains(pass->athletes.items[i].thing);
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
    if (unread)
        mark_unread(&pass.r);
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
    declare_lost_names(&pass);
    publish(&pass);
    resolve_things(&pass);
    programme->incomplete = unread || pass.r.poisoned_count || pass.r.full || pass.r.large;
    if (programme->incomplete)
        programme->unclear = find_unclear(&pass, trees, count);
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

#include "rules/rules.h"

#include <string.h>

#include "measure/hold.h"
#include "measure/member.h"
#include "model/programme.h"
#include "rules/finding_groups.h"
#include "rules/margin.h"
#include "rules/recall.h"

static size_t longest_of(const struct timeline *timelines, size_t count)
{
    size_t longest = 0;
    for (size_t i = 0; i < count; i++)
        longest = timelines[i].count > longest ? timelines[i].count : longest;
    return longest;
}

/* --- the limits of a window --- */

/* Adds the limits that apply to CAMP, but none twice: two camps usually share the house defaults. */
static void add_limits(struct run *run, struct window *window, const struct camp *camp,
                       const struct phase *phase, enum limit_scope scope)
{
    const struct limit_table *table = run_table(run, camp);
    if (table->group_count == 0)
        return;
    struct in_force *both =
        arena_alloc(run->arena, (window->limit_count + table->most) * sizeof *both);
    if (window->limit_count)
        memcpy(both, window->limits, window->limit_count * sizeof *both);
    struct in_force *fresh = both + window->limit_count;
    struct holder holder = {window->athlete, phase, window->first, window->last};
    size_t picked = limit_table_pick(table, scope, &holder, fresh), kept = 0;
    for (size_t i = 0; i < picked; i++) {
        bool known = false;
        for (size_t k = 0; k < window->limit_count; k++)
            known |= both[k].layered->limit == fresh[i].layered->limit;
        if (known)
            continue;
        window->kinds |= 1u << fresh[i].layered->kind;
        fresh[kept++] = fresh[i];
    }
    window->limits = both;
    window->limit_count += kept;
}

static void add_week_limits(struct run *run, struct window *week)
{
    for (size_t i = 0; i < week->timeline->camp_count; i++) {
        const struct camp *camp = week->timeline->camps[i];
        if (camp->first <= week->last && camp->last >= week->first &&
            camp_has_between(camp, week->athlete, week->first, week->last))
            add_limits(run, week, camp, camp_phase_between(camp, week->first, week->last),
                       LIMIT_WEEK);
    }
}

const struct limit_table *run_table(const struct run *run, const struct camp *camp)
{
    return &run->tables[camp->number];
}

static void build_tables(struct run *run)
{
    size_t count = run->programme->camp_count;
    struct limit_table *tables = arena_alloc(run->arena, (count ? count : 1) * sizeof *tables);
    for (size_t i = 0; i < count; i++)
        limit_table_build(run->arena, run->programme, run->programme->camps[i], &tables[i]);
    run->tables = tables;
}

/* --- what is new --- */

int run_first_seen(const struct window *window, const struct exercise *exercise)
{
    return window->timeline->first_seen[exercise->number];
}

bool run_is_new(const struct window *window, const struct exercise *exercise, int weeks)
{
    int first = run_first_seen(window, exercise);
    if (window->first >= first + 7 * weeks)
        return false;
    for (size_t i = 0; i < window->athlete->best_count; i++)
        if (window->athlete->bests[i].exercise == exercise &&
            window->athlete->bests[i].date <= first)
            return false;
    for (size_t i = 0; i < window->athlete->result_count; i++)
        if (window->athlete->results[i].test->exercise == exercise && window->athlete->results[i].date <= first)
            return false;
    return true;
}

/* --- what was not understood --- */

static bool is_unclear(const struct run *run, const struct athlete *athlete)
{
    const bool *unclear = run->programme->unclear;
    return unclear && unclear[athlete->number];
}

/* Is anybody in doubt who is in a camp with ATHLETE? */
static bool has_unclear_company(const struct run *run, const struct athlete *athlete)
{
    const struct programme *programme = run->programme;
    for (size_t i = 0; programme->unclear && i < programme->camp_count; i++) {
        const struct camp *camp = programme->camps[i];
        for (size_t k = 0; camp_lists(camp, athlete) && k < camp->athlete_count; k++)
            if (is_unclear(run, camp->athletes[k]))
                return true;
    }
    return false;
}

/* --- calling the checks --- */

static void call_all(struct run *run, const struct window *window)
{
    for (size_t i = 0; i < rules_count; i++)
        if (rules[i].check && rules[i].scopes & window->scope && !(rules[i].marks & TOGETHER && run->company_unclear))
            rules[i].check(run, &rules[i], window);
}

static struct window *occasion_windows(struct run *run, const struct window *week)
{
    struct window *windows = arena_alloc(run->arena, (week->count + 1) * sizeof *windows);
    for (size_t i = 0; i < week->count; i++) {
        const struct occasion *occasion = week->occasions[i];
        windows[i] = (struct window){.scope = SCOPE_OCCASION,
                                     .timeline = week->timeline,
                                     .athlete = week->athlete,
                                     .camp = occasion->camp,
                                     .phase = occasion->phase,
                                     .first = occasion->date,
                                     .last = occasion->date,
                                     .occasions = week->occasions + i,
                                     .count = 1,
                                     .at = week->at + i,
                                     .sum = timeline_sum_place(week->timeline)};
        if (occasion->session)
            add_limits(run, &windows[i], occasion->camp, occasion->phase, LIMIT_SESSION);
    }
    return windows;
}

/* In the order of the table, so that the checks that matter most are the five that a screen shows of a week. */
static void check_week(struct run *run, struct window *week)
{
    /* A suggestion for a phase or a camp looks at the limits of every week. */
    add_week_limits(run, week);
    if (!run_wants(run, week))
        return;
    struct window *occasions = occasion_windows(run, week);
    run->week = week;
    for (size_t i = 0; i < rules_count; i++) {
        const struct rule *rule = &rules[i];
        for (size_t o = 0; rule->check && rule->scopes & SCOPE_OCCASION && o < week->count; o++)
            if (!(rule->marks & TO_COME && occasions[o].occasions[0]->held))
                rule->check(run, rule, &occasions[o]);
        if (rule->check && rule->scopes & SCOPE_WEEK)
            rule->check(run, rule, week);
    }
    run->week = NULL;
}

static void check_camp(struct run *run, const struct timeline *timeline, const struct camp *camp)
{
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        if (!camp_has_between(camp, timeline->athlete, phase->first, phase->last))
            continue;
        struct window window =
            timeline_window(timeline, SCOPE_PHASE, phase->first, phase->last);
        window.camp = camp;
        window.phase = phase;
        add_limits(run, &window, camp, phase, LIMIT_PHASE);
        if (run_wants(run, &window))
            call_all(run, &window);
    }
    struct window window = timeline_window(timeline, SCOPE_CAMP, camp->first, camp->last);
    window.camp = camp;
    add_limits(run, &window, camp, NULL, LIMIT_CAMP);
    call_all(run, &window);
}

static void check_athlete(struct run *run, const struct timeline *timeline)
{
    size_t weeks = timeline->week_count;
    run->company_unclear = has_unclear_company(run, timeline->athlete);
    struct window whole = {.scope = SCOPE_ATHLETE,
                           .timeline = timeline,
                           .athlete = timeline->athlete,
                           .first = weeks ? timeline->weeks[0].first : 0,
                           .last = weeks ? timeline->weeks[weeks - 1].last : 0,
                           .occasions = timeline->occasions,
                           .count = timeline->count};
    for (size_t i = 0; i < weeks; i++)
        check_week(run, &timeline->weeks[i]);
    for (size_t i = 0; i < timeline->camp_count; i++)
        check_camp(run, timeline, timeline->camps[i]);
    call_all(run, &whole);
}

/* What is asked for besides findings of everything: see struct run. */
struct wish {
    const struct wanted *wanted;
    enum severity least;
    bool *barred;
    struct margins *margins;
    const struct recalls *recalls;
};

/* Is anything of ATHLETE's that is left out of the plan asked for? */
static bool wants_left_out(const struct run *run, const struct athlete *athlete)
{
    size_t count;
    const struct left_out *first = athlete_left_out(run->programme, athlete, &count);
    for (size_t i = 0; run->wanted && i < count; i++)
        if (run->wanted->left_out[first + i - run->programme->left_out])
            return true;
    return false;
}

/* --- one athlete apart from another --- */

/* Checks the athlete of TIMELINE alone. */
static struct recall *check_alone(struct run *run, struct timeline *timeline, struct tally *tallies,
                                  struct arena *arena)
{
    run->groups = groups_new(run->arena);
    run->diag = diag_new(run->arena, run->programme->sources);
    memset(run->waived, 0, run->programme->waiver_count * sizeof *run->waived);
    run->passing_count = 0;
    timeline_gather(run, timeline, tallies);
    check_athlete(run, timeline);
    groups_word(run);
    return recall_keep(run, arena);
}

static void drop_table(void *table)
{
    g_hash_table_destroy(table);
}

static void check_recalling(struct run *run, struct timeline *timelines, struct tally *tallies)
{
    const struct recalls *recalls = run->recalls;
    const struct programme *programme = run->programme;
    struct diag *diag = run->diag;
    struct groups *groups = run->groups;
    run->identities = g_hash_table_new(NULL, NULL);
    arena_at_end(run->arena, drop_table, run->identities);
    recall_identify(run);
    for (size_t a = 0; a < programme->athlete_count; a++) {
        arena_poll(run->arena);
        if (recalls->wanted[a])
            recalls->after[a] = check_alone(run, &timelines[a], tallies, recalls->arena_for(recalls->with, a));
    }
    run->recalls = NULL;
    run->diag = diag;
    run->groups = groups;
    memset(run->waived, 0, programme->waiver_count * sizeof *run->waived);
    const struct shift still = {0};
    for (size_t a = 0; a < programme->athlete_count; a++) {
        bool fresh = recalls->wanted[a];
        const struct recall *recall = fresh ? recalls->after[a] : recalls->before[a];
        run->company_unclear = has_unclear_company(run, programme->athletes[a]);
        if (recall)
            recall_put(run, recall, fresh ? &still : &recalls->shift, programme->athletes[a]);
    }
}

static void check_athletes(struct run *run, struct timeline *timelines, struct tally *tallies)
{
    const struct programme *programme = run->programme;
    for (size_t a = 0; a < programme->athlete_count; a++) {
        const struct window all = {.occasions = timelines[a].occasions, .count = timelines[a].count};
        arena_poll(run->arena);
        if (is_unclear(run, programme->athletes[a]) ||
            (!run_wants(run, &all) && !wants_left_out(run, programme->athletes[a])))
            continue;
        timeline_gather(run, &timelines[a], tallies);
        check_athlete(run, &timelines[a]);
    }
}

static void run_all(const struct programme *programme, struct diag *diag, const struct wish *wish)
{
    struct run run = {.arena = programme->arena,
                      .programme = programme,
                      .diag = diag,
                      .wanted = wish->wanted,
                      .least = wish->least,
                      .barred = wish->barred,
                      .margins = wish->margins,
                      .recalls = wish->recalls,
                      .groups = groups_new(programme->arena),
                      .waived = arena_alloc(programme->arena,
                                            (programme->waiver_count + 1) * sizeof(struct waived))};
    build_tables(&run);
    struct timeline *timelines = timelines_of(&run);
    size_t longest = longest_of(timelines, programme->athlete_count);
    struct tally *tallies = arena_alloc(run.arena, (longest + 1) * sizeof *tallies);
    if (wish->recalls)
        check_recalling(&run, timelines, tallies);
    else
        check_athletes(&run, timelines, tallies);
    run.company_unclear = false;
    struct window whole = {.scope = SCOPE_PROGRAMME};
    if (!programme->incomplete) /* what seems to be unused may be used there */
        call_all(&run, &whole);
    groups_finish(&run);
}

void rules_run(const struct programme *programme, struct diag *diag)
{
    run_all(programme, diag, &(struct wish){0});
}

void rules_run_wanted(const struct programme *programme, const struct wanted *wanted, enum severity least, bool *barred,
                      struct diag *diag)
{
    run_all(programme, diag, &(struct wish){.wanted = wanted, .least = least, .barred = barred});
}

void rules_run_recalling(const struct programme *programme, const struct recalls *recalls, struct diag *diag)
{
    run_all(programme, diag, &(struct wish){.recalls = recalls});
}

void rules_measure(const struct programme *programme, struct margins *margins)
{
    run_all(programme, diag_new(programme->arena, programme->sources),
            &(struct wish){.margins = margins});
}

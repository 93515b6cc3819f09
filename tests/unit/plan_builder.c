#include "kg.h"
#include "unit/plan_builder.h"

#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"
#include "rules/margin.h"
#include "rules/rules.h"
#include "source/screen.h"

/* Adds LINE to the source and returns where it stands, without its indentation. */
static struct span write_line(struct plan *plan, const char *line)
{
    size_t indent = strspn(line, " ");
    struct span span = {0, (uint32_t)(plan->text.length + indent),
                        (uint32_t)(plan->text.length + strlen(line))};
    text_add(&plan->text, line);
    text_add_char(&plan->text, '\n');
    return span;
}

static struct name make_name(struct plan *plan, const char *what, const char *name)
{
    struct name made = {.shown = name,
                        .folded = text_fold(plan->arena, name, strlen(name)),
                        .span = write_line(plan, arena_printf(plan->arena, "%s%s", what, name))};
    return made;
}

struct plan *plan_new(void)
{
    struct arena *arena = arena_new();
    struct plan *plan = arena_alloc(arena, sizeof *plan);
    plan->arena = arena;
    plan->sources.arena = arena;
    plan->diag = diag_new(arena, &plan->sources);
    struct programme *programme = &plan->programme;
    programme->arena = arena;
    programme->sources = &plan->sources;
    programme->exercises = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct exercise *));
    programme->activities = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct activity *));
    programme->gyms = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct gym *));
    programme->athletes = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct athlete *));
    programme->sessions = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct session *));
    programme->camps = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct camp *));
    programme->limits = arena_alloc(arena, PLAN_MOST_LISTED * sizeof(struct limits *));
    return plan;
}

void plan_free(struct plan *plan)
{
    text_free(&plan->text);
    arena_free(plan->arena);
}

struct athlete *plan_athlete(struct plan *plan, const char *name, enum stance stance)
{
    struct athlete *athlete = arena_alloc(plan->arena, sizeof *athlete);
    athlete->name = make_name(plan, "athlete ", name);
    athlete->stance = stance;
    athlete->level = LEVEL_INTERMEDIATE;
    athlete->bests = arena_alloc(plan->arena, PLAN_MOST * sizeof *athlete->bests);
    athlete->number = plan->programme.athlete_count;
    plan->programme.athletes[plan->programme.athlete_count++] = athlete;
    return athlete;
}

struct gym *plan_gym(struct plan *plan, const char *name)
{
    struct gym *gym = arena_alloc(plan->arena, sizeof *gym);
    gym->name = make_name(plan, "gym ", name);
    gym->bars = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->bars);
    gym->others = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->others);
    gym->discs = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->discs);
    gym->dumbbells = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->dumbbells);
    gym->kettlebells = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->kettlebells);
    gym->balls = arena_alloc(plan->arena, PLAN_MOST * sizeof *gym->balls);
    plan->programme.gyms[plan->programme.gym_count++] = gym;
    return gym;
}

void plan_kit(struct plan *plan, struct gym *gym, const char *name, int count)
{
    gym->others[gym->other_count++] =
        (struct kit){.name = make_name(plan, "    also has ", name), .count = count};
}

void plan_bar(struct plan *plan, struct gym *gym, const char *name, mass weight, int count)
{
    gym->bars[gym->bar_count++] =
        (struct kit){.name = make_name(plan, "    bars ", name), .mass = weight, .count = count};
}

void plan_best(struct plan *plan, struct athlete *athlete, const struct exercise *exercise,
               mass one_max, int date)
{
    athlete->bests[athlete->best_count++] = (struct best){
        .exercise = exercise,
        .reps = 1000,
        .load = one_max,
        .one_max = one_max,
        .date = date,
        .span = write_line(plan, arena_printf(plan->arena, "        %s : 1 @ %lld kg",
                                              exercise->name.shown, (long long)(one_max / MASS_KG)))};
}

struct camp *plan_camp(struct plan *plan, const char *name, int first, int weeks)
{
    struct camp *camp = arena_alloc(plan->arena, sizeof *camp);
    camp->name = make_name(plan, "camp ", name);
    camp->athletes = arena_alloc(plan->arena, PLAN_MOST_LISTED * sizeof(struct athlete *));
    camp->phases = arena_alloc(plan->arena, PLAN_MOST * sizeof *camp->phases);
    camp->limits = arena_alloc(plan->arena, PLAN_MOST * sizeof(struct limits *));
    camp->first = first;
    camp->last = first + 7 * weeks - 1;
    camp->weeks = weeks;
    camp->number = plan->programme.camp_count;
    plan->programme.camps[plan->programme.camp_count++] = camp;
    return camp;
}

void plan_join(struct plan *plan, struct camp *camp, struct athlete *athlete)
{
    (void)plan;
    camp->athletes[camp->athlete_count++] = athlete;
}

struct bout *plan_bout(struct plan *plan, struct camp *camp, int day)
{
    struct bout *bout = arena_alloc(plan->arena, sizeof *bout);
    int *days = arena_alloc(plan->arena, sizeof *days);
    *days = day;
    *bout = (struct bout){.day = day, .days = days, .day_count = 1, .last = day, .clock = -1};
    if (!camp->bouts)
        camp->bouts = arena_alloc(plan->arena, PLAN_MOST_LISTED * sizeof(struct bout *));
    assert_true(camp->bout_count < PLAN_MOST_LISTED);
    camp->bouts[camp->bout_count++] = bout;
    return bout;
}

struct phase *plan_phase(struct plan *plan, struct camp *camp, const char *name, int first,
                         int last)
{
    struct phase *phase = &camp->phases[camp->phase_count++];
    phase->name = make_name(plan, "        ", name);
    phase->first = first;
    phase->last = last;
    return phase;
}

struct limits *plan_limits(struct plan *plan, struct camp *camp, const char *name)
{
    struct limits *limits = arena_alloc(plan->arena, sizeof *limits);
    limits->name = make_name(plan, "limits ", name);
    limits->items = arena_alloc(plan->arena, PLAN_MOST * sizeof *limits->items);
    plan->programme.limits[plan->programme.limits_count++] = limits;
    if (camp)
        camp->limits[camp->limits_count++] = limits;
    return limits;
}

struct limit *plan_limit(struct plan *plan, struct limits *limits, enum limit_scope scope,
                         const char *counted, enum limit_bound bound, milli value)
{
    struct limit *limit = &limits->items[limits->count++];
    limit->scope = scope;
    limit->level = -1;
    limit->counted = counted;
    limit->bound = bound;
    limit->value = value;
    limit->source = "common practice";
    limit->span = write_line(plan, arena_printf(plan->arena, "        %s %s %lld", counted,
                                                bound == LIMIT_AT_LEAST ? "at least" : "at most",
                                                (long long)(value / 1000)));
    return limit;
}

struct exercise *plan_exercise(struct plan *plan, const char *name, enum exercise_kind kind,
                               enum pattern pattern)
{
    struct exercise *exercise = arena_alloc(plan->arena, sizeof *exercise);
    exercise->name = make_name(plan, "exercise ", name);
    exercise->kind = kind;
    exercise->pattern = pattern;
    exercise->patterns = 1u << pattern;
    exercise->needs = arena_alloc(plan->arena, PLAN_MOST * sizeof *exercise->needs);
    exercise->base = exercise;
    exercise->factor = 1000;
    exercise->weigh = WEIGH_BAR_AND_PLATES;
    exercise->ballistic = kind == EXERCISE_POWER || pattern == PATTERN_STRIKE;
    exercise->number = plan->programme.exercise_count;
    plan->programme.exercises[plan->programme.exercise_count++] = exercise;
    return exercise;
}

void plan_need(struct plan *plan, struct exercise *exercise, const char *kit)
{
    exercise->needs[exercise->need_count++] =
        (struct need){.name = make_name(plan, "    needs ", kit), .count = 1};
}

struct activity *plan_activity(struct plan *plan, const char *name)
{
    struct activity *activity = arena_alloc(plan->arena, sizeof *activity);
    activity->name = make_name(plan, "activity ", name);
    plan->programme.activities[plan->programme.activity_count++] = activity;
    return activity;
}

struct session *plan_session(struct plan *plan, const char *name)
{
    struct session *session = arena_alloc(plan->arena, sizeof *session);
    session->name = make_name(plan, "session ", name);
    session->first = session;
    plan->programme.sessions[plan->programme.session_count++] = session;
    return session;
}

static struct occasion *add_occasion(struct plan *plan, const struct camp *camp,
                                     const struct athlete *athlete, int date, const char *line)
{
    struct occasion *occasion = arena_alloc(plan->arena, sizeof *occasion);
    occasion->camp = camp;
    occasion->athlete = athlete;
    occasion->date = date;
    occasion->clock = -1;
    occasion->weeks_out = -1;
    for (size_t i = 0; i < camp->phase_count; i++)
        if (date >= camp->phases[i].first && date <= camp->phases[i].last)
            occasion->phase = &camp->phases[i];
    occasion->span = write_line(plan, arena_printf(plan->arena, "            %s", line));
    occasion->place = occasion;
    plan->occasions = arena_grow(plan->arena, plan->occasions, plan->occasion_count,
                                 &plan->occasion_capacity, sizeof(struct occasion *));
    plan->occasions[plan->occasion_count++] = occasion;
    return occasion;
}

struct occasion *plan_place(struct plan *plan, const struct camp *camp,
                            const struct athlete *athlete, struct session *session, int date)
{
    struct occasion *occasion = add_occasion(plan, camp, athlete, date, session->name.shown);
    occasion->session = session;
    occasion->blocks = arena_alloc(plan->arena, PLAN_MOST * sizeof(struct block));
    session->placed++;
    return occasion;
}

struct occasion *plan_do(struct plan *plan, const struct camp *camp, const struct athlete *athlete,
                         const struct activity *activity, int date)
{
    struct occasion *occasion = add_occasion(plan, camp, athlete, date, activity->name.shown);
    occasion->activity = activity;
    return occasion;
}

/* The builder owns what the programme only shows: the const is its own. */
struct block *plan_block(struct plan *plan, struct occasion *occasion, enum block_kind kind,
                         int sets)
{
    struct block *block = (struct block *)&occasion->blocks[occasion->block_count];
    block->kind = kind;
    block->letter = (char)('A' + occasion->block_count++);
    block->sets = sets;
    block->items = arena_alloc(plan->arena, PLAN_MOST * sizeof(struct item));
    block->span = write_line(plan, arena_printf(plan->arena, "    %s %c %d sets",
                                                block_kinds.names[kind], block->letter, sets));
    return block;
}

struct item *plan_item(struct plan *plan, struct block *block, const struct exercise *exercise)
{
    struct item *item = (struct item *)&block->items[block->item_count];
    item->exercise = exercise;
    item->index = (int)block->item_count++;
    item->ref = arena_printf(plan->arena, "%c.%zu", block->letter, block->item_count);
    item->after = -1;
    item->runs = arena_alloc(plan->arena, PLAN_MOST * sizeof(struct set_run));
    item->span = write_line(plan, arena_printf(plan->arena, "        %s", exercise->name.shown));
    return item;
}

struct set_run *plan_sets(struct plan *plan, struct item *item, int count, int amount,
                          enum unit unit)
{
    struct set_run *run = (struct set_run *)&item->runs[item->run_count++];
    struct part *parts = arena_alloc(plan->arena, PLAN_MOST * sizeof *parts);
    parts[0].amount = (struct range){(milli)amount * 1000, (milli)amount * 1000};
    parts[0].unit = unit;
    run->count = count;
    run->parts = parts;
    run->part_count = 1;
    run->repeats = 1;
    run->load.pieces = 1;
    run->span = item->span;
    item->sets += count;
    return run;
}

struct part *plan_part(struct set_run *run, size_t index)
{
    if (index >= run->part_count)
        run->part_count = index + 1;
    return (struct part *)&run->parts[index];
}

static milli thousandths(double figure)
{
    return (milli)(figure * 1000 + 0.5);
}

void plan_percent(struct set_run *run, double percent)
{
    run->load.kind = LOAD_PERCENT;
    run->load.percent = (struct range){thousandths(percent), thousandths(percent)};
}

void plan_kilograms(struct set_run *run, double kilograms)
{
    if (run->load.kind == LOAD_NONE)
        run->load.kind = LOAD_MASS;
    run->load.asked = run->load.made = KG(kilograms);
}

void plan_effort(struct set_run *run, enum effort_kind kind, double figure)
{
    run->load.effort = kind;
    run->load.effort_band = (struct range){thousandths(figure), thousandths(figure)};
}

/* --- checking --- */

static int by_date(const void *left, const void *right)
{
    const struct occasion *a = left, *b = right;
    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (a->clock != b->clock)
        return a->clock < b->clock ? -1 : 1;
    return a->span.start < b->span.start ? -1 : a->span.start > b->span.start;
}

void plan_check(struct plan *plan)
{
    struct programme *programme = &plan->programme;
    struct occasion *occasions =
        arena_alloc(plan->arena, (plan->occasion_count + 1) * sizeof *occasions);
    for (size_t i = 0; i < plan->occasion_count; i++)
        occasions[i] = *plan->occasions[i];
    if (plan->occasion_count)
        qsort(occasions, plan->occasion_count, sizeof *occasions, by_date);
    programme->occasions = occasions;
    programme->occasion_count = plan->occasion_count;
    source_add(&plan->sources, "plan.bell", text_get(&plan->text), plan->text.length);
    rules_run(programme, plan->diag);
    diag_sort(plan->diag);
}

size_t plan_found(const struct plan *plan, const char *name)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->diag->count; i++)
        count += strcmp(diagnostic_name(plan->diag->items[i]->diagnostic), name) == 0;
    return count;
}

const struct finding *plan_finding(const struct plan *plan, const char *name)
{
    for (size_t i = 0; i < plan->diag->count; i++)
        if (strcmp(diagnostic_name(plan->diag->items[i]->diagnostic), name) == 0)
            return plan->diag->items[i];
    return NULL;
}

const char *plan_shown(struct plan *plan)
{
    struct text out = {0};
    struct diag_style style = {.infos = true};
    diag_print(plan->diag, &style, &out);
    const char *shown = arena_copy(plan->arena, text_get(&out), out.length);
    text_free(&out);
    return shown;
}

/* --- a plan that most tests begin with --- */

struct bench bench_new(void)
{
    struct bench bench = {.plan = plan_new(), .monday = date_from_ymd(2027, 3, 1)};
    bench.athlete = plan_athlete(bench.plan, "Oriel Tamsin", STANCE_SOUTHPAW);
    bench.camp = plan_camp(bench.plan, "Harbour final", bench.monday, 4);
    plan_join(bench.plan, bench.camp, bench.athlete);
    bench.limits = plan_limits(bench.plan, bench.camp, "Slipway house limits");
    bench.session = plan_session(bench.plan, "Hips before hands");
    return bench;
}

struct occasion *bench_place(struct bench *bench, int days)
{
    return plan_place(bench->plan, bench->camp, bench->athlete, bench->session,
                      bench->monday + days);
}

struct occasion *bench_spar(struct bench *bench, int rounds, int days)
{
    struct activity *activity = plan_activity(bench->plan, "sparring");
    activity->sparring = activity->contact = activity->head = true;
    struct occasion *occasion =
        plan_do(bench->plan, bench->camp, bench->athlete, activity, bench->monday + days);
    occasion->rounds = rounds;
    occasion->seconds = rounds * 180;
    occasion->rpe = (struct range){7000, 7000};
    return occasion;
}

struct set_run *bench_sets(struct bench *bench, struct occasion *occasion,
                           const struct exercise *exercise, int count, int amount, enum unit unit)
{
    struct block *block = plan_block(bench->plan, occasion, BLOCK_STRAIGHT, count);
    return plan_sets(bench->plan, plan_item(bench->plan, block, exercise), count, amount, unit);
}

struct exercise *bench_squat(struct bench *bench)
{
    struct exercise *squat =
        plan_exercise(bench->plan, "back squat", EXERCISE_STRENGTH, PATTERN_SQUAT);
    squat->loads[REGION_FRONT_THIGH] = 1000;
    return squat;
}

struct exercise *bench_press(struct bench *bench)
{
    struct exercise *press =
        plan_exercise(bench->plan, "bench press", EXERCISE_STRENGTH, PATTERN_PUSH);
    press->loads[REGION_SHOULDER] = 500;
    press->loads[REGION_CHEST] = 1000;
    return press;
}

struct exercise *bench_throw(struct bench *bench)
{
    struct exercise *toss =
        plan_exercise(bench->plan, "rear hand ball throw", EXERCISE_POWER, PATTERN_THROW);
    toss->side = SIDE_PER_STANCE;
    toss->workers = WORKER_REAR_HAND;
    toss->loads[REGION_SHOULDER] = 500;
    toss->weigh = WEIGH_IMPLEMENT;
    return toss;
}

void bench_expect(struct bench *bench, const char *name, size_t count)
{
    assert_non_null(rule_find(name));
    plan_check(bench->plan);
    if (plan_found(bench->plan, name) != count)
        print_error("%zu of %s expected:\n%s\n", count, name, plan_shown(bench->plan));
    assert_int_equal(plan_found(bench->plan, name), count);
    plan_free(bench->plan);
}

void bench_expect_words(struct bench *bench, const char *name, enum severity severity,
                        const char *words)
{
    plan_check(bench->plan);
    const struct finding *finding = plan_finding(bench->plan, name);
    if (!finding)
        print_error("%s expected:\n%s\n", name, plan_shown(bench->plan));
    assert_non_null(finding);
    assert_string_equal(finding->words, words);
    assert_int_equal(finding->severity, severity);
    plan_free(bench->plan);
}

milli plan_left(const struct plan *plan, const struct limit *limit, enum counted counted)
{
    struct margins margins = {0};
    rules_measure(&plan->programme, &margins);
    milli least = PLAN_NOTHING_LEFT;
    for (size_t i = 0; i < margins.count; i++)
        if (margins.items[i].limit == limit && margins.items[i].counted == counted && margins.items[i].left < least)
            least = margins.items[i].left;
    return least;
}

struct waiver *bench_waive(struct bench *bench, const char *check)
{
    struct waiver *waiver = arena_alloc(bench->plan->arena, sizeof *waiver);
    *waiver = (struct waiver){.check = check,
                              .because = "agreed",
                              .first = bench->monday,
                              .last = bench->monday + 27,
                              .camp = bench->camp};
    bench->plan->programme.waivers = waiver;
    bench->plan->programme.waiver_count = 1;
    return waiver;
}

struct limit *bench_phase_limit(struct bench *bench, const char *counted, enum limit_bound bound, milli value,
                                milli top)
{
    struct limit *limit = plan_limit(bench->plan, bench->limits, LIMIT_PHASE, counted, bound, value);
    limit->phase = "taper";
    limit->top = top;
    return limit;
}

struct bench bench_taper(int first, int last)
{
    struct bench bench = bench_new();
    plan_phase(bench.plan, bench.camp, "base", bench.monday, bench.monday + first - 1);
    plan_phase(bench.plan, bench.camp, "taper", bench.monday + first, bench.monday + last);
    return bench;
}

void bench_sets_on(struct bench *bench, const struct exercise *exercise, int day, int sets)
{
    bench_sets(bench, bench_place(bench, day), exercise, sets, 5, UNIT_REPS);
}

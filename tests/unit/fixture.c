#include "kg.h"
#include "unit/fixture.h"

#include <string.h>

#include "figures/dates.h"
#include "measure/loads.h"

static struct name named(const char *words)
{
    return (struct name){.shown = words, .folded = words};
}

/* --- exercises --- */

enum which { ROPE, SWITCH, LANDMINE, THROW, SQUAT, GOBLET, PLANK, NECK, WHICH_COUNT };

static const char *const landmine_cues[] = {"turn the hip before the arm moves"};
static const char *const throw_cues[] = {"let the ball go at full reach"};
static const char *const squat_cues[] = {"knees follow the toes"};
static const char *const plank_cues[] = {"ribs down, hips forward"};

static const struct exercise shelf[WHICH_COUNT] = {
    [ROPE] = {.kind = EXERCISE_WARM_UP, .counts = UNIT_SECONDS},
    [SWITCH] = {.kind = EXERCISE_MOBILITY, .side = SIDE_EACH_SIDE},
    [LANDMINE] = {.kind = EXERCISE_STRENGTH,
                  .side = SIDE_PER_STANCE,
                  .workers = WORKER_REAR_HAND,
                  .weigh = WEIGH_PLATES,
                  .cues = (const char **)landmine_cues,
                  .cue_count = 1,
                  .stop = "the low back arches or the shoulder pinches"},
    [THROW] = {.kind = EXERCISE_POWER,
               .side = SIDE_PER_STANCE,
               .weigh = WEIGH_IMPLEMENT,
               .cues = (const char **)throw_cues,
               .cue_count = 1,
               .ballistic = true},
    [SQUAT] = {.kind = EXERCISE_STRENGTH,
               .weigh = WEIGH_BAR_AND_PLATES,
               .cues = (const char **)squat_cues,
               .cue_count = 1},
    [GOBLET] = {.kind = EXERCISE_STRENGTH, .weigh = WEIGH_IMPLEMENT},
    [PLANK] = {.kind = EXERCISE_HOLD,
               .side = SIDE_EACH_SIDE,
               .cues = (const char **)plank_cues,
               .cue_count = 1},
    [NECK] = {.kind = EXERCISE_HOLD, .side = SIDE_EACH_WAY, .ways = 4, .stop = "any pain or tingling"},
};

static const char *const shelf_names[WHICH_COUNT] = {
    [ROPE] = "rope",
    [SWITCH] = "90-90 hip switch",
    [LANDMINE] = "landmine press from a stance",
    [THROW] = "rear hand ball throw",
    [SQUAT] = "safety bar squat",
    [GOBLET] = "goblet squat",
    [PLANK] = "side plank",
    [NECK] = "four-way neck hold",
};

static void need(struct arena *arena, struct exercise *exercise, const char *thing)
{
    struct need *needs = arena_alloc(arena, (exercise->need_count + 1) * sizeof *needs);
    if (exercise->need_count)
        memcpy(needs, exercise->needs, exercise->need_count * sizeof *needs);
    needs[exercise->need_count++] = (struct need){.name = named(thing), .count = 1};
    exercise->needs = needs;
}

static void make_exercises(struct fixture *fixture)
{
    struct programme *programme = &fixture->programme;
    programme->exercises = arena_alloc(fixture->arena, WHICH_COUNT * sizeof(struct exercise *));
    programme->exercise_count = WHICH_COUNT;
    for (size_t i = 0; i < WHICH_COUNT; i++) {
        struct exercise *exercise = arena_alloc(fixture->arena, sizeof *exercise);
        *exercise = shelf[i];
        exercise->name = named(shelf_names[i]);
        exercise->base = exercise;
        exercise->factor = 1000;
        exercise->number = i;
        programme->exercises[i] = exercise;
    }
    need(fixture->arena, programme->exercises[ROPE], "rope");
    need(fixture->arena, programme->exercises[LANDMINE], "landmine");
    need(fixture->arena, programme->exercises[LANDMINE], "barbell");
    need(fixture->arena, programme->exercises[LANDMINE], "plates");
    need(fixture->arena, programme->exercises[THROW], "throwing ball");
    need(fixture->arena, programme->exercises[SQUAT], "safety bar");
    need(fixture->arena, programme->exercises[SQUAT], "plates");
    need(fixture->arena, programme->exercises[SQUAT], "rack");
}

/* --- doses --- */

static struct part reps(int count, enum dose_side side)
{
    milli amount = count * 1000;
    return (struct part){.amount = {amount, amount}, .unit = UNIT_REPS, .side = side};
}

static struct part seconds(int count, enum dose_side side)
{
    milli amount = count * 1000;
    return (struct part){.amount = {amount, amount}, .unit = UNIT_SECONDS, .side = side};
}

static struct load percent(int of_best, mass made, struct plating plating)
{
    milli share = of_best * 1000;
    return (struct load){.kind = LOAD_PERCENT,
                         .percent = {share, share},
                         .asked = made,
                         .made = made,
                         .pieces = 1,
                         .plating = plating};
}

static struct load kilograms(mass made, enum effort_kind effort)
{
    return (struct load){
        .kind = LOAD_MASS, .asked = made, .made = made, .pieces = 1, .effort = effort};
}

static struct load effort(enum effort_kind kind, milli band)
{
    return (struct load){.pieces = 1, .effort = kind, .effort_band = {band, band}};
}

/* The discs of one side, largest first, from the usual ones. */
static struct plating plates(const struct kit *bar, mass side, bool one_sleeve)
{
    static const mass discs[] = {KG(25), KG(20), KG(15), KG(10), KG(5), KG(2.5), KG(1.25)};
    struct plating plating = {.bar = bar, .one_sleeve = one_sleeve};
    for (size_t i = 0; i < sizeof discs / sizeof *discs; i++)
        while (side >= discs[i] && plating.disc_count < MOST_DISCS) {
            plating.discs[plating.disc_count++] = discs[i];
            side -= discs[i];
        }
    return plating;
}

struct line {
    struct arena *arena;
    struct block *block;
    struct item *items;
};

static struct item *add(struct line *line, const struct exercise *exercise, int sets,
                        struct part one, struct part other, struct load load)
{
    struct item *item = &line->items[line->block->item_count];
    struct part *parts = arena_alloc(line->arena, 2 * sizeof *parts);
    struct set_run *run = arena_alloc(line->arena, sizeof *run);
    parts[0] = one;
    parts[1] = other;
    *run = (struct set_run){.count = sets,
                            .parts = parts,
                            .part_count = other.amount.high ? 2 : one.amount.high ? 1 : 0,
                            .repeats = 1,
                            .load = load};
    *item = (struct item){.exercise = exercise,
                          .stop = exercise->stop,
                          .index = (int)line->block->item_count,
                          .after = -1,
                          .runs = run,
                          .run_count = 1,
                          .sets = sets};
    item->ref = line->block->letter
                    ? arena_printf(line->arena, "%c.%d", line->block->letter, item->index + 1)
                    : "";
    line->block->item_count++;
    return item;
}

static struct set_run *run_of(struct item *item)
{
    return (struct set_run *)item->runs;
}

static struct line open_block(struct fixture *fixture, struct block *block, struct block header)
{
    *block = header;
    struct item *items = arena_alloc(fixture->arena, 4 * sizeof *items);
    block->items = items;
    return (struct line){fixture->arena, block, items};
}

static const struct kit safety_bar = {.name = {.shown = "safety bar", .folded = "safety bar"}, .mass = KG(30), .count = 1};
static const struct kit barbell = {.name = {.shown = "barbell", .folded = "barbell"}, .mass = KG(20), .count = 3};

static void rounds_and_contrast(struct fixture *fixture, struct block *blocks, mass step)
{
    struct exercise **shelf_of = fixture->programme.exercises;
    struct part none = {0};
    struct line rounds = open_block(fixture, &blocks[0],
                                    (struct block){.kind = BLOCK_ROUNDS,
                                                   .sets = 4,
                                                   .work = 120,
                                                   .rest_low = 40,
                                                   .rest_high = 40,
                                                   .seconds = 600,
                                                   .span = {0, 10, 20}});
    add(&rounds, shelf_of[ROPE], 4, none, none, effort(EFFORT_EASY, 0));
    add(&rounds, shelf_of[SWITCH], 3, reps(6, DOSE_EACH_SIDE), none, (struct load){.pieces = 1})
        ->filler = true;
    struct line contrast = open_block(fixture, &blocks[1],
                                      (struct block){.kind = BLOCK_CONTRAST,
                                                     .letter = 'A',
                                                     .sets = 3,
                                                     .rest_low = 210,
                                                     .rest_high = 210,
                                                     .seconds = 780,
                                                     .starts = 720,
                                                     .span = {0, 30, 40}});
    mass press = KG(25) + step;
    struct item *item =
        add(&contrast, shelf_of[LANDMINE], 3, reps(4, DOSE_ORTHODOX), reps(4, DOSE_SOUTHPAW),
            percent(78, press, plates(&barbell, press, true)));
    run_of(item)->tempo = (struct item_tempo){2, 0, 0, 0, false, false, true, false, true};
    run_of(item)->load.estimated = true;
    add(&contrast, shelf_of[THROW], 3, reps(5, DOSE_ORTHODOX), reps(5, DOSE_SOUTHPAW),
        kilograms(KG(3), EFFORT_ALL_OUT))
        ->after = 20;
}

static void superset_and_hold(struct fixture *fixture, struct block *blocks, mass step, bool novice)
{
    struct exercise **shelf_of = fixture->programme.exercises;
    struct part none = {0};
    struct line pair = open_block(fixture, &blocks[2],
                                  (struct block){.kind = BLOCK_SUPERSET,
                                                 .letter = 'B',
                                                 .sets = 3,
                                                 .rest_low = 90,
                                                 .rest_high = 120,
                                                 .seconds = 900,
                                                 .starts = 1620,
                                                 .span = {0, 50, 60}});
    mass squat = KG(75) + 2 * step;
    struct item *item =
        novice ? add(&pair, shelf_of[GOBLET], 3, reps(8, DOSE_WHOLE), none,
                     kilograms(KG(16), EFFORT_NONE))
               : add(&pair, shelf_of[SQUAT], 3, reps(5, DOSE_WHOLE), none,
                     percent(82, squat, plates(&safety_bar, (squat - KG(30)) / 2, false)));
    if (!novice)
        run_of(item)->tempo = (struct item_tempo){3, 1, 0, 0, false, false, true, false, true};
    run_of(add(&pair, shelf_of[PLANK], 3, seconds(25, DOSE_EACH_SIDE), none,
               (struct load){.pieces = 1}))
        ->hold = true;
    struct line hold = open_block(fixture, &blocks[3],
                                  (struct block){.kind = BLOCK_STRAIGHT,
                                                 .letter = 'C',
                                                 .sets = 2,
                                                 .rest_low = 60,
                                                 .rest_high = 60,
                                                 .seconds = 140,
                                                 .starts = 2640,
                                                 .span = {0, 70, 80}});
    run_of(add(&hold, shelf_of[NECK], 2, seconds(10, DOSE_EACH_WAY), none,
               effort(EFFORT_RPE, 5000)))
        ->hold = true;
}

/* --- gym and people --- */

static struct gym *make_gym(struct fixture *fixture)
{
    static const struct disc discs[] = {{KG(25), 4}, {KG(20), 4},  {KG(15), 4},  {KG(10), 4},
                                        {KG(5), 4},  {KG(2.5), 8}, {KG(1.25), 4}};
    struct gym *gym = arena_alloc(fixture->arena, sizeof *gym);
    struct kit *bars = arena_alloc(fixture->arena, 2 * sizeof *bars);
    bars[0] = (struct kit){.name = named("barbell"), .mass = KG(20), .count = 3};
    bars[1] = (struct kit){.name = named("safety bar"), .mass = KG(30), .count = 1};
    gym->name = named("Slipway");
    gym->bars = bars;
    gym->bar_count = 2;
    gym->disc_count = sizeof discs / sizeof *discs;
    gym->discs = arena_alloc(fixture->arena, sizeof discs);
    memcpy(gym->discs, discs, sizeof discs);
    gym_prepare(fixture->arena, gym);
    return gym;
}

static const char *const people[FIXTURE_MOST] = {
    "Oriel Tamsin", "Marlo Quist", "Ysolde Bream",  "Tobin Harrow", "Nguy\341\273\205n Sao", "Petra Lunde",
    "Casimir Oake", "Wren Adeyo",  "Isolt Farthing", "Dagny Roe",    "Lowen Pask",            "Bastian Krill",
};

static struct athlete *make_athlete(struct fixture *fixture, size_t number)
{
    struct athlete *athlete = arena_alloc(fixture->arena, sizeof *athlete);
    struct body_mass *weighed = arena_alloc(fixture->arena, sizeof *weighed);
    *weighed = (struct body_mass){.mass = KG(58.4), .date = date_from_ymd(2027, 1, 4)};
    *athlete = (struct athlete){.name = named(people[number]),
                                .stance = number % 2 ? STANCE_ORTHODOX : STANCE_SOUTHPAW,
                                .born = date_from_ymd(2003, 9, 14),
                                .level_given = true,
                                .level = number % 2 ? LEVEL_NOVICE : LEVEL_INTERMEDIATE,
                                .gym = fixture->gym,
                                .masses = weighed,
                                .mass_count = 1,
                                .number = number};
    return athlete;
}

static struct occasion make_occasion(struct fixture *fixture, const struct session *session,
                                     const struct camp *camp, size_t number)
{
    struct block *blocks = arena_alloc(fixture->arena, 4 * sizeof *blocks);
    mass step = (mass)(number / 2) * KG(2.5);
    rounds_and_contrast(fixture, blocks, step);
    superset_and_hold(fixture, blocks, step, number % 2);
    return (struct occasion){.camp = camp,
                             .athlete = fixture->programme.athletes[number],
                             .session = session,
                             .date = date_from_ymd(2027, 3, 1),
                             .clock = 17 * 3600 + 1800,
                             .week = 1,
                             .weeks_out = 11,
                             .blocks = blocks,
                             .block_count = 4,
                             .seconds = 2780};
}

struct fixture *fixture_new(size_t athletes)
{
    struct arena *arena = arena_new();
    struct fixture *fixture = arena_alloc(arena, sizeof *fixture);
    fixture->arena = arena;
    make_exercises(fixture);
    fixture->gym = make_gym(fixture);
    struct programme *programme = &fixture->programme;
    programme->arena = arena;
    programme->athletes = arena_alloc(arena, athletes * sizeof(struct athlete *));
    programme->athlete_count = athletes;
    struct session *session = arena_alloc(arena, sizeof *session);
    *session = (struct session){.name = named("Hips before hands"), .first = session,
                                .purpose = "turn first, then let the hand go",
                                .under = 4200,
                                .placed = 1};
    struct camp *camp = arena_alloc(arena, sizeof *camp);
    *camp = (struct camp){.name = named("Harbour final")};
    for (size_t i = 0; i < athletes; i++) {
        programme->athletes[i] = make_athlete(fixture, i);
        fixture->occasions[fixture->count++] = make_occasion(fixture, session, camp, i);
    }
    programme->occasions = fixture->occasions;
    programme->occasion_count = fixture->count;
    return fixture;
}

void fixture_free(struct fixture *fixture)
{
    arena_free(fixture->arena);
}

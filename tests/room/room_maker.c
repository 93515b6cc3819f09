#include "room/room_maker.h"

enum { RACK, LANDMINE, BALL, DUMBBELL, BAG, KINDS, BLOCKS_MOST = 4, ATHLETES_MOST = 6, STOCK = 6 };

enum form { FORM_STRAIGHT, FORM_SUPERSET, FORM_CONTRAST, FORM_PARTNER, FORM_BELL, FORM_COUNT };

struct maker {
    struct arena *arena;
    uint64_t chance;
    struct room room;
};

/* A bar and the discs of one side, as places in the stock. */
static const int stacks[][3] = {{0, 1}, {0, 2, 3}, {0, 4, 2}, {0, 1, 5}};
static const size_t stack_counts[] = {2, 3, 3, 3};

/* --- chance --- */

static int pick(struct maker *maker, int from, int to)
{
    maker->chance ^= maker->chance >> 12;
    maker->chance ^= maker->chance << 25;
    maker->chance ^= maker->chance >> 27;
    return from + (int)((maker->chance * UINT64_C(2685821657736338717) >> 33) % (unsigned)(to - from + 1));
}

static bool one_in(struct maker *maker, int n)
{
    return pick(maker, 1, n) == 1;
}

/* --- kit --- */

static void make_kit(struct maker *maker)
{
    static const char *const parts[STOCK] = {"barbell",     "20 kg disc", "10 kg disc",
                                             "2.5 kg disc", "25 kg disc", "5 kg disc"};
    struct room_kind *kinds = arena_alloc(maker->arena, KINDS * sizeof *kinds);
    struct room_stock *stock = arena_alloc(maker->arena, STOCK * sizeof *stock);
    bool scarce = one_in(maker, 5);
    kinds[RACK] = (struct room_kind){"rack", "racks", pick(maker, 1, 2), true, false};
    kinds[LANDMINE] = (struct room_kind){"landmine", "landmines", 1, true, true};
    kinds[BALL] = (struct room_kind){"ball", "balls", pick(maker, 1, 2), false, false};
    kinds[DUMBBELL] = (struct room_kind){"dumbbell", "dumbbells", pick(maker, 2, 3), false, false};
    kinds[BAG] = (struct room_kind){"heavy bag", "heavy bags", pick(maker, 3, ATHLETES_MOST), false, false};
    for (size_t i = 0; i < STOCK; i++)
        stock[i] = (struct room_stock){parts[i], i ? 9 : 3};
    for (size_t i = 0; scarce && i < STOCK; i++)
        stock[i].count = pick(maker, i ? 2 : 1, i ? 4 : 2);
    maker->room.kinds = kinds;
    maker->room.kind_count = KINDS;
    maker->room.stock = stock;
    maker->room.stock_count = STOCK;
}

/* --- one block --- */

static struct room_item make_item(struct maker *maker, int kind, int work)
{
    struct room_item item = {.name = "lift", .work = work, .gap_most = ROOM_ANY_GAP};
    struct room_need *need = arena_alloc(maker->arena, sizeof *need);
    if (kind == ROOM_NONE)
        return item;
    *need = (struct room_need){kind, kind == DUMBBELL ? 2 : 1};
    item.needs = need;
    item.need_count = 1;
    if (kind == RACK || kind == LANDMINE) {
        int stack = pick(maker, 0, 3);
        item.stack = stacks[stack];
        item.stack_count = one_in(maker, 8) ? 0 : stack_counts[stack];
    }
    return item;
}

/* A block as all do it but for their loads. */
struct plan {
    enum form form;
    int first, second; /* kinds; ROOM_NONE */
    int work, sets, rest, seconds;
    bool ramp;
};

static struct room_set make_set(struct maker *maker, const struct plan *plan, struct room_item first, int item_count)
{
    struct room_item *items = arena_alloc(maker->arena, 3 * sizeof *items);
    struct room_set set = {.items = items, .item_count = (size_t)item_count, .rest = plan->rest};
    items[0] = first;
    for (int i = 1; i < item_count; i++) {
        items[i] = make_item(maker, i == 1 ? plan->second : ROOM_NONE, 10 + 5 * i);
        items[i].stack_count = 0;
        items[i].gap_least = 20;
        items[i].gap_most = plan->form == FORM_CONTRAST ? 35 : ROOM_ANY_GAP;
    }
    return set;
}

static struct room_part make_part(struct maker *maker, const struct plan *plan)
{
    struct room_set *sets = arena_alloc(maker->arena, 8 * sizeof *sets);
    struct room_part part = {.sets = sets};
    struct room_item first = make_item(maker, plan->first, plan->form == FORM_BELL ? plan->seconds : plan->work);
    int items = plan->form == FORM_SUPERSET || plan->form == FORM_CONTRAST ? pick(maker, 2, 3) : 1;
    first.partner = plan->form == FORM_PARTNER;
    if (plan->ramp && one_in(maker, 2)) {
        struct room_item light = first;
        light.stack = stacks[0];
        light.stack_count = stack_counts[0];
        sets[part.set_count] = make_set(maker, plan, light, 1);
        sets[part.set_count].ramp = true;
        sets[part.set_count++].rest = 60;
    }
    for (int i = 0; i < (plan->form == FORM_BELL ? 1 : plan->sets); i++)
        sets[part.set_count++] = make_set(maker, plan, first, items);
    return part;
}

static struct plan make_plan(struct maker *maker)
{
    static const int kinds[] = {RACK, RACK, LANDMINE, BALL, DUMBBELL, ROOM_NONE};
    struct plan plan = {.form = (enum form)pick(maker, 0, FORM_COUNT - 1)};
    plan.first = kinds[pick(maker, 0, 5)];
    plan.second = one_in(maker, 2) ? BALL : ROOM_NONE;
    if (plan.second == plan.first)
        plan.second = ROOM_NONE;
    plan.work = 15 + 5 * pick(maker, 0, 5);
    plan.sets = pick(maker, 1, 3);
    plan.rest = 30 * pick(maker, 1, 5);
    plan.seconds = 60 * pick(maker, 2, 5);
    plan.ramp = plan.first == RACK && plan.form == FORM_STRAIGHT && one_in(maker, 3);
    if (plan.form == FORM_PARTNER)
        plan.first = ROOM_NONE;
    if (plan.form == FORM_BELL)
        plan.first = one_in(maker, 2) ? BAG : ROOM_NONE;
    return plan;
}

/* --- the room --- */

/* Blocks without bells that stand together may change their places. */
static void free_blocks(struct maker *maker, struct room_block *blocks)
{
    int from = pick(maker, 0, (int)maker->room.block_count - 1), freed = 0;
    if (!one_in(maker, 2))
        return;
    for (size_t i = (size_t)from; i < maker->room.block_count && !blocks[i].bell; i++, freed++)
        blocks[i].free = true;
    maker->room.order = !freed ? ROOM_AS_WRITTEN : one_in(maker, 2) ? ROOM_ANY_ORDER : ROOM_WAVES;
}

static void make_people(struct maker *maker)
{
    static const char *const names[] = {"Ama", "Bram", "Cosima", "Dario", "Esme", "Floris"};
    struct room_athlete *athletes = arena_alloc(maker->arena, ATHLETES_MOST * sizeof *athletes);
    maker->room.athlete_count = (size_t)pick(maker, 2, ATHLETES_MOST);
    for (size_t i = 0; i < maker->room.athlete_count; i++)
        athletes[i] = (struct room_athlete){names[i], one_in(maker, 5) ? 30 * pick(maker, 1, 12) : 0,
                                            arena_alloc(maker->arena, BLOCKS_MOST * sizeof(struct room_part))};
    maker->room.athletes = athletes;
}

static void make_blocks(struct maker *maker)
{
    static const char *const letters[] = {"A", "B", "C", "D"};
    static const int rounds[] = {0, 60, 120, 180, 240};
    struct room_block *blocks = arena_alloc(maker->arena, BLOCKS_MOST * sizeof *blocks);
    maker->room.block_count = (size_t)pick(maker, 1, BLOCKS_MOST);
    for (size_t i = 0; i < maker->room.block_count; i++) {
        struct plan plan = make_plan(maker);
        blocks[i] = (struct room_block){.name = letters[i], .bell = plan.form == FORM_BELL};
        if (blocks[i].bell) {
            blocks[i].rounds = rounds;
            blocks[i].round_count = (size_t)plan.seconds / 60;
        }
        bool all = one_in(maker, 2);
        for (size_t j = 0; j < maker->room.athlete_count; j++) {
            if (all || !one_in(maker, 6))
                ((struct room_part *)maker->room.athletes[j].parts)[i] = make_part(maker, &plan);
        }
    }
    maker->room.blocks = blocks;
    free_blocks(maker, blocks);
}

struct room room_make(struct arena *arena, uint64_t seed)
{
    struct maker maker = {.arena = arena, .chance = (seed + 1) * UINT64_C(0x9e3779b97f4a7c15)};
    maker.room.changeover = one_in(&maker, 4) ? 10 : 20;
    maker.room.disc = 8;
    maker.room.between = one_in(&maker, 4) ? 60 : 120;
    maker.room.doors = ROOM_NONE;
    make_kit(&maker);
    make_people(&maker);
    make_blocks(&maker);
    return maker.room;
}

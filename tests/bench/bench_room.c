/* usage: bench_room - the timetable of a session of eight blocks, for squads and kit of several sizes, in milliseconds of
 * processor time. */
#include <stdio.h>

#include "bench/timing.h"
#include "room/room.h"

enum { BLOCKS = 8, SETS = 4, RUNS = 5, KINDS = 5, STOCK = 6 };

enum kind { RACK, LANDMINE, BENCH, CABLE, ROPE };

struct shape {
    const char *name;
    int athletes, halls; /* a hall has two racks, two benches, a landmine and a cable */
    enum room_order order;
};

struct bench {
    struct arena *arena;
    const struct shape *shape;
    struct room room;
    const struct room_table *table;
};

static void make_kit(struct bench *bench)
{
    int halls = bench->shape->halls, athletes = bench->shape->athletes;
    const struct room_kind kinds[KINDS] = {
        [RACK] = {"rack", "racks", 2 * halls, true, false},
        [LANDMINE] = {"landmine", "landmines", halls, true, true},
        [BENCH] = {"bench", "benches", 2 * halls, false, false},
        [CABLE] = {"cable", "cables", halls, false, false},
        [ROPE] = {"rope", "ropes", athletes, false, false},
    };
    struct room_kind *all = arena_alloc(bench->arena, sizeof kinds);
    struct room_stock *stock = arena_alloc(bench->arena, STOCK * sizeof *stock);
    for (int i = 0; i < KINDS; i++)
        all[i] = kinds[i];
    for (int i = 0; i < STOCK; i++)
        stock[i] = (struct room_stock){i ? "disc" : "bar", 100};
    bench->room.kinds = all;
    bench->room.kind_count = KINDS;
    bench->room.stock = stock;
    bench->room.stock_count = STOCK;
}

/* The load goes by the athlete, in five steps. */
static struct room_item item_of(struct bench *bench, enum kind kind, int work, int athlete)
{
    static const int stacks[][3] = {{0, 1, 2}, {0, 1, 3}, {0, 2, 4}, {0, 5, 1}, {0, 5, 3}};
    struct room_need *need = arena_alloc(bench->arena, sizeof *need);
    *need = (struct room_need){(int)kind, 1};
    return (struct room_item){.name = "lift", .work = work, .needs = need, .need_count = 1, .stack = stacks[athlete % 5],
                              .stack_count = kind == RACK || kind == LANDMINE ? 3 : 0, .gap_most = ROOM_ANY_GAP};
}

static struct room_part part_of(struct bench *bench, int block, int athlete)
{
    static const enum kind kinds[BLOCKS] = {ROPE, RACK, LANDMINE, BENCH, RACK, CABLE, BENCH, ROPE};
    bool bell = block == 0 || block == BLOCKS - 1;
    struct room_item *items = arena_alloc(bench->arena, 2 * sizeof *items);
    struct room_set *sets = arena_alloc(bench->arena, SETS * sizeof *sets);
    items[0] = item_of(bench, kinds[block], bell ? 360 : 25, athlete);
    items[1] = item_of(bench, kinds[(block + 2) % BLOCKS], 20, athlete);
    items[1].gap_least = 20;
    for (int i = 0; i < SETS; i++)
        sets[i] = (struct room_set){items, block % 2 && !bell ? 2 : 1, 120, 0, false};
    return (struct room_part){sets, bell ? 1 : SETS};
}

static void make_room(struct bench *bench)
{
    static const char *const letters[BLOCKS] = {"A", "B", "C", "D", "E", "F", "G", "H"};
    static const int rounds[] = {0, 120, 240};
    size_t athletes = (size_t)bench->shape->athletes;
    struct room_block *blocks = arena_alloc(bench->arena, BLOCKS * sizeof *blocks);
    struct room_athlete *squad = arena_alloc(bench->arena, athletes * sizeof *squad);
    make_kit(bench);
    for (int i = 0; i < BLOCKS; i++) {
        bool bell = i == 0 || i == BLOCKS - 1;
        blocks[i] = (struct room_block){.name = letters[i], .bell = bell, .rounds = rounds, .round_count = bell ? 3 : 0,
                                        .free = !bell};
    }
    for (int i = 0; i < bench->shape->athletes; i++) {
        struct room_part *parts = arena_alloc(bench->arena, BLOCKS * sizeof *parts);
        for (int j = 0; j < BLOCKS; j++)
            parts[j] = part_of(bench, j, i);
        squad[i] = (struct room_athlete){"athlete", 0, parts};
    }
    bench->room.blocks = blocks;
    bench->room.block_count = BLOCKS;
    bench->room.athletes = squad;
    bench->room.athlete_count = athletes;
    bench->room.order = bench->shape->order;
    bench->room.changeover = 20;
    bench->room.disc = 8;
    bench->room.between = 120;
    bench->room.doors = ROOM_NONE;
}

static void solve(void *with)
{
    struct bench *bench = with;
    bench->table = room_solve(bench->arena, &bench->room);
}

int main(void)
{
    static const struct shape shapes[] = {
        {"4 athletes, one hall", 4, 1, ROOM_AS_WRITTEN},  {"8 athletes", 8, 1, ROOM_AS_WRITTEN},
        {"12 athletes", 12, 1, ROOM_AS_WRITTEN},          {"12 athletes in waves", 12, 1, ROOM_WAVES},
        {"24 athletes", 24, 1, ROOM_AS_WRITTEN},          {"40 athletes, three halls", 40, 3, ROOM_AS_WRITTEN},
        {"40 athletes in waves", 40, 3, ROOM_WAVES},
    };
    printf("%-28s  %22s  %7s  %7s  %7s\n", "timetable of a room", "ms", "ends", "queue", "bound");
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        struct bench bench = {.arena = arena_new(), .shape = &shapes[i]};
        make_room(&bench);
        printf("%-28s  ", shapes[i].name);
        timing_print(timing_of(solve, &bench, RUNS));
        printf("  %5d s  %5d s  %5d s\n", bench.table->finish, room_queue(bench.arena, &bench.room)->finish,
               bench.table->bound);
        arena_free(bench.arena);
    }
    return 0;
}

#include "squad/parts.h"

#include "measure/kit.h"
#include "model/block.h"
#include "model/exercise.h"

enum { CONTRAST_TOLERANCE = 15 /* seconds by which a contrast's gap may be longer; common practice, no source */ };

bool block_has_bell(const struct block *block)
{
    return block->kind == BLOCK_ROUNDS || block->kind == BLOCK_EVERY || block->kind == BLOCK_AS_MANY
           || block->kind == BLOCK_FOR_TIME;
}

bool block_needs_partner(const struct block *block)
{
    for (size_t i = 0; i < block->item_count; i++)
        if (!block->items[i].filler && exercise_needs(block->items[i].exercise, "partner"))
            return true;
    return false;
}

static int middle(int low, int high)
{
    return (int)(((int64_t)low + high + 1) / 2);
}

static int block_rest(const struct block *block)
{
    return middle(block->rest_low, block->rest_high);
}

/* --- making sets --- */

static void add_task(struct squad_maker *maker, struct squad_task task)
{
    maker->tasks = arena_grow(maker->arena, maker->tasks, maker->task_count, &maker->task_capacity, sizeof *maker->tasks);
    maker->tasks[maker->task_count++] = task;
    maker->part.tasks = maker->tasks;
}

/* Adds a set of ITEMS, whose tasks come next. */
static void add_set(struct squad_maker *maker, const struct room_item *items, size_t count, int line, int rest)
{
    maker->sets = arena_grow(maker->arena, maker->sets, maker->set_count, &maker->set_capacity, sizeof *maker->sets);
    maker->first = arena_grow(maker->arena, maker->first, maker->set_count, &maker->first_capacity, sizeof *maker->first);
    maker->first[maker->set_count] = maker->task_count;
    maker->part.first = maker->first;
    maker->sets[maker->set_count++] =
        (struct room_set){.items = items, .item_count = count, .rest = rest, .line = line};
}

static struct room_item item_of(struct squad_maker *maker, const struct item *item, const struct load *load, int work)
{
    struct room_item out = {.name = item->exercise->name.shown, .work = work, .gap_most = ROOM_ANY_GAP};
    squad_kit_hold(maker->kit, item->exercise, load, &out);
    if (maker->coached && load && load->made > 0)
        squad_kit_need(maker->kit, &out, maker->kit->coach, 1);
    return out;
}

static const struct room_item *one_item(struct squad_maker *maker, struct room_item item)
{
    struct room_item *items = arena_alloc(maker->arena, sizeof *items);
    *items = item;
    return items;
}

void squad_part_begin(struct squad_maker *maker, const struct block *block)
{
    struct squad_maker fresh = {maker->arena, maker->kit, maker->occasion, maker->coached, .part = {.block = block}};
    *maker = fresh;
}

void squad_part_ramp(struct squad_maker *maker, const struct time_ramp *ramp)
{
    for (int i = 0; i < ramp->count; i++) {
        const struct load *load = &ramp->steps[i].load;
        struct room_item item = item_of(maker, ramp->item, load, time_ramp_set(ramp, i, &time_usual));
        add_set(maker, one_item(maker, item), 1, ramp->item->index, time_usual.ramp_rest);
        maker->sets[maker->set_count - 1].ramp = true;
        add_task(maker, (struct squad_task){maker->part.block, ramp->item, load, ramp->run, ramp->steps[i].reps});
    }
}

/* --- lines one after another --- */

static void add_single(struct squad_maker *maker, const struct block *block, const struct item *item,
                       const struct set_run *run, int work, int rest)
{
    add_set(maker, one_item(maker, item_of(maker, item, &run->load, work)), 1, item->index, rest);
    add_task(maker, (struct squad_task){block, item, &run->load, run, 0});
}

static void add_run(struct squad_maker *maker, const struct block *block, const struct item *item,
                    const struct set_run *run)
{
    int rest = block_rest(block), steps = time_usual.work_up_sets;
    for (int i = 0; i < run->count; i++) {
        int each = (run->seconds - (steps - 1) * time_usual.work_up_rest) / steps;
        for (int k = 1; run->work_up && each > 0 && k < steps; k++)
            add_single(maker, block, item, run, each, time_usual.work_up_rest);
        add_single(maker, block, item, run, run->work_up && each > 0 ? each : run->seconds, rest);
    }
}

static void add_straight(struct squad_maker *maker, const struct block *block)
{
    size_t begun = maker->set_count;
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        if (item->filler || item->sets <= 0)
            continue;
        if (maker->set_count > begun && item->after >= 0)
            maker->sets[maker->set_count - 1].rest = item->after;
        for (size_t r = 0; r < item->run_count; r++)
            add_run(maker, block, item, &item->runs[r]);
    }
}

/* --- lines in turn --- */

static const struct set_run *run_at(const struct item *item, int set)
{
    for (size_t r = 0; r < item->run_count; r++) {
        if (set < item->runs[r].count)
            return &item->runs[r];
        set -= item->runs[r].count;
    }
    return NULL;
}

static int most_sets(const struct block *block)
{
    int most = 0;
    for (size_t i = 0; i < block->item_count; i++)
        if (!block->items[i].filler && block->items[i].sets > most)
            most = block->items[i].sets;
    return most;
}

static void add_turn(struct squad_maker *maker, const struct block *block, int set)
{
    struct room_item *items = arena_alloc(maker->arena, (block->item_count + 1) * sizeof *items);
    bool contrast = block->kind == BLOCK_CONTRAST;
    size_t count = 0;
    add_set(maker, items, 0, 0, block_rest(block));
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        const struct set_run *run = item->filler ? NULL : run_at(item, set);
        if (!run)
            continue;
        items[count] = item_of(maker, item, &run->load, run->seconds);
        if (count) {
            items[count].gap_least = item->after >= 0 ? item->after : time_usual.change_over;
            items[count].gap_most = contrast ? items[count].gap_least + CONTRAST_TOLERANCE : ROOM_ANY_GAP;
        }
        add_task(maker, (struct squad_task){block, item, &run->load, run, 0});
        count++;
    }
    maker->sets[maker->set_count - 1].item_count = count;
}

/* A complex: the kit stays in the hands from line to line. */
static void add_whole(struct squad_maker *maker, const struct block *block, int set)
{
    struct room_item *whole = arena_alloc(maker->arena, sizeof *whole);
    bool begun = false;
    add_set(maker, whole, 1, 0, block_rest(block));
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        const struct set_run *run = item->filler ? NULL : run_at(item, set);
        if (!run)
            continue;
        int lead = begun && item->after > 0 ? item->after : 0;
        if (begun) {
            squad_kit_hold(maker->kit, item->exercise, &run->load, whole);
        } else {
            *whole = item_of(maker, item, &run->load, 0);
            add_task(maker, (struct squad_task){block, item, &run->load, run, 0});
        }
        whole->work += run->seconds + lead;
        begun = true;
    }
}

/* --- bells --- */

static void add_bell(struct squad_maker *maker, const struct block *block, bool in_pairs, bool holds)
{
    struct room_item bell = {.name = block_kinds.names[block->kind], .gap_most = ROOM_ANY_GAP};
    bell.work = in_pairs ? 2 * block->seconds + block_rest(block) : block->seconds;
    for (size_t i = 0; i < block->item_count && holds; i++) {
        const struct item *item = &block->items[i];
        for (size_t r = 0; r < item->run_count && !item->filler; r++)
            squad_kit_hold(maker->kit, item->exercise, &item->runs[r].load, &bell);
    }
    bell.partner = false; /* both of a pair are there all the time */
    bell.stack_count = 0;
    add_set(maker, one_item(maker, bell), 1, 0, 0);
    add_task(maker, (struct squad_task){.block = block});
}

void squad_part_sets(struct squad_maker *maker, const struct block *block, bool in_pairs, bool holds)
{
    if (block_has_bell(block)) {
        add_bell(maker, block, in_pairs, holds);
        return;
    }
    if (block->kind == BLOCK_STRAIGHT || block->kind == BLOCK_CLUSTER || block->kind == BLOCK_LADDER) {
        add_straight(maker, block);
        return;
    }
    int sets = most_sets(block);
    for (int i = 0; i < sets; i++) {
        if (block->kind == BLOCK_COMPLEX)
            add_whole(maker, block, i);
        else
            add_turn(maker, block, i);
    }
}

#include "room/room_case.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void *array(struct arena *arena, size_t count, size_t size)
{
    return arena_alloc(arena, (count + 1) * size);
}

static int number(const json_t *object, const char *key, int otherwise)
{
    const json_t *value = json_object_get(object, key);
    return json_is_integer(value) ? (int)json_integer_value(value) : otherwise;
}

static bool holds(const json_t *list, const char *name)
{
    size_t i;
    const json_t *value;
    json_array_foreach(list, i, value)
        if (strcmp(json_string_value(value), name) == 0)
            return true;
    return false;
}

int room_case_kind(const struct room *room, const char *name)
{
    for (size_t i = 0; i < room->kind_count; i++)
        if (strcmp(room->kinds[i].name, name) == 0)
            return (int)i;
    return ROOM_NONE;
}

int room_case_block(const struct room *room, const char *name)
{
    for (size_t i = 0; i < room->block_count; i++)
        if (strcmp(room->blocks[i].name, name) == 0)
            return (int)i;
    return ROOM_NONE;
}

/* --- kit --- */

static void read_kinds(struct room_case *to, const json_t *json)
{
    const json_t *kinds = json_object_get(json, "kinds"), *value;
    struct room_kind *all = array(to->arena, json_object_size(kinds), sizeof *all);
    const char *name;
    json_object_foreach((json_t *)kinds, name, value)
        all[to->room.kind_count++] = (struct room_kind){
            .name = name,
            .plural = arena_printf(to->arena, "%ss", name),
            .count = (int)json_integer_value(value),
            .seat = holds(json_object_get(json, "loaded"), name),
            .one_sleeve = holds(json_object_get(json, "one_sleeve"), name),
        };
    to->room.kinds = all;
}

static void read_stock(struct room_case *to, const json_t *json)
{
    const json_t *stock = json_object_get(json, "stock"), *value;
    struct room_stock *all = array(to->arena, json_object_size(stock), sizeof *all);
    const char *name;
    json_object_foreach((json_t *)stock, name, value)
        all[to->room.stock_count++] = (struct room_stock){name, (int)json_integer_value(value)};
    to->room.stock = all;
}

/* A bar goes by its name, a disc by its mass, which is its name in the stock. */
static int part_of_stack(const struct room *room, const json_t *part)
{
    const char *name = json_string_value(part);
    for (size_t i = 0; i < room->stock_count; i++) {
        char *end;
        double mass = strtod(room->stock[i].name, &end);
        if (name ? strcmp(room->stock[i].name, name) == 0 : *end == '\0' && mass == json_number_value(part))
            return (int)i;
    }
    fprintf(stderr, "a part of a load is not in the stock\n");
    abort();
}

static const struct room_need *read_needs(struct room_case *to, const json_t *json, size_t *count)
{
    struct room_need *needs = array(to->arena, json_object_size(json), sizeof *needs);
    const char *name;
    const json_t *value;
    json_object_foreach((json_t *)json, name, value)
        needs[(*count)++] = (struct room_need){room_case_kind(&to->room, name), (int)json_integer_value(value)};
    return needs;
}

/* --- sets --- */

static struct room_item read_item(struct room_case *to, const json_t *json)
{
    const json_t *load = json_object_get(json, "load"), *gap = json_object_get(json, "gap"), *part;
    const json_t *most = json_array_get(gap, 1);
    int *stack = array(to->arena, json_array_size(load), sizeof *stack);
    struct room_item item = {.name = json_string_value(json_object_get(json, "x")),
                             .work = number(json, "work", 0),
                             .stack = stack,
                             .gap_least = (int)json_integer_value(json_array_get(gap, 0)),
                             .gap_most = json_is_integer(most) ? (int)json_integer_value(most) : ROOM_ANY_GAP,
                             .partner = json_is_true(json_object_get(json, "partner"))};
    size_t i;
    item.needs = read_needs(to, json_object_get(json, "needs"), &item.need_count);
    json_array_foreach(load, i, part)
        stack[item.stack_count++] = part_of_stack(&to->room, part);
    return item;
}

static struct room_set read_set(struct room_case *to, const json_t *json, bool ramp)
{
    const json_t *items = json_object_get(json, "items"), *value;
    struct room_item *all = array(to->arena, json_array_size(items), sizeof *all);
    struct room_set set = {.items = all, .rest = number(json, "rest", 0), .line = number(json, "line", 0),
                           .ramp = ramp || json_is_true(json_object_get(json, "ramp"))};
    size_t i;
    json_array_foreach(items, i, value)
        all[set.item_count++] = read_item(to, value);
    return set;
}

static size_t times_of(const json_t *set)
{
    return (size_t)number(set, "times", 1);
}

static struct room_part read_part(struct room_case *to, const json_t *json, const json_t *work, int block)
{
    const json_t *sets = json_object_get(work, "sets"), *value;
    const json_t *about = json_array_get(json_object_get(json, "blocks"), (size_t)block);
    bool heavy = holds(json_object_get(json, "heavy"), to->room.blocks[block].name);
    size_t i, count = 0;
    json_array_foreach(sets, i, value)
        count += times_of(value);
    struct room_set *all = array(to->arena, count, sizeof *all);
    struct room_part part = {.sets = all};
    json_array_foreach(sets, i, value) {
        struct room_set set = read_set(to, value, i == 0 && heavy);
        for (size_t j = 0; j < times_of(value); j++)
            all[part.set_count++] = set;
    }
    if (to->room.blocks[block].bell) {
        struct room_item *item = (struct room_item *)all[0].items;
        item->need_count = 0;
        item->needs = read_needs(to, json_object_get(about, "needs"), &item->need_count);
    }
    return part;
}

/* Of one athlete, of several, or of all. */
static bool is_work_of(const json_t *work, const char *name)
{
    const json_t *one = json_object_get(work, "athlete"), *several = json_object_get(work, "athletes");
    return one ? strcmp(json_string_value(one), name) == 0 : !several || holds(several, name);
}

static void read_work(struct room_case *to, const json_t *json)
{
    size_t i;
    const json_t *work;
    json_array_foreach(json_object_get(json, "work"), i, work) {
        int block = room_case_block(&to->room, json_string_value(json_object_get(work, "block")));
        struct room_part part = read_part(to, json, work, block);
        for (size_t j = 0; j < to->room.athlete_count; j++) {
            if (is_work_of(work, to->room.athletes[j].name))
                ((struct room_part *)to->room.athletes[j].parts)[block] = part;
        }
    }
}

/* --- the rest --- */

static struct room_block read_block(struct room_case *to, const json_t *json, const json_t *about)
{
    const json_t *bells = json_object_get(about, "bells"), *value;
    int *rounds = array(to->arena, json_array_size(bells), sizeof *rounds);
    struct room_block block = {.name = json_string_value(json_object_get(about, "letter")),
                               .bell = json_is_true(json_object_get(about, "clock")),
                               .rounds = rounds,
                               .keep = number(about, "keep", 0),
                               .fixed = json_is_true(json_object_get(about, "fixed")),
                               .care = json_is_true(json_object_get(about, "care")),
                               .least = number(about, "least", 0)};
    size_t i;
    json_array_foreach(bells, i, value)
        rounds[block.round_count++] = (int)json_integer_value(value);
    block.free = holds(json_object_get(json, "any_order"), block.name)
                 || holds(json_object_get(json, "waves"), block.name);
    return block;
}

static void read_people(struct room_case *to, const json_t *json)
{
    const json_t *blocks = json_object_get(json, "blocks"), *athletes = json_object_get(json, "athletes"), *value;
    struct room_block *all = array(to->arena, json_array_size(blocks), sizeof *all);
    struct room_athlete *squad = array(to->arena, json_array_size(athletes), sizeof *squad);
    size_t i;
    json_array_foreach(blocks, i, value)
        all[to->room.block_count++] = read_block(to, json, value);
    json_array_foreach(athletes, i, value)
        squad[to->room.athlete_count++] = (struct room_athlete){
            json_string_value(json_object_get(value, "name")), number(value, "arrive", 0),
            array(to->arena, to->room.block_count, sizeof(struct room_part))};
    to->room.blocks = all;
    to->room.athletes = squad;
}

static void read_groups(struct room_case *to, const json_t *json)
{
    const json_t *pairs = json_object_get(json, "pairs"), *pair, *value;
    struct room_group *groups = array(to->arena, json_array_size(pairs), sizeof *groups);
    size_t i, j;
    json_array_foreach(pairs, i, pair) {
        int *members = array(to->arena, json_array_size(pair), sizeof *members);
        struct room_group *group = &groups[to->room.group_count++];
        group->members = members;
        json_array_foreach(pair, j, value)
            members[group->count++] = (int)json_integer_value(value);
    }
    to->room.groups = groups;
}

struct room_case room_case_open(const char *path)
{
    struct room_case to = {.arena = arena_new()};
    json_error_t error;
    to.json = json_load_file(path, 0, &error);
    if (!to.json) {
        fprintf(stderr, "%s:%d: %s\n", path, error.line, error.text);
        abort();
    }
    const json_t *json = json_object_get(to.json, "case");
    read_kinds(&to, json);
    read_stock(&to, json);
    read_people(&to, json);
    read_groups(&to, json);
    read_work(&to, json);
    to.room.order = json_array_size(json_object_get(json, "any_order")) ? ROOM_ANY_ORDER
                    : json_array_size(json_object_get(json, "waves"))   ? ROOM_WAVES
                                                                        : ROOM_AS_WRITTEN;
    to.room.changeover = number(json, "turn", 20);
    to.room.disc = number(json, "disc", 8);
    to.room.between = number(json, "between", 120);
    to.room.doors = number(json, "doors", ROOM_NONE);
    return to;
}

void room_case_close(struct room_case *room_case)
{
    json_decref(room_case->json);
    arena_free(room_case->arena);
}

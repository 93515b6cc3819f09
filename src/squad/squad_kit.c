#include "squad/squad_kit.h"

#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "measure/kit.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/set.h"

static bool ends_in(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

/* --- what there is --- */

static const char *plural_of(struct arena *arena, const char *name)
{
    if (ends_in(name, "s") && !ends_in(name, "ss"))
        return name;
    bool hisses = ends_in(name, "ch") || ends_in(name, "sh") || ends_in(name, "x") || ends_in(name, "ss");
    return arena_printf(arena, "%s%s", name, hisses ? "es" : "s");
}

static size_t add_kind(struct squad_kit *kit, const char *name, const char *plural, int count)
{
    kit->kinds = arena_grow(kit->arena, kit->kinds, kit->count, &kit->capacity, sizeof *kit->kinds);
    kit->kinds[kit->count] = (struct squad_kind){.kind = {.name = name, .plural = plural, .count = count}};
    return kit->count++;
}

static const char *mass_words(struct arena *arena, mass value)
{
    char text[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(value);
    return arena_printf(arena, "%s %s", mass_format_exact(value, unit, text), mass_unit_name(unit));
}

/* The first of KIT called NAME, from BEGIN up to END, or END. */
static size_t find_named(const struct squad_kit *kit, size_t begin, size_t end, const char *name)
{
    size_t i = begin;
    while (i < end && !(kit->kinds[i].folded && text_same(kit->kinds[i].folded, name)))
        i++;
    return i;
}

static void add_named(struct squad_kit *kit, const struct kit *thing, bool weighed)
{
    int count = thing->count > 0 ? thing->count : 1;
    size_t known = weighed ? kit->count : find_named(kit, 0, kit->count, thing->name.folded);
    if (known < kit->count) {
        kit->kinds[known].kind.count += count;
        return;
    }
    const char *name = weighed ? arena_printf(kit->arena, "%s %s", mass_words(kit->arena, thing->mass), thing->name.shown)
                               : thing->name.shown;
    size_t added = add_kind(kit, name, plural_of(kit->arena, name), count);
    kit->kinds[added].folded = thing->name.folded;
    kit->kinds[added].mass = thing->mass;
}

/* Returns where they begin. */
static size_t add_discs(struct squad_kit *kit, const struct disc *discs, size_t count, const char *what)
{
    size_t begin = kit->count;
    for (size_t i = 0; i < count; i++) {
        const char *name = arena_printf(kit->arena, "%s %s", mass_words(kit->arena, discs[i].mass), what);
        size_t added = add_kind(kit, name, plural_of(kit->arena, name), discs[i].count);
        kit->kinds[added].mass = discs[i].mass;
    }
    return begin;
}

struct squad_kit squad_kit_of(struct arena *arena, const struct gym *gym, int coaches)
{
    struct squad_kit kit = {.arena = arena, .gym = gym};
    for (size_t i = 0; i < gym->other_count; i++)
        add_named(&kit, &gym->others[i], false);
    kit.bars = kit.count;
    for (size_t i = 0; i < gym->bar_count; i++)
        add_named(&kit, &gym->bars[i], true);
    kit.dumbbells = add_discs(&kit, gym->dumbbells, gym->dumbbell_count, "dumbbell");
    kit.kettlebells = add_discs(&kit, gym->kettlebells, gym->kettlebell_count, "kettlebell");
    kit.balls = add_discs(&kit, gym->balls, gym->ball_count, "ball");
    kit.discs = add_discs(&kit, gym->discs, gym->disc_count, "weight plate");
    kit.coach = add_kind(&kit, "coach", "coaches", coaches);
    return kit;
}

/* What is needed and not there, so that the room is refused for this reason. */
static size_t add_missing(struct squad_kit *kit, const struct need *need)
{
    size_t known = find_named(kit, kit->coach + 1, kit->count, need->name.folded);
    if (known < kit->count)
        return known;
    known = add_kind(kit, need->name.shown, need->name.shown, 0);
    kit->kinds[known].folded = need->name.folded;
    return known;
}

/* --- what a line holds --- */

void squad_kit_need(struct squad_kit *kit, struct room_item *item, size_t kind, int count)
{
    struct room_need *needs = arena_alloc(kit->arena, (item->need_count + 1) * sizeof *needs);
    if (!kit->kinds[kind].used)
        kit->kinds[kind].later = kit->later;
    kit->kinds[kind].used = true;
    for (size_t i = 0; i < item->need_count; i++) {
        needs[i] = item->needs[i];
        if (needs[i].kind != (int)kind)
            continue;
        needs[i].count = needs[i].count > count ? needs[i].count : count;
        count = 0;
    }
    if (count)
        needs[item->need_count++] = (struct room_need){(int)kind, count};
    item->needs = needs;
}

/* What bears a loaded bar, or a pile of discs. */
static bool is_seat(const char *name)
{
    return ends_in(name, "rack") || text_same(name, "landmine") || text_same(name, "sled");
}

/* Which of the things that EXERCISE needs its load lies on; NULL if it lies on the bar itself. */
static const struct need *seat_of(const struct exercise *exercise)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        if (is_seat(exercise->needs[i].name.folded))
            return &exercise->needs[i];
    return NULL;
}

/* The bar, then one side's discs: in a room's stock, bars come before discs. */
static void stack(struct squad_kit *kit, const struct plating *plating, struct room_item *item)
{
    const struct gym *gym = kit->gym;
    int *parts = arena_alloc(kit->arena, (MOST_DISCS + 1) * sizeof *parts);
    size_t count = 0;
    for (size_t i = 0; i < gym->bar_count; i++)
        if (plating->bar == &gym->bars[i])
            parts[count++] = (int)i;
    for (int d = 0; d < plating->disc_count; d++)
        for (size_t i = 0; i < gym->disc_count; i++)
            if (gym->discs[i].mass == plating->discs[d])
                parts[count++] = (int)(gym->bar_count + i);
    item->stack = parts;
    item->stack_count = count;
}

/* Lays the load of LOAD on the seat KIND. */
static void load_seat(struct squad_kit *kit, const struct load *load, struct room_item *item, size_t kind)
{
    const struct plating *plating = load ? &load->plating : NULL;
    if (!plating || item->stack_count || !(plating->bar || plating->disc_count))
        return;
    kit->kinds[kind].kind.seat = true;
    kit->kinds[kind].kind.one_sleeve = plating->one_sleeve || !plating->bar;
    stack(kit, plating, item);
}

/* A bar: the one that is loaded, or of those with this name the kind that there are most of. Nothing if it lies on a
 * seat. */
static void hold_bar(struct squad_kit *kit, const struct exercise *exercise, const struct need *need,
                     const struct load *load, struct room_item *item)
{
    const struct gym *gym = kit->gym;
    size_t best = gym->bar_count;
    if (seat_of(exercise))
        return;
    for (size_t i = 0; i < gym->bar_count; i++) {
        if (load && load->plating.bar ? load->plating.bar != &gym->bars[i]
                                      : !text_same(gym->bars[i].name.folded, need->name.folded))
            continue;
        if (best == gym->bar_count || gym->bars[i].count > gym->bars[best].count)
            best = i;
    }
    if (best == gym->bar_count)
        return;
    squad_kit_need(kit, item, kit->bars + best, need->count > 1 ? need->count : 1);
    load_seat(kit, load, item, kit->bars + best);
}

/* An implement that its mass identifies. If only an effort is given, nobody can say which one it takes, so nothing
 * is held. */
static void hold_implement(struct squad_kit *kit, const struct exercise *exercise, const struct load *load, int pieces,
                           size_t begin, size_t count, struct room_item *item)
{
    if (!load || !load_is_weighed(load->kind) || load->made <= 0)
        return;
    bool both = exercise->weigh == WEIGH_BOTH_HANDS && load->pieces <= 1 && pieces > 1;
    mass each = both ? load->made / pieces : load->made;
    pieces = load->pieces > pieces ? load->pieces : pieces;
    for (size_t i = begin; i < begin + count; i++)
        if (kit->kinds[i].mass == each)
            squad_kit_need(kit, item, i, pieces);
}

/* A family of implements, by the name under which exercises need them. */
static bool hold_of_family(struct squad_kit *kit, const struct exercise *exercise, const struct need *need,
                           const struct load *load, struct room_item *item)
{
    const struct gym *gym = kit->gym;
    const struct {
        const char *name;
        int pieces;
        size_t begin, count;
    } families[] = {
        {"dumbbell", 1, kit->dumbbells, gym->dumbbell_count},       {"dumbbells", 2, kit->dumbbells, gym->dumbbell_count},
        {"kettlebell", 1, kit->kettlebells, gym->kettlebell_count}, {"kettlebells", 2, kit->kettlebells, gym->kettlebell_count},
        {"throwing ball", 1, kit->balls, gym->ball_count},          {"weight plate", 1, kit->discs, gym->disc_count},
    };
    for (size_t i = 0; i < sizeof families / sizeof *families; i++) {
        if (!text_same(need->name.folded, families[i].name))
            continue;
        if (gym_count(gym, need->name.folded) == 0)
            squad_kit_need(kit, item, add_missing(kit, need), 1);
        int pieces = need->count > families[i].pieces ? need->count : families[i].pieces;
        hold_implement(kit, exercise, load, pieces, families[i].begin, families[i].count, item);
        return true;
    }
    return false;
}

static bool is_bar(const struct gym *gym, const char *name)
{
    for (size_t i = 0; i < gym->bar_count; i++)
        if (text_same(gym->bars[i].name.folded, name))
            return true;
    return false;
}

/* Bands are held by name: if a line names none, nobody can say which band it means. */
static void hold_band(struct squad_kit *kit, const struct load *load, struct room_item *item)
{
    if (!load || load->kind != LOAD_BAND || !load->thing)
        return;
    const char *folded = text_fold(kit->arena, load->thing, strlen(load->thing));
    size_t found = find_named(kit, 0, kit->bars, folded);
    if (found == kit->bars)
        found = find_named(kit, 0, kit->bars, arena_printf(kit->arena, "%s band", folded));
    if (found < kit->bars)
        squad_kit_need(kit, item, found, 1);
}

static void hold(struct squad_kit *kit, const struct exercise *exercise, const struct need *need,
                 const struct load *load, struct room_item *item)
{
    const char *name = need->name.folded;
    size_t found = find_named(kit, 0, kit->bars, name);
    int count = need->count > 1 ? need->count : 1;
    if (text_same(name, "wall") || text_same(name, "plates"))
        return;
    if (text_same(name, "partner")) {
        item->partner = true;
    } else if (found < kit->bars) {
        squad_kit_need(kit, item, found, count);
        if (need == seat_of(exercise))
            load_seat(kit, load, item, found);
    } else if (is_bar(kit->gym, name)) {
        hold_bar(kit, exercise, need, load, item);
    } else if (!hold_of_family(kit, exercise, need, load, item) && gym_count(kit->gym, name) < count) {
        squad_kit_need(kit, item, add_missing(kit, need), count);
    }
}

void squad_kit_hold(struct squad_kit *kit, const struct exercise *exercise, const struct load *load,
                    struct room_item *item)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        hold(kit, exercise, &exercise->needs[i], load, item);
    hold_band(kit, load, item);
}

/* --- for the room --- */

size_t squad_kit_named(const struct squad_kit *kit, const char *folded)
{
    return find_named(kit, 0, kit->count, folded);
}

void squad_kit_list(const struct squad_kit *kit, struct room *room)
{
    const struct gym *gym = kit->gym;
    struct room_kind *kinds = arena_alloc(kit->arena, (kit->count + 1) * sizeof *kinds);
    struct room_stock *stock = arena_alloc(kit->arena, (gym->bar_count + gym->disc_count + 1) * sizeof *stock);
    for (size_t n = 0; n < 2 * kit->count; n++) {
        size_t i = n % kit->count;
        if (!kit->kinds[i].used || kit->kinds[i].later != (n >= kit->count))
            continue;
        kit->kinds[i].number = (int)room->kind_count;
        kinds[room->kind_count++] = kit->kinds[i].kind;
    }
    for (size_t i = 0; i < gym->bar_count; i++)
        stock[room->stock_count++] = (struct room_stock){kit->kinds[kit->bars + i].kind.name, kit->kinds[kit->bars + i].kind.count};
    for (size_t i = 0; i < gym->disc_count; i++)
        stock[room->stock_count++] = (struct room_stock){
            arena_printf(kit->arena, "%s disc", mass_words(kit->arena, gym->discs[i].mass)), gym->discs[i].count};
    room->kinds = kinds;
    room->stock = stock;
}

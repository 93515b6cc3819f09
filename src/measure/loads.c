#include "measure/loads.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "measure/kit.h"
#include "model/exercise.h"

/* --- the tables --- */

static enum plate_status loading_build(struct arena *arena, const struct plate_kit *kit,
                                       struct plate_rack *rack)
{
    size_t room_count = plate_rack_room(kit);
    struct arena *scratch = arena_beside(arena);
    struct plate_sum *room = arena_alloc(scratch, room_count * sizeof *room);
    enum plate_status status = plate_rack_build(rack, kit, room, room_count);

    /* The room is many times what most gyms need, so only the sums made are kept. */
    if (status == PLATE_OK) {
        struct plate_sum *sums = arena_alloc(arena, rack->n * sizeof *sums);
        memcpy(sums, rack->sums, rack->n * sizeof *sums);
        rack->sums = sums;
    }
    arena_free(scratch);
    return status;
}

enum plate_status gym_prepare(struct arena *arena, struct gym *gym)
{
    struct plate_stock *stock = arena_alloc(arena, (gym->disc_count + 1) * sizeof *stock);
    enum plate_status worst = PLATE_OK;

    for (size_t i = 0; i < gym->disc_count; i++)
        stock[i] = (struct plate_stock){gym->discs[i].mass, gym->discs[i].count};
    gym->loading_count = 2;
    gym->loadings = arena_alloc(arena, gym->loading_count * sizeof *gym->loadings);
    for (size_t i = 0; i < gym->loading_count; i++) {
        struct loading *loading = &gym->loadings[i];
        struct plate_kit kit = {
            .sleeves = i == 0 ? 2 : 1,
            .discs_most = MOST_DISCS,
            .stock = stock,
            .n_stock = gym->disc_count,
        };
        loading->status = loading_build(arena, &kit, &loading->rack);
        if (loading->status != PLATE_OK)
            worst = loading->status;
    }
    return worst;
}

/* --- what an exercise needs --- */

/* Kinds of kit that a load is made from. */
enum source_bit {
    FROM_PLATES = 1, /* in a pile, or on a bar that is named too */
    FROM_DISC = 2,   /* one disc, held */
    FROM_DUMBBELL = 4,
    FROM_KETTLEBELL = 8,
    FROM_BALL = 16,
    FROM_LANDMINE = 32,
    FROM_PAIR = 64 /* two of the implement */
};

/* The names that the shelf gives them. */
static const struct {
    const char *name;
    unsigned bits;
} sources_by_name[] = {
    {"plates", FROM_PLATES},
    {"sled", FROM_PLATES},
    {"weight plate", FROM_DISC},
    {"dumbbell", FROM_DUMBBELL},
    {"dumbbells", FROM_DUMBBELL | FROM_PAIR},
    {"kettlebell", FROM_KETTLEBELL},
    {"kettlebells", FROM_KETTLEBELL | FROM_PAIR},
    {"throwing ball", FROM_BALL},
    {"slam ball", FROM_BALL},
    {"landmine", FROM_LANDMINE},
};

static bool needs_kit(const struct exercise *exercise, const struct kit *kit)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        if (text_same(exercise->needs[i].name.folded, kit->name.folded))
            return true;
    return false;
}

static unsigned need_sources(const struct need *need)
{
    enum { NAMES = sizeof sources_by_name / sizeof sources_by_name[0] };
    for (size_t i = 0; i < NAMES; i++) {
        unsigned bits = sources_by_name[i].bits;
        if (text_same(need->name.folded, sources_by_name[i].name))
            return bits;
    }
    return 0;
}

static unsigned exercise_sources(const struct exercise *exercise)
{
    unsigned bits = 0;

    for (size_t i = 0; i < exercise->need_count; i++)
        bits |= need_sources(&exercise->needs[i]);
    return bits;
}

static bool needs_bar(const struct gym *gym, const struct exercise *exercise)
{
    for (size_t i = 0; i < gym->bar_count; i++)
        if (needs_kit(exercise, &gym->bars[i]))
            return true;
    return false;
}

/* --- the same kilograms --- */

static bool is_bar(const struct gym *gym, const struct name *name)
{
    size_t length = strlen(name->folded);

    for (size_t i = 0; gym && i < gym->bar_count; i++)
        if (text_same(gym->bars[i].name.folded, name->folded))
            return true;
    return text_same(name->folded, "barbell") || (length > 4 && strcmp(name->folded + length - 4, " bar") == 0);
}

/* Whether NEED is what the load of EXERCISE is made from, and not only where it is done. */
static bool bears_load(const struct gym *gym, const struct exercise *exercise, const struct need *need)
{
    if (need_sources(need))
        return true;
    if (exercise->weigh == WEIGH_BAR_AND_PLATES)
        return is_bar(gym, &need->name);
    return exercise->weigh != WEIGH_PLATES && exercise->weigh != WEIGH_ADDED && exercise_sources(exercise) == 0;
}

static bool bears_the_same(const struct gym *gym, const struct exercise *a, const struct exercise *b)
{
    for (size_t i = 0; i < a->need_count; i++)
        if (bears_load(gym, a, &a->needs[i]) && !exercise_needs(b, a->needs[i].name.folded))
            return false;
    return true;
}

bool loads_alike(const struct gym *gym, const struct exercise *a, const struct exercise *b)
{
    return a->weigh == b->weigh && a->weigh != WEIGH_UNSAID && bears_the_same(gym, a, b) &&
           bears_the_same(gym, b, a);
}

/* --- the search --- */

/* The best load found so far, and how far the kit looked at reaches. */
struct search {
    const struct gym *gym;
    const struct exercise *exercise;
    const struct kit *only; /* the one bar that may be used, or NULL */
    mass asked;
    bool down;
    bool found;
    mass lightest, heaviest;
    mass made, far; /* and how bad that is */
    const struct kit *bar;
    const struct plate_rack *rack; /* NULL where no discs are used */
    struct plate_load plates;
    mass collar;
    bool one_sleeve;
};

/* How bad MADE is for what was asked; when rounding down, anything above is worse than anything
 * below. */
static mass search_distance(const struct search *search, mass made)
{
    mass above = made - search->asked;

    if (above <= 0)
        return -above;
    return search->down ? above + INT64_MAX / 4 : above;
}

/* Takes MADE if it beats the best so far, without saying yet how it is made; did it? */
static bool search_takes(struct search *search, mass made)
{
    if (!search->found || made < search->lightest)
        search->lightest = made;
    if (!search->found || made > search->heaviest)
        search->heaviest = made;
    mass far = search_distance(search, made);
    if (search->found && (far > search->far || (far == search->far && made >= search->made)))
        return false;
    search->found = true;
    search->made = made;
    search->far = far;
    search->bar = NULL;
    search->rack = NULL;
    search->collar = 0;
    search->one_sleeve = false;
    return true;
}

/* The best load of discs on top of BASE, which is what bar and collars count for. */
static void search_rack(struct search *search, const struct kit *bar, bool one_sleeve, mass base,
                        mass collar)
{
    const struct plate_rack *rack = &search->gym->loadings[one_sleeve ? 1 : 0].rack;
    enum plate_rounding rounding = search->down ? PLATE_DOWN : PLATE_NEAREST;
    struct plate_load load;

    if (rack->n == 0)
        return;
    plate_rack_find(rack, search->asked - base, rounding, &load);
    if (search_takes(search, base + load.mass)) {
        search->bar = bar;
        search->rack = rack;
        search->plates = load;
        search->collar = collar;
        search->one_sleeve = one_sleeve;
    }
    /* The ends of what can be made, for telling too light from too heavy. */
    mass heaviest = base + rack->sums[rack->n - 1].mass;
    if (base < search->lightest)
        search->lightest = base;
    if (heaviest > search->heaviest)
        search->heaviest = heaviest;
}

/* BAR loaded, and empty: an empty bar wears no collars. */
static void search_bar(struct search *search, const struct kit *bar, bool one_sleeve)
{
    mass collar = search->gym->collar;

    if (search_takes(search, bar->mass)) {
        search->bar = bar;
        search->one_sleeve = one_sleeve;
    }
    search_rack(search, bar, one_sleeve, bar->mass + (one_sleeve ? collar : 2 * collar), collar);
}

/* A bar of the gym suits an exercise that needs it by name, or one that needs nothing by name and so is taken to need a
 * barbell. */
static bool bar_is_meant(const struct search *search, const struct kit *bar)
{
    if (search->only && bar != search->only)
        return false;
    if (search->exercise->need_count == 0)
        return strcmp(bar->name.folded, "barbell") == 0;
    return needs_kit(search->exercise, bar);
}

/* The bars around the load come first, the heavier as it is before the lighter with discs: another is taken only for a load
 * that is nearer, such as one of a still lighter bar, or one in the other unit. */
static void search_bars(struct search *search, bool one_sleeve)
{
    const struct kit *below = NULL, *above = NULL;

    for (size_t i = 0; i < search->gym->bar_count; i++) {
        const struct kit *bar = &search->gym->bars[i];
        if (!bar_is_meant(search, bar))
            continue;
        if (bar->mass <= search->asked && (!below || bar->mass > below->mass))
            below = bar;
        if (bar->mass > search->asked && (!above || bar->mass < above->mass))
            above = bar;
    }
    if (above)
        search_bar(search, above, one_sleeve);
    if (below)
        search_bar(search, below, one_sleeve);
    for (size_t i = 0; i < search->gym->bar_count; i++) {
        const struct kit *bar = &search->gym->bars[i];
        if (bar != above && bar != below && bar_is_meant(search, bar))
            search_bar(search, bar, one_sleeve);
    }
}

/* Discs on the one sleeve of the heaviest bar meant, or in a pile; the bar does not count. */
static void search_pile(struct search *search)
{
    const struct kit *heaviest = NULL;

    if (search->gym->disc_count == 0)
        return;
    for (size_t i = 0; i < search->gym->bar_count; i++) {
        const struct kit *bar = &search->gym->bars[i];
        bool meant = needs_kit(search->exercise, bar) && (!search->only || bar == search->only);
        if (meant && (!heaviest || bar->mass > heaviest->mass))
            heaviest = bar;
    }
    search_rack(search, heaviest, true, 0, heaviest ? search->gym->collar : 0);
}

/* Implements of which there are at least HELD; each counts SHARE times. */
static void search_implements(struct search *search, const struct disc *items, size_t count,
                              int held, int share)
{
    for (size_t i = 0; i < count; i++)
        if (items[i].count >= held)
            search_takes(search, items[i].mass * share);
}

/* What is held in the hands, of the kinds in BITS. */
static void search_hands(struct search *search, unsigned bits, int held, int share)
{
    const struct gym *gym = search->gym;

    if (bits & FROM_DUMBBELL)
        search_implements(search, gym->dumbbells, gym->dumbbell_count, held, share);
    if (bits & FROM_KETTLEBELL)
        search_implements(search, gym->kettlebells, gym->kettlebell_count, held, share);
    if (bits & FROM_BALL)
        search_implements(search, gym->balls, gym->ball_count, held, share);
    if (bits & FROM_DISC)
        search_implements(search, gym->discs, gym->disc_count, held, share);
    for (size_t i = 0; i < gym->other_count; i++) {
        const struct kit *kit = &gym->others[i];
        if (kit->mass > 0 && kit->count >= held && needs_kit(search->exercise, kit))
            search_takes(search, kit->mass * share);
    }
}

static void search_by_weigh(struct search *search, enum weigh weigh, unsigned bits, int pieces)
{
    const unsigned hands = FROM_DUMBBELL | FROM_KETTLEBELL | FROM_BALL | FROM_DISC;
    bool both = weigh == WEIGH_BOTH_HANDS;
    bool named = bits & (hands | FROM_PLATES);

    if (weigh == WEIGH_BAR_AND_PLATES) {
        search_bars(search, bits & FROM_LANDMINE);
        return;
    }
    if (weigh == WEIGH_PLATES || bits & FROM_PLATES || (weigh == WEIGH_ADDED && !named))
        search_pile(search);
    if (weigh == WEIGH_PLATES)
        return;
    if (!named && search->exercise->need_count == 0 && weigh != WEIGH_ADDED)
        bits |= FROM_DUMBBELL | FROM_KETTLEBELL | (both ? FROM_PAIR : 0u);
    if (!named && weigh == WEIGH_ADDED)
        bits |= FROM_DUMBBELL;
    int held = pieces > 1 ? pieces : bits & FROM_PAIR ? 2 : 1;
    search_hands(search, bits, held, both && pieces <= 1 ? held : 1);
}

/* --- what came of it --- */

static enum load_made search_outcome(const struct search *search)
{
    mass off = search->made - search->asked;

    if (off == 0)
        return MADE_EXACTLY;
    if (search->asked < search->lightest)
        return MADE_LIGHTEST;
    return search->asked > search->heaviest ? MADE_HEAVIEST : MADE_NEAREST;
}

static void search_plating(const struct search *search, struct plating *plating)
{
    plating->bar = search->bar;
    plating->collar = search->collar;
    plating->one_sleeve = search->one_sleeve;
    plating->both_units = search->gym->both_units;
    if (search->rack) {
        int64_t discs[PLATE_DISCS_MAX];
        plating->disc_count = plate_load_discs(search->rack, &search->plates, discs);
        for (int i = 0; i < plating->disc_count; i++)
            plating->discs[i] = discs[i];
    }
}

/* The gym has something that the exercise needs, but gives no weights for it. */
static bool gym_leaves_open(const struct gym *gym, const struct exercise *exercise)
{
    for (size_t i = 0; i < gym->other_count; i++)
        if (gym->others[i].mass == 0 && needs_kit(exercise, &gym->others[i]))
            return true;
    return false;
}

static enum weigh weigh_of(const struct gym *gym, const struct exercise *exercise)
{
    if (exercise->weigh != WEIGH_UNSAID)
        return exercise->weigh;
    return needs_bar(gym, exercise) ? WEIGH_BAR_AND_PLATES : WEIGH_IMPLEMENT;
}

bool load_move(const struct gym *gym, const struct exercise *exercise, const struct kit *bar, struct load *load)
{
    struct search search = {.gym = gym, .exercise = exercise, .only = bar, .asked = load->made};
    search_by_weigh(&search, weigh_of(gym, exercise), exercise_sources(exercise), load->pieces);
    if (!search.found || search.made != load->made || search.bar != bar)
        return false;
    load->plating = (struct plating){0};
    search_plating(&search, &load->plating);
    return true;
}

enum load_made load_make(const struct gym *gym, const struct exercise *exercise, mass asked,
                         int pieces, bool round_down, struct load *out)
{
    struct search search = {.gym = gym, .exercise = exercise, .asked = asked, .down = round_down};
    unsigned bits = gym ? exercise_sources(exercise) : 0;

    out->asked = out->made = asked;
    out->unit = mass_written_in(asked);
    out->pieces = pieces > 1 ? pieces : 1;
    out->rounded_down = false;
    out->plating = (struct plating){0};
    if (!gym || !gym->loadings)
        return MADE_FROM_NOTHING;
    enum weigh weigh = weigh_of(gym, exercise);
    search_by_weigh(&search, weigh, bits, pieces);
    if (!search.found && pieces > 1) {
        search_by_weigh(&search, weigh, bits, 1);
        if (search.found)
            return MADE_TOO_FEW;
    }
    if (!search.found)
        return bits == 0 && weigh != WEIGH_BAR_AND_PLATES && !needs_bar(gym, exercise) &&
                       gym_leaves_open(gym, exercise)
                   ? MADE_UNWEIGHED
                   : MADE_FROM_NOTHING;

    out->made = search.made;
    out->unit = search.bar || search.rack ? gym->unit : mass_written_in(search.made);
    out->rounded_down = round_down && search.made < asked;
    search_plating(&search, &out->plating);
    return search_outcome(&search);
}

/* --- the ramp --- */

/* What is lifted above what the load names, or below 0 what rests on the floor of it. Whoever lifts the free end of a
 * landmine's bar bears half of the bar, as of any even bar that rests on its other end (statics of the lever). */
static mass lifted_beside(const struct gym *gym, const struct exercise *exercise, const struct load *working)
{
    const struct plating *plating = &working->plating;
    if (!plating->one_sleeve || !plating->bar)
        return 0;
    mass half = plating->bar->mass / 2;
    return weigh_of(gym, exercise) == WEIGH_BAR_AND_PLATES ? -half : half;
}

int load_ramp(const struct gym *gym, const struct exercise *exercise, const struct load *working,
              struct ramp_step out[RAMP_STEPS])
{
    static const struct ramp_wish usual[] = {{40000, 5}, {60000, 3}, {75000, 2}, {85000, 1}}; /* common practice */
    bool own = gym && gym->ramp_count > 0;
    const struct ramp_wish *steps = own ? gym->ramp : usual;
    int wished = own ? gym->ramp_count : (int)(sizeof usual / sizeof *usual), count = 0;
    mass last = 0, beside = lifted_beside(gym, exercise, working);

    if (exercise->weigh == WEIGH_ADDED || !load_is_weighed(working->kind))
        return 0;
    for (int i = 0; i < wished; i++) {
        struct ramp_step *step = &out[count];
        mass asked = mass_share(working->made + beside, steps[i].percent) - beside;
        if (asked <= 0)
            continue;
        *step = (struct ramp_step){.reps = steps[i].reps, .load.kind = LOAD_MASS};
        enum load_made made = load_make(gym, exercise, asked, working->pieces, false, &step->load);
        if (made == MADE_FROM_NOTHING || made == MADE_UNWEIGHED || made == MADE_TOO_FEW)
            continue;
        if (step->load.made <= last || step->load.made >= working->made)
            continue;
        last = step->load.made;
        count++;
    }
    return count;
}

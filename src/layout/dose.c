#include "layout/dose.h"

#include <math.h>
#include <string.h>

#include "layout/marks.h"
#include "model/wording.h"

static struct face first(double size, enum weight weight)
{
    return (struct face){size, weight, {INK_BLACK, RANK_FIRST, ROLE_PLAIN}};
}

static struct face small_grey(struct dose_sizes sizes)
{
    return (struct face){sizes.small, WEIGHT_REGULAR, {INK_GREY, sizes.small_rank, ROLE_PLAIN}};
}

static void join(const struct press *press, struct piece *atom, const char *text, struct face face,
                 double gap)
{
    if (*text)
        atom_join(atom, press_word(press, text, face), gap);
}

/* WORDS up to their first no-break space bold, the unit behind it light: "25" "s". */
static void join_amount(const struct press *press, struct piece *atom, const char *words,
                        double size)
{
    const char *gap = strstr(words, WORDING_GAP);
    size_t length = gap ? (size_t)(gap - words) : strlen(words);
    join(press, atom, arena_copy(press->arena, words, length), first(size, WEIGHT_BOLD),
         0.24 * size);
    if (gap)
        join(press, atom, gap + strlen(WORDING_GAP), first(size, WEIGHT_REGULAR), 0.2 * size);
}

static bool has_feet(const struct part *part)
{
    return part->side == DOSE_ORTHODOX || part->side == DOSE_SOUTHPAW;
}

/* A part of a stance: the number, its feet, and behind the LAST part the unit that all share. */
static struct piece *stance_atom(const struct press *press, const char *lead,
                                 const struct part *part, double size, bool last)
{
    struct piece *atom = piece_new(press->arena);
    const char *number = wording_amount(press->arena, part), *unit = wording_unit(part);
    if (*unit)
        number = wording_range(press->arena, part->amount);
    join(press, atom, lead, first(size, WEIGHT_REGULAR), 0);
    join_amount(press, atom, number, size);
    atom_join(atom, mark_stance(press, part->side, 0.98 * size), 0.1 * size);
    if (*unit && last)
        join(press, atom, unit + strlen(WORDING_GAP), first(size, WEIGHT_REGULAR), 0.3 * size);
    return atom;
}

/* Adds one part of a set: LEAD ("3 ×", "+", "hold") light, the amount, then feet or words. */
static void add_part(const struct press *press, struct flow *flow, const char *lead,
                     const struct part *part, double size, bool close, bool last)
{
    struct piece *atom = piece_new(press->arena);
    const char *side = has_feet(part) ? "" : wording_side(part);
    if (has_feet(part)) {
        atom = stance_atom(press, lead, part, size, last);
    } else {
        join(press, atom, lead, first(size, WEIGHT_REGULAR), 0);
        join_amount(press, atom, wording_amount(press->arena, part), size);
    }
    if (close)
        flow_add_close(press, flow, atom);
    else
        flow_add(press, flow, atom);
    if (*side)
        flow_add_close(press, flow, press_word(press, side, first(size, WEIGHT_REGULAR)));
}

void dose_add_words(const struct press *press, struct flow *flow, const char *words,
                    struct face face, double width)
{
    if (!*words)
        return;
    struct piece *piece = press_word(press, words, face);
    if (width > 0 && piece->width > width) {
        piece = press_paragraph(press, words, face, width, 0, 0.84, false);
        piece->height -= 0.22 * face.size; /* a line ends at its baseline, as a word does */
    }
    flow_add(press, flow, piece);
}

/* Nothing but a number, which beside a load could be read as one with it: "6" and "5 kg". */
static bool is_bare(const char *count, const struct set_run *run)
{
    const struct part *part = &run->parts[0];
    return !*count && run->part_count == 1 && run->repeats <= 1 && !run->hold && !part->max &&
           part->unit == UNIT_REPS && part->side == DOSE_WHOLE;
}

static void add_set(const struct press *press, struct flow *flow, const char *count,
                    const struct set_run *run, struct dose_sizes sizes)
{
    struct arena *arena = press->arena;
    double size = sizes.size;
    struct face light = first(size, WEIGHT_REGULAR);
    if (run->repeats > 1)
        count = arena_printf(arena, "%s%s%d" WORDING_GAP WORDING_TIMES, count, *count ? " " : "",
                             run->repeats);
    if (run->hold)
        count = arena_printf(arena, "%s%shold", count, *count ? WORDING_GAP : "");
    for (size_t i = 0; i < run->part_count; i++)
        add_part(press, flow, i ? "+" : count, &run->parts[i], size, i > 0,
                 i + 1 == run->part_count);
    if (is_bare(count, run))
        flow_add_close(press, flow,
                       press_word(press, run->parts[0].amount.high == 1000 ? "rep" : "reps", light));
    if (run->within > 0)
        dose_add_words(
            press, flow,
            arena_printf(arena, "in" WORDING_GAP "%s", wording_clock(arena, run->within)), light,
            sizes.width);
    dose_add_words(press, flow, wording_rest_inside(arena, run), light, sizes.width);
}

/* "4 × (" "5 s" "all-out," "25 s" "easy)": the lengths bold. */
static void add_intervals(const struct press *press, struct flow *flow, const struct item *item,
                          size_t count, double size)
{
    struct arena *arena = press->arena;
    int times = item->runs[0].count;
    for (size_t i = 0; i < count; i++) {
        struct piece *atom = piece_new(arena);
        const struct set_run *run = &item->runs[i];
        bool last = i + 1 == count;
        const char *load = wording_load(arena, item->exercise, &run->load, false);
        if (i == 0 && times > 1)
            join(press, atom,
                 arena_printf(arena, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP "(", times),
                 first(size, WEIGHT_REGULAR), 0);
        join(press, atom, wording_set(arena, run), first(size, WEIGHT_BOLD), 0);
        join(press, atom,
             arena_printf(arena, "%s%s", load,
                          !last       ? ","
                          : times > 1 ? ")"
                                      : ""),
             first(size, WEIGHT_REGULAR), 0.24 * size);
        flow_add_close(press, flow, atom);
    }
}

static bool sets_alike(const struct press *press, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_set(press->arena, &item->runs[0]),
                   wording_set(press->arena, &item->runs[i])) != 0)
            return false;
    return true;
}

/* "8, 8, 10, 12 each side": an atom a set, so that a long list may go on in the next line. */
static void add_list(const struct press *press, struct flow *flow, const char *words, double size)
{
    while (*words) {
        const char *comma = strchr(words, ',');
        size_t length = comma ? (size_t)(comma - words) + 1 : strlen(words);
        flow_add(
            press, flow,
            press_word(press, arena_copy(press->arena, words, length), first(size, WEIGHT_BOLD)));
        words += length;
        words += *words == ' ';
    }
}

void dose_add_amounts(const struct press *press, struct flow *flow, const struct block *block,
                      const struct item *item, struct dose_sizes sizes)
{
    const char *words = wording_dose(press->arena, block, item);
    if (!*words)
        return;
    size_t pieces = wording_intervals(block, item);
    if (pieces) {
        add_intervals(press, flow, item, pieces, sizes.size);
        return;
    }
    if (item->runs[0].work_up) {
        dose_add_words(press, flow, words, first(sizes.size, WEIGHT_REGULAR), sizes.width);
        return;
    }
    if (!sets_alike(press, item)) {
        add_list(press, flow, words, sizes.size);
        return;
    }
    bool counted = wording_counts_sets(block) && item->sets > 1;
    const char *count =
        counted ? arena_printf(press->arena, "%d" WORDING_GAP WORDING_TIMES, item->sets) : "";
    if (item->runs[0].part_count)
        add_set(press, flow, count, &item->runs[0], sizes);
    else if (counted)
        dose_add_words(press, flow, words, first(sizes.size, WEIGHT_BOLD), sizes.width);
}

/* The share of a best and pounds: "80 % est. (46.75 lb)". */
static const char *share_words(const struct press *press, const struct load *load, bool pounds)
{
    const char *mass_words = wording_load_mass(press->arena, load, pounds);
    const char *share = *mass_words ? wording_load_share(press->arena, load) : "";
    const char *in_pounds = pounds ? strchr(mass_words, '(') : NULL;
    return arena_printf(press->arena, "%s%s%s", share, *share && in_pounds ? " " : "",
                        in_pounds ? in_pounds : "");
}

/* Joins ABOVE and BELOW to ATOM, one above the other, as high as its figures where they are large enough. */
static void join_notes(const struct press *press, struct piece *atom, const char *above,
                       const char *below, struct dose_sizes sizes)
{
    double gap = 0.16 * sizes.size;
    struct face face = small_grey(sizes);
    if (!*above || !*below) {
        join(press, atom, *above ? above : below, face, gap);
        return;
    }
    struct piece *upper = press_word(press, above, face), *lower = press_word(press, below, face);
    double x = atom->width + gap, capital = type_capital(press->type);
    double pitch =
        fmax(1.08 * sizes.small, fmin(1.15 * sizes.small, capital * (sizes.size - sizes.small)));
    piece_place(atom, upper, x, atom->baseline - pitch - upper->baseline);
    piece_place(atom, lower, x, atom->baseline - lower->baseline);
    atom->width = x + fmax(upper->width, lower->width);
}

/* "75" bold, "kg" light, and what the kilograms are of, small. */
static struct piece *mass_atom(const struct press *press, const struct item *item,
                               const struct load *load, struct dose_sizes sizes, bool pounds)
{
    const char *words = wording_load_mass(press->arena, load, false);
    if (!*words)
        return NULL;
    struct piece *atom = piece_new(press->arena);
    const char *unit = strstr(words, WORDING_GAP "kg");
    const char *number = arena_copy(press->arena, words, (size_t)(unit - words));
    join(press, atom, number, first(sizes.size, WEIGHT_BOLD), 0);
    join(press, atom, "kg", first(sizes.size, WEIGHT_REGULAR), 0.16 * sizes.size);
    join_notes(press, atom, wording_meaning(item->exercise, load),
               sizes.noted ? share_words(press, load, pounds) : "", sizes);
    return atom;
}

void dose_add_effort(const struct press *press, struct flow *flow, const struct item *item,
                     struct dose_sizes sizes)
{
    const char *effort = item->run_count ? wording_effort(press->arena, &item->runs[0].load) : "";
    if (*effort)
        flow_add(press, flow, press_word(press, effort, first(sizes.size, WEIGHT_BOLD)));
}

static void add_load(const struct press *press, struct flow *flow, const struct item *item,
                     const struct load *load, struct dose_sizes sizes, bool pounds)
{
    struct face bold = first(sizes.size, WEIGHT_BOLD);
    flow_add(press, flow, mass_atom(press, item, load, sizes, pounds));
    dose_add_words(press, flow, wording_load_words(press->arena, load, false), bold, sizes.width);
    dose_add_words(press, flow, wording_effort(press->arena, load), bold, sizes.width);
}

static bool loads_alike(const struct press *press, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_load(press->arena, item->exercise, &item->runs[0].load, false),
                   wording_load(press->arena, item->exercise, &item->runs[i].load, false)) != 0)
            return false;
    return true;
}

void dose_add_loads(const struct press *press, struct flow *flow, const struct block *block,
                    const struct item *item, struct dose_sizes sizes, bool pounds)
{
    if (item->run_count == 0 || wording_intervals(block, item))
        return;
    if (loads_alike(press, item)) {
        add_load(press, flow, item, &item->runs[0].load, sizes, pounds);
        return;
    }
    add_list(press, flow, wording_loads(press->arena, block, item, pounds), sizes.size);
    if (sizes.noted)
        dose_add_shares(press, flow, item, sizes, pounds);
}

void dose_add_shares(const struct press *press, struct flow *flow, const struct item *item,
                     struct dose_sizes sizes, bool pounds)
{
    const char *last = "";
    for (size_t i = 0; i < item->run_count; i++) {
        const char *words = share_words(press, &item->runs[i].load, pounds);
        if (*words && strcmp(words, last) != 0)
            flow_add(press, flow, press_word(press, words, small_grey(sizes)));
        last = words;
    }
}

static bool same_plating(const struct plating *a, const struct plating *b)
{
    return a->bar == b->bar && a->disc_count == b->disc_count &&
           memcmp(a->discs, b->discs, (size_t)a->disc_count * sizeof *a->discs) == 0;
}

void dose_add_bars(const struct press *press, struct flow *flow, const struct item *item,
                   double size, enum rank rank)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct load *load = &item->runs[i].load;
        const struct plating *plating = &load->plating;
        /* Discs made from a share of body mass would tell it. */
        if (load->kind == LOAD_BODY && load->made != load->added)
            continue;
        if (i == 0 || !same_plating(plating, &item->runs[i - 1].load.plating))
            flow_add(press, flow, mark_bar(press, plating, size, rank));
    }
}

#include "layout/printed_dose.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/marks.h"
#include "measure/bars.h"
#include "model/block.h"
#include "wording/wording.h"

/* --- bits --- */

static struct dose_face first(enum weight weight)
{
    return (struct dose_face){false, weight, {INK_BLACK, RANK_FIRST, ROLE_PLAIN}};
}

static struct dose_face small_grey(void)
{
    return (struct dose_face){true, WEIGHT_REGULAR, {INK_GREY, RANK_SECOND, ROLE_PLAIN}};
}

static void add_bit(struct printed_dose *dose, struct dose_bit bit)
{
    dose->bits =
        arena_grow(dose->arena, dose->bits, dose->count, &dose->capacity, sizeof *dose->bits);
    dose->bits[dose->count++] = bit;
}

/* An atom that bits are joined to, the first of which begins it. */
struct atom {
    struct printed_dose *dose;
    bool begun, close;
};

static void join(struct atom *atom, struct dose_bit bit)
{
    bit.begins = !atom->begun;
    bit.close = atom->close;
    atom->begun = true;
    add_bit(atom->dose, bit);
}

static void join_word(struct atom *atom, const char *text, struct dose_face face, double gap)
{
    if (*text)
        join(atom, (struct dose_bit){.kind = BIT_WORD, .face = face, .text = text, .gap = gap});
}

/* TEXT as an atom of its own. */
static void add_word(struct printed_dose *dose, const char *text, struct dose_face face, bool close)
{
    join_word(&(struct atom){.dose = dose, .close = close}, text, face, 0);
}

void dose_add_words(struct printed_dose *dose, const char *words, struct dose_face face, bool breaks)
{
    if (*words)
        add_bit(
            dose,
            (struct dose_bit){
                .kind = BIT_WORD, .begins = true, .breaks = breaks, .face = face, .text = words});
}

/* --- how much --- */

/* WORDS up to their first no-break space bold, the unit after it light: "25" "s". */
static void join_amount(struct atom *atom, const char *words)
{
    const char *gap = strstr(words, WORDING_GAP);
    size_t length = gap ? (size_t)(gap - words) : strlen(words);
    join_word(atom, arena_copy(atom->dose->arena, words, length), first(WEIGHT_BOLD), 0.24);
    if (gap)
        join_word(atom, gap + strlen(WORDING_GAP), first(WEIGHT_REGULAR), 0.2);
}

static bool has_feet(const struct part *part)
{
    return part->side == DOSE_ORTHODOX || part->side == DOSE_SOUTHPAW;
}

/* A part of a stance: the number, its feet, and after the LAST part the unit that all share. */
static void join_stance(struct atom *atom, const struct part *part, bool last)
{
    struct arena *arena = atom->dose->arena;
    const char *unit = wording_unit(arena, part);
    join_amount(atom, *unit ? wording_range(arena, part->amount) : wording_amount(arena, part));
    join(atom, (struct dose_bit){.kind = BIT_STANCE, .side = part->side, .gap = 0.1});
    if (*unit && last)
        join_word(atom, unit + strlen(WORDING_GAP), first(WEIGHT_REGULAR), 0.3);
}

/* Adds one part of a set: LEAD ("3 ×", "+", "hold") light, the amount, then feet or words, and END ("," between the
 * sets of a list). Parts with feet are one ATOM, since no line may end between the stances of a set. */
static void add_part(struct atom *atom, const char *lead, const struct part *part, bool last, const char *end)
{
    struct printed_dose *dose = atom->dose;
    if (has_feet(part)) {
        join_word(atom, lead, first(WEIGHT_REGULAR), atom->begun ? 0.3 : 0);
        join_stance(atom, part, last);
        join_word(atom, end, first(WEIGHT_BOLD), 0);
        return;
    }
    *atom = (struct atom){.dose = dose, .close = atom->close};
    join_word(atom, lead, first(WEIGHT_REGULAR), 0);
    join_amount(atom, wording_amount(dose->arena, part));
    const char *side = wording_side(dose->arena, part);
    if (*side)
        add_word(dose, text_joined(dose->arena, side, end), first(WEIGHT_REGULAR), true);
    else
        join_word(atom, end, first(WEIGHT_BOLD), 0);
}

/* One repetition a stance in turn: the number of all of them, the feet of both stances, and words that say so. Of an odd
 * number one stance does one more, and begins: its feet come first. */
static void add_turns(struct printed_dose *dose, const char *lead, const struct set_run *run, const char *end)
{
    const struct part whole = wording_whole(run);
    const char *unit = wording_unit(dose->arena, &whole);
    struct atom atom = {.dose = dose};
    join_word(&atom, lead, first(WEIGHT_REGULAR), 0);
    join_amount(&atom, *unit ? wording_range(dose->arena, whole.amount) : wording_amount(dose->arena, &whole));
    bool second = run->part_count > 1 && run->parts[1].amount.high > run->parts[0].amount.high;
    join(&atom, (struct dose_bit){.kind = BIT_STANCE, .side = run->parts[second].side, .gap = 0.1});
    if (run->part_count > 1)
        join(&atom, (struct dose_bit){.kind = BIT_STANCE, .side = run->parts[!second].side, .gap = 0.1});
    const char *words = *unit ? arena_printf(dose->arena, "%s %s%s", unit + strlen(WORDING_GAP), said(dose->arena, "in turn"), end)
                              : text_joined(dose->arena, said(dose->arena, "in turn"), end);
    add_word(dose, words, first(WEIGHT_REGULAR), true);
}

/* Nothing but a number, which beside a load could be read as one with it: "6" and "5 kg". */
static bool is_bare(const char *count, const struct set_run *run)
{
    const struct part *part = &run->parts[0];
    return !*count && run->part_count == 1 && run->repeats <= 1 && !run->hold && !part->max &&
           part->unit == UNIT_REPS && part->side == DOSE_WHOLE;
}

/* A set with COUNT ("3 ×") before it; in a list END ("," or nothing) follows it, otherwise END is NULL. */
static void add_set(struct printed_dose *dose, const char *count, const struct set_run *run, const char *end)
{
    bool bare = !end && is_bare(count, run);
    end = end ? end : "";
    struct arena *arena = dose->arena;
    struct dose_face light = first(WEIGHT_REGULAR);
    const char *within = run->within > 0 ? arena_printf(arena, said(arena, "in\u00a0%s"),
                                                        wording_clock(arena, run->within))
                                         : "";
    const char *rest = wording_rest_inside(arena, run);
    if (run->repeats > 1)
        count = arena_printf(arena, "%s%s%d" WORDING_GAP WORDING_TIMES, count, *count ? " " : "",
                             run->repeats);
    if (run->hold)
        count = arena_printf(arena, "%s%s%s", count, *count ? WORDING_GAP : "", said(arena, "hold"));
    if (run->alternating)
        add_turns(dose, count, run, *within || *rest ? "" : end);
    struct atom atom = {.dose = dose};
    for (size_t i = 0; i < run->part_count && !run->alternating; i++) {
        bool last = i + 1 == run->part_count;
        add_part(&atom, i ? "+" : count, &run->parts[i], last, last && !*within && !*rest ? end : "");
        atom.close = true;
    }
    if (bare)
        add_word(dose, said_count(arena, run->parts[0].amount.high == 1000 ? 1 : 2, "rep", "reps"), light, true);
    dose_add_words(dose, *within && !*rest ? text_joined(arena, within, end) : within, light, true);
    dose_add_words(dose, *rest ? text_joined(arena, rest, end) : "", light, true);
}

/* "4 × (" "5 s" "all-out," "25 s" "easy)": the lengths bold. */
static void add_intervals(struct printed_dose *dose, const struct item *item, size_t count)
{
    struct arena *arena = dose->arena;
    int times = item->runs[0].count;
    const char *lead = times > 1 ? arena_printf(arena, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP "(", times) : "";
    for (size_t i = 0; i < count; i++) {
        const struct set_run *run = &item->runs[i];
        const char *load = wording_load(arena, item->exercise, &run->load, false);
        const char *end = i + 1 < count ? "," : times > 1 ? ")" : "";
        add_set(dose, i ? "" : lead, run, *load ? "" : end);
        add_word(dose, *load ? text_joined(arena, load, end) : "", first(WEIGHT_REGULAR), true);
    }
}

static bool sets_alike(struct arena *arena, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_set(arena, &item->runs[0]), wording_set(arena, &item->runs[i])) != 0)
            return false;
    return true;
}

/* "8, 8, 10, 12 each side": an atom a set, so that a long list may go on in the next line; each stance has its feet. */
static void add_listed(struct printed_dose *dose, const struct item *item)
{
    bool once = wording_once(item);
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        for (int set = 0; set < run->count; set++) {
            bool last = i + 1 == item->run_count && set + 1 == run->count;
            if (once && !last)
                add_word(dose,
                         text_joined(dose->arena,
                                     run->parts->max ? said(dose->arena, "max") : wording_range(dose->arena, wording_whole(run).amount), ","),
                         first(WEIGHT_BOLD), false);
            else
                add_set(dose, "", run, last ? "" : ",");
        }
    }
}

/* WORDS separated by commas, an atom for each set, after an @ that separates them from the amounts. */
static void add_list(struct printed_dose *dose, const char *words)
{
    struct atom lead = {.dose = dose};
    join_word(&lead, "@", first(WEIGHT_REGULAR), 0);
    bool begun = false;
    while (*words) {
        const char *comma = strstr(words, ", "); /* one alone may be a decimal sign */
        size_t length = comma ? (size_t)(comma - words) + 1 : strlen(words);
        const char *word = arena_copy(dose->arena, words, length);
        if (begun)
            add_word(dose, word, first(WEIGHT_BOLD), false);
        else
            join_word(&lead, word, first(WEIGHT_BOLD), 0.2);
        begun = true;
        words += length;
        words += *words == ' ';
    }
}

void dose_add_amounts(struct printed_dose *dose, const struct block *block, const struct item *item)
{
    struct arena *arena = dose->arena;
    const char *words = wording_dose(arena, block, item);
    if (!*words)
        return;
    size_t parts = wording_intervals(block, item);
    if (parts) {
        add_intervals(dose, item, parts);
        return;
    }
    if (item->runs[0].work_up) {
        dose_add_words(dose, words, first(WEIGHT_REGULAR), true);
        return;
    }
    if (!sets_alike(arena, item)) {
        add_listed(dose, item);
        return;
    }
    bool counted = wording_counts_sets(block) && item->sets > 1;
    if (item->runs[0].part_count)
        add_set(dose,
                counted ? arena_printf(arena, "%d" WORDING_GAP WORDING_TIMES, item->sets) : "",
                &item->runs[0], NULL);
    else if (counted)
        dose_add_words(dose, words, first(WEIGHT_BOLD), true);
}

/* --- with what --- */

/* The share of a best and pounds: "80 % est. (46.75 lb)". */
static const char *share_words(struct arena *arena, const struct load *load, bool pounds)
{
    const char *mass_words = wording_load_mass(arena, load, pounds);
    const char *share = *mass_words ? wording_load_share(arena, load) : "";
    const char *in_pounds = strchr(mass_words, '('); /* if kilograms come first and pounds are asked for */
    return arena_printf(arena, "%s%s%s", share, *share && in_pounds ? " " : "",
                        in_pounds ? in_pounds : "");
}

/* Joins ABOVE and BELOW to ATOM, one above the other if there are both. */
static void join_notes(struct atom *atom, const char *above, const char *below)
{
    if (*above && *below)
        join(atom, (struct dose_bit){.kind = BIT_NOTES,
                                     .face = small_grey(),
                                     .text = above,
                                     .below = below,
                                     .gap = 0.16});
    else
        join_word(atom, *above ? above : below, small_grey(), 0.16);
}

/* "75" bold, its unit light, and what the kilograms are of, small. */
static void add_mass(struct printed_dose *dose, const struct item *item, const struct load *load,
                     bool pounds, bool noted)
{
    const char *words = wording_load_mass(dose->arena, load, false);
    if (!*words)
        return;
    struct atom atom = {.dose = dose};
    const char *unit = wording_mass_unit(dose->arena, load->unit);
    size_t length = strlen(words) - strlen(WORDING_GAP) - strlen(unit);
    join_word(&atom, arena_copy(dose->arena, words, length), first(WEIGHT_BOLD), 0);
    join_word(&atom, unit, first(WEIGHT_REGULAR), 0.16);
    join_notes(&atom, wording_meaning(dose->arena, item->exercise, load),
               noted ? share_words(dose->arena, load, pounds) : "");
}

void dose_add_effort(struct printed_dose *dose, const struct item *item)
{
    if (item->run_count)
        add_word(dose, wording_effort(dose->arena, &item->runs[0].load), first(WEIGHT_BOLD), false);
}

static bool loads_alike(struct arena *arena, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_load(arena, item->exercise, &item->runs[0].load, false),
                   wording_load(arena, item->exercise, &item->runs[i].load, false)) != 0)
            return false;
    return true;
}

void dose_add_loads(struct printed_dose *dose, const struct block *block, const struct item *item,
                    bool pounds, bool noted)
{
    if (item->run_count == 0 || wording_intervals(block, item))
        return;
    if (loads_alike(dose->arena, item)) {
        const struct load *load = &item->runs[0].load;
        add_mass(dose, item, load, pounds, noted);
        dose_add_words(dose, wording_load_words(dose->arena, load, false), first(WEIGHT_BOLD),
                       true);
        dose_add_words(dose, wording_effort(dose->arena, load), first(WEIGHT_BOLD), true);
        return;
    }
    add_list(dose, wording_loads(dose->arena, block, item, pounds));
    if (noted)
        dose_add_shares(dose, item, pounds);
}

void dose_add_shares(struct printed_dose *dose, const struct item *item, bool pounds)
{
    const char *last = "";
    for (size_t i = 0; i < item->run_count; i++) {
        const char *words = share_words(dose->arena, &item->runs[i].load, pounds);
        if (strcmp(words, last) != 0)
            add_word(dose, words, small_grey(), false);
        last = words;
    }
}

void dose_add_tempo(struct printed_dose *dose, const struct item *item, double share)
{
    if (item->run_count && item->runs[0].tempo.given)
        add_bit(dose, (struct dose_bit){.kind = BIT_TEMPO,
                                        .begins = true,
                                        .tempo = &item->runs[0].tempo,
                                        .share = share});
}

void dose_add_bars(struct printed_dose *dose, const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct load *load = &item->runs[i].load;
        const struct plating *plating = &load->plating;
        if (i == 0 || !plating_same(plating, &item->runs[i - 1].load.plating))
            add_bit(dose, (struct dose_bit){.kind = BIT_BAR, .begins = true, .plating = plating});
    }
}

/* --- setting --- */

static struct face face_of(const struct dose_face *face, const struct dose_sizes *sizes)
{
    return (struct face){face->small ? sizes->small : sizes->size, face->weight, face->style};
}

static struct box *word_box(const struct press *press, const struct dose_bit *bit,
                            const struct dose_sizes *sizes)
{
    struct face face = face_of(&bit->face, sizes);
    struct box *box = press_word(press, bit->text, face);
    if (bit->breaks && sizes->width > 0 && box->width > sizes->width) {
        box = press_paragraph(press, bit->text, face, sizes->width, 0, 0.84, false);
        box->height -= 0.22 * face.size;   /* a line ends at its baseline, as a word does */
    }
    return box;
}

static struct box *bit_box(const struct press *press, const struct dose_bit *bit,
                           const struct dose_sizes *sizes)
{
    switch (bit->kind) {
    case BIT_STANCE:
        return mark_stance(press, bit->side, 0.98 * sizes->size);
    case BIT_TEMPO:
        return mark_tempo(press, bit->tempo, bit->share * sizes->small, RANK_SECOND);
    case BIT_BAR:
        return sizes->disc > 0 ? mark_bar_read_first(press, bit->plating, sizes->disc, sizes->small, !sizes->bar_known)
                               : mark_bar(press, bit->plating, sizes->small, RANK_SECOND);
    default:
        return word_box(press, bit, sizes);
    }
}

/* Joins notes to ATOM, as high together as its figures where they are large enough. */
static void set_notes(const struct press *press, struct box *atom, const struct dose_bit *bit,
                      const struct dose_sizes *sizes)
{
    struct face face = face_of(&bit->face, sizes);
    struct box *upper = press_word(press, bit->text, face);
    struct box *lower = press_word(press, bit->below, face);
    double x = atom->width + bit->gap * sizes->size, capital = type_capital(press->type);
    double pitch = fmax(1.08 * sizes->small,
                        fmin(1.15 * sizes->small, capital * (sizes->size - sizes->small)));
    box_place(atom, upper, x, atom->baseline - pitch - upper->baseline);
    box_place(atom, lower, x, atom->baseline - lower->baseline);
    atom->width = x + fmax(upper->width, lower->width);
}

void dose_set(const struct press *press, struct flow *flow, const struct printed_dose *dose,
              struct dose_sizes sizes)
{
    for (size_t i = 0; i < dose->count;) {
        bool close = dose->bits[i].close;
        struct box *atom = bit_box(press, &dose->bits[i], &sizes);
        for (i++; i < dose->count && !dose->bits[i].begins; i++) {
            const struct dose_bit *bit = &dose->bits[i];
            if (bit->kind == BIT_NOTES)
                set_notes(press, atom, bit, &sizes);
            else
                atom_join(atom, bit_box(press, bit, &sizes), bit->gap * sizes.size);
        }
        if (close)
            flow_add_close(press, flow, atom);
        else
            flow_add(press, flow, atom);
    }
}

#include "layout/marks.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "language/language.h"
#include "wording/wording.h"

#define COUNT_OF(list) (sizeof(list) / sizeof *(list))

/* The sole of a left foot, toes up. */
static const struct step sole[] = {
    {'M', {0.56, 0.0}},
    {'C', {0.88, 0.0, 1.0, 0.15, 1.0, 0.31}},
    {'C', {1.0, 0.47, 0.86, 0.56, 0.85, 0.68}},
    {'C', {0.84, 0.75, 0.86, 0.80, 0.84, 0.87}},
    {'C', {0.82, 0.96, 0.68, 1.0, 0.54, 1.0}},
    {'C', {0.38, 1.0, 0.26, 0.95, 0.24, 0.85}},
    {'C', {0.21, 0.70, 0.06, 0.60, 0.02, 0.42}},
    {'C', {-0.04, 0.18, 0.22, 0.0, 0.56, 0.0}},
    {'Z', {0}},
};

static void foot(struct box *box, double x, double y, double height, bool right, bool front,
                 enum ink ink)
{
    struct element *shape =
        box_shape(box, x, y, 0.46 * height, height, sole, COUNT_OF(sole));
    shape->mirrored = right;
    shape->fill = front ? ink : INK_PAPER;
    shape->stroke = ink;
    shape->stroke_width = 0.085 * height;
}

struct box *mark_stance(const struct press *press, enum dose_side side, double height)
{
    struct box *box = box_new(press->arena);
    bool southpaw = side == DOSE_SOUTHPAW;
    enum ink ink = southpaw ? INK_SPOT : INK_BLACK;
    double of_foot = 0.70 * height;
    double edge = 0.04 * of_foot; /* half the outline's width stays inside the piece */
    double left = edge, right = edge + 0.60 * of_foot;
    double front = edge, rear = height - of_foot - edge;
    foot(box, left, southpaw ? rear : front, of_foot, false, !southpaw, ink);
    foot(box, right, southpaw ? front : rear, of_foot, true, southpaw, ink);
    box->width = right + 0.46 * of_foot + edge;
    box->height = height;
    return box_figure(box, wording_side(press->arena, &(struct part){.side = side}));
}

/* "3-1-X-0 (seconds down, held, up, held; X as fast as possible)". */
static const char *tempo_words(struct arena *arena, const struct item_tempo *tempo)
{
    return arena_printf(arena, "%s (%s)", wording_tempo(arena, tempo),
                        said(arena, "seconds down, held, up, held; X as fast as possible"));
}

struct box *mark_tempo(const struct press *press, const struct item_tempo *tempo, double size,
                       enum rank rank)
{
    const int seconds[] = {tempo->lower, tempo->low_pause, tempo->lift, tempo->high_pause};
    const bool fast[] = {tempo->lower_fast, tempo->low_pause_fast, tempo->lift_fast,
                         tempo->high_pause_fast};
    static const double from[] = {0, 1, 1, 0}, to[] = {1, 1, 0, 0};
    struct box *box = box_new(press->arena);
    struct face face = {size, WEIGHT_BOLD, {INK_BLACK, rank, ROLE_PLAIN}};
    double capital = size * type_capital(press->type);
    double path = 0.55 * size, cell = 1.45 * capital, x = 0, line = 0.12 * size;
    for (size_t i = 0; i < 4; i++) {
        const char *digit = fast[i] ? "X" : wording_number(press->arena, seconds[i] * 1000);
        double length = type_width(press->type, digit, size, WEIGHT_BOLD) + 0.5 * size;
        length = fmax(length, 0.5 * size * fmin(seconds[i], 8));
        double top = line / 2 + from[i] * (path - line);
        if (seconds[i] > 0 || fast[i])
            box_line(box, x, top, length, (to[i] - from[i]) * (path - line), line, INK_SPOT);
        box_rectangle(box, x, path + line, length, cell, INK_NONE, INK_BLACK, 0.045 * size);
        double inset = (length - type_width(press->type, digit, size, WEIGHT_BOLD)) / 2;
        press_put(press, box, x + inset, path + line + (cell + capital) / 2, digit, face);
        x += length;
    }
    box->width = x;
    box->height = path + line + cell;
    return box_figure(box, tempo_words(press->arena, tempo));
}

/* Height of a disc against the tallest: all are told apart by size as well as by number and colour. */
static double disc_share(mass disc)
{
    static const struct {
        mass least;
        double share;
    } steps[] = {{20 * MASS_KG, 1.0}, {15 * MASS_KG, 0.92}, {10 * MASS_KG, 0.82}, {5 * MASS_KG, 0.70},
                 {5 * MASS_KG / 2, 0.60}, {0, 0.52}};
    size_t i = 0;
    while (disc < steps[i].least)
        i++;
    return steps[i].share;
}

/* How a bar is drawn: with numbers in FACE on discs between LEAST and all of TALLEST high. */
struct bar_style {
    struct face face;
    double tallest, least;
    double small; /* size of what is said beside it */
    bool named;   /* whether it is */
};

static double draw_disc(const struct press *press, struct box *box, double x, mass disc, bool both_units,
                        const struct bar_style *style)
{
    char text[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(disc);
    struct face face = style->face;
    const char *number = mass_format_exact(disc, unit, text);
    number = both_units ? arena_printf(press->arena, "%s %s", number, wording_mass_unit(press->arena, unit))
                        : arena_copy(press->arena, number, strlen(number));
    double capital = face.size * type_capital(press->type), middle = style->tallest / 2;
    double wide = type_width(press->type, number, face.size, face.weight);
    double width = fmax(wide + 0.4 * face.size, 0.95 * face.size);
    double step = (disc_share(disc) - disc_share(0)) / (1 - disc_share(0));
    double height = (style->least + (1 - style->least) * step) * style->tallest;
    enum ink ink = ink_of_disc(disc);
    struct element *rectangle = box_rectangle(box, x, middle - height / 2, width, height, ink, INK_BLACK,
                                              0.05 * face.size);
    rectangle->radius = 0.16 * face.size;
    face.style.ink = ink_on(ink);
    press_put(press, box, x + (width - wide) / 2, middle + capital / 2, number, face);
    return width;
}

/* The bar up to its inner collar; returns where the sleeve begins. */
static double draw_shaft(struct box *box, double middle, double size)
{
    double end = 0.9 * size;
    box_rectangle(box, 0, middle - 0.09 * size, end, 0.18 * size, INK_GREY, INK_NONE, 0);
    box_rectangle(box, end - 0.14 * size, middle - 0.3 * size, 0.14 * size, 0.6 * size, INK_GREY,
                  INK_NONE, 0);
    return end;
}

/* Which bar, above how its discs are counted, in two lines beside the sleeve. Returns their width. */
static double put_bar_words(const struct press *press, struct box *box, double x, double middle,
                            const struct plating *plating, struct face face)
{
    double size = face.size, capital = size * type_capital(press->type);
    double name = press_put(press, box, x, middle - 0.12 * size,
                            wording_bar(press->arena, plating->bar), face);
    face.style.ink = INK_GREY;
    double side = press_put(press, box, x, middle + 0.24 * size + capital,
                            plating->one_sleeve ? said(press->arena, "one end") : said(press->arena, "a side"), face);
    return fmax(name, side);
}

/* "20 kg bar, a side: 20 kg + 10 kg"; of discs that are on no bar "20 kg + 10 kg". */
static const char *bar_words(struct arena *arena, const struct plating *plating)
{
    struct text out = {.arena = arena};
    if (plating->bar)
        text_add(&out, wording_bar(arena, plating->bar));
    if (plating->bar && plating->disc_count > 0)
        text_addf(&out, ", %s: ", plating->one_sleeve ? said(arena, "one end") : said(arena, "a side"));
    for (int i = 0; i < plating->disc_count; i++) {
        char number[MASS_TEXT_SIZE];
        enum mass_unit unit = mass_written_in(plating->discs[i]);
        text_addf(&out, "%s%s %s", i ? " + " : "", mass_format_exact(plating->discs[i], unit, number), wording_mass_unit(arena, unit));
    }
    return text_keep(arena, &out);
}

static struct box *draw_bar(const struct press *press, const struct plating *plating, const struct bar_style *style)
{
    if (!plating->bar && plating->disc_count == 0)
        return NULL;
    struct box *box = box_new(press->arena);
    double size = style->small, middle = style->tallest / 2, x = 0, gap = 0.07 * size;
    if (plating->bar)
        x = draw_shaft(box, middle, size);
    for (int i = 0; i < plating->disc_count; i++)
        x += gap + draw_disc(press, box, x + gap, plating->discs[i], plating->both_units, style);
    if (plating->collar > 0) {
        box_rectangle(box, x + gap, middle - 0.35 * size, 0.28 * size, 0.7 * size, INK_PAPER,
                      INK_BLACK, 0.05 * size);
        x += gap + 0.28 * size;
    }
    if (plating->bar) {
        struct face face = {size, WEIGHT_REGULAR, {INK_BLACK, style->face.style.rank, ROLE_PLAIN}};
        face.style.rank = face.style.rank == RANK_FIRST ? RANK_SECOND : face.style.rank;
        box_rectangle(box, x, middle - 0.15 * size, 0.5 * size, 0.3 * size, INK_GREY, INK_NONE, 0);
        x += 0.5 * size;
        if (style->named)
            x += 0.3 * size + put_bar_words(press, box, x + 0.3 * size, middle, plating, face);
    }
    box->width = x;
    box->height = style->tallest;
    return box_figure(box, bar_words(press->arena, plating));
}

struct box *mark_bar(const struct press *press, const struct plating *plating, double size,
                     enum rank rank)
{
    const struct bar_style style = {{size, WEIGHT_BOLD, {INK_BLACK, rank, ROLE_PLAIN}}, 2.3 * size, disc_share(0), size, true};
    return draw_bar(press, plating, &style);
}

struct box *mark_bar_read_first(const struct press *press, const struct plating *plating, double size, double small, bool named)
{
    const struct bar_style style = {{size, WEIGHT_BOLD, {INK_BLACK, RANK_FIRST, ROLE_PLAIN}}, fmax(1.18 * size, 2.3 * small), 0.82, small, named};
    return draw_bar(press, plating, &style);
}

static const struct step octagon[] = {
    {'M', {0.293, 0}}, {'L', {0.707, 0}}, {'L', {1, 0.293}}, {'L', {1, 0.707}},
    {'L', {0.707, 1}}, {'L', {0.293, 1}}, {'L', {0, 0.707}}, {'L', {0, 0.293}},
    {'Z', {0}},
};

struct box *mark_stop(const struct press *press, double height)
{
    struct box *box = box_new(press->arena);
    box_shape(box, 0, 0, height, height, octagon, COUNT_OF(octagon))->fill = INK_SPOT;
    /* A bar across, so that it is not taken for a bullet. */
    box_rectangle(box, 0.22 * height, 0.4 * height, 0.56 * height, 0.2 * height, INK_PAPER, INK_NONE,
                  0);
    box->width = box->height = height;
    return box;
}

const char *mark_stop_words(struct arena *arena, const char *rule)
{
    return rule ? arena_printf(arena, "%s: %s", said_guard(arena, SAID("Stop if")), said_guard_as(arena, "stop", rule)) : "";
}

/* The lines of a stop rule begin so far right of its mark's left edge, CAPITAL being the height of its capitals. */
static double stop_inset(double capital)
{
    return 1.45 * capital;
}

struct box *mark_stop_rule(const struct press *press, const char *words, struct face face,
                           double width)
{
    struct box *box = box_new(press->arena);
    if (!*words)
        return box;
    double capital = face.size * type_capital(press->type), inset = stop_inset(capital);
    struct box *lines = press_paragraph(press, words, face, width - inset, 0, 0.95, false);
    box_place(box, mark_stop(press, 1.1 * capital), 0, -0.05 * capital);
    box_place(box, lines, inset, 0);
    box->width = inset + lines->width;
    box->height = lines->height;
    box->baseline = lines->baseline;
    return box;
}

double mark_stop_rule_height(const struct press *press, const char *words, struct face face,
                             double width)
{
    double inset = stop_inset(face.size * type_capital(press->type));
    return press_height(press, words, face, width - inset, 0.95);
}

struct box *mark_blank(const struct press *press, double width, double height)
{
    struct box *box = box_new(press->arena);
    box_rectangle(box, 0, 0, width, height, INK_NONE, INK_BLACK, 0.6)->radius = 1.5;
    box->width = width;
    box->height = height;
    return box;
}

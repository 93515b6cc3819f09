/* card_blocks.c - the session's blocks on a card: the dose, then a blank for every set. */
#include <math.h>

#include "figures/sight.h"
#include "language/language.h"
#include "layout/card.h"
#include "layout/marks.h"

static const double GUTTER = 1.5; /* in sizes */
static const double BOX_WIDTH = 14, TICK = 8; /* millimetres: what a blunt pencil fits */

struct card_face {
    const struct card *card;
    double size, small, gutter, inner;
    struct dose_sizes dose;
};

double card_small(const struct card *card, double size)
{
    return fmax(card->least, 0.84 * size);
}

static struct face face_of(double size, enum weight weight, enum ink ink, enum rank rank)
{
    return (struct face){size, weight, {ink, rank, ROLE_PLAIN}};
}

static double capital(const struct card_face *face, double size)
{
    return size * type_capital(face->card->press.type);
}

/* The name left, dose and load right of it, on one line where they fit. */
static struct box *first_line(const struct card_face *face, const struct card_line *words,
                              bool *unfit)
{
    const struct press *press = &face->card->press;
    struct box *line = box_new(press->arena);
    struct flow flow = {0};
    dose_set(press, &flow, &words->dose, face->dose);
    double gap = 0.6 * face->size, pitch = 1.25 * face->size;
    struct box *dose = flow_set(press, &flow, face->inner, gap, pitch, capital(face, face->size));
    struct face bold =
        face_of(face->size, words->filler ? WEIGHT_REGULAR : WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    bold.style.role = ROLE_SUBHEADING;
    double wide = type_width(press->type, words->name, bold.size, bold.weight);
    *unfit = *unfit || dose->width > face->inner + 0.5;
    struct box *name = press_paragraph(press, words->name, bold, face->inner, 0, 1, false);
    if (wide + gap + dose->width <= face->inner) {
        double below = name->baseline - capital(face, face->size);
        box_place(line, name, 0, 0);
        box_place(line, dose, face->inner - dose->width, below);
        line->height = fmax(name->height - 0.22 * face->size, below + dose->height);
        return line;
    }
    box_place(line, name, 0, 0);
    double y = name->height + 0.3 * face->size;
    box_place(line, dose, 0, y);
    line->height = dose->count ? y + dose->height : name->height;
    return line;
}

struct box *card_box(const struct press *press, const char *planned, double size, double height)
{
    struct box *box = box_new(press->arena);
    double top = *planned ? 1.15 * size : 0, width = sight_points_from_mm(BOX_WIDTH);
    double wide = type_width(press->type, planned, size, WEIGHT_REGULAR);
    width = fmax(width, wide);
    press_put(press, box, (width - wide) / 2, size * type_capital(press->type), planned,
              face_of(size, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
    box_place(box, mark_blank(press, width, height), 0, top);
    box->width = width;
    box->height = top + height;
    return box;
}

static struct box *tick_circle(const struct press *press)
{
    struct box *box = mark_blank(press, sight_points_from_mm(TICK), sight_points_from_mm(TICK));
    for (size_t i = 0; i < box->count; i++)
        box->elements[i].radius = box->width / 2;
    return box;
}

/* A box or a circle for each set; after them tempo, plates and, if there is room, the cue: *CUED then. */
static struct box *blanks_line(const struct card_face *face, const struct card_line *words,
                               bool *cued)
{
    const struct press *press = &face->card->press;
    struct flow flow = {0};
    for (int i = 0; i < words->blanks && !words->set_count; i++)
        flow_add_close(press, &flow, words->ticks ? tick_circle(press) : card_box(press, words->planned, face->small, face->card->blank));
    dose_set(press, &flow, &words->marks, face->dose);
    double gap = 0.9 * face->size, pitch = 1.5 * face->size,
           high_capital = capital(face, face->size);
    struct box *bare = flow_set(press, &flow, face->inner, gap, pitch, high_capital);
    const char *cue = words->cue;
    struct face plain = face_of(face->small, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    double wide = *cue ? type_width(press->type, cue, plain.size, plain.weight) : 0;
    *cued = flow.count && wide > 0 && bare->height < 1.6 * face->card->blank &&
            bare->width + gap + wide <= face->inner;
    if (!*cued)
        return bare;
    flow_add(press, &flow, press_word(press, cue, plain));
    return flow_set(press, &flow, face->inner, gap, pitch, high_capital);
}

/* "1", what is done in this set, its discs, and a box at the end of the line. */
static struct box *set_row(const struct card_face *face, const struct card_set *set, int number, bool *unfit)
{
    const struct press *press = &face->card->press;
    struct box *row = box_new(press->arena), *blank = card_box(press, set->planned, face->small, face->card->blank);
    struct flow flow = {0};
    dose_set(press, &flow, &set->dose, face->dose);
    dose_set(press, &flow, &set->marks, face->dose);
    double left = 1.2 * face->size, room = face->inner - left - blank->width - 0.6 * face->size;
    struct box *what = flow_set(press, &flow, room, 0.6 * face->size, 1.25 * face->size, capital(face, face->size));
    *unfit = *unfit || what->width > room + 0.5;
    row->height = fmax(blank->height, what->height);
    double level = fmax(0, (row->height - what->height) / 2);
    press_put(press, row, 0, level + what->baseline, arena_printf(press->arena, "%d", number),
              face_of(face->size, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
    box_place(row, what, left, level);
    box_place(row, blank, face->inner - blank->width, row->height - blank->height);
    return row;
}

/* "rounds", a box, "+ reps", a box. */
static struct box *scores_line(const struct card_face *face, const struct card_line *words)
{
    const struct press *press = &face->card->press;
    struct box *line = box_new(press->arena);
    double x = 0, height = face->card->blank, baseline = (height + capital(face, face->size)) / 2;
    for (size_t i = 0; i < words->score_count; i++) {
        x += press_put(press, line, x, baseline, said(press->arena, words->scores[i]), face_of(face->size, WEIGHT_BOLD, INK_BLACK, RANK_FIRST));
        struct box *blank = card_box(press, "", face->small, height);
        box_place(line, blank, x + 4, 0);
        x += 4 + blank->width + 1.2 * face->size;
        line->height = height;
    }
    return line;
}

static void stack(struct box *column, const struct box *part, double gap)
{
    if (part->count == 0)
        return;
    double y = column->height + (column->count ? gap : 0);
    box_place(column, part, 0, y);
    column->height = y + part->height;
}

static struct box *item_box(const struct card_face *face, const struct card_line *words,
                            bool *unfit)
{
    const struct press *press = &face->card->press;
    struct box *column = box_new(press->arena), *box = box_new(press->arena);
    struct face plain = face_of(face->small, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    bool cued;
    struct box *blanks = blanks_line(face, words, &cued);
    double gap = 0.42 * face->small;
    stack(column, first_line(face, words, unfit), 0);
    stack(column, press_paragraph(press, words->ramp, plain, face->inner, 0, 1, false), 1.1 * gap);
    stack(column, press_paragraph(press, words->last, plain, face->inner, 0, 1, false), 1.1 * gap);
    stack(column, blanks, 0.4 * face->size);
    for (size_t i = 0; i < words->set_count; i++)
        stack(column, set_row(face, &words->sets[i], (int)i + 1, unfit), 0.3 * face->size);
    if (face->card->timed)
        stack(column, press_paragraph(press, words->turns, plain, face->inner, 0, 1, false), gap);
    stack(column, press_paragraph(press, cued ? "" : words->cue, plain, face->inner, 0, 1, false),
          gap);
    stack(column, mark_stop_rule(press, words->stop, plain, face->inner), gap);
    stack(column, scores_line(face, words), 0.5 * face->size);
    box_place(box, column, face->gutter, 0);
    box->height = column->height;
    return box;
}

/* The rule over the block of LINE, WORDS as its heading, its letter. */
static struct box *heading_box(const struct card_face *face, const struct card_line *line,
                               const char *words)
{
    const struct press *press = &face->card->press;
    struct box *box = box_new(press->arena);
    double baseline = 0.5 * face->small + capital(face, face->small);
    struct face grey = face_of(face->small, WEIGHT_REGULAR, INK_GREY, RANK_SECOND);
    box_rectangle(box, 0, 0, face->inner + face->gutter, 0.7, INK_BLACK, INK_NONE, 0);
    struct face heading = grey;
    heading.style.role = ROLE_HEADING;
    press_put(press, box, face->gutter, baseline, words, heading);
    if (*line->poor) {
        baseline += 1.35 * face->small;
        press_put(press, box, face->gutter, baseline, line->poor, grey);
    }
    press_put(press, box, 0, 0.5 * face->small + capital(face, 1.7 * face->size), line->letter,
              face_of(1.7 * face->size, WEIGHT_BOLD, INK_SPOT, RANK_SECOND));
    box->height = baseline + 0.6 * face->small;
    return box;
}

struct strips card_blocks(const struct card *card, double size, bool *unfit)
{
    struct strips strips = {.whole = true};
    double small = card_small(card, size);
    struct card_face face = {
        card, size, small, GUTTER * size, card->inner - GUTTER * size, {size, small, 0, 0, false}};
    struct box *heading = NULL, *again = NULL;
    for (size_t i = 0; i < card->line_count; i++) {
        const struct card_line *line = &card->lines[i];
        if (line->first) {
            heading = heading_box(&face, line, line->heading);
            again = heading_box(&face, line, line->continued);
        }
        strips_add(&card->press, &strips,
                   (struct strip){.heading = heading,
                                  .again = again,
                                  .body = item_box(&face, line, unfit),
                                  .before = line->first ? 0.65 * size : 0.55 * size,
                                  .first = line->first,
                                  .title = line->first || !*line->letter ? line->heading : line->letter});
    }
    return strips;
}

/* card_blocks.c - the session's blocks on a card: the dose, then a box for every set. */
#include <math.h>

#include "base/text.h"
#include "layout/card.h"
#include "layout/dose.h"
#include "layout/group.h"
#include "layout/marks.h"
#include "model/loads.h"
#include "model/wording.h"

static const double GUTTER = 1.5; /* in sizes */

struct card_face {
    const struct card *card;
    double size, small, gutter, inner;
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

/* "Warm up: 5 × 30, 3 × 45, 2 × 57.5 kg", or "". */
static const char *ramp_words(const struct card_face *face, const struct item *item)
{
    struct arena *arena = face->card->press.arena;
    struct ramp_step steps[RAMP_STEPS];
    if (item != face->card->heavy)
        return "";
    int count =
        load_ramp(face->card->occasion->athlete->gym, item->exercise, &item->runs[0].load, steps);
    struct text out = {0};
    for (int i = 0; i < count; i++)
        text_addf(&out, "%s%d" WORDING_GAP WORDING_TIMES WORDING_GAP "%s",
                  i ? ", " : "Warm up: ", steps[i].reps,
                  wording_load_mass(arena, &steps[i].load, false));
    return text_keep(arena, &out);
}

static const char *timing(struct arena *arena, const struct item *item, int rounds)
{
    if (item->filler)
        return " (in the rests)";
    if (item->round > 0)
        return arena_printf(arena, " (%s)",
                            wording_rounds(arena, item->round, item->round + rounds - 1));
    if (item->after >= 0)
        return arena_printf(arena, " (after" WORDING_GAP "%s)", wording_clock(arena, item->after));
    return "";
}

/* The name left, dose and load right of it, on one line where they fit. */
static struct piece *first_line(const struct card_face *face, const struct block *block,
                                const struct item *item, int rounds, bool *unfit)
{
    const struct press *press = &face->card->press;
    struct piece *line = piece_new(press->arena);
    struct dose_sizes sizes = {.size = face->size, .small = face->small, .small_rank = RANK_SECOND};
    bool pounds = face->card->occasion->athlete->pounds;
    struct flow flow = {0};
    dose_add_amounts(press, &flow, block, item, sizes);
    dose_add_loads(press, &flow, block, item, sizes, pounds);
    dose_add_shares(press, &flow, item, sizes, pounds);
    double gap = 0.6 * face->size, pitch = 1.25 * face->size;
    struct piece *dose = flow_set(press, &flow, face->inner, gap, pitch, capital(face, face->size));
    struct face bold =
        face_of(face->size, item->filler ? WEIGHT_REGULAR : WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    bold.look.role = ROLE_HEADING;
    const char *words = arena_printf(press->arena, "%s%s", item->exercise->name.shown,
                                     timing(press->arena, item, rounds));
    double wide = type_width(press->type, words, bold.size, bold.weight);
    *unfit = *unfit || dose->width > face->inner + 0.5;
    struct piece *name = press_paragraph(press, words, bold, face->inner, 0, 1, false);
    if (wide + gap + dose->width <= face->inner) {
        double below = name->baseline - capital(face, face->size);
        piece_place(line, name, 0, 0);
        piece_place(line, dose, face->inner - dose->width, below);
        line->height = fmax(name->height - 0.22 * face->size, below + dose->height);
        return line;
    }
    piece_place(line, name, 0, 0);
    double y = name->height + 0.3 * face->size;
    piece_place(line, dose, 0, y);
    line->height = dose->count ? y + dose->height : name->height;
    return line;
}

/* How many times the item is done and can be noted: ROUNDS where it names them, fillers not at all. */
static int boxes_of(const struct block *block, const struct item *item, int rounds)
{
    if (item->filler)
        return 0;
    if (block->kind == BLOCK_AS_MANY || block->kind == BLOCK_FOR_TIME)
        return 1;
    if (item->round > 0)
        return rounds;
    return wording_counts_sets(block) ? item->sets : block->sets;
}

static const char *cue_of(const struct item *item)
{
    if (item->cue)
        return item->cue;
    return item->exercise->cue_count ? item->exercise->cues[0] : "";
}

/* A box a set; behind them tempo, plates and, where there is room, the cue: *CUED then. */
static struct piece *boxes_line(const struct card_face *face, const struct block *block,
                                const struct item *item, int rounds, bool *cued)
{
    const struct press *press = &face->card->press;
    struct flow flow = {0};
    double high = face->card->box * face->size;
    for (int i = 0; i < boxes_of(block, item, rounds); i++)
        flow_add_close(press, &flow, mark_blank(press, 3.1 * face->size, high));
    if (item->run_count)
        flow_add(press, &flow, mark_tempo(press, &item->runs[0].tempo, face->small, RANK_SECOND));
    dose_add_bars(press, &flow, item, face->small, RANK_SECOND);
    double gap = 0.9 * face->size, pitch = 1.5 * face->size,
           high_capital = capital(face, face->size);
    struct piece *bare = flow_set(press, &flow, face->inner, gap, pitch, high_capital);
    const char *cue = cue_of(item);
    struct face plain = face_of(face->small, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    double wide = *cue ? type_width(press->type, cue, plain.size, plain.weight) : 0;
    *cued = flow.count && wide > 0 && bare->height < 2.5 * face->size &&
            bare->width + gap + wide <= face->inner;
    if (!*cued)
        return bare;
    flow_add(press, &flow, press_word(press, cue, plain));
    return flow_set(press, &flow, face->inner, gap, pitch, high_capital);
}

static void stack(struct piece *column, const struct piece *part, double gap)
{
    if (part->count == 0)
        return;
    double y = column->height + (column->count ? gap : 0);
    piece_place(column, part, 0, y);
    column->height = y + part->height;
}

static struct piece *item_piece(const struct card_face *face, const struct block *block,
                                const struct item *item, int rounds, bool *unfit)
{
    const struct press *press = &face->card->press;
    struct piece *column = piece_new(press->arena), *piece = piece_new(press->arena);
    struct face plain = face_of(face->small, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    bool cued;
    struct piece *boxes = boxes_line(face, block, item, rounds, &cued);
    double gap = 0.42 * face->small;
    stack(column, first_line(face, block, item, rounds, unfit), 0);
    stack(column, press_paragraph(press, ramp_words(face, item), plain, face->inner, 0, 1, false),
          1.1 * gap);
    stack(column, boxes, 0.4 * face->size);
    stack(column, press_paragraph(press, cued ? "" : cue_of(item), plain, face->inner, 0, 1, false),
          gap);
    stack(column, mark_stop_rule(press, item->stop, plain, face->inner), gap);
    piece_place(piece, column, face->gutter, 0);
    piece->height = column->height;
    return piece;
}

static struct piece *heading_piece(const struct card_face *face, const struct block *block,
                                   bool again)
{
    const struct press *press = &face->card->press;
    struct piece *piece = piece_new(press->arena);
    double baseline = 0.5 * face->small + capital(face, face->small);
    const char *words = arena_printf(press->arena, "%s%s", wording_block(press->arena, block),
                                     again ? " " WORDING_DOT " continued" : "");
    struct face grey = face_of(face->small, WEIGHT_REGULAR, INK_GREY, RANK_SECOND);
    piece_box(piece, 0, 0, face->inner + face->gutter, 0.7, INK_BLACK, INK_NONE, 0);
    press_put(press, piece, face->gutter, baseline, words, grey);
    if (block->letter)
        press_put(press, piece, 0, 0.5 * face->small + capital(face, 1.7 * face->size),
                  arena_printf(press->arena, "%c", block->letter),
                  face_of(1.7 * face->size, WEIGHT_BOLD, INK_SPOT, RANK_SECOND));
    piece->height = baseline + 0.6 * face->small;
    return piece;
}

struct strips card_blocks(const struct card *card, double size, bool *unfit)
{
    struct strips strips = {0};
    struct card_face face = {card, size, card_small(card, size), GUTTER * size,
                             card->inner - GUTTER * size};
    for (size_t b = 0; b < card->occasion->block_count; b++) {
        const struct block *block = &card->occasion->blocks[b];
        size_t rounds = 1;
        for (size_t i = 0; i < block->item_count; i += rounds) {
            rounds = group_rounds_alike(card->press.arena, block, i);
            strips_add(&card->press, &strips,
                       (struct strip){
                           .heading = heading_piece(&face, block, false),
                           .again = heading_piece(&face, block, true),
                           .body = item_piece(&face, block, &block->items[i], (int)rounds, unfit),
                           .before = i ? 0.55 * size : 0.65 * size,
                           .first = i == 0,
                           .title = wording_block(card->press.arena, block)});
        }
    }
    return strips;
}

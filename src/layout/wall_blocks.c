/* wall_blocks.c - the session's blocks: a rule, a large letter, a heading, then line by line what is done. */
#include <assert.h>
#include <math.h>

#include "layout/wall.h"
#include "model/wording.h"

static const double GUTTER = 1.02; /* in sizes: the column of the letters */
static const double LETTER = 1.35; /* their size */

struct block_face {
    const struct wall *wall;
    double size, small;
};

double wall_small(const struct wall *wall, double size)
{
    return fmax(size / 3, fmin(wall->second_least, 0.42 * size));
}

static struct face second(const struct block_face *face, enum weight weight, enum ink ink)
{
    return (struct face){face->small, weight, {ink, RANK_SECOND, ROLE_PLAIN}};
}

static double capital(const struct block_face *face, double size)
{
    return size * type_capital(face->wall->press.type);
}

/* "A2" in the gutter, for items that have no letter above them. */
static struct piece *ref_piece(const struct block_face *face, const struct lane *lane)
{
    const struct press *press = &face->wall->press;
    struct piece *piece = piece_new(press->arena);
    assert(lane->block); /* a lane is a line of one */
    if (lane->block->letter)
        press_put(press, piece, 0, capital(face, face->size),
                  arena_printf(press->arena, "%c%d", lane->block->letter, lane->item->index + 1),
                  second(face, WEIGHT_BOLD, INK_SPOT));
    return piece;
}

/* The rule over a block, its letter, its heading, its share of the time. Where it is repeated, CONTINUED is the
 * exercise that goes on or ""; else NULL. */
static struct piece *block_heading(const struct block_face *face, const struct block *block,
                                   const char *continued)
{
    const struct press *press = &face->wall->press;
    struct piece *piece = piece_new(press->arena);
    double small = face->small, rule = 0.05 * face->size;
    double top = rule + 0.44 * small, gutter = GUTTER * face->size;
    const char *words = wording_block(press->arena, block);
    const char *minutes = block->seconds < 30 ? ""
                                              : arena_printf(press->arena, "%d" WORDING_GAP "min",
                                                             (block->seconds + 30) / 60);
    if (continued)
        words = arena_printf(press->arena, "%s%s%s " WORDING_DOT " continued", words,
                             *continued ? " " WORDING_DOT " " : "", continued);
    piece_box(piece, 0, 0, face->wall->column, rule, INK_BLACK, INK_NONE, 0);
    struct face heading = second(face, WEIGHT_BOLD, INK_BLACK);
    heading.look.role = ROLE_HEADING;
    struct piece *title = press_paragraph(
        press, words, heading, face->wall->column - gutter - 3.5 * small, 0, 0.95, false);
    piece_place(piece, title, gutter, top);
    press_put_end(press, piece, face->wall->column, top + title->baseline, minutes,
                  second(face, WEIGHT_REGULAR, INK_GREY));
    piece->height = top + title->height + 0.28 * small;
    if (block->letter) {
        /* The letter hangs from the rule and reaches down beside the first name. */
        double large = LETTER * face->size;
        struct face letter = {large, WEIGHT_BOLD, {INK_SPOT, RANK_SECOND, ROLE_HEADING}};
        press_put(press, piece, 0, top + capital(face, large),
                  arena_printf(press->arena, "%c", block->letter), letter);
    }
    return piece;
}

static const char *outline_title(struct arena *arena, const struct block *block)
{
    const char *words = wording_block(arena, block);
    return block->letter ? arena_printf(arena, "%c  %s", block->letter, words) : words;
}

/* PART moved into the column right of the letters. */
static struct piece *indented(const struct block_face *face, const struct piece *part)
{
    struct piece *body = piece_new(face->wall->press.arena);
    piece_place(body, part, GUTTER * face->size, 0);
    body->width = face->wall->column;
    body->height = part->height;
    return body;
}

/* The rows of those who do LANE in a way of their own. */
static void add_own_rows(struct strips *strips, const struct block_face *face,
                         const struct lane *lane, bool *unfit)
{
    const struct press *press = &face->wall->press;
    size_t count;
    struct piece **rows = wall_own_rows(face->wall, face->size, lane,
                                        face->wall->column - GUTTER * face->size, &count, unfit);
    for (size_t i = 0; i < count; i++)
        strips_add(press, strips,
                   (struct strip){
                       .again = block_heading(face, lane->block, lane->item->exercise->name.shown),
                       .body = indented(face, rows[i]),
                       .before = 0.24 * face->size,
                       .close = true,
                       .row = true});
}

struct strips wall_blocks(const struct wall *wall, struct wall_setting setting, bool *unfit,
                          size_t *aligned)
{
    struct strips strips = {0};
    double size = setting.size;
    struct block_face face = {wall, size, wall_small(wall, size)};
    const struct block *block = NULL;
    struct piece *heading = NULL, *again = NULL;
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        bool keeps = false;
        if (lane->block != block) {
            block = lane->block;
            heading = block_heading(&face, block, NULL);
            again = block_heading(&face, block, "");
        }
        const struct piece *item =
            wall_item(wall, setting, i, wall->column - GUTTER * size, unfit, &keeps);
        if (aligned)
            *aligned += keeps;
        strips_add(&wall->press, &strips,
                   (struct strip){.heading = heading,
                                  .again = again,
                                  .body = indented(&face, item),
                                  .aside = ref_piece(&face, lane),
                                  .before = 0.22 * size,
                                  .first = lane->first,
                                  .title = outline_title(wall->press.arena, lane->block)});
        if (lane_differs(lane))
            add_own_rows(&strips, &face, lane, unfit);
    }
    return strips;
}

/* wall_blocks.c - the session's blocks: a rule, a large letter, a heading, then line by line what is done. */
#include <math.h>

#include "layout/wall.h"
#include "wording/wording.h"

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
static struct box *ref_box(const struct block_face *face, const struct wall_line *line)
{
    const struct press *press = &face->wall->press;
    struct box *box = box_new(press->arena);
    press_put(press, box, 0, capital(face, face->size), line->ref,
              second(face, WEIGHT_BOLD, INK_SPOT));
    return box;
}

/* The width that is left for the heading of LINE's block, beside its minutes or hours. */
static double heading_room(const struct block_face *face, const struct wall_line *line)
{
    double beside = type_width(face->wall->press.type, line->minutes, face->small, WEIGHT_REGULAR) + 0.5 * face->small;
    return face->wall->column - GUTTER * face->size - fmax(3.5 * face->small, beside);
}

/* The rule over the block of LINE, its letter, WORDS as its heading, its share of the time. */
static struct box *block_heading(const struct block_face *face, const struct wall_line *line,
                                 const char *words)
{
    const struct press *press = &face->wall->press;
    struct box *box = box_new(press->arena);
    double small = face->small, rule = 0.05 * face->size;
    double top = rule + 0.44 * small, gutter = GUTTER * face->size;
    box_rectangle(box, 0, 0, face->wall->column, rule, INK_BLACK, INK_NONE, 0);
    struct face heading = second(face, WEIGHT_BOLD, INK_BLACK);
    heading.style.role = ROLE_HEADING;
    struct box *title =
        press_paragraph(press, words, heading, heading_room(face, line), 0, 0.95, false);
    box_place(box, title, gutter, top);
    press_put_end(press, box, face->wall->column, top + title->baseline, line->minutes,
                  second(face, WEIGHT_REGULAR, INK_GREY));
    box->height = top + title->height + 0.28 * small;
    /* The letter hangs from the rule and reaches down beside the first name. */
    double large = LETTER * face->size;
    struct face letter = {large, WEIGHT_BOLD, {INK_SPOT, RANK_SECOND, ROLE_HEADING}};
    press_put(press, box, 0, top + capital(face, large), line->letter, letter);
    return box;
}

/* As high as the heading where the block of LINE goes on. Few blocks do so at the head of a page, and the text would be
 * shaped for all of them: HEADING stands for it where it takes no further line. */
static struct box *heading_measured(const struct block_face *face, const struct wall_line *line,
                                    struct box *heading)
{
    struct type *type = face->wall->press.type;
    double width = type_width(type, line->heading, face->small, WEIGHT_BOLD) +
                   type_width(type, WORDING_DOT " continued", face->small, WEIGHT_BOLD);
    return width + 0.5 * face->small < heading_room(face, line)
               ? heading
               : block_heading(face, line, line->continued);
}

struct box *wall_heading_again(const struct wall *wall, double size, size_t lane)
{
    struct block_face face = {wall, size, wall_small(wall, size)};
    return block_heading(&face, &wall->lines[lane], wall->lines[lane].continued);
}

/* PART moved into the column right of the letters. */
static struct box *indented(const struct block_face *face, const struct box *part)
{
    struct box *body = box_new(face->wall->press.arena);
    box_place(body, part, GUTTER * face->size, 0);
    body->width = face->wall->column;
    body->height = part->height;
    return body;
}

/* The rows of those who do lane LANE in a way of their own. */
static void add_own_rows(struct strips *strips, const struct block_face *face, size_t lane,
                         bool *unfit)
{
    const struct press *press = &face->wall->press;
    const struct wall_line *line = &face->wall->lines[lane];
    size_t count;
    struct box **rows = wall_own_rows(face->wall, face->size, lane,
                                      face->wall->column - GUTTER * face->size, &count, unfit);
    struct box *again = count ? block_heading(face, line, line->own_continued) : NULL;
    for (size_t i = 0; i < count; i++)
        strips_add(press, strips,
                   (struct strip){.again = again,
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
    struct box *heading = NULL, *again = NULL;
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        const struct wall_line *line = &wall->lines[i];
        bool keeps = false;
        if (lane->block != block) {
            block = lane->block;
            heading = block_heading(&face, line, line->heading);
            again = heading_measured(&face, line, heading);
        }
        const struct box *item =
            wall_item(wall, setting, i, wall->column - GUTTER * size, unfit, &keeps);
        if (aligned)
            *aligned += keeps;
        strips_add(&wall->press, &strips,
                   (struct strip){.heading = heading,
                                  .again = again,
                                  .body = indented(&face, item),
                                  .aside = lane->first ? NULL : ref_box(&face, line),
                                  .before = 0.22 * size,
                                  .first = lane->first,
                                  .number = i,
                                  .title = line->title});
        if (line->own_count)
            add_own_rows(&strips, &face, i, unfit);
    }
    return strips;
}

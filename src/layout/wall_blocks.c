/* wall_blocks.c - the session's blocks: a rule, a large letter, a heading, then line by line what is done. */
#include <math.h>

#include "language/language.h"
#include "layout/wall.h"
#include "wording/wording.h"

static const double GUTTER = 1.3; /* in sizes of what stands in it: the column of letters and line numbers */

struct block_face {
    const struct wall *wall;
    double size, lead, small;
    double gutter;
};

double wall_small(const struct wall *wall, double size)
{
    return fmax(size / 3, fmin(wall->second_least, 0.42 * size));
}

double wall_lead(const struct wall *wall, double size)
{
    return fmax(0.62 * size, fmin(size, wall->first_least));
}

double wall_dose_column(struct wall_setting setting, double width)
{
    return setting.split * width;
}

double wall_indent(struct wall_setting setting)
{
    return setting.size;
}

static struct block_face face_of(const struct wall *wall, double size)
{
    double lead = wall_lead(wall, size);
    return (struct block_face){wall, size, lead, wall_small(wall, size), GUTTER * lead};
}

static double capital(const struct block_face *face, double size)
{
    return size * type_capital(face->wall->press.type);
}

static struct face lead_face(const struct block_face *face, enum ink ink)
{
    return (struct face){face->lead, WEIGHT_BOLD, {ink, RANK_FIRST, ROLE_HEADING}};
}

/* The width that is left for the heading of LINE's block, beside its kind and hours. */
static double heading_room(const struct block_face *face, const struct wall_line *line)
{
    double beside = type_width(face->wall->press.type, line->aside, face->small, WEIGHT_REGULAR) + 0.5 * face->small;
    return face->wall->column - face->gutter - (*line->aside ? beside : 0);
}

/* Whether what is beside the heading WORDS had better stand above: it would leave them too little, or break their line. */
static bool is_narrow(const struct block_face *face, const struct wall_line *line, const char *words)
{
    double room = heading_room(face, line), wide = type_width(face->wall->press.type, words, face->lead, WEIGHT_REGULAR);
    return *line->aside && (room < 0.5 * face->wall->column || (wide > room && wide <= face->wall->column - face->gutter));
}

/* How far down TITLE must stand, at least TOP, so that its letters keep off those of the text that BOX ends with: signs
 * under a Thai line and above the next take more room than Latin letters leave. */
static double clear_of_last(const struct box *box, const struct box *title, double top)
{
    if (title->count == 0)
        return top;
    const struct element *above = &box->elements[box->count - 1], *below = &title->elements[0];
    double bottom = above->y + above->run->ink_y + above->run->ink_height;
    return fmax(top, bottom - below->y - below->run->ink_y + 0.3);
}

/* The rule over the block of LINE, its letter, WORDS as its heading, its kind and hours. */
static struct box *block_heading(const struct block_face *face, const struct wall_line *line,
                                 const char *words)
{
    const struct press *press = &face->wall->press;
    struct box *box = box_new(press->arena);
    double small = face->small, rule = 0.05 * face->size, top = rule + 0.44 * small, room = heading_room(face, line);
    const struct face light = {small, WEIGHT_REGULAR, {INK_GREY, RANK_SECOND, ROLE_PLAIN}};
    box_rectangle(box, 0, 0, face->wall->column, rule, INK_BLACK, INK_NONE, 0);
    bool narrow = is_narrow(face, line, words);
    if (narrow) {
        press_put_end(press, box, face->wall->column, top + capital(face, small), line->aside, light);
        top += 1.2 * small;
        room = face->wall->column - face->gutter;
    }
    struct face order = lead_face(face, INK_BLACK);
    order.weight = WEIGHT_REGULAR; /* names of exercises alone are bold */
    struct box *title = press_paragraph(press, words, order, room, 0, 0.88, false);
    if (narrow)
        top = clear_of_last(box, title, top);
    press_put(press, box, 0, top + title->baseline, line->letter, lead_face(face, INK_SPOT));
    box_place(box, title, face->gutter, top);
    if (!narrow)
        press_put_end(press, box, face->wall->column, top + title->baseline, line->aside, light);
    box->height = top + title->height + 0.1 * face->size;
    return box;
}

/* As high as the heading where the block of LINE goes on. Few blocks do so at the head of a page, and the text would be
 * shaped for all of them: HEADING stands for it where it takes no further line. */
static struct box *heading_measured(const struct block_face *face, const struct wall_line *line,
                                    struct box *heading)
{
    struct type *type = face->wall->press.type;
    double width = type_width(type, line->heading, face->lead, WEIGHT_REGULAR) +
                   type_width(type, said(face->wall->press.arena, " \u00b7 continued"), face->lead, WEIGHT_REGULAR);
    return width + 0.5 * face->lead < heading_room(face, line)
               ? heading
               : block_heading(face, line, line->continued);
}

struct box *wall_heading_again(const struct wall *wall, double size, size_t lane)
{
    struct block_face face = face_of(wall, size);
    return block_heading(&face, &wall->lines[lane], wall->lines[lane].continued);
}

/* PART moved into the column right of the letters, REF ("A2") in theirs. */
static struct box *indented(const struct block_face *face, const struct box *part, const char *ref)
{
    const struct press *press = &face->wall->press;
    struct box *body = box_new(press->arena);
    press_put(press, body, 0, capital(face, face->size), ref, lead_face(face, INK_SPOT));
    box_place(body, part, face->gutter, 0);
    body->width = face->wall->column;
    body->height = part->height;
    return body;
}

/* The rows of those who do lane LANE in a way of their own. */
static void add_own_rows(struct strips *strips, const struct block_face *face, struct wall_setting setting, size_t lane,
                         bool *unfit)
{
    const struct press *press = &face->wall->press;
    const struct wall_line *line = &face->wall->lines[lane];
    size_t count;
    struct box **rows = wall_own_rows(face->wall, setting, lane, face->wall->column - face->gutter, &count, unfit);
    struct box *again = count ? block_heading(face, line, line->own_continued) : NULL;
    for (size_t i = 0; i < count; i++)
        strips_add(press, strips,
                   (struct strip){.again = again,
                                  .body = indented(face, rows[i], ""),
                                  .before = 0.2 * face->size,
                                  .close = true,
                                  .row = true,
                                  .turn = wall_in_turn(&face->wall->group, lane),
                                  .number = lane});
}

struct strips wall_blocks(const struct wall *wall, struct wall_setting setting, bool *unfit)
{
    struct block_face face = face_of(wall, setting.size);
    double number = type_width(wall->press.type, "A1", face.lead, WEIGHT_BOLD), low = capital(&face, face.size);
    struct strips strips = {.whole = !setting.broken, .mark = number / 2, .top = low - capital(&face, face.lead), .bottom = low};
    const struct block *block = NULL;
    struct box *heading = NULL, *again = NULL;
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        const struct wall_line *line = &wall->lines[i];
        if (lane->block != block) {
            block = lane->block;
            heading = block_heading(&face, line, line->heading);
            again = heading_measured(&face, line, heading);
        }
        const struct box *item = wall_item(wall, setting, i, wall->column - face.gutter, unfit);
        strips_add(&wall->press, &strips,
                   (struct strip){.heading = heading,
                                  .again = again,
                                  .body = indented(&face, item, line->ref),
                                  .before = 0.16 * setting.size,
                                  .first = lane->first,
                                  .turn = wall_in_turn(&wall->group, i),
                                  .number = i,
                                  .title = line->title});
        if (line->own_count)
            add_own_rows(&strips, &face, setting, i, unfit);
    }
    return strips;
}

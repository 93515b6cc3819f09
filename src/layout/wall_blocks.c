/* wall_blocks.c - the session's blocks: a large letter, names left, doses right, what explains them small below. */
#include <math.h>

#include "layout/dose.h"
#include "layout/marks.h"
#include "layout/wall.h"
#include "model/wording.h"

static const double GUTTER = 1.45;  /* in sizes: the column of the letters */
static const double COLUMN = 0.5;   /* between names and doses */
static const double PITCH = 1.06;   /* from line to line of doses */

struct item_face {
    const struct wall *wall;
    struct wall_sizes sizes;
    double gutter, names, doses; /* widths */
};

struct wall_sizes wall_sizes_for(const struct wall *wall, double size, double split)
{
    double small = fmax(size / 3, fmin(wall->second_least, 0.42 * size));
    return (struct wall_sizes){size, small, split};
}

static struct face second(const struct item_face *face, enum weight weight, enum ink ink)
{
    return (struct face){face->sizes.small, weight, {ink, RANK_SECOND, ROLE_PLAIN}};
}

static double capital(const struct item_face *face, double size)
{
    return size * type_capital(face->wall->press.type);
}

/* Puts PART under what the column holds already. */
static void stack(struct piece *column, const struct piece *part, double gap)
{
    if (part->count == 0)
        return;
    double y = column->height + (column->count ? gap : 0);
    piece_place(column, part, 0, y);
    column->width = fmax(column->width, part->width);
    column->height = y + part->height;
}

/* What comes before the cue: when the item is done. */
static const char *timing(const struct item_face *face, const struct lane *lane)
{
    const struct item *item = lane->item;
    struct arena *arena = face->wall->press.arena;
    if (item->filler)
        return "in the rests";
    if (item->round > 0)
        return wording_rounds(arena, item->round, lane->last_round);
    if (item->after > 0)
        return arena_printf(arena, "%s after the one above", wording_time(arena, item->after));
    if (item->after == 0)
        return "straight after the one above";
    return "";
}

static const char *cue_of(const struct item *item)
{
    if (item->cue)
        return item->cue;
    return item->exercise->cue_count ? item->exercise->cues[0] : "";
}

static struct piece *name_column(const struct item_face *face, const struct lane *lane, bool *unfit)
{
    const struct press *press = &face->wall->press;
    struct piece *column = piece_new(press->arena);
    double size = face->sizes.size, gap = 0.42 * face->sizes.small;
    struct face name = {size,
                        lane->item->filler ? WEIGHT_REGULAR : WEIGHT_BOLD,
                        {INK_BLACK, RANK_FIRST, ROLE_HEADING}};
    struct piece *words = press_paragraph(press, lane->item->exercise->name.shown, name,
                                          face->names, 0, 0.88, true);
    if (words->width > face->names + 0.5) {
        *unfit = true;
        words = press_paragraph(press, lane->item->exercise->name.shown, name, face->names, 0, 0.88,
                                false);
    }
    stack(column, words, 0);
    const char *when = timing(face, lane), *cue = cue_of(lane->item);
    stack(column, press_paragraph(press, when, second(face, WEIGHT_BOLD, INK_SPOT), face->names, 0,
                                  0.95, false), gap);
    stack(column, press_paragraph(press, cue, second(face, WEIGHT_REGULAR, INK_BLACK), face->names,
                                  0, 0.95, false), gap);
    return column;
}

static bool pounds_for(const struct lane *lane)
{
    return lane->athlete->pounds;
}

/* Dose and load, large, in as few lines as they take. */
static struct piece *dose_lines(const struct item_face *face, const struct lane *lane)
{
    const struct press *press = &face->wall->press;
    struct dose_sizes sizes = {face->sizes.size, face->sizes.small, RANK_SECOND};
    struct flow flow = {0};
    dose_add_amounts(press, &flow, lane->block, lane->item, sizes);
    if (!lane->loads_differ)
        dose_add_loads(press, &flow, lane->block, lane->item, sizes, pounds_for(lane));
    else if (!lane->efforts_differ)
        dose_add_effort(press, &flow, lane->item, sizes);
    return flow_set(press, &flow, face->doses, 0.6 * face->sizes.size,
                    PITCH * face->sizes.size, capital(face, face->sizes.size));
}

/* Tempo, share of the best, plates: what is read from close by. */
static struct piece *dose_notes(const struct item_face *face, const struct lane *lane)
{
    const struct press *press = &face->wall->press;
    struct dose_sizes sizes = {face->sizes.size, face->sizes.small, RANK_SECOND};
    double small = face->sizes.small;
    struct flow flow = {0};
    if (lane->item->run_count)
        flow_add(press, &flow,
                 mark_tempo(press, &lane->item->runs[0].tempo, 1.1 * small, RANK_SECOND));
    if (lane->loads_differ || lane->varies)
        flow_add(press, &flow,
                 press_paragraph(press, wall_table_hint(face->wall, lane),
                                 second(face, WEIGHT_BOLD, INK_SPOT), face->doses, 0, 1, false));
    if (!lane->loads_differ)
        dose_add_bars(press, &flow, lane->item, small, RANK_SECOND);
    if (!lane->shares_differ)
        dose_add_shares(press, &flow, lane->item, sizes, pounds_for(lane) && !lane->loads_differ);
    return flow_set(press, &flow, face->doses, 0.9 * small, 1.5 * small, capital(face, small));
}

/* The stop rule stands below whichever column ends sooner. */
static void add_stop(const struct item_face *face, const struct lane *lane, struct piece *left,
                     struct piece *right)
{
    const struct press *press = &face->wall->press;
    const char *rule = lane->item->stop;
    struct face plain = second(face, WEIGHT_REGULAR, INK_BLACK);
    double gap = 0.42 * face->sizes.small;
    struct piece *below = mark_stop_rule(press, rule, plain, face->names);
    struct piece *beside = mark_stop_rule(press, rule, plain, face->doses);
    if (right->height + beside->height < left->height + below->height)
        stack(right, beside, fmax(1.3 * gap, 0.27 * face->sizes.size));
    else
        stack(left, below, gap);
}

static struct piece *item_piece(const struct item_face *face, const struct lane *lane, bool *unfit)
{
    const struct press *press = &face->wall->press;
    struct piece *piece = piece_new(press->arena);
    struct piece *left = name_column(face, lane, unfit);
    struct piece *right = dose_lines(face, lane);
    if (right->width > face->doses + 0.5)
        *unfit = true;
    stack(right, dose_notes(face, lane), fmax(0.5 * face->sizes.small, 0.27 * face->sizes.size));
    add_stop(face, lane, left, right);
    piece_place(piece, left, face->gutter, 0);
    piece_place(piece, right, face->gutter + face->names + COLUMN * face->sizes.size, 0);
    piece->width = face->wall->column;
    piece->height = fmax(left->height, right->height);
    return piece;
}

/* "A2" in the gutter, for items that have no letter above them. */
static struct piece *ref_piece(const struct item_face *face, const struct lane *lane)
{
    const struct press *press = &face->wall->press;
    struct piece *piece = piece_new(press->arena);
    if (lane->block->letter)
        press_put(press, piece, 0, capital(face, face->sizes.size),
                  arena_printf(press->arena, "%c%d", lane->block->letter, lane->item->index + 1),
                  second(face, WEIGHT_BOLD, INK_SPOT));
    return piece;
}

/* The rule over a block, its letter, its heading, its share of the time. */
static struct piece *block_heading(const struct item_face *face, const struct block *block,
                                   bool again)
{
    const struct press *press = &face->wall->press;
    struct piece *piece = piece_new(press->arena);
    double small = face->sizes.small, rule = 0.05 * face->sizes.size;
    double baseline = rule + 0.55 * small + capital(face, small);
    const char *words = wording_block(press->arena, block);
    if (again)
        words = arena_printf(press->arena, "%s " WORDING_DOT " continued", words);
    piece_box(piece, 0, 0, face->wall->column, rule, INK_BLACK, INK_NONE, 0);
    struct face heading = second(face, WEIGHT_BOLD, INK_BLACK);
    heading.look.role = ROLE_HEADING;
    press_put(press, piece, face->gutter, baseline, words, heading);
    if (block->seconds >= 30)
        press_put_end(press, piece, face->wall->column, baseline,
                      arena_printf(press->arena, "%d" WORDING_GAP "min",
                                   (block->seconds + 30) / 60),
                      second(face, WEIGHT_REGULAR, INK_GREY));
    piece->height = baseline + 0.75 * small;
    if (block->letter) {
        /* The letter hangs from the rule and reaches down beside the first name. */
        double large = 1.75 * face->sizes.size;
        struct face letter = {large, WEIGHT_BOLD, {INK_SPOT, RANK_SECOND, ROLE_HEADING}};
        press_put(press, piece, 0, rule + 0.55 * small + capital(face, large),
                  arena_printf(press->arena, "%c", block->letter), letter);
    }
    return piece;
}

struct strips wall_blocks(const struct wall *wall, struct wall_sizes sizes, bool *unfit)
{
    struct strips strips = {0};
    double gutter = GUTTER * sizes.size;
    double rest = wall->column - gutter - COLUMN * sizes.size;
    struct item_face face = {wall, sizes, gutter, sizes.split * rest, (1 - sizes.split) * rest};
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        struct strip strip = {
            .heading = block_heading(&face, lane->block, false),
            .again = block_heading(&face, lane->block, true),
            .body = item_piece(&face, lane, unfit),
            .aside = ref_piece(&face, lane),
            .before = lane->first ? 0.42 * sizes.size : 0.36 * sizes.size,
            .first = lane->first,
            .title = lane->block->letter
                         ? arena_printf(wall->press.arena, "%c  %s", lane->block->letter,
                                        wording_block(wall->press.arena, lane->block))
                         : wording_block(wall->press.arena, lane->block),
        };
        strips_add(&wall->press, &strips, strip);
    }
    return strips;
}

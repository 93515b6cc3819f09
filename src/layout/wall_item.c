/* wall_item.c - one line of the session: the name, right of it or below it the dose, small what explains them. It takes
 * whichever arrangement is lowest; where the sheet has a column for doses, it keeps to that if it costs no line. */
#include <math.h>

#include "layout/dose.h"
#include "layout/marks.h"
#include "layout/wall.h"
#include "model/wording.h"

/* In sizes: from name to dose, from amount to load, from line to line of doses. */
static const double BETWEEN = 0.45, APART = 0.6, PITCH = 1;
static const double DESCENT = 0.22;
enum { STEPS = 14 }; /* of the grid that doses outside the column begin on */

struct item_parts {
    const struct wall *wall;
    const struct lane *lane;
    double size, small, width;
    double column;    /* where doses stand if the sheet has a column for them, else 0 */
    struct flow dose; /* how much, with what, tempo and discs */
    double widest;    /* of its atoms */
    const char *when, *cue;
};

static struct face first(const struct item_parts *parts)
{
    enum weight weight = parts->lane->item->filler ? WEIGHT_REGULAR : WEIGHT_BOLD;
    return (struct face){parts->size, weight, {INK_BLACK, RANK_FIRST, ROLE_HEADING}};
}

static struct face second(const struct item_parts *parts, enum weight weight, enum ink ink)
{
    return (struct face){parts->small, weight, {ink, RANK_SECOND, ROLE_PLAIN}};
}

static double capital(const struct item_parts *parts, double size)
{
    return size * type_capital(parts->wall->press.type);
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
static const char *timing(struct arena *arena, const struct lane *lane)
{
    const struct item *item = lane->item;
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

static void collect_dose(struct item_parts *parts)
{
    const struct press *press = &parts->wall->press;
    const struct lane *lane = parts->lane;
    const struct item *item = lane->item;
    struct dose_sizes sizes = {parts->size, parts->small, RANK_SECOND, parts->width, true};
    dose_add_amounts(press, &parts->dose, lane->block, item, sizes);
    if (!lane->loads_differ)
        dose_add_loads(press, &parts->dose, lane->block, item, sizes, lane->athlete->pounds);
    else if (!lane->efforts_differ)
        dose_add_effort(press, &parts->dose, item, sizes);
    if (item->run_count)
        flow_add(press, &parts->dose,
                 mark_tempo(press, &item->runs[0].tempo, 1.1 * parts->small, RANK_SECOND));
    if (!lane->loads_differ)
        dose_add_bars(press, &parts->dose, item, parts->small, RANK_SECOND);
    for (size_t i = 0; i < parts->dose.count; i++)
        parts->widest = fmax(parts->widest, parts->dose.atoms[i].piece->width);
}

static struct piece *name_piece(const struct item_parts *parts, double width, bool whole_words)
{
    return press_paragraph(&parts->wall->press, parts->lane->item->exercise->name.shown,
                           first(parts), width, 0, 0.84, whole_words);
}

static struct piece *dose_piece(const struct item_parts *parts, double width)
{
    return flow_set(&parts->wall->press, &parts->dose, width, APART * parts->size,
                    PITCH * parts->size, capital(parts, parts->size));
}

/* When, and what to think of. */
static struct piece *cue_piece(const struct item_parts *parts, double width)
{
    const struct press *press = &parts->wall->press;
    struct flow flow = {0};
    flow_add(press, &flow,
             press_paragraph(press, parts->when, second(parts, WEIGHT_BOLD, INK_SPOT), width, 0,
                             0.95, false));
    flow_add(press, &flow,
             press_paragraph(press, parts->cue, second(parts, WEIGHT_REGULAR, INK_BLACK), width, 0,
                             0.95, false));
    return flow_set(press, &flow, width, 0.7 * parts->small, 1.25 * parts->small,
                    capital(parts, parts->small));
}

static struct piece *stop_piece(const struct item_parts *parts, double width)
{
    return mark_stop_rule(&parts->wall->press, parts->lane->item->stop,
                          second(parts, WEIGHT_REGULAR, INK_BLACK), width);
}

/* CUE and STOP side by side, the stop rule at X. */
static struct piece *side_by_side(const struct item_parts *parts, double x)
{
    const struct press *press = &parts->wall->press;
    struct piece *piece = piece_new(press->arena);
    struct piece *cue = cue_piece(parts, x - 1.2 * parts->small);
    struct piece *stop = stop_piece(parts, parts->width - x);
    piece_place(piece, cue, 0, 0);
    piece_place(piece, stop, x, 0);
    piece->height = fmax(cue->height, stop->height);
    piece->width = x + stop->width;
    return piece;
}

/* Cue and stop rule over the whole width: side by side where that saves a line, else one below the other. */
static struct piece *notes_piece(const struct item_parts *parts)
{
    const struct press *press = &parts->wall->press;
    struct piece *notes = piece_new(press->arena);
    struct piece *cue = cue_piece(parts, parts->width), *stop = stop_piece(parts, parts->width);
    stack(notes, cue, 0);
    stack(notes, stop, 0.2 * parts->small);
    if (cue->count == 0 || stop->count == 0)
        return notes;
    double column = parts->column > 0 ? parts->column : 0.5 * parts->width;
    const double places[] = {column, cue->width + 1.2 * parts->small, 0.4 * parts->width};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        if (places[i] > 0.75 * parts->width || places[i] < 0.2 * parts->width)
            continue;
        struct piece *beside = side_by_side(parts, places[i]);
        if (beside->height < notes->height - 0.5)
            notes = beside;
    }
    return notes;
}

/* Where a dose WIDE stands, right of LEFT: in the sheet's column where it can. Else on a step of a rough grid, so that
 * neighbours begin alike: the next one behind a name that reaches beyond the column, or the last one that leaves a long
 * dose its room. What has none leaves its room to the stop rule. */
static double dose_place(const struct item_parts *parts, double left, double wide)
{
    double right = fmax(left, parts->width - wide), step = parts->width / STEPS;
    if (wide <= 0)
        return left;
    if (parts->column >= left - 0.5 && parts->column <= right + 0.5)
        return parts->column;
    double on_grid = step * (left > parts->column ? ceil(left / step) : floor(right / step));
    return on_grid >= left && on_grid <= right ? on_grid : right;
}

/* The name in a column of NAMES, the dose right of it, cue and stop rule each below whichever ends sooner. */
static struct piece *in_pillars(const struct item_parts *parts, double names)
{
    const struct press *press = &parts->wall->press;
    struct piece *piece = piece_new(press->arena);
    double gap = 0.42 * parts->small, left_end = names + BETWEEN * parts->size;
    double doses = parts->width - left_end;
    struct piece *left = name_piece(parts, names, true), *right = dose_piece(parts, doses);
    double x = dose_place(parts, left_end, right->width);
    stack(left, cue_piece(parts, x - BETWEEN * parts->size), gap);
    struct piece *below = stop_piece(parts, x - BETWEEN * parts->size);
    struct piece *beside = stop_piece(parts, parts->width - x);
    bool stops_right = right->height + beside->height < left->height + below->height;
    if (stops_right)
        stack(right, beside, fmax(1.3 * gap, 0.27 * parts->size));
    else
        stack(left, below, gap);
    if (right->count && !stops_right)
        right->height += DESCENT * parts->size;
    piece_place(piece, left, 0, 0);
    piece_place(piece, right, x, 0);
    piece->height = fmax(left->height, right->height);
    return piece;
}

/* The name in a column of NAMES, the dose right of it, NOTES below both. */
static struct piece *over_notes(const struct item_parts *parts, double names,
                                const struct piece *notes)
{
    struct piece *piece = piece_new(parts->wall->press.arena);
    double left_end = names + BETWEEN * parts->size;
    struct piece *left = name_piece(parts, names, true);
    struct piece *right = dose_piece(parts, parts->width - left_end);
    piece_place(piece, left, 0, 0);
    piece_place(piece, right, dose_place(parts, left_end, right->width), 0);
    piece->height = fmax(left->height, right->count ? right->height + DESCENT * parts->size : 0);
    stack(piece, notes, 0.28 * parts->small);
    return piece;
}

/* The width that parts the name evenly into as few lines as it takes. */
static double even_width(const struct item_parts *parts, size_t lane)
{
    for (size_t i = 0; i < NAME_LINES; i++) {
        double least = parts->wall->names[lane].lines[i] * parts->size;
        if (least <= parts->width)
            return least;
    }
    return parts->width;
}

/* The dose below the name, each over the whole width. */
static struct piece *in_storeys(const struct item_parts *parts, size_t lane,
                                const struct piece *notes, bool *unfit)
{
    struct piece *piece = name_piece(parts, even_width(parts, lane), true);
    struct piece *dose = dose_piece(parts, parts->width);
    if (piece->width > parts->width + 0.5) {
        *unfit = true;
        piece = name_piece(parts, parts->width, false);
    }
    *unfit = *unfit || dose->width > parts->width + 0.5;
    if (dose->count) {
        double y = piece->height + 0.06 * parts->size;
        piece_place(piece, dose, dose_place(parts, 0, dose->width), y);
        piece->height = y + dose->height + DESCENT * parts->size;
    }
    stack(piece, notes, 0.28 * parts->small);
    return piece;
}

/* Whether the name takes no more than LINES in a column of NAMES, and the doses have room beside it. */
static bool has_room(const struct item_parts *parts, size_t lane, double names, int lines)
{
    return names >= parts->wall->names[lane].lines[lines - 1] * parts->size &&
           names + BETWEEN * parts->size + parts->widest <= parts->width;
}

static struct piece *lower(struct piece *one, struct piece *other)
{
    return !one || other->height < one->height - 0.5 ? other : one;
}

/* What is lowest with names in a column of NAMES, or NULL where they take more than LINES or doses have no room. */
static struct piece *with_column(const struct item_parts *parts, size_t lane, double names,
                                 int lines, const struct piece *notes)
{
    if (!has_room(parts, lane, names, lines))
        return NULL;
    return lower(in_pillars(parts, names), over_notes(parts, names, notes));
}

struct piece *wall_item(const struct wall *wall, struct wall_setting setting, size_t lane,
                        double width, bool *unfit, bool *aligned)
{
    struct item_parts parts = {.wall = wall,
                               .lane = &wall->group.lanes[lane],
                               .size = setting.size,
                               .small = wall_small(wall, setting.size),
                               .width = width};
    double names = setting.split * (width - BETWEEN * setting.size);
    parts.column = setting.split > 0 ? names + BETWEEN * setting.size : 0;
    parts.when = timing(wall->press.arena, parts.lane);
    parts.cue = cue_of(parts.lane->item);
    collect_dose(&parts);
    struct piece *notes = notes_piece(&parts);
    struct piece *best = in_storeys(&parts, lane, notes, unfit), *column = NULL;
    for (size_t i = 0; i < NAME_LINES; i++) {
        double own = wall->names[lane].lines[i] * setting.size;
        struct piece *other = with_column(&parts, lane, own, NAME_LINES, notes);
        best = other ? lower(best, other) : best;
    }
    if (setting.split > 0)
        column = with_column(&parts, lane, names, 2, notes);
    *aligned = column && column->height <= best->height + setting.excess * setting.size;
    return *aligned ? column : best;
}

/* wall_item.c - one line of the session: the name, the dose in the sheet's column or below the name, small what explains
 * them. It takes whichever arrangement is lowest. */
#include <math.h>

#include "language/language.h"
#include "layout/marks.h"
#include "layout/wall.h"
#include "model/block.h"
#include "model/exercise.h"
#include "wording/wording.h"

/* In sizes: from name to dose, from amount to load, from line to line of doses. */
static const double BETWEEN = 0.45, LOAD_GAP = 0.6, PITCH = 0.98;
static const double DESCENT = 0.22;

struct item_parts {
    const struct wall *wall;
    const struct lane *lane;
    const struct wall_line *line;
    double size, small, width;
    double column;    /* where doses begin */
    double indent;    /* where those begin that have no room there */
    bool bare;        /* without its cue */
    struct flow dose; /* how much, with what, tempo and discs */
    double widest;    /* of its atoms */
};

static struct face first(const struct item_parts *parts)
{
    enum weight weight = parts->lane->item->filler ? WEIGHT_REGULAR : WEIGHT_BOLD;
    return (struct face){parts->size, weight, {INK_BLACK, RANK_FIRST, ROLE_SUBHEADING}};
}

static struct face second(const struct item_parts *parts, enum weight weight, enum ink ink)
{
    return (struct face){parts->small, weight, {ink, RANK_SECOND, ROLE_PLAIN}};
}

static double capital(const struct item_parts *parts, double size)
{
    return size * type_capital(parts->wall->press.type);
}

/* --- its pieces --- */

static void set_dose(struct item_parts *parts)
{
    struct dose_sizes sizes = {parts->size, parts->small, parts->width - parts->indent,
                               wall_lead(parts->wall, parts->size), false};
    dose_set(&parts->wall->press, &parts->dose, &parts->line->dose, sizes);
    for (size_t i = 0; i < parts->dose.count; i++)
        parts->widest = fmax(parts->widest, parts->dose.atoms[i].box->width);
}

static struct box *name_box(const struct item_parts *parts, double width, bool whole_words)
{
    return press_paragraph(&parts->wall->press, wording_exercise(parts->wall->press.arena, parts->lane->item->exercise),
                           first(parts), width, 0, 0.84, whole_words);
}

static struct box *dose_box(const struct item_parts *parts, double width)
{
    return flow_set(&parts->wall->press, &parts->dose, width, LOAD_GAP * parts->size,
                    PITCH * parts->size, capital(parts, parts->size));
}

/* When, what to warm up with, and what to think of. */
static struct box *cue_box(const struct item_parts *parts, double width)
{
    const struct press *press = &parts->wall->press;
    const struct wall_line *line = parts->line;
    struct face plain = second(parts, WEIGHT_REGULAR, INK_BLACK);
    struct flow flow = {0};
    struct box *cue = press_paragraph(press, parts->bare ? "" : line->cue, plain, width, 0, 0.95, false);
    if (!*line->when && !*line->ramp)
        return cue;
    flow_add(press, &flow, press_paragraph(press, line->when, second(parts, WEIGHT_BOLD, INK_SPOT), width, 0, 0.95, false));
    flow_add(press, &flow, press_paragraph(press, line->ramp, plain, width, 0, 0.95, false));
    flow_add(press, &flow, cue);
    return flow_set(press, &flow, width, 0.7 * parts->small, 1.25 * parts->small,
                    capital(parts, parts->small));
}

static struct box *stop_box(const struct item_parts *parts, double width)
{
    return mark_stop_rule(&parts->wall->press, parts->line->stop,
                          second(parts, WEIGHT_REGULAR, INK_BLACK), width);
}

/* 0 where there is none. */
static double stop_height(const struct item_parts *parts, double width)
{
    return mark_stop_rule_height(&parts->wall->press, parts->line->stop,
                                 second(parts, WEIGHT_REGULAR, INK_BLACK), width);
}

/* --- cue and stop rule over the whole width --- */

struct notes {
    const struct box *cue;
    double x, y; /* of the stop rule */
    double stop; /* the width that it takes; 0: there is none */
    double height;
};

/* Cue and stop rule side by side, the stop rule at X. */
static struct notes side_by_side(const struct item_parts *parts, double x)
{
    struct notes notes = {
        .cue = cue_box(parts, x - 1.2 * parts->small), .x = x, .stop = parts->width - x};
    notes.height = fmax(notes.cue->height, stop_height(parts, notes.stop));
    return notes;
}

/* Side by side where that saves a line, else one below the other. */
static struct notes make_notes(const struct item_parts *parts)
{
    struct notes notes = {.cue = cue_box(parts, parts->width)};
    double cue = notes.cue->height, stop = stop_height(parts, parts->width);
    notes.height = cue;
    if (stop > 0) {
        notes.stop = parts->width;
        notes.y = notes.cue->count ? cue + 0.2 * parts->small : 0;
        notes.height = notes.y + stop;
    }
    if (notes.cue->count == 0 || stop <= 0)
        return notes;
    const double places[] = {parts->column, notes.cue->width + 1.2 * parts->small, 0.4 * parts->width};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        if (places[i] > 0.75 * parts->width || places[i] < 0.2 * parts->width)
            continue;
        if (fmax(cue, stop) >= notes.height - 0.5)
            break; /* neither gets lower in less width */
        struct notes beside = side_by_side(parts, places[i]);
        if (beside.height < notes.height - 0.5)
            notes = beside;
    }
    return notes;
}

static const struct box *notes_box(const struct item_parts *parts, const struct notes *notes)
{
    struct box *box = box_new(parts->wall->press.arena);
    box_place(box, notes->cue, 0, 0);
    if (notes->stop > 0)
        box_place(box, stop_box(parts, notes->stop), notes->x, notes->y);
    return box;
}

/* --- ways to arrange them --- */

/* Pieces in their places, to be put together if this is the way that is chosen. */
struct way {
    struct {
        const struct box *box;     /* NULL: the stop rule, which is made only then, STOP wide */
        double x, y, stop;
    } placed[4];
    size_t count;
    const struct notes *notes; /* below them, at NOTES_Y, or NULL */
    double notes_y;
    double height;
};

static void place(struct way *way, const struct box *box, double x, double y)
{
    way->placed[way->count].box = box;
    way->placed[way->count].x = x;
    way->placed[way->count++].y = y;
}

static void place_stop(struct way *way, double width, double x, double y)
{
    way->placed[way->count].stop = width;
    place(way, NULL, x, y);
}

static void place_notes(struct way *way, const struct item_parts *parts, const struct notes *notes)
{
    if (notes->height <= 0)
        return;
    way->notes = notes;
    way->notes_y = way->height + 0.28 * parts->small;
    way->height = way->notes_y + notes->height;
}

static struct box *put_together(const struct item_parts *parts, const struct way *way)
{
    struct box *box = box_new(parts->wall->press.arena);
    for (size_t i = 0; i < way->count; i++) {
        const struct box *part = way->placed[i].box;
        if (!part)
            part = stop_box(parts, way->placed[i].stop);
        box_place(box, part, way->placed[i].x, way->placed[i].y);
    }
    if (way->notes)
        box_place(box, notes_box(parts, way->notes), 0, way->notes_y);
    box->height = way->height;
    return box;
}

/* NAME and at X the DOSE beside it, cue and stop rule each below whichever ends sooner. */
static struct way in_pillars(const struct item_parts *parts, const struct box *name,
                             const struct box *dose, double x)
{
    struct way way = {0};
    double gap = 0.42 * parts->small, left = name->height, right = dose->height;
    double room = x - BETWEEN * parts->size, other = parts->width - x;
    const struct box *cue = cue_box(parts, room);
    double below = stop_height(parts, room), beside = stop_height(parts, other);
    place(&way, name, 0, 0);
    place(&way, dose, x, 0); /* before what explains it: it is read in this order */
    if (cue->count) {
        place(&way, cue, 0, left + gap);
        left = left + gap + cue->height;
    }
    bool stops_right = right + beside < left + below;
    if (below > 0 && !stops_right) {
        place_stop(&way, room, 0, left + gap);
        left = left + gap + below;
    }
    if (beside > 0 && stops_right) {
        right += dose->count ? fmax(1.3 * gap, 0.27 * parts->size) : 0;
        place_stop(&way, other, x, right);
        right += beside;
    }
    if (dose->count && !stops_right)
        right += DESCENT * parts->size;
    way.height = fmax(left, right);
    return way;
}

/* NAME and at X the DOSE beside it, NOTES below both. */
static struct way over_notes(const struct item_parts *parts, const struct box *name,
                             const struct box *dose, double x, const struct notes *notes)
{
    struct way way = {0};
    place(&way, name, 0, 0);
    place(&way, dose, x, 0);
    way.height = fmax(name->height, dose->count ? dose->height + DESCENT * parts->size : 0);
    place_notes(&way, parts, notes);
    return way;
}

/* The width that parts the name evenly into as few lines as it takes. */
static double even_width(const struct item_parts *parts)
{
    for (size_t i = 0; i < NAME_LINES; i++) {
        double least = parts->line->names[i] * parts->size;
        if (least <= parts->width)
            return least;
    }
    return parts->width;
}

/* The dose below the name: in its column if it stands there on one line, else at the indent. */
static struct way in_storeys(const struct item_parts *parts, const struct notes *notes, bool *unfit)
{
    struct way way = {0};
    struct box *name = name_box(parts, even_width(parts), true);
    double room = parts->width - parts->indent;
    struct box *dose = dose_box(parts, room);
    if (name->width > parts->width + 0.5) {
        *unfit = true;
        name = name_box(parts, parts->width, false);
    }
    *unfit = *unfit || dose->width > room + 0.5;
    place(&way, name, 0, 0);
    way.height = name->height;
    if (dose->count) {
        bool one_line = dose->height < 1.9 * parts->size && dose->width <= parts->width - parts->column;
        double y = way.height + (said_rises(parts->wall->press.arena) ? 0.14 : 0.06) * parts->size;
        place(&way, dose, one_line ? parts->column : parts->indent, y);
        way.height = y + dose->height + DESCENT * parts->size;
    }
    place_notes(&way, parts, notes);
    return way;
}

static bool is_lower(const struct way *one, const struct way *other)
{
    return one->height < other->height - 0.5;
}

/* What is lowest with the dose in its column, as *WAY; false where name or dose have no room beside one another. */
static bool in_column(const struct item_parts *parts, const struct notes *notes, struct way *way)
{
    double names = parts->column - BETWEEN * parts->size;
    if (parts->dose.count == 0 || names < parts->line->names[NAME_LINES - 1] * parts->size ||
        parts->column + parts->widest > parts->width)
        return false;
    const struct box *name = name_box(parts, names, true);
    const struct box *dose = dose_box(parts, parts->width - parts->column);
    struct way over = over_notes(parts, name, dose, parts->column, notes);
    *way = in_pillars(parts, name, dose, parts->column);
    if (is_lower(&over, way))
        *way = over;
    return true;
}

struct box *wall_item(const struct wall *wall, struct wall_setting setting, size_t lane,
                      double width, bool *unfit)
{
    struct item_parts parts = {.wall = wall,
                               .lane = &wall->group.lanes[lane],
                               .line = &wall->lines[lane],
                               .size = setting.size,
                               .small = wall_small(wall, setting.size),
                               .column = wall_dose_column(setting, width),
                               .indent = wall_indent(setting),
                               .bare = setting.bare,
                               .width = width};
    set_dose(&parts);
    struct notes notes = make_notes(&parts);
    struct way column;
    bool beside = in_column(&parts, &notes, &column), wide = false;
    struct way best = in_storeys(&parts, &notes, &wide);
    if (beside && (wide || !is_lower(&best, &column)))
        best = column;
    else
        *unfit = *unfit || wide;
    return put_together(&parts, &best);
}

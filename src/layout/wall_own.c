/* wall_own.c - under an exercise, what each of a squad does with it: names and what they do instead left, doses in the
 * sheet's column. Those who do the same share a row. */
#include <math.h>

#include "language/language.h"
#include "layout/marks.h"
#include "layout/wall.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const double BETWEEN = 0.45, LOAD_GAP = 0.6, PITCH = 1.02; /* gaps in sizes */
static const double MARKED = 1.14; /* PITCH of names with marks above their letters, or letters above capitals */

struct own {
    const struct wall *wall;
    const struct lane *lane;
    struct dose_sizes sizes;
    double lead;   /* size of names */
    double width, column, indent;
    bool by_stance;
};

struct own_entry {
    struct flow labels, what;
    double widest_label, widest; /* atoms of each */
    bool marked;                 /* some label is not of plain letters alone */
};

static double capital(const struct own *own, double size)
{
    return size * type_capital(own->wall->press.type);
}

/* Takes the space for descenders off LABEL, which the pitch of lines has. A name of several lines keeps most of it: what
 * goes on below it may be of a script that rises higher than capitals. */
static void cut_descent(const struct own *own, struct box *label)
{
    label->height -= (label->height < 1.5 * own->lead ? 0.22 : 0.1) * own->lead;
}

static bool is_plain(const char *words)
{
    while (*words && (unsigned char)*words < 0x80)
        words++;
    return !*words;
}

/* Adds the name of MEMBER to ENTRY, the feet behind it where the stance decides what is done. */
static void add_label(const struct own *own, struct own_entry *entry, size_t member)
{
    const struct press *press = &own->wall->press;
    const struct athlete *athlete = own->wall->group.members[member]->athlete;
    struct face face = {own->lead, WEIGHT_BOLD, {INK_BLACK, RANK_FIRST, ROLE_CELL}};
    double room = own->column - BETWEEN * own->sizes.size - (own->by_stance ? own->lead : 0);
    struct box *label = press_paragraph(press, own->wall->labels[member], face, room, 0, 0.85, false);
    struct box *atom = box_new(press->arena);
    cut_descent(own, label);
    entry->marked |= !is_plain(own->wall->labels[member]);
    atom_join(atom, label, 0);
    if (own->by_stance && athlete->stance != STANCE_UNKNOWN)
        atom_join(atom,
                  mark_stance(press,
                              athlete->stance == STANCE_SOUTHPAW ? DOSE_SOUTHPAW : DOSE_ORTHODOX,
                              0.9 * own->lead),
                  0.15 * own->lead);
    flow_add(press, &entry->labels, atom);
}

/* "instead: goblet squat" behind the names. */
static void add_other(const struct own *own, struct own_entry *entry, const struct item *item)
{
    const struct press *press = &own->wall->press;
    struct face face = {own->lead, WEIGHT_REGULAR, {INK_BLACK, RANK_FIRST, ROLE_CELL}};
    if (!item || item->exercise == own->lane->item->exercise)
        return;
    flow_add(press, &entry->labels, press_word(press, said(press->arena, "instead:"), face));
    face.weight = WEIGHT_BOLD;
    struct box *name = press_paragraph(press, wording_exercise(press->arena, item->exercise), face, own->width - own->indent, 0, 0.85, false);
    cut_descent(own, name);
    entry->marked |= !is_plain(item->exercise->name.shown);
    flow_add_close(press, &entry->labels, name);
}

static double widest_of(const struct flow *flow)
{
    double widest = 0;
    for (size_t i = 0; i < flow->count; i++)
        widest = fmax(widest, flow->atoms[i].box->width);
    return widest;
}

static struct own_entry make_entry(const struct own *own, const struct wall_own *what)
{
    struct own_entry entry = {0};
    dose_set(&own->wall->press, &entry.what, &what->what, own->sizes);
    for (size_t i = 0; i < what->count; i++)
        add_label(own, &entry, what->members[i]);
    add_other(own, &entry, own->lane->by_member[what->members[0]]);
    entry.widest_label = widest_of(&entry.labels);
    entry.widest = widest_of(&entry.what);
    return entry;
}

/* Where the parts of a row stand. */
struct row_way {
    struct box *labels, *what;
    double level, x, y; /* of the labels; of what is done */
    double height;
};

static struct box *set_labels(const struct own *own, const struct own_entry *entry, double width)
{
    double pitch = entry->marked ? MARKED : PITCH;
    return flow_set(&own->wall->press, &entry->labels, width, 0.5 * own->lead, pitch * own->lead, capital(own, own->lead));
}

static struct box *set_what(const struct own *own, const struct own_entry *entry, double width)
{
    return flow_set(&own->wall->press, &entry->what, width, LOAD_GAP * own->sizes.size, PITCH * own->sizes.size,
                    capital(own, own->sizes.size));
}

static struct row_way beside(const struct own *own, const struct own_entry *entry)
{
    struct row_way way = {.x = own->column};
    way.labels = set_labels(own, entry, own->column - BETWEEN * own->sizes.size);
    way.what = set_what(own, entry, own->width - own->column);
    way.level = fmax(0, way.what->baseline - way.labels->baseline);
    way.y = fmax(0, way.labels->baseline - way.what->baseline);
    way.height = fmax(way.level + way.labels->height, way.y + way.what->height);
    return way;
}

static struct row_way below(const struct own *own, const struct own_entry *entry)
{
    struct row_way way = {.x = own->indent};
    way.labels = set_labels(own, entry, own->width);
    way.what = set_what(own, entry, own->width - own->indent);
    if (way.what->height < 1.9 * own->sizes.size && way.what->width <= own->width - own->column)
        way.x = own->column;
    way.y = way.labels->height + (said_rises(own->wall->press.arena) ? 0.42 : 0.3) * own->sizes.size;
    way.height = way.what->count ? way.y + way.what->height : way.labels->height;
    return way;
}

static struct box *row_box(const struct own *own, const struct wall_own *what, bool *unfit)
{
    struct own_entry entry = make_entry(own, what);
    struct box *row = box_new(own->wall->press.arena);
    struct row_way best = below(own, &entry);
    if (entry.widest_label <= own->column - BETWEEN * own->sizes.size && own->column + entry.widest <= own->width) {
        struct row_way other = beside(own, &entry);
        if (other.height <= best.height + 0.5)
            best = other;
    }
    box_open(row, ROLE_ROW);
    box_place_as(row, ROLE_HEAD, best.labels, 0, best.level);
    box_place_as(row, ROLE_DATUM, best.what, best.x, best.y);
    box_close(row, ROLE_ROW);
    *unfit = *unfit || best.x + best.what->width > own->width + 0.5 || best.labels->width > own->width + 0.5;
    /* The next row may begin with signs that stand above capitals. */
    row->height = best.height + (said_rises(own->wall->press.arena) ? 0.3 : entry.marked ? 0.2 : 0.1) * own->sizes.size;
    row->width = best.x + best.what->width;
    return row;
}

/* Whether LANE is done in one stance by some and in the other by others. */
static bool by_stance(const struct lane *lane)
{
    const struct item *item = lane->item;
    for (size_t r = 0; r < item->run_count && lane->varies; r++)
        for (size_t p = 0; p < item->runs[r].part_count; p++)
            if (item->runs[r].parts[p].side == DOSE_ORTHODOX ||
                item->runs[r].parts[p].side == DOSE_SOUTHPAW)
                return true;
    return false;
}

struct box **wall_own_rows(const struct wall *wall, struct wall_setting setting, size_t lane, double width,
                           size_t *count, bool *unfit)
{
    const struct wall_line *line = &wall->lines[lane];
    double lead = wall_lead(wall, setting.size), indent = wall_indent(setting);
    struct own own = {.wall = wall,
                      .lane = &wall->group.lanes[lane],
                      .sizes = {setting.size, wall_small(wall, setting.size), width - indent, lead, false},
                      .lead = lead,
                      .width = width,
                      .column = wall_dose_column(setting, width),
                      .indent = indent,
                      .by_stance = by_stance(&wall->group.lanes[lane])};
    struct box **rows = arena_alloc(wall->press.arena, (line->own_count + 1) * sizeof *rows);
    for (*count = 0; *count < line->own_count; (*count)++)
        rows[*count] = row_box(&own, &line->own[*count], unfit);
    return rows;
}

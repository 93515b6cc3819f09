/* wall_own.c - under an exercise, what each of a squad does with it: names small, loads and exchanges as large as the
 * session's own. Those who do the same share an entry; entries stand side by side where they fit. */
#include <math.h>

#include "layout/marks.h"
#include "layout/wall.h"
#include "model/athlete.h"
#include "model/occasion.h"

static const double LABEL = 0.62;      /* size of names, in sizes */
static const double LABELS_MOST = 0.4; /* share of the width they may take */
static const double BETWEEN = 0.45, LOAD_GAP = 0.6, PITCH = 1.02, CELLS = 0.8; /* gaps in sizes */
enum { CELLS_MOST = 3 };

struct own_entry {
    struct flow labels, what;
    double labels_wide, what_wide, widest; /* on one line each; the widest atom of WHAT */
};

struct own {
    const struct wall *wall;
    struct dose_sizes sizes;
    double width;
    bool by_stance;
    struct own_entry *entries;
    size_t count;
};

static double capital(const struct own *own, double size)
{
    return size * type_capital(own->wall->press.type);
}

/* Adds the name of MEMBER to ENTRY, the feet behind it where the stance decides what is done. */
static void add_label(const struct own *own, struct own_entry *entry, size_t member)
{
    const struct press *press = &own->wall->press;
    const struct athlete *athlete = own->wall->group.members[member]->athlete;
    double size = LABEL * own->sizes.size;
    struct face face = {size, WEIGHT_BOLD, {INK_BLACK, RANK_SECOND, ROLE_CELL}};
    struct box *label = press_paragraph(press, own->wall->labels[member], face,
                                        LABELS_MOST * own->width, 0, 0.9, false);
    struct box *atom = box_new(press->arena);
    atom_join(atom, label, 0);
    if (own->by_stance && athlete->stance != STANCE_UNKNOWN)
        atom_join(atom,
                  mark_stance(press,
                              athlete->stance == STANCE_SOUTHPAW ? DOSE_SOUTHPAW : DOSE_ORTHODOX,
                              0.9 * size),
                  0.15 * size);
    flow_add(press, &entry->labels, atom);
}

static double line_width(const struct flow *flow, double gap, double *widest)
{
    double width = 0;
    for (size_t i = 0; i < flow->count; i++) {
        width += flow->atoms[i].box->width + (i == 0 ? 0 : flow->atoms[i].close ? gap / 2 : gap);
        *widest = fmax(*widest, flow->atoms[i].box->width);
    }
    return width;
}

static void collect_entries(struct own *own, const struct wall_line *line)
{
    double size = own->sizes.size, unused = 0;
    own->count = line->own_count;
    for (size_t e = 0; e < own->count; e++) {
        struct own_entry *entry = &own->entries[e];
        dose_set(&own->wall->press, &entry->what, &line->own[e].what, own->sizes);
        for (size_t i = 0; i < line->own[e].count; i++)
            add_label(own, entry, line->own[e].members[i]);
        entry->labels_wide =
            fmin(line_width(&entry->labels, 0.5 * LABEL * size, &unused), LABELS_MOST * own->width);
        entry->what_wide = line_width(&entry->what, LOAD_GAP * size, &entry->widest);
    }
}

/* ENTRY in WIDTH, its names in a column of LABELS. */
static struct box *entry_box(const struct own *own, const struct own_entry *entry, double labels,
                             double width, bool *unfit)
{
    const struct press *press = &own->wall->press;
    struct box *box = box_new(press->arena);
    double size = own->sizes.size, x = labels + BETWEEN * size, label = LABEL * size;
    struct box *names = flow_set(press, &entry->labels, labels + 0.5, 0.5 * label, 1.05 * label,
                                 capital(own, label));
    bool below = entry->widest > width - x;
    struct box *what = flow_set(press, &entry->what, below ? width : width - x, LOAD_GAP * size,
                                PITCH * size, capital(own, size));
    double level = fmax(0, what->baseline - names->baseline);
    box_open(box, ROLE_ROW);
    box_place_as(box, ROLE_HEAD, names, 0, below ? 0 : level);
    double bottom = names->height + (below ? 0 : level);
    double top = below ? bottom + 0.3 * size : fmax(0, names->baseline - what->baseline);
    box_place_as(box, ROLE_DATUM, what, below ? 0 : x, top);
    box_close(box, ROLE_ROW);
    *unfit = *unfit || what->width > (below ? width : width - x) + 0.5;
    box->height = fmax(bottom, top + what->height);
    box->width = (below ? 0 : x) + what->width;
    return box;
}

/* Entries in rows, some side by side. */
struct grid {
    struct box **rows;
    size_t count;
    double height;
    bool unfit;
};

/* Where the names' column of a grid ends: behind the widest that leaves half a CELL. */
static double labels_of(const struct own *own, double cell)
{
    double common = 0;
    for (size_t e = 0; e < own->count; e++)
        if (own->entries[e].labels_wide <= 0.5 * cell)
            common = fmax(common, own->entries[e].labels_wide);
    return common;
}

/* All entries, CELLS of them side by side; one that is too long takes more than one place. */
static struct grid *make_grid(const struct own *own, int cells)
{
    struct arena *arena = own->wall->press.arena;
    struct grid *grid = arena_alloc(arena, sizeof *grid);
    grid->rows = arena_alloc(arena, (own->count + 1) * sizeof *grid->rows);
    double size = own->sizes.size, gap = CELLS * size;
    double cell = (own->width - (cells - 1) * gap) / cells, common = labels_of(own, cell);
    int column = cells;
    for (size_t e = 0; e < own->count; e++) {
        const struct own_entry *entry = &own->entries[e];
        double labels = fmax(common, entry->labels_wide);
        double wide = labels + BETWEEN * size + entry->what_wide;
        int span = 1;
        while (span < cells && span * cell + (span - 1) * gap < wide - 0.5)
            span++;
        if (column + span > cells) {
            column = 0;
            grid->rows[grid->count++] = box_new(arena);
        }
        struct box *row = grid->rows[grid->count - 1];
        struct box *part =
            entry_box(own, entry, labels, span * cell + (span - 1) * gap, &grid->unfit);
        box_place(row, part, column * (cell + gap), 0);
        row->height = fmax(row->height, part->height + 0.1 * size);
        column += span;
    }
    for (size_t i = 0; i < grid->count; i++)
        grid->height += grid->rows[i]->height + 0.24 * size;
    return grid;
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

static bool is_better(const struct grid *one, const struct grid *other)
{
    if (one->unfit != other->unfit)
        return one->unfit;
    return other->height < one->height - 0.5;
}

struct box **wall_own_rows(const struct wall *wall, double size, size_t lane, double width,
                           size_t *count, bool *unfit)
{
    const struct wall_line *line = &wall->lines[lane];
    struct own own = {.wall = wall,
                      .sizes = {size, wall_small(wall, size), width},
                      .width = width,
                      .by_stance = by_stance(&wall->group.lanes[lane])};
    own.entries = arena_alloc(wall->press.arena, line->own_count * sizeof *own.entries);
    collect_entries(&own, line);
    const struct grid *best = make_grid(&own, 1);
    for (int cells = 2; cells <= CELLS_MOST; cells++) {
        const struct grid *grid = make_grid(&own, cells);
        if (is_better(best, grid))
            best = grid;
    }
    *unfit = *unfit || best->unfit;
    *count = best->count;
    return best->rows;
}

#include "layout/press.h"

#include <math.h>

#include "base/bidi.h"

/* How far descenders reach below the baseline, as a share of the size. */
static const double DESCENT = 0.22;

/* How far letters may rise above the capitals, as a share of the size: room for the marks of Latin letters. */
static const double RISE = 0.1;

/* Where the first baseline of RUN stands: so low that its tallest letter keeps within RISE of the top. Thai and
 * Vietnamese stack marks higher than that. */
static double baseline_of(const struct text_run *run, double size)
{
    return fmax(run->capital, run->baseline - run->ink_y - RISE * size);
}

static struct text_run one_line(const struct press *press, const char *text, struct face face)
{
    return type_set(press->type, text, (struct typesetting){.size = face.size, .weight = face.weight});
}

double press_put(const struct press *press, struct box *box, double x, double baseline,
                 const char *text, struct face face)
{
    if (!*text)
        return 0;
    text = bidi_isolated(press->arena, text);
    struct text_run run = one_line(press, text, face);
    box_text(box, x, baseline, text, &run, face.style);
    return run.width;
}

void press_put_end(const struct press *press, struct box *box, double x, double baseline,
                   const char *text, struct face face)
{
    if (!*text)
        return;
    text = bidi_isolated(press->arena, text);
    struct text_run run = one_line(press, text, face);
    box_text(box, x - run.width, baseline, text, &run, face.style);
}

struct box *press_word(const struct press *press, const char *text, struct face face)
{
    struct box *box = box_new(press->arena);
    text = bidi_isolated(press->arena, text);
    struct text_run run = one_line(press, text, face);
    box->baseline = baseline_of(&run, face.size);
    box->height = box->baseline;
    if (!*text)
        return box;
    box_text(box, 0, box->baseline, text, &run, face.style);
    box->width = run.width;
    return box;
}

static struct text_run broken(const struct press *press, const char *text, struct face face, double width,
                              int lines, double leading, bool whole_words)
{
    return type_set(press->type, text,
                    (struct typesetting){.size = face.size,
                                         .weight = face.weight,
                                         .width = width,
                                         .lines = lines,
                                         .whole_words = whole_words,
                                         .leading = leading});
}

/* From the top of RUN's capitals down to its last line's descenders. */
static double height_of(const struct text_run *run, double size)
{
    double baseline = baseline_of(run, size);
    double last = baseline + run->last_baseline - run->baseline;
    double ink = baseline + run->ink_y + run->ink_height - run->baseline;
    return fmax(last + DESCENT * size, ink);
}

struct box *press_paragraph(const struct press *press, const char *text, struct face face,
                            double width, int lines, double leading, bool whole_words)
{
    struct box *box = box_new(press->arena);
    if (!*text)
        return box;
    text = bidi_isolated(press->arena, text);
    struct text_run run = broken(press, text, face, width, lines, leading, whole_words);
    box->baseline = baseline_of(&run, face.size);
    box_text(box, 0, box->baseline, text, &run, face.style);
    box->width = fmax(run.width, run.ink_x + run.ink_width);
    box->height = height_of(&run, face.size);
    return box;
}

double press_height(const struct press *press, const char *text, struct face face, double width,
                    double leading)
{
    if (!*text)
        return 0;
    text = bidi_isolated(press->arena, text);
    struct text_run run = broken(press, text, face, width, 0, leading, false);
    return height_of(&run, face.size);
}

static void add_atom(const struct press *press, struct flow *flow, struct flow_atom atom)
{
    if (!atom.box || atom.box->count == 0)
        return;
    flow->atoms = arena_grow(press->arena, flow->atoms, flow->count, &flow->capacity,
                             sizeof *flow->atoms);
    flow->atoms[flow->count++] = atom;
}

void flow_add(const struct press *press, struct flow *flow, struct box *box)
{
    add_atom(press, flow, (struct flow_atom){box, false});
}

void flow_add_close(const struct press *press, struct flow *flow, struct box *box)
{
    add_atom(press, flow, (struct flow_atom){box, true});
}

/* How far ATOM reaches above the top of the line's capitals. */
static double rise(const struct box *atom, double capital)
{
    return atom->baseline > 0 ? atom->baseline - capital : (atom->height - capital) / 2;
}

/* Where atom I of a line begun at FIRST starts, the line before it being X wide. */
static double atom_start(const struct flow *flow, size_t first, size_t i, double x, double gap)
{
    if (i == first)
        return 0;
    return x + (flow->atoms[i].close ? gap / 2 : gap);
}

/* How wide the line begun at FIRST gets, X wide so far, with atom I and all that belongs to it. */
static double width_with(const struct flow *flow, size_t first, size_t i, double x, double gap)
{
    do {
        x = atom_start(flow, first, i, x, gap) + flow->atoms[i].box->width;
        i++;
    } while (i < flow->count && flow->atoms[i].close);
    return x;
}

/* The end of the line that begins with FIRST; *ABOVE is how far its atoms rise, below 0 where all of them are small and not
 * of the first line. What belongs together is parted only where no line can hold it. */
static size_t line_end(const struct flow *flow, size_t first, double width, double gap,
                       double capital, double *above)
{
    double x = 0;
    size_t i = first;
    for (*above = first ? -capital : 0; i < flow->count; i++) {
        bool whole = !flow->atoms[i].close && width_with(flow, i, i, 0, gap) <= width;
        double start = atom_start(flow, first, i, x, gap), end = start + flow->atoms[i].box->width;
        if (i > first && (whole ? width_with(flow, first, i, x, gap) : end) > width)
            break;
        *above = fmax(*above, rise(flow->atoms[i].box, capital));
        x = end;
    }
    return i;
}

struct box *flow_set(const struct press *press, const struct flow *flow, double width, double gap,
                     double pitch, double capital)
{
    struct box *box = box_new(press->arena);
    double top = 0;
    for (size_t i = 0; i < flow->count;) {
        double above, x = 0, bottom = 0;
        size_t first = i, end = line_end(flow, first, width, gap, capital, &above);
        top += above;
        if (first == 0)
            box->baseline = top + capital;
        for (; i < end; i++) {
            const struct box *atom = flow->atoms[i].box;
            double y = top - rise(atom, capital);
            x = atom_start(flow, first, i, x, gap);
            box_place(box, atom, x, y);
            x += atom->width;
            bottom = fmax(bottom, y + atom->height);
        }
        box->width = fmax(box->width, x);
        box->height = bottom;
        top = fmax(top + pitch, bottom + pitch - capital);
    }
    return box;
}

/* Moves all of ATOM down BY. */
static void atom_lower(struct box *atom, double by)
{
    for (size_t i = 0; i < atom->count; i++)
        atom->elements[i].y += by;
    atom->baseline += by;
    atom->height += by;
}

void atom_join(struct box *atom, const struct box *part, double gap)
{
    double x = atom->count ? atom->width + gap : 0;
    double y = part->baseline > 0 ? atom->baseline - part->baseline
                                  : (atom->baseline - part->height) / 2;
    if (atom->count == 0 && part->baseline > 0) {
        atom->baseline = part->baseline;
        y = 0;
    }
    if (part->baseline > 0 && y < 0) { /* what rises higher than all before it needs the room above */
        atom_lower(atom, -y);
        y = 0;
    }
    box_place(atom, part, x, y);
    atom->width = x + part->width;
    atom->height = fmax(atom->height, y + part->height);
}

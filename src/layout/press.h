/* press.h - what every part of a sheet is made with, and lines of small pieces set one after another.
 *
 * Lines are hung by their capitals: a piece's top is the top of its first line's capitals, so that columns of
 * unlike sizes begin level. */
#ifndef BELL_LAYOUT_PRESS_H
#define BELL_LAYOUT_PRESS_H

#include "layout/scene.h"

struct press {
    struct arena *arena;
    struct type *type;
};

/* A size, weight and style in one. */
struct face {
    double size;
    enum weight weight;
    struct style style;
};

/* Puts TEXT on one line at (X, BASELINE); returns its width. */
double press_put(const struct press *press, struct box *box, double x, double baseline,
                 const char *text, struct face face);
/* The same, ending at X. */
void press_put_end(const struct press *press, struct box *box, double x, double baseline,
                   const char *text, struct face face);

/* TEXT on one line as a piece of its own, hung by its capitals. */
struct box *press_word(const struct press *press, const char *text, struct face face);

/* TEXT broken to WIDTH, hung by its capitals; the height reaches down to the last line's descenders. LINES 0: any
 * number. LEADING is a share of the font's line height. With WHOLE_WORDS the piece may come out wider than WIDTH. */
struct box *press_paragraph(const struct press *press, const char *text, struct face face,
                            double width, int lines, double leading, bool whole_words);

/* The height of press_paragraph's piece of any number of lines, without making it. */
double press_height(const struct press *press, const char *text, struct face face, double width,
                    double leading);

/* Pieces to be set in lines. */
struct flow_atom {
    struct box *box;
    bool close; /* belongs to the one before: half the gap */
};

struct flow {
    struct flow_atom *atoms;
    size_t count, capacity;
};

void flow_add(const struct press *press, struct flow *flow, struct box *box);
void flow_add_close(const struct press *press, struct flow *flow, struct box *box);

/* Sets the atoms left to right with GAP between them and starts a new line where WIDTH is full; lines follow at
 * PITCH or, where an atom is taller, further down. Atoms without a baseline are centred on the
 * capitals, CAPITAL high. The baseline is that of the first line. */
struct box *flow_set(const struct press *press, const struct flow *flow, double width, double gap,
                     double pitch, double capital);

/* Joins PART to the end of ATOM, with GAP between, on one baseline. */
void atom_join(struct box *atom, const struct box *part, double gap);

#endif

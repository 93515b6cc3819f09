/* scene.h - a sheet as it will be painted: pages of texts, lines, boxes and shapes, in points.
 *
 * Everything drawn is a piece: elements in coordinates of its own, from its top left corner. Small pieces are
 * measured, then placed in larger ones; a page is the largest. A text keeps the layout it was measured with. */
#ifndef BELL_LAYOUT_SCENE_H
#define BELL_LAYOUT_SCENE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "layout/ink.h"
#include "layout/type.h"

/* From how far a text is meant to be read: the sheet's reading distance, a third of it, or an arm's length. */
enum rank { RANK_FIRST, RANK_SECOND, RANK_FOOT };

/* What a text or a group of elements is, for PDF tags. */
enum role {
    ROLE_PLAIN,
    ROLE_TITLE,
    ROLE_HEADING,
    ROLE_CELL,  /* a text in a table */
    ROLE_SCALE, /* numbers of an axis: nothing that is to be read out */
    ROLE_TABLE, /* groups: a table of rows, a row of cells, a cell that heads others, any other cell */
    ROLE_ROW,
    ROLE_HEAD,
    ROLE_DATUM
};

/* OPEN and CLOSE draw nothing: what stands between them is a group with a role. */
enum element_kind {
    ELEMENT_TEXT,
    ELEMENT_LINE,
    ELEMENT_BOX,
    ELEMENT_SHAPE,
    ELEMENT_OPEN,
    ELEMENT_CLOSE,
    ELEMENT_PART /* another piece; on no page */
};

/* One step of an outline in a square of 0 to 1, y down: M and L take one point, C three, Z none. */
struct step {
    char op;
    double at[6];
};

struct element {
    enum element_kind kind;
    double x, y;          /* top left; of a line, its start */
    double width, height; /* of a line, how far its end lies off its start */
    enum ink fill, stroke;
    double stroke_width;
    double radius;        /* of a box's corners */
    const struct step *steps; /* of a shape, stretched over width and height */
    size_t step_count;
    bool mirrored;        /* a shape turned left for right */
    const char *text;
    const struct run *run;
    const struct piece *part;
    enum rank rank;
    enum role role;
};

struct piece {
    struct arena *arena;
    bool flat; /* what is placed in it is copied: pages are lists without parts */
    struct element *elements;
    size_t count, capacity;
    double width, height;
    double baseline; /* of its first line of text, for pieces that stand in one; else 0 */
    size_t windowed; /* of a page: its first so many elements show inside the scene's window alone */
};

enum problem_kind {
    PROBLEM_ELLIPSISED,    /* a text did not fit and was cut */
    PROBLEM_UNKNOWN_GLYPH, /* no font here has a character */
    PROBLEM_OUTSIDE,       /* something lies beyond the margin */
    PROBLEM_OVERLAP,       /* two texts touch */
    PROBLEM_TOO_SMALL,     /* first-rank text cannot be read from the distance asked for */
    PROBLEM_PAGES          /* it takes more pages than it may */
};

struct layout_problem {
    enum problem_kind kind;
    int page;              /* from 1 */
    const char *text;      /* the text that is at fault */
    const char *words;     /* a sentence for the coach */
    const char *help;      /* what would mend it, or NULL */
    double distance;       /* PROBLEM_TOO_SMALL: centimetres from which it can be read */
};

/* An entry of the document's outline. */
struct bookmark {
    const char *title;
    int page; /* from 1 */
    double y;
    bool nested;
};

struct scene {
    struct arena *arena;
    double width, height, margin; /* of every page */
    double distance;              /* centimetres */
    struct {
        double x, y, width, height;
    } window;                     /* what pages cut off of `windowed` elements lies outside it */
    struct piece **pages;
    size_t page_count, page_capacity;
    struct bookmark *bookmarks;
    size_t bookmark_count, bookmark_capacity;
    struct layout_problem *problems;
    size_t problem_count, problem_capacity;
    const char *title, *author, *subject, *keywords;
    const char *description;      /* the sheet's content in words, for who hears it instead of seeing it */
};

struct scene *scene_new(struct arena *arena, double width, double height, double margin);
struct piece *scene_page(struct scene *scene);
void scene_bookmark(struct scene *scene, const char *title, double y, bool nested);
struct layout_problem *scene_problem(struct scene *scene, enum problem_kind kind, int page,
                                     const char *text, const char *words);

/* Looks for cut texts, unknown characters, texts that touch and things beyond the margin, and records each
 * as a problem. */
void scene_inspect(struct scene *scene);

/* The smallest capital of RANK on page PAGE (from 1; 0: all), in points; 0 where it has none. *TEXT, where
 * not NULL, is set to the text that has it. */
double scene_smallest(const struct scene *scene, int page, enum rank rank, const char **text);

struct piece *piece_new(struct arena *arena);

/* PIECE without parts: all its elements are its own. */
struct piece *piece_flat(const struct piece *piece);

/* How a text is put into a piece. */
struct look {
    enum ink ink;
    enum rank rank;
    enum role role;
};

/* Puts RUN of TEXT so that its first baseline starts at (X, BASELINE). */
void piece_text(struct piece *piece, double x, double baseline, const char *text,
                const struct run *run, struct look look);
void piece_line(struct piece *piece, double x, double y, double dx, double dy, double width,
                enum ink ink);
struct element *piece_box(struct piece *piece, double x, double y, double width, double height,
                          enum ink fill, enum ink stroke, double stroke_width);
struct element *piece_shape(struct piece *piece, double x, double y, double width, double height,
                            const struct step *steps, size_t count);

/* Puts PART, which is not changed from then on, into PIECE with its corner at (X, Y). */
void piece_place(struct piece *piece, const struct piece *part, double x, double y);

/* Begins and ends a group of ROLE in PIECE; groups may hold groups. Readers of the sheet's structure get its texts in
 * the order in which they were put. */
void piece_open(struct piece *piece, enum role role);
void piece_close(struct piece *piece, enum role role);

/* piece_place of PART, which may be NULL, as a group of ROLE. */
void piece_place_as(struct piece *piece, enum role role, const struct piece *part, double x, double y);

#endif

/* scene.h - a sheet as it will be painted: pages of texts, lines, rectangles and shapes, in points.
 *
 * Everything drawn is a box: elements in coordinates of its own, from its top left corner. Small boxes are
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
    ROLE_HEADING,    /* of a block */
    ROLE_SUBHEADING, /* of a line in it: the exercise */
    ROLE_CELL,  /* a text in a table */
    ROLE_SCALE, /* numbers of an axis: nothing that is to be read out */
    ROLE_TABLE, /* groups: a table of rows, a row of cells, a cell that heads others, any other cell */
    ROLE_ROW,
    ROLE_HEAD,
    ROLE_DATUM,
    ROLE_FIGURE /* a group: a mark, which is read out as the words it was opened with */
};

/* OPEN and CLOSE draw nothing: what comes between them is a group with a role. */
enum element_kind {
    ELEMENT_TEXT,
    ELEMENT_LINE,
    ELEMENT_RECTANGLE,
    ELEMENT_SHAPE,
    ELEMENT_OPEN,
    ELEMENT_CLOSE,
    ELEMENT_PART /* another box; on no page */
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
    double radius;        /* of a rectangle's corners */
    const struct step *steps; /* of a shape, stretched over width and height */
    size_t step_count;
    bool mirrored;        /* a shape turned left for right */
    const char *text; /* of a figure's opening, what it says */
    const struct text_run *run;
    const struct box *part;
    enum rank rank;
    enum role role;
};

struct box {
    struct arena *arena;
    bool flat; /* what is placed in it is copied: pages are lists without parts */
    struct element *elements;
    size_t count, capacity;
    double width, height;
    double baseline; /* of its first line of text, for boxes that stand in one; else 0 */
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
    const char *help;      /* what would correct it, or NULL */
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
    struct box **pages;
    size_t page_count, page_capacity;
    struct bookmark *bookmarks;
    size_t bookmark_count, bookmark_capacity;
    struct layout_problem *problems;
    size_t problem_count, problem_capacity;
    const char *title, *author, *subject, *keywords;
    const char *language;         /* of its words, a code of ISO 639; NULL: English */
    const char *description;      /* the sheet's content in words, for those who hear it instead of seeing it */
};

struct scene *scene_new(struct arena *arena, double width, double height, double margin);
struct box *scene_page(struct scene *scene);
void scene_bookmark(struct scene *scene, const char *title, double y, bool nested);
struct layout_problem *scene_problem(struct scene *scene, enum problem_kind kind, int page,
                                     const char *text, const char *words);

/* Looks for cut texts, unknown characters, texts that touch and things beyond the margin, and records each
 * as a problem. */
void scene_inspect(struct scene *scene);

/* The smallest capital of RANK on its pages, in points; 0 where they have none. *TEXT, if not NULL, is set to the text that
 * has it. */
double scene_smallest(const struct scene *scene, enum rank rank, const char **text);

struct box *box_new(struct arena *arena);

/* BOX without parts: all its elements are its own. */
struct box *box_flat(const struct box *box);

/* How a text is put into a box. */
struct style {
    enum ink ink;
    enum rank rank;
    enum role role;
};

/* Puts RUN of TEXT so that its first baseline starts at (X, BASELINE). */
void box_text(struct box *box, double x, double baseline, const char *text,
              const struct text_run *run, struct style style);
void box_line(struct box *box, double x, double y, double dx, double dy, double width,
              enum ink ink);
struct element *box_rectangle(struct box *box, double x, double y, double width, double height,
                              enum ink fill, enum ink stroke, double stroke_width);
struct element *box_shape(struct box *box, double x, double y, double width, double height,
                          const struct step *steps, size_t count);

/* Puts PART, which is not changed from then on, into BOX with its corner at (X, Y). */
void box_place(struct box *box, const struct box *part, double x, double y);

/* Begins and ends a group of ROLE in BOX; groups may hold groups. Readers of the sheet's structure get its texts in
 * the order in which they were put. */
void box_open(struct box *box, enum role role);
void box_close(struct box *box, enum role role);

/* A box that is one figure: MARK, read out as WORDS. */
struct box *box_figure(const struct box *mark, const char *words);

/* box_place of PART, which may be NULL, as a group of ROLE. */
void box_place_as(struct box *box, enum role role, const struct box *part, double x, double y);

#endif

/* wall.h - the parts of the wall sheet: the frame around it, the blocks of the session, the table of a squad. */
#ifndef BELL_LAYOUT_WALL_H
#define BELL_LAYOUT_WALL_H

#include "layout/group.h"
#include "layout/sheet.h"
#include "layout/strips.h"

struct wall {
    struct press press;
    const struct sheet_request *request;
    struct group group;
    double unit;                  /* the paper against A3: what is not fitted grows with it */
    double width, height, margin; /* of the page */
    double inner;                 /* width between the margins */
    int columns;                  /* the body is set in so many, side by side */
    double column;                /* width of one */
    double second_least;          /* size of second-rank text at the least angle */
    bool table_follows;           /* the squad's table stands on a page of its own */
};

/* Sizes of the session's blocks. */
struct wall_sizes {
    double size;  /* of first-rank text */
    double small; /* of second-rank text */
    double split; /* share of the width given to names */
};

/* WALL set in COLUMNS columns. */
struct wall wall_in_columns(const struct wall *wall, int columns);

struct wall_sizes wall_sizes_for(const struct wall *wall, double size, double split);

/* The session's blocks; a name that is broken inside a word or wider than its column makes them unfit (*UNFIT). */
struct strips wall_blocks(const struct wall *wall, struct wall_sizes sizes, bool *unfit);

/* The squad's table of loads and exchanges, in SIZE. */
struct strips wall_table(const struct wall *wall, double size, bool *unfit);

struct piece *wall_header(const struct wall *wall, bool again);
/* Everything at the foot but the last line; on further pages the cautions alone. */
struct piece *wall_foot(const struct wall *wall, bool again);
/* The last line: plan, version, page. */
struct piece *wall_last_line(const struct wall *wall, int page, int pages);

/* Where to look for what LANE does not show: "own load: table below". */
const char *wall_table_hint(const struct wall *wall, const struct lane *lane);

#endif

/* wall.h - the parts of the wall sheet: the frame around it, the blocks of the session, what each of a squad does. */
#ifndef BELL_LAYOUT_WALL_H
#define BELL_LAYOUT_WALL_H

#include "layout/printed_dose.h"
#include "layout/group.h"
#include "layout/rota.h"
#include "layout/sheet.h"
#include "layout/strips.h"

/* How many lines a name is tried in. */
enum { NAME_LINES = 3 };

/* Those of a squad who do a line in one and the same way of their own. */
struct wall_own {
    struct printed_dose what; /* they do that the line above them does not say */
    const size_t *members;
    size_t count;
};

/* What a line of the session says: worded once, since it is set in dozens of sizes until the largest is found. */
struct wall_line {
    const char *ref;                        /* "A2", or "" */
    const char *letter, *heading, *minutes; /* of its block; MINUTES are its hours where a squad shares a room */
    const char *continued;                  /* the heading where the block goes on */
    const char *own_continued;              /* where the line does */
    const char *title;                      /* of the block in the outline */
    const char *when, *cue, *stop;
    double names[NAME_LINES]; /* least widths, in sizes, at which the name takes 1, 2, 3 lines */
    struct printed_dose dose;
    const struct wall_own *own;
    size_t own_count;
};

struct wall {
    struct press press;
    const struct sheet_request *request;
    struct group group;
    const struct rota *rooms; /* where the squad works; ROOM_COUNT of them */
    size_t room_count;
    const struct wall_line *lines; /* one a lane */
    const char **labels;           /* what each member is called beside their own loads */
    double unit;                   /* the paper against A3: what is not fitted grows with it */
    double width, height, margin;  /* of the page */
    double inner;                  /* width between the margins */
    int columns;                   /* the body is set in so many, side by side */
    double column;                 /* width of one */
    double second_least;           /* size of second-rank text at the least angle */
};

/* How the session's blocks are set. */
struct wall_setting {
    double size; /* of first-rank text */
    double
        split; /* share of the width given to names, so that doses stand in one column; 0: each as suits it */
    double
        excess; /* what an item may be the higher for that, in sizes; if more, it is set as suits it */
};

/* What the lanes of GROUP say, one a lane. ROOM is where they work, or NULL: blocks then tell how long they take, not when. */
const struct wall_line *wall_words(const struct press *press, const struct group *group, const struct rota *room);

/* Size of second-rank text beside first-rank text of SIZE. */
double wall_small(const struct wall *wall, double size);

/* The session's blocks, numbered by their lanes. What is wider than its column makes them unfit (*UNFIT). *ALIGNED,
 * unless NULL, is set to how many items keep to the split. Headings that are repeated are as high as they have to be, but
 * those of lanes say only with wall_heading_again that their block goes on. */
struct strips wall_blocks(const struct wall *wall, struct wall_setting setting, bool *unfit,
                          size_t *aligned);

/* The heading over lane LANE in SIZE where its block goes on. */
struct box *wall_heading_again(const struct wall *wall, double size, size_t lane);

/* One line of the session WIDTH wide: name, dose and notes. */
struct box *wall_item(const struct wall *wall, struct wall_setting setting, size_t lane,
                      double width, bool *unfit, bool *aligned);

/* Rows for those who do lane LANE with a load or in a way of their own, *COUNT of them; what is wider than WIDTH makes
 * them unfit. */
struct box **wall_own_rows(const struct wall *wall, double size, size_t lane, double width,
                           size_t *count, bool *unfit);

struct box *wall_header(const struct wall *wall, bool again);
/* Everything at the foot; on further pages the cautions and the place of the page alone. PAGES 0: they are not known yet,
 * and only its height is meant. */
struct box *wall_foot(const struct wall *wall, int page, int pages);

#endif

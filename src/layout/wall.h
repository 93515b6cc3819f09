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
    const char *ref;              /* "A2" where its block has several lines, else "" */
    const char *letter, *heading; /* of its block */
    const char *aside;            /* what kind of block, and at what hours or for how long */
    const char *continued;        /* the heading where the block goes on */
    const char *own_continued;    /* where the line does */
    const char *title;            /* of the block in the outline */
    const char *when, *ramp, *cue, *stop;
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
    bool boarded;                  /* loads that are personal stand on a load board behind the session */
    const char **labels;           /* what each member is called beside their own loads */
    double unit;                   /* the paper against A3: what is not fitted grows with it */
    double width, height, margin;  /* of the page */
    double inner;                  /* width between the margins */
    int columns;                   /* the body is set in so many, side by side */
    double column;                 /* width of one */
    double first_least;            /* size of first-rank text at the least angle */
    double second_least;           /* and of second-rank text */
};

/* How the session's blocks are set. */
struct wall_setting {
    double size;  /* of names of exercises and of doses */
    double split; /* where the column of doses begins, as a share of the width */
    bool bare;    /* cues give way to larger letters */
    bool broken;  /* a block may go on overleaf, as its foot then says */
};

/* What the lanes of GROUP say, one a lane. ROOM is where they work together, or NULL. Loads that are personal are left to
 * the board if BOARDED. */
const struct wall_line *wall_words(const struct press *press, const struct group *group, const struct rota *room, bool boarded);

/* Whether GROUP is so many that what each lifts stands on a board, not under the exercises. */
bool wall_is_boarded(const struct group *group);

/* "3 Ã (A1 â 20 s â A2 â rest 3:00)": how the block of lane LANE is gone through. */
const char *wall_order(struct arena *arena, const struct group *group, size_t lane);
/* Whether that block's lines are done in turn. */
bool wall_in_turn(const struct group *group, size_t lane);
/* What its heading says beside that, smaller: "contrast", "both at each start". */
const char *wall_order_aside(struct arena *arena, const struct group *group, size_t lane);

/* Size of second-rank text where names and doses have SIZE. */
double wall_small(const struct wall *wall, double size);
/* Of what is read from as far as those but need not be as large: headings, people, discs. */
double wall_lead(const struct wall *wall, double size);
/* Where the column of doses begins in WIDTH. What does not fit there goes below, at wall_indent. */
double wall_dose_column(struct wall_setting setting, double width);
double wall_indent(struct wall_setting setting);

/* The session's blocks, numbered by their lanes. What is wider than its column makes them unfit (*UNFIT). Headings that are
 * repeated are as high as they have to be, but those of lanes say only with wall_heading_again that their block goes on. */
struct strips wall_blocks(const struct wall *wall, struct wall_setting setting, bool *unfit);

/* The heading over lane LANE in SIZE where its block goes on. */
struct box *wall_heading_again(const struct wall *wall, double size, size_t lane);

/* One line of the session WIDTH wide: name, dose and notes. */
struct box *wall_item(const struct wall *wall, struct wall_setting setting, size_t lane,
                      double width, bool *unfit);

/* Rows for those who do lane LANE with a load or in a way of their own, *COUNT of them; what is wider than WIDTH makes
 * them unfit. */
struct box **wall_own_rows(const struct wall *wall, struct wall_setting setting, size_t lane, double width,
                           size_t *count, bool *unfit);

struct box *wall_header(const struct wall *wall, bool again);
/* Everything at the foot; on further pages the cautions and the place of the page alone. PAGES 0: they are not known yet,
 * and only its height is meant. */
struct box *wall_foot(const struct wall *wall, int page, int pages);
/* The white over the foot, in points: it says there what goes on. */
double wall_foot_space(const struct wall *wall);
/* WORDS about the sheet in the white over the foot of PAGE, whose top is DOWN points below the page's; from X on. */
void wall_note(const struct wall *wall, struct box *page, double x, double down, const char *words);

#endif

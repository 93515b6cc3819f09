/* frame.h - what goes around the sheets that are read at arm's length: title, foot and last line. */
#ifndef BELL_LAYOUT_FRAME_H
#define BELL_LAYOUT_FRAME_H

#include "layout/sheet.h"

struct frame {
    struct press press;
    const struct sheet_request *request;
    double width, height, margin; /* of the page */
    double inner;                 /* width between the margins */
    double first;                 /* the least size of first-rank text */
    double second;                /* size of what is read closer */
    double foot;                  /* size of the foot */
};

/* What the title says. Lines are "" where there is nothing to say. */
struct frame_title {
    const char *title;
    const char *beside;      /* under the title: whose sheet it is */
    const char *when, *then; /* right: two lines */
    const char *provisional;
};

/* "22 May". */
const char *frame_day(struct arena *arena, int day);

struct frame frame_of(const struct sheet_request *request);

struct face frame_face(double size, enum weight weight, enum ink ink, enum rank rank);
double frame_capital(const struct frame *frame, double size);

/* The title, smaller when it is repeated on a further page. */
struct box *frame_header(const struct frame *frame, const struct frame_title *title, bool again);

/* PARTS one under the other below a rule, then the usual cautions. */
struct box *frame_foot(const struct frame *frame, struct box *const *parts, size_t count);

/* Plan, version, page. */
struct box *frame_last_line(const struct frame *frame, int page, int pages);

/* A scene without pages, its metadata set. KIND: "week sheet". */
struct scene *frame_scene(const struct frame *frame, const char *title, const char *kind);

/* Reports first-rank text that cannot be read from the distance asked for. */
void frame_report_reach(struct scene *scene, const struct frame *frame);

/* BOX with its first-rank text taken down to what is read closer: a dose within a table. */
struct box *frame_close_by(struct box *box);

/* PART under all of COLUMN, GAP between. */
void frame_stack(struct box *column, const struct box *part, double gap);

#endif

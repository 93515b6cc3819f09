/* card.h - the parts of an athlete's card. */
#ifndef BELL_LAYOUT_CARD_H
#define BELL_LAYOUT_CARD_H

#include "layout/printed_dose.h"
#include "layout/rota.h"
#include "layout/sheet.h"
#include "layout/strips.h"

/* One set where the sets of a line differ. */
struct card_set {
    struct printed_dose dose, marks;
    const char *planned; /* "60 kg" */
};

/* What a line of the session says: worded once, since it is set in a dozen sizes until the largest is found. */
struct card_line {
    const char *letter, *heading, *continued; /* of its block */
    const char *poor;                         /* what the block is on a poor day; "" where nothing is said */
    bool first;                               /* of its block */
    const char *name;                         /* "A1 back squat", and when it is done */
    struct printed_dose dose, marks;          /* beside the name; after the blanks */
    int blanks;                               /* one a set */
    bool ticks;                               /* they are circles: it is done or not */
    const char *planned;                      /* the load of all sets, or "" */
    const struct card_set *sets;              /* a row each, in place of blanks; SET_COUNT 0: they are alike */
    size_t set_count;
    const char *const *scores;                /* after the last line of a block against the clock: "rounds", "+ reps" */
    size_t score_count;
    const char *ramp, *cue, *stop;
    const char *last;                         /* what was logged of it the last time, or "" */
    const char *turns;                        /* when, where and after whom, of a squad; else "" */
    bool filler;
};

struct card {
    struct press press;
    const struct sheet_request *request;
    const struct occasion *occasion;
    const struct rota *room; /* that a squad shares, or NULL */
    int member;              /* of that squad */
    bool timed;              /* the hour of each set is printed */
    const struct card_line *lines;
    size_t line_count;
    double width, height, margin, inner;
    double blank; /* height of the boxes to write in, in points */
    double least; /* the smallest size that can be read at the card's distance */
};

/* "Last time: 8 @ 20 kg, 8 @ 22.5 kg": what the latest log before OCCASION says of ITEM, one of its lines; "" where none does. */
const char *card_last(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                      const struct item *item);

/* A box to write in, at least 14 mm wide and HEIGHT high, over it pale what is planned. */
struct box *card_box(const struct press *press, const char *planned, double size, double height);

/* What the session says. */
void card_words(struct card *card);

/* The session's blocks with blanks to write in, in SIZE; *UNFIT if a dose is wider than the card. */
struct strips card_blocks(const struct card *card, double size, bool *unfit);

/* The size of what is read second on a card whose first is SIZE. */
double card_small(const struct card *card, double size);

#endif

/* card.h - the parts of an athlete's card. */
#ifndef BELL_LAYOUT_CARD_H
#define BELL_LAYOUT_CARD_H

#include "layout/printed_dose.h"
#include "layout/rota.h"
#include "layout/sheet.h"
#include "layout/strips.h"

/* What a line of the session says: worded once, since it is set in a dozen sizes until the largest is found. */
struct card_line {
    const char *letter, *heading, *continued; /* of its block */
    const char *poor;                         /* what the block is on a poor day; "" where nothing is said */
    bool first;                               /* of its block */
    const char *name;                         /* and when it is done */
    struct printed_dose dose, marks;          /* beside the name; after the blanks */
    int blanks;
    const char *ramp, *cue, *stop;
    const char *turns;                        /* when, where and after whom, of a squad; else "" */
    bool filler;
};

struct card {
    struct press press;
    const struct sheet_request *request;
    const struct occasion *occasion;
    const struct rota *room; /* that a squad shares, or NULL */
    int member;              /* of that squad */
    bool timed;              /* the hour of each set is told */
    const struct card_line *lines;
    size_t line_count;
    double width, height, margin, inner;
    double blank; /* height of the blanks to write in, in sizes */
    double least; /* the smallest size that can be read at the card's distance */
};

/* What the session says. */
void card_words(struct card *card);

/* The session's blocks with blanks to write in, in SIZE; *UNFIT if a dose is wider than the card. */
struct strips card_blocks(const struct card *card, double size, bool *unfit);

/* The size of what is read second on a card whose first is SIZE. */
double card_small(const struct card *card, double size);

#endif

/* card.h - the parts of an athlete's card. */
#ifndef BELL_LAYOUT_CARD_H
#define BELL_LAYOUT_CARD_H

#include "layout/sheet.h"
#include "layout/strips.h"

struct card {
    struct press press;
    const struct sheet_request *request;
    const struct occasion *occasion;
    double width, height, margin, inner;
    double box;               /* height of the boxes to write in, in sizes */
    double least;             /* the smallest size that can be read at the card's distance */
    bool keyed;               /* its marks are explained */
    const struct item *heavy; /* the first heavy lift, which is warmed up to, or NULL */
};

/* The session's blocks with boxes to write in, in SIZE; *UNFIT where a dose is wider than the card. */
struct strips card_blocks(const struct card *card, double size, bool *unfit);

/* The size of what is read second on a card whose first is SIZE. */
double card_small(const struct card *card, double size);

#endif

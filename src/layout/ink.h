/* ink.h - the few colours a sheet is printed in: black, one grey, one spot colour, and the discs' own.
 *
 * Whatever stands on the paper's white reaches a contrast of 4.5 to 1 (WCAG 2.2, 1.4.3); hair lines, which
 * carry no meaning, do not. A colour never says anything that a word, number or shape beside it does not. */
#ifndef BELL_LAYOUT_INK_H
#define BELL_LAYOUT_INK_H

#include "base/arena.h"

enum ink {
    INK_NONE,
    INK_PAPER,
    INK_BLACK,
    INK_GREY,  /* second thoughts: cues, units, notes */
    INK_HAIR,  /* hair lines and tints of tables; never text */
    INK_SPOT,
    INK_DISC_RED,
    INK_DISC_BLUE,
    INK_DISC_YELLOW,
    INK_DISC_GREEN,
    INK_DISC_WHITE,
    INK_DISC_STEEL, /* discs the federation gives no colour */
    INK_COUNT
};

/* sRGB, each part from 0 to 1. */
struct colour {
    double red, green, blue;
};

const struct colour *ink_colour(enum ink ink);

/* Contrast ratio of two inks, 1 to 21. */
double ink_contrast(enum ink one, enum ink other);

/* The ink of the number on a disc: black or the paper's white, whichever stands out more. */
enum ink ink_on(enum ink ground);

/* The colour of a disc (figures/mass.h): International Weightlifting Federation, technical and
 * competition rules: 25 red, 20 blue, 15 yellow, 10 green, 5 white, 2.5 red, 2 blue, 1.5 yellow, 1 green,
 * 0.5 white. Other masses, pound discs among them, are steel. */
enum ink ink_of_disc(long long mass);

#endif

/* remedy.h - what would let a sheet be read that cannot be: larger paper, more pages, both, or the paper turned. */
#ifndef BELL_LAYOUT_REMEDY_H
#define BELL_LAYOUT_REMEDY_H

#include <stdbool.h>

struct arena;
struct paper;
struct sheet_request;

enum { REMEDY_PAGES = 4 }; /* advised at most beyond those that may be taken */

/* Either of PAPER and PAGES helps; or nothing does, all of it being unset. */
struct remedy {
    const struct paper *paper; /* NULL: none that is larger is enough alone */
    int pages;                 /* 0: further pages are not enough alone */
    bool both;                 /* PAPER with as many as PAGES; neither helps alone */
    enum { REMEDY_NO_TURN, REMEDY_LANDSCAPE, REMEDY_UPRIGHT } turn; /* where neither does */
};

/* The smallest larger paper and the fewest further pages with which READS is true of ASKED, or else both together. */
struct remedy remedy_for(const struct sheet_request *asked, bool (*reads)(const struct sheet_request *request));

/* "A2 paper or 3 pages would help", for the coach who prints; NULL where nothing does. */
const char *remedy_words(struct arena *arena, const struct remedy *remedy);

/* "Too small to be read from 3 m. A2 paper or 3 pages would help.", in ARENA's language, for who reads the sheet. */
const char *remedy_note(struct arena *arena, const struct remedy *remedy, double centimetres);

#endif

/* remedy.h - what would let a sheet be read that cannot be: larger paper, more pages, or both. */
#ifndef BELL_LAYOUT_REMEDY_H
#define BELL_LAYOUT_REMEDY_H

#include <stdbool.h>

struct sheet_request;

enum { REMEDY_PAGES = 4 }; /* advised at most beyond those that may be taken */

/* The smallest larger paper or the fewest further pages, FURTHER at most, with which READS is true of ASKED, or else both;
 * NULL where none help. Lives in the request's arena. */
const char *remedy_for(const struct sheet_request *asked, bool (*reads)(const struct sheet_request *request), int further);

#endif

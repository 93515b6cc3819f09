/* shelf.h - every exercise known to a programme, by pattern, to leaf through: two columns to a page, an entry of the
 * outline for each. */
#ifndef BELL_LAYOUT_SHELF_H
#define BELL_LAYOUT_SHELF_H

#include "layout/sheet.h"

/* Made of REQUEST's programme alone, on its paper, A4 by default; it has no occasions. Inspected as sheets are. */
struct scene *shelf_scene(const struct sheet_request *request);

#endif

/* version.h - what distinguishes one state of a sheet from another: a hash of everything on it, and of nothing else.
 * A comment in the plan, another day or another athlete's card change nothing. */
#ifndef BELL_SHEETS_VERSION_H
#define BELL_SHEETS_VERSION_H

#include "sheets/request.h"

struct sheet_versions;

/* For the sheets of ORIGIN, which must outlive it; in its arena. */
struct sheet_versions *sheet_versions_new(const struct sheet_origin *origin);

/* Eight hexadecimal digits for SHEET of GROUP, which has the sheet's scope and is not empty; in the origin's arena.
 * The size and paper that were asked for do not count as part of the sheet. */
const char *sheet_version(struct sheet_versions *versions, const struct sheet *sheet, const struct occasion_group *group);

#endif

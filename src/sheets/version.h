/* version.h - what tells one state of a sheet from another: a hash of all that stands on it, and of nothing else. A comment
 * in the plan, another day and another athlete's card change nothing. */
#ifndef BELL_SHEETS_VERSION_H
#define BELL_SHEETS_VERSION_H

#include "sheets/request.h"

struct sheet_versions;

/* For the sheets of ORIGIN, which must outlive it; in its arena. */
struct sheet_versions *sheet_versions_new(const struct sheet_origin *origin);

/* Eight hexadecimal digits, of SHEET of GROUP, which is of its scope and holds something; in the origin's arena. How large
 * and on what paper it is asked for is not among what stands on it. */
const char *sheet_version(struct sheet_versions *versions, const struct sheet *sheet, const struct occasion_group *group);

#endif

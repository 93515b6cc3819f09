/* version_parts.h - the parts of a sheet's version. Only the files of this room read it. */
#ifndef BELL_SHEETS_VERSION_PARTS_H
#define BELL_SHEETS_VERSION_PARTS_H

#include "compare/digest.h"

struct camp;
struct sheet_request;

/* A camp's days, phases and bouts. */
void version_camp(struct digest *digest, const struct camp *camp);

/* What REQUEST hands to a sheet that reports. */
void version_report(struct digest *digest, const struct sheet_request *request);

#endif

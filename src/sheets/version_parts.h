/* version_parts.h - the parts of a sheet's version. Read by the files of this room only. */
#ifndef BELL_SHEETS_VERSION_PARTS_H
#define BELL_SHEETS_VERSION_PARTS_H

#include "compare/digest.h"

struct camp;
struct sheet_request;

/* A camp's days, phases and bouts. */
void version_camp(struct digest *digest, const struct camp *camp);

/* What a sheet that reports is handed by REQUEST. */
void version_report(struct digest *digest, const struct sheet_request *request);

#endif

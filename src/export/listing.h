/* listing.h - the findings of a report in their order, each with its fingerprint. Read by the
 * files of this room only. */
#ifndef BELL_EXPORT_LISTING_H
#define BELL_EXPORT_LISTING_H

#include "export/export.h"

struct listed {
    const struct finding *finding;

    /* Distinguishes the finding from every other in the report, and stays the same from run to run while its line and
     * the headings above it stay, wherever they move in their file. It is made from the finding's name and words
     * without their figures, the file, that line and those headings; findings that have all of this in common are
     * numbered. */
    const char *fingerprint;
};

struct listing {
    struct listed *items; /* by file name, place, severity (the worse first), name, words */
    size_t count;
    size_t counts[SEVERITY_ERROR + 1]; /* of all findings by severity, listed or not */
};

/* The findings that CONTEXT asks for, in DIAG's arena. */
struct listing listing_make(const struct diag *diag, const struct export_context *context);

/* "error", "warning" or "info". */
const char *severity_word(enum severity severity);

#endif

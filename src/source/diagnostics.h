/* diagnostics.h - everything that can be found in a plan or on a sheet, listed once in diagnostics.def. */
#ifndef BELL_SOURCE_DIAGNOSTICS_H
#define BELL_SOURCE_DIAGNOSTICS_H

#include <stdbool.h>

enum severity { SEVERITY_INFO, SEVERITY_WARNING, SEVERITY_ERROR };

/* What a diagnostic is about; lists go by it. */
enum family { FAMILY_VOLUME, FAMILY_PAIRING, FAMILY_PHASE, FAMILY_PERSON, FAMILY_SENSE, FAMILY_LINES, FAMILY_SHEETS };
enum { FAMILY_COUNT = FAMILY_SHEETS + 1 };

enum diagnostic {
#define DIAGNOSTIC(identifier, name, family, severity, title) DIAG_##identifier,
#include "source/diagnostics.def"
#undef DIAGNOSTIC
    DIAGNOSTIC_COUNT
};

/* "sparring-over": as it stands in brackets after a message. */
const char *diagnostic_name(enum diagnostic diagnostic);

/* One line for lists. */
const char *diagnostic_title(enum diagnostic diagnostic);

enum family diagnostic_family(enum diagnostic diagnostic);

/* How grave it is unless a limit says otherwise. */
enum severity diagnostic_severity(enum diagnostic diagnostic);

/* The diagnostic called NAME, or DIAGNOSTIC_COUNT. */
enum diagnostic diagnostic_find(const char *name);

/* "volume" */
const char *family_name(enum family family);

#endif

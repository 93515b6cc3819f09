/* service.h - findings as others may read them. For this room and src/lsp. */
#ifndef BELL_EXPORT_SERVICE_H
#define BELL_EXPORT_SERVICE_H

#include "export/export.h"

/* What others get of FINDING: the finding itself, a copy in DIAG's arena without health facts, or NULL for nothing.
 * They get all of it if CONTEXT asks for what is private. Several findings may become equal. */
const struct finding *service_finding(const struct diag *diag, const struct export_context *context,
                                      const struct finding *finding);

/* Whether FINDING is such a copy, with the neutral message. */
bool service_is_neutral(const struct finding *finding);

#endif

/* pdf_artifacts.h - what a page draws beside its content: rules, axes and their figures. cairo 1.16 has no tag for them, and
 * ISO 14289-1, 7.1 wants all of a page marked as the one or the other. For pdf_words.c alone. */
#ifndef BELL_RENDER_PDF_ARTIFACTS_H
#define BELL_RENDER_PDF_ARTIFACTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

/* Adds to OUT the LENGTH bytes of CONTENT, a page's content stream, with all that stands between its marks marked as an
 * artifact (ISO 32000-1, 14.8.2.2). False, with OUT no longer of use, where it is not laid out as this expects: marks
 * within marks or within texts, images among the operators. */
bool pdf_mark_artifacts(const char *content, size_t length, struct text *out);

/* The same of a stream that is deflated, and so is what it gives, *LENGTH bytes in ARENA; NULL where that cannot be done. */
char *pdf_mark_deflated(struct arena *arena, const char *bytes, size_t *length);

#endif

/* position.h - where a finding is, in the terms of other programs. For this room and the library. */
#ifndef BELL_EXPORT_POSITION_H
#define BELL_EXPORT_POSITION_H

#include "export/export.h"

struct position {
    unsigned line;   /* from 1 */
    unsigned column; /* from 1, in UTF-16 code units; a byte that is not UTF-8 counts as one unit */
    size_t offset;   /* bytes from the start of the text; a byte order mark is not counted */
};

/* A stretch of a file: END is just after it. */
struct file_stretch {
    const struct source *source;
    struct position start, end;
};

/* SPAN to the byte, as a fix needs it. A place at the very end of a text that ends with a newline is after that
 * newline on the last line, because the line after it does not exist (SARIF 2.1.0, section 3.30.2). */
struct file_stretch stretch_exact(const struct diag *diag, struct span span);

/* SPAN as it is shown: without the newlines that it may end with. */
struct file_stretch stretch_shown(const struct diag *diag, struct span span);

/* The path of SOURCE from the root of the repository; of the shelf, from the shelf. Always
 * UTF-8. */
const char *position_path(struct arena *arena, const struct export_context *context,
                          const struct source *source);

/* The same as a URI reference: percent-encoded, relative unless the path is absolute (RFC 3986).
 * *RELATIVE says which. */
const char *position_uri(struct arena *arena, const struct export_context *context,
                         const struct source *source, bool *relative);

/* WORDS without anything that could upset a log or a page: control characters, bidirectional
 * controls and bytes that are not UTF-8 become question marks. Newlines and tabs stay. */
const char *position_words(struct arena *arena, const char *words);

/* The same for a sentence for people, with right-to-left names in it isolated; not for what is put into a plan. */
const char *position_sentence(struct arena *arena, const char *words);

#endif

/* format.h - a plan in its one canonical layout.
 *
 * Four spaces a step; what follows a keyword stands in a column that depends only on what kind of
 * block it is in, so that adding a line moves no other; the colons of the exercises of one block,
 * and the bounds of the limits of one scope, line up. One blank line stands between declarations;
 * elsewhere a blank line is kept, several become one. Words of the language get their first
 * spelling in kinds.def and words.def; runs of white space in names become one space; free text
 * (cues, sources, comments) is kept to the byte. */
#ifndef BELL_SYNTAX_FORMAT_H
#define BELL_SYNTAX_FORMAT_H

#include "base/text.h"
#include "source/diag.h"
#include "source/source.h"
#include "syntax/read.h"

enum format_outcome {
    FORMAT_SAME,    /* the file is already in canonical layout */
    FORMAT_CHANGED, /* OUT differs from the file */
    FORMAT_FAULTY,  /* the file has errors, which are in DIAG; OUT is empty */
    FORMAT_UNPROVEN /* OUT does not read like the file: our fault; it must not be used */
};

/* Adds file FILE of SOURCES in canonical layout to OUT, which must be empty, and proves it: OUT is
 * read again and must have the same tree, and the same comments at the same statements. Trees live
 * in ARENA. */
enum format_outcome format_source(struct arena *arena, const struct sources *sources, unsigned file,
                                  const struct phrasebook *phrases, struct diag *diag,
                                  struct text *out);

#endif

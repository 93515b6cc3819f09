/* lines.h - between the scanner and the grammar: indentation, comments, and which words of a line are its
 * statement, which are a name, and which are values.
 *
 * Names are free text, so no grammar could find their ends; here the statement's form (kinds.def) finds them, and each
 * is handed on as one token. Keywords count only as the first words of a line, and only where their statement may
 * stand, so `ladder drill : 5` is an exercise. */
#ifndef BELL_SYNTAX_LINES_H
#define BELL_SYNTAX_LINES_H

#include "syntax/read.h"

/* Reads the lines at PLACE in the file of READER into its tree. */
void read_lines(struct reader *reader, struct extent place);

#endif

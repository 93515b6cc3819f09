/* append.h - adds stanzas of logs to the end of one of the coach's files. */
#ifndef BELL_CLI_APPEND_H
#define BELL_CLI_APPEND_H

#include "base/text.h"

/* Adds STANZAS, which has some, to the end of the file PATH, below a blank line and in the file's own line ends; the
 * file is made if it is missing, and written whole or not at all. ALONE: if the file is made, only its owner may
 * read it. Prints its name. Returns the exit status; what went wrong has been reported. */
int append_stanzas(const char *path, const struct text *stanzas, bool alone);

#endif

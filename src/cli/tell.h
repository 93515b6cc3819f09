/* tell.h - what a command says about itself on standard error. */
#ifndef BELL_CLI_TELL_H
#define BELL_CLI_TELL_H

/* "bellsheet: error: ", the words as by printf, and a line end. Anything in them that a terminal would obey, for
 * instance in the name of a file, is shown as an escape (see text_shown). */
void tell_error(const char *format, ...) __attribute__((format(printf, 1, 2)));

#endif

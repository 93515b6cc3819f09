/* signals.h - what ends a program from outside (Ctrl-C, a closed terminal, a shutdown) waits while a file has its
 * temporary name.
 *
 * A signal to a process goes to any thread that does not hold it, and the libraries that make sheets start threads of
 * their own: signals that must not interrupt are held before those threads start, because a thread inherits what its
 * maker holds. */
#ifndef BELL_BASE_SIGNALS_H
#define BELL_BASE_SIGNALS_H

#include <signal.h>

/* Holds them; *BEFORE is for signals_release. Calls may be nested. */
void signals_hold(sigset_t *before);

/* Delivers what has waited since the outermost hold, whose BEFORE this is: the program may end here. */
void signals_let_in(const sigset_t *before);

void signals_release(const sigset_t *before);

#endif

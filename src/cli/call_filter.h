/* call_filter.h - which calls of the kernel are refused to a command that has confined itself, as seccomp takes it.
 *
 * tools/make_call_filter.c names them, and the build makes the table from that. */
#ifndef BELL_CLI_CALL_FILTER_H
#define BELL_CLI_CALL_FILTER_H

#include <linux/filter.h>

extern const struct sock_fprog call_filter;

#endif

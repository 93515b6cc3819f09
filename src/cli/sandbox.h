/* sandbox.h - a stranger's plan may be made to exploit our faults, so whatever reads it first gives up the rest of the
 * machine.
 *
 * * With Landlock the process, and those it starts, can from then on read only the plan's folders and what the
 * system keeps in /usr, and write only where its output goes. With seccomp it opens no connection, starts no program
 * and looks into none. If the kernel lacks one of the two, the other still works; `sandbox_describe` says what is in
 * force. */
#ifndef BELL_CLI_SANDBOX_H
#define BELL_CLI_SANDBOX_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

struct sandbox {
    /* Files or folders; a file stands for its folder; "-", and none at all, for the current folder. */
    const char *const *reads;
    size_t read_count;
    const char *const *writes; /* folders, which must exist, or files; NULL is none */
    size_t write_count;
    const char *clears; /* empty folders in this one may be removed; NULL is none */
};

/* What has been given up. */
struct confinement {
    long landlock; /* its version; 0: files are open as before */
    bool calls;    /* seccomp bars those that nothing here needs */
};

/* Never fails: what the kernel cannot do is left undone. */
struct confinement sandbox_enter(const struct sandbox *sandbox);

/* A line about what is confined, and one about what is not. */
void sandbox_describe(struct confinement confinement, FILE *out);

#endif

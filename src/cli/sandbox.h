/* sandbox.h - a plan from a stranger may be made to exploit our faults: whatever reads it first gives up the rest of
 * the machine.
 *
 * On kernels with Landlock the process, and those it starts, can from then on read only the plan's folders and what
 * the system keeps in /usr, and write only where its output goes. On others nothing happens. */
#ifndef BELL_CLI_SANDBOX_H
#define BELL_CLI_SANDBOX_H

#include <stddef.h>

struct sandbox {
    /* Files or folders; a file stands for its folder; "-", and none at all, for the current folder. */
    const char *const *reads;
    size_t read_count;
    const char *const *writes; /* folders, which must exist; NULL is none */
    size_t write_count;
    const char *clears; /* empty folders in this one may be removed; NULL is none */
};

/* Never fails: what the kernel cannot do is left undone. */
void sandbox_enter(const struct sandbox *sandbox);

#endif

/* publish.h - findings as the protocol has them. */
#ifndef BELL_LSP_PUBLISH_H
#define BELL_LSP_PUBLISH_H

#include "lsp/server.h"

/* Brings every club up to date and publishes what has changed, file by file; what a file that went had is cleared. */
void publish_all(struct lsp *lsp);

/* The findings of one file, worst first where they share a place, without those that are for the coach alone. */
struct file_findings {
    const struct finding **items;
    size_t count, capacity;
    uint64_t hash; /* tells one list from another */
};

/* The lists of all files of CLUB's plan, by their index. */
struct file_findings *publish_gather(struct arena *arena, const struct club *club);

#endif

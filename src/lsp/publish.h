/* publish.h - findings as the protocol has them. */
#ifndef BELL_LSP_PUBLISH_H
#define BELL_LSP_PUBLISH_H

#include "lsp/server.h"

/* Brings every club up to date and publishes what has changed, file by file; clears the findings of files that are
 * gone. */
void publish_all(struct lsp *lsp);

/* The findings of one file, the worst first if they share a place, without those that are for the coach alone. */
struct file_findings {
    const struct finding **items;
    size_t count, capacity;
    uint64_t hash; /* identifies the list */
};

/* The lists of all files of CLUB's plan, by their index. */
struct file_findings *publish_gather(struct arena *arena, const struct club *club);

#endif

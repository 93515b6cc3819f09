/* lsp.h - the language server: bytes of the protocol in, bytes of the protocol out (Language Server Protocol 3.17). It
 * reads no descriptor and waits for nothing, so that whoever calls it decides how bytes come and go. */
#ifndef BELL_LSP_LSP_H
#define BELL_LSP_LSP_H

#include <stdbool.h>
#include <stddef.h>

struct lsp;

struct lsp_host {
    const char *share;   /* folder with the shelf */
    const char *today;   /* "2027-03-08", or NULL: all counts */
    const char *version; /* of the program */
    void (*write)(void *with, const char *bytes, size_t length); /* takes a whole message */
    void *with;
};

/* HOST is copied; what it points to must outlive the server. */
struct lsp *lsp_open(const struct lsp_host *host);
void lsp_close(struct lsp *lsp);

/* Takes LENGTH bytes of input, and notes which requests they cancel. */
void lsp_feed(struct lsp *lsp, const char *bytes, size_t length);

/* Deals with the next message. False: all are dealt with. Between two calls the caller may feed more, and should where more
 * has come: of edits that pile up only the last text is looked at. */
bool lsp_step(struct lsp *lsp);

/* The day, once it is another one than the host's: an editor may be open for weeks, and holds and ages go by it. */
void lsp_set_today(struct lsp *lsp, const char *today);

/* Tells what has changed in the plans since it was last told; to be called when nothing else is to be done. */
void lsp_settle(struct lsp *lsp);

/* Was it told to exit? *STATUS is then 0 where it was told to shut down before, else 1. */
bool lsp_has_ended(const struct lsp *lsp, int *status);

/* The exit status where its input ends. */
int lsp_end_status(const struct lsp *lsp);

#endif

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

/* Handles the next message. False: all have been handled. Between two calls the caller may feed more, and should if
 * more has come: when edits pile up, only the last text is looked at. */
bool lsp_step(struct lsp *lsp);

/* Sets the day, once it is no longer the host's: an editor may be open for weeks, and holds and ages depend on it. */
void lsp_set_today(struct lsp *lsp, const char *today);

/* Publishes what has changed in the plans since the last time; call it when there is nothing else to do. */
void lsp_settle(struct lsp *lsp);

/* Was it told to exit? *STATUS is then 0 if it was told to shut down before, else 1. */
bool lsp_has_ended(const struct lsp *lsp, int *status);

/* The exit status if its input ends. */
int lsp_end_status(const struct lsp *lsp);

#endif

/* offer.h - what may be written at a place, as a list to choose from. */
#ifndef BELL_LSP_OFFER_H
#define BELL_LSP_OFFER_H

#include "lsp/index.h"

/* The numbers of the protocol for kinds of items. */
enum { OFFER_METHOD = 2, OFFER_FUNCTION = 3, OFFER_CLASS = 7, OFFER_MODULE = 9, OFFER_UNIT = 11, OFFER_KEYWORD = 14,
       OFFER_WORD = 20, OFFER_STRUCT = 22 };

struct offered {
    const char *label, *detail; /* detail may be NULL */
    int kind;
    int rank; /* lower figures come first */
};

struct offers {
    struct arena *arena;
    const struct focus *focus;
    size_t caret;
    struct offered *items;
    size_t count, capacity;
};

void offer(struct offers *offers, const char *label, int kind, const char *detail, int rank);

/* Offers every name of the kinds WHAT, bits of enum named. */
void offer_names(struct offers *offers, unsigned what);

#endif

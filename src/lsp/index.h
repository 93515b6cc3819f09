/* index.h - every name in a plan: where it is declared, and where it is used. It is made from the trees, so it works
 * while a plan has errors. */
#ifndef BELL_LSP_INDEX_H
#define BELL_LSP_INDEX_H

#include "lsp/server.h"

/* What a name may be the name of, as bits. */
enum named {
    NAMED_NOTHING = 0,
    NAMED_ATHLETE = 1,
    NAMED_SESSION = 2,
    NAMED_EXERCISE = 4,
    NAMED_ACTIVITY = 8,
    NAMED_GYM = 16,
    NAMED_CAMP = 32,
    NAMED_LIMITS = 64,
    NAMED_PROTOCOL = 128,
    NAMED_TEST = 256,
    /* What is not declared by a line of its own; nothing is renamed: */
    NAMED_KIT = 512,
    NAMED_REGION = 1024,
    NAMED_PATTERN = 2048,
    NAMED_KIND = 4096,
    NAMED_LEVEL = 8192,
    NAMED_CHECK = 16384,
    NAMED_COUNT = 32768,
    NAMED_PHASE = 65536,
    NAMED_UNIT = 131072,
    NAMED_WEIGH = 262144
};

/* Something declared. */
struct thing {
    enum named what;
    const char *shown, *folded;
    const struct node *name;      /* as it is declared */
    const struct node *statement; /* the statement that declares it */
    bool shelf;
    bool alias;                   /* the name is another one of what STATEMENT declares */
};

/* A name in a line of the plan. */
struct use {
    const struct node *name;
    const struct thing *thing;
    bool declares;
    bool same; /* it is spelt like the thing, apart from capitals and spaces; else it is another of its names */
};

struct index {
    struct thing **things;
    size_t thing_count, thing_capacity;
    struct use *uses; /* file by file, in the order of their places */
    size_t use_count, use_capacity;
};

/* The names of CLUB's plan, made once a compile. */
const struct index *club_index(struct club *club);

/* The use at byte OFFSET of FILE, or just before it; or NULL. */
const struct use *index_at(const struct index *index, unsigned file, size_t offset);

/* The thing of one of the kinds WHAT that is called FOLDED, or NULL. */
const struct thing *index_find(const struct index *index, unsigned what, const char *folded);

/* What the name at place NUMBER (from 0) in a line of STATEMENT may name: bits of enum named. BEHIND_STOP: it comes
 * after the word that ends the line's first name. */
unsigned statement_names(enum node_kind statement, size_t number, bool behind_stop);

/* Is it known what the names in STATEMENT's line name, even if that is nothing? */
bool statement_is_known(enum node_kind statement);

/* What a line of STATEMENT declares; NAMED_NOTHING if it declares nothing. */
enum named statement_declares(enum node_kind statement);

#endif

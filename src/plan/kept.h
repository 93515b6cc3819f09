/* kept.h - files that stay read from one compile to the next: their bytes, their trees and what was found in them.
 *
 * An editor compiles after each keystroke, and one file of a hundred has changed. A file is read again where its bytes, its
 * name or its place among the files are others than before; else its tree is the same one. Each lives in an arena of its
 * own, so that what is read again gives its memory back. The shelf is read once and stays. */
#ifndef BELL_PLAN_KEPT_H
#define BELL_PLAN_KEPT_H

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "source/diag.h"
#include "syntax/tree.h"

struct phrasebook;

/* What the file system tells of a file: while it does not change, nor have the bytes. */
struct file_stamp {
    uint64_t device, number, size;
    int64_t seconds, nanoseconds; /* of the last change */
    bool settled;                 /* the change lies far enough back that a second one would show */
};

/* A file as it was read. */
struct kept_file {
    struct arena *arena; /* of its own; the shelf's are one */
    const char *real;    /* its true path */
    struct source source;
    struct tree *tree;
    int from;           /* of a record's month: what lies before this day was left out; 0: nothing was */
    struct diag *diag;  /* what was found while it was read */
    uint64_t content;   /* another number for each content that was ever read: tells two states of the file apart */
    uint64_t met;       /* the compile that it was met in last */
    bool from_disk;
    struct file_stamp stamp;
};

struct kept {
    struct memory *memory; /* outlives a compile that is cut short; its arenas are all kept */
    struct arena *arena;   /* of the shelf and the phrases */
    const struct phrasebook *phrases;
    GHashTable *files; /* struct kept_file by true path */
    struct kept_file **shelf; /* in the order in which they were read; SHELF_READ: that is all of them */
    size_t shelf_count, shelf_capacity;
    bool shelf_read;
    bool in_part; /* of a record's month the days that are needed, as without what is kept; else all, which an editor shows */
    struct arena *making; /* of a file that is being read: freed by the next compile where this one is cut short */
    uint64_t compile, contents;
};

/* Makes KEPT ready, in MEMORY, which belongs to it alone. */
void kept_open(struct kept *kept, struct memory *memory);

/* A compile begins; and it has met all files there are, so that the others go. */
void kept_begin(struct kept *kept);
void kept_end(struct kept *kept);

/* The file at the true path REAL, or NULL where the last compile did not meet it. */
struct kept_file *kept_find(const struct kept *kept, const char *real);

/* A file that a compile has met. */
struct kept_ask {
    const char *path, *real, *shown; /* to open it, truly, and in messages */
    const char *bytes;               /* what is laid over it, LENGTH bytes; NULL: it is as on the disk */
    size_t length;
    long version; /* of what is laid over it */
    int from;     /* of a record's month: the days from this one on; 0: all of it */
    bool shelf;
};

/* The file that is asked for, read now or before, which is then the last of SOURCES; what is found in it is added to DIAG. NULL where it
 * cannot be had: *WRONG says why. */
struct kept_file *kept_take(struct kept *kept, const struct kept_ask *ask, struct sources *sources, struct diag *diag,
                            const char **wrong);

/* FILE, just read, belongs to the shelf. */
void kept_add_shelf(struct kept *kept, struct kept_file *file);

#endif

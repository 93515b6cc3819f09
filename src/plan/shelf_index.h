/* shelf_index.h - where each entry stands in the shelf that the program was built with, and what it names.
 *
 * The table is made by tools/make_shelf_index.c from the files below share/, and goes by their bytes: it holds as long as
 * the files that are read have the same hash. */
#ifndef BELL_PLAN_SHELF_INDEX_H
#define BELL_PLAN_SHELF_INDEX_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/text.h"
#include "source/source.h"

struct shelf_entry {
    uint16_t file;                    /* in the order in which the shelf is read */
    bool always;                      /* limits: they apply by themselves */
    uint16_t ref_count;
    uint32_t first_ref;
    struct extent place;
};

/* A name, or what it looks like, folded, and an entry of it; of kit, the first entry that needs it. */
struct shelf_name {
    uint32_t text; /* where it starts among the texts */
    uint16_t entry;
};

struct shelf_index {
    uint64_t hash;
    size_t file_count, entry_count, name_count, kit_count;
    const struct shelf_entry *entries;  /* in the order of files and places */
    const struct shelf_name *names, *kit; /* sorted by text */
    const uint16_t *refs;               /* entries whose names entries contain */
    const char *texts;
};

extern const struct shelf_index shelf_index;

/* The folders of the shelf, in the order in which they are read. */
enum { SHELF_FOLDERS = 6 };
static const char *const shelf_folders[SHELF_FOLDERS] = {"exercises", "activities", "rounds", "limits", "return",
                                                        "tests"};

/* The hash of the first COUNT of SOURCES. */
static inline uint64_t shelf_hash(const struct sources *sources, size_t count)
{
    uint64_t hash = count;
    for (size_t i = 0; i < count; i++)
        hash = text_hash(hash, sources->items[i].text, sources->items[i].length);
    return hash;
}

#endif

/* file_parts.h - the parts of a file: what stands above its first statement, and each statement at its top with all below it. An
 * athlete, a session or a camp is a part, and a change inside it reaches no further than those who depend on it. */
#ifndef BELL_LIBRARY_FILE_PARTS_H
#define BELL_LIBRARY_FILE_PARTS_H

#include "plan/kept.h"

struct part_mark {
    uint64_t name;  /* a hash of what it declares */
    uint64_t bytes; /* and of all its bytes */
    bool local;     /* what changes inside it reaches no further than the athletes who depend on it */
};

struct parts {
    uint64_t content; /* of the file, see kept.h; 0: none that was read */
    size_t count;     /* at least 1 */
    uint32_t *starts; /* the first at 0 */
    struct part_mark *marks;
};

/* The parts of FILE, in ARENA; of the shelf's, whose changes reach everybody, one. And a copy of PARTS. */
struct parts parts_read(struct arena *arena, const struct kept_file *file);
struct parts parts_keep(struct arena *arena, const struct parts *parts);

/* Do the files BEFORE and NOW declare the same, and is all the same that can reach everybody? Then they mean the same to
 * whoever only names what is in them. */
bool parts_mean_the_same(const struct parts *before, const struct parts *now);

#endif

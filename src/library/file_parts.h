/* file_parts.h - the parts of a file: what stands above its first statement, and each statement at its top with all below it. An
 * athlete, a session or a camp is a part, and a change inside it reaches no further than those who depend on it. */
#ifndef BELL_LIBRARY_FILE_PARTS_H
#define BELL_LIBRARY_FILE_PARTS_H

#include "plan/kept.h"

/* How far what changes inside a part can reach. */
enum part_reach {
    PART_REACHES_ALL,
    PART_REACHES_SOME,    /* no further than the athletes who depend on it */
    PART_COMES_AND_GOES   /* nor does it where it is new or is no longer there */
};

struct part_mark {
    uint64_t name;  /* a hash of what it declares */
    uint64_t bytes; /* and of all its bytes */
    enum part_reach reach;
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

/* How the parts of a file have changed in number: HEAD of them are where they were, then GONE are no longer there and COME
 * are new, and the rest follows. Those that stayed may have changed inside. */
struct parts_change {
    size_t head, gone, come;
};

/* Says in *CHANGE how NOW differs from BEFORE; false where that can reach everybody. */
bool parts_compare(const struct parts *before, const struct parts *now, struct parts_change *change);

/* Takes out of PARTS those that CHANGE says are gone. */
void parts_drop(struct parts *parts, const struct parts_change *change);

#endif

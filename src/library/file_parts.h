/* file_parts.h - the parts of a file: what is above its first statement, and each top statement with everything
 * below it. An athlete, a session or a camp is a part, and a change inside it reaches no further than those who
 * depend on it. */
#ifndef BELL_LIBRARY_FILE_PARTS_H
#define BELL_LIBRARY_FILE_PARTS_H

#include "plan/kept.h"
#include "source/shift.h"

/* How far a change inside a part can reach. */
enum part_reach {
    PART_REACHES_ALL,
    PART_REACHES_SOME,    /* no further than the athletes who depend on it */
    PART_COMES_AND_GOES   /* not even if it is new or has been removed */
};

struct part_mark {
    uint64_t name;  /* a hash of what it declares */
    uint64_t words; /* and of all its lines, except comments and blank ones */
    enum part_reach reach;
};

struct parts {
    uint64_t content; /* of the file, see kept.h */
    size_t count;     /* at least 1 */
    uint32_t *starts; /* the first at 0 */
    struct part_mark *marks;
    uint32_t *lines;  /* where each hashed line starts */
    size_t *firsts;   /* by part: its first line among them; one more is the end */
};

/* The parts of FILE, in ARENA; a file of the shelf is one part, because its changes reach everybody. And a copy of
 * PARTS. */
struct parts parts_read(struct arena *arena, const struct kept_file *file);
struct parts parts_keep(struct arena *arena, const struct parts *parts);

/* How the parts of a file have changed in number: the first HEAD are where they were, then GONE have been removed
 * and COME are new, and the rest follow. Those that stayed may have changed inside. */
struct parts_change {
    size_t head, gone, come;
};

/* Says in *CHANGE how NOW differs from BEFORE; false if that can reach everybody. */
bool parts_compare(const struct parts *before, const struct parts *now, struct parts_change *change);

/* Which number, by CHANGE, the part that is now number PART had before; false: it is new. */
bool parts_before(const struct parts_change *change, size_t part, size_t *before);

/* Where a place in BEFORE is in NOW, by CHANGE: line by line in parts that say the same, whatever happened to their
 * comments; in other parts, only the start counts. */
struct file_shift parts_shift(struct arena *arena, const struct parts *before, const struct parts *now,
                              const struct parts_change *change);

#endif

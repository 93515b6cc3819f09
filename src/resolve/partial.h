/* partial.h - a programme worked out again for only those athletes whom a change can reach; see resolve.h for what both
 * have in common.
 *
 * Names, gyms, exercises, athletes, limits, sessions and camps are read anew each time, and all that is placed is
 * placed: that is quick. What takes time is working out each athlete's sessions. What these rest on is known by the
 * parts of files: where the athlete is declared, the camps, the sessions placed in them and what those are based on,
 * private parts and logs. Athletes none of whose parts has changed would come out the same; what they leave to others is
 * kept and put back in place: which columns of a series and which variants they come to use, and what was found on the
 * way. */
#ifndef BELL_RESOLVE_PARTIAL_H
#define BELL_RESOLVE_PARTIAL_H

#include "source/diag.h"
#include "source/shift.h"
#include "syntax/tree.h"

/* A place in a plan that an athlete's sessions used. */
struct use_mark {
    struct span span;
    int used; /* columns of the series there; 0: it is a variant, and was met */
};

/* What was found while the PLACED-th of what is placed for an athlete was worked out, from 0; -1: in the logs. */
struct settled_finding {
    int placed;
    struct finding *finding;
};

/* The parts of a file: what stands above its first statement, and each statement at its top with all below it. FIRST is the
 * number of the first of them among those of all files. */
struct file_parts {
    const uint32_t *starts;
    size_t count, first;
};

/* The result of working out one athlete's sessions. */
struct settled {
    bool *parts; /* that they rest on, by number */
    struct use_mark *marks;
    size_t mark_count, mark_capacity;
    struct settled_finding *findings;
    size_t finding_count, finding_capacity;
};

struct partial {
    const struct file_parts *parts;       /* by file */
    size_t part_count;                    /* of all files */
    const bool *changed;                  /* by part: it is not as it was when BEFORE was made; NULL: all is new */
    const struct settled *const *before;  /* by athlete, as many as there are now; NULL: of that one nothing is known */
    struct shift shift;                   /* where what stands in BEFORE is now */
    int first_day_before;
    size_t placed_before; /* how much was placed then: as much has room at once */

    bool *reached; /* by athlete: whom the change can reach, with all who share a camp with them */
    bool *wanted;  /* by athlete: whose sessions were worked out; the others have none in the programme */
    struct settled *settled; /* by athlete: of those, what it came to */
    int first_day; /* of all camps, which says how long everybody has lifted */
    size_t placed;
    bool failed;   /* BEFORE does not fit what is there now: everything must be worked out */
    bool loose;    /* what an athlete leaves to others cannot be known by its place: SETTLED cannot be used */
};

/* As programme_resolve, and says in PARTIAL what was worked out. Where nothing fails, findings are those of
 * programme_resolve, in the same order. */
struct programme *programme_resolve_partial(struct arena *arena, const struct sources *sources,
                                            struct tree *const *trees, size_t count, int today, struct diag *diag,
                                            struct partial *partial);

/* A copy of SETTLED in ARENA, but for its parts. */
struct settled *settled_keep(struct arena *arena, const struct settled *settled);

/* Moves all places in SETTLED. */
void settled_move(const struct shift *shift, struct settled *settled);

#endif

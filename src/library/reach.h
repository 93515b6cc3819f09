/* reach.h - what an open session keeps of each athlete between compiles, and whom a change can reach.
 *
 * The last compile is the base. What has changed since then is known by the parts of files (file_parts.h). An
 * athlete none of whose parts has changed is neither worked out nor checked again (resolve/partial.h, rules/recall.h),
 * and what is kept of that athlete is put where its lines stand now. If a change can reach further than the parts that
 * athletes are known to depend on, everybody is worked out again. Such changes are other files, other names, and
 * changes to anything but athletes, private parts, logs, sessions and camps. Sessions and logs may also come and go.
 * Those whom an error may concern are not checked, and nothing is kept of them. A compile in which they are more than
 * those who were checked anew leaves the base alone, so that the next one is compared with it again. */
#ifndef BELL_LIBRARY_REACH_H
#define BELL_LIBRARY_REACH_H

#include "library/file_parts.h"
#include "plan/plan.h"
#include "resolve/partial.h"
#include "rules/recall.h"

/* Of one athlete. */
struct athlete_kept {
    struct arena *arena;
    struct settled *settled;
    struct recall *recall;
    struct athlete_kept *next; /* among those that are not the base yet */
};

struct reach {
    struct memory *memory; /* outlives a compile that is cut short */
    struct arena *arena;   /* of the base, except its athletes; NULL: there is no base */
    struct parts *files;
    size_t file_count;
    struct athlete_kept **athletes; /* NULL: of that one nothing is known */
    size_t athlete_count;
    int first_day;
    size_t placed; /* sessions and activities, of everybody */
    struct athlete_kept *pending; /* made by a compile that has not finished yet */
    struct arena *next;           /* of the future base */
};

/* Works out what PROJECT, which has been read, means, checks it, and sorts all findings into its diag. Its programme
 * then has only the sessions of those who were reached: *WHOLE says whether that is everybody. */
void reach_compile(struct reach *reach, struct project *project, int today, bool *whole);

#endif

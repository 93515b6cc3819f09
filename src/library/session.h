/* session.h - what a bell_session contains, and what the rooms above ask of it beyond the public header.
 *
 * An editor's server opens a session with bell_open and bell_add_path, lays buffers over files with bell_overlay, and
 * calls session_compile after each change. Only what has changed is read again (plan/kept.h), and only the athletes whom
 * that can reach are worked out and checked again (reach.h). Between two compiles it may look at
 *
 *   node_statement_at, node_value_at   what is at a byte of the tree
 *   session.project.diag               all findings, sorted, with their spans (public: bell_finding)
 *   session_programme   what the plan means; call it inside session_guard
 *
 * All of it lives until the next bell_compile. Code that allocates while it looks uses session->compile or an arena of its
 * own, and runs inside session_guard, which returns BELL_NO_MEMORY or BELL_CANCELLED if it was cut short. */
#ifndef BELL_LIBRARY_SESSION_H
#define BELL_LIBRARY_SESSION_H

#include <bellsheet/bellsheet.h>
#include "library/reach.h"
#include "plan/kept.h"
#include "plan/plan.h"

struct bell_session {
    struct memory memory;
    struct arena *arena; /* lives as long as the session: paths */
    const char *share;
    int today;
    const char **paths;
    size_t path_count, path_capacity;
    struct overlay *laid; /* their texts are allocated one by one, see bell_overlay */
    size_t laid_count, laid_capacity;

    struct memory lasting; /* of KEPT: a compile that is cut short leaves it alone */
    struct kept kept;
    struct reach reach;

    struct arena *compile; /* of the last compile and all answers from it; NULL: there is none */
    struct project project;
    bool whole; /* its programme has everybody's sessions, see session_programme */
    bool compiled;
    struct bell_finding *findings;
    size_t finding_count;
    char failure[512];
};

/* Runs WORK with SESSION and returns its result, or what it was unwound with. */
typedef enum bell_status session_work(struct bell_session *session, void *with);
enum bell_status session_guard(struct bell_session *session, session_work *work, void *with);

/* Like bell_compile, but without putting the findings into the words of the public header: an editor's server reads
 * them where they are. A path must have been added. */
enum bell_status session_compile(struct bell_session *session);

/* What SESSION compiles, with what is laid over its files, for a separate compile beside the session. */
struct project_request session_request(const struct bell_session *session);

/* The whole programme of the last compile; NULL if there is none. Call it inside session_guard.
 * session.project.programme may only have the sessions of those who were worked out; everybody else's are worked out
 * here, once. */
const struct programme *session_programme(struct bell_session *session);

/* "2027-03-08" as a day number, or 0. */
int session_read_day(const char *words);

/* The project's findings as the session hands them out. */
void session_list_findings(struct bell_session *session);

#endif

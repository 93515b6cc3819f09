/* session.h - what a bell_session holds. */
#ifndef BELL_LIBRARY_SESSION_H
#define BELL_LIBRARY_SESSION_H

#include <bellsheet/bellsheet.h>
#include "plan/plan.h"

struct bell_session {
    struct memory memory;
    struct arena *arena; /* lives as long as the session: paths */
    const char *share;
    int today;
    const char **paths;
    size_t path_count, path_capacity;
    struct overlay *laid; /* their texts are pieces of their own, see bell_overlay */
    size_t laid_count, laid_capacity;

    struct arena *compile; /* of the last compile and all answers from it; NULL: there is none */
    struct project project;
    bool compiled;
    struct bell_finding *findings;
    size_t finding_count;
    char failure[512];
};

/* Does WORK with SESSION and returns what it does, or what it was unwound with. */
typedef enum bell_status session_work(struct bell_session *session, void *with);
enum bell_status session_guard(struct bell_session *session, session_work *work, void *with);

/* The project's findings as the session hands them out. */
void session_list_findings(struct bell_session *session);

#endif

/* settings.h - figures that a check compares with where no limit of the coach names another.
 *
 * They are matters of opinion: each is a count that a limit can be written for ("hours between
 * heavy days at least 72"), and the limit then holds in its place. */
#ifndef BELL_RULES_SETTINGS_H
#define BELL_RULES_SETTINGS_H

#include "rules/run.h"

struct setting {
    milli value, top; /* top: of a range, else 0 */
    int first_weeks;  /* of an exercise; else 0 */
    enum severity severity;
    const char *source;
    const struct limit *limit; /* the coach's own, or NULL */
};

/* The coach's limit on COUNTED, of any scope, that applies in a camp that WINDOW touches, or NULL. */
const struct limit *run_limit(const struct run *run, const struct window *window,
                              enum counted counted);

/* The limit on COUNTED that applies by itself in WINDOW beside that one, because it is a bound of another kind, or
 * NULL. */
const struct limit *run_limit_beside(const struct run *run, const struct window *window,
                                     enum counted counted);

/* The figure of COUNTED that applies in WINDOW. */
struct setting run_setting(const struct run *run, const struct window *window,
                           enum counted counted);

/* A remark or a note that says where the figure comes from. */
void run_note_setting(struct run *run, struct finding *finding, const struct setting *setting);

#endif

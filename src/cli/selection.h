/* selection.h - which part of a plan a command is about. */
#ifndef BELL_CLI_SELECTION_H
#define BELL_CLI_SELECTION_H

#include "cli/project.h"
#include "rules/rules.h"

struct athlete;
struct occasion;

/* Whether the plan knows the athlete and the session that are asked for; if not, that has been reported on standard
 * error. */
bool selection_known(struct project *project, const struct options *options);

/* Do OPTIONS (week, day, athlete, session) ask for OCCASION? Names are compared folded. */
bool selection_holds(struct arena *arena, const struct options *options,
                     const struct occasion *occasion);

/* The same of every occasion of the project and of all that is left out of its plan. In the project's arena. */
struct wanted selection_wanted(struct project *project, const struct options *options);

/* Puts every occasion of the project that OPTIONS ask for into *OCCASIONS; returns how many. If a name belongs to
 * nobody, or nothing is planned then, that is reported on standard error and 0 is returned. */
size_t selection_find(struct project *project, const struct options *options,
                      const struct occasion *const **occasions);

/* The athlete called NAME (NULL: none is asked for, and *ATHLETE is NULL). False if nobody is called that, which is
 * reported on standard error. */
bool selection_athlete(struct project *project, const char *name, const struct athlete **athlete);

/* Prints the findings as text, whatever form the rest is in, and returns the exit status. */
int selection_verdict(struct project *project, const struct options *options);

#endif

/* project.h - the plan that the options name, and the verdict on it. */
#ifndef BELL_CLI_PROJECT_H
#define BELL_CLI_PROJECT_H

#include "cli/options.h"
#include "plan/plan.h"

/* Reads the plans in PATHS (folders, files, or "-" for standard input), what they `use`, and the shelf, and works out
 * their meaning for the day TODAY. Returns true, or false if the command cannot run, which is then reported on standard
 * error. End it with project_close either way. */
bool project_open(struct project *project, const struct options *options, enum plan_wish wish);
/* The same with COUNT files laid over the folder. */
bool project_open_over(struct project *project, const struct options *options, enum plan_wish wish, enum shelf_wish shelf,
                       const struct overlay *overlays, size_t count);
/* The same without a message, and project_tell_failure for when it returned false: for work that goes on beside
 * something else. */
bool project_open_quietly(struct project *project, const struct options *options, enum plan_wish wish,
                          enum shelf_wish shelf, const struct overlay *overlays, size_t count);
void project_tell_failure(const struct project *project);
void project_close(struct project *project);

/* What project_open asks for, in ARENA. */
struct project_request project_request_of(struct arena *arena, const struct options *options, enum plan_wish wish);

/* What distinguishes this state of the plan from others on a sheet: the options' own words, or eight hexadecimal digits
 * of a hash of all plan files. */
const char *project_version(const struct project *project, const struct options *options);

/* Prints the findings to standard error as OPTIONS ask and returns the exit status. */
int project_verdict(struct project *project, const struct options *options);

/* The folder of the program's own files, or NULL. */
const char *share_folder(struct arena *arena);

#endif

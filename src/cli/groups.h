/* groups.h - the occasions that share a sheet. */
#ifndef BELL_CLI_GROUPS_H
#define BELL_CLI_GROUPS_H

#include "cli/project.h"
#include "sheets/request.h"

struct occasion_groups {
    struct occasion_group *items;
    size_t count, capacity;
};

/* What OPTIONS ask for (week, day, athlete, session), in order of date. Lives in the project's arena. */
struct occasion_groups groups_find(struct project *project, const struct options *options);

/* For each athlete and camp that OPTIONS are about: everything planned in the camp or, if WEEKLY, in each such week,
 * activities too. */
struct occasion_groups groups_of_athletes(struct project *project, const struct options *options,
                                          bool weekly);

/* For each week (WEEKLY) or camp that OPTIONS are about: everything that anybody does in it. */
struct occasion_groups groups_of_everybody(struct project *project, const struct options *options, bool weekly);

/* For each season that OPTIONS are about: everything planned in it or, if EACH, everything for each such athlete. */
struct occasion_groups groups_of_seasons(struct project *project, const struct options *options, bool each);

#endif

/* sheet_jobs.h - which sheets are made of which part of a plan, and what their files are called. Nothing here draws. */
#ifndef BELL_CLI_SHEET_JOBS_H
#define BELL_CLI_SHEET_JOBS_H

#include "cli/groups.h"
#include "rules/rules.h"
#include "sheets/version.h"

/* A sheet to be made. */
struct sheet_job {
    const struct sheet *sheet;
    struct occasion_group group;
    const char *stem;    /* of its files' names */
    const char *version; /* NULL until it is asked for */
};

struct sheet_jobs {
    struct project *project;
    const struct options *options;
    const bool *barred; /* occasions with an error, by their place in the programme; NULL: none is looked at */
    struct sheet_job *items;
    size_t count, capacity;
};

/* NAME as a part of a file name: small letters and digits of any script, everything else a hyphen, so that no name
 * leads out of the folder; cut where a file system might refuse it. */
const char *sheet_slug(struct arena *arena, const char *name);

/* Are the names in LIST, separated by commas, all names of sheets? Says which one is not. */
bool sheet_jobs_known(const char *list);

/* Is the sheet NAME among those that OPTIONS ask for? */
bool sheet_jobs_want(const struct options *options, const char *name);

/* Every sheet that the options of JOBS ask for, without what is barred: a session's sheets are for those who may do
 * it, and an athlete's week or camp with something barred in it gets none. */
void sheet_jobs_find(struct sheet_jobs *jobs);

/* Why the sheets that the options ask for are none. */
const char *sheet_jobs_missing(struct project *project, const struct options *options);

/* All occasions on the sheets that the options ask for, by their place in the programme. */
struct wanted sheet_jobs_wanted(struct project *project, const struct options *options);

/* What sheets of JOBS are made from; the caller sets its version. */
struct sheet_origin sheet_jobs_origin(const struct sheet_jobs *jobs);

/* The name of the file for PAGE (from 1) of a sheet: an SVG holds one, a PDF all. */
const char *sheet_file_name(struct arena *arena, const struct options *options, const struct sheet *sheet, const char *stem,
                            int page);

/* The paper of the parts that SHEET is printed in, or NULL if it stays whole: only posters are divided. */
const struct paper *sheet_parts(const struct options *options, const struct sheet *sheet);

#endif

/* export.h - findings in the formats that other programs read.
 *
 * * What is written here ends up in the logs and reports of a service, where it stays. Health facts (who is held, what
 * is avoided, age, body mass, reasons) and everything in a private file stay out of it: service.c writes one neutral
 * finding instead. It copies nothing of the plan itself but the text of a fix.
 *
 * * Every format is sorted by file, place and name, and names no date and no machine, so the same plan always gives
 * the same report. Columns count UTF-16 code units from 1, which is what SARIF and most editors count. */
#ifndef BELL_EXPORT_EXPORT_H
#define BELL_EXPORT_EXPORT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "source/diag.h"

struct export_context {
    /* The program's version: "0.1.0". */
    const char *version;

    /* Put before the name of every file of the plan, so that it starts at the root of the repository:
     * "gyms/slipway/"; NULL or "" if the names do so already. */
    const char *prefix;

    /* Give findings of severity info too. */
    bool infos;

    /* Include what is for the coach alone, for a report that nobody else reads. */
    bool private;

    /* What explains the check called NAME: a title of one sentence, and below it, if there is
     * more to say, an empty line and the page; in ARENA. NULL for a name without a page. May
     * itself be NULL. */
    const char *(*describe)(struct arena *arena, const char *name);
};

/* Each adds its report on DIAG, which diag_sort has freed of repeats, to OUT. Memory comes from
 * DIAG's arena. */
typedef void export_write(const struct diag *diag, const struct export_context *context,
                          struct text *out);

/* SARIF 2.1.0 (OASIS, 2020; Errata 01, 2023). */
export_write export_sarif;

/* Commands that GitHub's runner turns into notes beside the lines. */
export_write export_annotations;

/* GitLab's code quality report. */
export_write export_quality;

/* Everything that is known; share/schema/findings-1.schema.json describes it. */
export_write export_json;

struct export_format {
    const char *name; /* as given to --format */
    const char *about;
    export_write *write;
};

size_t export_format_count(void);
const struct export_format *export_format_at(size_t index);

/* The format called NAME, or NULL. */
const struct export_format *export_format_find(const char *name);

#endif

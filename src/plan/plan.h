/* plan.h - the files of a plan, found, read and worked out. Nothing is printed here and nothing ends the program: what
 * cannot be done is returned. */
#ifndef BELL_PLAN_PLAN_H
#define BELL_PLAN_PLAN_H

#include <stdbool.h>
#include <stddef.h>

#include "source/diag.h"
#include "syntax/tree.h"

struct programme;

/* Must there be a plan, or is the shelf alone enough? */
enum plan_wish { PLAN_NEEDED, PLAN_WELCOME };

/* Is all of the shelf read, or what the plan names? The findings are the same; the programme lacks the rest. */
enum shelf_wish { SHELF_WHOLE, SHELF_NAMED };

/* Bytes that stand in place of those on the disk: an editor's buffer that is not saved yet, or what is staged. */
struct overlay {
    const char *path; /* true path of the file, which need not exist */
    const char *text;
    size_t length;
    long version; /* as the editor counts them */
    bool absent;  /* the file is taken not to be there */
};

/* What a compile read of the shelf. Trials of one plan need the same of it, nearly always. */
struct shelf_read {
    const struct source *sources; /* FILE_COUNT, and so many TREES; 0: there is nothing to take again */
    struct tree *const *trees;
    size_t file_count;
    const bool *entries; /* which of the shelf's were read; NULL: all */
};

struct project_request {
    const char *share;        /* folder with the shelf, or NULL: there is none, which is an error */
    const char *const *paths; /* folders, files, or "-" for standard input */
    size_t path_count;
    const struct overlay *overlays;
    size_t overlay_count;
    int today; /* day number; entries dated after it do not count. 0: all count */
    enum plan_wish wish;
    enum shelf_wish shelf; /* files that stay read have it whole */
    struct shelf_read again; /* of a compile with the same SHARE, which outlives this one: not read again where it is enough */
    struct kept *kept; /* files that stay read from one compile to the next (kept.h), or NULL */
};

struct project {
    struct arena *arena; /* the caller's: all below lives in it, or where files are kept */
    struct sources sources;
    struct diag *diag;
    struct tree **trees;
    size_t tree_count, tree_capacity;
    const struct kept_file **kept; /* of each tree; NULL where none are kept */
    size_t kept_count, kept_capacity;
    struct programme *programme;
    struct shelf_read shelf;
    const char *name; /* of the plan, for the foot of sheets: its folder or file */
    struct {
        const char *path, *why; /* why is NULL where nothing failed */
    } failure;
};

/* Reads what REQUEST names, what that `use`s, and all of the shelf, in the same way as project_load, of which it is the
 * first part: what it means is not worked out yet, and PROGRAMME is NULL. */
bool project_read(struct project *project, struct arena *arena, const struct project_request *request);

/* Reads what REQUEST names, what that `use`s, and the shelf, and works out its meaning. All that is made lives in ARENA.
 * False where a file could not be had; FAILURE then says which and why. What is wrong inside files goes to DIAG. */
bool project_load(struct project *project, struct arena *arena, const struct project_request *request);

/* Eight hexadecimal digits, of a hash of all files, that tell one state of the plan from another. They protect against no
 * forgery. */
const char *project_hash(const struct project *project);

#endif

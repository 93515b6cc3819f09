/* print.h - what the files of `bellsheet print` share while sheets are being made. */
#ifndef BELL_CLI_PRINT_H
#define BELL_CLI_PRINT_H

#include "cli/groups.h"
#include "layout/sheet.h"
#include "rules/rules.h"
#include "sheets/request.h"

struct athlete;
struct camp;
struct occasion;
struct programme;

/* A file that was written, or would be. */
struct printed {
    const char *name;                /* in the folder */
    const char *title;               /* of the sheet */
    const struct sheet *sheet;
    const struct occasion *occasion; /* the first on it */
    int page;                        /* of an SVG, which holds one */
};

struct printing {
    const struct options *options;
    struct project *project;
    const char *version;             /* for the foot of sheets */
    struct type *type;
    struct squad_memo *memo;         /* timetables of squads, shared by all sheets of a process */
    struct printed *items;
    size_t count, capacity;
    const bool *barred;              /* occasions with an error, by their place in the programme */
    bool failed;                     /* a file could not be written, and that was reported */
};

/* --- print_files.c --- */

/* NAME as a part of a file name: small letters and digits of any script, everything else a hyphen, so that no name
 * leads out of the folder; cut where a file system might refuse it. */
const char *print_slug(struct arena *arena, const char *name);

/* "2027-03-08-1730-hips-before-hands-oriel-tamsin-card", without what does not fit the sheet's scope. */
const char *print_name(struct arena *arena, const struct sheet *sheet, const struct occasion_group *group);

/* Writes BYTES into the folder under NAME, or says WRONG. */
void print_write(struct printing *printing, const char *name, const char *wrong,
                 const struct text *bytes);

/* Notes that NAME is one of the files, and names it on standard output. */
void print_note(struct printing *printing, struct printed printed);

/* What a process that makes sheets reports of one, as texts that begin with a mark and end with a NUL. */
enum print_mark {
    PRINT_TITLE = 't',
    PRINT_FILE = 'f',    /* the name of one that was written */
    PRINT_WRONG = 'w',   /* a file could not be written, and why */
    PRINT_PROBLEM = 'p', /* of the layout: a letter for its kind, then its words */
    PRINT_HELP = 'h'     /* of the problem before */
};
void print_record(struct text *record, enum print_mark mark, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* The name of the file for PAGE (from 1) of a sheet. */
const char *print_file_name(const struct printing *printing, const struct sheet *sheet, const char *stem,
                            int page);

/* Writes SCENE as its sheet is written, SVG or PDF, and records its title and files. */
void print_scene(const struct printing *printing, const struct sheet *sheet, const char *stem,
                 const struct scene *scene, struct text *record);

/* Can a rule for make contain the names of the plan's files and of the folder? Says so if not. */
bool print_can_depend(const struct printing *printing);

/* Writes what the files were made from as a rule for make, to the file that the options name. */
void print_depends(struct printing *printing);

/* --- print_sheets.c --- */

/* Every sheet that the options ask for, without what is barred: a session's sheets are for those who may do it, and
 * none is made of an athlete's week or camp with something barred in it. */
void print_sheets(struct printing *printing);

/* All occasions that stand on a sheet which the options ask for, by their place in the programme. */
struct wanted print_wanted(struct project *project, const struct options *options);

/* --- command_print.c --- */

/* The command `print`, which is part of a library of its own (sheets.c). */
int bell_sheets_print(const struct options *options);

/* --- print_shelf.c --- */

/* `print --shelf`: the whole of the command; returns the exit status. */
int print_shelf(const struct options *options);

/* --- print_index.c --- */

/* Adds a page of HTML to OUT that shows what was printed, day by day. */
void print_index(const struct printing *printing, struct text *out);

#endif

/* print.h - what the files of `bellsheet print` share while sheets are being made. */
#ifndef BELL_CLI_PRINT_H
#define BELL_CLI_PRINT_H

#include "cli/sheet_jobs.h"
#include "cli/sheet_list.h"
#include "layout/sheet.h"

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
    struct type *type;
    struct squad_memo *memo;         /* timetables of squads, shared by all sheets of a process */
    struct printed *items;
    size_t count, capacity;
    const bool *barred;              /* occasions with an error, by their place in the programme */
    struct sheet_list list;          /* of what is in the folder */
    int *pages;                      /* how many were there of each job */
    const char **before;             /* versions that were there of the jobs that are made; NULL: none was */
    bool failed;                     /* a file could not be written, and that was reported */
};

/* --- command_print.c --- */

/* Makes the output's folder, before the plan is read: afterwards nothing else can be written to. *THERE as
 * output_make_folder sets it. False, with a message, if that cannot be done. */
bool print_confine(const struct options *options, size_t *there);

/* Prints what OPTIONS ask for of PROJECT; returns the exit status. */
int print_project(struct project *project, const struct options *options);

/* --- print_watching.c --- */

/* `print --watch`: prints, and prints again what changes, until it is ended. */
int print_watching(const struct options *options);

/* --- print_files.c --- */

/* Writes BYTES into the folder under NAME, or says WRONG. */
void print_write(struct printing *printing, const char *name, const char *wrong,
                 const struct text *bytes);

/* Notes that PRINTED is one of the files. */
void print_note(struct printing *printing, struct printed printed);

/* Names a file on standard output. */
void print_say(const struct printing *printing, const char *name);

/* What a process that makes sheets reports of one, as texts that begin with a mark and end with a NUL. */
enum print_mark {
    PRINT_TITLE = 't',
    PRINT_PAGES = 'n',   /* how many it has */
    PRINT_FILE = 'f',    /* the name of one that was written */
    PRINT_WRONG = 'w',   /* a file could not be written, and why */
    PRINT_PROBLEM = 'p', /* of the layout: a letter for its kind, then its words */
    PRINT_HELP = 'h'     /* of the problem before */
};
void print_record(struct text *record, enum print_mark mark, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Writes SCENE as its sheet is written, SVG or PDF, and records its title and files. */
void print_scene(const struct printing *printing, const struct sheet *sheet, const char *stem,
                 const struct scene *scene, struct text *record);

/* Can a rule for make contain the names of the plan's files and of the folder? Says so if not. */
bool print_can_depend(const struct printing *printing);

/* Writes what the files were made from as a rule for make, to the file that the options name. */
void print_depends(struct printing *printing);

/* --- print_sheets.c --- */

/* Makes every sheet that the options ask for, except what is barred and what is in the folder already as the plan
 * has it. */
void print_sheets(struct printing *printing);

/* --- print_changed.c --- */

/* The name of a file of ATHLETE's, ending in "-" and END; equal names are numbered. */
const char *print_own_name(const struct printing *printing, const struct athlete *athlete, const char *end);

/* The name of the first file of JOB, and its entry in the list. */
const char *print_job_name(const struct printing *printing, const struct sheet_job *job);
struct listed_sheet *print_entry(const struct printing *printing, const struct sheet_job *job);

/* Reads the folder's list and writes the places of those JOBS that have to be made to TODO; returns how many. From
 * then on the list says that they are about to be made, so that it knows of them whatever happens. */
size_t print_compare(struct printing *printing, struct sheet_jobs *jobs, size_t *todo);

/* Writes the list, removes what the plan no longer has, and says which earlier prints are out of date. */
void print_settle(struct printing *printing, const struct sheet_jobs *jobs);

/* `print --stale`: the whole of the command; returns the exit status. */
int print_stale(struct project *project, const struct options *options);

/* --- print_calendar.c --- */

/* Writes the calendars of the athletes for whom something was asked, and notes them. One with an error in its days
 * is not made. */
void print_calendars(struct printing *printing);

/* --- command_print.c --- */

/* The command `print`, which is part of a library of its own (sheets.c). */
int bell_sheets_print(const struct options *options);

/* --- print_shelf.c --- */

/* `print --shelf`: the whole of the command; returns the exit status. */
int print_shelf(const struct options *options);

/* --- print_index.c --- */

/* Writes a page of HTML that shows what was printed, day by day, and notes it. */
void print_index(struct printing *printing);

/* Writes PAGE into the folder under NAME, unless it is there already, and puts it into the list as one of KIND. */
void print_file_listed(struct printing *printing, const char *name, const char *kind, const struct text *page);

/* --- print_phone.c --- */

/* Writes a page for each athlete for whom something was asked, and notes it. */
void print_phone(struct printing *printing);

#endif

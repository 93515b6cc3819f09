/* options.h - what was asked for on the command line. */
#ifndef BELL_CLI_OPTIONS_H
#define BELL_CLI_OPTIONS_H

#include <stdbool.h>

struct options {
    const char *command;
    const char **paths;       /* what is left after the options */
    int path_count;
    bool color, color_out;    /* on standard error, on standard output */
    bool verbose;             /* says how it is confined */
    bool staged;              /* as git's index has it */
    bool strict, infos;       /* warnings fail too; show what is only info */
    int max_errors;           /* 0: all */
    const char *format;       /* of findings, or of a table: "text" */
    const char *prefix;       /* before the names of files in findings */
    int today;                /* day number: --date, SOURCE_DATE_EPOCH or the machine's date */
    bool dated;               /* the day was given, by either of the first two */
    long long created;        /* seconds since 1970 of SOURCE_DATE_EPOCH or --date; 0 none */
    long long now;            /* the machine's, where neither is given */
    int until;                /* --until DAY: the last to close; 0 not given */
    int to;                   /* --to TIME: seconds; 0 not given */
    bool patch, apply;
    const char *append;       /* file that logs are added to */
    const char *rules;        /* file that says which column of a table is what */
    int day, week;            /* --on DAY; --week N of the camps; 0 not given */
    int from, last;           /* --from and --to DAY, --month, --week of the year: both inside; 0 not given */
    bool all;                 /* every week */
    const char *out;          /* folder */
    const char *athlete, *session, *sheet, *paper, *revision, *kit;
    bool landscape, list, shelf, check, diff, margin, lines, review, private, notes;
    double read_from;         /* centimetres; 0 the sheet's own */
    const char *tile, *depends; /* paper that posters are cut to; file for a rule of make */
    int pages;                /* of a wall sheet before it is too small; 0 the usual */
    bool coach, index, watch, all_again;
    bool stale;               /* --stale, and the versions behind it; or NULL */
    const char *versions;
    bool exit_code;           /* 1 where there is a difference */
    const char *counted;      /* --lines-of */
    const char *by;
};

/* Reads ARGV. Returns -1 to continue, or the exit status if the program is already done (help, version, or an option
 * that makes no sense, which is reported). */
int options_read(int argc, char **argv, struct options *options);

#endif

/* diag.h - what is wrong with a plan, collected, then sorted and shown at its columns.
 *
 * One finding for one fault. A finding says which diagnostic it is (its name is shown in brackets), a place, a sentence, notes that
 * point at other places or explain, and, where the right text is known, a fix that an editor could apply. */
#ifndef BELL_SOURCE_DIAG_H
#define BELL_SOURCE_DIAG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/arena.h"
#include "base/text.h"
#include "source/diagnostics.h"
#include "source/source.h"

struct note {
    struct span span; /* meant only when PLACED */
    bool placed;
    bool summand; /* one of several lines that add up, the largest first */
    const char *words;
};

/* Whom a finding is about, and which days. On a screen few warnings of one athlete's week are shown and its floors are
 * one table; reports have them all. */
struct whose {
    const void *person;
    int first, last;   /* days */
    bool week;         /* they are a week */
    const char *who, *when; /* "Oriel Tamsin", "week 2 of Harbour final (from 2027-03-08)" */
    struct span span;  /* where a note about all of them points */
};

/* A finding as a row of such a table: "2.25 chest sets", "at least 4", "common practice". */
struct table_row {
    const char *is, *least, *source;
};

struct finding {
    enum severity severity;
    enum diagnostic diagnostic;
    struct span span;
    const char *words;
    bool private; /* for the coach alone: in no format that others read, and without effect on the verdict */
    const char *neutral; /* what others read instead if it reveals a health fact: see diag_set_neutral */
    struct note *notes;
    size_t note_count, note_capacity;
    const struct whose *of;      /* or NULL */
    const struct table_row *row; /* or NULL */
    int met;                     /* how often, where more than once; */
    const char *met_words;       /* its note of that: "found 2 times in all, for ..."; or NULL */
    const char *help;        /* what would correct it, or NULL */
    const char *replacement; /* text for FIX in place of its bytes, or NULL */
    struct span fix;
    size_t order;            /* of being reported; settles ties when sorted */
};

struct diag {
    struct arena *arena;
    const struct sources *sources;
    struct finding **items;
    size_t count, capacity;
    size_t counts[SEVERITY_ERROR + 1]; /* of each severity: asked for after every statement */
    struct finding spare;              /* stands for each finding beyond those that are kept */
    struct span *private_parts; /* see diag_keep_private */
    size_t private_count, private_capacity;
};

struct diag *diag_new(struct arena *arena, const struct sources *sources);

/* The most findings that are kept; later ones are only counted, and one more finding says so. */
enum { MOST_FINDINGS = 20000 };

/* Adds a finding and returns it, so that notes and a fix can be added to it. */
struct finding *diag_report(struct diag *diag, enum severity severity, enum diagnostic diagnostic,
                            struct span span, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same with its words as they are; they must outlive the arena. */
struct finding *diag_add(struct diag *diag, enum severity severity, enum diagnostic diagnostic, struct span span,
                         const char *words);

/* The same at the severity of an error. */
struct finding *diag_error(struct diag *diag, enum diagnostic diagnostic, struct span span,
                           const char *format, ...) __attribute__((format(printf, 4, 5)));

/* FINDING says something else from now on. */
void diag_reword(struct diag *diag, struct finding *finding, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* A note at another place, one of several there that add up, and one without a place. */
void diag_note(struct diag *diag, struct finding *finding, struct span span, const char *format,
               ...) __attribute__((format(printf, 4, 5)));
void diag_summand(struct diag *diag, struct finding *finding, struct span span, const char *format,
                  ...) __attribute__((format(printf, 4, 5)));
void diag_remark(struct diag *diag, struct finding *finding, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* What would correct it, in words; and the same as text to put in place of SPAN. */
void diag_help(struct diag *diag, struct finding *finding, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void diag_fix(struct diag *diag, struct finding *finding, struct span span,
              const char *replacement);

/* Adds a copy of OLD, which an earlier compile made: its texts must outlive the arena. And all findings of KEPT. */
struct finding *diag_add_copy(struct diag *diag, const struct finding *old);
void diag_add_kept(struct diag *diag, const struct diag *kept);

/* A copy of FINDING with all its texts, in ARENA; it no longer says whom it is about. */
struct finding *finding_keep(struct arena *arena, const struct finding *finding);

/* Sorts by file, place and name, and drops findings of one name and words at one place. */
void diag_sort(struct diag *diag);

/* The order of diag_sort: below 0 where A comes first. */
int diag_compare(const struct finding *a, const struct finding *b);

/* How many of SEVERITY the verdict rests on. */
size_t diag_count(const struct diag *diag, enum severity severity);

/* Keeps FINDING for the coach alone: it no longer counts. */
void diag_set_private(struct diag *diag, struct finding *finding);

/* FINDING reveals a health fact: who is hurt, where, or since when. Others get NEUTRAL instead, or, if that is "", only
 * that there is something for the coach to look at. NEUTRAL must outlive the arena. */
void diag_set_neutral(struct finding *finding, const char *neutral);

/* PART is for the coach alone, too: a private file, or a restriction in the plan. Others do not learn what is wrong in
 * it, and nothing points at it. Parts are kept in the order of their files and places, and none overlap. */
void diag_keep_private(struct diag *diag, struct span part);

/* Whether SPAN starts in such a part. */
bool diag_is_private(const struct diag *diag, struct span span);

#endif

/* raw.h - the raw tokens that grammar/scan.l makes from a file's bytes, a line at a time. */
#ifndef BELL_SYNTAX_RAW_H
#define BELL_SYNTAX_RAW_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "source/source.h"

enum raw_kind {
    RAW_COMMENT,
    RAW_WORD,
    RAW_NUMBER,        /* 12, 2.5 */
    RAW_DECIMAL_COMMA, /* 2,5 */
    RAW_TIME,          /* 1:30 */
    RAW_DATE,
    RAW_MONTH,
    RAW_BAD_DATE,      /* 20/03/2027 */
    RAW_TEMPO,         /* 3-1-X-0 */
    RAW_QUOTED,        /* 30" or 2' */
    RAW_REF,           /* A.1 */
    RAW_DOTS,
    RAW_MINUS,
    RAW_COLON,         /* one that separates a name from a dose */
    RAW_AT,
    RAW_PLUS,
    RAW_SLASH,
    RAW_COMMA,
    RAW_SEMICOLON,
    RAW_PERCENT
};

struct raw_token {
    enum raw_kind kind;
    uint32_t start, end;
};

struct scan {
    const char *text;         /* the part of the file that is scanned */
    uint32_t start;           /* and where in the file it starts: tokens have their places in the file */
    struct raw_token *tokens; /* of the line read last; a comment is its last one */
    size_t count, capacity;
    uint32_t next;            /* where the line after it starts */
    char *bytes;              /* the copy of the text that flex reads and marks ends of tokens in */
    bool odd_spaces;          /* the text contains other spaces that look like one */
    void *scanner;            /* flex's own */
    struct arena *arena;      /* all of it lives there */
};

/* Begins to scan PLACE of TEXT, which ends with a NUL; scan_close ends it. ARENA is used until then, and keeps nothing
 * that is needed afterwards. */
void scan_open(struct scan *scan, struct arena *arena, const char *text, struct extent place);
void scan_close(struct scan *scan);

/* Reads the tokens of one line, without white space and the line's end. False: it was the last. */
bool scan_line(struct scan *scan);

/* --- for scan.l --- */

/* Where AT, in the scanned copy, stands in the file. */
static inline uint32_t scan_place(const struct scan *scan, const char *at)
{
    return scan->start + (uint32_t)(at - scan->bytes);
}

/* Adds the LENGTH bytes at AT, in the scanned copy, as a token. */
void scan_grow(struct scan *scan);
static inline void scan_add(struct scan *scan, enum raw_kind kind, const char *at, int length)
{
    if (scan->count == scan->capacity)
        scan_grow(scan);
    uint32_t start = scan_place(scan, at);
    scan->tokens[scan->count++] = (struct raw_token){kind, start, start + (uint32_t)length};
}

/* The same for a comment: white space at its end does not belong to it. */
void scan_add_comment(struct scan *scan, const char *at, int length);

/* Does the # at AT begin a comment? Only at a line's start or after white space, and only before white space,
 * another # or the line's end: `board #2` is a name. */
bool scan_is_comment(const struct scan *scan, const char *at);

/* Does the colon at AT separate a name from a dose? Only before white space or the line's end. */
bool scan_colon_parts(const struct scan *scan, const char *at);

#endif

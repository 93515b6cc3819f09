/* raw.h - the raw tokens that grammar/scan.l makes of a file's bytes. */
#ifndef BELL_SYNTAX_RAW_H
#define BELL_SYNTAX_RAW_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum raw_kind {
    RAW_END,
    RAW_NEWLINE,
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
    RAW_COLON,         /* one that parts a name from a dose */
    RAW_AT,
    RAW_PLUS,
    RAW_SLASH,
    RAW_COMMA,
    RAW_SEMICOLON,
    RAW_PERCENT
};

/* Where the scanner stands: the token just read is TEXT[start, end). */
struct scan {
    const char *text;
    size_t length;
    uint32_t start, end;
};

/* Does the # at the token's start begin a comment? Only at a line's start or after white space, and only before
 * white space, another # or the line's end: `board #2` is a name. */
bool scan_is_comment(const struct scan *scan);

/* Does the colon just read part a name from a dose? Only before white space or the line's end. */
bool scan_colon_parts(const struct scan *scan);

/* Called once for each raw token but comments' and line ends' white space, in order. */
typedef void scan_take(void *taker, enum raw_kind kind, uint32_t start, uint32_t end);

/* Scans LENGTH bytes of TEXT, which is followed by a NUL, and hands each token to TAKE. Returns how many there
 * were. */
size_t scan_text(const char *text, size_t length, scan_take *take, void *taker);

#endif

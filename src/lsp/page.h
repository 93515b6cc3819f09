/* page.h - places in a text as the protocol counts them: lines from 0, and within a line code units of UTF-16 or bytes.
 *
 * * A line ends in \n, \r\n or a \r alone; in a plan, the latter is only white space. */
#ifndef BELL_LSP_PAGE_H
#define BELL_LSP_PAGE_H

#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

enum encoding { ENCODING_UTF16, ENCODING_UTF8 };

struct page {
    const char *text;
    size_t length;
    enum encoding encoding;
    bool marked;     /* there is a byte order mark before the text, and it counts as part of the first line */
    uint32_t *lines; /* where each starts */
    size_t line_count;
};

struct caret {
    size_t line, character;
};

/* The LENGTH bytes of TEXT; the table of its lines lives in ARENA. */
struct page page_make(struct arena *arena, const char *text, size_t length, enum encoding encoding);

/* The place of the byte OFFSET, which is at most the text's end. */
struct caret page_caret(const struct page *page, size_t offset);

/* The byte at POSITION. A place past the end of a line or of the text becomes that end, and one inside a character
 * its start. */
size_t page_offset(const struct page *page, struct caret position);

/* The bytes of LINE, from 0, without its end. */
const char *page_line(const struct page *page, size_t line, size_t *length);

/* {"line": ..., "character": ...}; false if JSON is not one. */
bool caret_read(const json_t *json, struct caret *position);
json_t *caret_json(struct caret position);

/* The range from byte START to byte END. */
json_t *page_range(const struct page *page, size_t start, size_t end);

/* The bytes of a range; false if JSON is not one. An end before the start counts as the start. */
bool page_read_range(const struct page *page, const json_t *json, size_t *start, size_t *end);

#endif

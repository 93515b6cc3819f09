/* text.h - growing text, and the few questions about UTF-8 that every room asks. */
#ifndef BELL_BASE_TEXT_H
#define BELL_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/arena.h"

/* A growing run of bytes, always NUL-terminated once anything was added. Starts with the arena that it lives in, or as
 * {0}: then it lives in the C library's memory, is ended with text_free, and is only for the command line (see
 * arena_new). */
struct text {
    char *data;
    size_t length, capacity;
    struct arena *arena;
};

void text_add(struct text *text, const char *words);
void text_add_bytes(struct text *text, const char *bytes, size_t length);
void text_add_char(struct text *text, char c);
void text_addf(struct text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
void text_clear(struct text *text);
void text_free(struct text *text);
/* The text in ARENA, ending it: no copy is made if it already lives there. */
const char *text_keep(struct arena *arena, struct text *text);
/* The text so far, never NULL. */
const char *text_get(const struct text *text);

/* A followed by B, in ARENA. */
const char *text_joined(struct arena *arena, const char *a, const char *b);

/* Whether two names are the same. Asked of long lists: most names already differ in their first letter. */
static inline bool text_same(const char *a, const char *b)
{
    return *a == *b && strcmp(a, b) == 0;
}

/* If the text AT, which ends in a NUL, starts with a space that is not U+0020 but looks like it (no-break, thin or
 * wide), how many bytes it takes; otherwise 0. */
size_t text_odd_space(const char *at);

/* A copy of LENGTH bytes of TEXT with plain spaces in their place. */
char *text_plain_spaces(struct arena *arena, const char *text, size_t length);

/* A hash of LENGTH bytes of TEXT, continuing from HASH (0 at first); the same on every machine. It is no protection
 * against forgery. */
uint64_t text_hash(uint64_t hash, const char *text, size_t length);

/* NAME as it is compared: NFC, full case folding, ends trimmed, runs of white space made one space. */
const char *text_fold(struct arena *arena, const char *name, size_t length)
    __attribute__((returns_nonnull));

/* Is NAME as text_fold would return it? Answers no for names beyond ASCII and for the empty name: fold those to find
 * out. */
bool text_is_folded(const char *name);

/* Edit distance between two folded names, counted in characters, swaps of neighbours as one; at most
 * LIMIT + 1 is returned (more is not worked out). */
unsigned text_distance(const char *a, const char *b, unsigned limit);

/* NAME with everything that text_first_fault would find in it, line ends and tabs written as escapes: `\n`, `\x1b`. A
 * terminal obeys some of them, and a name that is not text breaks a report. NAME itself if there is nothing to
 * escape. */
const char *text_shown(struct arena *arena, const char *name) __attribute__((returns_nonnull));

/* Columns that LENGTH bytes of TEXT take on a terminal: wide characters 2, marks 0, a tab to the next
 * multiple of 8. */
unsigned text_width(const char *text, size_t length);

/* The first byte offset in TEXT that is not acceptable in a plan (invalid UTF-8, or see unicode_fault), or LENGTH if
 * all is well. If there is one, *WHAT names it. */
size_t text_first_fault(const char *text, size_t length, const char **what, size_t *fault_length);

#endif

/* phrases.h - the keywords of kinds.def and words.def, found fast by letter and length of their first word. */
#ifndef BELL_SYNTAX_PHRASES_H
#define BELL_SYNTAX_PHRASES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "syntax/tree.h"

/* Where a statement may stand: what the lines of a block belong to. */
enum place {
    NOTHING = 0,
    IN_FILE = 1 << 0,
    IN_ATHLETE = 1 << 1,
    IN_BESTS = 1 << 2,
    IN_AVOID = 1 << 3,
    IN_HOLD = 1 << 4,
    IN_GYM = 1 << 5,
    IN_EXERCISE = 1 << 6,
    IN_FAULT = 1 << 7,
    IN_ACTIVITY = 1 << 8,
    IN_SESSION = 1 << 9,
    IN_BLOCK = 1 << 10,
    IN_ITEM = 1 << 11,
    IN_CAMP = 1 << 12,
    IN_BOUT = 1 << 13,
    IN_PHASES = 1 << 14,
    IN_SPAN = 1 << 15,
    IN_PLACE = 1 << 16,
    IN_REASON = 1 << 17,
    IN_LIMITS = 1 << 18,
    IN_SCOPE = 1 << 19,
    IN_LIMIT = 1 << 20,
    IN_LOG = 1 << 21,
    IN_PROTOCOL = 1 << 22,
    IN_STEP = 1 << 23,
    IN_STEP_YOUNG = 1 << 24,
    IN_OUT = 1 << 25,
    IN_SUSPENDED = 1 << 26,
    IN_RESULT = 1 << 27,
    IN_HELD = 1 << 28,
    IN_SEASON = 1 << 29,
    IN_TEST = 1 << 30,
    PLACES = 31, /* those above */
    SKIPPED = -0x7fffffff - 1 /* below a line that could not be read */
};

/* In which kind of values a word counts. */
enum words_of { IN_DOSE = 1, IN_KIT = 2, IN_WEEKS = 4, IN_SPAN_START = 8, IN_LIMITED = 16, IN_PLACED = 32,
                IN_NAMED = 64 /* after a name or a date */, IN_LENGTH = 128 /* after a figure of IN_WEEKS */,
                IN_DELOAD = 256, IN_NEXT = 512 };

struct form {
    int token; /* of the grammar */
    const char *steps, *stops, *example; /* as in kinds.def */
};

struct statement {
    enum node_kind kind;
    int places, opens;
    const struct form *form;
};

/* One spelling of a keyword. Its words are separated by single spaces. */
struct phrase {
    const char *words;
    size_t length, head; /* of all of it, of its first word */
    const struct statement *statement; /* of a statement's phrase, else NULL */
    int token, code, where;            /* of a word in values */
    char needs;                        /* of a stop: what must follow it, as in kinds.def; 0: nothing */
    const struct phrase *next;         /* at its place in the index */
};

struct phrase_list {
    struct phrase *items;
    size_t count, capacity;
    uint32_t letters; /* a bit for each that one of them starts with, see phrase_letter */
};

/* Phrases by letter and length of their first word, longest first: few places hold more than one. */
enum { LETTERS = 32, LENGTHS = 16 };

struct phrase_index {
    const struct phrase *places[LETTERS][LENGTHS];
};

struct phrasebook {
    struct phrase_list statements[256], words[256]; /* by first byte, small letters; longest first */
    struct phrase_index statement_index, word_index;
    struct phrase_list *stops; /* of each form */
    const struct statement *defaults[PLACES]; /* by the number of the place's bit: meant when no phrase fits */
    const struct statement *all;
    size_t count;
};

/* Which of LETTERS the byte C is, ignoring case; bytes that are not letters share them. */
static inline unsigned phrase_letter(char c)
{
    return (unsigned char)c % LETTERS;
}

/* The first phrase of INDEX that a word of LENGTH bytes at TEXT may begin; the others follow it. */
static inline const struct phrase *phrase_like(const struct phrase_index *index, const char *text, size_t length)
{
    return index->places[phrase_letter(*text)][length < LENGTHS ? length : LENGTHS - 1];
}

/* What kinds.def says of the statement KIND. */
const struct statement *phrasebook_statement(const struct phrasebook *book, enum node_kind kind);

/* The phrases that end a name in FORM. */
const struct phrase_list *phrasebook_stops(const struct phrasebook *book, const struct form *form);

/* The spellings, separated by |, of the word that the grammar calls TOKEN with CODE; "" if there is none. */
const char *word_phrases(int token, int code);

/* The statement meant in PLACE when no phrase fits, or NULL. */
const struct statement *phrasebook_default(const struct phrasebook *book, int place);

/* The statement phrase of PLACE nearest to the start of TEXT (folded), comparing as many words as the phrase has; NULL
 * when none is near. */
const struct phrase *phrasebook_nearest(struct arena *arena, const struct phrasebook *book, int place,
                                        const char *text);

/* The spelling nearest to WORD (folded, one word) in the kinds of values WHERE, the usual one of two that are as near; NULL
 * when none is near. */
const char *phrasebook_nearest_word(struct arena *arena, const struct phrasebook *book, const char *word, int where);

#endif

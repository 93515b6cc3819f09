#include "syntax/phrases.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "parse.h"
#include "syntax/read.h"

enum form_id {
#define FORM(id, steps, stops) FORM_##id,
#include "syntax/kinds.def"
    FORM_COUNT
};

static const struct form forms[FORM_COUNT] = {
#define FORM(id, steps, stops) {T_HEAD_##id, steps, stops},
#include "syntax/kinds.def"
};

static const struct statement statements[] = {
#define STATEMENT(id, phrases, places, form, opens) \
    {STATEMENT_##id, places, opens, &forms[FORM_##form]},
#include "syntax/kinds.def"
};

static const char *const statement_phrases[] = {
#define STATEMENT(id, phrases, places, form, opens) phrases,
#include "syntax/kinds.def"
};

struct word {
    int token, code;
    const char *phrases;
    int where;
};

static const struct word words[] = {
#define WORD(token, code, phrases, where) {T_##token, code, phrases, where},
#include "syntax/words.def"
};

enum { STATEMENT_COUNT = sizeof statements / sizeof *statements, WORD_COUNT = sizeof words / sizeof *words };

/* Adds each of the spellings in PHRASES, which are parted by |. */
static void add_phrases(struct arena *arena, struct phrase_list lists[256], const char *phrases,
                        struct phrase like)
{
    while (*phrases) {
        size_t length = strcspn(phrases, "|");
        unsigned char first = (unsigned char)tolower((unsigned char)*phrases);
        struct phrase_list *list = &lists[first];
        list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof like);
        like.words = phrases;
        like.length = length;
        list->items[list->count++] = like;
        phrases += length + (phrases[length] == '|');
    }
}

static int longest_first(const void *left, const void *right)
{
    const struct phrase *a = left, *b = right;
    if (a->length != b->length)
        return a->length > b->length ? -1 : 1;
    return a->words < b->words ? -1 : a->words > b->words;
}

const struct phrasebook *phrasebook_new(struct arena *arena)
{
    struct phrasebook *book = arena_alloc(arena, sizeof *book);
    book->all = statements;
    book->count = STATEMENT_COUNT;
    for (size_t i = 0; i < STATEMENT_COUNT; i++)
        add_phrases(arena, book->statements, statement_phrases[i],
                    (struct phrase){.statement = &statements[i]});
    for (size_t i = 0; i < WORD_COUNT; i++)
        add_phrases(arena, book->words, words[i].phrases,
                    (struct phrase){.token = words[i].token, .code = words[i].code, .where = words[i].where});
    for (int i = 0; i < 256; i++) {
        if (book->statements[i].count > 1)
            qsort(book->statements[i].items, book->statements[i].count, sizeof(struct phrase), longest_first);
        if (book->words[i].count > 1)
            qsort(book->words[i].items, book->words[i].count, sizeof(struct phrase), longest_first);
    }
    return book;
}

const struct statement *phrasebook_default(const struct phrasebook *book, int place)
{
    for (size_t i = 0; i < book->count; i++)
        if ((book->all[i].places & place) && *node_kind_name(book->all[i].kind) == '\0')
            return &book->all[i];
    return NULL;
}

const char *phrasebook_nearest(struct arena *arena, const struct phrasebook *book, int place,
                               const char *word)
{
    const char *best = NULL;
    size_t best_length = 0;
    unsigned least = 3;
    for (int i = 0; i < 256; i++) {
        for (size_t k = 0; k < book->statements[i].count; k++) {
            const struct phrase *phrase = &book->statements[i].items[k];
            if (!(phrase->statement->places & place))
                continue;
            const char *spelling = arena_copy(arena, phrase->words, phrase->length);
            unsigned distance = text_distance(word, spelling, 2);
            if (distance < least && distance * 2 < phrase->length) {
                least = distance;
                best = phrase->words;
                best_length = phrase->length;
            }
        }
    }
    return best ? arena_copy(arena, best, best_length) : NULL;
}

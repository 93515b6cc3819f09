#include "syntax/phrases.h"

#include <ctype.h>
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

/* Puts PHRASE behind the longer ones of LIST and those as long. So the longest that fits is found first, and of two
 * alike the one that the table names first. */
static void add_phrase(struct arena *arena, struct phrase_list *list, struct phrase phrase)
{
    list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof phrase);
    size_t at = list->count++;
    for (; at > 0 && list->items[at - 1].length < phrase.length; at--)
        list->items[at] = list->items[at - 1];
    list->items[at] = phrase;
}

/* Adds each of the spellings in PHRASES, which are parted by |. */
static void add_phrases(struct arena *arena, struct phrase_list lists[256], const char *phrases,
                        struct phrase like)
{
    while (*phrases) {
        size_t length = strcspn(phrases, "|");
        unsigned char first = (unsigned char)tolower((unsigned char)*phrases);
        like.words = phrases;
        like.length = length;
        add_phrase(arena, &lists[first], like);
        phrases += length + (phrases[length] == '|');
    }
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
    return book;
}

const struct statement *phrasebook_statement(const struct phrasebook *book, enum node_kind kind)
{
    return &book->all[kind - NODE_FILE - 1];
}

const char *word_phrases(int token, int code)
{
    for (size_t i = 0; i < WORD_COUNT; i++)
        if (words[i].token == token && words[i].code == code)
            return words[i].phrases;
    return "";
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

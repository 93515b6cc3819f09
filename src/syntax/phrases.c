#include "syntax/phrases.h"

#include <ctype.h>
#include <string.h>

#include "base/text.h"
#include "parse.h"
#include "syntax/read.h"

enum form_id {
#define FORM(id, parts, stops, example) FORM_##id,
#include "syntax/kinds.def"
    FORM_COUNT
};

static const struct form forms[FORM_COUNT] = {
#define FORM(id, parts, stops, example) {T_HEAD_##id, STEPS_##id, stops, example},
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

static size_t head_length(const char *phrase, size_t length)
{
    const char *space = memchr(phrase, ' ', length);
    return space ? (size_t)(space - phrase) : length;
}

/* Puts PHRASE after the longer ones of LIST and those of the same length. So the longest that fits is found first, and
 * of two equals the one that the table names first. */
static void add_phrase(struct arena *arena, struct phrase_list *list, struct phrase phrase)
{
    list->items = arena_grow(arena, list->items, list->count, &list->capacity, sizeof phrase);
    size_t at = list->count++;
    for (; at > 0 && list->items[at - 1].length < phrase.length; at--)
        list->items[at] = list->items[at - 1];
    list->items[at] = phrase;
    list->letters |= UINT32_C(1) << phrase_letter(*phrase.words);
}

/* Adds each of the spellings in PHRASES, which are separated by |. */
static void add_phrases(struct arena *arena, struct phrase_list lists[256], const char *phrases,
                        struct phrase like)
{
    while (*phrases) {
        size_t length = strcspn(phrases, "|");
        unsigned char first = (unsigned char)tolower((unsigned char)*phrases);
        like.words = phrases;
        like.length = length;
        like.head = head_length(phrases, length);
        add_phrase(arena, &lists[first], like);
        phrases += length + (phrases[length] == '|');
    }
}

/* The stops of a form, each with what it needs after a >. */
static void add_stops(struct arena *arena, struct phrase_list *list, const char *stops)
{
    while (*stops) {
        size_t length = strcspn(stops, ">|");
        char needs = stops[length] == '>' ? stops[length + 1] : '\0';
        add_phrase(arena, list, (struct phrase){.words = stops, .length = length, .head = head_length(stops, length),
                                                .needs = needs});
        stops += length + strcspn(stops + length, "|");
        stops += *stops == '|';
    }
}

/* Puts the phrases of LISTS into INDEX, in their order. */
static void fill_index(struct phrase_index *index, struct phrase_list lists[256])
{
    for (int letter = 0; letter < 256; letter++) {
        for (size_t i = lists[letter].count; i-- > 0;) {
            struct phrase *phrase = &lists[letter].items[i];
            size_t length = phrase->head < LENGTHS ? phrase->head : LENGTHS - 1;
            const struct phrase **place = &index->places[phrase_letter(*phrase->words)][length];
            phrase->next = *place;
            *place = phrase;
        }
    }
}

static int number_of(int place)
{
    return __builtin_ctz((unsigned)place);
}

/* Notes STATEMENT, which has no phrase, for each of its places. */
static void add_default(struct phrasebook *book, const struct statement *statement)
{
    for (int number = 0; number < PLACES; number++)
        if (statement->places >> number & 1 && !book->defaults[number])
            book->defaults[number] = statement;
}

const struct phrasebook *phrasebook_new(struct arena *arena)
{
    struct phrasebook *book = arena_alloc(arena, sizeof *book);
    book->all = statements;
    book->count = STATEMENT_COUNT;
    for (size_t i = 0; i < STATEMENT_COUNT; i++) {
        add_phrases(arena, book->statements, statement_phrases[i],
                    (struct phrase){.statement = &statements[i]});
        if (*statement_phrases[i] == '\0')
            add_default(book, &statements[i]);
    }
    for (size_t i = 0; i < WORD_COUNT; i++)
        add_phrases(arena, book->words, words[i].phrases,
                    (struct phrase){.token = words[i].token, .code = words[i].code, .where = words[i].where});
    fill_index(&book->statement_index, book->statements);
    fill_index(&book->word_index, book->words);
    book->stops = arena_alloc(arena, FORM_COUNT * sizeof *book->stops);
    for (size_t i = 0; i < FORM_COUNT; i++)
        add_stops(arena, &book->stops[i], forms[i].stops);
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

const struct phrase_list *phrasebook_stops(const struct phrasebook *book, const struct form *form)
{
    return &book->stops[form - forms];
}

const struct statement *phrasebook_default(const struct phrasebook *book, int place)
{
    return place ? book->defaults[number_of(place)] : NULL;
}

/* As many words of TEXT as PHRASE has. */
static const char *as_many_words(struct arena *arena, const char *text, const struct phrase *phrase)
{
    size_t length = strcspn(text, " ");
    for (size_t i = 0; i < phrase->length && text[length]; i++)
        if (phrase->words[i] == ' ')
            length += 1 + strcspn(text + length + 1, " ");
    return arena_copy(arena, text, length);
}

/* How far TEXT is from PHRASE, if that is near enough to be a slip; otherwise more than MOST. */
static unsigned phrase_distance(struct arena *arena, const char *text, const struct phrase *phrase, unsigned most)
{
    const char *spelling = arena_copy(arena, phrase->words, phrase->length);
    unsigned distance = text_distance(text, text_fold(arena, spelling, phrase->length), most);
    return distance * 2 < phrase->length ? distance : most + 1;
}

const struct phrase *phrasebook_nearest(struct arena *arena, const struct phrasebook *book, int place,
                                        const char *text)
{
    const struct phrase *best = NULL;
    unsigned least = 3;
    for (int i = 0; i < 256; i++) {
        for (size_t k = 0; k < book->statements[i].count; k++) {
            const struct phrase *phrase = &book->statements[i].items[k];
            if (!(phrase->statement->places & place))
                continue;
            unsigned distance = phrase_distance(arena, as_many_words(arena, text, phrase), phrase, 2);
            if (distance < least) {
                least = distance;
                best = phrase;
            }
        }
    }
    return best;
}

const char *phrasebook_nearest_word(struct arena *arena, const struct phrasebook *book, const char *word, int where)
{
    const struct phrase *best = NULL;
    size_t length = strlen(word);
    unsigned most = length < 3 ? 0 : length < 6 ? 1 : 2, least = most + 1;
    for (int i = 0; i < 256; i++) {
        for (size_t k = 0; k < book->words[i].count; k++) {
            const struct phrase *phrase = &book->words[i].items[k];
            if (phrase_distance(arena, word, phrase, 0) == 0)
                return NULL; /* a word of ours in the wrong place */
            bool fits = phrase->where & where && phrase->where != IN_NEXT; /* `ten` is no `then` */
            unsigned distance = fits && phrase->length > 2 ? phrase_distance(arena, word, phrase, most) : most + 1;
            if (distance < least) {
                least = distance;
                best = phrase;
            }
        }
    }
    if (!best)
        return NULL;
    const char *usual = word_phrases(best->token, best->code);
    usual = arena_copy(arena, usual, strcspn(usual, "|"));
    return text_distance(word, usual, most) > least ? arena_copy(arena, best->words, best->length) : usual;
}

/* complete.c - what may be written at the caret, even in a line that is not finished. All items replace the same
 * stretch, because names have several words and editors know only the last one. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/methods.h"
#include "lsp/offer.h"
#include "lsp/writing.h"
#include "syntax/read.h"

struct completing {
    struct offers offers;
    struct writing writing;
    const char *text;
    size_t caret;
    size_t start; /* of the stretch */
    json_t *items;
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static size_t skip_blanks(const struct completing *completing, size_t at)
{
    while (at < completing->caret && is_blank(completing->text[at]))
        at++;
    return at;
}

/* The end of the word at AT: up to a blank or a comma. */
static size_t word_end(const struct completing *completing, size_t at)
{
    while (at < completing->caret && !is_blank(completing->text[at]) && completing->text[at] != ',')
        at++;
    return at;
}

/* --- statements --- */

/* Is PHRASE, one of ALL, which | separates, the beginning of another one, as `mon` is of `monday`? */
static bool is_short_form(const char *all, const char *phrase, size_t length)
{
    for (const char *at = all; *at;) {
        size_t other = strcspn(at, "|");
        if (other > length && strncmp(at, phrase, length) == 0)
            return true;
        at += other + (at[other] == '|');
    }
    return false;
}

static void offer_statements(struct completing *completing)
{
    const struct phrasebook *book = completing->writing.book;
    struct arena *arena = completing->offers.arena;
    for (size_t i = 0; i < book->count; i++) {
        const struct statement *statement = &book->all[i];
        const char *all = node_kind_name(statement->kind), *example = statement->form->example;
        if (!(statement->places & completing->writing.place) || *all == '#')
            continue;
        for (const char *at = all; *at;) {
            size_t length = strcspn(at, "|");
            if (*at != '#' && !is_short_form(all, at, length))
                offer(&completing->offers, arena_copy(arena, at, length), OFFER_KEYWORD, *example ? example : NULL, 0);
            at += length + (at[length] == '|');
        }
    }
}

/* --- words of values --- */

static void offer_words(struct completing *completing, int where)
{
    const struct phrasebook *book = completing->writing.book;
    for (int first = 0; first < 256; first++) {
        for (size_t i = 0; i < book->words[first].count; i++) {
            const struct phrase *phrase = &book->words[first].items[i];
            const char *all = word_phrases(phrase->token, phrase->code);
            size_t length = strcspn(all, "|");
            if (phrase->where & where)
                offer(&completing->offers, arena_copy(completing->offers.arena, all, length),
                      OFFER_UNIT, NULL, 0);
        }
    }
}

/* The stretch between FROM and the caret that an offered word may continue: the longest that begins one, else the
 * last word. */
static size_t stretch_start(const struct completing *completing, size_t from)
{
    const char *text = completing->text;
    size_t last = completing->caret;
    while (last > from && !is_blank(text[last - 1]) && !strchr(":@+/,;%", text[last - 1]))
        last--;
    for (size_t start = from; start < last; start++) {
        if (start > from && !is_blank(text[start - 1]) && !strchr(":@+/,;%", text[start - 1]))
            continue;
        for (size_t i = 0; i < completing->offers.count && !is_blank(text[start]); i++) {
            const char *label = completing->offers.items[i].label;
            if (phrase_begins(label, strlen(label), text + start, completing->caret - start))
                return start;
        }
    }
    return last;
}

static void complete_words(struct completing *completing, size_t from, int where, unsigned names)
{
    offer_words(completing, where);
    offer_names(&completing->offers, names);
    completing->start = stretch_start(completing, from);
}

/* --- names --- */

/* The place between FROM and the caret where a stop of FORM is a word of its own, with a blank after it; *LENGTH is
 * its length. The caret if there is none. */
static size_t find_stop(const struct completing *completing, const struct form *form, size_t from, size_t *length)
{
    const struct phrase_list *stops = phrasebook_stops(completing->writing.book, form);
    const char *text = completing->text;
    for (size_t at = from + 1; at < completing->caret; at++) {
        if (text[at] == ':' && (at + 1 == completing->caret || is_blank(text[at + 1]))) {
            *length = 0;
            return at;
        }
        for (size_t i = 0; i < stops->count && is_blank(text[at - 1]); i++) {
            *length = stops->items[i].length;
            if (at + *length < completing->caret && is_blank(text[at + *length]) &&
                strncmp(text + at, stops->items[i].words, *length) == 0)
                return at;
        }
    }
    return completing->caret;
}

/* Does an offered name continue what was typed after START? */
static bool goes_on(const struct completing *completing, size_t start)
{
    for (size_t i = 0; i < completing->offers.count; i++) {
        const char *label = completing->offers.items[i].label;
        if (phrase_begins(label, strlen(label), completing->text + start, completing->caret - start))
            return true;
    }
    return false;
}

/* The name that is being written from FROM on; of several, the last. After a whole name its stop may come. */
static void complete_name(struct completing *completing, const struct statement *statement, size_t from, bool several,
                          bool behind_stop)
{
    size_t number = 0, start = from;
    for (size_t at = from; at < completing->caret && several; at++) {
        if (completing->text[at] != ',')
            continue;
        number++;
        start = at + 1;
    }
    start = skip_blanks(completing, start);
    offer_names(&completing->offers, statement_names(statement->kind, number, behind_stop));
    completing->start = start;
    if (completing->offers.count && goes_on(completing, start))
        return;
    const struct phrase_list *stops = phrasebook_stops(completing->writing.book, statement->form);
    completing->offers.count = stops->count ? 0 : completing->offers.count;
    for (size_t i = 0; i < stops->count; i++)
        offer(&completing->offers, arena_copy(completing->offers.arena, stops->items[i].words, stops->items[i].length),
              OFFER_KEYWORD, NULL, 0);
    completing->start = stops->count ? stretch_start(completing, start) : start;
}

/* --- the steps of a form --- */

/* The place after the days and hours of a placed line, which begin at AT. */
static size_t skip_days(const struct completing *completing, size_t at)
{
    const struct phrasebook *book = completing->writing.book;
    for (bool more = true; more;) {
        const char *text = completing->text + at;
        size_t size = completing->caret - at, length = 0;
        more = false;
        if (size && (*text == ',' || (*text >= '0' && *text <= '9')))
            length = *text == ',' ? 1 : word_end(completing, at) - at;
        for (int first = 0; first < 256 && !length; first++) {
            for (size_t i = 0; i < book->words[first].count; i++) {
                const struct phrase *phrase = &book->words[first].items[i];
                bool ends = phrase->length < size && (is_blank(text[phrase->length]) || text[phrase->length] == ',');
                if (phrase->where & IN_PLACED && ends && phrase->length > length &&
                    g_ascii_strncasecmp(text, phrase->words, phrase->length) == 0)
                    length = phrase->length;
            }
        }
        more = length > 0 && at + length < completing->caret;
        at = length ? skip_blanks(completing, at + length) : at;
    }
    return at;
}

/* The words that the rest of a line is written in, where STEP stands for it; 0: none. */
static int words_of_step(char step)
{
    switch (step) {
    case 'k': return IN_KIT;
    case 'w': return IN_WEEKS | IN_SPAN_START | IN_LENGTH;
    case 'l': return IN_LIMITED;
    case 'u': return IN_DELOAD;
    case 'v': return IN_DOSE;
    default: return 0;
    }
}

/* What is being written from AT on as a name or names; false if a stop or a colon ends it before the caret, and *AT
 * is then moved past that. */
static bool complete_step(struct completing *completing, const struct statement *statement, const char *step, size_t *at)
{
    for (size_t comma = *at; comma < completing->caret && *step == 'M'; comma++)
        *at = completing->text[comma] == ',' ? comma + 1 : *at; /* each name has its own stop */
    size_t length = 0, stop = find_stop(completing, statement->form, *at, &length);
    if (stop == completing->caret) {
        complete_name(completing, statement, *at, *step != 'n', step > statement->form->steps && step[-1] == 's');
        return true;
    }
    *at = step[1] == 's' ? skip_blanks(completing, stop + length) : stop;
    return false;
}

static void complete_values(struct completing *completing)
{
    const struct statement *statement = completing->writing.statement;
    size_t at = completing->writing.behind;
    for (const char *step = statement->form->steps; *step; step++) {
        int where = words_of_step(*step);
        bool digit = at < completing->caret && completing->text[at] >= '0' && completing->text[at] <= '9';
        if (where) {
            complete_words(completing, at, where, where == IN_DOSE ? 0 : statement_names(statement->kind, 0, false) |
                                                                             (where & IN_WEEKS
                                                                                  ? (unsigned)NAMED_PHASE
                                                                                  : 0U));
            return;
        }
        switch (*step) {
        case '!': at = completing->writing.indent; break;
        case 'n': case 'N': case 'M':
            if (complete_step(completing, statement, step, &at))
                return;
            break;
        case 'D': at = skip_days(completing, at); break;
        case 'd': case 'h': case '#':
            if (digit)
                at = skip_blanks(completing, word_end(completing, at));
            break;
        case 'b': case 'r': case 'p':
            at = skip_blanks(completing, word_end(completing, at));
            break;
        case ':':
            if (at < completing->caret && completing->text[at] == ':')
                at = skip_blanks(completing, at + 1);
            break;
        case 't': return;
        default: break; /* a stop, which is handled already */
        }
    }
}

/* --- the whole --- */

/* Are all bytes of TYPED in LABEL, in their order? Both are folded. */
static bool may_be_meant(const char *label, const char *typed)
{
    for (; *label && *typed; label++)
        typed += *label == *typed;
    return *typed == '\0';
}

static int by_rank(const void *left, const void *right)
{
    const struct offered *a = left, *b = right;
    return a->rank != b->rank ? (a->rank < b->rank ? -1 : 1) : strcmp(a->label, b->label);
}

/* Keeps what may be meant. What begins as typed comes first, and of that what the athletes can do. */
static void choose(struct completing *completing)
{
    enum { ELSEWHERE = 10 };
    struct offers *offers = &completing->offers;
    const char *typed = text_fold(offers->arena, completing->text + completing->start, completing->caret - completing->start);
    size_t count = 0;
    for (size_t i = 0; i < offers->count; i++) {
        struct offered one = offers->items[i];
        const char *folded = text_fold(offers->arena, one.label, strlen(one.label));
        if (!may_be_meant(folded, typed))
            continue;
        one.rank += strncmp(folded, typed, strlen(typed)) == 0 ? 0 : ELSEWHERE;
        offers->items[count++] = one;
    }
    offers->count = count;
    if (count > 1)
        qsort(offers->items, count, sizeof *offers->items, by_rank);
}

static void add_items(struct completing *completing, const struct page *page)
{
    choose(completing);
    for (size_t i = 0; i < completing->offers.count; i++) {
        const struct offered *offered = &completing->offers.items[i];
        json_t *item = json_object(), *edit = json_object();
        json_put_words(item, "label", offered->label);
        json_put(item, "kind", json_integer(offered->kind));
        json_put_words(item, "detail", offered->detail);
        json_put_words(item, "sortText", arena_printf(completing->offers.arena, "%04zu", i));
        json_put_words(item, "filterText", offered->label);
        json_put(edit, "range", page_range(page, completing->start, completing->caret));
        json_put_words(edit, "newText", offered->label);
        json_put(item, "textEdit", edit);
        json_add(completing->items, item);
    }
}

/* Is the caret in a comment? That begins with a # that has blanks on both sides. */
static bool is_in_comment(const char *text, size_t caret)
{
    bool sign = false;
    for (size_t at = caret; at > 0 && !strchr("\n\r", text[at - 1]) && !sign; at--)
        sign = text[at - 1] == '#' && (at == 1 || strchr(" \t\n\r", text[at - 2])) && strchr(" \t\n\r", text[at]);
    return sign;
}

json_t *lsp_completion(struct call *call)
{
    struct focus focus;
    size_t caret;
    if (!call_focus_at(call, &focus, &caret))
        return NULL;
    const struct source *source = focus.source;
    struct completing completing = {.offers = {.arena = call->arena, .focus = &focus, .caret = caret},
                                    .writing = writing_find(phrasebook_new(call->arena), source->text, source->length, caret),
                                    .text = source->text, .caret = caret, .items = json_array()};
    completing.start = completing.writing.indent;
    const struct statement *fallback = completing.writing.fallback;
    if (is_in_comment(source->text, caret)) {
        return completing.items;
    } else if (completing.writing.statement) {
        complete_values(&completing);
    } else if (completing.writing.place) {
        /* In a line without words of its own, the caret may be past the name already. */
        size_t length, stop = fallback ? find_stop(&completing, fallback->form, completing.start, &length) : caret;
        if (stop < caret) {
            completing.writing.statement = fallback;
            completing.writing.behind = completing.start;
            complete_values(&completing);
        } else {
            offer_statements(&completing);
            offer_names(&completing.offers, fallback ? statement_names(fallback->kind, 0, false) : 0);
        }
    }
    add_items(&completing, &focus.page);
    return completing.items;
}

/* --- the line as it could be --- */

json_t *lsp_signature(struct call *call)
{
    struct focus focus;
    size_t caret;
    if (!call_focus_at(call, &focus, &caret))
        return NULL;
    const struct writing writing =
        writing_find(phrasebook_new(call->arena), focus.source->text, focus.source->length, caret);
    const struct statement *statement = writing.statement ? writing.statement : writing.fallback;
    if (!statement || !*statement->form->example)
        return NULL;
    const char *all = node_kind_name(statement->kind);
    bool whole = *statement->form->steps == '!' || !*all;
    const char *label = whole ? statement->form->example
                              : arena_printf(call->arena, "%.*s %s", (int)strcspn(all, "|"), all, statement->form->example);
    json_t *help = json_object(), *signatures = json_array(), *signature = json_object();
    json_put_words(signature, "label", label);
    json_add(signatures, signature);
    json_put(help, "signatures", signatures);
    json_put(help, "activeSignature", json_integer(0));
    return help;
}

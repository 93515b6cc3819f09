#include "render/pdf_words.h"

#include <glib.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "render/pdf_artifacts.h"

/* LENGTH bytes that go into the file at AT of what cairo wrote, in place of INSTEAD of its bytes. */
struct addition {
    size_t at, instead, length;
    const char *bytes;
};

struct additions {
    struct arena *arena;
    struct addition *list;
    size_t count, capacity;
};

static void add_bytes(struct additions *additions, struct addition addition)
{
    additions->list = arena_grow(additions->arena, additions->list, additions->count, &additions->capacity, sizeof *additions->list);
    additions->list[additions->count++] = addition;
}

static void add(struct additions *additions, size_t at, const char *words)
{
    add_bytes(additions, (struct addition){at, 0, strlen(words), words});
}

static int by_place(const void *one, const void *other)
{
    const struct addition *a = one, *b = other;
    return (a->at > b->at) - (a->at < b->at);
}

/* Where WORDS occur last in BYTES from START on; 0 if they do not. */
static size_t find_last(const struct text *bytes, size_t start, const char *words)
{
    size_t length = strlen(words);
    for (size_t at = bytes->length < length ? 0 : bytes->length - length; at > start; at--)
        if (memcmp(bytes->data + at, words, length) == 0)
            return at;
    return 0;
}

#define FIGURE "<< /Type /StructElem\n   /S /Figure\n"

static const size_t NOWHERE = SIZE_MAX;

/* The end of WORDS where they occur first in BYTES from START on. */
static size_t find_behind(const struct text *bytes, size_t start, const char *words)
{
    size_t length = strlen(words);
    for (size_t at = start; at + length <= bytes->length; at++) {
        const char *first = memchr(bytes->data + at, words[0], bytes->length - length + 1 - at);
        if (!first)
            return NOWHERE;
        at = (size_t)(first - bytes->data);
        if (memcmp(first, words, length) == 0)
            return at + length;
    }
    return NOWHERE;
}

/* WORDS as a string of the file: in hexadecimal digits of UTF-16, which need no escapes. */
static const char *file_string(struct arena *arena, const char *words)
{
    struct text out = {.arena = arena};
    glong length = 0;
    gunichar2 *units = g_utf8_to_utf16(words, -1, NULL, &length, NULL);
    text_add(&out, "<FEFF");
    for (glong i = 0; i < length; i++)
        text_addf(&out, "%04X", units[i]);
    text_add(&out, ">");
    g_free(units);
    return text_keep(arena, &out);
}

/* What the figures of a page say. cairo writes the structure in the order in which it was drawn. Returns where the last of
 * them stands in BYTES, AFTER being where the one before does. */
static size_t add_page(struct additions *additions, const struct text *bytes, size_t after, const struct box *page)
{
    for (size_t i = 0; i < page->count; i++) {
        const struct element *element = &page->elements[i];
        if (element->kind != ELEMENT_OPEN || element->role != ROLE_FIGURE)
            continue;
        after = find_behind(bytes, after, FIGURE);
        if (after == NOWHERE)
            break;
        add(additions, after, arena_printf(additions->arena, "   /Alt %s\n", file_string(additions->arena, element->text)));
    }
    return after;
}

/* Whether all figures of SCENES are found and no more. */
static bool add_figures(struct additions *additions, const struct text *bytes, size_t start,
                        const struct scene *const *scenes, size_t count)
{
    size_t after = start;
    for (size_t i = 0; i < count; i++)
        for (size_t page = 0; page < scenes[i]->page_count && after != NOWHERE; page++)
            after = add_page(additions, bytes, after, scenes[i]->pages[page]);
    return after != NOWHERE && find_behind(bytes, after, FIGURE) == NOWHERE;
}

/* Where object NUMBER begins, as the table at TABLE says; NOWHERE if it says nothing of it. */
static size_t object_at(const struct text *bytes, size_t start, size_t table, unsigned long number)
{
    static const char head[] = "xref\n0 ";
    enum { LINE = 20 };
    char *end;
    if (bytes->length < table + sizeof head || memcmp(bytes->data + table, head, sizeof head - 1) != 0)
        return NOWHERE;
    unsigned long count = strtoul(bytes->data + table + sizeof head - 1, &end, 10);
    size_t at = (size_t)(end + 1 - bytes->data) + number * LINE;
    if (*end != '\n' || number >= count || at + LINE > bytes->length || bytes->data[at + 17] != 'n')
        return NOWHERE;
    return start + (size_t)g_ascii_strtoull(bytes->data + at, NULL, 10);
}

/* The number behind WORDS in the object that begins at AT; *BEHIND is set to where it ends. 0: there is none. */
static unsigned long number_behind(const struct text *bytes, size_t at, const char *words, size_t *behind)
{
    enum { MOST = 64 }; /* bytes of such an object before its number */
    struct text part = {.data = bytes->data, .length = at + MOST < bytes->length ? at + MOST : bytes->length};
    size_t from = at < bytes->length ? find_behind(&part, at, words) : NOWHERE;
    char *end = NULL;
    unsigned long number = from == NOWHERE ? 0 : strtoul(bytes->data + from, &end, 10);
    *behind = number ? (size_t)(end - bytes->data) : NOWHERE;
    return number;
}

/* Marks the artifacts of the page whose content is object NUMBER: a deflated stream, its length an object of its own. */
static void add_marks(struct additions *additions, const struct text *bytes, size_t start, size_t table, unsigned long number)
{
    static const char before[] = " 0 R\n   /Filter /FlateDecode\n>>\nstream\n";
    size_t behind, ends, at = object_at(bytes, start, table, number);
    unsigned long sized = number_behind(bytes, at, " 0 obj\n<< /Length ", &behind);
    size_t size_at = sized ? object_at(bytes, start, table, sized) : NOWHERE;
    size_t length = number_behind(bytes, size_at, " 0 obj\n   ", &ends), stream = behind + sizeof before - 1;
    if (!length || stream + length > bytes->length || memcmp(bytes->data + behind, before, sizeof before - 1) != 0)
        return;
    size_t marked = length;
    const char *deflated = pdf_mark_deflated(additions->arena, bytes->data + stream, &marked);
    if (!deflated)
        return;
    const char *old = arena_printf(additions->arena, "%zu", length), *size = arena_printf(additions->arena, "%zu", marked);
    add_bytes(additions, (struct addition){stream, length, marked, deflated});
    add_bytes(additions, (struct addition){ends - strlen(old), strlen(old), strlen(size), size});
}

/* The same of all pages. */
static void add_artifacts(struct additions *additions, const struct text *bytes, size_t start, size_t table)
{
    for (size_t at = start; (at = find_behind(bytes, at, "\n   /Contents ")) != NOWHERE;)
        add_marks(additions, bytes, start, table, strtoul(bytes->data + at, NULL, 10));
}

static void add_language(struct additions *additions, size_t catalogue, const char *language)
{
    bool english = !language || strcmp(language, "en") == 0;
    add(additions, catalogue,
        arena_printf(additions->arena, "   /Lang (%.8s)\n   /ViewerPreferences << /DisplayDocTitle true >>\n",
                     english ? "en-GB" : language));
}

/* How far what stood at PLACE has moved. */
static size_t moved(const struct additions *additions, size_t place)
{
    size_t by = 0;
    for (size_t i = 0; i < additions->count && additions->list[i].at <= place; i++)
        by += additions->list[i].length - additions->list[i].instead;
    return by;
}

/* The table of places that stands in BYTES from TABLE to END, after the additions: lines of twenty bytes, each with the place
 * of an object in ten digits. */
static void put_table(struct text *whole, const struct text *bytes, size_t start, size_t table, size_t end,
                      const struct additions *additions)
{
    const char *line = bytes->data + table, *last = bytes->data + end;
    while (line < last) {
        const char *next = memchr(line, '\n', (size_t)(last - line));
        size_t length = next ? (size_t)(next + 1 - line) : (size_t)(last - line);
        if (length == 20 && line[17] == 'n') {
            size_t place = start + (size_t)g_ascii_strtoull(line, NULL, 10);
            text_addf(whole, "%010zu", place - start + moved(additions, place));
            text_add_bytes(whole, line + 10, length - 10);
        } else {
            text_add_bytes(whole, line, length);
        }
        line += length;
    }
}

static void put_all(struct text *bytes, size_t start, size_t table, size_t end, const struct additions *additions)
{
    struct text whole = {.arena = bytes->arena};
    size_t from = 0;
    for (size_t i = 0; i < additions->count; i++) {
        text_add_bytes(&whole, bytes->data + from, additions->list[i].at - from);
        text_add_bytes(&whole, additions->list[i].bytes, additions->list[i].length);
        from = additions->list[i].at + additions->list[i].instead;
    }
    text_add_bytes(&whole, bytes->data + from, table - from);
    size_t place = whole.length - start;
    put_table(&whole, bytes, start, table, end, additions);
    text_addf(&whole, "startxref\n%zu\n%%%%EOF\n", place);
    text_free(bytes);
    *bytes = whole;
}

/* cairo writes the catalogue last, then the table of places of all objects, then where that begins. */
void pdf_add_words(struct text *bytes, size_t start, const struct scene *const *scenes, size_t count)
{
    static const char catalogue[] = "<< /Type /Catalog\n", ending[] = "\nstartxref\n";
    size_t here = find_last(bytes, start, catalogue), table = find_last(bytes, start, "\nxref\n") + 1;
    size_t end = find_last(bytes, start, ending) + 1;
    if (!here || here > table || table > end ||
        g_ascii_strtoull(bytes->data + end + strlen(ending) - 1, NULL, 10) != table - start)
        return;
    struct additions additions = {.arena = scenes[0]->arena};
    if (!add_figures(&additions, bytes, start, scenes, count))
        additions.count = 0;
    add_artifacts(&additions, bytes, start, table);
    add_language(&additions, here + strlen(catalogue), scenes[0]->language);
    qsort(additions.list, additions.count, sizeof *additions.list, by_place);
    put_all(bytes, start, table, end, &additions);
}

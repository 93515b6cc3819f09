#include "lsp/page.h"

#include <string.h>

#include "export/json_text.h"

/* The bytes of the line end at AT, or 0. */
static size_t line_end(const char *at, const char *end)
{
    if (at == end)
        return 0;
    if (*at == '\r')
        return at + 1 < end && at[1] == '\n' ? 2 : 1;
    return *at == '\n';
}

struct page page_make(struct arena *arena, const char *text, size_t length, enum encoding encoding)
{
    struct page page = {.text = text, .length = length, .encoding = encoding, .line_count = 1};
    const char *end = text + length;
    size_t ends = 1;
    for (const char *at = text; at < end; at++)
        ends += *at == '\n' || *at == '\r';
    page.lines = arena_alloc(arena, ends * sizeof *page.lines);
    for (const char *at = text; at < end;) {
        size_t size = line_end(at, end);
        at += size ? size : 1;
        if (size)
            page.lines[page.line_count++] = (uint32_t)(at - text);
    }
    return page;
}

const char *page_line(const struct page *page, size_t line, size_t *length)
{
    const char *start = page->text + page->lines[line], *end = page->text + page->length;
    const char *at = start;
    while (at < end && *at != '\n' && *at != '\r')
        at++;
    *length = (size_t)(at - start);
    return start;
}

/* The line that holds byte OFFSET. */
static size_t line_of(const struct page *page, size_t offset)
{
    size_t low = 0, high = page->line_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (page->lines[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* The bytes of the character that begins with BYTE; what is not UTF-8 counts byte by byte. */
static size_t character_bytes(unsigned char byte)
{
    return byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : byte >= 0xc0 ? 2 : 1;
}

static size_t character_units(size_t bytes, enum encoding encoding)
{
    if (encoding == ENCODING_UTF8)
        return bytes;
    return bytes == 4 ? 2 : 1;
}

/* What a byte order mark adds to the first line. */
static size_t mark_units(const struct page *page, size_t line)
{
    return !page->marked || line ? 0 : page->encoding == ENCODING_UTF8 ? 3 : 1;
}

struct caret page_caret(const struct page *page, size_t offset)
{
    if (offset > page->length)
        offset = page->length;
    size_t line = line_of(page, offset), character = mark_units(page, line);
    for (size_t at = page->lines[line]; at < offset;) {
        size_t bytes = character_bytes((unsigned char)page->text[at]);
        character += character_units(bytes, page->encoding);
        at += bytes;
    }
    return (struct caret){line, character};
}

size_t page_offset(const struct page *page, struct caret position)
{
    if (position.line >= page->line_count)
        return page->length;
    size_t length, units = mark_units(page, position.line);
    const char *text = page_line(page, position.line, &length);
    size_t at = 0;
    while (at < length) {
        size_t bytes = character_bytes((unsigned char)text[at]);
        if (bytes > length - at)
            bytes = length - at;
        units += character_units(bytes, page->encoding);
        if (units > position.character)
            break;
        at += bytes;
    }
    return page->lines[position.line] + at;
}

bool caret_read(const json_t *json, struct caret *position)
{
    const json_t *line = json_object_get(json, "line"), *character = json_object_get(json, "character");
    json_int_t row = json_integer_value(line), column = json_integer_value(character);
    if (!json_is_integer(line) || !json_is_integer(character) || row < 0 || column < 0)
        return false;
    *position = (struct caret){(size_t)row, (size_t)column};
    return true;
}

json_t *caret_json(struct caret position)
{
    json_t *json = json_object();
    json_put_number(json, "line", position.line);
    json_put_number(json, "character", position.character);
    return json;
}

json_t *page_range(const struct page *page, size_t start, size_t end)
{
    json_t *json = json_object();
    json_put(json, "start", caret_json(page_caret(page, start)));
    json_put(json, "end", caret_json(page_caret(page, end < start ? start : end)));
    return json;
}

bool page_read_range(const struct page *page, const json_t *json, size_t *start, size_t *end)
{
    struct caret from, to;
    if (!caret_read(json_object_get(json, "start"), &from) || !caret_read(json_object_get(json, "end"), &to))
        return false;
    *start = page_offset(page, from);
    *end = page_offset(page, to);
    if (*end < *start)
        *end = *start;
    return true;
}

#include "lsp/diagnostic.h"

#include <stdlib.h>
#include <string.h>

#include "export/json_text.h"
#include "lsp/uri.h"
#include "source/diag.h"

/* --- pieces --- */

static void write_number(struct text *out, size_t number)
{
    char digits[24], *at = digits + sizeof digits;
    do {
        *--at = (char)('0' + number % 10);
        number /= 10;
    } while (number);
    text_add_bytes(out, at, (size_t)(digits + sizeof digits - at));
}

/* The character C, which cannot be in a string as it is. */
static void write_escaped(struct text *out, unsigned char c)
{
    if (c == '"' || c == '\\')
        text_addf(out, "\\%c", c);
    else if (c == '\n')
        text_add(out, "\\n");
    else
        text_addf(out, "\\u%04x", c);
}

static void write_valid(struct text *out, const char *words)
{
    text_add_char(out, '"');
    for (const char *at = words; *at;) {
        const char *start = at;
        while ((unsigned char)*at >= ' ' && *at != '"' && *at != '\\')
            at++;
        text_add_bytes(out, start, (size_t)(at - start));
        if (*at)
            write_escaped(out, (unsigned char)*at++);
    }
    text_add_char(out, '"');
}

void diagnostic_write_words(struct text *out, const char *words)
{
    if (g_utf8_validate(words, -1, NULL)) {
        write_valid(out, words);
        return;
    }
    char *valid = g_utf8_make_valid(words, -1); /* a path may contain any bytes */
    write_valid(out, valid);
    g_free(valid);
}

static void write_caret(struct text *out, const char *key, struct caret caret)
{
    text_add(out, key);
    text_add(out, "{\"line\":");
    write_number(out, caret.line);
    text_add(out, ",\"character\":");
    write_number(out, caret.character);
    text_add_char(out, '}');
}

static void write_range(struct text *out, const struct page *page, size_t start, size_t end)
{
    write_caret(out, "{\"start\":", page_caret(page, start));
    write_caret(out, ",\"end\":", page_caret(page, end < start ? start : end));
    text_add_char(out, '}');
}

/* --- a finding --- */

/* The words of FINDING, its fix, and the notes that have no place in a file. */
static const char *message_of(const struct call *call, const struct finding *finding)
{
    struct text text = {.arena = call->arena};
    text_add(&text, finding->words);
    for (size_t i = 0; i < finding->note_count; i++)
        if (!finding->notes[i].placed || !call->lsp->wishes.related)
            text_addf(&text, "\nnote: %s", finding->notes[i].words);
    if (finding->help)
        text_addf(&text, "\nfix: %s", finding->help);
    return text_keep(call->arena, &text);
}

static void write_related(struct call *call, const struct club *club, const struct finding *finding, struct text *out)
{
    const char *between = "";
    text_add(out, ",\"relatedInformation\":[");
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct span span = finding->notes[i].span;
        if (!finding->notes[i].placed)
            continue;
        const struct page page = focus_page(call, club, span.file);
        text_add(out, between);
        text_add(out, "{\"location\":{\"uri\":");
        diagnostic_write_words(out, focus_uri(call, club, span.file));
        text_add(out, ",\"range\":");
        write_range(out, &page, span.start, span.end);
        text_add(out, "},\"message\":");
        diagnostic_write_words(out, finding->notes[i].words);
        text_add_char(out, '}');
        between = ",";
    }
    text_add_char(out, ']');
}

/* The end of SPAN, without line ends at its end. */
static size_t shown_end(const struct page *page, struct span span)
{
    size_t end = span.end < span.start ? span.start : span.end;
    while (end > span.start && end <= page->length && strchr("\r\n", page->text[end - 1]))
        end--;
    return end;
}

void diagnostic_write(struct call *call, const struct club *club, const struct page *page, const struct finding *finding,
                      struct text *out)
{
    /* What only informs is for someone who looks at the line: error 1, warning 2, hint 4. */
    static const size_t severities[] = {[SEVERITY_INFO] = 4, [SEVERITY_WARNING] = 2, [SEVERITY_ERROR] = 1};
    const char *name = diagnostic_name(finding->diagnostic);
    text_add(out, "{\"range\":");
    write_range(out, page, finding->span.start, shown_end(page, finding->span));
    text_add(out, ",\"severity\":");
    write_number(out, severities[finding->severity]);
    text_add(out, ",\"code\":");
    diagnostic_write_words(out, name);
    if (call->lsp->wishes.descriptions) {
        text_add(out, ",\"codeDescription\":{\"href\":");
        const char *path = arena_printf(call->arena, "%s/explain/%s.md", call->lsp->host.share, name);
        diagnostic_write_words(out, uri_of_path(call->arena, path));
        text_add_char(out, '}');
    }
    text_add(out, ",\"source\":\"bellsheet\",\"message\":");
    diagnostic_write_words(out, message_of(call, finding));
    if (call->lsp->wishes.related && finding->note_count)
        write_related(call, club, finding, out);
    text_add_char(out, '}');
}

json_t *diagnostic_json(struct call *call, const struct club *club, const struct page *page,
                        const struct finding *finding)
{
    struct text text = {.arena = call->arena};
    diagnostic_write(call, club, page, finding, &text);
    json_t *json = json_loadb(text_get(&text), text.length, 0, NULL);
    if (!json)
        abort(); /* what was just written is JSON, and the program ends when memory runs out */
    return json;
}

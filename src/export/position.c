#include "export/position.h"

#include <glib.h>
#include <string.h>

#include "base/bidi.h"

/* The UTF-16 code units of LENGTH bytes. */
static unsigned utf16_units(const char *text, size_t length)
{
    unsigned units = 0;
    for (const char *p = text; p < text + length;) {
        if (*p > 0) { /* ASCII, as nearly all of a plan is */
            units++;
            p++;
            continue;
        }
        gunichar c = g_utf8_get_char_validated(p, text + length - p);
        bool broken = c == (gunichar)-1 || c == (gunichar)-2;
        units += !broken && c > 0xffff ? 2 : 1;
        p = broken ? p + 1 : g_utf8_next_char(p);
    }
    return units;
}

static struct position position_at(const struct source *source, size_t offset)
{
    if (offset > source->length)
        offset = source->length;
    unsigned line = source_line(source, offset);
    if (line > 1 && offset == source->length && source->lines[line - 1] == offset)
        line--;
    size_t start = source->lines[line - 1];
    return (struct position){line, utf16_units(source->text + start, offset - start) + 1, offset};
}

struct file_stretch stretch_exact(const struct diag *diag, struct span span)
{
    const struct source *source = &diag->sources->items[span.file];
    size_t end = span.end < span.start ? span.start : span.end;
    return (struct file_stretch){source, position_at(source, span.start), position_at(source, end)};
}

struct file_stretch stretch_shown(const struct diag *diag, struct span span)
{
    const struct source *source = &diag->sources->items[span.file];
    while (span.end > span.start && span.end <= source->length &&
           (source->text[span.end - 1] == '\n' || source->text[span.end - 1] == '\r'))
        span.end--;
    return stretch_exact(diag, span);
}

/* The path that starts with NAME, the source's own or that with all its bytes. */
static const char *prefixed_path(struct arena *arena, const struct export_context *context,
                                 const struct source *source, const char *name)
{
    while (name[0] == '.' && name[1] == '/')
        name += 2;
    bool prefixed = context->prefix && !source->shelf && *name != '/';
    return arena_printf(arena, "%s%s", prefixed ? context->prefix : "", name);
}

const char *position_path(struct arena *arena, const struct export_context *context,
                          const struct source *source)
{
    char *valid = g_utf8_make_valid(prefixed_path(arena, context, source, source->name), -1);
    const char *path = arena_copy(arena, valid, strlen(valid));
    g_free(valid);
    return path;
}

const char *position_uri(struct arena *arena, const struct export_context *context,
                         const struct source *source, bool *relative)
{
    static const char plain[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
    const char *path = prefixed_path(arena, context, source, source->given);
    *relative = *path != '/';
    struct text uri = {.arena = arena};
    if (!*relative)
        text_add(&uri, "file://");
    for (const char *p = path; *p; p++) {
        /* Two slashes at the start would name a host. */
        if (*p == '/' && p > path && p[-1] == '/')
            continue;
        if (strchr(plain, *p))
            text_add_char(&uri, *p);
        else
            text_addf(&uri, "%%%02X", (unsigned)(unsigned char)*p);
    }
    return text_keep(arena, &uri);
}

const char *position_words(struct arena *arena, const char *words)
{
    size_t length = strlen(words), fault_length = 0;
    const char *what;
    struct text clean = {.arena = arena};
    while (length) {
        size_t good = text_first_fault(words, length, &what, &fault_length);
        text_add_bytes(&clean, words, good);
        words += good;
        length -= good;
        if (length) {
            text_add_char(&clean, '?');
            words += fault_length;
            length -= fault_length;
        }
    }
    return text_keep(arena, &clean);
}

const char *position_sentence(struct arena *arena, const char *words)
{
    return bidi_isolated(arena, position_words(arena, words));
}

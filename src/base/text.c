#include "base/text.h"

#include <glib.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/unicode.h"

static void text_reserve(struct text *text, size_t more)
{
    size_t need = text->length + more + 1;
    if (need <= text->capacity)
        return;
    size_t room = text->capacity ? text->capacity * 2 : 128;
    while (room < need)
        room *= 2;
    if (text->arena)
        text->data = arena_resize(text->arena, text->data, text->capacity, room);
    else
        text->data = memory_resize(text->data, room);
    text->capacity = room;
}

void text_add_bytes(struct text *text, const char *bytes, size_t length)
{
    text_reserve(text, length);
    if (length)
        memcpy(text->data + text->length, bytes, length);
    text->length += length;
    text->data[text->length] = '\0';
}

void text_add(struct text *text, const char *words)
{
    text_add_bytes(text, words, strlen(words));
}

void text_add_char(struct text *text, char c)
{
    text_add_bytes(text, &c, 1);
}

/* Formed where it will stand, and once more only where the room was too small for it. */
void text_addf(struct text *text, const char *format, ...)
{
    enum { USUAL = 64 };
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    text_reserve(text, USUAL);
    size_t room = text->capacity - text->length;
    int length = vsnprintf(text->data + text->length, room, format, args);
    va_end(args);
    if (length > 0 && (size_t)length >= room) {
        text_reserve(text, (size_t)length);
        vsnprintf(text->data + text->length, (size_t)length + 1, format, again);
    }
    text->length += length > 0 ? (size_t)length : 0;
    text->data[text->length] = '\0';
    va_end(again);
}

void text_clear(struct text *text)
{
    text->length = 0;
    if (text->data)
        text->data[0] = '\0';
}

void text_free(struct text *text)
{
    if (!text->arena)
        free(text->data);
    *text = (struct text){.arena = text->arena};
}

const char *text_keep(struct arena *arena, struct text *text)
{
    bool there = text->arena == arena && text->data;
    const char *kept = there ? arena_resize(arena, text->data, text->capacity, text->length + 1)
                             : arena_copy(arena, text_get(text), text->length);
    text_free(text);
    return kept;
}

const char *text_get(const struct text *text)
{
    return text->data ? text->data : "";
}

const char *text_joined(struct arena *arena, const char *a, const char *b)
{
    size_t first = strlen(a), second = strlen(b);
    char *both = arena_alloc(arena, first + second + 1);
    memcpy(both, a, first + 1);
    memcpy(both + first, b, second + 1);
    return both;
}

/* Writes NAME with its runs of white space folded into OUT, which has room for LENGTH + 1 bytes. */
static size_t fold_spaces(char *out, const char *name, size_t length)
{
    size_t n = 0;
    for (size_t i = 0; i < length; i++) {
        bool space = name[i] == ' ' || name[i] == '\t' || name[i] == '\r' || name[i] == '\n';
        if (space && (n == 0 || out[n - 1] == ' '))
            continue;
        out[n++] = space ? ' ' : name[i];
    }
    if (n && out[n - 1] == ' ')
        n--;
    out[n] = '\0';
    return n;
}

/* Up to eight bytes as a number, the first the lowest. */
static uint64_t word_of(const char *text, size_t length)
{
    uint64_t word = 0;
    memcpy(&word, text, length);
    return GUINT64_FROM_LE(word);
}

/* Eight bytes at a time: everything a plan was read from goes through this, and a wall's texts thousands of times. The
 * length is included, so that a text differs from the same text followed by NULs. The factor is 2^64 over the golden
 * ratio. */
uint64_t text_hash(uint64_t hash, const char *text, size_t length)
{
    const uint64_t factor = UINT64_C(0x9e3779b97f4a7c15);
    hash = (hash ^ length) * factor;
    for (; length >= 8; length -= 8, text += 8) {
        hash = (hash ^ word_of(text, 8)) * factor;
        hash ^= hash >> 32;
    }
    hash = (hash ^ word_of(text, length)) * factor;
    return hash ^ hash >> 32;
}

size_t text_odd_space(const char *at)
{
    const unsigned char *c = (const unsigned char *)at;
    if (c[0] == 0xc2)
        return c[1] == 0xa0 ? 2 : 0; /* U+00A0 */
    if (c[0] == 0xe2 && c[1] == 0x80)
        return (c[2] >= 0x80 && c[2] <= 0x8a) || c[2] == 0xaf ? 3 : 0; /* U+2000 to U+200A, U+202F */
    if (c[0] == 0xe1)
        return c[1] == 0x9a && c[2] == 0x80 ? 3 : 0; /* U+1680 */
    bool medium = c[0] == 0xe2 && c[1] == 0x81 && c[2] == 0x9f, wide = c[0] == 0xe3 && c[1] == 0x80 && c[2] == 0x80;
    return medium || wide ? 3 : 0; /* U+205F, U+3000 */
}

char *text_plain_spaces(struct arena *arena, const char *text, size_t length)
{
    char *copy = arena_copy(arena, text, length), *to = copy;
    for (const char *from = copy; *from;) {
        size_t odd = text_odd_space(from);
        *to++ = odd ? ' ' : *from;
        from += odd ? odd : 1;
    }
    *to = '\0';
    return copy;
}

const char *text_fold(struct arena *arena, const char *name, size_t length)
{
    char *plain = arena_alloc(arena, length + 1);
    size_t n = fold_spaces(plain, name, length);
    bool ascii = true;
    for (size_t i = 0; i < n; i++) {
        ascii = ascii && (unsigned char)plain[i] < 0x80;
        if (plain[i] >= 'A' && plain[i] <= 'Z')
            plain[i] = (char)(plain[i] + ('a' - 'A'));
    }
    if (ascii)
        return plain;
    /* Folding can undo the composed form, so it is composed again afterwards. */
    char *folded = g_utf8_casefold(plain, (gssize)n);
    char *composed = g_utf8_normalize(folded, -1, G_NORMALIZE_NFC);
    const char *result = arena_copy(arena, composed ? composed : plain,
                                    composed ? strlen(composed) : n);
    g_free(folded);
    g_free(composed);
    return result;
}

bool text_is_folded(const char *name)
{
    bool space = true; /* none may stand at the start */
    for (; *name; name++) {
        unsigned char c = (unsigned char)*name;
        if (c >= 'a' && c <= 'z')
            space = false;
        else if (c < ' ' || c >= 0x80 || (c >= 'A' && c <= 'Z') || (space && c == ' '))
            return false;
        else
            space = c == ' ';
    }
    return !space;
}

enum { LONGEST_COMPARED = 64 };

static unsigned characters(const char *text, gunichar *out)
{
    unsigned n = 0;
    for (const char *p = text; *p && n < LONGEST_COMPARED; p = g_utf8_next_char(p))
        out[n++] = (unsigned char)*p < 0x80 ? (unsigned char)*p : g_utf8_get_char(p);
    return n;
}

static unsigned least(unsigned a, unsigned b)
{
    return a < b ? a : b;
}

static unsigned most(unsigned a, unsigned b)
{
    return a > b ? a : b;
}

/* Only places within LIMIT of the diagonal can hold a distance within it, so the others are neither filled nor read,
 * except for one on either side; and once two rows have none, no later row has one. */
static unsigned distance_within(const gunichar *from, unsigned n, const gunichar *to, unsigned m, unsigned limit)
{
    unsigned rows[3][LONGEST_COMPARED + 2] = {{0}}, far = limit + 1, lowest = 0;
    for (unsigned j = 0; j <= m; j++)
        rows[0][j] = j;
    for (unsigned i = 1; i <= n; i++) {
        unsigned *now = rows[i % 3], *last = rows[(i + 2) % 3], *before = rows[(i + 1) % 3];
        unsigned first = i > limit ? i - limit : 1, end = least(m, i + limit), lowest_before = lowest;
        lowest = now[first - 1] = first == 1 ? i : far;
        for (unsigned j = first; j <= end; j++) {
            unsigned swap = from[i - 1] != to[j - 1];
            now[j] = least(least(last[j] + 1, now[j - 1] + 1), last[j - 1] + swap);
            if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
                now[j] = least(now[j], before[j - 2] + 1);
            lowest = least(lowest, now[j]);
        }
        now[end + 1] = far;
        if (lowest > limit && lowest_before > limit)
            return far;
    }
    return least(rows[n % 3][m], far);
}

unsigned text_distance(const char *a, const char *b, unsigned limit)
{
    gunichar start[LONGEST_COMPARED], other[LONGEST_COMPARED], *from = start, *to = other;
    unsigned n = characters(a, from), m = characters(b, to);
    limit = least(limit, LONGEST_COMPARED); /* no distance is more */
    if (most(n, m) - least(n, m) > limit)
        return limit + 1;
    for (; n && m && *from == *to; n--, m--) {
        from++;
        to++;
    }
    while (n && m && from[n - 1] == to[m - 1]) {
        n--;
        m--;
    }
    return distance_within(from, n, to, m, limit);
}

unsigned text_width(const char *text, size_t length)
{
    unsigned width = 0;
    for (const char *p = text; p < text + length;) {
        unsigned char byte = (unsigned char)*p;
        if (byte < 0x80) {
            width += byte == '\t' ? 8 - width % 8 : 1;
            p++;
            continue;
        }
        gunichar c = g_utf8_get_char_validated(p, text + length - p);
        if (c == (gunichar)-1 || c == (gunichar)-2) {
            width++;
            p++;
            continue;
        }
        width += g_unichar_iszerowidth(c) ? 0 : g_unichar_iswide(c) ? 2 : 1;
        p = g_utf8_next_char(p);
    }
    return width;
}

/* How many bytes the character at TEXT takes; *WHAT names it if it is not acceptable. */
static size_t character_at(const char *text, size_t length, const char **what)
{
    unsigned char byte = (unsigned char)*text;
    gunichar c = byte < 0x80 ? byte : g_utf8_get_char_validated(text, (gssize)length);
    if (c == (gunichar)-1 || c == (gunichar)-2) {
        *what = "a byte that is not UTF-8";
        return 1;
    }
    *what = unicode_fault(c);
    return byte < 0x80 ? 1 : (size_t)(g_utf8_next_char(text) - text);
}

size_t text_first_fault(const char *text, size_t length, const char **what, size_t *fault_length)
{
    for (size_t i = 0, size; i < length; i += size) {
        size = 1;
        if ((text[i] >= ' ' && text[i] <= '~') || text[i] == '\n')
            continue;
        *what = NULL;
        size = character_at(text + i, length - i, what);
        if (*what) {
            *fault_length = size;
            return i;
        }
    }
    return length;
}

const char *text_shown(struct arena *arena, const char *name)
{
    const char *what;
    size_t length = strlen(name), size = 0;
    if (text_first_fault(name, length, &what, &size) == length && !strpbrk(name, "\t\n\r"))
        return name;
    struct text out = {.arena = arena};
    for (const char *at = name, *end = name + length; at < end; at += size) {
        size = 1;
        bool fault = text_first_fault(at, (size_t)(end - at), &what, &size) == 0;
        if (*at == '\n')
            text_add(&out, "\\n");
        else if (fault || *at == '\t' || *at == '\r')
            for (size_t i = 0; i < size; i++)
                text_addf(&out, "\\x%02x", (unsigned)(unsigned char)at[i]);
        else
            text_add_bytes(&out, at, size = (size_t)(g_utf8_next_char(at) - at));
    }
    return text_keep(arena, &out);
}

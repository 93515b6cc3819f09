#include "base/unicode.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

enum class {
    PLAIN, INVISIBLE, NO_CHARACTER, UNASSIGNED, PRIVATE, BLANK, ODD, JOINER, VIRAMA, JOINS_BOTH, JOINS_LEFT, JOINS_RIGHT
};

static const struct code_range {
    uint32_t first, last;
    enum class class;
} ranges[] = {
#define RANGE(first, last, class) {first, last, class},
#include "base/unicode.def"
#undef RANGE
};

static const struct look {
    uint32_t character;
    char text[16];
} looks[] = {
#define LOOK(character, text) {character, text},
#include "base/unicode.def"
#undef LOOK
};

static int by_range(const void *key, const void *member)
{
    const uint32_t character = *(const uint32_t *)key;
    const struct code_range *range = member;
    return character < range->first ? -1 : character > range->last;
}

static enum class class_of(uint32_t character)
{
    const struct code_range *range = bsearch(&character, ranges, sizeof ranges / sizeof *ranges, sizeof *ranges, by_range);
    return range ? range->class : PLAIN;
}

/* --- anywhere --- */

/* What chooses between forms of the character before it, which emoji and some scripts are written with. */
static bool is_variant(uint32_t c)
{
    bool mongolian = (c >= 0x180b && c <= 0x180f), any = (c >= 0xfe00 && c <= 0xfe0f), han = (c >= 0xe0100 && c <= 0xe01ef);
    return mongolian || any || han || c == 0x034f;
}

static bool is_control(uint32_t c)
{
    return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || (c >= 0x7f && c < 0xa0);
}

static bool is_bidirectional(uint32_t c)
{
    return (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0x200e || c == 0x200f || c == 0x061c;
}

const char *unicode_fault(uint32_t character)
{
    if (is_control(character))
        return character == 0 ? "a NUL byte" : "a control character";
    if (is_bidirectional(character))
        return "a bidirectional control character";
    if (character == 0x2028 || character == 0x2029)
        return "a line separator other than a newline";
    switch (class_of(character)) {
    case INVISIBLE: return is_variant(character) ? NULL : "an invisible character";
    case NO_CHARACTER: return "a code that is not a character";
    default: return NULL;
    }
}

/* --- in a name --- */

/* Does the joining of a cursive script continue from BEFORE to the letter at AT (RFC 5892, A.1)? There may be marks
 * between. */
static bool is_joined(const char *name, const char *joiner)
{
    const char *before = joiner, *after = g_utf8_next_char(joiner);
    gunichar left = 0, right = 0;
    while (before > name && g_unichar_ismark(left = g_utf8_get_char(before = g_utf8_prev_char(before))))
        continue;
    while ((right = g_utf8_get_char(after)) != 0 && g_unichar_ismark(right))
        after = g_utf8_next_char(after);
    enum class from = class_of(left), to = class_of(right);
    return (from == JOINS_BOTH || from == JOINS_LEFT) && (to == JOINS_BOTH || to == JOINS_RIGHT);
}

/* Does the script around the invisible character AT need it there? */
static bool is_needed(const char *name, const char *at)
{
    gunichar c = g_utf8_get_char(at), before = at > name ? g_utf8_get_char(g_utf8_prev_char(at)) : 0;
    gunichar after = g_utf8_get_char(g_utf8_next_char(at));
    enum { NON_JOINER = 0x200c, JOINER_ITSELF = 0x200d };
    if (c == NON_JOINER)
        return class_of(before) == VIRAMA || is_joined(name, at);
    if (c == JOINER_ITSELF)
        return class_of(before) == VIRAMA || (class_of(after) == VIRAMA && g_unichar_isalpha(before));
    GUnicodeScript script = g_unichar_get_script(before);
    return (c >= 0x180b && c <= 0x180f && script == G_UNICODE_SCRIPT_MONGOLIAN) ||
           (c >= 0xe0100 && c <= 0xe01ef && script == G_UNICODE_SCRIPT_HAN);
}

static const char *name_fault_at(const char *name, const char *at)
{
    gunichar c = g_utf8_get_char(at);
    switch (class_of(c)) {
    case INVISIBLE: case JOINER: return is_needed(name, at) ? NULL : "an invisible character";
    case NO_CHARACTER: return "a code that is not a character";
    case UNASSIGNED: return "a code that no character has yet";
    case PRIVATE: return "a character that looks different on each machine";
    case BLANK: return "a blank that is not a space";
    case ODD: return "a sign that stands for something else";
    default: return unicode_fault(c);
    }
}

size_t unicode_name_fault(const char *name, size_t length, const char **what, size_t *size)
{
    for (size_t i = 0; i < length;) {
        if ((unsigned char)name[i] < 0x80) {
            i++;
            continue;
        }
        *size = (size_t)(g_utf8_next_char(name + i) - (name + i));
        if ((*what = name_fault_at(name, name + i)) != NULL)
            return i;
        i += *size;
    }
    return length;
}

/* --- what looks the same --- */

static int by_character(const void *key, const void *member)
{
    const uint32_t character = *(const uint32_t *)key;
    const struct look *look = member;
    return character < look->character ? -1 : character > look->character;
}

/* The text that CHARACTER looks like, or NULL. */
static const char *look_of(uint32_t character)
{
    const struct look *look = bsearch(&character, looks, sizeof looks / sizeof *looks, sizeof *looks, by_character);
    return look ? look->text : NULL;
}

/* Are all of NAME's characters ASCII, and none of those that look like another? */
static bool is_unlike(const char *name)
{
    for (; *name; name++) {
        switch (*name) {
        case '0': case '1': case 'I': case '|': case '"': case '`': case '%': return false;
        default:
            if ((unsigned char)*name >= 0x80)
                return false;
        }
    }
    return true;
}

const char *unicode_look(struct arena *arena, const char *name)
{
    if (is_unlike(name))
        return name;
    char *plain = g_utf8_normalize(name, -1, G_NORMALIZE_ALL_COMPOSE);
    char *parts = plain ? g_utf8_normalize(plain, -1, G_NORMALIZE_DEFAULT) : NULL;
    struct text look = {.arena = arena};
    for (const char *at = parts ? parts : name; *at; at = g_utf8_next_char(at)) {
        gunichar c = g_utf8_get_char(at);
        enum class class = c < 0x80 ? PLAIN : class_of(c);
        const char *like = look_of(c);
        if (class == INVISIBLE || class == JOINER)
            continue;
        text_add_bytes(&look, like ? like : at, like ? strlen(like) : (size_t)(g_utf8_next_char(at) - at));
    }
    char *settled = g_utf8_normalize(text_get(&look), -1, G_NORMALIZE_DEFAULT);
    const char *copy = settled ? settled : name;
    copy = arena_copy(arena, copy, strlen(copy));
    g_free(settled);
    g_free(parts);
    g_free(plain);
    return copy;
}

bool unicode_is_latin(const char *name)
{
    for (const char *at = name; *at; at = g_utf8_next_char(at)) {
        gunichar c = g_utf8_get_char(at);
        if (c >= 0x80 && g_unichar_isalpha(c) && g_unichar_get_script(c) != G_UNICODE_SCRIPT_LATIN)
            return false;
    }
    return true;
}

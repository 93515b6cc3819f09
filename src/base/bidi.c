#include "base/bidi.h"

#include <glib.h>
#include <stdbool.h>
#include <string.h>

#include "base/text.h"

#define ISOLATE "\342\201\250" /* U+2068, first strong isolate */
#define POP "\342\201\251"     /* U+2069, pop directional isolate */

/* Blocks of scripts written from right to left, by what the Unicode Character Database gives as the default. */
static bool is_rtl(gunichar c)
{
    return (c >= 0x590 && c <= 0x8ff) || (c >= 0xfb1d && c <= 0xfdff) || (c >= 0xfe70 && c <= 0xfefe) ||
           (c >= 0x10800 && c <= 0x10fff) || (c >= 0x1e800 && c <= 0x1efff);
}

/* What may stand between two words of one name. */
static bool joins_words(gunichar c)
{
    return c == ' ' || c == 0xa0 || c == '-' || c == '\'' || c == 0x2019 || c == '.' || g_unichar_ismark(c) || c == 0x200c ||
           c == 0x200d;
}

/* Quick, as nearly every text is asked about: bytes below 0xd6 begin no character of those scripts, and all that continue one
 * are below it. */
static bool has_rtl(const char *text)
{
    for (const char *p = text; *p; p++)
        if ((unsigned char)*p >= 0xd6 && is_rtl(g_utf8_get_char(p)))
            return true;
    return false;
}

static bool has_other_letters(const char *text)
{
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        gunichar c = g_utf8_get_char(p);
        if (g_unichar_isalpha(c) && !is_rtl(c))
            return true;
    }
    return false;
}

/* Behind the last right-to-left character of the run that begins at START. */
static const char *run_end(const char *start)
{
    const char *end = start;
    for (const char *p = start; *p; p = g_utf8_next_char(p)) {
        gunichar c = g_utf8_get_char(p);
        if (is_rtl(c))
            end = g_utf8_next_char(p);
        else if (!joins_words(c))
            break;
    }
    return end;
}

bool bidi_is_isolated(const char *text)
{
    return strstr(text, ISOLATE) != NULL;
}

const char *bidi_isolated(struct arena *arena, const char *text)
{
    if (!has_rtl(text) || !has_other_letters(text) || bidi_is_isolated(text))
        return text;
    struct text out = {.arena = arena};
    bool quoted = false;
    for (const char *p = text; *p;) {
        const char *next = g_utf8_next_char(p);
        quoted ^= *p == '`';
        bool run = !quoted && is_rtl(g_utf8_get_char(p));
        if (run)
            next = run_end(p);
        text_add(&out, run ? ISOLATE : "");
        text_add_bytes(&out, p, (size_t)(next - p));
        text_add(&out, run ? POP : "");
        p = next;
    }
    return text_keep(arena, &out);
}

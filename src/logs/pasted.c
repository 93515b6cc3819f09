#include "logs/pasted.h"

#include <glib.h>
#include <string.h>

#include "syntax/phrases.h"

/* What the lines at the margin belong to: those of the last declaration. */
enum below { BELOW_NOTHING, BELOW_LOG, BELOW_RESULTS };

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

/* Does LINE start with WORDS, whatever their capitals, and does a word end there? */
static bool starts_with(const char *line, size_t length, const char *words, size_t of_words)
{
    return length >= of_words && g_ascii_strncasecmp(line, words, of_words) == 0 &&
           (length == of_words || is_space(line[of_words]));
}

/* Is LINE what a log has below it: one of its statements, or the sets of a line such as A.1? */
static bool belongs_to_log(const struct phrasebook *phrases, const char *line, size_t length)
{
    size_t head = 0, at = 1;
    while (head < length && g_ascii_isalpha(line[head]))
        head++;
    for (const struct phrase *phrase = head ? phrase_like(&phrases->statement_index, line, head) : NULL; phrase;
         phrase = phrase->next)
        if ((phrase->statement->places & IN_LOG) && starts_with(line, length, phrase->words, phrase->length))
            return true;
    at += at < length && line[at] == '.';
    size_t digits = at;
    while (at < length && g_ascii_isdigit(line[at]))
        at++;
    if (head != 1 || at == digits)
        return false;
    while (at < length && is_space(line[at]))
        at++;
    return at < length && line[at] == ':';
}

/* How many bytes at LINE, which a NUL ends somewhere, are spaces, also those that messengers put in place of others. */
static size_t leading_space(const char *line, size_t length)
{
    size_t at = 0, odd = 0;
    while (at < length && (is_space(line[at]) || (odd = text_odd_space(line + at)) > 0)) {
        at += is_space(line[at]) ? 1 : odd;
        odd = 0;
    }
    return at < length ? at : length;
}

/* How many bytes at LINE mark it as quoted: `> > `. */
static size_t quote_marks(const char *line, size_t length)
{
    size_t at = 0;
    while (at < length && line[at] == '>') {
        at++;
        at += at < length && line[at] == ' ';
    }
    return at;
}

/* What LINE begins, wherever it starts: nothing that belongs below a log starts so. */
static enum below begins(const char *line, size_t length)
{
    static const char *const heads[] = {[BELOW_LOG] = "log", [BELOW_RESULTS] = "results"};
    for (enum below below = BELOW_LOG; below <= BELOW_RESULTS; below++) {
        size_t head = strlen(heads[below]);
        if (starts_with(line, length, heads[below], head) && length > head + 1 && g_ascii_isdigit(line[head + 1]))
            return below;
    }
    return BELOW_NOTHING;
}

static void restore_line(const struct phrasebook *phrases, const char *line, size_t length, enum below *below,
                         struct text *out)
{
    size_t quote = quote_marks(line, length);
    size_t space = leading_space(line + quote, length - quote);
    const char *words = line + quote + space;
    size_t rest = length - quote - space;
    enum below head = begins(words, rest);
    bool belongs = (*below == BELOW_LOG && belongs_to_log(phrases, words, rest)) ||
                   (*below == BELOW_RESULTS && memchr(words, ':', rest));
    bool indented = rest && !head && (space || belongs);
    if (head || (rest && !indented))
        *below = head;
    text_addf(out, "%s%.*s\n", indented ? "    " : "", (int)rest, words);
}

struct text pasted_restore(struct arena *arena, const struct phrasebook *phrases, const char *text, size_t length)
{
    struct text out = {.arena = arena};
    enum below below = BELOW_NOTHING;
    for (const char *at = text, *end = text + length, *next; at < end; at = next) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        next = stop ? stop + 1 : end;
        restore_line(phrases, at, (size_t)((stop ? stop : end) - at), &below, &out);
    }
    return out;
}

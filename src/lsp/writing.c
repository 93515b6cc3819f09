#include "lsp/writing.h"

#include <string.h>
#include <strings.h>

enum { DEEPEST = 12 };

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static bool is_sign(char c)
{
    return c && strchr(":@+/,;%", c);
}

/* A line as bytes, without its end. */
struct written_line {
    const char *text;
    size_t indent, length;
};

static struct written_line line_at(const char *text, size_t start, size_t end)
{
    struct written_line line = {.text = text + start};
    while (start + line.length < end && !strchr("\n\r", line.text[line.length]))
        line.length++;
    while (line.indent < line.length && is_blank(line.text[line.indent]))
        line.indent++;
    return line;
}

static bool says_something(const struct written_line *line)
{
    return line->indent < line->length && line->text[line->indent] != '#';
}

/* How many of the SIZE bytes from START spell PHRASE, of LENGTH bytes, and end a word; 0 if they do not. */
static size_t spells(const char *phrase, size_t length, const char *start, size_t size)
{
    size_t at = 0;
    for (size_t i = 0; i < length; i++) {
        if (phrase[i] == ' ' && at < size && is_blank(start[at])) {
            while (at < size && is_blank(start[at]))
                at++;
        } else if (at >= size || strncasecmp(&phrase[i], &start[at], 1) != 0) {
            return 0;
        } else {
            at++;
        }
    }
    return at == size || is_blank(start[at]) || is_sign(start[at]) ? at : 0;
}

bool phrase_begins(const char *phrase, size_t length, const char *start, size_t size)
{
    size_t i = 0;
    for (size_t at = 0; at < size; i++) {
        if (i >= length)
            return false;
        if (phrase[i] == ' ' && is_blank(start[at])) {
            while (at < size && is_blank(start[at]))
                at++;
        } else if (strncasecmp(&phrase[i], &start[at], 1) != 0) {
            return false;
        } else {
            at++;
        }
    }
    return true;
}

/* Is there a colon in the line that separates a name from a dose? */
static bool has_colon(const char *start, size_t size)
{
    for (size_t i = 0; i < size; i++)
        if (start[i] == ':' && (i + 1 == size || is_blank(start[i + 1])))
            return true;
    return false;
}

/* The statement of PLACE that LINE is, by its first words; *TAKEN is their length in bytes. */
static const struct statement *find_statement(const struct phrasebook *book, int place, const struct written_line *line,
                                              size_t *taken)
{
    const char *start = line->text + line->indent;
    size_t size = line->length - line->indent, best = 0;
    const struct statement *found = NULL, *fallback = phrasebook_default(book, place);
    for (int first = 0; first < 256; first++) {
        for (size_t i = 0; i < book->statements[first].count; i++) {
            const struct phrase *phrase = &book->statements[first].items[i];
            if (!(phrase->statement->places & place) || phrase->length == 0)
                continue;
            size_t spelt = *phrase->words == '#' ? 0 : spells(phrase->words, phrase->length, start, size);
            if (*phrase->words == '#' && size && *start >= '0' && *start <= '9' && !best)
                found = phrase->statement;
            bool suits = !fallback || strpbrk(phrase->statement->form->steps, ":t") || !has_colon(start, size);
            if (spelt > best && suits) {
                best = spelt;
                found = phrase->statement;
            }
        }
    }
    *taken = best;
    return found;
}

/* The lines above LINE that it is indented below, the nearest first; LINE begins at byte START. Returns how many
 * there are. */
static size_t find_above(const char *text, size_t start, size_t indent, struct written_line above[DEEPEST])
{
    size_t count = 0;
    while (start > 0 && indent > 0 && count < DEEPEST) {
        size_t end = start - 1;
        for (start = end; start > 0 && text[start - 1] != '\n';)
            start--;
        struct written_line line = line_at(text, start, end);
        if (!says_something(&line) || line.indent >= indent)
            continue;
        indent = line.indent;
        above[count++] = line;
    }
    return count;
}

struct writing writing_find(const struct phrasebook *book, const char *text, size_t length, size_t caret)
{
    struct writing writing = {.book = book, .caret = caret, .place = IN_FILE};
    struct written_line above[DEEPEST];
    size_t start = caret, taken;
    while (start > 0 && !strchr("\n\r", text[start - 1]))
        start--;
    struct written_line whole = line_at(text, start, length), line = line_at(text, start, caret);
    writing.indent = start + (whole.indent < line.length ? whole.indent : line.length);
    size_t count = find_above(text, start, whole.indent < line.length ? whole.indent : line.length, above);
    for (size_t i = count; i-- > 0 && writing.place;) {
        const struct statement *statement = find_statement(book, writing.place, &above[i], &taken);
        if (!statement)
            statement = phrasebook_default(book, writing.place);
        writing.place = statement ? statement->opens : 0;
    }
    if (!writing.place)
        return writing;
    writing.fallback = phrasebook_default(book, writing.place);
    const struct statement *statement = find_statement(book, writing.place, &line, &taken);
    /* Words are only complete once something follows them. */
    if (statement && line.indent + taken < line.length) {
        writing.statement = statement;
        writing.behind = start + line.indent + taken;
        while (writing.behind < caret && is_blank(text[writing.behind]))
            writing.behind++;
    }
    return writing;
}

#include "logs/stanzas.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

/* --- lines --- */

struct file_line {
    const char *text;
    size_t length; /* without spaces and line end after it */
    bool blank, comment, indented;
};

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

static bool starts_comment(const char *text, size_t length)
{
    return length && *text == '#' && (length == 1 || is_space(text[1]));
}

static struct file_line line_at(const char *text, const char *end)
{
    const char *stop = memchr(text, '\n', (size_t)(end - text));
    size_t length = (size_t)((stop ? stop : end) - text);
    while (length && is_space(text[length - 1]))
        length--;
    return (struct file_line){.text = text, .length = length, .blank = length == 0,
                         .comment = starts_comment(text, length), .indented = length && is_space(*text)};
}

static const char *next_line(const char *text, const char *end)
{
    const char *stop = memchr(text, '\n', (size_t)(end - text));
    return stop ? stop + 1 : end;
}

/* --- keys --- */

/* How much of LINE, which begins with a word, comes before a comment. */
static size_t before_comment(const struct file_line *line)
{
    for (size_t i = 1; i < line->length; i++)
        if (starts_comment(line->text + i, line->length - i) && is_space(line->text[i - 1])) {
            while (is_space(line->text[i - 1]))
                i--;
            return i;
        }
    return line->length;
}

/* Puts the key of the log whose folded line continues with REST, from its date on, into STANZA; false if it is not a
 * log. */
static bool take_log_key(struct arena *arena, const char *rest, struct stanza *stanza)
{
    unsigned year, month, of_month, hour, minute;
    int length = 0, more = 0;
    if (sscanf(rest, "%4u-%2u-%2u %n", &year, &month, &of_month, &length) != 3)
        return false;
    if (sscanf(rest + length, "%2u:%2u %n", &hour, &minute, &more) == 2)
        stanza->day = arena_printf(arena, "%04u-%02u-%02u %02u:%02u", year, month, of_month, hour, minute);
    else
        stanza->day = arena_printf(arena, "%04u-%02u-%02u", year, month, of_month);
    const char *who = rest + length + more, *comma = strchr(who, ',');
    size_t named = comma ? (size_t)(comma - who) : strlen(who);
    while (named && who[named - 1] == ' ')
        named--;
    const char *what = comma ? comma + 1 + strspn(comma + 1, " ") : "";
    stanza->key = arena_printf(arena, "log %s %.*s, %s", stanza->day, (int)named, who, what);
    return true;
}

/* The same for the results of one athlete on one day. */
static bool take_results_key(struct arena *arena, const char *rest, struct stanza *stanza)
{
    unsigned year, month, of_month;
    int length = 0;
    if (sscanf(rest, "%4u-%2u-%2u %n", &year, &month, &of_month, &length) != 3)
        return false;
    stanza->day = arena_printf(arena, "%04u-%02u-%02u", year, month, of_month);
    stanza->key = arena_printf(arena, "results %s %s", stanza->day, rest + length);
    return true;
}

/* Works out what STANZA is, whose declaration is LINE. */
static void take_title(struct arena *arena, const struct file_line *line, struct stanza *stanza)
{
    size_t length = before_comment(line);
    const char *folded = text_fold(arena, line->text, length);
    stanza->title = arena_copy(arena, line->text, length);
    stanza->key = folded;
    stanza->day = "";
    stanza->log = (strncmp(folded, "log ", 4) == 0 && take_log_key(arena, folded + 4, stanza)) ||
                  (strncmp(folded, "results ", 8) == 0 && take_results_key(arena, folded + 8, stanza));
}

/* Numbers stanzas with the same key, to tell them apart. */
static void number_keys(struct arena *arena, struct stanzas *stanzas)
{
    GHashTable *seen = g_hash_table_new(g_str_hash, g_str_equal);
    int *times = arena_alloc(arena, (stanzas->count + 1) * sizeof *times); /* at each that is the first of its key */
    for (size_t i = 0; i < stanzas->count; i++) {
        struct stanza *stanza = &stanzas->items[i];
        int *before = g_hash_table_lookup(seen, stanza->key);
        if (before) {
            stanza->key = arena_printf(arena, "%s\n%d", stanza->key, ++*before);
        } else {
            times[i] = 1;
            g_hash_table_insert(seen, (void *)stanza->key, &times[i]);
        }
    }
    g_hash_table_destroy(seen);
}

/* --- the whole --- */

struct splitting {
    struct arena *arena;
    struct stanzas *stanzas;
    struct stanza *open; /* that the next line may continue */
    bool only_comments;  /* it has no declaration yet */
    int blank;           /* lines since the last that is not blank */
};

static struct stanza *begin(struct splitting *splitting, const struct file_line *line, unsigned number)
{
    struct stanzas *all = splitting->stanzas;
    all->items = arena_grow(splitting->arena, all->items, all->count, &all->capacity, sizeof *all->items);
    struct stanza *stanza = &all->items[all->count++];
    *stanza = (struct stanza){.text = line->text, .line = number, .key = "", .title = "", .day = "",
                              .orphan = line->indented, .gap = splitting->blank};
    splitting->open = stanza;
    splitting->only_comments = line->comment;
    return stanza;
}

/* A comment at the start of a line does not end a block: if indented lines follow it, they continue the declaration
 * above, and so the comment belongs to it too. Without a declaration above, all so far is one stanza. */
static void reopen_declaration(struct splitting *splitting)
{
    struct stanzas *all = splitting->stanzas;
    while (all->count > 1 && !*all->items[all->count - 1].key)
        all->count--;
    splitting->open = &all->items[all->count - 1];
    splitting->open->orphan = !*splitting->open->key;
    splitting->only_comments = false;
}

/* Does LINE belong to the stanza that is open? */
static bool goes_on(const struct splitting *splitting, const struct file_line *line)
{
    if (!splitting->open)
        return false;
    if (line->indented)
        return !splitting->only_comments;
    return splitting->only_comments && !splitting->blank;
}

static void take_line(struct splitting *splitting, const struct file_line *line, unsigned number)
{
    if (line->blank) {
        splitting->blank++;
        return;
    }
    if (line->indented && splitting->open && splitting->only_comments)
        reopen_declaration(splitting);
    bool more = goes_on(splitting, line);
    struct stanza *stanza = more ? splitting->open : begin(splitting, line, number);
    stanza->length = (size_t)(line->text + line->length - stanza->text);
    if (!line->comment && !line->indented && (!more || splitting->only_comments)) {
        take_title(splitting->arena, line, stanza);
        splitting->only_comments = false;
    } else if (line->indented) {
        stanza->filled |= line->text[strspn(line->text, " \t")] != '#';
    }
    splitting->blank = 0;
}

struct stanzas stanzas_of(struct arena *arena, const char *text, size_t length)
{
    struct stanzas stanzas = {NULL, 0, 0};
    struct splitting splitting = {.arena = arena, .stanzas = &stanzas};
    unsigned number = 1;
    for (const char *at = text, *end = text + length; at < end; at = next_line(at, end), number++) {
        struct file_line line = line_at(at, end);
        take_line(&splitting, &line, number);
    }
    for (size_t i = 0; i < stanzas.count; i++)
        if (!*stanzas.items[i].key)
            stanzas.items[i].key = text_fold(arena, stanzas.items[i].text, stanzas.items[i].length);
    number_keys(arena, &stanzas);
    return stanzas;
}

const struct stanza *stanzas_find(const struct stanzas *stanzas, const char *key)
{
    for (size_t i = 0; i < stanzas->count; i++)
        if (text_same(stanzas->items[i].key, key))
            return &stanzas->items[i];
    return NULL;
}

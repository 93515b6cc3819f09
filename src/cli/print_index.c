/* print_index.c - a page of HTML that shows what was printed: cards for a phone, links to the rest. */
#include <glib.h>
#include <string.h>

#include "cli/print.h"
#include "figures/dates.h"

/* System letters, one column, nothing that moves. Colours as on paper. */
static const char head[] =
    "<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<style>\n"
    "body { margin: 0 auto; max-width: 60rem; padding: 0.75rem; font-family: sans-serif;\n"
    "  line-height: 1.4; color: #141414; background: #fff; overflow-wrap: anywhere }\n"
    "h1 { font-size: 1.5rem; margin: 0 0 0.5rem }\n"
    "h2 { font-size: 1.2rem; border-top: 3px solid #141414; padding-top: 0.5rem; margin: 2rem 0 0 "
    "}\n"
    "h3 { font-size: 1rem; margin: 1rem 0 0.25rem }\n"
    "a { color: #b03a0c; display: inline-block; padding: 0.75rem 1rem 0.75rem 0 }\n"
    ".card { padding: 0 }\n"
    ".cards { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 18rem), "
    "1fr));\n"
    "  gap: 0.75rem }\n"
    "img { display: block; width: 100%; height: auto; border: 1px solid #c8c8c8 }\n"
    "p { margin: 0.25rem 0 }\n"
    "</style>\n";

static void add_escaped(struct text *out, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    text_add(out, escaped);
    g_free(escaped);
}

static void add_address(struct text *out, const char *name)
{
    char *escaped = g_uri_escape_string(name, NULL, FALSE);
    text_add(out, escaped);
    g_free(escaped);
}

static void add_element(struct text *out, const char *tag, const char *words)
{
    text_addf(out, "<%s>", tag);
    add_escaped(out, words);
    text_addf(out, "</%s>\n", tag);
}

static bool is_card(const struct printed *printed)
{
    return printed->sheet->scope == SCOPE_SESSION_EACH;
}

static bool of_session(const struct printed *printed)
{
    return printed->sheet->scope == SCOPE_SESSION || is_card(printed);
}

static void add_link(struct text *out, const struct printed *printed, const char *words)
{
    text_add(out, "<a href=\"");
    add_address(out, printed->name);
    text_add(out, "\">");
    add_escaped(out, words);
    text_add(out, "</a>\n");
}

/* A card is a picture that opens by itself, to be drawn large with two fingers. */
static void add_card(struct text *out, const struct printed *printed)
{
    text_add(out, "<a class=\"card\" href=\"");
    add_address(out, printed->name);
    text_add(out, "\"><img loading=\"lazy\" width=\"420\" height=\"592\" src=\"");
    add_address(out, printed->name);
    text_add(out, "\" alt=\"");
    add_escaped(out, printed->title);
    if (printed->page > 1)
        text_addf(out, ", side %d", printed->page);
    text_add(out, "\"></a>\n");
}

static bool together(const struct printed *a, const struct printed *b)
{
    const struct occasion *one = a->occasion, *other = b->occasion;
    return one->session == other->session && one->date == other->date &&
           one->clock == other->clock && one->camp == other->camp;
}

/* The sheets of one session from FIRST on, the links before the cards; returns the first behind them. */
static size_t add_session(const struct printing *printing, size_t first, struct text *out)
{
    const struct printed *items = printing->items;
    size_t end = first;
    while (end < printing->count && items[end].sheet && of_session(&items[end]) &&
           together(&items[first], &items[end]))
        end++;
    struct arena *arena = printing->project->arena;
    int clock = items[first].occasion->clock;
    const char *hour =
        clock >= 0 ? arena_printf(arena, "%d:%02d ", clock / 3600, clock / 60 % 60) : "";
    add_element(out, "h3",
                arena_printf(arena, "%s%s", hour, items[first].occasion->session->name.shown));
    text_add(out, "<p>");
    for (size_t i = first; i < end; i++)
        if (!is_card(&items[i]))
            add_link(out, &items[i], items[i].sheet->name);
    text_add(out, "</p>\n<div class=\"cards\">\n");
    for (size_t i = first; i < end; i++)
        if (is_card(&items[i]))
            add_card(out, &items[i]);
    text_add(out, "</div>\n");
    return end;
}

static void add_others(const struct printing *printing, struct text *out)
{
    bool any = false;
    for (size_t i = 0; i < printing->count; i++) {
        if (of_session(&printing->items[i]))
            continue;
        if (!any)
            text_add(out, "<h2>Weeks and camps</h2>\n");
        any = true;
        text_add(out, "<p>");
        add_link(out, &printing->items[i], printing->items[i].title);
        text_add(out, "</p>\n");
    }
}

void print_index(const struct printing *printing, struct text *out)
{
    int date = 0;
    text_addf(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n%s", head);
    add_element(out, "title", printing->project->name);
    text_add(out, "</head>\n<body>\n");
    add_element(out, "h1", printing->project->name);
    for (size_t i = 0; i < printing->count;) {
        const struct printed *printed = &printing->items[i];
        if (!of_session(printed)) {
            i++;
            continue;
        }
        if (printed->occasion->date != date) {
            date = printed->occasion->date;
            add_element(out, "h2", print_day_words(printing->project->arena, date));
        }
        i = add_session(printing, i, out);
    }
    add_others(printing, out);
    text_add(out, "</body>\n</html>\n");
}

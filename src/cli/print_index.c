/* print_index.c - a page of HTML that shows what was printed: cards for a phone, links to the rest. */
#include <glib.h>
#include <string.h>

#include "cli/print.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "model/athlete.h"
#include "model/occasion.h"

/* System letters, one column, nothing that moves. Colours as on paper, or light on dark if the phone asks for it; a
 * card is paper either way. Every link is as high as a thumb. */
static const char head[] =
    "<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<style>\n"
    ":root { color-scheme: light dark; --ink: #141414; --paper: #fff; --spot: #b03a0c; --hair: "
    "#c8c8c8 }\n"
    "@media (prefers-color-scheme: dark) {\n"
    "  :root { --ink: #ececec; --paper: #161616; --spot: #ff9a66; --hair: #5a5a5a }\n"
    "}\n"
    "body { margin: 0 auto; max-width: 60rem; padding: 0.75rem; font-family: sans-serif;\n"
    "  line-height: 1.4; color: var(--ink); background: var(--paper); overflow-wrap: anywhere }\n"
    "h1 { font-size: 1.5rem; margin: 0 0 0.25rem }\n"
    "h2 { font-size: 1.2rem; border-top: 3px solid var(--ink); padding-top: 0.5rem; margin: 2rem 0 "
    "0 }\n"
    "h3 { font-size: 1rem; margin: 1rem 0 0 }\n"
    "p { display: flex; flex-wrap: wrap; column-gap: 1.25rem; margin: 0 }\n"
    "a { color: var(--spot); padding: 0.6rem 0 }\n"
    ".card { padding: 0 }\n"
    ".cards { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 18rem), "
    "1fr));\n"
    "  gap: 0.75rem; margin: 0.25rem -0.75rem 0 }\n"
    "img { display: block; width: 100%; height: auto; background: #fff; outline: 1px solid "
    "var(--hair) }\n"
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
    return printed->sheet && printed->sheet->scope == SCOPE_SESSION_EACH;
}

static bool of_session(const struct printed *printed)
{
    return printed->sheet && (printed->sheet->scope == SCOPE_SESSION || is_card(printed));
}

static void add_link(struct text *out, const struct printed *printed, const char *words)
{
    text_add(out, "<a href=\"");
    add_address(out, printed->name);
    text_add(out, "\">");
    add_escaped(out, words);
    text_add(out, "</a>\n");
}

/* A card is a picture that opens by itself, so that two fingers can enlarge it. ID is the number of its file. */
static void add_card(struct text *out, const struct printed *printed, size_t id)
{
    text_addf(out, "<a class=\"card\" id=\"card-%zu\" href=\"", id);
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

/* For a squad, each athlete's name leads to the card below. */
static void add_names(const struct printing *printing, size_t first, size_t end, struct text *out)
{
    const struct printed *items = printing->items;
    size_t cards = 0;
    for (size_t i = first; i < end; i++)
        cards += is_card(&items[i]) && items[i].page == 1;
    if (cards < 2)
        return;
    text_add(out, "<p>");
    for (size_t i = first; i < end; i++)
        if (is_card(&items[i]) && items[i].page == 1) {
            text_addf(out, "<a href=\"#card-%zu\">", i);
            add_escaped(out, items[i].occasion->athlete->name.shown);
            text_add(out, "</a>\n");
        }
    text_add(out, "</p>\n");
}

/* The sheets of one session from FIRST on, the links before the cards; returns the first sheet after them. */
static size_t add_session(const struct printing *printing, size_t first, struct text *out)
{
    const struct printed *items = printing->items;
    size_t end = first, cards = 0;
    while (end < printing->count && items[end].sheet && of_session(&items[end]) &&
           together(&items[first], &items[end]))
        cards += is_card(&items[end++]);
    struct arena *arena = printing->project->arena;
    int clock = items[first].occasion->clock;
    const char *hour =
        clock >= 0 ? arena_printf(arena, "%d:%02d ", clock / 3600, clock / 60 % 60) : "";
    add_element(out, "h3",
                arena_printf(arena, "%s%s", hour, items[first].occasion->session->name.shown));
    if (cards < end - first)
        text_add(out, "<p>");
    for (size_t i = first; i < end; i++)
        if (!is_card(&items[i]))
            add_link(out, &items[i], arena_printf(arena, "%s (PDF)", items[i].sheet->name));
    if (cards < end - first)
        text_add(out, "</p>\n");
    add_names(printing, first, end, out);
    if (cards)
        text_add(out, "<div class=\"cards\">\n");
    for (size_t i = first; i < end; i++)
        if (is_card(&items[i]))
            add_card(out, &items[i], i);
    if (cards)
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
            text_add(out, "<h2>Weeks, camps and pages to log on</h2>\n");
        any = true;
        text_add(out, "<p>");
        add_link(out, &printing->items[i], printing->items[i].title);
        text_add(out, "</p>\n");
    }
}

/* Links to the days, where there are several. */
static void add_days(const struct printing *printing, struct text *out)
{
    const struct printed *items = printing->items;
    int date = 0, last = 0;
    for (size_t i = 0; i < printing->count; i++)
        if (of_session(&items[i])) {
            date = date ? date : items[i].occasion->date;
            last = items[i].occasion->date;
        }
    if (date == last)
        return;
    text_add(out, "<p>");
    date = 0;
    for (size_t i = 0; i < printing->count; i++) {
        if (!of_session(&items[i]) || items[i].occasion->date == date)
            continue;
        date = items[i].occasion->date;
        text_addf(out, "<a href=\"#day-%d\">", date);
        const char *words = sheet_day_words(printing->project->arena, date);
        const char *year = strrchr(words, ' '); /* stands at the day itself */
        text_add_bytes(out, words, year ? (size_t)(year - words) : strlen(words));
        text_add(out, "</a>\n");
    }
    text_add(out, "</p>\n");
}

static void add_page(const struct printing *printing, struct text *out)
{
    int date = 0;
    text_addf(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n%s", head);
    add_element(out, "title", printing->project->name);
    text_add(out, "</head>\n<body>\n");
    add_element(out, "h1", printing->project->name);
    add_days(printing, out);
    for (size_t i = 0; i < printing->count;) {
        const struct printed *printed = &printing->items[i];
        if (!of_session(printed)) {
            i++;
            continue;
        }
        if (printed->occasion->date != date) {
            date = printed->occasion->date;
            text_addf(out, "<h2 id=\"day-%d\">%s</h2>\n", date,
                      sheet_day_words(printing->project->arena, date));
        }
        i = add_session(printing, i, out);
    }
    add_others(printing, out);
    text_add(out, "</body>\n</html>\n");
}

/* Is the page in the folder, as PAGE has it? */
static bool is_written(const struct listed_sheet *entry, const char *version, const struct printing *printing)
{
    return strcmp(entry->version, version) == 0 && !printing->options->all_again &&
           listed_is_there(printing->project->arena, entry, printing->options->out);
}

void print_file_listed(struct printing *printing, const char *name, const char *kind, const struct text *page)
{
    struct listed_sheet *entry = sheet_list_put(&printing->list, name);
    const char *version = arena_printf(printing->project->arena, "%08x",
                                       (unsigned)(text_hash(0, text_get(page), page->length) >> 32));
    entry->seen = true;
    if (is_written(entry, version, printing))
        return;
    print_write(printing, name, NULL, page);
    if (printing->failed)
        return;
    print_say(printing, name);
    *entry = (struct listed_sheet){
        .name = name, .sheet = kind, .plan = printing->project->name, .version = version, .title = "", .pages = 1, .form = "", .seen = true};
    const char *wrong = sheet_list_write(&printing->list, printing->options->out);
    if (wrong) {
        tell_error("%s: %s", printing->options->out, wrong);
        printing->failed = true;
    }
}

void print_index(struct printing *printing)
{
    static const char name[] = "index.html";
    struct text page = {.arena = printing->project->arena};
    add_page(printing, &page);
    print_file_listed(printing, name, "index", &page);
    if (!printing->failed)
        print_note(printing, (struct printed){.name = name});
}

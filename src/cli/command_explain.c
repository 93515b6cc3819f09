#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/commands.h"
#include "cli/explain_page.h"
#include "cli/tell.h"
#include "measure/counts.h"

enum { LINE_WIDTH = 80 };

static int complain_unknown(const char *name)
{
    const char *near = NULL;
    unsigned least = 6;
    for (int i = 0; i < DIAGNOSTIC_COUNT; i++) {
        const char *other = diagnostic_name((enum diagnostic)i);
        unsigned distance = text_distance(name, other, least);
        if (distance < least) {
            least = distance;
            near = other;
        }
    }
    if (near)
        tell_error("there is no check called `%s`; did you mean `%s`?", name, near);
    else
        tell_error("there is no check called `%s`", name);
    return EXIT_COULD_NOT;
}

static const char *severity_word(enum diagnostic diagnostic)
{
    static const char *const words[] = {"info", "warn", "must"};
    return words[diagnostic_severity(diagnostic)];
}

static void list_all(void)
{
    for (int family = 0; family < FAMILY_COUNT; family++) {
        printf("%s%s\n", family ? "\n" : "", family_name((enum family)family));
        for (int i = 0; i < DIAGNOSTIC_COUNT; i++) {
            enum diagnostic diagnostic = (enum diagnostic)i;
            if (diagnostic_family(diagnostic) == (enum family)family)
                printf("  %-24s %-5s %s\n", diagnostic_name(diagnostic), severity_word(diagnostic),
                       diagnostic_title(diagnostic));
        }
    }
}

/* Returns the end of the word at WORD, and sets the columns that it takes. */
static const char *word_end(const char *word, unsigned *width)
{
    const char *end = word;
    while (*end && *end != ' ' && *end != '\n')
        end++;
    *width = text_width(word, (size_t)(end - word));
    return end;
}

/* WORDS broken at spaces to the width of a terminal, under a heading. */
static void print_part(const char *heading, const char *words)
{
    if (!words)
        return;
    printf("\n%s\n", heading);
    unsigned column = 0, width;
    for (const char *word = words, *end; *word; word = end) {
        end = word_end(word, &width);
        if (column && column + 1 + width > LINE_WIDTH - 2) {
            putchar('\n');
            column = 0;
        }
        printf("%s%.*s", column ? " " : "  ", (int)(end - word), word);
        column += (column ? 1 : 0) + width;
        for (; *end == ' ' || *end == '\n'; end++)
            if (*end == '\n') {
                fputs("\n\n", stdout);
                column = 0;
            }
    }
    putchar('\n');
}

static void print_page(enum diagnostic diagnostic, const struct explain_page *page)
{
    printf("%s (%s, %s)\n  %s\n", diagnostic_name(diagnostic), family_name(diagnostic_family(diagnostic)),
           severity_word(diagnostic), diagnostic_title(diagnostic));
    print_part(page->suggestion ? "What it means" : "What it means and what to do", page->what);
    print_part("Why", page->why);
    print_part("Source", page->source);
    print_part("What to do", page->suggestion);
}

/* What limits and tallies count. */
static bool explain_counted(struct arena *arena, const char *name, bool first)
{
    enum counted counted = counted_find(text_fold(arena, name, strlen(name)));
    if (counted == COUNTED_NONE)
        return false;
    printf("%s%s (what is counted)\n", first ? "" : "\n", counted_name(arena, counted));
    print_part("What", counted_meaning(counted));
    return true;
}

static int explain(struct arena *arena, const char *name, bool first)
{
    enum diagnostic diagnostic = diagnostic_find(name);
    if (diagnostic == DIAGNOSTIC_COUNT)
        return explain_counted(arena, name, first) ? EXIT_CLEAN : complain_unknown(name);
    struct explain_page page;
    if (!explain_page_read(arena, diagnostic, &page)) {
        tell_error("the page of `%s` is not installed here", name);
        return EXIT_COULD_NOT;
    }
    fputs(first ? "" : "\n", stdout);
    print_page(diagnostic, &page);
    return EXIT_CLEAN;
}

int command_explain(const struct options *options)
{
    if (!options->path_count) {
        list_all();
        return EXIT_CLEAN;
    }
    struct arena *arena = arena_new();
    int status = EXIT_CLEAN;
    for (int i = 0; i < options->path_count && status == EXIT_CLEAN; i++)
        status = explain(arena, options->paths[i], i == 0);
    arena_free(arena);
    return status;
}

#include "cli/explain_page.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/project.h"

enum { LONGEST_LINE = 1024 };

/* Adds LINE, of a paragraph that may have begun in PART. */
static void add_line(struct text *part, const char *line)
{
    if (*line)
        text_addf(part, "%s%s", part->length && part->data[part->length - 1] != '\n' ? " " : "", line);
    else if (part->length && part->data[part->length - 1] != '\n')
        text_add(part, "\n");
}

/* PART without the line end after its last paragraph, or NULL if it is empty. */
static const char *finish(struct arena *arena, struct text *part)
{
    size_t length = part->length && part->data[part->length - 1] == '\n' ? part->length - 1 : part->length;
    const char *kept = length ? arena_copy(arena, part->data, length) : NULL;
    text_free(part);
    return kept;
}

/* Which part a heading opens. */
static int part_of(const char *heading)
{
    static const char *const headings[] = {"", "## Why", "## Source", "## What to do"};
    for (int i = 1; i < 4; i++)
        if (strcmp(heading, headings[i]) == 0)
            return i;
    return 0;
}

bool explain_page_read(struct arena *arena, enum diagnostic diagnostic, struct explain_page *page)
{
    const char *share = share_folder(arena);
    FILE *file = share ? fopen(arena_printf(arena, "%s/explain/%s.md", share, diagnostic_name(diagnostic)), "r") : NULL;
    if (!file)
        return false;
    struct text parts[4] = {0};
    int part = 0;
    for (char line[LONGEST_LINE]; fgets(line, sizeof line, file);) {
        line[strcspn(line, "\n")] = '\0';
        if (strncmp(line, "## ", 3) == 0)
            part = part_of(line);
        else if (strncmp(line, "# ", 2) != 0)
            add_line(&parts[part], line);
    }
    fclose(file);
    page->what = finish(arena, &parts[0]);
    page->why = finish(arena, &parts[1]);
    page->source = finish(arena, &parts[2]);
    page->suggestion = finish(arena, &parts[3]);
    return page->what != NULL;
}

const char *explain_describe(struct arena *arena, const char *name)
{
    enum diagnostic diagnostic = diagnostic_find(name);
    struct explain_page page;
    if (diagnostic == DIAGNOSTIC_COUNT || !explain_page_read(arena, diagnostic, &page))
        return NULL;
    return arena_printf(arena, "%s\n\n%s%s%s", diagnostic_title(diagnostic), page.what, page.suggestion ? "\n\n" : "",
                        page.suggestion ? page.suggestion : "");
}

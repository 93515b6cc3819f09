/* compare_text.c - a comparison as text for a screen, and as Markdown for a comment on a change request. */
#include <string.h>

#include "compare/account.h"
#include "base/text.h"

/* A comment may have 65,536 characters, and what follows may add a line or two of its own. */
enum { MARKDOWN_MOST = 65000 };

static const char NOTHING[] = "nothing changes for anybody\n";

static const char *paint_of(const struct compare_style *style, const struct account_line *line)
{
    if (!style->color)
        return "";
    if (line->level == ACCOUNT_HEADING)
        return "\033[1m";
    return line->sign == '+' ? "\033[32m" : line->sign == '-' ? "\033[31m" : line->sign == '~' ? "\033[33m" : "";
}

void compare_text(const struct comparison *comparison, const struct compare_style *style, struct text *out)
{
    static const char *const insets[] = {[ACCOUNT_HEADING] = "", [ACCOUNT_ENTRY] = "  ", [ACCOUNT_DETAIL] = "      "};
    const struct account account = account_of(comparison->arena, comparison);
    for (size_t i = 0; i < account.count; i++) {
        const struct account_line *line = &account.lines[i];
        const char *paint = paint_of(style, line);
        if (line->level == ACCOUNT_HEADING && i)
            text_add_char(out, '\n');
        text_addf(out, "%s%s", insets[line->level], paint);
        if (line->level != ACCOUNT_HEADING)
            text_addf(out, "%c ", line->sign);
        text_addf(out, "%s%s\n", text_shown(comparison->arena, line->words), *paint ? "\033[0m" : "");
    }
    if (!account.count)
        text_add(out, NOTHING);
}

/* --- Markdown --- */

/* WORDS, escaped so that nothing in them is taken for Markdown, for HTML, or for the name of somebody to notify. */
static void add_escaped(struct text *out, const char *words)
{
    for (; *words; words++) {
        unsigned char c = (unsigned char)*words;
        if (c == '@')
            text_add(out, "&#64;");
        else if (c == '<')
            text_add(out, "&lt;");
        else if (c == '&')
            text_add(out, "&amp;");
        else if (c < ' ' || c == 0x7f)
            text_add_char(out, ' ');
        else if (strchr("\\`*_{}[]()#+!|~>-:/", c)) {
            text_add_char(out, '\\');
            text_add_char(out, (char)c);
        } else
            text_add_char(out, (char)c);
    }
}

static void add_line(struct text *out, const struct account_line *line, bool first)
{
    if (line->level == ACCOUNT_HEADING)
        text_add(out, first ? "### " : "\n### ");
    else
        text_addf(out, "%s- ", line->level == ACCOUNT_DETAIL ? "  " : "");
    if (line->sign == '+')
        text_add(out, "**new:** ");
    else if (line->sign == '-')
        text_add(out, "**gone:** ");
    add_escaped(out, line->words);
    text_add(out, line->level == ACCOUNT_HEADING ? "\n\n" : "\n");
}

void compare_markdown(const struct comparison *comparison, struct text *out)
{
    const struct account account = account_of(comparison->arena, comparison);
    size_t start = out->length;
    for (size_t i = 0; i < account.count; i++) {
        struct text line = {.arena = comparison->arena};
        add_line(&line, &account.lines[i], i == 0);
        if (out->length - start + line.length > MARKDOWN_MOST) {
            text_addf(out, "\n*and %zu more lines; `bellsheet diff` shows them all*\n", account.count - i);
            return;
        }
        text_add_bytes(out, text_get(&line), line.length);
    }
    if (!account.count)
        text_addf(out, "*%.*s*\n", (int)(sizeof NOTHING - 2), NOTHING);
}

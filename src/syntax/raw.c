#include "syntax/raw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "scan.h"

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\0';
}

bool scan_is_comment(const struct scan *scan)
{
    if (scan->start > 0 && !is_space(scan->text[scan->start - 1]))
        return false;
    char next = scan->text[scan->start + 1];
    return is_space(next) || next == '#';
}

bool scan_colon_parts(const struct scan *scan)
{
    return is_space(scan->text[scan->end]);
}

size_t scan_text(const char *text, size_t length, scan_take *take, void *taker)
{
    struct scan scan = {.text = text, .length = length};
    yyscan_t scanner;
    if (raw_lex_init_extra(&scan, &scanner) != 0)
        memory_get(SIZE_MAX / 2); /* the only cause is a lack of memory */
    /* flex marks ends of tokens in what it scans, and wants two NULs behind it. */
    char *copy = memory_get(length + 2);
    memcpy(copy, text, length);
    copy[length] = copy[length + 1] = '\0';
    raw__scan_buffer(copy, length + 2, scanner);
    size_t count = 0;
    for (int kind; (kind = raw_lex(scanner)) != RAW_END; count++) {
        uint32_t end = scan.end;
        if (kind == RAW_COMMENT)
            while (end > scan.start && is_space(text[end - 1]))
                end--;
        take(taker, (enum raw_kind)kind, scan.start, end);
    }
    raw_lex_destroy(scanner);
    free(copy);
    return count;
}

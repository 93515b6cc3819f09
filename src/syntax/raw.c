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

/* What stands at AT, and before it, in the text: in the copy flex has put a NUL behind the token. */
static const char *in_text(const struct scan *scan, const char *at)
{
    return scan->text + (at - scan->bytes);
}

bool scan_is_comment(const struct scan *scan, const char *at)
{
    const char *sign = in_text(scan, at);
    if (sign > scan->text && !is_space(sign[-1]))
        return false;
    return is_space(sign[1]) || sign[1] == '#';
}

bool scan_colon_parts(const struct scan *scan, const char *at)
{
    return is_space(in_text(scan, at)[1]);
}

void scan_add_comment(struct scan *scan, const char *at, int length)
{
    while (length > 0 && is_space(at[length - 1]))
        length--;
    scan_add(scan, RAW_COMMENT, at, length);
}

void scan_grow(struct scan *scan)
{
    scan->capacity = scan->capacity ? scan->capacity * 2 : 64;
    scan->tokens = memory_resize(scan->tokens, scan->capacity * sizeof *scan->tokens);
}

void scan_open(struct scan *scan, const char *text, size_t length)
{
    *scan = (struct scan){.text = text, .bytes = memory_get(length + 2)};
    if (raw_lex_init_extra(scan, &scan->scanner) != 0)
        memory_get(SIZE_MAX / 2); /* the only cause is a lack of memory */
    /* flex wants two NULs behind what it scans. */
    memcpy(scan->bytes, text, length);
    scan->bytes[length] = scan->bytes[length + 1] = '\0';
    raw__scan_buffer(scan->bytes, length + 2, scan->scanner);
}

bool scan_line(struct scan *scan)
{
    scan->count = 0;
    return raw_lex(scan->scanner) != 0;
}

void scan_close(struct scan *scan)
{
    raw_lex_destroy(scan->scanner);
    free(scan->bytes);
    free(scan->tokens);
}

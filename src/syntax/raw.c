#include "syntax/raw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/text.h"
#include "scan.h"

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\0';
}

bool scan_is_comment(const struct scan *scan, const char *at)
{
    return (at == scan->bytes || is_space(at[-1])) && (is_space(at[1]) || at[1] == '#');
}

/* In its copy flex has put a NUL after the token: what stood there is looked up in the text. */
bool scan_colon_parts(const struct scan *scan, const char *at)
{
    const char *behind = scan->text + (at - scan->bytes) + 1;
    return is_space(*behind) || text_odd_space(behind) > 0;
}

void scan_add_comment(struct scan *scan, const char *at, int length)
{
    while (length > 0 && is_space(at[length - 1]))
        length--;
    scan_add(scan, RAW_COMMENT, at, length);
}

void scan_grow(struct scan *scan)
{
    scan->tokens = arena_grow(scan->arena, scan->tokens, scan->count, &scan->capacity, sizeof *scan->tokens);
}

/* What was pasted from a page or a phone may contain other spaces that look like one: they separate tokens as well. */
static void make_spaces_plain(struct scan *scan, size_t length)
{
    static const unsigned char leads[] = {0xc2, 0xe1, 0xe2, 0xe3};
    const char *end = scan->bytes + length;
    for (size_t i = 0; i < sizeof leads; i++) {
        for (char *p = scan->bytes; p < end && (p = memchr(p, leads[i], (size_t)(end - p))) != NULL; p++) {
            size_t odd = text_odd_space(p);
            memset(p, ' ', odd);
            scan->odd_spaces = scan->odd_spaces || odd;
        }
    }
}

void scan_open(struct scan *scan, struct arena *arena, const char *text, struct extent place)
{
    size_t length = place.end - place.start;
    text += place.start;
    *scan = (struct scan){.text = text, .start = place.start, .next = place.start, .arena = arena,
                          .bytes = arena_alloc(arena, length + 2)};
    raw_lex_init_extra(scan, &scan->scanner); /* fails only for lack of memory, and then does not return */
    memcpy(scan->bytes, text, length); /* flex wants two NULs after what it scans */
    make_spaces_plain(scan, length);
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
}

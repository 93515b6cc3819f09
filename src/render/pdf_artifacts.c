#include "render/pdf_artifacts.h"

#include <limits.h>
#include <string.h>
#include <zlib.h>

/* --- tokens: ISO 32000-1, 7.2 and 7.8.2 --- */

static bool is_white(char c)
{
    return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == '\0';
}

static bool is_delimiter(char c)
{
    return c && strchr("()<>[]{}/%", c) != NULL;
}

/* The end of the string in parentheses that begins at AT, or END. */
static const char *string_end(const char *at, const char *end)
{
    int deep = 0;
    for (; at < end; at++) {
        if (*at == '\\' && at + 1 < end)
            at++;
        else if (*at == '(')
            deep++;
        else if (*at == ')' && --deep == 0)
            return at + 1;
    }
    return end;
}

/* The end of the token at AT, which is no white space. Both signs of a dictionary's ends are one. */
static const char *token_end(const char *at, const char *end)
{
    if (*at == '(')
        return string_end(at, end);
    if (*at == '%') {
        while (at < end && *at != '\n' && *at != '\r')
            at++;
        return at;
    }
    if ((*at == '<' || *at == '>') && at + 1 < end && at[1] == *at)
        return at + 2;
    if (*at == '<') {
        const char *close = memchr(at, '>', (size_t)(end - at));
        return close ? close + 1 : end;
    }
    bool alone = is_delimiter(*at) && *at != '/';
    for (at++; !alone && at < end && !is_white(*at) && !is_delimiter(*at); at++)
        continue;
    return at;
}

/* Whether what stands from AT to END is an operator: a word that names no value. */
static bool is_operator(const char *at, const char *end)
{
    static const char *const values[] = {"true", "false", "null"};
    for (size_t i = 0; i < sizeof values / sizeof *values; i++)
        if (strlen(values[i]) == (size_t)(end - at) && memcmp(at, values[i], (size_t)(end - at)) == 0)
            return false;
    return (*at >= 'A' && *at <= 'Z') || (*at >= 'a' && *at <= 'z') || *at == '\'' || *at == '"';
}

/* --- marks --- */

/* What has been read of a page's content. */
struct content {
    const char *kept;  /* what is before is in OUT */
    const char *first; /* where the operands of the next operator begin; NULL: it has none yet */
    bool marked;       /* within a mark */
    bool artifact;     /* within one that was put here */
    bool text;         /* within a text object */
    struct text *out;
};

static void copy_to(struct content *content, const char *to)
{
    text_add_bytes(content->out, content->kept, (size_t)(to - content->kept));
    content->kept = to;
}

/* Sees to the operator from AT to END. False where this knows nothing of such content. */
static bool take_operator(struct content *content, const char *at, const char *end)
{
    size_t length = (size_t)(end - at);
    const char *first = content->first ? content->first : at;
    bool begins = length == 3 && (memcmp(at, "BDC", 3) == 0 || memcmp(at, "BMC", 3) == 0);
    bool ends = length == 3 && memcmp(at, "EMC", 3) == 0, pair = length == 2;
    if ((begins && (content->marked || content->text)) || (ends && (!content->marked || content->text)) ||
        (pair && memcmp(at, "BI", 2) == 0))
        return false;
    if (!content->marked && begins == content->artifact) {
        copy_to(content, first);
        text_add(content->out, begins ? "EMC\n" : "/Artifact BMC\n");
        content->artifact = !begins;
    }
    content->marked = begins || (content->marked && !ends);
    content->text = (content->text || (pair && memcmp(at, "BT", 2) == 0)) && !(pair && memcmp(at, "ET", 2) == 0);
    content->first = NULL;
    return true;
}

bool pdf_mark_artifacts(const char *bytes, size_t length, struct text *out)
{
    struct content content = {.kept = bytes, .out = out};
    const char *end = bytes + length;
    for (const char *at = bytes, *next; at < end; at = next) {
        next = at + 1;
        if (is_white(*at))
            continue;
        next = token_end(at, end);
        bool operator = is_operator(at, next);
        if (operator && !take_operator(&content, at, next))
            return false;
        if (!operator && *at != '%' && !content.first)
            content.first = at;
    }
    copy_to(&content, end);
    if (content.artifact)
        text_add(out, "\nEMC\n");
    return !content.marked && !content.text;
}

/* --- deflated --- */

/* What LENGTH BYTES inflate to is added to OUT. */
static bool inflate_all(const char *bytes, size_t length, struct text *out)
{
    unsigned char part[16384];
    z_stream stream = {.next_in = (z_const Bytef *)bytes, .avail_in = (uInt)length};
    int state = length <= UINT_MAX ? inflateInit(&stream) : Z_MEM_ERROR;
    if (state != Z_OK)
        return false;
    do {
        stream.next_out = part;
        stream.avail_out = sizeof part;
        state = inflate(&stream, Z_NO_FLUSH);
        text_add_bytes(out, (const char *)part, sizeof part - stream.avail_out);
    } while (state == Z_OK);
    inflateEnd(&stream);
    return state == Z_STREAM_END;
}

char *pdf_mark_deflated(struct arena *arena, const char *bytes, size_t *length)
{
    struct text plain = {.arena = arena}, marked = {.arena = arena};
    if (!inflate_all(bytes, *length, &plain) || !pdf_mark_artifacts(text_get(&plain), plain.length, &marked))
        return NULL;
    uLongf size = compressBound((uLong)marked.length);
    char *deflated = arena_alloc(arena, size + 1);
    if (compress2((Bytef *)deflated, &size, (const Bytef *)text_get(&marked), (uLong)marked.length, Z_BEST_SPEED) != Z_OK)
        return NULL;
    *length = size;
    return deflated;
}

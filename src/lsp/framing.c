#include "lsp/framing.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/arena.h"

static const char LENGTH_NAME[] = "Content-Length:";

enum { NAME_SIZE = sizeof LENGTH_NAME - 1, MOST_DIGITS = 9 };

void frames_add(struct frames *frames, const char *bytes, size_t length)
{
    if (frames->at) {
        frames->length -= frames->at;
        memmove(frames->bytes, frames->bytes + frames->at, frames->length);
        frames->at = 0;
    }
    if (frames->capacity - frames->length < length) {
        frames->capacity = 2 * frames->capacity + length;
        frames->bytes = memory_resize(frames->bytes, frames->capacity);
    }
    if (length)
        memcpy(frames->bytes + frames->length, bytes, length);
    frames->length += length;
}

void frames_free(struct frames *frames)
{
    free(frames->bytes);
    *frames = (struct frames){0};
}

/* The bytes from AT up to and including the empty line that ends a header, or 0 if that has not come yet. */
static size_t header_size(const struct frames *frames)
{
    const char *start = frames->bytes + frames->at, *end = frames->bytes + frames->length;
    for (const char *line = start; line < end;) {
        const char *newline = memchr(line, '\n', (size_t)(end - line));
        if (!newline)
            return 0;
        size_t length = (size_t)(newline - line);
        if (length == 0 || (length == 1 && *line == '\r'))
            return (size_t)(newline + 1 - start);
        line = newline + 1;
    }
    return 0;
}

/* The number in LENGTH bytes of TEXT, apart from blanks; false if they contain anything else. */
static bool read_number(const char *text, size_t length, size_t *number)
{
    while (length && (*text == ' ' || *text == '\t')) {
        text++;
        length--;
    }
    while (length && strchr(" \t\r", text[length - 1]))
        length--;
    *number = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] < '0' || text[i] > '9')
            return false;
        *number = *number * 10 + (size_t)(text[i] - '0');
    }
    return length > 0 && length <= MOST_DIGITS && *number <= FRAME_LARGEST;
}

/* The length that a header of SIZE bytes gives. */
static bool read_header(const char *header, size_t size, size_t *length)
{
    bool found = false;
    for (const char *line = header, *end = header + size; line < end;) {
        const char *newline = memchr(line, '\n', (size_t)(end - line));
        size_t width = (size_t)(newline - line);
        if (width >= NAME_SIZE && strncasecmp(line, LENGTH_NAME, NAME_SIZE) == 0) {
            if (!read_number(line + NAME_SIZE, width - NAME_SIZE, length))
                return false;
            found = true;
        }
        line = newline + 1;
    }
    return found;
}

/* Skips to the next header. False: none has come yet. */
static bool find_header(struct frames *frames)
{
    for (; frames->at + NAME_SIZE <= frames->length; frames->at++) {
        if (strncasecmp(frames->bytes + frames->at, LENGTH_NAME, NAME_SIZE) == 0) {
            frames->lost = false;
            return true;
        }
    }
    return false;
}

static enum frame_got lose(struct frames *frames, size_t skipped)
{
    frames->at += skipped;
    frames->lost = true;
    return FRAME_BAD;
}

enum frame_got frames_take(struct frames *frames, const char **body, size_t *length)
{
    if (frames->lost && !find_header(frames))
        return FRAME_NONE;
    size_t there = frames->length - frames->at, size = header_size(frames);
    if (!size || size > FRAME_LONGEST_HEADER)
        return there > FRAME_LONGEST_HEADER ? lose(frames, 1) : FRAME_NONE;
    if (!read_header(frames->bytes + frames->at, size, length))
        return lose(frames, size);
    if (there - size < *length)
        return FRAME_NONE;
    *body = frames->bytes + frames->at + size;
    frames->at += size + *length;
    return FRAME_BODY;
}

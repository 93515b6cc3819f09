/* Any bytes as what comes over the wire. Whatever pieces they come in, the frames are the same; none is longer than what
 * came, and none is without its header. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "lsp/framing.h"

enum { MOST_BYTES = 4096 };

/* Adds to OUT what SIZE bytes at DATA come to that are fed by STEP: each body behind a |, and ! for what was no frame. */
static void take_all(const char *data, size_t size, size_t step, struct text *out)
{
    struct frames frames = {0};
    size_t taken = 0;
    for (size_t at = 0; at < size; at += step) {
        const char *body;
        size_t length;
        frames_add(&frames, data + at, size - at < step ? size - at : step);
        for (enum frame_got got; (got = frames_take(&frames, &body, &length)) != FRAME_NONE;) {
            text_add_char(out, got == FRAME_BODY ? '|' : '!');
            if (got != FRAME_BODY)
                continue;
            text_add_bytes(out, body, length);
            taken += length + strlen("Content-Length:1\n\n");
            if (taken > size + 1)
                abort();
        }
    }
    frames_free(&frames);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text whole = {0}, pieces = {0};
    if (size < 2 || size > MOST_BYTES)
        return 0;
    take_all((const char *)data + 1, size - 1, size, &whole);
    take_all((const char *)data + 1, size - 1, 1 + data[0] % 64, &pieces);
    if (whole.length != pieces.length || (whole.length && memcmp(text_get(&whole), text_get(&pieces), whole.length) != 0))
        abort();
    text_free(&whole);
    text_free(&pieces);
    return 0;
}

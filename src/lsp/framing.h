/* framing.h - the frames that messages come in: a header that gives a length, an empty line, and that many bytes.
 *
 * * If a frame cannot be read, only that frame is lost: what follows is skipped up to the next header. */
#ifndef BELL_LSP_FRAMING_H
#define BELL_LSP_FRAMING_H

#include <stdbool.h>
#include <stddef.h>

enum { FRAME_LARGEST = 64 * 1024 * 1024, FRAME_LONGEST_HEADER = 4096 /* bytes */ };

enum frame_got {
    FRAME_NONE, /* more bytes have to come first */
    FRAME_BODY,
    FRAME_BAD   /* bytes that were not a frame are skipped */
};

/* Starts as {0}; ended with frames_free. */
struct frames {
    char *bytes;
    size_t length, capacity;
    size_t at;   /* what is before it has been handed out */
    bool lost;   /* what comes next is skipped up to a header */
};

void frames_add(struct frames *frames, const char *bytes, size_t length);

/* Takes the next frame. *BODY points into FRAMES and holds until the next frames_add. */
enum frame_got frames_take(struct frames *frames, const char **body, size_t *length);

void frames_free(struct frames *frames);

#endif

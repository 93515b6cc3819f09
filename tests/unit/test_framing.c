/* Frames of the protocol, whole, in pieces, and those that are none. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "lsp/framing.h"

/* All bodies that BYTES hold, fed by STEP bytes at a time: each behind a |, and ! for what was no frame. */
static void take_all(const char *bytes, size_t step, char *got, size_t room)
{
    struct frames frames = {0};
    size_t length = strlen(bytes), used = 0;
    for (size_t at = 0; at < length; at += step) {
        const char *body;
        size_t size;
        frames_add(&frames, bytes + at, length - at < step ? length - at : step);
        for (enum frame_got one; (one = frames_take(&frames, &body, &size)) != FRAME_NONE;) {
            size = one == FRAME_BODY ? size : 0;
            assert_true(used + size + 2 < room);
            got[used++] = one == FRAME_BODY ? '|' : '!';
            memcpy(got + used, size ? body : "", size);
            used += size;
        }
    }
    got[used] = '\0';
    frames_free(&frames);
}

static void expect(const char *bytes, const char *wanted)
{
    char got[512];
    for (size_t step = 1; step < 64; step = step * 2 + 1) {
        take_all(bytes, step, got, sizeof got);
        assert_string_equal(got, wanted);
    }
}

static void test_whole(void **state)
{
    (void)state;
    expect("Content-Length: 2\r\n\r\n{}", "|{}");
    expect("Content-Length: 2\r\n\r\n{}Content-Length: 0\r\n\r\nContent-Length: 1\r\n\r\n7", "|{}||7");
    expect("content-length:3\r\nContent-Type: x; charset=utf-8\r\n\r\n\"\xc3\xa4", "|\"\xc3\xa4");
    expect("Content-Length: 2\n\n{}", "|{}");
    expect("Content-Length: 5\r\n\r\n{}", "");
}

static void test_bad(void **state)
{
    (void)state;
    static const char *const headers[] = {
        "Content-Type: x", "Content-Length: -5", "Content-Length: many", "Content-Length: 99999999999999",
        "Content-Length: ", "Content-Length: 5 5", "GET / HTTP/1.1", "Content-Length: 0x10", "Content-Length: 70000000"};
    for (size_t i = 0; i < sizeof headers / sizeof *headers; i++) {
        char bytes[256], wanted[] = "!|{}";
        strcpy(bytes, headers[i]);
        strcat(bytes, "\r\n\r\nsome bytesContent-Length: 2\r\n\r\n{}");
        expect(bytes, wanted);
    }
}

/* What never ends a header is not kept for ever. */
static void test_endless(void **state)
{
    (void)state;
    struct frames frames = {0};
    const char *body;
    size_t size;
    int bad = 0;
    for (int i = 0; i < 20000; i++) {
        frames_add(&frames, "0123456789", 10);
        for (enum frame_got one; (one = frames_take(&frames, &body, &size)) != FRAME_NONE;)
            bad += one == FRAME_BAD;
    }
    assert_int_equal(bad, 1);
    assert_true(frames.capacity < 64 * 1024);
    frames_add(&frames, "Content-Length: 2\r\n\r\n{}", 23);
    assert_int_equal(frames_take(&frames, &body, &size), FRAME_BODY);
    frames_free(&frames);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_whole), cmocka_unit_test(test_bad),
                                       cmocka_unit_test(test_endless)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

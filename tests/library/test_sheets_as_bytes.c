/* test_sheets_as_bytes.c - what is said in sheets.h: every kind in every format, what is not made, and every failure returned. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <bellsheet/sheets.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static struct bell_session *session_of(const char *plan)
{
    const struct bell_options options = {.share = "share", .today = "2027-03-08"};
    struct bell_session *session;
    assert_int_equal(bell_open(&options, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, plan), BELL_OK);
    assert_int_equal(bell_compile(session), BELL_OK);
    return session;
}

static void test_every_kind(void **state)
{
    (void)state;
    static const char *const starts[] = {"%PDF-", "<?xml", "\x89PNG\r", ""};
    struct bell_session *session = session_of("examples/slipway-year");
    const char *bytes, *what;
    size_t length, kinds = 0;
    int pages;
    for (; bell_sheet_kind(kinds, &what); kinds++) {
        assert_true(strlen(what) > 5);
        for (int format = 0; format < BELL_SHEET_FORMATS; format++) {
            const struct bell_sheet sheet = {.kind = bell_sheet_kind(kinds, NULL), .day = "2027-03-08",
                                             .athlete = "Oriel Tamsin", .format = (enum bell_sheet_format)format,
                                             .dots = 40};
            assert_int_equal(bell_sheet_make(session, &sheet, &bytes, &length, &pages), BELL_OK);
            assert_true(pages >= 1);
            assert_true(length > 500);
            assert_memory_equal(bytes, starts[format], strlen(starts[format]));
        }
    }
    assert_true(kinds >= 5);
    assert_null(bell_sheet_kind(kinds, NULL));
    bell_close(session);
}

static bool holds(const char *bytes, size_t length, const char *words)
{
    for (size_t i = 0; i + strlen(words) <= length; i++)
        if (memcmp(bytes + i, words, strlen(words)) == 0)
            return true;
    return false;
}

static void test_what_is_asked_for_is_on_it(void **state)
{
    (void)state;
    struct bell_session *session = session_of("examples/slipway");
    const char *bytes;
    size_t length;
    struct bell_sheet sheet = {.kind = "card", .day = "2027-03-08", .format = BELL_SHEET_TEXT, .athlete = "oriel  tamsin"};
    assert_int_equal(bell_sheet_make(session, &sheet, &bytes, &length, NULL), BELL_OK);
    assert_true(holds(bytes, length, "Oriel"));
    assert_true(holds(bytes, length, "8 March 2027"));
    sheet.session = "Floor of nowhere";
    assert_int_equal(bell_sheet_make(session, &sheet, &bytes, &length, NULL), BELL_NOTHING);
    assert_null(bytes);
    sheet = (struct bell_sheet){.kind = "wall", .day = "2031-03-08"};
    assert_int_equal(bell_sheet_make(session, &sheet, &bytes, &length, NULL), BELL_NOTHING);
    sheet = (struct bell_sheet){.kind = "card", .day = "2027-03-08", .page = 99, .format = BELL_SHEET_SVG};
    assert_int_equal(bell_sheet_make(session, &sheet, &bytes, &length, NULL), BELL_NOTHING);
    bell_close(session);
}

/* What breaks a limit that must hold is not printed; nor does a plan that was not understood. */
/* Nothing is planned then, for them, of that name, or on that page: there are no bytes and no pages. */
static void test_what_is_not_there_is_nothing(void **state)
{
    (void)state;
    struct bell_session *session = session_of("examples/slipway");
    static const struct bell_sheet none[] = {
        {.kind = "wall", .day = "2026-03-08"},
        {.kind = "wall", .day = "2027-03-08", .session = "Nothing of the kind"},
        {.kind = "card", .day = "2027-03-08", .athlete = "Nobody Known"},
        {.kind = "card", .day = "2027-03-08", .athlete = "Oriel Tamsin", .page = 99},
        {.kind = "week", .day = "2026-03-08", .athlete = "Oriel Tamsin"},
        {.kind = "camp", .day = "2026-03-08", .athlete = "Oriel Tamsin"},
        {.kind = "monday", .day = "2026-03-08"},
        {.kind = "review", .day = "2026-03-08"},
        {.kind = "season", .day = "2027-03-08", .athlete = "Oriel Tamsin"},
        {.kind = "season-club", .day = "2027-03-08"}};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        const char *bytes = "before";
        size_t length = 6;
        int pages = 7;
        assert_int_equal(bell_sheet_make(session, &none[i], &bytes, &length, &pages), BELL_NOTHING);
        assert_null(bytes);
        assert_int_equal(length, 0);
        assert_int_equal(pages, 0);
    }
    const struct bell_sheet usual = {.kind = "card", .day = "2027-03-08", .athlete = "Oriel Tamsin", .format = BELL_SHEET_PNG};
    const char *bytes;
    size_t length;
    assert_int_equal(bell_sheet_make(session, &usual, &bytes, &length, NULL), BELL_OK);
    assert_memory_equal(bytes, "\x89PNG", 4);
    bell_close(session);
}

static void test_errors_bar(void **state)
{
    (void)state;
    struct bell_session *session = session_of("examples/over-limit");
    const char *bytes;
    size_t length;
    const struct bell_sheet card = {.kind = "card", .day = "2027-03-01", .athlete = "Oriel Tamsin"};
    assert_int_equal(bell_sheet_make(session, &card, &bytes, &length, NULL), BELL_BARRED);
    assert_null(bytes);
    bell_close(session);
    session = session_of("examples/slipway");
    const char *more = "examples/slipway/unsaved.bell";
    assert_int_equal(bell_overlay(session, more, "athlet Wren\n", 12, 1), BELL_OK);
    assert_int_equal(bell_compile(session), BELL_OK);
    const struct bell_sheet wall = {.kind = "wall", .day = "2027-03-08"};
    assert_int_equal(bell_sheet_make(session, &wall, &bytes, &length, NULL), BELL_BARRED);
    bell_close(session);
}

static void test_bad_arguments(void **state)
{
    (void)state;
    struct bell_session *session;
    const char *bytes;
    size_t length;
    const struct bell_sheet good = {.kind = "wall", .day = "2027-03-08"};
    const struct bell_sheet bad[] = {{.day = "2027-03-08"},
                                     {.kind = "poster", .day = "2027-03-08"},
                                     {.kind = "wall"},
                                     {.kind = "wall", .day = "8 March"},
                                     {.kind = "wall", .day = "2027-03-08", .paper = "A9"},
                                     {.kind = "wall", .day = "2027-03-08", .page = -1},
                                     {.kind = "wall", .day = "2027-03-08", .dots = 6000},
                                     {.kind = "wall", .day = "2027-03-08", .format = BELL_SHEET_FORMATS}};
    assert_int_equal(bell_open(NULL, &session), BELL_OK);
    assert_int_equal(bell_sheet_make(session, &good, &bytes, &length, NULL), BELL_NOT_COMPILED);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(bell_sheet_make(session, &bad[i], &bytes, &length, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_sheet_make(NULL, &good, &bytes, &length, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_sheet_make(session, NULL, &bytes, &length, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_sheet_make(session, &good, NULL, &length, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_sheet_make(session, &good, &bytes, NULL, NULL), BELL_BAD_ARGUMENT);
    bell_close(session);
}

/* --- an allocator that runs dry --- */

struct well {
    long left; /* calls that still succeed; below 0: all */
    long open;
};

static void *draw(void *context, void *old, size_t size)
{
    struct well *well = context;
    if (well->left == 0)
        return NULL;
    well->left -= well->left > 0;
    void *got = realloc(old, size);
    well->open += got && !old;
    return got;
}

static void pour(void *context, void *old)
{
    struct well *well = context;
    well->open -= old != NULL;
    free(old);
}

static void test_every_allocation_fails(void **state)
{
    (void)state;
    struct well well = {.left = -1};
    const struct bell_options options = {.share = "share", .resize = draw, .free = pour, .memory_context = &well};
    const struct bell_sheet wall = {.kind = "wall", .day = "2027-03-08", .format = BELL_SHEET_TEXT};
    struct bell_session *session;
    const char *bytes;
    size_t length;
    assert_int_equal(bell_open(&options, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, "examples/slipway"), BELL_OK);
    long failed = 0;
    for (enum bell_status status = BELL_NO_MEMORY; status != BELL_OK; failed++) {
        well.left = -1;
        assert_int_equal(bell_compile(session), BELL_OK);
        well.left = failed;
        status = bell_sheet_make(session, &wall, &bytes, &length, NULL);
        assert_true(status == BELL_OK || status == BELL_NO_MEMORY);
    }
    assert_true(failed > 2);
    bell_close(session);
    assert_int_equal(well.open, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_kind),   cmocka_unit_test(test_what_is_asked_for_is_on_it),
        cmocka_unit_test(test_what_is_not_there_is_nothing), cmocka_unit_test(test_errors_bar),   cmocka_unit_test(test_bad_arguments),
        cmocka_unit_test(test_every_allocation_fails),
    };
    return cmocka_run_group_tests_name("sheets as bytes", tests, NULL, NULL);
}

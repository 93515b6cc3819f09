/* test_calendar_lines.c - lines of a calendar: folded, escaped, and read back from a file that may hold anything. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "export/calendar_lines.h"
#include "figures/dates.h"
#include "unit/one_arena.h"

/* The events of an event that is whole, with LINE in place of the one that begins as it does, up to its colon. */
static struct calendar_events read_with(const char *line)
{
    static const char *const whole[] = {"UID:a@b", "DTSTAMP:20270301T120000Z", "SEQUENCE:2", "SUMMARY:Legs",
                                        "DTSTART:20270308T173000"};
    struct text text = {.arena = arena};
    text_add(&text, "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n");
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++) {
        bool replaced = strncmp(line, whole[i], strcspn(whole[i], ":")) == 0;
        text_addf(&text, "%s\r\n", replaced ? line : whole[i]);
    }
    text_add(&text, "END:VEVENT\r\nEND:VCALENDAR\r\n");
    return calendar_read(arena, text_get(&text), text.length);
}

static void only_a_whole_event_is_taken(void **state)
{
    (void)state;
    const struct calendar_events good = read_with("nothing");
    assert_int_equal(good.count, 1);
    assert_string_equal(good.items[0].uid, "a@b");
    assert_int_equal(good.items[0].sequence, 2);
    assert_string_equal(good.items[0].name, "Legs");
    assert_int_equal(good.items[0].date, date_from_ymd(2027, 3, 8));
    assert_int_equal(good.items[0].clock, (17 * 60 + 30) * 60);
    assert_false(good.items[0].cancelled);
    const char *long_uid = arena_printf(arena, "UID:%0201d", 1), *longest = arena_printf(arena, "UID:%0200d", 1);
    assert_int_equal(read_with(long_uid).count, 0);
    assert_int_equal(read_with(longest).count, 1);
    static const char *const bad[] = {"UID", "UID:", "DTSTAMP", "DTSTAMP:20270301", "SUMMARY", "DTSTART", "DTSTART:never",
                                      "DTSTART:20270230T173000", "SEQUENCE:-1", "SEQUENCE:1000000"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(read_with(bad[i]).count, 0);
}

static void an_hour_that_no_clock_shows_is_a_whole_day(void **state)
{
    (void)state;
    static const char *const days[] = {"DTSTART:20270308", "DTSTART;VALUE=DATE:20270308", "DTSTART:20270308T1730",
                                       "DTSTART:20270308T243000", "DTSTART:20270308T176000", "DTSTART:20270308T-13000",
                                       "DTSTART:20270308T17-100"};
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        const struct calendar_events events = read_with(days[i]);
        assert_int_equal(events.count, 1);
        assert_int_equal(events.items[0].date, date_from_ymd(2027, 3, 8));
        assert_int_equal(events.items[0].clock, -1);
    }
}

static struct calendar_events read_text(const char *text)
{
    return calendar_read(arena, text, strlen(text));
}

static void what_is_no_event_is_passed_over(void **state)
{
    (void)state;
    assert_int_equal(read_text("").count, 0);
    assert_int_equal(read_text("BEGIN:VEVENT").count, 0);
    assert_int_equal(read_text("END:VEVENT\nEND:VTIMEZONE\n").zone_count, 0);
    const struct calendar_events begun_twice = read_text(
        "BEGIN:VEVENT\nUID:lost\nBEGIN:VEVENT\nUID:a\nDTSTAMP:20270301T120000Z\nDTSTART:20270308\nSUMMARY:Legs\n"
        "STATUS:CANCELLED\nX-BELLSHEET-NAME:Beine\nEND:VEVENT");
    assert_int_equal(begun_twice.count, 1);
    assert_string_equal(begun_twice.items[0].uid, "a");
    assert_true(begun_twice.items[0].cancelled);
    assert_string_equal(begun_twice.items[0].name, "Beine");
    assert_string_equal(begun_twice.items[0].body, "DTSTART:20270308\nSUMMARY:Legs\nX-BELLSHEET-NAME:Beine\n");
    const struct calendar_events confirmed = read_with("SUMMARY:A \r\n\tlong\r\n er name");
    assert_string_equal(confirmed.items[0].name, "A longer name");
}

static void a_zone_without_a_name_is_none(void **state)
{
    (void)state;
    const struct calendar_events named = read_text("BEGIN:VTIMEZONE\nTZID:Asia/Tokyo\nEND:VTIMEZONE\n");
    assert_int_equal(named.zone_count, 1);
    assert_string_equal(named.zones[0].name, "Asia/Tokyo");
    assert_string_equal(named.zones[0].body, "BEGIN:VTIMEZONE\nTZID:Asia/Tokyo\nEND:VTIMEZONE\n");
    assert_int_equal(read_text("BEGIN:VTIMEZONE\nEND:VTIMEZONE\n").zone_count, 0);
    assert_int_equal(read_text("BEGIN:VTIMEZONE\nTZID:Asia/Tokyo\n").zone_count, 0);
}

static void lines_are_folded_between_characters(void **state)
{
    (void)state;
    struct text out = {.arena = arena};
    const char *digits = arena_printf(arena, "%074d", 0);
    calendar_line(&out, digits);
    assert_string_equal(text_get(&out), arena_printf(arena, "%s\r\n", digits));
    text_clear(&out);
    calendar_line(&out, arena_printf(arena, "%s\303\251.", digits)); /* the letter would end on octet 76 */
    assert_string_equal(text_get(&out), arena_printf(arena, "%s\r\n \303\251.\r\n", digits));
    text_clear(&out);
    calendar_line(&out, arena_printf(arena, "%s%s%s", digits, digits, digits));
    for (const char *line = text_get(&out), *end; *line; line = end + 2) {
        end = strstr(line, "\r\n");
        assert_non_null(end);
        assert_true(end - line <= 75);
    }
    text_clear(&out);
    char broken[78]; /* octets that continue a character which never began */
    memset(broken, 0x80, sizeof broken - 1);
    broken[sizeof broken - 1] = '\0';
    calendar_line(&out, broken);
    assert_int_equal(out.length, 77 + 3 * strlen("\r\n ") + strlen("\r\n"));
}

static void signs_are_escaped_and_controls_are_spaces(void **state)
{
    (void)state;
    assert_string_equal(calendar_words(arena, "a, b; c\\d\te\303\251"), "a\\, b\\; c\\\\d e\303\251");
    struct text out = {.arena = arena};
    calendar_body(&out, "A:1\nB:2");
    assert_string_equal(text_get(&out), "A:1\r\nB:2\r\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_a_whole_event_is_taken),
        cmocka_unit_test(an_hour_that_no_clock_shows_is_a_whole_day),
        cmocka_unit_test(what_is_no_event_is_passed_over),
        cmocka_unit_test(a_zone_without_a_name_is_none),
        cmocka_unit_test(lines_are_folded_between_characters),
        cmocka_unit_test(signs_are_escaped_and_controls_are_spaces),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}

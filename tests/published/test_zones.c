/* Time zones against what is published of them, and against zdump, the C library's own reader of the same files.
 *
 * European Union: Directive 2000/84/EC, articles 2 and 3: from the last Sunday of March to the last Sunday of October, at
 * 01:00 UTC. United States: 15 U.S.C. 260a: from the second Sunday of March to the first of November, at 02:00 local time. New
 * South Wales: Standard Time Act 1987: to the first Sunday of April, from the first of October, at 02:00 standard time. New
 * Zealand: Time Order 2007: from the last Sunday of September to the first of April, at 02:00 standard time. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/arena.h"
#include "base/text.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "figures/zone_rule.h"

enum { HOUR = 3600, DAY = 86400, EPOCH = 719163 };

static const char FOLDER[] = "/usr/share/zoneinfo";

static const struct zone *read_zone(struct arena *arena, const char *name)
{
    char path[200], *bytes = arena_alloc(arena, 100000);
    snprintf(path, sizeof path, "%s/%s", FOLDER, name);
    FILE *file = fopen(path, "rb");
    if (!file)
        skip();
    size_t length = fread(bytes, 1, 100000, file);
    fclose(file);
    const struct zone *zone = zone_read(arena, name, bytes, length);
    assert_non_null(zone);
    return zone;
}

static int64_t moment(int year, int month, int day, int hour, int minute)
{
    return (int64_t)(date_from_ymd(year, month, day) - EPOCH) * DAY + hour * HOUR + minute * 60;
}

/* The NTH (from 1; 0 is the last) Sunday of a month. */
static int sunday(int year, int month, int nth)
{
    int first = date_from_ymd(year, month, 1), day = first + 7 - date_weekday(first);
    if (nth)
        return day + 7 * (nth - 1);
    int y, m, d;
    while (date_to_ymd(day + 7, &y, &m, &d) && m == month)
        day += 7;
    return day;
}

/* Zones, both offsets in minutes, and which Sundays begin and end their summer, at which minute of the UTC day before or of
 * it. */
static const struct {
    const char *name;
    int winter, summer, begins_month, begins, begins_minute, ends_month, ends, ends_minute;
} zones[] = {
    {"Europe/London", 0, 60, 3, 0, 60, 10, 0, 60},
    {"Europe/Lisbon", 0, 60, 3, 0, 60, 10, 0, 60},
    {"Europe/Berlin", 60, 120, 3, 0, 60, 10, 0, 60},
    {"Europe/Helsinki", 120, 180, 3, 0, 60, 10, 0, 60},
    {"America/New_York", -300, -240, 3, 2, 420, 11, 1, 360},
    {"America/Chicago", -360, -300, 3, 2, 480, 11, 1, 420},
    {"America/Los_Angeles", -480, -420, 3, 2, 600, 11, 1, 540},
    {"America/St_Johns", -210, -150, 3, 2, 330, 11, 1, 270},
    {"Australia/Sydney", 600, 660, 10, 1, -480, 4, 1, -480},
    {"Australia/Adelaide", 570, 630, 10, 1, -450, 4, 1, -450},
    {"Australia/Lord_Howe", 630, 660, 10, 1, -510, 4, 1, -540},
    {"Pacific/Auckland", 720, 780, 9, 0, -600, 4, 1, -600},
};

static void changes_are_as_published(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof zones / sizeof *zones; i++) {
        const struct zone *zone = read_zone(arena, zones[i].name);
        for (int year = 2024; year < 2090; year += 3) {
            int64_t begins = moment(year, 1, 1, 0, 0), ends;
            ends = begins + (int64_t)(sunday(year, zones[i].ends_month, zones[i].ends) - date_from_ymd(year, 1, 1)) * DAY +
                   zones[i].ends_minute * 60;
            begins += (int64_t)(sunday(year, zones[i].begins_month, zones[i].begins) - date_from_ymd(year, 1, 1)) * DAY +
                      zones[i].begins_minute * 60;
            assert_int_equal(zone_at(zone, begins - 1).ahead, zones[i].winter * 60);
            assert_int_equal(zone_at(zone, begins).ahead, zones[i].summer * 60);
            assert_int_equal(zone_at(zone, ends - 1).ahead, zones[i].summer * 60);
            assert_int_equal(zone_at(zone, ends).ahead, zones[i].winter * 60);
            assert_true(zone_at(zone, begins).summer && !zone_at(zone, ends).summer);
            assert_int_equal(zone_change_after(zone, begins - 1), begins);
            assert_int_equal(zone_change_after(zone, ends - 1), ends);
            assert_int_equal(zone_change_after(zone, begins < ends ? begins : ends), begins < ends ? ends : begins);
        }
    }
    arena_free(arena);
}

static void some_never_change(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int minutes;
    } still[] = {{"Asia/Bangkok", 420}, {"Asia/Kolkata", 330}, {"Asia/Kathmandu", 345}, {"Asia/Tokyo", 540}, {"Etc/UTC", 0},
                 {"Etc/GMT+5", -300}, {"America/Phoenix", -420}, {"Pacific/Marquesas", -570}};
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof still / sizeof *still; i++) {
        const struct zone *zone = read_zone(arena, still[i].name);
        for (int month = 1; month <= 12; month++)
            assert_int_equal(zone_at(zone, moment(2027, month, 15, 12, 0)).ahead, still[i].minutes * 60);
        assert_true(zone_change_after(zone, moment(2027, 1, 1, 0, 0)) == ZONE_NEVER);
    }
    arena_free(arena);
}

static void hours_are_skipped_and_come_twice(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const struct zone *london = read_zone(arena, "Europe/London"), *york = read_zone(arena, "America/New_York");
    enum zone_hour how;
    int spring = date_from_ymd(2027, 3, 28), autumn = date_from_ymd(2027, 10, 31), date, clock;
    assert_true(zone_moment(london, spring, 59 * 60, &how) == moment(2027, 3, 28, 0, 59) && how == ZONE_ONCE);
    assert_true(zone_moment(london, spring, HOUR, &how) == moment(2027, 3, 28, 1, 0) && how == ZONE_SKIPPED);
    assert_true(zone_moment(london, spring, 2 * HOUR, &how) == moment(2027, 3, 28, 1, 0) && how == ZONE_ONCE);
    assert_true(zone_moment(london, spring, 17 * HOUR, &how) == moment(2027, 3, 28, 16, 0) && how == ZONE_ONCE);
    assert_true(zone_moment(london, autumn, HOUR, &how) == moment(2027, 10, 31, 0, 0) && how == ZONE_TWICE);
    assert_true(zone_moment(london, autumn, 2 * HOUR, &how) == moment(2027, 10, 31, 2, 0) && how == ZONE_ONCE);
    /* RFC 5545, 3.3.5, has both of these. */
    assert_true(zone_moment(york, date_from_ymd(2007, 11, 4), HOUR + 1800, &how) == moment(2007, 11, 4, 5, 30));
    assert_int_equal(how, ZONE_TWICE);
    assert_true(zone_moment(york, date_from_ymd(2007, 3, 11), 2 * HOUR + 1800, &how) == moment(2007, 3, 11, 7, 30));
    assert_int_equal(how, ZONE_SKIPPED);
    zone_shown(moment(2027, 3, 28, 23, 30), HOUR, &date, &clock);
    assert_int_equal(date, spring + 1);
    assert_int_equal(clock, 1800);
    zone_shown(-1, 0, &date, &clock);
    assert_int_equal(date, EPOCH - 1);
    assert_int_equal(clock, DAY - 1);
    arena_free(arena);
}

static int month_of(const char *name)
{
    static const char months[] = "JanFebMarAprMayJunJulAugSepOctNovDec";
    name = strstr(months, name);
    assert_non_null(name);
    return (int)(name - months) / 3 + 1;
}

/* Every change from 1990 to 2060 that zdump tells of NAME, the second before it and the second after; how many they are. */
static int compare_zone(struct arena *arena, const char *name)
{
    char command[200], line[300], month[10], letters[20];
    int day, hour, minute, second, year, summer, count = 0;
    long ahead;
    const struct zone *zone = read_zone(arena, name);
    snprintf(command, sizeof command, "zdump -V -c 1990,2060 %s 2>&1", name);
    FILE *dump = popen(command, "r");
    assert_non_null(dump);
    while (fgets(line, sizeof line, dump)) {
        const char *at = strstr(line, "  ");
        if (!at || sscanf(at, " %*s %3s %d %d:%d:%d %d UT = %*s %*s %*d %*s %*d %19s isdst=%d gmtoff=%ld", month, &day, &hour,
                          &minute, &second, &year, letters, &summer, &ahead) != 9)
            continue;
        struct zone_clocks clocks = zone_at(zone, moment(year, month_of(month), day, hour, minute) + second);
        assert_int_equal(clocks.ahead, ahead);
        assert_int_equal(clocks.summer, summer);
        assert_string_equal(clocks.letters, letters);
        count++;
    }
    pclose(dump);
    return count;
}

static void every_zone_is_as_the_system_reads_it(void **state)
{
    (void)state;
    char line[300], name[100];
    struct arena *arena = arena_new();
    FILE *list = fopen("/usr/share/zoneinfo/zone.tab", "r");
    if (!list || access("/usr/bin/zdump", X_OK) != 0)
        skip();
    int names = 0, changes = 0;
    while (fgets(line, sizeof line, list))
        if (*line != '#' && sscanf(line, "%*s %*s %99s", name) == 1 && ++names % 8 == 0)
            changes += compare_zone(arena, name);
    fclose(list);
    assert_true(names > 300 && changes > 1500);
    arena_free(arena);
}

/* The offset by RULE the second before a moment, and at it. */
static void expect_rule(struct arena *arena, const char *text, int64_t at, int before, int after)
{
    struct zone_rule rule;
    assert_true(zone_rule_read(arena, text, strlen(text), &rule));
    assert_int_equal(zone_rule_at(&rule, at - 1).ahead, before * HOUR);
    assert_int_equal(zone_rule_at(&rule, at).ahead, after * HOUR);
}

/* The first four are examples of RFC 9636, 3.3.1 and B. */
static void rules_are_read_as_the_standard_says(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    static const char nuuk[] = "<-03>3<-02>,M3.5.0/-2,M10.5.0/-1", israel[] = "IST-2IDT,M3.4.4/26,M10.5.0";
    static const char days[] = "AAA5BBB,J60/0,300/2";
    expect_rule(arena, "HST10", moment(2027, 7, 1, 0, 0), -10, -10);
    expect_rule(arena, nuuk, moment(2027, 3, 28, 1, 0), -3, -2);
    expect_rule(arena, nuuk, moment(2027, 10, 31, 1, 0), -2, -3);
    expect_rule(arena, israel, moment(2027, 3, 26, 0, 0), 2, 3);
    expect_rule(arena, israel, moment(2027, 10, 30, 23, 0), 3, 2);
    for (int month = 1; month <= 12; month++)
        expect_rule(arena, "EST5EDT,0/0,J365/25", moment(2027, month, 1, 5, 0), -4, -4);
    expect_rule(arena, days, moment(2027, 3, 1, 5, 0), -5, -4); /* J60 is 1 March whatever the year */
    expect_rule(arena, days, moment(2028, 3, 1, 5, 0), -5, -4);
    expect_rule(arena, days, moment(2027, 10, 28, 6, 0), -4, -5); /* 300 counts 29 February */
    expect_rule(arena, days, moment(2028, 10, 27, 6, 0), -4, -5);
    expect_rule(arena, days, moment(2000, 3, 1, 5, 0), -5, -4); /* a leap year, and 2100 is none */
    expect_rule(arena, days, moment(2100, 3, 1, 5, 0), -5, -4);
    expect_rule(arena, days, moment(2000, 10, 27, 6, 0), -4, -5);
    expect_rule(arena, days, moment(2100, 10, 28, 6, 0), -4, -5);
    expect_rule(arena, "AAA5BBB,J59/0,300/2", moment(2028, 2, 28, 5, 0), -5, -4);
    expect_rule(arena, "<+01>-1:00:00<+02>,M3.5.0/1:00:00,M10.5.0", moment(2027, 3, 28, 0, 0), 1, 2);
    static const char *const wrong[] = {"",          "GM0",           "GMT",           "GMT25",          "GMT0BST,M3.5.0/1",
                                        "GMT0BST",   "GMT0BST,M13.5.0,M10.5.0", "GMT0BST,M3.6.0,M10.5.0", "GMT0BST,M3.5.7,M10.5.0",
                                        "GMT0BST,J0,J365", "GMT0BST,366,1",     "GMT0BST,M3.5.0/168,M10.5.0", "<GMT0", "GMT0:",
                                        "GMT0BST,M3.5.0/1,M10.5.0 ", "GMT0BST,M3.5.0/1:60,M10.5.0", "GMT0001", "GMT0:0:60",
                                        "GMT0:0:", "GMT0BST,M3.5.0/1:"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct zone_rule rule;
        if (zone_rule_read(arena, wrong[i], strlen(wrong[i]), &rule))
            fail_msg("`%s` was taken", wrong[i]);
    }
    arena_free(arena);
}

/* A file of one zone, written for the test: after its block of 32 bits, which is empty but for its clock, CHANGES moments that
 * all lead to its only clock, and END. Its length. */
static size_t write_zone(char *out, const int64_t *changes, unsigned char count, const char *end)
{
    static const unsigned char clock[] = {0, 0, 0, 0, 0, 0, 'U', 'T', 'C', '\0'};
    char *at = out;
    for (int wide = 0; wide < 2; wide++) {
        unsigned char header[44] = {'T', 'Z', 'i', 'f', '2'};
        header[35] = wide ? count : 0;
        header[39] = 1;
        header[43] = 4;
        at = (char *)memcpy(at, header, sizeof header) + sizeof header;
        for (int i = 0; wide && i < count; i++)
            for (int shift = 56; shift >= 0; shift -= 8)
                *at++ = (char)((uint64_t)changes[i] >> shift);
        for (int i = 0; wide && i < count; i++)
            *at++ = 0;
        at = (char *)memcpy(at, clock, sizeof clock) + sizeof clock;
    }
    return (size_t)(at - out) + (size_t)sprintf(at, "%s", end);
}

static const struct zone *zone_of(struct arena *arena, const int64_t *changes, unsigned char count, const char *end)
{
    char bytes[400];
    return zone_read(arena, "UTC", bytes, write_zone(bytes, changes, count, end));
}

static void moments_and_ends_of_files(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const int64_t most = (int64_t)1 << 62, still[] = {100, 200}, back[] = {200, 100}, twice[] = {100, 100}, late[] = {most},
                  early[] = {-most};
    const struct zone *zone = zone_of(arena, still, 2, "\n\n");
    assert_non_null(zone); /* nothing changes in it, and it has no rule */
    assert_true(zone_change_after(zone, 0) == ZONE_NEVER);
    assert_int_equal(zone_at(zone, 1000).ahead, 0);
    assert_string_equal(zone_place(arena, zone), "UTC");
    assert_non_null(zone_of(arena, still, 2, "\nUTC0\n"));
    assert_null(zone_of(arena, back, 2, "\nUTC0\n"));
    assert_null(zone_of(arena, twice, 2, "\nUTC0\n"));
    assert_null(zone_of(arena, late, 1, "\nUTC0\n"));
    assert_null(zone_of(arena, early, 1, "\nUTC0\n"));
    assert_null(zone_of(arena, still, 2, "\nUTC\n"));
    assert_null(zone_of(arena, still, 2, "UTC0\n"));
    assert_null(zone_of(arena, still, 2, "\nUTC0"));
    assert_null(zone_of(arena, still, 2, ""));
    arena_free(arena);
}

/* Before the first of the calendar's years and after its last nothing changes. */
static void years_beyond_the_calendar_stand_still(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct zone_rule rule;
    static const char text[] = "GMT0BST,M3.5.0/1,M10.5.0";
    assert_true(zone_rule_read(arena, text, strlen(text), &rule));
    assert_int_equal(zone_rule_at(&rule, moment(1, 1, 1, 0, 0) - 1).ahead, 0);
    assert_int_equal(zone_rule_at(&rule, moment(1, 1, 1, 0, 0) - 400 * (int64_t)DAY).ahead, 0);
    assert_int_equal(zone_rule_at(&rule, moment(1969, 7, 1, 0, 0)).ahead, HOUR);
    static const char late[] = "GMT0BST,M12.5.6/1,M10.5.0"; /* the last Saturday of the last year: a week on there is no date */
    assert_true(zone_rule_read(arena, late, strlen(late), &rule));
    assert_int_equal(zone_rule_at(&rule, moment(9999, 12, 25, 1, 0) - 1).ahead, 0);
    assert_int_equal(zone_rule_at(&rule, moment(9999, 12, 25, 1, 0)).ahead, HOUR);
    assert_true(zone_rule_change_after(&rule, moment(9999, 12, 31, 0, 0) + 400 * (int64_t)DAY) == ZONE_NEVER);
    arena_free(arena);
}

/* Each file that is cut short, and each in which a byte is another, is refused or read, and a zone that was read answers. */
static void damaged_files_are_refused_or_read(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    char bytes[20000], *copy;
    FILE *file = fopen("/usr/share/zoneinfo/America/St_Johns", "rb");
    if (!file)
        skip();
    size_t length = fread(bytes, 1, sizeof bytes, file), refused = 0;
    fclose(file);
    for (size_t cut = 0; cut < length; cut++) {
        copy = arena_copy(arena, bytes, cut); /* so that a sanitizer sees what is read behind it */
        assert_null(zone_read(arena, "X", copy, cut));
    }
    for (size_t at = 0; at < length; at++)
        for (int value = 0; value < 3; value++) {
            struct arena *scratch = arena_new();
            copy = arena_copy(scratch, bytes, length);
            copy[at] = (char)(value == 0 ? 0xff : value == 1 ? 0 : copy[at] ^ 0x80);
            const struct zone *zone = zone_read(scratch, "X", copy, length);
            refused += !zone;
            for (int year = 1; zone && year < 9999; year += 909) {
                int64_t change = zone_change_after(zone, moment(year, 6, 1, 0, 0));
                int ahead = zone_at(zone, moment(year, 6, 1, 0, 0)).ahead;
                assert_true(change > moment(year, 6, 1, 0, 0) && ahead > -25 * HOUR && ahead < 26 * HOUR);
            }
            arena_free(scratch);
        }
    assert_true(refused > 100);
    arena_free(arena);
}

static void names_lead_nowhere_else(void **state)
{
    (void)state;
    static const char *const good[] = {"Europe/London", "America/Argentina/Buenos_Aires", "America/Port-au-Prince", "Etc/GMT+12",
                                       "UTC"};
    static const char *const bad[] = {"", "/etc/passwd", "../etc/passwd", "Europe/../../etc/passwd", "Europe/", "Europe//London",
                                      "localtime", "posixrules", "right/Europe/London", "Europe/London.", "Europe/Lon don",
                                      "Europe/L\xc3\xb3ndon", "[urope", "Europe/Lon[don", "Europe/{", "Europe/~",
                                      "A/longer/name/than/any/that/there/is/or/will/be/in/a/list/of/the/zones/of/this/world/that/we/live/in"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        assert_true(zone_is_name(good[i]));
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_false(zone_is_name(bad[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(changes_are_as_published),
        cmocka_unit_test(some_never_change),
        cmocka_unit_test(hours_are_skipped_and_come_twice),
        cmocka_unit_test(every_zone_is_as_the_system_reads_it),
        cmocka_unit_test(rules_are_read_as_the_standard_says),
        cmocka_unit_test(moments_and_ends_of_files),
        cmocka_unit_test(years_beyond_the_calendar_stand_still),
        cmocka_unit_test(damaged_files_are_refused_or_read),
        cmocka_unit_test(names_lead_nowhere_else),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

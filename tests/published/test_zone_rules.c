/* Rules of time zones against the C library, which reads the same texts as TZ (POSIX.1-2024, 8.3; hours beyond a day as
 * RFC 9636, 3.3.1, has them): each clock of years with and without a 29 February, and each change. */
#define _GNU_SOURCE /* tm_gmtoff, MAP_ANONYMOUS */
#define _FILE_OFFSET_BITS 64 /* which the next asks for */
#define _TIME_BITS 64        /* moments of 2099, where the program is built for 32 bits, too */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/arena.h"
#include "figures/zone_rule.h"
#include "page_edge.h"

enum { HOUR = 3600, DAY = 86400, YEAR = 31556952 /* s, the mean of the calendar's */ };

/* What the C library's clocks show at a moment, in the zone that TZ holds. */
static struct tm shown_at(int64_t moment)
{
    time_t when = (time_t)moment;
    struct tm shown;
    assert_non_null(localtime_r(&when, &shown));
    return shown;
}

static bool same_at(const struct zone_rule *rule, int64_t moment)
{
    struct tm shown = shown_at(moment);
    struct zone_clocks clocks = zone_rule_at(rule, moment);
    return clocks.ahead == shown.tm_gmtoff && clocks.summer == (shown.tm_isdst > 0) && strcmp(clocks.letters, shown.tm_zone) == 0;
}

static void enter_zone(const char *text)
{
    setenv("TZ", text, 1);
    tzset();
}

/* From each change to the next, a second before it included, every fifth hour; how many changes there are in YEARS. */
static int compare_years(const struct zone_rule *rule, const char *text, int64_t from, int years)
{
    int changes = 0;
    int64_t to = from + (int64_t)years * YEAR;
    while (from < to) {
        int64_t next = zone_rule_change_after(rule, from);
        int64_t end = next < to ? next : to;
        assert_true(next > from);
        for (int64_t moment = from; moment < end; moment += 5 * HOUR)
            if (!same_at(rule, moment))
                fail_msg("%s: %lld", text, (long long)moment);
        assert_true(same_at(rule, end - 1));
        if (end == next) {
            assert_true(shown_at(next).tm_gmtoff != shown_at(next - 1).tm_gmtoff);
            changes++;
        }
        from = end;
    }
    return changes;
}

static void clocks_are_those_of_the_c_library(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "GMT0BST,M3.5.0/1,M10.5.0", "EST5EDT,M3.2.0,M11.1.0", "NZST-12NZDT,M9.5.0,M4.1.0/3", "NST3:30NDT,M3.2.0,M11.1.0",
        "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", "IST-2IDT,M3.4.4/26,M10.5.0", "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
        "EET-2EEST,M3.5.0/0,M10.5.0/0", "IST-1GMT0,M10.5.0,M3.5.0/1", "AAA-3:20:15BBB-4:10:05,M2.1.1/0:30,M8.4.6/13:59:59",
        "AAA5BBB,J60/0,J300/2", "AAA5BBB,J59/24,J305", "AAA-9BBB,59/3,300/2:30", "AAA-9BBB,60,J200/-5", "AAA+9BBB+7:30,J100/30,250",
        "AAA1BBB,M2.5.1,M2.5.6/167", "AAA1BBB,M5.1.3/-167,M6.3.2", "abc0xyz,M1.2.5,M12.3.1",
    };
    int changes = 0, count = sizeof texts / sizeof *texts;
    for (int i = 0; i < count; i++) {
        struct arena *arena = arena_new();
        struct zone_rule rule;
        assert_true(zone_rule_read(arena, texts[i], strlen(texts[i]), &rule));
        enter_zone(texts[i]);
        changes += compare_years(&rule, texts[i], INT64_C(1735689600) /* 2025 */, 5);
        changes += compare_years(&rule, texts[i], INT64_C(946684800) /* 2000 */, 1);
        changes += compare_years(&rule, texts[i], INT64_C(4070908800) /* 2099 */, 3);
        arena_free(arena);
    }
    assert_int_equal(changes, count * 2 * (5 + 1 + 3));
}

/* The calendar comes round in 400 years of 146,097 days, which are whole weeks (ISO 8601, and 400 * 365 + 97): so do rules, before
 * 1970 too, where C libraries differ. From the year 1 on, before which nothing changes, and up to the last, after which nothing
 * does. */
static void rules_come_round_in_400_years(void **state)
{
    (void)state;
    static const char *const texts[] = {"GMT0BST,M3.5.0/1,M10.5.0", "EST5EDT,M3.2.0,M11.1.0", "AAA5BBB,J60/0,J300/2", "AAA-9BBB,59/3,300"};
    const int64_t round = INT64_C(146097) * DAY, first = INT64_C(-719162) * DAY, last = INT64_C(2932897) * DAY - 1;
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct zone_rule rule;
        assert_true(zone_rule_read(arena, texts[i], strlen(texts[i]), &rule));
        for (int64_t moment = first; moment < first + 420 * (int64_t)YEAR; moment += 9 * DAY + 7 * HOUR) {
            assert_int_equal(zone_rule_at(&rule, moment).ahead, zone_rule_at(&rule, moment + round).ahead);
            assert_int_equal(zone_rule_at(&rule, moment).ahead, zone_rule_at(&rule, moment + 5 * round).ahead);
            assert_int_equal(zone_rule_change_after(&rule, moment) + round, zone_rule_change_after(&rule, moment + round));
        }
        for (int64_t moment = last - 2 * (int64_t)YEAR; moment <= last; moment += 9 * DAY)
            assert_int_equal(zone_rule_at(&rule, moment).ahead, zone_rule_at(&rule, moment - round).ahead);
        for (int beyond = 0; beyond < 3; beyond++) {
            assert_int_equal(zone_rule_at(&rule, first - 1 - beyond * (int64_t)YEAR).ahead, rule.winter.ahead);
            assert_int_equal(zone_rule_at(&rule, last + 1 + beyond * (int64_t)YEAR).ahead, rule.winter.ahead);
            assert_true(zone_rule_change_after(&rule, last + beyond * (int64_t)YEAR) == ZONE_NEVER);
            assert_int_equal(zone_rule_change_after(&rule, first - 1 - beyond * (int64_t)YEAR), zone_rule_change_after(&rule, first));
        }
    }
    arena_free(arena);
}

/* A hundred hours before a year and after it (RFC 9636, 3.3.1, allows 167): the C library looks at one year alone. */
static void changes_may_lie_off_their_year(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int64_t change;
        int before, after;
    } cases[] = {
        {"AAA1BBB,J1/-100,J180", INT64_C(1798761600) /* 2027-01-01 00:00 */ - 100 * HOUR + HOUR, -HOUR, 0},
        {"AAA1BBB,J100,J365/100", INT64_C(1830211200) /* 2027-12-31 00:00 */ + 100 * HOUR, 0, -HOUR},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena *arena = arena_new();
        struct zone_rule rule;
        assert_true(zone_rule_read(arena, cases[i].text, strlen(cases[i].text), &rule));
        assert_int_equal(zone_rule_at(&rule, cases[i].change - 1).ahead, cases[i].before);
        assert_int_equal(zone_rule_at(&rule, cases[i].change).ahead, cases[i].after);
        for (int days = 0; days < 5; days++) {
            int64_t earlier = cases[i].change - 1 - days * DAY;
            assert_int_equal(zone_rule_change_after(&rule, earlier), cases[i].change);
            assert_int_equal(zone_rule_at(&rule, earlier).ahead, cases[i].before);
            assert_int_equal(zone_rule_at(&rule, cases[i].change + days * DAY).ahead, cases[i].after);
        }
        arena_free(arena);
    }
}

/* Texts at the borders of what the standard allows; how many letters a name may have is the program's own limit. */
static const struct {
    const char *text;
    bool right;
} borders[] = {
    {"AB0", false}, {"ABC0", true}, {"ABCDEFGHIJKLMNOP0", true}, {"ABCDEFGHIJKLMNOPQ0", false}, {"<+0>0", false}, {"<+00>0", true},
    {"<+00", false}, {"<+000", false}, {"<-00>0", true}, {"<A1C>0", true}, {"<A.C>0", false}, {"A1C0", false}, {"A+C0", false},
    {"A@C0", false}, {"AAC0", true}, {"AZC0", true}, {"A[C0", false}, {"a`c0", false}, {"aac0", true}, {"azc0", true}, {"a{c0", false},
    {"", false}, {"ABC", false}, {"ABC-", false}, {"ABC+", false}, {"ABC24", true}, {"ABC25", false}, {"ABC-24", true}, {"ABC-25", false},
    {"ABC+1", true}, {"ABC-+1", false}, {"ABC--1", false}, {"ABC++1", false}, {"ABC001", true}, {"ABC0001", false}, {"ABC1:00", true},
    {"ABC1:59", true}, {"ABC1:60", false}, {"ABC1:", false}, {"ABC1:00:00", true}, {"ABC1:00:59", true}, {"ABC1:00:60", false},
    {"ABC1:00:", false}, {"ABC1:00:00:", false}, {"ABC1,", false}, {"ABC1DEF", false}, {"ABC1DEF,", false}, {"ABC1DEF,J1", false},
    {"ABC1DEF,J1,", false}, {"ABC1DEF,J1J2", false}, {"ABC1DEF,J1,J2", true}, {"ABC1DEF,J1,J2 ", false}, {"ABC1DEF,J1,J2,", false},
    {"ABC1DE,J1,J2", false}, {"ABC1DEF24,J1,J2", true}, {"ABC1DEF25,J1,J2", false}, {"ABC1DEF0:0:0,J1,J2", true},
    {"ABC1DEF,J0,J2", false}, {"ABC1DEF,J1,J0", false}, {"ABC1DEF,J365,J2", true}, {"ABC1DEF,J366,J2", false},
    {"ABC1DEF,J1,J366", false}, {"ABC1DEF,0,0", true}, {"ABC1DEF,365,365", true}, {"ABC1DEF,366,1", false}, {"ABC1DEF,-1,1", false},
    {"ABC1DEF,M1.1.0,1", true}, {"ABC1DEF,M0.1.0,1", false}, {"ABC1DEF,M12.1.0,1", true}, {"ABC1DEF,M13.1.0,1", false},
    {"ABC1DEF,M1.0.0,1", false}, {"ABC1DEF,M1.5.0,1", true}, {"ABC1DEF,M1.6.0,1", false}, {"ABC1DEF,M1.1.6,1", true},
    {"ABC1DEF,M1.1.7,1", false}, {"ABC1DEF,M1,1", false}, {"ABC1DEF,M1.1,1", false}, {"ABC1DEF,M1.1.,1", false},
    {"ABC1DEF,M1,1.0,1", false}, {"ABC1DEF,M.1.0,1", false}, {"ABC1DEF,J,1", false}, {"ABC1DEF,J1/167,1", true},
    {"ABC1DEF,J1/168,1", false}, {"ABC1DEF,J1/-167:59:59,1", true}, {"ABC1DEF,J1/-168,1", false}, {"ABC1DEF,J1/,1", false},
    {"ABC1DEF,J1,J2/167:00", true}, {"ABC1DEF,J1,J2/168", false},
};

static void borders_are_those_of_the_standard(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    for (size_t i = 0; i < sizeof borders / sizeof *borders; i++) {
        struct zone_rule rule = {.winter.summer = true, .changes = true};
        bool taken = zone_rule_read(arena, borders[i].text, strlen(borders[i].text), &rule);
        if (taken != borders[i].right)
            fail_msg("`%s` was %s", borders[i].text, taken ? "taken" : "refused");
        assert_false(rule.winter.summer);
        if (taken)
            assert_int_equal(rule.changes, strchr(borders[i].text, ',') != NULL);
    }
    arena_free(arena);
}

/* A text ends where it is said to, whatever comes behind it: more of it, or no memory at all. */
static void what_is_behind_a_text_is_not_read(void **state)
{
    (void)state;
    static const char *const texts[] = {"ABC10:30:25DEF11:35:15,M10.4.0/12:15:15,M11.3.0/13:10:10", "<+0030>-0:30<-01>+1,J100/-10,250/20"};
    char *end = page_edge();
    assert_non_null(end);
    for (size_t i = 0; i < 2; i++)
        for (size_t length = 0; length <= strlen(texts[i]); length++) {
            struct arena *arena = arena_new();
            struct zone_rule alone, within, edge;
            bool right = zone_rule_read(arena, arena_copy(arena, texts[i], length), length, &alone);
            assert_int_equal(zone_rule_read(arena, texts[i], length, &within), right);
            memcpy(end - length, texts[i], length);
            assert_int_equal(zone_rule_read(arena, end - length, length, &edge), right);
            assert_true(!right || (within.ends.seconds == alone.ends.seconds && within.winter.ahead == alone.winter.ahead));
            arena_free(arena);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(borders_are_those_of_the_standard),
        cmocka_unit_test(what_is_behind_a_text_is_not_read),
        cmocka_unit_test(rules_come_round_in_400_years),
        cmocka_unit_test(changes_may_lie_off_their_year),
        cmocka_unit_test(clocks_are_those_of_the_c_library),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

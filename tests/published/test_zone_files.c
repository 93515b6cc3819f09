/* Files of time zones at their borders, each written for the test byte by byte: what RFC 9636, 3.1 and 3.2, allows is read,
 * and what it does not is refused. How many of each thing a file may have is the program's own limit, common practice. */
#define _GNU_SOURCE /* MAP_ANONYMOUS, tm_gmtoff */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/arena.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "page_edge.h"

enum { HOUR = 3600, DAY = 86400, EPOCH = 719163, MOST_BYTES = 400000 };

/* A file of 64 bits behind an empty block of 32 bits. Changes come a day apart from FIRST on. */
struct file {
    const char *magic;    /* TZif2 unless given */
    uint32_t ut, standard, leaps, changes, clocks, letters;
    int64_t first;
    unsigned char kind;   /* of every change */
    int ahead;            /* of every clock */
    unsigned char summer, at_letter;
    char letter;          /* the first of the letters, A unless given */
    int cut;              /* bytes of the end left out */
    const char *end;      /* two line ends unless given */
};

static unsigned char *put(unsigned char *at, uint64_t number, int bytes)
{
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8)
        *at++ = (unsigned char)(number >> shift);
    return at;
}

static unsigned char *put_header(unsigned char *at, const struct file *file)
{
    memcpy(at, file->magic ? file->magic : "TZif2", 5);
    memset(at + 5, 0, 15);
    at = put(put(put(at + 20, file->ut, 4), file->standard, 4), file->leaps, 4);
    return put(put(put(at, file->changes, 4), file->clocks, 4), file->letters, 4);
}

/* LEAD is the block of 32 bits: passed over, but its length has to be right. */
static size_t write_file(unsigned char *bytes, const struct file *lead, const struct file *file)
{
    unsigned char *at = put_header(bytes, lead);
    size_t block = (size_t)lead->changes * 5 + (size_t)lead->clocks * 6 + lead->letters + (size_t)lead->leaps * 8 +
                   lead->standard + lead->ut;
    memset(at, 0, block);
    at = put_header(at + block, file);
    for (uint32_t i = 0; i < file->changes; i++)
        at = put(at, (uint64_t)(file->first + (int64_t)i * 86400), 8);
    memset(at, file->kind, file->changes);
    at += file->changes;
    for (uint32_t i = 0; i < file->clocks; i++)
        at = put(put(put(at, (uint32_t)file->ahead, 4), file->summer, 1), file->at_letter, 1);
    memset(at, 'A', file->letters);
    if (file->letters) {
        *at = (unsigned char)(file->letter ? file->letter : 'A');
        at[file->letters - 1] = '\0';
    }
    at += file->letters;
    memset(at, 0, (size_t)file->leaps * 12 + file->standard + file->ut);
    at += (size_t)file->leaps * 12 + file->standard + file->ut;
    for (const char *end = file->end ? file->end : "\n\n"; *end; end++)
        *at++ = (unsigned char)*end;
    return (size_t)(at - bytes) - (size_t)file->cut;
}

/* The zone that the file holds; NULL when it is refused. */
static const struct zone *zone_of(struct arena *arena, const struct file *lead, const struct file *file)
{
    unsigned char *bytes = arena_alloc(arena, MOST_BYTES);
    size_t length = write_file(bytes, lead, file);
    char *alone = arena_copy(arena, (const char *)bytes, length);
    return zone_read(arena, "X", alone, length);
}

static const struct file one = {.clocks = 1, .letters = 4}, empty = {0};

static void counts_have_a_most(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        struct file file;
        bool right;
    } cases[] = {
        {"no clock", {.letters = 4}, false},
        {"one clock", {.clocks = 1, .letters = 4}, true},
        {"most clocks", {.clocks = 256, .letters = 4}, true},
        {"a clock too many", {.clocks = 257, .letters = 4}, false},
        {"most changes", {.clocks = 1, .letters = 4, .changes = 20000}, true},
        {"a change too many", {.clocks = 1, .letters = 4, .changes = 20001}, false},
        {"most letters", {.clocks = 1, .letters = 4096}, true},
        {"a letter too many", {.clocks = 1, .letters = 4097}, false},
        {"most marks of UT", {.clocks = 1, .letters = 4, .ut = 256}, true},
        {"a mark of UT too many", {.clocks = 1, .letters = 4, .ut = 257}, false},
        {"most standard marks", {.clocks = 1, .letters = 4, .standard = 256}, true},
        {"a standard mark too many", {.clocks = 1, .letters = 4, .standard = 257}, false},
        {"leap seconds", {.clocks = 1, .letters = 4, .leaps = 1}, false},
        {"no version", {.magic = "TZif", .clocks = 1, .letters = 4}, false},
        {"version 1", {.magic = "TZif1", .clocks = 1, .letters = 4}, false},
        {"version 3", {.magic = "TZif3", .clocks = 1, .letters = 4}, true},
        {"another first letter", {.magic = "XZif2", .clocks = 1, .letters = 4}, false},
        {"another last letter", {.magic = "TZix2", .clocks = 1, .letters = 4}, false},
        {"the end cut off", {.clocks = 1, .letters = 4, .cut = 1}, false},
        {"all of the end cut off", {.clocks = 1, .letters = 4, .cut = 2}, false},
        {"the block cut short", {.clocks = 1, .letters = 4, .cut = 3}, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena *arena = arena_new();
        if ((zone_of(arena, &empty, &cases[i].file) != NULL) != cases[i].right)
            fail_msg("%s: %s", cases[i].what, cases[i].right ? "refused" : "taken");
        arena_free(arena);
    }
}

/* The block of 32 bits is passed over, whatever it counts, when it is as long as it says. */
static void the_first_block_is_passed_over(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        struct file lead;
        bool right;
    } cases[] = {
        {"changes", {.changes = 3}, true},
        {"clocks", {.clocks = 2}, true},
        {"letters", {.letters = 7}, true},
        {"leap seconds", {.leaps = 2}, true},
        {"marks", {.ut = 3, .standard = 5}, true},
        {"all", {.changes = 3, .clocks = 2, .letters = 7, .leaps = 2, .ut = 1, .standard = 4}, true},
        {"most leap seconds", {.leaps = 10000}, true},
        {"a leap second too many", {.leaps = 10001}, false},
        {"another letter", {.magic = "TZiF2"}, false},
        {"version 1", {.magic = "TZif1"}, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena *arena = arena_new();
        if ((zone_of(arena, &cases[i].lead, &one) != NULL) != cases[i].right)
            fail_msg("%s: %s", cases[i].what, cases[i].right ? "refused" : "taken");
        arena_free(arena);
    }
}

/* RFC 9636, 3.2: an offset is more than -25 hours and less than 26; a summer is 0 or 1; kinds and letters lie in their tables. */
static void clocks_and_moments_have_borders(void **state)
{
    (void)state;
    static const int64_t farthest = INT64_C(1) << 60;
    const struct {
        const char *what;
        struct file file;
        bool right;
    } cases[] = {
        {"farthest west", {.clocks = 1, .letters = 4, .ahead = -25 * HOUR + 1}, true},
        {"too far west", {.clocks = 1, .letters = 4, .ahead = -25 * HOUR}, false},
        {"farthest east", {.clocks = 1, .letters = 4, .ahead = 26 * HOUR - 1}, true},
        {"too far east", {.clocks = 1, .letters = 4, .ahead = 26 * HOUR}, false},
        {"the largest offset", {.clocks = 1, .letters = 4, .ahead = INT32_MAX}, false},
        {"summer", {.clocks = 1, .letters = 4, .summer = 1}, true},
        {"neither summer nor winter", {.clocks = 1, .letters = 4, .summer = 2}, false},
        {"the last letter", {.clocks = 1, .letters = 4, .at_letter = 3}, true},
        {"behind the letters", {.clocks = 1, .letters = 4, .at_letter = 4}, false},
        {"a blank", {.clocks = 1, .letters = 4, .letter = ' '}, false},
        {"the first sign", {.clocks = 1, .letters = 4, .letter = '!'}, true},
        {"the last sign", {.clocks = 1, .letters = 4, .letter = '~'}, true},
        {"behind the signs", {.clocks = 1, .letters = 4, .letter = 127}, false},
        {"the last clock", {.clocks = 2, .letters = 4, .changes = 1, .kind = 1}, true},
        {"behind the clocks", {.clocks = 2, .letters = 4, .changes = 1, .kind = 2}, false},
        {"the earliest moment", {.clocks = 1, .letters = 4, .changes = 1, .first = -farthest}, true},
        {"a second earlier", {.clocks = 1, .letters = 4, .changes = 1, .first = -farthest - 1}, false},
        {"the latest moment", {.clocks = 1, .letters = 4, .changes = 1, .first = farthest}, true},
        {"a second later", {.clocks = 1, .letters = 4, .changes = 1, .first = farthest + 1}, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena *arena = arena_new();
        const struct zone *zone = zone_of(arena, &empty, &cases[i].file);
        if ((zone != NULL) != cases[i].right)
            fail_msg("%s: %s", cases[i].what, cases[i].right ? "refused" : "taken");
        if (zone) {
            assert_int_equal(zone_at(zone, 0).ahead, cases[i].file.ahead);
            assert_int_equal(zone_at(zone, 0).summer, cases[i].file.summer);
        }
        arena_free(arena);
    }
}

/* However few bytes of FILE are there, it is refused, and none behind them is looked at: that would be the end of the test. */
static void refuse_all_cuts(const struct file *lead, const struct file *file)
{
    unsigned char bytes[400];
    size_t length = write_file(bytes, lead, file);
    char *end = page_edge();
    assert_non_null(end);
    struct arena *arena = arena_new();
    for (size_t cut = 0; cut <= length; cut++) {
        memcpy(end - cut, bytes, cut);
        assert_int_equal(zone_read(arena, "X", end - cut, cut) != NULL, cut == length);
        /* What lies behind the bytes would do, but is not theirs. */
        assert_int_equal(zone_read(arena, "X", bytes, cut) != NULL, cut == length);
    }
    bytes[length - 2] = 'X'; /* the end is between two line ends */
    assert_null(zone_read(arena, "X", bytes, length));
    arena_free(arena);
}

static void short_files_are_refused(void **state)
{
    (void)state;
    static const struct file much = {.clocks = 2, .letters = 8, .changes = 5, .ut = 2, .standard = 2};
    static const struct file lead = {.clocks = 1, .letters = 4, .changes = 3, .leaps = 1, .ut = 1, .standard = 1};
    refuse_all_cuts(&empty, &one);
    refuse_all_cuts(&empty, &much);
    refuse_all_cuts(&lead, &much);
}

/* Two clocks, to the second of which the only change leads, and how the second differs from the first. */
static void a_change_is_what_clocks_show(void **state)
{
    (void)state;
    static const struct {
        unsigned char ahead, summer, at_letter;
        bool changes;
    } cases[] = {{0, 0, 0, false}, {60, 0, 0, true}, {0, 1, 0, true}, {0, 0, 1, true}, {60, 1, 1, true}};
    const struct file two = {.clocks = 2, .letters = 4, .changes = 1, .kind = 1, .first = 86400};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena *arena = arena_new();
        unsigned char bytes[300], *second;
        size_t length = write_file(bytes, &empty, &two);
        second = bytes + length - 2 - 4 - 6; /* before the letters and the end */
        second[3] = cases[i].ahead;
        second[4] = cases[i].summer;
        second[5] = cases[i].at_letter;
        const struct zone *zone = zone_read(arena, "X", bytes, length);
        assert_non_null(zone);
        assert_int_equal(zone_at(zone, 86399).ahead, 0);
        assert_int_equal(zone_at(zone, 86400).ahead, cases[i].ahead);
        assert_true(zone_change_after(zone, 0) == (cases[i].changes ? 86400 : ZONE_NEVER));
        assert_true(zone_change_after(zone, 86400) == ZONE_NEVER);
        arena_free(arena);
    }
}

/* POSIX counts seconds from 1970, and RFC 9636 the offset from UT to the east. */
static void clocks_are_ahead_of_a_moment(void **state)
{
    (void)state;
    int date, clock;
    assert_int_equal(zone_ahead(EPOCH, 0, 0), 0);
    assert_int_equal(zone_ahead(EPOCH, HOUR, 0), HOUR);
    assert_int_equal(zone_ahead(EPOCH + 1, 1800, 86400), 1800);
    assert_int_equal(zone_ahead(EPOCH + 20000, 0, INT64_C(86400) * 20000 + 9 * HOUR), -9 * HOUR);
    zone_shown(0, 0, &date, &clock);
    assert_int_equal(date, EPOCH);
    assert_int_equal(clock, 0);
    zone_shown(-86400, 0, &date, &clock);
    assert_int_equal(date, EPOCH - 1);
    assert_int_equal(clock, 0);
}

/* Against the C library's own sums of days. */
static void clocks_show_what_the_c_library_says(void **state)
{
    (void)state;
    for (int i = 0; i < 720; i++) /* every six hours, and a second before and behind */
        for (int ahead = -24 * HOUR; ahead <= 24 * HOUR; ahead += 6 * HOUR) {
            int64_t moment = (i / 3 - 120) * 6 * (int64_t)HOUR + i % 3 - 1;
            time_t when = (time_t)(moment + ahead);
            struct tm shown;
            int date, clock;
            assert_non_null(gmtime_r(&when, &shown));
            zone_shown(moment, ahead, &date, &clock);
            assert_int_equal(date, date_from_ymd(shown.tm_year + 1900, shown.tm_mon + 1, shown.tm_mday));
            assert_int_equal(clock, (shown.tm_hour * 60 + shown.tm_min) * 60 + shown.tm_sec);
        }
}

/* How far the C library's clocks are ahead at a moment, in the zone that TZ holds. */
static int64_t ahead_at(int64_t moment)
{
    time_t when = (time_t)moment;
    struct tm shown;
    assert_non_null(localtime_r(&when, &shown));
    return shown.tm_gmtoff;
}

/* When clocks show LOCAL, in seconds from 1970 as if they were of UTC, each answer tried by the C library's clocks. */
static void expect_moment(const struct zone *zone, int64_t local)
{
    int64_t before = ahead_at(local - DAY), after = ahead_at(local + DAY);
    bool still = ahead_at(local - before) == before, already = before != after && ahead_at(local - after) == after;
    enum zone_hour how, wanted = still && already ? ZONE_TWICE : still || already ? ZONE_ONCE : ZONE_SKIPPED;
    int64_t moment = local - (already && !still ? after : before); /* before is the earlier of two: clocks go back */
    int date = EPOCH + (int)(local / DAY), clock = (int)(local % DAY);
    assert_int_equal(zone_moment(zone, date, clock, &how), moment);
    assert_int_equal(how, wanted);
    assert_int_equal(zone_moment(zone, date, clock, NULL), moment);
}

/* Every quarter of an hour of the two days around each change of two years, and of the months between. */
static void hours_are_those_of_the_c_library(void **state)
{
    (void)state;
    static const char *const rules[] = {"GMT0BST,M3.5.0/1,M10.5.0", "EST5EDT,M3.2.0,M11.1.0", "NZST-12NZDT,M9.5.0,M4.1.0/3",
                                        "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", "AAA-9"};
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        struct arena *arena = arena_new();
        char end[60] = "\n";
        strcat(strcat(end, rules[i]), "\n");
        struct file file = one;
        file.end = end;
        const struct zone *zone = zone_of(arena, &empty, &file);
        assert_non_null(zone);
        setenv("TZ", rules[i], 1);
        tzset();
        for (int64_t day = 20819 /* 2027-01-01 */; day < 20819 + 730; day++) {
            bool changes = zone_change_after(zone, (day - 1) * DAY) < (day + 2) * DAY;
            for (int64_t clock = 0; clock < DAY; clock += changes ? HOUR / 4 : 7 * HOUR)
                expect_moment(zone, day * DAY + clock);
        }
        arena_free(arena);
    }
}

/* A table up to 2030, in which nothing changes, and from then on a rule (RFC 9636, 3.3). */
static void a_rule_begins_where_the_table_ends(void **state)
{
    (void)state;
    const int64_t last = INT64_C(1893456000) /* 2030-01-01 */, spring = last + 89 * (int64_t)DAY + HOUR;
    const struct file file = {.clocks = 1, .letters = 4, .changes = 1, .first = last, .end = "\nAAA0BBB,M3.5.0/1,M10.5.0\n"};
    struct arena *arena = arena_new();
    const struct zone *zone = zone_of(arena, &empty, &file);
    assert_non_null(zone);
    for (int months = 1; months < 48; months++) {
        int64_t moment = last - months * 30 * (int64_t)DAY;
        assert_int_equal(zone_at(zone, moment).ahead, 0);
        assert_int_equal(zone_change_after(zone, moment), spring); /* 31 March, a Sunday */
    }
    assert_int_equal(zone_at(zone, spring - 1).ahead, 0);
    assert_int_equal(zone_at(zone, spring).ahead, HOUR);
    arena_free(arena);
}

/* Of changes a second apart each counts: to the second clock, and back. */
static void changes_may_be_a_second_apart(void **state)
{
    (void)state;
    const struct file file = {.clocks = 2, .letters = 4, .changes = 2, .first = DAY};
    struct arena *arena = arena_new();
    unsigned char bytes[300];
    size_t length = write_file(bytes, &empty, &file);
    unsigned char *kinds = bytes + length - 2 - 4 - 2 * 6 - 2, *second = bytes + length - 2 - 4 - 6;
    put(kinds - 8, DAY + 1, 8);
    kinds[0] = 1;
    second[3] = 60;
    const struct zone *zone = zone_read(arena, "X", bytes, length);
    assert_non_null(zone);
    assert_int_equal(zone_change_after(zone, 0), DAY);
    assert_int_equal(zone_change_after(zone, DAY), DAY + 1);
    assert_int_equal(zone_at(zone, DAY).ahead, 60);
    assert_int_equal(zone_at(zone, DAY + 1).ahead, 0);
    arena_free(arena);
}

static void names_have_borders(void **state)
{
    (void)state;
    char longest[66];
    memset(longest, 'A', sizeof longest);
    longest[65] = '\0';
    assert_false(zone_is_name(longest));
    longest[64] = '\0';
    assert_true(zone_is_name(longest));
    assert_true(zone_is_name("Az"));
    assert_true(zone_is_name("Za"));
    assert_true(zone_is_name("A/Z09"));
    static const char *const places[][2] = {{"UTC", "UTC"},
                                            {"Europe/London", "London"},
                                            {"America/Argentina/Buenos_Aires", "Buenos Aires"}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        struct arena *arena = arena_new();
        unsigned char bytes[200];
        size_t length = write_file(bytes, &empty, &one);
        const struct zone *zone = zone_read(arena, places[i][0], bytes, length);
        assert_non_null(zone);
        assert_string_equal(zone_place(arena, zone), places[i][1]);
        assert_string_equal(zone_name(zone), places[i][0]);
        arena_free(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_have_a_most),
        cmocka_unit_test(the_first_block_is_passed_over),
        cmocka_unit_test(clocks_and_moments_have_borders),
        cmocka_unit_test(short_files_are_refused),
        cmocka_unit_test(a_change_is_what_clocks_show),
        cmocka_unit_test(clocks_are_ahead_of_a_moment),
        cmocka_unit_test(clocks_show_what_the_c_library_says),
        cmocka_unit_test(hours_are_those_of_the_c_library),
        cmocka_unit_test(a_rule_begins_where_the_table_ends),
        cmocka_unit_test(changes_may_be_a_second_apart),
        cmocka_unit_test(names_have_borders),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

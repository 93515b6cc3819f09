#include "figures/zone_rule.h"

#include <string.h>

#include "base/arena.h"
#include "figures/dates.h"

enum { HOUR = 3600, DAY = 86400, EPOCH = 719163 /* 1970-01-01 */, MOST_HOURS = 24, MOST_RULE_HOURS = 167, LONGEST_LETTERS = 16 };

/* --- reading --- */

struct rule_text {
    struct arena *arena;
    const char *at, *end;
};

static bool take(struct rule_text *reading, char sign)
{
    if (reading->at == reading->end || *reading->at != sign)
        return false;
    reading->at++;
    return true;
}

static bool is_digit(const struct rule_text *reading)
{
    return reading->at < reading->end && *reading->at >= '0' && *reading->at <= '9';
}

/* A whole number of up to three digits, LOW to HIGH. */
static bool read_number(struct rule_text *reading, int low, int high, int *number)
{
    int digits = 0;
    for (*number = 0; is_digit(reading) && digits < 3; digits++)
        *number = *number * 10 + (*reading->at++ - '0');
    return digits > 0 && !is_digit(reading) && *number >= low && *number <= high;
}

static bool is_letter(char sign)
{
    return (sign >= 'A' && sign <= 'Z') || (sign >= 'a' && sign <= 'z');
}

/* "GMT", or "<+0530>". */
static bool read_letters(struct rule_text *reading, const char **letters)
{
    bool quoted = take(reading, '<');
    const char *start = reading->at;
    while (reading->at < reading->end && (is_letter(*reading->at) || (quoted && (is_digit(reading) || *reading->at == '+' ||
                                                                                *reading->at == '-'))))
        reading->at++;
    size_t length = (size_t)(reading->at - start);
    if (length < 3 || length > LONGEST_LETTERS || (quoted && !take(reading, '>')))
        return false;
    *letters = arena_copy(reading->arena, start, length);
    return true;
}

/* "1", "-2:30", "+10:00:00"; in seconds. */
static bool read_time(struct rule_text *reading, int most, int *seconds)
{
    int hours, minutes = 0, rest = 0;
    bool below = take(reading, '-');
    if (!below)
        take(reading, '+');
    if (!read_number(reading, 0, most, &hours))
        return false;
    bool finer = take(reading, ':');
    if (finer && (!read_number(reading, 0, 59, &minutes) || (take(reading, ':') && !read_number(reading, 0, 59, &rest))))
        return false;
    *seconds = (hours * 60 + minutes) * 60 + rest;
    *seconds = below ? -*seconds : *seconds;
    return true;
}

/* ",M3.5.0/1", ",J60" or ",59". */
static bool read_day(struct rule_text *reading, struct zone_day *day)
{
    day->seconds = 2 * HOUR;
    if (!take(reading, ','))
        return false;
    if (take(reading, 'M')) {
        day->kind = ZONE_WEEKDAY;
        if (!read_number(reading, 1, 12, &day->month) || !take(reading, '.') || !read_number(reading, 1, 5, &day->week) ||
            !take(reading, '.') || !read_number(reading, 0, 6, &day->day))
            return false;
    } else {
        day->kind = take(reading, 'J') ? ZONE_JULIAN : ZONE_YEAR_DAY;
        if (!read_number(reading, day->kind == ZONE_JULIAN, 365, &day->day))
            return false;
    }
    return !take(reading, '/') || read_time(reading, MOST_RULE_HOURS, &day->seconds);
}

bool zone_rule_read(struct arena *arena, const char *text, size_t length, struct zone_rule *rule)
{
    struct rule_text reading = {.arena = arena, .at = text, .end = text + length};
    int behind;
    *rule = (struct zone_rule){0};
    if (!read_letters(&reading, &rule->winter.letters) || !read_time(&reading, MOST_HOURS, &behind))
        return false;
    rule->winter.ahead = -behind; /* POSIX counts west */
    rule->changes = reading.at < reading.end;
    if (!rule->changes)
        return true;
    if (!read_letters(&reading, &rule->summer.letters))
        return false;
    behind = behind - HOUR;
    if (reading.at < reading.end && *reading.at != ',' && !read_time(&reading, MOST_HOURS, &behind))
        return false;
    rule->summer.ahead = -behind;
    rule->summer.summer = true;
    return read_day(&reading, &rule->begins) && read_day(&reading, &rule->ends) && reading.at == reading.end;
}

/* --- the changes of a year --- */

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* The day of YEAR that DAY means; 0 where the year is none of the calendar's. */
static int day_in(const struct zone_day *day, int year)
{
    int first = date_from_ymd(year, day->kind == ZONE_WEEKDAY ? day->month : 1, 1);
    if (!first)
        return 0;
    if (day->kind == ZONE_JULIAN)
        return first + day->day - 1 + (is_leap(year) && day->day > 59);
    if (day->kind == ZONE_YEAR_DAY)
        return first + day->day;
    int date = first + (day->day - date_weekday(first) % 7 + 7) % 7 + 7 * (day->week - 1);
    int y, month, d;
    while (!date_to_ymd(date, &y, &month, &d) || month != day->month)
        date -= 7;
    return date;
}

/* When in YEAR summer's time begins, or else ends; ZONE_NEVER in no year of the calendar. */
static int64_t change_in(const struct zone_rule *rule, int year, bool begins)
{
    const struct zone_day *day = begins ? &rule->begins : &rule->ends;
    int date = day_in(day, year);
    return date ? (int64_t)(date - EPOCH) * DAY + day->seconds - (begins ? rule->winter.ahead : rule->summer.ahead) : ZONE_NEVER;
}

static int year_of(int64_t moment)
{
    int year, month, day;
    int64_t date = EPOCH + (moment >= 0 ? moment / DAY : -((-moment + DAY - 1) / DAY));
    if (date < 1)
        return 1;
    date_to_ymd(date > DATE_LAST ? DATE_LAST : (int)date, &year, &month, &day);
    return year;
}

/* A change may be days off its year, so those of the years beside it are looked at too. Of an end and a beginning at one
 * moment the beginning counts: then it is summer all year. */
struct zone_clocks zone_rule_at(const struct zone_rule *rule, int64_t moment)
{
    int year = rule->changes ? year_of(moment) : 0;
    int64_t begun = INT64_MIN, ended = INT64_MIN;
    for (int y = year - 1; rule->changes && y <= year + 1; y++) {
        int64_t begins = change_in(rule, y, true), ends = change_in(rule, y, false);
        begun = begins <= moment ? begins : begun;
        ended = ends <= moment ? ends : ended;
    }
    return begun > INT64_MIN && begun >= ended ? rule->summer : rule->winter;
}

int64_t zone_rule_change_after(const struct zone_rule *rule, int64_t moment)
{
    int year = year_of(moment);
    int64_t next = ZONE_NEVER;
    for (int y = year - 1; rule->changes && y <= year + 1; y++)
        for (int begins = 0; begins < 2; begins++) {
            int64_t change = change_in(rule, y, begins);
            next = change > moment && change < next ? change : next;
        }
    return next;
}

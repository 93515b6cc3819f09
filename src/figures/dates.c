#include "figures/dates.h"

#include <glib.h>

enum { YEAR_LAST = 9999, DAYS_OF_WEEK = 7, THURSDAY_FROM_MONDAY = 3 };

bool date_is_valid(int day)
{
    return day > DATE_NONE && day <= DATE_LAST;
}

int date_from_ymd(int year, int month, int day)
{
    /* The ranges come first because GDate's types are narrower than int and would wrap. */
    if (year < 1 || year > YEAR_LAST || month < 1 || month > 12 || day < 1 || day > 31)
        return DATE_NONE;
    if (!g_date_valid_dmy((GDateDay)day, (GDateMonth)month, (GDateYear)year))
        return DATE_NONE;

    GDate found;
    g_date_clear(&found, 1);
    g_date_set_dmy(&found, (GDateDay)day, (GDateMonth)month, (GDateYear)year);
    return (int)g_date_get_julian(&found);
}

bool date_to_ymd(int day, int *year, int *month, int *day_of_month)
{
    *year = *month = *day_of_month = 0;
    if (!date_is_valid(day))
        return false;

    GDate found;
    g_date_clear(&found, 1);
    g_date_set_julian(&found, (guint32)day);
    *year = g_date_get_year(&found);
    *month = (int)g_date_get_month(&found);
    *day_of_month = g_date_get_day(&found);
    return true;
}

/* Writes NUMBER with COUNT digits. */
static char *put_digits(char *text, int number, int count)
{
    for (int i = count; i-- > 0; number /= 10)
        text[i] = (char)('0' + number % 10);
    return text + count;
}

char *date_format(int day, char text[DATE_TEXT_SIZE])
{
    int year, month, day_of_month;
    char *end = text;

    if (date_to_ymd(day, &year, &month, &day_of_month)) {
        end = put_digits(end, year, 4);
        *end++ = '-';
        end = put_digits(end, month, 2);
        *end++ = '-';
        end = put_digits(end, day_of_month, 2);
    }
    *end = '\0';
    return text;
}

int date_weekday(int day)
{
    return date_is_valid(day) ? (day - 1) % DAYS_OF_WEEK + 1 : 0;
}

int date_monday(int day)
{
    return date_is_valid(day) ? day - date_weekday(day) + 1 : DATE_NONE;
}

bool date_iso_week(int day, int *year, int *week)
{
    *year = *week = 0;
    if (!date_is_valid(day))
        return false;

    /* A week belongs to the year of its Thursday, and so does its number. */
    int thursday = date_monday(day) + THURSDAY_FROM_MONDAY;
    int month, day_of_month;
    date_to_ymd(thursday, year, &month, &day_of_month);
    *week = (thursday - date_from_ymd(*year, 1, 1)) / DAYS_OF_WEEK + 1;
    return true;
}

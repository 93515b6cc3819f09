#ifndef BELL_FIGURES_DATES_H
#define BELL_FIGURES_DATES_H

#include <stdbool.h>
#include <stddef.h>

/* 
 * A date is an int: the day of the proleptic Gregorian calendar, counted from 1 = 0001-01-01 (a Monday) as GLib's
 * Julian day, so that the difference of two dates is the number of days between them. 0 is "no date". Years run from 1
 * to 9999, four digits, as ISO 8601 writes them. (No typedef: the word is needed for variables.)
 */

enum {
    DATE_NONE = 0,
    DATE_LAST = 3652059, /* 9999-12-31 */
    DATE_TEXT_SIZE = 11  /* "2027-01-03" and its end */
};

/* True for a date from 0001-01-01 to 9999-12-31; false for DATE_NONE and for anything outside. */
bool date_is_valid(int day);

/* The date of a year, month (1-12) and day (1-31), or DATE_NONE where there is no such day. */
int date_from_ymd(int year, int month, int day);

/* Splits a date. False, and the outputs 0, if it is not valid. */
bool date_to_ymd(int day, int *year, int *month, int *day_of_month);

/* Writes YYYY-MM-DD into text, or an empty string where the date is not valid. Returns text. */
char *date_format(int day, char text[DATE_TEXT_SIZE]);

/* 1 Monday to 7 Sunday (ISO 8601), 0 where the date is not valid. */
int date_weekday(int day);

/* The Monday of the date's ISO week, DATE_NONE where the date is not valid. */
int date_monday(int day);

/*
 * ISO 8601 week: week 1 is the one that holds the year's first Thursday, so the days around the
 * new year may belong to a week of the year before or after. False, and the outputs 0, where the
 * date is not valid.
 */
bool date_iso_week(int day, int *year, int *week);

#endif

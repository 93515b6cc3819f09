#include "syntax/format_values.h"

#include <inttypes.h>
#include <string.h>

#include "figures/dates.h"
#include "parse.h"
#include "syntax/phrases.h"

enum { MILLI = 1000 };

/* --- words --- */

void format_spelling(struct text *out, const char *phrases)
{
    text_add_bytes(out, phrases, strcspn(phrases, "|"));
}

void format_coded_word(struct text *out, int token, int code)
{
    format_spelling(out, word_phrases(token, code));
}

void format_word(struct text *out, int token)
{
    format_coded_word(out, token, 0);
}

void format_week(struct text *out, const struct node *figure)
{
    const char *phrases = word_phrases(T_WEEK, 0); /* `week|weeks` */
    bool one = figure->kind == NODE_NUMBER;
    format_spelling(out, one ? phrases : phrases + strcspn(phrases, "|") + 1);
}

void format_measure_of(struct text *out, const struct node *count, int measure)
{
    const char *phrases = word_phrases(T_MEASURE, measure);
    size_t length = strcspn(phrases, "|");
    bool one = count->kind == NODE_NUMBER && count->number == MILLI;
    const char *second = phrases + length + (phrases[length] == '|');
    size_t second_length = strcspn(second, "|");
    bool singular = second_length + 1 == length && phrases[length - 1] == 's' &&
                    memcmp(phrases, second, second_length) == 0;
    format_spelling(out, one && singular ? second : phrases);
}

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

void format_name(struct text *out, const char *name)
{
    while (*name) {
        size_t word = strcspn(name, " \t\r");
        text_add_bytes(out, name, word);
        name += word;
        if (is_space(*name))
            text_add_char(out, ' ');
        while (is_space(*name))
            name++;
    }
}

/* --- figures --- */

void format_decimal(struct text *out, int64_t milli)
{
    text_addf(out, "%" PRId64, milli / MILLI);
    int part = (int)(milli % MILLI), digits = 3;
    if (!part)
        return;
    for (; part % 10 == 0; part /= 10)
        digits--;
    text_addf(out, ".%0*d", digits, part);
}

static void add_time(struct text *out, int64_t seconds)
{
    int64_t hours = seconds / 3600, minutes = seconds / 60 % 60;
    if (hours)
        text_addf(out, "%" PRId64 ":%02" PRId64, hours, minutes);
    else
        text_addf(out, "%" PRId64, minutes);
    text_addf(out, ":%02" PRId64, seconds % 60);
}

void format_number(struct text *out, const struct node *number)
{
    if (number->code)
        add_time(out, number->number / MILLI);
    else
        format_decimal(out, number->number);
}

void format_date(struct text *out, int64_t day, bool month)
{
    char date[DATE_TEXT_SIZE];
    date_format((int)day, date);
    text_add_bytes(out, date, month ? 7 : 10);
}

static bool has_digits(const struct node *number, int digits)
{
    int64_t whole = number->number / MILLI;
    return number->kind == NODE_NUMBER && !number->code &&
           (digits == 2 ? whole >= 10 && whole <= 99 : whole >= 1000);
}

void format_range(struct text *out, const struct node *range)
{
    const struct node *low = range->first, *high = range->last;
    bool like_month = has_digits(low, 4) && has_digits(high, 2);
    format_number(out, low);
    text_add(out, like_month ? " - " : "-");
    format_number(out, high);
}

/* With spaces if a number of four digits could make the scanner see a date. */
void format_series(struct text *out, const struct node *series)
{
    bool like_date = false;
    for (const struct node *part = series->first; part; part = part->next)
        like_date |= has_digits(part->kind == NODE_RANGE ? part->last : part, 4) ||
                     has_digits(part->kind == NODE_RANGE ? part->first : part, 4);
    for (const struct node *part = series->first; part; part = part->next) {
        format_value(out, part);
        if (part->next)
            text_add(out, like_date ? " / " : "/");
    }
}

void format_joined(struct text *out, const struct node *parent, const char *joint)
{
    for (const struct node *child = parent->first; child; child = child->next) {
        format_value(out, child);
        if (child->next)
            text_add(out, joint);
    }
}

void format_figure(struct text *out, const struct node *figure)
{
    const struct node *what = figure->first;
    format_value(out, what);
    if (figure->code == MEASURE_NONE)
        return;
    const struct node *end =
        what->kind == NODE_SERIES || what->kind == NODE_LIST ? what->last : what;
    bool digit_ends = end->kind == NODE_NUMBER || end->kind == NODE_RANGE;
    bool tight = figure->code == MEASURE_PERCENT || (figure->code == MEASURE_RM && digit_ends);
    if (!tight)
        text_add_char(out, ' ');
    format_measure_of(out, what, figure->code);
}

void format_after_word(struct text *out, int token, const struct node *clause)
{
    format_word(out, token);
    text_add_char(out, ' ');
    format_value(out, clause->first);
}

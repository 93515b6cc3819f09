/* pieces.c - see pieces.h. */
#include "syntax/pieces.h"

#include <ctype.h>
#include <inttypes.h>
#include <string.h>

#include "base/text.h"
#include "base/unicode.h"
#include "figures/dates.h"

enum { LONGEST_NAME = 120 };

/* --- pushing --- */

struct finding *line_diagnose(struct line *line, size_t first, size_t end, enum diagnostic diagnostic,
                              const char *words)
{
    struct finding *finding =
        diag_error(line->reader->diag, diagnostic, line_span(line, first, end), "%s", words);
    line->abandoned = true;
    line->reported = true;
    line_push(line, T_PLAN_error, (PLAN_STYPE){0}, line_place(line, first, end));
    return finding;
}

struct finding *line_suggest(struct line *line, size_t first, size_t end, enum diagnostic diagnostic,
                             const char *words, const char *fix)
{
    struct span span = line_span(line, first, end);
    struct finding *finding = diag_error(line->reader->diag, diagnostic, span, "%s", words);
    diag_fix(line->reader->diag, finding, span, fix);
    line->reported = true;
    return finding;
}

/* The token of a name or text that a space beside it would turn into a comment or a colon, or END. */
static size_t loose_sign(const struct line *line, size_t first, size_t end, enum node_kind kind)
{
    size_t length;
    const char *text = line_text(line, first, &length);
    if (*text == '#' && length == 1 && strchr(" \t\r\n#", text[1]))
        return first;
    text = line_text(line, end - 1, &length);
    return kind == NODE_NAME && length == 1 && (*text == '#' || *text == ':') ? end - 1 : end;
}

/* A name contains nothing invisible: otherwise two names that look the same could differ. */
static bool diagnose_name(struct line *line, size_t first, size_t end)
{
    struct diag *diag = line->reader->diag;
    struct span span = line_span(line, first, end);
    const char *what, *text = line->text + span.start;
    size_t length = span.end - span.start, size, fault = unicode_name_fault(text, length, &what, &size);
    if (fault == length)
        return false;
    struct span at = {span.file, span.start + (uint32_t)fault, span.start + (uint32_t)(fault + size)};
    struct finding *finding = diag_error(diag, DIAG_BAD_CHARACTER, at, "a name cannot contain %s", what);
    diag_fix(diag, finding, at, "");
    diag_help(diag, finding, "delete it");
    line->reported = line->abandoned = true;
    line_push(line, T_PLAN_error, (PLAN_STYPE){0}, line_place(line, first, end));
    return true;
}

void push_words(struct line *line, size_t first, size_t end, int token, enum node_kind kind)
{
    struct reader *reader = line->reader;
    struct extent place = line_place(line, first, end);
    size_t length = place.end - place.start;
    if (kind == NODE_NAME && length > LONGEST_NAME) {
        line_diagnose(line, first, end, DIAG_NAME_TOO_LONG,
                      arena_printf(reader->tree->arena, "this name is %zu bytes long, and the longest allowed is "
                                                        "%d", length,
                                   LONGEST_NAME));
        return;
    }
    if (kind == NODE_NAME && diagnose_name(line, first, end))
        return;
    size_t loose = loose_sign(line, first, end, kind);
    if (loose < end) {
        line_diagnose(line, loose, loose + 1, DIAG_LOOSE_SIGN, "a name cannot end in this sign, nor a text start with it");
        return;
    }
    struct node *node = node_new(reader->tree, kind, place);
    const char *text = reader->source->text + place.start;
    bool odd = kind == NODE_NAME && line->odd_spaces;
    node->text = odd ? text_plain_spaces(reader->tree->arena, text, length)
                     : arena_copy(reader->tree->arena, text, length);
    line_push(line, token, (PLAN_STYPE){.T_NAME = node}, place);
}

/* A tempo is one whatever the case of its X. */
void push_tempo(struct line *line, size_t first, size_t end, const char *written)
{
    struct reader *reader = line->reader;
    struct extent place = line_place(line, first, end);
    struct node *node = node_new(reader->tree, NODE_TEMPO, place);
    char *text = arena_copy(reader->tree->arena, written, strlen(written));
    for (char *p = text; *p; p++)
        *p = (char)toupper((unsigned char)*p);
    node->text = text;
    line_push(line, T_TEMPO, (PLAN_STYPE){.T_TEMPO = node}, place);
}

char *token_copy(const struct line *line, size_t at)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    return arena_copy(line->reader->tree->arena, text, length);
}

/* --- figures --- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The number at AT in thousandths. *DIGITS and *DECIMALS are how many stand before and after its point. */
int64_t number_at(const struct line *line, size_t at, size_t *digits, size_t *decimals)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int64_t whole = 0, part = 0, scale = 1000;
    size_t i = 0;
    for (; i < length && is_digit(text[i]); i++)
        if (i < MOST_DIGITS)
            whole = whole * 10 + (text[i] - '0');
    *digits = i;
    *decimals = i < length ? length - i - 1 : 0;
    for (i++; i < length && scale > 1 && is_digit(text[i]); i++) {
        scale /= 10;
        part += (text[i] - '0') * scale;
    }
    return whole * 1000 + part;
}

void push_number(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    if (digits > MOST_DIGITS)
        line_diagnose(line, at, at + 1, DIAG_NUMBER_TOO_LARGE, "a number may have at most 7 digits");
    else if (decimals > 3)
        line_diagnose(line, at, at + 1, DIAG_TOO_MANY_DECIMALS, "a number may have at most 3 decimals");
    else
        line_push(line, T_NUMBER, value_number(number), line_place(line, at, at + 1));
}

/* The parts of 1:30 or 1:02:03 from the left; returns how many. */
static int time_parts(const struct line *line, size_t at, int64_t parts[3])
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int count = 0;
    parts[0] = parts[1] = parts[2] = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == ':')
            count++;
        else if (count < 3 && parts[count] < 100000)
            parts[count] = parts[count] * 10 + (text[i] - '0');
    }
    return count + 1;
}

void push_time(struct line *line, size_t at)
{
    int64_t parts[3];
    int count = time_parts(line, at, parts);
    int64_t seconds = count == 3 ? parts[0] * 3600 + parts[1] * 60 + parts[2] : parts[0] * 60 + parts[1];
    if (parts[count - 1] > 59 || (count == 3 && parts[1] > 59) || seconds > LONGEST_TIME)
        line_diagnose(line, at, at + 1, DIAG_BAD_TIME,
                      "this is not a time: in minutes:seconds the seconds go from 00 to 59");
    else
        line_push(line, T_TIME, value_number(seconds * 1000), line_place(line, at, at + 1));
}

void push_clock(struct line *line, size_t at)
{
    int64_t parts[3];
    int count = time_parts(line, at, parts);
    if (count != 2 || parts[0] > 23 || parts[1] > 59)
        line_diagnose(line, at, at + 1, DIAG_BAD_CLOCK, "this is not a time of day: write 00:00 to 23:59");
    else
        line_push(line, T_TIME, value_number(parts[0] * 3600 + parts[1] * 60),
                  line_place(line, at, at + 1));
}

static int digits_at(const char *text, size_t length)
{
    int value = 0;
    for (size_t i = 0; i < length; i++)
        value = value * 10 + (text[i] - '0');
    return value;
}

static bool is_year(int year)
{
    return year >= 1900 && year <= 2200;
}

static int day_of(int year, int month, int day)
{
    return is_year(year) ? date_from_ymd(year, month, day) : 0;
}

void push_date(struct line *line, size_t at, bool month)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int date = day_of(digits_at(text, 4), digits_at(text + 5, 2), month ? 1 : digits_at(text + 8, 2));
    if (!date && !is_year(digits_at(text, 4)))
        line_diagnose(line, at, at + 1, DIAG_BAD_DATE, "a year is from 1900 to 2200 here");
    else if (!date)
        line_diagnose(line, at, at + 1, DIAG_BAD_DATE, month ? "there is no such month" : "there is no such day");
    else
        line_push(line, month ? T_MONTH : T_DATE, value_number(date), line_place(line, at, at + 1));
}

/* The three numbers of a date with slashes or points. */
static void date_parts(const struct line *line, size_t at, int parts[3])
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int part = 0;
    parts[0] = parts[1] = parts[2] = 0;
    for (size_t i = 0; i < length; i++) {
        if (is_digit(text[i]))
            parts[part] = parts[part] * 10 + (text[i] - '0');
        else if (part < 2)
            part++;
    }
}

/* `20/03/2027`: the order is certain only if one part is over 12, or both are the same. */
void diagnose_date(struct line *line, size_t at)
{
    static const char words[] = "a date is written year-month-day";
    int parts[3];
    date_parts(line, at, parts);
    bool year_first = parts[0] > 31;
    int year = year_first ? parts[0] : parts[2];
    int a = year_first ? parts[1] : parts[0], b = year_first ? parts[2] : parts[1];
    bool month_first = year_first || b > 12;
    int month = month_first ? a : b, day = month_first ? b : a;
    struct diag *diag = line->reader->diag;
    int date = day_of(year, month, day), other = day_of(year, day, month);
    if (date && (year_first || !other || a == b)) {
        line_suggest(line, at, at + 1, DIAG_DATE_ORDER, words,
                     arena_printf(diag->arena, "%04d-%02d-%02d", year, month, day));
        line_push(line, T_DATE, value_number(date), line_place(line, at, at + 1));
        return;
    }
    struct finding *finding = line_diagnose(line, at, at + 1, DIAG_DATE_ORDER, words);
    if (date)
        diag_help(diag, finding, "write `%04d-%02d-%02d` or `%04d-%02d-%02d`, whichever is meant", year, month, day,
                  year, day, month);
    else
        diag_help(diag, finding, "write it like `2027-03-20`");
}

/* Right after the colon and without a unit stand reps, which have no decimals: `8,10` are two sets. */
static bool lists_reps(const struct line *line, size_t at)
{
    bool first = at > 0 && line->tokens[at - 1].kind == RAW_COLON;
    int next = at + 1 < line->count ? (int)line->tokens[at + 1].kind : -1;
    return first && next != RAW_WORD && next != RAW_PERCENT;
}

void diagnose_decimal(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    char *point = token_copy(line, at);
    if (lists_reps(line, at)) {
        const char *list = arena_printf(line->reader->diag->arena, "%.*s, %s", (int)digits, point, point + digits + 1);
        line_suggest(line, at, at + 1, DIAG_DECIMAL_COMMA, "a list has a space after each comma", list);
        line_push(line, T_NUMBER, value_number(number - number % 1000), line_place(line, at, at + 1));
        return;
    }
    point[digits] = '.';
    struct finding *finding =
        line_suggest(line, at, at + 1, DIAG_DECIMAL_COMMA, "a decimal is written with a point", point);
    diag_remark(line->reader->diag, finding, "a list has a space after each comma");
    line_push(line, T_NUMBER, value_number(number), line_place(line, at, at + 1));
}

/* `30"`, `2'` */
void diagnose_quoted(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    const char *text = token_copy(line, at);
    bool seconds = text[digits] == '"' || strncmp(text + digits, "″", 3) == 0;
    struct extent place = line_place(line, at, at + 1);
    line_suggest(line, at, at + 1, DIAG_UNIT_SIGN, "units are written as words",
                 arena_printf(line->reader->diag->arena, "%.*s %s", (int)digits, text, seconds ? "s" : "min"));
    line_push(line, T_NUMBER, value_number(number), place);
    line_push(line, T_MEASURE, value_code(seconds ? MEASURE_SECOND : MEASURE_MINUTE), place);
}

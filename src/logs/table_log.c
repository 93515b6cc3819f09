#include "logs/table_log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"

/* What was read from a row, and the first thing that is wrong with it. */
struct row_reader {
    struct arena *arena;
    const struct table_rules *rules;
    const struct csv_row *row;
    const char *wrong;
};

static const char *cell(const struct row_reader *reader, enum column_kind kind)
{
    const struct column_rule *rule = &reader->rules->columns[kind];
    return rule->name ? reader->row->cells[rule->index] : "";
}

static const char *behind(const struct row_reader *reader, enum column_kind kind)
{
    return reader->rules->columns[kind].behind;
}

static void refuse(struct row_reader *reader, const char *cell, const char *what)
{
    if (!reader->wrong)
        reader->wrong = arena_printf(reader->arena, "`%s` is not %s", cell, what);
}

/* --- figures --- */

/* LENGTH bytes of TEXT, part of a cell, as a plan writes a number; "" for no bytes. At most three decimals, as in a
 * plan. */
static const char *figure(struct row_reader *reader, const char *text, size_t length, const char *what)
{
    char sign = reader->rules->decimal_comma ? ',' : '.';
    size_t whole = 0, decimals = 0;
    while (whole < length && text[whole] >= '0' && text[whole] <= '9')
        whole++;
    size_t read = whole < length && text[whole] == sign ? whole + 1 : whole;
    while (read > whole && read < length && text[read] >= '0' && text[read] <= '9') {
        read++;
        decimals++;
    }
    bool good = whole > 0 && whole <= 6 && read == length && (read == whole || decimals > 0);
    while (decimals && text[whole + decimals] == '0')
        decimals--;
    if (length && (!good || decimals > 3)) {
        refuse(reader, text, what);
        return "";
    }
    return decimals ? arena_printf(reader->arena, "%.*s.%.*s", (int)whole, text, (int)decimals, text + whole + 1)
                    : arena_printf(reader->arena, "%.*s", (int)whole, text);
}

static const char *number(struct row_reader *reader, enum column_kind kind, const char *what)
{
    const char *text = cell(reader, kind);
    return figure(reader, text, strlen(text), what);
}

/* The number in the cell of KIND, and its *UNIT: one of the two UNITS, which may follow it in the cell, or else the
 * unit of the rules. */
static const char *measured(struct row_reader *reader, enum column_kind kind, const char *const *units, const char *what,
                            const char **unit)
{
    const char *text = cell(reader, kind);
    size_t length = strlen(text);
    *unit = behind(reader, kind);
    for (int i = 0; i < 2; i++) {
        size_t letters = strlen(units[i]);
        if (length > letters && strcmp(text + length - letters, units[i]) == 0) {
            *unit = units[i];
            length -= letters;
            break;
        }
    }
    while (length && text[length - 1] == ' ')
        length--;
    return figure(reader, text, length, what);
}

/* " @ 60 kg"; a load of nothing is left out. */
static const char *load(struct row_reader *reader)
{
    static const char *const units[] = {"kg", "lb"};
    const char *unit, *mass = measured(reader, COLUMN_LOAD, units, "a load", &unit);
    return strspn(mass, "0") < strlen(mass) ? arena_printf(reader->arena, " @ %s %s", mass, unit) : "";
}

/* "5", "30 s", "20 m". */
static const char *amount(struct row_reader *reader)
{
    static const char *const units[] = {"s", "m"};
    const char *unit, *reps = measured(reader, COLUMN_REPS, units, "a number of repetitions, seconds or metres", &unit);
    return *reps && strcmp(unit, "reps") != 0 ? arena_printf(reader->arena, "%s %s", reps, unit) : reps;
}

static const char *small_number(struct row_reader *reader, enum column_kind kind, const char *what, double most)
{
    const char *small = number(reader, kind, what);
    if (*small && strtod(small, NULL) > most)
        refuse(reader, cell(reader, kind), what);
    return small;
}

/* --- days and hours --- */

/* The day that TEXT gives in the form FORM; 0 if it is not a day. */
static int read_day(const char *text, const char *form)
{
    int day = 0, month = 0, year = 0;
    while (*form) {
        int *part = *form == 'd' ? &day : *form == 'm' ? &month : &year;
        size_t digits = strspn(text, "0123456789"), most = part == &year ? 4 : 2;
        if (!digits || digits > most || (part == &year && digits != 4))
            return 0;
        *part = (int)strtol(text, NULL, 10);
        text += digits;
        form += part == &day ? strlen("day") : part == &month ? strlen("month") : strlen("year");
        if (*form != *text)
            return 0;
        form += *form != '\0';
        text += *text != '\0';
    }
    return date_from_ymd(year, month, day);
}

/* `17:30`, `9:05:00`; -1 if TEXT is not an hour. */
static int read_clock(const char *text)
{
    unsigned hour, minute, second;
    int length = 0;
    bool known = (sscanf(text, "%2u:%2u%n", &hour, &minute, &length) == 2 && !text[length]) ||
                 (sscanf(text, "%2u:%2u:%2u%n", &hour, &minute, &second, &length) == 3 && !text[length]);
    return known && *text >= '0' && hour < 24 && minute < 60 ? (int)(hour * 3600 + minute * 60) : -1;
}

/* --- the parts of a row --- */

static void read_when(struct row_reader *reader, struct table_log *log)
{
    const char *day = cell(reader, COLUMN_DAY), *hour = cell(reader, COLUMN_HOUR);
    log->day = read_day(day, behind(reader, COLUMN_DAY));
    if (!log->day)
        refuse(reader, day, arena_printf(reader->arena, "a day written %s", behind(reader, COLUMN_DAY)));
    log->clock = *hour ? read_clock(hour) : -1;
    if (*hour && log->clock < 0)
        refuse(reader, hour, "an hour such as 17:30");
}

static const char *name_in(const struct row_reader *reader, enum column_kind kind)
{
    return table_rules_name(reader->arena, reader->rules, cell(reader, kind));
}

/* `A1` or `a.1`, as "A.1". */
static const char *read_line_name(struct row_reader *reader)
{
    const char *text = cell(reader, COLUMN_LINE);
    if (!*text)
        return "";
    char letter = *text >= 'a' && *text <= 'z' ? (char)(*text - 'a' + 'A') : *text;
    const char *digits = text + 1 + (text[1] == '.');
    size_t length = strspn(digits, "0123456789");
    if (letter < 'A' || letter > 'Z' || !length || length > 2 || digits[length]) {
        refuse(reader, text, "a line of a session, such as A1");
        return "";
    }
    return arena_printf(reader->arena, "%c.%s", letter, digits);
}

static void read_set(struct row_reader *reader, struct table_log *log)
{
    struct text set = {.arena = reader->arena};
    const char *sets = small_number(reader, COLUMN_SETS, "a number of sets", 100);
    const char *reps = amount(reader);
    const char *mass = load(reader), *rpe = small_number(reader, COLUMN_RPE, "an RPE from 1 to 10", 10);
    const char *reserve = small_number(reader, COLUMN_RESERVE, "a number of repetitions in reserve", 100);
    const char *speed = number(reader, COLUMN_SPEED, "a speed in m/s");
    log->sets = *sets ? (int)strtol(sets, NULL, 10) : 1;
    if (*sets && (log->sets < 1 || strchr(sets, '.')))
        refuse(reader, cell(reader, COLUMN_SETS), "a number of sets");
    if (*reps) {
        text_addf(&set, "%s%s", reps, mass);
        if (*rpe)
            text_addf(&set, " RPE %s", rpe);
        else if (*reserve)
            text_addf(&set, " %s in reserve", reserve);
        if (*speed)
            text_addf(&set, " %s m/s", speed);
    } else if ((*mass || *speed || *rpe || *reserve || *sets) && !reader->wrong) {
        reader->wrong = "it does not say how many repetitions there were";
    }
    log->set = text_get(&set);
}

/* The time in whole minutes and seconds. */
static const char *read_took(struct row_reader *reader)
{
    const char *took = number(reader, COLUMN_TOOK, "a length of time"), *unit = behind(reader, COLUMN_TOOK);
    if (!*took)
        return "";
    double seconds = strtod(took, NULL) * (*unit == 'h' ? 3600 : *unit == 'm' ? 60 : 1);
    int whole = (int)(seconds + 0.5);
    if (seconds > 86400)
        refuse(reader, cell(reader, COLUMN_TOOK), "a length of time within a day");
    return whole % 60 ? arena_printf(reader->arena, "%d:%02d", whole / 60, whole % 60)
                      : arena_printf(reader->arena, "%d min", whole / 60);
}

/* Words up to the end of a line: a plan would take what follows a `#` for a comment. */
static const char *read_words(struct row_reader *reader, enum column_kind kind)
{
    const char *text = cell(reader, kind);
    size_t length = strlen(text);
    bool comment = strncmp(text, "# ", 2) == 0 || strstr(text, " # ") || (length > 1 && strcmp(text + length - 2, " #") == 0) ||
                   strcmp(text, "#") == 0;
    if (comment && !reader->wrong)
        reader->wrong = "its words hold a `#` that stands alone, which would start a comment in a plan";
    return text;
}

/* A trial of a test, and on which side. */
static void read_trial(struct row_reader *reader, struct table_log *log)
{
    log->test = name_in(reader, COLUMN_TEST);
    log->result = number(reader, COLUMN_RESULT, "a result");
    const char *side = name_in(reader, COLUMN_SIDE);
    log->side = text_fold(reader->arena, side, strlen(side));
    if (*log->side && strcmp(log->side, "left") != 0 && strcmp(log->side, "right") != 0)
        refuse(reader, side, "a side: left or right");
    if (*log->test && !*log->result && !reader->wrong)
        reader->wrong = "it names a test and gives no result";
    else if (!*log->test && *log->result && !reader->wrong)
        reader->wrong = "it has a result and does not say of which test";
    if (*log->test && (*log->set || *log->took || *log->missed) && !reader->wrong)
        reader->wrong = "a row is of a session or of a test, not of both";
}

struct table_log table_log_read(struct arena *arena, const struct table_rules *rules, const struct csv_row *row)
{
    struct table_log log = {.number = row->number, .refused = row->fault, .clock = -1};
    struct row_reader reader = {arena, rules, row, NULL};
    if (row->fault)
        return log;
    read_when(&reader, &log);
    log.athlete = name_in(&reader, COLUMN_ATHLETE);
    log.session = name_in(&reader, COLUMN_SESSION);
    log.exercise = name_in(&reader, COLUMN_EXERCISE);
    log.line = read_line_name(&reader);
    read_set(&reader, &log);
    log.took = read_took(&reader);
    log.rpe = small_number(&reader, COLUMN_SESSION_RPE, "an RPE from 1 to 10", 10);
    log.note = read_words(&reader, COLUMN_NOTE);
    log.missed = read_words(&reader, COLUMN_MISSED);
    read_trial(&reader, &log);
    log.refused = reader.wrong;
    return log;
}

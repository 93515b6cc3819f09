#include "syntax/format_values.h"

#include <ctype.h>
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

static void add_coded_word(struct text *out, int token, int code)
{
    format_spelling(out, word_phrases(token, code));
}

static void add_word(struct text *out, int token)
{
    add_coded_word(out, token, 0);
}

/* `week` or `weeks`, which words.def lists in this order. */
static void add_week(struct text *out, const struct node *figure)
{
    const char *phrases = word_phrases(T_WEEK, 0);
    bool one = figure->kind == NODE_NUMBER;
    format_spelling(out, one ? phrases : phrases + strcspn(phrases, "|") + 1);
}

/* The unit of COUNT: `weeks`, but `1 week` where the table has that as its second spelling. */
static void add_measure_of(struct text *out, const struct node *count, int measure)
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

static void add_name(struct text *out, const char *name)
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

bool format_ends_in_hash(const struct text *out)
{
    size_t length = out->length;
    return length && out->data[length - 1] == '#' && (length == 1 || out->data[length - 2] == ' ');
}

void format_colon(struct text *out)
{
    text_add(out, format_ends_in_hash(out) ? ": " : " : ");
}

/* --- figures --- */

static void add_decimal(struct text *out, int64_t milli)
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

static void add_number(struct text *out, const struct node *number)
{
    if (number->code)
        add_time(out, number->number / MILLI);
    else
        add_decimal(out, number->number);
}

static void add_date(struct text *out, int64_t day, bool month)
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

static void add_range(struct text *out, const struct node *range)
{
    const struct node *low = range->first, *high = range->last;
    bool like_month = has_digits(low, 4) && has_digits(high, 2);
    add_number(out, low);
    text_add(out, like_month ? " - " : "-");
    add_number(out, high);
}

/* With spaces where a number of four digits could make the scanner see a date. */
static void add_series(struct text *out, const struct node *series)
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

static void add_joined(struct text *out, const struct node *parent, const char *joint)
{
    for (const struct node *child = parent->first; child; child = child->next) {
        format_value(out, child);
        if (child->next)
            text_add(out, joint);
    }
}

static void add_figure(struct text *out, const struct node *figure)
{
    const struct node *what = figure->first;
    format_value(out, what);
    if (figure->code == MEASURE_NONE)
        return;
    const struct node *end = what->kind == NODE_SERIES || what->kind == NODE_LIST ? what->last : what;
    bool digit_ends = end->kind == NODE_NUMBER || end->kind == NODE_RANGE;
    bool tight = figure->code == MEASURE_PERCENT || (figure->code == MEASURE_RM && digit_ends);
    if (!tight)
        text_add_char(out, ' ');
    add_measure_of(out, what, figure->code);
}

/* --- doses --- */

static bool is_bare_number(const struct node *part)
{
    return !part->code && !part->first->code && part->first->first->kind == NODE_NUMBER;
}

static void add_amount(struct text *out, const struct node *amount)
{
    if (amount->number) {
        format_value(out, amount->first);
        text_add_char(out, ' ');
        add_word(out, T_X);
        text_add_char(out, ' ');
        format_value(out, amount->last);
        return;
    }
    if (amount->code) {
        add_word(out, T_HOLD);
        text_add_char(out, ' ');
    }
    bool bare = true; /* 2+2+2 as it is said, but 4 left + 6 right */
    for (const struct node *part = amount->first; part; part = part->next)
        bare &= is_bare_number(part);
    add_joined(out, amount, bare ? "+" : " + ");
}

static const struct node *statement_of(const struct node *value)
{
    while (!node_is_statement(value))
        value = value->parent;
    return value;
}

/* Does an effort take an @? `8 @ RPE 7` where it is the load of an exercise, but `60 min RPE 6` of something that has
 * none, and `75% RPE 7-9` behind a load. */
static bool effort_takes_at(const struct node *effort)
{
    if (effort->code == EFFORT_WORD_ALL_OUT || effort->code == EFFORT_WORD_EASY)
        return false;
    if (effort->code == EFFORT_WORD_RESERVE)
        return true; /* its number would run into the one before it */
    for (const struct node *clause = effort->parent->first; clause != effort; clause = clause->next)
        if (clause->kind == NODE_LOAD || clause->kind == NODE_EFFORT)
            return false;
    switch (statement_of(effort)->kind) {
    case STATEMENT_PLACE:
    case STATEMENT_TOOK:
    case STATEMENT_USUAL_RPE:
    case STATEMENT_CLOCK:
        return false;
    default:
        return true;
    }
}

static void add_effort(struct text *out, const struct node *effort)
{
    if (effort->parent->kind == NODE_DOSE && effort_takes_at(effort))
        text_add(out, "@ ");
    switch ((enum effort_word)effort->code) {
    case EFFORT_WORD_ALL_OUT:
        add_word(out, T_ALL_OUT);
        return;
    case EFFORT_WORD_EASY:
        add_word(out, T_EASY);
        return;
    case EFFORT_WORD_RESERVE:
        format_value(out, effort->first);
        text_add_char(out, ' ');
        add_word(out, T_IN_RESERVE);
        return;
    case EFFORT_WORD_RPE:
    case EFFORT_WORD_PULSE:
        add_word(out, effort->code == EFFORT_WORD_RPE ? T_RPE : T_PULSE);
        text_add_char(out, ' ');
        format_value(out, effort->first);
    }
}

static void add_of(struct text *out, const struct node *share)
{
    format_value(out, share);
    text_add_char(out, ' ');
    add_word(out, T_OF);
    text_add_char(out, ' ');
}

static void add_extra(struct text *out, const struct node *extra)
{
    if (!extra)
        return;
    text_add(out, " + ");
    format_value(out, extra);
}

static void add_load(struct text *out, const struct node *load)
{
    const struct node *first = load->first;
    text_add(out, "@ ");
    switch ((enum load_word)load->code) {
    case LOAD_WORD_PIECES:
        add_decimal(out, load->number);
        text_add_char(out, ' ');
        add_word(out, T_X);
        text_add_char(out, ' ');
        format_value(out, first);
        break;
    case LOAD_WORD_FIGURE:
    case LOAD_WORD_THING:
        format_value(out, first);
        break;
    case LOAD_WORD_BODY:
        add_word(out, T_BODY_MASS);
        add_extra(out, first);
        break;
    case LOAD_WORD_LAST:
        add_word(out, T_LAST);
        add_extra(out, first);
        break;
    case LOAD_WORD_SHARE_BODY:
        add_of(out, first);
        add_word(out, T_BODY_MASS);
        add_extra(out, first->next);
        break;
    case LOAD_WORD_SHARE_REF:
        add_of(out, first);
        format_value(out, first->next);
    }
}

/* A word and the figure behind it. */
static void add_after_word(struct text *out, int token, const struct node *clause)
{
    add_word(out, token);
    text_add_char(out, ' ');
    format_value(out, clause->first);
}

/* --- kit --- */

static void add_kit_entry(struct text *out, const struct node *entry)
{
    if (entry->number) {
        add_decimal(out, entry->number);
        text_add_char(out, ' ');
        add_word(out, T_X);
        text_add_char(out, ' ');
    }
    if (entry->code) {
        add_word(out, T_PAIRS);
        text_add_char(out, ' ');
    }
    for (const struct node *child = entry->first; child; child = child->next) {
        format_value(out, child);
        if (!child->next)
            break;
        text_add_char(out, ' ');
        if (child->kind == NODE_FIGURE) {
            add_word(out, T_BY);
            text_add_char(out, ' ');
        }
    }
}

/* --- the calendar --- */

static void add_days(struct text *out, const struct node *days)
{
    bool first = true;
    for (int day = 1; day <= 7; day++) {
        if (!(days->number & INT64_C(1) << day))
            continue;
        if (!first)
            text_add(out, ", ");
        add_coded_word(out, T_DAY, day);
        first = false;
    }
}

static void add_clock(struct text *out, const struct node *clock)
{
    int minutes = (int)(clock->number / 60);
    text_addf(out, "%02d:%02d", minutes / 60, minutes % 60);
}

/* `3 weeks out`, `9 days out`. A line below an exercise must start with `week`, and a range reads better so. */
static void add_out(struct text *out, const struct node *when)
{
    const struct node *figure = when->first;
    bool weeks = when->code == WHEN_WEEKS_OUT;
    if (weeks && (figure->kind != NODE_NUMBER || when->parent->kind == STATEMENT_WEEKS)) {
        add_week(out, figure);
        text_add_char(out, ' ');
        format_value(out, figure);
    } else {
        format_value(out, figure);
        text_add_char(out, ' ');
        add_measure_of(out, figure, weeks ? MEASURE_WEEKS : MEASURE_DAYS);
    }
    text_add_char(out, ' ');
    add_word(out, T_OUT);
}

static void add_weeks(struct text *out, const struct node *when)
{
    if (when->parent->kind == STATEMENT_ALLOW) {
        add_word(out, T_IN);
        text_add_char(out, ' ');
    }
    add_week(out, when->first);
    text_add_char(out, ' ');
    format_value(out, when->first);
}

static void add_every_other(struct text *out, const struct node *when)
{
    add_word(out, T_EVERY_OTHER_WEEK);
    if (!when->first)
        return;
    text_add_char(out, ' ');
    add_after_word(out, T_FROM_WEEK, when);
}

static void add_when(struct text *out, const struct node *when)
{
    switch ((enum when_word)when->code) {
    case WHEN_WEEKS:
        add_weeks(out, when);
        break;
    case WHEN_WEEKS_OUT:
    case WHEN_DAYS_OUT:
        add_out(out, when);
        break;
    case WHEN_PHASE:
        add_after_word(out, T_IN, when);
        break;
    case WHEN_EVERY_OTHER:
        add_every_other(out, when);
        break;
    case WHEN_LENGTH:
        format_value(out, when->first);
        break;
    case WHEN_UNTIL:
        add_after_word(out, T_UNTIL, when);
        break;
    case WHEN_ON:
        add_after_word(out, T_ON, when);
    }
}

/* --- limits --- */

/* A limit's name would swallow a bound that does not start with a word, unless it is a plain number (values.c). */
static bool takes_within(const struct node *bound)
{
    const struct node *name = node_find(bound->parent, NODE_NAME), *start = bound->first->first;
    while (start->kind == NODE_SERIES || start->kind == NODE_LIST || start->kind == NODE_RANGE)
        start = start->first;
    return start->kind != NODE_NUMBER || start->code || strpbrk(name->text, "0123456789");
}

static void add_bound(struct text *out, const struct node *bound)
{
    switch ((enum bound_word)bound->code) {
    case BOUND_NONE:
        add_word(out, T_NONE);
        break;
    case BOUND_AT_MOST:
        add_after_word(out, T_AT_MOST, bound);
        break;
    case BOUND_AT_LEAST:
        add_after_word(out, T_AT_LEAST, bound);
        break;
    case BOUND_WITHIN:
        if (takes_within(bound))
            add_after_word(out, T_WITHIN, bound);
        else
            format_value(out, bound->first);
    }
}

static void add_tail(struct text *out, const struct node *tail)
{
    if (tail->code != TAIL_TO_ONE) {
        add_coded_word(out, T_TAIL, tail->code);
        return;
    }
    add_word(out, T_TO);
    text_add_char(out, ' ');
    add_decimal(out, tail->number);
    text_add_char(out, ' ');
    format_value(out, tail->first);
}

/* --- any value --- */

static void add_plain_value(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_NAME:
        add_name(out, value->text);
        break;
    case NODE_DATE:
    case NODE_MONTH:
        add_date(out, value->number, value->kind == NODE_MONTH);
        break;
    case NODE_LETTER:
        text_add_char(out, (char)value->number);
        break;
    case NODE_NUMBER:
        add_number(out, value);
        break;
    case NODE_RANGE:
        add_range(out, value);
        break;
    case NODE_SERIES:
        add_series(out, value);
        break;
    case NODE_LIST:
    case NODE_INTERVALS:
        add_joined(out, value, ", ");
        break;
    case NODE_MAX:
        add_word(out, T_MAX);
        break;
    case NODE_REPEAT_LAST:
        text_add(out, "...");
        break;
    default: /* TEXT, REF, TEMPO */
        text_add(out, value->text);
    }
}

static void add_clause(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_AMOUNT:
        add_amount(out, value);
        break;
    case NODE_LOAD:
        add_load(out, value);
        break;
    case NODE_EFFORT:
        add_effort(out, value);
        break;
    case NODE_TEMPO:
        add_word(out, T_TEMPO_WORD);
        text_addf(out, " %s", value->text);
        break;
    case NODE_REST:
        add_after_word(out, T_REST, value);
        break;
    case NODE_BLOCK_REST:
        add_after_word(out, T_BLOCK_REST, value);
        break;
    case NODE_FOR_SPAN:
        add_after_word(out, T_FOR, value);
        break;
    case NODE_WITHIN_SPAN:
        add_after_word(out, T_IN, value);
        break;
    case NODE_WORK_UP:
        add_after_word(out, T_WORK_UP, value);
        break;
    case NODE_ON:
        add_word(out, T_ON);
        text_add_char(out, ' ');
        add_date(out, value->number, false);
        break;
    default:
        add_plain_value(out, value);
    }
}

void format_value(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_FIGURE:
        add_figure(out, value);
        break;
    case NODE_PART:
        format_value(out, value->first);
        if (value->code) {
            text_add_char(out, ' ');
            add_coded_word(out, T_SIDE, value->code);
        }
        break;
    case NODE_DOSE:
        add_joined(out, value, " ");
        break;
    case NODE_LOGGED_SETS:
        add_joined(out, value, "; ");
        break;
    case NODE_KIT_ENTRY:
        add_kit_entry(out, value);
        break;
    case NODE_SHARE:
        add_joined(out, value, " ");
        break;
    case NODE_DAYS:
        add_days(out, value);
        break;
    case NODE_CLOCK:
        add_clock(out, value);
        break;
    case NODE_OFF:
        add_word(out, T_OFF);
        break;
    case NODE_IN_TURN:
        add_word(out, T_IN_TURN);
        break;
    case NODE_FROM_COLUMN:
        add_after_word(out, T_FROM_COLUMN, value);
        break;
    case NODE_BASED:
        add_after_word(out, T_BASED_ON, value);
        break;
    case NODE_WHEN:
        add_when(out, value);
        break;
    case NODE_BOUND:
        add_bound(out, value);
        break;
    case NODE_TAIL:
        add_tail(out, value);
        break;
    default:
        add_clause(out, value);
    }
}

/* --- values in a row --- */

static bool is_dose(const struct node *value)
{
    return value->kind == NODE_DOSE || value->kind == NODE_INTERVALS || value->kind == NODE_LOGGED_SETS;
}

static bool is_listed(const struct node *value)
{
    switch (value->kind) {
    case NODE_NAME:
    case NODE_REF:
    case NODE_LETTER:
    case NODE_KIT_ENTRY:
    case NODE_SHARE:
        return true;
    default:
        return false;
    }
}

/* Two spaces part what stands in columns of its own: an hour, `in turn`, the span of an `allow`. */
static bool wide_gap(const struct node *left, const struct node *right)
{
    return left->kind == NODE_CLOCK || left->kind == NODE_IN_TURN ||
           (right->kind == NODE_WHEN && right->parent->kind == STATEMENT_ALLOW);
}

static void add_joint(struct text *out, const struct node *left, const struct node *right)
{
    bool adds = right->parent->kind == STATEMENT_ADD; /* `add B goblet squat : 8` */
    if (is_dose(right)) {
        format_colon(out);
    } else if (is_listed(left) && is_listed(right) && !adds) {
        text_add(out, ", ");
    } else if (left->kind == NODE_FIGURE && right->kind == NODE_DATE) {
        text_add_char(out, ' ');
        add_word(out, T_ON);
        text_add_char(out, ' ');
    } else if (left->kind == NODE_NAME && right->kind == NODE_NUMBER) {
        text_add_char(out, ' ');
        add_word(out, T_X);
        text_add_char(out, ' ');
    } else {
        text_add(out, wide_gap(left, right) ? "  " : " ");
    }
}

void format_values(struct text *out, const struct node *first, const struct node *end)
{
    for (const struct node *value = first; value && value != end; value = value->next) {
        format_value(out, value);
        if (value->next && value->next != end)
            add_joint(out, value, value->next);
    }
}

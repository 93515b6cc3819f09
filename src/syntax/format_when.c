/* format_when.c - days, weeks and limits in their one spelling. */
#include <string.h>

#include "parse.h"
#include "syntax/format_values.h"
#include "syntax/phrases.h"

/* --- the calendar --- */

void format_days(struct text *out, const struct node *days)
{
    bool first = true;
    for (int day = 1; days->number >> day; day++) {
        if (!(days->number & INT64_C(1) << day))
            continue;
        if (!first)
            text_add(out, ", ");
        format_coded_word(out, T_DAY, day);
        first = false;
    }
}

void format_clock(struct text *out, const struct node *clock)
{
    int minutes = (int)(clock->number / 60);
    text_addf(out, "%02d:%02d", minutes / 60, minutes % 60);
}

/* `3 weeks out`, `9 days out`. A line below an exercise must start with `week`, and a range reads
 * better so. */
static void add_out(struct text *out, const struct node *when)
{
    const struct node *figure = when->first;
    bool weeks = when->code == WHEN_WEEKS_OUT;
    if (weeks && (figure->kind != NODE_NUMBER || when->parent->kind == STATEMENT_WEEKS)) {
        format_week(out, figure);
        text_add_char(out, ' ');
        format_value(out, figure);
    } else {
        format_value(out, figure);
        text_add_char(out, ' ');
        format_measure_of(out, figure, weeks ? MEASURE_WEEKS : MEASURE_DAYS);
    }
    text_add_char(out, ' ');
    format_word(out, T_OUT);
}

static void add_weeks(struct text *out, const struct node *when)
{
    if (when->parent->kind == STATEMENT_WAIVE) {
        format_word(out, T_IN);
        text_add_char(out, ' ');
    }
    format_week(out, when->first);
    text_add_char(out, ' ');
    format_value(out, when->first);
}

static void add_every_other(struct text *out, const struct node *when)
{
    format_word(out, T_EVERY_OTHER_WEEK);
    if (!when->first)
        return;
    text_add_char(out, ' ');
    format_after_word(out, T_FROM_WEEK, when);
}

void format_when(struct text *out, const struct node *when)
{
    switch ((enum when_word)when->code) {
    case WHEN_WEEKS:
        add_weeks(out, when);
        return;
    case WHEN_WEEKS_OUT:
    case WHEN_DAYS_OUT:
        add_out(out, when);
        return;
    case WHEN_PHASE:
        format_after_word(out, T_IN, when);
        return;
    case WHEN_EVERY_OTHER:
        add_every_other(out, when);
        return;
    case WHEN_LENGTH:
        format_value(out, when->first);
        return;
    case WHEN_UNTIL:
        format_after_word(out, T_UNTIL, when);
        return;
    case WHEN_ON:
        break;
    }
    format_after_word(out, T_ON, when);
}

/* --- limits --- */

/* A limit's name would swallow a bound that does not start with a word, unless it is a plain number
 * (values.c). */
static bool takes_within(const struct node *bound)
{
    const struct node *name = node_find(bound->parent, NODE_NAME), *start = bound->first->first;
    while (start->kind == NODE_SERIES || start->kind == NODE_LIST || start->kind == NODE_RANGE)
        start = start->first;
    return start->kind != NODE_NUMBER || start->code || strpbrk(name->text, "0123456789");
}

void format_bound(struct text *out, const struct node *bound)
{
    switch ((enum bound_word)bound->code) {
    case BOUND_NONE:
        format_word(out, T_NONE);
        return;
    case BOUND_AT_MOST:
        format_after_word(out, T_AT_MOST, bound);
        return;
    case BOUND_AT_LEAST:
        format_after_word(out, T_AT_LEAST, bound);
        return;
    case BOUND_WITHIN:
        break;
    }
    if (takes_within(bound))
        format_after_word(out, T_WITHIN, bound);
    else
        format_value(out, bound->first);
}

void format_tail(struct text *out, const struct node *tail)
{
    if (tail->code != TAIL_TO_ONE) {
        format_coded_word(out, T_TAIL, tail->code);
        return;
    }
    format_word(out, T_TO);
    text_add_char(out, ' ');
    format_decimal(out, tail->number);
    text_add_char(out, ' ');
    format_value(out, tail->first);
}

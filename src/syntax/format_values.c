#include "syntax/format_values.h"

#include <string.h>

#include "parse.h"
#include "syntax/phrases.h"

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
        format_word(out, T_X);
        text_add_char(out, ' ');
        format_value(out, amount->last);
        return;
    }
    if (amount->code) {
        format_word(out, T_HOLD);
        text_add_char(out, ' ');
    }
    bool bare = true; /* 2+2+2 as people write it, but 4 left + 6 right */
    for (const struct node *part = amount->first; part; part = part->next)
        bare &= is_bare_number(part);
    format_joined(out, amount, bare ? "+" : " + ");
}

static const struct node *statement_of(const struct node *value)
{
    while (!node_is_statement(value))
        value = value->parent;
    return value;
}

/* Does an effort take an @? `8 @ RPE 7` where it is the load of an exercise, but `60 min RPE 6` for something that has
 * none, and `75% RPE 7-9` after a load. */
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
    case STATEMENT_WHOLE_RPE:
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
        format_word(out, T_ALL_OUT);
        return;
    case EFFORT_WORD_EASY:
        format_word(out, T_EASY);
        return;
    case EFFORT_WORD_RESERVE:
        format_value(out, effort->first);
        text_add_char(out, ' ');
        format_word(out, T_IN_RESERVE);
        return;
    case EFFORT_WORD_RPE:
    case EFFORT_WORD_PULSE:
        format_word(out, effort->code == EFFORT_WORD_RPE ? T_RPE : T_PULSE);
        text_add_char(out, ' ');
        format_value(out, effort->first);
    }
}

static void add_of(struct text *out, const struct node *share)
{
    format_value(out, share);
    text_add_char(out, ' ');
    format_word(out, T_OF);
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
        format_decimal(out, load->number);
        text_add_char(out, ' ');
        format_word(out, T_X);
        text_add_char(out, ' ');
        format_value(out, first);
        break;
    case LOAD_WORD_FIGURE:
    case LOAD_WORD_THING:
        format_value(out, first);
        break;
    case LOAD_WORD_BODY:
        format_word(out, T_BODY_MASS);
        add_extra(out, first);
        break;
    case LOAD_WORD_LAST:
        format_word(out, T_LAST);
        add_extra(out, first);
        break;
    case LOAD_WORD_SHARE_BODY:
        add_of(out, first);
        format_word(out, T_BODY_MASS);
        add_extra(out, first->next);
        break;
    case LOAD_WORD_SHARE_REF:
        add_of(out, first);
        format_value(out, first->next);
    }
}

/* --- kit --- */

static void add_kit_entry(struct text *out, const struct node *entry)
{
    if (entry->number) {
        format_decimal(out, entry->number);
        text_add_char(out, ' ');
        format_word(out, T_X);
        text_add_char(out, ' ');
    }
    if (entry->code) {
        format_word(out, T_PAIRS);
        text_add_char(out, ' ');
    }
    for (const struct node *child = entry->first; child; child = child->next) {
        format_value(out, child);
        if (!child->next)
            break;
        text_add_char(out, ' ');
        if (child->kind == NODE_FIGURE) {
            format_word(out, T_BY);
            text_add_char(out, ' ');
        }
    }
}

/* --- the calendar --- */

static void add_days(struct text *out, const struct node *days)
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

static void add_clock(struct text *out, const struct node *clock)
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
        format_after_word(out, T_IN, when);
        break;
    case WHEN_EVERY_OTHER:
        add_every_other(out, when);
        break;
    case WHEN_LENGTH:
        format_value(out, when->first);
        break;
    case WHEN_UNTIL:
        format_after_word(out, T_UNTIL, when);
        break;
    case WHEN_ON:
        format_after_word(out, T_ON, when);
    }
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

static void add_bound(struct text *out, const struct node *bound)
{
    switch ((enum bound_word)bound->code) {
    case BOUND_NONE:
        format_word(out, T_NONE);
        break;
    case BOUND_AT_MOST:
        format_after_word(out, T_AT_MOST, bound);
        break;
    case BOUND_AT_LEAST:
        format_after_word(out, T_AT_LEAST, bound);
        break;
    case BOUND_WITHIN:
        if (takes_within(bound))
            format_after_word(out, T_WITHIN, bound);
        else
            format_value(out, bound->first);
    }
}

static void add_tail(struct text *out, const struct node *tail)
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

/* --- any value --- */

static void add_plain_value(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_NAME:
        format_name(out, value->text);
        break;
    case NODE_DATE:
    case NODE_MONTH:
        format_date(out, value->number, value->kind == NODE_MONTH);
        break;
    case NODE_LETTER:
        text_add_char(out, (char)value->number);
        break;
    case NODE_NUMBER:
        format_number(out, value);
        break;
    case NODE_RANGE:
        format_range(out, value);
        break;
    case NODE_SERIES:
        format_series(out, value);
        break;
    case NODE_LIST:
    case NODE_INTERVALS:
        format_joined(out, value, ", ");
        break;
    case NODE_MAX:
        format_word(out, T_MAX);
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
        format_word(out, T_TEMPO_WORD);
        text_addf(out, " %s", value->text);
        break;
    case NODE_REST:
        format_after_word(out, T_REST, value);
        break;
    case NODE_BLOCK_REST:
        format_after_word(out, T_BLOCK_REST, value);
        break;
    case NODE_FOR_SPAN:
        format_after_word(out, T_FOR, value);
        break;
    case NODE_WITHIN_SPAN:
        format_after_word(out, T_IN, value);
        break;
    case NODE_WORK_UP:
        format_after_word(out, T_WORK_UP, value);
        break;
    case NODE_ALTERNATING:
        format_word(out, T_ALTERNATING);
        break;
    case NODE_ON:
        format_word(out, T_ON);
        text_add_char(out, ' ');
        format_date(out, value->number, false);
        break;
    default:
        add_plain_value(out, value);
    }
}

void format_value(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_FIGURE:
        format_figure(out, value);
        break;
    case NODE_PART:
        format_value(out, value->first);
        if (value->code) {
            text_add_char(out, ' ');
            format_coded_word(out, T_SIDE, value->code);
        }
        break;
    case NODE_DOSE:
        format_joined(out, value, " ");
        break;
    case NODE_LOGGED_SETS:
        format_joined(out, value, "; ");
        break;
    case NODE_KIT_ENTRY:
        add_kit_entry(out, value);
        break;
    case NODE_SHARE:
        format_joined(out, value, " ");
        break;
    case NODE_DAYS:
        add_days(out, value);
        break;
    case NODE_CLOCK:
        add_clock(out, value);
        break;
    case NODE_OFF:
        format_word(out, T_OFF);
        break;
    case NODE_IN_TURN:
        format_word(out, T_IN_TURN);
        break;
    case NODE_FROM_COLUMN:
        format_after_word(out, T_FROM_COLUMN, value);
        break;
    case NODE_BY_WEEKS:
        format_coded_word(out, T_BY_WEEKS, value->code);
        break;
    case NODE_BASED:
        format_after_word(out, T_BASED_ON, value);
        break;
    case NODE_BY:
        format_after_word(out, T_BY, value);
        break;
    case NODE_FROM:
        format_after_word(out, T_FROM, value);
        break;
    case NODE_UNTIL:
        format_after_word(out, T_UNTIL, value);
        break;
    case NODE_TO:
        format_after_word(out, T_TO, value);
        break;
    case NODE_BECAUSE:
        format_after_word(out, T_BECAUSE, value);
        break;
    case NODE_FOR_NAMES:
        format_word(out, T_FOR);
        text_add_char(out, ' ');
        format_joined(out, value, ", ");
        break;
    case NODE_SEEN:
        format_word(out, T_SEEN_BY);
        text_add_char(out, ' ');
        format_joined(out, value, " ");
        break;
    case NODE_WHEN:
        add_when(out, value);
        break;
    case NODE_UP_TO:
        format_coded_word(out, T_UP_TO, value->code);
        text_add_char(out, ' ');
        format_number(out, value);
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
    return value->kind == NODE_DOSE || value->kind == NODE_INTERVALS ||
           value->kind == NODE_LOGGED_SETS;
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

/* Two spaces separate what has a column of its own: an hour, `in turn`, the span of a `waive`. */
static bool wide_gap(const struct node *left, const struct node *right)
{
    return left->kind == NODE_CLOCK || left->kind == NODE_IN_TURN ||
           (right->kind == NODE_WHEN && right->parent->kind == STATEMENT_WAIVE);
}

static void add_joint(struct text *out, const struct node *left, const struct node *right)
{
    bool adds = right->parent->kind == STATEMENT_ADD; /* `add B goblet squat : 8` */
    if (is_dose(right)) {
        text_add(out, " : ");
    } else if (is_listed(right) && !adds &&
               (is_listed(left) || left->kind == NODE_FROM || left->kind == NODE_UNTIL)) {
        text_add(out, ", ");
    } else if (left->kind == NODE_DATE && right->kind == NODE_DATE) { /* of a tournament */
        text_add(out, ", ");
    } else if (left->kind == NODE_FIGURE && right->kind == NODE_DATE) {
        text_add_char(out, ' ');
        format_word(out, T_ON);
        text_add_char(out, ' ');
    } else if (left->kind == NODE_NAME && right->kind == NODE_NUMBER) {
        text_add_char(out, ' ');
        format_word(out, T_X);
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

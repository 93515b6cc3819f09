#include "syntax/format_values.h"

#include "parse.h"
#include "syntax/phrases.h"

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

/* The word in front of a value that is the only child of a node of KIND, or 0. */
static int lead_of(enum node_kind kind)
{
    switch (kind) {
    case NODE_FROM_COLUMN: return T_FROM_COLUMN;
    case NODE_BASED: return T_BASED_ON;
    case NODE_BY: return T_BY;
    case NODE_FROM: return T_FROM;
    case NODE_UNTIL: return T_UNTIL;
    case NODE_TO: return T_TO;
    case NODE_BECAUSE: return T_BECAUSE;
    case NODE_REST: return T_REST;
    case NODE_BLOCK_REST: return T_BLOCK_REST;
    case NODE_FOR_SPAN: return T_FOR;
    case NODE_WITHIN_SPAN: return T_IN;
    case NODE_WORK_UP: return T_WORK_UP;
    case NODE_KEEP: return T_KEEP;
    default: return 0;
    }
}

static void add_clause(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_AMOUNT:
        format_amount(out, value);
        break;
    case NODE_LOAD:
        format_load(out, value);
        break;
    case NODE_EFFORT:
        format_effort(out, value);
        break;
    case NODE_TEMPO:
        format_word(out, T_TEMPO_WORD);
        text_addf(out, " %s", value->text);
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

/* A rule of progress. */
static void add_next(struct text *out, const struct node *value)
{
    switch ((enum next_word)value->code) {
    case NEXT_WORD_RANGE:
        format_value(out, value->first);
        text_add(out, ", ");
        format_word(out, T_THEN);
        text_add_char(out, ' ');
        break;
    case NEXT_WORD_TWICE:
        format_word(out, T_TWO_FOR_TWO);
        text_add(out, ", ");
        break;
    case NEXT_WORD_EFFORT:
        format_word(out, T_BY_EFFORT);
        text_add_char(out, ' ');
        break;
    case NEXT_WORD_LAST_SET:
        format_word(out, T_BY_LAST_SET);
        text_add_char(out, ' ');
        break;
    }
    format_value(out, value->last);
}

/* What a line says beside its doses: to whom, how often, how far. */
static void add_sentence(struct text *out, const struct node *value)
{
    switch (value->kind) {
    case NODE_OFF:
        format_word(out, T_OFF);
        break;
    case NODE_IN_TURN:
        format_word(out, T_IN_TURN);
        break;
    case NODE_BY_WEEKS:
        format_coded_word(out, T_BY_WEEKS, value->code);
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
    case NODE_OF_SETS:
        format_number(out, value);
        text_add_char(out, '%');
        text_add_char(out, ' ');
        format_word(out, T_OF_SETS);
        break;
    case NODE_LOWER:
        format_word(out, T_RPE);
        text_add_char(out, ' ');
        format_number(out, value);
        text_add_char(out, ' ');
        format_word(out, T_LOWER);
        break;
    case NODE_NEXT:
        add_next(out, value);
        break;
    case NODE_UP_TO:
        format_coded_word(out, T_UP_TO, value->code);
        text_add_char(out, ' ');
        format_decimal(out, value->number); /* its code is of the word, and of no time */
        break;
    default:
        add_clause(out, value);
    }
}

void format_value(struct text *out, const struct node *value)
{
    int lead = lead_of(value->kind);
    if (lead) {
        format_after_word(out, lead, value);
        return;
    }
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
    case NODE_SHARE:
        format_joined(out, value, " ");
        break;
    case NODE_LOGGED_SETS:
        format_joined(out, value, "; ");
        break;
    case NODE_KIT_ENTRY:
        format_kit_entry(out, value);
        break;
    case NODE_DAYS:
        format_days(out, value);
        break;
    case NODE_CLOCK:
        format_clock(out, value);
        break;
    case NODE_WHEN:
        format_when(out, value);
        break;
    case NODE_BOUND:
        format_bound(out, value);
        break;
    case NODE_TAIL:
        format_tail(out, value);
        break;
    default:
        add_sentence(out, value);
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
    } else if (right->parent->kind == STATEMENT_DELOAD) {
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

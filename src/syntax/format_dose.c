/* format_dose.c - doses, loads and kit in their one spelling. */
#include "parse.h"
#include "syntax/format_values.h"
#include "syntax/phrases.h"

/* --- doses --- */

static bool is_bare_number(const struct node *part)
{
    return !part->code && !part->first->code && part->first->first->kind == NODE_NUMBER;
}

void format_amount(struct text *out, const struct node *amount)
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

void format_effort(struct text *out, const struct node *effort)
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
        break;
    }
    format_word(out, effort->code == EFFORT_WORD_RPE ? T_RPE : T_PULSE);
    text_add_char(out, ' ');
    format_value(out, effort->first);
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

void format_load(struct text *out, const struct node *load)
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
        return;
    case LOAD_WORD_FIGURE:
    case LOAD_WORD_THING:
        format_value(out, first);
        return;
    case LOAD_WORD_BODY:
        format_word(out, T_BODY_MASS);
        add_extra(out, first);
        return;
    case LOAD_WORD_LAST:
        format_word(out, T_LAST);
        add_extra(out, first);
        return;
    case LOAD_WORD_SHARE_BODY:
        add_of(out, first);
        format_word(out, T_BODY_MASS);
        add_extra(out, first->next);
        return;
    case LOAD_WORD_SHARE_REF:
    case LOAD_WORD_SHARE_TEST:
        break;
    }
    add_of(out, first);
    format_value(out, first->next);
}

/* --- kit --- */

void format_kit_entry(struct text *out, const struct node *entry)
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

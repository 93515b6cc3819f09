#include "property/plan_maker.h"

#include <stdlib.h>

#include "property/plan_values.c"

/* --- statements --- */

static void letter(struct maker *m)
{
    text_addf(m->out, "%c", 'A' + (int)pick(m, 26));
}

static void piece(struct maker *m)
{
    letter(m);
    if (!one_in(m, 4))
        text_addf(m->out, ".%u", 1 + pick(m, 12));
}

static void several(struct maker *m, void (*make)(struct maker *))
{
    for (unsigned left = 1 + pick(m, 4); left; left--) {
        make(m);
        if (left > 1)
            comma(m);
    }
}

static void share(struct maker *m)
{
    loose_name(m);
    space(m);
    number(m);
}

static void reference(struct maker *m)
{
    letter(m);
    text_addf(m->out, ".%u", 1 + pick(m, 12));
}

static void logged(struct maker *m)
{
    reference(m);
    colon(m);
    for (unsigned left = 1 + pick(m, 3); left; left--) {
        dose(m);
        if (left > 1)
            sign(m, ";");
    }
}

static void block_rest(struct maker *m)
{
    if (one_in(m, 2)) {
        space(m);
        letter(m);
    }
    if (!one_in(m, 4)) {
        space(m);
        dose(m);
    }
}

static void round_of(struct maker *m)
{
    whole(m, 1, 9);
    colon(m);
    name(m);
    if (one_in(m, 2))
        colon_value(m);
}

static void allow(struct maker *m)
{
    loose_name(m);
    switch (pick(m, 3)) {
    case 0:
        space(m);
        weeks_on(m, true);
        break;
    case 1:
        spaced_word(m, T_UNTIL);
        date(m);
        break;
    default:
        return;
    }
    if (!one_in(m, 3))
        return;
    space(m);
    coded(m, T_UP_TO, one_in(m, 2));
    space(m);
    number(m);
}

static void moment(struct maker *m)
{
    date(m);
    if (!one_in(m, 2))
        return;
    space(m);
    text_addf(m->out, "%02u:%02u", pick(m, 24), pick(m, 60));
}

static void reached(struct maker *m)
{
    loose_name(m);
    spaced_word(m, T_BY);
    loose_name(m);
    on_date(m);
}

static void result(struct maker *m)
{
    bool dated = one_in(m, 2);
    loose_name(m);
    if (dated)
        on_date(m);
    if (dated && one_in(m, 2))
        return;
    spaced_word(m, T_SEEN_BY);
    loose_name(m);
    on_date(m);
}

static void allows(struct maker *m)
{
    names(m);
    if (!one_in(m, 2))
        return;
    spaced_word(m, T_AT_MOST);
    word(m, T_RPE);
    space(m);
    number(m);
}

static void lasts(struct maker *m)
{
    number(m);
    measure(m, true, one_in(m, 2) ? MEASURE_DAYS : MEASURE_WEEKS);
}

static void clock(struct maker *m)
{
    text_addf(m->out, "%02u:%02u", pick(m, 24), pick(m, 60));
}

static void maybe_dated(struct maker *m, int token)
{
    if (!one_in(m, 2))
        return;
    spaced_word(m, token);
    date(m);
}

static void maybe_why(struct maker *m)
{
    if (!one_in(m, 2))
        return;
    spaced_word(m, T_BECAUSE);
    free_text(m);
}

static void maybe_for(struct maker *m)
{
    if (!one_in(m, 3))
        return;
    spaced_word(m, T_FOR);
    names(m);
}

static void members(struct maker *m)
{
    for (unsigned left = 1 + pick(m, 3); left; left--) {
        loose_name(m);
        maybe_dated(m, T_FROM);
        maybe_dated(m, T_UNTIL);
        if (left > 1)
            comma(m);
    }
}

static void days_of_bout(struct maker *m)
{
    several(m, date);
    space(m);
    free_text(m);
}

/* Sets, effort or both, in either order. */
static void deload(struct maker *m)
{
    unsigned what = pick(m, 3);
    if (what != 1) {
        whole(m, 1, 99);
        measure(m, true, MEASURE_PERCENT);
        space(m);
        word(m, T_OF_SETS);
    }
    if (what == 2)
        comma(m);
    if (what) {
        word(m, T_RPE);
        space(m);
        whole(m, 1, 4);
        space(m);
        word(m, T_LOWER);
    }
}

/* A rule of progress. */
static void next_rule(struct maker *m)
{
    switch (pick(m, 4)) {
    case 0:
        whole(m, 1, 12);
        text_add(m->out, "-");
        whole(m, 13, 20);
        text_add(m->out, ", ");
        word(m, T_THEN);
        space(m);
        break;
    case 1:
        word(m, T_TWO_FOR_TWO);
        text_add(m->out, ", ");
        break;
    case 2:
        word(m, T_BY_EFFORT);
        space(m);
        whole(m, 5, 10);
        return;
    default:
        word(m, T_BY_LAST_SET);
        space(m);
        whole(m, 3, 10);
        return;
    }
    whole(m, 1, 10);
    measure(m, true, MEASURE_KG);
}

/* The forms that say who is there, where and when. */
static bool rest_of_calendar(struct maker *m, int form)
{
    switch (form) {
    case T_HEAD_FORMER:
        names(m);
        return true;
    case T_HEAD_CHANGEOVER:
        dose(m);
        return true;
    case T_HEAD_LETTERS:
        several(m, letter);
        return true;
    case T_HEAD_HOUR:
        clock(m);
        return true;
    case T_HEAD_LATE:
        loose_name(m);
        spaced_word(m, T_BY);
        whole(m, 1, 60);
        measure(m, true, MEASURE_MINUTE);
        return true;
    case T_HEAD_MEMBERS:
        members(m);
        return true;
    case T_HEAD_BOUT:
        days_of_bout(m);
        return true;
    case T_HEAD_POSTPONED:
        word(m, T_TO);
        space(m);
        date(m);
        on_date(m);
        return true;
    case T_HEAD_CANCELLED:
        word(m, T_ON);
        space(m);
        date(m);
        return true;
    case T_HEAD_EXPECTED:
        date(m);
        return true;
    case T_HEAD_ZONE:
        loose_name(m);
        return true;
    case T_HEAD_ZONE_DAYS:
        loose_name(m);
        spaced_word(m, T_FROM);
        date(m);
        maybe_dated(m, T_TO);
        return true;
    case T_HEAD_TIME_ZONES:
        whole(m, 1, 12);
        space(m);
        loose_name(m);
        return true;
    case T_HEAD_DELOAD:
        deload(m);
        return true;
    case T_HEAD_NEXT:
        next_rule(m);
        return true;
    case T_HEAD_AWAY:
        date(m);
        maybe_dated(m, T_TO);
        maybe_why(m);
        return true;
    case T_HEAD_ABSENT:
        loose_name(m);
        maybe_dated(m, T_ON);
        maybe_why(m);
        return true;
    case T_HEAD_AT:
        loose_name(m);
        maybe_for(m);
        return true;
    case T_HEAD_AT_DAYS:
        loose_name(m);
        spaced_word(m, T_FROM);
        date(m);
        maybe_dated(m, T_TO);
        maybe_for(m);
        return true;
    default:
        return false;
    }
}

/* What follows the phrase in the forms whose phrase is no part of the values. */
static void rest_of(struct maker *m, int form)
{
    switch (form) {
    case T_HEAD_NAME:
        name(m);
        break;
    case T_HEAD_NAMES:
        names(m);
        break;
    case T_HEAD_TEXT:
        free_text(m);
        break;
    case T_HEAD_DATE:
        date(m);
        break;
    case T_HEAD_RESULTS:
        date(m);
        space(m);
        loose_name(m);
        break;
    case T_HEAD_MONTH:
        text_addf(m->out, "20%02u-%02u", pick(m, 40), 1 + pick(m, 12));
        break;
    case T_HEAD_DIVISION:
        number(m);
        measure(m, true, MEASURE_KG);
        break;
    case T_HEAD_MASS:
        number(m);
        measure(m, true, MEASURE_KG);
        on_date(m);
        break;
    case T_HEAD_AMOUNT:
        dose(m);
        break;
    case T_HEAD_KIT:
    case T_HEAD_BAR_KIT:
    case T_HEAD_BAND_KIT:
    case T_HEAD_NAMED_KIT:
        several(m, kit_entry);
        break;
    case T_HEAD_MORNING:
        date(m);
        colon(m);
        several(m, share);
        break;
    case T_HEAD_SHARES:
        several(m, share);
        break;
    case T_HEAD_FACTOR:
        loose_name(m);
        if (one_in(m, 2)) {
            spaced_word(m, T_X);
            number(m);
        }
        break;
    case T_HEAD_BASED:
        loose_name(m);
        maybe_dated(m, T_FROM);
        if (one_in(m, 2)) {
            spaced_word(m, T_BASED_ON);
            name(m);
        }
        break;
    case T_HEAD_ITEM:
        item_name(m);
        colon_value(m);
        break;
    case T_HEAD_VARIANT:
        names(m);
        one_in(m, 4) ? (void)0 : colon_value(m);
        break;
    case T_HEAD_ROUND:
        round_of(m);
        break;
    case T_HEAD_CHANGE:
        piece(m);
        colon_value(m);
        break;
    case T_HEAD_DROP:
        several(m, piece);
        break;
    case T_HEAD_ADD:
        letter(m);
        space(m);
        name(m);
        colon_value(m);
        break;
    case T_HEAD_WAIVE:
        allow(m);
        break;
    case T_HEAD_ENDED:
    case T_HEAD_PAIN:
        loose_name(m);
        on_date(m);
        break;
    case T_HEAD_REACHED:
        reached(m);
        break;
    case T_HEAD_MOMENT:
        moment(m);
        break;
    case T_HEAD_ON_DAY:
        word(m, T_ON);
        space(m);
        date(m);
        break;
    case T_HEAD_KNOCK:
        word(m, T_ON);
        space(m);
        moment(m);
        break;
    case T_HEAD_RESULT:
        result(m);
        break;
    case T_HEAD_STEP:
        free_text(m);
        break;
    case T_HEAD_ALLOWS:
        allows(m);
        break;
    case T_HEAD_LASTS:
        lasts(m);
        break;
    case T_HEAD_PHASE:
        name(m);
        colon(m);
        phase_length(m);
        break;
    case T_HEAD_LIMIT:
        limit(m);
        break;
    case T_HEAD_LOG:
        date(m);
        space(m);
        if (one_in(m, 3)) {
            text_addf(m->out, "%02u:%02u", pick(m, 24), pick(m, 60));
            space(m);
        }
        names(m);
        break;
    case T_HEAD_LOGGED:
        logged(m);
        break;
    case T_HEAD_SKIPPED:
        piece(m);
        space(m);
        free_text(m);
        break;
    case T_HEAD_BARE:
        break;
    default:
        if (!rest_of_calendar(m, form))
            abort(); /* a form that this does not know */
    }
}

static void statement_line(struct maker *m, const struct statement *statement)
{
    const char *phrases = node_kind_name(statement->kind);
    switch (statement->form->token) {
    case T_HEAD_SPAN:
        span(m);
        return;
    case T_HEAD_WEEKS:
        one_in(m, 2) ? weeks_out(m, true) : weeks_on(m, false);
        colon_value(m);
        return;
    case T_HEAD_PLACE:
        placed(m);
        return;
    case T_HEAD_BLOCK:
        spell(m, phrases);
        block_rest(m);
        return;
    default:
        spell(m, phrases);
        if (*phrases && statement->form->token != T_HEAD_BARE)
            space(m);
        rest_of(m, statement->form->token);
    }
}

/* --- lines and blocks --- */

static void end_line(struct maker *m)
{
    static const char *const blanks[] = {"", "", "", " ", "   ", "\t"};
    add(m, blanks[vary(m, 6)]);
    add(m, m->line_end);
}

static void comment_text(struct maker *m)
{
    static const char *const comments[] = {"#",
                                           "# as agreed",
                                           "##  two marks",
                                           "#\ttab  kept",
                                           "# 5kg : @80% # twice",
                                           "# – früh, 早い"};
    add(m, ONE_OF(m, comments));
}

static void blank_lines(struct maker *m)
{
    if (!one_in(m, 5))
        return;
    for (unsigned left = 1 + vary(m, 3); left; left--)
        end_line(m);
}

static void own_comments(struct maker *m, int depth)
{
    for (unsigned left = pick(m, 8) / 6 * (1 + pick(m, 2)); left; left--) {
        blank_lines(m);
        add(m, text_get(&m->indents[depth]));
        comment_text(m);
        end_line(m);
    }
}

static const struct statement *any_statement(struct maker *m, int place)
{
    for (;;) {
        const struct statement *statement = &m->book->all[pick(m, (unsigned)m->book->count)];
        if (statement->places & place)
            return statement;
    }
}

static void make_block(struct maker *m, int place, int depth, unsigned lines)
{
    own_comments(m, depth);
    for (; lines; lines--) {
        const struct statement *statement = any_statement(m, place);
        blank_lines(m);
        add(m, text_get(&m->indents[depth]));
        statement_line(m, statement);
        if (one_in(m, 8)) {
            space(m);
            comment_text(m);
        }
        end_line(m);
        if (statement->opens != NOTHING && depth < DEEPEST_BLOCK && !one_in(m, 4)) {
            static const char *const steps[] = {"    ", "  ", "\t", "   ", "        "};
            struct text *indent = &m->indents[depth + 1];
            text_clear(indent);
            text_add(indent, text_get(&m->indents[depth]));
            text_add(indent, steps[vary(m, 5)]);
            make_block(m, statement->opens, depth + 1, 1 + pick(m, 5));
        }
        own_comments(m, depth);
    }
}

void plan_make(const struct phrasebook *book, uint64_t shape, uint64_t spelling, struct text *out)
{
    struct maker maker = {
        .book = book, .out = out, .shape = shape * 2 + 1, .spelling = spelling * 2 + 1};
    for (int i = 0; i < 20; i++) {
        pick(&maker, 2);
        vary(&maker, 2);
    }
    maker.line_end = vary(&maker, 4) ? "\n" : "\r\n";
    if (vary(&maker, 10) == 0)
        text_add(out, "\xef\xbb\xbf");
    make_block(&maker, IN_FILE, 0, 1 + pick(&maker, 6));
    for (int i = 0; i <= DEEPEST_BLOCK; i++)
        text_free(&maker.indents[i]);
}

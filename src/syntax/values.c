/* values.c - the rest of a line, after its statement's keyword, as tokens: names, figures and the words that mean
 * something there. Whatever can only be a slip is reported here with the right text. */
#include <ctype.h>
#include <string.h>

#include "syntax/line_names.h"
#include "syntax/pieces.h"

/* --- words in values --- */

static const struct phrase *find_word(const struct line *line, size_t at, int where, size_t *taken)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    const struct phrase *phrase = phrase_like(&line->reader->phrases->word_index, text, length);
    for (; phrase; phrase = phrase->next)
        if (phrase->where & where && (*taken = line_spells(line, at, phrase)) != 0)
            return phrase;
    return NULL;
}

static bool is_figure(const struct line *line, size_t at)
{
    static const struct phrase most = {.words = "max", .length = 3, .head = 3};
    if (at >= line->count)
        return false;
    enum raw_kind kind = line->tokens[at].kind;
    return kind == RAW_NUMBER || kind == RAW_TIME || line_spells(line, at, &most);
}

static int sign_token(enum raw_kind kind)
{
    switch (kind) {
    case RAW_COLON: return T_COLON;
    case RAW_AT: return T_AT;
    case RAW_PLUS: return T_PLUS;
    case RAW_SLASH: return T_SLASH;
    case RAW_MINUS: return T_MINUS;
    case RAW_SEMICOLON: return T_SEMICOLON;
    case RAW_DOTS: return T_DOTS;
    default: return T_COMMA;
    }
}

/* What stands where a tempo should, but is not one: `31X0`, `3-1-X`. */
static void diagnose_tempo(struct line *line)
{
    size_t at = line->at, end = at + 1;
    while (end < line->count && line->tokens[end].start == line->tokens[end - 1].end)
        end++;
    struct span span = line_span(line, at, end);
    struct arena *arena = line->reader->diag->arena;
    const char *text = arena_copy(arena, line->reader->source->text + span.start, span.end - span.start);
    static const char words[] =
        "a tempo has four figures separated by hyphens: lowering, bottom pause, lifting, top pause";
    if (strlen(text) == 4 && strspn(text, "0123456789xX") == 4) {
        const char *tempo = arena_printf(arena, "%c-%c-%c-%c", text[0], text[1], toupper((unsigned char)text[2]),
                                         toupper((unsigned char)text[3]));
        line_suggest(line, at, end, DIAG_TEMPO_FORM, words, tempo);
        push_tempo(line, at, end, tempo);
    } else {
        diag_help(line->reader->diag, line_diagnose(line, at, end, DIAG_TEMPO_FORM, words), "write it like `3-1-X-0`");
    }
    line->at = end;
}

/* The whole number at AT with the unit after it; -1 if there is none. */
static int64_t whole_with_measure(const struct line *line, size_t at, int *measure)
{
    size_t digits, decimals, taken;
    if (line->tokens[at].kind != RAW_NUMBER)
        return -1;
    int64_t number = number_at(line, at, &digits, &decimals);
    const struct phrase *phrase = find_word(line, at + 1, IN_DOSE, &taken);
    if (digits > MOST_DIGITS || decimals > 3 || number % 1000 != 0 || !phrase ||
        phrase->token != T_MEASURE)
        return -1;
    *measure = phrase->code;
    return number / 1000;
}

/* `1 h 10 min`: one time, in two figures. */
static bool push_two_figures(struct line *line)
{
    size_t at = line->at;
    int big_measure, small_measure;
    if (at + 3 >= line->count || line->tokens[at + 1].kind != RAW_WORD || line->tokens[at + 2].kind != RAW_NUMBER)
        return false;
    int64_t big = whole_with_measure(line, at, &big_measure);
    int64_t small = whole_with_measure(line, at + 2, &small_measure);
    if (big < 0 || small < 0)
        return false;
    bool hours = big_measure == MEASURE_HOUR && small_measure == MEASURE_MINUTE;
    bool minutes = big_measure == MEASURE_MINUTE && small_measure == MEASURE_SECOND;
    if (!hours && !minutes)
        return false;
    int64_t seconds = (big * 60 + small) * (hours ? 60 : 1);
    if (small > 59 || seconds > LONGEST_TIME)
        line_diagnose(line, at, at + 4, DIAG_BAD_TIME, "this is not a time: the smaller unit goes from 0 to 59");
    else
        line_push(line, T_TIME, value_number(seconds * 1000), line_place(line, at, at + 4));
    line->at = at + 4;
    return true;
}

/* A run of words that mean nothing here is one name; so is a % where nothing is counted in per cent. */
static void push_loose_name(struct line *line, int where)
{
    size_t end = line->at + 1, taken;
    while (end < line->count && line->tokens[end].kind == RAW_WORD && !find_word(line, end, where, &taken))
        end++;
    push_name(line, end);
}

static void push_word(struct line *line, int *where)
{
    size_t taken;
    const struct phrase *phrase = find_word(line, line->at, *where, &taken);
    if (!phrase) {
        push_loose_name(line, *where);
        return;
    }
    line_push(line, phrase->token, value_code(phrase->code), line_place(line, line->at, line->at + taken));
    line->at += taken;
    if (phrase->token == T_TEMPO_WORD && line->at < line->count && line->tokens[line->at].kind != RAW_TEMPO)
        diagnose_tempo(line);
}

/* In a run of figures with one sign, does the figure after the sign at AT continue with the other sign? */
static bool mixes_signs(const struct line *line, size_t at, enum raw_kind other)
{
    return at > 1 && line->tokens[at - 2].kind == other && is_figure(line, at - 1) && is_figure(line, at + 1) &&
           at > 2 && is_figure(line, at - 3);
}

static void diagnose_mixed_signs(struct line *line, size_t at)
{
    size_t first = at - 3, end = at + 2;
    struct finding *finding =
        line_diagnose(line, first, end, DIAG_SLASH_AND_COMMA, "these figures mix `/`, week by week, with `,`, set by set");
    diag_help(line->reader->diag, finding, "use one of the two");
}

/* Does the comma at AT separate two sets, as in `6 orthodox RPE 7, 6 southpaw`? The figure before it is an effort,
 * which the statement `rpe` is not, and the one after it has a side. */
static bool parts_sets(const struct line *line, size_t at)
{
    size_t taken;
    bool inside = at >= 2 && line->tokens[at - 2].start >= line->reader->head.end;
    const struct phrase *effort = inside ? find_word(line, at - 2, IN_DOSE, &taken) : NULL;
    const struct phrase *side = at + 2 < line->count ? find_word(line, at + 2, IN_DOSE, &taken) : NULL;
    return effort && effort->token == T_RPE && side && side->token == T_SIDE;
}

/* The rest of the line, up to a colon, in the words of WHERE. */
static void push_values(struct line *line, int where)
{
    size_t time_end = 0; /* after a time in two figures, which ends in a word */
    while (line->at < line->count && !line->abandoned) {
        size_t at = line->at;
        struct extent place = line_place(line, at, at + 1);
        switch (line->tokens[at].kind) {
        case RAW_WORD: case RAW_PERCENT:
            push_word(line, &where);
            continue;
        case RAW_NUMBER:
            /* From the first figure on, `weeks` is a length and no longer the start of a span. */
            where = (where & ~IN_SPAN_START) | (where & IN_WEEKS ? IN_LENGTH : 0);
            if (push_two_figures(line)) {
                time_end = line->at;
                continue;
            }
            push_number(line, at);
            break;
        case RAW_TIME: push_time(line, at); break;
        case RAW_DATE: push_date(line, at, false); break;
        case RAW_MONTH: push_date(line, at, true); break;
        case RAW_BAD_DATE: diagnose_date(line, at); break;
        case RAW_DECIMAL_COMMA: diagnose_decimal(line, at); break;
        case RAW_QUOTED: diagnose_quoted(line, at); break;
        case RAW_REF: push_words(line, at, at + 1, T_REF, NODE_REF); break;
        case RAW_TEMPO: push_tempo(line, at, at + 1, token_copy(line, at)); break;
        case RAW_SLASH:
            if (mixes_signs(line, at, RAW_COMMA))
                diagnose_mixed_signs(line, at);
            else
                line_push(line, T_SLASH, (PLAN_STYPE){0}, place);
            break;
        case RAW_COMMA: {
            if (!(where & IN_KIT) && mixes_signs(line, at, RAW_SLASH)) {
                diagnose_mixed_signs(line, at);
                break;
            }
            bool behind = at > 0 && (at == time_end || is_figure(line, at - 1));
            bool list = !(where & IN_KIT) && behind && is_figure(line, at + 1) && !parts_sets(line, at);
            line_push(line, list ? T_LIST_COMMA : T_COMMA, (PLAN_STYPE){0}, place);
            break;
        }
        case RAW_COLON: return;
        default: line_push(line, sign_token(line->tokens[at].kind), (PLAN_STYPE){0}, place);
        }
        line->at++;
    }
}

/* --- the steps of a form --- */

static bool is_letter(const struct line *line, size_t at)
{
    size_t length;
    const char *text = at < line->count ? line_text(line, at, &length) : "";
    return *text >= 'A' && *text <= 'Z' && length == 1;
}

static void push_letter(struct line *line)
{
    size_t length;
    const char *text = line_text(line, line->at, &length);
    line_push(line, T_LETTER, value_number(*text), line_place(line, line->at, line->at + 1));
    line->at++;
}

/* It means what `A.1` does. */
static void push_printed_ref(struct line *line)
{
    struct tree *tree = line->reader->tree;
    struct extent place = line_place(line, line->at, line->at + 1);
    struct node *node = node_new(tree, NODE_REF, place);
    const char *text = token_copy(line, line->at);
    node->text = arena_printf(tree->arena, "%c.%s", *text, text + 1);
    line_push(line, T_REF, (PLAN_STYPE){.T_REF = node}, place);
    line->at++;
}

/* `A.1`, `A1` or `A`. */
static void push_piece(struct line *line)
{
    if (is_letter(line, line->at)) {
        push_letter(line);
    } else if (line_prints_ref(line, line->at)) {
        push_printed_ref(line);
    } else if (line->at < line->count && line->tokens[line->at].kind == RAW_REF) {
        push_words(line, line->at, line->at + 1, T_REF, NODE_REF);
        line->at++;
    }
}

static void push_pieces(struct line *line)
{
    for (;;) {
        push_piece(line);
        if (line->at >= line->count || line->tokens[line->at].kind != RAW_COMMA)
            return;
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
        line->at++;
    }
}

/* Is the weekday at the line's place one of its days? It comes first, after a comma, or where a clock or another day
 * follows; elsewhere it starts a session's name. */
static bool is_day(const struct line *line, size_t taken)
{
    size_t behind = line->at + taken;
    if (line->at == 0 || line->tokens[line->at - 1].kind == RAW_COMMA)
        return true;
    return behind < line->count && (line->tokens[behind].kind == RAW_TIME || line->tokens[behind].kind == RAW_COMMA);
}

static void push_days(struct line *line)
{
    size_t taken;
    while (line->at < line->count && !line->abandoned) {
        enum raw_kind kind = line->tokens[line->at].kind;
        if (kind == RAW_TIME) {
            push_clock(line, line->at++);
        } else if (kind == RAW_COMMA) {
            line_push(line, T_COMMA, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
            line->at++;
        } else {
            const struct phrase *phrase = find_word(line, line->at, IN_PLACED, &taken);
            bool last = phrase && line->at + taken == line->count;
            if (!phrase || (phrase->token == T_OFF && !last) || (phrase->token == T_DAY && !is_day(line, taken)))
                return; /* it starts a name; `off` only ends a line */
            line_push(line, phrase->token, value_code(phrase->code),
                      line_place(line, line->at, line->at + taken));
            line->at += taken;
            if (phrase->token == T_IN_TURN)
                return;
        }
    }
}

/* Pushes the word after a name at the line's place if it is `because` as asked; was it? */
static bool push_named(struct line *line, bool because)
{
    size_t taken;
    const struct phrase *phrase = find_word(line, line->at, IN_NAMED, &taken);
    if (!phrase || (phrase->token == T_BECAUSE) != because)
        return false;
    line_push(line, phrase->token, value_code(phrase->code), line_place(line, line->at, line->at + taken));
    line->at += taken;
    return true;
}

/* A date, where one stands. */
static void push_one_date(struct line *line)
{
    if (line->at >= line->count)
        return;
    if (line->tokens[line->at].kind == RAW_BAD_DATE)
        diagnose_date(line, line->at++);
    else if (line->tokens[line->at].kind == RAW_DATE)
        push_date(line, line->at++, false);
}

static void push_text(struct line *line)
{
    if (line->at < line->count)
        push_words(line, line->at, line->count, T_TEXT, NODE_TEXT);
    line->at = line->count;
}

/* Dates parted by commas; what stands behind the last is for the next step. */
static void push_dates(struct line *line)
{
    push_one_date(line);
    while (line->at + 1 < line->count && line->tokens[line->at].kind == RAW_COMMA && !line->abandoned &&
           (line->tokens[line->at + 1].kind == RAW_DATE || line->tokens[line->at + 1].kind == RAW_BAD_DATE)) {
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
        line->at++;
        push_one_date(line);
    }
}

/* Names parted by commas, each with the days from and to which it holds. */
static void push_members(struct line *line, const struct phrase_list *stops)
{
    for (;;) {
        push_name(line, member_end(line, stops));
        while (line->at < line->count && push_named(line, false))
            push_one_date(line);
        if (line->at >= line->count || line->tokens[line->at].kind != RAW_COMMA || line->abandoned)
            return;
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
        line->at++;
    }
}

/* As which words STEP reads values. */
static int values_of(char step)
{
    switch (step) {
    case 'k': return IN_KIT;
    case 'w': return IN_WEEKS | IN_SPAN_START;
    case 'l': return IN_LIMITED;
    case 'u': return IN_DELOAD;
    case 'x': return IN_NEXT;
    default: return IN_DOSE; /* v, # */
    }
}

int line_words(const struct form *form)
{
    int where = 0;
    for (const char *step = form->steps; *step; step++) {
        if (strchr("kwluxv#", *step))
            where |= values_of(*step) | (*step == 'w' ? IN_LENGTH : 0);
        else if (strchr("nNMosdLc", *step))
            where |= IN_NAMED;
        else if (*step == 'D')
            where |= IN_PLACED;
    }
    return where;
}

static void line_step(struct line *line, const struct form *form, char step, size_t start)
{
    const struct phrasebook *book = line->reader->phrases;
    switch (step) {
    case '!': line->at = start; break;
    case 'n':
        push_name(line, form->token == T_HEAD_LIMIT ? limit_name_end(line, phrasebook_stops(book, form))
                                                    : name_end(line, phrasebook_stops(book, form), false));
        break;
    case 'N': push_names(line, phrasebook_stops(book, form)); break;
    case 's':
        if (stop_here(line, line->at, phrasebook_stops(book, form), &(size_t){0}))
            push_word(line, &(int){IN_DOSE | IN_KIT | IN_NAMED});
        break;
    case 't': push_text(line); break;
    case 'c':
        if (push_named(line, true))
            push_text(line);
        break;
    case 'o':
        if (push_named(line, false))
            push_one_date(line);
        break;
    case 'L': push_dates(line); break;
    case 'M': push_members(line, phrasebook_stops(book, form)); break;
    case ':':
        if (line->at < line->count && line->tokens[line->at].kind == RAW_COLON) {
            line_push(line, T_COLON, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
            line->at++;
        }
        break;
    case 'd': push_one_date(line); break;
    case 'h':
        if (line->tokens[line->at].kind == RAW_TIME)
            push_clock(line, line->at++);
        break;
    case 'b':
        if (is_letter(line, line->at))
            push_letter(line);
        break;
    case 'r': push_piece(line); break;
    case 'p': push_pieces(line); break;
    case 'D': push_days(line); break;
    default: push_values(line, values_of(step)); break;
    }
}

void line_values(struct line *line, const struct form *form, size_t start)
{
    for (const char *step = form->steps; *step && !line->abandoned; step++)
        if (line->at < line->count || *step == '!')
            line_step(line, form, *step, start);
    /* What no step took is where nothing may be: the grammar says what it expected. */
    while (line->at < line->count && !line->abandoned) {
        size_t before = line->at;
        push_values(line, IN_DOSE);
        if (line->at == before) {
            line_push(line, T_COLON, (PLAN_STYPE){0}, line_place(line, before, before + 1));
            line->at++;
        }
    }
}

/* values.c - the rest of a line, after its statement's keyword, as tokens: names, figures and the words that mean
 * something there. What is written in a way that can only be a slip is reported here with the right text. */
#include <ctype.h>
#include <inttypes.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "syntax/line.h"

enum { LONGEST_NAME = 120, MOST_DIGITS = 7, LONGEST_TIME = 100 * 3600 };

/* --- pushing --- */

static PLAN_STYPE value_number(int64_t number)
{
    return (PLAN_STYPE){.T_NUMBER = number};
}

static PLAN_STYPE value_code(int code)
{
    return (PLAN_STYPE){.T_MEASURE = code};
}

/* Gives the line up: the parser recovers at the line's end without a message of its own. */
static struct finding *line_slip(struct line *line, size_t first, size_t end, const char *name,
                                 const char *words)
{
    struct finding *finding =
        diag_error(line->reader->diag, name, line_span(line, first, end), "%s", words);
    line->abandoned = true;
    line->reader->failed = true;
    line_push(line, T_PLAN_error, (PLAN_STYPE){0}, line_span(line, first, end));
    return finding;
}

/* Reports what is meant all the same: FIX is the right text, and the caller hands on what that would be. */
static struct finding *line_mend(struct line *line, size_t first, size_t end, const char *name,
                                 const char *words, const char *fix)
{
    struct span span = line_span(line, first, end);
    struct finding *finding = diag_error(line->reader->diag, name, span, "%s", words);
    diag_fix(line->reader->diag, finding, span, fix);
    line->reader->failed = true;
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

static void push_words(struct line *line, size_t first, size_t end, int token, enum node_kind kind)
{
    struct reader *reader = line->reader;
    struct span span = line_span(line, first, end);
    size_t length = span.end - span.start;
    if (kind == NODE_NAME && length > LONGEST_NAME) {
        line_slip(line, first, end, "name-too-long",
                  arena_printf(reader->tree->arena, "this name is %zu bytes long, and the longest may be %d", length,
                               LONGEST_NAME));
        return;
    }
    size_t loose = loose_sign(line, first, end, kind);
    if (loose < end) {
        line_slip(line, loose, loose + 1, "loose-sign", "a name cannot end in this sign, nor a text start with it");
        return;
    }
    struct node *node = node_new(reader->tree->arena, kind, span);
    node->text = arena_copy(reader->tree->arena, reader->source->text + span.start, length);
    line_push(line, token, (PLAN_STYPE){.T_NAME = node}, span);
}

/* A tempo is one whatever the case of its X. */
static void push_tempo(struct line *line, size_t first, size_t end, const char *written)
{
    struct reader *reader = line->reader;
    struct span span = line_span(line, first, end);
    struct node *node = node_new(reader->tree->arena, NODE_TEMPO, span);
    char *text = arena_copy(reader->tree->arena, written, strlen(written));
    for (char *p = text; *p; p++)
        *p = (char)toupper((unsigned char)*p);
    node->text = text;
    line_push(line, T_TEMPO, (PLAN_STYPE){.T_TEMPO = node}, span);
}

static char *token_copy(const struct line *line, size_t at)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    return arena_copy(line->reader->tree->arena, text, length);
}

/* --- figures --- */

/* The number at AT in thousandths. *DIGITS and *DECIMALS are how many stand before and behind its point. */
static int64_t number_at(const struct line *line, size_t at, size_t *digits, size_t *decimals)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int64_t whole = 0, part = 0, scale = 1000;
    size_t i = 0;
    for (; i < length && isdigit((unsigned char)text[i]); i++)
        if (i < MOST_DIGITS)
            whole = whole * 10 + (text[i] - '0');
    *digits = i;
    *decimals = i < length ? length - i - 1 : 0;
    for (i++; i < length && scale > 1 && isdigit((unsigned char)text[i]); i++) {
        scale /= 10;
        part += (text[i] - '0') * scale;
    }
    return whole * 1000 + part;
}

static void push_number(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    if (digits > MOST_DIGITS)
        line_slip(line, at, at + 1, "number-too-large", "a number may hold at most 7 digits");
    else if (decimals > 3)
        line_slip(line, at, at + 1, "too-many-decimals", "a number may hold at most 3 decimals");
    else
        line_push(line, T_NUMBER, value_number(number), line_span(line, at, at + 1));
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
        else if (parts[count] < 100000)
            parts[count] = parts[count] * 10 + (text[i] - '0');
    }
    return count + 1;
}

static void push_time(struct line *line, size_t at)
{
    int64_t parts[3];
    int count = time_parts(line, at, parts);
    int64_t seconds = count == 3 ? parts[0] * 3600 + parts[1] * 60 + parts[2] : parts[0] * 60 + parts[1];
    if (parts[count - 1] > 59 || (count == 3 && parts[1] > 59) || seconds > LONGEST_TIME)
        line_slip(line, at, at + 1, "bad-time",
                  "this is no time: minutes:seconds has seconds from 00 to 59");
    else
        line_push(line, T_TIME, value_number(seconds * 1000), line_span(line, at, at + 1));
}

static void push_clock(struct line *line, size_t at)
{
    int64_t parts[3];
    int count = time_parts(line, at, parts);
    if (count != 2 || parts[0] > 23 || parts[1] > 59)
        line_slip(line, at, at + 1, "bad-clock", "this is no time of day: write 00:00 to 23:59");
    else
        line_push(line, T_TIME, value_number(parts[0] * 3600 + parts[1] * 60),
                  line_span(line, at, at + 1));
}

static int digits_at(const char *text, size_t length)
{
    int value = 0;
    for (size_t i = 0; i < length; i++)
        value = value * 10 + (text[i] - '0');
    return value;
}

static int day_of(int year, int month, int day)
{
    return year >= 1900 && year <= 2200 ? date_from_ymd(year, month, day) : 0;
}

static void push_date(struct line *line, size_t at, bool month)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int date = day_of(digits_at(text, 4), digits_at(text + 5, 2), month ? 1 : digits_at(text + 8, 2));
    if (!date)
        line_slip(line, at, at + 1, "bad-date", month ? "there is no such month" : "there is no such day");
    else
        line_push(line, month ? T_MONTH : T_DATE, value_number(date), line_span(line, at, at + 1));
}

/* The three numbers of a date with slashes or points. */
static void date_parts(const struct line *line, size_t at, int parts[3])
{
    size_t length;
    const char *text = line_text(line, at, &length);
    int part = 0;
    parts[0] = parts[1] = parts[2] = 0;
    for (size_t i = 0; i < length; i++) {
        if (isdigit((unsigned char)text[i]))
            parts[part] = parts[part] * 10 + (text[i] - '0');
        else
            part++;
    }
}

/* `20/03/2027`: which order is meant is only sure where one part is over 12, or the two are the same. */
static void slip_date(struct line *line, size_t at)
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
        line_mend(line, at, at + 1, "date-order", words,
                  arena_printf(diag->arena, "%04d-%02d-%02d", year, month, day));
        line_push(line, T_DATE, value_number(date), line_span(line, at, at + 1));
        return;
    }
    struct finding *finding = line_slip(line, at, at + 1, "date-order", words);
    if (date)
        diag_help(diag, finding, "write `%04d-%02d-%02d` or `%04d-%02d-%02d`, whichever is meant", year, month, day,
                  year, day, month);
    else
        diag_help(diag, finding, "write it like `2027-03-20`");
}

static void slip_decimal(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    char *point = token_copy(line, at);
    *strchr(point, ',') = '.';
    struct finding *finding =
        line_mend(line, at, at + 1, "decimal-comma", "a decimal is written with a point", point);
    diag_remark(line->reader->diag, finding, "a list has a space behind each comma");
    line_push(line, T_NUMBER, value_number(number), line_span(line, at, at + 1));
}

/* `30"`, `2'` */
static void slip_quoted(struct line *line, size_t at)
{
    size_t digits, decimals;
    int64_t number = number_at(line, at, &digits, &decimals);
    const char *text = token_copy(line, at);
    bool seconds = text[digits] == '"' || strncmp(text + digits, "″", 3) == 0;
    struct span span = line_span(line, at, at + 1);
    line_mend(line, at, at + 1, "unit-sign", "units are written as words",
              arena_printf(line->reader->diag->arena, "%.*s %s", (int)digits, text, seconds ? "s" : "min"));
    line_push(line, T_NUMBER, value_number(number), span);
    line_push(line, T_MEASURE, value_code(seconds ? MEASURE_SECOND : MEASURE_MINUTE), span);
}

/* --- words in values --- */

static const struct phrase *find_word(const struct line *line, size_t at, int where, size_t *taken)
{
    size_t length;
    const char *text = line_text(line, at, &length);
    const struct phrase_list *list =
        &line->reader->phrases->words[(unsigned char)tolower((unsigned char)*text)];
    for (size_t i = 0; i < list->count; i++) {
        const struct phrase *phrase = &list->items[i];
        if (!(phrase->where & where))
            continue;
        *taken = line_match(line, at, phrase->words, phrase->length);
        if (*taken)
            return phrase;
    }
    return NULL;
}

/* Do the tokens at AT begin one of STOPS (phrases parted by |)? */
static bool stops_here(const struct line *line, size_t at, const char *stops)
{
    while (*stops) {
        size_t length = strcspn(stops, "|");
        size_t taken = line_match(line, at, stops, length);
        /* An x ends a name only before a factor: `percent of band x row` has none. */
        bool times = strncmp(stops, "x", length) == 0 || strncmp(stops, "×", length) == 0;
        if (taken && (!times || (at + 1 < line->count && line->tokens[at + 1].kind == RAW_NUMBER)))
            return true;
        stops += length + (stops[length] == '|');
    }
    return false;
}

/* The end of the name that starts at the line's place. */
static size_t name_end(const struct line *line, const char *stops, bool comma)
{
    size_t end = line->at;
    for (; end < line->count; end++) {
        enum raw_kind kind = line->tokens[end].kind;
        if (kind == RAW_COLON || (comma && kind == RAW_COMMA))
            break;
        if (end > line->at && stops_here(line, end, stops))
            break;
    }
    return end;
}

/* A limit's name may hold numbers (`first 2 weeks of an exercise at most RPE 7`), but where no word of bound
 * follows it ends at the first number (`intensity 75-90%`). */
static size_t limit_name_end(const struct line *line, const char *stops)
{
    size_t end = name_end(line, stops, false);
    if (end < line->count)
        return end;
    for (end = line->at; end < line->count; end++)
        if (end > line->at && line->tokens[end].kind == RAW_NUMBER)
            break;
    return end;
}

static void push_name(struct line *line, size_t end)
{
    if (end > line->at)
        push_words(line, line->at, end, T_NAME, NODE_NAME);
    line->at = end;
}

static void push_names(struct line *line, const char *stops)
{
    for (;;) {
        push_name(line, name_end(line, stops, true));
        if (line->at >= line->count || line->tokens[line->at].kind != RAW_COMMA || line->abandoned)
            return;
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_span(line, line->at, line->at + 1));
        line->at++;
    }
}

static bool is_figure(const struct line *line, size_t at)
{
    if (at >= line->count)
        return false;
    enum raw_kind kind = line->tokens[at].kind;
    return kind == RAW_NUMBER || kind == RAW_TIME || line_match(line, at, "max", 3);
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

/* What stands where a tempo should and is none: `31X0`, `3-1-X`. */
static void slip_tempo(struct line *line)
{
    size_t at = line->at, end = at + 1;
    while (end < line->count && line->tokens[end].start == line->tokens[end - 1].end)
        end++;
    struct span span = line_span(line, at, end);
    struct arena *arena = line->reader->diag->arena;
    const char *text = arena_copy(arena, line->reader->source->text + span.start, span.end - span.start);
    static const char words[] =
        "a tempo has four places parted by hyphens: lowering, bottom pause, lifting, top pause";
    if (strlen(text) == 4 && strspn(text, "0123456789xX") == 4) {
        const char *tempo = arena_printf(arena, "%c-%c-%c-%c", text[0], text[1], toupper((unsigned char)text[2]),
                                         toupper((unsigned char)text[3]));
        line_mend(line, at, end, "tempo-form", words, tempo);
        push_tempo(line, at, end, tempo);
    } else {
        diag_help(line->reader->diag, line_slip(line, at, end, "tempo-form", words), "write it like `3-1-X-0`");
    }
    line->at = end;
}

/* The whole number at AT with the unit behind it; -1 if there is none. */
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
    if (at + 3 >= line->count)
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
        line_slip(line, at, at + 4, "bad-time", "this is no time: the smaller unit goes from 0 to 59");
    else
        line_push(line, T_TIME, value_number(seconds * 1000), line_span(line, at, at + 4));
    line->at = at + 4;
    return true;
}

/* A run of words that mean nothing here is one name; so is a % where nothing is counted in it. */
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
    line_push(line, phrase->token, value_code(phrase->code), line_span(line, line->at, line->at + taken));
    line->at += taken;
    if (phrase->token == T_TEMPO_WORD && line->at < line->count && line->tokens[line->at].kind != RAW_TEMPO)
        slip_tempo(line);
}

/* Does the figure behind the sign at AT, in a run of figures with one sign, go on with the other? */
static bool mixes_signs(const struct line *line, size_t at, enum raw_kind other)
{
    return at > 1 && line->tokens[at - 2].kind == other && is_figure(line, at - 1) && is_figure(line, at + 1) &&
           at > 2 && is_figure(line, at - 3);
}

static void slip_mixed_signs(struct line *line, size_t at)
{
    size_t first = at - 3, end = at + 2;
    struct finding *finding =
        line_slip(line, first, end, "slash-and-comma", "these figures mix `/`, week by week, with `,`, set by set");
    diag_help(line->reader->diag, finding, "use one of the two");
}

/* The rest of the line, up to a colon, in the words of WHERE. */
static void push_values(struct line *line, int where)
{
    size_t time_end = 0; /* behind a time in two figures, which ends in a word */
    while (line->at < line->count && !line->abandoned) {
        size_t at = line->at;
        struct span span = line_span(line, at, at + 1);
        switch (line->tokens[at].kind) {
        case RAW_WORD: case RAW_PERCENT:
            push_word(line, &where);
            continue;
        case RAW_NUMBER:
            /* From the first figure on, `weeks` is a length and no longer the start of a span. */
            where &= ~IN_SPAN_START;
            if (push_two_figures(line)) {
                time_end = line->at;
                continue;
            }
            push_number(line, at);
            break;
        case RAW_TIME: push_time(line, at); break;
        case RAW_DATE: push_date(line, at, false); break;
        case RAW_MONTH: push_date(line, at, true); break;
        case RAW_BAD_DATE: slip_date(line, at); break;
        case RAW_DECIMAL_COMMA: slip_decimal(line, at); break;
        case RAW_QUOTED: slip_quoted(line, at); break;
        case RAW_REF: push_words(line, at, at + 1, T_REF, NODE_REF); break;
        case RAW_TEMPO: push_tempo(line, at, at + 1, token_copy(line, at)); break;
        case RAW_SLASH:
            if (mixes_signs(line, at, RAW_COMMA))
                slip_mixed_signs(line, at);
            else
                line_push(line, T_SLASH, (PLAN_STYPE){0}, span);
            break;
        case RAW_COMMA: {
            if (!(where & IN_KIT) && mixes_signs(line, at, RAW_SLASH)) {
                slip_mixed_signs(line, at);
                break;
            }
            bool behind = at > 0 && (at == time_end || is_figure(line, at - 1));
            bool list = !(where & IN_KIT) && behind && is_figure(line, at + 1);
            line_push(line, list ? T_LIST_COMMA : T_COMMA, (PLAN_STYPE){0}, span);
            break;
        }
        case RAW_COLON: return;
        default: line_push(line, sign_token(line->tokens[at].kind), (PLAN_STYPE){0}, span);
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
    line_push(line, T_LETTER, value_number(*text), line_span(line, line->at, line->at + 1));
    line->at++;
}

/* `A.1` or `A`. */
static void push_piece(struct line *line)
{
    if (is_letter(line, line->at)) {
        push_letter(line);
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
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_span(line, line->at, line->at + 1));
        line->at++;
    }
}

/* Is the weekday at the line's place one of its days? It stands first, behind a comma, or where a clock or another
 * day follows; elsewhere it starts a session's name. */
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
            line_push(line, T_COMMA, (PLAN_STYPE){0}, line_span(line, line->at, line->at + 1));
            line->at++;
        } else {
            const struct phrase *phrase = find_word(line, line->at, IN_PLACED, &taken);
            bool last = phrase && line->at + taken == line->count;
            if (!phrase || (phrase->token == T_OFF && !last) || (phrase->token == T_DAY && !is_day(line, taken)))
                return; /* it starts a name; `off` only ends a line */
            line_push(line, phrase->token, value_code(phrase->code),
                      line_span(line, line->at, line->at + taken));
            line->at += taken;
            if (phrase->token == T_IN_TURN)
                return;
        }
    }
}

static void line_step(struct line *line, const struct form *form, char step, size_t start)
{
    switch (step) {
    case '!': line->at = start; break;
    case 'n':
        push_name(line, form->token == T_HEAD_LIMIT ? limit_name_end(line, form->stops)
                                                    : name_end(line, form->stops, false));
        break;
    case 'N': push_names(line, form->stops); break;
    case 's':
        if (stops_here(line, line->at, form->stops))
            push_word(line, &(int){IN_DOSE});
        break;
    case 't':
        if (line->at < line->count)
            push_words(line, line->at, line->count, T_TEXT, NODE_TEXT);
        line->at = line->count;
        break;
    case ':':
        if (line->at < line->count && line->tokens[line->at].kind == RAW_COLON) {
            line_push(line, T_COLON, (PLAN_STYPE){0}, line_span(line, line->at, line->at + 1));
            line->at++;
        }
        break;
    case 'd':
        if (line->tokens[line->at].kind == RAW_BAD_DATE)
            slip_date(line, line->at++);
        else if (line->tokens[line->at].kind == RAW_DATE)
            push_date(line, line->at++, false);
        break;
    case 'b':
        if (is_letter(line, line->at))
            push_letter(line);
        break;
    case 'r': push_piece(line); break;
    case 'p': push_pieces(line); break;
    case 'D': push_days(line); break;
    case 'k': push_values(line, IN_KIT); break;
    case 'w': push_values(line, IN_WEEKS | IN_SPAN_START); break;
    case 'l': push_values(line, IN_LIMITED); break;
    default: push_values(line, IN_DOSE); break; /* v, # */
    }
}

void line_values(struct line *line, const struct form *form, size_t start)
{
    for (const char *step = form->steps; *step && !line->abandoned; step++)
        if (line->at < line->count || *step == '!')
            line_step(line, form, *step, start);
    /* What no step took stands where nothing may: the grammar says what it expected. */
    while (line->at < line->count && !line->abandoned) {
        size_t before = line->at;
        push_values(line, IN_DOSE);
        if (line->at == before) {
            line_push(line, T_COLON, (PLAN_STYPE){0}, line_span(line, before, before + 1));
            line->at++;
        }
    }
}

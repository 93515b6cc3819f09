/* line_names.c - where a name of several words ends: at a word that stops it. */
#include "syntax/line_names.h"

#include "syntax/pieces.h"

/* Does what STOP needs stand at AT? */
static bool has_needed(const struct line *line, size_t at, const struct phrase *stop)
{
    if (!stop->needs || at >= line->count)
        return !stop->needs || stop->needs == 'e';
    enum raw_kind kind = line->tokens[at].kind;
    switch (stop->needs) {
    case 'd': return kind == RAW_DATE || kind == RAW_BAD_DATE || kind == RAW_MONTH;
    case '#': return kind == RAW_NUMBER || kind == RAW_TIME;
    default: return stop->needs == 'n';
    }
}

const struct phrase *stop_here(const struct line *line, size_t at, const struct phrase_list *stops,
                                      size_t *taken)
{
    for (size_t i = 0; i < stops->count; i++) {
        *taken = line_spells(line, at, &stops->items[i]);
        if (*taken && has_needed(line, at + *taken, &stops->items[i]))
            return &stops->items[i];
    }
    return NULL;
}

/* Does one of STOPS start with the letter that the token at AT does? Hardly any word of a name gets past this. */
static inline bool may_stop(const struct line *line, size_t at, const struct phrase_list *stops)
{
    return stops->letters >> phrase_letter(line->text[line->tokens[at].start]) & 1;
}

size_t name_end(const struct line *line, const struct phrase_list *stops, bool comma)
{
    size_t end = line->at, last = 0, row_goes_on = 0, taken;
    for (; end < line->count; end++) {
        enum raw_kind kind = line->tokens[end].kind;
        if (kind == RAW_COLON || (comma && kind == RAW_COMMA))
            break;
        if (end == line->at || !may_stop(line, end, stops))
            continue;
        const struct phrase *stop = stop_here(line, end, stops, &taken);
        if (!stop)
            continue;
        if (!stop->needs)
            break;
        last = last && end == row_goes_on ? last : end;
        row_goes_on = stop->needs == 'd' ? end + taken + 1 : 0;
    }
    return last ? last : end;
}

size_t limit_name_end(const struct line *line, const struct phrase_list *stops)
{
    size_t end = name_end(line, stops, false);
    if (end < line->count)
        return end;
    for (end = line->at; end < line->count; end++)
        if (end > line->at && line->tokens[end].kind == RAW_NUMBER)
            break;
    return end;
}

void push_name(struct line *line, size_t end)
{
    if (end > line->at)
        push_words(line, line->at, end, T_NAME, NODE_NAME);
    line->at = end;
}

void push_names(struct line *line, const struct phrase_list *stops)
{
    for (;;) {
        push_name(line, name_end(line, stops, true));
        if (line->at >= line->count || line->tokens[line->at].kind != RAW_COMMA || line->abandoned)
            return;
        line_push(line, T_COMMA, (PLAN_STYPE){0}, line_place(line, line->at, line->at + 1));
        line->at++;
    }
}

size_t member_end(const struct line *line, const struct phrase_list *stops)
{
    size_t end = line->at, taken;
    while (end < line->count && line->tokens[end].kind != RAW_COLON && line->tokens[end].kind != RAW_COMMA &&
           !(end > line->at && may_stop(line, end, stops) && stop_here(line, end, stops, &taken)))
        end++;
    return end;
}

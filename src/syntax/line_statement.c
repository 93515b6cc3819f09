/* line_statement.c - which statement a line is, and what to say of one that is none. */
#include <string.h>

#include "base/text.h"
#include "syntax/line.h"

/* Does the rest of the line suit STATEMENT's form, if the place has a statement without keyword that would take the
 * line too? */
static bool suits(const struct line *line, const struct statement *statement, size_t taken)
{
    const char *steps = statement->form->steps;
    if (*steps == '#' && (line->at + taken >= line->count ||
                          line->tokens[line->at + taken].kind != RAW_NUMBER))
        return false;
    return strpbrk(steps, ":t") || !line_has(line, RAW_COLON); /* free text may contain a colon */
}

/* FALLBACK if the line may be that statement without keyword, or NULL. One that starts with a place such as A.1 is known
 * by that. */
static const struct statement *find_default(const struct line *line, const struct statement *fallback)
{
    bool place_first = fallback && *fallback->form->steps == 'r';
    bool place = line->tokens[line->at].kind == RAW_REF || line_prints_ref(line, line->at);
    return place_first && !place ? NULL : fallback;
}

const struct statement *line_statement(const struct line *line, int place, const struct statement *fallback,
                                       size_t *taken)
{
    const struct phrasebook *book = line->reader->phrases;
    fallback = find_default(line, fallback);
    size_t length;
    const char *text = line_text(line, line->at, &length);
    const struct phrase *phrase = phrase_like(&book->statement_index, text, length);
    for (; phrase; phrase = phrase->next) {
        if (!(phrase->statement->places & place))
            continue;
        *taken = line_spells(line, line->at, phrase);
        if (*taken && (!fallback || suits(line, phrase->statement, *taken)))
            return phrase->statement;
    }
    *taken = 0;
    const struct phrase_list *numbers = &book->statements['#'];
    for (size_t i = 0; i < numbers->count && line->tokens[line->at].kind == RAW_NUMBER; i++)
        if (numbers->items[i].statement->places & place)
            return numbers->items[i].statement;
    return fallback;
}

static const char *place_words(int place)
{
    switch (place) {
    case IN_FILE: return "at the start of a line";
    case IN_ATHLETE: return "under an athlete";
    case IN_GYM: return "under a gym";
    case IN_EXERCISE: return "under an exercise";
    case IN_ACTIVITY: return "under an activity";
    case IN_SESSION: return "under a session";
    case IN_ITEM: return "under an exercise of a block";
    case IN_CAMP: return "under a camp";
    case IN_SPAN: return "under weeks of a camp";
    case IN_PLACE: return "under a placed session";
    case IN_LIMIT: return "under a limit";
    case IN_BLOCK: return "under a block of a session";
    case IN_LIMITS: return "under limits";
    case IN_PHASES: return "under phases";
    default: return "here";
    }
}

/* The place whose statements start like the line, by their keyword; 0 if there is none. */
static int place_of_line(const struct line *line)
{
    size_t length;
    const char *text = line_text(line, line->at, &length);
    const struct phrase *phrase = phrase_like(&line->reader->phrases->statement_index, text, length);
    for (; phrase; phrase = phrase->next)
        if (line_spells(line, line->at, phrase))
            return phrase->statement->places & -phrase->statement->places;
    return 0;
}

/* Everything that may stand in PLACE. */
static const char *list_statements(const struct line *line, int place)
{
    const struct phrasebook *book = line->reader->phrases;
    struct text all = {.arena = line->reader->diag->arena};
    for (size_t i = 0; i < book->count; i++) {
        const char *phrases = node_kind_name(book->all[i].kind);
        int length = (int)strcspn(phrases, "|");
        if ((book->all[i].places & place) && *phrases)
            text_addf(&all, "%s%.*s", all.length ? ", " : "", length, phrases);
    }
    return text_keep(line->reader->diag->arena, &all);
}

static void help_unknown(const struct line *line, int place, struct finding *finding)
{
    struct diag *diag = line->reader->diag;
    size_t length;
    const char *text = line_text(line, line->at, &length);
    int other = place_of_line(line);
    const char *words = other ? place_words(other) : "here";
    if (*text == '/' || *text == ';')
        diag_help(diag, finding, "a comment starts with `#`");
    else if (strcmp(words, "here") != 0)
        diag_help(diag, finding, "a line like this belongs %s", words);
    else if (place == IN_SESSION && line_has(line, RAW_COLON))
        diag_help(diag, finding, "an exercise belongs in a block: put one above it, such as `straight A 3 sets`");
    else
        diag_help(diag, finding, "a line here starts with one of: %s", list_statements(line, place));
}

/* How many tokens from the line's place make as many words as PHRASE has. */
static size_t tokens_of(const struct line *line, const struct phrase *phrase)
{
    size_t words = 1;
    for (size_t i = 0; i < phrase->length; i++)
        words += phrase->words[i] == ' ';
    size_t at = line->at;
    while (at + 1 < line->count && (words > 1 || line->tokens[at + 1].start == line->tokens[at].end)) {
        words -= line->tokens[at + 1].start > line->tokens[at].end;
        at++;
    }
    return at + 1 - line->at;
}

const struct statement *line_report_unknown(const struct line *line, int place, size_t *taken)
{
    struct diag *diag = line->reader->diag;
    struct span all = line_span(line, line->at, line->count);
    const char *text = line->reader->source->text + all.start;
    const char *folded = text_fold(diag->arena, text, all.end - all.start);
    const struct phrase *near = phrasebook_nearest(diag->arena, line->reader->phrases, place, folded);
    *taken = near ? tokens_of(line, near) : 1;
    struct span span = line_span(line, line->at, line->at + *taken);
    struct finding *finding = diag_error(diag, DIAG_UNKNOWN_STATEMENT, span, "nothing starts with `%.*s` %s",
                                         (int)(span.end - span.start), text, place_words(place));
    if (!near) {
        help_unknown(line, place, finding);
        return NULL;
    }
    const char *phrase = arena_copy(diag->arena, near->words, near->length);
    diag_help(diag, finding, "did you mean `%s`?", phrase);
    diag_fix(diag, finding, span, phrase);
    return near->statement;
}

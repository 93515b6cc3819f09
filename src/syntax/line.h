/* line.h - one line on its way to the grammar; shared by lines.c, values.c, pieces.c and the grammar only. */
#ifndef BELL_SYNTAX_LINE_H
#define BELL_SYNTAX_LINE_H

#include "parse.h"
#include "syntax/phrases.h"
#include "syntax/raw.h"
#include "syntax/read.h"

/* One token of the grammar. */
struct token {
    short kind;
    bool reported; /* the line was reported before this token was made */
    struct extent place;
    PLAN_STYPE value;
};

struct line {
    struct reader *reader;
    struct lines *lines;            /* the file that it stands in */
    const char *text;               /* of the whole file */
    uint32_t file;
    bool odd_spaces;                /* spaces that names must not contain, see text_odd_space */
    const struct raw_token *tokens; /* without comments */
    size_t count;
    size_t at;                      /* the next token to hand on */
    bool reported;                  /* a slip in it was reported */
    bool abandoned;                 /* so that the rest of the line is dropped */
    struct token *made;             /* what the grammar gets for it, or for the change of indentation before it */
    struct token *made_end, *made_limit; /* after the last, and after the room for more */
    const struct token *given;      /* the next one to hand on */
    bool last;                      /* they include the end of the file */
};

/* The place of tokens FIRST up to, not including, END. */
static inline struct extent line_place(const struct line *line, size_t first, size_t end)
{
    if (first >= line->count)
        first = line->count ? line->count - 1 : 0;
    if (end <= first)
        end = first + 1;
    if (end > line->count)
        end = line->count;
    return (struct extent){line->tokens[first].start, line->tokens[end - 1].end};
}

/* The same as a span. */
static inline struct span line_span(const struct line *line, size_t first, size_t end)
{
    struct extent place = line_place(line, first, end);
    return (struct span){line->file, place.start, place.end};
}

/* The text of one token. */
static inline const char *line_text(const struct line *line, size_t token, size_t *length)
{
    *length = line->tokens[token].end - line->tokens[token].start;
    return line->text + line->tokens[token].start;
}

/* How many tokens from AT spell PHRASE, case aside; 0 if they do not. */
size_t line_spells(const struct line *line, size_t at, const struct phrase *phrase);

/* Is the token at AT a place as sheets print it: `A1`? */
bool line_prints_ref(const struct line *line, size_t at);

/* Is there a token of KIND at or after the line's place? */
bool line_has(const struct line *line, enum raw_kind kind);

/* Gets room for more tokens. */
void line_grow(struct line *line);

/* Makes one token for the grammar. */
static inline void line_push(struct line *line, int kind, PLAN_STYPE value, struct extent place)
{
    if (line->made_end == line->made_limit)
        line_grow(line);
    *line->made_end++ =
        (struct token){.kind = (short)kind, .reported = line->reported, .place = place, .value = value};
}

/* Makes tokens from the rest of the line by the steps of FORM (kinds.def); START is where its phrase begins. */
void line_values(struct line *line, const struct form *form, size_t start);

/* The kinds of values (enum words_of) whose words may stand in a line of FORM. */
int line_words(const struct form *form);

/* Makes the tokens of the next line that has any. */
void line_make(struct line *line);

/* Hands one token to the grammar. What was reported about a line while its tokens were made counts from the next token
 * on, as if the two took turns. */
static inline int line_give(struct line *line, PLAN_STYPE *value, struct extent *place)
{
    if (line->given == line->made_end)
        line_make(line);
    const struct token *token = line->given++;
    if (token->reported)
        line->reader->failed = true;
    *value = token->value;
    *place = token->place;
    return token->kind;
}

/* The statement of PLACE that the line starts like; *TAKEN is how many tokens stand for its phrase. One without keyword
 * is known by its form: FALLBACK is what a line without keyword may be there, or NULL. NULL: none. */
const struct statement *line_statement(const struct line *line, int place, const struct statement *fallback,
                                       size_t *taken);

/* Reports a line that starts like no statement of PLACE. If one is near, the line is read as that, else NULL; *TAKEN as
 * above. */
const struct statement *line_report_unknown(const struct line *line, int place, size_t *taken);

#endif

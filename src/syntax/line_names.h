/* line_names.h - names in a line's values. */
#ifndef BELL_SYNTAX_LINE_NAMES_H
#define BELL_SYNTAX_LINE_NAMES_H

#include <stdbool.h>
#include <stddef.h>

struct line;
struct phrase;
struct phrase_list;

/* The one of STOPS that the tokens at AT begin, with what it needs after it, and how many tokens it takes without that;
 * NULL if there is none. */
const struct phrase *stop_here(const struct line *line, size_t at, const struct phrase_list *stops, size_t *taken);

/* The end of the name that starts at the line's place: the last stop that has what it needs, or the first that needs
 * nothing. Stops with their dates may stand in a row (`from 2027-05-03 based on ...`): then the first of the row. */
size_t name_end(const struct line *line, const struct phrase_list *stops, bool comma);

/* A limit's name may contain numbers (`first 2 weeks of an exercise at most RPE 7`), but if no word of a bound follows,
 * it ends at the first number (`intensity 75-90%`). */
size_t limit_name_end(const struct line *line, const struct phrase_list *stops);

/* The end of the name at the line's place: where a day from or until which it holds begins, or a comma. */
size_t member_end(const struct line *line, const struct phrase_list *stops);

/* The name from the line's place to END, if there is one; or names that commas part. */
void push_name(struct line *line, size_t end);
void push_names(struct line *line, const struct phrase_list *stops);

#endif

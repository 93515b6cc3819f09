/* marks.h - drawn marks of our own: a stance by its feet, a tempo by the path of the bar, a bar with its discs.
 *
 * All are drawn for black-and-white print. Colour only repeats what shape and number say. */
#ifndef BELL_LAYOUT_MARKS_H
#define BELL_LAYOUT_MARKS_H

#include "layout/press.h"
#include "model/set.h"

/* Two feet seen from above, the one in front filled: left in front for orthodox, right for southpaw. HEIGHT high. */
struct box *mark_stance(const struct press *press, enum dose_side side, double height);

/* Four cells as wide as their seconds, the path of the bar drawn over them: down, held, up, held. TEMPO is
 * given. SIZE is that of the numbers. */
struct box *mark_tempo(const struct press *press, const struct item_tempo *tempo, double size,
                       enum rank rank);

/* A bar's end with the discs of one side, the kilograms on each; discs alone if they are not on a bar. NULL if there
 * are none. SIZE is that of the numbers. */
struct box *mark_bar(const struct press *press, const struct plating *plating, double size,
                     enum rank rank);

/* The same with numbers of SIZE that are read from as far as the dose, the discs hardly higher than those. Which bar it is
 * stands beside them in letters of SMALL, if NAMED. */
struct box *mark_bar_read_first(const struct press *press, const struct plating *plating, double size, double small, bool named);

/* The mark before a stop rule: eight corners with a bar across. */
struct box *mark_stop(const struct press *press, double height);

/* "Stop if: RULE", or "" if RULE is NULL. */
const char *mark_stop_words(struct arena *arena, const char *rule);

/* WORDS of a stop rule in lines of WIDTH, its mark before them; an empty piece where they are "". */
struct box *mark_stop_rule(const struct press *press, const char *words, struct face face,
                           double width);

/* Its height, without making it. */
double mark_stop_rule_height(const struct press *press, const char *words, struct face face,
                             double width);

/* A blank to write in. */
struct box *mark_blank(const struct press *press, double width, double height);

#endif

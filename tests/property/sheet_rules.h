/* sheet_rules.h - what holds for the words of any wall and card, for tests of plans at random. */
#ifndef BELL_TESTS_SHEET_RULES_H
#define BELL_TESTS_SHEET_RULES_H

#include "layout/sheet.h"

/* A fault of SCENE, which is a sheet of the kind NAME, in words that live in ARENA; NULL where there is none:
 * - what goes on overleaf is said at the foot of the page before;
 * - no "kg" or "lb" stands without its figure right before it;
 * - doses on an upright wall begin at two places at most, their column and the indent below it;
 * - boxes on a card are at least 14 by 9 mm. */
const char *sheet_rule_broken(struct arena *arena, const char *name, const struct scene *scene);

#endif

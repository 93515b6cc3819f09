/* names.h - what has been declared, by name, and the nearest name to one that was not. */
#ifndef BELL_RESOLVE_NAMES_H
#define BELL_RESOLVE_NAMES_H

#include <stddef.h>

#include "base/arena.h"

struct name;

struct names;

/* An empty table; it lives in ARENA and need not be freed. */
struct names *names_new(struct arena *arena);

/* Adds THING under NAME, or returns the thing that has the name already. */
void *names_add(struct names *names, const struct name *name, void *thing);

/* Makes every name of OLD mean THING from now on. */
void names_redirect(struct names *names, const void *old, void *thing);

/* The thing called FOLDED, or NULL. */
void *names_find(const struct names *names, const char *folded);

/* Where FOLDED was declared, or NULL. */
const struct name *names_declared(const struct names *names, const char *folded);

/* The declared name nearest to FOLDED, as shown, or NULL when none is near. After very many questions it is
 * always NULL. */
const char *names_nearest(struct names *names, const char *folded);

enum { NAMES_ALIKE = 4 };

/* Finds what shares its words with FOLDED: the names that hold all of them, or else those that it holds. Fills ALIKE with
 * one name of each thing, as shown, in the order of the alphabet, and returns how many: none where there are too many to
 * choose from, or after very many questions. */
size_t names_alike(struct names *names, const char *folded, const char *alike[NAMES_ALIKE]);

#endif

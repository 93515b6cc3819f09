/* resolve.h - trees to a programme. */
#ifndef BELL_RESOLVE_RESOLVE_H
#define BELL_RESOLVE_RESOLVE_H

#include "source/diag.h"
#include "syntax/tree.h"

struct programme;

/* Works out what TREES mean together, the shelf's among them. TODAY is a day number, or 0: entries dated after it do
 * not count. The programme lives in ARENA; whatever is wrong goes to DIAG and is left out of the programme. Never
 * NULL. */
struct programme *programme_resolve(struct arena *arena, const struct sources *sources,
                                    struct tree *const *trees, size_t count, int today,
                                    struct diag *diag);

#endif

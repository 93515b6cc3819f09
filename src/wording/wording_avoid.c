/* wording_avoid.c - what an athlete must not do, in the words of a sheet's language. */
#include "wording/wording.h"

#include "language/language.h"
#include "model/barred.h"
#include "model/kinds.h"

/* What is barred, without its side and what is asked of it. */
static const char *barred_name(const struct arena *arena, const struct avoid *avoid)
{
    const char *name = avoid->shown; /* a position, an effort, or a demand on whichever joint */
    if (avoid->exercise)
        return wording_exercise(arena, avoid->exercise);
    if (avoid->joint >= 0)
        name = joints.names[avoid->joint];
    else if (avoid->region >= 0)
        name = regions.names[avoid->region];
    else if (avoid->pattern >= 0)
        name = patterns.names[avoid->pattern];
    else if (avoid->kind >= 0)
        name = exercise_kinds.names[avoid->kind];
    return said_as(arena, "avoid", name);
}

const char *wording_avoid(struct arena *arena, const struct avoid *avoid)
{
    const char *words = barred_name(arena, avoid);
    if (avoid->sides == BARRED_LEFT)
        words = arena_printf(arena, said_as(arena, "avoid", "left %s"), words);
    else if (avoid->sides == BARRED_RIGHT)
        words = arena_printf(arena, said_as(arena, "avoid", "right %s"), words);
    if (avoid->joint < 0 || avoid->demand < 0)
        return words;
    return arena_printf(arena, "%s %s", words, said_as(arena, "avoid", demands.names[avoid->demand]));
}

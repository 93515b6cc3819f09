/* cut.h - the sets, rounds and blocks that are cut, as lines below a placed session. */
#ifndef BELL_AMEND_CUT_H
#define BELL_AMEND_CUT_H

#include "plan/plan.h"
#include "room/change.h"
#include "squad/squad.h"

/* CUT of SQUAD's room, as lines of `drop` and `change`, in ARENA. NULL if a line cannot say what is cut from a
 * block; *BLOCK is then that block's place in the room. */
const char *cut_lines(struct arena *arena, const struct project *project, const struct squad *squad,
                      const struct room_cut *cut, int *block);

/* The block of the programme that is block B of SQUAD's room, as the first athlete who does it has it. */
const struct block *cut_block(const struct squad *squad, size_t b);

#endif

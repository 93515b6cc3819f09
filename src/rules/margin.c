#include "rules/margin.h"

#include "rules/run.h"

void run_margin(struct run *run, const struct window *window, const struct limit *limit,
                enum counted counted, enum side side, milli left)
{
    struct margins *margins = run->margins;
    if (!margins || !limit)
        return;
    margins->items = arena_grow(run->arena, margins->items, margins->count, &margins->capacity,
                                sizeof *margins->items);
    margins->items[margins->count++] =
        (struct margin){.athlete = window->athlete,
                        .camp = window->camp,
                        .limit = limit,
                        .counted = counted,
                        .side = side,
                        .first = window->first,
                        .last = window->last,
                        .phase = window->scope == SCOPE_PHASE ? window->phase : NULL,
                        .whole = window->scope == SCOPE_PHASE || window->scope == SCOPE_CAMP,
                        .left = left};
}

milli margin_within(milli figure, milli low, milli high)
{
    milli above = figure - low, below = high - figure;
    return above < below ? above : below;
}

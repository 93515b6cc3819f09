/* resolve_sides.c - the side that a restriction leaves out: `avoid left knee deep` makes 6 right of 6 each side, and of
 * 4 orthodox + 2 southpaw leaves the stance whose working leg is the right one. Where nothing would be left, the line
 * stays as it is, and the check says that it is barred. */
#include <string.h>

#include "measure/avoid.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/block.h"
#include "model/occasion.h"
#include "model/set.h"
#include "resolve/template.h"

/* The repetitions of PART that must not be done; adds to SIDES whose sides these are. */
static unsigned barred_of(const struct occasion *occasion, const struct exercise *exercise, const struct part *part,
                          unsigned *sides)
{
    const struct athlete *athlete = occasion->athlete;
    unsigned barred = 0;
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        if (!avoid->sides || !avoid_stands(avoid, occasion->date))
            continue;
        unsigned one = avoid_bars_part(avoid, exercise, part, athlete->stance);
        barred |= one;
        *sides |= one ? avoid->sides : 0;
    }
    return barred;
}

/* RUN without what is barred in it, or with no part. */
static struct set_run what_stays(struct resolver *r, const struct occasion *occasion, const struct exercise *exercise,
                                 const struct set_run *run, unsigned *sides)
{
    struct set_run left = *run;
    struct part *parts = arena_alloc(r->arena, run->part_count * sizeof *parts);
    left.parts = parts;
    left.part_count = 0;
    for (size_t i = 0; i < run->part_count; i++) {
        unsigned barred = barred_of(occasion, exercise, &run->parts[i], sides);
        if (barred == BARRED_ALL)
            continue;
        struct part *part = &parts[left.part_count++];
        *part = run->parts[i];
        if (barred) {
            part->side = barred == BARRED_LEFT ? DOSE_RIGHT : DOSE_LEFT;
            part->assumed_each = false;
        }
    }
    left.alternating = run->alternating && left.part_count > 1;
    return left;
}

void leave_sides_out(struct resolver *r, const struct occasion *occasion, struct item *item)
{
    unsigned sides = 0;
    if (!item->run_count || !athlete_restricted(occasion->athlete, occasion->date))
        return;
    struct set_run *runs = arena_alloc(r->arena, item->run_count * sizeof *runs);
    size_t count = 0;
    int sets = 0;
    for (size_t i = 0; i < item->run_count; i++) {
        struct set_run left = what_stays(r, occasion, item->exercise, &item->runs[i], &sides);
        if (left.part_count == 0)
            continue;
        time_run(&left, item->exercise, &time_usual);
        runs[count++] = left;
        sets += left.count;
    }
    if (!sides || !count)
        return;
    item->runs = runs;
    item->run_count = count;
    item->sets = sets;
    item->sides_out = sides;
}

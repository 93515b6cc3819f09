/* tally_lines.c - the lines of a plan that add up to one count. */
#include <string.h>

#include "export/tally_formats.h"
#include "measure/kit.h"
#include "measure/tally.h"
#include "model/programme.h"

static const char *share_words(const struct tally_view *view, const struct share *share)
{
    const struct occasion *occasion = share->occasion;
    const char *title =
        occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    if (share->item)
        return arena_printf(view->arena, "%s, %s%s%s", title, share->item->ref,
                            *share->item->ref ? " " : "", share->item->exercise->name.shown);
    if (share->block && share->block->letter)
        return arena_printf(view->arena, "%s, block %c", title, share->block->letter);
    return title;
}

size_t tally_lines(const struct tally_view *view, struct tally_line **lines)
{
    const struct programme *programme = view->programme;
    struct tally_line *items = NULL;
    size_t count = 0, capacity = 0;
    for (size_t a = 0; a < programme->athlete_count; a++) {
        const struct athlete *athlete = programme->athletes[a];
        if (view->athlete && athlete != view->athlete)
            continue;
        struct diary diary = tally_diary(view, athlete);
        size_t kept = 0;
        for (size_t i = 0; i < diary.count; i++)
            if (!view->week || diary.occasions[i]->week == view->week)
                diary.occasions[kept++] = diary.occasions[i];
        struct share *shares;
        size_t found = tally_shares(view->arena, diary.occasions, kept, view->counted, SIDE_ALL,
                                    &shares);
        for (size_t i = 0; i < found; i++) {
            const struct source *source = &programme->sources->items[shares[i].span.file];
            items = arena_grow(view->arena, items, count, &capacity, sizeof *items);
            items[count++] = (struct tally_line){
                .athlete = athlete,
                .line = arena_printf(view->arena, "%s:%u", source->name,
                                     source_line(source, shares[i].span.start)),
                .what = share_words(view, &shares[i]),
                .unit = tally_unit(view->counted, gym_unit(athlete->gym)),
                .amount = tally_range(athlete, view->counted, shares[i].amount),
                .times = shares[i].times};
        }
    }
    *lines = items;
    return count;
}

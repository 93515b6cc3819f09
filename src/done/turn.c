#include "done/turn.h"

#include <string.h>

#include "done/as_done.h"
#include "done/estimates.h"
#include "model/programme.h"

struct diary_of diary_of_athlete(struct arena *arena, const struct programme *programme, const struct athlete *athlete)
{
    struct diary_of diary = {.items = NULL};
    size_t capacity = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->athlete != athlete)
            continue;
        diary.items = arena_grow(arena, diary.items, diary.count, &capacity, sizeof(struct occasion *));
        diary.items[diary.count++] = occasion;
        if (occasion->log && occasion->date > diary.last_log)
            diary.last_log = occasion->date;
    }
    return diary;
}

static const struct item *item_at(const struct occasion *occasion, const char *ref, const struct exercise *exercise)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (strcmp(item->ref, ref) == 0)
                return item->exercise == exercise ? item : NULL;
        }
    return NULL;
}

/* --- one turn --- */

static void fill_as_planned(struct turn *turn)
{
    const struct item *item = turn->item;
    const struct set_run *last = &item->runs[item->run_count - 1];
    turn->sets = item->sets;
    turn->load = last->load.made;
    turn->one_load = true;
    turn->last_reps = turn->least_reps = last->part_count ? last->parts[0].amount.low : 0;
    for (size_t i = 0; i < item->run_count; i++) {
        milli reps = item->runs[i].part_count ? item->runs[i].parts[0].amount.low : 0;
        turn->one_load = turn->one_load && item->runs[i].load.made == turn->load;
        turn->least_reps = reps < turn->least_reps ? reps : turn->least_reps;
    }
}

static void fill_logged(struct turn *turn, const struct logged_line *line)
{
    const struct set_run *planned = &turn->item->runs[0];
    turn->line = line;
    turn->one_load = true;
    for (size_t i = 0; i < line->set_count; i++) {
        const struct logged_set *set = &line->sets[i];
        milli reps = logged_reps(set), rpe = logged_rpe(set);
        bool other_pieces = set->pieces > planned->load.pieces;
        mass load = set->kind == LOAD_NONE ? planned->load.made : set->kind == LOAD_MASS && !other_pieces ? set->load : 0;
        turn->one_load = turn->one_load && load > 0 && (i == 0 || load == turn->load);
        turn->load = load;
        turn->sets += set->count;
        turn->least_reps = i == 0 || reps < turn->least_reps ? reps : turn->least_reps;
        turn->last_reps = reps;
        turn->rpe = rpe ? rpe : turn->rpe;
        turn->all_out = rpe >= 10000 || (!rpe && turn->item->runs[turn->item->run_count - 1].load.effort == EFFORT_ALL_OUT);
    }
}

static struct turn turn_of(const struct occasion *occasion, const struct item *item)
{
    const struct done *log = occasion->log;
    struct turn turn = {.log = log, .item = item};
    const struct logged_line *line = logged_line_of(log, item->ref);
    bool nothing = log->missed || (log->outcome.timed && log->outcome.seconds == 0);
    turn.done = !nothing && !(line && line->skipped);
    if (turn.done && line && line->set_count)
        fill_logged(&turn, line);
    else if (turn.done && item->run_count)
        fill_as_planned(&turn);
    if (line && (line->skipped || line->poor))
        turn.line = line;
    if (line && line->poor && turn.sets > 0)
        turn.sets--; /* fewer than planned: nothing goes up by them */
    return turn;
}

static bool same_session(const struct session *a, const struct session *b)
{
    return a && b && a->first == b->first;
}

size_t turns_before(const struct diary_of *diary, size_t at, const struct item *item, struct turn turns[2])
{
    size_t count = 0;
    for (size_t i = at; i-- > 0 && count < 2;) {
        const struct occasion *occasion = diary->items[i];
        const struct item *then = occasion->log && same_session(occasion->session, diary->items[at]->session)
                                      ? item_at(occasion, item->ref, item->exercise) : NULL;
        if (then)
            turns[count++] = turn_of(occasion, then);
    }
    return count;
}

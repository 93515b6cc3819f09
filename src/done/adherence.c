#include "done/adherence.h"

#include "done/as_done.h"
#include "figures/load.h"
#include "model/programme.h"

static const milli MOST = INT64_C(1000000000000); /* more than any week needs */

int adherence_last(const struct programme *programme, const struct athlete *athlete)
{
    int last = 0;
    for (size_t i = 0; i < programme->log_count; i++)
        if (programme->logs[i].athlete == athlete && programme->logs[i].date > last)
            last = programme->logs[i].date;
    return last && programme->today - 1 > last ? programme->today - 1 : last;
}

/* --- sets --- */

static milli planned_sets(const struct occasion *occasion)
{
    milli sets = 0;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            sets += (milli)occasion->blocks[b].items[i].sets * 1000;
    return sets;
}

static milli logged_sets(const struct logged_line *line)
{
    milli sets = 0;
    for (size_t i = 0; i < line->set_count; i++)
        sets += (milli)line->sets[i].count * 1000;
    return sets;
}

/* Of OCCASION, which was done. */
static milli done_sets(const struct occasion *occasion)
{
    milli sets = 0;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            const struct logged_line *line = logged_line_of(occasion->log, item->ref);
            milli poor = (milli)occasion->blocks[b].poor_sets * 1000, planned = (milli)item->sets * 1000;
            bool as_planned = !line || (line->poor && (!poor || poor > planned));
            sets += as_planned ? planned : line->poor ? poor : line->skipped ? 0 : logged_sets(line);
        }
    return sets;
}

/* --- load --- */

static milli load_at(struct range rpe, int seconds)
{
    return load_session((rpe.low + rpe.high) / 2, seconds);
}

/* Of OCCASION, which was done. */
static milli done_load(const struct occasion *occasion)
{
    const struct outcome *outcome = &occasion->outcome;
    return load_at(outcome->rpe.high > 0 ? outcome->rpe : occasion->rpe,
                   outcome->timed ? outcome->seconds : occasion->seconds);
}

/* --- all --- */

static void add_kept(struct done_share *kept, milli planned, milli done, bool left)
{
    if (kept->planned.high > MOST || kept->done > MOST)
        return;
    kept->done += done;
    kept->planned.low += left ? 0 : planned;
    kept->planned.high += planned;
}

struct adherence adherence_of(const struct occasion *const *occasions, size_t count, int last)
{
    struct adherence adherence = {.known = false};
    for (size_t i = 0; i < count && last; i++) {
        const struct occasion *occasion = occasions[i];
        if (occasion->date > last || (occasion->activity && occasion->activity->rest))
            continue;
        bool done = occasion_done(occasion), left = occasion->optional && !done;
        adherence.known = true;
        add_kept(&adherence.of[ADHERENCE_SESSIONS], 1000, done ? 1000 : 0, left);
        add_kept(&adherence.of[ADHERENCE_SETS], planned_sets(occasion), done ? done_sets(occasion) : 0, left);
        add_kept(&adherence.of[ADHERENCE_LOAD], load_at(occasion->rpe, occasion->seconds),
                 done ? done_load(occasion) : 0, left);
    }
    return adherence;
}

bool kept_share(const struct done_share *kept, struct range *share)
{
    if (kept->planned.high <= 0)
        return false;
    share->low = kept->done * 100000 / kept->planned.high;
    share->high = kept->planned.low > 0 ? kept->done * 100000 / kept->planned.low : share->low;
    return true;
}

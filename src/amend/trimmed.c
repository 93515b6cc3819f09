#include "amend/trimmed.h"

#include <limits.h>
#include <string.h>

#include "amend/cut.h"
#include "model/programme.h"

enum { WARM_UP_LEAST = 300 /* seconds that are never cut from a warm-up; common practice, no source */ };

struct trimming {
    struct arena *arena;
    const struct project_request *request;
    const struct project *before;
    struct trimmed *result;
    struct room_block *blocks; /* of the room, whose keep may be taken away */
    bool *unsaid;
};

/* --- what must not be cut --- */

/* Is what opens the session a warm-up: rounds without a letter, or mobility and warm-up work alone? */
static bool is_warm_up(const struct block *block)
{
    if (!block->letter)
        return block->kind == BLOCK_ROUNDS;
    for (size_t i = 0; i < block->item_count; i++) {
        enum exercise_kind kind = block->items[i].exercise->kind;
        if (kind != EXERCISE_WARM_UP && kind != EXERCISE_MOBILITY)
            return false;
    }
    return true;
}

static void prepare(struct trimming *trimming)
{
    struct trimmed *result = trimming->result;
    size_t count = result->squad->room.block_count;
    trimming->blocks = arena_alloc(trimming->arena, (count + 1) * sizeof *trimming->blocks);
    trimming->unsaid = arena_alloc(trimming->arena, (count + 1) * sizeof *trimming->unsaid);
    memcpy(trimming->blocks, result->squad->room.blocks, count * sizeof *trimming->blocks);
    result->room = result->squad->room;
    result->room.blocks = trimming->blocks;
    result->room.doors = ROOM_NONE;
    result->unsaid = trimming->unsaid;
    if (count && is_warm_up(cut_block(result->squad, 0)))
        trimming->blocks[0].least = WARM_UP_LEAST;
}

/* --- what came of it --- */

static const struct room_part *part_named(const struct room *room, size_t athlete, const char *name)
{
    for (size_t b = 0; b < room->block_count; b++)
        if (strcmp(room->blocks[b].name, name) == 0)
            return &room->athletes[athlete].parts[b];
    return NULL;
}

/* Does the changed plan have what it should, part for part? Of a bell the length counts. */
static bool same_part(const struct room_part *should, const struct room_part *is)
{
    if (!should->set_count || !is)
        return !should->set_count && (!is || !is->set_count);
    return should->set_count == is->set_count && should->sets[0].items[0].work == is->sets[0].items[0].work;
}

/* The first block that is not as SHOULD has it; ROOM_NONE if all are. */
static int first_other(const struct room *should, const struct room *is)
{
    for (size_t b = 0; b < should->block_count; b++)
        for (size_t a = 0; a < should->athlete_count; a++)
            if (!same_part(&should->athletes[a].parts[b], part_named(is, a, should->blocks[b].name)))
                return (int)b;
    return ROOM_NONE;
}

/* The same squad in the changed plan; NULL if it is no longer complete. */
static const struct squad *squad_again(struct arena *arena, const struct programme *programme, const struct squad *squad)
{
    const struct occasion **members = arena_alloc(arena, squad->count * sizeof *members);
    for (size_t i = 0; i < squad->count; i++) {
        const struct occasion *old = squad->members[i];
        for (size_t k = 0; k < programme->occasion_count && !members[i]; k++) {
            const struct occasion *new = &programme->occasions[k];
            if (new->session && new->date == old->date && new->clock == old->clock
                && strcmp(new->session->name.folded, old->session->name.folded) == 0
                && strcmp(new->athlete->name.folded, old->athlete->name.folded) == 0
                && strcmp(new->camp->name.folded, old->camp->name.folded) == 0)
                members[i] = new;
        }
        if (!members[i])
            return NULL;
    }
    return squad_of(arena, members, squad->count);
}

static bool is_cut(const struct squad *squad, const struct occasion *occasion)
{
    for (size_t i = 0; i < squad->count; i++)
        if (squad->members[i] == occasion)
            return true;
    return false;
}

/* Nothing else may change: neither the days nor how much is done on them. */
static bool others_same(const struct programme *before, const struct programme *after, const struct squad *squad)
{
    if (before->occasion_count != after->occasion_count)
        return false;
    for (size_t i = 0; i < before->occasion_count; i++) {
        const struct occasion *a = &before->occasions[i], *b = &after->occasions[i];
        if (is_cut(squad, a))
            continue;
        if (a->date != b->date || a->clock != b->clock || a->seconds != b->seconds || a->column != b->column
            || strcmp(a->athlete->name.folded, b->athlete->name.folded) != 0)
            return false;
    }
    return true;
}

/* --- one of a squad --- */

/* All who do what MEMBER does on the same line that day in the same gym, in squad order; NULL: nobody else does. */
static const struct squad *squad_beside(struct arena *arena, const struct programme *programme, const struct occasion *member)
{
    struct squad_meeting *meetings;
    size_t count = squad_meetings(arena, programme->occasions, programme->occasion_count, &meetings);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < meetings[i].count; k++)
            if (meetings[i].members[k] == member)
                return squad_of(arena, (const struct occasion *const *)meetings[i].members, meetings[i].count);
    return NULL;
}

/* Does the line that places OCCASION also place it for others that day? */
static bool is_shared(const struct programme *programme, const struct occasion *occasion)
{
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *other = &programme->occasions[i];
        if (other != occasion && other->place == occasion->place && other->date == occasion->date)
            return true;
    }
    return false;
}

/* LINES for ATHLETE alone. */
static const char *own_lines(struct arena *arena, const struct athlete *athlete, const char *lines)
{
    struct text out = {.arena = arena};
    text_addf(&out, "for %s", athlete->name.shown);
    for (const char *line = lines; *line;) {
        size_t length = strcspn(line, "\n");
        text_addf(&out, "\n    %.*s", (int)length, line);
        line += length + (line[length] == '\n');
    }
    return text_keep(arena, &out);
}

/* When ATHLETE is done among SQUAD, all of whom take turns; INT_MAX: they have no timetable. */
static int finish_among(struct arena *arena, const struct squad *squad, const struct athlete *athlete)
{
    const struct room_table *table = squad->too_large ? NULL : room_solve(arena, &squad->room);
    for (size_t i = 0; table && !table->refused && i < squad->count; i++)
        if (strcmp(squad->members[i]->athlete->name.folded, athlete->name.folded) == 0)
            return table->fares[i].finish;
    return INT_MAX;
}

/* Marks what no line can say, and excludes it from what may be cut. True: try again. */
static bool leave_uncut(struct trimming *trimming, int block)
{
    if (block == ROOM_NONE || trimming->unsaid[block])
        return false;
    trimming->unsaid[block] = true;
    trimming->blocks[block].keep = 0;
    return true;
}

/* --- the trim --- */

/* Tries the cut in the plan itself. True: some of it cannot be said, and is now excluded from what may be cut. */
static bool write_and_try(struct trimming *trimming)
{
    struct trimmed *result = trimming->result;
    const struct occasion *first = result->squad->members[0];
    struct attempt *attempt = arena_alloc(trimming->arena, sizeof *attempt);
    int block = ROOM_NONE;
    result->lines = cut_lines(trimming->arena, trimming->before, result->squad, &result->trim->cut, &block);
    if (!result->lines)
        return leave_uncut(trimming, block);
    if (result->squad->count == 1 && is_shared(trimming->before->programme, first))
        result->lines = own_lines(trimming->arena, first->athlete, result->lines);
    result->wrong = placed_add(trimming->arena, trimming->before, first, result->lines, &result->amended);
    if (result->wrong)
        return false;
    if (!attempt_make(trimming->arena, trimming->request, trimming->before, &result->amended, attempt)) {
        result->wrong = "a file of the plan could not be read again";
        return false;
    }
    const struct squad *now = squad_again(trimming->arena, attempt->project.programme, result->squad);
    if (now && leave_uncut(trimming, first_other(result->trim->room, &now->room)))
        return true;
    if (!now || !others_same(trimming->before->programme, attempt->project.programme, result->squad))
        result->wrong = "a line for this day alone would change other days too, because the series or the turns of the "
                        "sessions go on from it";
    else if (attempt->errors)
        result->wrong = arena_printf(trimming->arena, "`check` would then find: %s", attempt->first->words);
    result->attempt = attempt;
    return false;
}

static void cut_to(struct trimming *trimming, int seconds)
{
    struct trimmed *result = trimming->result;
    result->attempt = NULL;
    result->lines = "";
    do {
        result->wrong = NULL;
        result->trim = room_trim(trimming->arena, &result->room, seconds);
    } while (result->trim && result->trim->fits && result->trim->loss && write_and_try(trimming));
    result->finish = result->trim ? result->trim->table->finish : ROOM_NONE;
}

struct trimmed trim_squad(struct arena *arena, const struct project_request *request, const struct project *before,
                          const struct occasion *const *members, size_t count, int seconds)
{
    struct trimmed result = {.squad = squad_of(arena, members, count), .lines = ""};
    struct trimming trimming = {.arena = arena, .request = request, .before = before, .result = &result};
    if (result.squad->too_large)
        return result;
    prepare(&trimming);
    result.whole = room_solve(arena, &result.room);
    result.planned = result.whole->finish;
    cut_to(&trimming, seconds);
    return result;
}

/* When the athlete finishes among the others, as the plan is now. */
static int finish_now(const struct trimming *trimming)
{
    const struct trimmed *result = trimming->result;
    const struct squad *beside = result->beside;
    if (result->attempt)
        beside = squad_again(trimming->arena, result->attempt->project.programme, beside);
    return beside ? finish_among(trimming->arena, beside, result->squad->members[0]->athlete) : INT_MAX;
}

/* Alone, the athlete finishes no later than among others. So the least cut for somebody alone is also the least
 * among others, if the athlete is in time with it. If not, more is cut until nothing is left that may go. */
static void cut_among(struct trimming *trimming, int seconds)
{
    struct trimmed *result = trimming->result;
    const struct room_trim *most = room_trim(trimming->arena, &result->room, 0);
    int wanted = seconds;
    cut_to(trimming, wanted);
    while (most && result->trim->fits && !result->wrong) {
        int alone = result->trim->table->finish, over;
        result->finish = finish_now(trimming);
        over = result->finish - seconds;
        if (over <= 0 || alone <= most->table->finish)
            break;
        wanted = alone - (over + 1) / 2;
        wanted = wanted > most->table->finish ? wanted : most->table->finish;
        cut_to(trimming, wanted);
    }
    if (!result->trim)
        return;
    struct room_trim *among = arena_alloc(trimming->arena, sizeof *among);
    *among = *result->trim;
    among->fits = among->fits && result->finish <= seconds;
    among->proven = among->proven && wanted == seconds;
    result->trim = among;
}

struct trimmed trim_one(struct arena *arena, const struct project_request *request, const struct project *before,
                        const struct occasion *member, int seconds)
{
    const struct occasion **members = arena_alloc(arena, sizeof *members);
    *members = member;
    const struct squad *beside = squad_beside(arena, before->programme, member);
    int planned = beside ? finish_among(arena, beside, member->athlete) : INT_MAX;
    if (planned == INT_MAX)
        return trim_squad(arena, request, before, members, 1, seconds);
    struct trimmed result = {.squad = squad_of(arena, members, 1), .beside = beside, .planned = planned, .lines = ""};
    struct trimming trimming = {.arena = arena, .request = request, .before = before, .result = &result};
    if (result.squad->too_large)
        return result;
    prepare(&trimming);
    result.whole = room_solve(arena, &result.room);
    if (planned <= seconds)
        result.trim = room_trim(arena, &result.room, result.whole->finish);
    else
        cut_among(&trimming, seconds);
    result.finish = planned <= seconds ? planned : result.finish;
    return result;
}

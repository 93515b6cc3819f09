#include "sheets/version.h"

#include <string.h>

#include "compare/digest.h"
#include "done/adherence.h"
#include "figures/dates.h"
#include "layout/card.h"
#include "layout/rota.h"
#include "language/language.h"
#include "measure/avoid.h"
#include "measure/clocks.h"
#include "measure/demand.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "measure/person.h"
#include "measure/tally.h"
#include "measure/facts.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/log.h"
#include "model/occasion.h"
#include "model/season.h"
#include "sheets/version_parts.h"

struct sheet_versions {
    const struct sheet_origin *origin;
    struct squad_memo *memo;
    struct digest_memo *exercises;
    const struct occasion *rooms_of; /* whose session's rooms were looked at last: all its sheets follow one another */
    struct rota *rooms;
    size_t room_count;
};

struct sheet_versions *sheet_versions_new(const struct sheet_origin *origin)
{
    struct sheet_versions *versions = arena_alloc(origin->arena, sizeof *versions);
    versions->origin = origin;
    versions->memo = origin->memo ? origin->memo : squad_memo_new(origin->arena);
    versions->exercises = digest_memo_new(origin->arena);
    return versions;
}

/* --- who --- */

static void add_athlete(struct digest *digest, const struct athlete *athlete)
{
    digest_words(digest, athlete->name.shown);
    digest_words(digest, athlete->called);
    digest_number(digest, athlete->stance);
    digest_number(digest, athlete->pounds);
}

/* What is only on the athlete's own card and not on any sheet that others read, whose versions must not depend on
 * it. */
static void add_care(struct digest *digest, const struct sheet_origin *origin, const struct occasion *occasion)
{
    const struct athlete *athlete = occasion->athlete;
    bool held = athlete_restricted(athlete, occasion->date) ||
                athlete_held(athlete, occasion->date, programme_today(origin->programme));
    digest_number(digest, athlete_is_young(athlete, occasion->date) | held << 1);
}

/* The gym's warm-up steps for a lift that has some. */
static void add_ramp(struct digest *digest, const struct occasion *occasion)
{
    const struct item *item = occasion_ramped(occasion);
    struct ramp_step steps[RAMP_STEPS];
    int count = item ? load_ramp(occasion_gym(occasion), item->exercise, &item->runs[0].load, steps) : 0;
    for (int i = 0; i < count; i++) {
        const struct kit *bar = steps[i].load.plating.bar;
        digest_number(digest, steps[i].reps);
        digest_number(digest, steps[i].load.made);
        digest_words(digest, bar ? bar->name.folded : NULL);
    }
}

/* --- a squad's room --- */

static bool is_same_session(const struct occasion *a, const struct occasion *b)
{
    return a && a->session == b->session && a->date == b->date && a->clock == b->clock && a->camp == b->camp;
}

static void find_rooms(struct sheet_versions *versions, const struct sheet_request *request)
{
    const struct occasion *first = request->occasions[0];
    if (is_same_session(versions->rooms_of, first))
        return;
    struct sheet_request asked = *request;
    asked.arena = versions->origin->arena;
    asked.memo = versions->memo;
    versions->rooms_of = first;
    versions->room_count = rotas_of(&asked, &versions->rooms);
}

/* What OCCASION's card says of the room: when each block begins, whose turn comes before, when all is done. */
static void add_turns(struct digest *digest, const struct sheet_versions *versions, const struct occasion *occasion)
{
    struct arena *scratch = arena_beside(versions->origin->arena);
    for (size_t r = 0; r < versions->room_count; r++) {
        const struct rota *room = &versions->rooms[r];
        int member = rota_member(room, occasion);
        if (member == ROOM_NONE)
            continue;
        digest_number(digest, room->table->fares[member].finish);
        for (size_t b = 0; b < occasion->block_count; b++) {
            const struct block *block = &occasion->blocks[b];
            digest_words(digest, rota_block_hour(scratch, room, member, block));
            for (size_t i = 0; i < block->item_count; i++)
                digest_words(digest, rota_turns(scratch, room, member, block, block->items[i].index));
        }
    }
    arena_free(scratch);
}

/* A sheet that hangs where everybody reads it says when the squad begins and ends each block. */
static void add_hours(struct digest *digest, const struct sheet_versions *versions, const struct occasion *occasion)
{
    struct arena *scratch = arena_beside(versions->origin->arena);
    for (size_t r = 0; r < versions->room_count; r++) {
        const struct rota *room = &versions->rooms[r];
        digest_number(digest, room->table->finish);
        for (size_t b = 0; b < occasion->block_count; b++)
            digest_words(digest, rota_block_hours(scratch, room, &occasion->blocks[b]));
    }
    arena_free(scratch);
}

static void add_row(struct digest *digest, const struct rota *room, const struct room_row *row)
{
    digest_words(digest, room->squad->room.athletes[row->athlete].name);
    digest_number(digest, row->block);
    digest_number(digest, row->set);
    digest_number(digest, row->start);
    digest_number(digest, row->end);
    for (size_t k = 0; k < row->what->stack_count; k++)
        digest_words(digest, room->squad->room.stock[row->what->stack[k]].name);
    for (size_t u = 0; u < row->unit_count; u++) {
        digest_words(digest, room->squad->room.kinds[row->units[u].kind].name);
        digest_number(digest, row->units[u].number);
    }
}

/* The whole timetable, as the coach's sheet has it. */
static void add_table(struct digest *digest, const struct sheet_versions *versions)
{
    for (size_t r = 0; r < versions->room_count; r++) {
        const struct rota *room = &versions->rooms[r];
        digest_words(digest, room->squad->gym->name.shown);
        digest_number(digest, room->table->finish);
        digest_number(digest, room->table->bound);
        digest_number(digest, room->table->longest);
        for (size_t i = 0; i < room->squad->count; i++) {
            digest_number(digest, room->table->fares[i].wait);
            digest_number(digest, room->table->fares[i].alone);
        }
        for (size_t i = 0; i < room->table->row_count; i++)
            add_row(digest, room, &room->table->rows[i]);
        for (size_t i = 0; i < room->table->busy_count; i++)
            digest_number(digest, room->table->busy[i].seconds);
    }
}

/* --- sheets of a session --- */

enum session_sheet { HANGS, FOR_ONE, FOR_COACH };

static enum session_sheet kind_of(const struct sheet *sheet)
{
    if (sheet->scope == SCOPE_SESSION_EACH || strcmp(sheet->name, "card-page") == 0)
        return FOR_ONE;
    return strcmp(sheet->name, "wall") == 0 ? HANGS : FOR_COACH;
}

/* What was last logged for its lines. */
static void add_last(struct digest *digest, const struct sheet_versions *versions, const struct occasion *occasion)
{
    const struct sheet_origin *origin = versions->origin;
    struct arena *scratch = arena_beside(origin->arena);
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            digest_words(digest, card_last(scratch, origin->programme, occasion, &occasion->blocks[b].items[i]));
    arena_free(scratch);
}

static void add_session(struct digest *digest, struct sheet_versions *versions, const struct sheet *sheet,
                        const struct sheet_request *request)
{
    enum session_sheet kind = kind_of(sheet);
    unsigned sight = kind == FOR_ONE ? DIGEST_SHARES : kind == FOR_COACH ? DIGEST_NOTES : 0;
    digest_number(digest, gym_unit(occasion_gym(request->occasions[0])));
    digest_number(digest, request->coach && strcmp(sheet->name, "floor") == 0);
    for (size_t i = 0; i < request->held_count; i++)
        digest_words(digest, request->held[i]);
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        struct sheet_request own = *request; /* a page of cards may hold several sessions */
        own.occasions += kind == FOR_ONE ? i : 0;
        own.count -= kind == FOR_ONE ? i : 0;
        find_rooms(versions, &own);
        add_athlete(digest, occasion->athlete);
        digest_occasion(digest, occasion, sight);
        if (kind == FOR_ONE) {
            add_care(digest, versions->origin, occasion);
            add_ramp(digest, occasion);
            add_last(digest, versions, occasion);
            add_turns(digest, versions, occasion);
        } else if (kind == HANGS) {
            add_ramp(digest, occasion);
            add_hours(digest, versions, occasion);
        }
    }
    for (size_t i = 0; i < request->count && kind == FOR_COACH && request->coach; i++)
        digest_number(digest, athlete_is_young(request->occasions[i]->athlete, request->occasions[i]->date));
    if (kind == FOR_COACH)
        add_table(digest, versions);
}

/* --- sheets of a week, a camp, a season --- */

static void add_range(struct digest *digest, struct range range)
{
    digest_number(digest, range.low);
    digest_number(digest, range.high);
}

/* Leaves out what would reveal somebody's weight. */
static void add_tally(struct digest *digest, const struct tally *tally)
{
    const struct range none = {0, 0};
    for (size_t i = 0; i < COUNTED_COUNT; i++)
        add_range(digest, counted_tells_body((enum counted)i) ? none : tally->sum[i]);
    for (size_t i = 0; i < COUNTED_SIDED_COUNT; i++) {
        add_range(digest, tally->side[i][0]);
        add_range(digest, tally->side[i][1]);
    }
    for (size_t i = 0; i < UNCOUNTED_COUNT; i++)
        digest_number(digest, tally->uncounted[i]);
    add_range(digest, tally->done);
    digest_number(digest, tally->done_uncounted);
    digest_number(digest, tally->logged);
}

static void add_bound(struct digest *digest, const struct sheet_bound *bound)
{
    const struct sheet_end *const ends[] = {&bound->least, &bound->most};
    for (size_t i = 0; i < 2; i++) {
        digest_number(digest, ends[i]->asked);
        digest_number(digest, ends[i]->value);
        digest_number(digest, ends[i]->whole);
    }
    digest_number(digest, bound->counted);
    digest_number(digest, bound->against);
    digest_number(digest, bound->unit);
    digest_number(digest, bound->a_side | bound->missed << 1);
    digest_number(digest, bound->week);
    digest_words(digest, bound->only);
    add_range(digest, bound->amount);
    add_range(digest, bound->right);
    add_range(digest, bound->other);
    digest_words(digest, bound->waived);
    digest_number(digest, bound->reached);
    digest_number(digest, bound->from);
}

static void add_bout(struct digest *digest, const struct bout *bout)
{
    digest_number(digest, bout->day);
    digest_number(digest, bout->last);
    digest_number(digest, bout->clock);
    digest_number(digest, bout->cancelled);
    digest_number(digest, bout->result_known | bout->checked << 1);
    digest_words(digest, bout->words);
    for (size_t i = 0; i < bout->day_count; i++)
        digest_number(digest, bout->days[i]);
}

void version_camp(struct digest *digest, const struct camp *camp)
{
    digest_words(digest, camp->name.shown);
    digest_number(digest, camp->first);
    digest_number(digest, camp->last);
    for (size_t i = 0; i < camp->bout_count; i++)
        add_bout(digest, camp->bouts[i]);
    for (size_t i = 0; i < camp->left_phase_count; i++)
        digest_words(digest, camp->left_phases[i].shown);
    for (size_t i = 0; i < camp->phase_count; i++) {
        digest_words(digest, camp->phases[i].name.shown);
        digest_number(digest, camp->phases[i].first);
        digest_number(digest, camp->phases[i].last);
        digest_number(digest, camp->phases[i].open | camp->phases[i].after_bout << 1);
    }
}

/* Bests, days away and what is barred, as a year shows them. */
static void add_year(struct digest *digest, const struct athlete *athlete)
{
    for (size_t i = 0; i < athlete->best_count; i++)
        if (!athlete->bests[i].private) {
            digest_words(digest, athlete->bests[i].exercise->name.shown);
            digest_number(digest, athlete->bests[i].reps);
            digest_number(digest, athlete->bests[i].load);
            digest_number(digest, athlete->bests[i].date);
        }
    for (size_t i = 0; i < athlete->out_count; i++) {
        digest_number(digest, athlete->outs[i].first);
        digest_number(digest, athlete->outs[i].last);
    }
    for (size_t i = 0; i < athlete->avoid_count; i++)
        if (!athlete->avoids[i].private) {
            digest_words(digest, athlete->avoids[i].shown);
            digest_number(digest, athlete->avoids[i].since);
            digest_number(digest, athlete->avoids[i].ended);
            digest_number(digest, athlete->avoids[i].expected);
        }
}

/* The work of each week of the sheet's athlete; for a week, also what other camps add to it. */
static void add_weeks(struct digest *digest, const struct sheet_request *request)
{
    struct tally *week = arena_alloc(request->arena, sizeof *week);
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        struct tally *day = arena_alloc(request->arena, sizeof *day);
        tally_occasion(day, occasion);
        tally_add(week, day);
        bool ends = i + 1 == request->count ||
                    date_monday(request->occasions[i + 1]->date) != date_monday(occasion->date);
        digest_number(digest, day->sum[COUNTED_SESSION_LOAD].high);
        if (!ends)
            continue;
        add_tally(digest, week);
        *week = (struct tally){0};
    }
}

/* Why days of its week are as they are. */
static void add_reasons(struct digest *digest, const struct sheet_request *request)
{
    const struct occasion *first = request->occasions[0];
    int monday = date_monday(first->date);
    for (int day = monday; day < monday + 7; day++) {
        const struct closure *closure = gym_closed(occasion_gym(first), day);
        digest_words(digest, closure ? closure->because : NULL);
        for (size_t i = 0; i < first->camp->day_off_count; i++)
            if (first->camp->days_off[i].day == day)
                digest_words(digest, first->camp->days_off[i].because);
    }
}

/* The pages for parents and for the corner tell neither doses nor sums. */
static bool is_handout(const struct sheet *sheet)
{
    return sheet->young || sheet->of_bout;
}

static void add_handout(struct digest *digest, const struct sheet_request *request)
{
    const struct camp *camp = NULL;
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        const struct gym *gym = occasion_gym(occasion);
        if (occasion->camp != camp)
            version_camp(digest, camp = occasion->camp);
        digest_words(digest, occasion->athlete->name.shown);
        digest_words(digest, gym ? gym->name.shown : NULL);
        const struct activity *activity = occasion->activity;
        if (activity)
            digest_number(digest, activity->head | activity->contact << 1 | activity->outside << 2);
        digest_outline(digest, occasion);
    }
}

static void add_stretch(struct digest *digest, const struct sheet *sheet, const struct sheet_request *request)
{
    const struct camp *camp = NULL;
    const struct athlete *athlete = NULL;
    bool of_days = sheet->scope == SCOPE_WEEK_EACH || sheet->scope == SCOPE_CAMP_EACH;
    int gone = of_days ? adherence_last(request->programme, request->occasions[0]->athlete) : 0;
    bool abroad = sheet->scope == SCOPE_WEEK_EACH && clocks_change(request->occasions, request->count);
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        if (occasion->camp != camp)
            version_camp(digest, camp = occasion->camp);
        if (occasion->athlete != athlete && request->season)
            add_year(digest, occasion->athlete);
        athlete = occasion->athlete;
        digest_words(digest, athlete->name.shown);
        digest_number(digest, athlete->pounds);
        digest_number(digest, occasion->week);
        digest_occasion(digest, occasion, DIGEST_OUTCOME);
        digest_number(digest, occasion->date <= gone);
        if (occasion->date <= gone)
            digest_log(digest, occasion->log);
        if (abroad)
            digest_zone(digest, occasion->zone);
    }
    add_weeks(digest, request);
    if (sheet->scope == SCOPE_WEEK_EACH)
        add_reasons(digest, request);
    for (size_t i = 0; i < request->bound_count; i++)
        if (sheet->scope != SCOPE_WEEK_EACH || request->bounds[i].week == request->occasions[0]->week)
            add_bound(digest, &request->bounds[i]);
}

const char *sheet_version(struct sheet_versions *versions, const struct sheet *sheet, const struct occasion_group *group)
{
    struct digest digest = {.memo = versions->exercises};
    struct sheet_request request = sheet_request_for(versions->origin, sheet, group);
    digest_words(&digest, sheet->name);
    digest_words(&digest, request.plan);
    digest_words(&digest, request.author);
    digest_words(&digest, request.date_words);
    digest_words(&digest, request.language ? request.language->code : NULL);
    if (sheet_is_for_each(sheet)) {
        request.arena = arena_beside(versions->origin->arena);
        if (sheet->reports)
            version_report(&digest, &request);
        else if (is_handout(sheet))
            add_handout(&digest, &request);
        else
            add_stretch(&digest, sheet, &request);
        arena_free(request.arena);
    } else {
        add_session(&digest, versions, sheet, &request);
    }
    return arena_printf(versions->origin->arena, "%08x", (unsigned)(digest.hash >> 32 ^ (digest.hash & UINT32_MAX)));
}

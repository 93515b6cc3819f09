#include "layout/rota.h"

#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "measure/hold.h"
#include "measure/person.h"
#include "model/programme.h"
#include "wording/wording.h"

/* --- which rooms --- */

/* The first occasion of PROGRAMME on DAY or later. */
static size_t first_on(const struct programme *programme, int day)
{
    size_t low = 0, high = programme->occasion_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (programme->occasions[middle].date < day)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* All whose session it is, whether the sheet shows them or not, sorted as the programme's. */
static size_t all_of_session(const struct sheet_request *request, struct occasion **all)
{
    const struct occasion *first = request->occasions[0];
    const struct programme *programme = request->programme;
    size_t count = 0;
    for (int fill = 0; fill < 2; fill++) {
        if (fill)
            *all = arena_alloc(request->arena, (count + 1) * sizeof **all);
        count = 0;
        for (size_t i = first_on(programme, first->date);
             i < programme->occasion_count && programme->occasions[i].date == first->date; i++) {
            const struct occasion *one = &programme->occasions[i];
            if (one->session != first->session || one->camp != first->camp || one->date != first->date ||
                one->clock != first->clock)
                continue;
            if (fill)
                (*all)[count] = *one;
            count++;
        }
    }
    return count;
}

static const bool *seen_of(const struct sheet_request *request, const struct squad *squad)
{
    bool *seen = arena_alloc(request->arena, squad->count * sizeof *seen);
    for (size_t i = 0; i < squad->count; i++) {
        const struct occasion *member = squad->members[i];
        for (size_t k = 0; k < request->count; k++)
            seen[i] = seen[i] || request->occasions[k]->athlete == member->athlete;
        seen[i] = seen[i] && (request->coach || !athlete_held(member->athlete, member->date, request->programme->today));
    }
    return seen;
}

static const bool *named_of(const struct sheet_request *request, const struct squad *squad)
{
    bool *named = arena_alloc(request->arena, squad->count * sizeof *named);
    for (size_t i = 0; i < squad->count; i++)
        named[i] = !athlete_held(squad->members[i]->athlete, squad->members[i]->date, request->programme->today);
    return named;
}

/* TABLE with its rows' items those of SQUAD: where it was worked out for another sheet, that one's are gone. */
static const struct room_table *bound_to(struct arena *arena, const struct room_table *table, const struct squad *squad)
{
    struct room_table *own = arena_alloc(arena, sizeof *own);
    struct room_row *rows = arena_alloc(arena, (table->row_count + 1) * sizeof *rows);
    *own = *table;
    own->rows = rows;
    for (size_t i = 0; i < table->row_count; i++) {
        rows[i] = table->rows[i];
        rows[i].what = &squad->room.athletes[rows[i].athlete].parts[rows[i].block].sets[rows[i].set].items[rows[i].item];
    }
    return own;
}

size_t rotas_of(const struct sheet_request *request, struct rota **all)
{
    struct occasion *occasions = NULL;
    struct squad_meeting *meetings = NULL;
    *all = NULL;
    if (!request->programme || !request->count || !request->occasions[0]->session)
        return 0;
    size_t count = all_of_session(request, &occasions), kept = 0;
    count = squad_meetings(request->arena, occasions, count, &meetings);
    *all = arena_alloc(request->arena, (count + 1) * sizeof **all);
    for (size_t i = 0; i < count; i++) {
        const struct squad *squad =
            squad_of(request->arena, (const struct occasion *const *)meetings[i].members, meetings[i].count);
        const struct room_table *table = squad_solve(request->memo, squad);
        if (table && !table->refused)
            (*all)[kept++] = (struct rota){squad, bound_to(request->arena, table, squad), seen_of(request, squad), named_of(request, squad)};
    }
    return kept;
}

static bool is_of(const struct rota *of, const struct room_row *row, const struct block *block)
{
    const struct block *own = squad_task(of->squad, row)->block;
    return own->span.file == block->span.file && own->span.start == block->span.start;
}

const struct room_row *rota_first(const struct rota *of, int athlete, const struct block *block, int index)
{
    for (size_t i = 0; i < of->table->row_count; i++) {
        const struct room_row *row = &of->table->rows[i];
        const struct squad_task *task = squad_task(of->squad, row);
        if (row->athlete == athlete && is_of(of, row, block) && (!task->item || (task->item->index == index && !task->reps)))
            return row;
    }
    return NULL;
}

int rota_member(const struct rota *of, const struct occasion *occasion)
{
    for (size_t i = 0; i < of->squad->count; i++)
        if (of->squad->members[i]->athlete == occasion->athlete)
            return (int)i;
    return ROOM_NONE;
}

/* --- in words --- */

const char *rota_hour(struct arena *arena, const struct rota *of, int seconds)
{
    int at = of->squad->members[0]->clock + seconds;
    return arena_printf(arena, "%d:%02d:%02d", at / 3600 % 24, at / 60 % 60, at % 60);
}

const char *rota_minute(struct arena *arena, const struct rota *of, int seconds)
{
    int at = of->squad->members[0]->clock + seconds;
    return said_hour(arena, at);
}

const char *rota_line(struct arena *arena, const struct rota *of, const struct room_row *row)
{
    const struct squad_task *task = squad_task(of->squad, row);
    const struct room_part *part = &of->squad->room.athletes[row->athlete].parts[row->block];
    const char *line = said_as(arena, "block", squad_line(arena, task));
    int number = 0;
    if (!task->item)
        return line;
    if (task->reps)
        return arena_printf(arena, said(arena, "%s warm\u00a0up"), line);
    for (int i = 0; i <= row->set; i++)
        number += !part->sets[i].ramp && part->sets[i].line == part->sets[row->set].line;
    return arena_printf(arena, "%s" WORDING_GAP WORDING_DOT WORDING_GAP "%d", line, number);
}

const char *rota_load(struct arena *arena, const struct rota *of, const struct room_row *row)
{
    const struct squad_task *task = squad_task(of->squad, row);
    return task->load ? wording_load_mass(arena, task->load, false) : "";
}

const struct room_unit *rota_unit(const struct room_row *row, int kind, int number)
{
    for (size_t i = 0; i < row->unit_count; i++)
        if (row->units[i].kind == kind && row->units[i].number == number)
            return &row->units[i];
    return NULL;
}

bool rota_is_coach(const struct rota *of, int kind)
{
    return strcmp(of->squad->room.kinds[kind].name, "coach") == 0;
}

const char *rota_unit_name(struct arena *arena, const struct rota *of, int kind, int number)
{
    const struct room_kind *what = &of->squad->room.kinds[kind];
    return what->count > 1 ? arena_printf(arena, "%s" WORDING_GAP "%d", room_kit_called(arena, what->name), number) : room_kit_called(arena, what->name);
}

/* "10 kg" of "10 kg disc". */
static const char *disc_mass(struct arena *arena, const char *name)
{
    size_t figures = strspn(name, "0123456789.");
    bool pounds = strncmp(name + figures, " lb", 3) == 0;
    return arena_printf(arena, "%s %s", said_figures(arena, arena_copy(arena, name, figures)),
                        wording_mass_unit(arena, pounds ? MASS_IN_LB : MASS_IN_KG));
}

/* "10 kg" for a disc, "20 kg barbell" for a bar. */
static void add_stock(struct text *out, const struct room *room, int stock)
{
    const char *name = room->stock[stock].name, *disc = strstr(name, " disc");
    bool is_disc = disc && !disc[strlen(" disc")];
    text_add(out, is_disc ? disc_mass(out->arena, name) : room_kit_called(out->arena, name));
}

static void add_stack(struct text *out, const char *lead, const struct room *room, const struct room_item *item, size_t from)
{
    for (size_t i = from; item && i < item->stack_count; i++) {
        text_add(out, i > from ? ", " : lead);
        add_stock(out, room, item->stack[i]);
    }
}

const char *rota_discs(struct arena *arena, const struct rota *of, const struct room_row *before,
                            const struct room_row *row)
{
    const struct room *room = &of->squad->room;
    const struct room_item *was = before ? before->what : NULL, *is = row->what;
    struct text out = {.arena = arena};
    size_t same = 0;
    while (was && same < was->stack_count && same < is->stack_count && was->stack[same] == is->stack[same])
        same++;
    add_stack(&out, said(arena, "off "), room, was, same);
    add_stack(&out, !was ? "" : out.length ? said(arena, "; on ") : said(arena, "on "), room, is, same);
    return text_keep(arena, &out);
}

/* --- kit --- */

static int most_bearing(const struct rota *of, int stock, int at)
{
    const struct room_table *table = of->table;
    int sum = 0;
    for (size_t i = 0; i < table->row_count; i++) {
        const struct room_row *row = &table->rows[i];
        if (row->start > at || row->end <= at)
            continue;
        bool one_sleeve = false;
        for (size_t u = 0; u < row->unit_count; u++)
            one_sleeve = one_sleeve || of->squad->room.kinds[row->units[u].kind].one_sleeve;
        for (size_t k = 0; k < row->what->stack_count; k++)
            if (row->what->stack[k] == stock)
                sum += k == 0 || one_sleeve ? 1 : 2; /* the bar comes first, then the discs of one side */
    }
    return sum;
}

static void add_kit(struct text *out, int count, const char *name)
{
    if (count > 0)
        text_addf(out, "%s%d" WORDING_GAP WORDING_TIMES WORDING_GAP "%s", out->length ? ", " : "", count, room_kit_called(out->arena, name));
}

/* Is a bar that is a station of its own one of the kinds already? */
static bool is_kind(const struct room *room, const char *name)
{
    for (size_t k = 0; k < room->kind_count; k++)
        if (strcmp(room->kinds[k].name, name) == 0)
            return true;
    return false;
}

const char *rota_kit(struct arena *arena, const struct rota *of)
{
    const struct room *room = &of->squad->room;
    const struct room_table *table = of->table;
    struct text out = {.arena = arena};
    for (size_t k = 0; k < room->kind_count; k++) {
        int count = 0;
        for (size_t i = 0; i < table->busy_count; i++)
            count += table->busy[i].kind == (int)k;
        if (!rota_is_coach(of, (int)k))
            add_kit(&out, count, room->kinds[k].name);
    }
    for (size_t s = 0; s < room->stock_count; s++) {
        int most = 0;
        if (is_kind(room, room->stock[s].name))
            continue;
        for (size_t i = 0; i < table->row_count; i++) {
            int now = most_bearing(of, (int)s, table->rows[i].start);
            most = now > most ? now : most;
        }
        add_kit(&out, most, room->stock[s].name);
    }
    return text_keep(arena, &out);
}

/* --- hours of blocks and turns --- */

/* From the first start to the last end of BLOCK, of ATHLETE or all. False where nobody does it. */
static bool span_of(const struct rota *of, int athlete, const struct block *block, int *start, int *end)
{
    bool any = false;
    for (size_t i = 0; i < of->table->row_count; i++) {
        const struct room_row *row = &of->table->rows[i];
        if (!is_of(of, row, block) || (athlete != ROOM_NONE && row->athlete != athlete))
            continue;
        *start = any && *start < row->start ? *start : row->start;
        *end = any && *end > row->end ? *end : row->end;
        any = true;
    }
    return any;
}

const char *rota_block_hour(struct arena *arena, const struct rota *of, int athlete, const struct block *block)
{
    int start, end;
    return span_of(of, athlete, block, &start, &end) ? rota_minute(arena, of, start) : "";
}

const char *rota_block_hours(struct arena *arena, const struct rota *of, const struct block *block)
{
    int start, end;
    if (!span_of(of, ROOM_NONE, block, &start, &end))
        return "";
    return arena_printf(arena, "%s" WORDING_TO "%s", rota_minute(arena, of, start), rota_minute(arena, of, end + 59));
}

const struct occasion *rota_spread(struct arena *arena, const struct rota *rooms, size_t count, const struct occasion *occasion)
{
    if (count != 1 || rooms->squad->room.order != ROOM_AS_WRITTEN)
        return occasion;
    struct occasion *spread = arena_alloc(arena, sizeof *spread);
    struct block *blocks = arena_alloc(arena, (occasion->block_count + 1) * sizeof *blocks);
    *spread = *occasion;
    spread->blocks = blocks;
    spread->seconds = rooms->table->finish;
    for (size_t b = 0; b < occasion->block_count; b++) {
        int start = 0, end = 0;
        blocks[b] = occasion->blocks[b];
        if (!span_of(rooms, ROOM_NONE, &blocks[b], &start, &end))
            return occasion;
        blocks[b].starts = start;
        blocks[b].seconds = end - start;
    }
    return spread;
}

/* Who had the piece of UNIT before ROW and is another; ROOM_NONE if nobody had. *SHARED: somebody else ever has it. */
static int had_before(const struct rota *of, const struct room_row *row, const struct room_unit *unit, bool *shared)
{
    int before = ROOM_NONE;
    for (size_t i = 0; i < of->table->row_count; i++) {
        const struct room_row *other = &of->table->rows[i];
        if (!rota_unit(other, unit->kind, unit->number))
            continue;
        *shared = *shared || other->athlete != row->athlete;
        if (other->start < row->start)
            before = other->athlete;
    }
    return before == row->athlete ? ROOM_NONE : before;
}

static bool add_turn(struct text *out, const struct rota *of, const struct room_row *row, const char **last)
{
    bool shared = false;
    text_addf(out, "%s%s", out->length ? ", " : "", rota_hour(out->arena, of, row->start));
    for (size_t u = 0; u < row->unit_count; u++) {
        const struct room_unit *unit = &row->units[u];
        bool others = false;
        int before = had_before(of, row, unit, &others);
        if (!others || rota_is_coach(of, unit->kind))
            continue;
        const char *name = rota_unit_name(out->arena, of, unit->kind, unit->number);
        if (!*last || strcmp(*last, name) != 0)
            text_addf(out, " %s", name);
        *last = name;
        if (before != ROOM_NONE && of->named[before])
            text_addf(out, said(out->arena, " after\u00a0%s"), of->squad->room.athletes[before].name);
        shared = true;
        break;
    }
    return shared;
}

const char *rota_turns(struct arena *arena, const struct rota *of, int athlete, const struct block *block, int index)
{
    struct text out = {.arena = arena};
    const char *last = NULL;
    bool shared = false;
    for (size_t i = 0; i < of->table->row_count; i++) {
        const struct room_row *row = &of->table->rows[i];
        const struct squad_task *task = squad_task(of->squad, row);
        if (row->athlete == athlete && is_of(of, row, block) && task->item && task->item->index == index && !task->reps)
            shared |= add_turn(&out, of, row, &last);
    }
    const char *words = text_keep(arena, &out);
    return shared ? words : "";
}

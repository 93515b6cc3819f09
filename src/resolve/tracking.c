#include "resolve/tracking.h"
#include "model/programme.h"

#include <glib.h>
#include <string.h>

/* --- places --- */

/* What can be marked: one of the two. */
struct markable {
    int64_t place;
    struct figures *figures;
    struct variant *variant;
};

static int64_t place_of(struct span span, bool series)
{
    return ((int64_t)span.file << 40 | (int64_t)span.start << 8) * 2 + series;
}

static void drop_table(void *table)
{
    g_hash_table_destroy(table);
}

struct tracking *tracking_new(struct resolver *r, struct partial *partial)
{
    struct tracking *tracking = arena_alloc(r->arena, sizeof *tracking);
    tracking->partial = partial;
    tracking->places = g_hash_table_new(g_int64_hash, g_int64_equal);
    arena_at_end(r->arena, drop_table, tracking->places);
    return tracking;
}

void track_open(struct resolver *r)
{
    struct tracking *tracking = r->tracking;
    size_t athletes = r->programme->athlete_count;
    tracking->placed = arena_alloc(r->arena, (athletes + 1) * sizeof *tracking->placed);
    tracking->partial->reached = arena_alloc(r->arena, athletes + 1);
    tracking->partial->wanted = arena_alloc(r->arena, athletes + 1);
    struct settled *settled = arena_alloc(r->arena, (athletes + 1) * sizeof *settled);
    for (size_t a = 0; a < athletes; a++)
        settled[a].parts = arena_alloc(r->arena, tracking->partial->part_count + 1);
    tracking->partial->settled = settled;
    r->placed_capacity = tracking->partial->placed_before;
    if (r->placed_capacity)
        r->placed = arena_alloc(r->arena, r->placed_capacity * sizeof *r->placed);
}

/* Two that stand at one place cannot be told apart by it. */
static void add_place(struct resolver *r, struct span span, struct figures *figures, struct variant *variant)
{
    struct markable *one = arena_alloc(r->arena, sizeof *one);
    *one = (struct markable){place_of(span, figures != NULL), figures, variant};
    if (!g_hash_table_replace(r->tracking->places, &one->place, one))
        r->tracking->partial->loose = true;
}

void track_series(struct resolver *r, struct figures *figures)
{
    if (r->tracking && figures->series && !figures->repeat_last)
        add_place(r, figures->span, figures, NULL);
}

void track_variant(struct resolver *r, struct variant *variant)
{
    if (r->tracking)
        add_place(r, variant->span, NULL, variant);
}

/* --- marks --- */

static struct settled *of_athlete(const struct tracking *tracking, const struct athlete *athlete)
{
    return &tracking->partial->settled[athlete->number];
}

static size_t add_mark(struct resolver *r, struct settled *settled, struct use_mark mark)
{
    settled->marks = arena_grow(r->arena, settled->marks, settled->mark_count, &settled->mark_capacity,
                                sizeof *settled->marks);
    settled->marks[settled->mark_count] = mark;
    return settled->mark_count++;
}

void track_used(struct resolver *r, struct figures *figures, int columns)
{
    struct tracking *tracking = r->tracking;
    if (!tracking || !tracking->athlete || figures->repeat_last)
        return;
    tracking->touched = arena_grow(r->arena, tracking->touched, tracking->touched_count, &tracking->touched_capacity,
                                   sizeof *tracking->touched);
    tracking->touched[tracking->touched_count++] = (struct touch){figures, columns};
    struct settled *settled = of_athlete(tracking, tracking->athlete);
    if (figures->marked_by != tracking->athlete) {
        figures->marked_by = tracking->athlete;
        figures->mark = add_mark(r, settled, (struct use_mark){figures->span, columns});
    } else if (settled->marks[figures->mark].used < columns) {
        settled->marks[figures->mark].used = columns;
    }
}

void track_met(struct resolver *r, struct variant *variant)
{
    struct tracking *tracking = r->tracking;
    if (!tracking || !tracking->athlete || variant->met_by == tracking->athlete)
        return;
    variant->met_by = tracking->athlete;
    add_mark(r, of_athlete(tracking, tracking->athlete), (struct use_mark){variant->span, 0});
}

static void leave_mark(struct resolver *r, const struct use_mark *mark)
{
    struct span span = mark->span;
    span_move(&r->tracking->partial->shift, &span);
    int64_t place = place_of(span, mark->used > 0);
    const struct markable *one = g_hash_table_lookup(r->tracking->places, &place);
    if (!one)
        r->tracking->partial->failed = true;
    else if (one->variant)
        one->variant->met = true;
    else if (one->figures->used < mark->used)
        one->figures->used = mark->used;
}

void track_others(struct resolver *r)
{
    if (!r->tracking)
        return;
    const struct partial *partial = r->tracking->partial;
    for (size_t a = 0; a < r->programme->athlete_count; a++)
        for (size_t i = 0; !partial->wanted[a] && i < partial->before[a]->mark_count; i++)
            leave_mark(r, &partial->before[a]->marks[i]);
}

/* --- what they rest on --- */

void track_part(struct resolver *r, const struct athlete *athlete, struct span span)
{
    if (!r->tracking)
        return;
    const struct file_parts *parts = &r->tracking->partial->parts[span.file];
    of_athlete(r->tracking, athlete)->parts[parts->first + part_at(parts->starts, parts->count, span.start)] = true;
}

static void track_session(struct resolver *r, const struct athlete *athlete, const struct template *template)
{
    for (; template; template = template->base)
        track_part(r, athlete, template->session->name.span);
}

static void track_placed(struct resolver *r)
{
    for (size_t i = 0; i < r->placed_count; i++) {
        const struct occasion *occasion = &r->placed[i].occasion;
        if (i && r->placed[i - 1].occasion.athlete == occasion->athlete &&
            r->placed[i - 1].occasion.session == occasion->session)
            continue;
        if (occasion->session)
            track_session(r, occasion->athlete, occasion->session->template);
    }
    for (size_t i = 0; i < r->programme->camp_count; i++) {
        const struct camp *camp = r->programme->camps[i];
        for (size_t k = 0; k < camp->athlete_count; k++)
            track_part(r, camp->athletes[k], camp->name.span);
    }
    for (size_t i = 0; i < r->done_count; i++)
        if (r->done[i].session)
            track_session(r, r->done[i].athlete, r->done[i].session->template);
}

/* Does ATHLETE rest on a part that has changed, or did? One who is held leaves more to others than is kept. */
static bool is_reached(const struct resolver *r, const struct athlete *athlete)
{
    const struct partial *partial = r->tracking->partial;
    const struct settled *kept = partial->before[athlete->number];
    if (!kept || athlete->hold_count > 0)
        return true;
    bool reached = false;
    const bool *now = partial->settled[athlete->number].parts, *before = kept->parts;
    for (size_t i = 0; i < partial->part_count && !reached; i++)
        reached = partial->changed[i] && (now[i] || before[i]);
    return reached;
}

/* Who shares a camp may share a room, where each waits for the others: all of them are wanted where one is. */
static void want_squads(struct resolver *r, bool *wanted)
{
    for (bool more = true; more;) {
        more = false;
        for (size_t i = 0; i < r->programme->camp_count; i++) {
            const struct camp *camp = r->programme->camps[i];
            bool any = false, all = true;
            for (size_t k = 0; k < camp->athlete_count; k++) {
                any = any || wanted[camp->athletes[k]->number];
                all = all && wanted[camp->athletes[k]->number];
            }
            for (size_t k = 0; any && !all && k < camp->athlete_count; k++)
                wanted[camp->athletes[k]->number] = more = true;
        }
    }
}

void track_choose(struct resolver *r, int first_day)
{
    if (!r->tracking)
        return;
    struct partial *partial = r->tracking->partial;
    track_placed(r);
    partial->placed = r->placed_count;
    partial->first_day = first_day;
    /* A record reaches whoever was in it, and their camps with them. */
    bool all = !partial->changed || first_day != partial->first_day_before || r->closed || r->held_count;
    for (size_t a = 0; a < r->programme->athlete_count; a++)
        partial->reached[a] = all || is_reached(r, r->programme->athletes[a]);
    want_squads(r, partial->reached);
    memcpy(partial->wanted, partial->reached, r->programme->athlete_count * sizeof *partial->wanted);
}

bool track_wants(const struct resolver *r, const struct athlete *athlete)
{
    return !r->tracking || r->tracking->partial->wanted[athlete->number];
}

/* --- findings --- */

static void add_finding(struct resolver *r, const struct athlete *athlete, int placed, struct finding *finding)
{
    struct settled *settled = of_athlete(r->tracking, athlete);
    settled->findings = arena_grow(r->arena, settled->findings, settled->finding_count, &settled->finding_capacity,
                                   sizeof *settled->findings);
    settled->findings[settled->finding_count++] = (struct settled_finding){placed, finding};
}

/* Where a camp cannot be read, what seems not to be planned may be there, and nothing is said of it (resolve_log.c). */
static bool is_unsure(const struct resolver *r, const struct finding *finding)
{
    return finding->diagnostic == DIAG_LOG_WITHOUT_PLAN && resolver_is_poisoned(r, r->programme);
}

static void tell_again(struct resolver *r, const struct settled *settled, int placed)
{
    const struct shift *shift = &r->tracking->partial->shift;
    for (size_t i = 0; i < settled->finding_count; i++) {
        const struct finding *finding = settled->findings[i].finding;
        struct span span = finding->span;
        span_move(shift, &span);
        if (settled->findings[i].placed != placed)
            continue;
        if (is_unsure(r, finding))
            resolver_mark_unclear(r, span);
        else
            finding_move_copy(r->arena, shift, diag_add_copy(r->diag, finding));
    }
}

bool track_begin(struct resolver *r, const struct placed *placed)
{
    struct tracking *tracking = r->tracking;
    const struct athlete *athlete = placed->occasion.athlete;
    if (!tracking)
        return true;
    int number = tracking->placed[athlete->number]++;
    if (!track_wants(r, athlete)) {
        tell_again(r, tracking->partial->before[athlete->number], number);
        return false;
    }
    tracking->athlete = athlete;
    tracking->errors = r->diag->count;
    tracking->touched_count = 0;
    return true;
}

void track_end(struct resolver *r)
{
    struct tracking *tracking = r->tracking;
    if (!tracking)
        return;
    const struct athlete *athlete = tracking->athlete;
    for (size_t i = tracking->errors; i < r->diag->count; i++)
        add_finding(r, athlete, tracking->placed[athlete->number] - 1, r->diag->items[i]);
    tracking->athlete = NULL;
}

void track_log(struct resolver *r, const struct athlete *athlete, struct finding *finding)
{
    if (r->tracking && finding != &r->diag->spare)
        add_finding(r, athlete, -1, finding);
}

void track_logs_again(struct resolver *r)
{
    const struct partial *partial = r->tracking ? r->tracking->partial : NULL;
    for (size_t a = 0; partial && a < r->programme->athlete_count; a++)
        if (!partial->wanted[a])
            tell_again(r, partial->before[a], -1);
}

/* --- keeping --- */

struct settled *settled_keep(struct arena *arena, const struct settled *settled)
{
    struct settled *kept = arena_alloc(arena, sizeof *kept);
    kept->mark_count = settled->mark_count;
    kept->marks = arena_alloc(arena, (settled->mark_count + 1) * sizeof *kept->marks);
    if (settled->mark_count)
        memcpy(kept->marks, settled->marks, settled->mark_count * sizeof *kept->marks);
    kept->finding_count = settled->finding_count;
    kept->findings = arena_alloc(arena, (settled->finding_count + 1) * sizeof *kept->findings);
    for (size_t i = 0; i < settled->finding_count; i++)
        kept->findings[i] = (struct settled_finding){settled->findings[i].placed,
                                                     finding_keep(arena, settled->findings[i].finding)};
    return kept;
}

void settled_move(const struct shift *shift, struct settled *settled)
{
    for (size_t i = 0; i < settled->mark_count; i++)
        span_move(shift, &settled->marks[i].span);
    for (size_t i = 0; i < settled->finding_count; i++)
        finding_move(shift, settled->findings[i].finding);
}

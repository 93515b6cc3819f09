#include "compare/plan_parts.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "compare/digest.h"
#include "figures/dates.h"
#include "measure/clocks.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "squad/squad.h"
#include "wording/wording.h"

const char *part_kind_word(enum part_kind kind)
{
    static const char *const words[] = {[PART_GYM] = "gym", [PART_ATHLETE] = "athlete", [PART_EXERCISE] = "exercise",
                                        [PART_LIMIT] = "limit", [PART_CAMP] = "camp", [PART_WAIVER] = "waiver",
                                        [PART_ROOM] = "room", [PART_OCCASION] = "occasion"};
    return words[kind];
}

const char *part_day(struct arena *arena, int day)
{
    char text[DATE_TEXT_SIZE];
    return day ? arena_printf(arena, "%s", date_format(day, text)) : "";
}

void facts_add(struct arena *arena, struct facts *facts, const char *label, const char *aspect, const char *words)
{
    if (!words || !*words)
        return;
    facts->items = arena_grow(arena, facts->items, facts->count, &facts->capacity, sizeof *facts->items);
    facts->items[facts->count++] = (struct fact){label, aspect, words};
}

static uint64_t digest_of(const struct facts *facts)
{
    struct digest digest = {0};
    for (size_t i = 0; i < facts->count; i++) {
        digest_words(&digest, facts->items[i].label);
        digest_words(&digest, facts->items[i].aspect);
        digest_words(&digest, facts->items[i].words);
    }
    return digest.hash;
}

void parts_add(struct plan_parts *parts, struct part_of_plan part)
{
    parts->items = arena_grow(parts->arena, parts->items, parts->count, &parts->capacity, sizeof *parts->items);
    part.camp = part.camp ? part.camp : "";
    part.athlete = part.athlete ? part.athlete : "";
    if (part.kind != PART_OCCASION)
        part.digest = digest_of(&part.facts);
    parts->items[parts->count++] = part;
}

/* --- what is done on a day --- */

/* What both the line and its sets say, each kind of load once: "80 %, 85 %". */
static const char *of_runs(struct arena *arena, const struct item *item,
                           const char *(*words)(struct arena *arena, const struct item *item, const struct load *load))
{
    struct text out = {.arena = arena};
    const char *last = NULL;
    for (size_t i = 0; i < item->run_count; i++) {
        const char *one = words(arena, item, &item->runs[i].load);
        if (*one && (!last || strcmp(last, one) != 0))
            text_addf(&out, "%s%s", out.length ? ", " : "", one);
        last = one;
    }
    return text_keep(arena, &out);
}

static const char *share_words(struct arena *arena, const struct item *item, const struct load *load)
{
    (void)item;
    return wording_load_share(arena, load);
}

/* What is lifted or held, as the gym makes it. */
static const char *built_words(struct arena *arena, const struct item *item, const struct load *load)
{
    const char *built = wording_load_mass(arena, load, false);
    (void)item;
    if (*built)
        return built;
    return load->kind == LOAD_PERCENT ? "" : wording_load_words(arena, load, false);
}

static const char *effort_words(struct arena *arena, const struct item *item, const struct load *load)
{
    (void)item;
    return wording_effort(arena, load);
}

static const char *plate_words(struct arena *arena, const struct item *item, const struct load *load)
{
    const struct plating *plating = &load->plating;
    struct text out = {.arena = arena};
    (void)item;
    if (plating->bar)
        text_addf(&out, "%s:", wording_bar(arena, plating->bar));
    for (int i = 0; i < plating->disc_count; i++)
        text_addf(&out, "%s%s", out.length ? " " : "", wording_stamped(arena, plating->discs[i]));
    return text_keep(arena, &out);
}

static const char *tempo_words(struct arena *arena, const struct item *item)
{
    return item->run_count ? wording_tempo(arena, &item->runs[0].tempo) : "";
}

/* A.1 as it is printed. */
static const char *line_label(struct arena *arena, const char *block, const struct item *item, size_t number)
{
    if (!item->ref || !*item->ref)
        return arena_printf(arena, "%s %zu", block, number + 1);
    const char *dot = strchr(item->ref, '.');
    return dot ? arena_printf(arena, "%.*s%s", (int)(dot - item->ref), item->ref, dot + 1) : item->ref;
}

static void tell_item(struct arena *arena, struct facts *facts, const char *label, const struct block *block,
                      const struct item *item)
{
    const char *cue = item->cue ? item->cue : item->exercise->cue_count ? item->exercise->cues[0] : "";
    facts_add(arena, facts, label, "exercise", item->exercise->name.shown);
    facts_add(arena, facts, label, "sets", wording_dose(arena, block, item));
    facts_add(arena, facts, label, "share", of_runs(arena, item, share_words));
    facts_add(arena, facts, label, "load", of_runs(arena, item, built_words));
    facts_add(arena, facts, label, "plates", of_runs(arena, item, plate_words));
    facts_add(arena, facts, label, "effort", of_runs(arena, item, effort_words));
    facts_add(arena, facts, label, "tempo", tempo_words(arena, item));
    facts_add(arena, facts, label, "cue", cue);
    facts_add(arena, facts, label, "stop", item->stop);
}

static const char *block_label(struct arena *arena, const struct occasion *occasion, size_t index)
{
    const struct block *block = &occasion->blocks[index];
    size_t same = 1;
    for (size_t b = 0; b < index; b++)
        same += occasion->blocks[b].letter == block->letter;
    const char *name = block->letter ? arena_copy(arena, &block->letter, 1) : "rounds";
    return same > 1 ? arena_printf(arena, "%s (%zu)", name, same) : name;
}

static void tell_blocks(struct arena *arena, struct facts *facts, const struct occasion *occasion)
{
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        const char *label = block_label(arena, occasion, b);
        facts_add(arena, facts, label, "heading", wording_block(arena, block));
        for (size_t i = 0; i < block->item_count; i++)
            tell_item(arena, facts, line_label(arena, label, &block->items[i], i), block, &block->items[i]);
    }
}

static const char *outcome_words(struct arena *arena, const struct outcome *outcome)
{
    if (!outcome->logged)
        return "";
    const char *took = outcome->timed ? wording_time(arena, outcome->seconds) : "as planned";
    return outcome->rpe.high ? arena_printf(arena, "%s RPE %s", took, wording_range(arena, outcome->rpe)) : took;
}

/* Everything but its time. */
static const char *asked_words(struct arena *arena, const struct occasion *occasion)
{
    if (!occasion->session)
        return wording_occasion(arena, occasion);
    const char *rpe = occasion->rpe.high ? arena_printf(arena, "RPE %s", wording_range(arena, occasion->rpe)) : "";
    return arena_printf(arena, "%s%s%s", rpe, *rpe && occasion->optional ? ", " : "", wording_optional(arena, occasion));
}

void part_tell(struct arena *arena, struct part_of_plan *part)
{
    const struct occasion *occasion = part->occasion;
    const struct gym *gym = occasion ? occasion_gym(occasion) : NULL;
    struct facts *facts = &part->facts;
    if (!occasion || facts->count)
        return;
    facts_add(arena, facts, "", "time", occasion->seconds ? wording_clock(arena, occasion->seconds) : "");
    facts_add(arena, facts, "", "asks", asked_words(arena, occasion));
    facts_add(arena, facts, "", "gym", gym ? gym->name.shown : "");
    facts_add(arena, facts, "", "clocks", abroad_words(arena, occasion));
    facts_add(arena, facts, "", "purpose", occasion->session ? occasion->session->purpose : "");
    facts_add(arena, facts, "", "logged", outcome_words(arena, &occasion->outcome));
    facts_add(arena, facts, "", "record", occasion->held ? "closed" : "");
    tell_blocks(arena, facts, occasion);
}

/* --- all of them --- */

/* What is done, apart from when: the day and how far the bout is are not the line's. */
static uint64_t work_of(const struct occasion *occasion, struct digest_memo *memo)
{
    const struct gym *gym = occasion_gym(occasion);
    struct digest digest = {.memo = memo};
    digest_work(&digest, occasion, DIGEST_SHARES | DIGEST_OUTCOME);
    digest_words(&digest, gym ? gym->name.shown : NULL);
    digest_zone(&digest, zone_abroad(occasion));
    digest_number(&digest, occasion->held);
    return digest.hash;
}

static void add_occasions(struct plan_parts *parts)
{
    const struct programme *programme = parts->programme;
    struct digest_memo *memo = digest_memo_new(parts->arena);
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        const struct name *name = occasion->session ? &occasion->session->name : &occasion->activity->name;
        parts_add(parts, (struct part_of_plan){
            .kind = PART_OCCASION, .name = name->shown, .camp = occasion->camp->name.shown,
            .athlete = occasion->athlete->name.shown, .date = occasion->date, .clock = occasion->clock,
            .digest = work_of(occasion, memo), .occasion = occasion,
            .subject = occasion->session ? (const void *)occasion->session : occasion->activity});
    }
}

static void add_rooms(struct plan_parts *parts, struct squad_memo *memo)
{
    struct arena *arena = parts->arena;
    const struct programme *programme = parts->programme;
    struct squad_meeting *meetings = NULL;
    size_t count = squad_meetings(arena, programme->occasions, programme->occasion_count, &meetings);
    for (size_t i = 0; i < count; i++) {
        const struct occasion *first = meetings[i].members[0];
        const struct squad *squad = squad_of(arena, (const struct occasion *const *)meetings[i].members, meetings[i].count);
        const struct room_table *table = squad_solve(memo, squad);
        struct part_of_plan part = {.kind = PART_ROOM, .name = first->session->name.shown, .camp = first->camp->name.shown,
                                    .date = first->date, .clock = first->clock, .subject = first->session};
        bool solved = table && !table->refused;
        facts_add(arena, &part.facts, "", "gym", squad->gym->name.shown);
        facts_add(arena, &part.facts, "", "finish", solved ? wording_clock(arena, (first->clock + table->finish + 59) / 60) : "");
        facts_add(arena, &part.facts, "", "waiting", solved && table->wait ? wording_clock(arena, table->wait) : "");
        facts_add(arena, &part.facts, "", "refused", table ? table->refused : "");
        parts_add(parts, part);
    }
}

static int compare(const void *one, const void *other)
{
    const struct part_of_plan *a = one, *b = other;
    int order = (int)a->kind - (int)b->kind;
    order = order ? order : strcmp(a->athlete, b->athlete);
    order = order ? order : strcmp(a->camp, b->camp);
    order = order ? order : a->date - b->date;
    order = order ? order : a->clock - b->clock;
    order = order ? order : strcmp(a->name, b->name);
    return order ? order : a->nth - b->nth;
}

void parts_sort(struct plan_parts *parts)
{
    if (!parts->count)
        return;
    for (size_t i = 0; i < parts->count; i++)
        parts->items[i].nth = (int)i; /* for equal ones, the order in which they came decides */
    qsort(parts->items, parts->count, sizeof *parts->items, compare);
    int nth = 0;
    for (size_t i = 0; i < parts->count; i++) {
        struct part_of_plan *part = &parts->items[i], *before = i ? &parts->items[i - 1] : NULL;
        bool alike = before && part->kind == before->kind && part->date == before->date && part->clock == before->clock &&
                     strcmp(part->name, before->name) == 0 && strcmp(part->camp, before->camp) == 0 &&
                     strcmp(part->athlete, before->athlete) == 0;
        part->nth = nth = alike ? nth + 1 : 0;
    }
}

void parts_of(struct arena *arena, const struct programme *programme, struct squad_memo *memo, struct plan_parts *parts)
{
    *parts = (struct plan_parts){.arena = arena, .programme = programme, .incomplete = programme->incomplete};
    parts_declare(parts);
    add_rooms(parts, memo);
    add_occasions(parts);
    parts_sort(parts);
}

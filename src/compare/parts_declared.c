/* parts_declared.c - what a plan declares: gyms, athletes, its own exercises, limits, camps, waivers. */
#include <string.h>

#include "base/text.h"
#include "compare/digest.h"
#include "compare/plan_parts.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "language/language.h"
#include "measure/counts.h"
#include "model/programme.h"
#include "wording/wording.h"

/* Adds WORDS after what is there, with a comma. */
static void add_word(struct text *out, const char *words)
{
    text_addf(out, "%s%s", out->length ? ", " : "", words);
}

static const char *days_words(struct arena *arena, int first, int last)
{
    if (first == last)
        return part_day(arena, first);
    return arena_printf(arena, "%s to %s", first ? part_day(arena, first) : "ever", last == DATE_LAST || !last ? "further notice" : part_day(arena, last));
}

/* --- gyms --- */

static const char *disc_words(struct arena *arena, const struct disc *discs, size_t count)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < count; i++)
        add_word(&out, arena_printf(arena, "%d x %s", discs[i].count, wording_stamped(arena, discs[i].mass)));
    return text_keep(arena, &out);
}

static const char *kit_words(struct arena *arena, const struct kit *kit, size_t count)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < count; i++)
        add_word(&out, arena_printf(arena, "%d x %s%s%s", kit[i].count, kit[i].name.shown, kit[i].mass ? " " : "",
                                    kit[i].mass ? wording_stamped(arena, kit[i].mass) : ""));
    return text_keep(arena, &out);
}

static const char *ramp_words(struct arena *arena, const struct gym *gym)
{
    struct text out = {.arena = arena};
    for (int i = 0; i < gym->ramp_count; i++)
        add_word(&out, arena_printf(arena, "%s %% x %d", wording_number(arena, gym->ramp[i].percent), gym->ramp[i].reps));
    return text_keep(arena, &out);
}

static const char *closed_words(struct arena *arena, const struct gym *gym)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < gym->closure_count; i++)
        add_word(&out, days_words(arena, gym->closures[i].first, gym->closures[i].last));
    return text_keep(arena, &out);
}

static void tell_zones(struct arena *arena, struct facts *facts, const struct zone_days *days, size_t count)
{
    for (size_t i = 0; i < count; i++)
        facts_add(arena, facts, zone_name(days[i].zone), "time zone", days_words(arena, days[i].first, days[i].last));
}

static const char *language_words(struct arena *arena, const struct language *language)
{
    return language ? arena_printf(arena, "in %s", language->name) : "";
}

static void declare_gym(struct plan_parts *parts, const struct gym *gym)
{
    struct arena *arena = parts->arena;
    struct part_of_plan part = {.kind = PART_GYM, .name = gym->name.shown, .clock = -1, .subject = gym};
    struct facts *facts = &part.facts;
    facts_add(arena, facts, "", "unit", gym->unit == MASS_IN_LB ? "lb" : "kg");
    facts_add(arena, facts, "", "bars", kit_words(arena, gym->bars, gym->bar_count));
    facts_add(arena, facts, "", "plates", disc_words(arena, gym->discs, gym->disc_count));
    facts_add(arena, facts, "", "collars", gym->collar ? wording_stamped(arena, gym->collar) : "");
    facts_add(arena, facts, "", "dumbbells", disc_words(arena, gym->dumbbells, gym->dumbbell_count));
    facts_add(arena, facts, "", "kettlebells", disc_words(arena, gym->kettlebells, gym->kettlebell_count));
    facts_add(arena, facts, "", "balls", disc_words(arena, gym->balls, gym->ball_count));
    facts_add(arena, facts, "", "kit", kit_words(arena, gym->others, gym->other_count));
    facts_add(arena, facts, "", "warm-up", ramp_words(arena, gym));
    facts_add(arena, facts, "", "between athletes", wording_clock(arena, gym->between_athletes));
    facts_add(arena, facts, "", "plate change", wording_clock(arena, gym->plate_change));
    facts_add(arena, facts, "", "closed", closed_words(arena, gym));
    facts_add(arena, facts, "", "time zone", gym->zone ? zone_name(gym->zone) : "");
    facts_add(arena, facts, "", "sheets", language_words(arena, gym->language));
    parts_add(parts, part);
}

/* --- athletes --- */

static void declare_bests(struct arena *arena, struct facts *facts, const struct athlete *athlete)
{
    for (size_t i = 0; i < athlete->best_count; i++) {
        const struct best *best = &athlete->bests[i];
        if (best->private)
            continue;
        facts_add(arena, facts, best->exercise->name.shown, arena_printf(arena, "best of %s", part_day(arena, best->date)),
                  arena_printf(arena, "%s x %s", wording_number(arena, best->reps),
                               wording_mass(arena, best->load, mass_written_in(best->load), false)));
    }
}

static void declare_athlete(struct plan_parts *parts, const struct athlete *athlete)
{
    static const char *const stances[] = {"", "orthodox", "southpaw"};
    struct arena *arena = parts->arena;
    struct part_of_plan part = {.kind = PART_ATHLETE, .name = athlete->name.shown, .clock = -1, .subject = athlete};
    struct facts *facts = &part.facts;
    struct text out = {.arena = arena};
    facts_add(arena, facts, "", "called", athlete->called);
    facts_add(arena, facts, "", "stance", stances[athlete->stance]);
    facts_add(arena, facts, "", "lifting age", athlete->level_given ? levels.names[athlete->level] : "");
    facts_add(arena, facts, "", "lifting since", part_day(arena, athlete->lifting_since));
    facts_add(arena, facts, "", "age group", athlete->under_age ? arena_printf(arena, "under %d", athlete->under_age) : "");
    facts_add(arena, facts, "", "gym", athlete->gym ? athlete->gym->name.shown : "");
    facts_add(arena, facts, "", "sheets", language_words(arena, athlete->language));
    facts_add(arena, facts, "", "pounds", athlete->pounds ? "printed beside kilograms" : "");
    for (size_t i = 0; i < athlete->out_count; i++)
        add_word(&out, days_words(arena, athlete->outs[i].first, athlete->outs[i].last));
    facts_add(arena, facts, "", "nothing planned", text_keep(arena, &out));
    tell_zones(arena, facts, athlete->zone_days, athlete->zone_day_count);
    declare_bests(arena, facts, athlete);
    parts_add(parts, part);
}

/* --- exercises of the club's own --- */

static void declare_exercise(struct plan_parts *parts, const struct exercise *exercise)
{
    struct arena *arena = parts->arena;
    struct part_of_plan part = {.kind = PART_EXERCISE, .name = exercise->name.shown, .clock = -1, .subject = exercise};
    struct facts *facts = &part.facts;
    struct text needs = {.arena = arena}, work = {.arena = arena}, how = {.arena = arena};
    for (size_t i = 0; i < exercise->need_count; i++)
        add_word(&needs, exercise->needs[i].name.shown);
    for (size_t i = 0; i < REGION_COUNT; i++)
        if (exercise->loads[i])
            add_word(&work, arena_printf(arena, "%s %s", regions.names[i], wording_number(arena, exercise->loads[i])));
    for (size_t i = 0; i < exercise->cue_count; i++)
        add_word(&how, exercise->cues[i]);
    facts_add(arena, facts, "", "pattern", patterns.names[exercise->pattern]);
    facts_add(arena, facts, "", "needs", text_keep(arena, &needs));
    facts_add(arena, facts, "", "works", text_keep(arena, &work));
    facts_add(arena, facts, "", "cues", text_keep(arena, &how));
    for (size_t i = 0; i < exercise->fault_count; i++)
        facts_add(arena, facts, exercise->faults[i].fault, "fault", exercise->faults[i].fix ? exercise->faults[i].fix : "named");
    facts_add(arena, facts, "", "stop", exercise->stop);
    facts_add(arena, facts, "", "easier", exercise->easier ? exercise->easier->name.shown : "");
    facts_add(arena, facts, "", "harder", exercise->harder ? exercise->harder->name.shown : "");
    parts_add(parts, part);
}

/* --- limits --- */

static const char *whom_words(struct arena *arena, const struct limit *limit)
{
    static const char *const scopes[] = {[LIMIT_WEEK] = "a week", [LIMIT_SESSION] = "a session", [LIMIT_PHASE] = "a phase",
                                         [LIMIT_CAMP] = "a camp"};
    static const char *const stretches[] = {[STRETCH_ALL] = "", [STRETCH_FIRST] = "first", [STRETCH_BEFORE_BOUT] = "before a bout",
                                            [STRETCH_AFTER_BOUT] = "after a bout"};
    struct text out = {.arena = arena};
    text_add(&out, scopes[limit->scope]);
    if (limit->phase)
        text_addf(&out, ", in %s", limit->phase);
    if (limit->level >= 0)
        text_addf(&out, ", %s", levels.names[limit->level]);
    if (limit->under_age)
        text_addf(&out, ", under %d", limit->under_age);
    if (limit->stretch != STRETCH_ALL)
        text_addf(&out, ", %d days %s", limit->stretch_days, stretches[limit->stretch]);
    if (limit->first_weeks)
        text_addf(&out, ", first %d weeks of an exercise", limit->first_weeks);
    if (limit->athlete)
        text_addf(&out, ", %s", limit->athlete->name.shown);
    return text_keep(arena, &out);
}

static const char *bound_words(struct arena *arena, const struct limit *limit)
{
    static const char *const bounds[] = {[LIMIT_AT_MOST] = "at most", [LIMIT_AT_LEAST] = "at least", [LIMIT_WITHIN] = "within"};
    enum counted counted = limit->below_peak ? COUNTED_VOLUME : limit->against ? COUNTED_SETS : counted_find(limit->counted);
    struct text out = {.arena = arena};
    text_addf(&out, "%s %s", bounds[limit->bound], counted_amount_in(arena, counted, limit->value, limit->unit));
    if (limit->bound == LIMIT_WITHIN)
        text_addf(&out, " to %s", counted_amount_in(arena, counted, limit->top, limit->unit));
    if (limit->against)
        text_addf(&out, " to 1 of %s", limit->against);
    text_addf(&out, "%s%s, %s", limit->a_side ? " a side" : "", limit->below_peak ? " below the peak week" : "",
              forces.names[limit->force]);
    return text_keep(arena, &out);
}

static void declare_limits(struct plan_parts *parts, const struct limits *limits)
{
    struct arena *arena = parts->arena;
    for (size_t i = 0; i < limits->count; i++) {
        const struct limit *limit = &limits->items[i];
        struct part_of_plan part = {.kind = PART_LIMIT, .clock = -1, .camp = limits->name.shown, .subject = limits};
        part.name = arena_printf(arena, "%s %s", limit->counted, whom_words(arena, limit));
        facts_add(arena, &part.facts, "", "bound", bound_words(arena, limit));
        facts_add(arena, &part.facts, "", "source", limit->source);
        parts_add(parts, part);
    }
}

/* --- camps and waivers --- */

/* Facts of a BOUT; those of the second and later ones are under LABEL. */
static void tell_bout(struct arena *arena, struct facts *facts, const struct bout *bout, const char *label)
{
    struct text days = {.arena = arena};
    for (size_t i = 0; bout->day_count > 1 && i < bout->day_count; i++)
        add_word(&days, part_day(arena, bout->days[i]));
    facts_add(arena, facts, label, "bout", part_day(arena, bout->day));
    facts_add(arena, facts, label, "days of the tournament", text_keep(arena, &days));
    facts_add(arena, facts, label, "rules of the bout", bout->words);
    facts_add(arena, facts, label, "hour of the bout", bout->clock >= 0 ? wording_clock(arena, bout->clock / 60) : "");
    facts_add(arena, facts, label, "cancelled", part_day(arena, bout->cancelled));
    facts_add(arena, facts, label, "postponed on", part_day(arena, bout->moved_on));
    facts_add(arena, facts, label, "result", bout->result_known ? "entered" : "");
}

/* The phases of second and later bouts have the bout's number in their names. */
static const char *phase_label(struct arena *arena, const struct camp *camp, const struct phase *phase)
{
    for (size_t i = 1; i < camp->bout_count; i++)
        if (camp->bouts[i] == phase->bout)
            return arena_printf(arena, "%s, bout %zu", phase->name.shown, i + 1);
    return phase->name.shown;
}

/* MEMBER is NULL where nobody's days are said. */
static const char *member_words(struct arena *arena, const struct membership *member)
{
    if (!member || (!member->first && member->last == DATE_LAST))
        return "from first to last";
    return arena_printf(arena, "%s to %s", member->first ? part_day(arena, member->first) : "from the first day",
                        member->last < DATE_LAST ? part_day(arena, member->last) : "the last");
}

static void declare_camp(struct plan_parts *parts, const struct camp *camp)
{
    struct arena *arena = parts->arena;
    struct part_of_plan part = {.kind = PART_CAMP, .name = camp->name.shown, .clock = -1, .subject = camp};
    struct facts *facts = &part.facts;
    struct text limits = {.arena = arena};
    for (size_t i = 0; i < camp->bout_count; i++)
        tell_bout(arena, facts, camp->bouts[i], i ? arena_printf(arena, "bout %zu", i + 1) : "");
    facts_add(arena, facts, "", "sheets", language_words(arena, camp->language));
    facts_add(arena, facts, "", "first day", part_day(arena, camp->first));
    facts_add(arena, facts, "", "last day", part_day(arena, camp->last));
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        int days = phase->last - phase->first + 1;
        facts_add(arena, facts, phase_label(arena, camp, phase), "phase",
                  phase->open ? arena_printf(arena, "from %s", part_day(arena, phase->first))
                              : arena_printf(arena, "%d day%s, %s", days, days == 1 ? "" : "s",
                                             days_words(arena, phase->first, phase->last)));
    }
    for (size_t i = 0; i < camp->left_phase_count; i++)
        facts_add(arena, facts, camp->left_phases[i].shown, "phase", "left out");
    for (size_t i = 0; i < camp->athlete_count; i++)
        facts_add(arena, facts, camp->athletes[i]->name.shown, "takes part",
                  member_words(arena, camp->members ? &camp->members[i] : NULL));
    tell_zones(arena, facts, camp->zone_days, camp->zone_day_count);
    for (size_t i = 0; i < camp->stay_count; i++)
        facts_add(arena, facts, camp->stays[i].gym->name.shown, "stay",
                  days_words(arena, camp->stays[i].first, camp->stays[i].last));
    for (size_t i = 0; i < camp->limits_count; i++)
        add_word(&limits, camp->limits[i]->name.shown);
    facts_add(arena, facts, "", "limits", text_keep(arena, &limits));
    parts_add(parts, part);
}

/* A reason may be a health fact, so only its change is shown, not its words. */
static const char *reason_words(struct arena *arena, const char *because)
{
    struct digest digest = {0};
    digest_words(&digest, because);
    return because ? arena_printf(arena, "%08x", (unsigned)(digest.hash >> 32)) : "";
}

static void declare_waiver(struct plan_parts *parts, const struct waiver *waiver)
{
    struct arena *arena = parts->arena;
    struct part_of_plan part = {.kind = PART_WAIVER, .name = waiver->check, .date = waiver->first, .clock = -1,
                                .camp = waiver->camp ? waiver->camp->name.shown : NULL};
    facts_add(arena, &part.facts, "", "until", part_day(arena, waiver->last));
    facts_add(arena, &part.facts, "", "up to", waiver->capped ? wording_number(arena, waiver->cap) : "");
    facts_add(arena, &part.facts, "", "reason", reason_words(arena, waiver->because));
    parts_add(parts, part);
}

void parts_declare(struct plan_parts *parts)
{
    const struct programme *programme = parts->programme;
    for (size_t i = 0; i < programme->gym_count; i++)
        declare_gym(parts, programme->gyms[i]);
    for (size_t i = 0; i < programme->athlete_count; i++)
        declare_athlete(parts, programme->athletes[i]);
    for (size_t i = 0; i < programme->exercise_count; i++)
        if (!programme->exercises[i]->shelf && !programme->exercises[i]->lost)
            declare_exercise(parts, programme->exercises[i]);
    for (size_t i = 0; i < programme->limits_count; i++)
        declare_limits(parts, programme->limits[i]);
    for (size_t i = 0; i < programme->camp_count; i++)
        declare_camp(parts, programme->camps[i]);
    for (size_t i = 0; i < programme->waiver_count; i++)
        declare_waiver(parts, &programme->waivers[i]);
}

#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "limits/limits.h"
#include "model/programme.h"

/* What became of a limit for somebody, over all days of a camp. */
enum fate { FATE_NEVER, FATE_BEATEN, FATE_HOLDS };

static const enum limit_scope scopes[] = {LIMIT_WEEK, LIMIT_SESSION, LIMIT_PHASE, LIMIT_CAMP};
static const char *const scope_words[] = {[LIMIT_WEEK] = "every week",
                                          [LIMIT_SESSION] = "every session",
                                          [LIMIT_PHASE] = "every phase",
                                          [LIMIT_CAMP] = "every camp"};
enum { SCOPE_COUNT = sizeof scopes / sizeof scopes[0] };

struct view {
    struct arena *arena;
    const struct sources *sources;
    const struct limit_table *table;
    struct text *out;
};

/* --- what applies --- */

static const struct phase *phase_on(const struct camp *camp, int day)
{
    return camp_phase_between(camp, day, day);
}

/* The fate of each limit of the table for ATHLETE, day by day, because it depends on phases and ages. */
static enum fate *find_fates(const struct view *view, const struct athlete *athlete)
{
    const struct limit_table *table = view->table;
    const struct camp *camp = table->camp;
    enum fate *fates = arena_alloc(view->arena, (table->count + 1) * sizeof *fates);
    struct in_force *picked = arena_alloc(view->arena, (table->most + 1) * sizeof *picked);
    for (int day = camp->first; day <= camp->last; day++) {
        struct holder holder = {athlete, phase_on(camp, day), day, day};
        for (size_t i = 0; i < table->count; i++)
            if (fates[i] == FATE_NEVER && limit_holds(table, &table->items[i], &holder))
                fates[i] = FATE_BEATEN;
        for (size_t s = 0; s < SCOPE_COUNT; s++) {
            size_t count = limit_table_pick(table, scopes[s], &holder, picked);
            for (size_t i = 0; i < count; i++)
                fates[picked[i].layered - table->items] = FATE_HOLDS;
        }
    }
    return fates;
}

/* --- in words --- */

static const char *bound_words(const struct view *view, const struct layered *item)
{
    const struct limit *limit = item->limit;
    enum counted counted = limit->below_peak               ? COUNTED_VOLUME
                           : item->against != COUNTED_NONE ? COUNTED_SETS
                                                           : item->counted;
    const char *value = counted_amount_in(view->arena, counted, limit->value, limit->unit);
    const char *words =
        limit->bound == LIMIT_WITHIN
            ? arena_printf(view->arena, "%s to %s", value,
                           counted_amount_in(view->arena, counted, limit->top, limit->unit))
            : arena_printf(view->arena, "%s %s",
                           limit->bound == LIMIT_AT_MOST ? "at most" : "at least", value);
    const char *against =
        item->against == COUNTED_NONE
            ? ""
            : arena_printf(view->arena, " to 1 of %s", counted_name(view->arena, item->against));
    return arena_printf(view->arena, "%s%s%s%s%s", words, against, limit->a_side ? " a side" : "",
                        limit->below_peak ? " below the peak week" : "",
                        limit->force == FORCE_MUST
                            ? ""
                            : arena_printf(view->arena, ", %s", forces.names[limit->force]));
}

static const char *stretch_words(const struct view *view, const struct limit *limit)
{
    switch (limit->stretch) {
    case STRETCH_FIRST:
        return arena_printf(view->arena, ", in the first %d days of a camp", limit->stretch_days);
    case STRETCH_BEFORE_BOUT:
        return arena_printf(view->arena, ", in the %d days before a bout", limit->stretch_days);
    case STRETCH_AFTER_BOUT:
        return arena_printf(view->arena, ", in the %d days after a bout", limit->stretch_days);
    case STRETCH_ALL:
        break;
    }
    return "";
}

/* For whom and when, unless a limit is for everybody and always. */
static const char *holder_words(const struct view *view, const struct limit *limit)
{
    const char *words = "";
    if (limit->athlete)
        words = arena_printf(view->arena, ", %s", limit->athlete->name.shown);
    if (limit->under_age)
        words = arena_printf(view->arena, "%s, under %d", words, limit->under_age);
    if (limit->level >= 0)
        words = arena_printf(view->arena, "%s, %s", words, levels.names[limit->level]);
    if (limit->phase)
        words = arena_printf(view->arena, "%s, in %s", words, limit->phase);
    if (limit->first_weeks)
        words = arena_printf(view->arena, "%s, in the first %d weeks of an exercise", words,
                             limit->first_weeks);
    return arena_printf(view->arena, "%s%s", words, stretch_words(view, limit));
}

static const char *origin_words(const struct view *view, const struct layered *item)
{
    const struct span span = item->limit->span;
    const struct source *source = &view->sources->items[span.file];
    return arena_printf(view->arena, "%s, %s:%u", item->set->name.shown, source->name,
                        source_line(source, span.start));
}

/* --- the page --- */

/* The first limit of LAYER that applies to somebody with these FATES, or that the camp names; NULL: none. */
static const struct layered *first_of_layer(const struct limit_table *table, const enum fate *fates, int layer)
{
    for (size_t i = 0; i < table->count; i++)
        if (table->items[i].layer == layer && (table->items[i].named || fates[i] != FATE_NEVER))
            return &table->items[i];
    return NULL;
}

static void add_layers(const struct view *view, const enum fate *fates)
{
    const struct limit_table *table = view->table;
    bool any = false, of_itself = false;
    int layers = 0;
    for (size_t i = 0; i < table->count; i++)
        layers = table->items[i].layer >= layers ? table->items[i].layer + 1 : layers;
    text_add(view->out, "  layers, the upper first:");
    for (int layer = 0; layer < layers; layer++) {
        const struct layered *item = first_of_layer(table, fates, layer);
        if (!item)
            continue;
        bool begins = !item->named && !of_itself;
        text_addf(view->out, "%s%s %s", any ? begins ? ";" : "," : "",
                  begins ? " and where tighter, of themselves:" : "", item->set->name.shown);
        any = true;
        of_itself = of_itself || begins;
    }
    text_add(view->out, "\n");
}

static void add_limit(const struct view *view, const enum fate *fates, size_t index)
{
    const struct limit_table *table = view->table;
    const struct layered *item = &table->items[index];
    const char *source = item->limit->source;
    text_addf(view->out, "    %s  %s%s\n        %s%s%s\n", counted_name(view->arena, item->counted),
              bound_words(view, item), holder_words(view, item->limit), origin_words(view, item),
              source ? "; " : "", source ? source : "");
    for (size_t i = 0; i < index; i++)
        if (table->items[i].group == item->group && fates[i] == FATE_HOLDS)
            return; /* what the group replaces is shown below its first */
    for (size_t i = 0; i < table->count; i++)
        if (table->items[i].group == item->group && fates[i] == FATE_BEATEN)
            text_addf(
                view->out, "        in place of %s%s (%s)\n", bound_words(view, &table->items[i]),
                holder_words(view, table->items[i].limit), origin_words(view, &table->items[i]));
}

static void add_limits(const struct view *view, const enum fate *fates)
{
    for (size_t s = 0; s < SCOPE_COUNT; s++) {
        bool any = false;
        for (size_t i = 0; i < view->table->count; i++) {
            if (fates[i] != FATE_HOLDS || view->table->items[i].limit->scope != scopes[s])
                continue;
            if (!any)
                text_addf(view->out, "  %s\n", scope_words[scopes[s]]);
            any = true;
            add_limit(view, fates, i);
        }
    }
}

/* Athletes to whom the same limits apply share a page. */
static void add_camp(const struct view *view, const struct athlete *only)
{
    const struct camp *camp = view->table->camp;
    size_t size = view->table->count * sizeof(enum fate);
    enum fate **fates = arena_alloc(view->arena, (camp->athlete_count + 1) * sizeof *fates);
    for (size_t a = 0; a < camp->athlete_count; a++)
        fates[a] = find_fates(view, camp->athletes[a]);
    for (size_t a = 0; a < camp->athlete_count; a++) {
        bool shown_before = only && camp->athletes[a] != only;
        for (size_t b = 0; b < a && !only && !shown_before; b++)
            shown_before = memcmp(fates[a], fates[b], size) == 0;
        if (shown_before)
            continue;
        text_addf(view->out, "%s: %s", camp->name.shown, camp->athletes[a]->name.shown);
        for (size_t b = a + 1; b < camp->athlete_count && !only; b++)
            if (memcmp(fates[a], fates[b], size) == 0)
                text_addf(view->out, ", %s", camp->athletes[b]->name.shown);
        text_add(view->out, "\n");
        add_layers(view, fates[a]);
        add_limits(view, fates[a]);
        text_add(view->out, "\n");
    }
}

static bool write_limits(struct project *project, const struct options *options)
{
    const struct programme *programme = project->programme;
    const struct athlete *only;
    if (!selection_athlete(project, options->athlete, &only))
        return false;
    struct text out = {0};
    for (size_t c = 0; c < programme->camp_count; c++) {
        struct limit_table table;
        limit_table_build(project->arena, programme, programme->camps[c], &table);
        struct view view = {project->arena, programme->sources, &table, &out};
        if (table.count)
            add_camp(&view, only);
    }
    bool any = out.length > 0;
    if (any)
        fwrite(text_get(&out), 1, out.length, stdout);
    else
        tell_error("no camp has limits");
    text_free(&out);
    return any;
}

int command_limits(const struct options *options)
{
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED)) {
        bool written = write_limits(&project, options);
        int verdict = selection_verdict(&project, options);
        if (written || verdict == EXIT_PLAN)
            status = verdict;
    }
    project_close(&project);
    return status;
}

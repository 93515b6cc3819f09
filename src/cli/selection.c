#include "cli/selection.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/tell.h"
#include "model/programme.h"

static bool named(struct arena *arena, const char *asked, const struct name *name)
{
    return !asked || strcmp(text_fold(arena, asked, strlen(asked)), name->folded) == 0;
}

bool selection_holds(struct arena *arena, const struct options *options,
                     const struct occasion *occasion)
{
    const struct name *title =
        occasion->session ? &occasion->session->name : &occasion->activity->name;
    return (!options->day || occasion->date == options->day) &&
           (!options->from || occasion->date >= options->from) && (!options->last || occasion->date <= options->last) &&
           (!options->week || occasion->week == options->week) &&
           named(arena, options->athlete, &occasion->athlete->name) &&
           named(arena, options->session, title);
}

struct wanted selection_wanted(struct project *project, const struct options *options)
{
    const struct programme *programme = project->programme;
    bool *occasions = arena_alloc(project->arena, programme->occasion_count + 1);
    bool *left_out = arena_alloc(project->arena, programme->left_out_count + 1);
    for (size_t i = 0; i < programme->occasion_count; i++)
        occasions[i] = selection_holds(project->arena, options, &programme->occasions[i]);
    for (size_t i = 0; i < programme->left_out_count; i++)
        left_out[i] = selection_holds(project->arena, options, &programme->left_out[i].occasion);
    return (struct wanted){.occasions = occasions, .left_out = left_out};
}

/* The entry of COUNT in NAMES that ASKED is nearest to, or NULL if none is near. */
static const char *nearest(struct arena *arena, const char *asked, const struct name *const *names,
                           size_t count)
{
    enum { FAR = 4 };
    const char *folded = text_fold(arena, asked, strlen(asked)), *best = NULL;
    unsigned least = FAR;
    for (size_t i = 0; i < count; i++) {
        unsigned distance = text_distance(folded, names[i]->folded, FAR);
        if (distance < least) {
            least = distance;
            best = names[i]->shown;
        }
    }
    return best;
}

/* Says so if ASKED is none of the names. WHAT: "athlete". */
static bool known(struct arena *arena, const char *asked, const char *what,
                  const struct name *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (named(arena, asked, names[i]))
            return true;
    const char *near = nearest(arena, asked, names, count);
    tell_error("there is no %s `%s`%s%s%s", what, asked,
            near ? "; did you mean `" : "", near ? near : "", near ? "`?" : "");
    return false;
}

bool selection_athlete(struct project *project, const char *name, const struct athlete **athlete)
{
    const struct programme *programme = project->programme;
    const struct name **names = arena_alloc(project->arena, (programme->athlete_count + 1) * sizeof *names);
    *athlete = NULL;
    for (size_t i = 0; i < programme->athlete_count; i++) {
        names[i] = &programme->athletes[i]->name;
        if (name && named(project->arena, name, names[i]))
            *athlete = programme->athletes[i];
    }
    return *athlete || !name || known(project->arena, name, "athlete", names, programme->athlete_count);
}

int selection_verdict(struct project *project, const struct options *options)
{
    struct options as_text = *options;
    as_text.format = "text";
    return project_verdict(project, &as_text);
}

bool selection_known(struct project *project, const struct options *options)
{
    const struct programme *programme = project->programme;
    struct arena *arena = project->arena;
    size_t sessions = programme->session_count, activities = programme->activity_count;
    const struct name **names = arena_alloc(arena, (sessions + activities + 1) * sizeof *names);
    const struct athlete *athlete;
    if (!selection_athlete(project, options->athlete, &athlete))
        return false;
    for (size_t i = 0; i < sessions; i++)
        names[i] = &programme->sessions[i]->name;
    for (size_t i = 0; i < activities; i++)
        names[sessions + i] = &programme->activities[i]->name;
    return !options->session ||
           known(arena, options->session, "session", names, sessions + activities);
}

size_t selection_find(struct project *project, const struct options *options,
                      const struct occasion *const **occasions)
{
    const struct programme *programme = project->programme;
    if (!selection_known(project, options))
        return 0;
    const struct occasion **found =
        arena_alloc(project->arena, (programme->occasion_count + 1) * sizeof *found);
    size_t count = 0;
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (selection_holds(project->arena, options, &programme->occasions[i]))
            found[count++] = &programme->occasions[i];
    if (count == 0)
        tell_error("nothing is planned then");
    *occasions = found;
    return count;
}

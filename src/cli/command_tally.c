#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "export/tally_formats.h"

static const struct {
    const char *name;
    bool (*write)(const struct tally_view *view, struct text *out);
} formats[] = {{"text", tally_text}, {"csv", tally_csv}, {"json", tally_json}};

enum { FORMAT_COUNT = sizeof formats / sizeof *formats };

static int find_format(const char *name)
{
    for (int i = 0; i < FORMAT_COUNT; i++)
        if (strcmp(formats[i].name, name) == 0)
            return i;
    tell_error("there is no format `%s`: text, csv, json", name);
    return -1;
}

/* Puts the count called NAME, which may be NULL, into *COUNTED; says so if there is none. */
static bool find_counted(struct arena *arena, const char *name, enum counted *counted)
{
    *counted = COUNTED_NONE;
    if (!name)
        return true;
    const char *folded = text_fold(arena, name, strlen(name)), *near[1];
    *counted = counted_find(folded);
    if (*counted != COUNTED_NONE && *counted < COUNTED_COUNT)
        return true;
    if (*counted != COUNTED_NONE)
        tell_error("%s is worked out, not added up: no lines make it", counted_name(arena, *counted));
    else if (counted_nearest(arena, folded, near, 1))
        tell_error("`%s` is not something that is added up; did you mean `%s`?",
                name, near[0]);
    else
        tell_error("`%s` is not something that is added up", name);
    return false;
}

/* What gets a row each, by NAME, which may be NULL; says so if it is unknown. */
static bool find_by(const char *name, enum tally_by *by)
{
    *by = BY_TABLE;
    if (!name)
        return true;
    for (int i = BY_LIFT; i <= BY_WEEK; i++)
        if (strcmp(tally_by_name((enum tally_by)i), name) == 0) {
            *by = (enum tally_by)i;
            return true;
        }
    tell_error("there is no tally by `%s`: lift, session, day, week", name);
    return false;
}

/* Whether the lines of the count in question may be shown. */
static bool may_be_shown(const struct tally_view *view)
{
    if (view->private || view->counted == COUNTED_NONE || !counted_tells_body(view->counted))
        return true;
    tell_error("the lines of `%s` give away what somebody weighs; ask for them with --private",
               counted_name(view->arena, view->counted));
    return false;
}

/* What OPTIONS ask for, as far as it needs no plan; says so if they cannot be met. ARENA is for words alone. */
static bool find_view(struct arena *arena, const struct options *options, struct tally_view *view)
{
    *view = (struct tally_view){.arena = arena, .week = options->week, .first = options->from, .last = options->last,
                                .margin = options->margin, .private = options->private, .version = BELL_VERSION};
    return find_counted(arena, options->counted, &view->counted) && find_by(options->by, &view->by) && may_be_shown(view);
}

static bool write_tally(struct project *project, const struct options *options, struct tally_view *view, int format)
{
    view->programme = project->programme;
    view->arena = project->arena;
    if (!selection_athlete(project, options->athlete, &view->athlete))
        return false;
    struct text out = {0};
    bool any = formats[format].write(view, &out);
    if (any)
        fwrite(text_get(&out), 1, out.length, stdout);
    else
        tell_error("nothing is planned then");
    text_free(&out);
    return any;
}

/* Options that nothing can meet are reported before a plan is read, and a plan's errors do not hide them. */
int command_tally(const struct options *options)
{
    int format = find_format(options->format), status = EXIT_COULD_NOT;
    struct arena *arena = arena_new();
    struct tally_view view;
    bool met = format >= 0 && find_view(arena, options, &view);
    arena_free(arena);
    if (!met)
        return EXIT_COULD_NOT;
    struct project project;
    if (project_open(&project, options, PLAN_NEEDED)) {
        bool written = write_tally(&project, options, &view, format);
        int verdict = selection_verdict(&project, options);
        if (written || verdict == EXIT_PLAN)
            status = verdict;
    }
    project_close(&project);
    return status;
}

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

/* The account called NAME, which may be NULL, into *ACCOUNT; says so where there is none. */
static bool find_account(struct arena *arena, const char *name, enum account *account)
{
    *account = ACCOUNT_NONE;
    if (!name)
        return true;
    const char *folded = text_fold(arena, name, strlen(name)), *near[1];
    *account = account_find(folded);
    if (*account != ACCOUNT_NONE && *account < ACCOUNT_COUNT)
        return true;
    if (account_nearest(arena, folded, near, 1))
        tell_error("`%s` is nothing that is summed; did you mean `%s`?",
                name, near[0]);
    else
        tell_error("`%s` is nothing that is summed", name);
    return false;
}

static bool write_tally(struct project *project, const struct options *options, int format)
{
    struct tally_view view = {.programme = project->programme, .arena = project->arena,
                              .week = options->week, .margin = options->margin,
                              .version = BELL_VERSION};
    if (!find_account(project->arena, options->account, &view.account) ||
        !selection_athlete(project, options->athlete, &view.athlete))
        return false;
    struct text out = {0};
    bool any = formats[format].write(&view, &out);
    if (any)
        fwrite(text_get(&out), 1, out.length, stdout);
    else
        tell_error("nothing is planned then");
    text_free(&out);
    return any;
}

int command_tally(const struct options *options)
{
    int format = find_format(options->format), status = EXIT_COULD_NOT;
    if (format < 0)
        return EXIT_COULD_NOT;
    struct project project;
    if (project_open(&project, options, PLAN_NEEDED)) {
        bool written = write_tally(&project, options, format);
        int verdict = selection_verdict(&project, options);
        if (written || verdict == EXIT_PLAN)
            status = verdict;
    }
    project_close(&project);
    return status;
}

#include <stdio.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "export/review.h"
#include "export/show_programme.h"

static void show(struct project *project, const struct options *options,
                 const struct occasion *const *occasions, size_t count, bool json)
{
    struct programme_view view = {
        .programme = project->programme, .arena = project->arena, .occasions = occasions,
        .count = count, .version = BELL_VERSION, .lines = options->lines,
        .ledgers = !options->day && !options->session, .rooms = options->day, .private = options->private};
    struct text out = {0};
    if (options->review)
        review_markdown(&view, &out);
    else if (json)
        programme_json(&view, &out);
    else
        programme_text(&view, &out);
    fwrite(text_get(&out), 1, out.length, stdout);
    text_free(&out);
}

int command_show(const struct options *options)
{
    bool json = strcmp(options->format, "json") == 0;
    if (!json && strcmp(options->format, "text") != 0) {
        tell_error("there is no format `%s`: text, json", options->format);
        return EXIT_COULD_NOT;
    }
    struct options asked = *options;
    asked.all = asked.all || asked.review; /* whole camps are reviewed */
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED)) {
        const struct occasion *const *occasions;
        size_t count = selection_find(&project, &asked, &occasions);
        if (count)
            show(&project, options, occasions, count, json);
        int verdict = selection_verdict(&project, options);
        if (count || verdict == EXIT_PLAN)
            status = verdict;
    }
    project_close(&project);
    return status;
}

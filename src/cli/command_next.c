/* `bellsheet next`: the next loads of a week, by the logs and by the rules of the lines. */
#include <stdio.h>
#include <string.h>

#include "amend/proposed.h"
#include "cli/amend_file.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "export/show_programme.h"
#include "model/programme.h"
#include "rules/rules.h"
#include "wording/wording.h"

static bool is_asked_well(const struct options *options)
{
    if (!options->week)
        tell_error("say which week: `bellsheet next gym/ --week 3`");
    else
        return amend_is_asked_well(options);
    return false;
}

/* --- telling --- */

/* "logs.bell:12: A1 : 3 x 10 @ 60 kg", as the log has it. */
static void print_ground(const struct programme_view *view, const struct next_ground *ground)
{
    struct span span = ground->line ? ground->line->span : ground->log->span;
    const char *text = view->programme->sources->items[span.file].text + span.start;
    size_t length = strcspn(text, "\r\n");
    printf("      %s: %.*s%s%s\n", view_line(view, span), (int)length, text,
           ground->line ? " on " : ", and the line as planned",
           ground->line ? view_date(view->arena, ground->log->date) : "");
}

static void print_proposal(const struct programme_view *view, const struct proposed *proposed, size_t at)
{
    const struct proposal *one = &proposed->items[at];
    const struct load *planned = &one->item->runs[0].load;
    bool first = at == 0 || proposed->items[at - 1].occasion != one->occasion;
    if (first)
        printf("%s, %s on %s\n", one->occasion->athlete->name.shown, one->occasion->session->name.shown,
               view_date(view->arena, one->occasion->date));
    printf("  %s %s: %s in place of %s", one->item->ref, one->item->exercise->name.shown, proposed_dose(view->arena, one),
           wording_load_mass(view->arena, planned, false));
    printf(", because %s\n", one->why);
    for (size_t i = 0; i < one->ground_count; i++)
        print_ground(view, &one->grounds[i]);
    if (proposed->refused[at])
        printf("      not proposed, because the plan would have an error: %s\n", proposed->refused[at]);
}

/* Does any line of the week, for the athletes in question, have a rule for its next load? */
static bool has_rule(const struct programme *programme, int week, const struct athlete *athlete)
{
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->week != week || (athlete && occasion->athlete != athlete))
            continue;
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t k = 0; k < occasion->blocks[b].item_count; k++)
                if (occasion->blocks[b].items[k].next)
                    return true;
    }
    return false;
}

/* Why nothing is proposed. */
static void tell_nothing(const struct programme *programme, int week, const struct athlete *athlete)
{
    if (has_rule(programme, week, athlete))
        fprintf(stderr, "week %d: each load with a rule stands as its rule and the logs have it\n", week);
    else
        fprintf(stderr, "week %d: no line has a rule for its next load; `next time` below a line gives it one\n", week);
}

/* --- the change --- */

static int tell_week(struct project *project, const struct options *options, const struct athlete *athlete,
                     struct proposed *proposed)
{
    if (!proposed->count)
        tell_nothing(project->programme, options->week, athlete);
    const struct programme_view view = {.programme = project->programme, .arena = project->arena};
    for (size_t i = 0; i < proposed->count && !options->patch; i++)
        print_proposal(&view, proposed, i);
    if (!proposed->standing || (!options->patch && !options->apply))
        return EXIT_CLEAN;
    const struct project_request request = project_request_of(project->arena, options, PLAN_NEEDED);
    proposed_write(project->arena, &request, project, proposed);
    if (proposed->wrong) {
        tell_error("the plan cannot be changed so: %s", proposed->wrong);
        return proposed->unread ? EXIT_COULD_NOT : EXIT_PLAN;
    }
    return amend_hand_over(project, options, &proposed->attempt);
}

static int next_project(struct project *project, const struct options *options)
{
    const struct athlete *athlete;
    bool planned = false;
    if (project->programme->incomplete)
        return project_verdict(project, options);
    if (!selection_athlete(project, options->athlete, &athlete))
        return EXIT_COULD_NOT;
    for (size_t i = 0; i < project->programme->occasion_count; i++)
        planned = planned || project->programme->occasions[i].week == options->week;
    if (!planned) {
        tell_error("nothing is planned then");
        return EXIT_COULD_NOT;
    }
    if (options->patch || options->apply) /* the findings of what is written are compared with all those from before */
        rules_run(project->programme, project->diag);
    struct proposed proposed = proposed_week(project->arena, project, options->week, athlete);
    return tell_week(project, options, athlete, &proposed);
}

int command_next(const struct options *options)
{
    if (!is_asked_well(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED))
        status = next_project(&project, options);
    project_close(&project);
    return status;
}

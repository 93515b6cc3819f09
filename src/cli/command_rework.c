/* `bellsheet rework`: brings a week within its limits by the fewest changes. */
#include <stdio.h>
#include <string.h>

#include "amend/rework.h"
#include "cli/amend_file.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "model/programme.h"
#include "rules/rules.h"

static bool is_asked_well(const struct options *options)
{
    if (!options->week)
        tell_error("say which week: `bellsheet rework gym/ --week 3`");
    else
        return amend_is_asked_well(options);
    return false;
}

static const char *plural(size_t count)
{
    return count == 1 ? "" : "s";
}

/* --- telling --- */

static void print_ways(const struct rework *rework, int week)
{
    printf("Week %d has %zu error%s. %s:\n", week, rework->errors, plural(rework->errors),
           rework->way_count == 1 ? "This mends it" : "Each of these mends it");
    for (size_t i = 0; i < rework->way_count; i++) {
        const struct rework_way *way = &rework->ways[i];
        printf("  %zu. ", i + 1);
        for (size_t k = 0; k < way->count; k++)
            printf("%s%s", k ? "; " : "", way->words[k]);
        if (way->attempt.warnings)
            printf(" (%zu new warning%s)", way->attempt.warnings, plural(way->attempt.warnings));
        putchar('\n');
    }
    if (rework->ways[0].count > 1)
        puts("Fewer changes do not.");
}

static void print_fault(const struct rework_fault *fault)
{
    printf("  %s\n", fault->words);
    for (const char *line = fault->lines; *line;) {
        int length = (int)strcspn(line, "\n");
        printf("      %.*s\n", length, line);
        line += length + (line[length] == '\n');
    }
}

static void print_in_the_way(const struct rework *rework, int week)
{
    printf("Week %d has %zu error%s", week, rework->errors, plural(rework->errors));
    if (!rework->changes)
        puts(", and nothing in it is ours to change.");
    else if (rework->all_tried)
        printf(". %zu changes are ours to make, and no four of them together mend it.\n", rework->changes);
    else
        printf(". %zu changes are ours to make; those that were tried, alone or together, do not mend it.\n",
               rework->changes);
    if (!rework->in_the_way_count)
        return;
    printf("%s stays whatever %s changed:\n", rework->in_the_way_count == 1 ? "This" : "One of these",
           rework->all_tried ? "is" : "was");
    for (size_t i = 0; i < rework->in_the_way_count; i++)
        print_fault(&rework->in_the_way[i]);
}

static int rework_project(struct project *project, const struct options *options)
{
    bool planned = false;
    if (project->programme->incomplete)
        return project_verdict(project, options);
    for (size_t i = 0; i < project->programme->occasion_count; i++)
        planned = planned || project->programme->occasions[i].week == options->week;
    if (!planned) {
        tell_error("nothing is planned then");
        return EXIT_COULD_NOT;
    }
    rules_run(project->programme, project->diag);
    const struct project_request request = project_request_of(project->arena, options, PLAN_NEEDED);
    const struct rework rework = rework_week(project->arena, &request, project, options->week);
    if (!rework.errors) {
        if (!options->patch)
            printf("Week %d is within its limits. Holds and restrictions are not looked at here: `check` does.\n",
                   options->week);
        return EXIT_CLEAN;
    }
    if (!rework.way_count) {
        print_in_the_way(&rework, options->week);
        return EXIT_PLAN;
    }
    if (!options->patch)
        print_ways(&rework, options->week);
    return options->patch || options->apply ? amend_hand_over(project, options, &rework.ways[0].attempt) : EXIT_CLEAN;
}

int command_rework(const struct options *options)
{
    if (!is_asked_well(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED))
        status = rework_project(&project, options);
    project_close(&project);
    return status;
}

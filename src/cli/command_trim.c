/* `bellsheet trim`: cuts a session to the time available. */
#include <stdio.h>
#include <stdlib.h>

#include "amend/cut.h"
#include "amend/trimmed.h"
#include "cli/amend_file.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "measure/kit.h"
#include "rules/rules.h"
#include "wording/wording.h"

static int minutes(int seconds)
{
    return (seconds + 59) / 60;
}

/* --- what stays and what goes --- */

static int longest(const struct room *room, int block)
{
    int most = 0;
    for (int i = 0; i < (int)room->athlete_count; i++) {
        int seconds = room_block_seconds(room, i, block);
        most = seconds > most ? seconds : most;
    }
    return most;
}

/* "A superset", "rounds". */
static const char *heading(struct arena *arena, const struct trimmed *trimmed, size_t b)
{
    const char *name = trimmed->room.blocks[b].name;
    const struct block *block = cut_block(trimmed->squad, b);
    return block->letter && !name[1] ? arena_printf(arena, "%s %s", name, block_kinds.names[block->kind]) : name;
}

/* "1 set", "2 rounds", "1 set of A2": what goes from a block that stays. */
static const char *off_words(struct arena *arena, const struct trimmed *trimmed, int b)
{
    const struct room_cut *cut = &trimmed->trim->cut;
    const char *word = trimmed->room.blocks[b].bell ? "round" : "set";
    struct text words = {.arena = arena};
    size_t lines = 0;
    for (size_t i = 0; i < cut->line_count; i++)
        lines += cut->lines[i].block == b;
    for (size_t i = 0; i < cut->line_count; i++) {
        const struct room_line *line = &cut->lines[i];
        if (line->block != b || !line->off)
            continue;
        text_addf(&words, "%s%d %s%s", words.length ? ", " : "", line->off, word, line->off == 1 ? "" : "s");
        if (lines > 1)
            text_addf(&words, " of %s%d", trimmed->room.blocks[b].name, line->line + 1);
    }
    return text_keep(arena, &words);
}

static void print_block(struct arena *arena, const struct trimmed *trimmed, int b)
{
    const struct room_trim *trim = trimmed->trim;
    int before = longest(&trimmed->room, b), after = longest(trim->room, b);
    const char *name = heading(arena, trimmed, (size_t)b), *off = off_words(arena, trimmed, b);
    if (trim->cut.dropped[b])
        printf("  %-28s          goes, %d min\n", name, minutes(before));
    else if (*off)
        printf("  %-28s %4d min  without %s, %d min\n", name, minutes(after), off, minutes(before - after));
    else
        printf("  %-28s %4d min%s\n", name, minutes(after),
               trimmed->unsaid[b] ? "  left whole: no line below the session can shorten it" : "");
}

static void print_head(const struct trimmed *trimmed, int seconds)
{
    const struct occasion *first = trimmed->squad->members[0];
    char date[DATE_TEXT_SIZE];
    printf("%s on %s, ", first->session->name.shown, date_format(first->date, date));
    if (trimmed->squad->count > 1)
        printf("%zu athletes", trimmed->squad->count);
    else
        fputs(first->athlete->name.shown, stdout);
    printf(": %d min as planned, %d min wanted\n", minutes(trimmed->planned), seconds / 60);
}

static void print_verdict(const struct trimmed *trimmed)
{
    const struct room_trim *trim = trimmed->trim;
    int finish = minutes(trimmed->finish);
    if (!trim->fits)
        printf("Not enough: with all gone that may go, it takes %d min. What has keep 1 or no keep stays, and so do neck "
               "and shoulder care and the least of the warm-up.\n", finish);
    else if (!trim->loss)
        printf("It takes %d min: nothing has to go.\n", finish);
    else if (trim->proven)
        printf("Done after %d min, and no cut loses less.\n", finish);
    else
        printf("Done after %d min. Of the cuts that lose less not all were tried.\n", finish);
}

static void print_trim(struct arena *arena, const struct trimmed *trimmed, int seconds)
{
    print_head(trimmed, seconds);
    for (int b = 0; b < (int)trimmed->room.block_count; b++)
        print_block(arena, trimmed, b);
    print_verdict(trimmed);
    if (trimmed->beside)
        printf("That is among the %zu who do it there, each with all of it; on the others nothing is cut.\n",
               trimmed->beside->count);
    size_t warnings = trimmed->attempt ? trimmed->attempt->warnings : 0;
    if (warnings)
        printf("`check` will then warn of %zu thing%s that it does not warn of now.\n", warnings, warnings == 1 ? "" : "s");
}

/* --- what is asked for --- */

static bool is_one_line(const struct occasion *a, const struct occasion *b)
{
    return a->place == b->place && a->session == b->session;
}

static int squad_place(const struct occasion *occasion)
{
    size_t i = 0;
    while (i < occasion->camp->athlete_count && occasion->camp->athletes[i] != occasion->athlete)
        i++;
    return (int)i;
}

static int by_squad_order(const void *left, const void *right)
{
    return squad_place(*(const struct occasion *const *)left) - squad_place(*(const struct occasion *const *)right);
}

/* The occasions of the session asked for, in squad order; 0, with a message, if there is no such session or several. */
static size_t find_squad(struct project *project, const struct options *options, const struct occasion ***squad)
{
    const struct occasion *const *found;
    size_t all = selection_find(project, options, &found), count = 0;
    if (!all)
        return 0;
    *squad = arena_alloc(project->arena, all * sizeof **squad);
    for (size_t i = 0; i < all; i++)
        if (found[i]->session)
            (*squad)[count++] = found[i];
    for (size_t i = 0; i < count; i++) {
        if (!is_one_line((*squad)[0], (*squad)[i])) {
            tell_error("more than one session is planned then: say which with --session or --athlete");
            return 0;
        }
        if (!occasion_gym((*squad)[i])) {
            tell_error("the plan does not say at which gym %s trains", (*squad)[i]->athlete->name.shown);
            return 0;
        }
    }
    if (!count)
        tell_error("no session is planned then, only work that `keep` does not cut");
    qsort(*squad, count, sizeof **squad, by_squad_order);
    return count;
}

static bool is_asked_well(const struct options *options)
{
    if (!options->day || !options->to)
        tell_error("say which day and to how long: `bellsheet trim gym/ --on 2027-03-08 --to 40min`");
    else
        return amend_is_asked_well(options);
    return false;
}

/* --- the whole --- */

struct handing {
    struct project *project;
    const struct options *options;
    struct project_request request; /* for the plan as it was, or with what was cut before */
    const struct project *now;      /* that, compiled and checked */
    const struct trimmed *last;     /* the last of those that cut something; NULL: nothing is cut yet */
};

/* Reports the result for one gym's squad. Returns the exit status. */
static int tell_trim(const struct handing *handing, const struct trimmed *trimmed)
{
    const struct options *options = handing->options;
    if (!trimmed->whole || !trimmed->trim) {
        tell_error("%s", trimmed->whole ? trimmed->whole->refused : "the squad is too large for a timetable");
        return EXIT_COULD_NOT;
    }
    if (!options->patch)
        print_trim(handing->project->arena, trimmed, options->to);
    if (!trimmed->trim->fits) {
        if (options->patch)
            tell_error("it cannot be cut that far");
        return EXIT_PLAN;
    }
    if (!trimmed->wrong)
        return EXIT_CLEAN;
    tell_error("the plan cannot say so: %s", trimmed->wrong);
    return EXIT_COULD_NOT;
}

/* Puts those of SQUAD who are at the gym of its first member into *HERE; the others stay in SQUAD. */
static size_t take_gym(struct arena *arena, const struct occasion **squad, size_t *left, const struct occasion ***here)
{
    const struct gym *gym = occasion_gym(squad[0]);
    size_t count = 0, others = 0;
    *here = arena_alloc(arena, *left * sizeof **here);
    for (size_t i = 0; i < *left; i++) {
        if (occasion_gym(squad[i]) == gym)
            (*here)[count++] = squad[i];
        else
            squad[others++] = squad[i];
    }
    *left = others;
    return count;
}

/* The same occasions in the changed plan, which has as many. */
static void follow(const struct handing *handing, const struct occasion **here, size_t count)
{
    const struct occasion *all = handing->project->programme->occasions;
    for (size_t i = 0; i < count; i++)
        here[i] = &handing->now->programme->occasions[here[i] - all];
}

/* Squad after squad, gym after gym: each starts from what was cut for those before. */
static int trim_gyms(struct handing *handing, const struct occasion **squad, size_t left)
{
    struct arena *arena = handing->project->arena;
    while (left) {
        const struct occasion **here;
        struct trimmed *trimmed = arena_alloc(arena, sizeof *trimmed);
        size_t count = take_gym(arena, squad, &left, &here);
        follow(handing, here, count);
        *trimmed = handing->options->athlete && count == 1
                       ? trim_one(arena, &handing->request, handing->now, here[0], handing->options->to)
                       : trim_squad(arena, &handing->request, handing->now, here, count, handing->options->to);
        int status = tell_trim(handing, trimmed);
        if (status != EXIT_CLEAN)
            return status;
        if (!trimmed->attempt)
            continue;
        handing->last = trimmed;
        handing->request = trimmed->attempt->request;
        handing->now = &trimmed->attempt->project;
    }
    return EXIT_CLEAN;
}

static int trim_project(struct project *project, const struct options *options)
{
    const struct occasion **squad;
    if (project->programme->incomplete)
        return project_verdict(project, options);
    size_t count = find_squad(project, options, &squad);
    if (!count)
        return EXIT_COULD_NOT;
    if (squad[0]->held) {
        tell_error("that day is closed, and no edit changes a closed day");
        return EXIT_COULD_NOT;
    }
    rules_run(project->programme, project->diag);
    struct handing handing = {project, options, project_request_of(project->arena, options, PLAN_NEEDED), project, NULL};
    int status = trim_gyms(&handing, squad, count);
    if (status != EXIT_CLEAN || !handing.last)
        return status;
    const struct amended amended = {squad[0]->span.file, handing.last->amended.bytes};
    if (options->patch)
        amend_print_patch(project, &amended);
    return options->apply ? amend_write(project, &amended) : EXIT_CLEAN;
}

int command_trim(const struct options *options)
{
    if (!is_asked_well(options))
        return EXIT_COULD_NOT;
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, options, PLAN_NEEDED))
        status = trim_project(&project, options);
    project_close(&project);
    return status;
}

/* print_sheets.c - makes the sheets that are not in the folder as they stand in the plan. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/print.h"
#include "cli/progress.h"
#include "cli/tell.h"
#include "cli/workers.h"
#include "model/block.h"
#include "model/occasion.h"
#include "model/season.h"
#include "squad/squad.h"

/* Sheets to be made, by their places in JOBS. */
struct print_making {
    struct printing *printing;
    const struct sheet_jobs *jobs;
    size_t *todo;
    size_t count;
    struct progress progress;
};

/* What the layout could not do well: a letter for its kind, then the words. */
static void record_problems(const struct scene *scene, struct text *record)
{
    for (size_t i = 0; i < scene->problem_count; i++) {
        const struct layout_problem *problem = &scene->problems[i];
        print_record(record, PRINT_PROBLEM, "%c%s", 'a' + (int)problem->kind, problem->words);
        if (problem->help)
            print_record(record, PRINT_HELP, "%s", problem->help);
    }
}

/* The same as a finding at the session or camp. */
static struct finding *report_problem(struct printing *printing, const struct sheet_job *job, const char *words)
{
    static const enum diagnostic found[] = {[PROBLEM_ELLIPSISED] = DIAG_TEXT_CUT,
                                            [PROBLEM_UNKNOWN_GLYPH] = DIAG_NO_GLYPH,
                                            [PROBLEM_OUTSIDE] = DIAG_BEYOND_MARGIN,
                                            [PROBLEM_OVERLAP] = DIAG_TEXTS_TOUCH,
                                            [PROBLEM_TOO_SMALL] = DIAG_TOO_SMALL_TO_READ,
                                            [PROBLEM_PAGES] = DIAG_TOO_MANY_PAGES};
    const struct occasion *occasion = job->group.occasions[0];
    bool session = job->sheet->scope == SCOPE_SESSION || job->sheet->scope == SCOPE_SESSION_EACH;
    struct span span = session ? occasion->session->name.span : occasion->camp->name.span;
    return diag_report(printing->project->diag, SEVERITY_WARNING, found[*words - 'a'], span, "%s: %s",
                       job->sheet->name, words + 1);
}

static const char *begin(void *with)
{
    struct print_making *making = with;
    const char *wrong = NULL;
    making->printing->type = type_open(&wrong);
    return wrong;
}

static void end(void *with)
{
    struct print_making *making = with;
    type_close(making->printing->type);
    making->printing->type = NULL;
}

/* Writes one sheet. Its files and findings go into RECORD as texts with a NUL after each. */
static void make(void *with, size_t number, struct text *record)
{
    const struct print_making *making = with;
    const struct sheet_job *job = &making->jobs->items[making->todo[number]];
    const char *revision = making->printing->options->revision;
    struct sheet_origin origin = sheet_jobs_origin(making->jobs);
    origin.memo = making->printing->memo;
    origin.version = revision ? revision : job->version;
    struct sheet_request request = sheet_request_for(&origin, job->sheet, &job->group);
    request.type = making->printing->type;
    request.arena = arena_new();
    struct scene *scene = sheet_make(job->sheet, &request);
    print_scene(making->printing, job->sheet, job->stem, scene, record);
    record_problems(scene, record);
    arena_free(request.arena);
}

static void keep_problem(struct listed_sheet *entry, struct arena *arena, const char *words)
{
    size_t count = entry->problem_count, capacity = count;
    struct listed_problem *problems = arena_grow(arena, (void *)entry->problems, count, &capacity, sizeof *problems);
    problems[entry->problem_count++] = (struct listed_problem){.words = words};
    entry->problems = problems;
}

static void keep_help(struct listed_sheet *entry, const char *words)
{
    struct listed_problem *problems = (void *)entry->problems;
    problems[entry->problem_count - 1].help = words;
}

/* Says what RECORD holds, and keeps it. */
static bool take(void *with, size_t number, const struct text *record)
{
    struct print_making *making = with;
    struct printing *printing = making->printing;
    struct arena *arena = printing->project->arena;
    const struct sheet_job *job = &making->jobs->items[making->todo[number]];
    struct listed_sheet *entry = print_entry(printing, job);
    int files = 0;
    progress_hide(&making->progress);
    const char *end_of_record = text_get(record) + record->length;
    for (const char *at = text_get(record); at < end_of_record; at += strlen(at) + 1) {
        const char *words = arena_copy(arena, at + 1, strlen(at + 1));
        switch ((enum print_mark)*at) {
        case PRINT_TITLE: entry->title = words; break;
        case PRINT_PAGES: entry->pages = atoi(words); break;
        case PRINT_FILE:
            files++;
            print_say(printing, words);
            break;
        case PRINT_WRONG:
            tell_error("%s", words);
            printing->failed = true;
            break;
        case PRINT_HELP: keep_help(entry, words); break;
        case PRINT_PROBLEM: keep_problem(entry, arena, words); break;
        }
    }
    if (!printing->failed && files)
        entry->version = job->version;
    fflush(stdout); /* who follows the output hears of each sheet when it is there */
    if (number + 1 < making->count)
        progress_show(&making->progress, number + 1, making->count);
    return !printing->failed;
}

static void make_all(struct print_making *making)
{
    struct printing *printing = making->printing;
    struct work work = {making, making->count, begin, make, take, end};
    progress_start(&making->progress);
    const char *wrong = workers_run(&work, workers_wanted());
    progress_hide(&making->progress);
    if (wrong) {
        tell_error("%s", wrong);
        printing->failed = true;
    }
}

static void list_jobs(struct printing *printing, const struct sheet_jobs *jobs)
{
    for (size_t i = 0; i < jobs->count; i++) {
        const struct sheet_job *job = &jobs->items[i];
        print_note(printing, (struct printed){.sheet = job->sheet, .occasion = job->group.occasions[0],
                                              .name = print_job_name(printing, job)});
        print_say(printing, printing->items[i].name);
    }
}

/* Notes the files of all JOBS, made now or before, and says again what the layout could not do well. */
static void note_jobs(struct printing *printing, const struct sheet_jobs *jobs)
{
    struct arena *arena = printing->project->arena;
    for (size_t i = 0; i < jobs->count; i++) {
        const struct sheet_job *job = &jobs->items[i];
        const struct listed_sheet *entry = print_entry(printing, job);
        for (int file = 1; *entry->version && file <= listed_files(entry); file++)
            print_note(printing, (struct printed){.sheet = job->sheet, .occasion = job->group.occasions[0],
                                                  .name = listed_file(arena, entry, file), .title = entry->title,
                                                  .page = file});
        for (size_t p = 0; p < entry->problem_count; p++) {
            struct finding *finding = report_problem(printing, job, entry->problems[p].words);
            if (entry->problems[p].help)
                diag_help(printing->project->diag, finding, "%s", entry->problems[p].help);
        }
    }
}

void print_sheets(struct printing *printing)
{
    const struct options *options = printing->options;
    struct project *project = printing->project;
    struct sheet_jobs jobs = {.project = project, .options = options, .barred = printing->barred};
    sheet_jobs_find(&jobs);
    if (options->list) {
        list_jobs(printing, &jobs);
        return;
    }
    printing->memo = squad_memo_new(project->arena);
    struct print_making making = {.printing = printing, .jobs = &jobs};
    making.todo = arena_alloc(project->arena, (jobs.count + 1) * sizeof *making.todo);
    making.count = print_compare(printing, &jobs, making.todo);
    if (printing->failed)
        return;
    if (making.count)
        make_all(&making);
    note_jobs(printing, &jobs);
    print_settle(printing, &jobs);
}

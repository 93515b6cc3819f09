/* `bellsheet import`: logs from a table, by rules that say which column is what, or from text that holds logs. */
#include <stdio.h>
#include <string.h>

#include "cli/append.h"
#include "cli/candidates.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "logs/import.h"
#include "logs/pasted.h"
#include "logs/stanzas.h"
#include "source/diag.h"
#include "syntax/format.h"

struct import_run {
    struct project *project;
    const struct options *options;
    const struct phrasebook *phrases;
    struct sources sources; /* the table and its rules */
    struct imported imported;
    struct candidates candidates;
    size_t refused;
};

static const char *shown(const char *path)
{
    return strcmp(path, "-") == 0 ? "<standard input>" : path;
}

/* Reads PATH, which must be text; NULL, with a message, if it cannot be read. */
static const struct source *read_text(struct import_run *run, const char *path)
{
    const char *wrong = NULL;
    size_t fault_length;
    const char *name = shown(path);
    int file = source_read(&run->sources, path, name, &wrong);
    if (file < 0) {
        tell_error("%s: %s", name, wrong);
        return NULL;
    }
    const struct source *source = &run->sources.items[file];
    size_t fault = text_first_fault(source->text, source->length, &wrong, &fault_length);
    if (fault == source->length)
        return source;
    tell_error("%s:%u: %s cannot appear in a text", name, source_line(source, fault), wrong);
    return NULL;
}

/* --- a table --- */

static bool tell_rules(const struct table_rules *rules, const char *name)
{
    for (size_t i = 0; i < rules->fault_count; i++) {
        const struct table_rules_fault *fault = &rules->faults[i];
        tell_error("%s:%u:%u: %s%s%s", name, fault->line, fault->place, fault->words, fault->help ? "; " : "",
                   fault->help ? fault->help : "");
    }
    return rules->fault_count == 0;
}

static bool take_table(struct import_run *run, const char *path)
{
    struct arena *arena = run->project->arena;
    const char *named = run->options->rules;
    const struct source *source = read_text(run, named);
    struct table_rules rules = {0};
    if (source)
        rules = table_rules_read(arena, source);
    if (!source || !tell_rules(&rules, named) || !(source = read_text(run, path)))
        return false;
    const struct csv table = csv_read(arena, source->text, source->length, rules.separator);
    table_rules_find(arena, &rules, &table);
    if (!tell_rules(&rules, named))
        return false;
    run->imported = import_table(arena, run->project->programme, &rules, &table, run->options->today);
    for (size_t i = 0; i < run->imported.log_count; i++) {
        struct imported_log *log = run->imported.logs[i];
        candidate_add(arena, &run->candidates, &(struct candidate){.text = log->text, .log = log});
    }
    return true;
}

static void tell_rows(struct import_run *run, const char *name)
{
    for (size_t i = 0; i < run->imported.row_count; i++) {
        const struct table_log *row = &run->imported.rows[i];
        if (!row->refused)
            continue;
        run->refused++;
        tell_error("%s: row %u: %s", name, row->number, row->refused);
    }
}

/* --- text in the notation --- */

/* STANZA in canonical layout, or as it is if it cannot be read: compiling it will say why. */
static const char *laid_out(struct import_run *run, const struct stanza *stanza)
{
    struct arena *arena = run->project->arena;
    struct sources sources = {.arena = arena};
    struct text out = {.arena = arena};
    int file = source_add(&sources, "log", stanza->text, stanza->length);
    enum format_outcome outcome = format_source(arena, &sources, (unsigned)file, run->phrases, diag_new(arena, &sources), &out);
    return outcome == FORMAT_CHANGED ? text_get(&out)
                                     : arena_printf(arena, "%.*s\n", (int)stanza->length, stanza->text);
}

static bool take_text(struct import_run *run, const char *path)
{
    struct arena *arena = run->project->arena;
    const struct source *source = read_text(run, path);
    if (!source)
        return false;
    const struct text pasted = pasted_restore(arena, run->phrases, source->text, source->length);
    const struct stanzas stanzas = stanzas_of(arena, text_get(&pasted), pasted.length);
    for (size_t i = 0; i < stanzas.count; i++) {
        const struct stanza *stanza = &stanzas.items[i];
        if (!*stanza->title)
            continue; /* a comment from the page */
        struct candidate candidate = {.text = laid_out(run, stanza), .number = stanza->line};
        if (!stanza->log)
            candidate.refused = "this is not a log, and only logs can be taken; a table needs --rules";
        else if (!stanza->filled)
            candidate.refused = "this log says nothing";
        candidate_add(arena, &run->candidates, &candidate);
    }
    return true;
}

static void tell_stanzas(struct import_run *run, const char *name)
{
    for (size_t i = 0; i < run->candidates.count; i++) {
        const struct candidate *candidate = &run->candidates.items[i];
        if (!candidate->refused)
            continue;
        run->refused++;
        tell_error("%s:%u: %s", name, candidate->number + candidate->refused_at, candidate->refused);
    }
}

/* --- the whole --- */

static void tell_sum(const struct import_run *run, const struct text *out)
{
    size_t there = 0;
    const struct stanzas added = stanzas_of(run->project->arena, text_get(out), out->length);
    for (size_t i = 0; i < run->candidates.count; i++)
        there += run->candidates.items[i].there;
    fprintf(stderr, "%zu log%s %s, %zu there already, %zu refused\n", added.count, added.count == 1 ? "" : "s",
            run->options->append ? "added" : "to add", there, run->refused);
}

static int import_into(struct import_run *run)
{
    const struct options *options = run->options;
    const char *path = options->paths[0];
    struct options plan = *options;
    plan.paths++;
    plan.path_count--;
    if (!(options->rules ? take_table(run, path) : take_text(run, path)))
        return EXIT_COULD_NOT;
    candidates_compare(run->project, options->append, run->phrases, &run->candidates);
    if (!candidates_compile(run->project, &plan, &run->candidates))
        return EXIT_COULD_NOT;
    const struct text out = candidates_text(run->project->arena, &run->candidates);
    if (options->rules)
        tell_rows(run, shown(path));
    else
        tell_stanzas(run, shown(path));
    int status = EXIT_CLEAN;
    if (options->append && out.length)
        status = append_stanzas(options->append, &out, false);
    else
        fwrite(text_get(&out), 1, out.length, stdout);
    if (status == EXIT_CLEAN)
        tell_sum(run, &out);
    return status == EXIT_CLEAN && run->refused ? EXIT_PLAN : status;
}

static bool is_asked_well(const struct options *options)
{
    if (options->path_count < 1 || options->path_count > 2)
        tell_error("import takes a table or a text, and then the plan if it is not in this folder");
    else if (options->path_count == 2 && strcmp(options->paths[1], "-") == 0)
        tell_error("the plan is a folder or a file");
    else if (options->append && strcmp(options->append, "-") == 0)
        tell_error("--append takes the name of a file; without it the logs go to standard output");
    else
        return true;
    return false;
}

int command_import(const struct options *options)
{
    if (!is_asked_well(options))
        return EXIT_COULD_NOT;
    struct options plan = *options;
    struct project project;
    int status = EXIT_COULD_NOT;
    plan.paths++;
    plan.path_count--;
    if (project_open(&project, &plan, PLAN_NEEDED)) {
        struct import_run run = {.project = &project, .options = options, .phrases = phrasebook_new(project.arena),
                                 .sources = {.arena = project.arena}};
        if (diag_count(project.diag, SEVERITY_ERROR)) {
            tell_error("the plan has errors: see `bellsheet check`");
            status = EXIT_PLAN;
        } else {
            status = import_into(&run);
        }
    }
    project_close(&project);
    return status;
}

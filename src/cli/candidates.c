#include "cli/candidates.h"

#include <glib.h>
#include <string.h>

#include "cli/project.h"
#include "logs/import.h"
#include "logs/join.h"
#include "logs/stanzas.h"
#include "model/programme.h"
#include "plan/plan_files.h"

void candidate_add(struct arena *arena, struct candidates *candidates, const struct candidate *candidate)
{
    candidates->items = arena_grow(arena, candidates->items, candidates->count, &candidates->capacity,
                                   sizeof *candidates->items);
    candidates->items[candidates->count++] = *candidate;
}

static bool is_left(const struct candidate *candidate)
{
    return !candidate->there && !candidate->refused && *candidate->text;
}

/* --- what there is --- */

struct there {
    const struct stanza *stanza;
    const char *file;
};

struct comparing {
    struct arena *arena;
    const struct phrasebook *phrases;
    GHashTable *logs; /* struct there, by key */
};

static void add_file(const struct comparing *comparing, const struct source *source)
{
    const struct stanzas stanzas = stanzas_of(comparing->arena, source->text, source->length);
    for (size_t i = 0; i < stanzas.count; i++) {
        if (!stanzas.items[i].log || g_hash_table_contains(comparing->logs, stanzas.items[i].key))
            continue;
        struct there *there = arena_alloc(comparing->arena, sizeof *there);
        *there = (struct there){&stanzas.items[i], source->name};
        g_hash_table_insert(comparing->logs, (void *)there->stanza->key, there);
    }
}

static void add_appended(const struct comparing *comparing, const char *path)
{
    struct sources *sources = arena_alloc(comparing->arena, sizeof *sources);
    const char *wrong;
    sources->arena = comparing->arena;
    int file = path ? source_read(sources, path, path, &wrong) : -1;
    if (file >= 0)
        add_file(comparing, &sources->items[file]);
}

/* The line of STANZA on which the log itself starts, below comments. */
static unsigned log_line(const struct stanza *stanza)
{
    unsigned line = stanza->line;
    for (const char *at = stanza->text; *at == '#'; line++)
        at += strcspn(at, "\n") + 1;
    return line;
}

static const char *there_words(struct arena *arena, const struct there *there)
{
    if (!there->file)
        return "the same log stands above and says something else";
    const char *how = there->stanza->filled ? "says something else" : "has not been filled in: remove it there first";
    return arena_printf(arena, "%s:%u has a log of the same already, and it %s", there->file, log_line(there->stanza), how);
}

/* What is in the text twice is compared with the first. */
static void remember(const struct comparing *comparing, const struct stanzas *own)
{
    if (own->count != 1 || !own->items[0].log)
        return;
    struct there *there = arena_alloc(comparing->arena, sizeof *there);
    *there = (struct there){&own->items[0], NULL};
    g_hash_table_insert(comparing->logs, (void *)there->stanza->key, there);
}

static void compare(const struct comparing *comparing, struct candidate *candidate)
{
    struct arena *arena = comparing->arena;
    const struct stanzas own = stanzas_of(arena, candidate->text, strlen(candidate->text));
    const struct there *there = own.count ? g_hash_table_lookup(comparing->logs, own.items[0].key) : NULL;
    if (!there) {
        remember(comparing, &own);
        return;
    }
    candidate->there = join_same(arena, comparing->phrases, there->stanza->text, there->stanza->length, own.items[0].text,
                                 own.items[0].length);
    if (candidate->there)
        return;
    const char *words = there_words(arena, there);
    candidate->refused = words;
    if (candidate->log)
        imported_drop(arena, candidate->log, candidate->log->rows[0], words);
}

void candidates_compare(struct project *project, const char *append, const struct phrasebook *phrases,
                        struct candidates *candidates)
{
    const struct comparing comparing = {project->arena, phrases, g_hash_table_new(g_str_hash, g_str_equal)};
    for (size_t i = 0; i < project->sources.count; i++)
        if (!project->sources.items[i].shelf)
            add_file(&comparing, &project->sources.items[i]);
    add_appended(&comparing, append);
    for (size_t i = 0; i < candidates->count; i++)
        if (is_left(&candidates->items[i]))
            compare(&comparing, &candidates->items[i]);
    g_hash_table_destroy(comparing.logs);
}

/* --- the plan with them --- */

/* A file of the plan that is sure to be read for everybody: that of a camp, or else of an athlete. */
static const struct source *host(const struct project *project)
{
    const struct programme *programme = project->programme;
    if (programme->camp_count)
        return &project->sources.items[programme->camps[0]->name.span.file];
    return programme->athlete_count ? &project->sources.items[programme->athletes[0]->name.span.file] : NULL;
}

/* Refuses CANDIDATE for the error that is OFFSET bytes into its text. */
static void refuse(struct arena *arena, struct candidate *candidate, size_t offset, const char *words)
{
    const char *line = candidate->text;
    unsigned number = 0;
    for (const char *at = candidate->text; at < candidate->text + offset; at++)
        if (*at == '\n') {
            number++;
            line = at + 1;
        }
    candidate->refused = words;
    candidate->refused_at = number;
    if (!candidate->log)
        return;
    struct table_log *at = candidate->log->rows[0];
    line += strspn(line, " ");
    for (size_t i = candidate->log->row_count; i-- > 0;) {
        const char *own = candidate->log->rows[i]->line;
        if (*own && strncmp(line, own, strlen(own)) == 0 && line[strlen(own)] == ' ')
            at = candidate->log->rows[i];
    }
    imported_drop(arena, candidate->log, at, words);
}

static void take_errors(struct arena *arena, const struct project *with, const char *path, size_t from,
                        struct candidates *candidates)
{
    for (size_t e = 0; e < with->diag->count; e++) {
        const struct finding *finding = with->diag->items[e];
        const char *where = with->sources.items[finding->span.file].path;
        if (finding->severity != SEVERITY_ERROR || finding->span.start < from || !where ||
            strcmp(plan_true_path(arena, where), path) != 0)
            continue;
        struct candidate *hit = NULL;
        for (size_t i = 0; i < candidates->count; i++)
            if (is_left(&candidates->items[i]) && candidates->items[i].start <= finding->span.start)
                hit = &candidates->items[i];
        if (hit)
            refuse(arena, hit, finding->span.start - hit->start,
                   arena_copy(arena, finding->words, strlen(finding->words)));
    }
}

bool candidates_compile(struct project *project, const struct options *options, struct candidates *candidates)
{
    const struct source *source = host(project);
    struct text bytes = {.arena = project->arena};
    struct project with;
    if (!source)
        return true;
    text_add_bytes(&bytes, source->text, source->length);
    text_add(&bytes, "\n\n");
    size_t from = bytes.length;
    for (size_t i = 0; i < candidates->count; i++) {
        if (!is_left(&candidates->items[i]))
            continue;
        candidates->items[i].start = bytes.length;
        text_add(&bytes, candidates->items[i].text);
    }
    const char *path = plan_true_path(project->arena, source->path);
    const struct overlay overlay = {.path = path, .text = text_get(&bytes), .length = bytes.length};
    bool done = bytes.length == from ||
                project_open_over(&with, options, PLAN_NEEDED, SHELF_WHOLE, &overlay, 1);
    if (done && bytes.length > from)
        take_errors(project->arena, &with, path, from, candidates);
    if (bytes.length > from)
        project_close(&with);
    return done;
}

struct text candidates_text(struct arena *arena, const struct candidates *candidates)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < candidates->count; i++)
        if (is_left(&candidates->items[i]))
            text_addf(&out, "%s%s", out.length ? "\n" : "", candidates->items[i].text);
    return out;
}

#define _XOPEN_SOURCE 700 /* realpath */

#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/diff.h"
#include "base/output.h"
#include "cli/commands.h"
#include "cli/tell.h"
#include "plan/plan_files.h"
#include "source/screen.h"
#include "syntax/format.h"

struct formatting {
    const struct options *options;
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    const struct phrasebook *phrases;
    int status; /* the worst so far */
};

static void worsen(struct formatting *formatting, int status)
{
    if (status > formatting->status)
        formatting->status = status;
}

static void cannot(void *with, const char *name, const char *why)
{
    struct formatting *formatting = with;
    tell_error("%s: %s", name, why);
    worsen(formatting, EXIT_COULD_NOT);
}

static bool is_standard(const char *path)
{
    return strcmp(path, "-") == 0;
}

/* Writes in place. A symbolic link remains one: the file that it leads to is written. */
static void write_file(struct formatting *formatting, const char *path, const struct text *out)
{
    char *real = realpath(path, NULL);
    const char *wrong = real ? output_keep(real, text_get(out), out->length) : strerror(errno);
    free(real);
    if (wrong)
        cannot(formatting, path, wrong);
}

static void show_diff(const struct source *source, const struct text *out)
{
    struct text old = {0}, diff = {0};
    text_add(&old, source->marked ? "\xef\xbb\xbf" : "");
    text_add_bytes(&old, source->text, source->length);
    diff_unified(source->name, text_get(&old), old.length, text_get(out), out->length, &diff);
    fwrite(text_get(&diff), 1, diff.length, stdout);
    text_free(&old);
    text_free(&diff);
}

/* Does with a file in canonical layout, OUT, what was asked for. */
static void hand_over(struct formatting *formatting, const char *path, const struct source *source,
                      bool changed, const struct text *out)
{
    bool only_look = formatting->options->check || formatting->options->diff;
    if (only_look && changed) {
        if (formatting->options->diff)
            show_diff(source, out);
        else
            printf("%s\n", source->name);
        worsen(formatting, EXIT_PLAN);
    } else if (!only_look && is_standard(path)) {
        fwrite(text_get(out), 1, out->length, stdout);
    } else if (!only_look && changed) {
        write_file(formatting, path, out);
    }
}

/* Continues with the next if one cannot be formatted. */
static bool format_file(void *with, const char *path, const char *real, const char *shown)
{
    (void)real;
    struct formatting *formatting = with;
    const char *name = is_standard(path) ? "<standard input>" : shown, *wrong = NULL;
    int file = source_read(&formatting->sources, path, name, &wrong);
    if (file < 0) {
        cannot(formatting, name, wrong);
        return true;
    }
    struct text out = {0};
    enum format_outcome outcome =
        format_source(formatting->arena, &formatting->sources, (unsigned)file, formatting->phrases,
                      formatting->diag, &out);
    switch (outcome) {
    case FORMAT_SAME:
    case FORMAT_CHANGED:
        hand_over(formatting, path, &formatting->sources.items[file], outcome == FORMAT_CHANGED,
                  &out);
        break;
    case FORMAT_FAULTY:
        worsen(formatting, EXIT_PLAN);
        break;
    case FORMAT_UNPROVEN:
        cannot(formatting, name,
               "left as it is, because its new layout would not mean the same; this is a fault in bellsheet");
    }
    text_free(&out);
    return true;
}

/* A file, or every plan in a folder. */
static void format_path(struct formatting *formatting, const char *path)
{
    const char *shown = plan_shown(formatting->arena, path);
    struct plan_files files = {.arena = formatting->arena, .folders = g_hash_table_new(g_str_hash, g_str_equal),
                               .root = plan_root(formatting->arena, path), .take = format_file, .cannot = cannot,
                               .with = formatting};
    if (plan_files_walk(&files, shown, plan_true_path(formatting->arena, shown), shown) && !files.met)
        cannot(formatting, shown, "no plan in this folder (plans end in .bell)");
    g_hash_table_destroy(files.folders);
}

static void show_findings(const struct formatting *formatting)
{
    struct diag_style style = {.color = formatting->options->color};
    struct text out = {0};
    diag_sort(formatting->diag);
    diag_print(formatting->diag, &style, &out);
    fwrite(text_get(&out), 1, out.length, stderr);
    text_free(&out);
}

int command_format(const struct options *options)
{
    if (options->path_count == 0) {
        tell_error("format takes the names of files and folders, or - for standard input");
        return EXIT_COULD_NOT;
    }
    struct arena *arena = arena_new();
    struct formatting formatting = {
        .options = options, .arena = arena, .sources = {.arena = arena}};
    formatting.diag = diag_new(arena, &formatting.sources);
    formatting.phrases = phrasebook_new(arena);
    for (int i = 0; i < options->path_count; i++)
        format_path(&formatting, options->paths[i]);
    show_findings(&formatting);
    if (fflush(stdout) != 0 || ferror(stdout))
        cannot(&formatting, "standard output", strerror(errno));
    arena_free(arena);
    return formatting.status;
}

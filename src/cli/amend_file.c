#define _XOPEN_SOURCE 700 /* realpath */

#include "cli/amend_file.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/diff.h"
#include "base/output.h"
#include "cli/commands.h"
#include "cli/tell.h"
#include "plan/plan_files.h"

static void add_bytes(const struct source *source, const char *bytes, size_t length, struct text *out)
{
    text_add(out, source->marked ? "\xef\xbb\xbf" : "");
    text_add_bytes(out, bytes, length);
}

bool amend_is_asked_well(const struct options *options)
{
    if (options->patch && options->apply)
        tell_error("--patch prints a change and --apply makes it: choose one");
    else if (options->apply && options->path_count && strcmp(options->paths[0], "-") == 0)
        tell_error("standard input cannot be changed: give the plan as a file or folder");
    else
        return true;
    return false;
}

void amend_print_patch(const struct project *project, const struct amended *amended)
{
    const struct source *source = &project->sources.items[amended->file];
    struct text old = {0}, new = {0}, diff = {0};
    add_bytes(source, source->text, source->length, &old);
    add_bytes(source, text_get(&amended->bytes), amended->bytes.length, &new);
    diff_unified(source->given, text_get(&old), old.length, text_get(&new), new.length, &diff);
    const char *hunks = strstr(text_get(&diff), "\n@@ "), *name = source->given;
    while (strncmp(name, "./", 2) == 0)
        name += 2;
    if (hunks)
        printf("--- a/%s\n+++ b/%s%s", name, name, hunks);
    text_free(&old);
    text_free(&new);
    text_free(&diff);
}

int amend_write(const struct project *project, const struct amended *amended)
{
    const struct source *source = &project->sources.items[amended->file];
    struct text bytes = {0};
    char *real = realpath(source->path, NULL);
    add_bytes(source, text_get(&amended->bytes), amended->bytes.length, &bytes);
    const char *wrong = real ? output_keep(real, text_get(&bytes), bytes.length) : strerror(errno);
    if (wrong)
        tell_error("%s: %s", source->name, wrong);
    else
        printf("%s\n", source->name);
    text_free(&bytes);
    free(real);
    return wrong ? EXIT_COULD_NOT : EXIT_CLEAN;
}

/* The file of PROJECT at the true path PATH. */
static unsigned file_at(struct project *project, const char *path)
{
    unsigned file = 0;
    while (file + 1 < project->sources.count
           && (project->sources.items[file].shelf
               || strcmp(plan_true_path(project->arena, project->sources.items[file].path), path) != 0))
        file++;
    return file;
}

int amend_hand_over(struct project *project, const struct options *options, const struct attempt *attempt)
{
    int status = EXIT_CLEAN;
    for (size_t i = 0; i < attempt->request.overlay_count && status == EXIT_CLEAN; i++) {
        const struct overlay *overlay = &attempt->request.overlays[i];
        struct amended amended = {file_at(project, overlay->path), {.arena = project->arena}};
        text_add_bytes(&amended.bytes, overlay->text, overlay->length);
        if (options->patch)
            amend_print_patch(project, &amended);
        else
            status = amend_write(project, &amended);
    }
    return status;
}

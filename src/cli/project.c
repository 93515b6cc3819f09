#include "cli/project.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/commands.h"
#include "cli/explain_page.h"
#include "cli/tell.h"
#include "export/export.h"
#include "source/screen.h"

struct project_request project_request_of(struct arena *arena, const struct options *options, enum plan_wish wish)
{
    static const char *const here[] = {"."};
    struct project_request request = {.share = share_folder(arena), .paths = here, .path_count = 1,
                                      .today = options->today, .wish = wish};
    if (options->path_count) {
        request.paths = options->paths;
        request.path_count = (size_t)options->path_count;
    }
    return request;
}

bool project_open(struct project *project, const struct options *options, enum plan_wish wish)
{
    return project_open_over(project, options, wish, SHELF_WHOLE, NULL, 0);
}

bool project_open_over(struct project *project, const struct options *options, enum plan_wish wish, enum shelf_wish shelf,
                       const struct overlay *overlays, size_t count)
{
    bool loaded = project_open_quietly(project, options, wish, shelf, overlays, count);
    if (!loaded)
        project_tell_failure(project);
    return loaded;
}

bool project_open_quietly(struct project *project, const struct options *options, enum plan_wish wish,
                          enum shelf_wish shelf, const struct overlay *overlays, size_t count)
{
    struct arena *arena = arena_new();
    struct project_request request = project_request_of(arena, options, wish);
    request.shelf = shelf;
    request.overlays = overlays;
    request.overlay_count = count;
    return project_load(project, arena, &request);
}

void project_tell_failure(const struct project *project)
{
    bool shelf = share_folder(project->arena) != NULL;
    tell_error("%s: %s", shelf ? project->failure.path : BELL_SHARE_DIR, project->failure.why);
}

void project_close(struct project *project)
{
    arena_free(project->arena);
}

const char *project_version(const struct project *project, const struct options *options)
{
    return options->revision ? options->revision : project_hash(project);
}

static void print_summary(const struct diag *diag, FILE *out)
{
    size_t errors = diag_count(diag, SEVERITY_ERROR), warnings = diag_count(diag, SEVERITY_WARNING);
    if (errors || warnings)
        fprintf(out, "%zu error%s, %zu warning%s\n", errors, errors == 1 ? "" : "s", warnings,
                warnings == 1 ? "" : "s");
}

int project_verdict(struct project *project, const struct options *options)
{
    struct diag *diag = project->diag;
    diag_sort(diag);
    struct text out = {0};
    const struct export_format *format = export_format_find(options->format);
    if (format) {
        struct export_context context = {.version = BELL_VERSION, .prefix = options->prefix,
                                         .infos = options->infos, .private = options->private,
                                         .describe = explain_describe};
        format->write(diag, &context, &out);
        fwrite(text_get(&out), 1, out.length, stdout);
    } else {
        struct diag_style style = {.color = options->color, .infos = options->infos,
                                   .notes = options->notes, .most = (size_t)options->max_errors};
        diag_print(diag, &style, &out);
        fwrite(text_get(&out), 1, out.length, stderr);
        print_summary(diag, stderr);
    }
    text_free(&out);
    if (fflush(stdout) != 0) {
        tell_error("standard output: %s", strerror(errno));
        return EXIT_COULD_NOT;
    }
    bool failed = diag_count(diag, SEVERITY_ERROR) || (options->strict && diag_count(diag, SEVERITY_WARNING));
    return failed ? EXIT_PLAN : EXIT_CLEAN;
}

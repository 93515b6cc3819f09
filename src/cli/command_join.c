/* `bellsheet join`: git's merge driver for files of logs. OURS becomes what both versions have. */
#define _XOPEN_SOURCE 700 /* realpath */

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "cli/commands.h"
#include "cli/tell.h"
#include "logs/join.h"
#include "source/source.h"
#include "syntax/read.h"

enum { BASE, OURS, THEIRS, VERSIONS };

struct versions {
    struct sources sources;
    struct join_side sides[VERSIONS];
    bool marked; /* OURS starts with a byte order mark */
};

static bool complain(const char *path, const char *why)
{
    tell_error("%s: %s", path, why);
    return false;
}

/* Reads the three files; false, with a message, if one cannot be joined. */
static bool read_versions(struct versions *versions, const char *const *paths)
{
    for (int i = 0; i < VERSIONS; i++) {
        const char *wrong = NULL;
        size_t fault_length;
        int file = strcmp(paths[i], "-") == 0 ? -1 : source_read(&versions->sources, paths[i], paths[i], &wrong);
        if (file < 0)
            return complain(paths[i], wrong ? wrong : "join reads three files, and nothing from standard input");
        const struct source *source = &versions->sources.items[file];
        if (text_first_fault(source->text, source->length, &wrong, &fault_length) < source->length)
            return complain(paths[i], "this is no text that can be joined");
        versions->sides[i] = (struct join_side){source->text, source->length};
        versions->marked = i == OURS ? source->marked : versions->marked;
    }
    return true;
}

static bool write_ours(struct arena *arena, const char *path, bool marked, const struct text *out)
{
    struct text bytes = {.arena = arena};
    char *real = realpath(path, NULL);
    text_add(&bytes, marked ? "\xef\xbb\xbf" : "");
    text_add_bytes(&bytes, text_get(out), out->length);
    const char *wrong = real ? output_keep(real, text_get(&bytes), bytes.length) : strerror(errno);
    free(real);
    return wrong ? complain(path, wrong) : true;
}

static int join_files(struct arena *arena, const char *const *paths)
{
    struct versions versions = {.sources = {.arena = arena}};
    if (!read_versions(&versions, paths))
        return EXIT_COULD_NOT;
    struct joined joined = join(arena, phrasebook_new(arena), &versions.sides[BASE], &versions.sides[OURS],
                                &versions.sides[THEIRS]);
    if (!write_ours(arena, paths[OURS], versions.marked, &joined.out))
        return EXIT_COULD_NOT;
    for (size_t i = 0; i < joined.conflict_count; i++)
        tell_error("%s:%u: `%s` was changed in both versions: keep one of the two between the marks", paths[OURS],
                   joined.conflicts[i].line, joined.conflicts[i].title);
    return joined.conflict_count ? EXIT_PLAN : EXIT_CLEAN;
}

int command_join(const struct options *options)
{
    if (options->path_count != VERSIONS) {
        tell_error("join takes three files: what both versions come from, ours, and theirs");
        return EXIT_COULD_NOT;
    }
    struct arena *arena = arena_new();
    int status = join_files(arena, options->paths);
    arena_free(arena);
    return status;
}

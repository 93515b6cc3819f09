#define _XOPEN_SOURCE 700 /* realpath */

#include "cli/append.h"

#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "cli/commands.h"
#include "cli/tell.h"
#include "source/source.h"

static bool has_carriage_returns(const char *old)
{
    const char *end = strchr(old, '\n');
    return end && end > old && end[-1] == '\r';
}

/* OLD with STANZAS below it. */
static void put_together(const char *old, size_t length, const struct text *stanzas, struct text *out)
{
    const char *end = has_carriage_returns(old) ? "\r\n" : "\n";
    text_add_bytes(out, old, length);
    if (length && old[length - 1] != '\n')
        text_add(out, end);
    if (length)
        text_add(out, end);
    for (const char *line = text_get(stanzas); *line;) {
        size_t bytes = strcspn(line, "\n");
        text_add_bytes(out, line, bytes);
        text_add(out, end);
        line += bytes + (line[bytes] == '\n');
    }
}

/* The bytes of PATH, none if it is missing. NULL with *WRONG set where they cannot be had. */
static char *read_old(struct arena *arena, const char *path, size_t *length, const char **wrong)
{
    *length = 0;
    if (g_file_test(path, G_FILE_TEST_EXISTS))
        return source_bytes(arena, path, length, wrong);
    return arena_copy(arena, "", 0);
}

int append_stanzas(const char *path, const struct text *stanzas, bool alone)
{
    struct arena *arena = arena_new();
    struct text out = {.arena = arena};
    size_t length;
    const char *wrong = NULL, *old = read_old(arena, path, &length, &wrong);
    if (old) {
        char *real = realpath(path, NULL);
        put_together(old, length, stanzas, &out);
        if (out.length > SOURCE_LARGEST)
            wrong = SOURCE_TOO_LARGE;
        else if (alone && !real)
            wrong = output_keep_private(path, text_get(&out), out.length);
        else
            wrong = output_keep(real ? real : path, text_get(&out), out.length);
        free(real);
    }
    if (wrong)
        tell_error("%s: %s", path, wrong);
    else
        puts(path);
    arena_free(arena);
    return wrong ? EXIT_COULD_NOT : EXIT_CLEAN;
}

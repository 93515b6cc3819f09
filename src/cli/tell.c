#include "cli/tell.h"

#include <stdarg.h>
#include <stdio.h>

#include "base/text.h"

void tell_error(const char *format, ...)
{
    struct arena *arena = arena_new();
    va_list args;
    va_start(args, format);
    const char *words = arena_vprintf(arena, format, args);
    va_end(args);
    fprintf(stderr, "bellsheet: error: %s\n", text_shown(arena, words));
    arena_free(arena);
}

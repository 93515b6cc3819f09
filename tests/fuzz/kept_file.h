/* kept_file.h - where the files are that a fuzzer reads besides its input: the shelf and an example. */
#ifndef BELL_FUZZ_KEPT_FILE_H
#define BELL_FUZZ_KEPT_FILE_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "plan/plan_files.h"

/* The true path of the file or folder NAME of this repository, in ARENA: in the current folder, or beside the fuzzer, where a
 * service that runs fuzzers puts it, from wherever it starts them. Without it a fuzzer would find nothing: so it ends. */
static inline const char *kept_file(struct arena *arena, const char *name)
{
    char program[4096];
    if (access(name, R_OK) == 0)
        return plan_true_path(arena, name);
    ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
    program[length > 0 ? length : 0] = '\0';
    char *end = strrchr(program, '/');
    const char *path = arena_printf(arena, "%.*s/%s", end ? (int)(end - program) : 0, program, name);
    if (access(path, R_OK) == 0)
        return path;
    fprintf(stderr, "%s is neither in the current folder nor beside this fuzzer\n", name);
    abort();
}

#endif

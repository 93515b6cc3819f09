/* git.h - asks the program git, by fixed command lines: no shell, and no program that a repository names. */
#ifndef BELL_CLI_GIT_H
#define BELL_CLI_GIT_H

#include <stdbool.h>

#include "base/text.h"
#include "plan/plan.h"

struct git {
    struct arena *arena;
    const char *top;  /* true path of the working tree */
    const char *asks; /* who asks, for messages: "--staged" */
};

/* A plan file: the name of its bytes, and its path from the top. */
struct git_file {
    const char *object, *path;
};

/* What to lay over a folder so that its plans are as git has them. */
struct overlays {
    struct overlay *items;
    size_t count, capacity;
};

void overlays_add(struct arena *arena, struct overlays *overlays, struct overlay overlay);

/* What `git -C TOP WORDS...` prints, in the arena; it reads from the descriptor INPUT, or nothing if that is -1.
 * False if it fails; git itself has then said why, unless git is missing. */
bool git_ask(const struct git *git, const char *const *words, int input, struct text *out);

/* The same, without a message of its own if it fails. */
bool git_ask_quietly(const struct git *git, const char *const *words, struct text *out);

/* Finds the top of the repository that the current folder is in. */
bool git_find_top(struct git *git);

/* The bytes of COUNT files, as overlays; unless ALL, without those that are the same in the folder. */
bool git_read_files(const struct git *git, const struct git_file *files, size_t count, bool all, struct overlays *overlays);

#endif

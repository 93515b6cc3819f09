/* plan_files.h - the plan files of a path, in folders and without: which they are is the same for every command. */
#ifndef BELL_PLAN_PLAN_FILES_H
#define BELL_PLAN_PLAN_FILES_H

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

struct plan_files {
    struct arena *arena;
    GHashTable *folders; /* true paths of those that were walked: links that lead around are followed once */
    const char *root;    /* true path of the folder that no link may lead out of; NULL: there is none such */
    size_t met;          /* files come across */
    /* Is given each file: PATH to open it, its true path and what messages call it. False ends the walk. */
    bool (*take)(void *with, const char *path, const char *real, const char *shown);
    /* Is told what could not be walked; the walk ends. */
    void (*cannot)(void *with, const char *shown, const char *why);
    void *with;
};

/* Where PATH really is, or would be in a folder that is there; "-" for standard input, or PATH itself if that cannot
 * be found out. */
const char *plan_true_path(struct arena *arena, const char *path);

/* The true path of the folder that a plan given as PATH belongs to: itself, or that of a file, where a file that is a link
 * belongs where the link is. */
const char *plan_root(struct arena *arena, const char *path);

/* The true path of the folder that a plan whose folder is ROOT may read: that, or the folder above it where a file
 * `club.bell` makes it a club's, with a folder for each season. */
const char *plan_reach(struct arena *arena, const char *root);

/* Is what is at the true path REAL inside the folder ROOT? */
bool plan_is_inside(const char *root, const char *real);

/* Does NAME end as that of a plan does? */
bool plan_is_name(const char *name);

/* PATH without slashes at its end: `gym/` and `gym` are shown alike. */
const char *plan_shown(struct arena *arena, const char *path);

/* Takes the file PATH, whose true path is REAL, or every plan in the folder PATH and below it, in the order of their names. */
bool plan_files_walk(struct plan_files *files, const char *path, const char *real, const char *shown);

#endif

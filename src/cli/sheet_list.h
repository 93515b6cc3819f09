/* sheet_list.h - what `print` made in a folder: the file sheets.json there, by which it prints only what changed, and
 * knows what of it no longer holds. */
#ifndef BELL_CLI_SHEET_LIST_H
#define BELL_CLI_SHEET_LIST_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

/* What the layout could not do well, so that it is said again of a sheet that is not made again. */
struct listed_problem {
    const char *words; /* a letter for its kind, then the words */
    const char *help;  /* or NULL */
};

struct listed_sheet {
    const char *name;    /* of its first file */
    const char *sheet;   /* "wall"; "index" is the page of cards */
    const char *plan;    /* that it is of: two plans may share a folder, and neither removes the other's */
    const char *version; /* "": it is about to be made */
    const char *title;
    int pages;
    const char *athlete; /* whom it was asked for, of a sheet that would show others; or NULL */
    bool coach, private; /* the coach's own; with what only private files have */
    const char *form;    /* paper and the like */
    const struct listed_problem *problems;
    size_t problem_count;
    bool seen;           /* in this run */
};

struct sheet_list {
    struct arena *arena;
    struct listed_sheet *items;
    size_t count, capacity;
};

#define SHEET_LIST_NAME "sheets.json"

/* Reads the list in FOLDER; an empty one where there is none. Returns NULL, or why it cannot be read. */
const char *sheet_list_read(struct sheet_list *list, struct arena *arena, const char *folder);

/* The entry called NAME, or NULL; of sheet_list_put one is added if there is none. Entries move when one is added. */
struct listed_sheet *sheet_list_find(const struct sheet_list *list, const char *name);
struct listed_sheet *sheet_list_put(struct sheet_list *list, const char *name);

/* Writes it to FOLDER, unless the same bytes stand there, and removes one that says nothing: NULL, or what went wrong. */
const char *sheet_list_write(const struct sheet_list *list, const char *folder);

/* The name of file NUMBER (from 1) of SHEET: those of an SVG are one a page, and it has as many as pages; else one. */
const char *listed_file(struct arena *arena, const struct listed_sheet *sheet, int number);
int listed_files(const struct listed_sheet *sheet);

/* Are all its files in FOLDER? */
bool listed_is_there(struct arena *arena, const struct listed_sheet *sheet, const char *folder);

/* Removes its files beyond the first KEPT. */
void listed_remove(struct arena *arena, const struct listed_sheet *sheet, int kept, const char *folder);

#endif

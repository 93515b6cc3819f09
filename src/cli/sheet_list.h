/* sheet_list.h - what `print` made in a folder. The file sheets.json there lets it print only what changed, and
 * shows what is out of date. */
#ifndef BELL_CLI_SHEET_LIST_H
#define BELL_CLI_SHEET_LIST_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

/* What the layout could not do well, so that it can be reported again for a sheet that is not made again. */
struct listed_problem {
    const char *words; /* a letter for its kind, then the words */
    const char *help;  /* or NULL */
};

struct listed_sheet {
    const char *name;    /* of its first file */
    const char *sheet;   /* "wall"; "index" is the page of cards */
    const char *plan;    /* its plan: two may share a folder, and neither removes the other's sheets */
    const char *version; /* "": it is about to be made */
    const char *title;
    int pages;
    const char *athlete; /* for whom it was asked, if the sheet would otherwise show others too; or NULL */
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

/* Reads the list in FOLDER; an empty one if there is none. Returns NULL, or why it cannot be read. */
const char *sheet_list_read(struct sheet_list *list, struct arena *arena, const char *folder);

/* The entry called NAME, or NULL; sheet_list_put adds one if there is none. Entries move when one is added. */
struct listed_sheet *sheet_list_find(const struct sheet_list *list, const char *name);
struct listed_sheet *sheet_list_put(struct sheet_list *list, const char *name);

/* Writes it to FOLDER, unless the same bytes are there, and removes an empty list. Returns NULL, or what went wrong. */
const char *sheet_list_write(const struct sheet_list *list, const char *folder);

/* The name of file NUMBER (from 1) of SHEET: an SVG sheet has a file for each page, any other has one. */
const char *listed_file(struct arena *arena, const struct listed_sheet *sheet, int number);
int listed_files(const struct listed_sheet *sheet);

/* Are all its files in FOLDER? */
bool listed_is_there(struct arena *arena, const struct listed_sheet *sheet, const char *folder);

/* Removes its files beyond the first KEPT. */
void listed_remove(struct arena *arena, const struct listed_sheet *sheet, int kept, const char *folder);

#endif

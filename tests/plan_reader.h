/* plan_reader.h - plans read and resolved as the program does it, for tests: from files below the
 * top of the checkout, from texts, with the shelf or without. */
#ifndef BELL_TESTS_PLAN_READER_H
#define BELL_TESTS_PLAN_READER_H

#include <glob.h>
#include <stdio.h>
#include <string.h>

#include "resolve/resolve.h"
#include "source/screen.h"
#include "syntax/read.h"

enum { PLAN_READER_MOST = 200 };

struct plan_reader {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    const struct phrasebook *book;
    struct tree *trees[PLAN_READER_MOST];
    size_t count;
    struct programme *programme;
};

static inline void plan_reader_open(struct plan_reader *reader)
{
    *reader = (struct plan_reader){.arena = arena_new()};
    reader->sources.arena = reader->arena;
    reader->diag = diag_new(reader->arena, &reader->sources);
    reader->book = phrasebook_new(reader->arena);
}

static inline void plan_reader_close(struct plan_reader *reader)
{
    arena_free(reader->arena);
}

static inline void plan_reader_tree(struct plan_reader *reader, unsigned file)
{
    assert_true(reader->count < PLAN_READER_MOST);
    reader->trees[reader->count++] =
        read_file(reader->arena, &reader->sources, file, reader->book, reader->diag);
}

static inline void plan_reader_text(struct plan_reader *reader, const char *name, const char *text,
                                    size_t length)
{
    plan_reader_tree(reader, (unsigned)source_add(&reader->sources, name, text, length));
}

static inline void plan_reader_file(struct plan_reader *reader, const char *path, bool shelf)
{
    const char *wrong = NULL;
    int file = source_read(&reader->sources, path, path, &wrong);
    if (wrong)
        fprintf(stderr, "%s: %s\n", path, wrong);
    assert_true(file >= 0);
    reader->sources.items[file].shelf = shelf;
    plan_reader_tree(reader, (unsigned)file);
}

static inline void plan_reader_shelf(struct plan_reader *reader)
{
    static const char *const rooms[] = {"exercises", "activities", "rounds", "limits", "return"};
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++) {
        glob_t found;
        const char *pattern = arena_printf(reader->arena, "share/%s/*.bell", rooms[i]);
        assert_int_equal(glob(pattern, 0, NULL, &found), 0);
        for (size_t k = 0; k < found.gl_pathc; k++)
            plan_reader_file(reader, found.gl_pathv[k], true);
        globfree(&found);
    }
}

static inline void plan_reader_resolve(struct plan_reader *reader)
{
    reader->programme = programme_resolve(reader->arena, &reader->sources, reader->trees,
                                          reader->count, 0, reader->diag);
}

/* What was found wrong, on standard error. */
static inline void plan_reader_tell(struct plan_reader *reader)
{
    struct text findings = {0};
    diag_sort(reader->diag);
    diag_print(reader->diag, &(struct diag_style){0}, &findings);
    fputs(text_get(&findings), stderr);
    text_free(&findings);
}

#endif

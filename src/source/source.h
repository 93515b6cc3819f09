/* source.h - the files of one compile, and places in them.
 *
 * Every token, node and finding keeps a span: which file, and which bytes of it. Lines and columns are worked
 * out only when a message is shown. */
#ifndef BELL_SOURCE_SOURCE_H
#define BELL_SOURCE_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

/* Bytes START up to, not including, END of file FILE (an index into the set). */
struct span {
    uint32_t file, start, end;
};

/* The same where the file is known. */
struct extent {
    uint32_t start, end;
};

struct source {
    const char *name;    /* as shown in messages and reports: relative to the folder the command was given, see text_shown */
    const char *given;   /* the same name with all its bytes, as the file system has it */
    const char *path;    /* as opened */
    const char *text;    /* LENGTH bytes and a NUL; a byte order mark is already skipped */
    size_t length;
    const uint32_t *lines; /* offsets at which lines start; line 1 is lines[0] */
    size_t line_count;
    bool marked;         /* a byte order mark was skipped */
    long version;        /* of the bytes laid over the file; -1: the bytes are its own */
    bool shelf;          /* part of the shelf that comes with the program */
};

struct sources {
    struct arena *arena;
    struct source *items;
    size_t count, capacity;
};

enum { SOURCE_LARGEST = 8 * 1024 * 1024 }; /* bytes; a plan of a whole club is well under 1 MB */
#define SOURCE_TOO_LARGE "larger than 8 MiB, the most that one plan file may hold"

/* Reads PATH ("-" is standard input) and adds it under NAME. Returns its index, or -1 with *WRONG set to the
 * cause: not readable, a folder, or larger than SOURCE_LARGEST. */
int source_read(struct sources *sources, const char *path, const char *name, const char **wrong);

/* The same, without its lines: they are found by source_find_lines, before anybody asks for one. */
int source_load(struct sources *sources, const char *path, const char *name, const char **wrong);
void source_find_lines(struct sources *sources, unsigned file);

/* The bytes of the file PATH, in ARENA, with a NUL behind them; NULL with *WRONG set, as above. */
char *source_bytes(struct arena *arena, const char *path, size_t *length, const char **wrong);

/* Adds TEXT (copied) as a file called NAME. Returns its index. */
int source_add(struct sources *sources, const char *name, const char *text, size_t length);

/* Adds SOURCE, whose texts live elsewhere, and longer. Returns its index. */
int source_share(struct sources *sources, const struct source *source);

/* The line (from 1) that contains byte OFFSET. */
unsigned source_line(const struct source *source, size_t offset);

/* The bytes of line LINE without its line end; *LENGTH is set. */
const char *source_line_text(const struct source *source, unsigned line, size_t *length);

#endif

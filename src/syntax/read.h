/* read.h - from a file's bytes to its tree. */
#ifndef BELL_SYNTAX_READ_H
#define BELL_SYNTAX_READ_H

#include "source/diag.h"
#include "source/source.h"
#include "syntax/tree.h"

struct phrasebook;
struct line;

/* The state of reading one file: the grammar's actions get it. */
struct reader {
    struct tree *tree;
    struct diag *diag;
    const struct source *source;
    const struct phrasebook *phrases;
    struct line *line;        /* where the grammar's tokens come from */
    enum node_kind statement; /* of the line being read */
    struct extent head;      /* its keyword as written; empty where it has none */
    bool blank_before;        /* blank lines stood above it */
    bool failed;              /* the line was reported already */
};

/* The keywords, indexed; made once a compile and shared by all its files. */
const struct phrasebook *phrasebook_new(struct arena *arena);

/* Reads file FILE of SOURCES. Faults go to DIAG; what could be read is in the tree, which lives in ARENA. */
struct tree *read_file(struct arena *arena, const struct sources *sources, unsigned file,
                       const struct phrasebook *phrases, struct diag *diag);

/* The same without what is SKIPPED, whole statements of the file. */
struct tree *read_file_without(struct arena *arena, const struct sources *sources, unsigned file, struct extent skipped,
                               const struct phrasebook *phrases, struct diag *diag);

/* The tree of a file of which nothing is read yet; and the statements that begin and end at PLACE, read into it. Their bytes
 * are known to be those of a file without a fault. */
struct tree *read_nothing(struct arena *arena, unsigned file);
void read_part(struct tree *tree, const struct sources *sources, struct extent place,
               const struct phrasebook *phrases, struct diag *diag);

/* --- for the grammar --- */

/* A statement's node. PLACE spans its line. */
struct node *reader_statement(struct reader *reader, int kind, struct extent place);

/* The node of a range written `LOW to HIGH`. */
struct node *reader_range(struct reader *reader, struct extent low_place, int64_t low,
                          struct extent high_place, int64_t high);

/* `3 weeks out` or `9 days out`. */
struct node *reader_out(struct reader *reader, struct extent place, struct node *figure, int measure);

/* An entry of a list of kit that starts with a count. */
struct node *reader_kit_entry(struct reader *reader, struct extent place, struct extent count_place,
                              int64_t count);

/* Reports what stands at PLACE where one of EXPECTED should. */
void reader_syntax_error(struct reader *reader, struct extent place, bool line_ends,
                         const char *const *expected, int count);
void reader_too_deep(struct reader *reader, struct extent place);

#endif

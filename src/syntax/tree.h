/* tree.h - a plan as written: statements, the values in their lines, and the comments between them.
 *
 * One kind of node for all. A statement's children are its values in the order written, then the statements
 * of its indented block. Every node keeps its span; nothing is resolved here. The statements and values are listed
 * in kinds.def. What a value node carries:
 *
 *   NAME TEXT         text
 *   DATE MONTH        number: day number (figures/dates.h); of a month, its first day
 *   REF               text ("A.1")        LETTER number ('A')
 *   NUMBER            number in thousandths, code 1 when it was a clock time (then thousandths of a second)
 *   RANGE             two NUMBERs         MAX, REPEAT_LAST nothing
 *   SERIES LIST       figures, week by week with `/`, set by set with `,`
 *   FIGURE            one NUMBER, RANGE, MAX, SERIES or LIST; code: enum measure
 *   PART              FIGURE; code: enum side_word     AMOUNT  PARTs; number: times before `x`, code 1: a hold
 *   DOSE              clauses             INTERVALS  DOSEs     LOGGED_SETS  DOSEs
 *   LOAD              code: enum load_word, then FIGURE / NAME / REF as it needs
 *   EFFORT            code: enum effort_word, then FIGURE
 *   TEMPO             text                REST BLOCK_REST FOR_SPAN WITHIN_SPAN  FIGURE
 *   KIT_ENTRY         number: count (0 none given), code 1: pairs; NAME and/or FIGUREs
 *   SHARE             NAME, NUMBER        DAYS  number: bits 1 << weekday, 8 for `that day`     CLOCK  number: seconds
 *   FROM_COLUMN       NUMBER              WHEN  code: enum when_word, FIGURE / NAME / DATE
 *   BY_WEEKS          code 1: of the camp, 0: met
 *   UP_TO             number; code 1: down to     ON  number: day number     BY  NAME     FROM TO UNTIL  DATE     BECAUSE  TEXT
 *   FOR_NAMES         NAMEs               SEEN  NAME, WHEN
 *   BOUND             code: enum bound_word, then FIGURE, EFFORT or nothing    TAIL  code: enum tail_word
 *   NEXT              code: enum next_word, then NUMBER or RANGE, and FIGURE, as the rule has them
 *   USE (a statement) code: USE_FAILED where its file could not be had
 *   BROKEN            among statements: a line that could not be read and was reported; code: the kind of statement
 *                     that it was to be, 0 where that is not known. What misses something looks for one first.
 */
#ifndef BELL_SYNTAX_TREE_H
#define BELL_SYNTAX_TREE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "source/source.h"

enum node_kind {
    NODE_FILE,
#define STATEMENT(id, phrases, places, form, opens) STATEMENT_##id,
#include "syntax/kinds.def"
    STATEMENT_END,
#define VALUE(id, name) NODE_##id,
#include "syntax/kinds.def"
    NODE_KIND_COUNT
};

enum measure {
    MEASURE_NONE, MEASURE_KG, MEASURE_LB, MEASURE_SECOND, MEASURE_MINUTE, MEASURE_HOUR,
    MEASURE_METRE, MEASURE_KILOMETRE, MEASURE_METRE_A_SECOND, MEASURE_NEWTON, MEASURE_WATT,
    MEASURE_CM, MEASURE_PERCENT, MEASURE_REPS, MEASURE_SETS,
    MEASURE_ROUNDS, MEASURE_STRIKES, MEASURE_CONTACTS, MEASURE_RM, MEASURE_WEEKS, MEASURE_DAYS,
    MEASURE_CLOCK /* written as minutes:seconds */
};

enum side_word {
    SIDE_WORD_NONE, SIDE_WORD_EACH_SIDE, SIDE_WORD_EACH_WAY, SIDE_WORD_EACH_STANCE, SIDE_WORD_ORTHODOX,
    SIDE_WORD_SOUTHPAW, SIDE_WORD_OWN, SIDE_WORD_SWITCHED, SIDE_WORD_LEFT, SIDE_WORD_RIGHT,
    SIDE_WORD_LEAD_HAND, SIDE_WORD_REAR_HAND, SIDE_WORD_LEAD_LEG, SIDE_WORD_REAR_LEG
};

enum load_word {
    LOAD_WORD_FIGURE,     /* 60 kg, 82%, 8RM */
    LOAD_WORD_PIECES,     /* 2 x 16 kg; number holds the 2 */
    LOAD_WORD_BODY,       /* body mass [+ FIGURE] */
    LOAD_WORD_SHARE_BODY, /* FIGURE of body mass [+ FIGURE] */
    LOAD_WORD_SHARE_REF,  /* FIGURE of REF */
    LOAD_WORD_SHARE_TEST, /* FIGURE of NAME, a test */
    LOAD_WORD_LAST,       /* last [+ FIGURE] */
    LOAD_WORD_THING       /* NAME */
};

enum effort_word {
    EFFORT_WORD_RPE, EFFORT_WORD_RESERVE, EFFORT_WORD_ALL_OUT, EFFORT_WORD_EASY, EFFORT_WORD_PULSE
};

enum when_word {
    WHEN_WEEKS,     /* FIGURE, counted from the camp's start */
    WHEN_WEEKS_OUT, /* FIGURE, counted back from the bout's week */
    WHEN_DAYS_OUT,
    WHEN_PHASE,     /* NAME */
    WHEN_EVERY_OTHER, /* [FIGURE]: from week */
    WHEN_LENGTH,    /* FIGURE with weeks or days: how long a phase is */
    WHEN_UNTIL,     /* NAME or DATE */
    WHEN_ON         /* DATE */
};

enum bound_word { BOUND_WITHIN, BOUND_AT_MOST, BOUND_AT_LEAST, BOUND_NONE };

enum next_word { NEXT_WORD_RANGE, NEXT_WORD_TWICE, NEXT_WORD_EFFORT, NEXT_WORD_LAST_SET };

enum tail_word {
    TAIL_A_SIDE, TAIL_A_WEEK, TAIL_BELOW_PEAK, TAIL_WARN, TAIL_INFO, TAIL_MUST,
    TAIL_TO_ONE /* `1.2 to 1 push`: NUMBER, NAME */
};

enum { USE_FAILED = 1 };

/* A club has a hundred thousand of them: each fills one line of the processor's cache. */
struct node {
    enum node_kind kind : 16;
    bool blank_before; /* of a statement: blank lines stood above it */
    int code;
    struct span span;
    union {
        int64_t number;
        const char *text; /* NAME, TEXT, REF: as written, ends trimmed; TEMPO: X upper case */
    };
    struct node *parent, *first, *last, *next;
};

struct comment {
    struct span span; /* from the # to the end of the line */
    bool own_line;
    bool blank_before;
};

struct tree {
    struct arena *arena;
    uint32_t file;
    struct node *root;
    struct comment *comments;
    size_t comment_count, comment_capacity;
    struct node *spare, *spare_end; /* zeroed, for nodes to come */
};

/* Gets spare nodes; for node_new. */
void tree_grow(struct tree *tree);

static inline struct node *node_new(struct tree *tree, enum node_kind kind, struct extent place)
{
    if (tree->spare == tree->spare_end)
        tree_grow(tree);
    struct node *node = tree->spare++;
    node->kind = kind;
    node->span = (struct span){tree->file, place.start, place.end};
    return node;
}

/* Adds CHILD after PARENT's last child and widens no span. Returns PARENT. CHILD may be NULL. */
struct node *node_add(struct node *parent, struct node *child);

/* Is NODE a statement (not a value, not the file)? */
bool node_is_statement(const struct node *node);

/* The first value of KIND in NODE's own line, or NULL; and the first statement of KIND in its block. */
struct node *node_find(const struct node *node, enum node_kind kind);

/* Was a line of NODE's block, or the one after it, not read? Then what NODE seems to lack may be there. */
bool node_is_broken(const struct node *node);

/* The innermost statement whose line is the last to start at or before byte OFFSET of the file whose tree is ROOT; ROOT
 * itself above the first. And the innermost value in the line of STATEMENT that contains OFFSET or ends there, or
 * NULL. */
struct node *node_statement_at(struct node *root, uint32_t offset);
struct node *node_value_at(const struct node *statement, uint32_t offset);

/* The next sibling of the same kind, or NULL. */
struct node *node_next_alike(const struct node *node);

/* The name of a kind: a statement's first phrase, a value's name. */
const char *node_kind_name(enum node_kind kind);

/* Does the tree as text hold the same statements and values as another: kinds, codes, numbers, names (white space
 * aside)? Spans and comments are not compared. */
bool node_same(const struct node *a, const struct node *b);

/* Adds the tree as indented text to OUT: one node a line, for goldens. */
struct text;
void node_dump(const struct node *node, struct text *out);

#endif

/* compare.h - what changes between two states of a plan, for whom and on which days. */
#ifndef BELL_COMPARE_COMPARE_H
#define BELL_COMPARE_COMPARE_H

#include "compare/plan_parts.h"
#include "source/diag.h"

enum change_kind { CHANGE_CAME, CHANGE_WENT, CHANGE_DIFFERS, CHANGE_MOVED };

/* One fact of a part that changes; NULL if there was none, or is none now. */
struct fact_change {
    const char *label, *aspect, *was, *is;
    bool stays; /* of a load beside a share that changes: it stays the same, which is worth saying */
};

struct plan_change {
    enum change_kind kind;
    const struct part_of_plan *old, *now; /* NULL for what came, or went */
    struct fact_change *facts;
    size_t count, capacity;
    bool with_bout;                       /* moved as its camp's bout did */
};

/* Something that has a new name and is otherwise the same. */
struct renaming {
    enum part_kind kind; /* PART_OCCASION: a session or an activity */
    const char *was, *is;
};

/* A finding that came or went, as others may read it. */
struct finding_change {
    bool came;
    const char *severity, *name, *words, *place;
    const char *met_words; /* of one that is met several times, how often in all and whose or when; or NULL */
    int times;             /* that came or went */
    bool part;             /* the other plan has it, too, but not as often */
};

enum sheet_fate { SHEET_STALE, SHEET_GONE, SHEET_NEW };

struct sheet_change {
    enum sheet_fate fate;
    const char *name, *was, *is; /* versions, or NULL */
};

struct comparison {
    struct arena *arena;
    struct plan_parts old, now;
    struct plan_change *changes; /* in the order of parts: declarations first, then by athlete and day */
    size_t count, capacity;
    struct renaming *renamings;
    size_t renaming_count, renaming_capacity;
    struct finding_change *findings; /* by place */
    size_t finding_count, finding_capacity;
    struct sheet_change *sheets;
    size_t sheet_count, sheet_capacity;
    bool partial; /* one of the plans could not be understood in full */
};

/* Compares two plans by their parts (parts_of), which become COMPARISON's. */
void compare_plans(struct comparison *comparison, struct arena *arena, const struct plan_parts *old,
                   const struct plan_parts *now);

/* Adds the findings that came and went. Both lists are sorted (diag_sort); each plan's files are named from its
 * folder, ROOT, on. */
void compare_findings(struct comparison *comparison, const struct diag *old, const char *old_root, const struct diag *now,
                      const char *now_root);

/* Adds a sheet, unless WAS and IS, its versions, are the same; NULL if the plan has no such sheet. */
void compare_sheet(struct comparison *comparison, const char *name, const char *was, const char *is);

/* Is there nothing to say? */
bool comparison_is_empty(const struct comparison *comparison);

/* The name that CHANGE uses: the new name, if the thing is renamed too. */
const struct part_of_plan *change_part(const struct plan_change *change);

/* --- as text --- */

struct compare_style {
    bool color;
};

void compare_text(const struct comparison *comparison, const struct compare_style *style, struct text *out);

/* For a comment on a change request: under 65,536 characters; what does not fit is counted. */
void compare_markdown(const struct comparison *comparison, struct text *out);

/* All of it; share/schema/diff-1.schema.json describes it. */
void compare_json(const struct comparison *comparison, const char *version, struct text *out);

#endif

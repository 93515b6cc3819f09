/* template.h - a session as declared, its names resolved and its series still open; shared by the resolve_*.c
 * files only. */
#ifndef BELL_RESOLVE_TEMPLATE_H
#define BELL_RESOLVE_TEMPLATE_H

#include "resolve/dose.h"

enum variant_kind { VARIANT_ATHLETE, VARIANT_KIT, VARIANT_AGE, VARIANT_LEVEL, VARIANT_WEEKS };

/* `for novice : 8-12 @ RPE 6`, `without landmine, band press`, `weeks 3-4 : 4 @ 85%`. */
struct variant {
    enum variant_kind kind;
    const struct athlete *athlete;
    const char *kit;                 /* folded */
    int age_from, age_below;         /* in years; 0: open */
    enum level level;
    int first, last;                 /* weeks of the camp, from 1 */
    const struct exercise *exercise; /* what is done instead, or NULL */
    const struct dose *dose;         /* parts that replace the line's own, or NULL */
    struct span span;
    bool met;                        /* it applied somewhere */
    struct variant *of;              /* in a line that is changed for one athlete: the session's own; else NULL */
    const struct athlete *met_by;    /* of whom that is noted last; see tracking.c */
};

struct template_item {
    const struct exercise *exercise;
    const struct dose *dose;
    bool filler, test;
    int round_first, round_last;
    int after;
    int index; /* from 0 in its block, as declared: it stays when another line is dropped */
    const char *ref, *cue, *stop;
    const struct next_rule *next;
    struct variant *variants;
    size_t variant_count;
    const struct substitute *without; /* of these what is done without a piece of kit */
    size_t without_count;
    struct span span;
};

struct template_block {
    enum block_kind kind;
    char letter;
    struct dose *header;
    const struct dose *poor; /* what is done on a poor day, or NULL */
    int keep;
    const char *on_purpose;
    struct template_item *items;
    size_t item_count, item_capacity;
    struct span span;
};

struct template {
    struct session *session;
    struct template_block *blocks;
    size_t block_count, block_capacity;
    const struct template *base;
    int depth;           /* how many sessions stand between it and one that is based on none */
    struct figures *rpe; /* of the whole, or NULL */
    bool reading;           /* until it is read: finds circles */
    struct template *above; /* until then: what is based on it and waits for it */
    bool reported; /* what of it was never used */
};

/* Reads what stands below the line at NODE: its own cue and stop rule, and who does it otherwise (resolve_variant.c). */
void template_read_variants(struct resolver *r, const struct node *node, struct template_item *item);

/* Reads the rule of progress at NODE, of ITEM, whose variants have been read (resolve_progress.c); NULL: none that can be
 * used. */
const struct next_rule *progress_read(struct resolver *r, const struct node *node, const struct template_item *item);

/* Reads which blocks of the session at NODE each athlete may take in an order of their own (resolve_order.c). */
void template_read_order(struct resolver *r, const struct node *node, const struct template *template);

/* The template of SESSION, read at the first call. */
struct template *template_of(struct resolver *r, struct session *session);

/* TEMPLATE with the changes, drops and additions that stand under the placing line PLACE; TEMPLATE itself where there
 * are none. */
struct template *template_changed(struct resolver *r, struct template *template,
                                        const struct node *place);

/* Does the session have the item (`A.1`) or the block (`A`) that PIECE names? Reports it where not. */
bool template_has(struct resolver *r, const struct template *template, const struct node *piece);

/* The item called REF, or NULL; and whether there is one, or a block, that PIECE names. */
const struct template_item *template_item_at(const struct template *template, const char *ref);
bool template_names(const struct template *template, const struct node *piece);

/* What an athlete does of a line on a day (resolve_choice.c). */
struct choice {
    const struct exercise *exercise;
    const struct dose *dose;
    const char *why;              /* it is not done as the line says; or NULL */
    enum exchange exchange;       /* of the exercise, the last there was */
    const struct dose_load *left; /* the load that did not go over to it, or NULL */
    bool own;                     /* so chosen for the athlete */
    struct span span;             /* of the line that says so */
};

struct choice choose_work(struct resolver *r, const struct template_item *item, const struct occasion *occasion);

/* Which exercise that comes to, for a log: nothing is reported, and no variant counts as met by it. */
const struct exercise *exercise_done(struct resolver *r, const struct template_item *item, const struct occasion *occasion);

/* Leaves out of ITEM, whose runs are settled, the repetitions that a restriction of one side bars. */
void leave_sides_out(struct resolver *r, const struct occasion *occasion, struct item *item);

/* Fills BLOCK from the line that heads it, for COLUMN of series. */
void block_settle_header(struct resolver *r, const struct template_block *from, int column, struct block *block);

/* Which kind of block such a statement heads; -1: it heads none. And how much it matters, as its line `keep` says. */
int block_kind_of(enum node_kind kind);
int block_read_keep(struct resolver *r, const struct node *statement);
/* `on a poor day  2 sets RPE 6`; NULL where it does not say how many. */
const struct dose *block_read_poor_day(struct resolver *r, const struct node *node);

/* Fills the occasion's blocks and seconds from TEMPLATE for its athlete and day. */
void occasion_settle(struct resolver *r, const struct template *template, struct occasion *occasion);

/* Warns, once, of variants that never applied and of series longer than any athlete came to use. */
void template_report_unused(struct resolver *r, struct template *template);

#endif

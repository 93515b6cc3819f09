#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "resolve/template.h"

enum { MOST_BLOCKS = 26, MOST_ITEMS = 30, MOST_ROUNDS = 100, MOST_BASES = 64 };

/* --- items --- */

static const struct exercise *find_exercise(struct resolver *r, const struct node *name)
{
    const struct exercise *exercise = names_find(r->exercises, resolver_fold(r, name));
    if (!exercise && !resolver_missing_colon(r, name, r->exercises, "the exercise and its dose"))
        resolver_unknown(r, name, "exercise", r->exercises);
    return exercise;
}

static struct template_item *add_item(struct resolver *r, struct template_block *block)
{
    block->items = arena_grow(r->arena, block->items, block->item_count, &block->item_capacity, sizeof *block->items);
    struct template_item *item = &block->items[block->item_count];
    *item = (struct template_item){.after = -1};
    return item;
}

/* "A.1" */
static const char *item_ref(struct resolver *r, char letter, size_t number)
{
    if (number > 9)
        return arena_printf(r->arena, "%c.%zu", letter, number);
    return arena_copy(r->arena, (const char[]){letter, '.', (char)('0' + number)}, 3);
}

static void number_items(struct resolver *r, struct template_block *block)
{
    for (size_t i = 0; i < block->item_count; i++) {
        struct template_item *item = &block->items[i];
        item->index = (int)i;
        item->ref = block->letter ? item_ref(r, block->letter, i + 1) : "";
    }
}

static void read_item(struct resolver *r, const struct node *node, struct template_block *block, int after)
{
    const struct node *name = node_find(node, NODE_NAME);
    const struct exercise *exercise = find_exercise(r, name);
    if (!exercise)
        return;
    if (block->item_count == MOST_ITEMS) {
        diag_error(r->diag, DIAG_TOO_MANY_ITEMS, node->span, "a block can have at most %d lines", MOST_ITEMS);
        return;
    }
    struct template_item *item = add_item(r, block);
    item->exercise = exercise;
    item->span = node->span;
    item->after = after;
    item->filler = node->kind == STATEMENT_FILLER;
    if (item->filler && block->kind != BLOCK_ROUNDS) {
        struct finding *finding = diag_error(r->diag, DIAG_FILLER_WITHOUT_ROUNDS, node->span,
                                             "a filler is done in the rests of rounds");
        diag_note(r->diag, finding, block->span, "this block is not `rounds`");
    }
    if (node->kind == STATEMENT_ROUND) {
        if (!resolver_whole_range(r, node->first, MOST_ROUNDS, "rounds", &item->round_first, &item->round_last))
            return;
        if (block->kind != BLOCK_ROUNDS)
            diag_error(r->diag, DIAG_ROUND_WITHOUT_ROUNDS, node->span, "only a block of rounds has a round");
    }
    const struct node *dose = name->next;
    if (dose && (dose->kind == NODE_DOSE || dose->kind == NODE_INTERVALS))
        item->dose = dose_read(r, dose);
    template_read_variants(r, node, item);
    const struct node *was = node_find(node, STATEMENT_SHARE_OF_BEST);
    if (was)
        diag_error(r->diag, DIAG_UNKNOWN_STATEMENT, was->span, "`was` belongs only below a line of the record");
    block->item_count++;
}

/* --- blocks --- */

int block_kind_of(enum node_kind kind)
{
    switch (kind) {
    case STATEMENT_ROUNDS: return BLOCK_ROUNDS;
    case STATEMENT_STRAIGHT: return BLOCK_STRAIGHT;
    case STATEMENT_SUPERSET: return BLOCK_SUPERSET;
    case STATEMENT_CONTRAST: return BLOCK_CONTRAST;
    case STATEMENT_COMPLEX: return BLOCK_COMPLEX;
    case STATEMENT_CIRCUIT: return BLOCK_CIRCUIT;
    case STATEMENT_CLUSTER: return BLOCK_CLUSTER;
    case STATEMENT_LADDER: return BLOCK_LADDER;
    case STATEMENT_EVERY: return BLOCK_EVERY;
    case STATEMENT_AS_MANY: return BLOCK_AS_MANY;
    case STATEMENT_FOR_TIME: return BLOCK_FOR_TIME;
    default: return -1;
    }
}

int block_read_keep(struct resolver *r, const struct node *statement)
{
    const struct figures *figures = figures_alone(r, statement->first);
    milli value = figures && figures->measure == MEASURE_NONE ? figures->values[0].low : 0;
    if (value == 1000 || value == 2000 || value == 3000)
        return (int)(value / 1000);
    diag_error(r->diag, DIAG_BAD_KEEP, statement->first->span, "how much a block matters is 1 (most), 2 or 3");
    return 0;
}

const struct dose *block_read_poor_day(struct resolver *r, const struct node *node)
{
    const struct dose *dose = dose_read(r, node->first);
    bool effort = !dose->effort.given || dose->effort.word == EFFORT_WORD_RPE;
    if (dose->sets && !dose->part_count && !dose->load.given && effort)
        return dose;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_HEADER, node->first->span,
                                         "on a poor day a block has so many sets or rounds");
    diag_help(r->diag, finding, "write it like `on a poor day 2 sets`, with an RPE if you like");
    return NULL;
}

static bool is_item(enum node_kind kind)
{
    return kind == STATEMENT_ITEM || kind == STATEMENT_FILLER || kind == STATEMENT_ROUND;
}

static void read_block(struct resolver *r, const struct node *node, struct template_block *block)
{
    const struct node *letter = node_find(node, NODE_LETTER), *header = node_find(node, NODE_DOSE);
    block->kind = (enum block_kind)block_kind_of(node->kind);
    block->letter = letter ? (char)letter->number : 0;
    block->span = node->span;
    if (header)
        block->header = dose_read(r, header);
    resolver_single(r, node, STATEMENT_KEEP);
    resolver_single(r, node, STATEMENT_POOR_DAY);
    resolver_single(r, node, STATEMENT_ON_PURPOSE);
    int after = -1;
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_KEEP) {
            block->keep = block_read_keep(r, child);
        } else if (child->kind == STATEMENT_POOR_DAY) {
            block->poor = block_read_poor_day(r, child);
        } else if (child->kind == STATEMENT_ON_PURPOSE) {
            block->on_purpose = resolver_text(child);
        } else if (child->kind == STATEMENT_AFTER) {
            after = figures_time_of(r, child->first);
        } else if (is_item(child->kind)) {
            read_item(r, child, block, after);
            after = -1;
        }
    }
    if (!block->item_count && !node_find(node, STATEMENT_ITEM) && !node_find(node, STATEMENT_ROUND) &&
        !node_is_broken(node)) {
        struct finding *finding = diag_error(r->diag, DIAG_EMPTY_BLOCK, node->span, "this block has no exercise");
        diag_help(r->diag, finding, "indent its exercises below it, or leave it out");
    }
}

/* --- sessions --- */

static struct template_block *find_block(struct template *template, char letter)
{
    for (size_t i = 0; i < template->block_count && letter; i++)
        if (template->blocks[i].letter == letter)
            return &template->blocks[i];
    return NULL;
}

static struct template_block *add_block(struct resolver *r, struct template *template)
{
    template->blocks = arena_grow(r->arena, template->blocks, template->block_count, &template->block_capacity,
                                  sizeof *template->blocks);
    template->blocks[template->block_count] = (struct template_block){0};
    return &template->blocks[template->block_count++];
}

static void copy_block(struct resolver *r, struct template_block *to, const struct template_block *from)
{
    *to = *from;
    to->items = arena_alloc(r->arena, from->item_count * sizeof *to->items);
    to->item_capacity = from->item_count;
    if (from->item_count)
        memcpy(to->items, from->items, from->item_count * sizeof *to->items);
}

static void copy_blocks(struct resolver *r, struct template *to, const struct template *from)
{
    for (size_t i = 0; i < from->block_count; i++)
        copy_block(r, add_block(r, to), &from->blocks[i]);
}

/* Blocks without a letter get the next free one; rounds may go without. */
static void letter_blocks(struct resolver *r, struct template *template)
{
    char next = 'A';
    for (size_t i = 0; i < template->block_count; i++) {
        struct template_block *block = &template->blocks[i];
        if (!block->letter && block->kind != BLOCK_ROUNDS) {
            while (next < 'Z' && find_block(template, next))
                next++;
            block->letter = next;
        }
        number_items(r, block);
    }
}

static void report_base(struct resolver *r, const struct node *based, const struct session *base, bool circle)
{
    struct finding *finding =
        circle ? diag_error(r->diag, DIAG_CIRCULAR_BASE, based->span, "this session is based on itself")
               : diag_error(r->diag, DIAG_TOO_DEEP, based->span,
                            "more than %d sessions are based on one another", MOST_BASES);
    diag_note(r->diag, finding, base->name.span, "`%s` is declared here", base->name.shown);
    if (!circle)
        diag_help(r->diag, finding, "base this one on an earlier session of the chain, or write out its blocks");
}

static void read_base(struct resolver *r, const struct node *node, struct template *template)
{
    const struct node *based = node_find(node, NODE_BASED);
    if (!based)
        return;
    struct session *base = resolver_find(r, based->first, "session", r->sessions);
    const struct template *from = base ? base->template : NULL;
    bool deep = from && from->depth == MOST_BASES, poisoned = from && resolver_is_poisoned(r, from);
    if (!from || from->reading || deep || poisoned)
        resolver_poison(r, template, based->span);
    if (!from)
        return;
    template->depth = deep ? MOST_BASES : from->depth + 1;
    if (from->reading || (deep && !poisoned))
        report_base(r, based, base, from->reading);
    if (from->reading || deep || resolver_is_too_large(r, based->span))
        return;
    template->base = from;
    base->is_base = true;
    copy_blocks(r, template, from);
    template->rpe = from->rpe;
    if (!template->session->purpose)
        template->session->purpose = base->purpose;
    if (!template->session->under)
        template->session->under = base->under;
    template->session->order = base->order;
    template->session->free_blocks = base->free_blocks;
}

static size_t item_lines(const struct node *block)
{
    size_t count = 0;
    for (const struct node *child = block->first; child; child = child->next)
        count += is_item(child->kind);
    return count;
}

static void check_filled(struct resolver *r, const struct node *node, const struct template *template)
{
    if (template->block_count || node_find(node, NODE_BASED) || resolver_is_poisoned(r, template))
        return;
    assert(node->first); /* the name */
    struct finding *finding = diag_error(r->diag, DIAG_EMPTY_SESSION, node->first->span, "this session has no block");
    diag_help(r->diag, finding, "indent its blocks below it, such as `straight A 3 sets rest 1:30`");
}

static void read_template(struct resolver *r, const struct node *node, struct template *template)
{
    if (node_is_broken(node))
        resolver_poison(r, template, node->span);
    template->session->purpose = resolver_text(resolver_single(r, node, STATEMENT_PURPOSE));
    const struct node *under = resolver_single(r, node, STATEMENT_UNDER);
    if (under)
        template->session->under = figures_time_of(r, under->first);
    read_base(r, node, template);
    const struct node *rpe = resolver_single(r, node, STATEMENT_WHOLE_RPE);
    if (rpe)
        template->rpe = figures_rpe(r, rpe);
    size_t inherited = template->block_count;
    for (const struct node *child = node->first; child; child = child->next) {
        if (block_kind_of(child->kind) < 0)
            continue;
        struct template_block block = {0};
        read_block(r, child, &block);
        if (node_is_broken(child) || block.item_count < item_lines(child))
            resolver_poison(r, template, child->span);
        struct template_block *same = find_block(template, block.letter);
        if (same && (size_t)(same - template->blocks) < inherited) {
            *same = block;
        } else if (same) {
            struct finding *finding = diag_error(r->diag, DIAG_DECLARED_TWICE, block.span,
                                                 "there are two blocks %c in this session", block.letter);
            diag_note(r->diag, finding, same->span, "the first one is here");
            diag_help(r->diag, finding, "give one of them another letter");
        } else if (template->block_count == MOST_BLOCKS) {
            diag_error(r->diag, DIAG_TOO_MANY_BLOCKS, block.span, "a session can have at most %d blocks", MOST_BLOCKS);
        } else {
            *add_block(r, template) = block;
        }
    }
    letter_blocks(r, template);
    check_filled(r, node, template);
    template_read_order(r, node, template);
    template->reading = false;
}

/* The session that SESSION says it is based on, or NULL; what is wrong with that is reported when it is read. */
static struct session *base_of(struct resolver *r, const struct session *session)
{
    const struct node *based = node_find(session->node, NODE_BASED);
    return based ? names_find(r->sessions, resolver_fold(r, based->first)) : NULL;
}

/* The bases are read before what is based on them, without recursion: a chain of them may be as long as a file. */
struct template *template_of(struct resolver *r, struct session *session)
{
    struct template *row = NULL;
    for (struct session *next = session; next && !next->template; next = base_of(r, next)) {
        struct template *template = next->template = arena_alloc(r->arena, sizeof *template);
        *template = (struct template){.session = next, .reading = true, .above = row};
        row = template;
    }
    for (; row; row = row->above)
        read_template(r, row->session->node, row);
    return session->template;
}

/* --- changes in one place --- */

static struct template_item *find_item(struct template *template, const char *ref)
{
    for (size_t b = 0; b < template->block_count; b++)
        for (size_t i = 0; i < template->blocks[b].item_count; i++)
            if (strcmp(template->blocks[b].items[i].ref, ref) == 0)
                return &template->blocks[b].items[i];
    return NULL;
}

const struct template_item *template_item_at(const struct template *template, const char *ref)
{
    return find_item((struct template *)template, ref);
}

static void no_such_piece(struct resolver *r, const struct node *piece, const struct template *template,
                          const char *what)
{
    if (resolver_is_poisoned(r, template))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ITEM, piece->span, "`%s` has no %s",
                                         template->session->name.shown, what);
    diag_note(r->diag, finding, template->session->name.span, "declared here");
}

static const char *piece_words(struct resolver *r, const struct node *piece)
{
    return piece->kind == NODE_REF ? piece->text : arena_printf(r->arena, "block %c", (char)piece->number);
}

bool template_names(const struct template *template, const struct node *piece)
{
    if (piece->kind == NODE_REF)
        return template_item_at(template, piece->text) != NULL;
    for (size_t b = 0; b < template->block_count; b++)
        if (template->blocks[b].letter == (char)piece->number)
            return true;
    return false;
}

bool template_has(struct resolver *r, const struct template *template, const struct node *piece)
{
    if (template_names(template, piece))
        return true;
    no_such_piece(r, piece, template, piece_words(r, piece));
    return false;
}

/* What is said of one athlete on one day goes before what the line says of the athlete, of a level or of weeks. */
static void change_variants(struct resolver *r, struct template_item *item, const struct dose *change)
{
    struct variant *variants = arena_alloc(r->arena, (item->variant_count + 1) * sizeof *variants);
    for (size_t i = 0; i < item->variant_count; i++) {
        variants[i] = item->variants[i];
        variants[i].of = &item->variants[i];
        if (variants[i].dose)
            variants[i].dose = dose_merge(r, variants[i].dose, change);
    }
    item->variants = variants;
}

static void apply_change(struct resolver *r, const struct node *node, struct template *template, bool own)
{
    const struct node *piece = node->first;
    const struct dose *change = dose_read(r, piece->next);
    struct template_item *item = piece->kind == NODE_REF ? find_item(template, piece->text) : NULL;
    struct template_block *block = piece->kind == NODE_LETTER ? find_block(template, (char)piece->number) : NULL;
    if (item) {
        item->dose = dose_merge(r, item->dose, change);
        item->span = node->span;
        if (own)
            change_variants(r, item, change);
    } else if (block) {
        block->header = dose_merge(r, block->header, change);
    } else {
        no_such_piece(r, piece, template, piece_words(r, piece));
    }
}

/* Items keep their numbers when another is dropped: `A.2` stays `A.2`. */
static void apply_drop(struct resolver *r, const struct node *piece, struct template *template)
{
    for (size_t b = 0; b < template->block_count; b++) {
        struct template_block *block = &template->blocks[b];
        if (piece->kind == NODE_LETTER && block->letter == (char)piece->number) {
            memmove(block, block + 1, (template->block_count - b - 1) * sizeof *block);
            template->block_count--;
            return;
        }
        for (size_t i = 0; piece->kind == NODE_REF && i < block->item_count; i++) {
            if (strcmp(block->items[i].ref, piece->text) != 0)
                continue;
            memmove(&block->items[i], &block->items[i + 1], (block->item_count - i - 1) * sizeof *block->items);
            block->item_count--;
            return;
        }
    }
    no_such_piece(r, piece, template, piece_words(r, piece));
}

static void apply_add(struct resolver *r, const struct node *node, struct template *template)
{
    const struct node *letter = node->first, *name = letter->next;
    struct template_block *block = find_block(template, (char)letter->number);
    const struct exercise *exercise = find_exercise(r, name);
    if (!block) {
        no_such_piece(r, letter, template, piece_words(r, letter));
        return;
    }
    if (!exercise)
        return;
    struct template_item *item = add_item(r, block);
    item->exercise = exercise;
    item->dose = dose_read(r, name->next);
    item->span = node->span;
    item->index = block->item_count ? item[-1].index + 1 : 0;
    item->ref = item_ref(r, block->letter, (size_t)item->index + 1);
    block->item_count++;
}

struct template *template_changed(struct resolver *r, struct template *template, const struct node *place)
{
    struct template *changed = NULL;
    for (const struct node *child = place->first; child; child = child->next) {
        if (child->kind != STATEMENT_CHANGE && child->kind != STATEMENT_DROP && child->kind != STATEMENT_ADD)
            continue;
        if (!changed && resolver_is_too_large(r, child->span))
            break;
        if (!changed) {
            changed = arena_alloc(r->arena, sizeof *changed);
            changed->session = template->session;
            changed->rpe = template->rpe;
            if (resolver_is_poisoned(r, template))
                resolver_poison(r, changed, template->session->name.span);
            copy_blocks(r, changed, template);
        }
        if (child->kind == STATEMENT_CHANGE)
            apply_change(r, child, changed, place->kind == STATEMENT_FOR_ONE);
        else if (child->kind == STATEMENT_ADD)
            apply_add(r, child, changed);
        for (const struct node *piece = child->first; piece && child->kind == STATEMENT_DROP; piece = piece->next)
            apply_drop(r, piece, changed);
    }
    return changed ? changed : template;
}

/* --- what was never used --- */

/* What stands in without a piece of kit has its use where that is there, too: `rework` takes it where too many need it. */
static void report_unused_variant(struct resolver *r, const struct variant *variant)
{
    diag_report(r->diag, variant->kind == VARIANT_KIT ? SEVERITY_INFO : SEVERITY_WARNING, DIAG_UNUSED_VARIANT, variant->span,
                "this never applies to anybody who does the session");
}

void template_report_unused(struct resolver *r, struct template *template)
{
    if (!template->reported)
        figures_report_unused(r, template->rpe);
    for (size_t b = 0; b < template->block_count && !template->reported; b++) {
        dose_report_unused(r, template->blocks[b].header);
        for (size_t i = 0; i < template->blocks[b].item_count; i++) {
            const struct template_item *item = &template->blocks[b].items[i];
            dose_report_unused(r, item->dose);
            for (size_t v = 0; v < item->variant_count; v++) {
                dose_report_unused(r, item->variants[v].dose);
                if (!item->variants[v].met && !item->variants[v].of)
                    report_unused_variant(r, &item->variants[v]);
            }
        }
    }
    template->reported = true;
}

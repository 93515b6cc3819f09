/* `any order` and `waves` below a session: which blocks may change places. */
#include "resolve/template.h"

static bool rings(const struct template_block *block)
{
    return block->kind == BLOCK_ROUNDS || block->kind == BLOCK_EVERY || block->kind == BLOCK_AS_MANY ||
           block->kind == BLOCK_FOR_TIME;
}

static const struct template_block *find_block(const struct template *template, char letter)
{
    for (size_t i = 0; i < template->block_count; i++)
        if (template->blocks[i].letter == letter)
            return &template->blocks[i];
    return NULL;
}

/* The block's bit of session.free_blocks, or 0, which is reported. */
static uint32_t read_letter(struct resolver *r, const struct node *piece, const struct template *template)
{
    const struct template_block *block =
        piece->kind == NODE_LETTER ? find_block(template, (char)piece->number) : NULL;
    if (piece->kind != NODE_LETTER)
        diag_error(r->diag, DIAG_BAD_ORDER, piece->span, "whole blocks change places: name them by their letter alone");
    else if (!block)
        template_has(r, template, piece); /* says that there is none */
    else if (rings(block))
        diag_error(r->diag, DIAG_BAD_ORDER, piece->span, "block %c runs by the bell, which rings for all at once",
                   block->letter);
    else
        return UINT32_C(1) << (block->letter - 'A');
    return 0;
}

/* Do the blocks of BITS follow one another? */
static bool are_neighbours(const struct template *template, uint32_t bits)
{
    bool begun = false, ended = false;
    for (size_t i = 0; i < template->block_count; i++) {
        char letter = template->blocks[i].letter;
        bool free = letter && bits >> (letter - 'A') & 1;
        if (free && ended)
            return false;
        ended = ended || (begun && !free);
        begun = begun || free;
    }
    return true;
}

static void read_letters(struct resolver *r, const struct node *statement, const struct template *template,
                         enum block_order order)
{
    uint32_t bits = 0;
    size_t count = 0;
    for (const struct node *piece = statement->first; piece; piece = piece->next) {
        uint32_t bit = read_letter(r, piece, template);
        if (!bit)
            return;
        count += !(bits & bit);
        bits |= bit;
    }
    if (count < 2) {
        diag_error(r->diag, DIAG_BAD_ORDER, statement->span, "one block alone has no order; name two or more");
        return;
    }
    if (!are_neighbours(template, bits)) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_ORDER, statement->span,
                                             "another block stands between these, and keeps its place");
        diag_help(r->diag, finding, "name blocks that follow one another");
        return;
    }
    template->session->order = order;
    template->session->free_blocks = bits;
}

void template_read_order(struct resolver *r, const struct node *node, const struct template *template)
{
    const struct node *any = resolver_single(r, node, STATEMENT_ANY_ORDER);
    const struct node *waves = resolver_single(r, node, STATEMENT_WAVES);
    if (resolver_is_poisoned(r, template))
        return; /* a block that seems to be missing may be in a line that was not understood */
    if (any && waves) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_ORDER, waves->span,
                                             "blocks are taken in waves or in any order, not in both");
        diag_note(r->diag, finding, any->span, "the other is here");
        return;
    }
    if (any)
        read_letters(r, any, template, ORDER_ANY);
    if (waves)
        read_letters(r, waves, template, ORDER_WAVES);
}

#include "plan/shelf_part.h"

#include <string.h>

#include "base/text.h"
#include "base/unicode.h"
#include "plan/shelf_index.h"
#include "syntax/read.h"

/* Which entries are wanted, and those whose own names are still to be followed. */
struct entries_wanted {
    struct arena *arena;
    bool *is;
    uint16_t *open;
    size_t open_count;
};

bool shelf_is_indexed(const struct shelf_part *shelf)
{
    return shelf->file_count == shelf_index.file_count &&
           shelf_hash(shelf->sources, shelf->file_count) == shelf_index.hash;
}

static void take_again(const struct shelf_part *shelf)
{
    for (size_t i = 0; i < shelf->file_count; i++)
        shelf->trees[i] = shelf->again.trees[i];
}

void shelf_read_all(const struct shelf_part *shelf)
{
    if (shelf->again.file_count && !shelf->again.entries) {
        take_again(shelf);
        return;
    }
    for (size_t i = 0; i < shelf->file_count; i++) {
        if (!shelf->sources->items[i].lines)
            source_find_lines(shelf->sources, (unsigned)i);
        shelf->trees[i] =
            read_file(shelf->sources->arena, shelf->sources, (unsigned)i, shelf->phrases, shelf->diag);
    }
}

/* --- what a plan names --- */

static void want(struct entries_wanted *wanted, uint16_t entry)
{
    if (wanted->is[entry])
        return;
    wanted->is[entry] = true;
    wanted->open[wanted->open_count++] = entry;
}

/* Wants each entry that LIST has under FOLDED. Returns whether there is one. */
static bool want_named(struct entries_wanted *wanted, const struct shelf_name *list, size_t count, const char *folded)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (strcmp(shelf_index.texts + list[middle].text, folded) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    size_t first = low;
    for (; low < count && strcmp(shelf_index.texts + list[low].text, folded) == 0; low++)
        want(wanted, list[low].entry);
    return low > first;
}

/* Does STATEMENT need the whole shelf? What somebody must not do is a share of all that there is, a step of a protocol may
 * name any kit, a record holds names behind places, and a bout is itself work of the shelf, by the clock of a rule set that
 * stands within its text. A line that could not be read may be any of these. */
static bool asks_for_all(const struct node *statement)
{
    switch ((int)statement->kind) {
    case STATEMENT_PROTOCOL:
    case STATEMENT_PRIVATE:
    case STATEMENT_AVOID:
    case STATEMENT_HOLD_HEAD:
    case STATEMENT_HEAD_KNOCK:
    case STATEMENT_SUSPENDED:
    case STATEMENT_HELD:
    case STATEMENT_BOUT:
    case NODE_BROKEN: return true;
    default: return false;
    }
}

/* The kit that NAME is, of a gym; NULL where its line lists none. Bands may be named by their strength alone. */
static const char *kit_of(struct arena *arena, const struct node *name, const char *folded)
{
    const struct node *line = name->parent;
    while (!node_is_statement(line) && line->parent)
        line = line->parent;
    if (line->kind == STATEMENT_BANDS && !strstr(folded, "band"))
        return arena_printf(arena, "%s band", folded);
    bool lists = line->kind == STATEMENT_BANDS || line->kind == STATEMENT_STATIONS || line->kind == STATEMENT_OTHER_KIT;
    return lists ? folded : NULL;
}

static const char *folded_of(struct arena *arena, const char *text)
{
    return text_is_folded(text) ? text : text_fold(arena, text, strlen(text));
}

/* Kit that no exercise needs is compared with all that some need, in the order of the exercises that need it first. */
static void want_kit(struct entries_wanted *wanted)
{
    for (size_t i = 0; i < shelf_index.kit_count; i++)
        want(wanted, shelf_index.kit[i].entry);
}

/* Wants what NODE alone names, or looks as if it named. False where it asks for all. */
static bool want_node(struct entries_wanted *wanted, const struct node *node)
{
    if (node->kind != NODE_NAME && node->kind != NODE_TEXT)
        return !asks_for_all(node);
    const char *folded = folded_of(wanted->arena, node->text), *look = unicode_look(wanted->arena, node->text);
    want_named(wanted, shelf_index.names, shelf_index.name_count, folded);
    if (look != node->text)
        want_named(wanted, shelf_index.names, shelf_index.name_count, folded_of(wanted->arena, look));
    const char *kit = kit_of(wanted->arena, node, folded);
    if (kit && !want_named(wanted, shelf_index.kit, shelf_index.kit_count, kit))
        want_kit(wanted);
    return true;
}

static const struct node *next_node(const struct node *node)
{
    if (node->first)
        return node->first;
    while (node && !node->next)
        node = node->parent;
    return node ? node->next : NULL;
}

static bool want_plan(struct entries_wanted *wanted, const struct shelf_part *shelf)
{
    for (size_t i = shelf->file_count; i < shelf->tree_count; i++)
        for (const struct node *node = shelf->trees[i]->root; node; node = next_node(node))
            if (!want_node(wanted, node))
                return false;
    return true;
}

/* Wants what the entries that are wanted name. */
static void follow(struct entries_wanted *wanted)
{
    while (wanted->open_count) {
        const struct shelf_entry *entry = &shelf_index.entries[wanted->open[--wanted->open_count]];
        for (size_t i = 0; i < entry->ref_count; i++)
            want(wanted, shelf_index.refs[entry->first_ref + i]);
    }
}

/* Reads those entries of the shelf that ARE wanted. */
static void read_entries(const struct shelf_part *shelf, const bool *are)
{
    for (size_t i = 0; i < shelf_index.entry_count; i++) {
        const struct shelf_entry *entry = &shelf_index.entries[i];
        if (!are[i])
            continue;
        if (!shelf->sources->items[entry->file].lines)
            source_find_lines(shelf->sources, entry->file);
        read_part(shelf->trees[entry->file], shelf->sources, entry->place, shelf->phrases, shelf->diag);
    }
}

const bool *shelf_read_named(const struct shelf_part *shelf)
{
    struct arena *scratch = arena_beside(shelf->sources->arena);
    const size_t size = shelf_index.entry_count * sizeof(bool);
    struct entries_wanted wanted = {.arena = scratch,
                                    .is = arena_alloc(shelf->sources->arena, size),
                                    .open = arena_alloc(scratch, shelf_index.entry_count * sizeof *wanted.open)};
    for (size_t i = 0; i < shelf_index.entry_count; i++)
        if (shelf_index.entries[i].always)
            want(&wanted, (uint16_t)i);
    bool known = want_plan(&wanted, shelf);
    follow(&wanted);
    arena_free(scratch);
    if (!known)
        return NULL;
    if (shelf->again.entries && memcmp(shelf->again.entries, wanted.is, size) == 0)
        take_again(shelf);
    else
        read_entries(shelf, wanted.is);
    return wanted.is;
}

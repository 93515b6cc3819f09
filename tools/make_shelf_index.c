/* usage: make_shelf_index SHARE - writes the table of src/plan/shelf_index.h for the shelf in the folder SHARE, as C, to
 * standard output. The build runs it, so that a new entry needs no more than its lines.
 *
 * The files are read as the program reads them. One with a fault ends the build: the index promises files without. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/unicode.h"
#include "plan/plan_files.h"
#include "plan/shelf_index.h"
#include "source/screen.h"
#include "syntax/read.h"

/* A name as it stands in the table to be, and its entry. */
struct key {
    const char *folded;
    size_t entry;
};

struct keys {
    struct key *items;
    size_t count, capacity;
};

struct entry {
    const struct node *node;
    uint32_t end;
};

struct maker {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    const struct phrasebook *phrases;
    struct entry *entries;
    size_t entry_count, entry_capacity;
    struct keys names, kit;
};

static bool fail(void *with, const char *shown, const char *why)
{
    (void)with;
    fprintf(stderr, "make_shelf_index: %s: %s\n", shown, why);
    exit(1);
}

static void cannot(void *with, const char *shown, const char *why)
{
    fail(with, shown, why);
}

static void add_key(struct maker *maker, struct keys *keys, const char *text)
{
    keys->items = arena_grow(maker->arena, keys->items, keys->count, &keys->capacity, sizeof *keys->items);
    keys->items[keys->count++] = (struct key){text_fold(maker->arena, text, strlen(text)), maker->entry_count};
}

static void add_name(struct maker *maker, const struct node *name)
{
    const char *look = unicode_look(maker->arena, name->text);
    add_key(maker, &maker->names, name->text);
    if (look != name->text)
        add_key(maker, &maker->names, look);
}

/* Adds the entry at NODE with all that it is called and needs. */
static void add_entry(struct maker *maker, const struct node *node)
{
    uint32_t end = node->next ? node->next->span.start : (uint32_t)maker->sources.items[node->span.file].length;
    add_name(maker, node->first);
    for (const struct node *line = node->first; line; line = line->next)
        for (const struct node *name = line->first; name; name = name->next)
            if (name->kind == NODE_NAME && line->kind == STATEMENT_ALIAS)
                add_name(maker, name);
            else if (name->kind == NODE_NAME && line->kind == STATEMENT_NEEDS)
                add_key(maker, &maker->kit, name->text);
    maker->entries = arena_grow(maker->arena, maker->entries, maker->entry_count, &maker->entry_capacity,
                                sizeof *maker->entries);
    maker->entries[maker->entry_count++] = (struct entry){node, end};
}

static bool take(void *with, const char *path, const char *real, const char *shown)
{
    struct maker *maker = with;
    const char *wrong = NULL;
    int file = source_read(&maker->sources, path, shown, &wrong);
    (void)real;
    if (file < 0)
        return fail(maker, shown, wrong);
    struct tree *tree = read_file(maker->arena, &maker->sources, (unsigned)file, maker->phrases, maker->diag);
    for (const struct node *node = tree->root->first; node; node = node->next) {
        if (node->kind == STATEMENT_USE)
            return fail(maker, shown, "the shelf uses no files");
        if (node->first)
            add_entry(maker, node);
    }
    return true;
}

static void read_shelf(struct maker *maker, const char *share)
{
    struct plan_files files = {.arena = maker->arena, .folders = g_hash_table_new(g_str_hash, g_str_equal),
                               .take = take, .cannot = cannot, .with = maker};
    for (size_t i = 0; i < SHELF_FOLDERS; i++) {
        const char *path = arena_printf(maker->arena, "%s/%s", share, shelf_folders[i]);
        plan_files_walk(&files, path, plan_true_path(maker->arena, path), shelf_folders[i]);
    }
    g_hash_table_destroy(files.folders);
    if (!maker->diag->count)
        return;
    struct text out = {0};
    diag_print(maker->diag, &(struct diag_style){0}, &out);
    fputs(text_get(&out), stderr);
    exit(1);
}

/* --- writing --- */

static int by_text(const void *left, const void *right)
{
    const struct key *a = left, *b = right;
    int order = strcmp(a->folded, b->folded);
    return order ? order : (a->entry > b->entry) - (a->entry < b->entry);
}

/* One of each piece of kit is enough: the first entry that needs it. */
static void keep_first(struct keys *keys)
{
    size_t kept = 0;
    for (size_t i = 0; i < keys->count; i++)
        if (kept == 0 || strcmp(keys->items[kept - 1].folded, keys->items[i].folded) != 0)
            keys->items[kept++] = keys->items[i];
    keys->count = kept;
}

/* The texts of KEYS, from OFFSET on; returns where they end. */
static size_t write_texts(const struct keys *keys, size_t offset)
{
    for (size_t i = 0; i < keys->count; i++) {
        putchar('"');
        for (const char *c = keys->items[i].folded; *c; c++)
            printf("\\%03o", (unsigned char)*c);
        puts("\\0\"");
        offset += strlen(keys->items[i].folded) + 1;
    }
    return offset;
}

static void write_names(const char *called, const struct keys *keys, size_t offset)
{
    printf("static const struct shelf_name %s[] = {\n", called);
    for (size_t i = 0; i < keys->count; i++) {
        printf("{%zu, %zu},\n", offset, keys->items[i].entry);
        offset += strlen(keys->items[i].folded) + 1;
    }
    puts("{0, 0}};");
}

static const struct node *next_inside(const struct node *node, const struct node *top)
{
    if (node->first)
        return node->first;
    while (node != top && !node->next)
        node = node->parent;
    return node == top ? NULL : node->next;
}

/* Writes the entries that the one of number INDEX names, each once. Returns how many. */
static size_t write_refs(struct maker *maker, size_t index)
{
    size_t count = 0;
    bool *met = arena_alloc(maker->arena, maker->entry_count * sizeof *met);
    met[index] = true;
    const struct node *top = maker->entries[index].node;
    for (const struct node *node = top; node; node = next_inside(node, top)) {
        if (node->kind != NODE_NAME && node->kind != NODE_TEXT)
            continue;
        const char *folded = text_fold(maker->arena, node->text, strlen(node->text));
        for (size_t i = 0; i < maker->names.count; i++) {
            const struct key *key = &maker->names.items[i];
            if (met[key->entry] || strcmp(key->folded, folded) != 0)
                continue;
            met[key->entry] = true;
            printf("%zu,", key->entry);
            count++;
        }
    }
    return count;
}

static void write_entries(struct maker *maker)
{
    size_t *counts = arena_alloc(maker->arena, maker->entry_count * sizeof *counts), first = 0;
    puts("static const uint16_t refs[] = {");
    for (size_t i = 0; i < maker->entry_count; i++)
        counts[i] = write_refs(maker, i);
    puts("0};\nstatic const struct shelf_entry entries[] = {");
    for (size_t i = 0; i < maker->entry_count; i++) {
        const struct node *node = maker->entries[i].node;
        printf("{%u, %d, %zu, %zu, {%u, %u}},\n", node->span.file, node->kind == STATEMENT_LIMITS, counts[i], first,
               node->span.start, maker->entries[i].end);
        first += counts[i];
    }
    puts("};");
}

int main(int argc, char **argv)
{
    if (argc != 2) {
        fputs("usage: make_shelf_index SHARE\n", stderr);
        return 2;
    }
    struct maker maker = {.arena = arena_new()};
    maker.sources.arena = maker.arena;
    maker.diag = diag_new(maker.arena, &maker.sources);
    maker.phrases = phrasebook_new(maker.arena);
    read_shelf(&maker, argv[1]);
    qsort(maker.names.items, maker.names.count, sizeof *maker.names.items, by_text);
    qsort(maker.kit.items, maker.kit.count, sizeof *maker.kit.items, by_text);
    keep_first(&maker.kit);
    if (maker.entry_count > UINT16_MAX)
        fail(NULL, argv[1], "too many entries for the index");
    puts("#include \"plan/shelf_index.h\"\nstatic const char texts[] =");
    size_t kit_at = write_texts(&maker.names, 0);
    write_texts(&maker.kit, kit_at);
    puts(";");
    write_names("names", &maker.names, 0);
    write_names("kit", &maker.kit, kit_at);
    write_entries(&maker);
    printf("const struct shelf_index shelf_index = {UINT64_C(%llu), %zu, %zu, %zu, %zu, entries, names, kit, refs, "
           "texts};\n",
           (unsigned long long)shelf_hash(&maker.sources, maker.sources.count), maker.sources.count,
           maker.entry_count, maker.names.count, maker.kit.count);
    arena_free(maker.arena);
    return 0;
}

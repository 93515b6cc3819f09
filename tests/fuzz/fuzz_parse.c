/* Any bytes to a tree, and the tree and what was found wrong to text. */
#include "fuzz/fuzz.h"

#include "source/screen.h"
#include "syntax/read.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    int file = source_add(&sources, "plan.bell", (const char *)data, size);
    struct tree *tree = read_file(arena, &sources, (unsigned)file, phrasebook_new(arena), diag);
    struct text out = {0};
    node_dump(tree->root, &out);
    diag_sort(diag);
    diag_print(diag, &(struct diag_style){.infos = true, .color = true}, &out);
    text_free(&out);
    arena_free(arena);
    return 0;
}

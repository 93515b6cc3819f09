/* What is cut, in words. */
#include "room/change.h"

const char *room_number_words(struct arena *arena, int number)
{
    static const char *const words[] = {"no", "one", "two", "three", "four", "five", "six"};
    bool known = number >= 0 && number < (int)(sizeof words / sizeof words[0]);
    return known ? words[number] : arena_printf(arena, "%d", number);
}

void room_add_name(struct text *text, const char *name, bool first, bool last)
{
    text_add(text, first ? "" : last ? " and " : ", ");
    text_add(text, name);
}

/* "two sets fewer of B", "without D"; NULL: all of the block stays. */
static const char *block_words(struct arena *arena, const struct room *room, const struct room_cut *cut, int block)
{
    const char *name = room->blocks[block].name, *what = room->blocks[block].bell ? "round" : "set";
    int off = 0;
    if (cut->dropped[block])
        return arena_printf(arena, "without %s", name);
    for (size_t i = 0; i < cut->line_count; i++)
        off += cut->lines[i].block == block ? cut->lines[i].off : 0;
    if (!off)
        return NULL;
    return arena_printf(arena, "%s %s%s fewer of %s", room_number_words(arena, off), what, off == 1 ? "" : "s", name);
}

const char *room_cut_words(struct arena *arena, const struct room *room, const struct room_cut *cut)
{
    const char **words = arena_alloc(arena, (room->block_count + 1) * sizeof(*words));
    struct text text = {.arena = arena};
    size_t count = 0;
    for (int i = 0; i < (int)room->block_count; i++) {
        const char *of_block = block_words(arena, room, cut, i);
        if (of_block)
            words[count++] = of_block;
    }
    for (size_t i = 0; i < count; i++)
        room_add_name(&text, words[i], i == 0, i + 1 == count);
    return text_keep(arena, &text);
}

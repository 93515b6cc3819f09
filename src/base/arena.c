#define _DEFAULT_SOURCE /* madvise */

#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

enum { FIRST_CHUNK = 64 * 1024, HUGE_PAGE = 2 * 1024 * 1024 };

struct chunk {
    struct chunk *next;
    size_t size;
    max_align_t data[];
};

struct arena {
    struct chunk *chunks; /* the newest first */
    char *free;           /* what is left of it */
    size_t left;
    size_t used;
};

void *memory_get(size_t size)
{
    return memory_resize(NULL, size);
}

void *memory_resize(void *old, size_t size)
{
    void *memory = realloc(old, size ? size : 1);
    if (!memory) {
        fputs("bellsheet: error: out of memory\n", stderr);
        exit(2);
    }
    return memory;
}

struct arena *arena_new(void)
{
    struct arena *arena = memory_get(sizeof *arena);
    *arena = (struct arena){0};
    return arena;
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    for (struct chunk *chunk = arena->chunks, *next; chunk; chunk = next) {
        next = chunk->next;
        free(chunk);
    }
    free(arena);
}

/* The newest chunk stays: it is the largest but for one that a single large item asked for. */
void arena_reset(struct arena *arena)
{
    struct chunk *newest = arena->chunks;
    arena->used = 0;
    if (!newest)
        return;
    for (struct chunk *chunk = newest->next, *next; chunk; chunk = next) {
        next = chunk->next;
        free(chunk);
    }
    newest->next = NULL;
    arena->free = (char *)newest->data;
    arena->left = newest->size;
}

/* Memory for a chunk. All but the first are aligned and marked so that the kernel may give them in pages of 2 MiB: a
 * club's check else spends a fifth of its time on being given its memory 4 KiB at a time, a wall sheet a twentieth. */
static struct chunk *chunk_get(size_t *size)
{
    if (*size + sizeof(struct chunk) < HUGE_PAGE)
        return memory_get(sizeof(struct chunk) + *size);
    size_t whole = (sizeof(struct chunk) + *size + HUGE_PAGE - 1) / HUGE_PAGE * HUGE_PAGE;
    struct chunk *chunk = aligned_alloc(HUGE_PAGE, whole);
    if (!chunk)
        return memory_get(SIZE_MAX / 2); /* cannot be had: ends with the usual message */
#ifdef MADV_HUGEPAGE
    madvise(chunk, whole, MADV_HUGEPAGE); /* only a wish */
#endif
    *size = whole - sizeof *chunk;
    return chunk;
}

static size_t aligned(size_t size)
{
    const size_t align = _Alignof(max_align_t);
    return (size + align - 1) / align * align;
}

/* Lets the arena go on in a new chunk, which holds SIZE bytes at least. */
static void chunk_add(struct arena *arena, size_t size)
{
    size_t room = arena->chunks ? HUGE_PAGE - sizeof(struct chunk) : FIRST_CHUNK;
    size_t need = size > SIZE_MAX / 4 ? SIZE_MAX / 2 : aligned(size); /* the former cannot be had */
    if (room < need)
        room = need;
    struct chunk *chunk = chunk_get(&room);
    chunk->next = arena->chunks;
    chunk->size = room;
    arena->chunks = chunk;
    arena->free = (char *)chunk->data;
    arena->left = room;
}

/* SIZE bytes that hold anything. */
static inline void *take(struct arena *arena, size_t size)
{
    if (size > arena->left || !arena->free)
        chunk_add(arena, size);
    size = aligned(size); /* fits too: what is left is a multiple of it */
    void *memory = arena->free;
    arena->free += size;
    arena->left -= size;
    arena->used += size;
    return memory;
}

void *arena_alloc(struct arena *arena, size_t size)
{
    return memset(take(arena, size), 0, size);
}

char *arena_copy(struct arena *arena, const char *text, size_t length)
{
    char *copy = take(arena, length + 1);
    if (length)
        memcpy(copy, text, length);
    copy[length] = '\0';
    return copy;
}

/* Most texts are short and fit into the chunk at hand: they are formed in their place, and once. */
char *arena_vprintf(struct arena *arena, const char *format, va_list args)
{
    size_t room = arena->left;
    char *text = room ? arena->free : NULL;
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(text, room, format, args);
    size_t size = (size_t)(length < 0 ? 0 : length) + 1;
    char *kept = take(arena, size);
    if (length < 0)
        *kept = '\0';
    else if (kept != text)
        vsnprintf(kept, size, format, again);
    va_end(again);
    return kept;
}

char *arena_printf(struct arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = arena_vprintf(arena, format, args);
    va_end(args);
    return text;
}

void *arena_grow(struct arena *arena, void *items, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    size_t room = *capacity ? *capacity * 2 : 8;
    char *copy = take(arena, room * size);
    if (count)
        memcpy(copy, items, count * size);
    memset(copy + count * size, 0, (room - count) * size);
    *capacity = room;
    return copy;
}

size_t arena_used(const struct arena *arena)
{
    return arena->used;
}

#define _DEFAULT_SOURCE /* madvise */

#include "base/arena.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

#if defined __has_feature
#if __has_feature(memory_sanitizer)
#include <sanitizer/msan_interface.h>
#define IS_WATCHED
#endif
#endif

enum { FIRST_CHUNK = 64 * 1024, HUGE_PAGE = 2 * 1024 * 1024 };

struct chunk {
    struct chunk *next;
    size_t size;
    max_align_t data[];
};

struct ending {
    struct ending *next;
    void (*end)(void *what);
    void *what;
};

struct arena {
    struct chunk *chunks; /* the newest first */
    char *free;           /* what is left of it */
    size_t left;
    size_t used;
    struct memory *memory;      /* NULL: the C library's */
    struct arena *newer, *older; /* of those of the same memory */
    struct ending *endings;      /* the newest first */
    struct ending asked;         /* for which there is no memory yet */
    const struct language *language; /* NULL: English */
};

/* --- where memory comes from --- */

static bool is_ours(const struct memory *memory)
{
    return memory && memory->by.resize;
}

_Noreturn static void run_out(struct memory *memory)
{
    if (memory && memory->unwind)
        longjmp(*memory->unwind, UNWIND_NO_MEMORY);
    abort();
}

void arena_poll(const struct arena *arena)
{
    struct memory *memory = arena->memory;
    if (memory && memory->unwind && memory->is_cancelled && memory->is_cancelled(memory->cancel_context))
        longjmp(*memory->unwind, UNWIND_CANCELLED);
}

static void *get(struct memory *memory, size_t size)
{
    void *got = memory && memory->by.resize ? memory->by.resize(memory->by.context, NULL, size) : malloc(size);
    if (!got)
        run_out(memory);
    return got;
}

static void give_back(struct memory *memory, void *old)
{
    if (is_ours(memory))
        memory->by.free(memory->by.context, old);
    else
        free(old);
}

void *memory_get(size_t size)
{
    return memory_resize(NULL, size);
}

void *memory_resize(void *old, size_t size)
{
    void *memory = realloc(old, size ? size : 1);
    if (!memory)
        run_out(NULL);
    return memory;
}

/* --- arenas --- */

struct arena *arena_open(struct memory *memory)
{
    struct arena *arena = get(memory, sizeof *arena);
    *arena = (struct arena){.memory = memory};
    if (!memory)
        return arena;
    arena->older = memory->arenas;
    if (arena->older)
        arena->older->newer = arena;
    memory->arenas = arena;
    return arena;
}

struct arena *arena_new(void)
{
    return arena_open(NULL);
}

struct arena *arena_beside(const struct arena *arena)
{
    struct arena *beside = arena_open(arena->memory);
    beside->language = arena->language;
    return beside;
}

void arena_speak(struct arena *arena, const struct language *language)
{
    arena->language = language;
}

const struct language *arena_language(const struct arena *arena)
{
    return arena->language;
}

/* A session compiles again and again: a few large chunks wait for the next compile, for to give them back and to get them
 * anew, page by page, takes as long as a third of a keystroke. */
static bool spare_chunk(struct memory *memory, struct chunk *chunk)
{
    enum { MOST_SPARE = 8 };
    if (!memory || memory->spare_count == MOST_SPARE || chunk->size != HUGE_PAGE - sizeof *chunk)
        return false;
    chunk->next = memory->spare;
    memory->spare = chunk;
    memory->spare_count++;
    return true;
}

static struct chunk *take_spare(struct memory *memory, size_t size)
{
    struct chunk *chunk = memory ? memory->spare : NULL;
    if (!chunk || chunk->size < size)
        return NULL;
    memory->spare = chunk->next;
    memory->spare_count--;
    return chunk;
}

static void free_spare(struct memory *memory)
{
    for (struct chunk *chunk; (chunk = take_spare(memory, 0)) != NULL;)
        give_back(memory, chunk);
}

static void free_chunks(struct arena *arena, struct chunk *chunk)
{
    for (struct chunk *next; chunk; chunk = next) {
        next = chunk->next;
        if (!spare_chunk(arena->memory, chunk))
            give_back(arena->memory, chunk);
    }
}

static void call_endings(struct arena *arena)
{
    for (const struct ending *ending = arena->endings; ending; ending = ending->next)
        ending->end(ending->what);
    arena->endings = NULL;
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    call_endings(arena);
    free_chunks(arena, arena->chunks);
    if (arena->newer)
        arena->newer->older = arena->older;
    else if (arena->memory)
        arena->memory->arenas = arena->older;
    if (arena->older)
        arena->older->newer = arena->newer;
    give_back(arena->memory, arena);
}

void memory_free(struct memory *memory, const struct arena *kept)
{
    while (memory->arenas && memory->arenas != kept)
        arena_free(memory->arenas);
    free_spare(memory);
}

/* The memory sanitizer watches what is in arenas and not what malloc gives, because libraries that are not built for it write
 * to the latter unseen (`make matrix`). */
static void forget_contents(const void *memory, size_t size)
{
#ifdef IS_WATCHED
    __msan_poison(memory, size);
#else
    (void)memory, (void)size;
#endif
}

/* The newest chunk stays: it is the largest, except for one that a single large item asked for. */
void arena_reset(struct arena *arena)
{
    struct chunk *newest = arena->chunks;
    call_endings(arena);
    arena->used = 0;
    if (!newest)
        return;
    free_chunks(arena, newest->next);
    newest->next = NULL;
    arena->free = (char *)newest->data;
    arena->left = newest->size;
    forget_contents(arena->free, arena->left);
}

/* Memory for a chunk. All but the first are aligned and marked so that the kernel may give them in pages of 2 MiB:
 * otherwise a club's check spends a fifth of its time getting its memory 4 KiB at a time, and a wall sheet a
 * twentieth. */
static struct chunk *chunk_get(struct memory *memory, size_t *size)
{
    if (*size + sizeof(struct chunk) < HUGE_PAGE || is_ours(memory))
        return get(memory, sizeof(struct chunk) + *size);
    size_t whole = (sizeof(struct chunk) + *size + HUGE_PAGE - 1) / HUGE_PAGE * HUGE_PAGE;
    struct chunk *chunk = aligned_alloc(HUGE_PAGE, whole);
    if (!chunk)
        run_out(memory);
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

/* Continues the arena in a new chunk of at least SIZE bytes. */
static void chunk_add(struct arena *arena, size_t size)
{
    size_t next = arena->memory && arena->memory->chunk ? arena->memory->chunk : HUGE_PAGE;
    size_t room = arena->chunks ? next - sizeof(struct chunk) : next < FIRST_CHUNK ? next : FIRST_CHUNK;
    size_t need = size > SIZE_MAX / 4 ? SIZE_MAX / 2 : aligned(size); /* the former cannot be had */
    if (room < need)
        room = need;
    struct chunk *chunk = room < HUGE_PAGE / 2 ? NULL : take_spare(arena->memory, room);
    if (chunk)
        room = chunk->size;
    else
        chunk = chunk_get(arena->memory, &room);
    chunk->next = arena->chunks;
    chunk->size = room;
    arena->chunks = chunk;
    arena->free = (char *)chunk->data;
    arena->left = room;
    forget_contents(arena->free, arena->left);
}

/* SIZE bytes with undefined contents. */
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

void arena_at_end(struct arena *arena, void (*end)(void *what), void *what)
{
    arena->asked = (struct ending){arena->endings, end, what};
    arena->endings = &arena->asked; /* so that it is called too if memory runs out now */
    struct ending *ending = take(arena, sizeof *ending);
    *ending = arena->asked;
    arena->endings = ending;
}

char *arena_copy(struct arena *arena, const char *text, size_t length)
{
    char *copy = take(arena, length + 1);
    if (length)
        memcpy(copy, text, length);
    copy[length] = '\0';
    return copy;
}

/* Most texts are short and fit into the current chunk: they are formed in place, once. */
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

enum { FEWEST_ITEMS = 8 };

void *arena_grow(struct arena *arena, void *items, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    size_t room = *capacity ? *capacity * 2 : FEWEST_ITEMS;
    char *copy = take(arena, room * size);
    if (count)
        memcpy(copy, items, count * size);
    memset(copy + count * size, 0, (room - count) * size);
    *capacity = room;
    return copy;
}

char *arena_resize(struct arena *arena, char *old, size_t size, size_t more)
{
    if (old && old + aligned(size) == arena->free && aligned(more) <= arena->left + aligned(size)) {
        size_t was = aligned(size), now = aligned(more);
        arena->free = old + now;
        arena->left = arena->left + was - now;
        arena->used = arena->used + now - was;
        return old;
    }
    if (old && more <= size)
        return old;
    char *copy = take(arena, more);
    if (old)
        memcpy(copy, old, size);
    return copy;
}

size_t arena_room(size_t count)
{
    size_t room = count ? FEWEST_ITEMS : 0;
    while (room < count)
        room *= 2;
    return room;
}

size_t arena_used(const struct arena *arena)
{
    return arena->used;
}

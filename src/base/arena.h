/* arena.h - memory that is freed all at once; nothing is freed singly. An allocation that fails does not return: it
 * unwinds to the place that asked for the compile (see struct memory), so callers never test for NULL. Files are written
 * whole, at the end, so nothing half-made is left behind. */
#ifndef BELL_BASE_ARENA_H
#define BELL_BASE_ARENA_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

struct arena;

enum unwinding { UNWIND_NO_MEMORY = 1, UNWIND_CANCELLED };

/* Where an embedding program has memory from. RESIZE is as realloc, with NULL for OLD to get some, and returns NULL
 * where there is no more; FREE is as free. Both are called by whichever thread compiles. */
struct allocator {
    void *(*resize)(void *context, void *old, size_t size);
    void (*free)(void *context, void *old);
    void *context;
};

/* What the arenas of one compile have in common. Starts as {0}, or with an allocator; without one, memory is the C
 * library's.
 *
 * A compile is entered in one place and calls a thousand functions that allocate. So the place of entry sets UNWIND, and
 * an allocation that fails jumps back there: no function on the way has to test for NULL or to hand the failure on. All
 * that such a function holds must be in an arena of this memory, for the jump frees those and runs nothing else. */
struct memory {
    struct allocator by;
    jmp_buf *unwind; /* reached with an enum unwinding */
    bool (*is_cancelled)(void *context); /* NULL: never */
    void *cancel_context;
    struct arena *arenas; /* all that are open */
    size_t chunk;         /* bytes of an arena's chunks but the first, where many small arenas live long; 0: 2 MiB */
};

/* A new, empty arena of MEMORY; the caller owns it and ends it with arena_free. */
struct arena *arena_open(struct memory *memory) __attribute__((returns_nonnull));

/* The same for a program whose malloc does not return where memory is out (cli/no_memory.c): if it does, abort() is
 * called. */
struct arena *arena_new(void) __attribute__((returns_nonnull));

/* One beside ARENA, of the same memory: for what is needed for a while only. */
struct arena *arena_beside(const struct arena *arena) __attribute__((returns_nonnull));

void arena_free(struct arena *arena);

/* Has END called with WHAT when ARENA is freed: for the few things that other libraries keep elsewhere. */
void arena_at_end(struct arena *arena, void (*end)(void *what), void *what);

/* Unwinds where whoever asked for what is made in ARENA no longer wants it. Called between two parts of a compile, each
 * about a millisecond's work at most. */
void arena_poll(const struct arena *arena);

/* Frees all open arenas of MEMORY but KEPT and those that were opened before it; NULL: all. */
void memory_free(struct memory *memory, const struct arena *kept);

/* Frees all that was made with it and keeps room for as much again: work that is done many times over is else given
 * its memory by the kernel each time, a page at a time. */
void arena_reset(struct arena *arena);

/* SIZE bytes of zeroed memory, aligned for any object. */
void *arena_alloc(struct arena *arena, size_t size) __attribute__((returns_nonnull));

/* A copy of LENGTH bytes of TEXT with a NUL behind it. */
char *arena_copy(struct arena *arena, const char *text, size_t length) __attribute__((returns_nonnull));

/* Text formed as by printf. */
char *arena_printf(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3), returns_nonnull));
char *arena_vprintf(struct arena *arena, const char *format, va_list args)
    __attribute__((format(printf, 2, 0), returns_nonnull));

/* Room for one more item: returns ITEMS, or a copy of it with doubled capacity when COUNT has reached
 * *CAPACITY. SIZE is the size of one item in bytes. The old array is left to the arena. */
void *arena_grow(struct arena *arena, void *items, size_t count, size_t *capacity, size_t size)
    __attribute__((returns_nonnull));

/* OLD, of SIZE bytes in ARENA, with room for MORE bytes, in its place where it was the last thing that was made; or
 * with less. */
char *arena_resize(struct arena *arena, char *old, size_t size, size_t more) __attribute__((returns_nonnull));

/* The capacity that arena_grow has given to COUNT items that came one at a time: for a list that is gone on with later. */
size_t arena_room(size_t count);

/* Bytes handed out so far, for the benchmark's memory column. */
size_t arena_used(const struct arena *arena);

/* malloc for what the command line alone does; abort() where it fails, see arena_new. */
void *memory_get(size_t size) __attribute__((returns_nonnull));
void *memory_resize(void *old, size_t size) __attribute__((returns_nonnull));

#endif

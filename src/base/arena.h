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
struct chunk;
struct language;

enum unwinding { UNWIND_NO_MEMORY = 1, UNWIND_CANCELLED };

/* Where an embedding program gets memory from. RESIZE is as realloc, with NULL for OLD to get some, and returns NULL
 * when there is no more; FREE is as free. Both are called by whichever thread compiles. */
struct allocator {
    void *(*resize)(void *context, void *old, size_t size);
    void (*free)(void *context, void *old);
    void *context;
};

/* What the arenas of one compile have in common. Starts as {0}, or with an allocator; without one, memory is the C
 * library's.
 *
 * A compile is entered in one place and calls a thousand functions that allocate. So the place of entry sets UNWIND,
 * and an allocation that fails jumps back there: no function on the way has to test for NULL or pass the failure on.
 * Everything that such a function owns must be in an arena of this memory, because the jump frees those and runs
 * nothing else. */
struct memory {
    struct allocator by;
    jmp_buf *unwind; /* reached with an enum unwinding */
    bool (*is_cancelled)(void *context); /* NULL: never */
    void *cancel_context;
    struct arena *arenas; /* all that are open */
    size_t chunk;         /* bytes of an arena's chunks but the first, where many small arenas live long; 0: 2 MiB */
    struct chunk *spare;  /* chunks of 2 MiB that wait for the next arena; freed with memory_free */
    size_t spare_count;
};

/* A new, empty arena of MEMORY; the caller owns it and ends it with arena_free. */
struct arena *arena_open(struct memory *memory) __attribute__((returns_nonnull));

/* The same for a program whose malloc does not return where memory is out (cli/no_memory.c): if it does, abort() is
 * called. */
struct arena *arena_new(void) __attribute__((returns_nonnull));

/* Another arena of the same memory as ARENA, for what is needed only for a while. */
struct arena *arena_beside(const struct arena *arena) __attribute__((returns_nonnull));

void arena_free(struct arena *arena);

/* The language that texts made in ARENA are worded in (language/language.h). NULL, as at first, is English. An arena beside
 * another starts with its language. A sheet has an arena of its own, so its language travels with all that words it. */
void arena_speak(struct arena *arena, const struct language *language);
const struct language *arena_language(const struct arena *arena);

/* Calls END with WHAT when ARENA is freed: for the few things that other libraries keep elsewhere. */
void arena_at_end(struct arena *arena, void (*end)(void *what), void *what);

/* Unwinds if the caller no longer wants what is being made in ARENA. Called between parts of a compile that each take
 * at most about a millisecond. */
void arena_poll(const struct arena *arena);

/* Frees all open arenas of MEMORY except KEPT and those opened before it; NULL: all. */
void memory_free(struct memory *memory, const struct arena *kept);

/* Frees everything made with it and keeps room for as much again: otherwise work that is done many times would get its
 * memory from the kernel each time, a page at a time. */
void arena_reset(struct arena *arena);

/* SIZE bytes of zeroed memory, aligned for any object. */
void *arena_alloc(struct arena *arena, size_t size) __attribute__((returns_nonnull));

/* A copy of LENGTH bytes of TEXT with a NUL after it. */
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

/* OLD, of SIZE bytes in ARENA, with room for MORE bytes (or fewer), in place if it was the last thing made. */
char *arena_resize(struct arena *arena, char *old, size_t size, size_t more) __attribute__((returns_nonnull));

/* The capacity that arena_grow has given to COUNT items that came one at a time: for a list that grows again later. */
size_t arena_room(size_t count);

/* Bytes handed out so far, for the benchmark's memory column. */
size_t arena_used(const struct arena *arena);

/* malloc for what the command line alone does; abort() where it fails, see arena_new. */
void *memory_get(size_t size) __attribute__((returns_nonnull));
void *memory_resize(void *old, size_t size) __attribute__((returns_nonnull));

#endif

/* arena.h - memory that lives as long as one compile.
 *
 * Everything a compile makes is freed at once with its arena; nothing is freed singly. An allocation
 * that fails ends the program with exit status 2, so callers never test for NULL. That is right for a
 * command that writes each file whole at its end: nothing half-made is left behind. */
#ifndef BELL_BASE_ARENA_H
#define BELL_BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

struct arena;

/* A new, empty arena; the caller owns it and ends it with arena_free. */
struct arena *arena_new(void);
void arena_free(struct arena *arena);

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

/* Bytes handed out so far, for the benchmark's memory column. */
size_t arena_used(const struct arena *arena);

/* malloc for the few places that cannot use an arena; ends the program when memory is gone. */
void *memory_get(size_t size);
void *memory_resize(void *old, size_t size);

#endif

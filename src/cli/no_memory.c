/* no_memory.c - the program ends, and says why, at the first allocation that fails, whoever asked.
 *
 * * Libraries behave differently: GLib aborts, cairo and HarfBuzz draw on without what they lack, fontconfig runs into
 * a null pointer; when allocations were made to fail one by one, every second gave a crash, and a few a sheet in the
 * wrong letters with exit status 0. Our own arenas abort if no caller waits for the failure. So the program's malloc
 * stands before the C library's, which glibc allows. Sheets are written whole and renamed, so nothing half-made is
 * left.
 *
 * * Part of the program and not of the library, so that tests keep the malloc they know. Valgrind then needs
 * --soname-synonyms=somalloc=NONE. */
#include <stdbool.h>
#include <stdlib.h>
#include <unistd.h>

#if defined __has_feature
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer) || __has_feature(memory_sanitizer)
#define SANITIZED
#endif
#elif defined __SANITIZE_ADDRESS__ || defined __SANITIZE_THREAD__
#define SANITIZED
#endif

#if defined __GLIBC__ && !defined SANITIZED

/* If it were hidden, like everything else of ours, it would replace nobody's. */
#pragma GCC visibility push(default)

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t nmemb, size_t size);
void *__libc_realloc(void *ptr, size_t size);
void *__libc_memalign(size_t alignment, size_t size);

static void *must(void *memory)
{
    static const char words[] = "bellsheet: error: out of memory\n";
    if (memory)
        return memory;
    ssize_t written = write(STDERR_FILENO, words, sizeof words - 1);
    (void)written;
    _exit(2);
}

void *malloc(size_t size)
{
    return must(__libc_malloc(size));
}

void *calloc(size_t nmemb, size_t size)
{
    return must(__libc_calloc(nmemb, size));
}

/* To nothing is to free, and gives NULL. */
void *realloc(void *ptr, size_t size)
{
    bool freed = ptr && !size;
    void *memory = __libc_realloc(ptr, size);
    return freed ? memory : must(memory);
}

void *aligned_alloc(size_t alignment, size_t size)
{
    return must(__libc_memalign(alignment, size));
}

#pragma GCC visibility pop

#endif

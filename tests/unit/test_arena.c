/* test_arena.c - what other libraries keep elsewhere is given back with an arena, also where there is no memory to note it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/arena.h"

/* Gives memory as often as LEFT says. */
static void *draw(void *context, void *old, size_t size)
{
    int *left = context;
    return *left && (*left)-- ? realloc(old, size) : NULL;
}

static void pour(void *context, void *old)
{
    (void)context;
    free(old);
}

static void count(void *what)
{
    ++*(int *)what;
}

static void test_ended_once(void **state)
{
    (void)state;
    int first = 0, second = 0;
    struct arena *arena = arena_new();
    arena_at_end(arena, count, &first);
    arena_at_end(arena, count, &second);
    arena_reset(arena);
    assert_int_equal(first, 1);
    arena_at_end(arena, count, &first);
    arena_free(arena);
    assert_int_equal(first, 2);
    assert_int_equal(second, 1);
}

/* The arena has memory for itself and for so many of its chunks, of which each holds few endings. */
static int run_out(int chunks, int *ended)
{
    static int asked; /* outlives the jump */
    int left = 1 + chunks;
    jmp_buf unwind;
    struct memory memory = {.by = {draw, pour, &left}, .unwind = &unwind, .chunk = 256};
    asked = 0;
    if (setjmp(unwind) == 0) {
        struct arena *arena = arena_open(&memory);
        for (;;) {
            asked++;
            arena_at_end(arena, count, ended);
        }
    }
    memory_free(&memory, NULL);
    return asked;
}

static void test_ended_without_memory(void **state)
{
    (void)state;
    for (int chunks = 0; chunks < 3; chunks++) {
        int ended = 0, asked = run_out(chunks, &ended);
        assert_true(asked > chunks);
        assert_int_equal(ended, asked);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ended_once),
        cmocka_unit_test(test_ended_without_memory),
    };
    return cmocka_run_group_tests_name("arena", tests, NULL, NULL);
}

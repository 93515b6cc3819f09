/* one_arena.h - an arena for all tests of a program: cmocka_run_group_tests(tests, open_arena, close_arena). */
#ifndef BELL_TESTS_ONE_ARENA_H
#define BELL_TESTS_ONE_ARENA_H

#include "base/arena.h"

static struct arena *arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_new();
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

#endif

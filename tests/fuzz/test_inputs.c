/* Inputs that once crashed, hung or leaked, through every harness of the fuzzers. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <cmocka.h>

#define LLVMFuzzerTestOneInput fuzz_parse
#include "fuzz/fuzz_parse.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_format
#include "fuzz/fuzz_format.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_compile
#include "fuzz/fuzz_compile.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_lsp
#include "fuzz/fuzz_lsp.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_table
#include "fuzz/fuzz_table.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_join
#include "fuzz/fuzz_join.c"

static void try_file(const char *path)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    const char *wrong = NULL;
    int file = source_read(&sources, path, path, &wrong);
    if (file < 0)
        fail_msg("%s: %s", path, wrong);
    const uint8_t *bytes = (const uint8_t *)sources.items[file].text;
    size_t length = sources.items[file].length;
    assert_int_equal(fuzz_parse(bytes, length), 0);
    assert_int_equal(fuzz_format(bytes, length), 0);
    assert_int_equal(fuzz_compile(bytes, length), 0);
    assert_int_equal(fuzz_lsp(bytes, length), 0);
    assert_int_equal(fuzz_table(bytes, length), 0);
    assert_int_equal(fuzz_join(bytes, length), 0);
    arena_free(arena);
}

static void every_input_is_survived(void **state)
{
    (void)state;
    int tried = 0;
    DIR *folder = opendir("tests/fuzz/corpus");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char path[512];
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "tests/fuzz/corpus/%s", entry->d_name);
        try_file(path);
        tried++;
    }
    closedir(folder);
    assert_true(tried > 0);
}

/* What the harness keeps from one input to the next: fontconfig hides its own from those who look for leaks. */
static int close_club(void **state)
{
    struct club *club = club_get();
    (void)state;
    type_close(club->type);
    arena_free(club->arena);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_input_is_survived)};
    setenv("FUZZ_SHELF", "share/exercises/squat.bell share/exercises/push.bell share/limits/house-defaults.bell", 0);
    setenv("FUZZ_CLUB", "examples/slipway/athletes.bell examples/slipway/gym.bell", 0);
    return cmocka_run_group_tests(tests, NULL, close_club);
}

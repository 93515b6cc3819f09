/* Inputs at random through the harnesses that make something of them: tokens, frames in pieces, command lines, folders whose files
 * and links lead to one another, tables of lifts, and clubs with something wrong in their meaning, which are reported, compared,
 * kept and drawn. `make check` tries some, `make proof` many. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <cmocka.h>

#include "cases.h"

#define LLVMFuzzerTestOneInput fuzz_frames
#include "fuzz/fuzz_frames.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_options
#include "fuzz/fuzz_options.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_folder
#include "fuzz/fuzz_folder.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_club
#include "fuzz/fuzz_club.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_lexer
#include "fuzz/fuzz_lexer.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_diff
#include "fuzz/fuzz_diff.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_exports
#include "fuzz/fuzz_exports.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_record
#include "fuzz/fuzz_record.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_import
#include "fuzz/fuzz_import.c"
#undef LLVMFuzzerTestOneInput
#undef BELL_FUZZ_FUZZ_H
#define LLVMFuzzerTestOneInput fuzz_sheets
#include "fuzz/fuzz_sheets.c"

typedef int harness(const uint8_t *data, size_t size);
typedef size_t input_maker(uint64_t *state, uint8_t *data, size_t room);

static size_t any_bytes(uint64_t *state, uint8_t *data, size_t room)
{
    size_t size = draw(state, (unsigned)room);
    for (size_t i = 0; i < size; i++)
        data[i] = (uint8_t)draw(state, 256);
    return size;
}

/* Words from LIST, COUNT of them, one after another. */
static size_t any_words(uint64_t *state, const char *const *list, unsigned count, uint8_t *data, size_t room)
{
    size_t size = 1;
    data[0] = (uint8_t)draw(state, 256);
    for (unsigned left = draw(state, 12); left; left--) {
        const char *word = list[draw(state, count)];
        size_t length = strlen(word);
        if (size + length >= room)
            break;
        memcpy(data + size, word, length);
        size += length;
    }
    return size;
}

static size_t pieces_of_frames(uint64_t *state, uint8_t *data, size_t room)
{
    static const char *const pieces[] = {"Content-Length: 2\r\n\r\n", "{}", "Content-Length: 0\r\n\r\n", "\r\n", "Content-Length: ",
                                         "99999999999999999999", "12", "content-length:3\r\n\r\n", "abc", "\n\n", "Content-Type: x\r\n"};
    return any_words(state, pieces, sizeof pieces / sizeof *pieces, data, room);
}

static size_t pieces_of_lines(uint64_t *state, uint8_t *data, size_t room)
{
    static const char *const pieces[] = {" --week", " --on",     " --sheet", " wall",  " 2027-03-01", " 2027-W10", " --format",
                                         " json",   " --out=",   " -o",      " --to",  " 40min",      " --",       " -",
                                         " club",   " --date",   " x",       " -h",    " --strict",   " --all",    " 99999999999999999999",
                                         "\xff",    " --athlete", " --pages", " -1",    " --kit",      " --from",   " --month"};
    return any_words(state, pieces, sizeof pieces / sizeof *pieces, data, room);
}

static size_t pieces_of_plans(uint64_t *state, uint8_t *data, size_t room)
{
    static const char *const pieces[] = {"3/4", " : ", ":", "1:30", "12,5", "2027-03-01", "2027-03", "20/03/2027", "3-1-X-0", "30\"",
                                         "A.1", "...", "\xe2\x80\x93", "@", "+", "/x", "x/2", "#", " # ", "\n", "m/s", "m/set",
                                         "RPE/8", "\xc2\xa0", "%", ";", "\r\n", "\t", "\xe2\x80\xb3", "0000-00000"};
    return any_words(state, pieces, sizeof pieces / sizeof *pieces, data, room);
}

/* A club, and few changes: of many most clubs have an error, and end there. */
static size_t some_edits(uint64_t *state, uint8_t *data, size_t room)
{
    size_t size = any_bytes(state, data, room);
    return size < 8 ? size : 8 + size % 16;
}

static void try_inputs(harness *with, input_maker *make, unsigned all, unsigned sample)
{
    const struct cases cases = cases_of(all, sample);
    for (unsigned seed = cases.from + 1; seed <= cases.to; seed++) {
        uint8_t data[256];
        uint64_t state = seed * UINT64_C(0x9e3779b97f4a7c15);
        size_t size = make(&state, data, sizeof data);
        assert_int_equal(with(data, size), 0);
    }
}

static void frames(void **state) { (void)state; try_inputs(fuzz_frames, pieces_of_frames, 1000000, 20000); }
static void command_lines(void **state) { (void)state; try_inputs(fuzz_options, pieces_of_lines, 20000, 300); }
static void folders(void **state) { (void)state; try_inputs(fuzz_folder, any_bytes, 20000, 200); }
static void clubs(void **state) { (void)state; try_inputs(fuzz_club, any_bytes, 10000, 100); }
static void tokens(void **state) { (void)state; try_inputs(fuzz_lexer, pieces_of_plans, 1000000, 20000); }
static void differences(void **state) { (void)state; try_inputs(fuzz_diff, some_edits, 5000, 50); }
static void exports(void **state) { (void)state; try_inputs(fuzz_exports, some_edits, 5000, 50); }
static void records(void **state) { (void)state; try_inputs(fuzz_record, some_edits, 5000, 50); }
static void tables(void **state) { (void)state; try_inputs(fuzz_import, any_bytes, 5000, 50); }
static void paper(void **state) { (void)state; try_inputs(fuzz_sheets, some_edits, 5000, 30); }

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frames),
        cmocka_unit_test(command_lines),
        cmocka_unit_test(folders),
        cmocka_unit_test(clubs),
        cmocka_unit_test(tokens),
        cmocka_unit_test(differences),
        cmocka_unit_test(exports),
        cmocka_unit_test(records),
        cmocka_unit_test(tables),
        cmocka_unit_test(paper),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

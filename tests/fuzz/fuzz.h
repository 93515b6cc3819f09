/* fuzz.h - what libFuzzer calls; run_inputs.c calls the same with the inputs kept in tests/fuzz/corpus. */
#ifndef BELL_FUZZ_FUZZ_H
#define BELL_FUZZ_FUZZ_H

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#endif

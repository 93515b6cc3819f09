#!/bin/sh
# The built program and its libraries have what makes a fault hard to use: read from the files themselves.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
: "${BUILD_DIR:=build}"

if nm "$bellsheet" 2>/dev/null | grep -q '__asan_init\|__gcov_init\|__tsan_init'; then
    echo "ok a build that looks for faults is not hardened against them: not tried"
    finish
    exit
fi

# counted FILE "OPTIONS OF READELF" WORDS: how many lines have them.
counted()
{
    # shellcheck disable=SC2086
    readelf -W $2 "$1" | grep -c -- "$3"
}

for file in "$bellsheet" "$BUILD_DIR"/libbellsheet-sheets-*.so "$BUILD_DIR"/libbellsheet.so.0; do
    name=${file##*/}
    is "$name: its tables cannot be written" 1 "$(counted "$file" -l GNU_RELRO)"
    is "$name: not even those of functions, which are bound at the start" 1 "$(counted "$file" -d '(FLAGS) *BIND_NOW')"
    is "$name: its stack holds no code" 0 "$(counted "$file" -l 'GNU_STACK.*RWE')"
    is "$name: it can be loaded anywhere" 1 "$(counted "$file" -h 'Type: *DYN')"
    is "$name: no page is both written and run" 0 "$(counted "$file" -l 'LOAD.* RWE ')"
    is "$name: what is copied to the stack is guarded" 1 "$(readelf -W --dyn-syms "$file" | grep -q '__stack_chk_fail' && echo 1)"
    is "$name: copies are checked against the size of what they fill" 1 \
        "$(readelf -W --dyn-syms "$file" | grep -q '_chk@' && readelf -W --dyn-syms "$file" | grep -q '__\(v*snprintf\|memcpy\|fprintf\|read\)_chk' && echo 1)"
done
finish

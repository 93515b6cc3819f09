#!/bin/sh
# The built program and its libraries have what makes a fault hard to use: read from the files themselves.
set -u

. tests/house/ok.sh
: "${BUILD_DIR:=build}"
bellsheet=${BELLSHEET:-$BUILD_DIR/bellsheet}

if grep -q -e '-fsanitize\|--coverage' "$BUILD_DIR/flags"; then
    echo "ok a build that looks for faults or counts is not hardened: not tried"
    finish
fi

# says FILE "OPTIONS OF READELF" WORDS: yes where a line has them.
says()
{
    # shellcheck disable=SC2086
    readelf -W $2 "$1" | grep -q -e "$3" && echo yes
}

# How many faults a file without any of it has; the analyser has to see what is copied, so there it is not checked.
all=6
grep -q -e '-fanalyzer' "$BUILD_DIR/flags" && all=5

# look FILE
look()
{
    name=${1##*/}
    is "$name: its tables cannot be written" yes "$(says "$1" -l GNU_RELRO)"
    is "$name: not even those of functions, which are bound at the start" yes "$(says "$1" -d '(FLAGS) *BIND_NOW')"
    is "$name: its stack holds no code" "" "$(says "$1" -l 'GNU_STACK.*RWE')"
    is "$name: it can be loaded anywhere" yes "$(says "$1" -h 'Type: *DYN')"
    is "$name: no page is both written and run" "" "$(says "$1" -l 'LOAD.* RWE ')"
    is "$name: what is copied to the stack is guarded" yes "$(says "$1" --dyn-syms __stack_chk_fail)"
    if [ "$all" = 5 ]; then
        echo "ok $name: copies are not checked, so that the analyser sees them"
    else
        is "$name: copies are checked against the size of what they fill" yes \
            "$(says "$1" --dyn-syms '__\(v*snprintf\|memcpy\|fprintf\|read\)_chk')"
    fi
}

for file in "$bellsheet" "$BUILD_DIR"/libbellsheet-sheets-*.so "$BUILD_DIR"/libbellsheet.so.0; do
    look "$file"
done

# The reading itself: a program without any of it is seen.
soft=$(mktemp)
trap 'rm -f "$soft"' EXIT
echo 'int main(void) { return 0; }' | "${CC:-gcc}" -x c -no-pie -fno-stack-protector -Wl,-z,norelro,-z,lazy,-z,execstack \
    -o "$soft" - 2>/dev/null
is "a program that is not hardened is reported" $all "$(look "$soft" | grep -c '^not ok')"
finish

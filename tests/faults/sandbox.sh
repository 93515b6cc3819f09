#!/bin/sh
# On a kernel with Landlock, check and print reach nothing but the plan, the system's files and the output.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Somebody has found a hole in the program, and it opens another file than it means to: only the kernel stands between it
# and the file outside.
mkdir "$folder/plan" "$folder/secret"
echo 'athlete Secret' >"$folder/secret/s.bell"
echo 'athlete A' >"$folder/plan/a.bell"

# The kernel is asked for its version of Landlock: -1 is none.
cat >"$folder/ask.c" <<'END'
#define _GNU_SOURCE
#include <unistd.h>
int main(void)
{
    return syscall(444, (void *)0, 0, 1) < 1;
}
END
if ! "${CC:-gcc}" -o "$folder/ask" "$folder/ask.c" || ! "$folder/ask"; then
    is "without Landlock the program does without" 0 "$("$bellsheet" check "$folder/plan" >/dev/null 2>&1; echo $?)"
    finish
    exit
fi
cat >"$folder/hole.c" <<'END'
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
int open(const char *path, int flags, ...)
{
    int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, "open");
    return real(strstr(path, "plan/a.bell") ? getenv("HOLE") : path, flags);
}
END
if nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers come before what is preloaded: not tried"
else
    "${CC:-gcc}" -fPIC -shared -o "$folder/hole.so" "$folder/hole.c" -ldl || exit 1
    got=$(HOLE=$folder/secret/s.bell LD_PRELOAD=$folder/hole.so "$bellsheet" check "$folder/plan" 2>&1)
    is "a file outside cannot be read" "2" "$?"
    has "and the message says so" "Permission denied" "$got"
    cp "$folder/plan/a.bell" "$folder/plan/b"
    got=$(HOLE=$folder/plan/b LD_PRELOAD=$folder/hole.so "$bellsheet" check "$folder/plan" 2>&1)
    is "one inside can" "0" "$?"
    rm "$folder/plan/b"
fi
"$bellsheet" check examples/slipway >/dev/null 2>&1
is "a folder is checked" 0 "$?"
(cd examples/slipway && "$bellsheet" check >/dev/null 2>&1)
is "the folder at hand is checked" 0 "$?"
cat examples/slipway/*.bell examples/slipway/*/*.bell | "$bellsheet" check - >/dev/null 2>&1
is "standard input is checked" 0 "$?"
"$bellsheet" print examples/slipway --week 2 --out "$folder/new/deep" --depends "$folder/rule.d" >"$folder/printed" 2>/dev/null
is "what is printed goes to the folder asked for" 0 "$?"
is "all of it" "$(wc -l <"$folder/printed")" "$(find "$folder/new/deep" -type f ! -name sheets.json | wc -l)"
is "and the rule for make beside it" 1 "$(grep -c 'deep/.*:' "$folder/rule.d")"
mkdir "$folder/out"
ln -s "$folder/secret/made.pdf" "$folder/out/2027-03-08-1730-hips-before-hands-wall.pdf"
"$bellsheet" print examples/slipway --week 2 --sheet wall --out "$folder/out" >/dev/null 2>&1
is "no link in it leads elsewhere" "" "$(find "$folder/secret" -name 'made.pdf')"

finish

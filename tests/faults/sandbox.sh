#!/bin/sh
# On a kernel with Landlock and seccomp, no command reaches more than the plan, the system's files and its output.
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

# The kernel is asked whether it has a version of Landlock.
cat >"$folder/ask.c" <<'END'
#define _GNU_SOURCE
#include <stdlib.h>
#include <unistd.h>
int main(int argc, char **argv)
{
    return syscall(444, (void *)0, 0, 1) < (argc > 1 ? atoi(argv[1]) : 1);
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
# The same hole in each command: whatever reads a plan, or a page, or a table is to be confined by then. The hole reports what
# it could do at its last file: git has been asked before, and compares files with what it has.
cat >"$folder/tries.c" <<'END'
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>
static int report = -1; /* opened before the program confines itself */
__attribute__((constructor)) static void begin(void)
{
    report = open(getenv("HOLE_REPORT"), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
}
static int opens(const char *path, int flags)
{
    int file = (int)syscall(SYS_openat, AT_FDCWD, path, flags, 0600);
    return file >= 0 && close(file) == 0;
}
static int starts(void)
{
    int status;
    pid_t child = fork();
    if (child == 0) {
        execl("/bin/true", "true", (char *)NULL);
        _exit(99);
    }
    return waitpid(child, &status, 0) == child && status == 0;
}
/* Nobody may look into a process that he does not trace; the kernel says otherwise that this is no such one. */
static int looks(void)
{
    errno = 0;
    return ptrace(PTRACE_PEEKDATA, getppid(), NULL, NULL) == -1 && errno == ESRCH;
}
static void try_all(const char *path)
{
    if (report < 0 || !(strstr(path, ".bell") || strstr(path, ".md")))
        return;
    int net = socket(AF_INET, SOCK_STREAM, 0), pair[2];
    char line[200];
    int length = snprintf(line, sizeof line, "read %d write %d plan %d net %d pair %d start %d look %d signal %d\n",
                          opens(getenv("HOLE"), O_RDONLY), opens(getenv("HOLE"), O_WRONLY),
                          opens(getenv("HOLE_PLAN"), O_WRONLY), net >= 0, socketpair(AF_UNIX, SOCK_STREAM, 0, pair) == 0,
                          starts(), looks(), kill(getppid(), 0) == 0);
    if (lseek(report, 0, SEEK_SET) != 0 || ftruncate(report, 0) != 0 || write(report, line, (size_t)length) != length)
        abort();
}
#define WRAP(name) \
    int name(const char *path, int flags, ...) \
    { \
        va_list rest; \
        va_start(rest, flags); \
        int mode = flags & O_CREAT ? va_arg(rest, int) : 0; \
        va_end(rest); \
        int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, #name); \
        try_all(path); \
        return real(path, flags, mode); \
    }
WRAP(open)
WRAP(open64)
FILE *fopen(const char *path, const char *how)
{
    FILE *(*real)(const char *, const char *) = (FILE *(*)(const char *, const char *))dlsym(RTLD_NEXT, "fopen");
    try_all(path);
    return real(path, how);
}
END

# hole NAME CAN COMMAND...: CAN is 1 where the command may write to its plan.
hole()
{
    name=$1
    can=$2
    shift 2
    : >"$folder/report"
    HOLE=$folder/secret/s.bell HOLE_PLAN=$folder/club/camp.bell HOLE_REPORT=$folder/report LD_PRELOAD=$folder/tries.so \
        "$bellsheet" "$@" >/dev/null 2>&1 <"$folder/input"
    is "a hole in $name" "read $reads write 0 plan $can net $calls pair $calls start $calls look $calls signal $signals" \
        "$(cat "$folder/report")"
}

if ! nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    "${CC:-gcc}" -fPIC -shared -o "$folder/tries.so" "$folder/tries.c" -ldl || exit 1
    calls=1 signals=1 reads=0
    grep -q errno /proc/sys/kernel/seccomp/actions_avail 2>/dev/null && calls=0
    "$folder/ask" 6 && signals=0
    "$bellsheet" new "$folder/club" --date 2027-02-24 >/dev/null
    cp -r "$folder/club" "$folder/later"
    git -C "$folder/club" init -q
    git -C "$folder/club" add .
    : >"$folder/input"
    club=$folder/club
    mkdir "$folder/pasted"
    "$bellsheet" log "$club" --on 2027-03-01 >"$folder/pasted/a.bell"
    hole new 0 new "$folder/fresh"
    hole check 0 check "$club"
    # shellcheck disable=SC2030
    (cd "$club" && hole "check --staged" 0 check --staged)
    hole print 0 print "$club" --week 1 --sheet card --out "$folder/cards"
    hole "print --shelf" 0 print "$club" --shelf --out "$folder/cards"
    hole "print --stale" 0 print "$club" --stale --out "$folder/cards"
    hole show 0 show "$club" --week 1
    hole tally 0 tally "$club"
    hole limits 0 limits "$club"
    hole log 0 log "$club" --on 2027-03-01
    hole "log --append" 1 log "$club" --on 2027-03-01 --append "$club/logs.bell"
    hole import 0 import "$folder/pasted/a.bell" "$club"
    cp "$folder/pasted/a.bell" "$folder/later/a.bell"
    hole join 0 join "$folder/pasted/a.bell" "$folder/later/a.bell" "$folder/pasted/a.bell"
    hole diff 0 diff "$club" "$folder/later"
    hole close 1 close "$club" --until 2027-03-02 --date 2027-03-03
    hole "trim --apply" 1 trim "$club" --on 2027-03-01 --to 40min --apply
    hole trim 0 trim "$club" --on 2027-03-01 --to 40min
    hole "next --apply" 1 next "$club" --week 2 --apply
    hole next 0 next "$club" --week 2
    hole "rework --apply" 1 rework "$club" --week 1 --apply
    hole rework 0 rework "$club" --week 1
    hole explain 0 explain load-rise
    hole find 0 find press
    hole format 1 format "$club"
    hole "format --check" 0 format --check "$club"
    said='"jsonrpc":"2.0"'
    : >"$folder/input"
    for body in "{$said,\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":{},\"rootUri\":\"file://$club\"}}" \
        "{$said,\"method\":\"initialized\",\"params\":{}}" \
        "{$said,\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":{\"uri\":\"file://$club/new.bell\",\"languageId\":\"bell\",\"version\":1,\"text\":\"\"}}}" \
        "{$said,\"id\":2,\"method\":\"textDocument/documentSymbol\",\"params\":{\"textDocument\":{\"uri\":\"file://$club/new.bell\"}}}"; do
        printf 'Content-Length: %d\r\n\r\n%s' ${#body} "$body" >>"$folder/input"
    done
    reads=1 # an editor opens what it likes
    hole lsp 0 lsp
    tried=$(sed -n 's/^ *(*\(cd.* && \)*hole "*\([a-z]*\).*/\2/p' "$0" | sort -u | tr '\n' ' ')
    is "no command was left out" "$tried" "$("$bellsheet" --help | sed -n '/^Commands/,/^$/s/^  \([a-z]*\) .*/\1/p' | sort -u | tr '\n' ' ')"
fi

# It says what is given up, and what is not.
has "--version tells what is given up" "barred: files outside the plan" "$("$bellsheet" --version)"
has "so does --verbose" "barred: files outside the plan" "$("$bellsheet" check "$folder/plan" --verbose 2>&1)"

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

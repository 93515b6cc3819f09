#!/bin/sh
# tests/run counts what passed and what failed, and cannot mistake a crash for a pass.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# test_file FILE: an executable test made of standard input.
test_file()
{
    {
        echo '#!/bin/sh'
        cat
    } >"$folder/$1"
    chmod +x "$folder/$1"
}

# counts NAME "STATUS:LAST LINE" FILE...
counts()
{
    name=$1
    wanted=$2
    shift 2
    for file; do
        shift
        set -- "$@" "$folder/$file"
    done
    got=$(BUILD_DIR=$folder SANITIZE='' tests/run "$@" 2>&1)
    status=$?
    is "$name" "$wanted" "$status:$(echo "$got" | tail -n 1)"
}

# cmocka's words, so that no compiler is needed here.
test_file good <<'END'
echo '[==========] Running 2 test(s).'
echo '[ RUN      ] a'
echo '[       OK ] a'
echo '[ RUN      ] b'
echo 'half a line[       OK ] b'
echo '[==========] 2 test(s) run.'
echo '[  PASSED  ] 2 test(s).' >&2
END

test_file bad <<'END'
echo '[==========] a group: Running 3 test(s).'
echo '[       OK ] a'
echo '[  ERROR   ] --- 0x1 != 0x2' >&2
echo '[  FAILED  ] b'
echo '[  FAILED  ] c'
echo '[==========] a group: 3 test(s) run.'
echo '[  PASSED  ] 1 test(s).' >&2
echo '[  FAILED  ] 2 test(s), listed below:' >&2
echo '[  FAILED  ] b' >&2
echo '[  FAILED  ] c' >&2
exit 2
END

test_file crash <<'END'
echo '[==========] Running 3 test(s).'
echo '[       OK ] a'
echo '[ RUN      ] b'
kill -ABRT $$
END

test_file left <<'END'
echo '[==========] Running 2 test(s).'
echo '[       OK ] a'
exit 0
END

test_file leak <<'END'
echo '[==========] Running 1 test(s).'
echo '[       OK ] a'
echo '[==========] 1 test(s) run.'
echo '[  PASSED  ] 1 test(s).' >&2
exit 23
END

test_file setup <<'END'
echo '[==========] Running 2 test(s).'
echo '[       OK ] a'
echo '[  ERROR   ] b' >&2
echo '[==========] 2 test(s) run.'
echo '[  PASSED  ] 1 test(s).' >&2
exit 1
END

test_file skip <<'END'
echo '[==========] Running 2 test(s).'
echo '[       OK ] a'
echo '[  SKIPPED ] b'
echo '[==========] 2 test(s) run.'
echo '[  PASSED  ] 1 test(s).' >&2
echo '[  SKIPPED ] 1 test(s), listed below:' >&2
END

test_file none </dev/null

test_file good.sh <<'END'
echo 'ok one'
echo 'ok two'
echo 'ok three'
END

test_file bad.sh <<'END'
echo 'ok one'
echo 'not ok two: it differs'
exit 1
END

test_file quiet.sh <<'END'
echo 'not ok one: and the status does not tell'
END

test_file stopped.sh <<'END'
echo 'ok one'
exit 3
END

test_file left-out.sh <<'END'
echo 'skipped: no browser is here'
END

test_file none.sh </dev/null

counts "a program that passes" "0:2 passed, 0 failed" good
counts "a program that fails" "1:1 passed, 2 failed" bad
counts "a program that crashes" "1:1 passed, 1 failed" crash
counts "a program that leaves early" "1:1 passed, 1 failed" left
counts "a program that leaks" "1:1 passed, 1 failed" leak
counts "a set-up that fails" "1:1 passed, 1 failed" setup
counts "a skipped test is no pass" "0:1 passed, 0 failed" skip
counts "a program without tests" "1:0 passed, 1 failed" none
counts "a program that is not there" "1:0 passed, 1 failed" nowhere
counts "a script that passes" "0:3 passed, 0 failed" good.sh
counts "a script that fails" "1:1 passed, 1 failed" bad.sh
counts "a script that fails with status 0" "1:0 passed, 1 failed" quiet.sh
counts "a script that stops" "1:1 passed, 1 failed" stopped.sh
counts "a script that is left out is no pass" "0:3 passed, 0 failed" good.sh left-out.sh
has "and the reason is said" "skipped: no browser is here" "$got"
counts "a script without cases" "1:0 passed, 1 failed" none.sh
counts "the sum of several" "1:7 passed, 3 failed" good bad good.sh bad.sh
counts "no test at all" "1:0 passed, 0 failed"

chmod -x "$folder/good.sh"
counts "a script that lost its x bit" "1:2 passed, 1 failed" good good.sh
echo 'helper=1' >"$folder/helper.sh"
counts "a file that scripts source" "0:2 passed, 0 failed" good helper.sh

# Each of the two waits until the other has begun.
for pair in "left right" "right left"; do
    test_file "${pair% *}.sh" <<END
touch "$folder/begun-${pair% *}"
for tenth in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
    [ -e "$folder/begun-${pair#* }" ] && echo 'ok both are here' && exit
    sleep 0.1
done
END
done
export JOBS=2
counts "two tests run side by side" "0:2 passed, 0 failed" left.sh right.sh
rm -f "$folder"/begun-*
export JOBS=1
counts "or one after the other" "1:1 passed, 1 failed" left.sh right.sh
unset JOBS

got=$(BUILD_DIR=$folder SANITIZE='' tests/run "$folder/good" 2>&1)
has "cmocka's closing line is shown" "[  PASSED  ] 2 test(s)." "$got"
got=$(BUILD_DIR=$folder SANITIZE='' tests/run "$folder/bad" 2>&1)
has "a failure is shown in full" "[  ERROR   ] --- 0x1 != 0x2" "$got"

test_file hangs <<'END'
sleep 30
END
mv "$folder/hangs" "$folder/hangs.sh"
has "a test that hangs is ended" "took too long" "$(LIMIT=1 BUILD_DIR=$folder SANITIZE='' tests/run "$folder/hangs.sh" 2>&1)"

# --- make proof ---

test_file proved <<'END'
echo "ok case $PROOF"
echo "$PROOF" >>"${0%/*}/parts"
[ "$PROOF" != "$(cat "${0%/*}/fails" 2>/dev/null)" ] || exit 1
END
mv "$folder/proved" "$folder/proved.sh"
prove() { BUILD_DIR=$folder BELLSHEET=$folder/good PARTS=3 JOBS=1 tests/proof "$folder/proved.sh" 2>&1 | tail -n 1; }
echo 2/3 >"$folder/fails"
is "a part that fails is reported" "3 passed, 1 failed" "$(prove)"
is "after each part was tried" "1/3 2/3 3/3" "$(xargs <"$folder/parts")"
rm "$folder/fails" "$folder/parts"
is "then it is tried again" "3 passed, 0 failed" "$(prove)"
is "and nothing else" 2/3 "$(xargs <"$folder/parts")"
touch -d '+1 minute' "$folder/proved.sh"
rm "$folder/parts"
is "what was built since is tried anew" "3 passed, 0 failed" "$(prove)"
is "in all parts" "1/3 2/3 3/3" "$(xargs <"$folder/parts")"

# Where branches are counted, a test has one processor, which counts in files of its own.
test_file counted.sh <<'END'
echo "$LLVM_PROFILE_FILE" >>"$(dirname "$0")/where"
[ "$(nproc)" = 1 ] && echo "ok one processor"
END
counted()
{
    rm -f "$folder/where"
    got=$(COUNTS=/counts JOBS=1 BUILD_DIR=$folder tests/run "$folder/counted.sh" 2>&1)
    echo "$(echo "$got" | tail -n 1) $(sort -u "$folder/where")"
}
is "counting, a test has one processor, and files of that one" "1 passed, 0 failed /counts/0-%m%c.profraw" "$(counted)"

finish

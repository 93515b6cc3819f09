#!/bin/sh
# Each allocation and each call on a file fails once, in every command and every sheet: the program says so and ends with
# status 2, or ends as it does without a fault and has said the same; every file is the old one or the new one, and no
# temporary is left. A new command or sheet is a row.
#
# A few calls of each row are tried, spread over the whole run. Where PROOF asks for a part, the parts together try 300 to 600
# of a row, or all that there are; FAULTS=all tries every call, which takes hours.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
: "${FAULTS:=some}" "${PROOF:=}" "${SAMPLE:=2}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

if ldd "$bellsheet" | grep -q 'asan\|ubsan' || nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers have their own malloc: not tried"
    finish
fi
"${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/inject.so" tests/faults/inject.c -ldl || exit 1

# What is called in the plan's folder. Its number says what it ends with where nothing fails. OUT is where sheets go.
rows='
1 check . --strict
0 check . --format sarif
0 show . --all --format json
0 show . --all --review
0 tally . --format csv
0 limits .
0 find chin
0 explain plan-too-large
0 log . --on 2027-03-04
0 log . --on 2027-03-04 --append logs.bell
0 import said.txt .
0 import said.txt . --append logs.bell
0 join none.txt logs.bell said.txt
0 diff ../before .
0 close . --until 2027-03-01
0 trim . --on 2027-03-04 --to 20min --apply
0 next . --week 2 --apply
0 rework . --week 1
0 format camp.bell
0 format -
0 new OUT
0 lsp
0 print . --all --revision new --all-again --out OUT
0 print . --all --all-again --out OUT --sheet wall
0 print . --all --all-again --out OUT --sheet board
0 print . --all --all-again --out OUT --sheet card
0 print . --all --all-again --out OUT --sheet card-page
0 print . --all --all-again --out OUT --sheet floor
0 print . --all --all-again --out OUT --sheet week
0 print . --all --all-again --out OUT --sheet parents
0 print . --all --all-again --out OUT --sheet bout
0 print . --all --all-again --out OUT --sheet monday
0 print . --all --all-again --out OUT --sheet camp
0 print . --all --all-again --out OUT --sheet tests
0 print . --all --all-again --out OUT --sheet review
0 print . --all --all-again --out OUT --sheet season
0 print . --all --all-again --out OUT --sheet season-club
0 print . --all --all-again --out OUT --sheet phone
0 print . --all --all-again --out OUT --sheet calendar
'

mkdir "$folder/plan"
cat >"$folder/plan/camp.bell" <<'END'
gym   Yard
    barbell   20 kg
    plates    8 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    stations  rack, pull-up bar
athlete Wren Holloway
    stance orthodox
    lifting since 2020-01
    trains at Yard
    age group under 18
    bests
        back squat : 1 @ 100 kg on 2027-02-01
    tests
        countermovement jump : 38, 39 cm on 2027-02-01
private Wren Holloway
    born 2011-05-04
season 2027
    from 2027-01-04
    to 2027-12-26
session Legs   # a comment
    straight A  3 sets rest 3:00
        back squat : 8-10 @ 60 kg
            next time 8-10, then 2.5 kg
    straight B  4 sets rest 2:00
        keep 1
        chin-up : 5
camp Spring
    for Wren Holloway
    starts 2027-03-01
    bout 2027-03-20 kickboxing 3 x 2:00 rest 1:00
    weeks 1-2
        monday    17:30  Legs
        thursday  18:00  Legs
log 2027-03-01 Wren Holloway, Legs
    A.1 : 10 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg
END
printf 'log 2027-02-01 Wren Holloway, Legs\n    as planned\n' >"$folder/plan/logs.bell"
printf 'log 2027-03-04 Wren Holloway, Legs\n    A.1 : 8 @ 60 kg\n' >"$folder/plan/said.txt"
: >"$folder/plan/none.txt"
cp -r "$folder/plan" "$folder/before"
sed -i 's/8 x 20/6 x 20/' "$folder/before/camp.bell"

# What an editor sends, for the row `lsp`.
send()
{
    printf 'Content-Length: %d\r\n\r\n%s' ${#1} "$1"
}
{
    send '{"id":1,"method":"initialize","params":{"capabilities":{}}}'
    send '{"method":"textDocument/didOpen","params":{"textDocument":{"uri":"untitled:a","version":1,"text":"athlete A\nsession S\n    straight A 3 sets\n        push-up : 5\n"}}}'
    send '{"id":2,"method":"textDocument/completion","params":{"textDocument":{"uri":"untitled:a"},"position":{"line":3,"character":8}}}'
    send '{"id":3,"method":"textDocument/hover","params":{"textDocument":{"uri":"untitled:a"},"position":{"line":3,"character":10}}}'
    send '{"id":4,"method":"shutdown"}'
    send '{"method":"exit"}'
} >"$folder/talk"

# start: a plan and an output folder as they are before a command.
start()
{
    rm -rf "$folder/plan.work" "$folder/out"
    cp -r "$folder/plan" "$folder/plan.work"
    [ ! -d "$folder/out.old" ] || cp -r "$folder/out.old" "$folder/out"
}

# run ARGUMENTS "VARIABLE=VALUE ...": what it says goes to $folder/said and $folder/errors.
run()
{
    called=$(echo "$1" | sed "s,OUT,$folder/out,")
    input=/dev/null
    case $1 in
    lsp*) input=$folder/talk ;;
    'format -') input=$folder/plan/camp.bell ;;
    esac
    # shellcheck disable=SC2086
    (cd "$folder/plan.work" && exec env $2 "$bellsheet" ${called%% *} --date 2027-03-05 $(echo "$called " | cut -d ' ' -f 2-)) \
        >"$folder/said" 2>"$folder/errors" <"$input"
    ended=$?
    # A server answers each request, and where a file could not be read its answer is that.
    case $1 in
    lsp*) grep -ao '"id":[0-9]*' "$folder/said" >"$folder/ids"; mv "$folder/ids" "$folder/said" ;;
    esac
    return $ended
}

# broken GOT OLD NEW: files of GOT that are neither as in OLD nor as in NEW.
broken()
{
    find "$1" "$2" -type f 2>/dev/null | sed "s,^$1/\|^$2/,," | sort -u | while read -r name; do
        # It says between two files that one is being made.
        [ "${name##*/}" != sheets.json ] || continue
        if [ -e "$1/$name" ]; then
            cmp -s "$1/$name" "$2/$name" || cmp -s "$1/$name" "$3/$name" || echo "$name"
        else
            echo "$name is gone"
        fi
    done
}

# judge STATUS: what is wrong with how a run ended in which a call failed.
judge()
{
    case $1 in
    2) grep -q 'bellsheet: error: ' "$folder/errors" || echo "no message" ;;
    # What could not be closed after reading was read; what is as it should be is no failure.
    "$normal") cmp -s "$folder/said" "$folder/said.new" || echo "status $1, and not the same said"
        diff -rq "$folder/plan.work" "$folder/plan.new"
        [ ! -d "$folder/out.new" ] || diff -rq "$folder/out" "$folder/out.new" ;;
    *) echo "status $1: $(head -c 300 "$folder/errors")" ;;
    esac
    broken "$folder/plan.work" "$folder/plan" "$folder/plan.new"
    broken "$folder/out" "$folder/out.old" "$folder/out.new"
}

# try KIND N: prints what is wrong, in one line. A run may make fewer calls than the one that was counted.
try()
{
    start
    rm -f "$folder/reached"
    run "$arguments" "LD_PRELOAD=$folder/inject.so FAULT_KIND=$1 FAULT_AT=$2 FAULT_LOG=$folder/reached"
    status=$?
    [ -s "$folder/reached" ] || return 0
    echo "$2" >>"$folder/tried"
    wrong=$(judge "$status")
    [ -z "$wrong" ] || echo "call $2: $wrong" | tr '\n' ';' | sed 's/;$/\n/'
}

# numbers COUNT NUMBER: which of COUNT calls are tried in the row NUMBER.
numbers()
{
    if [ -n "$PROOF" ]; then
        seq "${PROOF%/*}" $((${PROOF#*/} * (1 + $1 / 600))) "$1"
    elif [ "$FAULTS" = all ]; then
        seq "$1"
    else
        seq "$SAMPLE" | awk -v all="$1" -v parts="$SAMPLE" -v row="$2" \
            '{ print int(all * (($1 - 1 + (row * 7 % 10) / 10) / parts) ^ 1.5) + 1 }'
    fi
}

# try_row NUMBER
try_row()
{
    rm -rf "$folder/out.old" "$folder/out.new" "$folder/plan.new"
    case $arguments in
    *revision*)
        start
        run "$(echo "$arguments" | sed 's/revision new/revision old/')" ""
        mv "$folder/out" "$folder/out.old"
        ;;
    esac
    start
    run "$arguments" ""
    is "$arguments: where nothing fails" "$normal" $?
    cp "$folder/said" "$folder/said.new"
    cp -r "$folder/plan.work" "$folder/plan.new"
    [ ! -d "$folder/out" ] || cp -r "$folder/out" "$folder/out.new"
    for kind in memory files; do
        start
        rm -f "$folder/count"
        run "$arguments" "LD_PRELOAD=$folder/inject.so FAULT_KIND=$kind FAULT_LOG=$folder/count"
        count=$(cat "$folder/count")
        : >"$folder/tried"
        for n in $(numbers "$count" "$1"); do
            try $kind "$n"
        done >"$folder/wrong"
        is "$arguments: $kind, $(wc -l <"$folder/tried") of $count calls" "" "$(head -20 "$folder/wrong")"
        [ -s "$folder/tried" ] || [ -n "$PROOF" ] || refuse "$arguments, $kind" "no call failed"
    done
}

# Every command has a row, and every sheet.
is "each command is tried" "$("$bellsheet" --help | sed -n '/^Commands:/,/^$/s/^  \([a-z]*\) .*/\1/p' | sort)" \
    "$(echo "$rows" | awk 'NF { print $2 }' | sort -u)"
is "each sheet is tried" "$("$bellsheet" print --help | sed -n 's/^  --sheet LIST *of \([^ ]*\) .*/\1/p' | tr , '\n' | sort)" \
    "$(echo "$rows" | sed -n 's/.*--sheet //p' | sort)"

number=0
echo "$rows" | grep . >"$folder/rows"
while read -r normal arguments <&3; do
    number=$((number + 1))
    [ "${ROWS:-$number}" = "$number" ] || continue
    try_row $number
done 3<"$folder/rows"

# A full disk behind standard output.
if [ -w /dev/full ]; then
    "$bellsheet" check "$folder/plan" --format json >/dev/full 2>"$folder/errors"
    is "a report that cannot be written" "2:1" "$?:$(grep -c '^bellsheet: error: standard output' "$folder/errors")"
    "$bellsheet" format - <"$folder/plan/camp.bell" >/dev/full 2>"$folder/errors"
    is "a layout that cannot be written" "2:1" "$?:$(grep -c '^bellsheet: error: standard output' "$folder/errors")"
fi

finish

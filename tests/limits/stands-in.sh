#!/bin/sh
# Ten restrictions of everyday practice on the example squad: what the plan then has to leave out is reported line by
# line, and the first proposal of each message, written below its line, is one that no restriction bars. The
# restrictions and their sources, named from memory, are those of tests/shelf/test_joints.c.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
plans=$(pwd)/examples/slipway
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# broken: FILE:LINE:WHAT of each line that a restriction bars, WHAT being what may be done instead, or nothing.
broken()
{
    "$program" check club --date 2027-03-01 --notes 2>&1 | awk '
        /\[avoid-broken\]$/ { split($1, at, ":"); where = at[1] ":" at[2]; next }
        where && /fix: below the line, write `for / {
            what = $0; sub(/.*write `/, "", what); sub(/`.*/, "", what); print where ":" what; where = "" }
        where && /fix: / { print where ":"; where = "" }'
}

# mend: writes each proposal below its line, from the last line of a file up; fails if there is none to write
mend()
{
    sort -t: -k1,1 -k2,2nr told | awk -F: '!seen[$1 ":" $2]++' | while IFS=: read -r file line what; do
        [ -n "$what" ] || continue
        indent=$(sed -n "${line}s/^\( *\).*/\1    /p" "$file")
        sed -i "${line}a\\
$indent$what" "$file"
    done
}

proposed=0
for restriction in 'left knee deep' 'right knee deep' 'knee impact' 'right hand impact' 'spine loaded' \
    'left shoulder overhead' 'right hip stretched' 'left hip fast' 'left ankle impact' 'right wrist loaded'; do
    rm -rf club
    cp -r "$plans" club
    sed -i "s/^    avoid         overhead/    avoid         $restriction\n        since 2027-02-01\n&/" club/athletes.bell
    broken >told
    lines=$(grep -c . told)
    proposed=$((proposed + $(grep -c ':for ' told)))
    mend
    broken >left
    # What stays has no proposal: an activity, or a line for which nothing near it is left.
    is "$restriction: of what is reported ($lines) no proposal is barred itself" "" "$(grep ':for ' left)"
done
is "proposals were tried" yes "$([ "$proposed" -ge 15 ] && echo yes || echo "$proposed")"
finish

#!/bin/sh
# The whole loop on the example club: a week's logs are prepared, filled in with differences and checked, and decide the
# loads of the next week.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway "$folder/club"
cd "$folder" || exit 2
today=2027-03-15

# fill SEED: logs as `bellsheet log` makes them, filled in: some as planned, some missed, some with lines of their own.
fill()
{
    awk -v seed="$1" '
        function random(below) { seed = seed * 16807 % 2147483647; return int(seed / 7) % below }
        /^log / { draw = random(10); print; next }
        !/^    # / { print; next }
        draw < 5 || draw == 9 && !/ @ / { if (/# as planned/) print "    as planned"; next }
        draw == 5 { if (/# as planned/) print "    missed because exam"; next }
        /# took/ { sub(/# /, ""); print; next }
        / @ [0-9.]+ kg  #/ {
            sub(/# /, "")
            sub(/  #.*/, "")
            if (random(2)) sub("x " $5, "x " $5 + 2)
            print $0 " RPE " 6 + random(4)
        }'
}

for day in 08 09 10 11 12 13 14; do
    "$program" log club --on "2027-03-$day" --date $today 2>/dev/null
done >skeleton
is "there is much to fill in" yes "$([ "$(grep -c '^log ' skeleton)" -gt 20 ] && echo yes)"
fill 7 <skeleton >>club/logs.bell
"$program" format club >/dev/null 2>&1
"$program" check club --date $today >said 2>&1
is "the club with its logs is read and checked" 0 "$?"
is "some are missed, some differ" yes \
    "$([ "$(grep -c 'missed because' club/logs.bell)" -gt 0 ] && [ "$(grep -c 'RPE [6-9]$' club/logs.bell)" -gt 3 ] && echo yes)"

next() { "$program" next club --week 3 --date $today "$@" 2>&1; }
next >said
is "there is something to propose" yes "$([ "$(grep -c 'in place of' said)" -gt 0 ] && echo yes)"
is "each with its reason" "$(grep -c 'in place of' said)" "$(grep -c ', because ' said)"
next --patch >patch
cp -r club before
next --apply >said
is "the files that change are named" yes "$([ -s said ] && echo yes)"
rm -rf other && cp -r before other
(cd other && sed 's,^\(---\|+++\) \([ab]\)/club/,\1 \2/,' ../patch >../patch.here && git init -q . && git apply ../patch.here 2>&1) >said
is "git apply takes the patch" '' "$(cat said)"
rm -rf other/.git
is "and makes the same" '' "$(diff -r other club)"
is "something changed" yes "$(diff -rq before club >/dev/null || echo yes)"
is "then there is nothing to propose" '' "$(next | grep 'in place of' | head -n 3)"
"$program" format --check club >said 2>&1
is "all files have their one layout" 0 "$?"
"$program" check club --date $today >said 2>&1
is "and the plan is as clean as before" 0 "$?"

finish

#!/bin/sh
# Forty athletes and twenty-six weeks in one run: what is found comes by file, line and column, and is the same on every
# run, whatever the order in which the files are named.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

awk 'BEGIN {
    for (i = 1; i <= 40; i++) print "athlete A" i "\n    stance  " (i % 2 ? "orthodox" : "southpaw") > "athletes.bell"
    print "limits Own\n    every week\n        sets             at most 30\n        sparring rounds  at most 10" > "limits.bell"
    for (s = 1; s <= 5; s++) {
        print "session S" s "\n    straight A  3/4/5/... sets rest 1:30\n        push-up : 5\n        goblet squat : 8" > "sessions.bell"
        file = "camp" s ".bell"
        printf "camp C%d\n    for     A%d", s, 8 * s - 7 > file
        for (i = 8 * s - 6; i <= 8 * s; i++) printf ", A%d", i > file
        print "\n    starts  2027-03-01\n    limits  Own\n    weeks 1-26" > file
        print "        monday, wednesday, friday  S" s > file
        print "        saturday  sparring : " 8 + s " x 2:00 RPE 7" > file
    }
}'

check()
{
    "$program" check -i --format json --date 2027-03-01 "$@" 2>&1
}
first=$(check .)
is "it fails" 1 $?
# Ten rounds of sparring pass, and three camps have 11, 12 and 13 in each of 26 weeks.
is "what is found is counted" "78 errors, 0 warnings" "$("$program" check --date 2027-03-01 . 2>&1 | tail -n 1)"
is "the same again" "$first" "$(check .)"
is "by file and line" "" "$("$program" check -i --date 2027-03-01 . 2>&1 |
    sed -n 's/^\([^ :]*\):\([0-9]*\):\([0-9]*\): \(error\|warning\|info\): .*/\1 \2 \3/p' |
    sort -c -k1,1 -k2,2n -k3,3n 2>&1)"
prints()
{
    check "$@" | sed -n 's/^ *"fingerprint": //p' | sort
}
is "the same of files named backward" "$(prints athletes.bell camp*.bell limits.bell sessions.bell)" \
    "$(prints sessions.bell limits.bell camp5.bell camp4.bell camp3.bell camp2.bell camp1.bell athletes.bell)"
is "each athlete's weeks are looked at" 40 "$("$program" tally --week 26 . 2>/dev/null | grep -c '^A[0-9]*, C')"
finish

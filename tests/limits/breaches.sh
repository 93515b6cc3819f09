#!/bin/sh
# Work on days on which a hold barred it: what the plan or a log has, from which day on, and how often.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# held NAME LINE [LOG...]: one with a hold from 3 March, what is placed in the second week, and logs, "DAY WHAT" in March.
held()
{
    name=$1 line=$2
    shift 2
    printf 'athlete Case %s\n    hold head\n        since 2027-03-03\n' "$name"
    printf 'camp Of %s\n    for Case %s\n    starts 2027-03-01\n    week 2\n        %s\n' "$name" "$name" "$line"
    for log; do
        printf 'log 2027-03-%s Case %s, %s\n    took 20 min RPE 6\n' "${log%% *}" "$name" "${log#* }"
    done
}

{
    printf 'session Lifts\n    straight A 2 sets rest 2:00\n        goblet squat : 5 @ RPE 6\n        push-up : 5 @ RPE 6\n'
    held nothing-done  'sunday travel : 2 h'
    held unplanned     'sunday travel : 2 h' '04 pads'
    held twice         'sunday travel : 2 h' '05 pads' '04 pads' '06 pads'
    held before-it     'sunday travel : 2 h' '02 pads'
    held on-its-day    'sunday travel : 2 h' '03 pads'
    held only-travel   'sunday travel : 2 h' '05 travel'
    held lifted        'sunday travel : 2 h' '05 Lifts'
    held planned       'tuesday pads : 20 min RPE 6' '09 pads'
    held planned-lifts 'tuesday Lifts' '09 Lifts'
    held still-there    'tuesday pads : 20 min RPE 6'
    held to-come       'sunday pads : 20 min RPE 6'
    printf 'athlete Case free\nlog 2027-03-05 Case free, pads\n    took 20 min RPE 6\n'
} >club.bell
said=$("$program" check -i --notes --color=never --date 2027-03-12 club.bell 2>&1)
reported=$(echo "$said" | sed -n 's/^[^ ]*: warning: Case \([a-z-]*\): .* work on \([0-9-]*\) .*\[hold-breached\]$/\1 \2/p' | sort)
is "whose work the hold of its day barred" "lifted 2027-03-05
planned 2027-03-09
planned-lifts 2027-03-09
still-there 2027-03-09
twice 2027-03-04
unplanned 2027-03-04" "$reported"
is "how often" "and 2 more since" "$(echo "$said" | sed -n '/Case twice: the plan/,/since/s/.*note: \(and .*since\)/\1/p')"
is "once is not counted" 1 "$(echo "$said" | grep -c 'more since')"
has "whom to tell" "tell whoever looks after the athlete" "$said"

# --- bouts ---

# fights NAME DAY [LINE]: one with a hold from 3 March and a bout, with LINE below it.
fights()
{
    printf 'athlete Case %s\n    hold head\n        since 2027-03-03\n' "$1"
    printf 'camp Of %s\n    for Case %s\n    starts 2027-03-01\n    bout %s boxing 3 x 3:00 rest 1:00\n' "$1" "$1" "$2"
    [ -z "${3:-}" ] || printf '        %s\n' "$3"
    printf '    week 1\n        monday travel : 2 h\n'
}

{
    fights to-come      2027-03-06
    fights of-today     2027-03-05
    fights gone-by      2027-03-04
    fights on-its-day   2027-03-03
    fights called-off   2027-03-06 'cancelled on 2027-03-01'
    fights two-days     '2027-03-06, 2027-03-07'
} >bouts.bell
said=$("$program" check -i --notes --color=never --date 2027-03-05 bouts.bell 2>&1)
is "bouts while a hold stands" "of-today 2027-03-05
to-come 2027-03-06
two-days 2027-03-06" \
    "$(echo "$said" | sed -n 's/^[^ ]*: error: Case \([a-z-]*\) is on hold, but has a bout on \([0-9-]*\) \[hold-broken\]$/\1 \2/p' | sort)"
has "each day of a tournament" "found 2 times in all, on 2027-03-06, 2027-03-07" "$said"

finish

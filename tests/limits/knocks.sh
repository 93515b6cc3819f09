#!/bin/sh
# Which knocks have no hold, and what a suspension bars: an athlete for each case, and the names that are reported.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# told CHECK PLAN DATE: "SEVERITY NAME DAY" of each finding of CHECK, in the order of names and days.
told()
{
    "$program" check -i --notes --color=never --date "$3" "$2" 2>&1 |
        sed -n "s/^[^ ]*: \([a-z]*\): Case \([a-z-]*\)[ :].*\(20[0-9-]*\).*\[$1\]\$/\1 \2 \3/p" | sort -k 2
}

# athlete NAME [LINE...], private NAME [LINE...]
athlete() { who=$1; shift; printf 'athlete Case %s\n' "$who"; [ $# -eq 0 ] || printf '    %s\n' "$@"; }
private() { who=$1; shift; printf 'private Case %s\n' "$who"; printf '    %s\n' "$@"; }

# --- knocks ---

# knock NAME KNOCK HOLD...: one with a knock, and holds.
knock()
{
    name=$1 moment=$2
    shift 2
    athlete "$name"
    for since; do
        printf '    hold head\n        since %s\n' "$since"
    done
    private "$name" "head knock on $moment"
}

{
    knock bare          2027-02-27
    knock same-day      2027-02-27         2027-02-27
    knock day-before    2027-02-27         2027-02-26
    knock day-after     2027-02-27         2027-02-28
    knock second-hold   2027-02-27         2027-02-20 2027-02-27
    knock same-minute   '2027-02-27 19:30' '2027-02-27 19:30'
    knock minute-before '2027-02-27 19:30' '2027-02-27 19:29'
    knock minute-after  '2027-02-27 19:30' '2027-02-27 19:31'
    knock hold-no-hour  '2027-02-27 19:30' 2027-02-27
    knock knock-no-hour 2027-02-27         '2027-02-27 19:30'
    knock at-midnight   '2027-02-27 00:00' '2027-02-27 19:30'
} >knocks.bell
is "knocks without a hold from then on" "error at-midnight 2027-02-27
error bare 2027-02-27
error day-after 2027-02-27
error day-before 2027-02-27
error minute-after 2027-02-27" "$(told knock-without-hold knocks.bell 2027-03-01)"
has "the fix has the hour" "since 2027-02-27 19:30\`" "$("$program" check -i --color=never --date 2027-03-01 knocks.bell 2>&1)"
has "midnight too" "since 2027-02-27 00:00\`" "$("$program" check -i --color=never --date 2027-03-01 knocks.bell 2>&1)"

# Who is out from then on may have a hold in a private file that is not at hand.
{
    athlete out-next-day 'out since 2027-02-28' 'head knock on 2027-02-27'
    athlete out-late     'out since 2027-03-01' 'head knock on 2027-02-27'
    athlete out-for-days 'head knock on 2027-02-27' 'out since 2027-02-28' '    until 2027-03-05'
} >out.bell
is "out without a private file" "error out-for-days 2027-02-27
error out-late 2027-02-27
warning out-next-day 2027-02-27" "$(told knock-without-hold out.bell 2027-03-01)"
{ cat out.bell; private out-late 'born 2000-01-01'; } >told.bell
has "with one all is known" "error out-next-day" "$(told knock-without-hold told.bell 2027-03-01)"

# --- bouts that were stopped ---

# fought NAME RESULT [HOLD]
fought()
{
    athlete "$1"
    [ -z "${3:-}" ] || printf '    hold head\n        since %s\n' "$3"
    printf 'camp Of %s\n    for Case %s\n    starts 2027-03-01\n    bout 2027-03-06, 2027-03-07 boxing 3 x 3:00 rest 1:00\n        result %s\n    week 1\n        monday technique : 20 min RPE 3\n' \
        "$1" "$1" "$2"
}

{
    fought stopped    'lost by knockout on 2027-03-06'
    fought second     'lost by knockout on 2027-03-07'
    fought held       'lost by knockout on 2027-03-07' 2027-03-07
    fought held-early 'lost by knockout on 2027-03-07' 2027-03-06
    fought won        'won by knockout on 2027-03-07'
    fought judged     'lost by decision on 2027-03-07'
} >stopped.bell
is "bouts that were lost by blows" "error held-early 2027-03-07
error second 2027-03-07
error stopped 2027-03-06" "$(told stopped-without-hold stopped.bell 2027-03-08)"

# --- suspensions ---

# suspended NAME LINE...: one who spars on Tuesday and clinches on Wednesday, with a bout at the weekend and one that is off.
suspended()
{
    name=$1
    shift
    athlete "$name" 'suspended by the commission'
    printf '        %s\n' "$@"
    printf 'camp Of %s\n    for Case %s\n    starts 2027-03-01\n' "$name" "$name"
    printf '    bout 2027-03-06, 2027-03-07 boxing 3 x 3:00 rest 1:00\n    bout 2027-03-13 boxing 3 x 3:00 rest 1:00\n'
    printf '        cancelled on 2027-02-28\n    week 1\n        monday technique : 20 min RPE 3\n'
    printf '        tuesday light sparring : 4 x 2:00 RPE 5\n        wednesday clinch : 4 x 2:00 RPE 5\n'
}

{
    suspended all          'until further notice'
    suspended bout         'no bout before 2027-03-07'
    suspended contact      'no contact before 2027-03-03'
    suspended contact-bout 'no contact before 2027-03-07'
    suspended longer       'no contact before 2027-03-07' 'no bout before 2027-03-06'
    suspended over         'no contact before 2027-03-02' 'no bout before 2027-03-06'
    suspended since        'since 2027-03-03' 'no contact before 2027-03-20'
    athlete   apart        'suspended by the commission' '    until further notice'
} >suspended.bell
is "what each suspension bars" "error all 2027-03-02
error all 2027-03-03
error all 2027-03-06
error bout 2027-03-06
error contact 2027-03-02
error contact-bout 2027-03-02
error contact-bout 2027-03-03
error contact-bout 2027-03-06
error longer 2027-03-02
error longer 2027-03-03
error longer 2027-03-06
error since 2027-03-03
error since 2027-03-06" "$(told suspension-broken suspended.bell 2027-03-01)"
is "days gone by are left alone, and so is what was done" "error all 2027-03-06" "$({
    suspended all 'until further notice'
    printf 'log 2027-03-03 Case all, clinch\n    took 12 min RPE 5\n'
} >logged.bell; told suspension-broken logged.bell 2027-03-03)"
said=$("$program" check -i --color=never --date 2027-03-01 suspended.bell 2>&1)
has "each day of a tournament counts" "found 2 times in all, on 2027-03-06, 2027-03-07" "$said"
has "an open end is said" "until further notice" "$said"
has "the day of another too" "not before 2027-03-07" "$said"

# --- a day alone ---

{
    athlete walks 'hold head' '    since 2027-02-20' '    reached 2a by club physio on 2027-02-22'
    printf 'camp Of walks\n    for Case walks\n    starts 2027-03-01\n    bout 2027-03-06 boxing 3 x 3:00 rest 1:00\n    week 1\n'
    printf '        monday walk : 20 min RPE 2\n'
} >walks.bell
said=$("$program" check -i --color=never --date 2027-03-01 walks.bell 2>&1)
has "a bout of who is on hold" "Case walks is on hold, but has a bout on 2027-03-06" "$said"
said=$("$program" check -i --color=never --date 2027-03-01 --from 2027-03-01 --to 2027-03-01 walks.bell 2>&1)
is "is no matter of the walk" "" "$(echo "$said" | grep "has a bout")"

finish

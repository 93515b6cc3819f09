#!/bin/sh
# Whose weighings are worth talking about, and for whom of the young a lower body mass is planned: a name for each case.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# told CHECK PLAN: the names of which CHECK finds something, on 1 March.
told()
{
    "$program" check -i --notes --color=never --date 2027-03-01 "$2" 2>&1 |
        sed -n "s/^[^ ]*: [a-z]*: Case \([a-z-]*\): .*\[$1\]\$/\1/p" | sort | tr '\n' ' '
}

# weighed NAME BELOW MASS...: one with the line BELOW, and `KILOGRAMS on DAY` in the private file, the day in 2027.
weighed()
{
    printf 'athlete Case %s\n    %s\nprivate Case %s\n' "$1" "$2" "$1"
    shift 2
    printf '    body mass %s\n' "$@" | sed 's/ on / on 2027-/'
}

# --- the mean of seven days against that of the seven before: 1.5 % ---

{
    weighed falls         'stance orthodox' '60 kg on 02-20' '60 kg on 02-21' '59.09 kg on 02-28'
    weighed at-the-border 'stance orthodox' '60 kg on 02-20' '60 kg on 02-21' '59.10 kg on 02-28'
    weighed just-below    'stance orthodox' '60 kg on 02-20' '60 kg on 02-21' '59.099 kg on 02-28'
    weighed rises         'stance orthodox' '60 kg on 02-20' '60 kg on 02-21' '70 kg on 02-28'
    weighed two-weighings 'stance orthodox' '60 kg on 02-21' '50 kg on 02-28'
    weighed one-week      'stance orthodox' '60 kg on 02-22' '60 kg on 02-25' '50 kg on 02-28'
    weighed long-before   'stance orthodox' '60 kg on 02-14' '60 kg on 02-22' '55 kg on 02-28'
    weighed week-before   'stance orthodox' '60 kg on 02-15' '60 kg on 02-22' '55 kg on 02-28'
    weighed mean-is-kept  'stance orthodox' '60 kg on 02-20' '61.5 kg on 02-22' '58.5 kg on 02-28'
    weighed by-the-mean   'stance orthodox' '60 kg on 02-15' '56 kg on 02-21' '57 kg on 02-28'
    weighed today         'stance orthodox' '60 kg on 02-22' '60 kg on 02-21' '59 kg on 03-01'
    weighed to-come       'stance orthodox' '60 kg on 02-20' '60 kg on 02-21' '50 kg on 03-02'
    printf 'athlete Case %s\n    body mass 60 kg on 2027-02-20\n    body mass 60 kg on 2027-02-21\n    body mass 55 kg on 2027-02-28\n' shared
    weighed last-private  'body mass 60 kg on 2027-02-20
    body mass 60 kg on 2027-02-21' '59 kg on 02-28'
    printf 'athlete Case %s\n    body mass 60 kg on 2027-02-21\n    body mass 55 kg on 2027-02-28\n' first-private
    printf 'private Case first-private\n    body mass 60 kg on 2027-02-20\n'
} >falling.bell
is "weighings that are worth talking about" "by-the-mean falls first-private just-below last-private today week-before " "$(told mass-falling falling.bell)"

# --- a lower mass to come, of the young ---

{
    weighed lower      'age group under 18' '60 kg on 02-26' '59.99 kg on 05-01'
    weighed the-same   'age group under 18' '60 kg on 02-26' '60 kg on 05-01'
    weighed higher     'age group under 18' '60 kg on 02-26' '61 kg on 05-01'
    weighed grown-up   'born 2000-01-01' '60 kg on 02-26' '59 kg on 05-01'
    weighed of-today   'age group under 18' '60 kg on 02-26' '59 kg on 03-01'
    weighed tomorrow   'age group under 18' '60 kg on 02-26' '59 kg on 03-02'
    weighed from-today 'age group under 18' '58 kg on 02-26' '60 kg on 03-01' '59 kg on 05-01'
    weighed was-lower  'age group under 18' '58 kg on 02-26' '60 kg on 03-01'
    weighed no-last    'age group under 18' '60 kg on 04-01' '59 kg on 05-01'
    printf 'athlete Case shared\n    age group under 18\n    body mass 60 kg on 2027-02-26\n    body mass 59 kg on 2027-05-01\n'
} >planned.bell
is "a lower mass that is planned" "from-today lower tomorrow " "$(told mass-planned planned.bell)"
has "nothing advises on weight" "nothing here advises on weight" \
    "$("$program" check -i --color=never --date 2027-03-01 planned.bell 2>&1)"

finish

#!/bin/sh
# bellsheet check: what a screen shows of many findings, what a report has of them, and one week or athlete alone.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

# Nine lines under the house defaults.
cat >nine.bell <<'END'
athlete Oriel Tamsin
    stance  orthodox
session Pull
    straight A  3 sets rest 2:00
        chin-up : 5 @ body mass
camp Spring
    for     Oriel Tamsin
    starts  2027-03-01
    weeks 1-2
        monday  Pull
END
cat >two.bell <<'END'
athlete Oriel Tamsin
    stance  orthodox
athlete Kofi Brandreth
    stance  orthodox
session Push
    straight A  2 sets rest 2:00
        push-up : 5
        push-up : 5
        push-up : 5
        push-up : 5
        push-up : 5
limits own
    every week
        sets            at most 9 warn
            common practice
        push sets       at most 9 warn
            common practice
        chest sets      at most 9 warn
            common practice
        strength sets   at most 9 warn
            common practice
        lifts           at most 49 warn
            common practice
        heavy lifts     at least 1
            common practice
        time            at least 60 min
            common practice
        sparring rounds at most 1 warn
            common practice
    every session
        time            at most 5 min must
            common practice
camp Spring
    for     Oriel Tamsin, Kofi Brandreth
    starts  2027-03-01
    limits  own
    week 1
        monday   Push
camp Summer
    for     Kofi Brandreth
    starts  2027-06-07
    limits  own
    week 2
        monday   Push
        tuesday  sparring : 2 x 2:00 RPE 6
END

# check OPTIONS...: what is said on either stream, and the exit status.
check()
{
    "$program" check --date 2027-02-25 "$@" 2>&1
    echo "exit $?"
}

# heads OPTIONS...: the names of what is found, with how often.
heads()
{
    check "$@" | sed -n 's/^[^ ]*: \(error\|warning\): .*\[\(.*\)\]$/\2/p' | sort | uniq -c | sed 's/^ *//'
}

# report NAMES of the JSON report.
report()
{
    check --format json "$@" | sed -n 's/^ *"name": "\(.*\)",$/\1/p' | sort | uniq -c | sed 's/^ *//'
}

said=$(check nine.bell)
is "nine lines of plan give one finding" "1 floors-missed" "$(heads nine.bell)"
is "and few lines" yes "$([ "$(printf '%s\n' "$said" | wc -l)" -lt 20 ] && echo yes)"
has "a row has what there is, what is asked for and its source" \
    "at least 2  Naish et al. 2013    [sessions-under]" "$said"
is "a report has each by its name" "" "$(report nine.bell | grep -E 'floors-missed|more-warnings')"
rows=$(printf '%s\n' "$said" | grep -c '^      | .*\]$')
is "as many as the table has rows" "$rows" "$(check --format json nine.bell | grep -c '"severity": "warning"')"
is "and as many are counted" "0 errors, $rows warnings" "$(printf '%s\n' "$said" | tail -n 2 | head -n 1)"
is "with --notes the screen has them too" "$rows" "$(check --notes nine.bell | grep -c '^nine.*: warning: ')"

said=$(check two.bell)
has "errors come first" "[time-over]" "$(printf '%s\n' "$said" | grep -E ': (error|warning): ' | head -n 1)"
has "five warnings of a week, and the others counted" "2 more warnings in week 1 of Spring" "$said"
is "no report leaves one out" "$(check --notes two.bell | grep -c ': warning: ')" \
    "$(check --format json two.bell | grep -c '"severity": "warning"')"
for format in json sarif github gitlab; do
    is "$format: nothing is made up for the screen" "" \
        "$(check --format $format two.bell | grep -E 'more-warnings|floors-missed')"
done
has "of five lines that add up three are named" "and 2 more lines; \`check --notes\` shows all" "$said"
has "and with --notes all" "see: 10 from A.5 push-up" "$(check --notes two.bell)"
is "which are not named without" "" "$(printf '%s\n' "$said" | grep 'A.5 push-up')"
is "and in a report" "" "$(check --format json two.bell | grep 'more lines')"

# --- one week, one athlete ---

is "of a week that has sparring, its sparring" "1 sparring-over" "$(heads --week 2 two.bell | grep sparring)"
is "of another not" "" "$(heads --week 1 two.bell | grep sparring)"
is "nor of an athlete who has none" "" "$(heads --athlete 'Oriel Tamsin' two.bell | grep sparring)"
has "an athlete's findings name that athlete" "Oriel Tamsin" "$(check --athlete 'Oriel Tamsin' two.bell)"
is "and no other" "" "$(check --athlete 'Oriel Tamsin' two.bell | grep Kofi | grep -v ' | ')"
is "a report keeps to it too" "" "$(check --format json --athlete 'oriel tamsin' two.bell | grep Kofi)"
is "what is left can be clean" "exit 0" "$(sed 's/must/warn/' two.bell >warn.bell; check --week 2 warn.bell | tail -n 1)"
has "an athlete whom nobody knows" "did you mean \`Oriel Tamsin\`?" "$(check --athlete 'Oriel Tamsim' two.bell)"
is "and the status says so" "exit 2" "$(check --athlete 'Oriel Tamsim' two.bell | tail -n 1)"
has "a week without a plan" "nothing is planned then" "$(check --week 3 two.bell)"
sed 's/^        push-up : 5/        push-upp : 5/' two.bell >broken.bell
has "a line that cannot be read is reported whoever is asked for" "[unknown-exercise]" \
    "$(check --athlete 'Oriel Tamsin' broken.bell)"
finish

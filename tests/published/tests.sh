#!/bin/sh
# The error of measurement, as the commands tell it, to four figures.
#
# The typical error is the deviation of the differences between two trials, divided by the square root of two (Hopkins
# 2000, Sports Med 30:1-15, from memory); the smallest worthwhile change a fifth of the deviation between athletes
# (Hopkins 2004, Sportscience 8:1-7); the least detectable change 1.96 times the square root of two times the typical
# error. The trials are invented; what follows from them was worked out by hand. The strength index and the height of a
# jump from its time in the air (g t^2 / 8) are arithmetic.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# plan NAME: the club on standard input with a session for each of its athletes, as JSON in $folder/NAME.json
plan()
{
    cat - >"$folder/$1.bell"
    names=$(sed -n 's/^athlete //p' "$folder/$1.bell" | paste -sd, | sed 's/,/, /g')
    cat >>"$folder/$1.bell" <<END
session Pushes
    straight A  1 sets
        push-up : 8
camp Spring
    for     $names
    starts  2027-03-01
    week 1
        monday  Pushes
END
    "$program" show "$folder/$1.bell" --all --date 2027-03-01 --format json >"$folder/$1.json" 2>"$folder/said"
}

# figure PLAN ATHLETE TEST PATH
figure()
{
    python3 - "$folder/$1.json" "$2" "$3" "$4" <<'END'
import json, sys
programme = json.load(open(sys.argv[1]))
for athlete in programme["athletes"]:
    for test in athlete.get("tests", []):
        if athlete["name"] == sys.argv[2] and test["test"] == sys.argv[3]:
            value = test
            for step in sys.argv[4].split("."):
                value = value[int(step)] if step.isdigit() else value.get(step)
            if value is not None:
                print(value if isinstance(value, str) else "%.4g" % value)
END
}

# pairs: eight athletes, two trials each
pairs()
{
    set -- 38.1 38.9 41.0 40.2 35.2 35.9 44.3 45.1 39.6 39.0 36.8 37.9 42.2 41.5 40.1 40.9
    while [ $# -gt 1 ]; do
        echo "athlete Number $#"
        echo "    tests"
        echo "        countermovement jump : $1, $2 cm on 2027-02-22"
        shift 2
    done
}

pairs | plan pairs
is "the typical error of eight pairs" 0.5706 "$(figure pairs 'Number 16' 'countermovement jump' error.of_pairs)"
is "what it detects at least" 1.582 "$(figure pairs 'Number 16' 'countermovement jump' error.of_pairs_detectable)"
is "the mean of the pairs" 39.79 "$(figure pairs 'Number 16' 'countermovement jump' error.mean_of_pairs)"
is "the deviation between athletes" 2.812 "$(figure pairs 'Number 16' 'countermovement jump' error.between_athletes)"
is "the smallest worthwhile change" 0.5624 "$(figure pairs 'Number 16' 'countermovement jump' error.worthwhile)"
is "eight pairs do not go before the source" source "$(figure pairs 'Number 16' 'countermovement jump' error.from)"

{
    pairs
    printf 'athlete Number %s\n    tests\n        countermovement jump : 38, 38.5 cm on 2027-02-22\n' 98 99
} | sed 's/Number 98/One more/; s/Number 99/Yet one more/' | awk '/^    tests/ { print; next } { print }' >"$folder/ten"
awk '/^athlete One more/ { more = 1 } { print }' "$folder/ten" | plan ten
is "ten pairs do" club "$(figure ten 'One more' 'countermovement jump' error.from)"

# Deviations of 5 and 2.5 between three athletes: smallest worthwhile changes of 1 and 0.5.
chances()
{
    plan "$1" <<END
test jump on a box
    unit           cm
    typical error  $2 cm
    common practice
athlete Ann
    tests
        jump on a box : $(echo "$4 $3" | awk '{ print $1 - $2 }') cm on 2027-01-22
        jump on a box : $4 cm on 2027-02-22
athlete Bea
    tests
        jump on a box : $5 cm on 2027-02-22
athlete Cat
    tests
        jump on a box : $6 cm on 2027-02-22
END
    for of in better same worse; do
        figure "$1" Ann 'jump on a box' since_last.chance_$of
    done | awk '{ printf("%s%.1f", (NR > 1 ? "/" : ""), $1 * 100) }'
}
is "a change of 2, error 1, worthwhile 1" 76.0/22.3/1.7 "$(chances one 1 2 40 35 45)"
is "a change of 1, error 1, worthwhile 0.5" 63.8/21.7/14.4 "$(chances two 1 1 40 37.5 42.5)"
is "a change of 3, error 1.5, worthwhile 0.5" 88.1/7.0/4.9 "$(chances three 1.5 3 40 37.5 42.5)"
is "which is within the error" "within the error" "$(figure three Ann 'jump on a box' since_last.verdict)"

plan index <<'END'
test jump peak force
    typical error  3%
test isometric mid-thigh pull
    typical error  4%
test rebound flight time
    unit  s
test rebound contact time
    unit  s
    lower is better
test rebound height
    unit         cm
    height from  rebound flight time
test rebound index
    ratio of  rebound height, rebound contact time
athlete Ann
    tests
        jump peak force          : 2100 N on 2027-02-22
        isometric mid-thigh pull : 3000 N on 2027-02-22
        jump flight time         : 0.50 s on 2027-02-22
        rebound flight time      : 0.52 s on 2027-02-22
        rebound contact time     : 0.19 s on 2027-02-22
        single leg hop           : 152, 150 cm left on 2027-02-22
        single leg hop           : 168, 165 cm right on 2027-02-22
athlete Bea
    tests
        jump peak force          : 1500 N on 2027-02-22
        isometric mid-thigh pull : 2700 N on 2027-02-22
        jump flight time         : 0.55 s on 2027-02-22
athlete Cat
    tests
        jump peak force          : 2300 N on 2027-02-22
        isometric mid-thigh pull : 2600 N on 2027-02-22
END
is "strength index, 2100 of 3000" 0.7 "$(figure index Ann 'strength index' results.0.value)"
is "1500 of 2700" 0.5556 "$(figure index Bea 'strength index' results.0.value)"
is "2300 of 2600" 0.8846 "$(figure index Cat 'strength index' results.0.value)"
is "errors of 3 and 4 % make 5 %" 0.035 "$(figure index Ann 'strength index' error.typical)"
is "0.50 s in the air" 30.66 "$(figure index Ann 'jump height from flight' results.0.value)"
is "0.55 s in the air" 37.09 "$(figure index Bea 'jump height from flight' results.0.value)"
is "0.52 s in the air after 0.19 s on the ground" 1.745 "$(figure index Ann 'rebound index' results.0.value)"
is "a hop of 152 and one of 168" 90.48 "$(figure index Ann 'single leg hop' percent_of_other_side)"

finish

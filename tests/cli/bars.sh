#!/bin/sh
# Wherever discs are shown, the sheet says on which bar they hang: `1.25 a side` is another load on another bar.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

cat >plan.bell <<'END'
gym Boat shed
    barbells     1 x 20, 1 x 15 kg
    bars         trap bar 25 kg
    plates       4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg
    stations     rack, bench
athlete Nils Ferrow
    stance         orthodox
    lifting since  2020-01
    trains at      Boat shed
    bests
        back squat : 1 @ 50 kg on 2027-02-20
session Own work
    straight A  3 sets rest 1:30
        back squat  : 3 @ 85%
    superset B  3 sets rest 1:30
        bench press : 8 @ 17.5 kg
        trap bar deadlift : 5 @ 50 kg
    superset C  3 sets rest 1:30
        back squat  : 5 @ 40 kg
        bench press : 8 @ 35 kg
camp Spring
    for     Nils Ferrow
    starts  2027-03-01
    week 1
        monday  Own work
END
"$program" print plan.bell --week 1 --sheet wall,card-page --out out >/dev/null 2>said
is "it is printed" 0 $?
for sheet in out/*-wall.pdf out/*-card-page.pdf; do
    text=$(pdftotext -raw "$sheet" - | sed 's/\xc2\xa0/ /g')
    name=${sheet##*-}
    wanted="2 15 kg bar,2 20 kg bar,1 25 kg trap bar"
    [ "$name" = page.pdf ] && wanted="4 15 kg bar,4 20 kg bar,2 25 kg trap bar" # one athlete fills the page with two cards
    is "$name: each loaded bar is named" "$wanted" \
        "$(printf '%s\n' "$text" | grep -oE '[0-9]+ kg (trap )?bar$' | sort | uniq -c | sed 's/^ *//' |
            paste -sd, -)"
done
has "a warm-up set on another bar names it" "Warm up: 5 × 17.5 kg (15 kg bar), 3 × 25 kg" \
    "$(pdftotext -raw out/*-card-page.pdf - | sed 's/\xc2\xa0/ /g')"

# With one barbell the pair cannot stand loaded, and nothing is printed.
sed 's/1 x 20, 1 x 15 kg/1 x 20 kg/; s/17.5 kg/20 kg/' plan.bell >one.bell
has "one bar for two loads" "[kit-twice]" "$("$program" check one.bell 2>&1)"
finish

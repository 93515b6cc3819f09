#!/bin/sh
# `bellsheet tally --margin`: what is left up to every kind of limit, worked by hand here.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# The camp starts on a Wednesday, so that five days of its first week count: a floor of 14 sets becomes ten, a ceiling
# of 12 heavy lifts in a phase becomes eight. Ten sets and 18 heavy lifts in week 1, twelve and 24 in week 2; two sets
# in the taper's three days, which is 4 2/3 a week and 61.11 % below twelve. These three days may come down by 60 %, so
# that of its week's floor of 14 sets 14 x (7 - 3 x 0.6) / 7 are left, which is 10.
cat >"$folder/plan.bell" <<'END'
athlete Nils Ferrow
    stance         orthodox
    lifting since  2020-01
    bests
        back squat : 1 @ 100 kg on 2027-02-22
session Own work
    contrast A  4 sets rest 2:50
        back squat : 3 @ 82%
        box jump   : 3 all-out
    straight B  2 sets rest 1:00
        landmine press from a stance : 6 orthodox + 4 southpaw @ easy
session Short work
    straight A  2/4 sets rest 1:00
        back squat : 3 @ 80%
session Late work
    straight A  2 sets rest 1:00
        push-up : 5 tempo 4-0-1-0
limits Own
    every week
        sets                                at least 14
        strength balance                    35-55%
        hours between heavy days            at least 48
        hours from heavy legs to sparring   at least 24
        age of a best                       at most 2
        pull sets                           at most 0.5 to 1 push info
        sparring time                       at most 20 min
    every session
        contrast rest                       at least 3:00
        sets                                at most 9
    every phase
        sets                                at most 20
    every camp
        sets                                at most 30
    base
        heavy lifts                         at most 12
        intensity                           60-80%
        reps                                1-5
    taper
        volume                              40-60% below the peak week
        new exercises                       none
        lowering work                       at most 2
camp Spring
    for     Nils Ferrow
    starts  2027-03-03
    phases
        base  : 2 weeks
        taper : 3 days
    limits  Own
    weeks 1-2
        wednesday 17:30  Own work
        thursday  17:30  Short work
        friday    17:30  sparring : 4 x 3:00 rest 1:00 RPE 8
    week 2
        friday    17:30  sparring : 6 x 3:00 rest 1:00 RPE 8
    week 3
        thursday  17:30  Late work
END
# margin OPTIONS...
margin()
{
    "$BELLSHEET" tally "$folder/plan.bell" --margin "$@" 2>/dev/null
}
wanted='Nils Ferrow, Spring: what is left up to each limit, below 0 past it
                                                                                                    week 1  week 2  week 3
  sparring time                      min    at most 20 min a week, must                                 +5      -3     +20
  heavy lifts                               at most 12 a week in base, must                            -10     -12       -
  sets                                      at most 9 a session, must                                   +1      +1      +7
  hours from heavy legs to sparring  h      at least 24 h, must                                      -0.02   -0.06       -
  hours between heavy days           h      at least 48 h, must                                     -24.24  -24.24       -
  intensity                          %      within 60 % to 80 % in base, must                           -2      -2       -
  reps                                      within 1 to 5 in base, must                                 -1      -1       -
  age of a best                      weeks  at most 2 weeks, must                                    +0.57   -0.43       -
  contrast rest                      s      at least 3 min, must                                       -10     -10       -
  sets                                      at least 14 a week, must                                     0      -2      -8
  strength balance                   %      within 35 % to 55 %, must                                    -      +5      +5
  pull sets                          to 1   at most 0.5 to 1 of push sets a week, info                   -       -    +0.5
  sets                                      at most 20 in base, must                                    -2      -2      -2
  sets                                      at most 20 in taper, must                                    -       -     +18
  sets                               %      within 40 % to 60 % below the peak week in taper, must       -       -   -1.11
  tonnage                            %      within 40 % to 60 % below the peak week in taper, must       -       -     -40
  new exercises                             at most 0 in taper, must                                     -       -      -1
  lowering work                             at most 2 in taper, must                                     -       -      +1
  sets                                      at most 30 a camp, must                                     +6      +6      +6'
is "every kind of limit" "$wanted" "$(margin | sed 's/  *$//')"
has "one week, of a phase and a camp too" "at most 30 a camp, must" "$(margin --week 3)"
is "as a table for spreadsheets" "Spring,Nils Ferrow,margin,sets,,,\"at most 20 in base, must\",3,2027-03-15,-2,-2" \
    "$(margin --format csv | tr -d '\r' | grep 'margin,sets,,,"at most 20 in base, must",3')"
finish

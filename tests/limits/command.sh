#!/bin/sh
# `bellsheet limits`: what applies to whom, where it is written, and what it takes over.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(pwd)/$BELLSHEET
case $BELLSHEET in /*) program=$BELLSHEET ;; esac
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

cat >"$folder/plan.bell" <<'END'
athlete Oriel Tamsin
    lifting age  advanced
athlete Ilse Varholm
    lifting age  novice
limits Base
    every week
        sparring rounds  at most 24
            common practice
        sets             at most 90
limits Club
    based on  Base
    every week
        sparring rounds  at most 20 warn
    novice
        sparring rounds  at most 8
    taper
        tonnage  40-60% below the peak week
camp Spring
    for     Oriel Tamsin, Ilse Varholm
    starts  2027-03-01
    phases
        base  : 2 weeks
        taper : 1 week
    limits  Club
END
said=$(cd "$folder" && "$program" limits plan.bell 2>/dev/null)
is "both athletes, each with what holds" "Spring: Oriel Tamsin
  layers, the upper first: Club, Base
  every week
    sparring rounds  at most 20, warn
        Club, plan.bell:13
        in place of at most 24 (Base, plan.bell:7)
    tonnage  40 % to 60 % below the peak week, in taper
        Club, plan.bell:17
    sets  at most 90
        Base, plan.bell:9

Spring: Ilse Varholm
  layers, the upper first: Club, Base; and where tighter, of themselves: novices
  every week
    all-out strikes  at most 160 a side, warn
        novices, shelf/limits/novices.bell; common practice
    sparring rounds  at most 8, novice
        Club, plan.bell:15
        in place of at most 20, warn (Club, plan.bell:13)
        in place of at most 24 (Base, plan.bell:7)
        in place of at most 12 (novices, shelf/limits/novices.bell)
    one-rep tests  at most 0
        novices, shelf/limits/novices.bell; common practice
    tonnage  40 % to 60 % below the peak week, in taper
        Club, plan.bell:17
    sets  at most 90
        Base, plan.bell:9
    load rise  at most 10 %, warn
        novices, shelf/limits/novices.bell; common practice
    intensity  at most 85 %
        novices, shelf/limits/novices.bell; common practice
  every session
    contacts  at most 100, warn
        novices, shelf/limits/novices.bell; Haff and Triplett 2016, NSCA Essentials, 4th ed., for beginners (from memory)
    time  at most 60 min
        novices, shelf/limits/novices.bell; common practice" "$(printf '%s\n' "$said" | sed 's/novices\.bell:[0-9]*/novices.bell/')"
said=$(cd "$folder" && "$program" limits plan.bell --athlete 'ilse varholm' 2>/dev/null)
is "one athlete alone" "Spring: Ilse Varholm" "$(printf '%s\n' "$said" | grep '^Spring')"
(cd "$folder" && "$program" limits plan.bell --athlete nobody >/dev/null 2>&1)
is "nobody of that name" 2 $?
sed -i 's/sparring rounds  at most 20 warn/sparring rounds  at most 20 info/' "$folder/plan.bell"
said=$(cd "$folder" && "$program" limits plan.bell --athlete 'oriel tamsin' 2>/dev/null)
has "what is only told" "sparring rounds  at most 20, info" "$said"
finish

#!/bin/sh
# What breaks a hold, a restriction or a `must` limit reaches no wall: nothing of it is printed, and what was
# printed before stays. Other athletes and other weeks are printed all the same, in one call too.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1

cat >club.bell <<'END'
athlete Oriel Tamsin
    stance  southpaw
athlete Mateus Quillfeather
    stance  southpaw
athlete Ilse Varholm
    stance  orthodox
session Own work
    straight A  3 sets rest 1:30
        push-up : 5
session Presses
    straight A  3 sets rest 1:30
        push-up : 5
limits Own
    every week
        sets  at most 12
    late
        sets  at most 4
camp Spring
    for     Oriel Tamsin, Ilse Varholm
    starts  2027-03-01
    phases
        early : 2 weeks
        late  : 1 week
    limits  Own
    weeks 1-3
        monday    17:30  Own work
camp Other
    for     Mateus Quillfeather
    starts  2027-03-01
    limits  Own
    weeks 1-3
        wednesday 17:30  Presses
END
cp club.bell fine.bell

# prints OPTIONS...: into out/, the words in said; prints the exit status.
prints()
{
    "$program" print club.bell --out out --date 2027-03-01 "$@" >said 2>&1
    echo $?
}

is "a plan in order is printed" 0 "$(prints --all)"
before=$(cksum out/2027-03-01-*)

# A line that cannot be read may be anybody's.
sed 's/^    stance .*/&\n    stanse  orthodox/' fine.bell >club.bell
is "a line that cannot be read fails the print of all" 1 "$(prints --all)"
has "and it is said so" "nothing is printed for anybody until every line of the plan can be read" "$(cat said)"
is "what was printed is left" "$before" "$(cksum out/2027-03-01-*)"

# Fifteen sets for Oriel and Ilse in week 1, of which the week may have twelve.
sed '0,/3 sets/s||15/3/... sets|' fine.bell >club.bell
is "a limit that must hold fails the print" 1 "$(prints --all)"
has "as the check says it" "15 sets in week 1 of Spring (from 2027-03-01), at most 12 [sets-over]" "$(cat said)"
has "and it is said what is printed" "what contains an error is not printed" "$(cat said)"
is "what was printed stays" "$before" "$(cksum out/2027-03-01-*)"
has "and the others are there" "2027-03-03-1730-presses-wall.pdf" "$(ls out)"
rm -r out
is "no sheet of that athlete is printed" 1 "$(prints --week 1 --athlete 'Ilse Varholm')"
has "and it is said that nothing is printed" "nothing is printed while there are errors" "$(cat said)"
is "no folder is left" "" "$(ls -d out 2>/dev/null)"
is "nor one of that day" 1 "$(prints --on 2027-03-01)"
is "no folder is left of it" "" "$(ls -d out 2>/dev/null)"
is "the others of the week are printed" 1 "$(prints --week 1)"
is "and nobody of those in error" 0 "$(find out -name '*own-work*' | wc -l)"
is "but the others" 1 "$(find out -name '*presses-wall*' | wc -l)"
rm -r out
is "who has no part in it is printed" 0 "$(prints --week 1 --athlete 'Mateus Quillfeather')"
is "and nobody else" 0 "$(find out -name '*oriel*' | wc -l)"
is "the week after is printed" 0 "$(prints --week 2)"
is "a day of it too" 0 "$(prints --on 2027-03-08)"

# A warning is for the check to report.
sed 's/sets  at most 12/sets  at most 12 warn/' club.bell >warned.bell
cp warned.bell club.bell
is "a limit that warns lets print" 0 "$(prints --week 1)"
is "and is not reported" "" "$(grep sets-over said)"
sed 's/12 warn/12/; s/^    limits  Own/&\n    waive   sets-over in week 1\n        because a camp for beginners/' warned.bell >club.bell
is "what is allowed is printed" 0 "$(prints --week 1)"

# The days of a phase.
sed 's/sets  at most 4/sets  at most 2/' fine.bell >club.bell
is "a phase's limit lets other weeks be printed" 0 "$(prints --week 2)"
is "and not those of the phase" 1 "$(prints --week 3 --athlete 'Oriel Tamsin')"

# One of a squad: the wall is the others'.
rm -rf out
sed 's/^athlete Ilse Varholm/&\n    avoid  push-up/' fine.bell >club.bell
is "one who is barred" 1 "$(prints --on 2027-03-01 --sheet wall,card,week)"
is "has no sheet" "" "$(cd out && ls | grep ilse)"
is "and the others have" "2027-03-01-1730-own-work-oriel-tamsin-card.svg
2027-03-01-1730-own-work-wall.pdf
spring-week-01-oriel-tamsin-week.pdf" "$(ls out | grep -v sheets.json)"
is "nor a name on the wall" 0 "$(pdftotext out/*wall.pdf - | grep -c Ilse)"
has "and it is said" "what contains an error is not printed" "$(cat said)"

# A week's sheet shows the other days too.
sed 's/^athlete Mateus.*/&\n    avoid  rope/; s/^        wednesday.*/&\n        friday  Ropes/' fine.bell >club.bell
printf 'session Ropes\n    rounds  3 x 1:00 rest 1:00\n        rope : easy\n' >>club.bell
is "the day before what is barred" 0 "$(prints --on 2027-03-03 --sheet wall)"
is "but not its week" 1 "$(prints --on 2027-03-03 --sheet week)"

# Holds and restrictions.
sed 's/^athlete Mateus.*/&\n    avoid  push-up/' fine.bell >club.bell
is "a restriction" 1 "$(prints --all)"
has "names what it rules out" "[avoid-broken]" "$(cat said)"
is "a restriction of somebody else" 0 "$(prints --all --athlete 'Oriel Tamsin')"
sed 's/^athlete Mateus.*/&\n    hold head\n        since 2027-02-27/; s/        wednesday 17:30  Presses/        wednesday 17:30  sparring : 4 x 2:00 RPE 6/' \
    fine.bell >club.bell
is "a hold" 1 "$(prints --all --sheet week)"
has "names what it bars" "is on hold, but has sparring" "$(cat said)"
is "a hold of somebody else" 0 "$(prints --all --athlete 'Oriel Tamsin')"
is "a list of sheets that would not be printed" 1 "$(prints --all --list)"
finish

#!/bin/sh
# A new season continues the old one's record: the club's files and the record are used, nothing is copied, and the
# load of the first weeks is compared with the last of the season before.
set -u

. tests/house/ok.sh
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway-year "$folder/club"
cd "$folder/club" || exit 2

"$program" close . --until 2027-08-08 --date 2027-08-20 >/dev/null 2>&1
is "the year is closed to August" yes "$([ -f record/2027-08.bell ] && echo yes)"
cat >next.bell <<'END'
use club.bell
use sessions.bell
use limits.bell
use record
season 2027-28
    from  2027-08-30
    to    2028-08-27
camp Second autumn
    for       Kofi Brandreth
    starts    2027-09-01
    limits    Slipway year
    weeks 1-2
        monday    18:00  Strength day
        wednesday 18:00  pads : 60 min RPE 9
        thursday  18:00  pads : 60 min RPE 9
        friday    18:00  Power day
END
said=$("$program" check next.bell --date 2027-09-01 2>&1)
has "bests are the club's" "0 errors" "$said"
has "the load is compared with the record's" "[load-rise]" "$said"
sed -i '/^use record/d' next.bell
is "without the record there is nothing to compare" 0 \
    "$("$program" check next.bell --date 2027-09-01 2>&1 | grep -c 'load-rise')"

# A folder for each season, below the club's: its file is above them, and the old record beside.
mkdir -p seasons/2026-27 seasons/2027-28
cp club.bell seasons/club.bell
sed -i '/^season /,/^$/d' seasons/club.bell
cp -r sessions.bell limits.bell record seasons/2026-27
cp sessions.bell limits.bell next.bell seasons/2027-28
sed -i 's/^use club.bell/use ..\/club.bell\nuse ..\/2026-27\/record/' seasons/2027-28/next.bell
said=$("$program" check seasons/2027-28 --date 2027-09-01 2>&1)
has "from a folder of its own: bests are the club's" "0 errors" "$said"
has "and the load is compared with the old record's" "[load-rise]" "$said"
before=$(cat seasons/2026-27/record/* | cksum)
"$program" close seasons/2027-28 --until 2027-09-05 --date 2027-09-10 >closed 2>&1
is "the new season closes into its own record" "seasons/2027-28/record/2027-09.bell" "$(grep -o '^seasons.*09.bell$' closed)"
is "and leaves the old one alone" "$before" "$(cat seasons/2026-27/record/* | cksum)"
mv seasons/club.bell seasons/people.bell
sed -i 's/club.bell/people.bell/' seasons/2027-28/next.bell
has "any other folder above is not the club's" "[use-outside]" "$("$program" check seasons/2027-28 --date 2027-09-01 2>&1)"
finish

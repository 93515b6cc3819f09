#!/bin/sh
# bellsheet diff: what changes for people, not which characters; two folders, or two revisions of git without a
# checkout.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "$BELLSHEET")
schema=$(realpath share/schema/diff-1.schema.json)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway "$folder/old"
cd "$folder" || exit 1

# differ ARGUMENTS: what diff says of old and new.
differ()
{
    "$bellsheet" diff old new --date 2027-02-24 "$@" 2>said | sed 's/\xc2\xa0/ /g'
}

afresh()
{
    rm -rf new
    cp -r old new
}

# --- nothing ---

afresh
is "the same plan twice" "nothing changes for anybody" "$(differ)"
for file in new/*.bell new/*/*.bell; do
    sed -i 's/ : /   :   /; 1s/^/# a comment\n/' "$file"
done
is "other spaces and comments" "nothing changes for anybody" "$(differ)"
"$bellsheet" diff old new --date 2027-02-24 --exit-code >/dev/null 2>&1
is "and --exit-code is content" 0 $?
is "as JSON it is as empty" "0 0 0 0" \
    "$(differ --format json | python3 -c 'import json, sys; d = json.load(sys.stdin); print(*(len(d[k]) for k in ("renamed", "changes", "findings", "sheets")))')"

# --- a share at one bar ---

afresh
sed -i 's|@ 80/82.5/85/80%|@ 80/83/85/80%|' new/sessions/later-months.bell
got=$(differ)
has "a share that leaves the bar as it was" "A1 landmine press from a stance: 82.5 % est. → 83 % est., bar unchanged at 21.25 kg" "$got"
is "and the other lines of its block are not named" "" "$(echo "$got" | grep -E ' (A2|B1|C1)')"
has "on its day" "Heavy hips, monday 2027-04-05 17:30" "$got"
is "one card no longer holds, for it shows the share, and no wall, which does not" "1" "$(echo "$got" | grep -c '(version ')"
"$bellsheet" diff old new --date 2027-02-24 --exit-code >/dev/null 2>&1
is "--exit-code says that something differs" 1 $?
"$bellsheet" diff old new --date 2027-02-24 >/dev/null 2>&1
is "without it the status is clean" 0 $?
sed -i 's|: 5 @ 75/77.5/80/75%|: 5 @ 75/80/80/75%|' new/sessions/squad.bell
got=$(differ)
has "a load that changes" "A1 trap bar deadlift: 77.5 % → 80 %, 130 kg → 135 kg" "$got"
has "and the room's finish with it" "finish 19:48 → 19:53" "$got"
has "colour where it is asked for" "$(printf '\033[33m')" "$(differ --color=always)"
is "and none in a file" "" "$(differ | grep "$(printf '\033')")"

# --- a bout by seven days ---

afresh
sed -i 's/2027-05-22 kick/2027-05-29 kick/' new/camps/harbour-final.bell
got=$(differ)
is "a moved bout is one statement" "1" "$(echo "$got" | sed '/findings came/,$d' | grep -c '^  [~+-]')"
has "with what moves" "the bout moves from 2027-05-22 to 2027-05-29, 7 days later; 23 days of training move with it" "$got"
has "which phase takes up the days" "base: 24 days, 2027-03-01 to 2027-03-24 → 31 days, 2027-03-01 to 2027-03-31" "$got"
has "what comes of it" "findings came" "$got"
has "and the sheets that are stale" "80 sheets no longer hold" "$got"

# Each of two bouts in a camp moves what counts towards it and nothing else.
mkdir -p two/old
cat >two/old/plan.bell <<'END'
athlete Nils Ferrow
    stance  orthodox
camp Spring
    for     Nils Ferrow
    starts  2027-03-01
    bout    2027-03-20 boxing
        weigh-in  2027-03-19 17:00
    bout    2027-05-01 boxing
        weigh-in  2027-04-30 17:00
    phases
        build    : until taper
        taper    : 7 days
        recovery : 4 days
    in taper
        monday  technique : 30 min
    week 0 out
        sunday  walk : 30 min
END
moved()
{
    rm -rf two/new
    cp -r two/old two/new
    sed -i "$1" two/new/plan.bell
    "$bellsheet" diff two/old two/new --date "${2-2027-02-24}" 2>&1 | sed '/ finding.* came/,$d; /^$/d'
}
is "the first of two bouts is moved" "The plan
  ~ Spring: the bout moves from 2027-03-20 to 2027-03-27, 7 days later; 3 days of training move with it
      ~ build: 13 days, 2027-03-01 to 2027-03-13 → 20 days, 2027-03-01 to 2027-03-20
      ~ taper: 7 days, 2027-03-14 to 2027-03-20 → 7 days, 2027-03-21 to 2027-03-27
      ~ recovery: 4 days, 2027-03-21 to 2027-03-24 → 4 days, 2027-03-28 to 2027-03-31
      ~ build, bout 2: 31 days, 2027-03-25 to 2027-04-24 → 24 days, 2027-04-01 to 2027-04-24" \
    "$(moved 's/2027-03-20/2027-03-27/; s/2027-03-19/2027-03-26/')"
is "the second is moved" "The plan
  ~ Spring: the bout moves from 2027-05-01 to 2027-05-08, 7 days later; 3 days of training move with it
      ~ last day 2027-05-05 → 2027-05-12
      ~ build, bout 2: 31 days, 2027-03-25 to 2027-04-24 → 38 days, 2027-03-25 to 2027-05-01
      ~ taper, bout 2: 7 days, 2027-04-25 to 2027-05-01 → 7 days, 2027-05-02 to 2027-05-08
      ~ recovery, bout 2: 4 days, 2027-05-02 to 2027-05-05 → 4 days, 2027-05-09 to 2027-05-12" \
    "$(moved 's/2027-05-01/2027-05-08/; s/2027-04-30/2027-05-07/')"
has "the second is cancelled" "cancelled now 2027-04-20" "$(moved '/2027-05-01/a\        cancelled on 2027-04-20' 2027-04-21)"

# At nine days' notice, into the weeks of another camp: it says what is lost.
afresh
sed -i 's/2027-05-22 kick/2027-04-30 kick/' new/camps/harbour-final.bell
got=$(differ)
has "a bout that comes nearer" "22 days earlier" "$got"
has "what is not made up for" "left out and not made up for" "$got"

# --- names ---

afresh
sed -i 's/Oriel Tamsin/Oriel Fenwick/g' new/*.bell new/*/*.bell
got=$(differ)
has "who is called otherwise" "athlete Oriel Tamsin is now called Oriel Fenwick" "$got"
is "does what she did" "" "$(echo "$got" | grep -E 'no longer planned|is new,')"
afresh
sed -i 's/Hips before hands/Hips first/g' new/*.bell new/*/*.bell
got=$(differ)
has "a session that is called otherwise" "session Hips before hands is now called Hips first" "$got"
is "is what it was" "" "$(echo "$got" | grep -E 'no longer planned|is new,')"

# --- days, limits, waivers ---

afresh
sed -i '0,/monday    17:30  Hips before hands/s//tuesday   17:30  Hips before hands/' new/camps/harbour-final.bell
has "a line on another day moves" "moves 1 day later" "$(differ)"
afresh
sed -i '0,/        friday    18:00  Two stances/{//d}' new/camps/harbour-final.bell
has "one that is taken out is no longer planned" "- Two stances is no longer planned, friday 2027-03-05 18:00" "$(differ)"
afresh
sed -i 's/sparring rounds *: at most 24/sparring rounds : at most 20/; s/at most 24/at most 20/' new/limits.bell
has "a limit" "at most 24" "$(differ)"
afresh
sed -i 's/because extra bag rounds agreed, no sparring this week/because of my hurt left hand/' new/camps/harbour-final.bell
got=$(differ)
has "a waiver's reason changes" "its reason changes" "$got"
is "and is not said, for it may be about somebody's health" "" "$(echo "$got" | grep hand | grep hurt)"

# --- Markdown ---

afresh
sed -i 's|@ 80/82.5/85/80%|@ 70/73/75/70%|' new/sessions/later-months.bell
has "Markdown has headings" "### Oriel Tamsin" "$(differ --format markdown)"
mkdir many.old many.new
{
    printf 'gym Hall\n    barbells 20 kg\n    plates 4 x 20 kg, 4 x 10 kg, 4 x 5 kg, 4 x 2.5 kg\nlimits Club\n'
    for n in $(seq 40); do
        printf 'athlete @owner_%s <b>*\n    trains at Hall\n' "$n"
    done
    for n in $(seq 40); do
        printf 'session Day %s\n    straight A  3 sets rest 2:00\n        push-up : 8\n' "$n"
    done
    for n in $(seq 40); do
        printf 'camp Camp %s\n    for @owner_%s <b>*\n    starts 2027-03-01\n    weeks 1-4\n        monday 18:00 Day %s\n        tuesday 18:00 Day %s\n' "$n" "$n" "$n" "$((41 - n))"
    done
} >many.old/plan.bell
n=8
awk '/push-up/ { n++; sub(/: 8/, ": " 9 + n) } { print }' many.old/plan.bell >many.new/plan.bell
"$bellsheet" diff many.old many.new --date 2027-02-24 --format markdown >many.md 2>/dev/null
is "Markdown of a large change stays below what a comment may hold" yes "$([ "$(wc -m <many.md)" -lt 65536 ] && echo yes)"
has "and counts what is left out" "more lines; \`bellsheet diff\` shows them all" "$(cat many.md)"
is "no name in it is notified or taken for HTML" "" "$(grep -e '@' -e '<b>' many.md)"

# --- git ---

if command -v git >/dev/null; then
    export GIT_CONFIG_GLOBAL=/dev/null GIT_CONFIG_NOSYSTEM=1
    mkdir repo
    cp -r old repo/club
    printf '*.private.bell\n' >repo/.gitignore
    commit()
    {
        git -C repo add -A && git -C repo -c user.name=A -c user.email=a@b commit -qm "$1"
    }
    git -C repo init -q
    commit one
    sed -i 's|@ 80/82.5/85/80%|@ 80/83/85/80%|' repo/club/sessions/later-months.bell
    commit two
    "$bellsheet" format repo/club/sessions/*.bell repo/club/*.bell >/dev/null
    sed -i '1s/^/# said again\n/' repo/club/gym.bell
    commit three
    is "two revisions, from within the plan's folder" "bar unchanged at 21.25 kg" \
        "$(cd repo/club && "$bellsheet" diff HEAD~2 HEAD~1 --date 2027-02-24 2>&1 | grep -o 'bar unchanged at.*kg' | sed 's/\xc2\xa0/ /g')"
    is "of a plan that is named" "bar unchanged at 21.25 kg" \
        "$(cd repo && "$bellsheet" diff HEAD~2 HEAD~1 club --date 2027-02-24 2>&1 | grep -o 'bar unchanged at.*kg' | sed 's/\xc2\xa0/ /g')"
    is "a commit of format alone" "nothing changes for anybody" \
        "$(cd repo/club && "$bellsheet" diff HEAD~1 HEAD --date 2027-02-24 2>&1)"
    status=$(git -C repo status --porcelain)
    rm repo/club/limits.bell repo/club/logs.bell
    printf 'private Oriel Tamsin\n    body mass 63 kg on 2027-02-01\n' >repo/club/own.private.bell
    is "what lies in the folder does not matter" "nothing changes for anybody" \
        "$(cd repo/club && "$bellsheet" diff HEAD~1 HEAD --date 2027-02-24 2>&1)"
    is "against the folder it does" 1 "$(cd repo/club && "$bellsheet" diff HEAD --date 2027-02-24 --exit-code >/dev/null 2>&1; echo $?)"
    git -C repo checkout -q -- . && is "nothing was checked out or changed" "$status" "$(git -C repo status --porcelain)"
    (cd repo && "$bellsheet" diff HEAD~9 HEAD club >out 2>said)
    is "no such revision" "2:bellsheet: error: HEAD~9: there is no such folder, and no such revision of git" "$?:$(cat repo/said)"
    (cd repo && "$bellsheet" diff -- --output=hit HEAD club >out 2>said)
    is "what looks like an option is none of git's" "2 no" "$? $([ -e repo/hit ] && echo yes || echo no)"
    (cd repo && "$bellsheet" diff 'HEAD;touch hit' '$(touch hit)' club >out 2>said)
    is "and no shell sees it" "2 no" "$? $([ -e repo/hit ] && echo yes || echo no)"
    (cd repo && "$bellsheet" diff HEAD~1 HEAD "$folder/old" >out 2>said)
    is "a plan outside the repository" 2 $?
else
    echo "ok skipped: git is not here"
fi
(mkdir elsewhere && cd elsewhere && GIT_CEILING_DIRECTORIES=$folder "$bellsheet" diff HEAD~1 HEAD >out 2>said)
is "where there is no repository" 2 $?
"$bellsheet" diff >out 2>said
is "nothing to compare" "2:bellsheet: error: say what to compare: \`bellsheet diff OLD NEW\`, two folders or two revisions of git" "$?:$(cat said)"
"$bellsheet" diff old new --format yaml >out 2>said
is "a format that there is not" "2:bellsheet: error: there is no format \`yaml\`: text, markdown, json" "$?:$(cat said)"
[ -s "$schema" ] || refuse "the schema" "is not there"

# --- a finding that several have ---

# Wren is over the limit, and Nils comes to be over it, too; the finding goes on naming Wren, who is the worst.
for state in was is; do
    mkdir -p "several/$state"
    cat >"several/$state/plan.bell" <<END
athlete Wren Holloway
    trains at Yard
athlete Nils Ferrow
    trains at Yard
gym Yard
    barbell  20 kg
    plates   4 x 20, 4 x 10 kg
    stations rack
session Legs
    straight A 3 sets rest 3:00
        back squat : 10 @ 80 kg
            for Nils Ferrow : $([ $state = was ] && echo 5 || echo 8) @ 80 kg
limits Ours
    every week
        tonnage at most 1500 kg
            common practice
camp Spring
    for Wren Holloway, Nils Ferrow
    starts 2027-03-01
    limits Ours
    week 1
        monday Legs
END
done
differs() { "$bellsheet" diff "several/$1" "several/$2" --date 2027-02-20 2>/dev/null | grep tonnage-over; }
has "one more who has it shows" "[tonnage-over] (1 more: found 2 times in all, for Wren Holloway, Nils Ferrow; the worst is shown)" \
    "$(differs was is)"
has "and one less" "[tonnage-over] (1 fewer: it was found 2 times in all, for Wren Holloway, Nils Ferrow; the worst is shown)" \
    "$(differs is was)"
is "and nothing of those who stay" '' "$(differs is is)"

finish

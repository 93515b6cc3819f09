#!/bin/sh
# bellsheet print --watch keeps files read from one save to the next: after each change its folder is what a fresh print makes.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp -r examples/slipway-year "$folder/club"
cd "$folder" || exit 2
export SOURCE_DATE_EPOCH=1800000000

# print_to OUT: prints a week once.
wish="--from 2026-11-02 --to 2026-11-08 --sheet card --date 2026-11-01"
print_to()
{
    # shellcheck disable=SC2086
    "$bellsheet" print club $wish --out "$1"
}

# same: both folders hold the same files; the list may have them in another order.
same()
{
    diff -r -x sheets.json fresh watched >differ 2>&1
}

# follows NAME CHANGED: the watch comes to what a fresh print of the club as it is now makes. CHANGED: 1 where that is another
# than before, else 0.
follows()
{
    rm -rf before
    mv fresh before
    print_to fresh >/dev/null 2>&1
    diff -r -x sheets.json before fresh >/dev/null
    is "$1: what is printed is another" "$2" $?
    tries=0
    until same || [ $tries -eq 200 ]; do
        tries=$((tries + 1))
        sleep 0.1
    done
    is "$1" "" "$(cat differ)"
}

mkdir fresh
# shellcheck disable=SC2086
"$bellsheet" print club $wish --out watched --watch >said 2>log &
watch=$!
trap 'kill $watch 2>/dev/null; rm -rf "$folder"' EXIT
follows "at first" 1
[ "$(find fresh -name '*.svg' | wc -l)" -gt 8 ]
is "there is something to follow" 0 $?

sed -i '0,/@ 80/s/@ 80/@ 70/' club/sessions.bell
follows "a load of a session" 1
sed -i '1i # a line more, and all others move' club/sessions.bell club/club.bell
follows "a comment in two files" 0
sed -i 's/Yusra Penhallow/Yusra Trewin/' club/*.bell club/record/*.bell
follows "a name in every file" 1
sed -i '0,/ on 2026/s/@ [0-9.]* kg on 2026/@ 77.5 kg on 2026/' club/club.bell
follows "a best" 1
sed -i 's/@ 88 kg/@ 80 kg/' club/record/2026-10.bell
follows "a month of the record" 0
cp club/spring.bell kept
rm club/spring.bell
follows "a file that goes" 0
mv kept club/spring.bell
follows "and comes again" 0
echo nonsense >>club/sessions.bell
sed -i '0,/@ 70/s/@ 70/@ 72.5/' club/sessions.bell
tries=0
until grep -q nonsense log || [ $tries -eq 200 ]; do
    tries=$((tries + 1))
    sleep 0.1
done
same
is "a line that cannot be read changes nothing" "" "$(cat differ)"
sed -i '/nonsense/d' club/sessions.bell
follows "and when it is mended, the other change is there" 1

kill -STOP $watch
sed -i '0,/@ 72.5/s/@ 72.5/@ 60/' club/sessions.bell
mv fresh kept
print_to fresh >/dev/null 2>&1
same
is "a folder that was not printed again would be found" 1 $?
rm -rf fresh
mv kept fresh
kill -CONT $watch
follows "in the end" 1
kill $watch
wait $watch 2>/dev/null
trap 'rm -rf "$folder"' EXIT
finish

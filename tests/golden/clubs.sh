#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/golden/clubs.sh [NAME...]
#
# Small clubs, of several files where it takes them, and what commands say of each. clubs/NAME.club holds cases:
#
#     === TITLE              what the case shows
#     --- FILE               the lines below, to the next such mark, are a file of the club's
#     $ ARGUMENTS            the program with these, in the club's folder, on 2027-03-01 unless --date says otherwise
#     ! COMMAND              done to its files
#     ~ EDIT                 what `check -i` says of plan.bell with this edit of sed's in it that it does not say without (each
#                            by its column); the edit is then taken back
#     ? ARGUMENTS            asks the program with these instead of `check -i plan.bell` from here on; a long answer
#                            is shown only where edits change it
#
# `%repeat N TEXT` in a file stands for N lines TEXT, each with its number in place of %n and its day, counted from 2027-01-01,
# in place of %d; `%list N TEXT` at the end of a line for N times TEXT, parted by commas. Beside the files of each lies gym.bell
# of messages/club. clubs/NAME.said has the exit status of each command and what it says, without the lines of the plan that
# it shows, and of one check no more than three findings. UPDATE=1 writes it anew: read each answer against the notation before you
# keep it.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cases=$(realpath tests/golden/clubs)
gym=$(realpath tests/golden/messages/club/gym.bell)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 1
unset SOURCE_DATE_EPOCH

# grown FILE: its cases, each a folder NNN with its files, its title and its commands.
grown()
{
    awk '
        function of_day(n,    month) {
            split("31 28 31 30 31 30 31 31 30 31 30 31", days, " ")
            for (month = 1; n > days[month]; month = month % 12 + 1) {
                n -= days[month]
                if (month == 12)
                    year++
            }
            return sprintf("%d-%02d-%02d", 2027 + year, month, n)
        }
        function filled(text, i) {
            year = 0
            gsub(/%d/, of_day(i), text)
            gsub(/%n/, i, text)
            return text
        }
        /^=== / {
            case_ = sprintf("%03d", ++count)
            system("mkdir -p " case_ "/club")
            print substr($0, 5) >(case_ "/title")
            file = ""
            next
        }
        /^--- / { file = case_ "/club/" $2; if ($2 ~ "/") system("mkdir -p " case_ "/club/" substr($2, 1, index($2, "/") - 1)); next }
        /^[$!~?] / { print >(case_ "/commands"); file = ""; next }
        file == "" { next }
        match($0, /%(repeat|list) [0-9]+ /) {
            line = substr($0, 1, RSTART - 1)
            text = substr($0, RSTART + RLENGTH)
            split(substr($0, RSTART, RLENGTH), words, " ")
            for (i = 1; i <= words[2]; i++)
                if (words[1] == "%repeat")
                    print filled(text, i) >file
                else
                    line = line (i > 1 ? ", " : "") filled(text, i)
            if (words[1] == "%list")
                print line >file
            next
        }
        { print >file }' "$1"
}

# told: what is said on standard input, in short.
told()
{
    awk '
        /^ +[0-9]* \| / { next }
        /^[^ ].*: (error|warning|info): .*\[[a-z-]+\]$/ {
            match($0, /\[[a-z-]+\]$/)
            name = substr($0, RSTART)
            skipped = ++count[name] > 3
        }
        /^[0-9]+ errors?, / || !/^[^ ]*: |^ / { skipped = 0 }
        !skipped'
}

# run ARGUMENTS: the program with these.
run()
{
    eval "set -- $1"
    timeout 60 "$program" --date 2027-03-01 "$@" >../answer 2>../out </dev/null
    echo "= $?"
    cat ../answer >>../out
}

# edited EDIT: what is said of the plan with it, and not without.
edited()
{
    if [ ! -e ../before ]; then
        cp plan.bell ../whole
        run "$asked" >/dev/null
        mv ../out ../before
    fi
    sed -E "$1" ../whole >plan.bell
    ! cmp -s plan.bell ../whole || echo "this edits nothing"
    run "$asked"
    case $asked in
    check*) ;;
    *)  grep -vxFf ../before ../out | sed 's/^/    /'
        cp ../whole plan.bell
        return ;;
    esac
    awk '
        { said = $0; sub(/^plan\.bell:[0-9]+:/, "", said) }
        FILENAME == ARGV[1] { had[said]; next }
        match($0, /\[[a-z-]+\]$/) && /: (error|warning|info): / {
            new = !(said in had) && !(said in told) && ++count[substr($0, RSTART)] <= 3
            told[said]
        }
        /^[0-9]+ errors?, |^ +[0-9]* \| |^(the )?limits (of .* )?are |: see: / { next }
        new { print "    " said }' ../before ../out
    cp ../whole plan.bell
}

# These draw, or make JSON: to the memory sanitizer what a library writes that is not built for it is not written.
unseen=
! nm "$program" 2>/dev/null | grep -q __msan_init || unseen='printed rules'

[ $# -gt 0 ] || set -- $(cd "$cases" && ls -- *.club)
for name; do
    name=${name%.club}
    case " $unseen " in
    *" $name "*)
        echo "skipped: $name draws or makes JSON, by libraries that are not built for this sanitizer"
        continue
        ;;
    esac
    file=$cases/$name.club
    mkdir "$name" && cd "$name" || exit 1
    grown "$file"
    for one in [0-9]*; do
        echo "=== $(cat "$one/title")"
        cp "$gym" "$one/club"
        cd "$one/club" || exit 1
        asked="check -i plan.bell"
        while IFS= read -r command; do
            printf '%s\n' "$command"
            case $command in
            !*) sh -c "${command#! }"; rm -f ../before ;;
            \?*) asked=${command#\? }; rm -f ../before; run "$asked"; [ "$(wc -l <../out)" -gt 400 ] || cat ../out ;;
            ~*) edited "${command#\~ }" ;;
            *)  run "${command#\$ }"; told <../out; rm -f ../before ;;
            esac
        done <../commands
        cd ../..
    done >../"$name.said" 2>&1
    cd ..
    sed -i "s|$folder|FOLDER|g; s|$program|bellsheet|g" "$name.said"
    [ -z "${UPDATE:-}" ] || cp "$name.said" "$cases/$name.said"
    is "$name" "" "$(diff -u "$cases/$name.said" "$name.said" 2>&1)"
    is "$name: each ends by itself" "" "$(grep -E '^= (124|12[5-9]|1[3-9][0-9])$' "$name.said")"
done
finish

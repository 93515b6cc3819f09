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
ulimit -t 60 # seconds of a processor, for each command

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
    "$program" --date 2027-03-01 "$@" >../answer 2>../out </dev/null
    echo "= $?"
    cat ../answer >>../out
}

# edited EDIT: asks about the plan with it. What is said waits in ../edits for tell_edits, which needs one process for many.
edited()
{
    if [ ! -e ../edits ]; then
        mkdir ../edits
        cp plan.bell ../whole
        run "$asked" >/dev/null
        mv ../out ../edits/before
        edits=0
    fi
    edits=$((edits + 1))
    edit=$1
    same=0
    sed -E "$edit" ../whole >plan.bell
    ! cmp -s plan.bell ../whole || same=1
    eval "set -- $asked"
    "$program" --date 2027-03-01 "$@" >"../edits/$edits.out" 2>"../edits/$edits.err" </dev/null
    printf '%s\n' "$? $same $edit" >>../edits/list
}

# tell_edits: what was said of the plan with each edit, and not without.
tell_edits()
{
    [ -e ../edits ] || return 0
    awk -v checks="${asked%%[!a-z]*}" -v folder=../edits '
        function without_line(said) { sub(/^plan\.bell:[0-9]+:/, "", said); return said }
        function tell(line,    said) {
            said = without_line(line)
            if (checks != "check") {
                if (!(line in whole))
                    print "    " line
                return
            }
            if (match(said, /\[[a-z-]+\]$/) && said ~ /: (error|warning|info): /) {
                new = !(said in had) && !(said in told) && ++count[substr(said, RSTART)] <= 3
                told[said]
            }
            if (new && line !~ /^[0-9]+ errors?, |^ +[0-9]* \| |^(the )?limits (of .* )?are |: see: /)
                print "    " said
        }
        BEGIN {
            before = folder "/before"
            while ((getline line < before) > 0) {
                whole[line]
                had[without_line(line)]
            }
        }
        {
            status = $1
            same = $2
            sub(/^[0-9]+ [01] /, "")
            print "~ " $0
            if (same)
                print "this edits nothing"
            print "= " status
            split("", told)
            split("", count)
            new = 0
            for (i = 1; i <= 2; i++) {
                file = folder "/" NR (i == 1 ? ".err" : ".out")
                while ((getline line < file) > 0)
                    tell(line)
                close(file)
            }
        }' ../edits/list
    cp ../whole plan.bell
    rm -r ../edits
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
            case $command in
            ~*) edited "${command#\~ }"; continue ;;
            esac
            tell_edits
            printf '%s\n' "$command"
            case $command in
            !*) sh -c "${command#! }" ;;
            \?*) asked=${command#\? }; run "$asked"; [ "$(wc -l <../out)" -gt 400 ] || cat ../out ;;
            *)  run "${command#\$ }"; told <../out ;;
            esac
        done <../commands
        tell_edits
        cd ../..
    done >../"$name.said" 2>&1
    cd ..
    sed -i "s|$folder|FOLDER|g; s|$program|bellsheet|g" "$name.said"
    [ -z "${UPDATE:-}" ] || cp "$name.said" "$cases/$name.said"
    is "$name" "" "$(diff -u "$cases/$name.said" "$name.said" 2>&1)"
    is "$name: each ends by itself" "" "$(grep -E '^= (124|12[5-9]|1[3-9][0-9])$' "$name.said")"
done
finish

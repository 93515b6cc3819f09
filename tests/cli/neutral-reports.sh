#!/bin/sh
# Reports for services say one neutral thing about holds, restrictions and private entries, wherever those are; the
# coach's own screen, and a report with --private, say everything.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
folder=$(mktemp -d)
kept=$(mktemp -d)
trap 'rm -rf "$folder" "$kept"' EXIT
formats='json sarif github gitlab'

cat >"$folder/club.bell" <<'END'
gym Slipway
    dumbbells   pairs 4-30 kg by 2
    kettlebells 2 x 8, 2 x 12 kg
    stations    ring
athlete Oriel Tamsin
    stance          southpaw
    lifting since   2024-01
    trains at       Slipway
END
cat >"$folder/camp.bell" <<'END'
session Neck and press
    straight A   3 sets rest 1:00
        neck extension hold         : hold 10 s @ RPE 5
        half kneeling one arm press : 5 each side @ RPE 6
limits none of the house's
    every week
        sparring rounds  at most 99
            common practice
camp Spring
    for       Oriel Tamsin
    starts    2027-03-01
    limits    none of the house's
    weeks 1-2
        tuesday   17:30  Neck and press
        saturday  10:00  sparring : 4 x 2:00 RPE 6
END
cp "$folder"/*.bell "$kept"

# report FORMAT OPTIONS...: and the exit status.
report()
{
    format=$1
    shift
    (cd "$folder" && "$program" check -i --date 2027-03-01 --format "$format" "$@" club.bell camp.bell \
        $([ -f private.bell ] && echo private.bell) 2>&1; echo "exit $?")
}

# entry WHERE: takes lines of an athlete from standard input and puts them into the plan or into the private file.
entry()
{
    cp "$kept/club.bell" "$folder/club.bell"
    cp "$kept/camp.bell" "$folder/camp.bell"
    rm -f "$folder/private.bell"
    case $1 in
    plan) cat >>"$folder/club.bell" ;;
    private) { echo "private Oriel Tamsin"; cat; } >"$folder/private.bell" ;;
    esac
}

# neutral NAME WORDS TELLTALE: every format has WORDS, and nothing of TELLTALE except with --private; the screen has it
# too.
neutral()
{
    for format in $formats; do
        said=$(report "$format")
        has "$1: $format says one neutral thing" "$2" "$said"
        is "$1: $format tells no more" "" "$(printf '%s\n' "$said" | grep -iE "$3|private|hold-|avoid|restrict")"
        is "$1: $format has an end that fails" "exit 1" "$(printf '%s\n' "$said" | tail -n 1)"
        has "$1: $format tells all who asks" found \
            "$(report "$format" --private | grep -qiE "$3" && echo found)"
    done
    has "$1: the coach's screen says all" found "$(report text | grep -qiE "$3" && echo found)"
}

not_for='this work is not for Oriel Tamsin on 2027-03-02'
look='something that only the coach can read needs a look'
for where in plan private; do
    entry $where <<'END'
    avoid  overhead
        because  telltale labrum
END
    neutral "an avoid in the $where" "$not_for" 'has to avoid'
    entry $where <<'END'
    avoid  push
    avoid  half kneeling one arm press
END
    is "two reasons to leave out one line in the $where are reported as one" 1 \
        "$(report json | grep -c '"name": "ask-the-coach"')"
    entry $where <<'END'
    hold head
        since  2027-02-20
END
    neutral "a hold in the $where" "this work is not for Oriel Tamsin on 2027-03-06" 'is on hold'
    entry $where <<'END'
    hold head
        since      2027-02-20
        ended by   head coach on 2027-02-25
END
    neutral "an end by somebody else in the $where" "$look" 'not-a-doctor'
    entry $where <<'END'
    hold head
        since      2027-02-20
        reached    2b by club physio on 2027-02-22
END
    neutral "an entry that does not count in the $where" "$look" 'does not count'
    entry $where <<'END'
    head knock  on 2027-02-20 19:30
END
    neutral "a knock without a hold in the $where" "$look" 'knock-without'
    entry $where <<'END'
    suspended by  the commission
        no contact before  2027-06-01
END
    neutral "a suspension in the $where" "this work is not for Oriel Tamsin on 2027-03-06" 'suspended'
    entry $where <<'END'
    avoid  nekc
END
    neutral "a slip in an avoid in the $where" "$look" 'nekc'
    entry $where <<'END'
    hold hed
        since  2027-02-20
END
    neutral "a slip in a hold in the $where" "$look" 'hold hed'
    entry $where <<'END'
    body mass  61.37 foo on 2027-02-15
END
    neutral "a slip in a body mass in the $where" "$look" 'foo'
    entry $where <<'END'
    born  2012-13-35
END
    neutral "a slip in a birthday in the $where" "$look" 'no such day|2012'
done

entry private <<'END'
    hold head
        since  2027-02-20
END
has "a hold in the private file alone: the screen asks for \`out since\`" "[out-missing]" "$(report text)"
is "and no report" "" "$(for format in $formats; do report "$format" | grep -iE 'out since|out-missing'; done)"
entry private <<'END'
    born  2011-05-01
END
neutral "a birthday under 18 in the private file alone" "$look" 'under 18'

entry none </dev/null
sed -i 's/^    limits    none.*/&\
    bout 2027-02-20 kickboxing 3 x 2:00 rest 1:00\
        result lost by knockout on 2027-02-20/; s/2027-03-01/2027-02-01/; s/weeks 1-2/weeks 1-5/' "$folder/camp.bell"
neutral "a knockout without a hold" "$look" 'stopped-without|from its moment'

entry none </dev/null
printf 'private Orial Tamsin\n    avoid  neck\n' >"$folder/private.bell"
neutral "a private block of nobody" "$look" 'Orial'
printf 'privat Oriel Tamsin\n    avoid  nekc\n' >"$folder/private.bell"
neutral "a private file with a slip in its first word" "$look" 'nothing starts with|Oriel'
entry plan <<'END'
    hold head
        since  2027-02-20
END
sed -i 's/^        saturday.*/&\
            waive  hold-broken  until 2027-04-30\
                because  the coach would like to/' "$folder/camp.bell"
has "that no allow reaches it is reported on the screen" "hold-broken cannot be waived" "$(report text)"
is "and in no report" "" "$(for format in $formats; do report "$format" | grep -i 'hold-'; done)"

# A finding that is not a health fact keeps its words and loses what points into the private file.
entry private <<'END'
    bests
        goblet squat : 1 @ 30 kg on 2027-03-20
END
sed -i 's/half kneeling one arm press : .*/goblet squat : 5 @ 80%/' "$folder/camp.bell"
for format in json sarif github; do
    has "a note that points into the private file: $format has the finding" "has no best in goblet squat" "$(report "$format")"
    is "and not the note" "" "$(report "$format" | grep -E 'private|later day than')"
    has "who asks has it" "later day than" "$(report "$format" --private)"
done

# Less is asked of an athlete with a restriction: how much less would reveal what is barred.
entry private <<'END'
    avoid  squat
END
sed -i 's/half kneeling one arm press : .*/push-up : 5/; s/sparring rounds  at most 99/front thigh sets  at least 40/' \
    "$folder/camp.bell"
has "a floor that is lower for one: the screen says so" "less is asked of this athlete" "$(report text --notes)"
for format in $formats; do
    is "and no report: $format" "" "$(report "$format" | grep -E 'less is asked|thigh')"
    has "$format says that the coach is to look" "$look" "$(report "$format")"
done
tallied()
{
    (cd "$folder" && "$program" tally . --margin --date 2027-03-01 2>/dev/null | grep 'front thigh sets .*at least')
}
is "nor does a tally say how much is left" "" "$(tallied)"
has "for others it does" "at least 40" "$(rm "$folder/private.bell"; tallied)"

# What lies beside it is reported as usual.
entry plan <<'END'
    avoid   overhead
    stance  south
END
has "a slip beside a restriction is reported" "\`stance\` appears here twice" "$(report json)"
has "explain knows the name" 'ask-the-coach (lines, must)' "$("$program" explain ask-the-coach)"
finish

#!/bin/sh
# usage: BELLSHEET=build/bellsheet tests/cli/asked.sh
#
# What commands answer to what they are asked, rightly and wrongly: each line of asked/lines, with the plans beside it, and in
# asked/said its exit status and the first line that it says (on standard error, if it says something there). UPDATE=1 writes
# asked/said anew: read it before you keep it.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
program=$(realpath "$BELLSHEET")
cases=$(realpath tests/cli/asked)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$cases"/*.bell "$cases"/*.csv "$folder"
cd "$folder" || exit 1
unset SOURCE_DATE_EPOCH

# asked LINE: the command, on plan.bell alone unless it names files or needs none.
asked()
{
    eval "set -- $1"
    case " $* " in
    *.bell*|*.csv*|*' - '*|*' a b '*) ;;
    ' check '*|' show '*|' tally '*|' print '*) set -- "$@" plan.bell ;;
    esac
    timeout 20 "$program" --date 2027-02-24 "$@" >out 2>err </dev/null
    status=$?
    said=$(head -n 1 err)
    [ -n "$said" ] || said=$(head -n 1 out)
    printf '%s\n    %s: %s\n' "$line" "$status" "$said"
}

while IFS= read -r line; do
    asked "$line"
done <"$cases/lines" >said
sed -i "s|$folder|FOLDER|g; s|$program|bellsheet|g" said
[ -z "${UPDATE:-}" ] || cp said "$cases/said"
is "what commands answer" "" "$(diff -u "$cases/said" said)"
is "each ends by itself" "" "$(grep -E '^    (124|12[5-9]|1[3-9][0-9]): ' said)"
finish

#!/bin/sh
# The man page and the completions know what `bellsheet --help` knows.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
page=share/man/bellsheet.1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# The commands that --help lists, and the long options of one of them.
list_commands()
{
    "$BELLSHEET" --help | sed -n '/^Commands:/,/^$/s/^  \([a-z-]*\)  .*/\1/p'
}

list_options()
{
    "$BELLSHEET" "$1" --help | sed -n 's/^ *\(-[a-zA-Z], \)\{0,1\}--\([a-z-]*\).*/\2/p'
}

# untold PAGE: the commands and options that PAGE does not mention.
untold()
{
    for command in $(list_commands); do
        grep -q "^\.It Ic $command\( \|\$\)" "$1" || echo "$command"
        for option in $(list_options "$command"); do
            grep -q "^\.It .*Fl -$option\( \|\$\)" "$1" || echo "--$option of $command"
        done
    done
}

# unknown PAGE: the commands and options that only PAGE mentions.
unknown()
{
    told=$(sed -n 's/^\.It Ic \([a-z-]*\).*/\1/p' "$1")
    for command in $told; do
        list_commands | grep -qx "$command" || echo "$command"
    done
    for command in $(list_commands); do
        list_options "$command"
    done >"$folder/options"
    told=$(sed -n 's/^\.It .*Fl -\([a-z-]*\).*/\1/p' "$1")
    for option in $told; do
        grep -qx -- "$option" "$folder/options" || echo "--$option"
    done
}

is "the man page tells of every command and option" "" "$(untold "$page")"
is "and of none that there is not" "" "$(unknown "$page")"
sed '/Ic explain/d; s/Fl -landscape/Fl -portrait/' "$page" >"$folder/page"
is "one left out would be found" "--landscape of print
explain" "$(untold "$folder/page" | grep -x 'explain\|--landscape.*' | sort)"
is "one too many would be found" "--portrait" "$(unknown "$folder/page")"

# The completions ask the program; whether they get an answer is tried in bash, which is everywhere.
mkdir "$folder/bin"
ln -s "$(cd "$(dirname "$BELLSHEET")" && pwd)/$(basename "$BELLSHEET")" "$folder/bin/bellsheet"
complete_words()
{
    PATH=$folder/bin:$PATH bash -c '
        . share/completions/bellsheet.bash
        COMP_WORDS=("$@")
        COMP_CWORD=$(($# - 1))
        _bellsheet
        printf "%s\n" "${COMPREPLY[@]}"' bash "$@"
}
is "commands are completed" "$(list_commands | sort)" "$(complete_words bellsheet '' | sort)"
is "options are completed" "$(list_options print | grep ^re | sort)" \
    "$(complete_words bellsheet print --re | sed 's/^--//' | sort)"
is "checks are completed" "sparring-over sparring-under" "$(complete_words bellsheet explain sparr | xargs)"
is "plans are completed" "examples/first/club.bell examples/first/plan.bell" \
    "$(complete_words bellsheet check examples/first/ | xargs)"

finish

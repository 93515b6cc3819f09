#!/bin/sh
# `print --depends`: a file name that make would take apart, or obey, is escaped or refused.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "$BELLSHEET")
examples=$(realpath examples)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000
cd "$folder" || exit 2

# print_with NAME: prints a plan with NAME in its folder's name and the output's, with its rule in rule.d.
print_with()
{
    rm -rf work
    mkdir work
    cp -r "$examples/first" "work/a$1b"
    (cd work && exec "$bellsheet" print "a$1b" --week 2 --sheet wall --out "o$1u" --depends rule.d >printed 2>said)
}

# behaves NAME: the sheet is made again if the plan is newer, and only then; a plan that is gone does not stop make.
behaves()
{
    print_with "$1" || { echo "status $?"; return; }
    target=$(sed -n '1s/: \\$//p' work/rule.d)
    printf 'all: %s\n%s:\n\t@echo made\ninclude rule.d\n' "$target" "$target" >work/Makefile
    touch -d '2027-01-02' "work/$(cat work/printed)"
    find "work/a$1b" -name '*.bell' -exec touch -d '2027-01-01' {} +
    made=$(make -C work 2>&1 | grep -cx made)
    touch -d '2027-01-03' "work/a$1b/plan.bell"
    made="$made $(make -C work 2>&1 | grep -cx made)"
    rm "work/a$1b/plan.bell"
    echo "$made $(make -C work 2>&1 | grep -cx made)"
}

for sign in '!' '"' '#' '$' '$$' '&' "'" '(' ')' '*' '+' ',' '-' '.' ':' '<' '>' '?' '@' '[' ']' '^' '_' '`' '{' '}' '~' ' ' \
    '  ' '# ' 'é' '$(shell touch hit)' ': ' '&: '; do
    is "a name with $sign" "0 1 1" "$(behaves "$sign")"
done
is "nothing was run" "" "$(find . -name hit)"

for sign in '%' ';' '=' '\' '|' "$(printf '\t')" "$(printf 'x\n\ttouch hit\ny')" "$(printf '\033')" "$(printf '\177')"; do
    word=$(printf '%s' "$sign" | tr '\n\t\033\177' 'ntec')
    is "a name with $word is refused" "status 2" "$(behaves "$sign")"
    is "and neither rule nor sheet is written" "" "$(ls work | grep -e rule -e '^o')"
    has "with its reason" "a rule for make cannot contain this name" "$(cat work/said)"
    is "in one line without controls" "1:0" \
        "$(wc -l <work/said):$(LC_ALL=C grep -c '[[:cntrl:]]' work/said)"
done
cp -r "$examples/first" '~'
is "a home of somebody" 2 "$("$bellsheet" print '~' --week 2 --sheet wall --out made --depends rule.d >/dev/null 2>&1; echo $?)"

finish

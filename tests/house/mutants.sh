#!/bin/sh
# usage: BUILD_DIR=build tests/house/mutants.sh
#
# What `make mutants` says of a file of a few lines, of whose mutants it is known what their test notices. Needs clang.
set -u

. tests/house/ok.sh
: "${BUILD_DIR:=build}" "${CC:=gcc}"
tools=$(realpath "$BUILD_DIR/tests/mutants")
top=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
command -v clang >/dev/null || { echo "skipped: there is no clang"; exit 0; }

mkdir -p "$folder/src/rules"
cat >"$folder/src/rules/sample.c" <<'END'
#include <stdbool.h>
enum { MOST = 10 };
static const int sizes[2 + 1] = {1, 2, 3};
bool heavy(int kg)
{
    if (kg > MOST)
        return true;
    return false;
}
int below(int days)
{
    int count = 0;
    for (int i = 0; i < days; i++)
        count += 1;
    while (days > 0)
        days--;
    switch (count) {
    case 1 + 1: return sizes[0];
    default: return count;
    }
}
bool both(const char *a, const char *b)
{
    return a && b;
}
int nobody(int a)
{
    return a * 3;
}
END
cat >"$folder/test.c" <<'END'
#include <stdbool.h>
bool heavy(int kg), both(const char *, const char *);
int below(int days);
int main(void)
{
    return !(heavy(20) && !heavy(5) && below(0) == 0 && below(2) == 1 && below(3) == 3 && both("", "") && !both("", 0));
}
END
printf 'int main(void) { return 1; }\n' >"$folder/fails.c"

cd "$folder" || exit 2
CCACHE_DISABLE=1 clang -Xclang -ast-dump=json -fsyntax-only src/rules/sample.c |
    "$tools/mutate" src/rules/sample.c list other.c src/rules/sample.c >mutated.c
$CC -w -I"$top/tests/mutants" -include mutant.h -o test mutated.c test.c "$top/tests/mutants/mutant.c" || exit 2
$CC -o fails fails.c || exit 2
awk -F '\t' '{ print $1 "\t" $2 " " $4 ": " $5 ": " $6 }' list >mutants
printf 'program\t%s\n' "$folder/test" "$folder/fails" >tests.list
MOST=1 JOBS=2 "$tools/drive" tests.list mutants results >log
is "the build with mutants is what is written while none runs" "" "$(grep "$folder/test" log)"
has "a test that fails without a mutant is left out" "left out, because it fails without a mutant or takes more than 1 s: $folder/fails" "$(cat log)"
is "each mutant has one result" "$(cut -f 2 mutants | sort)" "$(cut -f 2 results | sort)"
is "the second file's numbers are its own" "4096" "$(head -n 1 mutants | cut -f 1)"

# became MUTANT: killed, survived, unreached, or nothing when there is no such mutant.
became()
{
    awk -F '\t' -v name="src/rules/sample.c $1" '$2 == name { print $1 }' results
}

is "a condition that always holds is noticed" killed "$(became 'heavy: condition: kg > MOST => always')"
is "one that never holds too" killed "$(became 'heavy: condition: kg > MOST => never')"
is "a border that no test stands at is not" survived "$(became 'heavy: border: kg > MOST => >=')"
is "nor is the figure that it is at" survived "$(became 'heavy: figure: MOST => one more')"
is "a loop that misses its last turn is" killed "$(became 'below: border: i < days => misses the last turn')"
is "a loop without an end counts as noticed" killed "$(became 'below: dropped: days-- => nothing')"
is "a part of && that a test needs" killed "$(became 'both: part: b => left out of &&')"
is "a part that none needs" survived "$(became 'both: part: a => left out of &&')"
is "&& turned into ||" killed "$(became 'both: joined: a && b => ||')"
is "what no test comes to" unreached "$(became 'nobody: arithmetic: a * 3 => /')"
is "constants of the compiler are left alone" "" "$(grep -e '1 + 1' -e '2 + 1' mutants)"

# table EXPLANATION...: the table with an explanation, and its exit status.
table()
{
    printf '%s\n' "$@" >equivalent
    awk -F '\t' '{ print $1 "\t1 " $2 "\tsrc/rules/sample.c\t9" }' mutants >all
    cp all chosen
    sed 's/\t/&1 /' results >summed
    awk -v survivors=survivors -f "$top/tests/mutants/table.awk" equivalent all chosen summed
    echo "status $?"
}

border="src/rules/sample.c heavy: border: kg > MOST => >="
has "survivors are listed" "src/rules/sample.c:9	survived	$border" "$(table '# none' >/dev/null; cat survivors)"
is "those that are explained are not" "" "$(table "$border" '    because' >/dev/null; grep -F "$border" survivors)"
has "too few that are noticed fail" "less than 95 % are noticed in rules
status 1" "$(table '# none')"
has "an explanation of no mutant fails" "explained, and no mutant: src/rules/gone.c" "$(table 'src/rules/gone.c x: figure: 1 => one more' '    why')"
has "one of a mutant that is noticed fails" "killed, and explained" "$(table 'src/rules/sample.c heavy: condition: kg > MOST => never' '    why')"
has "a name without a word on why fails" "without a word on why: $border" "$(table "$border")"

finish

#!/bin/sh
# The composite action of share/ci/review: its steps as the service runs them, on a real repository, with a stand-in for
# `gh` that keeps the comments in a folder.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
top=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Each step's script goes to a file of its own: 1, 2, 3.
awk -v folder="$folder" '
    /^    - / { inside = 0 }
    /^      run: \|/ { step++; inside = 1; next }
    inside && (/^        / || /^$/) { sub(/^        /, ""); print >(folder "/" step) }' share/ci/review/action.yml
is "three steps" "1 2 3" "$(cd "$folder" && echo ?)"
is "no expression of the service is pasted into a script" "" "$(grep -n '\${{' "$folder"/? share/ci/review/comment)"

mkdir "$folder/bin" "$folder/plan"
case $BELLSHEET in
/*) ln -s "$BELLSHEET" "$folder/bin/bellsheet" ;;
*) ln -s "$top/$BELLSHEET" "$folder/bin/bellsheet" ;;
esac
cat >"$folder/bin/gh" <<END
#!/bin/sh
echo "\$*" >>"$folder/asked"
[ ! -e "$folder/read-only" ] || exit 1
for word; do
    case \$word in
    --jq) [ ! -e "$folder/comment" ] || echo 4711; exit 0 ;;
    body=@*) cat "\${word#body=@}" >"$folder/comment" ;;
    esac
done
END
chmod +x "$folder/bin/gh"

git_in_plan()
{
    git -C "$folder/plan" -c user.name=Coach -c user.email=coach@club.example "$@" >/dev/null 2>&1
}
git_in_plan init
cp examples/first/*.bell "$folder/plan"
git_in_plan add .
git_in_plan commit -m Before
base=$(git -C "$folder/plan" rev-parse HEAD)

# step N: as the service runs it; prints how it ended.
step()
{
    (
        cd "$folder/plan" && PATH=$folder/bin:$PATH GITHUB_ACTION_PATH=$top/share/ci/review PLAN=. BASE=$base \
            PULL_REQUEST=7 GITHUB_REPOSITORY=club/plans RUNNER_TEMP=$folder GITHUB_STEP_SUMMARY=$folder/summary \
            bash --noprofile --norc -eo pipefail "$folder/$1" >"$folder/said" 2>&1
    )
    echo $?
}

is "a program that is here is not built" "0:" "$(step 1):$(cat "$folder/said")"
mkdir "$folder/bare"
for word in make sudo; do
    printf '#!/bin/sh\necho "%s $*"\n' "$word" >"$folder/bare/$word"
    chmod +x "$folder/bare/$word"
done
is "one that is missing is, from the action's own checkout" "make -C A/../../.. packages
make -C A/../../.. all
sudo make -C A/../../.. install" "$(PATH=$folder/bare GITHUB_ACTION_PATH=A "$(command -v bash)" -eo pipefail "$folder/1" 2>&1)"

# A load grows by so much that the bar must.
file=$folder/plan/plan.bell
sed -i 's|@ 78/80/82.5/75%|@ 78/80/92.5/75%|' "$file"
git_in_plan commit -am Heavier
is "the change is reported" 0 "$(step 2)"
is "in a comment that is found again" 1 "$(grep -c '^<!-- bellsheet' "$folder/comment")"
wanted=$(cd "$folder/plan" && "$folder/bin/bellsheet" diff --format markdown "$base" HEAD .)
is "with what diff says" "$wanted" "$(sed 1d "$folder/comment")"
has "which names the load" "kg" "$wanted"
is "and the summary has it too" "$(cat "$folder/comment")" "$(cat "$folder/summary")"
is "as a new comment" "POST repos/club/plans/issues/7/comments" \
    "$(sed -n 's/.*--method \(POST [^ ]*\).*/\1/p' "$folder/asked")"
is "a second push is reported as well" 0 "$(step 2)"
is "in the same comment" "PATCH repos/club/plans/issues/comments/4711" \
    "$(sed -n 's/.*--method \(PATCH [^ ]*\).*/\1/p' "$folder/asked")"

is "a clean plan passes" 0 "$(step 3)"
echo 'athlete' >>"$file"
git_in_plan commit -am Faulty
is "a plan with errors fails" 1 "$(step 3)"
has "with the error beside its line" "::error file=" "$(cat "$folder/said")"
is "what it changes is reported all the same" 0 "$(step 2)"

touch "$folder/read-only"
: >"$folder/summary"
is "a token that may only read fails nothing" 0 "$(step 2)"
has "which is said" "The comment could not be written" "$(cat "$folder/said")"
is "and the summary holds it" 1 "$(grep -c '^<!-- bellsheet' "$folder/summary")"

finish

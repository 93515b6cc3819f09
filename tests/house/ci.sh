#!/bin/sh
# The files of share/ci do what they say, with a stand-in for the program that notes how it was called.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

cat >"$folder/bellsheet" <<'END'
#!/bin/sh
echo "$*" >>"$(dirname "$0")/calls"
echo "report of $*"
exit "$(cat "$(dirname "$0")/status")"
END
chmod +x "$folder/bellsheet"

# make_plan STATUS TARGET: runs the fragment with a program that ends with STATUS; prints make's status.
make_plan()
{
    rm -rf "$folder/calls" "$folder/reports"
    echo "$1" >"$folder/status"
    make -f share/ci/check.mk --no-print-directory "$2" BELLSHEET="$folder/bellsheet" \
        PLAN='camps/the spring' REPORTS="$folder/reports" >/dev/null 2>&1
    echo $?
}

is "a clean plan passes" 0 "$(make_plan 0 check-plan)"
is "the plan's folder is given as one word" "check camps/the spring" "$(cat "$folder/calls")"
is "errors fail the check" 2 "$(make_plan 1 check-plan)"
is "errors do not lose the reports" 0 "$(make_plan 1 report-plan)"
is "the reports are written" "report of check --format json camps/the spring
report of check --format sarif camps/the spring" \
    "$(cat "$folder/reports/findings.json" "$folder/reports/findings.sarif")"
is "a check that cannot run fails the reports" 2 "$(make_plan 2 report-plan)"

# script_of NAME: the commands of the GitLab job's list NAME.
script_of()
{
    awk -v list="$1:" '
        $1 == list { inside = 1; next }
        inside && /^    - / { sub(/^    - /, ""); print; next }
        inside && !/^    #/ { inside = 0 }' share/ci/gitlab.yml
}

# gitlab_job STATUS: runs its script as the service's shell does; prints how it ended.
gitlab_job()
{
    rm -f "$folder/calls" "$folder/gl-code-quality-report.json"
    echo "$1" >"$folder/status"
    script_of script >"$folder/script"
    (cd "$folder" && PATH=$folder:$PATH sh -e script >/dev/null 2>&1)
    echo $?
}

is "the GitLab job passes a clean plan" 0 "$(gitlab_job 0)"
is "the GitLab job fails on errors" 1 "$(gitlab_job 1)"
is "and has its report then" "report of check --format gitlab ." \
    "$(cat "$folder/gl-code-quality-report.json")"
is "and prints the findings for the log" "check --format gitlab .
check --format json ." "$(cat "$folder/calls")"
is "no service is given the text of the coach's screen" "" \
    "$(grep -n 'bellsheet check' share/ci/*.yml | grep -v -- '--format')"
is "the GitLab job fails when the check cannot run" 1 "$(gitlab_job 2)"
is "and goes no further" "check --format gitlab ." "$(cat "$folder/calls")"
is "it names the report that it writes" 1 \
    "$(grep -c '^      codequality: gl-code-quality-report.json$' share/ci/gitlab.yml)"

pattern=$(sed -n 's/^  files: //p' share/ci/.pre-commit-hooks.yaml)
is "the hook runs for plans and nothing else" "camps/spring.bell" \
    "$(printf '%s\n' camps/spring.bell README.md spring.bell.orig bell | grep -E "$pattern")"
entry=$(sed -n 's/^  entry: //p' share/ci/.pre-commit-hooks.yaml)
has "the page gives the same hook" "entry: $entry" "$(cat share/doc/ci.md)"

finish

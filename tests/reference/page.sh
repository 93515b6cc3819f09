# shellcheck shell=sh
# Sourced by what reads grammar/notation.md, from the top of the checkout: its examples, and what the program says of
# them. They work in $folder, which whoever sources this has made.
# shellcheck disable=SC2154

: "${BELLSHEET:=build/bellsheet}"
case $BELLSHEET in /*) ;; *) BELLSHEET=$PWD/$BELLSHEET ;; esac
contexts=$PWD/tests/reference/contexts

# split_page PAGE FOLDER: one file a block, LINE.bell or LINE.text by the block's first line, and a list of them.
split_page()
{
    rm -rf "$2"
    mkdir -p "$2"
    awk -v folder="$2" '
    /^```/ && inside { inside = 0; close(file); next }
    /^```/ {
        inside = 1
        file = "/dev/null"
        kind = substr($1, 4)
        part = error = ""
        for (i = 2; i <= NF; i++) {
            if ($i ~ /^part=/) part = substr($i, 6)
            if ($i == "error") error = "error"
        }
        if (kind == "bell") {
            file = folder "/" FNR ".bell"
            print FNR, part == "" ? "whole" : part, error == "" ? "good" : "error" >(folder "/list")
            wanted = error == "" ? "" : FNR
        } else if (kind == "text" && wanted != "") {
            file = folder "/" wanted ($2 == "output" ? ".output" : ".text")
            wanted = ""
        }
        printf "" >file
        next
    }
    inside { print >file }
    ' "$1"
}

# build_plan EXAMPLE PART: makes $folder/plan/plan.bell of it.
build_plan()
{
    rm -rf "$folder/plan"
    mkdir "$folder/plan"
    cp "$contexts/club.bell" "$folder/plan"
    if [ "$2" = whole ]; then
        cp "$1" "$folder/plan/plan.bell"
        return
    fi
    awk -v example="$1" '
    /^ *@@$/ {
        indent = substr($0, 1, index($0, "@") - 1)
        while ((getline line <example) > 0)
            print line == "" ? "" : indent line
        next
    }
    { print }
    ' "$contexts/$2.bell" >"$folder/plan/plan.bell"
}

# The errors and what helps, without their places.
only_messages()
{
    awk '
    / error: / && /^[^ ]*: /                { sub(/^[^ ]*: /, ""); print; mine = 1; next }
    / (warning|see|info): / && /^[^ ]*: /  { mine = / see: / && mine; next }
    mine && /^ *fix: /                    { sub(/^ */, ""); print }
    '
}

# said text|output: what the program says of $folder/plan. Returns its status.
said()
{
    (cd "$folder/plan" && "$BELLSHEET" check --color=never --date 2027-03-01 plan.bell) >"$folder/said" 2>&1
    status=$?
    if [ "$1" = output ]; then
        cat "$folder/said"
    else
        only_messages <"$folder/said"
    fi
    return "$status"
}

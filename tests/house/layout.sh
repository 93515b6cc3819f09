#!/bin/sh
# Every plan that is shipped is laid out as `bellsheet format` does it: whoever starts from one sees no differences of ours.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

is "examples and shelf" "0:" "$("$BELLSHEET" format --check examples share >"$folder/said" 2>&1; echo "$?:$(cat "$folder/said")")"
is "which are more than a few" yes "$([ "$(find examples share -name '*.bell' | wc -l)" -gt 40 ] && echo yes)"
cp -r examples/first "$folder/club"
echo 'gym   Other' >"$folder/club/other.bell"
is "one that is laid out otherwise is seen" "1:$folder/club/other.bell" \
    "$("$BELLSHEET" format --check "$folder/club" >"$folder/said" 2>&1; echo "$?:$(cat "$folder/said")")"

finish

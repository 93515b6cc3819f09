#!/bin/sh
# `make bounds` looks at every statement, and sees what grows faster than the plan. Two of its rows are tried here, by
# instructions: the sets of a log, and limits.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

is "each statement of the language has a row" "$(sed -n 's/^STATEMENT(\([A-Z0-9_]*\),.*/\1/p' src/syntax/kinds.def)" \
    "$(tests/bench/constructs | cut -d '|' -f 1)"
is "and a line to repeat" "" "$(tests/bench/constructs | awk -F '|' '$3 !~ /[^ ]/')"

if nm "${BELLSHEET:-build/bellsheet}" 2>/dev/null | grep -q '__asan_init\|__msan_init\|__gcov_init' || ! command -v valgrind >/dev/null; then
    echo "ok instructions are counted by valgrind, of a plain build: not tried"
    finish
    exit
fi
is "none of these grows faster than it is long" 0 "$(KEPT="$folder/kept" FEW=60 tests/bench/bounds LOGGED LIMIT >"$folder/table" 2>&1; echo $?)"
is "all were looked at" 3 "$(wc -l <"$folder/table")"
KEPT="$folder/kept" FEW=60 tests/bench/bounds --page >"$folder/page"
has "the page shows a statement and where it stands" '| `sparring rounds at most 24` | `every week` |' "$(cat "$folder/page")"
has "and names what was not counted" "Not counted: \`use Name 1\`" "$(cat "$folder/page")"
# In the place of the program that measures: times, of the clock and of the processor, and then megabytes. In the place of
# valgrind: a command that takes the square of a plan's lines.
mkdir "$folder/tools"
printf '#!/bin/sh\necho "$2  11.0  (10.0-12.0)  22.0  (21-23)  33.0"\n' >"$folder/tools/bench_run"
cat >"$folder/tools/valgrind" <<'END'
#!/bin/sh
for plan; do :; done
lines=$(wc -l <"$plan")
echo "==1== Collected : $((lines * lines * 100))" >&2
END
chmod +x "$folder/tools/bench_run" "$folder/tools/valgrind"
squares()
{
    PATH=$folder/tools:$PATH TOOLS=$folder/tools tests/bench/bounds "$@" >"$folder/table" 2>&1
    [ $? -eq 0 ] || echo 1
}
is "one that does is seen" 1 "$(FEW=100 squares LIMIT)"
has "and named" "grows faster than it is long" "$(cat "$folder/table")"
is "not where so much is allowed" "" "$(FEW=100 MOST=5 squares LIMIT)"
is "memory is what is shown as memory" 33.0 "$(awk '$1 == "LIMIT" { print $8 }' "$folder/table")"
edge=$(tests/bench/edges | grep '^camps|')
is "so is what costs more at its limit than it may" 1 "$(squares --edge "$edge")"
has "and named, too" "camps: grows faster than it is long" "$(cat "$folder/table")"
is "there, too, more can be allowed" "" "$(MOST=3.1 squares --edge "$edge")"
finish

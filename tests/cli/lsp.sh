#!/bin/sh
# The language server between two pipes: how it ends, that it reads a club, and that it writes nothing but messages.
set -u

. tests/house/ok.sh
: "${BELLSHEET:=build/bellsheet}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# message JSON: as a frame
message()
{
    printf 'Content-Length: %s\r\n\r\n%s' "$(printf %s "$1" | wc -c | tr -d ' ')" "$1"
}

# ended MESSAGE...: the exit status after these messages
ended()
{
    for one in "$@"; do
        message "$one"
    done | { "$BELLSHEET" lsp >"$folder/out" 2>"$folder/err"; echo $?; }
}

start='{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}'
stop='{"jsonrpc":"2.0","id":2,"method":"shutdown"}'
leave='{"jsonrpc":"2.0","method":"exit"}'

is "told to shut down and to exit" 0 "$(ended "$start" "$stop" "$leave")"
is "told to exit at once" 1 "$(ended "$start" "$leave")"
is "never begun" 1 "$(ended "$leave")"
is "its input ends behind shutdown" 0 "$(ended "$start" "$stop")"
is "its input ends" 1 "$(ended "$start")"
is "nothing is said at all" 1 "$("$BELLSHEET" lsp </dev/null >/dev/null 2>&1; echo $?)"

printf 'session Alone\n    straight A   2 sets\n        chin-upp : 5\n' >"$folder/plan.bell"
text='session Alone\n    straight A   2 sets\n        chin-up : five\n'
open='{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file://'$folder'/plan.bell","version":3,"text":"'$text'"}}}'
symbols='{"jsonrpc":"2.0","id":3,"method":"textDocument/documentSymbol","params":{"textDocument":{"uri":"file://'$folder'/plan.bell"}}}'
is "a plan is open" 0 "$(ended "$start" "$open" "$symbols" "$stop" "$leave")"
is "an answer to each request" 3 "$(grep -o '"id":' "$folder/out" | wc -l | tr -d ' ')"
is "its symbols" 1 "$(grep -c '"name":"Alone"' "$folder/out")"
is "nothing on standard error" "" "$(cat "$folder/err")"
is "what is on the disk stays as it is" "        chin-upp : 5" "$(tail -n 1 "$folder/plan.bell")"

# Findings come once there is nothing more to read, so the rest is sent when they have come.
findings_come()
{
    tries=0
    until grep -q publishDiagnostics "$folder/out" || [ $tries -ge 600 ]; do
        sleep 0.1
        tries=$((tries + 1))
    done
}
: >"$folder/out"
{ message "$start"; message "$open"; findings_come; message "$stop"; message "$leave"; } | "$BELLSHEET" lsp >"$folder/out"
is "what is open is looked at, in its version" 1 "$(grep -c '"version":3,"diagnostics":\[{' "$folder/out")"

"$BELLSHEET" lsp <"$folder" >"$folder/out" 2>"$folder/err"
is "what cannot be read is no end of it" 2 "$?"
is "and says why" "bellsheet: error: <standard input>: Is a directory" "$(cat "$folder/err")"

"$BELLSHEET" lsp plan.bell >"$folder/out" 2>"$folder/err"
is "it takes no files" 2 "$?"
is "and says so" "bellsheet: error: lsp takes no files: an editor says which" "$(cat "$folder/err")"

finish

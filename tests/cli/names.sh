#!/bin/sh
# Names of files that contain what a terminal obeys, or that are not text: no command and no report passes that on.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "$BELLSHEET")
first=$(realpath examples/first)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder" || exit 2

esc=$(printf '\033')
line='
'
odd="x${esc}[31m${line}bellsheet: all is well$(printf '\377\342\200\256\177\t')y"
cp -r "$first" "$odd"
mv "$odd/plan.bell" "$odd/$odd.bell"
sed '1s/^/use club.bell\n/' "$odd/$odd.bell" >wrong
printf 'athlete  Crooked\n    stanze southpaw\n' >>wrong
cp wrong "$odd/$odd.bell"

# clean NAME COMMAND...: both outputs are UTF-8 without controls other than line ends, and no line of them is the name's
# own.
clean()
{
    name=$1
    shift
    "$@" >out 2>err
    cat out err >both
    is "$name: no controls" 0 "$(LC_ALL=C grep -c "[$(printf '\001-\010\013-\037\177')]" both)"
    is "$name: text" 0 "$(iconv -f UTF-8 -t UTF-8 both >/dev/null 2>&1; echo $?)"
    is "$name: no line of the file's own" 0 "$(grep -c '^bellsheet: all is well' both)"
    is "$name: no turning around" 0 "$(LC_ALL=C grep -c "$(printf '\342\200\256')" both)"
    is "$name: it is about the file" yes "$(grep -q 'all\( \|%20\)is' both && echo yes)"
}

clean check "$bellsheet" check "$odd"
has "it is shown with escapes" 'x\x1b[31m\nbellsheet: all is well\xff\xe2\x80\xae\x7f\x09y.bell:' "$(cat err)"
for format in json sarif github gitlab; do
    clean "check --format $format" "$bellsheet" check --format $format "$odd"
done
clean format "$bellsheet" format "$odd/$odd.bell"
sed -i '$d' "$odd/$odd.bell"
clean "format --check" "$bellsheet" format --check "$odd"
clean "format --diff" "$bellsheet" format --diff "$odd"
sed -i '$d' "$odd/$odd.bell"
clean "show --lines" "$bellsheet" show "$odd" --week 1 --lines
clean "tally --lines-of" "$bellsheet" tally "$odd" --lines-of 'push sets'
clean print "$bellsheet" print "$odd" --week 1 --sheet wall --out "$odd/out"
clean "print --list" "$bellsheet" print "$odd" --week 1 --sheet wall --out "$odd/out" --list
clean "a file that is not there" "$bellsheet" check "$odd.bell"
clean "a sheet that is not there" "$bellsheet" print "$odd" --week 1 --sheet "all is well$esc" --out out.d
clean "an athlete who is not there" "$bellsheet" print "$odd" --week 1 --athlete "all is well$esc" --out out.d
clean "new where a file stands" "$bellsheet" new "$odd/$odd.bell"
clean "a command that is not there" "$bellsheet" "all is well$esc"
clean "a pipe" sh -c 'mkfifo "$0/all is well$1.bell"; exec "$2" check "$0"' "$odd" "$esc" "$bellsheet"
rm "$odd/all is well$esc.bell"

is "no name at all is no folder" "2:bellsheet: error: --out needs the name of a folder; \`.\` is the current one" \
    "$("$bellsheet" print "$first" --week 1 --out "" >/dev/null 2>err; echo "$?:$(cat err)")"
is "nor is it for new" "2:bellsheet: error: new: the folder has no name" \
    "$("$bellsheet" new "" >/dev/null 2>err; echo "$?:$(cat err)")"
is "nor for the book" "2:bellsheet: error: --out needs the name of a folder; \`.\` is the current one" \
    "$("$bellsheet" print --shelf --out "" >/dev/null 2>err; echo "$?:$(cat err)")"

finish

#!/bin/sh
# The files for editors and git that hold words of the language are those that its tables make; and Vim and Emacs, where they are
# installed, take words to be what they are.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# lag FOLDER: how what FOLDER holds differs from what is made now.
lag()
{
    for made in $(cd "$folder/made" && find . -type f | sort); do
        cmp -s "$folder/made/$made" "$1/$made" || echo "$made lags behind: \"make editors\""
    done
}

# wanted COLUMN: the rows of the table with that column for their last.
wanted()
{
    awk -F'|' -v column="$1" '/^[0-9]/ { print $1 "|" $2 "|" $column }' tests/editors/classes
}

if ! grammar/editors/make "$folder/made" 2>"$folder/said"; then
    refuse "grammar/editors/make" "$(cat "$folder/said")"
fi
is "six files are made" 6 "$(find "$folder/made" -type f | wc -l | tr -d ' ')"
is "none lags behind" "" "$(lag share)"
cp -r share "$folder/old"
sed 's/superset//' share/editors/vim/syntax/bell.vim >"$folder/old/editors/vim/syntax/bell.vim"
is "one that lacks a word is seen" './editors/vim/syntax/bell.vim lags behind: "make editors"' "$(lag "$folder/old")"
is "no place of a template is left open" "" "$(grep -rlE '@(vim|lisp|regex) [a-z]+@' "$folder/made")"

export CLASSES=tests/editors/classes OUT="$folder/told"
if ! command -v vim >/dev/null || ! vim --version | grep -q '+syntax'; then
    echo "skipped: no vim with syntax is here, so nobody asked it for the classes of words"
else
    vim -es -u NONE -i NONE -N -n -S tests/editors/classes.vim </dev/null >"$folder/said" 2>&1
    is "Vim" "filetype bell, step 4
$(wanted 3)
4 8 8 8" "$(cat "$folder/told" "$folder/said")"
fi

rm -f "$folder/told"
if ! command -v emacs >/dev/null; then
    echo "skipped: no emacs is here, so nobody asked it for the classes of words"
else
    emacs -Q --batch -l tests/editors/classes.el </dev/null >"$folder/said" 2>&1
    is "Emacs" "bell-mode, step 4
$(wanted 4)
4 8 8 8" "$(cat "$folder/told" "$folder/said")"
fi

finish

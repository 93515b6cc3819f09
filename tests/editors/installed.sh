#!/bin/sh
# What is installed for editors is where they look, and Vim finds it there.
set -u

. tests/house/ok.sh
: "${BUILD_DIR:=build}"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

make BUILD="$BUILD_DIR" PREFIX=/usr DESTDIR="$folder/tree" install-files >"$folder/said" 2>&1
is "make install-files" 0 $?
for place in vim/vimfiles nvim/site; do
    is "$place" "ftdetect/bell.vim ftplugin/bell.vim indent/bell.vim lua/bellsheet.lua syntax/bell.vim" \
        "$(cd "$folder/tree/usr/share/$place" 2>/dev/null && find . -type f | sed 's|^\./||' | sort | tr '\n' ' ' | sed 's/ $//')"
done
is "Emacs" bell-mode.el "$(ls "$folder/tree/usr/share/emacs/site-lisp" 2>&1)"
is "the rest, for people to copy" "emacs helix vim vscode" \
    "$(cd "$folder/tree/usr/share/bellsheet/editors" 2>/dev/null && echo *)"

if command -v vim >/dev/null && vim --version | grep -q '+syntax'; then
    echo 'gym Shed' >"$folder/plan.bell"
    vim -es -u NONE -i NONE -N -n --cmd "set runtimepath^=$folder/tree/usr/share/vim/vimfiles" -c 'filetype plugin on' \
        -c "edit $folder/plan.bell" -c "call writefile([&filetype, &commentstring], '$folder/told')" -c 'qall!' </dev/null
    is "Vim knows a plan by its name" "bell
# %s" "$(cat "$folder/told")"
else
    echo "skipped: no vim with syntax is here, so nobody opened a plan with it"
fi

finish

#!/bin/sh
# tests/install-packages, with a dpkg-query and an apt-get of our own that install nothing.
set -u

. tests/house/ok.sh
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# The only commands the script finds: these few, and the made-up ones. So git, bison and the rest
# are missing whatever this machine holds.
bin=$folder/bin
mkdir "$bin"
for command in sh awk env grep mktemp rm tail tr cat; do
    ln -s "$(command -v "$command")" "$bin/$command"
done

# command_file NAME: a command made of standard input.
command_file()
{
    {
        echo '#!/bin/sh'
        cat
    } >"$bin/$1"
    chmod +x "$bin/$1"
}

# install GROUP...: sets got to the output and "status N".
install()
{
    got=$(PATH=$bin tests/install-packages "$@" 2>&1 </dev/null)
    got="$got
status $?"
}

# Every package is installed but those named in $folder/absent.
command_file dpkg-query <<END
shift 3
for package; do
    grep -qx "\$package" "$folder/absent" || echo "installed \$package"
done
END

# apt-get writes down its arguments, and obeys when \$folder/works is there.
command_file apt-get <<END
echo "\$*" >>"$folder/asked"
[ -e "$folder/works" ]
END

# Root, or the user of $folder/user; sudo writes down that it was asked.
command_file id <<END
cat "$folder/user" 2>/dev/null || echo 0
END
command_file sudo <<END
echo "sudo" >>"$folder/asked"
exec "\$@"
END
options='-y -q -o DPkg::Lock::Timeout=600 -o Dpkg::Use-Pty=0'

: >"$folder/absent"
install build tests browser
is "nothing is missing" "
status 0" "$got"
is "and apt-get is left alone" "" "$(cat "$folder/asked" 2>/dev/null)"

printf '%s\n' bison qpdf >"$folder/absent"
: >"$folder/works"
install build tests
is "says what it installs" "Installing with apt-get what is missing: bison qpdf
status 0" "$got"
is "and installs just that" "$options install --no-install-recommends bison qpdf" \
    "$(cat "$folder/asked")"

rm "$folder/asked"
install build
has "a build does not install the tools of the tests" "missing: bison
" "$got"

rm "$folder/asked"
echo chromium >>"$folder/absent"
install browser
is "a browser is installed where it is asked for" "$options install --no-install-recommends chromium" \
    "$(cat "$folder/asked")"

rm "$folder/asked" "$folder/works"
install build
has "a failure gives the command to type" \
    "As root: apt-get update && apt-get install --no-install-recommends bison" "$got"
has "and status 2" "status 2" "$got"
is "after the lists were fetched anew" "$options install --no-install-recommends bison
$options update" "$(cat "$folder/asked")"

rm "$folder/asked"
: >"$folder/works"
echo 1000 >"$folder/user"
install build
is "who is not root goes through sudo" "sudo
$options install --no-install-recommends bison" "$(cat "$folder/asked")"

rm "$folder/asked" "$bin/sudo"
install build
has "or hears that there is none" "(this is not root, and there is no sudo): bison
" "$got"
is "and nothing was tried" "" "$(cat "$folder/asked" 2>/dev/null)"

command_file bison </dev/null
install build
is "a bison of one's own will do" "
status 0" "$got"

rm "$bin/apt-get"
install tests
is "without apt-get the list is printed" \
    "These are missing (by the names of their Debian packages): qpdf
There is no apt-get here: please install them with this system's own tool.
status 2" "$got"

rm "$bin/dpkg-query"
install build tests
has "without dpkg-query too" "(by the names of their Debian packages): make gcc libc6-dev flex" "$got"
has "and that is status 2" "status 2" "$got"

finish

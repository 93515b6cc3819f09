#!/bin/sh
# One call fails once in a way of its own: what a signal interrupts is called again, and of everything else the program says
# what the system said. How it ends, and what it left, is what nothing but the cause could have made it.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
club=$(realpath examples/slipway)
first=$(realpath examples/first/club.bell)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export SOURCE_DATE_EPOCH=1800000000

if ldd "$bellsheet" | grep -q 'asan\|ubsan' || nm "$bellsheet" 2>/dev/null | grep -q __asan_init; then
    echo "ok sanitizers come before what is preloaded: not tried"
    finish
fi
"${CC:-gcc}" -std=c17 -O1 -fPIC -shared -o "$folder/inject.so" tests/faults/inject.c -ldl || exit 1
cd "$folder" || exit 1

# As Linux numbers them.
EPERM=1 EINTR=4 EIO=5 EAGAIN=11 ENOMEM=12 EACCES=13 EINVAL=22 EMFILE=24 ENOSPC=28

# with CALL ERRNO N COMMAND...: its Nth call of that name fails so.
with()
{
    call=$1 number=$2 nth=$3
    shift 3
    rm -f reached
    FAULT_KIND=$call FAULT_ERRNO=$number FAULT_AT=$nth FAULT_LOG=reached LD_PRELOAD="$folder/inject.so" "$@"
}

# met NAME: the call was reached at all.
met()
{
    [ -s reached ] || refuse "$1" "there was no such call"
}

# ---- a file that is written ----

messy()
{
    sed 's/ : /   :  /' "$first" >plan.bell
}
messy
cp plan.bell before.bell
"$bellsheet" format plan.bell
cp plan.bell after.bell

# writes NAME CALL ERRNO N WANTED: after `format` the plan is as WANTED (before, after), said with the status that goes with it.
writes()
{
    messy
    said=$(with "$2" "$3" "$4" "$bellsheet" format plan.bell 2>&1)
    status=$?
    met "$1"
    is "$1" "$5" "$status$(cmp -s plan.bell before.bell && echo ' before')$(cmp -s plan.bell after.bell && echo ' after') $said"
    is "$1: no temporary is left" "" "$(find . -name '.bellsheet-*')"
}

writes "an interrupted write is made again" write $EINTR 1 "0 after "
writes "a full disk" write $ENOSPC 1 "2 before bellsheet: error: plan.bell: No space left on device"
writes "no temporary can be made" mkstemp $EACCES 1 "2 before bellsheet: error: plan.bell: Permission denied"
writes "permissions that cannot be given" fchmod $EPERM 1 "2 before bellsheet: error: plan.bell: Operation not permitted"
writes "a lock that cannot be kept" dup $EMFILE 1 "2 before bellsheet: error: plan.bell: Too many open files"
writes "a name that cannot be given" rename $EACCES 1 "2 before bellsheet: error: plan.bell: Permission denied"
writes "a disk that has nothing to wait for" fsync $EINVAL 1 "0 after "
writes "a disk that loses what it is given" fsync $EIO 1 "2 before bellsheet: error: plan.bell: Input/output error"
writes "a folder that loses its names" fsync $EIO 2 "2 after bellsheet: error: plan.bell: Input/output error"
writes "a folder that has nothing to wait for" fsync $EINVAL 2 "0 after "

# ---- git ----

if command -v git >/dev/null; then
    mkdir kept
    git init -q kept
    cp -r "$club" kept/club
    (cd kept && git add . && git -c user.name=Coach -c user.email=coach@example.com commit -q -m first)
    sed -i '0,/@ 80/s/@ 80/@ 70/' kept/club/*.bell
    (cd kept && git add .)
    # asked COMMAND...: what it says.
    asked()
    {
        (cd kept && "$@" 2>&1)
        echo "ended with $?"
    }
    differ="$bellsheet diff HEAD club --date 2027-02-24"
    staged="$bellsheet check --staged --date 2027-02-24"
    asked $differ >differ.new
    asked $staged >staged.new
    is "git is asked" 1 "$(grep -c 'for\|change' differ.new | sed 's/[1-9][0-9]*/1/')"

    # asks NAME CALL ERRNO N WORDS: both commands end with WORDS, or as ever if there are none.
    asks()
    {
        for what in differ staged; do
            [ $what = differ ] && command=$differ || command=$staged
            (cd kept && with "$2" "$3" "$4" $command >../said 2>&1; echo "ended with $?" >>../said; mv reached ..)
            met "$1, $what"
            if [ -z "$5" ]; then
                is "$1, $what" "" "$(diff $what.new said)"
            else
                is "$1, $what" "1 ended with 2" "$(grep -c "^bellsheet: error: .*$5" said) $(tail -n 1 said)"
            fi
        done
    }
    asks "what git says is read on after a signal" read $EINTR 1 ""
    asks "git's end is waited for after a signal" waitpid $EINTR 1 ""
    asks "no pipe to git" pipe $EMFILE 1 "asks git, which cannot be started: Too many open files"
    asks "no room for what git is asked" tmpfile $ENOSPC 1 "needs room for a temporary file: No space left on device"
else
    echo "skipped: git is not here"
fi

# ---- a watch ----

# ends NAME CALL ERRNO N WORDS: a watch that ends by itself, with these words.
ends()
{
    rm -rf out
    said=$(with "$2" "$3" "$4" timeout 60 "$bellsheet" print "$club" --week 2 --athlete 'Oriel Tamsin' --sheet card --out out \
        --watch 2>&1 >/dev/null)
    status=$?
    met "$1"
    is "$1" "2 bellsheet: error: watching: $5" "$status $(echo "$said" | tail -n 1)"
}
ends "nothing to be told by" inotify_init1 $EMFILE 1 "Too many open files"
ends "changes that cannot be waited for" poll $ENOMEM 1 "Cannot allocate memory"
ends "and after it was printed" poll $ENOMEM 2 "Cannot allocate memory"

# ---- sheets that several processes make ----

if [ "$(nproc)" -gt 1 ]; then
    print="$bellsheet print $club --week 2 --sheet card --out out"
    $print >/dev/null 2>warned.new
    mv out out.new
    # makes NAME CALL ERRNO N WORDS: all sheets, or WORDS.
    makes()
    {
        rm -rf out
        with "$2" "$3" "$4" $print >/dev/null 2>warned
        status=$?
        met "$1"
        if [ -z "$5" ]; then
            is "$1" "0" "$status$(diff -r out.new out)$(diff warned.new warned)"
        else
            is "$1" "2 bellsheet: error: $5" "$status $(tail -n 1 warned)"
        fi
    }
    makes "records are waited for after a signal" poll $EINTR 1 ""
    makes "a worker's end is waited for after a signal" waitpid $EINTR 1 ""
    makes "a worker writes on after a signal" write $EINTR 1 ""
    makes "records that cannot be waited for" poll $ENOMEM 1 "Cannot allocate memory"
    makes "no first worker" fork $EAGAIN 1 "Resource temporarily unavailable"
    makes "no second worker" fork $EAGAIN 2 "Resource temporarily unavailable"
    makes "no pipe from a worker" pipe $EMFILE 2 "Too many open files"
    makes "no memory that they share" mmap $ENOMEM 1 "Cannot allocate memory"
else
    echo "skipped: one processor makes all sheets itself"
fi

# ---- sheets that cannot be written ----

# lacks NAME OPTIONS CALL ERRNO N FILE WORDS: of FILE it says WORDS, and nothing else is an error.
lacks()
{
    rm -rf out
    # shellcheck disable=SC2086
    said=$(with "$3" "$4" "$5" "$bellsheet" print "$club" --athlete 'Oriel Tamsin' --out out $2 2>&1 >/dev/null)
    status=$?
    met "$1"
    is "$1" "2 bellsheet: error: $6: $7" "$status $(echo "$said" | grep 'error: ')"
    is "$1: no temporary is left" "" "$(find . -name '.bellsheet-*')"
}
full="No space left on device"
lacks "a calendar" "--week 2 --sheet calendar" mkstemp $ENOSPC 1 out/oriel-tamsin-calendar.ics "$full"
lacks "the list after a calendar" "--week 2 --sheet calendar" mkstemp $ENOSPC 2 out/sheets.json "$full"
lacks "a page for the phone" "--week 2 --sheet phone" mkstemp $ENOSPC 1 out/oriel-tamsin-phone.html "$full"
lacks "the list after it" "--week 2 --sheet phone" mkstemp $ENOSPC 2 out "$full"
cards="--on 2027-03-08 --sheet card --index --depends out/rules.mk"
lacks "the list before a card" "$cards" mkstemp $ENOSPC 1 out "$full"
lacks "a card" "$cards" mkstemp $ENOSPC 2 out/2027-03-08-1730-hips-before-hands-oriel-tamsin-card.svg "$full"
lacks "its last side" "$cards" mkstemp $ENOSPC 4 out/2027-03-08-1730-hips-before-hands-oriel-tamsin-card-3.svg "$full"
lacks "the list after it" "$cards" mkstemp $ENOSPC 5 out "$full"
lacks "an index" "$cards" mkstemp $ENOSPC 6 out/index.html "$full"
lacks "the list with it" "$cards" mkstemp $ENOSPC 7 out "$full"
lacks "a rule for make" "$cards" mkstemp $ENOSPC 8 out/rules.mk "$full"
with mkstemp $ENOSPC 1 "$bellsheet" print "$club" --shelf --out out >/dev/null 2>said
is "a book of exercises" "2:bellsheet: error: out/shelf.pdf: $full" "$?:$(cat said)"

# Of what is no file nothing is renamed into its place.
rules()
{
    said=$("$bellsheet" print "$club" --athlete 'Oriel Tamsin' --week 2 --out out --sheet board --depends "$1" 2>&1 >/dev/null)
    echo "$? $(echo "$said" | grep 'error: ')"
}
is "what stands before is kept where nothing is" "0 " "$(rules /dev/null)"
[ ! -w /dev/full ] || is "a device that is full" "2 bellsheet: error: /dev/full: $full" "$(rules /dev/full)"
is "a folder is no file" "2 bellsheet: error: out: Is a directory" "$(rules out)"
mkfifo nobody-reads
is "a pipe that nobody reads is not waited for" "2 bellsheet: error: nobody-reads: No such device or address" "$(rules nobody-reads)"

# ---- the editor's server ----

send()
{
    printf 'Content-Length: %d\r\n\r\n%s' ${#1} "$1"
}
{
    send '{"id":1,"method":"initialize","params":{"capabilities":{}}}'
    send '{"id":2,"method":"shutdown"}'
    send '{"method":"exit"}'
} >talk
"$bellsheet" lsp --date 2027-02-24 <talk >said.new
for cause in $EINTR $EAGAIN; do
    with read "$cause" 1 "$bellsheet" lsp --date 2027-02-24 <talk >said
    status=$?
    met "the server reads on"
    is "the server reads on after $cause" "0" "$status$(diff said.new said)"
done
with read $EIO 1 "$bellsheet" lsp --date 2027-02-24 <talk >said 2>errors
is "an input that fails is no end of it: the server says why, and could not run" \
    "2:bellsheet: error: <standard input>: Input/output error" "$?:$(cat said errors)"

finish

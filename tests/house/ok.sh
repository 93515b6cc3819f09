# shellcheck shell=sh
# Sourced by shell tests, which run from the top of the checkout. Each check prints one line,
# "ok NAME" or "not ok NAME: why", and tests/run counts those lines. What follows a "not ok" line
# is indented, lest it be counted too.

faults=0

# refuse NAME TEXT
refuse()
{
    printf 'not ok %s: %s\n' "$1" "$2" | sed '2,$s/^/    /'
    faults=$((faults + 1))
}

# is NAME WANTED GOT
is()
{
    if [ "$2" = "$3" ]; then
        echo "ok $1"
    else
        refuse "$1" "wanted:
$2
got:
$3"
    fi
}

# has NAME PART TEXT: TEXT holds PART.
has()
{
    case $3 in
    *"$2"*) echo "ok $1" ;;
    *) refuse "$1" "no \"$2\" in:
$3" ;;
    esac
}

# The last call of a script.
finish()
{
    [ "$faults" -eq 0 ]
    exit
}

# bash completion for bellsheet. Commands, options and checks are asked of the program itself.

# The words after two spaces in what "$@" prints: commands, or checks.
_bellsheet_listed()
{
    "$@" 2>/dev/null | sed -n 's/^  \([a-z][a-z-]*\)  .*/\1/p'
}

_bellsheet_options()
{
    bellsheet "$@" --help 2>/dev/null | grep -o -- '^  *-[-a-zA-Z, ]*' | grep -o -- '--*[a-zA-Z][a-z-]*'
}

_bellsheet()
{
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command='' i
    for ((i = 1; i < COMP_CWORD; i++)); do
        case ${COMP_WORDS[i]} in
        -C | --date) ((i++)) ;;
        -*) ;;
        *)
            command=${COMP_WORDS[i]}
            break
            ;;
        esac
    done

    case $before in
    --paper) COMPREPLY=($(compgen -W 'A4 A3 A2 A1 Letter Tabloid' -- "$word")) && return ;;
    -C | -o | --out) COMPREPLY=($(compgen -d -- "$word")) && return ;;
    esac

    if [[ $word == -* ]]; then
        COMPREPLY=($(compgen -W "$(_bellsheet_options $command)" -- "$word"))
    elif [[ -z $command ]]; then
        COMPREPLY=($(compgen -W "$(_bellsheet_listed bellsheet --help)" -- "$word"))
    elif [[ $command == explain ]]; then
        COMPREPLY=($(compgen -W "$(_bellsheet_listed bellsheet explain)" -- "$word"))
    else
        COMPREPLY=($(compgen -d -- "$word") $(compgen -f -X '!*.bell' -- "$word"))
    fi
}

complete -o filenames -F _bellsheet bellsheet

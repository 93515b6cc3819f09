# fish completion for bellsheet. Commands, options and checks are asked of the program itself.

# "word<tab>what it is" for the lines of a list: commands, or checks.
function __bellsheet_listed
    $argv 2>/dev/null | string match -r '^  [a-z][a-z-]*  .*' |
        string replace -r '^  ([a-z-]+) +' '$1\t'
end

function __bellsheet_command
    for word in (commandline -opc)[2..]
        if contains -- $word (__bellsheet_listed bellsheet --help | string replace -r '\t.*' '')
            echo $word
            return 0
        end
    end
    return 1
end

function __bellsheet_options
    bellsheet (__bellsheet_command) --help 2>/dev/null |
        string match -r '^ +(?:-[a-zA-Z], )?--[a-z-]+.*' |
        string replace -r '^ +(?:-[a-zA-Z], )?(--[a-z-]+)\S* *(?:[A-Z/]+ +)?(.*)' '$1\t$2'
end

complete -c bellsheet -f
complete -c bellsheet -n 'not __bellsheet_command' -a '(__bellsheet_listed bellsheet --help)'
complete -c bellsheet -n 'string match -q -- "-*" (commandline -ct)' -a '(__bellsheet_options)'
complete -c bellsheet -n 'test "$(__bellsheet_command)" = explain' -a '(__bellsheet_listed bellsheet explain)'
complete -c bellsheet -n '__bellsheet_command; and test "$(__bellsheet_command)" != explain' -F

" Vim syntax file
" Language: plans of bellsheet (*.bell)
" Made by "make editors" from the tables of the language: change grammar/editors/syntax.vim instead.

if exists('b:current_syntax')
  finish
endif

let s:keep = &cpo
set cpo&vim

let s:declarations = [@vim declarations@]
let s:texts = [@vim texts@]
let s:colons = [@vim colons@]
let s:placed = [@vim placed@]
let s:names = [@vim names@]
let s:named = [@vim named@]
let s:values = [@vim values@]
let s:units = [@vim units@]
let s:sides = [@vim sides@]
let s:words = [@vim words@]
let s:joints = [@vim joints@]
let s:turns = [@vim turns@]
let s:bounds = [@vim bounds@]

" Any of these phrases, as a pattern.
function! s:any(phrases) abort
  return '\%(' . join(map(copy(a:phrases), 'substitute(escape(v:val, "/\\"), " ", " \\\\+", "g")'), '\|') . '\)'
endfunction

" Any of these words, unless it is part of a longer one.
function! s:word(group, phrases) abort
  execute 'syntax match ' . a:group . ' /\%([[:alpha:]-]\)\@1<!' . s:any(a:phrases) . '\%([[:alpha:]-]\)\@!/ contained'
endfunction

" A statement at the start of an indented line: what must follow it, and how the rest is coloured.
function! s:statement(phrases, follows, rest) abort
  execute 'syntax match bellStatement /^\s\+\zs' . s:any(a:phrases) . '\ze' . a:follows . '/ nextgroup=' . a:rest . ' skipwhite'
endfunction

syntax case ignore
syntax sync minlines=1

" Of two that match at one place, Vim takes the one that comes last.
let s:ends = '\%(\s\|$\)'
let s:colon = ':' . s:ends
let s:plain = s:ends . '\%([^#]*' . s:colon . '\)\@!'

execute 'syntax match bellName /^\s\+\zs[^#:[:space:]].\{-}\ze\s*' . s:colon . '/ nextgroup=bellAmount skipwhite'
call s:statement(s:names, s:plain, 'bellNames')
call s:statement(s:named, s:plain, 'bellNamed')
execute 'syntax match bellName /^\s\+\zs[^#:[:space:]][^#:]\{-}\ze\s\+' . s:any(s:bounds) . s:ends . '/ nextgroup=bellAmount skipwhite'
call s:statement(s:values, s:plain, 'bellAmount')
call s:statement(s:placed, '\%(\s\|,\|$\)', 'bellPlaced')
call s:statement(s:colons, '\s[^#]*' . s:colon, 'bellPart')
call s:statement(s:texts, s:ends, 'bellText')
execute 'syntax match bellDeclaration /^' . s:any(s:declarations) . '\ze' . s:ends . '/ nextgroup=bellHead skipwhite'

syntax match bellHead /\S.*/ contained contains=bellComment,bellDate,bellTime
syntax match bellNames /\S.*/ contained contains=bellComment
syntax match bellText /\S.*/ contained contains=bellComment,@Spell
syntax match bellNamed /\S.*/ contained contains=bellComment,bellNumber,bellDate,bellTime,bellPlace,bellJoint
syntax match bellPlaced /\S.*/ contained contains=bellComment,bellNumber,bellDate,bellTime,bellTurn
syntax match bellAmount /\S.*/ contained contains=@bellValue
execute 'syntax match bellPart /\S[^#]\{-}\ze\s*' . s:colon . '/ contained contains=bellPlace,bellNumber nextgroup=bellAmount skipwhite'

syntax cluster bellValue contains=bellComment,bellNumber,bellDate,bellTime,bellTempo,bellPlace,bellWord,bellSide,bellUnit
call s:word('bellWord', s:words)
call s:word('bellJoint', s:joints)
call s:word('bellTurn', s:turns)
call s:word('bellSide', s:sides)
call s:word('bellUnit', s:units)
syntax match bellNumber /\%([[:alpha:]]\)\@1<!\d\+\%(\.\d\+\)\?%\?/ contained
syntax match bellTime /\<\d\+:\d\d\%(:\d\d\)\?/ contained
syntax match bellTempo /\<[0-9x]\+-[0-9x]\+-[0-9x]\+-[0-9x]\+\>/ contained
syntax match bellPlace /\<\u\.\d\+\>/ contained
syntax match bellDate /\<\d\{4}-\d\d\%(-\d\d\)\?\>/ contained
syntax match bellComment /\%(^\|\s\)\@1<=#\%([[:space:]#].*\)\?$/ contains=@Spell

highlight default link bellDeclaration Structure
highlight default link bellStatement Statement
highlight default link bellHead Title
highlight default link bellName Identifier
highlight default link bellNames Identifier
highlight default link bellNamed Identifier
highlight default link bellPlaced Identifier
highlight default link bellPart Identifier
highlight default link bellText String
highlight default link bellWord Keyword
highlight default link bellJoint Keyword
highlight default link bellTurn Keyword
highlight default link bellSide Constant
highlight default link bellUnit Type
highlight default link bellNumber Number
highlight default link bellTime Number
highlight default link bellTempo Number
highlight default link bellDate Number
highlight default link bellPlace Label
highlight default link bellComment Comment

let b:current_syntax = 'bell'
let &cpo = s:keep
unlet s:keep

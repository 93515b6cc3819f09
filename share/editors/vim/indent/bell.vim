" Vim indent file
" Language: plans of bellsheet (*.bell)
" Made by "make editors" from the tables of the language: change grammar/editors/indent.vim instead.

if exists('b:did_indent')
  finish
endif
let b:did_indent = 1

setlocal indentexpr=BellIndent(v:lnum)
setlocal indentkeys=o,O
let b:undo_indent = 'setlocal indentexpr< indentkeys<'

if exists('*BellIndent')
  finish
endif

let s:keep = &cpo
set cpo&vim

let s:openers = ['as many rounds as possible', 'every other week', 'suspended by', 'hold head', 'out since',
      \ 'exercise', 'activity', 'protocol', 'straight', 'superset', 'contrast', 'for time', 'athlete',
      \ 'private', 'session', 'results', 'complex', 'circuit', 'cluster', 'limits', 'season', 'return',
      \ 'rounds', 'ladder', 'phases', 'bests', 'tests', 'avoid', 'every', 'weeks', 'camp', 'test', 'held',
      \ 'away', 'step', 'week', 'gym', 'log', 'in']
let s:opens = '\c^\s*\%(' . join(map(copy(s:openers), 'substitute(v:val, " ", " \\\\+", "g")'), '\|') . '\)\%(\s\|$\)'

" One step further in below a line that lines belong to, else as the line above.
function! BellIndent(number) abort
  let above = prevnonblank(a:number - 1)
  if above == 0
    return 0
  endif
  let line = getline(above)
  return indent(above) + (line =~# s:opens && line !~# '^[^#]*:\s' ? shiftwidth() : 0)
endfunction

let &cpo = s:keep
unlet s:keep

" Writes what Vim takes each word of $CLASSES to be, a line "LINE|WORD|CLASS" each, to $OUT.
set encoding=utf-8
set runtimepath^=share/editors/vim
filetype plugin indent on
syntax on
edit tests/editors/classes.bell
let told = ['filetype ' . &filetype . ', step ' . &shiftwidth]
for row in readfile($CLASSES)
  if row =~# '^\d'
    let [line, word; rest] = split(row, '|')
    let column = stridx(getline(line), word) + 1
    call add(told, join([line, word, column ? synIDattr(synID(line, column, 1), 'name') : 'is not there'], '|'))
  endif
endfor
" Indentation: below a session, below a block, below an exercise.
call add(told, join(map([8, 10, 11, 16], 'BellIndent(v:val)')))
call writefile(told, $OUT)
qall!

" Vim filetype plugin
" Language: plans of bellsheet (*.bell)

if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:# commentstring=#\ %s
setlocal expandtab shiftwidth=4 softtabstop=4
setlocal formatoptions-=t
if executable('bellsheet')
  setlocal formatprg=bellsheet\ format\ -
endif
let b:undo_ftplugin = 'setlocal comments< commentstring< expandtab< shiftwidth< softtabstop< formatoptions< formatprg<'

" With g:bellsheet_server set to 0 no server is started.
if has('nvim-0.7') && get(g:, 'bellsheet_server', 1) && (exists('g:bellsheet_command') || executable('bellsheet'))
  lua require('bellsheet').attach()
endif

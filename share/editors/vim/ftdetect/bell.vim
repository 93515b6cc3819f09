autocmd BufRead,BufNewFile *.bell setfiletype bell

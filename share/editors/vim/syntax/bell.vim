" Vim syntax file
" Language: plans of bellsheet (*.bell)
" Made by "make editors" from the tables of the language: change grammar/editors/syntax.vim instead.

if exists('b:current_syntax')
  finish
endif

let s:keep = &cpo
set cpo&vim

let s:declarations = ['held until', 'exercise', 'activity', 'protocol', 'athlete', 'private', 'session', 'results',
      \ 'limits', 'season', 'camp', 'test', 'held', 'use', 'gym', 'log']
let s:texts = ['missed because', 'on purpose', 'purpose', 'because', 'source', 'run by', 'fault', 'step', 'stop',
      \ 'note', 'fix', 'cue']
let s:colons = ['morning', 'without', 'filler', 'change', 'round', 'weeks', 'week', 'for', 'add']
let s:placed = ['wednesday', 'that day', 'thursday', 'saturday', 'tuesday', 'monday', 'friday', 'sunday', 'thurs',
      \ 'tues', 'weds', 'thur', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']
let s:names = ['also known as', 'suspended by', 'lifting age', 'estimate by', 'height from', 'reached by',
      \ 'both sides', 'at the gym', 'age group', 'trains at', 'time zone', 'print in', 'position',
      \ 'replaces', 'ratio of', 'sparring', 'training', 'based on', 'instead', 'back to', 'pattern',
      \ 'without', 'contact', 'called', 'stance', 'return', 'can do', 'joints', 'counts', 'easier',
      \ 'harder', 'limits', 'avoid', 'print', 'joint', 'needs', 'weigh', 'takes', 'phase', 'bars', 'when',
      \ 'unit', 'kind', 'side', 'pair', 'camp', 'zone', 'bag', 'for', 'in']
let s:named = ['no contact before', 'expected until', 'no bout before', 'lifting since', 'medical check',
      \ 'called off', 'time zones', 'out since', 'review on', 'agreed by', 'next time', 'postponed',
      \ 'cancelled', 'time zone', 'ended by', 'symptoms', 'canceled', 'morning', 'reached', 'without',
      \ 'seen by', 'closed', 'filler', 'starts', 'result', 'deload', 'change', 'absent', 'since', 'until',
      \ 'round', 'weeks', 'born', 'pain', 'away', 'week', 'bout', 'late', 'from', 'for', 'add', 'at', 'to']
let s:values = ['no contact until further notice', 'no bout until further notice', 'as many rounds as possible',
      \ 'until further notice', 'between athletes', 'higher is better', 'every other week',
      \ 'lower is better', 'common practice', 'typical error', 'on a poor day', 'plate change',
      \ 'retest every', 'body weight', 'kettlebells', 'slowest rep', 'bodyweight', 'head knock',
      \ 'percent of', 'as planned', 'body mass', 'hold head', 'if agreed', 'dumbbells', 'any order',
      \ 'as a test', 'bodymass', 'under 18', 'at least', 'barbells', 'stations', 'also has', 'straight',
      \ 'superset', 'contrast', 'for time', 'division', 'weigh-in', 'optional', 'barbell', 'collars',
      \ 'warm up', 'complex', 'circuit', 'cluster', 'coaches', 'skipped', 'planned', 'allows', 'plates',
      \ 'rounds', 'ladder', 'phases', 'out by', 'bests', 'tests', 'since', 'balls', 'bands', 'loads',
      \ 'clock', 'under', 'waves', 'every', 'after', 'weeks', 'waive', 'allow', 'bars', 'keep', 'week',
      \ 'drop', 'took', 'rpe', 'was', 'in']
let s:units = ['kilometres', 'kilometers', 'kilometre', 'contacts', 'seconds', 'minutes', 'newtons', 'strikes',
      \ 'contact', 'pounds', 'second', 'minute', 'metres', 'meters', 'newton', 'rounds', 'strike', 'kilos',
      \ 'hours', 'metre', 'watts', 'round', 'weeks', 'kilo', 'secs', 'mins', 'hour', 'watt', 'reps',
      \ 'sets', 'week', 'days', 'kgs', 'lbs', 'sec', 'min', 'm/s', 'rep', 'set', 'day', 'kg', 'lb', 'km',
      \ 'cm', 'RM', 's', 'h', 'm', 'N', 'W', '%']
let s:sides = ['switched stance', 'each stance', 'per stance', 'own stance', 'each side', 'each hand',
      \ 'lead hand', 'rear hand', 'per side', 'each leg', 'each arm', 'per hand', 'each way', 'orthodox',
      \ 'southpaw', 'switched', 'lead leg', 'rear leg', 'per leg', 'per arm', 'a side', 'right', 'left',
      \ 'own']
let s:words = ['by weeks of the camp', 'alternating stances', 'below the peak week', 'alternating stance',
      \ 'by the last set of', 'every other week', 'reps in reserve', 'rep in reserve', 'work up to a',
      \ 'by weeks met', 'body weight', 'of the sets', 'from column', 'two for two', 'block rest',
      \ 'in reserve', 'bodyweight', 'work up to', 'body mass', 'from week', 'by effort', 'at least',
      \ 'based on', 'all-out', 'all out', 'of sets', 'because', 'seen by', 'down to', 'at most', 'in turn',
      \ 'within', 'a side', 'a week', 'weeks', 'tempo', 'pulse', 'lower', 'pairs', 'until', 'up to',
      \ 'week', 'hold', 'rest', 'easy', 'last', 'from', 'keep', 'none', 'warn', 'info', 'must', 'then',
      \ 'max', 'RPE', 'for', 'out', 'off', '×', 'BW', 'of', 'in', 'on', 'by', 'to', 'x']
let s:joints = ['from week', 'because', 'seen by', 'down to', 'weeks', 'until', 'up to', 'week', 'days', 'from',
      \ 'keep', 'day', 'out', 'to', 'on']
let s:turns = ['by weeks of the camp', 'by weeks met', 'from column', 'wednesday', 'thursday', 'saturday',
      \ 'that day', 'tuesday', 'in turn', 'monday', 'friday', 'sunday', 'thurs', 'tues', 'weds', 'thur',
      \ 'mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun', 'off']
let s:bounds = ['at least', 'at most', 'within', 'none']

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

;;; bell-mode.el --- Plans of bellsheet  -*- lexical-binding: t -*-

;; Package-Requires: ((emacs "26.1"))
;; Keywords: languages

;;; Commentary:

;; Colours, indentation and comments for plans (*.bell), and an entry for eglot, with which M-x eglot starts the
;; language server.
;;
;; Made by "make editors" from the tables of the language: change grammar/editors/bell-mode.el instead.

;;; Code:

(require 'cl-lib)

(defgroup bell nil "Plans of bellsheet." :group 'languages)

(defcustom bell-indent-offset 4 "Spaces of a step of indentation." :type 'integer :safe #'integerp)

(defconst bell-declarations '("held until" "exercise" "activity" "protocol" "athlete" "private" "session" "results" "limits"
    "season" "camp" "test" "held" "use" "gym" "log"))
(defconst bell-texts '("missed because" "on purpose" "purpose" "because" "source" "run by" "fault" "step" "stop" "note"
    "fix" "cue"))
(defconst bell-colons '("morning" "without" "filler" "change" "round" "weeks" "week" "for" "add"))
(defconst bell-placed '("wednesday" "that day" "thursday" "saturday" "tuesday" "monday" "friday" "sunday" "thurs" "tues"
    "weds" "thur" "mon" "tue" "wed" "thu" "fri" "sat" "sun"))
(defconst bell-names '("also known as" "suspended by" "lifting age" "estimate by" "height from" "reached by" "both sides"
    "at the gym" "age group" "trains at" "time zone" "print in" "position" "replaces" "ratio of"
    "sparring" "training" "based on" "instead" "back to" "pattern" "without" "contact" "called"
    "stance" "return" "can do" "joints" "counts" "easier" "harder" "limits" "avoid" "print" "joint"
    "needs" "weigh" "takes" "phase" "bars" "when" "unit" "kind" "side" "pair" "camp" "zone" "bag" "for"
    "in"))
(defconst bell-named '("no contact before" "expected until" "no bout before" "lifting since" "medical check" "called off"
    "time zones" "out since" "review on" "agreed by" "next time" "postponed" "cancelled" "time zone"
    "ended by" "symptoms" "canceled" "morning" "reached" "without" "seen by" "closed" "filler" "starts"
    "result" "deload" "change" "absent" "since" "until" "round" "weeks" "born" "pain" "away" "week"
    "bout" "late" "from" "for" "add" "at" "to"))
(defconst bell-values '("no contact until further notice" "no bout until further notice" "as many rounds as possible"
    "until further notice" "between athletes" "higher is better" "every other week" "lower is better"
    "common practice" "typical error" "on a poor day" "plate change" "retest every" "body weight"
    "kettlebells" "slowest rep" "bodyweight" "head knock" "percent of" "as planned" "body mass"
    "hold head" "if agreed" "dumbbells" "any order" "as a test" "bodymass" "under 18" "at least"
    "barbells" "stations" "also has" "straight" "superset" "contrast" "for time" "division" "weigh-in"
    "optional" "barbell" "collars" "warm up" "complex" "circuit" "cluster" "coaches" "skipped"
    "planned" "allows" "plates" "rounds" "ladder" "phases" "out by" "bests" "tests" "since" "balls"
    "bands" "loads" "clock" "under" "waves" "every" "after" "weeks" "waive" "allow" "bars" "keep"
    "week" "drop" "took" "rpe" "was" "in"))
(defconst bell-openers '("as many rounds as possible" "every other week" "suspended by" "hold head" "out since" "exercise"
    "activity" "protocol" "straight" "superset" "contrast" "for time" "athlete" "private" "session"
    "results" "complex" "circuit" "cluster" "limits" "season" "return" "rounds" "ladder" "phases"
    "bests" "tests" "avoid" "every" "weeks" "camp" "test" "held" "away" "step" "week" "gym" "log" "in"))
(defconst bell-units '("kilometres" "kilometers" "kilometre" "contacts" "seconds" "minutes" "newtons" "strikes" "contact"
    "pounds" "second" "minute" "metres" "meters" "newton" "rounds" "strike" "kilos" "hours" "metre"
    "watts" "round" "weeks" "kilo" "secs" "mins" "hour" "watt" "reps" "sets" "week" "days" "kgs" "lbs"
    "sec" "min" "m/s" "rep" "set" "day" "kg" "lb" "km" "cm" "RM" "s" "h" "m" "N" "W" "%"))
(defconst bell-sides '("switched stance" "each stance" "per stance" "own stance" "each side" "each hand" "lead hand"
    "rear hand" "per side" "each leg" "each arm" "per hand" "each way" "orthodox" "southpaw" "switched"
    "lead leg" "rear leg" "per leg" "per arm" "a side" "right" "left" "own"))
(defconst bell-words '("by weeks of the camp" "alternating stances" "below the peak week" "alternating stance"
    "by the last set of" "every other week" "reps in reserve" "rep in reserve" "work up to a"
    "by weeks met" "body weight" "of the sets" "from column" "two for two" "block rest" "in reserve"
    "bodyweight" "work up to" "body mass" "from week" "by effort" "at least" "based on" "all-out"
    "all out" "of sets" "because" "seen by" "down to" "at most" "in turn" "within" "a side" "a week"
    "weeks" "tempo" "pulse" "lower" "pairs" "until" "up to" "week" "hold" "rest" "easy" "last" "from"
    "keep" "none" "warn" "info" "must" "then" "max" "RPE" "for" "out" "off" "×" "BW" "of" "in" "on"
    "by" "to" "x"))
(defconst bell-joints '("from week" "because" "seen by" "down to" "weeks" "until" "up to" "week" "days" "from" "keep" "day"
    "out" "to" "on"))
(defconst bell-turns '("by weeks of the camp" "by weeks met" "from column" "wednesday" "thursday" "saturday" "that day"
    "tuesday" "in turn" "monday" "friday" "sunday" "thurs" "tues" "weds" "thur" "mon" "tue" "wed" "thu"
    "fri" "sat" "sun" "off"))
(defconst bell-bounds '("at least" "at most" "within" "none"))

(defun bell--any (phrases)
  "A group that matches any of PHRASES, of which the longest come first."
  (concat "\\("
          (mapconcat (lambda (phrase) (replace-regexp-in-string " " " +" (regexp-quote phrase) t t)) phrases "\\|")
          "\\)"))

(defun bell--word-matcher (phrases)
  "A function that finds one of PHRASES that is no part of a longer word."
  (let ((pattern (bell--any phrases)))
    (lambda (limit)
      (let (found)
        (while (and (not found) (re-search-forward pattern limit t))
          (setq found (and (not (bell--letter-p (char-before (match-beginning 1))))
                           (not (bell--letter-p (char-after (match-end 1))))))
          (unless found (goto-char (1+ (match-beginning 0)))))
        found))))

(defun bell--letter-p (char)
  "Is CHAR a letter, or the sign that joins words?"
  (and char (or (eq char ?-) (memq (get-char-code-property char 'general-category) '(Lu Ll Lt Lm Lo Mn)))))

(defconst bell--figures
  '(("\\_<[0-9]\\{4\\}-[0-9][0-9]\\(?:-[0-9][0-9]\\)?\\_>" . font-lock-constant-face)
    ("\\_<[0-9xX]+-[0-9xX]+-[0-9xX]+-[0-9xX]+\\_>" . font-lock-constant-face)
    ("\\_<[A-Z]\\.[0-9]+\\_>" . font-lock-preprocessor-face)
    ("\\_<[0-9]+\\(?:[.:][0-9]+\\)*%?" . font-lock-constant-face))
  "What is coloured wherever figures may stand.")

(defun bell--words (&rest groups)
  "What is coloured behind the first group of a line: figures and GROUPS.
Each of them is its phrases and its face."
  (mapcar (lambda (one) `(,(car one) (progn (goto-char (match-end 1)) nil) nil (0 ',(cdr one))))
          (append (mapcar (lambda (group) (cons (bell--word-matcher (car group)) (cdr group))) groups)
                  bell--figures)))

(defconst bell-font-lock-keywords
  (let ((ends "\\(?:[ \t]\\|$\\)")
        (colon "[ \t]*:\\(?:[ \t]\\|$\\)")
        (plain "\\(?:[ \t]+[^#:\n]*\\(?::[^ \t\n][^#:\n]*\\)*\\)?\\(?:$\\|#\\)")
        (amount (bell--words (cons bell-words 'font-lock-keyword-face)
                             (cons bell-sides 'font-lock-constant-face)
                             (cons bell-units 'font-lock-type-face))))
    (cl-flet ((statement (phrases follows rest)
                         `(,(concat "^[ \t]+" (bell--any phrases) follows)
                           (1 'font-lock-keyword-face) ,@rest)))
      (list
       `(,(concat "^" (bell--any bell-declarations) ends "[ \t]*\\(.*\\)$")
         (1 'font-lock-builtin-face) (2 'font-lock-function-name-face keep))
       `(,(concat "^[ \t]+" (bell--any bell-texts) ends "[ \t]*\\(.*\\)$")
         (1 'font-lock-keyword-face) (2 'font-lock-string-face keep))
       (statement bell-colons (concat "[ \t][^#\n]*?" colon) amount)
       (statement bell-placed "\\(?:[ \t,]\\|$\\)" (bell--words (cons bell-turns 'font-lock-keyword-face)))
       (statement bell-values plain amount)
       `(,(concat "^[ \t]+\\([^#: \t\n][^#:\n]*?\\)[ \t]+" (bell--any bell-bounds) ends)
         (1 'font-lock-variable-name-face) ,@amount)
       (statement bell-named plain (bell--words (cons bell-joints 'font-lock-keyword-face)))
       (statement bell-names plain nil)
       `(,(concat "^[ \t]+\\([^#: \t\n][^#\n]*?\\)" colon)
         (1 'font-lock-variable-name-face) ,@amount))))
  "Colours of plans. What an earlier row has coloured remains.")

(defvar bell-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "." table)
    (modify-syntax-entry ?' "w" table)
    (modify-syntax-entry ?% "." table)
    table))

(defconst bell--syntax-propertize
  (syntax-propertize-rules ("\\(?:^\\|[ \t]\\)\\(#\\)\\(?:[ \t#]\\|$\\)" (1 "<")))
  "A # begins a comment only where white space stands on both sides.")

(defun bell--indent-wanted ()
  "As the line above, and a step more below one that lines belong to."
  (save-excursion
    (beginning-of-line)
    (skip-chars-backward " \t\n")
    (if (bobp)
        0
      (beginning-of-line)
      (+ (current-indentation)
         (if (looking-at (concat "[ \t]*" (bell--any bell-openers) "\\(?:[ \t]\\|$\\)")) bell-indent-offset 0)))))

(defun bell-indent-line ()
  "Indent as the line above belongs; asked again, a step less."
  (interactive)
  (let ((wanted (bell--indent-wanted)) (now (current-indentation)))
    (when (and (eq this-command last-command) (> now 0))
      (setq wanted (max 0 (- now bell-indent-offset))))
    (save-excursion (indent-line-to wanted))
    (when (< (current-column) wanted) (back-to-indentation))))

;;;###autoload
(define-derived-mode bell-mode prog-mode "Bell"
  "Major mode for plans of bellsheet."
  (setq-local comment-start "# " comment-start-skip "#+[ \t]*" comment-end "")
  (setq-local indent-tabs-mode nil tab-width bell-indent-offset indent-line-function #'bell-indent-line)
  (setq-local syntax-propertize-function bell--syntax-propertize)
  (setq-local font-lock-defaults '(bell-font-lock-keywords nil t))
  (setq-local imenu-generic-expression `((nil ,(concat "^" (bell--any bell-declarations) "[ \t]+\\(.+\\)$") 2))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.bell\\'" . bell-mode))

(defvar eglot-server-programs)
;;;###autoload
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(bell-mode . ("bellsheet" "lsp"))))

(provide 'bell-mode)
;;; bell-mode.el ends here

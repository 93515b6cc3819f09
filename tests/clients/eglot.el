;;; eglot.el --- Emacs with eglot, as tests/clients/run starts it  -*- lexical-binding: t -*-
;; The mode and the entry for eglot are those that are shipped.
(require 'cl-lib)
(require 'eglot)
(require 'flymake)
(add-to-list 'load-path (expand-file-name "emacs" (getenv "EDITORS")))
(require 'bell-mode)
(setf (alist-get 'bell-mode eglot-server-programs) (list (getenv "BELLSHEET") "lsp"))
(setq eglot-sync-connect 10 eglot-autoshutdown nil eglot-send-changes-idle-time 0.05 eglot-confirm-server-initiated-edits nil
      flymake-no-changes-timeout 0.1 make-backup-files nil create-lockfiles nil)

(defun say (status form &rest rest)
  (princ (concat "\n" (apply #'format form rest) "\n"))
  (kill-emacs status))

(defun wait-for (what ready)
  (let ((until (+ (float-time) 10)))
    (while (and (not (funcall ready)) (< (float-time) until))
      (accept-process-output nil 0.05)
      (sit-for 0.01))
    (unless (funcall ready) (say 1 "no %s" what))))

(defun send () (eglot--signal-textDocument/didChange))
(defun this-line () (buffer-substring-no-properties (line-beginning-position) (line-end-position)))

(defun errors ()
  (flymake-start)
  (cl-remove-if-not (lambda (it) (memq (flymake-diagnostic-type it) '(eglot-error :error))) (flymake-diagnostics)))

(find-file (car command-line-args-left))
(setq command-line-args-left nil)
(unless (eq major-mode 'bell-mode) (say 1 "the mode is %s" major-mode))
(let ((found (eglot--guess-contact)))
  (apply #'eglot found))
(wait-for "management of the buffer" #'eglot-managed-p)

;; A half-written name is completed, as `completion-at-point' does it.
(goto-char (point-max))
(insert "        safety b")
(send)
(let* ((capf (eglot-completion-at-point)) (beg (nth 0 capf)) (end (nth 1 capf)) (typed (buffer-substring beg end))
       (all (completion-all-completions typed (nth 2 capf) nil (- end beg) (completion-metadata typed (nth 2 capf) nil)))
       (one (progn (when (consp all) (setcdr (last all) nil)) (cl-find "safety bar squat" all :test #'string=))))
  (unless one (say 1 "the completion lacks it: %S" all))
  (delete-region beg end)
  (insert one)
  (funcall (plist-get (nthcdr 3 capf) :exit-function) one 'finished)
  (unless (equal "        safety bar squat" (this-line)) (say 1 "completed to `%s'" (this-line))))

;; A fault appears, and its fix makes it go.
(delete-region (line-beginning-position) (line-end-position))
(insert "        safty bar squat : 5 @ 60 kg\n")
(send)
(defun fault ()
  (cl-find-if (lambda (it)
                (equal "safty bar squat" (buffer-substring-no-properties (flymake-diagnostic-beg it) (flymake-diagnostic-end it))))
              (errors)))
(wait-for "fault" #'fault)
(let* ((fault (fault)) (beg (flymake-diagnostic-beg fault)) (end (flymake-diagnostic-end fault))
       (actions (eglot-code-actions beg end nil nil))
       (fix (cl-find-if (lambda (it) (and (equal (plist-get it :kind) "quickfix") (plist-get it :edit))) actions)))
  (unless fix (say 1 "no fix among %S" actions))
  (eglot--apply-workspace-edit (plist-get fix :edit)))
(send)
(wait-for "end of the fault" (lambda () (null (errors))))

;; A session is renamed where it is declared and where it is placed.
(goto-char (point-min))
(search-forward "session Long")
(fset 'y-or-n-p (lambda (&rest _) t)) ; it asks before it edits a file that is not open
(eglot-rename "Far reach")
(goto-char (point-min))
(unless (search-forward "session Far reach" nil t) (say 1 "not renamed"))

;; The file gets its layout, and all is saved.
(eglot-format-buffer)
(save-some-buffers t)
(eglot-shutdown (eglot-current-server) nil 5)
(say 0 "ok")

#!/bin/sh
# check --staged reads git's index and not the folder; the hook uses it; git heads changes with what they are in and
# compares plans in canonical layout.
set -u

. tests/house/ok.sh
bellsheet=$(realpath "${BELLSHEET:-build/bellsheet}")
share=$(pwd)/share
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
command -v git >/dev/null || {
    echo "skipped: no git is here"
    exit 0
}
clubs=$(pwd)/examples
unset GIT_DIR GIT_INDEX_FILE GIT_WORK_TREE BELLSHEET PLAN
export HOME="$folder" GIT_CONFIG_NOSYSTEM=1 GIT_CEILING_DIRECTORIES="$folder"
mkdir "$folder/bin" "$folder/club"
ln -s "$bellsheet" "$folder/bin/bellsheet"
cd "$folder/club" || exit 1
git init -q . && git config user.name Coach && git config user.email coach@example.com
printf 'private.bell\n' >.gitignore
cp "$clubs"/one-week/*.bell .
git add . && git commit -qm start

# staged [ARGUMENT...]: the exit status of check --staged, and its errors without their place
staged()
{
    "$bellsheet" --date 2027-03-01 check --staged "$@" >"$folder/said" 2>&1
    echo "$?:$(sed -n 's/^bellsheet: error: /it /p; t; s/^\([^ ]*\) error: /\1 /p' "$folder/said")"
}

is "nothing is staged" "0:" "$(staged)"

sed -i 's/^        one arm dumbbell row /        one arm dumbel row /' sessions.bell
is "a fault in the folder alone" "0:" "$(staged)"
is "which check sees" 1 "$("$bellsheet" check . >/dev/null 2>&1; echo $?)"
git add sessions.bell
git show HEAD:sessions.bell >sessions.bell
is "a fault in the index alone" "1:./sessions.bell:28:9: there is no exercise called \`one arm dumbel row\` [unknown-exercise]" "$(staged)"
is "which check does not see" 0 "$("$bellsheet" --date 2027-03-01 check . >/dev/null 2>&1; echo $?)"
is "a report has the staged line too" "one arm dumbel row" \
    "$("$bellsheet" check --staged --format json . 2>/dev/null | grep -o 'one arm dumbel row' | head -n 1)"
mkdir -p deep/er
is "from a folder further down" "1:../sessions.bell:28:9: there is no exercise called \`one arm dumbel row\` [unknown-exercise]" \
    "$(cd deep && staged ..)"
git reset -q --hard

rm camp.bell
is "a file that is gone from the folder is still staged" "0:" "$(staged)"
printf 'use camp.bell\n' >>club.bell
git rm -q --cached camp.bell && git add club.bell
git show HEAD:camp.bell >camp.bell
has "a file that is not staged is not there" "cannot open \`camp.bell\`: No such file or directory" "$(staged)"
is "and cannot be asked for" "2:it camp.bell is not staged" "$(staged camp.bell)"
git reset -q --hard

echo 'athlete' >new.bell
is "nor does it say anything" "0:" "$(staged)"
git add new.bell
has "until it is staged" "1:./new.bell:1:8: " "$(staged)"
git rm -qf new.bell
printf 'private Oriel Tamsin\n    avoid shoulder\n        since 2027-02-01\n' >private.bell
is "a file that git ignores counts, as private ones must" yes \
    "$(staged >/dev/null; grep -q avoid-broken "$folder/said" && echo yes || cat "$folder/said")"
rm private.bell

git checkout -q -b other && sed -i 's/under     75 min/under     80 min/' sessions.bell && git commit -qam other
git checkout -q - && sed -i 's/under     75 min/under     70 min/' sessions.bell && git commit -qam here
git merge -q other >/dev/null 2>&1
is "two versions that are not merged" "2:it sessions.bell: its two versions are not merged yet" "$(staged)"
git merge --abort

mkdir "$folder/elsewhere"
is "no repository" 2 "$(cd "$folder/elsewhere" && staged | sed 's/:.*//' | head -n 1)"
is "a plan elsewhere" "2:it $folder/elsewhere is not in the repository of this folder; -C starts in another one" \
    "$(staged "$folder/elsewhere")"
is "no git" "2:it --staged asks git, which cannot be started: No such file or directory" \
    "$(bellsheet=$folder/bin/bellsheet PATH=$folder/bin; export PATH; "$bellsheet" check --staged 2>"$folder/said"; status=$?
        PATH=/usr/bin:/bin; echo "$status:$(sed 's/^bellsheet: error: /it /' "$folder/said")")"

# A git that cannot answer, or answers what git does not say: nothing is judged by half an answer.
mkdir "$folder/liar"
cat >"$folder/liar/git" <<END
#!/bin/sh
# git, but where \$AT is asked for it does \$DOES
case " \$* " in
*" \$AT "*) eval "\$DOES" ;;
esac
exec $(command -v git) "\$@"
END
chmod +x "$folder/liar/git"
# lied AT DOES COMMAND...: what the command says with that git
lied()
{
    AT=$1 DOES=$2
    export AT DOES
    shift 2
    (PATH=$folder/liar:$PATH; "$@")
}
compared()
{
    "$bellsheet" --date 2027-03-01 diff HEAD HEAD >"$folder/said" 2>&1
    echo "$?:$(sed 's/^bellsheet: error: /it /' "$folder/said")"
}
unreadable="2:it --staged needs a git repository that can be read"
is "a git that lists nothing and fails" "$unreadable" "$(lied --stage 'exit 1' staged)"
is "one that is killed" "$unreadable" "$(lied --stage 'kill -9 $$' staged)"
is "one that fails at what is not staged" "$unreadable" "$(lied --others 'exit 1' staged)"
is "one that fails at the files" "$unreadable" "$(lied cat-file 'exit 1' staged)"
is "an index of which no line can be read is one without plans" "0:" \
    "$(lied --stage 'printf "100644 a.bell\\000100644 a\\tb.bell\\000120000 a 0\\tc.bell\\000nothing\\td.bell\\000"; exit 0' staged)"
is "so is one of nothing" "0:" "$(lied --stage 'exit 0' staged)"
missing="2:it camp.bell: git does not have it"
is "files that end in the middle" "$missing" "$(lied cat-file 'printf "a blob 9"; exit 0' staged)"
is "files that are larger than what comes" "$missing" "$(lied cat-file 'printf "a blob 99\\nathlete"; exit 0' staged)"
is "files that are missing" "$missing" "$(lied cat-file 'echo a missing; exit 0' staged)"
unreadable="2:it \`diff\` of a revision needs a git repository that can be read"
is "a revision without its list" "$unreadable" "$(lied ls-tree 'exit 1' compared)"
is "a revision without its files" "$unreadable" "$(lied cat-file 'exit 1' compared)"
is "a revision whose neighbours cannot be listed" "$unreadable" "$(lied --cached 'exit 1' compared)"
is "a revision of which no line can be read" "0:nothing changes for anybody" \
    "$(lied ls-tree 'printf "100644 blob a b.bell\\000nothing\\td.bell\\000120000 blob a\\tc.bell\\000100644 tree a\\te.bell\\000100644 blob a\\tf.txt\\000"; exit 0' compared)"
is "a revision of nothing" "0:nothing changes for anybody" "$(lied ls-tree 'exit 0' compared)"
sed -i 's/one arm dumbbell row/one arm dumbbell rov/' sessions.bell
is "a folder whose bytes are others, and as many" "0:" "$(staged)"
git reset -q --hard

# The hook: a commit with a fault is refused, and a commit of part of the folder is judged by that part.
PATH=$folder/bin:$PATH
export PATH
cp "$share/git/pre-commit" .git/hooks/pre-commit
sed -i 's/^        one arm dumbbell row /        one arm dumbel row /' sessions.bell
is "the hook refuses a fault" "1 2" \
    "$(git commit -qam fault >/dev/null 2>&1; echo "$? $(git rev-list --count HEAD)")"
printf '# A note.\n' >>camp.bell
git reset -q
is "and lets through what is sound, of a folder that is not" "0 3" \
    "$(git commit -qm note camp.bell >"$folder/said" 2>&1; echo "$? $(git rev-list --count HEAD)")"
echo word >README && git add README
is "and what is no plan" "0 4" "$(git commit -qm readme >"$folder/said" 2>&1; echo "$? $(git rev-list --count HEAD)")"
git reset -q --hard

# Differences: what heads a hunk, and that a change of layout alone does not show.
cp "$share/git/attributes" .gitattributes
git config include.path "$share/git/config"
sed -i 's/^        one arm dumbbell row         : 8/        one arm dumbbell row         : 9/' sessions.bell
is "a hunk names its session" "session Hips before hands" "$(git diff -U0 sessions.bell | sed -n 's/^@@.*@@ //p')"
git reset -q --hard
cp "$share/git/attributes" .gitattributes
git show HEAD:sessions.bell | sed 's/^\( *[a-z][^:]*[^ :]\)  *: /\1 : /' >sessions.bell
is "the bytes differ" yes "$(git diff --no-textconv --quiet sessions.bell || echo yes)"
is "a change of layout is none" "" "$(git diff sessions.bell | grep '^[-+] ')"
git add sessions.bell
is "nor from blob to blob" "" "$(git diff --cached sessions.bell | grep '^[-+] ')"
echo 'athlete' >>sessions.bell
is "a faulty plan is shown as it is" "+athlete" "$(git diff sessions.bell 2>&1 | grep '^+athlete\|fatal')"

finish

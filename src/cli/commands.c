/* commands.c - which commands there are, and what their help says. */
#include "cli/commands.h"

const struct command commands[] = {
    {"new", "write a small club to start from",
     "bellsheet new club                a new folder with a plan that checks and prints\n"
     "bellsheet new club --date 2027-02-24   its camp starts on the Monday after that day",
     "", command_new, CONFINES_ITSELF},
    {"check", "read a plan and say what is wrong with it",
     "bellsheet check gym/              every plan in a folder\nbellsheet check camp.bell -i      one file, with "
     "findings that are only information\nbellsheet check gym/ --week 3     what there is to say about week "
     "3\nbellsheet check gym/ --strict     warnings fail too",
     "week from to month athlete staged strict infos notes max-errors format prefix private", command_check, CONFINES_ITSELF},
    {"print", "make the sheets: wall, load board, cards, floor sheet, weeks and camps",
     "bellsheet print gym/ --week 2 --out sheets/        week 2 of every camp\n"
     "bellsheet print gym/ --on 2027-03-08 --out sheets/ one day\n"
     "bellsheet print gym/ --week 2 --list               say what would be made\n"
     "bellsheet print gym/ --all --sheet camp --out sheets/   the whole of each camp\n"
     "bellsheet print gym/ --week 2 --out sheets/ --watch     again on every save\n"
     "bellsheet print gym/ --stale --out sheets/         what was printed there and no longer holds\n"
     "bellsheet print gym/ --shelf --out sheets/         a book of all exercises, the club's own too",
     "week from to month on all out athlete session sheet paper landscape read-from pages tile coach private revision list "
     "shelf index depends watch all-again stale strict",
     command_print, CONFINES_ITSELF},
    {"show", "show how the program understood a plan",
     "bellsheet show gym/ --week 2                  every athlete's sessions, with the stance ledgers\n"
     "bellsheet show gym/ --on 2027-03-08 --lines   one day, and the line that says each thing\n"
     "bellsheet show gym/ --format json             for other programs",
     "week from to month on all athlete session format lines review private max-errors infos strict", command_show, NEEDS_NOTHING},
    {"tally", "add up every week: sets, strikes, limbs, minutes, load",
     "bellsheet tally gym/ --athlete 'Oriel Tamsin'    her weeks, side by side\n"
     "bellsheet tally gym/ --week 3 --margin           how far week 3 is from each limit\n"
     "bellsheet tally gym/ --lines-of 'pull sets'      the lines that add up to it\n"
     "bellsheet tally gym/ --by lift                   volume load, zones and mean intensity of each lift\n"
     "bellsheet tally gym/ --format csv                for a spreadsheet",
     "week from to month athlete format margin lines-of by private max-errors infos strict", command_tally, NEEDS_NOTHING},
    {"limits", "show which limits apply to whom, where each is written, and what it replaces",
     "bellsheet limits gym/                            every camp\n"
     "bellsheet limits gym/ --athlete 'Oriel Tamsin'   hers alone",
     "athlete max-errors infos strict", command_limits, NEEDS_NOTHING},
    {"log", "print logs to fill in, for what was planned and is not logged yet",
     "bellsheet log gym/                                  today's\n"
     "bellsheet log gym/ --on 2027-03-08 --append gym/logs.bell   at the end of a file, to be filled in there\n"
     "bellsheet log gym/ --private --append gym/private.bell   what belongs in a private file: mornings, knocks to the head",
     "on week from to month athlete session append private max-errors infos strict", command_log, APPENDS},
    {"import", "read logs from a table, or from text copied from a page; a dry run without --append",
     "bellsheet import lifts.csv --rules lifts.rules            what the plan in this folder would get\n"
     "bellsheet import lifts.csv gym/ --rules lifts.rules --append gym/logs.bell   adds it; a second time adds nothing\n"
     "bellsheet import pasted.txt gym/                          text that is logs already",
     "rules append", command_import, NEEDS_HERE | APPENDS},
    {"join", "join two versions of a file of logs, so that none is lost",
     "bellsheet join BASE OURS THEIRS    OURS becomes what both have; exit 1 where they contradict each other\n"
     "git config merge.bell.driver 'bellsheet join %O %A %B'   lets git do so whenever it merges",
     "", command_join, CHANGES_SECOND},
    {"diff", "say what changed for whom on which day, and which sheets no longer hold",
     "bellsheet diff HEAD~1 HEAD               two revisions of git, of the plan in this folder\n"
     "bellsheet diff HEAD                      a revision and the folder as it is\n"
     "bellsheet diff main mine club/           two revisions, of the plan in club/\n"
     "bellsheet diff club.before/ club/        two folders\n"
     "bellsheet diff HEAD~1 HEAD --format markdown   for a comment on a change request",
     "sheet format exit-code", command_diff, CONFINES_ITSELF},
    {"close", "keep what was planned on days gone by, so that no edit changes it",
     "bellsheet close gym/ --until 2027-01-31    writes gym/record/2027-01.bell, and earlier months that are open",
     "until max-errors infos strict", command_close, CHANGES_PLAN},
    {"trim", "cut a session to the time there is, by what matters least",
     "bellsheet trim gym/ --on 2027-03-08 --to 40min           what stays, what goes\n"
     "bellsheet trim gym/ --on 2027-03-08 --to 40min --patch   the same as a change of the plan\n"
     "bellsheet trim gym/ --on 2027-03-08 --to 40min --apply   makes that change",
     "on to session athlete patch apply max-errors infos strict", command_trim, APPLIES},
    {"next", "what the logs say the next loads of a week are",
     "bellsheet next gym/ --week 3             each load that is not what its rule says, with the log that is its reason\n"
     "bellsheet next gym/ --week 3 --patch     all of them as a change of the plan\n"
     "bellsheet next gym/ --week 3 --apply     makes that change",
     "week athlete patch apply max-errors infos strict", command_next, APPLIES},
    {"rework", "bring a week within its limits by the fewest changes",
     "bellsheet rework gym/ --week 3           at most three ways, the cheapest first\n"
     "bellsheet rework gym/ --week 3 --patch   the first as a change of the plan\n"
     "bellsheet rework gym/ --week 3 --apply   makes that change",
     "week patch apply max-errors infos strict", command_rework, APPLIES},
    {"explain", "say what a check is about, where it comes from and what to do about its findings",
     "bellsheet explain                 a list of all checks\n"
     "bellsheet explain load-rise     one of them",
     "", command_explain, NEEDS_NOTHING},
    {"find", "search for exercises on the shelf and in this folder",
     "bellsheet find rear hand          all that fits both words\n"
     "bellsheet find split stance       what is done from a stance\n"
     "bellsheet find landmine --kit Slipway   only what can be done in that gym of the plan here",
     "kit", command_find, NEEDS_HERE},
    {"format", "give plans their one layout, in place",
     "bellsheet format camp.bell        rewrite a file; its meaning is proven to stay the same\n"
     "bellsheet format --check gym/     name the files that are laid out otherwise; exit 1 if any\n"
     "bellsheet format --diff gym/      show what would change\n"
     "bellsheet format - <camp.bell     standard input to standard output",
     "check diff", command_format, CHANGES_PLAN},
    {"lsp", "serve an editor: findings as you type, completion, what a percentage is in plates",
     "bellsheet lsp                     started by the editor, which speaks the Language Server Protocol with it",
     "", command_lsp, CONFINES_ITSELF},
};

const size_t command_count = sizeof commands / sizeof *commands;

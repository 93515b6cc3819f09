#include "cli/options.h"

#include <errno.h>
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "cli/commands.h"
#include "cli/sandbox.h"
#include "cli/tell.h"
#include "figures/dates.h"

/* What getopt_long returns for the options without a letter. */
enum option_code {
    OPTION_COLOR = 256, OPTION_DATE, OPTION_VERSION, OPTION_STRICT, OPTION_MOST, OPTION_FORMAT, OPTION_PREFIX,
    OPTION_WEEK, OPTION_ON, OPTION_ALL, OPTION_ATHLETE, OPTION_SESSION, OPTION_SHEET, OPTION_PAPER,
    OPTION_LANDSCAPE, OPTION_KIT, OPTION_READ_FROM, OPTION_REVISION, OPTION_LIST, OPTION_SHELF,
    OPTION_PAGES, OPTION_TILE, OPTION_COACH, OPTION_INDEX, OPTION_ALL_AGAIN, OPTION_EXIT_CODE, OPTION_STALE, OPTION_DEPENDS, OPTION_WATCH,
    OPTION_CHECK, OPTION_DIFF, OPTION_LINES, OPTION_REVIEW, OPTION_LINES_OF, OPTION_MARGIN, OPTION_BY,
    OPTION_PRIVATE, OPTION_NOTES, OPTION_UNTIL, OPTION_STAGED, OPTION_TO, OPTION_FROM, OPTION_MONTH, OPTION_PATCH, OPTION_APPLY,
    OPTION_APPEND, OPTION_RULES, OPTION_VERBOSE
};

struct option_help {
    const char *name, *words;
};

static const struct option long_options[] = {
    {"help", no_argument, NULL, 'h'},
    {"version", no_argument, NULL, OPTION_VERSION},
    {"verbose", no_argument, NULL, OPTION_VERBOSE},
    {"color", optional_argument, NULL, OPTION_COLOR},
    {"date", required_argument, NULL, OPTION_DATE},
    {"strict", no_argument, NULL, OPTION_STRICT},
    {"staged", no_argument, NULL, OPTION_STAGED},
    {"infos", no_argument, NULL, 'i'},
    {"max-errors", required_argument, NULL, OPTION_MOST},
    {"format", required_argument, NULL, OPTION_FORMAT},
    {"prefix", required_argument, NULL, OPTION_PREFIX},
    {"week", required_argument, NULL, OPTION_WEEK},
    {"on", required_argument, NULL, OPTION_ON},
    {"from", required_argument, NULL, OPTION_FROM},
    {"month", required_argument, NULL, OPTION_MONTH},
    {"until", required_argument, NULL, OPTION_UNTIL},
    {"to", required_argument, NULL, OPTION_TO},
    {"patch", no_argument, NULL, OPTION_PATCH},
    {"apply", no_argument, NULL, OPTION_APPLY},
    {"append", required_argument, NULL, OPTION_APPEND},
    {"rules", required_argument, NULL, OPTION_RULES},
    {"all", no_argument, NULL, OPTION_ALL},
    {"out", required_argument, NULL, 'o'},
    {"athlete", required_argument, NULL, OPTION_ATHLETE},
    {"session", required_argument, NULL, OPTION_SESSION},
    {"sheet", required_argument, NULL, OPTION_SHEET},
    {"paper", required_argument, NULL, OPTION_PAPER},
    {"landscape", no_argument, NULL, OPTION_LANDSCAPE},
    {"read-from", required_argument, NULL, OPTION_READ_FROM},
    {"revision", required_argument, NULL, OPTION_REVISION},
    {"pages", required_argument, NULL, OPTION_PAGES},
    {"tile", required_argument, NULL, OPTION_TILE},
    {"coach", no_argument, NULL, OPTION_COACH},
    {"index", no_argument, NULL, OPTION_INDEX},
    {"depends", required_argument, NULL, OPTION_DEPENDS},
    {"watch", no_argument, NULL, OPTION_WATCH},
    {"all-again", no_argument, NULL, OPTION_ALL_AGAIN},
    {"exit-code", no_argument, NULL, OPTION_EXIT_CODE},
    {"stale", optional_argument, NULL, OPTION_STALE},
    {"kit", required_argument, NULL, OPTION_KIT},
    {"list", no_argument, NULL, OPTION_LIST},
    {"shelf", no_argument, NULL, OPTION_SHELF},
    {"check", no_argument, NULL, OPTION_CHECK},
    {"diff", no_argument, NULL, OPTION_DIFF},
    {"lines", no_argument, NULL, OPTION_LINES},
    {"review", no_argument, NULL, OPTION_REVIEW},
    {"lines-of", required_argument, NULL, OPTION_LINES_OF},
    {"margin", no_argument, NULL, OPTION_MARGIN},
    {"by", required_argument, NULL, OPTION_BY},
    {"private", no_argument, NULL, OPTION_PRIVATE},
    {"notes", no_argument, NULL, OPTION_NOTES},
    {NULL, 0, NULL, 0},
};

static const struct option_help helps[] = {
    {"strict", "--strict             treat warnings as errors"},
    {"staged", "--staged             the plan as it is staged in git, not as it is in the folder"},
    {"infos", "-i, --infos          show findings that are only information, too"},
    {"max-errors", "--max-errors N       show at most N findings"},
    {"format", "--format NAME        text (default) or json; check: sarif, github, gitlab too; tally: csv; diff: markdown"},
    {"prefix", "--prefix FOLDER/     put this before file names, so that they start at the repository's root"},
    {"week", "--week N             week N of the camps, counted from their start, or of the year: 2027-W10"},
    {"on", "--on DAY             one day, such as 2027-03-08"},
    {"from", "--from DAY           the first of some days, up to --to or to the end"},
    {"month", "--month MONTH        one month, such as 2027-03"},
    {"until", "--until DAY          the last day to close, such as 2027-01-31"},
    {"to", "--to DAY, --to TIME  the last of these days; for `trim` the time there is, such as 40min or 1h10min"},
    {"patch", "--patch              print the change of the plan, as git apply reads it"},
    {"apply", "--apply              change the plan"},
    {"rules", "--rules FILE         which column of the table is what"},
    {"append", "--append FILE        add the logs to the end of FILE"},
    {"all", "--all                every week"},
    {"out", "-o, --out FOLDER     where the files go"},
    {"athlete", "--athlete NAME       only this athlete"},
    {"session", "--session NAME       only this session"},
    {"sheet", "--sheet LIST         of wall,board,card,card-page,floor,week,parents,bout,monday,camp,tests,review,season,season-club,phone,calendar (default: wall,card)"},
    {"paper", "--paper NAME         for the wall: A4 to A1, Letter or Tabloid; the rest use A4 or Letter"},
    {"landscape", "--landscape          turn the paper"},
    {"read-from", "--read-from LENGTH   distance the wall is read from, such as 4m"},
    {"pages", "--pages N            pages a wall sheet may take to keep its letters large (default: 2)"},
    {"tile", "--tile PAPER         wall sheets in parts on smaller paper, to be cut and joined"},
    {"coach", "--coach              the coach's own floor sheet: who does which exchange, who is on hold"},
    {"index", "--index              an index.html that shows the cards on a phone"},
    {"depends", "--depends FILE       a rule for make: the sheets, and the plans they were made from"},
    {"watch", "--watch              print again whenever a plan is saved"},
    {"all-again", "--all-again          print what is in the folder as it stands, too"},
    {"stale", "--stale[=VERSIONS]   print nothing; name what in --out, or of these versions, no longer holds"},
    {"exit-code", "--exit-code          exit 1 if anything differs"},
    {"revision", "--revision WORDS     printed on sheets in place of their versions"},
    {"kit", "--kit GYM            only what can be done there"},
    {"list", "--list               list the files without making them"},
    {"shelf", "--shelf              instead of sessions, a book of all exercises by pattern"},
    {"check", "--check              write nothing; name the files that would change, exit 1 if any"},
    {"diff", "--diff               write nothing; show the changes, exit 1 if any"},
    {"lines", "--lines              name the line of the plan beside each fact"},
    {"review", "--review             each camp as it turned out, as Markdown: planned and done, tests, waivers"},
    {"lines-of", "--lines-of COUNTED   the lines that add up to a count, such as \"pull sets\""},
    {"margin", "--margin             how far each week is from each limit"},
    {"by", "--by NAME            tonnage, lifts by zone and mean intensity by lift, session, day or week"},
    {"notes", "--notes              show every finding in full, with all its notes"},
    {"private", "--private            include what is for the coach alone: restrictions, holds, body mass, date of "
                "birth; of sheets, in `tests` and `review` alone"},
};

/* Is NAME one of the words of LIST? */
static bool listed(const char *list, const char *name)
{
    size_t length = strlen(name);
    for (const char *at = list; (at = strstr(at, name)) != NULL; at += length)
        if ((at == list || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'))
            return true;
    return false;
}

static void print_common(FILE *out)
{
    fputs("\nEvery command:\n  -C FOLDER            start in FOLDER\n  --date DAY           take DAY as today (holds, "
          "reviews, logs and ages depend on it)\n  --color[=WHEN]       auto (default), always or never\n  "
          "--verbose            say what the command has given up of the machine\n  -h, --help\n  --version\n",
          out);
}

static void print_help(FILE *out)
{
    fputs("bellsheet compiles plain-text programmes for striking athletes.\n\n"
          "  bellsheet check club/                        is the plan within its limits?\n"
          "  bellsheet print club/ --week 1 --out sheets/ wall sheets and cards of a week\n\n"
          "Commands:\n",
          out);
    for (size_t i = 0; i < command_count; i++)
        fprintf(out, "  %-9s %s\n", commands[i].name, commands[i].line);
    fputs("\n`bellsheet COMMAND --help` says more. Exit status: 0 clean, 1 the plan has errors, 2 could not run.\n",
          out);
    print_common(out);
}

static void print_command_help(const struct command *command, FILE *out)
{
    fprintf(out, "bellsheet %s: %s\n\n", command->name, command->line);
    for (const char *line = command->examples; *line;) {
        size_t length = strcspn(line, "\n");
        fprintf(out, "  %.*s\n", (int)length, line);
        line += length + (line[length] == '\n');
    }
    if (*command->takes)
        fputs("\nOptions:\n", out);
    for (size_t i = 0; i < sizeof helps / sizeof *helps; i++)
        if (listed(command->takes, helps[i].name))
            fprintf(out, "  %s\n", helps[i].words);
    print_common(out);
}

static int complain(const char *format, const char *word)
{
    tell_error(format, word);
    return EXIT_COULD_NOT;
}

/* --- values --- */

static bool read_day(const char *text, int *day)
{
    int year, month, of_month, length = 0;
    if (sscanf(text, "%4d-%2d-%2d%n", &year, &month, &of_month, &length) != 3 || strlen(text) != (size_t)length ||
        length != 10)
        return false;
    *day = date_from_ymd(year, month, of_month);
    return *day != 0;
}

/* `2027-03`, to its first and last day. */
static bool read_month(const char *text, int *first, int *last)
{
    int year, month, length = 0;
    if (sscanf(text, "%4d-%2d%n", &year, &month, &length) != 2 || length != 7 || text[length])
        return false;
    *first = date_from_ymd(year, month, 1);
    *last = *first ? date_from_ymd(month < 12 ? year : year + 1, month < 12 ? month + 1 : 1, 1) - 1 : 0;
    return *first && *last > 0;
}

/* `2027-W10`, to its Monday and Sunday. */
static bool read_iso_week(const char *text, int *first, int *last)
{
    int year, week, length = 0, found_year, found_week;
    if (sscanf(text, "%4d-W%2d%n", &year, &week, &length) != 2 || length != 8 || text[length])
        return false;
    int day = date_from_ymd(year, 1, 4); /* always in the first */
    *first = day && week > 0 ? date_monday(day) + 7 * (week - 1) : 0;
    *last = *first + 6;
    return *first && date_iso_week(*first, &found_year, &found_week) && found_year == year && found_week == week;
}

static bool read_number(const char *text, int most, int *number)
{
    char *end;
    errno = 0;
    long value = strtol(text, &end, 10);
    if (errno || end == text || *end || value < 1 || value > most)
        return false;
    *number = (int)value;
    return true;
}

/* `3m`, `2.5 m`, `400 cm`, to centimetres. */
static bool read_length(const char *text, double *centimetres)
{
    char *end;
    double value = strtod(text, &end);
    while (*end == ' ')
        end++;
    double unit = strcmp(end, "m") == 0 ? 100 : strcmp(end, "cm") == 0 ? 1 : 0;
    *centimetres = value * unit;
    return unit > 0 && *centimetres >= 20 && *centimetres <= 5000;
}

/* `40min`, `1h`, `1h10min`, to seconds. */
static bool read_time(const char *text, int *seconds)
{
    enum { MOST_MINUTES = 24 * 60 };
    long minutes = 0;
    while (*text) {
        char *end;
        long number = *text >= '0' && *text <= '9' ? strtol(text, &end, 10) : -1;
        if (number < 0 || number > MOST_MINUTES)
            return false;
        while (*end == ' ')
            end++;
        bool hours = *end == 'h';
        if (!hours && strncmp(end, "min", 3) != 0)
            return false;
        minutes += hours ? 60 * number : number;
        text = end + (hours ? 1 : 3);
        while (*text == ' ')
            text++;
    }
    *seconds = (int)minutes * 60;
    return minutes > 0 && minutes <= MOST_MINUTES;
}

/* What both outputs have unless WORD is `auto`. */
static bool read_color(const char *word, struct options *options)
{
    bool always = !word || strcmp(word, "always") == 0;
    if (always || strcmp(word, "never") == 0)
        options->color = options->color_out = always;
    else
        return strcmp(word, "auto") == 0;
    return true;
}

/* --- the day --- */

enum { UNIX_EPOCH_DAY = 719163, DAY_SECONDS = 86400 };

/* Today: as given, or else SOURCE_DATE_EPOCH, or else the machine's date. */
static int find_today(struct options *options)
{
    if (options->today) {
        options->dated = true;
        options->created = (long long)(options->today - UNIX_EPOCH_DAY) * DAY_SECONDS;
        return -1;
    }
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    if (epoch) {
        char *end;
        errno = 0;
        long long seconds = strtoll(epoch, &end, 10);
        if (errno || end == epoch || *end || seconds < 0 || seconds > 253402300799LL)
            return complain("SOURCE_DATE_EPOCH is not a time in seconds since 1970: `%s`", epoch);
        options->created = seconds;
        options->today = UNIX_EPOCH_DAY + (int)(seconds / DAY_SECONDS);
        options->dated = true;
        return -1;
    }
    time_t now = time(NULL);
    struct tm local;
    if (localtime_r(&now, &local))
        options->today = date_from_ymd(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
    return -1;
}

/* --- reading --- */

static void take_flag(int option, struct options *options)
{
    switch (option) {
    case 'i': options->infos = true; break;
    case OPTION_VERBOSE: options->verbose = true; break;
    case OPTION_STRICT: options->strict = true; break;
    case OPTION_STAGED: options->staged = true; break;
    case OPTION_ALL: options->all = true; break;
    case OPTION_PATCH: options->patch = true; break;
    case OPTION_APPLY: options->apply = true; break;
    case OPTION_LIST: options->list = true; break;
    case OPTION_SHELF: options->shelf = true; break;
    case OPTION_CHECK: options->check = true; break;
    case OPTION_DIFF: options->diff = true; break;
    case OPTION_LINES: options->lines = true; break;
    case OPTION_REVIEW: options->review = true; break;
    case OPTION_MARGIN: options->margin = true; break;
    case OPTION_PRIVATE: options->private = true; break;
    case OPTION_NOTES: options->notes = true; break;
    case OPTION_LANDSCAPE: options->landscape = true; break;
    case OPTION_COACH: options->coach = true; break;
    case OPTION_INDEX: options->index = true; break;
    case OPTION_WATCH: options->watch = true; break;
    case OPTION_EXIT_CODE: options->exit_code = true; break;
    case OPTION_ALL_AGAIN: options->all_again = true; break;
    default: break;
    }
}

static int take_option(int option, const char *value, struct options *options)
{
    switch (option) {
    case 'C': return chdir(value) == 0 ? -1 : complain("cannot go to `%s`", value);
    case 'o':
        options->out = value;
        return *value ? -1 : complain("--out needs the name of a folder; `.` is the current one%s", value);
    case OPTION_TO:
        return read_day(value, &options->last) || read_time(value, &options->to)
                   ? -1 : complain("`%s` is not a day such as 2027-03-20, nor a time such as 40min", value);
    case OPTION_FROM:
        return read_day(value, &options->from) ? -1 : complain("`%s` is not a day such as 2027-03-20", value);
    case OPTION_MONTH:
        return read_month(value, &options->from, &options->last) ? -1 : complain("`%s` is not a month such as 2027-03", value);
    case OPTION_LINES_OF: options->counted = value; break;
    case OPTION_STALE:
        options->stale = true;
        options->versions = value;
        return !value || *value ? -1 : complain("--stale= needs versions, such as 3f9c2a1b%s", value);
    case OPTION_BY: options->by = value; break;
    case OPTION_APPEND: options->append = value; break;
    case OPTION_RULES: options->rules = value; break;
    case OPTION_TILE: options->tile = value; break;
    case OPTION_DEPENDS: options->depends = value; break;
    case OPTION_KIT: options->kit = value; break;
    case OPTION_FORMAT: options->format = value; break;
    case OPTION_PREFIX: options->prefix = value; break;
    case OPTION_ATHLETE: options->athlete = value; break;
    case OPTION_SESSION: options->session = value; break;
    case OPTION_SHEET: options->sheet = value; break;
    case OPTION_PAPER: options->paper = value; break;
    case OPTION_REVISION: options->revision = value; break;
    case OPTION_COLOR:
        return read_color(value, options) ? -1 : complain("--color is auto, always or never, not `%s`", value);
    case OPTION_DATE:
        return read_day(value, &options->today) ? -1 : complain("`%s` is not a day such as 2027-03-20", value);
    case OPTION_ON: return read_day(value, &options->day) ? -1 : complain("`%s` is not a day such as "
                                                                          "2027-03-20", value);
    case OPTION_UNTIL:
        return read_day(value, &options->until) ? -1 : complain("`%s` is not a day such as 2027-03-20", value);
    case OPTION_WEEK:
        if (strchr(value, 'W') && read_iso_week(value, &options->from, &options->last))
            return -1;
        return read_number(value, 260, &options->week) ? -1 : complain("`%s` is not a week from 1 to 260, or of a year such "
                                                                       "as 2027-W10", value);
    case OPTION_PAGES:
        return read_number(value, 20, &options->pages) ? -1 : complain("`%s` is not a number from 1 to 20", value);
    case OPTION_MOST:
        return read_number(value, 1000000, &options->max_errors) ? -1
                                                                  : complain("`%s` is not a number from 1 up", value);
    case OPTION_READ_FROM:
        return read_length(value, &options->read_from) ? -1
                                                       : complain("`%s` is not a distance from 20cm to 50m", value);
    default: take_flag(option, options);
    }
    return -1;
}

static const struct command *find_command(const char *name)
{
    for (size_t i = 0; i < command_count; i++)
        if (strcmp(commands[i].name, name) == 0)
            return &commands[i];
    return NULL;
}

/* Every option but -C has a long name. */
static const char *long_name(int option)
{
    const struct option *known = long_options;
    while (known->val != option)
        known++;
    return known->name;
}

static bool is_common(int option)
{
    return option == 'C' || option == OPTION_DATE || option == OPTION_COLOR || option == OPTION_VERBOSE;
}

int options_read(int argc, char **argv, struct options *options)
{
    *options = (struct options){.format = "text"};
    const char *no_color = getenv("NO_COLOR");
    options->color = isatty(STDERR_FILENO) && (!no_color || !*no_color);
    options->color_out = isatty(STDOUT_FILENO) && (!no_color || !*no_color);
    bool help = false;
    int taken[64], taken_count = 0, status;
    for (int option; (option = getopt_long(argc, argv, "hC:io:", long_options, NULL)) != -1;) {
        if (option == '?')
            return EXIT_COULD_NOT; /* getopt has said what is wrong */
        if (option == OPTION_VERSION) {
            puts("bellsheet " BELL_VERSION);
            sandbox_describe(sandbox_enter(&(struct sandbox){0}), stdout);
            return EXIT_CLEAN;
        }
        help = help || option == 'h';
        if (!is_common(option) && option != 'h' && taken_count < 64)
            taken[taken_count++] = option;
        if ((status = take_option(option, optarg, options)) >= 0)
            return status;
    }
    if (optind == argc) {
        print_help(help ? stdout : stderr);
        return help ? EXIT_CLEAN : EXIT_COULD_NOT;
    }
    const struct command *command = find_command(argv[optind]);
    if (!command)
        return complain("there is no command `%s`; `bellsheet --help` lists them", argv[optind]);
    if (help) {
        print_command_help(command, stdout);
        return EXIT_CLEAN;
    }
    for (int i = 0; i < taken_count; i++) {
        if (listed(command->takes, long_name(taken[i])))
            continue;
        tell_error("`%s` takes no --%s; `bellsheet %s --help` says what it takes",
                command->name, long_name(taken[i]), command->name);
        return EXIT_COULD_NOT;
    }
    options->command = command->name;
    if (options->to && strcmp(command->name, "trim") != 0)
        return complain("`%s` takes a day behind --to, such as 2027-03-20", command->name);
    options->paths = (const char **)argv + optind + 1;
    options->path_count = argc - optind - 1;
    return find_today(options);
}

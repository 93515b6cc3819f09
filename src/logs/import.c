#include "logs/import.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"
#include "model/programme.h"

struct importing {
    struct arena *arena;
    const struct programme *programme;
    GHashTable *athletes, *exercises, *titles, *tests; /* by folded name; titles are of sessions and activities */
    GHashTable *by_key;                        /* struct imported_log */
    struct imported *imported;
    int today;
};

/* --- names --- */

static void add_name(GHashTable *table, const struct name *name, const void *thing)
{
    if (!g_hash_table_contains(table, name->folded))
        g_hash_table_insert(table, (void *)name->folded, (void *)thing);
}

static void add_names(struct importing *importing)
{
    const struct programme *programme = importing->programme;
    importing->athletes = g_hash_table_new(g_str_hash, g_str_equal);
    importing->exercises = g_hash_table_new(g_str_hash, g_str_equal);
    importing->titles = g_hash_table_new(g_str_hash, g_str_equal);
    importing->by_key = g_hash_table_new(g_str_hash, g_str_equal);
    importing->tests = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < programme->test_count; i++) {
        const struct test *test = programme->tests[i];
        add_name(importing->tests, &test->name, test);
        for (size_t k = 0; k < test->alias_count; k++)
            add_name(importing->tests, &test->aliases[k], test);
    }
    for (size_t i = 0; i < programme->athlete_count; i++)
        add_name(importing->athletes, &programme->athletes[i]->name, programme->athletes[i]);
    for (size_t i = 0; i < programme->exercise_count; i++) {
        const struct exercise *exercise = programme->exercises[i];
        if (exercise->replaced)
            continue;
        add_name(importing->exercises, &exercise->name, exercise);
        for (size_t k = 0; k < exercise->alias_count; k++)
            add_name(importing->exercises, &exercise->aliases[k], exercise);
    }
    for (size_t i = 0; i < programme->session_count; i++)
        add_name(importing->titles, &programme->sessions[i]->name, programme->sessions[i]->name.shown);
    for (size_t i = 0; i < programme->activity_count; i++)
        add_name(importing->titles, &programme->activities[i]->name, programme->activities[i]->name.shown);
}

static void *look_up(const struct importing *importing, GHashTable *table, const char *name)
{
    return g_hash_table_lookup(table, text_fold(importing->arena, name, strlen(name)));
}

static const char *title_of(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

/* --- what was planned --- */

/* The first occasion of DAY or later, by number. */
static size_t first_from(const struct programme *programme, int day)
{
    size_t low = 0, high = programme->occasion_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (programme->occasions[middle].date < day)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* What ATHLETE does from FIRST to LAST that is called TITLE, or anything at all if TITLE is NULL: the first, and how
 * many there are in *COUNT. CLOCK chooses among several; -1: any. */
static const struct occasion *planned(const struct programme *programme, const struct athlete *athlete, const char *title,
                                      int first, int last, int clock, int *count)
{
    const struct occasion *best = NULL;
    *count = 0;
    for (size_t i = first_from(programme, first); i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->date > last)
            break;
        if (occasion->athlete != athlete || (title && strcmp(title_of(occasion), title) != 0))
            continue;
        ++*count;
        if (!best || (occasion->clock == clock && best->clock != clock))
            best = occasion;
    }
    return best;
}

/* The line of OCCASION in which EXERCISE is done or written: "A.1". NULL, with *WHY, unless there is exactly one. */
static const char *line_of(const struct importing *importing, const struct occasion *occasion,
                           const struct exercise *exercise, const char **why)
{
    const char *line = NULL;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (!*item->ref || (item->exercise != exercise && item->line_exercise != exercise) ||
                (line && strcmp(line, item->ref) == 0))
                continue;
            if (line) {
                *why = arena_printf(importing->arena,
                                    "%s stands in `%s` more than once: say which with a column that is the line, such as A1",
                                    exercise->name.shown, title_of(occasion));
                return NULL;
            }
            line = item->ref;
        }
    if (!line)
        *why = arena_printf(importing->arena, "`%s` has no %s", title_of(occasion), exercise->name.shown);
    return line;
}

/* --- one row --- */

/* What a row says that names nobody whom the club has. */
static const char *no_athlete(struct arena *arena, const char *name)
{
    return *name ? arena_printf(arena, "there is no athlete called `%s`", name) : "the row does not say whose it is";
}

/* Which log a row is of. */
struct row_place {
    const struct athlete *athlete;
    const char *title;
    const struct occasion *occasion; /* on its day or in its week; NULL: none was planned */
    int times;                       /* how often it is planned that day */
};

static const char *find_place(const struct importing *importing, const struct table_log *row, struct row_place *place)
{
    const struct programme *programme = importing->programme;
    struct arena *arena = importing->arena;
    int monday = date_monday(row->day), in_week;
    if (importing->today && row->day > importing->today)
        return "this day is still to come";
    place->athlete = look_up(importing, importing->athletes, row->athlete);
    if (!place->athlete)
        return no_athlete(arena, row->athlete);
    place->title = *row->session ? look_up(importing, importing->titles, row->session) : NULL;
    if (*row->session && !place->title)
        return arena_printf(arena, "there is no session or activity called `%s`", row->session);
    place->occasion = planned(programme, place->athlete, place->title, row->day, row->day, row->clock, &place->times);
    if (!place->title && place->times != 1)
        return place->times ? "more than one thing was planned that day: say which with a column that is the session"
                            : "nothing was planned that day, and the row does not say what it is of";
    if (place->times > 1 && (row->clock < 0 || place->occasion->clock != row->clock))
        return arena_printf(arena, "`%s` was planned %d times that day: the row needs the hour of one of them", place->title,
                            place->times);
    if (!place->title)
        place->title = title_of(place->occasion);
    if (!place->occasion)
        place->occasion = planned(programme, place->athlete, place->title, monday, monday + 6, -1, &in_week);
    return NULL;
}

/* Finds the line for a row with a set, and puts it into ROW; returns what is wrong, or NULL. */
static const char *find_line(const struct importing *importing, const struct occasion *occasion, struct table_log *row)
{
    const char *why = NULL;
    if (!*row->set || *row->line)
        return NULL;
    if (!*row->exercise)
        return "it has a set and does not say of which exercise or line";
    const struct exercise *exercise = look_up(importing, importing->exercises, row->exercise);
    if (!exercise)
        return arena_printf(importing->arena, "there is no exercise called `%s`", row->exercise);
    if (!occasion)
        return "that session was not planned in this week: say which line it is, such as A1";
    const char *line = line_of(importing, occasion, exercise, &why);
    row->line = line ? line : "";
    return why;
}

/* The log called KEY, which the first of its rows makes. */
static struct imported_log *log_called(struct importing *importing, const char *key, const struct occasion *occasion)
{
    struct imported_log *log = g_hash_table_lookup(importing->by_key, key);
    if (log)
        return log;
    struct imported *imported = importing->imported;
    log = arena_alloc(importing->arena, sizeof *log);
    *log = (struct imported_log){.text = "", .occasion = occasion, .key = key};
    imported->logs = arena_grow(importing->arena, imported->logs, imported->log_count, &imported->log_capacity,
                                sizeof(struct imported_log *));
    imported->logs[imported->log_count++] = log;
    g_hash_table_insert(importing->by_key, (void *)key, log);
    return log;
}

static struct imported_log *log_of(struct importing *importing, const struct table_log *row, const struct row_place *place)
{
    char day[DATE_TEXT_SIZE];
    date_format(row->day, day);
    const char *hour = place->times < 2 ? ""
                       : arena_printf(importing->arena, " %02d:%02d ", row->clock / 3600, row->clock / 60 % 60);
    const char *key = arena_printf(importing->arena, "log %s%s %s, %s", day, hour, place->athlete->name.shown, place->title);
    return log_called(importing, key, place->occasion);
}

/* --- the rows of one log --- */

static int by_line(const void *left, const void *right)
{
    const struct table_log *a = *(struct table_log *const *)left, *b = *(struct table_log *const *)right;
    if (*a->line != *b->line)
        return *a->line < *b->line ? -1 : 1;
    long one = *a->line ? strtol(a->line + 2, NULL, 10) : 0, other = *b->line ? strtol(b->line + 2, NULL, 10) : 0;
    if (one != other)
        return one < other ? -1 : 1;
    return (a->number > b->number) - (a->number < b->number);
}

/* The words that the rows of LOG give for one thing, at the offset FIELD; "" if none gives any. Rows that give other
 * words are refused. */
static const char *agreed(struct arena *arena, struct imported_log *log, size_t field, const char *what)
{
    const char *words = "";
    for (size_t i = 0; i < log->row_count; i++) {
        struct table_log *row = log->rows[i];
        const char *own = *(const char *const *)((const char *)row + field);
        if (*words && *own && strcmp(words, own) != 0 && !row->refused)
            row->refused = arena_printf(arena, "%s is `%s` here and `%s` in an earlier row of the same log", what, own, words);
        words = *words ? words : own;
    }
    return words;
}

/* `A.1 : 2 x 5 @ 60 kg; 4 @ 60 kg`: equal rows in succession are joined. SORTED is by line. */
static void add_lines(struct table_log *const *sorted, size_t count, struct text *out)
{
    for (size_t i = 0, next; i < count; i = next) {
        int sets = sorted[i]->sets;
        for (next = i + 1; next < count && strcmp(sorted[next]->line, sorted[i]->line) == 0 &&
                           strcmp(sorted[next]->set, sorted[i]->set) == 0; next++)
            sets += sorted[next]->sets;
        if (i && strcmp(sorted[i - 1]->line, sorted[i]->line) == 0)
            text_add(out, "; ");
        else
            text_addf(out, "%s    %s : ", i ? "\n" : "", sorted[i]->line);
        if (sets > 1)
            text_addf(out, "%d x ", sets);
        text_add(out, sorted[i]->set);
    }
    text_add(out, count ? "\n" : "");
}

static void word_log(struct arena *arena, struct imported_log *log)
{
    struct text out = {.arena = arena};
    const char *took = agreed(arena, log, offsetof(struct table_log, took), "how long it took");
    const char *rpe = agreed(arena, log, offsetof(struct table_log, rpe), "how hard it was");
    const char *note = agreed(arena, log, offsetof(struct table_log, note), "the note");
    const char *missed = agreed(arena, log, offsetof(struct table_log, missed), "why it was missed");
    struct table_log **sorted = arena_alloc(arena, (log->row_count + 1) * sizeof *sorted);
    size_t count = 0;
    text_addf(&out, "%s\n", log->key);
    if (*missed)
        text_addf(&out, "    missed because %s\n", missed);
    if (*took || *rpe)
        text_addf(&out, "    took      %s%s%s%s\n", took, *took && *rpe ? " " : "", *rpe ? "RPE " : "", rpe);
    for (size_t i = 0; i < log->row_count; i++)
        if (*log->rows[i]->set)
            sorted[count++] = log->rows[i];
    qsort(sorted, count, sizeof *sorted, by_line);
    add_lines(sorted, count, &out);
    if (*note)
        text_addf(&out, "    note      %s\n", note);
    if (!count && !*missed && !*took && !*rpe && !*note && !log->rows[0]->refused)
        log->rows[0]->refused = "it says nothing of what was done";
    log->text = text_get(&out);
}

/* --- results of tests --- */

static bool is_of_one_line(const struct table_log *a, const struct table_log *b)
{
    return strcmp(a->line, b->line) == 0 && strcmp(a->side, b->side) == 0;
}

/* The trials of one test on one side, of which ROW is the first, as a line; its unit is the test's. */
static void add_trials(const struct importing *importing, const struct imported_log *log, size_t first, unsigned width,
                       struct text *out)
{
    const struct table_log *row = log->rows[first];
    const struct test *test = look_up(importing, importing->tests, row->test);
    const char *unit = test_units.names[test->unit];
    text_addf(out, "    %s%*s : ", row->line, (int)(width - text_width(row->line, strlen(row->line))), "");
    for (size_t i = first; i < log->row_count; i++)
        if (is_of_one_line(log->rows[i], row))
            text_addf(out, "%s%s", i > first ? ", " : "", log->rows[i]->result);
    text_addf(out, "%s%s%s%s\n", *unit ? " " : "", unit, *row->side ? " " : "", row->side);
}

static void word_results(const struct importing *importing, struct imported_log *log)
{
    struct text out = {.arena = importing->arena};
    unsigned width = 0;
    text_addf(&out, "%s\n", log->key);
    for (size_t i = 0; i < log->row_count; i++) {
        unsigned own = text_width(log->rows[i]->line, strlen(log->rows[i]->line));
        width = own > width ? own : width;
    }
    for (size_t i = 0; i < log->row_count; i++) {
        size_t first = 0;
        while (!is_of_one_line(log->rows[first], log->rows[i]))
            first++;
        if (first == i && *log->rows[i]->line)
            add_trials(importing, log, i, width, &out);
    }
    log->text = text_get(&out);
}

/* A row that is a trial of a test: it belongs to the results of its day. */
static void take_trial(struct importing *importing, struct table_log *row)
{
    char day[DATE_TEXT_SIZE];
    const struct athlete *athlete = look_up(importing, importing->athletes, row->athlete);
    const struct test *test = look_up(importing, importing->tests, row->test);
    const char *wrong = NULL;
    if (importing->today && row->day > importing->today)
        wrong = "this day is still to come";
    else if (!athlete)
        wrong = no_athlete(importing->arena, row->athlete);
    else if (!test)
        wrong = arena_printf(importing->arena, "there is no test called `%s`", row->test);
    row->refused = row->refused ? row->refused : wrong;
    if (!athlete)
        return;
    date_format(row->day, day);
    struct imported_log *log = log_called(
        importing, arena_printf(importing->arena, "results %s %s", day, athlete->name.shown), NULL);
    log->results = true;
    log->rows = arena_grow(importing->arena, log->rows, log->row_count, &log->row_capacity, sizeof(struct table_log *));
    log->rows[log->row_count++] = row;
    row->line = test ? test->name.shown : "";
}

/* If one row of LOG is refused, none of it is taken: the reason given for the other rows names that one. */
static void drop_halves(struct arena *arena, struct imported_log *log)
{
    const struct table_log *first = NULL;
    for (size_t i = 0; i < log->row_count && !first; i++)
        first = log->rows[i]->refused ? log->rows[i] : NULL;
    if (!first)
        return;
    log->text = "";
    for (size_t i = 0; i < log->row_count; i++)
        if (!log->rows[i]->refused)
            log->rows[i]->refused = arena_printf(arena, "row %u of the same log is refused", first->number);
}

void imported_drop(struct arena *arena, struct imported_log *log, struct table_log *at, const char *words)
{
    at->refused = words;
    drop_halves(arena, log);
}

/* --- the whole --- */

static void take_row(struct importing *importing, struct table_log *row)
{
    struct row_place place;
    if (!row->day) /* nobody knows which log it is of */
        return;
    if (*row->test) {
        take_trial(importing, row);
        return;
    }
    const char *wrong = find_place(importing, row, &place);
    if (wrong) {
        row->refused = row->refused ? row->refused : wrong;
        return;
    }
    struct imported_log *log = log_of(importing, row, &place);
    log->rows = arena_grow(importing->arena, log->rows, log->row_count, &log->row_capacity, sizeof(struct table_log *));
    log->rows[log->row_count++] = row;
    if (!row->refused)
        row->refused = find_line(importing, log->occasion, row);
}

struct imported import_table(struct arena *arena, const struct programme *programme, const struct table_rules *rules,
                             const struct csv *table, int today)
{
    struct imported imported = {.rows = arena_alloc(arena, (table->row_count + 1) * sizeof *imported.rows),
                                .row_count = table->row_count};
    struct importing importing = {.arena = arena, .programme = programme, .imported = &imported, .today = today};
    add_names(&importing);
    for (size_t i = 0; i < table->row_count; i++) {
        imported.rows[i] = table_log_read(arena, rules, &table->rows[i]);
        take_row(&importing, &imported.rows[i]);
    }
    for (size_t i = 0; i < imported.log_count; i++) {
        if (imported.logs[i]->results)
            word_results(&importing, imported.logs[i]);
        else
            word_log(arena, imported.logs[i]);
        drop_halves(arena, imported.logs[i]);
    }
    g_hash_table_destroy(importing.athletes);
    g_hash_table_destroy(importing.exercises);
    g_hash_table_destroy(importing.titles);
    g_hash_table_destroy(importing.by_key);
    g_hash_table_destroy(importing.tests);
    return imported;
}

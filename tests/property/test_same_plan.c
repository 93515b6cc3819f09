/* Another way of writing a plan is the same plan. Each golden plan of tests/golden/checks, which together break every check,
 * is written with its declarations in another order, each in a file of its own, laid out anew, with the line ends of another
 * system, in capitals, some whole weeks later, and with somebody in it who does nothing: what is found is the same, and so are
 * the figures. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <ctype.h>

#include "cases.h"
#include "export/show_programme.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "rules/rules.h"
#include "syntax/format.h"

enum way { ORDER, SPLIT, LAYOUT, LINE_ENDS, CAPITALS, WEEKS, BYSTANDER, WAY_COUNT };
static const char *const way_names[WAY_COUNT] = {"in another order", "in many files", "laid out anew",        "with other line ends",
                                                 "in capitals",      "weeks later",   "with somebody besides"};

enum { SAMPLE_STEP = 8, LATER = 5 * 7, MOST_BLOCKS = 150 };
static const char bystander[] = "athlete Zebedee Quorn\n    stance orthodox\n    lifting since 2020-01\n";

/* A plan as it is read: in one file or several, and the day on which. */
struct writing {
    struct text files[MOST_BLOCKS];
    size_t count;
    int today;
};

/* What is said of it: findings a line, sorted, and its programme. */
struct said {
    const char *findings, *figures;
    size_t errors;
};

/* --- the parts of a plan --- */

/* A declaration is a line at the margin with what stands below it, up to the next. */
static size_t blocks_of(struct arena *arena, const char *plan, const char **blocks)
{
    size_t count = 0;
    const char *start = plan;
    bool opened = false;
    for (const char *line = plan; *line;) {
        const char *next = strchr(line, '\n');
        next = next ? next + 1 : line + strlen(line);
        bool begins = !strchr(" #\n", *line);
        if (begins && opened) {
            assert_true(count < MOST_BLOCKS - 1);
            blocks[count++] = arena_copy(arena, start, (size_t)(line - start));
            start = line;
        }
        opened = opened || begins;
        line = next;
    }
    blocks[count++] = arena_copy(arena, start, strlen(start));
    return count;
}

static bool is_date(const char *at)
{
    static const char form[] = "0000-00-00";
    for (size_t i = 0; i < sizeof form - 1; i++)
        if (form[i] == '0' ? !isdigit((unsigned char)at[i]) : at[i] != form[i])
            return false;
    return true;
}

/* Adds WORDS to OUT with each date in it DAYS later. */
static void add_later(const char *words, int days, struct text *out)
{
    for (const char *at = words; *at;) {
        int year, month, day;
        if (!is_date(at) || sscanf(at, "%4d-%2d-%2d", &year, &month, &day) != 3) {
            text_add_char(out, *at++);
            continue;
        }
        char later[DATE_TEXT_SIZE];
        text_add(out, date_format(date_from_ymd(year, month, day) + days, later));
        at += strlen("0000-00-00");
    }
}

/* --- the ways of writing it --- */

static void write_blocks(struct arena *arena, const char *plan, bool split, struct writing *out)
{
    const char *blocks[MOST_BLOCKS];
    size_t count = blocks_of(arena, plan, blocks);
    out->count = split ? count : 1;
    for (size_t i = 0; i < count; i++)
        text_addf(&out->files[split ? i : 0], "%s\n", blocks[split ? i : count - 1 - i]);
}

static bool write_laid_out(struct arena *arena, const char *plan, struct writing *out)
{
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    unsigned file = (unsigned)source_add(&sources, "plan.bell", plan, strlen(plan));
    enum format_outcome outcome = format_source(arena, &sources, file, phrasebook_new(arena), diag, &out->files[0]);
    if (outcome == FORMAT_UNPROVEN)
        text_add(&out->files[0], "the layout reads otherwise\n");
    return outcome == FORMAT_CHANGED || outcome == FORMAT_UNPROVEN;
}

/* Time zones are names of files, which are as they are. */
static void write_capitals(const char *plan, struct text *out)
{
    while (*plan) {
        size_t length = strcspn(plan, "\n");
        length += plan[length] == '\n';
        bool zone = strncmp(plan + strspn(plan, " "), "time zone", strlen("time zone")) == 0;
        for (; length; length--, plan++)
            text_add_char(out, zone ? *plan : (char)toupper((unsigned char)*plan));
    }
}

/* False where this plan cannot be written so. */
static bool write_as(enum way way, struct arena *arena, const char *plan, struct writing *out)
{
    out->count = 1;
    switch (way) {
    case ORDER: write_blocks(arena, plan, false, out); return true;
    case SPLIT: write_blocks(arena, plan, true, out); return true;
    case LAYOUT: return write_laid_out(arena, plan, out);
    case LINE_ENDS:
        for (; *plan; plan++)
            text_add(&out->files[0], *plan == '\n' ? "\r\n" : (char[]){*plan, '\0'});
        return true;
    case CAPITALS: write_capitals(plan, &out->files[0]); return true;
    case WEEKS: /* clocks change on some days and not on others, and since when somebody lifts is given by the month */
        add_later(plan, LATER, &out->files[0]);
        out->today += LATER;
        return !strstr(plan, "time zone") && !strstr(plan, "novice");
    case BYSTANDER: text_addf(&out->files[0], "%s\n%s", plan, bystander); return true;
    case WAY_COUNT: break;
    }
    return false;
}

/* --- what is said of it --- */

static int by_words(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static const char *words_as(enum way way, struct arena *arena, const char *words)
{
    struct text out = {.arena = arena};
    if (way == WEEKS) {
        add_later(words, -LATER, &out);
        return text_get(&out);
    }
    char *copy = arena_copy(arena, words, strlen(words));
    for (char *at = copy; way == CAPITALS && *at; at++)
        *at = (char)tolower((unsigned char)*at);
    return copy;
}

/* WORDS without the names of athletes. A fault that several meet is reported once, about whoever is declared first. */
static const char *without_names(struct arena *arena, const struct programme *programme, const char *words)
{
    for (size_t i = 0; i < programme->athlete_count; i++) {
        const char *name = programme->athletes[i]->name.shown, *at;
        while ((at = strstr(words, name)))
            words = arena_printf(arena, "%.*s(one of them)%s", (int)(at - words), words, at + strlen(name));
    }
    return words;
}

static const char *findings_words(enum way way, struct arena *arena, const struct plan_reader *reader)
{
    const struct diag *diag = reader->diag;
    const char **lines = arena_alloc(arena, (diag->count + 1) * sizeof *lines);
    size_t count = 0;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        if (finding->severity == SEVERITY_INFO || strstr(finding->words, "Zebedee Quorn"))
            continue;
        const char *words = finding->met > 1 ? without_names(arena, reader->programme, finding->words) : finding->words;
        lines[count++] = arena_printf(arena, "%d %s, %d times: %s\n", finding->severity, diagnostic_name(finding->diagnostic),
                                      finding->met, words_as(way, arena, words));
    }
    qsort(lines, count, sizeof *lines, by_words);
    for (size_t i = 0; i < count; i++)
        text_add(&out, lines[i]);
    return text_get(&out);
}

static const char *figures_words(struct plan_reader *reader, struct arena *arena)
{
    const struct programme *programme = reader->programme;
    const struct occasion **all = arena_alloc(arena, (programme->occasion_count + 1) * sizeof *all);
    struct text out = {.arena = arena};
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    programme_json(&(struct programme_view){.programme = programme, .arena = arena, .occasions = all,
                                            .count = programme->occasion_count, .version = "0", .ledgers = true},
                   &out);
    return text_get(&out);
}

/* WRITING read, resolved and checked. AS is how its words are to be compared. */
static struct said say(const struct writing *writing, enum way as, struct arena *arena)
{
    struct plan_reader reader;
    struct said said;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    for (size_t i = 0; i < writing->count; i++)
        plan_reader_text(&reader, "plan.bell", text_get(&writing->files[i]), writing->files[i].length);
    reader.programme = programme_resolve(reader.arena, &reader.sources, reader.trees, reader.count, writing->today, reader.diag);
    rules_run(reader.programme, reader.diag);
    diag_sort(reader.diag);
    said.errors = diag_count(reader.diag, SEVERITY_ERROR);
    said.findings = findings_words(as, arena, &reader);
    said.figures = said.errors ? "" : words_as(as, arena, figures_words(&reader, arena));
    plan_reader_close(&reader);
    return said;
}

/* Tells where GOT is not as WANTED. */
static bool same(const char *name, enum way way, const char *what, const char *wanted, const char *got)
{
    if (strcmp(wanted, got) == 0)
        return true;
    size_t at = 0;
    while (wanted[at] == got[at])
        at++;
    while (at > 0 && wanted[at - 1] != '\n')
        at--;
    print_message("%s\n--- %s\n%.600s\n--- %s\n%.600s\n", name, what, wanted + at, way_names[way], got + at);
    return false;
}

/* --- the golden plans --- */


static int today_of(const char *plan)
{
    int year = 2027, month = 2, day = 20;
    const char *at = strstr(plan, "# date: ");
    if (at)
        sscanf(at, "# date: %4d-%2d-%2d", &year, &month, &day);
    return date_from_ymd(year, month, day);
}

/* Whether the plan at PATH is the same plan when it is written so. */
static bool try_way(const char *path, enum way way)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    const char *wrong;
    int file = source_read(&sources, path, path, &wrong);
    assert_true(file >= 0);
    const char *plan = sources.items[file].text;
    struct writing first = {.count = 1, .today = today_of(plan)}, other = {.today = first.today};
    text_add(&first.files[0], plan);
    bool good = true;
    if (write_as(way, arena, plan, &other)) {
        const struct said one = say(&first, way == CAPITALS ? CAPITALS : ORDER, arena), two = say(&other, way, arena);
        good = same(path, way, "findings", one.findings, two.findings) &&
               (way == WEEKS || way == BYSTANDER || same(path, way, "figures", one.figures, two.figures));
    }
    for (size_t i = 0; i < MOST_BLOCKS; i++) {
        text_free(&first.files[i]);
        text_free(&other.files[i]);
    }
    arena_free(arena);
    return good;
}

static void try_all(enum way way)
{
    glob_t found;
    const struct spread spread = spread_from(spread_of(SAMPLE_STEP), way);
    unsigned tried = 0, other = 0;
    assert_int_equal(glob("tests/golden/checks/*.bell", 0, NULL, &found), 0);
    for (size_t i = spread.first; i < found.gl_pathc; i += spread.step, tried++)
        other += !try_way(found.gl_pathv[i], way);
    globfree(&found);
    assert_true(tried > 0);
    if (other)
        fail_msg("%u of %u plans are others %s", other, tried, way_names[way]);
}

static void in_another_order(void **state) { (void)state; try_all(ORDER); }
static void in_many_files(void **state) { (void)state; try_all(SPLIT); }
static void laid_out_anew(void **state) { (void)state; try_all(LAYOUT); }
static void with_other_line_ends(void **state) { (void)state; try_all(LINE_ENDS); }
static void in_capitals(void **state) { (void)state; try_all(CAPITALS); }
static void weeks_later(void **state) { (void)state; try_all(WEEKS); }
static void with_somebody_besides(void **state) { (void)state; try_all(BYSTANDER); }

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_another_order),     cmocka_unit_test(in_many_files), cmocka_unit_test(laid_out_anew),
        cmocka_unit_test(with_other_line_ends), cmocka_unit_test(in_capitals),   cmocka_unit_test(weeks_later),
        cmocka_unit_test(with_somebody_besides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "logs/table_rules.h"

#include <string.h>

#include "base/text.h"
#include "logs/csv.h"
#include "source/source.h"

/* What a column can be, and what may follow it: `in` and a unit, or `as` and how a day is written. */
static const struct {
    const char *word, *units; /* UNITS separated by spaces; the first one counts if none is given */
} kinds[COLUMN_KINDS] = {
    [COLUMN_DAY] = {"day", ""},          [COLUMN_HOUR] = {"hour", ""},        [COLUMN_ATHLETE] = {"athlete", ""},
    [COLUMN_SESSION] = {"session", ""},  [COLUMN_EXERCISE] = {"exercise", ""}, [COLUMN_LINE] = {"line", ""},
    [COLUMN_SETS] = {"sets", ""},        [COLUMN_REPS] = {"reps", "reps s m"}, [COLUMN_LOAD] = {"load", "kg lb"},
    [COLUMN_RPE] = {"rpe", ""},          [COLUMN_RESERVE] = {"in reserve", ""}, [COLUMN_SPEED] = {"speed", "m/s"},
    [COLUMN_TOOK] = {"took", "min s h"}, [COLUMN_SESSION_RPE] = {"session rpe", ""}, [COLUMN_NOTE] = {"note", ""},
    [COLUMN_MISSED] = {"missed because", ""}, [COLUMN_TEST] = {"test", ""}, [COLUMN_RESULT] = {"result", ""},
    [COLUMN_SIDE] = {"side", ""}};

struct rules_line {
    const char *text; /* without comment and spaces around it */
    unsigned line, place;
};

static void add_fault(struct arena *arena, struct table_rules *rules, unsigned line, unsigned place, const char *words,
                      const char *help)
{
    rules->faults = arena_grow(arena, rules->faults, rules->fault_count, &rules->fault_capacity,
                                 sizeof *rules->faults);
    rules->faults[rules->fault_count++] = (struct table_rules_fault){line, place, words, help};
}

/* The place of AT in its line, from 1. */
static unsigned place_of(const struct rules_line *line, const char *at)
{
    return line->place + text_width(line->text, (size_t)(at - line->text));
}

static const char *trimmed(struct arena *arena, const char *text, size_t length)
{
    while (length && text[length - 1] == ' ')
        length--;
    return arena_copy(arena, text, length);
}

/* --- one line --- */

/* Is FORM made of day, month and year, each once, with signs between them? */
static bool is_day_form(const char *form)
{
    static const char *const parts[] = {"day", "month", "year"};
    unsigned seen = 0;
    while (*form) {
        int part = 0;
        while (part < 3 && strncmp(form, parts[part], strlen(parts[part])) != 0)
            part++;
        if (part == 3 || seen & 1U << part)
            return false;
        seen |= 1U << part;
        form += strlen(parts[part]);
        if (*form && !strchr("./- ", *form))
            return false;
        form += *form != '\0';
    }
    return seen == 7;
}

static bool has_unit(const char *units, const char *unit)
{
    size_t length = strlen(unit);
    for (const char *at = units; *at; at += strcspn(at, " "), at += *at == ' ')
        if (strcspn(at, " ") == length && strncmp(at, unit, length) == 0)
            return true;
    return false;
}

/* What follows the word of KIND, folded: "", "in kg", "as day.month.year". NULL if it makes no sense. */
static const char *read_behind(struct arena *arena, enum column_kind kind, const char *behind)
{
    const char *units = kinds[kind].units;
    if (!*behind)
        return kind == COLUMN_DAY ? "year-month-day" : arena_copy(arena, units, strcspn(units, " "));
    if (kind == COLUMN_DAY && strncmp(behind, "as ", 3) == 0 && is_day_form(behind + 3))
        return behind + 3;
    if (strncmp(behind, "in ", 3) == 0 && has_unit(units, behind + 3))
        return behind + 3;
    return NULL;
}

static const char *behind_help(struct arena *arena, enum column_kind kind)
{
    const char *units = kinds[kind].units;
    if (kind == COLUMN_DAY)
        return "write how days are written with day, month and year: `day as day.month.year`";
    if (!*units)
        return arena_printf(arena, "nothing stands behind `%s`", kinds[kind].word);
    return arena_printf(arena, "write `%s in %.*s`; it can be in: %s", kinds[kind].word, (int)strcspn(units, " "), units, units);
}

/* The kind whose word WHAT, folded, starts with; the longest word counts. COLUMN_KINDS if there is none. */
static enum column_kind find_kind(const char *what)
{
    enum column_kind best = COLUMN_KINDS;
    size_t longest = 0;
    for (int kind = 0; kind < COLUMN_KINDS; kind++) {
        size_t length = strlen(kinds[kind].word);
        if (strncmp(what, kinds[kind].word, length) == 0 && (!what[length] || what[length] == ' ') && length > longest) {
            best = (enum column_kind)kind;
            longest = length;
        }
    }
    return best;
}

static const char *all_kinds(struct arena *arena)
{
    struct text words = {.arena = arena};
    for (int kind = 0; kind < COLUMN_KINDS; kind++)
        text_addf(&words, "%s%s", kind ? ", " : "a column is one of: ", kinds[kind].word);
    return text_get(&words);
}

/* `Weight : load in kg`, whose colon is at COLON. */
static void read_column(struct arena *arena, struct table_rules *rules, const struct rules_line *line, const char *colon)
{
    const char *written = colon + 1 + strspn(colon + 1, " ");
    const char *what = text_fold(arena, written, strlen(written));
    enum column_kind kind = find_kind(what);
    if (kind == COLUMN_KINDS) {
        add_fault(arena, rules, line->line, place_of(line, written),
                  arena_printf(arena, "no column can be `%s`", written), all_kinds(arena));
        return;
    }
    size_t length = strlen(kinds[kind].word);
    const char *behind = read_behind(arena, kind, what + length + (what[length] == ' '));
    struct column_rule *rule = &rules->columns[kind];
    if (!behind)
        add_fault(arena, rules, line->line, place_of(line, written) + (unsigned)length,
                  arena_printf(arena, "`%s` cannot be read", written), behind_help(arena, kind));
    else if (rule->name)
        add_fault(arena, rules, line->line, line->place,
                  arena_printf(arena, "the column `%s` is the %s already", rule->name, kinds[kind].word), NULL);
    else
        *rule = (struct column_rule){trimmed(arena, line->text, (size_t)(colon - line->text)), behind, line->line,
                                     line->place, -1};
}

/* `read OT as Oriel Tamsin` */
static void read_reading(struct arena *arena, struct table_rules *rules, const struct rules_line *line)
{
    const char *from = line->text + strlen("read "), *as = strstr(from, " as ");
    if (!as) {
        add_fault(arena, rules, line->line, line->place, "this line does not say as what it is read",
                  "write `read OT as Oriel Tamsin`");
        return;
    }
    rules->readings = arena_grow(arena, rules->readings, rules->reading_count, &rules->reading_capacity,
                                   sizeof *rules->readings);
    rules->readings[rules->reading_count++] =
        (struct read_as){text_fold(arena, from, (size_t)(as - from)), trimmed(arena, as + 4, strlen(as + 4))};
}

/* Reads the lines that are not about a column; false if LINE is not one of them. */
static bool read_setting(struct arena *arena, struct table_rules *rules, const struct rules_line *line)
{
    static const struct {
        const char *words;
        char separator;
        bool comma, point;
    } settings[] = {{"separated by comma", ',', false, false},  {"separated by semicolon", ';', false, false},
                    {"separated by tab", '\t', false, false},   {"decimal comma", 0, true, false},
                    {"decimal point", 0, false, true}};
    const char *folded = text_fold(arena, line->text, strlen(line->text));
    for (size_t i = 0; i < sizeof settings / sizeof *settings; i++) {
        if (strcmp(folded, settings[i].words) != 0)
            continue;
        if (settings[i].separator)
            rules->separator = settings[i].separator;
        else
            rules->decimal_comma = settings[i].comma;
        return true;
    }
    if (strncmp(folded, "read ", 5) != 0)
        return false;
    read_reading(arena, rules, line);
    return true;
}

static const char *last_colon(const char *text)
{
    const char *colon = NULL;
    for (const char *at = text; (at = strstr(at, " : ")) != NULL; at += 2)
        colon = at + 1;
    return colon;
}

static void read_line(struct arena *arena, struct table_rules *rules, const struct rules_line *line)
{
    const char *colon = last_colon(line->text);
    if (colon)
        read_column(arena, rules, line, colon);
    else if (!read_setting(arena, rules, line))
        add_fault(arena, rules, line->line, line->place, arena_printf(arena, "`%s` is no rule", line->text),
                  "write `Weight : load in kg`, `separated by semicolon`, `decimal comma` or `read OT as Oriel Tamsin`");
}

/* --- the whole --- */

/* Line NUMBER of SOURCE, while it is read. */
static struct rules_line take_line(struct arena *arena, const struct source *source, unsigned number)
{
    size_t length, from = 0;
    const char *text = source_line_text(source, number, &length);
    while (from < length && (text[from] == ' ' || text[from] == '\t'))
        from++;
    for (size_t i = from; i < length; i++)
        if (text[i] == '#' && (i == from || text[i - 1] == ' ') && (i + 1 == length || text[i + 1] == ' '))
            length = i;
    char *plain = text_plain_spaces(arena, text + from, length - from);
    for (char *tab = plain; (tab = strchr(tab, '\t')) != NULL;)
        *tab = ' ';
    return (struct rules_line){trimmed(arena, plain, strlen(plain)), number, (unsigned)from + 1};
}

struct table_rules table_rules_read(struct arena *arena, const struct source *source)
{
    struct table_rules rules = {.separator = ','};
    for (unsigned number = 1; number <= source->line_count; number++) {
        struct rules_line line = take_line(arena, source, number);
        if (*line.text)
            read_line(arena, &rules, &line);
    }
    static const enum column_kind needed[] = {COLUMN_DAY, COLUMN_ATHLETE};
    for (int i = 0; i < 2 && !rules.fault_count; i++)
        if (!rules.columns[needed[i]].name)
            add_fault(arena, &rules, (unsigned)source->line_count, 1,
                      arena_printf(arena, "no rule says which column is the %s", kinds[needed[i]].word),
                      needed[i] == COLUMN_DAY ? "add a line such as `Date : day`" : "add a line such as `Name : athlete`");
    return rules;
}

void table_rules_find(struct arena *arena, struct table_rules *rules, const struct csv *table)
{
    for (int kind = 0; kind < COLUMN_KINDS; kind++) {
        struct column_rule *rule = &rules->columns[kind];
        const char *folded = rule->name ? text_fold(arena, rule->name, strlen(rule->name)) : NULL;
        int times = 0;
        for (size_t i = 0; i < table->column_count && folded; i++)
            if (strcmp(text_fold(arena, table->columns[i], strlen(table->columns[i])), folded) == 0) {
                rule->index = (int)i;
                times++;
            }
        if (folded && times != 1)
            add_fault(arena, rules, rule->line, rule->place,
                      arena_printf(arena, times ? "the table has more than one column `%s`" : "the table has no column `%s`",
                                   rule->name),
                      NULL);
    }
}

const char *table_rules_name(struct arena *arena, const struct table_rules *rules, const char *name)
{
    const char *folded = text_fold(arena, name, strlen(name));
    for (size_t i = 0; i < rules->reading_count; i++)
        if (strcmp(rules->readings[i].from, folded) == 0)
            return rules->readings[i].as;
    return name;
}

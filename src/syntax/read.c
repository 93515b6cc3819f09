#include "syntax/read.h"

#include <string.h>

#include "base/text.h"
#include "syntax/line.h"
#include "syntax/lines.h"
#include "syntax/phrases.h"

static struct span in_file(const struct reader *reader, struct extent place)
{
    return (struct span){reader->tree->file, place.start, place.end};
}

struct node *reader_statement(struct reader *reader, int kind, struct extent place)
{
    struct node *node = node_new(reader->tree, (enum node_kind)kind, place);
    node->blank_before = reader->blank_before;
    return node;
}

struct node *reader_range(struct reader *reader, struct extent low_place, int64_t low,
                          struct extent high_place, int64_t high)
{
    struct node *range = node_new(reader->tree, NODE_RANGE, (struct extent){low_place.start, high_place.end});
    struct node *from = node_new(reader->tree, NODE_NUMBER, low_place);
    struct node *to = node_new(reader->tree, NODE_NUMBER, high_place);
    from->number = low;
    to->number = high;
    return node_add(node_add(range, from), to);
}

struct node *reader_out(struct reader *reader, struct extent place, struct node *figure, int measure)
{
    struct node *when = node_new(reader->tree, NODE_WHEN, place);
    when->code = measure == MEASURE_DAYS ? WHEN_DAYS_OUT : WHEN_WEEKS_OUT;
    return node_add(when, figure);
}

struct node *reader_kit_entry(struct reader *reader, struct extent place, struct extent count_place,
                              int64_t count)
{
    if (count < 1000 || count % 1000 != 0)
        diag_error(reader->diag, DIAG_KIT_COUNT, in_file(reader, count_place), "kit is counted in whole pieces, from 1");
    struct node *entry = node_new(reader->tree, NODE_KIT_ENTRY, place);
    entry->number = count;
    return entry;
}

/* "a date such as 2027-03-20, or `x`": if there are at most MOST of them; otherwise NULL. */
static const char *join_expected(struct arena *arena, const char *const *expected, int count)
{
    enum { MOST = 5 };
    if (count == 0 || count > MOST)
        return NULL;
    struct text text = {.arena = arena};
    for (int i = 0; i < count; i++) {
        bool words = strncmp(expected[i], "a ", 2) == 0 || strncmp(expected[i], "the ", 4) == 0 ||
                     strchr(expected[i], '`') || strcmp(expected[i], "words") == 0 ||
                     strncmp(expected[i], "an ", 3) == 0 || strncmp(expected[i], "what ", 5) == 0;
        text_add(&text, i == 0 ? "" : i == count - 1 ? " or " : ", ");
        text_addf(&text, words ? "%s" : "`%s`", expected[i]);
    }
    return text_keep(arena, &text);
}

/* --- what a line should have been --- */

/* The keyword of the line as it was written, "" if it has none. */
static const char *head_words(const struct reader *reader)
{
    return arena_copy(reader->tree->arena, reader->source->text + reader->head.start,
                      reader->head.end - reader->head.start);
}

/* A line of this kind as it would be right. */
static void help_example(struct reader *reader, struct finding *finding)
{
    if (reader->statement == NODE_FILE)
        return;
    const struct form *form = phrasebook_statement(reader->phrases, reader->statement)->form;
    bool timed = reader->statement == STATEMENT_ROUNDS || reader->statement == STATEMENT_EVERY ||
                 reader->statement == STATEMENT_AS_MANY;
    if (!*form->example || timed) /* the example of a block is one of sets */
        return;
    const char *head = *form->steps == '!' ? "" : head_words(reader);
    diag_help(reader->diag, finding, "write it like `%s%s%s`", head, *head ? " " : "", form->example);
}

static void help_short_line(struct reader *reader, struct extent place, struct finding *finding)
{
    if (place.start > 0 && reader->source->text[place.start - 1] == '@')
        diag_help(reader->diag, finding, "after `@` comes a load: `60 kg`, `80%%`, `RPE 8`");
    else
        help_example(reader, finding);
}

/* What people often write when they mean something else. */
static const struct {
    const char *found, *help;
} habits[] = {
    {"x", "the count comes first: `3 x 5`, `4 x 20 kg`"},
    {"of", "write `3 x 5` for three sets of five"},
    {"at", "write `@` before a load: `5 @ 80%`"},
    {"to", "a range is written with a hyphen: `8-10`"},
    {"amrap", "write `max` for as many as possible"},
    {"to failure", "write `max` for as many as possible"},
    {"side", "write `8 each side`"},
    {"leg", "write `8 each side`"},
    {"arm", "write `8 each side`"},
    {"e", "write `8 each side`"},
    {"es", "write `8 each side`"},
    {"l", "write `8 left + 8 right`"},
    {"r", "write `8 left + 8 right`"},
};

static const char *habit_help(const char *folded)
{
    for (size_t i = 0; i < sizeof habits / sizeof *habits; i++)
        if (strcmp(habits[i].found, folded) == 0)
            return habits[i].help;
    return *folded == '(' ? "a remark beside the plan goes after `#`" : NULL;
}

static void fix_misfit(struct reader *reader, struct finding *finding, struct extent place, const char *fix,
                       const char *help)
{
    diag_fix(reader->diag, finding, in_file(reader, place), fix);
    diag_help(reader->diag, finding, "%s", help);
}

/* Is FOLDED what a statement starts with, anywhere in a plan? */
static bool starts_a_line(const struct reader *reader, const char *folded)
{
    size_t head = strcspn(folded, " ");
    for (const struct phrase *phrase = phrase_like(&reader->phrases->statement_index, folded, head); phrase; phrase = phrase->next)
        if (phrase->length == strlen(folded) && memcmp(phrase->words, folded, phrase->length) == 0)
            return true;
    return false;
}

static void help_misfit(struct reader *reader, struct extent place, const char *found, struct finding *finding)
{
    struct arena *arena = reader->tree->arena;
    const char *folded = text_fold(arena, found, strlen(found)), *habit = habit_help(folded);
    const struct form *form = reader->statement ? phrasebook_statement(reader->phrases, reader->statement)->form : NULL;
    const char *near = habit || !form ? NULL : phrasebook_nearest_word(arena, reader->phrases, folded, line_words(form));
    bool letter = form && *form->steps == 'b' && strlen(found) == 1 && *found >= 'a' && *found <= 'z';
    if (letter)
        fix_misfit(reader, finding, place, arena_printf(arena, "%c", *found - 'a' + 'A'),
                   "a block's letter is a capital: `A`");
    else if (habit)
        diag_help(reader->diag, finding, "%s", habit);
    else if (near)
        fix_misfit(reader, finding, place, near, arena_printf(arena, "did you mean `%s`?", near));
    else if (reader->statement == STATEMENT_LOGGED && strcmp(found, ",") == 0)
        fix_misfit(reader, finding, place, ";", "separate sets with `;`");
    else if (form && strcmp(found, ":") == 0 && (*form->steps == '!' || !strchr(form->steps, ':')))
        fix_misfit(reader, finding, place, "", "leave the `:` out");
    else if (reader->statement == STATEMENT_ITEM && starts_a_line(reader, folded))
        diag_help(reader->diag, finding, "`%s` starts a line of its own; this one is written like `%s`", found, form->example);
    else
        help_example(reader, finding);
}

void reader_syntax_error(struct reader *reader, struct extent place, bool line_ends,
                         const char *const *expected, int count)
{
    if (reader->failed)
        return;
    reader->failed = true;
    struct arena *arena = reader->tree->arena;
    const char *wanted = join_expected(arena, expected, count);
    const char *head = head_words(reader);
    const char *line = *head ? arena_printf(arena, "`%s`", head) : "this line";
    if (line_ends) {
        struct finding *finding =
            diag_error(reader->diag, DIAG_LINE_TOO_SHORT, in_file(reader, place), "%s ends too early%s", line,
                       wanted ? arena_printf(arena, ": %s should follow", wanted) : "");
        help_short_line(reader, place, finding);
        return;
    }
    const char *found = arena_copy(arena, reader->source->text + place.start, place.end - place.start);
    struct finding *finding =
        wanted ? diag_error(reader->diag, DIAG_SYNTAX, in_file(reader, place), "expected %s, found `%s`", wanted, found)
               : diag_error(reader->diag, DIAG_SYNTAX, in_file(reader, place), "`%s` does not fit here%s%s", found,
                            *head ? " in " : "", *head ? line : "");
    help_misfit(reader, place, found, finding);
}

void reader_too_deep(struct reader *reader, struct extent place)
{
    if (!reader->failed)
        diag_error(reader->diag, DIAG_TOO_DEEP, in_file(reader, place), "this line is nested too deeply to be read");
    reader->failed = true;
}

/* Reports lines that are too long to be shown. */
static bool has_long_lines(struct reader *reader, uint32_t file)
{
    enum { LONGEST = 16 * 1024, MOST = 10 };
    const struct source *source = reader->source;
    int found = 0;
    for (size_t i = 0; i < source->line_count && found < MOST; i++) {
        size_t start = source->lines[i], end = i + 1 < source->line_count ? source->lines[i + 1] : source->length;
        if (end - start <= LONGEST)
            continue;
        struct span span = {file, (uint32_t)start, (uint32_t)start + 1};
        diag_error(reader->diag, DIAG_LINE_TOO_LONG, span, "a line may have %d bytes, and this one has %zu", LONGEST,
                   end - start);
        found++;
    }
    return found > 0;
}

/* Reports bytes that no plan may contain. A file with any is read no further: what its lines mean is in doubt. */
static bool has_faulty_bytes(struct reader *reader, uint32_t file)
{
    enum { MOST = 10 };
    const struct source *source = reader->source;
    int found = 0;
    for (size_t at = 0; at < source->length && found < MOST;) {
        const char *what = NULL;
        size_t size = 1;
        size_t fault = text_first_fault(source->text + at, source->length - at, &what, &size);
        if (at + fault >= source->length)
            break;
        struct span span = {file, (uint32_t)(at + fault), (uint32_t)(at + fault + size)};
        struct finding *finding =
            diag_error(reader->diag, DIAG_BAD_CHARACTER, span, "a plan cannot contain %s", what);
        diag_help(reader->diag, finding, "delete it, or save the file as UTF-8 text");
        at += fault + size;
        found++;
    }
    return found > 0;
}

struct tree *read_nothing(struct arena *arena, unsigned file)
{
    struct tree *tree = arena_alloc(arena, sizeof *tree);
    tree->arena = arena;
    tree->file = file;
    tree->root = node_new(tree, NODE_FILE, (struct extent){0, 0});
    return tree;
}

void read_part(struct tree *tree, const struct sources *sources, struct extent place,
               const struct phrasebook *phrases, struct diag *diag)
{
    struct reader reader = {
        .tree = tree, .diag = diag, .source = &sources->items[tree->file], .phrases = phrases};
    read_lines(&reader, place);
}

struct tree *read_file(struct arena *arena, const struct sources *sources, unsigned file,
                       const struct phrasebook *phrases, struct diag *diag)
{
    return read_file_without(arena, sources, file, (struct extent){0, 0}, phrases, diag);
}

struct tree *read_file_without(struct arena *arena, const struct sources *sources, unsigned file, struct extent skipped,
                               const struct phrasebook *phrases, struct diag *diag)
{
    struct tree *tree = read_nothing(arena, file);
    struct reader reader = {
        .tree = tree, .diag = diag, .source = &sources->items[file], .phrases = phrases};
    if (has_faulty_bytes(&reader, file) || has_long_lines(&reader, file)) {
        node_add(tree->root, node_new(tree, NODE_BROKEN, (struct extent){0, 0}));
        return tree;
    }
    if (skipped.start > 0)
        read_lines(&reader, (struct extent){0, skipped.start});
    read_lines(&reader, (struct extent){skipped.end, (uint32_t)reader.source->length});
    return tree;
}

#include <stdio.h>

#include "base/text.h"
#include "cli/commands.h"
#include "rules/explain.h"
#include "rules/rules.h"

enum { LINE_WIDTH = 80 };

/* Checks first, then what is found in lines and on sheets; NULL beyond the last. */
static const char *name_at(size_t index)
{
    return index < rule_count()                   ? rule_name(rule_at(index))
           : index - rule_count() < slip_count() ? slip_at(index - rule_count())->name
                                                  : NULL;
}

static int complain_unknown(const char *name)
{
    const char *near = NULL, *other;
    unsigned least = 6;
    for (size_t i = 0; (other = name_at(i)) != NULL; i++) {
        unsigned distance = text_distance(name, other, least);
        if (distance < least) {
            least = distance;
            near = other;
        }
    }
    fprintf(stderr, "bellsheet: error: there is no check called `%s`", name);
    if (near)
        fprintf(stderr, "; did you mean `%s`?", near);
    fputs("\n", stderr);
    return EXIT_COULD_NOT;
}

static const char *severity_word(enum severity severity)
{
    return severity == SEVERITY_ERROR ? "must" : severity == SEVERITY_WARNING ? "warn" : "info";
}

static void list_one(const char *name, enum severity severity, const char *title)
{
    printf("  %-24s %-5s %s\n", name, severity_word(severity), title);
}

static void list_all(void)
{
    for (int family = FAMILY_VOLUME; family <= FAMILY_SENSE; family++) {
        printf("%s%s\n", family ? "\n" : "", rule_family_name((enum rule_family)family));
        for (size_t i = 0; i < rule_count(); i++) {
            const struct rule *rule = rule_at(i);
            if (rule_family_of(rule) == (enum rule_family)family)
                list_one(rule_name(rule), rule_severity(rule), rule_title(rule));
        }
    }
    for (int sheets = 0; sheets < 2; sheets++) {
        puts(sheets ? "\nsheets" : "\nlines");
        for (size_t i = 0; i < slip_count(); i++)
            if (slip_at(i)->on_sheets == sheets)
                list_one(slip_at(i)->name, slip_at(i)->severity, slip_at(i)->title);
    }
}

/* WORDS broken at spaces to the width of a terminal, under a heading. */
static void print_paragraph(const char *heading, const char *words)
{
    if (!words || !*words)
        return;
    printf("\n%s\n", heading);
    unsigned column = 0;
    for (const char *word = words; *word;) {
        size_t length = 0;
        while (word[length] && word[length] != ' ')
            length++;
        unsigned width = text_width(word, length);
        if (column && column + 1 + width > LINE_WIDTH - 2) {
            putchar('\n');
            column = 0;
        }
        printf("%s%.*s", column ? " " : "  ", (int)length, word);
        column += (column ? 1 : 0) + width;
        word += length;
        while (*word == ' ')
            word++;
    }
    putchar('\n');
}

static void print_rule(const struct rule *rule, const struct explanation *page)
{
    printf("%s (%s, %s)\n  %s\n", rule_name(rule), rule_family_name(rule_family_of(rule)),
           severity_word(rule_severity(rule)), rule_title(rule));
    print_paragraph("What", page->what);
    print_paragraph("Why", page->why);
    print_paragraph("Source", page->source);
    print_paragraph("To mend it", page->mend);
}

static void print_slip(const struct slip *slip)
{
    printf("%s (%s)\n  %s\n", slip->name, severity_word(slip->severity), slip->title);
    print_paragraph("What, and how to mend it", slip->words);
}

int command_explain(const struct options *options)
{
    if (!options->path_count) {
        list_all();
        return EXIT_CLEAN;
    }
    for (int i = 0; i < options->path_count; i++) {
        const struct rule *rule = rule_find(options->paths[i]);
        const struct slip *slip = slip_find(options->paths[i]);
        if (!rule && !slip)
            return complain_unknown(options->paths[i]);
        fputs(i ? "\n" : "", stdout);
        if (rule)
            print_rule(rule, explanation_find(options->paths[i]));
        else
            print_slip(slip);
    }
    return EXIT_CLEAN;
}

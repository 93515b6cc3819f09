/* annotate.c - findings as workflow commands, which GitHub's runner takes from a step's output and shows beside the
 * lines (docs.github.com, "Workflow commands for GitHub Actions").
 *
 * * A command is a line: two colons, its name, a space, properties with commas between, two colons, a message. How
 * the runner takes it apart decides what must be escaped: src/Runner.Common/ActionCommand.cs of
 * github.com/actions/runner. It unescapes exactly %, CR and LF in the message, and also : and , in a property. */
#include <string.h>

#include "export/listing.h"
#include "export/position.h"

enum {
    /* The service drops what a step says beyond ten errors, ten warnings and ten notices
     * (github.com/actions/toolkit, docs/problem-matchers.md, "Limitations"). */
    MOST_OF_A_KIND = 10,
    NOTES_SHOWN = 5
};

static void add_escaped(struct text *out, const char *words, const char *special)
{
    for (const char *p = words; *p; p++)
        if (strchr(special, *p))
            text_addf(out, "%%%02X", (unsigned)*p);
        else
            text_add_char(out, *p);
}

static void add_message(struct text *out, const char *words)
{
    add_escaped(out, words, "%\r\n");
}

static void add_property(struct text *out, const char *words)
{
    add_escaped(out, words, "%\r\n:,");
}

/* Where it is. The runner refuses columns together with two different lines, and its end column
 * is that of the last character. */
static void add_place(const struct diag *diag, const struct export_context *context,
                      const struct finding *finding, struct text *out)
{
    struct file_stretch stretch = stretch_shown(diag, finding->span);
    if (stretch.source->shelf)
        return; /* not a file of this repository: the message names it */
    text_add(out, "file=");
    add_property(out, position_words(diag->arena, position_path(diag->arena, context, stretch.source)));
    text_addf(out, ",line=%u", stretch.start.line);
    if (stretch.end.line != stretch.start.line) {
        text_addf(out, ",endLine=%u,", stretch.end.line);
        return;
    }
    unsigned last =
        stretch.end.column > stretch.start.column ? stretch.end.column - 1 : stretch.start.column;
    text_addf(out, ",col=%u,endColumn=%u,", stretch.start.column, last);
}

/* The message: a line for the finding, for each note and for the fix. */
static void say(const struct diag *diag, const struct export_context *context,
                const struct finding *finding, struct text *out)
{
    struct text words = {.arena = diag->arena};
    const struct source *source = &diag->sources->items[finding->span.file];
    if (source->shelf)
        text_addf(&words, "%s: ", position_path(diag->arena, context, source));
    text_add(&words, finding->words);
    for (size_t i = 0; i < finding->note_count && i < NOTES_SHOWN; i++) {
        const struct note *note = &finding->notes[i];
        text_add(&words, "\n");
        if (note->placed) {
            struct file_stretch stretch = stretch_shown(diag, note->span);
            text_addf(&words, "%s:%u: ", position_path(diag->arena, context, stretch.source),
                      stretch.start.line);
        }
        text_addf(&words, "note: %s", note->words);
    }
    if (finding->note_count > NOTES_SHOWN)
        text_addf(&words, "\nand %zu more notes", finding->note_count - NOTES_SHOWN);
    if (finding->help)
        text_addf(&words, "\nfix: %s", finding->help);
    add_message(out, position_sentence(diag->arena, text_get(&words)));
}

/* Adds up to MOST findings of SEVERITY as commands called COMMAND; returns how many were left
 * out. */
static size_t add_kind(const struct diag *diag, const struct export_context *context,
                       const struct listing *listing, enum severity severity, const char *command,
                       size_t most, struct text *out)
{
    size_t met = 0;
    for (size_t i = 0; i < listing->count; i++) {
        const struct finding *finding = listing->items[i].finding;
        if (finding->severity != severity || met++ >= most)
            continue;
        text_addf(out, "::%s ", command);
        add_place(diag, context, finding, out);
        text_add(out, "title=");
        add_property(out, position_words(diag->arena, diagnostic_name(finding->diagnostic)));
        text_add(out, "::");
        say(diag, context, finding, out);
        text_add_char(out, '\n');
    }
    return met > most ? met - most : 0;
}

void export_annotations(const struct diag *diag, const struct export_context *context,
                        struct text *out)
{
    struct listing listing = listing_make(diag, context);
    size_t errors = add_kind(diag, context, &listing, SEVERITY_ERROR, "error", MOST_OF_A_KIND, out);
    size_t warnings =
        add_kind(diag, context, &listing, SEVERITY_WARNING, "warning", MOST_OF_A_KIND, out);
    /* One notice is reserved for what is not shown. */
    size_t infos =
        add_kind(diag, context, &listing, SEVERITY_INFO, "notice", MOST_OF_A_KIND - 1, out);
    if (errors + warnings + infos)
        text_addf(
            out,
            "::notice title=findings not shown::%zu more errors, %zu more warnings and %zu more"
            " infos are not shown here, as a step may show %d of each; `bellsheet check`"
            " prints them all\n",
            errors, warnings, infos, MOST_OF_A_KIND);
}

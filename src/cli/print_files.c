/* print_files.c - the files that are printed. */
#include <fcntl.h>
#include <glib.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/output.h"
#include "cli/print.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "layout/tile.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"
#include "render/render.h"

static const char *path_of(const struct printing *printing, const char *name)
{
    const char *folder = printing->options->out ? printing->options->out : ".";
    return arena_printf(printing->project->arena, "%s/%s", folder, name);
}

void print_write(struct printing *printing, const char *name, const char *wrong,
                 const struct text *bytes)
{
    const char *path = path_of(printing, name);
    if (!wrong)
        wrong = output_write(path, text_get(bytes), bytes->length);
    if (!wrong)
        return;
    tell_error("%s: %s", path, wrong);
    printing->failed = true;
}

void print_note(struct printing *printing, struct printed printed)
{
    printing->items = arena_grow(printing->project->arena, printing->items, printing->count,
                                 &printing->capacity, sizeof *printing->items);
    printing->items[printing->count++] = printed;
}

void print_say(const struct printing *printing, const char *name)
{
    printf("%s\n", text_shown(printing->project->arena, path_of(printing, name)));
}

void print_record(struct text *record, enum print_mark mark, const char *format, ...)
{
    char *words;
    va_list args;
    va_start(args, format);
    words = g_strdup_vprintf(format, args);
    va_end(args);
    text_add_char(record, (char)mark);
    text_add_bytes(record, words, strlen(words) + 1);
    g_free(words);
}

/* Writes BYTES as the file NAME, unless they could not be made, and records which. Frees them. */
static bool write_page(const struct printing *printing, const struct sheet *sheet, const char *name, const char *wrong,
                       struct text *bytes, struct text *record)
{
    const char *path = path_of(printing, name);
    bool private = sheet->own && printing->options->private;
    if (!wrong)
        wrong = private ? output_write_private(path, text_get(bytes), bytes->length)
                        : output_write(path, text_get(bytes), bytes->length);
    if (wrong)
        print_record(record, PRINT_WRONG, "%s: %s", path, wrong);
    else
        print_record(record, PRINT_FILE, "%s", name);
    text_free(bytes);
    return !wrong;
}

void print_scene(const struct printing *printing, const struct sheet *sheet, const char *stem,
                 const struct scene *scene, struct text *record)
{
    struct text bytes = {0};
    const struct options *options = printing->options;
    struct arena *arena = printing->project->arena;
    const struct paper *parts = sheet_parts(options, sheet);
    const char *wrong;
    print_record(record, PRINT_TITLE, "%s", scene->title);
    if (sheet->scope != SCOPE_SESSION_EACH) {
        const struct scene *const scenes[] = {
            parts ? tile_scene(scene, printing->type, parts) : scene};
        print_record(record, PRINT_PAGES, "%zu", scenes[0]->page_count);
        wrong = render_pdf(scenes, 1, options->created, &bytes);
        write_page(printing, sheet, sheet_file_name(arena, options, sheet, stem, 1), wrong, &bytes, record);
        return;
    }
    /* An SVG holds one page: the second and further ones are files of their own. */
    bool good = true;
    print_record(record, PRINT_PAGES, "%zu", scene->page_count);
    for (int page = 1; page <= (int)scene->page_count && good; page++) {
        wrong = render_svg(scene, page, &bytes);
        good = write_page(printing, sheet, sheet_file_name(arena, options, sheet, stem, page), wrong, &bytes, record);
    }
}

/* --- make --- */

/* Can PATH be written in a rule so that make reads it, and nothing else? It has no way to write a line end, nor these
 * signs; a line with a = is a variable's. Each was tried with GNU make 4.3 (tests/cli/depends.sh). */
static bool make_can_read(const char *path)
{
    bool control = false;
    for (const char *at = path; *at; at++)
        control = control || (unsigned char)*at < ' ' || *at == 0x7f;
    return !control && *path != '~' && !strpbrk(path, "%;=\\|");
}

/* PATH as make reads it in a rule. */
static void add_path(struct text *out, const char *path)
{
    for (; *path; path++) {
        if (strchr(" #:*?[", *path))
            text_add_char(out, '\\');
        if (*path == '$')
            text_add_char(out, '$');
        text_add_char(out, *path);
    }
}

bool print_can_depend(const struct printing *printing)
{
    const struct sources *sources = &printing->project->sources;
    const char *wrong = make_can_read(printing->options->out) ? NULL : printing->options->out;
    for (size_t i = 0; i < sources->count && !wrong; i++)
        if (!make_can_read(sources->items[i].path))
            wrong = sources->items[i].path;
    if (wrong)
        tell_error("%s: a rule for make cannot contain this name; leave out --depends, or rename it", wrong);
    return !wrong;
}

void print_depends(struct printing *printing)
{
    struct text out = {0};
    const struct sources *sources = &printing->project->sources;
    const char *path = printing->options->depends;
    for (size_t i = 0; i < printing->count; i++) {
        const char *made = path_of(printing, printing->items[i].name);
        text_add(&out, i ? " \\\n  " : "");
        add_path(&out, made);
        utimensat(AT_FDCWD, made, NULL, 0); /* what stayed as it was is not older than the plan to make */
    }
    text_add_char(&out, ':');
    for (size_t i = 0; i < sources->count; i++) {
        text_add(&out, " \\\n  ");
        add_path(&out, sources->items[i].path);
    }
    text_add_char(&out, '\n');
    /* A rule without a recipe for each, so that a plan that is gone does not stop make. */
    for (size_t i = 0; i < sources->count; i++) {
        text_add_char(&out, '\n');
        add_path(&out, sources->items[i].path);
        text_add(&out, ":\n");
    }
    const char *wrong = output_write(path, text_get(&out), out.length);
    if (wrong) {
        tell_error("%s: %s", path, wrong);
        printing->failed = true;
    }
    text_free(&out);
}

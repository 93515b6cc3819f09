/* print_files.c - names of the files that are printed, and their writing. */
#include <glib.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "cli/print.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "layout/tile.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"
#include "render/render.h"

const char *print_slug(struct arena *arena, const char *name)
{
    enum { LONGEST = 60 };
    const char *folded = text_fold(arena, name, strlen(name));
    char *out = arena_alloc(arena, strlen(folded) + 1);
    size_t n = 0;
    for (const char *p = folded; *p; p++) {
        unsigned char c = (unsigned char)*p;
        bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
        bool inside = (c & 0xc0) == 0x80; /* no character is cut */
        if (n >= LONGEST && !inside)
            break;
        if (keep)
            out[n++] = *p;
        else if (n && out[n - 1] != '-')
            out[n++] = '-';
    }
    while (n && out[n - 1] == '-')
        n--;
    out[n] = '\0';
    return n ? out : "session";
}

static const char *session_name(struct arena *arena, const struct occasion *occasion)
{
    char day[DATE_TEXT_SIZE];
    date_format(occasion->date, day);
    const char *hour = occasion->clock >= 0
                           ? arena_printf(arena, "-%02d%02d", occasion->clock / 3600 % 24,
                                          occasion->clock / 60 % 60)
                           : "";
    return arena_printf(arena, "%s%s-%s", day, hour, print_slug(arena, occasion->session->name.shown));
}

const char *print_name(struct arena *arena, const struct sheet *sheet, const struct occasion_group *group)
{
    const struct occasion *occasion = group->occasions[0];
    const char *athlete = print_slug(arena, occasion->athlete->name.shown);
    const char *camp = print_slug(arena, occasion->camp->name.shown);
    int year, week;
    switch (sheet->scope) {
    case SCOPE_SESSION:
        if (group->of_athlete && date_iso_week(occasion->date, &year, &week))
            return arena_printf(arena, "%04d-w%02d-%s-%s", year, week, athlete, sheet->name);
        return arena_printf(arena, "%s-%s", session_name(arena, occasion), sheet->name);
    case SCOPE_SESSION_EACH:
        return arena_printf(arena, "%s-%s-%s", session_name(arena, occasion), athlete, sheet->name);
    case SCOPE_WEEK_EACH:
        for (size_t i = 1; i < group->count; i++)
            if (sheet_begins_camp(group, i) && date_iso_week(occasion->date, &year, &week))
                return arena_printf(arena, "%04d-w%02d-%s-%s", year, week, athlete, sheet->name);
        return arena_printf(arena, "%s-week-%02d-%s-%s", camp, occasion->week, athlete, sheet->name);
    case SCOPE_SEASON_EACH:
        return arena_printf(arena, "%s-%s-%s", print_slug(arena, group->season->name.shown), athlete, sheet->name);
    case SCOPE_SEASON:
        return arena_printf(arena, "%s-%s", print_slug(arena, group->season->name.shown), sheet->name);
    case SCOPE_CAMP_EACH:
        break;
    }
    return arena_printf(arena, "%s-%s-%s", camp, athlete, sheet->name);
}

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
    printf("%s\n", text_shown(printing->project->arena, path_of(printing, printed.name)));
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

/* The paper of the parts that SHEET is printed in, or NULL if it stays whole: only posters are divided. */
static const struct paper *parts_of(const struct printing *printing, const struct sheet *sheet)
{
    const char *paper = printing->options->tile;
    return paper && sheet->hangs ? paper_find(paper) : NULL;
}

const char *print_file_name(const struct printing *printing, const struct sheet *sheet, const char *stem, int page)
{
    struct arena *arena = printing->project->arena;
    if (sheet->scope != SCOPE_SESSION_EACH)
        return arena_printf(arena, "%s%s.pdf", stem, parts_of(printing, sheet) ? "-tiles" : "");
    return page == 1 ? arena_printf(arena, "%s.svg", stem) : arena_printf(arena, "%s-%d.svg", stem, page);
}

/* Writes BYTES as the file NAME, unless they could not be made, and records which. Frees them. */
static bool write_page(const struct printing *printing, const char *name, const char *wrong, struct text *bytes,
                       struct text *record)
{
    const char *path = path_of(printing, name);
    if (!wrong)
        wrong = output_write(path, text_get(bytes), bytes->length);
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
    const struct paper *parts = parts_of(printing, sheet);
    const char *wrong;
    print_record(record, PRINT_TITLE, "%s", scene->title);
    if (sheet->scope != SCOPE_SESSION_EACH) {
        const struct scene *const scenes[] = {
            parts ? tile_scene(scene, printing->type, parts) : scene};
        wrong = render_pdf(scenes, 1, printing->options->created, &bytes);
        write_page(printing, print_file_name(printing, sheet, stem, 1), wrong, &bytes, record);
        return;
    }
    /* An SVG holds one page: the second and further ones are files of their own. */
    bool good = true;
    for (int page = 1; page <= (int)scene->page_count && good; page++) {
        wrong = render_svg(scene, page, &bytes);
        good = write_page(printing, print_file_name(printing, sheet, stem, page), wrong, &bytes, record);
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
        text_add(&out, i ? " \\\n  " : "");
        add_path(&out, path_of(printing, printing->items[i].name));
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

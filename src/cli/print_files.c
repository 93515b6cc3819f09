/* print_files.c - names of the files that are printed, and their writing. */
#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "cli/print.h"
#include "figures/dates.h"
#include "render/render.h"
#include "layout/tile.h"

/* NAME as a part of a file name: small letters and digits of any script, everything else a hyphen. */
static const char *slug(struct arena *arena, const char *name)
{
    const char *folded = text_fold(arena, name, strlen(name));
    char *out = arena_alloc(arena, strlen(folded) + 1);
    size_t n = 0;
    for (const char *p = folded; *p; p++) {
        unsigned char c = (unsigned char)*p;
        bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
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
    return arena_printf(arena, "%s%s-%s", day, hour, slug(arena, occasion->session->name.shown));
}

const char *print_name(struct arena *arena, const struct sheet *sheet,
                       const struct occasion *occasion)
{
    const char *athlete = slug(arena, occasion->athlete->name.shown);
    const char *camp = slug(arena, occasion->camp->name.shown);
    switch (sheet->scope) {
    case SCOPE_SESSION:
        return arena_printf(arena, "%s-%s", session_name(arena, occasion), sheet->name);
    case SCOPE_SESSION_EACH:
        return arena_printf(arena, "%s-%s-%s", session_name(arena, occasion), athlete, sheet->name);
    case SCOPE_WEEK_EACH:
        return arena_printf(arena, "%s-week-%02d-%s-%s", camp, occasion->week, athlete, sheet->name);
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
    fprintf(stderr, "bellsheet: error: %s: %s\n", path, wrong);
    printing->failed = true;
}

void print_note(struct printing *printing, struct printed printed)
{
    printing->items = arena_grow(printing->project->arena, printing->items, printing->count,
                                 &printing->capacity, sizeof *printing->items);
    printing->items[printing->count++] = printed;
    printf("%s\n", path_of(printing, printed.name));
}

static void write_pdf(struct printing *printing, const struct scene *scene, const char *name)
{
    struct text bytes = {0};
    const struct scene *const scenes[] = {scene};
    print_write(printing, name, render_pdf(scenes, 1, printing->options->created, &bytes), &bytes);
    text_free(&bytes);
}

static void write_svg(struct printing *printing, const struct scene *scene, int page,
                      const char *name)
{
    struct text bytes = {0};
    print_write(printing, name, render_svg(scene, page, &bytes), &bytes);
    text_free(&bytes);
}

void print_scene(struct printing *printing, const struct sheet *sheet,
                 const struct occasion *occasion, const struct scene *scene)
{
    struct arena *arena = printing->project->arena;
    const char *stem = print_name(arena, sheet, occasion);
    struct printed printed = {.sheet = sheet,
                              .occasion = occasion,
                              .title = arena_copy(arena, scene->title, strlen(scene->title))};
    if (sheet->scope != SCOPE_SESSION_EACH) {
        bool tiled = sheet->scope == SCOPE_SESSION && printing->options->tile;
        printed.name = arena_printf(arena, "%s%s.pdf", stem, tiled ? "-tiles" : "");
        write_pdf(printing,
                  tiled ? tile_scene(scene, printing->type, paper_find(printing->options->tile)) : scene,
                  printed.name);
        if (!printing->failed)
            print_note(printing, printed);
        return;
    }
    /* An SVG holds one page: the second and further ones are files of their own. */
    for (int page = 1; page <= (int)scene->page_count && !printing->failed; page++) {
        printed.name = page == 1 ? arena_printf(arena, "%s.svg", stem)
                                 : arena_printf(arena, "%s-%d.svg", stem, page);
        write_svg(printing, scene, page, printed.name);
        if (!printing->failed)
            print_note(printing, printed);
    }
}

/* --- make --- */

/* PATH as make reads it in a rule. */
static void add_path(struct text *out, const char *path)
{
    for (; *path; path++) {
        if (*path == ' ' || *path == '#' || *path == '\\')
            text_add_char(out, '\\');
        if (*path == '$')
            text_add_char(out, '$');
        text_add_char(out, *path);
    }
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
        fprintf(stderr, "bellsheet: error: %s: %s\n", path, wrong);
        printing->failed = true;
    }
    text_free(&out);
}

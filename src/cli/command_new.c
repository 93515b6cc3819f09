/* A small club to start from: the files of share/new, with their dates moved so that its camp starts on the coming
 * Monday. */
#include <errno.h>
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "figures/dates.h"

/* The Monday on which the camp in share/new starts. */
enum { WRITTEN_YEAR = 2027, WRITTEN_MONTH = 3, WRITTEN_DAY = 1 };

static int complain(const char *path, const char *why)
{
    tell_error("%s: %s", path, why);
    return EXIT_COULD_NOT;
}

/* --- dates --- */

static bool is_digits(const char *text, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!g_ascii_isdigit(text[i]))
            return false;
    return true;
}

/* The date or month at TEXT moved by DAYS and put into MOVED. Returns the bytes that it took there, 0 if there is
 * none. */
static size_t move_date(const char *text, int days, char moved[DATE_TEXT_SIZE])
{
    if (!is_digits(text, 4) || text[4] != '-' || !is_digits(text + 5, 2))
        return 0;
    bool whole = text[7] == '-' && is_digits(text + 8, 2);
    int day = date_from_ymd(atoi(text), atoi(text + 5), whole ? atoi(text + 8) : 1);
    if (day == DATE_NONE || !date_is_valid(day + days))
        return 0;
    date_format(day + days, moved);
    size_t length = whole ? 10 : 7;
    moved[length] = '\0';
    return length;
}

/* TEXT with every date in it moved by DAYS: a Monday stays a Monday, and what was a month ago stays a month ago. */
static void move_dates(const char *text, int days, struct text *out)
{
    for (const char *p = text; *p;) {
        char moved[DATE_TEXT_SIZE];
        bool starts = p == text || !g_ascii_isdigit(p[-1]);
        size_t length = starts ? move_date(p, days, moved) : 0;
        text_add_bytes(out, length ? moved : p, length ? length : 1);
        p += length ? length : 1;
    }
}

/* --- files --- */

static int by_name(const void *left, const void *right)
{
    return strcmp(*(char *const *)left, *(char *const *)right);
}

/* The names in FOLDER, sorted; NULL, with *WRONG saying why, if it cannot be read. */
static char **list_names(struct arena *arena, const char *folder, size_t *count, const char **wrong)
{
    GError *error = NULL;
    GDir *directory = g_dir_open(folder, 0, &error);
    *count = 0;
    *wrong = NULL;
    if (!directory) {
        *wrong = g_error_matches(error, G_FILE_ERROR, G_FILE_ERROR_NOENT)    ? strerror(ENOENT)
                 : g_error_matches(error, G_FILE_ERROR, G_FILE_ERROR_NOTDIR) ? strerror(ENOTDIR)
                                                                             : "it cannot be read";
        g_error_free(error);
        return NULL;
    }
    char **names = NULL;
    size_t capacity = 0;
    for (const char *name; (name = g_dir_read_name(directory)) != NULL;) {
        names = arena_grow(arena, names, *count, &capacity, sizeof *names);
        names[(*count)++] = arena_copy(arena, name, strlen(name));
    }
    g_dir_close(directory);
    if (*count > 1)
        qsort(names, *count, sizeof *names, by_name);
    return names;
}

/* Copies the file NAME. A name that git would obey in our own tree is kept there without its dot. */
static const char *copy_file(struct arena *arena, const char *from, const char *to, const char *name, int days)
{
    gchar *bytes = NULL;
    const char *shown = strcmp(name, "gitignore") == 0 ? ".gitignore" : name;
    if (!g_file_get_contents(arena_printf(arena, "%s/%s", from, name), &bytes, NULL, NULL))
        return arena_printf(arena, "%s of the shelf cannot be read", name);
    struct text out = {0};
    move_dates(bytes, days, &out);
    const char *path = arena_printf(arena, "%s/%s", to, shown);
    bool private = strcmp(name, "private.bell") == 0;
    const char *wrong = private ? output_write_private(path, text_get(&out), out.length)
                                : output_write(path, text_get(&out), out.length);
    if (!wrong)
        puts(path);
    text_free(&out);
    g_free(bytes);
    return wrong;
}

static int write_club(struct arena *arena, const char *folder, const struct options *options)
{
    const char *share = share_folder(arena), *wrong;
    const char *from = arena_printf(arena, "%s/new", share ? share : BELL_SHARE_DIR);
    size_t count;
    char **names = list_names(arena, from, &count, &wrong);
    if (!names)
        return complain(from, wrong ? wrong : "it is empty");
    wrong = output_make_folder(folder, OUTPUT_OWNER_ALONE, NULL);
    confine(options, &(struct sandbox){.writes = &folder, .write_count = 1});
    int days = date_monday(options->today) + 7 - date_from_ymd(WRITTEN_YEAR, WRITTEN_MONTH, WRITTEN_DAY);
    for (size_t i = 0; i < count && !wrong; i++)
        wrong = copy_file(arena, from, folder, names[i], days);
    if (wrong)
        return complain(folder, wrong);
    printf("\nbellsheet check %s\nbellsheet print %s --week 1 --out %s/sheets\n", folder, folder, folder);
    return fflush(stdout) == 0 ? EXIT_CLEAN : complain("standard output", strerror(errno));
}

int command_new(const struct options *options)
{
    if (options->path_count != 1) {
        tell_error("say which folder: `bellsheet new club`");
        return EXIT_COULD_NOT;
    }
    struct arena *arena = arena_new();
    const char *folder = options->paths[0], *wrong;
    size_t length = strlen(folder), count;
    while (length > 1 && folder[length - 1] == '/')
        length--;
    folder = arena_copy(arena, folder, length);
    int status;
    list_names(arena, folder, &count, &wrong);
    if (!*folder)
        status = complain("new", "the folder has no name");
    else if (count)
        status = complain(folder, "this folder is not empty");
    else if (wrong && strcmp(wrong, strerror(ENOENT)) != 0)
        status = complain(folder, wrong);
    else
        status = write_club(arena, folder, options);
    arena_free(arena);
    return status;
}

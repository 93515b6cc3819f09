#include "layout/fonts.h"

#include <dirent.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define ROOT "/usr/share/fonts"

const struct font_file fonts_pinned[] = {
    {"fonts-roboto-unhinted", "truetype/roboto/unhinted", "RobotoCondensed-Regular.ttf"},
    {"fonts-roboto-unhinted", "truetype/roboto/unhinted", "RobotoCondensed-Bold.ttf"},
};
const size_t fonts_pinned_count = sizeof fonts_pinned / sizeof *fonts_pinned;

#define NOTO(script) {"fonts-noto-core", "truetype/noto", "NotoSans" script "-Regular.ttf"}
#define GOTHIC {"fonts-vlgothic", "truetype/vlgothic", "VL-Gothic-Regular.ttf"}

/* Which file draws a script that the pinned family lacks. Common characters (arrows, stars) have no script
 * of their own and are looked for in the last resorts. */
static const struct {
    GUnicodeScript script;
    struct font_file file;
} by_script[] = {
    {G_UNICODE_SCRIPT_THAI, NOTO("Thai")},
    {G_UNICODE_SCRIPT_ARABIC, NOTO("Arabic")},
    {G_UNICODE_SCRIPT_HEBREW, NOTO("Hebrew")},
    {G_UNICODE_SCRIPT_DEVANAGARI, NOTO("Devanagari")},
    {G_UNICODE_SCRIPT_BENGALI, NOTO("Bengali")},
    {G_UNICODE_SCRIPT_TAMIL, NOTO("Tamil")},
    {G_UNICODE_SCRIPT_TELUGU, NOTO("Telugu")},
    {G_UNICODE_SCRIPT_GEORGIAN, NOTO("Georgian")},
    {G_UNICODE_SCRIPT_ARMENIAN, NOTO("Armenian")},
    {G_UNICODE_SCRIPT_KHMER, NOTO("Khmer")},
    {G_UNICODE_SCRIPT_LAO, NOTO("Lao")},
    {G_UNICODE_SCRIPT_MYANMAR, NOTO("Myanmar")},
    {G_UNICODE_SCRIPT_ETHIOPIC, NOTO("Ethiopic")},
    {G_UNICODE_SCRIPT_HAN, GOTHIC},
    {G_UNICODE_SCRIPT_HIRAGANA, GOTHIC},
    {G_UNICODE_SCRIPT_KATAKANA, GOTHIC},
};

static const struct font_file last_resorts[] = {
    {"fonts-noto-core", "truetype/noto", "NotoSans-Regular.ttf"},
    GOTHIC,
};

/* Looks for FILE in FOLDER and the folders below it, no more than DEPTH down. */
static bool find_below(const char *folder, const char *file, int depth, char *path, size_t size)
{
    snprintf(path, size, "%s/%s", folder, file);
    if (access(path, R_OK) == 0)
        return true;
    DIR *open = depth ? opendir(folder) : NULL;
    bool found = false;
    for (struct dirent *entry; open && !found && (entry = readdir(open));) {
        if (entry->d_name[0] == '.')
            continue;
        char *below = g_build_filename(folder, entry->d_name, NULL);
        found = find_below(below, file, depth - 1, path, size);
        g_free(below);
    }
    if (open)
        closedir(open);
    return found;
}

bool font_path(const struct font_file *file, char *path, size_t size)
{
    snprintf(path, size, "%s/%s/%s", ROOT, file->folder, file->file);
    return access(path, R_OK) == 0 || find_below(ROOT, file->file, 4, path, size);
}

size_t font_candidates(uint32_t character, struct font_file out[FONT_CANDIDATES])
{
    size_t n = 0;
    GUnicodeScript script = g_unichar_get_script(character);
    for (size_t i = 0; i < sizeof by_script / sizeof *by_script; i++)
        if (by_script[i].script == script)
            out[n++] = by_script[i].file;
    for (size_t i = 0; i < sizeof last_resorts / sizeof *last_resorts; i++)
        if (n < FONT_CANDIDATES && (n == 0 || strcmp(out[0].file, last_resorts[i].file) != 0))
            out[n++] = last_resorts[i];
    return n;
}

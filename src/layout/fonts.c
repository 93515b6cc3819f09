#include "layout/fonts.h"

#include <dirent.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define ROOT "/usr/share/fonts"

enum { PATH_SIZE = 512, FONT_CANDIDATES = 3 };

/* A font file as Debian installs it. */
struct font_file {
    const char *folder; /* below /usr/share/fonts */
    const char *file;
};

/* The files every sheet is set in, and what is said if one is missing. */
static const struct {
    struct font_file file;
    const char *missing;
} pinned[] = {
    {{"truetype/roboto/unhinted", "RobotoCondensed-Regular.ttf"},
     "the font file RobotoCondensed-Regular.ttf is missing; the Debian package fonts-roboto-unhinted provides it"},
    {{"truetype/roboto/unhinted", "RobotoCondensed-Bold.ttf"},
     "the font file RobotoCondensed-Bold.ttf is missing; the Debian package fonts-roboto-unhinted provides it"},
};

#define NOTO(script) {"truetype/noto", "NotoSans" script "-Regular.ttf"}
#define GOTHIC {"truetype/vlgothic", "VL-Gothic-Regular.ttf"}

/* Which file draws a script that the pinned family lacks. Common characters (arrows, stars) have no script of their own
 * and are looked up in the fallback fonts. */
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
    {"truetype/noto", "NotoSans-Regular.ttf"},
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

/* The path of FILE in PATH (SIZE bytes): where Debian puts it, or wherever it lies below /usr/share/fonts. False if it
 * is not installed. */
static bool path_of(const struct font_file *file, char *path, size_t size)
{
    snprintf(path, size, "%s/%s/%s", ROOT, file->folder, file->file);
    return access(path, R_OK) == 0 || find_below(ROOT, file->file, 4, path, size);
}

/* Files that may have CHARACTER, which the pinned family lacks, likeliest first. Returns how many. */
static size_t candidates(gunichar character, struct font_file out[FONT_CANDIDATES])
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

/* All characters of the files in CONFIG. */
static FcCharSet *covered(FcConfig *config)
{
    FcCharSet *all = FcCharSetCreate();
    FcFontSet *fonts = FcConfigGetFonts(config, FcSetApplication);
    for (int i = 0; fonts && i < fonts->nfont; i++) {
        FcCharSet *of_font;
        if (FcPatternGetCharSet(fonts->fonts[i], FC_CHARSET, 0, &of_font) == FcResultMatch)
            FcCharSetMerge(all, of_font, NULL);
    }
    return all;
}

static bool add_file(struct fonts *fonts, const char *path)
{
    return FcConfigAppFontAddFile(fonts->config, (const FcChar8 *)path);
}

static const char *add_pinned(struct fonts *fonts)
{
    for (size_t i = 0; i < sizeof pinned / sizeof *pinned; i++) {
        char path[PATH_SIZE];
        if (!path_of(&pinned[i].file, path, sizeof path) || !add_file(fonts, path))
            return pinned[i].missing;
    }
    return NULL;
}

const char *fonts_open(struct fonts *fonts)
{
    *fonts = (struct fonts){.config = FcConfigCreate()};
    const char *wrong = add_pinned(fonts);
    if (wrong) {
        FcConfigDestroy(fonts->config);
        return wrong;
    }
    FcConfigSetCurrent(fonts->config);
    fonts->covered = covered(fonts->config);
    fonts->met = FcCharSetCreate();
    return NULL;
}

void fonts_close(struct fonts *fonts)
{
    FcCharSetDestroy(fonts->covered);
    FcCharSetDestroy(fonts->met);
    FcConfigSetCurrent(NULL);
    FcConfigDestroy(fonts->config);
}

/* Adds the first file that has CHARACTER, with its bold face where there is one. */
static bool add_fallback(struct fonts *fonts, gunichar character)
{
    struct font_file files[FONT_CANDIDATES];
    size_t n = candidates(character, files);
    for (size_t i = 0; i < n; i++) {
        char path[PATH_SIZE];
        if (!path_of(&files[i], path, sizeof path) || !add_file(fonts, path))
            continue;
        char *end = strstr(path, "-Regular.ttf");
        if (end && strstr(path, "Noto")) {
            memcpy(end, "-Bold.ttf", sizeof "-Bold.ttf");
            add_file(fonts, path);
        }
        FcCharSetDestroy(fonts->covered);
        fonts->covered = covered(fonts->config);
        if (FcCharSetHasChar(fonts->covered, character))
            return true;
    }
    return false;
}

bool fonts_cover(struct fonts *fonts, const char *text)
{
    bool added = false;
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        if ((unsigned char)*p < 0x80)
            continue;
        gunichar c = g_utf8_get_char(p);
        if (FcCharSetHasChar(fonts->covered, c) || FcCharSetHasChar(fonts->met, c) || g_unichar_iszerowidth(c))
            continue;
        FcCharSetAddChar(fonts->met, c);
        added = add_fallback(fonts, c) || added;
    }
    return added;
}

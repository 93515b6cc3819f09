/* sheets.c - `print` is a library of its own, loaded on demand: cairo and Pango bring forty libraries along, and
 * loading them would take most of the time of `check`, `explain` and `find`. It is loaded before the command confines
 * itself to the plan's folder. */
#include <dlfcn.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "cli/commands.h"

/* Its version is in its name: it shares the program's structures. */
#define SHEETS "libbellsheet-sheets-" BELL_VERSION ".so"

/* Beside the program, as in a build; below the folder above it, as in an installation; where it was to be installed. */
static void *load_sheets(void)
{
    char folder[PATH_MAX], path[PATH_MAX + sizeof "/../lib/" SHEETS];
    ssize_t length = readlink("/proc/self/exe", folder, sizeof folder - 1);
    folder[length > 0 ? length : 0] = '\0';
    char *slash = strrchr(folder, '/');
    if (slash)
        *slash = '\0';
    static const char *const places[] = {"/", "/../lib/"};
    for (size_t i = 0; slash && i < sizeof places / sizeof *places; i++) {
        snprintf(path, sizeof path, "%s%s%s", folder, places[i], SHEETS);
        if (access(path, F_OK) == 0)
            return dlopen(path, RTLD_NOW | RTLD_LOCAL);
    }
    return dlopen(BELL_LIB_DIR "/" SHEETS, RTLD_NOW | RTLD_LOCAL);
}

int command_print(const struct options *options)
{
    command_run *run = NULL;
    void *sheets = load_sheets(), *found = sheets ? dlsym(sheets, "bell_sheets_print") : NULL;
    if (!found) {
        const char *why = dlerror();
        fprintf(stderr, "bellsheet: error: sheets cannot be made here: %s\n", why ? why : SHEETS " belongs to another "
                                                                                                 "program");
        return EXIT_COULD_NOT;
    }
    memcpy(&run, &found, sizeof run); /* C knows no conversion from an object to a function */
    return run(options);
}

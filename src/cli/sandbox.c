#define _GNU_SOURCE /* O_PATH, syscall */

#include "cli/sandbox.h"

#if defined __linux__ && __has_include(<linux/landlock.h>) && !defined BELL_UNCONFINED

#include <fcntl.h>
#include <limits.h>
#include <linux/landlock.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "cli/project.h"
#include "plan/plan_files.h"

/* Newer than the headers of Debian 12, and refused by kernels whose ABI is older than the number. */
enum { ABI_REFER = 2, ABI_TRUNCATE = 3 };
static const uint64_t truncate_bit = UINT64_C(1) << 14;

static const uint64_t read_bits =
    LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR;
static const uint64_t file_bits = LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_READ_FILE |
                                  LANDLOCK_ACCESS_FS_WRITE_FILE | (UINT64_C(1) << 14);

/* All that the kernel can refuse. */
static uint64_t all_bits(long abi)
{
    uint64_t bits = (LANDLOCK_ACCESS_FS_MAKE_SYM << 1) - 1;
    if (abi >= ABI_REFER)
        bits |= LANDLOCK_ACCESS_FS_REFER;
    if (abi >= ABI_TRUNCATE)
        bits |= truncate_bit;
    return bits;
}

static void allow(int rules, const char *path, uint64_t bits)
{
    int place = open(path, O_PATH | O_CLOEXEC);
    struct stat about;
    if (place < 0)
        return;
    if (fstat(place, &about) == 0 && !S_ISDIR(about.st_mode))
        bits &= file_bits;
    struct landlock_path_beneath_attr beneath = {.allowed_access = bits, .parent_fd = place};
    syscall(SYS_landlock_add_rule, rules, LANDLOCK_RULE_PATH_BENEATH, &beneath, 0);
    close(place);
}

/* The folder that PATH is in, or is. */
static void allow_reading_around(int rules, const char *path)
{
    char folder[PATH_MAX];
    struct stat about;
    size_t length = strlen(path);
    if (strcmp(path, "-") == 0 || length >= sizeof folder) {
        allow(rules, ".", read_bits);
        return;
    }
    memcpy(folder, path, length + 1);
    bool is_folder = stat(path, &about) == 0 && S_ISDIR(about.st_mode);
    char *slash = is_folder ? NULL : strrchr(folder, '/');
    if (slash)
        slash[1] = '\0';
    const char *own = is_folder || slash ? folder : ".";
    struct arena *arena = arena_new();
    allow(rules, own, read_bits);
    allow(rules, plan_reach(arena, plan_root(arena, own)), read_bits);
    arena_free(arena);
}

static void allow_share(int rules)
{
    struct arena *arena = arena_new();
    const char *share = share_folder(arena);
    if (share)
        allow(rules, share, read_bits);
    arena_free(arena);
}

void sandbox_enter(const struct sandbox *sandbox)
{
    /* Fonts, the shelf where it is installed, and what libraries read late; a sanitizer's view of the process. */
    static const char *const system[] = {"/usr", "/lib", "/lib64", "/etc", "/proc"};
    long abi = syscall(SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_CREATE_RULESET_VERSION);
    if (abi < 1)
        return;
    struct landlock_ruleset_attr handled = {.handled_access_fs = all_bits(abi)};
    int rules = (int)syscall(SYS_landlock_create_ruleset, &handled, sizeof handled, 0);
    if (rules < 0)
        return;
    for (size_t i = 0; i < sizeof system / sizeof *system; i++)
        allow(rules, system[i], read_bits);
    if (!sandbox->read_count)
        allow(rules, ".", read_bits);
    for (size_t i = 0; i < sandbox->read_count; i++)
        allow_reading_around(rules, sandbox->reads[i]);
    allow_share(rules);
    const char *zones = getenv("TZDIR"); /* else they are below /usr */
    if (zones)
        allow(rules, zones, read_bits);
    for (size_t i = 0; i < sandbox->write_count; i++)
        if (sandbox->writes[i])
            allow(rules, sandbox->writes[i], handled.handled_access_fs);
    if (sandbox->clears)
        allow(rules, sandbox->clears, LANDLOCK_ACCESS_FS_REMOVE_DIR);
    /* The kernel lets anybody who gives up new privileges confine themselves. */
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0)
        syscall(SYS_landlock_restrict_self, rules, 0);
    close(rules);
}

#else

void sandbox_enter(const struct sandbox *sandbox)
{
    (void)sandbox;
}

#endif

#define _GNU_SOURCE /* O_PATH, syscall */

#include "cli/sandbox.h"

#if defined __linux__ && __has_include(<linux/landlock.h>) && !defined BELL_UNCONFINED

#include <fcntl.h>
#include <limits.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "cli/call_filter.h"
#include "cli/project.h"
#include "plan/plan_files.h"

/* What each version of Landlock added. The headers of Debian 12 know the first two, and a kernel refuses what is
 * newer than itself. */
enum { ABI_FILES = 1, ABI_REFER = 2, ABI_TRUNCATE = 3, ABI_NET = 4, ABI_DEVICES = 5, ABI_SCOPE = 6 };
enum { TRUNCATE_BIT = 1 << 14, DEVICES_BIT = 1 << 15, NET_BITS = 3 /* bind, connect */, SCOPE_BITS = 3 /* sockets, signals */ };

/* The kernel's struct as it is today; an older kernel is given its beginning. */
struct handled {
    uint64_t files, net, scope;
};

static const uint64_t read_bits =
    LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR;
static const uint64_t file_bits = LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_READ_FILE |
                                  LANDLOCK_ACCESS_FS_WRITE_FILE | TRUNCATE_BIT | DEVICES_BIT;

/* All that the kernel can refuse. */
static struct handled all_bits(long abi)
{
    struct handled all = {.files = (LANDLOCK_ACCESS_FS_MAKE_SYM << 1) - 1};
    all.files |= abi >= ABI_REFER ? LANDLOCK_ACCESS_FS_REFER : 0;
    all.files |= abi >= ABI_TRUNCATE ? TRUNCATE_BIT : 0;
    all.files |= abi >= ABI_DEVICES ? DEVICES_BIT : 0;
    all.net = abi >= ABI_NET ? NET_BITS : 0;
    all.scope = abi >= ABI_SCOPE ? SCOPE_BITS : 0;
    return all;
}

static size_t handled_size(long abi)
{
    return abi >= ABI_SCOPE ? sizeof(struct handled) : abi >= ABI_NET ? offsetof(struct handled, scope)
                                                                      : offsetof(struct handled, net);
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
    while (length > 1 && folder[length - 1] == '/')
        folder[--length] = '\0';
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

static void allow_all(int rules, const struct sandbox *sandbox, uint64_t write_bits)
{
    /* Fonts, the installed shelf, and what libraries read late; a sanitizer's view of the process. */
    static const char *const system[] = {"/usr", "/lib", "/lib64", "/etc", "/proc"};
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
            allow(rules, sandbox->writes[i], write_bits);
    if (sandbox->clears)
        allow(rules, sandbox->clears, LANDLOCK_ACCESS_FS_REMOVE_DIR);
}

/* Gives up files. Returns Landlock's version; 0 if nothing was given up. */
static long confine_files(const struct sandbox *sandbox)
{
    long abi = syscall(SYS_landlock_create_ruleset, NULL, 0, LANDLOCK_CREATE_RULESET_VERSION);
    if (abi < ABI_FILES)
        return 0;
    struct handled handled = all_bits(abi);
    int rules = (int)syscall(SYS_landlock_create_ruleset, &handled, handled_size(abi), 0);
    if (rules < 0)
        return 0;
    allow_all(rules, sandbox, handled.files);
    /* A process must give up gaining privileges before the kernel lets it confine itself. */
    bool confined = prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && syscall(SYS_landlock_restrict_self, rules, 0) == 0;
    close(rules);
    return confined ? abi : 0;
}

/* --- calls of the kernel --- */

#ifndef BELL_LOOKED_INTO

/* A barred call fails as it would without the right to it, so a library that only tries goes on. */
static bool confine_calls(void)
{
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           syscall(SYS_seccomp, SECCOMP_SET_MODE_FILTER, 0, &call_filter) == 0;
}

#else

/* A sanitizer looks for leaks as a debugger would, and starts a program to name places. */
static bool confine_calls(void)
{
    return false;
}

#endif

struct confinement sandbox_enter(const struct sandbox *sandbox)
{
    long landlock = confine_files(sandbox);
    return (struct confinement){.landlock = landlock, .calls = confine_calls()};
}

#else

enum { ABI_FILES = 1, ABI_TRUNCATE = 3, ABI_DEVICES = 5, ABI_SCOPE = 6 };

struct confinement sandbox_enter(const struct sandbox *sandbox)
{
    (void)sandbox;
    return (struct confinement){0};
}

#endif

/* --- what is reported --- */

void sandbox_describe(struct confinement confinement, FILE *out)
{
    const struct {
        const char *what;
        bool confined;
    } parts[] = {{"files outside the plan", confinement.landlock >= ABI_FILES},
                 {"emptying files", confinement.landlock >= ABI_TRUNCATE},
                 {"devices", confinement.landlock >= ABI_DEVICES},
                 {"signals to others", confinement.landlock >= ABI_SCOPE},
                 {"the network", confinement.calls},
                 {"starting programs", confinement.calls},
                 {"looking into processes", confinement.calls}};
    static const char *const heads[] = {"not barred, because this system or build cannot: ", "barred: "};
    for (int confined = 1; confined >= 0; confined--) {
        size_t count = 0;
        for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
            if (parts[i].confined == confined)
                fprintf(out, "%s%s", count++ ? ", " : heads[confined], parts[i].what);
        if (count)
            putc('\n', out);
    }
}

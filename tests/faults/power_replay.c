/* usage: power_replay LOG PATH OLD NEW
 *
 * The power goes after each step of LOG (power_record.c). What was not waited for has then reached the disk in part: of the
 * names that a folder was given or lost since it was last waited for, any; of the bytes of a file, none, some, all, or as many
 * zeros. In each of these states PATH must hold the bytes of OLD or of NEW, and at the end those of NEW. OLD may be missing: so
 * may then PATH be. Prints what is wrong, and how many states were looked at. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_FILES = 64, MOST_NAMES = 64, MOST_PENDING = 12, PATH_SIZE = 4096 };

struct bytes {
    char *at; /* NULL: there is no such file */
    size_t length;
};

struct file {
    struct bytes all;
    size_t synced;
};

/* A name that a file or a folder was given, or lost where FILE is NONE. */
enum { NONE = -1, FOLDER = -2 };
struct naming {
    char path[PATH_SIZE];
    int file;
};

struct names {
    struct naming items[MOST_NAMES];
    size_t count;
};

struct replay {
    struct file files[MOST_FILES]; /* the first is OLD */
    struct names landed, now;      /* on the disk; as the program sees them */
    struct naming pending[MOST_PENDING];
    size_t pending_count, states, step;
    const char *path;
    struct bytes old, new;
    int faults;
};

static void die(const char *why)
{
    fprintf(stderr, "power_replay: %s\n", why);
    exit(2);
}

static struct bytes read_file(const char *path)
{
    struct bytes bytes = {0};
    FILE *file = fopen(path, "rb");
    if (!file)
        return bytes;
    bytes.at = malloc(1 << 20);
    bytes.length = fread(bytes.at, 1, 1 << 20, file);
    fclose(file);
    return bytes;
}

static void set_name(struct names *names, const char *path, int file)
{
    size_t i = 0;
    while (i < names->count && strcmp(names->items[i].path, path) != 0)
        i++;
    if (i == MOST_NAMES)
        die("too many names");
    if (i == names->count)
        names->count++;
    snprintf(names->items[i].path, sizeof names->items[i].path, "%s", path);
    names->items[i].file = file;
}

static int find_name(const struct names *names, const char *path)
{
    for (size_t i = 0; i < names->count; i++)
        if (strcmp(names->items[i].path, path) == 0)
            return names->items[i].file;
    return NONE;
}

/* --- a state of the disk --- */

static int is(struct bytes wanted, const char *bytes, size_t length)
{
    return wanted.at && wanted.length == length && memcmp(wanted.at, bytes, length) == 0;
}

static void judge(struct replay *replay, const char *bytes, size_t length, int ended)
{
    replay->states++;
    int good = bytes ? is(replay->new, bytes, length) || (!ended && is(replay->old, bytes, length))
                     : !ended && !replay->old.at;
    if (!good && replay->faults++ < 5)
        printf("after step %zu%s: %zu bytes that are neither the old nor the new ones\n", replay->step, ended ? ", the last" : "",
               length);
}

/* The bytes of FILE as far as they may have got. */
static void judge_file(struct replay *replay, const struct file *file, int ended)
{
    size_t open = file->all.length - file->synced;
    char *zeros = calloc(1, file->all.length + 1);
    memcpy(zeros, file->all.at, file->synced);
    judge(replay, file->all.at, file->all.length, ended);
    if (open) {
        judge(replay, file->all.at, file->synced, ended);
        judge(replay, file->all.at, file->synced + open / 2, ended);
        judge(replay, zeros, file->all.length, ended);
    }
    free(zeros);
}

/* Is the folder of PATH there, if it is one that was made? */
static int has_folder(const struct replay *replay, const struct names *names)
{
    char folder[PATH_SIZE];
    snprintf(folder, sizeof folder, "%s", replay->path);
    *strrchr(folder, '/') = '\0';
    return find_name(&replay->now, folder) != FOLDER || find_name(names, folder) == FOLDER;
}

/* Every choice of what has landed of the names that were not waited for. */
static void cut_power(struct replay *replay, int ended)
{
    for (unsigned choice = 0; choice < 1U << replay->pending_count; choice++) {
        static struct names names;
        names = replay->landed;
        for (size_t i = 0; i < replay->pending_count; i++)
            if (choice >> i & 1)
                set_name(&names, replay->pending[i].path, replay->pending[i].file);
        int file = find_name(&names, replay->path);
        if (file < 0 || !has_folder(replay, &names))
            judge(replay, NULL, 0, ended);
        else
            judge_file(replay, &replay->files[file], ended);
    }
}

/* --- the steps --- */

static void give_name(struct replay *replay, const char *path, int file)
{
    if (replay->pending_count == MOST_PENDING)
        die("too many names that were not waited for");
    set_name(&replay->now, path, file);
    struct naming *naming = &replay->pending[replay->pending_count++];
    snprintf(naming->path, sizeof naming->path, "%s", path);
    naming->file = file;
}

/* The names in FOLDER have landed. */
static void land(struct replay *replay, const char *folder)
{
    size_t kept = 0, length = strlen(folder);
    for (size_t i = 0; i < replay->pending_count; i++) {
        struct naming naming = replay->pending[i];
        if (strncmp(naming.path, folder, length) == 0 && naming.path[length] == '/' && !strchr(naming.path + length + 1, '/'))
            set_name(&replay->landed, naming.path, naming.file);
        else
            replay->pending[kept++] = naming;
    }
    replay->pending_count = kept;
}

static struct file *file_at(struct replay *replay, int number)
{
    if (number < 1 || number >= MOST_FILES)
        die("too many files");
    return &replay->files[number];
}

static void add_bytes(struct file *file, size_t length, FILE *log)
{
    file->all.at = realloc(file->all.at, file->all.length + length + 1);
    if (fread(file->all.at + file->all.length, 1, length, log) != length)
        die("the log is torn");
    file->all.length += length;
}

static int take_step(struct replay *replay, FILE *log)
{
    char line[2 * PATH_SIZE + 32], one[PATH_SIZE], other[PATH_SIZE];
    int number;
    size_t length;
    if (!fgets(line, sizeof line, log))
        return 0;
    if (sscanf(line, "create %d %4095s", &number, one) == 2) {
        file_at(replay, number)->all.at = malloc(1);
        give_name(replay, one, number);
    } else if (sscanf(line, "write %d %zu", &number, &length) == 2) {
        add_bytes(file_at(replay, number), length, log);
    } else if (sscanf(line, "sync %d", &number) == 1) {
        file_at(replay, number)->synced = file_at(replay, number)->all.length;
    } else if (sscanf(line, "folder %4095s", one) == 1) {
        land(replay, one);
    } else if (sscanf(line, "rename %4095s %4095s", one, other) == 2) {
        give_name(replay, other, find_name(&replay->now, one));
        give_name(replay, one, NONE);
    } else if (sscanf(line, "unlink %4095s", one) == 1) {
        give_name(replay, one, NONE);
    } else if (sscanf(line, "mkdir %4095s", one) == 1) {
        give_name(replay, one, FOLDER);
    } else {
        die(line);
    }
    return 1;
}

int main(int argc, char **argv)
{
    static struct replay replay;
    FILE *log = argc == 5 ? fopen(argv[1], "rb") : NULL;
    if (!log)
        die("LOG PATH OLD NEW");
    replay.path = argv[2];
    replay.old = read_file(argv[3]);
    replay.new = read_file(argv[4]);
    replay.files[0] = (struct file){replay.old, replay.old.length};
    if (replay.old.at) {
        set_name(&replay.landed, replay.path, 0);
        set_name(&replay.now, replay.path, 0);
    }
    cut_power(&replay, 0);
    while (take_step(&replay, log)) {
        replay.step++;
        cut_power(&replay, 0);
    }
    cut_power(&replay, 1);
    printf("%zu states after %zu steps, %d faults\n", replay.states, replay.step, replay.faults);
    return replay.faults != 0;
}

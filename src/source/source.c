#include "source/source.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"

/* Opens PATH, which must be a file: reading a pipe or a device could wait for ever. *SIZE is how long it is. -1 if it cannot
 * be opened. */
static int open_file(const char *path, off_t *size, const char **wrong)
{
    struct stat about = {0};
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    if (file < 0 || fstat(file, &about) != 0)
        *wrong = strerror(errno);
    else if (S_ISDIR(about.st_mode))
        *wrong = strerror(EISDIR);
    else if (!S_ISREG(about.st_mode))
        *wrong = "this is a pipe or a device, not a file; use - for standard input";
    else {
        *size = about.st_size;
        return file;
    }
    if (file >= 0)
        close(file);
    return -1;
}

/* All of FILE, in ARENA; *WRONG is set if it cannot be read. SIZE is how long it was when it was opened, 0 where nobody
 * knows: a read that was asked for more and brings just that has come to the end. */
static char *read_all(struct arena *arena, int file, off_t size, size_t *length, const char **wrong)
{
    size_t room = 16 * 1024, used = 0;
    if (size > 0 && size <= SOURCE_LARGEST)
        room = (size_t)size + 2; /* one to see that it has ended, and the NUL */
    char *bytes = arena_resize(arena, NULL, 0, room);
    for (;;) {
        if (used + 1 >= room) {
            bytes = arena_resize(arena, bytes, room, room * 2);
            room *= 2;
        }
        ssize_t n = read(file, bytes + used, room - used - 1);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            *wrong = strerror(errno);
        if (n <= 0)
            break;
        used += (size_t)n;
        if (used > SOURCE_LARGEST) {
            *wrong = SOURCE_TOO_LARGE;
            break;
        }
        if (size > 0 && used == (size_t)size)
            break;
    }
    bytes[used] = '\0';
    *length = used;
    return bytes;
}

void source_find_lines(struct sources *sources, unsigned file)
{
    struct arena *arena = sources->arena;
    struct source *source = &sources->items[file];
    const char *end = source->text + source->length;
    size_t count = 1, capacity = source->length / 32 + 8; /* as many as there are likely to be */
    uint32_t *lines = arena_alloc(arena, capacity * sizeof *lines);
    for (const char *p = source->text; p < end && (p = memchr(p, '\n', (size_t)(end - p))); p++) {
        lines = arena_grow(arena, lines, count, &capacity, sizeof *lines);
        lines[count++] = (uint32_t)(p - source->text + 1);
    }
    source->lines = lines;
    source->line_count = count;
}

/* Adds TEXT, which lives as long as SOURCES and has a NUL behind it. */
static int add_text(struct sources *sources, const char *name, const char *text, size_t length)
{
    sources->items = arena_grow(sources->arena, sources->items, sources->count,
                                &sources->capacity, sizeof *sources->items);
    struct source *source = &sources->items[sources->count];
    static const char mark[3] = {'\xef', '\xbb', '\xbf'};
    bool marked = length >= sizeof mark && memcmp(text, mark, sizeof mark) == 0;
    if (marked) {
        text += sizeof mark;
        length -= sizeof mark;
    }
    const char *given = arena_copy(sources->arena, name, strlen(name));
    *source = (struct source){
        .name = text_shown(sources->arena, given),
        .given = given,
        .text = text,
        .length = length,
        .marked = marked,
        .version = -1,
    };
    source->path = source->name;
    return (int)sources->count++;
}

int source_add(struct sources *sources, const char *name, const char *text, size_t length)
{
    int index = add_text(sources, name, arena_copy(sources->arena, text, length), length);
    source_find_lines(sources, (unsigned)index);
    return index;
}

int source_share(struct sources *sources, const struct source *source)
{
    sources->items = arena_grow(sources->arena, sources->items, sources->count,
                                &sources->capacity, sizeof *sources->items);
    sources->items[sources->count] = *source;
    return (int)sources->count++;
}

char *source_bytes(struct arena *arena, const char *path, size_t *length, const char **wrong)
{
    bool standard = strcmp(path, "-") == 0;
    off_t size = 0;
    int file = standard ? STDIN_FILENO : open_file(path, &size, wrong);
    if (file < 0)
        return NULL;
    const char *fault = NULL;
    char *bytes = read_all(arena, file, size, length, &fault);
    if (!standard)
        close(file);
    if (fault)
        *wrong = fault;
    return fault ? NULL : bytes;
}

int source_load(struct sources *sources, const char *path, const char *name, const char **wrong)
{
    size_t length = 0;
    const char *bytes = source_bytes(sources->arena, path, &length, wrong);
    int index = bytes ? add_text(sources, name, bytes, length) : -1;
    if (index >= 0)
        sources->items[index].path = arena_copy(sources->arena, path, strlen(path));
    return index;
}

int source_read(struct sources *sources, const char *path, const char *name, const char **wrong)
{
    int index = source_load(sources, path, name, wrong);
    if (index >= 0)
        source_find_lines(sources, (unsigned)index);
    return index;
}

unsigned source_line(const struct source *source, size_t offset)
{
    size_t low = 0, high = source->line_count;
    while (high - low > 1) {
        size_t middle = (low + high) / 2;
        if (source->lines[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return (unsigned)low + 1;
}

const char *source_line_text(const struct source *source, unsigned line, size_t *length)
{
    size_t start = source->lines[line - 1];
    size_t end = line < source->line_count ? source->lines[line] : source->length;
    while (end > start && (source->text[end - 1] == '\n' || source->text[end - 1] == '\r'))
        end--;
    *length = end - start;
    return source->text + start;
}

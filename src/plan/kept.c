#include "plan/kept.h"

#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "plan/record_months.h"
#include "syntax/read.h"

enum {
    CHUNK = 32 * 1024, /* a camp of a season and its tree */
    MOST_KEPT = 1000   /* findings: a file with more of them is read again each time */
};

static const char MARK[] = "\xef\xbb\xbf"; /* a byte order mark */

/* --- opening, and what is gone --- */

static void drop_table(void *table)
{
    g_hash_table_destroy(table);
}

void kept_open(struct kept *kept, struct memory *memory)
{
    memory->chunk = CHUNK;
    *kept = (struct kept){.memory = memory, .arena = arena_open(memory)};
    kept->files = g_hash_table_new(g_str_hash, g_str_equal);
    arena_at_end(kept->arena, drop_table, kept->files);
    kept->phrases = phrasebook_new(kept->arena);
}

static void drop_file(struct kept *kept, struct kept_file *file)
{
    if (file->arena != kept->arena)
        arena_free(file->arena);
}

void kept_begin(struct kept *kept)
{
    kept->compile++;
    arena_free(kept->making);
    kept->making = NULL;
}

void kept_end(struct kept *kept)
{
    GHashTableIter at;
    void *value;
    g_hash_table_iter_init(&at, kept->files);
    while (g_hash_table_iter_next(&at, NULL, &value)) {
        struct kept_file *file = value;
        if (file->met == kept->compile || file->source.shelf)
            continue;
        g_hash_table_iter_remove(&at);
        drop_file(kept, file);
    }
}

struct kept_file *kept_find(const struct kept *kept, const char *real)
{
    return g_hash_table_lookup(kept->files, real);
}

/* --- is it as it was? --- */

static bool stamp_of(const char *path, struct file_stamp *stamp)
{
    enum { COARSEST = 2 }; /* seconds, of the clocks of file systems */
    struct stat about;
    if (stat(path, &about) != 0 || !S_ISREG(about.st_mode))
        return false;
    *stamp = (struct file_stamp){.device = about.st_dev,
                                 .number = about.st_ino,
                                 .size = (uint64_t)about.st_size,
                                 .seconds = about.st_ctim.tv_sec,
                                 .nanoseconds = about.st_ctim.tv_nsec,
                                 .settled = time(NULL) > about.st_ctim.tv_sec + COARSEST};
    return true;
}

static bool same_stamp(const struct file_stamp *a, const struct file_stamp *b)
{
    return a->settled && b->settled && a->device == b->device && a->number == b->number && a->size == b->size &&
           a->seconds == b->seconds && a->nanoseconds == b->nanoseconds;
}

static bool has_bytes(const struct kept_file *file, const char *bytes, size_t length)
{
    size_t before = file->source.marked ? sizeof MARK - 1 : 0;
    return length == before + file->source.length && memcmp(bytes, MARK, before) == 0 &&
           memcmp(bytes + before, file->source.text, file->source.length) == 0;
}

/* --- reading --- */

/* The file that is asked for, which lives in ARENA, read from BYTES and added to SOURCES. */
static struct kept_file *read_kept(struct kept *kept, struct arena *arena, const struct kept_ask *ask,
                                   const char *bytes, size_t length, struct sources *sources)
{
    struct kept_file *file = arena_alloc(arena, sizeof *file);
    struct sources one = {.arena = arena};
    source_add(&one, ask->shown, bytes, length);
    *file = (struct kept_file){.arena = arena,
                               .real = arena_copy(arena, ask->real, strlen(ask->real)),
                               .source = one.items[0],
                               .diag = diag_new(arena, NULL),
                               .content = ++kept->contents};
    file->source.path = arena_copy(arena, ask->path, strlen(ask->path));
    file->source.shelf = ask->shelf;
    file->source.version = ask->version;
    file->from = ask->from;
    unsigned index = (unsigned)source_share(sources, &file->source);
    struct extent skipped = {0, 0};
    if (ask->from)
        skipped = record_days_before(file->source.text, file->source.length, ask->from);
    file->tree = read_file_without(arena, sources, index, skipped, kept->phrases, file->diag);
    return file;
}

/* BYTES in place of what OLD, which may be NULL, holds. */
static struct kept_file *renew(struct kept *kept, struct kept_file *old, const struct kept_ask *ask, const char *bytes,
                               size_t length, struct sources *sources)
{
    if (!ask->shelf)
        kept->making = arena_open(kept->memory);
    struct kept_file *file =
        read_kept(kept, ask->shelf ? kept->arena : kept->making, ask, bytes, length, sources);
    g_hash_table_replace(kept->files, (char *)file->real, file);
    kept->making = NULL;
    if (old)
        drop_file(kept, old);
    return file;
}

static bool stands_as_before(const struct kept_file *file, const struct kept_ask *ask, size_t index)
{
    return file->tree->file == index && strcmp(file->source.given, ask->shown) == 0 &&
           strcmp(file->source.path, ask->path) == 0 && file->from == ask->from && file->source.shelf == ask->shelf &&
           file->diag->count < MOST_KEPT;
}

/* The bytes that ask means, in SCRATCH where they had to be read; NULL with *WRONG set, and without where they are those of
 * OLD. */
static const char *find_bytes(const struct kept_file *old, const struct kept_ask *ask, const struct file_stamp *stamp,
                              struct arena *scratch, size_t *length, const char **wrong)
{
    if (!ask->bytes) {
        if (old && old->from_disk && same_stamp(&old->stamp, stamp))
            return NULL;
        return source_bytes(scratch, ask->path, length, wrong);
    }
    *length = ask->length;
    if (ask->length > SOURCE_LARGEST)
        *wrong = SOURCE_TOO_LARGE;
    return *wrong ? NULL : ask->bytes;
}

/* The text of OLD as it stood in its file. */
static const char *whole_text(struct arena *arena, const struct kept_file *old, size_t *length)
{
    size_t before = old->source.marked ? sizeof MARK - 1 : 0;
    *length = before + old->source.length;
    char *text = arena_alloc(arena, *length + 1);
    memcpy(text, MARK, before);
    memcpy(text + before, old->source.text, old->source.length);
    return text;
}

/* FILE, whose bytes are still these, as the last of SOURCES. */
static struct kept_file *meet_again(struct kept *kept, struct kept_file *file, const struct kept_ask *ask,
                                    struct arena *scratch, struct sources *sources)
{
    size_t length;
    if (!stands_as_before(file, ask, sources->count)) {
        const char *bytes = whole_text(scratch, file, &length);
        return renew(kept, file, ask, bytes, length, sources);
    }
    file->source.version = ask->version;
    source_share(sources, &file->source);
    return file;
}

struct kept_file *kept_take(struct kept *kept, const struct kept_ask *ask, struct sources *sources, struct diag *diag,
                            const char **wrong)
{
    struct kept_file *file = kept_find(kept, ask->real);
    struct file_stamp stamp = {0};
    struct arena *scratch = arena_beside(sources->arena);
    size_t length = 0;
    if (!ask->bytes && !stamp_of(ask->path, &stamp))
        stamp = (struct file_stamp){0};
    const char *bytes = find_bytes(file, ask, &stamp, scratch, &length, wrong);
    if (!*wrong) {
        bool same = file && (!bytes || has_bytes(file, bytes, length));
        file = same ? meet_again(kept, file, ask, scratch, sources)
                    : renew(kept, file, ask, bytes, length, sources);
        file->met = kept->compile;
        file->from_disk = !ask->bytes;
        file->stamp = stamp;
        diag_add_kept(diag, file->diag);
    }
    arena_free(scratch);
    return *wrong ? NULL : file;
}

void kept_add_shelf(struct kept *kept, struct kept_file *file)
{
    kept->shelf = arena_grow(kept->arena, kept->shelf, kept->shelf_count, &kept->shelf_capacity, sizeof *kept->shelf);
    kept->shelf[kept->shelf_count++] = file;
}

#include "cli/sheet_list.h"

#include <errno.h>
#include <fcntl.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"
#include "base/text.h"

enum { FORMAT = 1, MOST_BYTES = 64 << 20, MOST_PAGES = 1000 };

static const char not_a_list[] = SHEET_LIST_NAME " is no list that `print` made; move it away, and everything is printed again";

static const char *path_in(struct arena *arena, const char *folder, const char *name)
{
    return arena_printf(arena, "%s/%s", folder, name);
}

/* --- files --- */

static bool ends_in(const char *name, const char *end)
{
    size_t length = strlen(name), short_by = strlen(end);
    return length > short_by && strcmp(name + length - short_by, end) == 0;
}

int listed_files(const struct listed_sheet *sheet)
{
    return ends_in(sheet->name, ".svg") ? sheet->pages : 1;
}

const char *listed_file(struct arena *arena, const struct listed_sheet *sheet, int number)
{
    if (number == 1)
        return sheet->name;
    return arena_printf(arena, "%.*s-%d.svg", (int)(strlen(sheet->name) - strlen(".svg")), sheet->name, number);
}

bool listed_is_there(struct arena *arena, const struct listed_sheet *sheet, const char *folder)
{
    for (int i = 1; i <= listed_files(sheet); i++) {
        struct stat about;
        if (stat(path_in(arena, folder, listed_file(arena, sheet, i)), &about) != 0 || !S_ISREG(about.st_mode) ||
            about.st_size == 0)
            return false;
    }
    return true;
}

void listed_remove(struct arena *arena, const struct listed_sheet *sheet, int kept, const char *folder)
{
    for (int i = kept + 1; i <= listed_files(sheet); i++)
        unlink(path_in(arena, folder, listed_file(arena, sheet, i)));
}

/* --- entries --- */

struct listed_sheet *sheet_list_find(const struct sheet_list *list, const char *name)
{
    size_t low = 0, high = list->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        int order = strcmp(list->items[middle].name, name);
        if (order == 0)
            return &list->items[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

struct listed_sheet *sheet_list_put(struct sheet_list *list, const char *name)
{
    struct listed_sheet *found = sheet_list_find(list, name);
    if (found)
        return found;
    list->items = arena_grow(list->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    size_t at = list->count++;
    for (; at > 0 && strcmp(list->items[at - 1].name, name) > 0; at--)
        list->items[at] = list->items[at - 1];
    list->items[at] = (struct listed_sheet){.name = name, .sheet = "", .plan = "", .version = "", .title = "", .form = ""};
    return &list->items[at];
}

/* --- reading --- */

/* Puts the file's bytes into *BYTES, NULL if there is no file; returns what went wrong, or NULL. */
static const char *read_bytes(struct arena *arena, const char *path, const char **bytes, size_t *length)
{
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK); /* a pipe by that name must not keep us waiting */
    struct stat about;
    *bytes = NULL;
    *length = 0;
    if (file < 0)
        return errno == ENOENT ? NULL : strerror(errno);
    if (fstat(file, &about) != 0 || !S_ISREG(about.st_mode) || about.st_size > MOST_BYTES) {
        close(file);
        return not_a_list;
    }
    char *text = arena_alloc(arena, (size_t)about.st_size + 1);
    ssize_t n;
    while (*length < (size_t)about.st_size && (n = read(file, text + *length, (size_t)about.st_size - *length)) > 0)
        *length += (size_t)n;
    close(file);
    *bytes = text;
    return NULL;
}

static const char *words_of(struct arena *arena, const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    return json_is_string(value) ? arena_copy(arena, json_string_value(value), json_string_length(value)) : NULL;
}

/* Accepts only a file of ours, inside the folder: whoever can write the list must not choose what is removed
 * elsewhere. */
static bool is_own_name(const char *name)
{
    return *name && *name != '.' && !strchr(name, '/') && (ends_in(name, ".svg") || ends_in(name, ".pdf") ||
                                                           ends_in(name, ".ics") || ends_in(name, ".html"));
}

static bool read_problems(struct arena *arena, const json_t *array, struct listed_sheet *sheet)
{
    size_t count = json_array_size(array);
    struct listed_problem *problems = arena_alloc(arena, (count + 1) * sizeof *problems);
    for (size_t i = 0; i < count; i++) {
        const json_t *one = json_array_get(array, i);
        problems[i] = (struct listed_problem){words_of(arena, one, "words"), words_of(arena, one, "help")};
        if (!problems[i].words || problems[i].words[0] < 'a' || problems[i].words[0] > 'f')
            return false;
    }
    sheet->problems = problems;
    sheet->problem_count = count;
    return true;
}

static bool read_entry(struct sheet_list *list, const json_t *object)
{
    struct arena *arena = list->arena;
    const char *name = words_of(arena, object, "name"), *sheet = words_of(arena, object, "sheet");
    const char *version = words_of(arena, object, "version"), *title = words_of(arena, object, "title");
    const char *form = words_of(arena, object, "form"), *plan = words_of(arena, object, "plan");
    json_int_t pages = json_integer_value(json_object_get(object, "pages"));
    if (!name || !is_own_name(name) || !sheet || !version || pages < 0 || pages > MOST_PAGES)
        return false;
    struct listed_sheet *entry = sheet_list_put(list, name);
    entry->sheet = sheet;
    entry->version = version;
    entry->plan = plan ? plan : "";
    entry->title = title ? title : "";
    entry->pages = (int)pages;
    entry->athlete = words_of(arena, object, "athlete");
    entry->coach = json_is_true(json_object_get(object, "coach"));
    entry->private = json_is_true(json_object_get(object, "private"));
    entry->form = form ? form : "";
    return read_problems(arena, json_object_get(object, "problems"), entry);
}

const char *sheet_list_read(struct sheet_list *list, struct arena *arena, const char *folder)
{
    const char *bytes;
    size_t length;
    *list = (struct sheet_list){.arena = arena};
    const char *wrong = read_bytes(arena, path_in(arena, folder, SHEET_LIST_NAME), &bytes, &length);
    if (wrong || !bytes)
        return wrong;
    json_t *root = json_loadb(bytes, length, 0, NULL);
    const json_t *sheets = json_object_get(root, "sheets");
    bool good = json_integer_value(json_object_get(root, "format")) == FORMAT && json_is_array(sheets);
    for (size_t i = 0; good && i < json_array_size(sheets); i++)
        good = read_entry(list, json_array_get(sheets, i));
    json_decref(root);
    return good ? NULL : not_a_list;
}

/* --- writing --- */

static void add_member(struct text *out, const char *key, const char *words)
{
    json_t *value = json_string(words);
    char *quoted = value ? json_dumps(value, JSON_ENCODE_ANY) : NULL;
    text_addf(out, "%s\"%s\": %s", out->data[out->length - 1] == '{' ? "" : ", ", key, quoted ? quoted : "\"\"");
    free(quoted);
    json_decref(value);
}

static void add_problems(struct text *out, const struct listed_sheet *sheet)
{
    text_add(out, ", \"problems\": [");
    for (size_t i = 0; i < sheet->problem_count; i++) {
        text_add(out, i ? ", {" : "{");
        add_member(out, "words", sheet->problems[i].words);
        if (sheet->problems[i].help)
            add_member(out, "help", sheet->problems[i].help);
        text_add_char(out, '}');
    }
    text_add_char(out, ']');
}

static void add_entry(struct text *out, const struct listed_sheet *sheet)
{
    text_add(out, "    {");
    add_member(out, "name", sheet->name);
    add_member(out, "sheet", sheet->sheet);
    add_member(out, "version", sheet->version);
    add_member(out, "plan", sheet->plan);
    text_addf(out, ", \"pages\": %d", sheet->pages);
    add_member(out, "title", sheet->title);
    if (sheet->athlete)
        add_member(out, "athlete", sheet->athlete);
    if (sheet->coach)
        text_add(out, ", \"coach\": true");
    if (sheet->private)
        text_add(out, ", \"private\": true");
    if (*sheet->form)
        add_member(out, "form", sheet->form);
    if (sheet->problem_count)
        add_problems(out, sheet);
    text_add_char(out, '}');
}

const char *sheet_list_write(const struct sheet_list *list, const char *folder)
{
    struct text out = {.arena = list->arena};
    bool private = false; /* whoever has a version made from private figures could find them by trying */
    text_addf(&out, "{\"format\": %d, \"sheets\": [\n", FORMAT);
    for (size_t i = 0; i < list->count; i++) {
        private |= list->items[i].private;
        text_add(&out, i ? ",\n" : "");
        add_entry(&out, &list->items[i]);
    }
    text_add(&out, "\n]}\n");
    const char *path = path_in(list->arena, folder, SHEET_LIST_NAME), *bytes;
    size_t length;
    if (!list->count)
        return unlink(path) == 0 || errno == ENOENT ? NULL : strerror(errno);
    if (!read_bytes(list->arena, path, &bytes, &length) && bytes && length == out.length &&
        memcmp(bytes, text_get(&out), length) == 0)
        return NULL;
    return private ? output_write_private(path, text_get(&out), out.length) : output_write(path, text_get(&out), out.length);
}

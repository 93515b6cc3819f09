/* usage: make_languages CATALOGUE.mo... - writes the tables of src/language/language.h, as C, to standard output. The build
 * runs it on what msgfmt makes of the files of po/.
 *
 * The form of a .mo file is that of GNU gettext's manual, "The Format of GNU MO Files". The rule of the plural is an expression
 * of C in n, and goes into the table as it stands once it is seen to be no more than that. */
#include <glib.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct entry {
    char *context;
    const char *id, *forms;
    size_t length; /* of the forms, each with its NUL */
};

struct catalogue {
    const char *path;
    const char *header;
    char *name, *code;
    struct entry *entries;
    size_t count;
};

_Noreturn static void fail(const char *path, const char *why)
{
    fprintf(stderr, "make_languages: %s: %s\n", path, why);
    exit(1);
}

/* msgfmt writes the low byte first on every machine. */
static uint32_t number_at(const char *bytes, size_t at)
{
    const unsigned char *byte = (const unsigned char *)bytes + at;
    return (uint32_t)byte[0] | (uint32_t)byte[1] << 8 | (uint32_t)byte[2] << 16 | (uint32_t)byte[3] << 24;
}

/* --- reading --- */

/* What the header says of KEY, or NULL. */
static char *header_line(const struct catalogue *catalogue, const char *key)
{
    size_t length = strlen(key);
    for (const char *line = catalogue->header; line && *line; line = strchr(line, '\n') ? strchr(line, '\n') + 1 : NULL)
        if (strncmp(line, key, length) == 0 && line[length] == ':')
            return g_strstrip(g_strndup(line + length + 1, strcspn(line + length + 1, "\n")));
    return NULL;
}

static char *header_must(const struct catalogue *catalogue, const char *key)
{
    char *value = header_line(catalogue, key);
    if (!value || !*value)
        fail(catalogue->path, key);
    return value;
}

static int by_id(const void *left, const void *right)
{
    const struct entry *a = left, *b = right;
    int order = strcmp(a->context, b->context);
    return order ? order : strcmp(a->id, b->id);
}

static void read_entry(struct catalogue *catalogue, const char *bytes, size_t size, size_t number)
{
    uint32_t originals = number_at(bytes, 12), translations = number_at(bytes, 16);
    uint32_t id = number_at(bytes, originals + 8 * number + 4), said = number_at(bytes, translations + 8 * number + 4);
    uint32_t length = number_at(bytes, translations + 8 * number);
    if (id >= size || said + length >= size)
        fail(catalogue->path, "this is no catalogue");
    if (!bytes[id]) {
        catalogue->header = bytes + said;
        return;
    }
    const char *end = strchr(bytes + id, '\4');
    catalogue->entries[catalogue->count++] =
        (struct entry){end ? g_strndup(bytes + id, (size_t)(end - (bytes + id))) : g_strdup(""), end ? end + 1 : bytes + id,
                       bytes + said, (size_t)length + 1};
}

static struct catalogue read_catalogue(const char *path)
{
    struct catalogue catalogue = {.path = path};
    char *bytes = NULL;
    gsize size = 0;
    if (!g_file_get_contents(path, &bytes, &size, NULL) || size < 28 || number_at(bytes, 0) != 0x950412de)
        fail(path, "this is no catalogue");
    size_t count = number_at(bytes, 8);
    catalogue.entries = g_new0(struct entry, count + 1);
    for (size_t i = 0; i < count; i++)
        read_entry(&catalogue, bytes, size, i);
    if (!catalogue.header)
        fail(path, "it has no header");
    qsort(catalogue.entries, catalogue.count, sizeof *catalogue.entries, by_id);
    catalogue.name = header_must(&catalogue, "X-Name");
    catalogue.code = header_must(&catalogue, "Language");
    return catalogue;
}

/* --- writing --- */

/* One text with its NUL, as characters: no literal may be as long as a whole catalogue. Gives where it begins, at AT. */
static size_t put_text(const char *text, size_t *at)
{
    size_t begins = *at;
    for (const char *byte = text; *byte; byte++)
        printf("'\\%03o',", (unsigned char)*byte);
    puts("0,");
    *at += strlen(text) + 1;
    return begins;
}

/* The rule of how many forms there are: `nplurals=2; plural=n != 1;`. */
static size_t write_rule(const struct catalogue *catalogue)
{
    const char *rule = header_must(catalogue, "Plural-Forms");
    const char *count = strstr(rule, "nplurals="), *plural = strstr(rule, " plural=");
    if (!count || !plural)
        fail(catalogue->path, "Plural-Forms");
    plural += strlen(" plural=");
    char *expression = g_strndup(plural, strcspn(plural, ";"));
    if (strspn(expression, "n0123456789 ()?:<>=!&|%+-*") != strlen(expression))
        fail(catalogue->path, "Plural-Forms is more than an expression in n");
    printf("static size_t form_%s(unsigned long n)\n{\n    (void)n;\n    return (size_t)(%s);\n}\n", catalogue->code, expression);
    return strtoul(count + strlen("nplurals="), NULL, 10);
}

static size_t forms_of(const struct entry *entry)
{
    size_t forms = 0;
    for (size_t at = 0; at < entry->length; at += strlen(entry->forms + at) + 1)
        forms++;
    return forms;
}

/* Where the texts of an entry begin. */
struct place {
    size_t context, id, forms;
};

/* All texts of CATALOGUE, whose language has FORMS of a count. A context stands there once. */
static struct place *write_texts(const struct catalogue *catalogue, size_t forms)
{
    struct place *places = g_new0(struct place, catalogue->count + 1);
    size_t at = 0;
    printf("static const char texts_%s[] = {\n", catalogue->code);
    for (size_t i = 0; i < catalogue->count; i++) {
        const struct entry *entry = &catalogue->entries[i];
        size_t own = forms_of(entry);
        if (own != 1 && own != forms)
            fail(catalogue->path, entry->id);
        bool known = i > 0 && strcmp(entry->context, catalogue->entries[i - 1].context) == 0;
        places[i].context = known ? places[i - 1].context : put_text(entry->context, &at);
        places[i].id = put_text(entry->id, &at);
        places[i].forms = at;
        for (size_t form = 0; form < entry->length; form += strlen(entry->forms + form) + 1)
            put_text(entry->forms + form, &at);
    }
    puts("};");
    return places;
}

static void write_catalogue(const struct catalogue *catalogue)
{
    size_t forms = write_rule(catalogue);
    struct place *places = write_texts(catalogue, forms);
    printf("static const struct translation translations_%s[] = {\n", catalogue->code);
    for (size_t i = 0; i < catalogue->count; i++)
        printf("{%zu,%zu,%zu},\n", places[i].context, places[i].id, places[i].forms);
    puts("};");
    g_free(places);
    const char *decimal = header_must(catalogue, "X-Decimal"), *hours = header_must(catalogue, "X-Hours");
    const char *ahead = header_line(catalogue, "X-Years-Ahead");
    printf("static const struct language language_%s = {\"%s\", \"%s\", texts_%s, translations_%s, %zu, form_%s, '%c', %d, %s, %s, %s, %s};\n",
           catalogue->code, catalogue->name, catalogue->code, catalogue->code, catalogue->code, catalogue->count, catalogue->code, *decimal,
           ahead ? atoi(ahead) : 0, strcmp(hours, "12") == 0 ? "true" : "false",
           header_line(catalogue, "X-Rises") ? "true" : "false",
           header_line(catalogue, "X-Read-By") ? "true" : "false", header_line(catalogue, "X-Guards-Read-By") ? "true" : "false");
}

static int by_name(const void *left, const void *right)
{
    return strcmp(((const struct catalogue *)left)->name, ((const struct catalogue *)right)->name);
}

int main(int argc, char **argv)
{
    size_t count = (size_t)argc - 1;
    struct catalogue *catalogues = g_new0(struct catalogue, count + 1);
    for (size_t i = 0; i < count; i++)
        catalogues[i] = read_catalogue(argv[i + 1]);
    qsort(catalogues, count, sizeof *catalogues, by_name);
    puts("#include \"language/language.h\"");
    puts("static const struct language language_en = {.name = \"English\", .code = \"en\", .decimal = '.', .read = true, .guards_read = true};");
    for (size_t i = 0; i < count; i++)
        write_catalogue(&catalogues[i]);
    puts("const struct language *const languages[] = {&language_en,");
    for (size_t i = 0; i < count; i++)
        printf("&language_%s,\n", catalogues[i].code);
    printf("};\nconst size_t language_count = %zu;\n", count + 1);
    return 0;
}

/* sarif.c - findings as SARIF 2.1.0. Section numbers are those of the OASIS standard, "Static Analysis Results
 * Interchange Format (SARIF) Version 2.1.0".
 *
 * * It names no date and no machine, and a folder only if the plan was given by its whole path, so that the same
 * plan gives the same log (appendix F). */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "export/json_text.h"
#include "export/listing.h"
#include "export/position.h"

static const char SCHEMA[] =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/* What paths are relative to (3.4.4): the repository, or the shelf that comes with the program.
 * Code scanning knows the first by this name. */
static const char ROOT_BASE[] = "%SRCROOT%", SHELF_BASE[] = "SHELF";

struct sarif {
    const struct diag *diag;
    const struct export_context *context;
    const char **rules; /* names of the kinds used, sorted */
    size_t rule_count;
};

/* WORDS as a plain text message (3.11.3): braces are doubled, because single ones stand for arguments (3.11.5), and
 * a space breaks what would turn bracketed words into a link (3.11.6). */
static json_t *message_json(const struct sarif *sarif, const char *words)
{
    const char *clean = position_sentence(sarif->diag->arena, words);
    struct text text = {.arena = sarif->diag->arena};
    for (const char *p = clean; *p; p++) {
        text_add_char(&text, *p);
        if (*p == '{' || *p == '}')
            text_add_char(&text, *p);
        if (*p == ']' && p[1] == '(')
            text_add_char(&text, ' ');
    }
    json_t *message = json_object();
    json_put_words(message, "text", text_get(&text));
    return message;
}

static json_t *region_json(struct file_stretch stretch)
{
    json_t *region = json_object();
    json_put_number(region, "startLine", stretch.start.line);
    json_put_number(region, "startColumn", stretch.start.column);
    json_put_number(region, "endLine", stretch.end.line);
    json_put_number(region, "endColumn", stretch.end.column);
    return region;
}

static json_t *artifact_json(const struct sarif *sarif, const struct source *source)
{
    bool relative;
    json_t *artifact = json_object();
    json_put_words(artifact, "uri",
                   position_uri(sarif->diag->arena, sarif->context, source, &relative));
    if (relative)
        json_put_words(artifact, "uriBaseId", source->shelf ? SHELF_BASE : ROOT_BASE);
    return artifact;
}

static json_t *location_json(const struct sarif *sarif, struct span span)
{
    struct file_stretch stretch = stretch_shown(sarif->diag, span);
    json_t *physical = json_object(), *location = json_object();
    json_put(physical, "artifactLocation", artifact_json(sarif, stretch.source));
    json_put(physical, "region", region_json(stretch));
    json_put(location, "physicalLocation", physical);
    return location;
}

/* --- rules --- */

static int compare_names(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

static void find_rules(struct sarif *sarif, const struct listing *listing)
{
    sarif->rules = arena_alloc(sarif->diag->arena, (listing->count + 1) * sizeof *sarif->rules);
    for (size_t i = 0; i < listing->count; i++)
        sarif->rules[i] = diagnostic_name(listing->items[i].finding->diagnostic);
    qsort(sarif->rules, listing->count, sizeof *sarif->rules, compare_names);
    for (size_t i = 0; i < listing->count; i++)
        if (i == 0 || strcmp(sarif->rules[i], sarif->rules[sarif->rule_count - 1]) != 0)
            sarif->rules[sarif->rule_count++] = sarif->rules[i];
}

static size_t rule_index(const struct sarif *sarif, const char *name)
{
    const char **rule =
        bsearch(&name, sarif->rules, sarif->rule_count, sizeof *sarif->rules, compare_names);
    return (size_t)(rule - sarif->rules);
}

/* "unknown-exercise" as a name for readers (3.49.7): "UnknownExercise". */
static const char *reading_name(struct arena *arena, const char *name)
{
    char *out = arena_alloc(arena, strlen(name) + 1), *end = out;
    bool start = true;
    for (const char *p = name; *p; p++) {
        if (*p != '-')
            *end++ = start ? g_ascii_toupper(*p) : *p;
        start = *p == '-';
    }
    return out;
}

/* The help of a check that has no page: its name as words. */
static const char *plain_help(struct arena *arena, const char *name)
{
    char *words = arena_copy(arena, name, strlen(name));
    for (char *p = words; *p; p++)
        if (*p == '-')
            *p = ' ';
    return words;
}

/* Code scanning asks for all three texts of a rule. */
static json_t *rule_json(const struct sarif *sarif, const char *name)
{
    struct arena *arena = sarif->diag->arena;
    const char *clean = position_words(arena, name);
    const char *page = sarif->context->describe ? sarif->context->describe(arena, name) : NULL;
    if (!page)
        page = plain_help(arena, clean);
    size_t title = strcspn(page, "\n");
    json_t *rule = json_object();
    json_put_words(rule, "id", clean);
    json_put_words(rule, "name", reading_name(arena, clean));
    json_put(rule, "shortDescription", message_json(sarif, arena_copy(arena, page, title)));
    json_put(rule, "fullDescription", message_json(sarif, page));
    json_put(rule, "help", message_json(sarif, page));
    return rule;
}

/* --- results --- */

/* The words as a sentence, and below it the notes that have no place, and the fix. */
static json_t *result_message(const struct sarif *sarif, const struct finding *finding)
{
    struct text words = {.arena = sarif->diag->arena};
    text_add(&words, finding->words);
    if (!words.length || !strchr(".!?", words.data[words.length - 1]))
        text_add_char(&words, '.');
    for (size_t i = 0; i < finding->note_count; i++)
        if (!finding->notes[i].placed)
            text_addf(&words, "\nNote: %s", finding->notes[i].words);
    if (finding->help)
        text_addf(&words, "\nFix: %s", finding->help);
    json_t *message = message_json(sarif, text_get(&words));
    return message;
}

/* The notes that have a place (3.27.22), or NULL. */
static json_t *related_json(const struct sarif *sarif, const struct finding *finding)
{
    json_t *related = json_array();
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct note *note = &finding->notes[i];
        if (!note->placed)
            continue;
        json_t *location = location_json(sarif, note->span);
        json_put_number(location, "id", json_array_size(related) + 1);
        json_put(location, "message", message_json(sarif, note->words));
        json_add(related, location);
    }
    if (json_array_size(related))
        return related;
    json_decref(related);
    return NULL;
}

/* The replacement (3.55 to 3.57); if nothing is put in, insertedContent is left out. */
static json_t *fix_json(const struct sarif *sarif, const struct finding *finding)
{
    struct file_stretch stretch = stretch_exact(sarif->diag, finding->fix);
    json_t *replacement = json_object(), *change = json_object(), *fix = json_object();
    json_put(replacement, "deletedRegion", region_json(stretch));
    if (*finding->replacement) {
        json_t *content = json_object();
        json_put_words(content, "text", position_words(sarif->diag->arena, finding->replacement));
        json_put(replacement, "insertedContent", content);
    }
    json_put(change, "artifactLocation", artifact_json(sarif, stretch.source));
    json_put(change, "replacements", json_pack("[o]", replacement));
    if (finding->help)
        json_put(fix, "description", message_json(sarif, finding->help));
    json_put(fix, "artifactChanges", json_pack("[o]", change));
    return fix;
}

static const char *level(enum severity severity)
{
    return severity == SEVERITY_INFO ? "note" : severity_word(severity);
}

static json_t *result_json(const struct sarif *sarif, const struct listed *listed)
{
    const struct finding *finding = listed->finding;
    json_t *result = json_object();
    json_put_words(result, "ruleId", position_words(sarif->diag->arena, diagnostic_name(finding->diagnostic)));
    json_put_number(result, "ruleIndex", rule_index(sarif, diagnostic_name(finding->diagnostic)));
    json_put_words(result, "level", level(finding->severity));
    json_put(result, "message", result_message(sarif, finding));
    json_put(result, "locations", json_pack("[o]", location_json(sarif, finding->span)));
    /* The key that GitHub's upload computes itself is left to it, because it complains about any other value. */
    json_put(result, "partialFingerprints",
             json_pack("{s:s}", "bellsheetFinding/v1", listed->fingerprint));
    json_t *related = related_json(sarif, finding);
    if (related)
        json_put(result, "relatedLocations", related);
    if (finding->replacement)
        json_put(result, "fixes", json_pack("[o]", fix_json(sarif, finding)));
    return result;
}

static json_t *driver_json(const struct sarif *sarif)
{
    json_t *driver = json_object(), *rules = json_array();
    json_put_words(driver, "name", "bellsheet");
    json_put_words(driver, "version", sarif->context->version);
    json_put_words(driver, "semanticVersion", sarif->context->version);
    for (size_t i = 0; i < sarif->rule_count; i++)
        json_add(rules, rule_json(sarif, sarif->rules[i]));
    json_put(driver, "rules", rules);
    return driver;
}

static json_t *base_json(const struct sarif *sarif, const char *words)
{
    json_t *base = json_object();
    json_put(base, "description", message_json(sarif, words));
    return base;
}

void export_sarif(const struct diag *diag, const struct export_context *context, struct text *out)
{
    struct listing listing = listing_make(diag, context);
    struct sarif sarif = {.diag = diag, .context = context};
    find_rules(&sarif, &listing);
    json_t *results = json_array(), *bases = json_object(), *run = json_object();
    for (size_t i = 0; i < listing.count; i++)
        json_add(results, result_json(&sarif, &listing.items[i]));
    json_put(bases, ROOT_BASE,
             base_json(&sarif, "The root of the repository that holds the plan."));
    json_put(bases, SHELF_BASE, base_json(&sarif, "The shelf that comes with bellsheet."));
    json_put(run, "tool", json_pack("{s:o}", "driver", driver_json(&sarif)));
    json_put_words(run, "language", "en-GB");
    json_put_words(run, "columnKind", "utf16CodeUnits");
    json_put(run, "originalUriBaseIds", bases);
    json_put(run, "results", results);
    json_write(json_pack("{s:s, s:s, s:[o]}", "$schema", SCHEMA, "version", "2.1.0", "runs", run),
               out);
}

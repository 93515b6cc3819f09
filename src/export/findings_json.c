/* findings_json.c - every finding with everything known about it, for scripts. The form is described by
 * share/schema/findings-1.schema.json; a change that could break a reader gets a new number. */
#include "export/json_text.h"
#include "export/listing.h"
#include "export/position.h"

enum { FORM_VERSION = 1 };

static json_t *position_json(struct position place)
{
    json_t *json = json_object();
    json_put_number(json, "line", place.line);
    json_put_number(json, "column", place.column);
    json_put_number(json, "offset", place.offset);
    return json;
}

static void put_stretch(json_t *json, const struct diag *diag, const struct export_context *context,
                        struct file_stretch stretch)
{
    json_put_words(json, "file", position_path(diag->arena, context, stretch.source));
    json_put(json, "start", position_json(stretch.start));
    json_put(json, "end", position_json(stretch.end));
}

static json_t *note_json(const struct diag *diag, const struct export_context *context,
                         const struct note *note)
{
    json_t *json = json_object();
    json_put_words(json, "message", position_sentence(diag->arena, note->words));
    if (note->placed)
        put_stretch(json, diag, context, stretch_shown(diag, note->span));
    return json;
}

static json_t *finding_json(const struct diag *diag, const struct export_context *context,
                            const struct listed *listed)
{
    const struct finding *finding = listed->finding;
    json_t *json = json_object(), *notes = json_array();
    json_put_words(json, "name", position_words(diag->arena, diagnostic_name(finding->diagnostic)));
    json_put_words(json, "severity", severity_word(finding->severity));
    json_put_words(json, "message", position_sentence(diag->arena, finding->words));
    put_stretch(json, diag, context, stretch_shown(diag, finding->span));
    json_put(json, "shelf", json_boolean(diag->sources->items[finding->span.file].shelf));
    json_put_words(json, "fingerprint", listed->fingerprint);
    for (size_t i = 0; i < finding->note_count; i++)
        json_add(notes, note_json(diag, context, &finding->notes[i]));
    json_put(json, "notes", notes);
    if (finding->help)
        json_put_words(json, "help", position_sentence(diag->arena, finding->help));
    if (finding->replacement) {
        json_t *fix = json_object();
        put_stretch(fix, diag, context, stretch_exact(diag, finding->fix));
        json_put_words(fix, "text", position_words(diag->arena, finding->replacement));
        json_put(json, "fix", fix);
    }
    return json;
}

void export_json(const struct diag *diag, const struct export_context *context, struct text *out)
{
    struct listing listing = listing_make(diag, context);
    json_t *json = json_object(), *counts = json_object(), *findings = json_array();
    json_put_words(json, "format", "bellsheet findings");
    json_put_number(json, "version", FORM_VERSION);
    json_put_words(json, "program", context->version);
    json_put_number(counts, "errors", listing.counts[SEVERITY_ERROR]);
    json_put_number(counts, "warnings", listing.counts[SEVERITY_WARNING]);
    json_put_number(counts, "infos", listing.counts[SEVERITY_INFO]);
    json_put(json, "counts", counts);
    for (size_t i = 0; i < listing.count; i++)
        json_add(findings, finding_json(diag, context, &listing.items[i]));
    json_put(json, "findings", findings);
    json_write(json, out);
}

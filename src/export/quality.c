/* quality.c - GitLab's code quality report: an array of findings with the properties that its
 * documentation names (docs.gitlab.com, "Code Quality", "Implement a custom tool"). No byte order
 * mark: its reader refuses one. */
#include "export/json_text.h"
#include "export/listing.h"
#include "export/position.h"

/* Of info, minor, major, critical and blocker. Nothing here is worth the last two. */
static const char *quality_severity(enum severity severity)
{
    return severity == SEVERITY_ERROR ? "major" : severity == SEVERITY_WARNING ? "minor" : "info";
}

static json_t *issue_json(const struct diag *diag, const struct export_context *context,
                          const struct listed *listed)
{
    const struct finding *finding = listed->finding;
    struct file_stretch stretch = stretch_shown(diag, finding->span);
    json_t *json = json_object(), *location = json_object(), *lines = json_object();
    json_put_words(json, "description", position_words(diag->arena, finding->words));
    json_put_words(json, "check_name", position_words(diag->arena, diagnostic_name(finding->diagnostic)));
    json_put_words(json, "fingerprint", listed->fingerprint);
    json_put_words(json, "severity", quality_severity(finding->severity));
    json_put_words(location, "path", position_path(diag->arena, context, stretch.source));
    json_put_number(lines, "begin", stretch.start.line);
    json_put_number(lines, "end", stretch.end.line);
    json_put(location, "lines", lines);
    json_put(json, "location", location);
    return json;
}

void export_quality(const struct diag *diag, const struct export_context *context, struct text *out)
{
    struct listing listing = listing_make(diag, context);
    json_t *issues = json_array();
    for (size_t i = 0; i < listing.count; i++)
        json_add(issues, issue_json(diag, context, &listing.items[i]));
    json_write(issues, out);
}

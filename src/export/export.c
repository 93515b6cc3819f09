#include "export/export.h"

#include <string.h>

static const struct export_format formats[] = {
    {"json", "every finding with its notes and fix", export_json},
    {"sarif", "SARIF 2.1.0, for code scanning and editors", export_sarif},
    {"github", "workflow commands, shown beside the lines", export_annotations},
    {"gitlab", "a code quality report", export_quality},
};

size_t export_format_count(void)
{
    return sizeof formats / sizeof *formats;
}

const struct export_format *export_format_at(size_t index)
{
    return &formats[index];
}

const struct export_format *export_format_find(const char *name)
{
    for (size_t i = 0; i < export_format_count(); i++)
        if (strcmp(formats[i].name, name) == 0)
            return &formats[i];
    return NULL;
}

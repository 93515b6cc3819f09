#include "source/diagnostics.h"

#include <string.h>

static const struct {
    const char *name, *title;
    enum family family;
    enum severity severity;
} all[] = {
#define DIAGNOSTIC(identifier, name, family, severity, title) {name, title, FAMILY_##family, SEVERITY_##severity},
#include "source/diagnostics.def"
#undef DIAGNOSTIC
};

const char *diagnostic_name(enum diagnostic diagnostic)
{
    return all[diagnostic].name;
}

const char *diagnostic_title(enum diagnostic diagnostic)
{
    return all[diagnostic].title;
}

enum family diagnostic_family(enum diagnostic diagnostic)
{
    return all[diagnostic].family;
}

enum severity diagnostic_severity(enum diagnostic diagnostic)
{
    return all[diagnostic].severity;
}

enum diagnostic diagnostic_find(const char *name)
{
    int i = 0;
    while (i < DIAGNOSTIC_COUNT && strcmp(all[i].name, name) != 0)
        i++;
    return (enum diagnostic)i;
}

const char *family_name(enum family family)
{
    static const char *const names[FAMILY_COUNT] = {
        [FAMILY_VOLUME] = "volume", [FAMILY_PAIRING] = "pairing", [FAMILY_PHASE] = "phase",
        [FAMILY_PERSON] = "person", [FAMILY_SENSE] = "sense",     [FAMILY_LINES] = "lines",
        [FAMILY_SHEETS] = "sheets"};
    return names[family];
}

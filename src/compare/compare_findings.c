/* compare_findings.c - which findings came and went. They are identified by their words and their file, not by their
 * lines; of one that is met several times it counts how often, because its words are those of the first or the worst. */
#include <stdlib.h>
#include <string.h>

#include "compare/compare.h"
#include "export/position.h"
#include "export/service.h"

struct findings_said {
    struct finding_change *items;
    size_t count, capacity;
};

static int compare(const void *one, const void *other)
{
    const struct finding_change *a = one, *b = other;
    int order = strcmp(a->place, b->place);
    order = order ? order : strcmp(a->name, b->name);
    order = order ? order : strcmp(a->words, b->words);
    return order ? order : strcmp(a->severity, b->severity);
}

/* PATH from the folder ROOT on: the same file has the same name in both plans. */
static const char *inside(const char *path, const char *root)
{
    size_t length = strlen(root);
    while (length && root[length - 1] == '/')
        length--;
    return length && strncmp(path, root, length) == 0 && path[length] == '/' ? path + length + 1 : path;
}

/* What others may read of DIAG's findings, each once with its number, sorted. What is only information is left out. */
static struct findings_said said_of(struct arena *arena, const struct diag *diag, const char *root)
{
    static const char *const severities[] = {[SEVERITY_INFO] = "info", [SEVERITY_WARNING] = "warning",
                                             [SEVERITY_ERROR] = "error"};
    const struct export_context context = {.version = ""};
    struct findings_said said = {0};
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = service_finding(diag, &context, diag->items[i]);
        if (!finding || finding->severity == SEVERITY_INFO)
            continue;
        said.items = arena_grow(arena, said.items, said.count, &said.capacity, sizeof *said.items);
        said.items[said.count++] = (struct finding_change){
            .severity = severities[finding->severity], .name = diagnostic_name(finding->diagnostic),
            .words = position_words(arena, finding->words), .met_words = finding->met_words,
            .place = inside(position_path(arena, &context, &diag->sources->items[finding->span.file]), root),
            .times = finding->met ? finding->met : 1};
    }
    if (said.count)
        qsort(said.items, said.count, sizeof *said.items, compare);
    size_t kept = 0;
    for (size_t i = 0; i < said.count; i++) {
        if (kept && compare(&said.items[kept - 1], &said.items[i]) == 0)
            said.items[kept - 1].times += said.items[i].times;
        else
            said.items[kept++] = said.items[i];
    }
    said.count = kept;
    return said;
}

static void add(struct comparison *comparison, struct finding_change finding, bool came, int times)
{
    finding.part = times < finding.times;
    finding.came = came;
    finding.times = times;
    comparison->findings = arena_grow(comparison->arena, comparison->findings, comparison->finding_count,
                                      &comparison->finding_capacity, sizeof *comparison->findings);
    comparison->findings[comparison->finding_count++] = finding;
}

void compare_findings(struct comparison *comparison, const struct diag *old, const char *old_root, const struct diag *now,
                      const char *now_root)
{
    const struct findings_said before = said_of(comparison->arena, old, old_root), after = said_of(comparison->arena, now, now_root);
    for (size_t i = 0, k = 0; i < before.count || k < after.count;) {
        int order = i == before.count ? 1 : k == after.count ? -1 : compare(&before.items[i], &after.items[k]);
        if (order == 0) {
            int more = after.items[k].times - before.items[i].times;
            if (more)
                add(comparison, more > 0 ? after.items[k] : before.items[i], more > 0, abs(more));
            i++;
            k++;
        } else if (order < 0) {
            add(comparison, before.items[i], false, before.items[i].times);
            i++;
        } else {
            add(comparison, after.items[k], true, after.items[k].times);
            k++;
        }
    }
}

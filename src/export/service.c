/* service.c - which findings a service gets. Its logs stay for ever and many people read them. So a finding that
 * reveals a health fact, or that is in a place that only the coach reads, becomes one that says only whom the work
 * is not for. */
#include "export/service.h"

static const char ENTRY_WORDS[] = "something that only the coach can read needs a look";
static const char HELP[] = "the coach's own `bellsheet check` says what it is";

static bool starts_openly(const struct diag *diag, uint32_t file)
{
    return !diag->sources->items[file].shelf && !diag_is_private(diag, (struct span){file, 0, 0});
}

/* The start of the file that SPAN is in or, if only the coach reads that, of the plan's first file. False if there
 * is none. */
static bool open_place(const struct diag *diag, struct span *span)
{
    uint32_t file = span->file;
    if (!starts_openly(diag, file))
        for (file = 0; file < diag->sources->count && !starts_openly(diag, file);)
            file++;
    *span = (struct span){file, 0, 0};
    return file < diag->sources->count;
}

static struct finding *neutral_copy(const struct diag *diag, const struct finding *finding)
{
    bool hidden = diag_is_private(diag, finding->span);
    bool of_work = !hidden && finding->neutral && *finding->neutral;
    struct finding *copy = arena_alloc(diag->arena, sizeof *copy);
    *copy = (struct finding){.severity = finding->severity,
                             .diagnostic = DIAG_ASK_THE_COACH,
                             .span = finding->span,
                             .words = of_work ? finding->neutral : ENTRY_WORDS,
                             .help = HELP,
                             .order = finding->order};
    return of_work || open_place(diag, &copy->span) ? copy : NULL;
}

static bool points_inside(const struct diag *diag, const struct finding *finding)
{
    bool inside = finding->replacement && diag_is_private(diag, finding->fix);
    for (size_t i = 0; i < finding->note_count && !inside; i++)
        inside = finding->notes[i].placed && diag_is_private(diag, finding->notes[i].span);
    return inside;
}

/* FINDING without what points at lines that only the coach reads. */
static struct finding *without_pointers(const struct diag *diag, const struct finding *finding)
{
    struct finding *copy = arena_alloc(diag->arena, sizeof *copy);
    *copy = *finding;
    copy->notes = arena_alloc(diag->arena, (finding->note_count + 1) * sizeof *copy->notes);
    copy->note_count = 0;
    for (size_t i = 0; i < finding->note_count; i++)
        if (!finding->notes[i].placed || !diag_is_private(diag, finding->notes[i].span))
            copy->notes[copy->note_count++] = finding->notes[i];
    if (copy->replacement && diag_is_private(diag, copy->fix))
        copy->replacement = copy->help = NULL;
    return copy;
}

bool service_is_neutral(const struct finding *finding)
{
    return finding->diagnostic == DIAG_ASK_THE_COACH;
}

const struct finding *service_finding(const struct diag *diag, const struct export_context *context,
                                      const struct finding *finding)
{
    if (context->private)
        return finding;
    if (finding->private)
        return NULL;
    if (finding->neutral || diag_is_private(diag, finding->span))
        return neutral_copy(diag, finding);
    return points_inside(diag, finding) ? without_pointers(diag, finding) : finding;
}

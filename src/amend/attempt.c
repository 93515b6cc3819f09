#include "amend/attempt.h"

#include <string.h>

#include "plan/plan_files.h"
#include "rules/rules.h"

/* Was FINDING there before? Lines move, so that only what it is and says counts. */
static bool was_found(const struct diag *before, const struct finding *finding)
{
    for (size_t i = 0; i < before->count; i++) {
        const struct finding *old = before->items[i];
        if (old->diagnostic == finding->diagnostic && old->severity >= finding->severity
            && strcmp(old->words, finding->words) == 0)
            return true;
    }
    return false;
}

static void compare(struct attempt *attempt, const struct diag *before)
{
    const struct diag *diag = attempt->project.diag;
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        if (finding->severity < SEVERITY_WARNING || was_found(before, finding))
            continue;
        attempt->warnings += finding->severity == SEVERITY_WARNING;
        if (finding->severity != SEVERITY_ERROR)
            continue;
        attempt->errors++;
        attempt->first = attempt->first ? attempt->first : finding;
    }
}

bool attempt_make(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt)
{
    const struct source *source = &before->sources.items[amended->file];
    struct overlay *overlay = arena_alloc(arena, sizeof *overlay);
    *overlay = (struct overlay){.path = plan_true_path(arena, source->path), .text = text_get(&amended->bytes),
                                .length = amended->bytes.length};
    *attempt = (struct attempt){.request = *request};
    attempt->request.overlays = overlay;
    attempt->request.overlay_count = 1;
    if (!project_load(&attempt->project, arena, &attempt->request))
        return false;
    rules_run(attempt->project.programme, attempt->project.diag);
    compare(attempt, before->diag);
    return true;
}

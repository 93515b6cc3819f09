#include "amend/attempt.h"

#include <string.h>

#include "model/programme.h"
#include "plan/plan_files.h"
#include "rules/rules.h"

/* Do both point at the same words? */
static bool same_text(const struct diag *a, struct span x, const struct diag *b, struct span y)
{
    size_t length = x.end - x.start;
    return length == y.end - y.start
           && memcmp(a->sources->items[x.file].text + x.start, b->sources->items[y.file].text + y.start, length) == 0;
}

static int times_met(const struct finding *finding)
{
    return finding->met ? finding->met : 1;
}

/* Was FINDING of NOW there before? Lines move, so only its check and its words count. A finding that is met several times
 * names the first or the worst of them: it is still the same when it is met less often, although it may then name another,
 * and it is not when it is met more often, although it may name the same. */
static bool was_found(const struct diag *before, const struct diag *now, const struct finding *finding)
{
    for (size_t i = 0; i < before->count; i++) {
        const struct finding *old = before->items[i];
        if (old->diagnostic != finding->diagnostic || old->severity < finding->severity)
            continue;
        int more = times_met(finding) - times_met(old);
        if ((more < 0 && same_text(before, old->span, now, finding->span)) || (more <= 0 && strcmp(old->words, finding->words) == 0))
            return true;
    }
    return false;
}

void attempt_check(struct attempt *attempt, const struct project *before)
{
    const struct diag *diag = attempt->project.diag;
    rules_run(attempt->project.programme, attempt->project.diag);
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        if (finding->severity < SEVERITY_WARNING || was_found(before->diag, diag, finding))
            continue;
        attempt->warnings += finding->severity == SEVERITY_WARNING;
        if (finding->severity != SEVERITY_ERROR)
            continue;
        attempt->errors++;
        attempt->first = attempt->first ? attempt->first : finding;
    }
}

const struct finding *attempt_new_error(const struct diag *before, const struct diag *now, size_t *from)
{
    while (*from < now->count) {
        const struct finding *finding = now->items[(*from)++];
        if (finding->severity == SEVERITY_ERROR && !was_found(before, now, finding))
            return finding;
    }
    return NULL;
}

struct project_request attempt_request(struct arena *arena, const struct project_request *request,
                                       const struct project *before, const struct amended *amended)
{
    struct project_request changed = *request;
    const struct source *source = &before->sources.items[amended->file];
    const char *path = plan_true_path(arena, source->path);
    struct overlay *overlays = arena_alloc(arena, (request->overlay_count + 1) * sizeof *overlays);
    size_t count = 0;
    for (size_t i = 0; i < request->overlay_count; i++)
        if (strcmp(request->overlays[i].path, path) != 0)
            overlays[count++] = request->overlays[i];
    overlays[count++] = (struct overlay){.path = path, .text = text_get(&amended->bytes), .length = amended->bytes.length};
    changed.overlays = overlays;
    changed.overlay_count = count;
    if (!changed.again.file_count)
        changed.again = before->shelf;
    return changed;
}

bool attempt_load(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt)
{
    *attempt = (struct attempt){.request = attempt_request(arena, request, before, amended)};
    return project_load(&attempt->project, arena, &attempt->request);
}

bool attempt_make(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct amended *amended, struct attempt *attempt)
{
    if (!attempt_load(arena, request, before, amended, attempt))
        return false;
    attempt_check(attempt, before);
    return true;
}

static const char *title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

bool occasion_same_name(const struct occasion *a, const struct occasion *b)
{
    return !a->session == !b->session && strcmp(title(a), title(b)) == 0
           && strcmp(a->athlete->name.folded, b->athlete->name.folded) == 0
           && strcmp(a->camp->name.folded, b->camp->name.folded) == 0;
}

const struct occasion *occasion_again(const struct programme *programme, const struct occasion *occasion)
{
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *other = &programme->occasions[i];
        if (other->date == occasion->date && other->clock == occasion->clock && occasion_same_name(other, occasion))
            return other;
    }
    return NULL;
}

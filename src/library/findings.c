/* findings.c - findings in the words of the public header. */
#include "export/position.h"
#include "library/session.h"

static struct bell_place place_of(struct file_stretch stretch)
{
    return (struct bell_place){.file = stretch.source->name,
                               .path = stretch.source->path,
                               .version = stretch.source->version,
                               .line = stretch.start.line,
                               .column = stretch.start.column,
                               .end_line = stretch.end.line,
                               .end_column = stretch.end.column,
                               .start = stretch.start.offset,
                               .end = stretch.end.offset};
}

static struct bell_note *list_notes(const struct bell_session *session, const struct finding *finding)
{
    const struct diag *diag = session->project.diag;
    struct bell_note *notes = arena_alloc(session->compile, (finding->note_count + 1) * sizeof *notes);
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct note *note = &finding->notes[i];
        notes[i] = (struct bell_note){.message = note->words, .placed = note->placed};
        if (note->placed)
            notes[i].place = place_of(stretch_shown(diag, note->span));
    }
    return notes;
}

static struct bell_finding make_finding(const struct bell_session *session, const struct finding *finding)
{
    static const enum bell_severity severities[] = {
        [SEVERITY_INFO] = BELL_INFO, [SEVERITY_WARNING] = BELL_WARNING, [SEVERITY_ERROR] = BELL_ERROR};
    const struct diag *diag = session->project.diag;
    struct bell_finding made = {.id = diagnostic_name(finding->diagnostic),
                                .severity = severities[finding->severity],
                                .place = place_of(stretch_shown(diag, finding->span)),
                                .message = finding->words,
                                .for_coach = finding->private || finding->neutral || diag_is_private(diag, finding->span),
                                .notes = list_notes(session, finding),
                                .note_count = finding->note_count,
                                .help = finding->help,
                                .replacement = finding->replacement};
    if (finding->replacement)
        made.edit = place_of(stretch_exact(diag, finding->fix));
    return made;
}

void session_list_findings(struct bell_session *session)
{
    const struct diag *diag = session->project.diag;
    session->findings = arena_alloc(session->compile, (diag->count + 1) * sizeof *session->findings);
    for (size_t i = 0; i < diag->count; i++)
        session->findings[i] = make_finding(session, diag->items[i]);
    session->finding_count = diag->count;
}

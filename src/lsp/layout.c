/* layout.c - a plan, or a part of it, in canonical layout: the edits that bring it there. */
#include <string.h>

#include "export/json_text.h"
#include "lsp/edit.h"
#include "lsp/methods.h"
#include "syntax/format.h"

/* A text as pieces: each is a line that is not blank, with what lies between it and the one before. Both layouts of
 * a plan have equally many, because no line is split or joined; the last piece is what follows the last line. */
struct pieces {
    const char *text;
    size_t *ends;
    size_t count;
};

static bool is_blank(const char *line, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (!strchr(" \t\r", line[i]))
            return false;
    return true;
}

static struct pieces cut(struct arena *arena, const char *text, size_t length)
{
    struct pieces pieces = {.text = text};
    size_t lines = 2;
    for (size_t i = 0; i < length; i++)
        lines += text[i] == '\n';
    pieces.ends = arena_alloc(arena, lines * sizeof *pieces.ends);
    for (size_t at = 0; at < length;) {
        const char *newline = memchr(text + at, '\n', length - at);
        size_t end = newline ? (size_t)(newline - text) : length, next = end + 1;
        bool blank = is_blank(text + at, end - at);
        while (!blank && text[end - 1] == '\r') /* no place of the protocol lies between the two bytes of a line end */
            end--;
        if (!blank)
            pieces.ends[pieces.count++] = end;
        at = next;
    }
    pieces.ends[pieces.count++] = length;
    return pieces;
}

/* The edits of the pieces that the bytes from FIRST to LAST touch. */
static json_t *compare(struct call *call, const struct focus *focus, const struct text *out, size_t first, size_t last)
{
    const struct source *source = focus->source;
    json_t *edits = json_array();
    struct pieces old = cut(call->arena, source->text, source->length);
    struct pieces new = cut(call->arena, text_get(out), out->length);
    if (old.count != new.count) {
        json_add(edits, edit_json(&focus->page, 0, source->length, text_get(out)));
        return edits;
    }
    for (size_t i = 0; i < old.count; i++) {
        size_t start = i ? old.ends[i - 1] : 0, from = i ? new.ends[i - 1] : 0;
        size_t length = old.ends[i] - start, other = new.ends[i] - from;
        bool same = length == other && memcmp(old.text + start, new.text + from, length) == 0;
        if (!same && start <= last && old.ends[i] >= first)
            json_add(edits, edit_json(&focus->page, start, old.ends[i],
                                      arena_copy(call->arena, new.text + from, other)));
    }
    return edits;
}

/* A plan with errors stays as it is. */
static json_t *lay_out(struct call *call, const struct focus *focus, size_t first, size_t last)
{
    struct text out = {.arena = call->arena};
    struct diag *diag = diag_new(call->arena, &focus->project->sources);
    enum format_outcome outcome = format_source(call->arena, &focus->project->sources, focus->file,
                                                phrasebook_new(call->arena), diag, &out);
    return outcome == FORMAT_CHANGED ? compare(call, focus, &out, first, last) : json_array();
}

json_t *lsp_formatting(struct call *call)
{
    struct focus focus;
    return call_focus(call, &focus) ? lay_out(call, &focus, 0, focus.source->length) : NULL;
}

json_t *lsp_range_formatting(struct call *call)
{
    struct focus focus;
    size_t first, last;
    if (!call_focus(call, &focus))
        return NULL;
    if (!page_read_range(&focus.page, json_object_get(call->params, "range"), &first, &last))
        return call_fail(call, ERROR_INVALID_PARAMS, "there is no such range");
    return lay_out(call, &focus, first, last);
}

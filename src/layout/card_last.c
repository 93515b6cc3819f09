/* card_last.c - what was done of a line the last time that its session was logged. */
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/card.h"
#include "model/occasion.h"
#include "model/programme.h"
#include "wording/wording.h"

static const struct logged_line *line_of(const struct done *log, const struct item *item)
{
    for (size_t i = 0; i < log->line_count; i++)
        if (log->lines[i].set_count && strcmp(log->lines[i].ref, item->ref) == 0 && log->lines[i].exercise == item->exercise)
            return &log->lines[i];
    return NULL;
}

const char *card_last(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                      const struct item *item)
{
    const struct logged_line *latest = NULL;
    for (size_t i = 0; programme && i < programme->log_count; i++) {
        const struct done *log = &programme->logs[i];
        bool same = log->athlete == occasion->athlete && log->session &&
                    log->session->first == occasion->session->first; /* versions of one session */
        const struct logged_line *line = same && !log->again && log->date < occasion->date ? line_of(log, item) : NULL;
        if (line && (!latest || latest->log->date <= log->date))
            latest = line;
    }
    if (!latest)
        return "";
    struct text out = {.arena = arena};
    text_add(&out, said(arena, "Last time: "));
    for (size_t i = 0; i < latest->set_count; i++) {
        text_addf(&out, "%s%s", i ? ", " : "", wording_logged_set(arena, &latest->sets[i]));
    }
    return text_keep(arena, &out);
}

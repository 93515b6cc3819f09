/* card_last.c - what was done of a line the last time that its session was logged. */
#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
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

/* Whether they are versions of one session. */
static bool is_same(const struct session *one, const struct session *other)
{
    return one == other || (one->first && one->first == other->first);
}

static void add_load(struct text *out, const struct logged_set *set)
{
    char number[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(set->load);
    const char *figure = mass_format(set->load, unit, number);
    switch (set->kind) {
    case LOAD_MASS:
        text_add(out, " @" WORDING_GAP);
        if (set->pieces > 1)
            text_addf(out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP, set->pieces);
        text_addf(out, "%s" WORDING_GAP "%s", figure, mass_unit_name(unit));
        break;
    case LOAD_BODY:
        if (set->load > 0)
            text_addf(out, " + %s" WORDING_GAP "%s", figure, mass_unit_name(unit));
        break;
    case LOAD_BAND:
        text_addf(out, ", %s", set->thing);
        break;
    default:
        break;
    }
}

static void add_set(struct text *out, const struct logged_set *set)
{
    if (set->count > 1)
        text_addf(out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP, set->count);
    for (size_t i = 0; i < set->part_count; i++)
        text_addf(out, "%s%s", i ? " + " : "", wording_amount(out->arena, &set->parts[i]));
    add_load(out, set);
    if (set->effort == EFFORT_RPE)
        text_addf(out, " RPE" WORDING_GAP "%s", wording_range(out->arena, set->effort_band));
}

const char *card_last(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                      const struct item *item)
{
    const struct logged_line *latest = NULL;
    for (size_t i = 0; programme && i < programme->log_count; i++) {
        const struct done *log = &programme->logs[i];
        bool same = log->athlete == occasion->athlete && log->session && is_same(log->session, occasion->session);
        const struct logged_line *line = same && !log->again && log->date < occasion->date ? line_of(log, item) : NULL;
        if (line && (!latest || line->log->date < log->date))
            latest = line;
    }
    if (!latest)
        return "";
    struct text out = {.arena = arena};
    text_add(&out, "Last time: ");
    for (size_t i = 0; i < latest->set_count; i++) {
        text_add(&out, i ? ", " : "");
        add_set(&out, &latest->sets[i]);
    }
    return text_keep(arena, &out);
}

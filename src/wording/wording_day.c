#include "wording/wording.h"

#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "model/occasion.h"
#include "model/season.h"

#define TIMES WORDING_GAP WORDING_TIMES WORDING_GAP
#define DOT " " WORDING_DOT " "

const char *wording_weeks_out(struct arena *arena, int weeks)
{
    if (weeks < 0)
        return "";
    if (weeks == 0)
        return said(arena, "bout week");
    return arena_printf(arena, said_count(arena, weeks, "%d\u00a0week out", "%d\u00a0weeks out"), weeks);
}

const char *wording_bout(struct arena *arena, const struct bout *bout)
{
    const char *plain = bout->plain ? bout->plain : "";
    if (!bout->cancelled)
        return plain;
    return *plain ? arena_printf(arena, said(arena, "%s, cancelled"), plain) : said(arena, "cancelled");
}

const char *wording_left_phases(struct arena *arena, const struct camp *camp)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < camp->left_phase_count; i++)
        text_addf(&out, "%s%s", i ? ", " : said(arena, "left out: "), camp->left_phases[i].shown);
    return text_keep(arena, &out);
}

int wording_days_to_bout(const struct camp *camp, int day)
{
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        bool called_off = bout->cancelled && day >= bout->cancelled;
        for (size_t d = 0; d < bout->day_count && !called_off; d++)
            if (bout->days[d] >= day && (!bout->out || bout->days[d] <= bout->out))
                return bout->days[d] - day;
    }
    return -1;
}

const char *wording_before_bout(struct arena *arena, const struct occasion *occasion)
{
    enum { DAYS_OF_WEEK = 7 };
    int days = wording_days_to_bout(occasion->camp, occasion->date);
    if (days < 0 || days > DAYS_OF_WEEK)
        return "";
    if (days == 0)
        return said(arena, "the day of the bout");
    return days == 1 ? said(arena, "the day before the bout")
                     : arena_printf(arena, said_count(arena, days, "%d day before the bout", "%d days before the bout"), days);
}

const char *wording_out(struct arena *arena, const struct occasion *occasion)
{
    const char *days = wording_before_bout(arena, occasion);
    return *days ? days : wording_weeks_out(arena, occasion->weeks_out);
}

const char *wording_optional(const struct arena *arena, const struct occasion *occasion)
{
    return occasion->optional ? said(arena, "may be left out") : "";
}

const char *wording_occasion(struct arena *arena, const struct occasion *occasion)
{
    struct text out = {.arena = arena};
    if (occasion->rounds > 0 && occasion->round_seconds > 0)
        text_addf(&out, "%d" TIMES "%s", occasion->rounds,
                  wording_clock(arena, occasion->round_seconds));
    else if (occasion->rounds > 0)
        text_addf(&out, said_count(arena, occasion->rounds, "%d\u00a0round", "%d\u00a0rounds"), occasion->rounds);
    else if (occasion->seconds > 0)
        text_addf(&out, said(arena, "%d\u00a0min"), (occasion->seconds + 30) / 60);
    if (occasion->metres.high > 0)
        text_addf(&out, DOT "%s%s", wording_range(arena, occasion->metres), said(arena, "\u00a0m"));
    if (occasion->pulse.high > 0)
        text_addf(&out, said(arena, " \u00b7 pulse\u00a0%s"), wording_range(arena, occasion->pulse));
    if (occasion->rpe.high > 0)
        text_addf(&out, said(arena, " \u00b7 RPE\u00a0%s"), wording_range(arena, occasion->rpe));
    text_add(&out, occasion->deload ? said(arena, " \u00b7 deload") : "");
    text_addf(&out, "%s%s", occasion->zones ? DOT : "", occasion->zones ? wording_zones(arena, occasion->zones) : "");
    const char *optional = wording_optional(arena, occasion);
    text_addf(&out, "%s%s", *optional ? DOT : "", optional);
    const char *words = text_keep(arena, &out);
    return strncmp(words, DOT, strlen(DOT)) == 0 ? words + strlen(DOT) : words; /* of no known length */
}

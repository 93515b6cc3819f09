#include "lsp/hover_plan.h"

#include "base/text.h"
#include "figures/dates.h"
#include "measure/avoid.h"
#include "measure/hold.h"
#include "model/programme.h"
#include "squad/squad.h"
#include "wording/wording.h"

void hover_row(struct text *out, const char *label, const char *words)
{
    if (words && *words)
        text_addf(out, "- %s: %s\n", label, words);
}

static const char *day_words(struct arena *arena, int day)
{
    char words[DATE_TEXT_SIZE];
    return arena_printf(arena, "%s", date_format(day, words));
}

/* --- a session --- */

/* "all 4 are done at 18:23; racks: 41 and 39 of 53 min busy" */
static const char *room_words(struct arena *arena, const struct squad_meeting *meeting)
{
    const struct squad *squad = squad_of(arena, (const struct occasion *const *)meeting->members, meeting->count);
    const struct room_table *table = squad_solve(squad_memo_new(arena), squad);
    if (!table)
        return "too many sets for a timetable";
    if (table->refused)
        return arena_printf(arena, "there is no timetable: %s", table->refused);
    int end = squad->members[0]->clock + table->finish;
    return arena_printf(arena, "all %zu are done at %02d:%02d; %s", squad->count, end / 3600 % 24, end / 60 % 60,
                        room_bottleneck_words(arena, &squad->room, table));
}

static void add_room(struct arena *arena, const struct programme *programme, const struct session *session, struct text *out)
{
    struct squad_meeting *meetings;
    const struct squad_meeting *chosen = NULL;
    size_t count = squad_meetings(arena, programme->occasions, programme->occasion_count, &meetings);
    for (size_t i = 0; i < count; i++) {
        if (meetings[i].members[0]->session != session)
            continue;
        if (!chosen || chosen->members[0]->date < programme->today)
            chosen = &meetings[i];
    }
    if (!chosen)
        return;
    const struct occasion *first = chosen->members[0];
    text_addf(out, "- the room on %s %02d:%02d: %s\n", day_words(arena, first->date), first->clock / 3600 % 24,
              first->clock / 60 % 60, room_words(arena, chosen));
}

void hover_session(struct arena *arena, const struct focus *focus, const struct session *session, struct text *out)
{
    const struct programme *programme = club_programme(focus->club);
    int least = 0, most = 0, placed = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->session != session)
            continue;
        least = !placed || occasion->seconds < least ? occasion->seconds : least;
        most = occasion->seconds > most ? occasion->seconds : most;
        placed++;
    }
    text_addf(out, "**%s**\n\n", session->name.shown);
    hover_row(out, "purpose", session->purpose);
    if (placed)
        text_addf(out, "- takes: %s%s%s\n", wording_time(arena, least), most > least ? " to " : "",
                  most > least ? wording_time(arena, most) : "");
    if (session->under)
        hover_row(out, "is to stay under", wording_time(arena, session->under));
    if (placed)
        add_room(arena, programme, session, out);
    else
        text_add(out, "- is on no day yet\n");
}

/* --- an athlete --- */

static bool is_in(const struct camp *camp, const struct athlete *athlete)
{
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (camp->athletes[i] == athlete)
            return true;
    return false;
}

static void add_camps(struct arena *arena, const struct focus *focus, const struct athlete *athlete, struct text *out)
{
    const struct programme *programme = club_programme(focus->club);
    for (size_t i = 0; i < programme->camp_count; i++) {
        const struct camp *camp = programme->camps[i];
        if (!is_in(camp, athlete) || !focus_may_show(focus, camp->name.span))
            continue;
        text_addf(out, "- camp: %s, %s to %s\n", camp->name.shown, day_words(arena, camp->first),
                  day_words(arena, camp->last));
        for (size_t b = 0; b < camp->bout_count; b++) {
            const struct bout *bout = camp->bouts[b];
            text_addf(out, "- bout: %s%s%s\n", day_words(arena, bout->day), bout->words ? ", " : "",
                      bout->words ? bout->words : "");
        }
    }
}

/* Only of lines in FOCUS's file: what bars somebody is shown nowhere else. */
static void add_barred(struct arena *arena, const struct focus *focus, const struct athlete *athlete, struct text *out)
{
    int today = club_programme(focus->club)->today;
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        if (avoid->span.file == focus->file && avoid_stands(avoid, today))
            hover_row(out, "avoids", avoid->shown);
    }
    for (size_t i = 0; i < athlete->hold_count; i++) {
        const struct hold *hold = &athlete->holds[i];
        if (hold->span.file == focus->file && hold_stands(hold, athlete, today, today))
            hover_row(out, "on hold since", day_words(arena, hold->since));
    }
    for (size_t i = 0; i < athlete->out_count; i++) {
        const struct out *out_days = &athlete->outs[i];
        if (out_days->span.file != focus->file || out_days->last < today)
            continue;
        text_addf(out, "- out: from %s%s%s\n", day_words(arena, out_days->first), out_days->last < DATE_LAST ? " to " : "",
                  out_days->last < DATE_LAST ? day_words(arena, out_days->last) : "");
    }
}

void hover_athlete(struct arena *arena, const struct focus *focus, const struct athlete *athlete, struct text *out)
{
    text_addf(out, "**%s**\n\n", athlete->name.shown);
    add_camps(arena, focus, athlete, out);
    add_barred(arena, focus, athlete, out);
}

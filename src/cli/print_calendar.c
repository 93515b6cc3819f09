/* print_calendar.c - a calendar for each athlete for whom something was asked. It has all of the plan, whichever
 * days were asked for, because a phone that follows it would take what is left out for cancelled. */
#include <string.h>

#include "base/output.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "export/days_calendar.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "source/source.h"

static void fail(struct printing *printing, const char *name, const char *wrong)
{
    tell_error("%s/%s: %s", printing->options->out, name, wrong);
    printing->failed = true;
}

static void list_calendar(struct printing *printing, const char *name, const struct text *bytes)
{
    struct listed_sheet *entry = sheet_list_put(&printing->list, name);
    *entry = (struct listed_sheet){
        .name = name, .sheet = "calendar", .title = "", .pages = 1, .form = "",
        .version = arena_printf(printing->project->arena, "%08x", (unsigned)(text_hash(0, text_get(bytes), bytes->length) >> 32))};
    const char *wrong = sheet_list_write(&printing->list, printing->options->out);
    if (wrong)
        fail(printing, SHEET_LIST_NAME, wrong);
}

static void print_one(struct printing *printing, const struct occasion *const *occasions, size_t count)
{
    struct arena *arena = printing->project->arena;
    const char *name = print_own_name(printing, occasions[0]->athlete, "calendar.ics"), *why = NULL;
    const struct listed_sheet *listed = sheet_list_find(&printing->list, name);
    struct calendar_request request = {.arena = arena, .occasions = occasions, .count = count,
                                       .stamp = printing->options->created ? printing->options->created
                                                                           : printing->options->now};
    struct text bytes = {.arena = arena};
    const char *path = arena_printf(arena, "%s/%s", printing->options->out, name);
    /* A file that the list does not have is not ours, so the calendar does not continue it. */
    if (listed && strcmp(listed->sheet, "calendar") == 0)
        request.before = source_bytes(arena, path, &request.before_length, &why);
    calendar_write(&request, &bytes);
    bool same = request.before && request.before_length == bytes.length &&
                memcmp(request.before, text_get(&bytes), bytes.length) == 0;
    if (!same || printing->options->all_again) {
        print_write(printing, name, NULL, &bytes);
        if (printing->failed)
            return;
        print_say(printing, name);
        list_calendar(printing, name, &bytes);
    }
}

void print_calendars(struct printing *printing)
{
    struct project *project = printing->project;
    const struct programme *programme = project->programme;
    const struct occasion **own = arena_alloc(project->arena, (programme->occasion_count + 1) * sizeof *own);
    for (size_t a = 0; a < programme->athlete_count && !printing->failed; a++) {
        bool asked = false, barred = false;
        size_t count = 0;
        for (size_t i = 0; i < programme->occasion_count; i++) {
            const struct occasion *occasion = &programme->occasions[i];
            if (occasion->athlete != programme->athletes[a])
                continue;
            asked = asked || selection_holds(project->arena, printing->options, occasion);
            barred = barred || printing->barred[i];
            own[count++] = occasion;
        }
        if (!asked || barred)
            continue;
        if (printing->options->list)
            print_say(printing, print_own_name(printing, own[0]->athlete, "calendar.ics"));
        else
            print_one(printing, own, count);
        print_note(printing, (struct printed){.name = print_own_name(printing, own[0]->athlete, "calendar.ics")});
    }
}

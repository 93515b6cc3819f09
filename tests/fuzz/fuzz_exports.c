/* Bytes as a club that other programs read of: the first two choose one, each four that follow change it. Its JSON is JSON, each
 * row of its CSV has a cell for each column, and its calendars have lines as RFC 5545 wants them and continue one another. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "export/days_calendar.h"
#include "export/show_programme.h"
#include "export/tally_formats.h"
#include "fuzz/edited_club.c"
#include "logs/csv.h"

enum { LONGEST_CALENDAR_LINE = 75 /* octets */ };

static void show_all(const struct club_read *club)
{
    size_t count;
    const struct occasion **all = club_occasions(club, NULL, &count);
    const struct programme_view view = {.programme = club->programme, .arena = club->arena, .occasions = all, .count = count,
                                        .version = "0", .lines = true, .ledgers = true, .private = true};
    struct text json = {.arena = club->arena}, text = {.arena = club->arena};
    programme_json(&view, &json);
    programme_text(&view, &text);
    club_must_be_json(&json);
}

static void must_be_table(struct arena *arena, const struct text *words)
{
    const struct csv csv = csv_read(arena, text_get(words), words->length, ',');
    for (size_t i = 0; i < csv.row_count; i++)
        if (csv.rows[i].fault)
            abort();
}

static void tally(const struct club_read *club, uint8_t choice)
{
    const struct tally_view view = {.programme = club->programme, .arena = club->arena, .by = (enum tally_by)(choice % 5),
                                    .private = choice / 5 % 2, .margin = choice / 10 % 2, .version = "0",
                                    .counted = choice < 200 ? COUNTED_NONE : (enum counted)(choice % COUNTED_COUNT)};
    struct text json = {.arena = club->arena}, csv = {.arena = club->arena}, text = {.arena = club->arena};
    tally_text(&view, &text);
    if (tally_json(&view, &json))
        club_must_be_json(&json);
    if (tally_csv(&view, &csv))
        must_be_table(club->arena, &csv);
}

static void must_be_calendar(const struct text *words)
{
    const char *at = text_get(words), *end = at + words->length;
    if (strncmp(at, "BEGIN:VCALENDAR\r\n", 17) != 0)
        abort();
    for (const char *next; at < end; at = next + 1) {
        next = memchr(at, '\n', (size_t)(end - at));
        if (!next || next == at || next[-1] != '\r' || next - 1 - at > LONGEST_CALENDAR_LINE)
            abort();
    }
}

/* The same days once more change nothing in what was written. */
static void write_calendar(const struct club_read *club, const struct athlete *athlete)
{
    struct calendar_request request = {.arena = club->arena, .stamp = 1800000000};
    struct text first = {.arena = club->arena}, again = {.arena = club->arena};
    request.occasions = club_occasions(club, athlete, &request.count);
    if (!request.count)
        return;
    calendar_write(&request, &first);
    must_be_calendar(&first);
    request.before = text_get(&first);
    request.before_length = first.length;
    request.stamp++;
    calendar_write(&request, &again);
    if (first.length != again.length || memcmp(text_get(&first), text_get(&again), first.length) != 0)
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text plan = {0};
    struct club_read club;
    if (size < 3)
        return 0;
    club_make(&(struct club_seed){.shape = (uint64_t)data[0] << 8 | data[1]}, &plan);
    club_edit(&plan, data + 3, size - 3);
    club_read(&club, &plan);
    if (!diag_count(club.diag, SEVERITY_ERROR)) {
        show_all(&club);
        tally(&club, data[2]);
        for (size_t i = 0; i < club.programme->athlete_count; i++)
            write_calendar(&club, club.programme->athletes[i]);
    }
    arena_free(club.arena);
    text_free(&plan);
    return 0;
}

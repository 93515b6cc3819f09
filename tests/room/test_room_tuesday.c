/* The full Tuesday of examples/slipway: the timetable that `show` prints is followed move by move by a checker that knows only
 * the rules, and without its waves the evening would be over too late. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>
#include <jansson.h>

#include "cli/project.h"
#include "model/occasion.h"
#include "model/programme.h"
#include "room/room_check.c"
#include "squad/squad.h"

enum { ATHLETES = 8 };

static const char club[] = "examples/slipway", day[] = "2027-06-08";

struct evening {
    struct project project;
    const struct squad *squad;
    json_t *json; /* the room, as printed */
};

/* --- the evening, as planned and as printed --- */

static const struct squad *find_squad(const struct programme *programme)
{
    struct squad_meeting *meetings;
    size_t count = squad_meetings(programme->arena, programme->occasions, programme->occasion_count, &meetings);
    for (size_t i = 0; i < count; i++) {
        if (meetings[i].count == ATHLETES)
            return squad_of(programme->arena, (const struct occasion *const *)meetings[i].members, meetings[i].count);
    }
    return NULL;
}

static json_t *printed_room(void)
{
    char command[256];
    snprintf(command, sizeof command, "%s show %s --on %s --format json", getenv("BELLSHEET"), club, day);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    json_t *all = json_loadf(pipe, 0, NULL);
    assert_int_equal(pclose(pipe), 0);
    assert_non_null(all);
    json_t *room = json_incref(json_array_get(json_object_get(all, "rooms"), 0));
    json_decref(all);
    return room;
}

static int open_evening(void **state)
{
    static struct evening evening;
    static const char *paths[] = {club};
    const struct options options = {.format = "text", .path_count = 1, .paths = paths};
    if (!getenv("BELLSHEET") || !project_open(&evening.project, &options, PLAN_WELCOME))
        return -1;
    evening.squad = find_squad(evening.project.programme);
    evening.json = printed_room();
    *state = &evening;
    return evening.squad && evening.json ? 0 : -1;
}

static int close_evening(void **state)
{
    struct evening *evening = *state;
    json_decref(evening->json);
    project_close(&evening->project);
    return 0;
}

/* --- rows as they are printed --- */

static int number_of(const json_t *json, const char *key)
{
    return (int)json_integer_value(json_object_get(json, key));
}

static const char *words_of(const json_t *json, const char *key)
{
    return json_string_value(json_object_get(json, key));
}

static int athlete_called(const struct squad *squad, const char *name)
{
    int i = 0;
    while (i < (int)squad->count && strcmp(squad->members[i]->athlete->name.shown, name) != 0)
        i++;
    return i;
}

static int block_called(const struct room *room, const char *name)
{
    int i = 0;
    while (i < (int)room->block_count && strcmp(room->blocks[i].name, name) != 0)
        i++;
    return i;
}

static int kind_called(const struct room *room, const char *name)
{
    int i = 0;
    while (i < (int)room->kind_count && strcmp(room->kinds[i].name, name) != 0)
        i++;
    return i;
}

static struct room_row read_row(struct evening *evening, const json_t *json)
{
    const struct room *room = &evening->squad->room;
    const json_t *pieces = json_object_get(json, "units");
    struct room_row row = {.athlete = athlete_called(evening->squad, words_of(json, "athlete")),
                           .block = block_called(room, words_of(json, "block")),
                           .set = number_of(json, "set") - 1, .item = number_of(json, "item") - 1,
                           .start = number_of(json, "start"), .end = number_of(json, "end")};
    assert_in_range(row.athlete, 0, evening->squad->count - 1);
    assert_in_range(row.block, 0, room->block_count - 1);
    row.what = &room->athletes[row.athlete].parts[row.block].sets[row.set].items[row.item];
    row.unit_count = json_array_size(pieces);
    row.units = arena_alloc(evening->project.programme->arena, (row.unit_count + 1) * sizeof *row.units);
    for (size_t i = 0; i < row.unit_count; i++) {
        const json_t *unit = json_array_get(pieces, i);
        row.units[i] = (struct room_unit){.kind = kind_called(room, words_of(unit, "kind")), .number = number_of(unit, "number")};
        assert_in_range(row.units[i].kind, 0, room->kind_count - 1);
    }
    return row;
}

static struct room_row *read_rows(struct evening *evening, size_t *count)
{
    const json_t *json = json_object_get(evening->json, "rows");
    *count = json_array_size(json);
    struct room_row *rows = arena_alloc(evening->project.programme->arena, (*count + 1) * sizeof *rows);
    for (size_t i = 0; i < *count; i++)
        rows[i] = read_row(evening, json_array_get(json, i));
    return rows;
}

/* --- what is asked of it --- */

static void every_move_is_allowed(void **state)
{
    struct evening *evening = *state;
    size_t count;
    struct room_row *rows = read_rows(evening, &count);
    struct room_check check = room_check(&evening->squad->room, rows, count);
    assert_string_equal(text_get(&check.faults), "");
    assert_int_equal(check.finish, number_of(evening->json, "finish"));
    assert_int_equal(check.wait, number_of(evening->json, "wait"));
    assert_int_equal(check.discs, number_of(evening->json, "discs"));
    assert_true(check.finish <= evening->squad->room.doors);
    text_free(&check.faults);
    size_t found = 0;
    for (size_t i = 0; i < count; i++) { /* and one move a minute and a half too soon is seen */
        rows[i].start -= 90;
        rows[i].end -= 90;
        struct room_check moved = room_check(&evening->squad->room, rows, count);
        found += moved.faults.length > 0;
        text_free(&moved.faults);
        rows[i].start += 90;
        rows[i].end += 90;
    }
    assert_true(found > count * 3 / 4);
}

/* Eight people, two racks, two late; in waves they are done, and one block after the other they are not. */
static void it_fits_only_in_waves(void **state)
{
    struct evening *evening = *state;
    struct room room = evening->squad->room;
    int late = 0, racks = room.kinds[kind_called(&room, "rack")].count;
    for (size_t i = 0; i < room.athlete_count; i++)
        late += room.athletes[i].arrival > 0;
    assert_int_equal(late, 2);
    assert_int_equal(racks, 2);
    assert_int_equal(room.order, ROOM_WAVES);
    assert_int_equal(room_solve(evening->project.programme->arena, &room)->over, 0);
    room.order = ROOM_AS_WRITTEN;
    assert_true(room_solve(evening->project.programme->arena, &room)->bound > room.doors);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_move_is_allowed),
        cmocka_unit_test(it_fits_only_in_waves),
    };
    return cmocka_run_group_tests(tests, open_evening, close_evening);
}

/* A thousand rooms at random: each timetable is valid by a checker that knows only the rules, no worse than first come,
 * first served, never earlier than the bound, and the same when it is made again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "cases.h"
#include "room/room_check.c"
#include "room/room_maker.c"

enum { ROOMS = 1000, SAMPLE = 200 };

/* --- rooms that no timetable can serve --- */

static bool bell_is_short(const struct room *room, const struct room_check *check, size_t block)
{
    for (size_t kind = 0; kind < room->kind_count; kind++) {
        int wanted = 0;
        for (size_t i = 0; i < room->athlete_count; i++) {
            const struct room_part *part = &room->athletes[i].parts[block];
            if (!part->set_count || (block == 0 && joins(check, (int)i) == ROOM_NONE))
                continue;
            const struct room_item *item = part->sets[0].items;
            for (size_t j = 0; j < item->need_count; j++)
                wanted += item->needs[j].kind == (int)kind ? item->needs[j].count : 0;
        }
        if (wanted > room->kinds[kind].count)
            return true;
    }
    return false;
}

static bool load_is_short(const struct room *room, const struct room_item *item)
{
    for (size_t part = 0; part < room->stock_count; part++) {
        int wanted = 0;
        for (size_t i = 0; i < item->stack_count; i++)
            wanted += item->stack[i] != (int)part                        ? 0
                      : i == 0 || room->kinds[item->needs[0].kind].one_sleeve ? 1
                                                                          : 2;
        if (wanted > room->stock[part].count)
            return true;
    }
    return false;
}

static bool is_impossible(const struct room *room)
{
    struct room_check check = {.room = room};
    find_opening(&check);
    for (size_t i = 0; i < room->block_count; i++) {
        if (room->blocks[i].bell && bell_is_short(room, &check, i))
            return true;
        for (size_t j = 0; j < room->athlete_count; j++) {
            const struct room_part *part = &room->athletes[j].parts[i];
            for (size_t k = 0; k < part->set_count; k++) {
                const struct room_item *item = part->sets[k].items;
                if (load_is_short(room, item) || (item->partner && holder_of(&check, (int)j) == ROOM_NONE))
                    return true;
            }
        }
    }
    return false;
}

/* --- the property --- */

static void assert_valid(const struct room *room, const struct room_table *table, unsigned seed)
{
    struct room_check check = room_check(room, table->rows, table->row_count);
    if (check.faults.length || check.finish != table->finish || check.wait != table->wait
        || check.discs != table->discs) {
        fprintf(stderr, "room %u: finish %d (%d), wait %d (%d), discs %d (%d)\n%s", seed, table->finish, check.finish,
                table->wait, check.wait, table->discs, check.discs, text_get(&check.faults));
        fail();
    }
    text_free(&check.faults);
}

static bool is_no_worse(const struct room_table *a, const struct room_table *b)
{
    if (a->finish != b->finish)
        return a->finish < b->finish;
    return a->wait != b->wait ? a->wait < b->wait : a->discs <= b->discs;
}

static void every_timetable_is_valid_and_no_worse_than_a_queue(void **state)
{
    (void)state;
    const struct cases rooms = cases_of(ROOMS, SAMPLE);
    unsigned count = cases_count(rooms), refused = 0, bounds_met = 0, gains = 0;
    for (unsigned seed = rooms.from; seed < rooms.to; seed++) {
        struct arena *arena = arena_new();
        struct room room = room_make(arena, seed);
        const struct room_table *table = room_solve(arena, &room), *queue = room_queue(arena, &room);
        assert_int_equal(table->refused != NULL, is_impossible(&room));
        refused += table->refused != NULL;
        if (!table->refused) {
            assert_valid(&room, table, seed);
            assert_valid(&room, queue, seed);
            if (!is_no_worse(table, queue) || table->finish < table->bound)
                fail_msg("room %u: finish %d, queue %d, bound %d", seed, table->finish, queue->finish, table->bound);
            assert_true(table->decodes <= ROOM_DECODES);
            bounds_met += table->finish == table->bound;
            gains += table->finish < queue->finish;
        }
        arena_free(arena);
    }
    /* The rooms are worth trying: most have a timetable, many are better than a queue, and not all meet the bound. */
    assert_true(refused < count / 4);
    assert_true(gains > count / 10);
    assert_in_range(bounds_met, count / 10, count * 9 / 10);
}

static void the_same_room_gets_the_same_timetable(void **state)
{
    (void)state;
    const struct cases rooms = cases_of(ROOMS, SAMPLE);
    for (unsigned seed = rooms.from; seed < rooms.to; seed += 20) {
        struct arena *arena = arena_new(), *other = arena_new();
        struct room room = room_make(arena, seed), again = room_make(other, seed);
        const struct room_table *a = room_solve(arena, &room), *b = room_solve(other, &again);
        assert_int_equal(a->row_count, b->row_count);
        for (size_t i = 0; i < a->row_count; i++) {
            assert_int_equal(a->rows[i].athlete, b->rows[i].athlete);
            assert_int_equal(a->rows[i].start, b->rows[i].start);
            assert_int_equal(a->rows[i].unit_count, b->rows[i].unit_count);
            for (size_t j = 0; j < a->rows[i].unit_count; j++)
                assert_int_equal(a->rows[i].units[j].number, b->rows[i].units[j].number);
        }
        arena_free(arena);
        arena_free(other);
    }
}

static int longest_wait(const struct room *room, const struct room_table *table)
{
    int longest = 0;
    for (size_t i = 0; i < room->athlete_count; i++)
        longest = table->fares[i].wait > longest ? table->fares[i].wait : longest;
    return longest;
}

/* What is asked of it is within reach, for the best timetable keeps it. */
static void a_search_ends_where_enough_is_found(void **state)
{
    (void)state;
    const struct cases rooms = cases_of(ROOMS, SAMPLE);
    unsigned shorter = 0;
    for (unsigned seed = rooms.from; seed < rooms.to; seed += 10) {
        struct arena *arena = arena_new();
        struct room room = room_make(arena, seed);
        const struct room_table *best = room_solve(arena, &room);
        if (!best->refused) {
            struct room_enough enough = {best->finish + 60, longest_wait(&room, best) + 60};
            const struct room_table *table = room_solve_until(arena, &room, enough);
            assert_valid(&room, table, seed);
            assert_true(table->finish <= enough.finish && longest_wait(&room, table) < enough.wait);
            assert_true(table->decodes <= best->decodes);
            shorter += table->decodes < best->decodes;
        }
        arena_free(arena);
    }
    assert_true(shorter > cases_count(rooms) / 10 / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_search_ends_where_enough_is_found),
        cmocka_unit_test(every_timetable_is_valid_and_no_worse_than_a_queue),
        cmocka_unit_test(the_same_room_gets_the_same_timetable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

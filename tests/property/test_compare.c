/* `diff` over pairs of clubs at random, of which one has its bout moved, its lines in another order, or a figure or line
 * changed: it is empty exactly where both mean the same, and what it says, applied to the facts of the one, gives those of
 * the other. Both taken apart at once, as the command does, give the same as one after the other. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <jansson.h>
#include <pthread.h>
#include <stdlib.h>

#include "cases.h"
#include "compare/compare.h"
#include "compare/digest.h"
#include "export/show_programme.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "property/club_maker.c"
#include "property/plan_changes.h"
#include "rules/rules.h"
#include "sheets/version.h"
#include "squad/squad.h"
#include "unit/json_schema.h"

enum { PAIRS = 500, SAMPLE = 80 };

static json_t *schema;

/* --- the facts of a plan, by where they stand --- */

static char *place_of(const char *kind, const char *name, const char *camp, const char *athlete, const char *day, const char *clock,
                      int number)
{
    return g_strdup_printf("%s|%s|%s|%s|%s|%s|%d|", kind, name, camp, athlete, day, clock, number);
}

static GHashTable *facts_of(struct plan_parts *parts)
{
    GHashTable *facts = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, g_free);
    for (size_t i = 0; i < parts->count; i++) {
        struct part_of_plan *part = &parts->items[i];
        char clock[24] = "";
        part_tell(parts->arena, part);
        if (part->clock >= 0)
            snprintf(clock, sizeof clock, "%02d:%02d", part->clock / 3600 % 24, part->clock / 60 % 60);
        char *place = place_of(part_kind_word(part->kind), part->name, part->camp, part->athlete, part_day(parts->arena, part->date),
                               clock, part->nth);
        for (size_t k = 0; k < part->facts.count; k++)
            g_hash_table_insert(facts, g_strconcat(place, part->facts.items[k].label, "|", part->facts.items[k].aspect, NULL),
                                g_strdup(part->facts.items[k].words));
        g_free(place);
    }
    return facts;
}

/* --- what `diff` says, applied --- */

static const char *word(const json_t *object, const char *key)
{
    const char *words = json_string_value(json_object_get(object, key));
    return words ? words : "";
}

static char *place_in(const json_t *change, const json_t *when)
{
    return place_of(word(change, "kind"), word(change, "name"), word(change, "camp"), word(change, "athlete"), word(when, "day"),
                    word(when, "clock"), (int)json_integer_value(json_object_get(when, "number")));
}

/* Takes all facts that stand at PLACE out of FACTS and puts them into TAKEN, without it. */
static void take(GHashTable *facts, const char *place, GHashTable *taken)
{
    GHashTableIter at;
    gpointer key, value;
    g_hash_table_iter_init(&at, facts);
    while (g_hash_table_iter_next(&at, &key, &value))
        if (g_str_has_prefix(key, place)) {
            g_hash_table_insert(taken, g_strdup((char *)key + strlen(place)), g_strdup(value));
            g_hash_table_iter_remove(&at);
        }
}

static GHashTable *empty(void)
{
    return g_hash_table_new_full(g_str_hash, g_str_equal, g_free, g_free);
}

static void change_facts(GHashTable *facts, const char *place, const json_t *change)
{
    size_t i;
    json_t *fact;
    json_array_foreach(json_object_get(change, "facts"), i, fact) {
        char *key = g_strconcat(place, word(fact, "line"), "|", word(fact, "what"), NULL);
        const char *was = json_string_value(json_object_get(fact, "was"));
        const char *is = json_string_value(json_object_get(fact, "is"));
        const char *found = g_hash_table_lookup(facts, key);
        if (strcmp(word(fact, "what"), "details") == 0) {
            g_free(key);
            continue;
        }
        if (g_strcmp0(found, was) != 0)
            fail_msg("%s was %s, not %s", key, found ? found : "nothing", was ? was : "nothing");
        if (is)
            g_hash_table_insert(facts, g_strdup(key), g_strdup(is));
        else
            g_hash_table_remove(facts, key);
        g_free(key);
    }
}

/* First what goes or moves is taken out of its place, then what comes or moves is put there. */
static void apply(GHashTable *facts, const json_t *changes)
{
    size_t i;
    json_t *change;
    GHashTable **moved = g_new0(GHashTable *, json_array_size(changes) + 1);
    json_array_foreach(changes, i, change) {
        bool goes = strcmp(word(change, "change"), "went") == 0, moves = strcmp(word(change, "change"), "moved") == 0;
        char *place = place_in(change, moves ? json_object_get(change, "from") : change);
        moved[i] = empty();
        if (goes)
            change_facts(facts, place, change);
        else if (moves)
            take(facts, place, moved[i]);
        g_free(place);
    }
    json_array_foreach(changes, i, change) {
        char *place = place_in(change, change);
        GHashTableIter at;
        gpointer key, value;
        g_hash_table_iter_init(&at, moved[i]);
        while (g_hash_table_iter_next(&at, &key, &value))
            g_hash_table_insert(facts, g_strconcat(place, key, NULL), g_strdup(value));
        if (strcmp(word(change, "change"), "went") != 0)
            change_facts(facts, place, change);
        g_hash_table_destroy(moved[i]);
        g_free(place);
    }
    g_free(moved);
}

static void assert_same_facts(GHashTable *got, GHashTable *wanted)
{
    GHashTableIter at;
    gpointer key, value;
    g_hash_table_iter_init(&at, wanted);
    while (g_hash_table_iter_next(&at, &key, &value))
        if (g_strcmp0(g_hash_table_lookup(got, key), value) != 0)
            fail_msg("%s is %s, and the changes give %s", (char *)key, (char *)value, (char *)g_hash_table_lookup(got, key));
    assert_int_equal(g_hash_table_size(got), g_hash_table_size(wanted));
}

/* --- a pair --- */

static bool read_plan(struct plan_reader *reader, const struct text *plan)
{
    plan_reader_open(reader);
    plan_reader_text(reader, "club.bell", text_get(plan), plan->length);
    plan_reader_resolve(reader);
    bool good = diag_count(reader->diag, SEVERITY_ERROR) == 0;
    if (good)
        rules_run(reader->programme, reader->diag);
    diag_sort(reader->diag);
    return good;
}

static const char *programme_words(struct plan_reader *reader)
{
    const struct programme *programme = reader->programme;
    const struct occasion **all = arena_alloc(reader->arena, (programme->occasion_count + 1) * sizeof *all);
    struct text out = {.arena = reader->arena};
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    programme_json(&(struct programme_view){.programme = programme, .arena = reader->arena, .occasions = all,
                                            .count = programme->occasion_count, .version = "0"}, &out);
    /* The figures in a day show which column of its series it takes. */
    char *words = arena_copy(reader->arena, text_get(&out), out.length);
    for (char *at = words; (at = strstr(at, "\"column\": ")) != NULL;) {
        at += strlen("\"column\": ");
        memmove(at, at + strspn(at, "0123456789"), strlen(at + strspn(at, "0123456789")) + 1);
    }
    return words;
}

/* The versions of all cards, each under when and whose it is. */
static GHashTable *versions_of(struct plan_reader *reader)
{
    GHashTable *found = empty();
    const struct sheet_origin origin = {.programme = reader->programme, .arena = reader->arena, .version = ""};
    struct sheet_versions *versions = sheet_versions_new(&origin);
    for (size_t i = 0; i < reader->programme->occasion_count; i++) {
        const struct occasion *one = &reader->programme->occasions[i];
        struct occasion_group group = {.occasions = &one, .count = 1};
        if (one->session)
            g_hash_table_insert(found, g_strdup_printf("%d %d %s %s %s", one->date, one->clock, one->session->name.shown,
                                                       one->athlete->name.shown, one->camp->name.shown),
                                g_strdup(sheet_version(versions, sheet_find("card"), &group)));
    }
    return found;
}

static bool same_tables(GHashTable *a, GHashTable *b)
{
    GHashTableIter at;
    gpointer key, value;
    bool same = g_hash_table_size(a) == g_hash_table_size(b);
    g_hash_table_iter_init(&at, a);
    while (same && g_hash_table_iter_next(&at, &key, &value))
        same = g_strcmp0(g_hash_table_lookup(b, key), value) == 0;
    return same;
}

static void compare_versions(struct comparison *comparison, GHashTable *old, GHashTable *now)
{
    GHashTableIter at;
    gpointer key, value;
    g_hash_table_iter_init(&at, old);
    while (g_hash_table_iter_next(&at, &key, &value))
        compare_sheet(comparison, key, value, g_hash_table_lookup(now, key));
    g_hash_table_iter_init(&at, now);
    while (g_hash_table_iter_next(&at, &key, &value))
        if (!g_hash_table_lookup(old, key))
            compare_sheet(comparison, key, NULL, value);
}

static gint by_words(gconstpointer one, gconstpointer other)
{
    return strcmp(*(char *const *)one, *(char *const *)other);
}

static bool same_findings(const struct diag *a, const struct diag *b)
{
    struct text words[2] = {{0}, {0}};
    const struct diag *const both[] = {a, b};
    for (size_t s = 0; s < 2; s++) {
        GPtrArray *all = g_ptr_array_new_with_free_func(g_free);
        for (size_t i = 0; i < both[s]->count; i++)
            if (both[s]->items[i]->severity != SEVERITY_INFO)
                g_ptr_array_add(all, g_strdup_printf("%d %d %d %s\n", both[s]->items[i]->severity, both[s]->items[i]->diagnostic,
                                                     both[s]->items[i]->neutral ? 0 : both[s]->items[i]->met,
                                                     both[s]->items[i]->neutral ? both[s]->items[i]->neutral : both[s]->items[i]->words));
        g_ptr_array_sort(all, by_words);
        for (guint i = 0; i < all->len; i++)
            text_add(&words[s], g_ptr_array_index(all, i));
        g_ptr_array_free(all, TRUE);
    }
    bool same = strcmp(text_get(&words[0]), text_get(&words[1])) == 0;
    text_free(&words[0]);
    text_free(&words[1]);
    return same;
}

/* --- at once --- */

struct taken {
    struct arena *arena;
    const struct programme *programme;
    struct squad_memo *memo;
    struct plan_parts parts;
};

static void *take_apart(void *with)
{
    struct taken *taken = with;
    parts_of(taken->arena, taken->programme, taken->memo, &taken->parts);
    return NULL;
}

/* What changes between A and B as JSON, both taken apart by threads that share a memo. */
static const char *changes_at_once(struct arena *arena, const struct plan_reader *a, const struct plan_reader *b)
{
    pthread_mutex_t held;
    struct comparison comparison;
    struct text said = {.arena = arena};
    struct arena *rooms = arena_new();
    pthread_mutex_init(&held, NULL);
    struct squad_memo *memo = squad_memo_shared(rooms, &held);
    struct taken both[] = {{arena_new(), a->programme, memo, {0}}, {arena_new(), b->programme, memo, {0}}};
    pthread_t beside;
    assert_int_equal(pthread_create(&beside, NULL, take_apart, &both[0]), 0);
    take_apart(&both[1]);
    pthread_join(beside, NULL);
    compare_plans(&comparison, arena, &both[0].parts, &both[1].parts);
    compare_json(&comparison, "0", &said);
    pthread_mutex_destroy(&held);
    arena_free(both[0].arena);
    arena_free(both[1].arena);
    arena_free(rooms);
    return text_get(&said);
}

/* A memo forgets, and changes no hash. */
static void assert_memo_tells_nothing(struct arena *arena, const struct programme *programme)
{
    struct digest_memo *memo = digest_memo_new(arena);
    for (int round = 0; round < 2; round++)
        for (size_t i = 0; i < programme->exercise_count; i++)
            for (unsigned sight = 0; sight <= DIGEST_NOTES; sight += DIGEST_NOTES) {
                struct digest with = {.hash = i, .memo = memo}, without = {.hash = i};
                digest_exercise(&with, programme->exercises[i], sight);
                digest_exercise(&without, programme->exercises[i], sight);
                assert_true(with.hash == without.hash);
            }
}

struct seen {
    unsigned empty, moved, other, skipped;
};

static void try_pair(struct plan_reader *a, struct plan_reader *b, struct seen *seen)
{
    struct comparison comparison;
    struct arena *arena = arena_new();
    struct text said = {.arena = arena}, words = {.arena = arena}, marks = {.arena = arena};
    struct plan_parts parts_a, parts_b;
    struct squad_memo *memo = squad_memo_new(arena);
    parts_of(arena, a->programme, memo, &parts_a);
    parts_of(arena, b->programme, memo, &parts_b);
    compare_plans(&comparison, arena, &parts_a, &parts_b);
    compare_json(&comparison, "0", &said);
    assert_string_equal(changes_at_once(arena, a, b), text_get(&said));
    text_clear(&said);
    assert_memo_tells_nothing(arena, a->programme);
    compare_findings(&comparison, a->diag, "", b->diag, "");
    GHashTable *versions_a = versions_of(a), *versions_b = versions_of(b);
    compare_versions(&comparison, versions_a, versions_b);
    GHashTable *old = facts_of(&comparison.old), *now = facts_of(&comparison.now);
    const char *words_a = programme_words(a), *words_b = programme_words(b);
    bool same = strcmp(words_a, words_b) == 0 && same_findings(a->diag, b->diag) &&
                same_tables(versions_a, versions_b) && same_tables(old, now);
    if (same != comparison_is_empty(&comparison)) {
        size_t at = 0;
        while (words_a[at] && words_a[at] == words_b[at])
            at++;
        fprintf(stderr, "%.400s\n---\n%.400s\n", words_a + (at > 200 ? at - 200 : 0), words_b + (at > 200 ? at - 200 : 0));
        compare_text(&comparison, &(struct compare_style){0}, &words);
        fail_msg("the plans %s, and diff says:\n%s", same ? "mean the same" : "differ", text_get(&words));
    }
    compare_json(&comparison, "0", &said);
    json_t *json = json_loads(text_get(&said), 0, NULL);
    struct schema_check check = {.root = schema};
    if (!schema_holds(&check, schema, json, ""))
        fail_msg("%s", check.fault);
    apply(old, json_object_get(json, "changes"));
    assert_same_facts(old, now);
    compare_markdown(&comparison, &marks);
    assert_true(marks.length < 65536);
    seen->empty += same;
    seen->other += !same;
    for (size_t i = 0; i < comparison.count; i++)
        seen->moved += comparison.changes[i].with_bout;
    json_decref(json);
    g_hash_table_destroy(old);
    g_hash_table_destroy(now);
    g_hash_table_destroy(versions_a);
    g_hash_table_destroy(versions_b);
    arena_free(arena);
}

/* Days of work keep their weekdays, so that they move with a bout only if it moves by whole weeks. */
static void make_pair(uint64_t seed, struct text *plan, struct text *other)
{
    struct text between = {0}, what = {0};
    club_make(&(struct club_seed){seed, 0, 0}, plan);
    switch (seed % 8) {
    case 0: club_make(&(struct club_seed){seed, seed * 77 + 5, 0}, other); break;
    case 1: club_make(&(struct club_seed){seed, 0, 7 * (int)(1 + seed / 8 % 4)}, other); break;
    case 5: club_make(&(struct club_seed){seed, 0, (int)(1 + seed % 20)}, other); break;
    case 2: text_addf(other, "# a comment\n%s", text_get(plan)); break;
    case 3: case 6: plan_change(plan, seed, other, &what); break;
    default:
        plan_change(plan, seed, &between, &what);
        plan_change(&between, seed + 1, other, &what);
    }
    text_free(&between);
    text_free(&what);
}

static void what_it_says_makes_the_one_the_other(void **state)
{
    struct seen seen = {0};
    (void)state;
    const struct cases wanted = cases_of(PAIRS, SAMPLE);
    unsigned pairs = cases_count(wanted);
    for (uint64_t seed = wanted.from + 1; seed <= wanted.to; seed++) {
        struct plan_reader a, b;
        struct text plan = {0}, other = {0};
        make_pair(seed, &plan, &other);
        bool good = read_plan(&a, &plan);
        good = read_plan(&b, &other) && good;
        if (good)
            try_pair(&a, &b, &seen);
        seen.skipped += !good;
        plan_reader_close(&a);
        plan_reader_close(&b);
        text_free(&plan);
        text_free(&other);
    }
    printf("%u pairs mean the same, %u differ (%u days moved with a bout), %u had errors\n", seen.empty, seen.other, seen.moved,
           seen.skipped);
    assert_true(seen.empty > pairs / 8 && seen.other > pairs / 5 && seen.moved > 0 && seen.skipped < pairs / 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_it_says_makes_the_one_the_other),
    };
    schema = json_load_file("share/schema/diff-1.schema.json", 0, NULL);
    int failed = schema ? cmocka_run_group_tests(tests, NULL, NULL) : 1;
    json_decref(schema);
    return failed;
}

/* What is found of a club is the same, word for word, whether all athletes are checked together, one apart from another, or
 * some anew among what is kept of the others from a plan whose lines stood elsewhere. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glib.h>

#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "rules/recall.h"
#include "rules/rules.h"

enum { ATHLETES = 5, MOST_PARTS = 64 };

/* What the club takes from the shelf. */
static const char *const shelf[] = {"share/exercises/squat.bell", "share/exercises/push.bell", "share/exercises/pull.bell",
                                    "share/exercises/strike.bell", "share/activities/gym-floor.bell", "share/activities/outside.bell",
                                    "share/limits/novices.bell", "share/limits/under-18.bell", "share/return/head.bell"};
enum { FROM_SHELF = sizeof shelf / sizeof *shelf };

/* Five athletes who share sessions, a room, limits and camps, with faults that one, some and all of them have, that grow worse
 * from week to week, that are for the coach alone, and that waivers let pass up to a figure. */
static const char *const club[] = {
    "gym Quay\n    barbells 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n    stations rack\n    closed 2027-03-08 because spring clean\n",
    "gym Shed\n    barbells 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5 kg\n    stations rack\n    dumbbells pairs 4-30 kg by 2\n",
    "athlete Abril Cove\n    stance southpaw\n    lifting since 2026-11\n    trains at Quay\n    body mass 60 kg on 2027-02-20\n"
    "    bests\n        back squat : 3 @ 80 kg on 2026-02-01\n",
    "athlete Benno Cove\n    stance orthodox\n    lifting since 2019-04\n    trains at Quay\n    body mass 71 kg on 2027-02-20\n"
    "    bests\n        back squat : 3 @ 120 kg on 2026-02-01\n",
    "athlete Calla Cove\n    stance orthodox\n    lifting since 2020-04\n    trains at Shed\n    body mass 65 kg on 2027-02-20\n"
    "    bests\n        back squat : 3 @ 90 kg on 2027-02-01\n",
    "athlete Dario Cove\n    stance orthodox\n    age group under 18\n    lifting since 2025-04\n    trains at Shed\n"
    "    bests\n        back squat : 3 @ 70 kg on 2027-02-01\n",
    "athlete Edda Cove\n    stance southpaw\n    lifting since 2022-04\n    bests\n"
    "        back squat : 3 @ 85 kg on 2027-02-01\n",
    "exercise capstan turn\n    kind conditioning\n    pattern push\n    side both\n    needs capstan\n    counts metres\n",
    "limits Own\n    every week\n        sparring rounds at most 8\n            common practice\n        sets at least 30\n"
    "            source Foster 1998, J Sports Sci (from memory)\n        load rise at most 15%\n        squat sets at least 2 to 1 push warn\n"
    "        lifts at most 60 info\n        time at most 100 min warn\n"
    "    every session\n        sets at most 9\n        tonnage with body mass at most 1000 kg warn\n        strikes at most 40\n    every week\n        strikes at most 20\n"
    "    every camp\n        sessions at least 20\n    under 18\n        sparring rounds at most 20\n    every phase\n        sets at most 12\n",
    "session Floor\n    under 40 min\n    superset A 3 sets rest 1:30\n        back squat : 5 @ 80%\n"
    "            for novice : 8 @ RPE 6\n        push-up : 10\n    superset B 3 sets rest 1:00\n        one arm dumbbell row : 8 each side @ RPE 7\n"
    "        overhead press : 5 @ RPE 7\n    superset C 2 sets rest 1:00\n        push-up : 8 @ RPE 7\n        archer push-up : 8 @ RPE 7\n"
    "    straight D 2 sets rest 1:00\n        capstan turn : 20 m\n",
    "session Quick\n    straight A 3 sets rest 2:00\n        back squat : 8-10 @ 60 kg tempo 3-1-X-0\n            next time 8-10, then 2.5 kg\n",
    "session Long\n    under 10 min\n    straight A 4 sets rest 3:00\n        back squat : 5 @ 85%\n    straight B 3 sets rest 1:00\n"
    "        jab : 15 strikes\n",
    "camp Spring\n    for Abril Cove, Benno Cove, Calla Cove\n    starts 2027-03-01\n    bout 2027-04-03\n    limits Own\n"
    "    phases\n        strength : until taper\n        taper : 10 days\n"
    "    weeks 1-5\n        monday Floor\n        thursday Long\n"
    "    week 1\n        tuesday 18:00 Quick\n            out by 18:06\n    week 2\n        saturday sparring : 9 x 2:00 RPE 7\n    week 3\n        friday sparring : 4 x 2:00 RPE 7\n"
    "        saturday sparring : 12 x 2:00 RPE 8\n        thursday Long\n            change B.1 : 22 strikes\n    week 4\n"
    "        saturday sparring : 10 x 2:00 RPE 8\n    week 5\n        saturday Floor\n        tuesday 06:00 travel : 12 h\n            time zones 4 east\n"
    "    waive sparring-over in week 2 up to 9\n        because visitors\n    waive sparring-over in week 3 up to 10\n"
    "        because visitors\n    waive sets-under in week 2 down to 20\n        because the hall is shut\n"
    "    waive sets-under in week 3 down to 2\n        because the hall is shut\n"
    "    waive contacts-over in week 1\n        because they jump\n",
    "camp Young\n    for Dario Cove, Edda Cove, Benno Cove\n    starts 2027-03-01\n    limits Own\n    weeks 1-4\n"
    "        monday Floor\n        wednesday Long\n    weeks 2-3\n        sunday sparring : 7 x 2:00 RPE 7\n"
    "    weeks 1-2\n        tuesday 18:00 Quick\n            out by 18:06\n    week 4\n        sunday sparring : 11 x 2:00 RPE 7\n    waive session-too-long in week 2\n        because late\n    waive sets-under in week 3\n        because late\n",
    "camp Bags\n    for Abril Cove\n    starts 2027-03-01\n    limits Own\n    week 1\n        wednesday Long\n        friday bag work : 5 x 3:00 RPE 7\n"
    "    week 4\n        friday bag work : 5 x 3:00 RPE 7\n",
    "camp More\n    for Calla Cove\n    starts 2027-03-01\n    limits Own\n    week 1\n        wednesday Long\n        saturday Long\n"
    "    week 5\n        wednesday Long\n        friday bag work : 5 x 3:00 RPE 7\n",
    "private Abril Cove\n    avoid overhead\n        because see the letter\n",
    "private Edda Cove\n    hold head\n        since 2027-03-10 19:30\n        reached 2a by club physio on 2027-03-12\n",
    "log 2027-03-01 Benno Cove, Floor\n    took 60 min RPE 7\n    A.1 : 5 @ 80 kg\n",
    "log 2027-03-02 Dario Cove, Quick\n    A.1 : 10 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg\n",
    "log 2027-03-02 Edda Cove, Quick\n    A.1 : 10 @ 60 kg; 10 @ 60 kg; 10 @ 60 kg\n",
    "log 2027-03-04 Benno Cove, Long\n    took 30 min RPE 6\n",
};

enum { PARTS = sizeof club / sizeof *club };

/* The club, with a remark above each part whose bit is in REMARKS, and where its parts then start. */
static struct plan_reader read_club(unsigned remarks, uint32_t *starts)
{
    struct plan_reader reader;
    plan_reader_open(&reader);
    for (size_t i = 0; i < FROM_SHELF; i++)
        plan_reader_file(&reader, shelf[i], true);
    GString *text = g_string_new("");
    for (size_t i = 0; i < PARTS; i++) {
        if (i > 0 && remarks >> i & 1)
            g_string_append(text, "# as agreed\n");
        starts[i] = (uint32_t)text->len;
        g_string_append(text, club[i]);
        g_string_append(text, "\n");
    }
    plan_reader_text(&reader, "club.bell", text->str, text->len);
    plan_reader_resolve(&reader);
    reader.programme->today = date_from_ymd(2027, 3, 5);
    for (size_t i = 0; i < reader.diag->count; i++) { /* other files of the shelf are missed by nobody */
        const struct finding *finding = reader.diag->items[i];
        if (finding->severity == SEVERITY_ERROR && finding->span.file >= FROM_SHELF)
            fail_msg("%s", finding->words);
    }
    reader.programme->incomplete = false;
    reader.programme->unclear = NULL;
    assert_int_equal(reader.programme->athlete_count, ATHLETES);
    g_string_free(text, TRUE);
    return reader;
}

/* --- what was found, all of it --- */

static void add_span(GString *out, struct span span)
{
    g_string_append_printf(out, " %u:%u-%u", span.file, span.start, span.end);
}

static void add_finding(GString *out, const struct finding *finding)
{
    g_string_append_printf(out, "%d %d %zu%s", finding->severity, finding->diagnostic, finding->order,
                           finding->private ? " private" : "");
    add_span(out, finding->span);
    g_string_append_printf(out, " %s\n  met %d neutral %s help %s replacement %s", finding->words, finding->met,
                           finding->neutral ? finding->neutral : "-", finding->help ? finding->help : "-",
                           finding->replacement ? finding->replacement : "-");
    add_span(out, finding->fix);
    g_string_append_c(out, '\n');
    if (finding->of) {
        const struct athlete *person = finding->of->person;
        g_string_append_printf(out, "  of %s %d-%d %d %s, %s", person->name.shown, finding->of->first, finding->of->last,
                               finding->of->week, finding->of->who, finding->of->when);
        add_span(out, finding->of->span);
    }
    if (finding->row)
        g_string_append_printf(out, "  row %s, %s, %s\n", finding->row->is, finding->row->least, finding->row->source);
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct note *note = &finding->notes[i];
        g_string_append_printf(out, "  note %d %d %s", note->placed, note->summand, note->words);
        if (note->placed)
            add_span(out, note->span);
        g_string_append_c(out, '\n');
    }
}

static char *all_of(const struct diag *diag)
{
    GString *out = g_string_new("");
    for (size_t i = 0; i < diag->count; i++)
        add_finding(out, diag->items[i]);
    return g_string_free(out, FALSE);
}

static char *found_together(struct plan_reader *reader)
{
    struct diag *diag = diag_new(reader->arena, &reader->sources);
    rules_run(reader->programme, diag);
    return all_of(diag);
}

/* --- one apart from another --- */

struct kept {
    struct arena *arena;
    struct recall *athletes[ATHLETES];
};

static struct arena *arena_of(void *with, size_t number)
{
    (void)number;
    return ((struct kept *)with)->arena;
}

/* Checks the athletes of READER whose bits are WANTED, beside what BEFORE has of the others; leaves what is kept in AFTER. */
static char *found_apart(struct plan_reader *reader, unsigned wanted, const struct kept *before, struct shift shift,
                         struct kept *after)
{
    bool is_wanted[ATHLETES];
    const struct recall *old[ATHLETES];
    struct diag *diag = diag_new(reader->arena, &reader->sources);
    *after = (struct kept){.arena = arena_new()};
    for (size_t a = 0; a < ATHLETES; a++) {
        bool unclear = reader->programme->unclear && reader->programme->unclear[a];
        is_wanted[a] = !unclear && wanted >> a & 1;
        old[a] = unclear || !before ? NULL : before->athletes[a];
    }
    const struct recalls recalls = {.wanted = is_wanted, .before = old, .after = after->athletes, .shift = shift,
                                    .arena_for = arena_of, .with = after};
    rules_run_recalling(reader->programme, &recalls, diag);
    return all_of(diag);
}

/* Line by line, so that the first that differs is shown. */
static void assert_same(const char *together, char *apart)
{
    char **wanted = g_strsplit(together, "\n", -1), **found = g_strsplit(apart, "\n", -1);
    for (size_t i = 0; wanted[i] && found[i]; i++)
        assert_string_equal(found[i], wanted[i]);
    assert_int_equal(g_strv_length(found), g_strv_length(wanted));
    g_strfreev(wanted);
    g_strfreev(found);
    g_free(apart);
}

/* The same, and nothing is kept of it. */
static char *found_beside(struct plan_reader *reader, unsigned wanted, const struct kept *before, struct shift shift)
{
    struct kept after;
    char *found = found_apart(reader, wanted, before, shift, &after);
    arena_free(after.arena);
    return found;
}

/* Everybody, then some athletes anew beside the others, whose lines stood elsewhere; then the same again with what is
 * kept moved once for all; then while somebody is in doubt. */
static void found_the_same(unsigned remarks_before, unsigned remarks_now)
{
    static const unsigned sets[] = {0x0, 0x1, 0x16, 0x8, 0x1f};
    uint32_t before_starts[MOST_PARTS], now_starts[MOST_PARTS];
    struct kept before;
    struct plan_reader reader = read_club(remarks_before, before_starts);
    char *together = found_together(&reader);
    assert_same(together, found_apart(&reader, ~0u, NULL, (struct shift){0}, &before));
    g_free(together);
    plan_reader_close(&reader);

    reader = read_club(remarks_now, now_starts);
    struct file_shift *files = arena_alloc(reader.arena, reader.sources.count * sizeof *files);
    files[reader.sources.count - 1] = (struct file_shift){before_starts, now_starts, PARTS};
    const struct shift shift = {files, reader.sources.count}, still = {0};
    together = found_together(&reader);
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++)
        assert_same(together, found_beside(&reader, sets[i], &before, shift));
    for (size_t a = 0; a < ATHLETES; a++)
        recall_move(&shift, before.athletes[a]);
    assert_same(together, found_beside(&reader, 0x2, &before, still));
    g_free(together);
    for (unsigned doubtful = 0; doubtful < ATHLETES; doubtful++) {
        bool unclear[ATHLETES] = {false};
        unclear[doubtful] = true;
        reader.programme->unclear = unclear;
        reader.programme->incomplete = doubtful % 2;
        together = found_together(&reader);
        assert_same(together, found_beside(&reader, doubtful % 2 ? 0x11 : 0x6, &before, still));
        g_free(together);
    }
    reader.programme->unclear = NULL;
    reader.programme->incomplete = false;
    reader.programme->waiver_count = 0; /* what was kept of waivers that are gone is of no use */
    char *found = found_beside(&reader, 0, &before, still);
    assert_non_null(strstr(found, "of Abril Cove"));
    g_free(found);
    arena_free(before.arena);
    plan_reader_close(&reader);
}

static void apart_and_together(void **state)
{
    (void)state;
    found_the_same(0, 0);
    found_the_same(0xffff, 0x1234);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(apart_and_together)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

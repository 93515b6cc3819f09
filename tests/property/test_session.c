/* test_session.c - an open session says the same as a fresh one, whatever is typed: the findings of each edit, field by
 * field and in their order, and what was understood. The edits are of all sorts, and each follows from the seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cases.h"
#include "library/session.h"
#include "model/programme.h"

enum { MOST_FILES = 64 };
/* How many edits, in all and in the sample; a squad's room takes long to work out. */
enum { EDITS = 1000, SAMPLE = 150, ROOM_EDITS = 200, ROOM_SAMPLE = 20 };

struct file {
    char *path, *first, *text; /* as it is on the disk, and as it is now */
};

struct club {
    uint64_t chance;
    char *folder;
    struct file files[MOST_FILES];
    size_t count;
    size_t edited;            /* the file of the last edit */
    struct bell_session *open;
    size_t partial, complete; /* how many compiles left somebody out, and how many were without errors */
};

static unsigned draw(struct club *club, unsigned below)
{
    uint64_t *state = &club->chance;
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (unsigned)(*state * UINT64_C(2685821657736338717) >> 33) % below;
}

/* --- edits --- */

/* A line of TEXT: where it starts, and how long it is with its end. */
static char *random_line(struct club *club, char *text, size_t *length)
{
    size_t lines = 0;
    for (const char *p = text; *p; p++)
        lines += *p == '\n';
    size_t wanted = lines ? draw(club, (unsigned)lines) : 0;
    char *line = text;
    while (wanted-- > 0)
        line = strchr(line, '\n') + 1;
    char *end = strchr(line, '\n');
    *length = end ? (size_t)(end - line + 1) : strlen(line);
    return line;
}

/* TEXT with LENGTH bytes at AT replaced by WORDS. */
static char *replaced(const char *text, const char *at, size_t length, const char *words)
{
    return g_strdup_printf("%.*s%s%s", (int)(at - text), text, words, at + length);
}

static char *change_digit(struct club *club, char *text)
{
    size_t length;
    for (int tries = 0; tries < 20; tries++) {
        char *line = random_line(club, text, &length), *digit = strpbrk(line, "0123456789");
        if (!digit || digit >= line + length)
            continue;
        char *copy = g_strdup(text);
        copy[digit - text] = (char)('0' + draw(club, 10));
        return copy;
    }
    return g_strdup(text);
}

static char *edit_line(struct club *club, char *text, unsigned how, const char *other)
{
    size_t length;
    char *line = random_line(club, text, &length), *copy = g_strndup(line, length), *made = NULL, *more;
    switch (how) {
    case 0: made = replaced(text, line, length, ""); break;
    case 1: made = replaced(text, line, 0, copy); break;
    case 2:
        copy[length / 2] = '\0';
        more = g_strconcat(copy, "\n", NULL);
        made = replaced(text, line, length, more);
        g_free(more);
        break;
    case 3: made = replaced(text, line, 0, "# a note\n"); break;
    case 4: made = replaced(text, line, 0, "\n"); break;
    case 5: made = replaced(text, line + length - (length && line[length - 1] == '\n'), 0, "   # as last year"); break;
    default: made = replaced(text, line, 0, other); break;
    }
    g_free(copy);
    return made;
}

/* A session or a log of another file's, or one of its own under a new name: sessions and logs come and go. */
static char *insert_block(struct club *club, char *text, const char *donor)
{
    static const char *const heads[] = {"\nsession ", "\nlog "};
    const char *head = heads[draw(club, 2)], *start = strstr(donor, head);
    char *at = strstr(text, "\nsession ");
    if (!start || !at)
        return g_strdup(text);
    const char *line = strchr(++start, '\n'), *end = line;
    while (end[0] && end[1] && strchr(" \n", end[1]))
        end = strchr(end + 1, '\n') ? strchr(end + 1, '\n') : end + strlen(end);
    const char *name = draw(club, 2) && strncmp(start, "session", 7) == 0 ? " again" : "";
    char *block = g_strdup_printf("%.*s%s%.*s\n", (int)(line - start), start, name, (int)(end - line), line);
    char *made = replaced(text, at + 1, 0, block);
    g_free(block);
    return made;
}

/* The first session or log goes, or a session's name gets a letter more. */
static char *change_block(struct club *club, char *text)
{
    char *at = strstr(text, draw(club, 2) ? "\nsession " : "\nlog "), *end;
    if (!at)
        return g_strdup(text);
    at++;
    if (draw(club, 2))
        return replaced(text, strchr(at, '\n'), 0, "x");
    for (end = strchr(at, '\n'); end && end[1] && strchr(" \n", end[1]);)
        end = strchr(end + 1, '\n');
    return replaced(text, at, end ? (size_t)(end + 1 - at) : strlen(at), "");
}

/* Most edits are what is typed most: a figure. */
static char *edit(struct club *club, struct file *file)
{
    size_t length;
    char *other_line = random_line(club, club->files[draw(club, (unsigned)club->count)].text, &length);
    char *other = g_strndup(other_line, length);
    unsigned how = draw(club, 18);
    char *made;
    if (how < 8)
        made = change_digit(club, file->text);
    else if (how < 15)
        made = edit_line(club, file->text, how - 8, other);
    else if (how == 15)
        made = insert_block(club, file->text, club->files[draw(club, (unsigned)club->count)].text);
    else
        made = change_block(club, file->text);
    g_free(other);
    return made;
}

/* --- findings as text --- */

static void add_place(GString *out, const struct bell_place *place)
{
    g_string_append_printf(out, " %s|%s|%ld|%u:%u-%u:%u|%zu-%zu", place->file, place->path, place->version, place->line,
                           place->column, place->end_line, place->end_column, place->start, place->end);
}

static char *findings_of(const struct bell_session *session)
{
    GString *out = g_string_new(bell_is_incomplete(session) ? "incomplete\n" : "complete\n");
    for (size_t i = 0; i < bell_finding_count(session); i++) {
        const struct bell_finding *finding = bell_finding(session, i);
        g_string_append_printf(out, "%s %d %d %s | %s | %s", finding->id, finding->severity, finding->for_coach,
                               finding->message, finding->help ? finding->help : "-",
                               finding->replacement ? finding->replacement : "-");
        add_place(out, &finding->place);
        if (finding->replacement)
            add_place(out, &finding->edit);
        for (size_t n = 0; n < finding->note_count; n++) {
            g_string_append_printf(out, "\n    %s", finding->notes[n].message);
            if (finding->notes[n].placed)
                add_place(out, &finding->notes[n].place);
        }
        g_string_append_c(out, '\n');
    }
    return g_string_free(out, FALSE);
}

/* --- sessions --- */

static struct bell_session *session_open(const struct club *club)
{
    const struct bell_options options = {.share = "share", .today = "2027-03-20"};
    struct bell_session *session;
    assert_int_equal(bell_open(&options, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, club->folder), BELL_OK);
    return session;
}

static void lay(struct bell_session *session, const struct file *file)
{
    assert_int_equal(bell_overlay(session, file->path, file->text, strlen(file->text), 1), BELL_OK);
}

/* Only what differs from the disk is laid over it. */
static struct bell_session *compile_fresh(const struct club *club)
{
    struct bell_session *fresh = session_open(club);
    for (size_t i = 0; i < club->count; i++)
        lay(fresh, &club->files[i]);
    assert_int_equal(bell_compile(fresh), BELL_OK);
    return fresh;
}

static void same_json(struct bell_session *open, struct bell_session *fresh)
{
    const char *a, *b;
    size_t a_length, b_length;
    assert_int_equal(bell_programme(open, 1, &a, &a_length), BELL_OK);
    assert_int_equal(bell_programme(fresh, 1, &b, &b_length), BELL_OK);
    assert_string_equal(a, b);
    enum bell_status status = bell_tally(open, 1, &a, &a_length);
    assert_int_equal(status, bell_tally(fresh, 1, &b, &b_length));
    if (status == BELL_OK)
        assert_string_equal(a, b);
}

static void restore(struct club *club)
{
    for (size_t i = 0; i < club->count; i++) {
        struct file *file = &club->files[i];
        if (strcmp(file->text, file->first) == 0)
            continue;
        g_free(file->text);
        file->text = g_strdup(file->first);
        lay(club->open, file);
    }
}

static void compare(struct club *club, unsigned number)
{
    struct bell_session *fresh = compile_fresh(club);
    assert_int_equal(bell_compile(club->open), BELL_OK);
    club->partial += !club->open->whole;
    club->complete += !bell_is_incomplete(fresh);
    char *a = findings_of(club->open), *b = findings_of(fresh);
    if (strcmp(a, b) != 0)
        print_message("%s, edit %u, of %s:\n%s\n", club->folder, number, club->files[club->edited].path,
                      club->files[club->edited].text);
    assert_string_equal(a, b);
    if (number % 16 == 0)
        same_json(club->open, fresh);
    bool broken = bell_is_incomplete(fresh) != 0;
    bell_close(fresh);
    g_free(a);
    g_free(b);
    if (draw(club, broken ? 2 : 12) == 0) /* nobody leaves an error for long */
        restore(club);
}

static void type(struct club *club, unsigned number)
{
    club->edited = draw(club, 3) ? draw(club, (unsigned)club->count) : club->edited;
    struct file *file = &club->files[club->edited];
    char *made = edit(club, file);
    g_free(file->text);
    file->text = made;
    lay(club->open, file);
    compare(club, number);
}

/* --- clubs --- */

static void add_file(struct club *club, const char *path)
{
    struct file *file = &club->files[club->count++];
    assert_true(club->count <= MOST_FILES);
    file->path = g_strdup(path);
    assert_true(g_file_get_contents(path, &file->first, NULL, NULL));
    file->text = g_strdup(file->first);
}

static void find_files(struct club *club, const char *folder)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    assert_non_null(dir);
    for (const char *name; (name = g_dir_read_name(dir)) != NULL;) {
        char *path = g_build_filename(folder, name, NULL);
        if (g_file_test(path, G_FILE_TEST_IS_DIR))
            find_files(club, path);
        else if (g_str_has_suffix(name, ".bell"))
            add_file(club, path);
        g_free(path);
    }
    g_dir_close(dir);
}

static void club_open(struct club *club)
{
    find_files(club, club->folder);
    club->open = session_open(club);
    for (size_t i = 0; i < club->count; i++)
        lay(club->open, &club->files[i]);
    assert_int_equal(bell_compile(club->open), BELL_OK);
    if (bell_is_incomplete(club->open))
        print_message("%s\n", findings_of(club->open));
}

static void club_close(struct club *club)
{
    bell_close(club->open);
    for (size_t i = 0; i < club->count; i++) {
        g_free(club->files[i].path);
        g_free(club->files[i].first);
        g_free(club->files[i].text);
    }
}

/* Each part of the proof begins anew, with edits of its own. */
static void try_club(struct club *club, struct cases edits)
{
    club->chance += edits.from;
    club_open(club);
    for (unsigned i = edits.from + 1; i <= edits.to; i++)
        type(club, i);
    club_close(club);
}

static void test_example(void **state)
{
    (void)state;
    struct club club = {.chance = 20270301, .folder = "examples/slipway"};
    const struct cases edits = cases_of(ROOM_EDITS, ROOM_SAMPLE);
    try_club(&club, edits);
    assert_true(club.complete > cases_count(edits) / 4);
}

static void test_over_limit(void **state)
{
    (void)state;
    struct club club = {.chance = 7, .folder = "examples/over-limit"};
    try_club(&club, cases_of(ROOM_EDITS, ROOM_SAMPLE));
}

/* --- a club in which much is shared --- */

static const char *const first_names[] = {"Abril", "Benno", "Calla", "Dario", "Edda", "Fionn", "Greta", "Hakon"};

static void add_athletes(GString *out)
{
    g_string_append(out, "gym Quay\n    time zone Europe/London\n    barbells 2 x 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n"
                         "    dumbbells pairs 4-30 kg by 2\n    stations 2 x rack, landmine, bench\n    bands light, medium\n\n");
    for (int i = 0; i < 8; i++)
        g_string_append_printf(out, "athlete %s Cove\n    stance %s\n    lifting since 202%d-04\n    trains at Quay\n"
                                    "    time zone Asia/Tokyo from 2027-03-22 to 2027-03-23\n    bests\n"
                                    "        back squat : 3 @ %d kg on 2027-02-0%d\n\n",
                               first_names[i], i % 3 ? "orthodox" : "southpaw", i % 7, 80 + i * 5, i + 1);
}

static void add_sessions(GString *out, int squad)
{
    for (int i = 0; i < 3; i++)
        g_string_append_printf(out,
                               "session Floor %d of %d%s\n    superset A 3/3/4/4 sets rest 1:30\n"
                               "        back squat : 5/5/3/3 @ 75/77.5/80/82.5%%\n            for novice : 8 @ RPE 6\n"
                               "        push-up : 10\n    superset B 3 sets rest 1:00\n"
                               "        one arm dumbbell row : 8 each side @ %d kg\n        side plank : hold 2%d s each side\n\n",
                               i + 1, squad, i == 2 ? " based on Floor 1 of 1" : "", 10 + i * 2, i);
}

static void add_camp(GString *out, const char *name, const char *members, int squad, const char *hour)
{
    g_string_append_printf(out,
                           "camp %s\n    for %s\n    starts 2027-03-01\n    time zone Asia/Bangkok from 2027-03-08 to 2027-03-12\n"
                           "    limits house defaults\n    weeks 1-4\n"
                           "        monday %s Floor 1 of %d\n        thursday %s Floor 2 of %d\n"
                           "        saturday 10:00 sparring : %d x 3:00 RPE 7\n    week 2\n"
                           "        monday %s Floor 1 of %d\n            change A.1 : 4 @ 70%%\n            drop B\n"
                           "    waive sparring-over in week 3 up to 30\n        because visitors\n"
                           "    waive sets-under in week 2\n        because the hall is shut\n",
                           name, members, hour, squad, hour, squad, 4 + squad, hour, squad);
}

static void put(const char *folder, const char *name, GString *text)
{
    char *path = g_build_filename(folder, name, NULL);
    assert_true(g_file_set_contents(path, text->str, -1, NULL));
    g_string_truncate(text, 0);
    g_free(path);
}

static void write_shared_club(const char *folder)
{
    GString *text = g_string_new("");
    char name[64];
    add_athletes(text);
    put(folder, "athletes.bell", text);
    for (int squad = 1; squad <= 2; squad++) {
        add_sessions(text, squad);
        snprintf(name, sizeof name, "squad-%d.bell", squad);
        put(folder, name, text);
    }
    for (int i = 0; i < 6; i++) {
        char *member = g_strconcat(first_names[i], " Cove", NULL), *camp = g_strconcat("Season of ", member, NULL);
        add_camp(text, camp, member, 1 + i % 2, "17:30");
        snprintf(name, sizeof name, "camp-%d.bell", i);
        if (i % 2) /* two to a file: what changes in one moves the other */
            put(folder, name, text);
        g_free(member);
        g_free(camp);
    }
    add_camp(text, "Both", "Edda Cove, Fionn Cove, Greta Cove, Hakon Cove", 2, ""); /* without an hour there is no room to work out */
    put(folder, "camp-both.bell", text);
    g_string_append(text, "private Abril Cove\n    avoid overhead\n        because see the letter\n"
                          "private Greta Cove\n    hold head\n        since 2027-03-10 19:30\n"
                          "        reached 2a by club physio on 2027-03-12\n");
    put(folder, "private.bell", text);
    g_string_append(text, "log 2027-03-01 Abril Cove, Floor 1 of 1\n    took 60 min RPE 7\n    A.1 : 5 @ 70 kg\n"
                          "log 2027-03-04 Benno Cove, Floor 2 of 2\n    took 40 min RPE 6\n"
                          "log 2027-03-09 Calla Cove, sparring\n    took 12 min RPE 8\n");
    put(folder, "logs.bell", text);
    g_string_free(text, TRUE);
}

static void remove_folder(char *folder)
{
    char *words[] = {"rm", "-rf", folder, NULL};
    g_spawn_sync(NULL, words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL);
    g_free(folder);
}

/* --- remarks --- */

/* How many sessions are worked out once WORDS stand behind the first place of ANCHOR in the file called NAME. */
static size_t worked_out(struct club *club, const char *name, const char *anchor, const char *words)
{
    struct file *file = club->files;
    while (!g_str_has_suffix(file->path, name))
        file++;
    const char *at = strstr(file->text, anchor);
    assert_non_null(at);
    char *made = replaced(file->text, at + strlen(anchor), 0, words);
    g_free(file->text);
    file->text = made;
    lay(club->open, file);
    compare(club, 1);
    return club->open->project.programme->occasion_count;
}

/* A remark reaches nobody but who is reached by all that is typed, since one of them is held; wherever it stands; and what was
 * found below it, and beside it, is where it stands now. */
static void test_remarks(void **state)
{
    (void)state;
    char *folder = g_dir_make_tmp("bellsheet-session-XXXXXX", NULL);
    struct club club = {.chance = 42, .folder = folder};
    write_shared_club(folder);
    club_open(&club);
    const size_t held = worked_out(&club, "squad-2.bell", "superset A", "");
    assert_int_equal(worked_out(&club, "squad-2.bell", "back squat : 5/5/3/3 @ 75/77.5/80/82.5%", "  # slowly"), held);
    assert_int_equal(worked_out(&club, "squad-2.bell", "# slow", "er, and lower"), held);
    assert_int_equal(worked_out(&club, "squad-2.bell", "rest 1:00\n", "\n        # the quiet end\n\n"), held);
    assert_int_equal(worked_out(&club, "camp-both.bell", "camp Both\n", "# as agreed\n"), held);
    assert_int_equal(worked_out(&club, "athletes.bell", "lifting since 2020-04", "\t# with a coach"), held);
    assert_true(worked_out(&club, "squad-2.bell", "push-up : 1", "1") > held);
    club_close(&club);
    remove_folder(folder);
}

static void test_shared(void **state)
{
    (void)state;
    char *folder = g_dir_make_tmp("bellsheet-session-XXXXXX", NULL);
    struct club club = {.chance = 42, .folder = folder};
    write_shared_club(folder);
    const struct cases edits = cases_of(EDITS, SAMPLE);
    try_club(&club, edits);
    remove_folder(folder);
    assert_true(club.complete > cases_count(edits) / 4);
    assert_true(club.partial > cases_count(edits) / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_remarks),
        cmocka_unit_test(test_shared),
        cmocka_unit_test(test_example),
        cmocka_unit_test(test_over_limit),
    };
    return cmocka_run_group_tests_name("session", tests, NULL, NULL);
}

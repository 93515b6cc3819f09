/* No word of a sheet is outside the catalogues. The sheets of words.bell, in which nothing has a name in Latin letters, are made
 * in a language that nobody speaks: the Spanish catalogue with each Latin letter turned into a Cyrillic one. Whatever Latin
 * letters are left on a page, in its title or in what is read aloud were never looked up. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>

#include "language/language.h"
#include "layout/scene.h"
#include "measure/kit.h"
#include "measure/member.h"
#include "model/kinds.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "rules/rules.h"
#include "sheets/request.h"

/* Cyrillic has a letter for each of these. */
static const char *const letters[26] = {"а", "б", "ц", "д", "е", "ф", "г", "х", "и", "й", "к", "л", "м",
                                        "н", "о", "п", "щ", "р", "с", "т", "у", "в", "ш", "ж", "ы", "з"};

/* FORM without a Latin letter but those of its placeholders. */
static const char *turned(struct arena *arena, const char *form)
{
    struct text out = {.arena = arena};
    for (const char *at = form; *at; at++) {
        if (*at == '%' && at[1] && strchr("0123456789.$sduzcf%", at[1])) {
            size_t length = strcspn(at + 1, "dsuzcf%") + 2;
            length += at[length - 1] == 'z';
            text_add_bytes(&out, at, length);
            at += length - 1;
        } else if (g_ascii_isalpha(*at)) {
            text_add(&out, letters[g_ascii_tolower(*at) - 'a']);
        } else {
            text_add_char(&out, *at);
        }
    }
    return text_keep(arena, &out);
}

/* Adds TEXT with its NUL to TEXTS, and gives where it begins. */
static uint32_t add_text(GString *texts, const char *text)
{
    uint32_t begins = (uint32_t)texts->len;
    g_string_append_len(texts, text, (gssize)strlen(text) + 1);
    return begins;
}

/* LANGUAGE turned; of all ids but WITHOUT, which may be NULL. */
static const struct language *turned_language(struct arena *arena, const struct language *language, const char *without)
{
    struct language *own = arena_alloc(arena, sizeof *own);
    struct translation *all = arena_alloc(arena, language->count * sizeof *all);
    GString *texts = g_string_new(NULL);
    *own = *language;
    own->guards_read = true; /* their English is meant to be there */
    own->translations = all;
    own->count = 0;
    for (size_t i = 0; i < language->count; i++) {
        const struct translation *one = &language->translations[i];
        const char *form = turned(arena, language->texts + one->forms);
        if (without && strcmp(language->texts + one->id, without) == 0)
            continue;
        all[own->count].context = add_text(texts, language->texts + one->context);
        all[own->count].id = add_text(texts, language->texts + one->id);
        all[own->count++].forms = add_text(texts, form);
        add_text(texts, form); /* of a count there are two */
    }
    own->texts = arena_copy(arena, texts->str, texts->len);
    g_string_free(texts, TRUE);
    return own;
}

/* Who worked out an equation, and when: "Epley 1985". */
static bool is_cited(const char *word)
{
    size_t length = strspn(word + 1, "abcdefghijklmnopqrstuvwxyz") + 1;
    return word[length] == ' ' && strspn(word + length + 1, "0123456789") == 4;
}

/* How long the name of a check is that WORD begins with, as plans have it: "sparring-over"; 0: it begins with none. */
static size_t check_length(const char *word)
{
    char name[64] = "";
    size_t length = strspn(word, "abcdefghijklmnopqrstuvwxyz-");
    if (length >= sizeof name)
        return 0;
    memcpy(name, word, length);
    return rule_find(name) ? length : 0;
}

/* The first Latin word of TEXT that is more than the letter and number of a line ("A1", "X"), a work cited or a check, or NULL. */
static const char *latin_in(const char *text)
{
    for (const char *at = text; *at; at++) {
        if (!g_ascii_isalpha(*at))
            continue;
        size_t check = check_length(at);
        if (check) {
            at += check - 1;
            continue;
        }
        if (!g_ascii_isupper(*at) || (g_ascii_isalpha(at[1]) && !is_cited(at)))
            return at;
        while (g_ascii_isalpha(at[1]))
            at++;
        while (g_ascii_isdigit(at[1]))
            at++;
    }
    return NULL;
}

/* How many texts of SCENE hold a Latin word; each is printed if TELL. */
static unsigned latin_texts(const char *sheet, const struct scene *scene, bool tell)
{
    unsigned count = 0;
    const char *const spoken[] = {scene->title, scene->description};
    for (size_t i = 0; i < sizeof spoken / sizeof *spoken; i++)
        if (spoken[i] && latin_in(spoken[i])) {
            count++;
            if (tell)
                fprintf(stderr, "%s says: %s\n", sheet, latin_in(spoken[i]));
        }
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *element = &scene->pages[p]->elements[i];
            if (element->kind != ELEMENT_TEXT || !latin_in(element->text))
                continue;
            count++;
            if (tell)
                fprintf(stderr, "%s, page %zu: %s\n", sheet, p + 1, element->text);
        }
    return count;
}

struct stage {
    struct plan_reader reader;
    struct type *type;
};

static int open_stage(void **state)
{
    static struct stage stage;
    const char *wrong = NULL;
    stage.type = type_open(&wrong);
    plan_reader_open(&stage.reader);
    plan_reader_shelf(&stage.reader); /* it has the bout and its weigh-in */
    plan_reader_file(&stage.reader, "tests/property/words.bell", false);
    plan_reader_resolve(&stage.reader);
    if (diag_count(stage.reader.diag, SEVERITY_ERROR))
        plan_reader_tell(&stage.reader);
    *state = &stage;
    return stage.type && !diag_count(stage.reader.diag, SEVERITY_ERROR) ? 0 : -1;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    plan_reader_close(&stage->reader);
    type_close(stage->type);
    return 0;
}

static bool is_one(const struct sheet *sheet, const struct occasion *first, const struct occasion *other)
{
    bool camp = other->camp == first->camp, athlete = other->athlete == first->athlete;
    switch (sheet->scope) {
    case SCOPE_SESSION: return camp && other->session == first->session && other->date == first->date;
    case SCOPE_SESSION_EACH: return other == first;
    case SCOPE_WEEK_EACH: return camp && athlete && other->week == first->week;
    case SCOPE_CAMP_EACH: return camp && athlete;
    case SCOPE_CAMP: return camp;
    case SCOPE_WEEK: return other->week == first->week;
    case SCOPE_SEASON_EACH: return athlete;
    case SCOPE_SEASON: break;
    }
    return true;
}

/* SHEET of what shares it with FIRST, in LANGUAGE. */
static struct scene *make(const struct stage *stage, struct arena *arena, const struct language *language,
                          const struct sheet *sheet, const struct occasion *first)
{
    const struct programme *programme = stage->reader.programme;
    const struct occasion **members = arena_alloc(arena, programme->occasion_count * sizeof *members);
    struct occasion_group group = {.occasions = members, .season = programme->season_count ? programme->seasons[0] : NULL};
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (is_one(sheet, first, &programme->occasions[i]))
            members[group.count++] = &programme->occasions[i];
    const struct sheet_origin origin = {.programme = programme, .arena = arena, .version = "1234567", .coach = true, .private = true};
    for (size_t i = 0; i < programme->athlete_count; i++)
        ((struct athlete *)programme->athletes[i])->language = language;
    for (size_t i = 0; i < programme->gym_count; i++)
        ((struct gym *)programme->gyms[i])->language = language;
    struct sheet_request request = sheet_request_for(&origin, sheet, &group);
    request.arena = arena;
    request.type = stage->type;
    return sheet_make(sheet, &request);
}

/* Is FIRST the first of those that share SHEET, and is the sheet for such? */
static bool begins(const struct programme *programme, const struct sheet *sheet, const struct occasion *first)
{
    bool of_session = sheet->scope == SCOPE_SESSION || sheet->scope == SCOPE_SESSION_EACH;
    if ((of_session && !first->session) || first->week > 9)
        return false;
    if (sheet->of_bout && !occasion_bout(first))
        return false;
    for (const struct occasion *before = programme->occasions; before < first && !sheet->of_bout; before++)
        if (is_one(sheet, first, before) && (!of_session || before->session == first->session))
            return false;
    return !of_session || first->week == 1;
}

static void test_no_word_is_outside_the_catalogue(void **state)
{
    const struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    unsigned latin = 0;
    struct arena *shared = arena_new();
    const struct language *language = turned_language(shared, language_find("spanish"), NULL);
    for (size_t s = 0; s < sheet_count; s++) {
        const struct sheet *sheet = &sheets[s];
        unsigned made = 0;
        for (size_t i = 0; i < programme->occasion_count; i++) {
            const struct occasion *first = &programme->occasions[i];
            if (!begins(programme, sheet, first))
                continue;
            struct arena *arena = arena_new();
            latin += latin_texts(sheet->name, make(stage, arena, language, sheet, first), true);
            made++;
            arena_free(arena);
        }
        if (!made)
            fprintf(stderr, "no %s is made\n", sheet->name);
        assert_true(made > 0);
    }
    arena_free(shared);
    assert_int_equal(latin, 0);
}

/* Whatever a restriction may name. */
static void test_restrictions_have_words(void **state)
{
    (void)state;
    const struct vocabulary *const named[] = {&exercise_kinds, &patterns, &regions, &joints, &demands};
    struct arena *arena = arena_new();
    size_t english = 0;
    for (size_t l = 0; l < language_count; l++) {
        arena_speak(arena, languages[l]);
        for (size_t v = 0; v < sizeof named / sizeof *named; v++)
            for (size_t i = 0; i < named[v]->count; i++)
                english += strcmp(said_as(arena, "avoid", named[v]->names[i]), named[v]->names[i]) == 0;
    }
    size_t all = 0;
    for (size_t v = 0; v < sizeof named / sizeof *named; v++)
        all += named[v]->count;
    arena_free(arena);
    assert_int_equal(english, all); /* in English itself, and in no other language */
}

/* Of those checks whose findings a head coach may have to decide about. */
static void test_checks_have_words(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    size_t english = 0, all = 0;
    for (size_t l = 0; l < language_count; l++) {
        arena_speak(arena, languages[l]);
        for (int i = 0; i < DIAGNOSTIC_COUNT; i++) {
            enum family family = diagnostic_family((enum diagnostic)i);
            const char *title = diagnostic_title((enum diagnostic)i);
            if (family != FAMILY_VOLUME && family != FAMILY_PHASE && family != FAMILY_PERSON)
                continue;
            all += l == 0;
            english += strcmp(said_as(arena, "check", title), title) == 0;
        }
    }
    arena_free(arena);
    assert_true(all > 70);
    assert_int_equal(english, all);
}

/* The head coach's page of the week of FIRST, and how many things it says are to be decided. */
static size_t decisions_in(const struct stage *stage, struct arena *arena, const struct language *language,
                           const struct occasion *first)
{
    const struct occasion_group group = {.occasions = &first, .count = 1};
    const struct sheet_origin origin = {.programme = stage->reader.programme, .arena = arena, .version = "1234567"};
    ((struct gym *)occasion_gym(first))->language = language;
    struct sheet_request request = sheet_request_for(&origin, sheet_find("monday"), &group);
    size_t count = 0;
    for (size_t i = 0; i < request.brief_count; i++)
        count += request.briefs[i].decision_count;
    return count;
}

/* What is to be decided does not hang on the language that it is said in: but where a check found several things, other
 * languages name it once. */
static void test_decisions_are_the_same_in_each_language(void **state)
{
    const struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    size_t decided = 0;
    for (size_t i = 0; i < programme->occasion_count; i += 7) {
        struct arena *arena = arena_new();
        size_t english = decisions_in(stage, arena, NULL, &programme->occasions[i]);
        assert_int_equal(decisions_in(stage, arena, languages[0], &programme->occasions[i]), english);
        for (size_t l = 1; l < language_count; l++) {
            size_t count = decisions_in(stage, arena, languages[l], &programme->occasions[i]);
            assert_int_equal(count > 0, english > 0);
            assert_true(count <= english);
        }
        decided += english;
        arena_free(arena);
    }
    assert_true(decided > 10);
}

/* What the coach reads is not in the language of whom it is about. */
static void test_the_coachs_own_is_in_that_of_the_house(void **state)
{
    const struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    struct arena *arena = arena_new();
    const struct occasion *first = &programme->occasions[0];
    const struct occasion_group group = {.occasions = &first, .count = 1, .season = programme->seasons[0]};
    const struct sheet_origin origin = {.programme = programme, .arena = arena, .version = "1234567"};
    struct gym *gym = (struct gym *)occasion_gym(first);
    ((struct athlete *)first->athlete)->language = language_find("thai");
    gym->language = language_find("spanish");
    assert_string_equal(sheet_request_for(&origin, sheet_find("season"), &group).language->name, "Thai");
    assert_string_equal(sheet_request_for(&origin, sheet_find("review"), &group).language->name, "Spanish");
    assert_string_equal(sheet_request_for(&origin, sheet_find("monday"), &group).language->name, "Spanish");
    assert_string_equal(sheet_request_for(&origin, sheet_find("floor"), &group).language->name, "Spanish");
    gym->language = NULL;
    assert_null(sheet_request_for(&origin, sheet_find("review"), &group).language);
    arena_free(arena);
}

/* A text that is not in the catalogue is seen. */
static void test_a_word_outside_is_found(void **state)
{
    const struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    struct arena *arena = arena_new();
    const struct language *language = turned_language(arena, language_find("spanish"), "minutes");
    const struct sheet *card = sheet_find("card");
    size_t i = 0;
    while (!begins(programme, card, &programme->occasions[i]))
        i++;
    assert_int_equal(latin_texts("card", make(stage, arena, language, card, &programme->occasions[i]), false), 1);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_word_is_outside_the_catalogue),
        cmocka_unit_test(test_restrictions_have_words),
        cmocka_unit_test(test_checks_have_words),
        cmocka_unit_test(test_decisions_are_the_same_in_each_language),
        cmocka_unit_test(test_the_coachs_own_is_in_that_of_the_house),
        cmocka_unit_test(test_a_word_outside_is_found),
    };
    return cmocka_run_group_tests(tests, open_stage, close_stage);
}

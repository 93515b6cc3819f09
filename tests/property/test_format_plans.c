/* Plans at random, in any spelling: the formatter must keep what they say, write each in one way
 * only, and leave alone what it wrote. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <cmocka.h>

#include "cases.h"
#include "property/plan_maker.c"
#include "source/screen.h"
#include "syntax/format.h"

enum { PLANS = 3000, SAMPLE = 600 };

struct reading {
    struct sources sources;
    struct diag *diag;
    unsigned file;
};

static void read_plan(struct reading *reading, struct arena *arena, const struct text *plan)
{
    reading->sources = (struct sources){.arena = arena};
    reading->diag = diag_new(arena, &reading->sources);
    reading->file =
        (unsigned)source_add(&reading->sources, "plan.bell", text_get(plan), plan->length);
}

static void fail_with(const struct reading *reading, const struct text *plan, const char *words)
{
    struct text findings = {0};
    diag_print(reading->diag, &(struct diag_style){0}, &findings);
    fprintf(stderr, "%s\n%s\n%s\n", words, text_get(&findings), text_get(plan));
    text_free(&findings);
    fail();
}

static void format_plan(struct arena *arena, const struct phrasebook *book, const struct text *plan,
                        enum format_outcome wanted, struct text *out)
{
    struct reading reading;
    read_plan(&reading, arena, plan);
    enum format_outcome outcome =
        format_source(arena, &reading.sources, reading.file, book, reading.diag, out);
    if (outcome == FORMAT_FAULTY)
        fail_with(&reading, plan, "the plan has errors");
    if (outcome == FORMAT_UNPROVEN)
        fail_with(&reading, plan, "the layout reads otherwise");
    if (wanted == FORMAT_SAME && outcome != FORMAT_SAME)
        fail_with(&reading, plan, "the layout is laid out once more");
}

/* How many statements of the tree stand before OFFSET. */
static unsigned statements_before(const struct node *parent, uint32_t offset)
{
    unsigned count = 0;
    for (const struct node *child = parent->first; child; child = child->next)
        if (node_is_statement(child))
            count += (child->span.start < offset) + statements_before(child, offset);
    return count;
}

static void same_meaning(struct arena *arena, const struct phrasebook *book,
                         const struct text *plan, const struct text *out)
{
    struct reading a, b;
    read_plan(&a, arena, plan);
    read_plan(&b, arena, out);
    const struct tree *left = read_file(arena, &a.sources, a.file, book, a.diag);
    const struct tree *right = read_file(arena, &b.sources, b.file, book, b.diag);
    if (!node_same(left->root, right->root))
        fail_with(&b, out, "the tree differs");
    assert_int_equal(left->comment_count, right->comment_count);
    for (size_t i = 0; i < left->comment_count; i++) {
        const struct comment *c = &left->comments[i], *d = &right->comments[i];
        assert_int_equal(c->own_line, d->own_line);
        assert_int_equal(c->span.end - c->span.start, d->span.end - d->span.start);
        assert_memory_equal(a.sources.items[0].text + c->span.start, text_get(out) + d->span.start,
                            c->span.end - c->span.start);
        assert_int_equal(statements_before(left->root, c->span.start),
                         statements_before(right->root, d->span.start));
    }
}

/* Is what is true of any canonical text true of OUT? */
static void looks_canonical(const struct text *out)
{
    const char *text = text_get(out);
    assert_true(out->length > 1 && text[out->length - 1] == '\n');
    assert_null(strchr(text, '\r'));
    assert_null(strstr(text, "\n\n\n"));
    assert_null(strstr(text, " \n"));
    assert_null(strstr(text, "\t\n"));
    assert_true(text[0] != '\n' && text[0] != '\xef' && text[out->length - 2] != '\n');
    for (const char *line = text; *line; line = strchr(line, '\n') + 1)
        assert_true(strspn(line, " ") % 4 == 0 && line[strspn(line, " ")] != '\t');
}

static void test_meaning_is_kept(void **state)
{
    (void)state;
    const struct cases seeds = cases_of(PLANS, SAMPLE);
    for (unsigned seed = seeds.from + 1; seed <= seeds.to; seed++) {
        struct arena *arena = arena_new();
        const struct phrasebook *book = phrasebook_new(arena);
        struct text plan = {0}, out = {0};
        plan_make(book, seed, seed, &plan);
        format_plan(arena, book, &plan, FORMAT_CHANGED, &out);
        same_meaning(arena, book, &plan, &out);
        looks_canonical(&out);
        text_free(&plan);
        text_free(&out);
        arena_free(arena);
    }
}

static void test_second_time_changes_nothing(void **state)
{
    (void)state;
    const struct cases seeds = cases_of(PLANS, SAMPLE);
    for (unsigned seed = seeds.from + 1; seed <= seeds.to; seed++) {
        struct arena *arena = arena_new();
        const struct phrasebook *book = phrasebook_new(arena);
        struct text plan = {0}, once = {0}, twice = {0};
        plan_make(book, seed, seed + 1, &plan);
        format_plan(arena, book, &plan, FORMAT_CHANGED, &once);
        format_plan(arena, book, &once, FORMAT_SAME, &twice);
        assert_string_equal(text_get(&once), text_get(&twice));
        text_free(&plan);
        text_free(&once);
        text_free(&twice);
        arena_free(arena);
    }
}

static void test_one_layout_for_all_spellings(void **state)
{
    (void)state;
    const struct cases seeds = cases_of(PLANS, SAMPLE);
    for (unsigned seed = seeds.from + 1; seed <= seeds.to; seed++) {
        struct arena *arena = arena_new();
        const struct phrasebook *book = phrasebook_new(arena);
        struct text plans[2] = {{0}}, outs[2] = {{0}};
        for (unsigned i = 0; i < 2; i++) {
            plan_make(book, seed, seed * 7 + i, &plans[i]);
            format_plan(arena, book, &plans[i], FORMAT_CHANGED, &outs[i]);
        }
        if (strcmp(text_get(&outs[0]), text_get(&outs[1])) != 0)
            fprintf(stderr, "of %s\nand %s\n", text_get(&plans[0]), text_get(&plans[1]));
        assert_string_equal(text_get(&outs[0]), text_get(&outs[1]));
        for (unsigned i = 0; i < 2; i++) {
            text_free(&plans[i]);
            text_free(&outs[i]);
        }
        arena_free(arena);
    }
}

/* Some bytes of PLAN dropped, doubled or replaced by ones that mean something to the scanner. */
static void damage(struct text *plan, uint64_t *state)
{
    static const char bytes[] = "x:@+/,;%#.-0179 \t\n\rAmin";
    for (unsigned left = 1 + draw(state, 6); left; left--) {
        size_t at = draw(state, (unsigned)plan->length);
        char byte = bytes[draw(state, sizeof bytes - 1)];
        if (draw(state, 2)) {
            plan->data[at] = byte;
            continue;
        }
        text_add_char(plan, '\0');
        memmove(plan->data + at + 1, plan->data + at, plan->length - 1 - at);
        plan->data[at] = byte;
    }
}

/* A damaged plan is refused, or its layout is proven like any other. */
static void test_damaged_plans(void **state)
{
    (void)state;
    unsigned refused = 0;
    const struct cases seeds = cases_of(PLANS, SAMPLE);
    uint64_t chance = 11 + seeds.from;
    for (unsigned seed = seeds.from + 1; seed <= seeds.to; seed++) {
        struct arena *arena = arena_new();
        const struct phrasebook *book = phrasebook_new(arena);
        struct text plan = {0}, out = {0};
        struct reading reading;
        plan_make(book, seed, seed + 2, &plan);
        damage(&plan, &chance);
        read_plan(&reading, arena, &plan);
        enum format_outcome outcome =
            format_source(arena, &reading.sources, reading.file, book, reading.diag, &out);
        if (outcome == FORMAT_UNPROVEN)
            fail_with(&reading, &plan, text_get(&out));
        refused += outcome == FORMAT_FAULTY;
        text_free(&plan);
        text_free(&out);
        arena_free(arena);
    }
    assert_in_range(refused, cases_count(seeds) / 10, cases_count(seeds) * 9 / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_meaning_is_kept),
        cmocka_unit_test(test_second_time_changes_nothing),
        cmocka_unit_test(test_one_layout_for_all_spellings),
        cmocka_unit_test(test_damaged_plans),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

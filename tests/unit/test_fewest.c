/* The fewest changes: against every set of changes, on random questions. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "amend/fewest.h"

enum { QUESTIONS = 300, CHANGES_MOST = 9, WANTED_MOST = 4 };

/* A question at random: each change answers some of what is wanted, and breaks some of it again. */
struct question {
    uint64_t chance;
    size_t count;
    unsigned answers[CHANGES_MOST], breaks[CHANGES_MOST], wanted;
    int groups[CHANGES_MOST];
    int asked;
};

static unsigned pick(struct question *question, unsigned below)
{
    question->chance ^= question->chance >> 12;
    question->chance ^= question->chance << 25;
    question->chance ^= question->chance >> 27;
    return (unsigned)((question->chance * UINT64_C(2685821657736338717) >> 33) % below);
}

static void make(struct question *question)
{
    question->count = 2 + pick(question, CHANGES_MOST - 1);
    question->wanted = (1u << (1 + pick(question, WANTED_MOST))) - 1;
    for (size_t i = 0; i < question->count; i++) {
        question->answers[i] = 1u << pick(question, WANTED_MOST) | (pick(question, 3) ? 0 : 1u << pick(question, WANTED_MOST));
        question->breaks[i] = pick(question, 4) ? 0 : 1u << pick(question, WANTED_MOST);
        question->groups[i] = (int)pick(question, (unsigned)question->count);
    }
}

/* What of the wanted is answered and not broken by the changes in SET. */
static bool is_answered(const struct question *question, unsigned set)
{
    unsigned answered = 0, broken = 0;
    for (size_t i = 0; i < question->count; i++) {
        answered |= set >> i & 1 ? question->answers[i] : 0;
        broken |= set >> i & 1 ? question->breaks[i] & ~question->answers[i] : 0;
    }
    return (question->wanted & answered & ~broken) == question->wanted;
}

static bool holds(void *with, const size_t *changes, size_t count)
{
    struct question *question = with;
    unsigned set = 0;
    for (size_t i = 0; i < count; i++)
        set |= 1u << changes[i];
    question->asked++;
    return is_answered(question, set);
}

static size_t size_of(unsigned set)
{
    size_t size = 0;
    for (; set; set &= set - 1)
        size++;
    return size;
}

static bool go_together(const struct question *question, unsigned set)
{
    for (size_t i = 0; i < question->count; i++)
        for (size_t k = i + 1; k < question->count; k++)
            if (set >> i & set >> k & 1 && question->groups[i] == question->groups[k])
                return false;
    return true;
}

/* The size of the smallest set that answers, and how many of that size do; 0: none of up to FEWEST_TOGETHER. */
static size_t least_of_all(const struct question *question, size_t *number)
{
    size_t least = 0;
    *number = 0;
    for (unsigned set = 1; set < 1u << question->count; set++) {
        size_t size = size_of(set);
        if (size > FEWEST_TOGETHER || (least && size > least) || !go_together(question, set) || !is_answered(question, set))
            continue;
        *number = size == least ? *number + 1 : 1;
        least = size;
    }
    return least;
}

static void test_never_more_than_needed(void **state)
{
    (void)state;
    struct question question = {.chance = 15};
    int answered = 0, several = 0, hopeless = 0;
    for (int i = 0; i < QUESTIONS; i++) {
        make(&question);
        const struct fewest fewest = {question.count, question.groups, 100000, holds, &question};
        struct fewest_found found = fewest_find(&fewest);
        size_t number, least = least_of_all(&question, &number);
        assert_true(found.all_asked);
        assert_int_equal(found.count, number < FEWEST_WAYS ? number : FEWEST_WAYS);
        for (size_t k = 0; k < found.count; k++) {
            assert_int_equal(found.ways[k].count, least);
            assert_true(holds(&question, found.ways[k].changes, least));
        }
        answered += found.count > 0;
        several += least > 1;
        hopeless += !found.count;
    }
    assert_true(answered > QUESTIONS / 3); /* the questions are neither all easy nor all hopeless */
    assert_true(several > QUESTIONS / 10);
    assert_true(hopeless > QUESTIONS / 10);
}

static void test_says_when_it_stops_short(void **state)
{
    (void)state;
    struct question question = {.count = CHANGES_MOST, .wanted = 1};
    const struct fewest fewest = {CHANGES_MOST, NULL, 20, holds, &question};
    struct fewest_found found = fewest_find(&fewest);
    assert_int_equal(found.count, 0);
    assert_false(found.all_asked);
    assert_int_equal(question.asked, 20);
}

static void test_the_cheapest_come_first(void **state)
{
    (void)state;
    struct question question = {.count = 5, .wanted = 1, .answers = {0, 1, 0, 1, 1}};
    const struct fewest fewest = {5, NULL, 100, holds, &question};
    struct fewest_found found = fewest_find(&fewest);
    assert_int_equal(found.count, 3);
    assert_int_equal(found.ways[0].changes[0], 1);
    assert_int_equal(found.ways[2].changes[0], 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_never_more_than_needed),
        cmocka_unit_test(test_says_when_it_stops_short),
        cmocka_unit_test(test_the_cheapest_come_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Lines worked out from one measurement are the lines that Pango breaks. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdlib.h>
#include <cmocka.h>

#include "layout/breaks.h"
#include "layout/type.h"

static const char *const texts[] = {
    "turn the hip before the arm moves",
    "half kneeling landmine press from a stance with a catch at the top",
    "90-90 hip switch, then 2 x 8/10/12 each side (own + switched)",
    "Đặng Sương Lụa: ôn lại tư thế trước khi đấm, thở ra đều",
    "Plyometrický odraz stranou – dopad na jednu nohu, ticho",
};

enum { TEXTS = sizeof texts / sizeof *texts };

static struct type *open_type(void)
{
    const char *wrong;
    struct type *type = type_open(&wrong);
    if (!type)
        fail_msg("%s", wrong);
    return type;
}

static void agrees_with_pango(void **state)
{
    (void)state;
    struct type *type = open_type();
    int compared = 0, one_more = 0;
    for (size_t i = 0; i < TEXTS; i++) {
        const struct run *whole = type_set(type, texts[i], (struct style){.size = 64});
        struct breaks *breaks = breaks_find(whole->layout);
        assert_true(breaks->plain);
        for (double width = whole->width / 12; width < whole->width; width += 7) {
            double widest;
            int lines = breaks_lines(breaks, width, &widest);
            const struct run *set =
                type_set(type, texts[i], (struct style){.size = 64, .width = width, .whole_words = true});
            assert_in_range(lines - set->lines, 0, 1);
            one_more += lines != set->lines;
            compared++;
            if (lines == set->lines)
                assert_true(widest - set->width < 1 && set->width - widest < 1);
        }
        free(breaks);
    }
    assert_true(compared > 500);
    assert_true(one_more * 100 < compared); /* by a hair, in one of a hundred widths */
    type_close(type);
}

/* What is tried is as high as what is then set. */
static void trial_is_as_high(void **state)
{
    (void)state;
    struct type *type = open_type();
    for (size_t i = 0; i < TEXTS; i++) {
        struct style style = {.size = 17, .whole_words = true, .leading = 0.9};
        double whole = type_width(type, texts[i], 17, WEIGHT_REGULAR);
        for (style.width = whole / 4; style.width < whole; style.width += 11) {
            type_try(type);
            struct run tried = *type_set(type, texts[i], style);
            type_try_end(type);
            const struct run *set = type_set(type, texts[i], style);
            if (tried.lines != set->lines)
                continue;
            assert_true(tried.height - set->height < 0.1 && set->height - tried.height < 0.1);
            assert_true(tried.baseline - set->baseline < 0.1 && set->baseline - tried.baseline < 0.1);
            assert_true(tried.last_baseline - set->last_baseline < 0.1 &&
                        set->last_baseline - tried.last_baseline < 0.1);
        }
    }
    type_close(type);
}

static void other_scripts_are_left_to_pango(void **state)
{
    (void)state;
    struct type *type = open_type();
    static const char *const others[] = {"two\nparagraphs", "مرحبا بالعالم", "สวัสดีชาวโลก"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        struct breaks *breaks = breaks_find(type_set(type, others[i], (struct style){.size = 64})->layout);
        assert_false(breaks->plain);
        free(breaks);
    }
    type_close(type);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_pango),
        cmocka_unit_test(trial_is_as_high),
        cmocka_unit_test(other_scripts_are_left_to_pango),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

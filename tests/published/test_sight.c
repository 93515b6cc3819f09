/* Reading size and contrast against published formulas. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/sight.h"
#include "near.h"

/* Source: ISO 9241-303, h = 2 d tan(angle / 2), 16 and 20 minutes of arc; arithmetic ours. */
static void height_at_the_wall(void **state)
{
    (void)state;
    assert_near(sight_height(3000.0, SIGHT_MINUTES_LEAST), 13.962659, 5e-7);
    assert_near(sight_height(5000.0, SIGHT_MINUTES_GOOD), 29.088903, 5e-7);
}

static void inverses_lead_back(void **state)
{
    (void)state;
    for (double distance = 400.0; distance <= 5000.0; distance += 200.0) {
        for (double minutes = 4.0; minutes <= 40.0; minutes += 4.0) {
            double height = sight_height(distance, minutes);
            assert_near(sight_distance(height, minutes), distance, 1e-8);
        }
    }
}

/* A point is 1/72 of an inch (ISO 32000, PDF), and A4 is 210 x 297 mm (ISO 216). */
static void points_of_a_sheet(void **state)
{
    (void)state;
    assert_near(sight_points_from_mm(25.4), 72.0, 1e-12);
    assert_near(sight_points_from_mm(210.0), 595.275590551, 5e-10);
    assert_near(sight_points_from_mm(297.0), 841.889763780, 5e-10);
    assert_near(sight_mm_from_points(595.275590551), 210.0, 5e-9);
}

static double grey(int level)
{
    return sight_luminance(level / 255.0, level / 255.0, level / 255.0);
}

/* Source: WCAG 2.2 (W3C 2023), relative luminance and contrast ratio; arithmetic ours. */
static void contrast_by_the_guidelines(void **state)
{
    (void)state;
    double white = grey(0xff);

    assert_near(white, 1.0, 1e-12);
    assert_near(grey(0), 0.0, 0.0);
    assert_near(sight_contrast(white, grey(0)), 21.0, 1e-9);
    assert_near(sight_contrast(white, white), 1.0, 1e-12);
    assert_near(sight_contrast(grey(0x77), white), 4.4780894536, 5e-11);
    assert_true(sight_contrast(grey(0x77), white) < 4.5);
    assert_true(sight_contrast(grey(0x76), white) > 4.5);
    assert_near(sight_contrast(grey(0x59), white), 7.0047292080, 5e-11);
    assert_near(sight_contrast(white, grey(0x59)), 7.0047292080, 5e-11);
}

/* The weights of the three primaries are those of the guidelines' definition. */
static void primaries_weigh_as_defined(void **state)
{
    (void)state;
    assert_near(sight_luminance(1.0, 0.0, 0.0), 0.2126, 1e-12);
    assert_near(sight_luminance(0.0, 1.0, 0.0), 0.7152, 1e-12);
    assert_near(sight_luminance(0.0, 0.0, 1.0), 0.0722, 1e-12);
    /* The two branches: 10/255 = 0.0392 is below the border of 0.04045, 11/255 = 0.0431 above. */
    assert_near(grey(10), 10.0 / 255.0 / 12.92, 1e-12);
    assert_near(sight_luminance(0.0404, 0.0404, 0.0404), 0.0404 / 12.92, 1e-12);
    assert_near(sight_luminance(0.04045, 0.04045, 0.04045), 0.04045 / 12.92, 1e-12);
    assert_near(sight_luminance(0.0405, 0.0405, 0.0405), pow((0.0405 + 0.055) / 1.055, 2.4), 1e-12);
    assert_near(grey(11), pow((11.0 / 255.0 + 0.055) / 1.055, 2.4), 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(height_at_the_wall),
        cmocka_unit_test(inverses_lead_back),
        cmocka_unit_test(points_of_a_sheet),
        cmocka_unit_test(contrast_by_the_guidelines),
        cmocka_unit_test(primaries_weigh_as_defined),
    };
    return cmocka_run_group_tests_name("sight", tests, NULL, NULL);
}

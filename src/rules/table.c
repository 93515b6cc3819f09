/* The checks, in the order in which they run and in which a screen shows a week's first five warnings: first what
 * cannot be done, then what the coach has set, then what rests on opinion. */
#include "base/text.h"
#include "rules/checks.h"
#include "rules/run.h"

enum {
    ALL_SUMS = SCOPE_OCCASION | SCOPE_WEEK | SCOPE_PHASE | SCOPE_CAMP,
};

#define OVER(diagnostic, group) {diagnostic, ALL_SUMS, check_over, group, 0}
#define UNDER(diagnostic, group) {diagnostic, ALL_SUMS, check_under, group, 0}
#define EACH_OCCASION(diagnostic, check) {diagnostic, SCOPE_OCCASION, check, GROUP_MEASURED, 0}

const struct rule rules[] = {
    {DIAG_HOLD_BROKEN, SCOPE_OCCASION | SCOPE_CAMP | SCOPE_ATHLETE, check_hold_broken, GROUP_MEASURED,
     FIRM | HEALTH | TO_COME},
    {DIAG_HOLD_ENTRY, SCOPE_ATHLETE, check_hold_entry, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_KNOCK_WITHOUT_HOLD, SCOPE_ATHLETE, check_knock, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_STOPPED_WITHOUT_HOLD, SCOPE_CAMP, check_stopped, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_SUSPENSION_BROKEN, SCOPE_OCCASION | SCOPE_CAMP, check_suspension, GROUP_MEASURED, FIRM | HEALTH | TO_COME},
    {DIAG_OUT_MISSING, SCOPE_ATHLETE, check_out_missing, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_OUT_OUTLASTS_HOLD, SCOPE_ATHLETE, check_out_outlasts, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_HOLD_BREACHED, SCOPE_ATHLETE, check_hold_breached, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_AVOID_BROKEN, SCOPE_OCCASION, check_avoid_broken, GROUP_MEASURED, FIRM | HEALTH | TO_COME},
    {DIAG_ILLNESS_UNSEEN, SCOPE_OCCASION, check_illness, GROUP_MEASURED, FIRM | HEALTH | TO_COME},
    {DIAG_KIT_MISSING, SCOPE_OCCASION, check_kit_missing, GROUP_MEASURED, TO_COME},
    {DIAG_KIT_TWICE, SCOPE_OCCASION, check_kit_twice, GROUP_MEASURED, TO_COME},
    {DIAG_DISCS_SHORT, SCOPE_OCCASION, check_discs_short, GROUP_MEASURED, TO_COME},
    EACH_OCCASION(DIAG_HOURS_OVERLAP, check_overlap),
    {DIAG_ROOM_REFUSED, SCOPE_ATHLETE, check_room_refused, GROUP_MEASURED, TOGETHER},
    {DIAG_ROOM_OVERRUN, SCOPE_ATHLETE, check_room_overrun, GROUP_MEASURED, TOGETHER},
    EACH_OCCASION(DIAG_WORK_ON_BOUT_DAY, check_bout_day),
    EACH_OCCASION(DIAG_HARD_AFTER_TRAVEL, check_after_travel),
    {DIAG_GYM_CLOSED, SCOPE_ATHLETE, check_gym_closed, GROUP_MEASURED, 0},

    OVER(DIAG_SPARRING_OVER, GROUP_SPARRING),
    OVER(DIAG_STRIKES_OVER, GROUP_STRIKES),
    OVER(DIAG_CONTACTS_OVER, GROUP_CONTACTS),
    OVER(DIAG_LIFTS_OVER, GROUP_LIFTS),
    OVER(DIAG_THROWS_OVER, GROUP_THROWS),
    OVER(DIAG_TIME_OVER, GROUP_TIME),
    OVER(DIAG_ROUNDS_OVER, GROUP_ROUNDS),
    OVER(DIAG_HOLDS_OVER, GROUP_HOLDS),
    OVER(DIAG_DISTANCE_OVER, GROUP_DISTANCE),
    OVER(DIAG_TONNAGE_OVER, GROUP_TONNAGE),
    OVER(DIAG_LOAD_OVER, GROUP_LOAD),
    OVER(DIAG_SETS_OVER, GROUP_SETS),
    OVER(DIAG_SESSIONS_OVER, GROUP_SESSIONS),
    {DIAG_SESSION_TOO_LONG, SCOPE_OCCASION, check_overtime, GROUP_TIME, 0},
    {DIAG_TIME_OFF_VOLUME, SCOPE_WEEK, check_time_off, GROUP_MEASURED, 0},
    {DIAG_LOAD_RISE, SCOPE_WEEK, check_load_rise, GROUP_LOAD, 0},
    {DIAG_MONOTONY_OUTSIDE, SCOPE_WEEK, check_monotony, GROUP_MEASURED, 0},
    {DIAG_STRAIN_OUTSIDE, SCOPE_WEEK, check_strain, GROUP_MEASURED, 0},
    {DIAG_ADHERENCE_UNDER, SCOPE_WEEK, check_adherence, GROUP_MEASURED, 0},

    EACH_OCCASION(DIAG_LEGS_BEFORE_SPARRING, check_legs_before_sparring),
    EACH_OCCASION(DIAG_NECK_BEFORE_SPARRING, check_neck_before_sparring),
    EACH_OCCASION(DIAG_HEAVY_DAYS_CLOSE, check_heavy_days),
    EACH_OCCASION(DIAG_TIME_OFF_LIFTING, check_time_off_lifting),
    EACH_OCCASION(DIAG_INTENSITY_OUTSIDE, check_intensity),
    EACH_OCCASION(DIAG_REPS_OUTSIDE, check_reps_outside),
    EACH_OCCASION(DIAG_REPS_EXCEED_LOAD, check_reps_exceed),
    {DIAG_FIRST_WEEKS_EFFORT, SCOPE_OCCASION, check_first_weeks_effort, GROUP_MEASURED, 0},
    EACH_OCCASION(DIAG_PAIR_SAME_REGION, check_same_region),
    EACH_OCCASION(DIAG_CONTRAST_NOT_HEAVY, check_contrast_light),
    EACH_OCCASION(DIAG_CONTRAST_NOT_EXPLOSIVE, check_contrast_slow),
    EACH_OCCASION(DIAG_GRIP_BEFORE_HANDS, check_grip_before_hands),
    EACH_OCCASION(DIAG_SKILL_AFTER_WORK, check_skill_after_work),
    EACH_OCCASION(DIAG_FILLER_LOADS_ROUND, check_filler_load),
    EACH_OCCASION(DIAG_FILLER_TOO_LONG, check_filler_long),
    EACH_OCCASION(DIAG_TEMPO_ON_FAST_WORK, check_tempo_ballistic),
    EACH_OCCASION(DIAG_KILOGRAMS_OPEN, check_kilograms_open),
    {DIAG_NEXT_BEHIND, SCOPE_ATHLETE, check_next_behind, GROUP_MEASURED, TO_COME},
    EACH_OCCASION(DIAG_LOG_SIDES, check_log_sides),
    EACH_OCCASION(DIAG_BEST_OLD, check_best_old),
    EACH_OCCASION(DIAG_TEST_AFTER_HEAVY, check_test_fresh),
    EACH_OCCASION(DIAG_CONTRAST_REST_SHORT, check_contrast_rest),
    EACH_OCCASION(DIAG_WRAPS_ON, check_wraps),
    {DIAG_ROOM_WAIT, SCOPE_ATHLETE, check_room_wait, GROUP_MEASURED, TOGETHER},

    UNDER(DIAG_SESSIONS_UNDER, GROUP_SESSIONS),
    UNDER(DIAG_SETS_UNDER, GROUP_SETS),
    UNDER(DIAG_SPARRING_UNDER, GROUP_SPARRING),
    UNDER(DIAG_STRIKES_UNDER, GROUP_STRIKES),
    UNDER(DIAG_CONTACTS_UNDER, GROUP_CONTACTS),
    UNDER(DIAG_LIFTS_UNDER, GROUP_LIFTS),
    UNDER(DIAG_THROWS_UNDER, GROUP_THROWS),
    UNDER(DIAG_TIME_UNDER, GROUP_TIME),
    UNDER(DIAG_ROUNDS_UNDER, GROUP_ROUNDS),
    UNDER(DIAG_HOLDS_UNDER, GROUP_HOLDS),
    UNDER(DIAG_DISTANCE_UNDER, GROUP_DISTANCE),
    UNDER(DIAG_TONNAGE_UNDER, GROUP_TONNAGE),
    UNDER(DIAG_LOAD_UNDER, GROUP_LOAD),
    {DIAG_RATIO_OUTSIDE, ALL_SUMS, check_ratio, GROUP_MEASURED, 0},
    {DIAG_STRENGTH_BALANCE, SCOPE_WEEK, check_strength_balance, GROUP_MEASURED, 0},
    {DIAG_STRIKE_BALANCE, SCOPE_WEEK, check_strike_balance, GROUP_MEASURED, 0},

    {DIAG_TAPER_VOLUME, SCOPE_PHASE, check_taper_volume, GROUP_MEASURED, 0},
    {DIAG_PHASE_TOO_SHORT, SCOPE_PHASE, check_phase_short, GROUP_MEASURED, 0},
    {DIAG_NEW_EXERCISE_LATE, SCOPE_PHASE, check_new_exercise, GROUP_MEASURED, 0},
    {DIAG_LOWERING_LATE, SCOPE_PHASE, check_lowering, GROUP_MEASURED, 0},
    {DIAG_SUBSTITUTED, SCOPE_ATHLETE, check_substituted, GROUP_MEASURED, 0},
    {DIAG_WEEKS_EMPTY, SCOPE_ATHLETE, check_weeks_empty, GROUP_MEASURED, 0},
    {DIAG_CAMP_OUTSIDE_SEASON, SCOPE_PROGRAMME, check_camp_season, GROUP_MEASURED, 0},
    {DIAG_ATHLETE_WITHOUT_CAMP, SCOPE_ATHLETE, check_without_camp, GROUP_MEASURED, 0},
    {DIAG_RETURN_UNMET, SCOPE_ATHLETE, check_return_unmet, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_REGION_LEFT_OUT, SCOPE_WEEK, check_region_left_out, GROUP_MEASURED, HEALTH},
    {DIAG_RETEST_DUE, SCOPE_ATHLETE, check_retest_due, GROUP_MEASURED, 0},
    {DIAG_REVIEW_DUE, SCOPE_ATHLETE, check_review_due, GROUP_MEASURED, HEALTH},
    {DIAG_PROVISIONAL, SCOPE_OCCASION, check_provisional, GROUP_MEASURED, 0},
    {DIAG_AGE_GROUP_MISSING, SCOPE_ATHLETE, check_age_group, GROUP_MEASURED, FIRM | HEALTH},
    {DIAG_AGE_GROUP_OUTGROWN, SCOPE_ATHLETE, check_age_outgrown, GROUP_MEASURED, HEALTH},
    {DIAG_SUPERVISION, SCOPE_ATHLETE, check_supervision, GROUP_MEASURED, HEALTH},
    {DIAG_MASS_PLANNED, SCOPE_ATHLETE, check_mass_planned, GROUP_MEASURED, HEALTH},
    {DIAG_MASS_FALLING, SCOPE_ATHLETE, check_mass_falling, GROUP_MEASURED, HEALTH},
    {DIAG_LIMIT_NEVER_HOLDS, SCOPE_PROGRAMME, check_never_holds, GROUP_MEASURED, 0},
    {DIAG_LIMIT_LOOSENED, SCOPE_PROGRAMME, check_loosened, GROUP_MEASURED, 0},
    {DIAG_SESSION_NEVER_PLACED, SCOPE_PROGRAMME, check_never_placed, GROUP_MEASURED, 0},
    {DIAG_WAIVER_UNKNOWN, SCOPE_PROGRAMME, check_waiver_unknown, GROUP_MEASURED, FIRM},
    {DIAG_WAIVER_UNUSED, SCOPE_PROGRAMME, check_waiver_unused, GROUP_MEASURED, FIRM},
    {DIAG_MORE_WARNINGS, 0, NULL, GROUP_MEASURED, FIRM},
    {DIAG_FLOORS_MISSED, 0, NULL, GROUP_MEASURED, FIRM},
};

#undef OVER
#undef UNDER
#undef EACH_OCCASION

const size_t rules_count = sizeof rules / sizeof rules[0];

/* --- asking about them --- */

size_t rule_count(void)
{
    return rules_count;
}

const struct rule *rule_at(size_t index)
{
    return index < rules_count ? &rules[index] : NULL;
}

const struct rule *rule_find(const char *name)
{
    enum diagnostic diagnostic = diagnostic_find(name);
    for (size_t i = 0; i < rules_count; i++)
        if (rules[i].diagnostic == diagnostic)
            return &rules[i];
    return NULL;
}

const char *rule_nearest(const char *name)
{
    enum { FAR = 4 };
    const char *nearest = NULL;
    unsigned best = FAR;
    for (size_t i = 0; i < rules_count; i++) {
        unsigned distance = text_distance(diagnostic_name(rules[i].diagnostic), name, FAR);
        if (distance < best) {
            best = distance;
            nearest = diagnostic_name(rules[i].diagnostic);
        }
    }
    return nearest;
}

enum diagnostic rule_diagnostic(const struct rule *rule)
{
    return rule->diagnostic;
}

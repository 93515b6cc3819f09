/* checks.h - the functions that the table of checks names; each is explained where it is written.
 * */
#ifndef BELL_RULES_CHECKS_H
#define BELL_RULES_CHECKS_H

struct run;
struct rule;
struct window;

#define CHECK(name) \
    void check_##name(struct run *run, const struct rule *rule, const struct window *window)

/* volume.c */
CHECK(over);
CHECK(under);
CHECK(ratio);

/* load.c */
CHECK(load_rise);
CHECK(overtime);
CHECK(loosened);
CHECK(never_holds);

/* logs.c */
CHECK(monotony);
CHECK(strain);
CHECK(adherence);
CHECK(next_behind);
CHECK(log_sides);

/* balance.c */
CHECK(strength_balance);
CHECK(strike_balance);

/* kit.c */
CHECK(kit_missing);
CHECK(substituted);
CHECK(kit_twice);
CHECK(discs_short);

/* pairing.c */
CHECK(same_region);
CHECK(contrast_light);
CHECK(contrast_slow);
CHECK(contrast_rest);
CHECK(grip_before_hands);
CHECK(skill_after_work);
CHECK(filler_load);
CHECK(filler_long);
CHECK(wraps);

/* phase.c */
CHECK(heavy_days);
CHECK(legs_before_sparring);
CHECK(neck_before_sparring);

/* room.c */
CHECK(room_refused);
CHECK(room_overrun);
CHECK(room_wait);

/* overlap.c */
CHECK(overlap);

/* time_off.c */
CHECK(time_off);
CHECK(time_off_lifting);

/* days.c */
CHECK(gym_closed);
CHECK(bout_day);

/* travel.c */
CHECK(after_travel);
CHECK(weeks_empty);
CHECK(camp_season);
CHECK(without_camp);

/* test.c */
CHECK(retest_due);
CHECK(test_fresh);

/* taper.c */
CHECK(intensity);
CHECK(reps_outside);
CHECK(taper_volume);
CHECK(new_exercise);
CHECK(lowering);
CHECK(phase_short);

/* person.c */
CHECK(avoid_broken);
CHECK(illness);
CHECK(region_left_out);
CHECK(return_unmet);
CHECK(review_due);
CHECK(hold_broken);
CHECK(hold_breached);
CHECK(hold_entry);
CHECK(out_missing);
CHECK(out_outlasts);
CHECK(knock);
CHECK(stopped);
CHECK(suspension);
CHECK(first_weeks_effort);

/* care.c */
CHECK(supervision);
CHECK(age_group);
CHECK(age_outgrown);
CHECK(mass_planned);
CHECK(mass_falling);
CHECK(provisional);

/* sense.c */
CHECK(reps_exceed);
CHECK(tempo_ballistic);
CHECK(best_old);
CHECK(never_placed);
CHECK(kilograms_open);
CHECK(waiver_unknown);
CHECK(waiver_unused);

#undef CHECK

#endif

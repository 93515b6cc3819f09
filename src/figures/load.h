#ifndef BELL_FIGURES_LOAD_H
#define BELL_FIGURES_LOAD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* 
 * Training load. Session loads go in as whole numbers of any one unit (thousandths, from load_session) and the results
 * come out real, in the same unit. They describe; no limit here passes a verdict on an athlete. A day's load stays
 * below 10^12, which no day comes near.
 */

/* 
 * Session load in thousandths: RPE (in thousandths, below 10^9) x minutes, to the nearest. Published: Foster et al.
 * 2001, J Strength Cond Res 15(1):109-115. Neither may be negative.
 */
int64_t load_session(int64_t rpe, int seconds);

/* 
 * Volume load, or tonnage: repetitions (in thousandths) x mass (figures/mass.h), in thousandths of a kilogram, to the
 * nearest. Neither may be negative; repetitions are capped at 10^9 thousandths and the mass at MASS_LIMIT.
 */
int64_t load_tonnage(int64_t reps, int64_t mass);

enum { LOAD_DAYS = 7, LOAD_ACUTE_DAYS = 7, LOAD_CHRONIC_DAYS = 28 };

/*
 * Which standard deviation monotony divides by. The papers do not say, so it is a setting; the
 * two differ by the square root of 7/6.
 */
enum load_deviation {
    LOAD_SAMPLE,    /* over n - 1 */
    LOAD_POPULATION /* over n */
};

struct load_week {
    int64_t total;
    double mean; /* by day, rest days counted as 0 */
    double deviation;
    bool even; /* all seven days alike: monotony has no value, and it and strain are left at 0 */
    double monotony;
    double strain;
};

/*
 * A week's load, monotony (mean / deviation of the seven daily loads) and strain (load x
 * monotony). Published: Foster 1998, Med Sci Sports Exerc 30:1164-1168.
 */
struct load_week load_week_of(const int64_t daily[LOAD_DAYS], enum load_deviation deviation);

struct load_trend {
    bool known; /* false: too few days, or a chronic load of 0; all three are left at 0 */
    double acute;
    double chronic;
    double ratio;
};

/* 
 * Mean daily load of the last `acute` days against that of the last `chronic` days. `daily` holds n days, oldest first,
 * rest days as 0. Not known with fewer than `chronic` days or with windows that are not 1 <= acute < chronic. The ratio
 * is disputed (Impellizzeri et al. 2020, Lolli et al. 2019): it is for those who ask for it.
 */
struct load_trend load_rolling(const int64_t *daily, size_t n, int acute, int chronic);

/* The same with the acute days taken out of the chronic window, so that neither contains the other. */
struct load_trend load_uncoupled(const int64_t *daily, size_t n, int acute, int chronic);

/*
 * Exponentially weighted means with lambda = 2 / (N + 1) for a window of N days, both begun at the
 * first day's load; they lean on that day until about a chronic window has gone by. Published:
 * Williams et al. 2017, Br J Sports Med 51:209-210. Known from one day on.
 */
struct load_trend load_weighted(const int64_t *daily, size_t n, int acute, int chronic);

#endif

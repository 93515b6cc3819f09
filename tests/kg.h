/* kg.h - masses of kilograms and pounds for tests, up to three decimals. */
#ifndef BELL_TESTS_KG_H
#define BELL_TESTS_KG_H

#include "figures/mass.h"

#define KG(kilograms) ((int64_t)((kilograms)*1000 + 0.5) * (MASS_KG / 1000))
#define LB(pounds) ((int64_t)((pounds)*1000 + 0.5) * (MASS_LB / 1000))

#endif

#include "figures/clock.h"

static int seconds_within(int64_t seconds)
{
    return seconds <= CLOCK_LIMIT ? (int)seconds : -1;
}

int clock_rounds(int rounds, int work, int rest)
{
    if (rounds < 0 || work < 0 || rest < 0)
        return -1;
    if (rounds == 0)
        return 0;
    return seconds_within((int64_t)rounds * work + ((int64_t)rounds - 1) * rest);
}

int tempo_seconds(const struct tempo *tempo)
{
    const int written[] = {tempo->lower, tempo->pause_low, tempo->lift, tempo->pause_high};
    int64_t total = 0;

    for (unsigned i = 0; i < sizeof written / sizeof written[0]; i++) {
        int seconds = (tempo->fast >> i & 1u) != 0 ? TEMPO_FAST_SECONDS : written[i];
        if (seconds < 0)
            return -1;
        total += seconds;
    }
    return seconds_within(total);
}

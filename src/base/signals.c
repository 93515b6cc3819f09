#include "base/signals.h"

#include <stddef.h>

void signals_hold(sigset_t *before)
{
    static const int ends[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM};
    sigset_t held;
    sigemptyset(&held);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        sigaddset(&held, ends[i]);
    pthread_sigmask(SIG_BLOCK, &held, before);
}

void signals_let_in(const sigset_t *before)
{
    sigset_t held;
    pthread_sigmask(SIG_SETMASK, before, &held);
    pthread_sigmask(SIG_SETMASK, &held, NULL);
}

void signals_release(const sigset_t *before)
{
    pthread_sigmask(SIG_SETMASK, before, NULL);
}

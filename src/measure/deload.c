#include "measure/deload.h"

int deload_leaves(int sets, milli share)
{
    int left = (int)(((int64_t)sets * share * 2 + DELOAD_WHOLE - 1) / (2 * DELOAD_WHOLE));
    return left == 0 && sets > 0 ? 1 : left;
}

int deload_before(int wanted, milli share)
{
    int sets = wanted;
    while (deload_leaves(sets, share) < wanted)
        sets++;
    return sets;
}

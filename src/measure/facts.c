#include "measure/facts.h"

#include "model/programme.h"

int programme_today(const struct programme *programme)
{
    return programme->today;
}

size_t programme_exercise_count(const struct programme *programme)
{
    return programme->exercise_count;
}

bool programme_has_private(const struct programme *programme)
{
    return programme->has_private;
}

size_t programme_test_count(const struct programme *programme)
{
    return programme->test_count;
}

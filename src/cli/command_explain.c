#include <stdio.h>

#include "cli/commands.h"
#include "rules/explain.h"
#include "rules/rules.h"

int command_explain(const struct options *options)
{
    (void)options;
    return 0;
}

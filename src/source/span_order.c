#include "source/span_order.h"

int span_order(struct span a, struct span b)
{
    if (a.file != b.file)
        return a.file < b.file ? -1 : 1;
    return a.start < b.start ? -1 : a.start > b.start;
}

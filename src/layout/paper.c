#include "layout/paper.h"

#include <strings.h>

#include "figures/sight.h"

/* Each series from large to small. */
const struct paper papers[] = {
    {"A1", 594, 841},       {"A2", 420, 594},          {"A3", 297, 420}, {"A4", 210, 297},
    {"A6", 105, 148},       {"Tabloid", 279.4, 431.8}, {"Letter", 215.9, 279.4},
};
const size_t paper_count = sizeof papers / sizeof *papers;

const struct paper *paper_find(const char *name)
{
    for (size_t i = 0; i < paper_count; i++)
        if (strcasecmp(papers[i].name, name) == 0)
            return &papers[i];
    return NULL;
}

const struct paper *paper_larger(const struct paper *paper)
{
    if (strcasecmp(paper->name, "Letter") == 0)
        return paper_find("Tabloid");
    if (paper->name[0] != 'A' || paper == papers)
        return NULL;
    return paper - 1;
}

void paper_points(const struct paper *paper, bool landscape, double *width, double *height)
{
    double across = sight_points_from_mm(paper->width);
    double down = sight_points_from_mm(paper->height);
    *width = landscape ? down : across;
    *height = landscape ? across : down;
}

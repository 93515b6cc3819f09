#include "layout/remedy.h"

#include "layout/paper.h"
#include "layout/sheet.h"

const char *remedy_for(const struct sheet_request *asked, bool (*reads)(const struct sheet_request *request), int further)
{
    struct sheet_request request = *asked;
    const struct paper *largest = asked->paper;
    const char *paper = "";
    while (!*paper && (request.paper = paper_larger(largest)) != NULL) {
        largest = request.paper;
        if (reads(&request))
            paper = arena_printf(asked->arena, "%s paper", largest->name);
    }
    request.paper = asked->paper;
    for (request.pages = asked->pages + 1; request.pages <= asked->pages + further; request.pages++)
        if (reads(&request))
            return arena_printf(asked->arena, "%s%s%d pages would help", paper, *paper ? " or " : "", request.pages);
    if (*paper)
        return arena_printf(asked->arena, "%s would help", paper);
    request.paper = largest;
    for (request.pages = asked->pages + 1; request.pages <= asked->pages + REMEDY_PAGES; request.pages++)
        if (reads(&request))
            return arena_printf(asked->arena, "%s paper and %d pages would help", largest->name, request.pages);
    return NULL;
}

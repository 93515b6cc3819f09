#include "layout/remedy.h"

#include <math.h>

#include "language/language.h"
#include "layout/paper.h"
#include "layout/sheet.h"
#include "wording/wording.h"

struct remedy remedy_for(const struct sheet_request *asked, bool (*reads)(const struct sheet_request *request))
{
    struct remedy remedy = {0};
    struct sheet_request request = *asked;
    const struct paper *largest = asked->paper;
    while (!remedy.paper && (request.paper = paper_larger(largest)) != NULL) {
        largest = request.paper;
        remedy.paper = reads(&request) ? largest : NULL;
    }
    request.paper = asked->paper;
    for (request.pages = asked->pages + 1; !remedy.pages && request.pages <= asked->pages + REMEDY_PAGES; request.pages++)
        remedy.pages = reads(&request) ? request.pages : 0;
    request.paper = largest;
    remedy.both = !remedy.paper && !remedy.pages && largest != asked->paper;
    for (request.pages = asked->pages + 1; remedy.both && !remedy.pages && request.pages <= asked->pages + REMEDY_PAGES; request.pages++)
        remedy.pages = reads(&request) ? request.pages : 0;
    remedy.both = remedy.both && remedy.pages;
    remedy.paper = remedy.both ? largest : remedy.paper;
    return remedy;
}

const char *remedy_words(struct arena *arena, const struct remedy *remedy)
{
    if (remedy->both)
        return arena_printf(arena, "%s paper and %d pages would help", remedy->paper->name, remedy->pages);
    if (remedy->paper && remedy->pages)
        return arena_printf(arena, "%s paper or %d pages would help", remedy->paper->name, remedy->pages);
    if (remedy->paper)
        return arena_printf(arena, "%s paper would help", remedy->paper->name);
    if (remedy->pages)
        return arena_printf(arena, "%d pages would help", remedy->pages);
    return remedy->turn == REMEDY_LANDSCAPE ? "landscape would help" : remedy->turn == REMEDY_UPRIGHT ? "upright would help" : NULL;
}

/* The same in ARENA's language, as a sentence; "" where nothing helps. */
static const char *said_remedy(struct arena *arena, const struct remedy *remedy)
{
    if (remedy->both)
        return arena_printf(arena, said(arena, "%s paper and %d pages would help."), remedy->paper->name, remedy->pages);
    if (remedy->paper && remedy->pages)
        return arena_printf(arena, said(arena, "%s paper or %d pages would help."), remedy->paper->name, remedy->pages);
    if (remedy->paper)
        return arena_printf(arena, said(arena, "%s paper would help."), remedy->paper->name);
    if (remedy->pages)
        return arena_printf(arena, said(arena, "%d pages would help."), remedy->pages);
    return remedy->turn == REMEDY_LANDSCAPE ? said(arena, "Landscape would help.")
           : remedy->turn == REMEDY_UPRIGHT ? said(arena, "Upright would help.")
                                            : "";
}

const char *remedy_note(struct arena *arena, const struct remedy *remedy, double centimetres)
{
    const char *help = said_remedy(arena, remedy), *metres = wording_number(arena, (milli)lround(centimetres * 10));
    return arena_printf(arena, said(arena, "Too small to be read from %s\u00a0m.%s%s"), metres, *help ? " " : "", help);
}

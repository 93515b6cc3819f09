#include "property/sheet_rules.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#include "figures/sight.h"

static bool has_text(const struct box *page, const char *words)
{
    for (size_t i = 0; i < page->count; i++)
        if (page->elements[i].kind == ELEMENT_TEXT && strstr(page->elements[i].text, words))
            return true;
    return false;
}

/* Where a wall or card says "continued", the page before says what goes on. */
static const char *overleaf_fault(const struct scene *scene)
{
    for (size_t p = 1; p < scene->page_count; p++)
        if (has_text(scene->pages[p], " continued") && !has_text(scene->pages[p - 1], "goes on") &&
            !has_text(scene->pages[p], "goes on")) /* from the column before */
            return "what goes on overleaf is not said";
    return NULL;
}

static double baseline(const struct element *text)
{
    return text->y + text->run->baseline;
}

/* Whether a figure ends right before the unit at INDEX. */
static bool has_figure(const struct box *page, size_t index)
{
    const struct element *unit = &page->elements[index];
    for (size_t i = 0; i < page->count; i++) {
        const struct element *other = &page->elements[i];
        if (i == index || other->kind != ELEMENT_TEXT || fabs(baseline(other) - baseline(unit)) > 0.5)
            continue;
        double gap = unit->x - (other->x + other->run->width);
        if (gap > -0.5 && gap < unit->run->capital && g_ascii_isdigit(other->text[strlen(other->text) - 1]))
            return true;
    }
    return false;
}

static const char *unit_fault(struct arena *arena, const struct box *page)
{
    for (size_t i = 0; i < page->count; i++) {
        const struct element *text = &page->elements[i];
        bool unit = text->kind == ELEMENT_TEXT && (strcmp(text->text, "kg") == 0 || strcmp(text->text, "lb") == 0);
        if (unit && !has_figure(page, i))
            return arena_printf(arena, "\"%s\" stands without its figure", text->text);
    }
    return NULL;
}

/* "3 ×", with which a dose of several sets begins. */
static bool begins_dose(const char *text)
{
    size_t digits = strspn(text, "0123456789");
    return digits && (strcmp(text + digits, "\302\240\303\227") == 0 || strcmp(text + digits, "\302\240\303\227\302\240hold") == 0);
}

/* Whether PAGE is of the session, whose exercises are headings, and not of its load board. */
static bool names_exercises(const struct box *page)
{
    for (size_t i = 0; i < page->count; i++)
        if (page->elements[i].kind == ELEMENT_TEXT && page->elements[i].role == ROLE_SUBHEADING)
            return true;
    return false;
}

static const char *column_fault(const struct scene *scene)
{
    double places[2];
    size_t count = 0;
    for (size_t p = 0; p < scene->page_count && (p == 0 || names_exercises(scene->pages[p])); p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *text = &scene->pages[p]->elements[i];
            if (text->kind != ELEMENT_TEXT || text->rank != RANK_FIRST || !begins_dose(text->text))
                continue;
            size_t k = 0;
            while (k < count && fabs(places[k] - text->x) > 0.5)
                k++;
            if (k == 2)
                return "doses begin at more than two places";
            if (k == count)
                places[count++] = text->x;
        }
    return NULL;
}

static const char *box_fault(struct arena *arena, const struct box *page)
{
    for (size_t i = 0; i < page->count; i++) {
        const struct element *box = &page->elements[i];
        bool blank = box->kind == ELEMENT_RECTANGLE && box->fill == INK_NONE && box->radius > 0;
        bool circle = blank && box->radius >= box->height / 2;
        double width = sight_mm_from_points(box->width), height = sight_mm_from_points(box->height);
        if (blank && !circle && (width < 14 - 1e-6 || height < 9 - 1e-6))
            return arena_printf(arena, "a box of %.1f by %.1f mm", width, height);
    }
    return NULL;
}

const char *sheet_rule_broken(struct arena *arena, const char *name, const struct scene *scene)
{
    bool wall = strcmp(name, "wall") == 0, card = strcmp(name, "card") == 0, cards = strcmp(name, "card-page") == 0;
    if (!wall && !card && !cards)
        return NULL;
    const char *fault = cards ? NULL : overleaf_fault(scene);
    if (!fault && wall && scene->height > scene->width)
        fault = column_fault(scene);
    for (size_t p = 0; p < scene->page_count && !fault; p++) {
        fault = unit_fault(arena, scene->pages[p]);
        if (!fault && !wall)
            fault = box_fault(arena, scene->pages[p]);
    }
    return fault;
}

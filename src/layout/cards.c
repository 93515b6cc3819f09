/* cards.c - a session's cards four to a page, to be cut apart. */
#include <math.h>

#include "figures/sight.h"
#include "language/language.h"
#include "layout/sheet.h"
#include "measure/kit.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"

enum { ACROSS = 2, DOWN = 2, A_PAGE = ACROSS * DOWN };
static const double EDGE = 8;  /* millimetres that printers leave white */
static const double SMALL = 6; /* points */

/* The place of the pages still to come. */
struct places {
    struct press press;
    struct scene *scene;
    struct box *page;
    int next; /* place on the page, from 0 */
    double cell_width, cell_height;
};

/* Where the knife goes: from the printer's margin in, and a cross where the cuts meet. */
static void draw_cuts(struct places *places)
{
    const struct scene *scene = places->scene;
    double mark = sight_points_from_mm(3), x = places->cell_width, y = places->cell_height;
    const double across[] = {scene->margin, x - mark, x, scene->width - scene->margin - mark};
    const double down[] = {scene->margin, y - mark, y, scene->height - scene->margin - mark};
    for (size_t i = 0; i < 4; i++) {
        box_line(places->page, across[i], y, mark, 0, 0.4, INK_BLACK);
        box_line(places->page, x, down[i], 0, mark, 0.4, INK_BLACK);
    }
}

/* What is done at a line between cards, in the white on both sides of it. */
static void put_words(struct places *places, double x, double y, const char *words)
{
    struct face face = {SMALL, WEIGHT_REGULAR, {INK_GREY, RANK_FOOT, ROLE_SCALE}};
    double wide = type_width(places->press.type, words, SMALL, WEIGHT_REGULAR);
    press_put(&places->press, places->page, x - wide / 2, y + SMALL / 3, words, face);
}

static void open_page(struct places *places)
{
    places->page = scene_page(places->scene);
    places->next = 0;
    draw_cuts(places);
    put_words(places, places->cell_width / 2, places->cell_height, said(places->press.arena, "cut here"));
    put_words(places, 1.5 * places->cell_width, places->cell_height, said(places->press.arena, "cut here"));
}

/* The sides of a card lie beside each other where they are two, so that the strip may be folded. */
static void add_card(struct places *places, const struct scene *card)
{
    size_t sides = card->page_count;
    if (sides > 1 && places->next % ACROSS)
        places->next++;
    for (size_t i = 0; i < sides; i++) {
        if (!places->page || places->next == A_PAGE)
            open_page(places);
        int row = places->next / ACROSS;
        double x = places->next % ACROSS * places->cell_width;
        double y = row * places->cell_height;
        if (places->next % ACROSS)
            put_words(places, places->cell_width, y + places->cell_height / 2, i % ACROSS ? said(places->press.arena, "fold here") : said(places->press.arena, "cut here"));
        if (i == 0)
            scene_bookmark(places->scene, card->title, y, false);
        box_place(places->page, card->pages[i], x + (places->cell_width - card->width) / 2,
                  y + (places->cell_height - card->height) / 2);
        places->next++;
    }
}

/* Are they cards of one session, for those who do it? Otherwise they are one athlete's. */
static bool is_of_session(const struct sheet_request *request)
{
    const struct occasion *first = request->occasions[0];
    for (size_t i = 1; i < request->count; i++)
        if (request->occasions[i]->session != first->session || request->occasions[i]->date != first->date ||
            request->occasions[i]->clock != first->clock)
            return false;
    return true;
}

struct scene *cards_scene(const struct sheet_request *request)
{
    double width, height, margin = sight_points_from_mm(EDGE);
    paper_points(request->paper, request->landscape, &width, &height);
    struct scene *scene = scene_new(request->arena, width, height, margin);
    struct places places = {{request->arena, request->type}, scene, NULL, 0, width / (double)ACROSS, height / (double)DOWN};
    const struct sheet *sheet = sheet_find("card");
    /* A6 if a quarter of the page is as large; Letter is broader and less high. */
    struct paper quarter = *paper_find(sheet->paper);
    quarter.width = fmin(quarter.width, sight_mm_from_points(places.cell_width));
    quarter.height = fmin(quarter.height, sight_mm_from_points(places.cell_height));
    bool of_session = is_of_session(request);
    for (size_t i = 0; i < request->count; i++) {
        struct sheet_request one = *request;
        one.occasions = &request->occasions[i];
        one.count = 1;
        one.paper = &quarter;
        one.landscape = false;
        one.language = occasion_language(request->occasions[i]);
        arena_speak(request->arena, one.language);
        if (!of_session)
            one.plan = request->occasions[i]->camp->name.shown;
        if (*request->date_words && (!of_session || one.language != request->language))
            one.date_words = sheet_day_words(request->arena, request->occasions[i]->date);
        const struct scene *card = sheet_make(sheet, &one);
        add_card(&places, card);
        if (request->count == 1 && card->page_count <= ACROSS) /* the other half would be white: one more to keep */
            add_card(&places, card);
        for (size_t p = 0; p < card->problem_count; p++)
            if (card->problems[p].kind == PROBLEM_TOO_SMALL)
                scene_problem(scene, PROBLEM_TOO_SMALL, (int)scene->page_count,
                              card->problems[p].text, card->problems[p].words)
                    ->help = card->problems[p].help;
    }
    arena_speak(request->arena, request->language);
    scene->title =
        arena_printf(request->arena, said(request->arena, "%s%s%s: cards"),
                     of_session ? request->occasions[0]->session->name.shown : request->occasions[0]->athlete->name.shown,
                     *request->date_words ? ", " : "", request->date_words);
    scene->author = request->author;
    scene->subject = request->plan;
    scene->keywords = arena_printf(request->arena, "training session, cards, %s", request->version);
    return scene;
}

/* card.c - one athlete's session to hold and write on. */
#include "layout/card.h"

#include <limits.h>
#include <math.h>

#include "base/text.h"
#include "figures/sight.h"
#include "language/language.h"
#include "layout/ahead.h"
#include "layout/foot.h"
#include "layout/marks.h"
#include "measure/facts.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

enum { SIZE_STEPS = 8 };
static const double FOOT_SPACE = 9; /* points of white above the foot, in which it says what goes on */
static const double EDGE = 8, BOX_HEIGHT = 9, BOX_HEIGHT_LARGE = 11; /* millimetres */

static struct face face_of(double size, enum weight weight, enum ink ink, enum rank rank)
{
    return (struct face){size, weight, {ink, rank, ROLE_PLAIN}};
}

static double capital(const struct card *card, double size)
{
    return size * type_capital(card->press.type);
}

/* "18:00-18:39 · 10 weeks out": of a squad, when this athlete is done in place of how long it takes them alone. */
static const char *card_when(const struct card *card)
{
    struct arena *arena = card->press.arena;
    const struct rota *room = card->room;
    const char *out = wording_out(arena, card->occasion);
    if (!room)
        return foot_when(arena, card->occasion);
    return arena_printf(arena, "%s" WORDING_TO "%s%s%s", rota_minute(arena, room, 0),
                        rota_minute(arena, room, room->table->fares[card->member].finish + 59), *out ? " " WORDING_DOT " " : "",
                        out);
}

/* The weigh-in and bout of the week to come. */
static const char *ahead_of(const struct card *card)
{
    return ahead_words(card->press.arena, card->request->programme, card->occasion->athlete, card->occasion->date);
}

static struct box *header_box(const struct card *card)
{
    const struct press *press = &card->press;
    const struct occasion *occasion = card->occasion;
    struct box *header = box_new(press->arena);
    double name = 12.5, small = card->least * 1.1, y = 2.2 + 7;
    const char *when = card_when(card);
    const char *date = card->request->date_words;
    double right = fmax(type_width(press->type, date, small, WEIGHT_REGULAR),
                        type_width(press->type, when, small, WEIGHT_REGULAR));
    box_rectangle(header, 0, 0, card->inner, 2.2, INK_BLACK, INK_NONE, 0);
    struct face bold = face_of(name, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    bold.style.role = ROLE_TITLE;
    double room = card->inner - right - 10;
    struct box *title =
        press_paragraph(press, occasion->session->name.shown, bold, room, 0, 0.9, false);
    box_place(header, title, 0, y);
    double line = y + capital(card, small);
    press_put_end(press, header, card->inner, line, date,
                  face_of(small, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND));
    y = fmax(y + title->height, line) + 3.5;
    line = y + capital(card, small);
    press_put_end(press, header, card->inner, line, when,
                  face_of(small, WEIGHT_REGULAR, INK_SPOT, RANK_SECOND));
    struct box *name_box = press_paragraph(
        press, occasion->athlete->name.shown,
        face_of(small * 1.15, WEIGHT_BOLD, INK_BLACK, RANK_SECOND),
        card->inner - (*when ? type_width(press->type, when, small, WEIGHT_REGULAR) + 8 : 0), 0,
        0.95, false);
    box_place(header, name_box, 0, line - capital(card, 1.15 * small));
    line =
        fmax(line, line - capital(card, 1.15 * small) + name_box->height - 0.22 * 1.15 * small);
    const char *const notes[] = {foot_minor(card->press.arena, occasion), occasion->optional ? said(press->arena, "May be left out.") : "",
                                 foot_provisional(card->press.arena, occasion), ahead_of(card)};
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++)
        if (*notes[i]) {
            struct box *note = press_paragraph(press, notes[i], face_of(small, WEIGHT_BOLD, INK_SPOT, RANK_SECOND),
                                               card->inner, 0, 1, false);
            double top = line + 1.4 * small - capital(card, small);
            box_place(header, note, 0, top);
            line = top + note->height - 0.22 * small;
        }
    header->height = line + 9;
    return header;
}

/* What is written down after the session. */
static struct box *after_box(const struct card *card)
{
    static const char *const labels[] = {SAID("RPE"), SAID("minutes"), SAID("pain 0\u201310")};
    static const char *const lines[] = {SAID("left out, and why"), SAID("notes")};
    const struct press *press = &card->press;
    struct box *box = box_new(press->arena);
    double size = card->least * 1.12, blank = sight_points_from_mm(BOX_HEIGHT), x = 0;
    double baseline = (blank + capital(card, size)) / 2;
    struct face bold = face_of(size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    for (size_t i = 0; i < sizeof labels / sizeof *labels; i++) {
        x += press_put(press, box, x, baseline, said(press->arena, labels[i]), bold);
        struct box *one = card_box(press, "", size, blank);
        box_place(box, one, x + 4, 0);
        x += 4 + one->width + 9;
    }
    box->height = blank;
    bold.weight = WEIGHT_REGULAR;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        double y = box->height + 0.8 * blank;
        double wide = press_put(press, box, 0, y, said(press->arena, lines[i]), bold);
        box_line(box, wide + 4, y + 2, card->inner - wide - 4, 0, 0.5, INK_GREY);
        box->height = y + 2;
    }
    return box;
}

/* If KEYED, its marks are explained. */
static struct box *foot_box(const struct card *card, bool keyed)
{
    const struct press *press = &card->press;
    struct box *foot = box_new(press->arena);
    struct face face = face_of(card->least, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    struct face bold = face_of(card->least, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    struct box *after = after_box(card);
    box_rectangle(foot, 0, 0, card->inner, 0.7, INK_BLACK, INK_NONE, 0);
    box_place(foot, after, 0, 7);
    double y = 7 + after->height + 7;
    struct foot_marks used = {0};
    if (keyed)
        used = foot_marks_used(&card->occasion, 1);
    used.discs[MASS_IN_KG] = used.discs[MASS_IN_LB] = false; /* a card is small, and its discs have their numbers on them */
    used.estimated = NULL;
    const struct box *parts[] = {
        foot_key(press, used, face, card->inner),
        press_paragraph(press, foot_restricted(card->press.arena, card->occasion, programme_today(card->request->programme)),
                        bold, card->inner, 0, 1, false),
        press_paragraph(press, foot_cautions(card->press.arena), face, card->inner, 0, 0.95, false),
    };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i]->count == 0)
            continue;
        box_place(foot, parts[i], 0, y);
        y += parts[i]->height + 2.5;
    }
    foot->height = y;
    return foot;
}

static struct box *last_line(const struct card *card, int page, int pages)
{
    return foot_last_line(&card->press, card->request->plan, card->request->version, page, pages,
                          card->inner, face_of(card->least, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
}

/* What is left for the session: on every page, and on the last, which has the foot. */
struct card_space {
    double any, last;
};

/* What goes around the session. */
struct surround {
    struct box *header, *foot;
    double line; /* where the last line stands */
    double any;  /* what header and last line leave */
};

static struct surround surround_of(const struct card *card)
{
    struct surround around = {.header = header_box(card), .foot = foot_box(card, false)};
    double last = last_line(card, 1, 1)->height;
    around.line = card->height - card->margin - last;
    around.any = card->height - 2 * card->margin - around.header->height - last - FOOT_SPACE;
    return around;
}

static struct card_space room_of(const struct surround *around, const struct box *foot)
{
    return (struct card_space){around->any, around->any - foot->height};
}

/* How many strips go on the page that begins with START: no more than the last page may hold, unless more follow. */
static size_t page_fit(const struct strips *strips, size_t start, struct card_space room, double *used)
{
    size_t fitting = strips_fit(strips, start, room.any, used);
    if (start + fitting == strips->count && *used > room.last) {
        fitting = strips_fit(strips, start, room.last, used);
        /* A strip that no page with a foot can hold leaves its foot a page of its own. */
        if (*used > room.last)
            fitting = strips_fit(strips, start, room.any, used);
    }
    return fitting;
}

/* The pages; *BEYOND: how many strips are higher than a page. */
static int count_pages(const struct strips *strips, struct card_space room, int *beyond)
{
    int pages = 0;
    double used = 0;
    *beyond = 0;
    for (size_t start = 0; start < strips->count; pages++) {
        start += page_fit(strips, start, room, &used);
        *beyond += used > room.any;
    }
    return used > room.last ? pages + 1 : pages;
}

/* A size and the pages that the session takes in it, and one more for each strip that is higher than a page, so that what
 * may be left out of it is; a large number if a dose is wider than the card. */
struct fit {
    double size;
    int pages;
};

static struct fit try_size(const struct card *card, double size, struct card_space room)
{
    struct card trial = *card;
    bool unfit = false;
    trial.press.arena = type_try(card->press.type, card->press.arena);
    struct strips strips = card_blocks(&trial, size, &unfit);
    int beyond, pages = count_pages(&strips, room, &beyond);
    struct fit fit = {size, unfit ? INT_MAX : pages + beyond};
    type_try_end(card->press.type);
    return fit;
}

/* The least size that can be read. How to read the marks is explained at the foot if that takes no further page: it is
 * on the wall sheet too. */
static struct fit fit_least(const struct card *card, struct surround *around)
{
    struct fit bare = try_size(card, card->least, room_of(around, around->foot));
    struct box *keyed = foot_box(card, true);
    if (keyed->height <= around->foot->height)
        return bare;
    struct fit fit = try_size(card, card->least, room_of(around, keyed));
    if (fit.pages > bare.pages)
        return bare;
    around->foot = keyed;
    return fit;
}

/* The hour of each set is printed if that takes no further page. */
static void fit_turns(struct card *card, const struct surround *around)
{
    struct card_space room = room_of(around, around->foot);
    int bare = try_size(card, card->least, room).pages;
    card->timed = card->room != NULL;
    card->timed = card->timed && try_size(card, card->least, room).pages <= bare;
}

/* From LEAST to one and a half of it: as large as needs no further page. */
static struct fit fit_size(const struct card *card, struct fit least, struct card_space room)
{
    double high = 1.5 * least.size;
    struct fit best = least, fit = try_size(card, high, room);
    if (fit.pages <= least.pages)
        return fit;
    for (int i = 0; i < SIZE_STEPS; i++) {
        fit = try_size(card, (best.size + high) / 2, room);
        if (fit.pages <= least.pages)
            best = fit;
        else
            high = fit.size;
    }
    return best;
}

/* Boxes higher than they must be if that takes no further page. */
static void fit_blanks(struct card *card, struct fit fit, struct card_space room)
{
    double least = card->blank;
    card->blank = sight_points_from_mm(BOX_HEIGHT_LARGE);
    if (try_size(card, fit.size, room).pages > fit.pages)
        card->blank = least;
}

/* All in words: a screen reader gets this in place of the drawn letters. */
static const char *describe(const struct card *card)
{
    const struct occasion *occasion = card->occasion;
    struct arena *arena = card->press.arena;
    bool pounds = occasion->athlete->pounds;
    struct text out = {.arena = arena};
    const char *optional = occasion->optional ? said(arena, "May be left out.") : "";
    text_addf(&out, "%s, %s. %s. %s.%s%s", occasion->session->name.shown,
              occasion->athlete->name.shown, card->request->date_words, card_when(card),
              *optional ? " " : "", optional);
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        text_addf(&out, "\n%c%s%s:", block->letter ? block->letter : ' ', block->letter ? " " : "",
                  wording_block(arena, block));
        for (size_t i = 0; i < block->item_count; i++) {
            const struct item *item = &block->items[i];
            const char *dose = wording_dose(arena, block, item);
            const char *load = wording_loads(arena, block, item, pounds);
            const char *tempo = item->run_count ? wording_tempo(arena, &item->runs[0].tempo) : "";
            const char *turns = card->room ? rota_turns(arena, card->room, card->member, block, item->index) : "";
            text_addf(&out, " %s%s%s%s%s%s%s%s%s.", wording_exercise(arena, item->exercise),
                      *dose || *load ? ": " : "", dose, *dose && *load ? ", " : "", load,
                      *tempo ? said(arena, ", tempo ") : "", tempo, *turns ? ": " : "", turns);
        }
    }
    const char *const lines[] = {ahead_of(card), foot_minor(card->press.arena, occasion),
                                 foot_restricted(card->press.arena, occasion, programme_today(card->request->programme)),
                                 foot_cautions(card->press.arena)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (*lines[i])
            text_addf(&out, "\n%s", lines[i]);
    return text_keep(arena, &out);
}

/* "A goes on" above the last line of PAGE, which ends inside the block of TITLE. */
static void say_it_goes_on(const struct card *card, struct box *page, const char *title, double line)
{
    const char *words = arena_printf(card->press.arena, said(card->press.arena, "%s goes on"), title);
    press_put_end(&card->press, page, card->width - card->margin, line - 2, words,
                  face_of(card->least, WEIGHT_BOLD, INK_BLACK, RANK_SECOND));
}

/* The next page with its header. */
static struct box *open_page(struct scene *scene, const struct card *card, const struct surround *around)
{
    struct box *page = scene_page(scene);
    if (scene->page_count == 1)
        scene_bookmark(scene, scene->title, 0, false);
    box_place(page, around->header, card->margin, card->margin);
    return page;
}

/* The foot, on the last of PAGES, and the last line. */
static void close_page(const struct scene *scene, const struct card *card, const struct surround *around, int pages)
{
    int number = (int)scene->page_count;
    struct box *page = scene->pages[number - 1];
    if (number == pages)
        box_place(page, around->foot, card->margin, around->line - around->foot->height);
    box_place(page, last_line(card, number, pages), card->margin, around->line);
}

static void add_pages(struct scene *scene, const struct card *card, double size,
                      const struct surround *around)
{
    bool unfit = false;
    struct strips strips = card_blocks(card, size, &unfit);
    struct card_space room = room_of(around, around->foot);
    int beyond, pages = count_pages(&strips, room, &beyond);
    for (size_t start = 0; start < strips.count;) {
        double used;
        struct box *page = open_page(scene, card, around);
        size_t fitting = page_fit(&strips, start, room, &used);
        double slack = ((int)scene->page_count == pages ? room.last : room.any) - used;
        strips_draw(scene, page, &strips, start, start + fitting, card->margin,
                    card->margin + around->header->height,
                    fmax(0, fmin(slack, 0.9 * size * (double)fitting)));
        close_page(scene, card, around, pages);
        start += fitting;
        if (start < strips.count && !strips.items[start].first)
            say_it_goes_on(card, page, strips.items[start].title, around->line);
    }
    if ((int)scene->page_count < pages) { /* for the foot alone */
        open_page(scene, card, around);
        close_page(scene, card, around, pages);
    }
}

/* The room of the squad that the athlete is one of. */
static void find_room(struct card *card)
{
    struct rota *rooms;
    size_t count = rotas_of(card->request, &rooms);
    for (size_t i = 0; i < count && !card->room; i++) {
        card->member = rota_member(&rooms[i], card->occasion);
        if (card->member != ROOM_NONE)
            card->room = &rooms[i];
    }
}

struct scene *card_scene(const struct sheet_request *request)
{
    struct card card = {.press = {request->arena, request->type},
                        .request = request,
                        .occasion = request->occasions[0],
                        .margin = sight_points_from_mm(EDGE),
                        .blank = sight_points_from_mm(BOX_HEIGHT)};
    paper_points(request->paper, request->landscape, &card.width, &card.height);
    card.inner = card.width - 2 * card.margin;
    card.least = sheet_size(request->type, request->distance, SIGHT_MINUTES_LEAST);
    find_room(&card);
    card_words(&card);
    struct scene *scene = scene_new(request->arena, card.width, card.height, card.margin);
    scene->title = arena_printf(request->arena, "%s, %s%s%s", card.occasion->session->name.shown,
                                card.occasion->athlete->name.shown,
                                *request->date_words ? ", " : "", request->date_words);
    scene->author = request->author;
    scene->subject = request->plan;
    scene->keywords = arena_printf(request->arena, "training session, card, %s", request->version);
    scene->description = describe(&card);
    struct surround around = surround_of(&card);
    fit_turns(&card, &around);
    struct fit least = fit_least(&card, &around);
    struct card_space room = room_of(&around, around.foot);
    struct fit fit = fit_size(&card, least, room);
    fit_blanks(&card, fit, room);
    add_pages(scene, &card, fit.size, &around);
    return scene;
}

/* season_club.c - the club's year on a page: a row for each athlete, camps with their phases, bouts and absences. */
#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/season_page.h"
#include "measure/member.h"
#include "model/programme.h"

static const double GAP = 5;

/* Is there anything of ATHLETE in the season? */
static bool takes_part(const struct season_sheet *sheet, const struct athlete *athlete)
{
    const struct programme *programme = sheet->frame.request->programme;
    for (size_t i = 0; i < programme->camp_count; i++)
        if (programme->camps[i]->last >= sheet->season->first && programme->camps[i]->first <= sheet->season->last &&
            camp_has_between(programme->camps[i], athlete, sheet->season->first, sheet->season->last))
            return true;
    return false;
}

/* One athlete: camps and phases, below them bouts and absences. */
static struct box *row_box(const struct season_sheet *sheet, const struct athlete *athlete)
{
    struct box *box = box_new(sheet->frame.press.arena);
    struct season_marks marks = {0};
    season_add_bouts(sheet, &marks, athlete, false);
    season_add_absences(sheet, &marks, athlete);
    box_line(box, 0, 0, sheet->frame.inner, 0, 0.5, INK_BLACK);
    box->height = 0.5;
    struct box *camps = season_camps(sheet, athlete->name.shown, athlete);
    frame_stack(box, camps, 3);
    frame_stack(box, season_row(sheet, camps ? "" : athlete->name.shown, &marks), 2);
    return box;
}

static double gutter_of(const struct sheet_request *request)
{
    struct frame frame = frame_of(request);
    double widest = 60;
    for (size_t i = 0; i < request->programme->athlete_count; i++) {
        double width = type_width(request->type, request->programme->athletes[i]->name.shown, frame.first, WEIGHT_BOLD);
        widest = width > widest ? width : widest;
    }
    return widest < 170 ? widest + 12 : 182;
}

static struct box *key_box(const struct season_sheet *sheet)
{
    return press_paragraph(&sheet->frame.press,
                           said(sheet->frame.press.arena,
                                "Each camp's phases are below its name; bouts are in colour. Weeks begin "
                                "on Monday and are numbered through the year (ISO 8601)."),
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), sheet->frame.inner, 0, 1,
                           false);
}

static struct box *open_page(struct scene *scene, const struct season_sheet *sheet, const struct frame_title *title,
                             double bottom, double *top)
{
    const struct frame *frame = &sheet->frame;
    bool again = scene->page_count > 0;
    struct box *page = scene_page(scene), *header = frame_header(frame, title, again), *axis = season_axis(sheet);
    box_place(page, header, frame->margin, frame->margin);
    *top = frame->margin + header->height;
    box_place(page, axis, frame->margin, *top);
    season_uprights(sheet, page, *top + axis->height, bottom - 3);
    *top += axis->height + GAP;
    return page;
}

static void add_rows(struct scene *scene, const struct season_sheet *sheet, const struct frame_title *title, double bottom)
{
    const struct programme *programme = sheet->frame.request->programme;
    double y = 0;
    struct box *page = open_page(scene, sheet, title, bottom, &y);
    double first = y;
    for (size_t i = 0; i < programme->athlete_count; i++) {
        if (!takes_part(sheet, programme->athletes[i]))
            continue;
        struct box *row = row_box(sheet, programme->athletes[i]);
        if (y > first && y + row->height > bottom - 3) {
            page = open_page(scene, sheet, title, bottom, &y);
            first = y;
        }
        box_place(page, row, sheet->frame.margin, y);
        y += row->height + GAP;
    }
}

struct scene *season_club_scene(const struct sheet_request *request)
{
    struct season_sheet sheet = season_sheet_of(request, gutter_of(request), 40);
    const struct frame *frame = &sheet.frame;
    struct frame_title title = season_title(&sheet, request->author);
    struct scene *scene = frame_scene(
        frame, arena_printf(request->arena, said(request->arena, "%s, season %s"), title.title, request->season->name.shown),
        "season sheet");
    struct box *key = key_box(&sheet), *foot = frame_foot(frame, &key, 1);
    double bottom = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height - foot->height;
    scene->description = arena_printf(request->arena, said(request->arena, "The season %s of the club, by weeks."),
                                      request->season->name.shown);
    add_rows(scene, &sheet, &title, bottom);
    season_finish(&sheet, scene, foot, bottom);
    return scene;
}

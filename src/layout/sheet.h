/* sheet.h - what a sheet is asked to show, and the table of sheets. A new sheet is one file and two rows: what it is in
 * sheet_kinds.c, which draws nothing, and what makes it in sheet.c. */
#ifndef BELL_LAYOUT_SHEET_H
#define BELL_LAYOUT_SHEET_H

#include "layout/paper.h"
#include "layout/press.h"
#include "measure/counts.h"
#include "model/limit.h"

struct language;
struct occasion;
struct programme;
struct season;

/* The "at least" or the "at most" of a limit, as it holds in a week. */
struct sheet_end {
    bool asked;
    milli value; /* a cut week's share */
    milli whole; /* as the limit says it */
};

/* A limit that applies to the athlete in a week of the camp, with its verdict: sheets draw it and compare nothing. */
struct sheet_bound {
    enum counted counted;
    enum counted against; /* COUNTED_NONE, or what it is a share of */
    struct sheet_end least, most;
    enum mass_unit unit; /* of a mass */
    bool a_side;         /* left and right are each bounded */
    int week;            /* of the camp, from 1 */
    const char *only;    /* the phase it was set for, or NULL if it applies in all */
    struct range amount, right; /* what it counts; RIGHT: of that side, where it is a_side */
    struct range other;  /* what AGAINST comes to */
    milli reached;       /* thousandths of the figure that holds, on the worse side */
    bool missed;         /* and not waived */
    const char *waived;  /* why it need not be kept, as the plan says; NULL: nothing is waived */
    milli from;          /* of a rise of the load: the load it is measured from; 0: not known */
};

/* What one sheet is made of. */
enum sheet_scope {
    SCOPE_SESSION,      /* one session on one day at one hour, an occasion for each athlete */
    SCOPE_SESSION_EACH, /* the same, one athlete's */
    SCOPE_WEEK_EACH,    /* a week of one athlete in one camp, activities too */
    SCOPE_CAMP_EACH,    /* the same of the whole camp */
    SCOPE_WEEK,         /* a week of everybody, in whatever camps */
    SCOPE_CAMP,         /* a camp of everybody */
    SCOPE_SEASON_EACH,  /* a season of one athlete, in whatever camps */
    SCOPE_SEASON        /* a season of everybody */
};

struct squad_memo;
struct camp_review;

/* What the head coach's page says of one athlete, a line each; and what is to be decided, the weightiest first. */
struct brief {
    const struct athlete *athlete;
    const char *last, *next;
    const char *const *decisions;
    size_t decision_count;
};

struct sheet_request {
    struct arena *arena; /* the scene lives in it */
    struct type *type;   /* and must not outlive this */
    const struct language *language; /* NULL: English */
    const struct programme *programme;
    const struct occasion *const *occasions; /* of the sheet's scope */
    size_t count;
    const struct season *season; /* of a season's sheet */
    const struct sheet_bound *bounds; /* for sheets of one athlete */
    size_t bound_count;
    const struct paper *paper; /* NULL: the sheet's own */
    bool landscape;            /* meant when paper is given */
    double distance;           /* centimetres it is read from; 0: the sheet's own */
    int pages;        /* how many pages first-rank text may be spread over to stay large; 0: one */
    const char *plan; /* name of the plan, for the foot */
    const char *version;    /* hash or revision of its inputs; "" for none */
    const char *date_words; /* the day as it is to be read, "Monday 1 March 2027"; "" for none */
    const char *author;     /* the club; "" for none */
    bool coach;             /* the coach's own copy: says who does which exchange, and who is on hold */
    const char *const *held; /* names, for that copy alone */
    size_t held_count;
    bool private;           /* what only private files have is asked for, and stands on sheets that keep a copy of their own */
    const struct camp_review *review; /* of a review */
    const struct brief *briefs;       /* of the head coach's page */
    size_t brief_count;
    struct squad_memo *memo; /* timetables of rooms that other sheets worked out; NULL: this sheet works out its own */
};

struct sheet {
    const char *name;
    const char *what; /* one line for a list of sheets */
    const char *paper;
    bool landscape;
    double distance; /* centimetres */
    enum sheet_scope scope;
    bool hangs; /* where all can read it: nobody on hold stands on it; the paper that is asked for is meant for it */
    bool gathers; /* where one athlete is asked for, all of that athlete's sessions of a week share it */
    bool young;   /* of athletes under 18 alone */
    bool of_bout; /* of weeks with a bout alone */
    bool reports; /* reports what happened and what there is to decide, and prescribes nothing: made whatever is wrong in its days */
    bool own;     /* the coach may ask for a copy with what only private files have */
    bool measured; /* of athletes with results of tests alone */
    bool house;    /* the coach's own: in the language of the house, whoever is on it */
    const char *missing; /* why nothing may be made of it though there are sessions, and what to do; NULL: always something */
};

extern const struct sheet sheets[];
extern const size_t sheet_count;

/* The sheet called NAME, or NULL. */
const struct sheet *sheet_find(const char *name);

/* Makes it, with the sheet's own paper and distance if the request gives none, and inspects it: problems found are
 * recorded in the scene. */
struct scene *sheet_make(const struct sheet *sheet, const struct sheet_request *request);

struct scene *wall_scene(const struct sheet_request *request);
struct scene *card_scene(const struct sheet_request *request);
struct scene *cards_scene(const struct sheet_request *request);
struct scene *week_scene(const struct sheet_request *request);
struct scene *parents_scene(const struct sheet_request *request);
struct scene *bout_day_scene(const struct sheet_request *request);
struct scene *camp_scene(const struct sheet_request *request);
struct scene *season_scene(const struct sheet_request *request);
struct scene *season_club_scene(const struct sheet_request *request);
struct scene *floor_scene(const struct sheet_request *request);
struct scene *test_results_scene(const struct sheet_request *request);
struct scene *review_scene(const struct sheet_request *request);
struct scene *monday_scene(const struct sheet_request *request);
struct scene *board_scene(const struct sheet_request *request);
/* The board's pages after those of SCENE, which is made for the same request. */
void board_add(struct scene *scene, const struct sheet_request *request);

/* "Monday 8 March 2027"; "" for no day. */
const char *sheet_day_words(struct arena *arena, int day);

/* The size in points at which a capital fills MINUTES of arc seen from CENTIMETRES. */
double sheet_size(const struct type *type, double centimetres, double minutes);

/* The distance in centimetres from which capitals of CAPITAL points fill the least angle. */
double sheet_reach(double capital);

#endif

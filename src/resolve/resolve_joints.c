/* resolve_joints.c - joints: what an exercise asks of them (`knee deep`), and which of them an athlete has to
 * spare (`left knee deep`). */
#include <string.h>

#include "base/text.h"
#include "measure/avoid.h"
#include "model/barred.h"
#include "model/strain.h"
#include "resolve/resolver.h"

/* What stands behind WORDS in TEXT and a space; NULL: TEXT does not start with them. */
static const char *behind(const char *text, const char *words)
{
    size_t length = strlen(words);
    return strncmp(text, words, length) == 0 && text[length] == ' ' ? text + length + 1 : NULL;
}

/* TEXT without WORDS and the space before them at its end; NULL: it does not end so. */
static const char *before(struct resolver *r, const char *text, const char *words)
{
    size_t length = strlen(text), tail = strlen(words);
    if (length <= tail + 1 || strcmp(text + length - tail, words) != 0 || text[length - tail - 1] != ' ')
        return NULL;
    return arena_copy(r->arena, text, length - tail - 1);
}

/* "knee", "knee deep". */
static bool read_strain(struct resolver *r, const char *folded, struct strain *strain)
{
    *strain = (struct strain){.demand = DEMAND_NONE};
    int joint = vocabulary_find(&joints, folded);
    for (size_t i = 0; joint < 0 && i < demands.count; i++) {
        const char *name = before(r, folded, demands.names[i]);
        joint = name ? vocabulary_find(&joints, name) : -1;
        strain->demand = joint < 0 ? DEMAND_NONE : (int)i;
    }
    if (joint >= 0)
        strain->joint = (enum joint)joint;
    return joint >= 0;
}

/* --- of an exercise --- */

static void report_strain(struct resolver *r, const struct node *name)
{
    struct text all = {.arena = r->arena}, asked = {.arena = r->arena};
    for (size_t i = 0; i < joints.count; i++)
        text_addf(&all, "%s%s", i ? ", " : "", joints.names[i]);
    for (size_t i = 0; i < demands.count; i++)
        text_addf(&asked, "%s%s", i ? ", " : "", demands.names[i]);
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, name->span,
                                         "`%s` is not a joint with what the work asks of it", name->text);
    diag_help(r->diag, finding, "start with a joint: %s; if the work asks more of it than to move, add one of: %s",
              text_get(&all), text_get(&asked));
}

static void add_strains(struct resolver *r, const struct node *statement, bool both, struct strain *items,
                        struct strains *strains)
{
    for (const struct node *name = statement ? statement->first : NULL; name; name = name->next) {
        const char *folded = resolver_fold(r, name);
        if (text_same(folded, "none") && name == statement->first && !name->next)
            continue;
        struct strain strain;
        if (!read_strain(r, folded, &strain)) {
            report_strain(r, name);
            continue;
        }
        strain.both = both;
        items[strains->count++] = strain;
    }
}

void read_strains(struct resolver *r, const struct node *joints_line, const struct node *both_line,
                  struct strains *strains)
{
    size_t count = joints_line ? resolver_count(joints_line->first) : 0;
    count += both_line ? resolver_count(both_line->first) : 0;
    struct strain *items = arena_alloc(r->arena, count * sizeof *items);
    strains->said = joints_line || both_line;
    add_strains(r, joints_line, false, items, strains);
    add_strains(r, both_line, true, items, strains);
    strains->items = items;
}

/* --- of a restriction --- */

const char *nearest_joint(struct resolver *r, const char *folded)
{
    static const char *const sides[] = {"", "left ", "right "};
    const char *near = NULL;
    unsigned least = 3;
    for (size_t s = 0; s < sizeof sides / sizeof *sides; s++)
        for (size_t j = 0; j < joints.count; j++)
            for (size_t d = 0; d <= demands.count; d++) {
                const char *words = d < demands.count
                                        ? arena_printf(r->arena, "%s%s %s", sides[s], joints.names[j], demands.names[d])
                                        : arena_printf(r->arena, "%s%s", sides[s], joints.names[j]);
                unsigned distance = text_distance(folded, words, 3);
                if (distance < least) {
                    least = distance;
                    near = words;
                }
            }
    return near;
}

static void report_no_sides(struct resolver *r, const struct node *node, const char *rest)
{
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_AVOID, node->span,
                                         "`%s`: no exercise tells left from right there", node->text);
    diag_fix(r->diag, finding, node->span, rest);
    diag_help(r->diag, finding, "write `%s`", rest);
}

bool read_avoided_joint(struct resolver *r, const struct node *node, const char *folded, struct avoid *avoid)
{
    const char *left = behind(folded, "left"), *right = behind(folded, "right");
    const char *rest = left ? left : right ? right : folded;
    struct strain strain;
    bool joint = read_strain(r, rest, &strain);
    avoid->region = vocabulary_find(&regions, rest);
    if (joint) {
        avoid->joint = (int)strain.joint;
        avoid->demand = strain.demand;
    }
    if (!joint && avoid->region < 0)
        return false;
    avoid->sides = left ? BARRED_LEFT : right ? BARRED_RIGHT : 0;
    if (avoid->sides && !(joint ? joint_has_sides(strain.joint) : region_has_sides((enum region)avoid->region))) {
        report_no_sides(r, node, rest);
        avoid->sides = 0;
    }
    return true;
}

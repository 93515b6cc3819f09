#include "model/kinds.h"

#include "base/text.h"

#define NAME(id, name) name,

static const char *const exercise_kind_names[] = {EXERCISE_KINDS(NAME)};
static const char *const pattern_names[] = {PATTERNS(NAME)};
static const char *const region_names[] = {REGIONS(NAME)};
static const char *const joint_names[] = {JOINTS(NAME)};
static const char *const demand_names[] = {DEMANDS(NAME)};
static const char *const unit_names[] = {UNITS(NAME)};
static const char *const weigh_names[] = {WEIGHS(NAME)};
static const char *const load_kind_names[] = {LOAD_KINDS(NAME)};
static const char *const effort_kind_names[] = {EFFORT_KINDS(NAME)};
static const char *const block_kind_names[] = {BLOCK_KINDS(NAME)};
static const char *const level_names[] = {LEVELS(NAME)};
static const char *const force_names[] = {FORCES(NAME)};
static const char *const test_unit_names[] = {TEST_UNITS(NAME)};
static const char *const limb_names[] = {LIMBS(NAME)};

const struct vocabulary exercise_kinds = {"kind of exercise", exercise_kind_names,
                                          EXERCISE_KIND_COUNT};
const struct vocabulary patterns = {"pattern", pattern_names, PATTERN_COUNT};
const struct vocabulary regions = {"body region", region_names, REGION_COUNT};
const struct vocabulary joints = {"joint", joint_names, JOINT_COUNT};
const struct vocabulary demands = {"demand on a joint", demand_names, DEMAND_COUNT};
const struct vocabulary units = {"unit", unit_names, UNIT_COUNT};
const struct vocabulary weighs = {"meaning of a kilogram", weigh_names, WEIGH_COUNT};
const struct vocabulary load_kinds = {"load", load_kind_names, sizeof load_kind_names / sizeof *load_kind_names};
const struct vocabulary effort_kinds = {"effort", effort_kind_names,
                                        sizeof effort_kind_names / sizeof *effort_kind_names};
const struct vocabulary block_kinds = {"block", block_kind_names, BLOCK_KIND_COUNT};
const struct vocabulary levels = {"lifting age", level_names, LEVEL_COUNT};
const struct vocabulary forces = {"force of a limit", force_names, FORCE_COUNT};
const struct vocabulary test_units = {"unit of a test", test_unit_names, TEST_UNIT_COUNT};
const struct vocabulary limbs = {"limb", limb_names, LIMB_COUNT};

int vocabulary_find(const struct vocabulary *words, const char *name)
{
    for (size_t i = 0; *name && i < words->count; i++)
        if (text_same(words->names[i], name))
            return (int)i;
    return -1;
}

bool load_is_weighed(enum load_kind kind)
{
    switch (kind) {
    case LOAD_MASS: case LOAD_PERCENT: return true;
    case LOAD_NONE: case LOAD_BAND: case LOAD_BODY: case LOAD_TEST: break;
    }
    return false;
}

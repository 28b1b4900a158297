/* Own figures near what the equations would say, so that most farms can be balanced as they
 * could without them. */
#include "support/farm_options.h"
#include <math.h>
#include <string.h>

#define STREAM 0x5EEDF00DULL /* apart from the draws of farm_maker.c */
#define CAUTION_STREAM 0xCA0710DULL
#define GRAMS_PER_LB 453.59237
#define KG_PER_LB 0.45359237

/* What a figure is drawn times: kilograms of live weight to a power, or nothing. */
typedef struct {
    const char *need;
    double least, most, power;
    int decimals;
    const char *unit, *other_unit;
    double times;
} NeedRecipe;

static const NeedRecipe NEEDS[] = {
    {"net_energy_maintenance", 0.080, 0.115, 0.75, 2, "Mcal", "Mcal/day", 1},
    {"net_energy_gain", 0.015, 0.032, 0.75, 2, "Mcal", "Mcal/day", 1},
    {"metabolizable_protein", 4.0, 6.5, 0.75, 0, "g", "lb", GRAMS_PER_LB},
    {"calcium", 0.030, 0.060, 1, 1, "g", "lb", GRAMS_PER_LB},
    {"phosphorus", 0.020, 0.032, 1, 1, "g/day", "lb/day", GRAMS_PER_LB},
    {"dry_matter_most", 0.021, 0.028, 1, 1, "kg", "lb", KG_PER_LB},
    {"dry_matter_least", 0.012, 0.017, 1, 1, "kg/day", "lb/day", KG_PER_LB},
    {"ndf_most", 0.0115, 0.0145, 1, 2, "kg", "lb", KG_PER_LB},
    {"magnesium", 0.10, 0.22, 0, 2, "pct", "%", 1},
    {"potassium", 0.60, 0.80, 0, 2, "%", "pct", 1},
    {"sodium", 0.07, 0.12, 0, 2, "pct", "%", 1},
    {"copper", 8, 14, 0, 1, "ppm", "mg/kg", 1},
    {"zinc", 30, 45, 0, 1, "ppm", "mg/kg", 1},
    {"selenium", 0.10, 0.15, 0, 3, "mg/kg", "ppm", 1},
    {"vitamin_a", 2000, 4200, 0, 0, "IU/kg", "IU/lb", 1.0 / KG_PER_LB},
};
enum { RECIPES = sizeof NEEDS / sizeof NEEDS[0], GAIN = 1, MOST_ROWS_OF_GROUP = 8 };

/* Gain is of growing cattle; those the published table has a line for have it in their net
 * energy already. */
static bool may_have(const FarmDraft *draft, const DraftGroup *group, int recipe) {
    if (recipe != GAIN)
        return true;
    const bool is_in_table = strstr(group->cattle_class, "heifer")
                                 ? strcmp(group->cattle_class, "feeder heifer") != 0
                                 : strcmp(group->cattle_class, "bull calf") == 0;
    return !isnan(group->gain_kg) && !(draft->ways.needs_way == NEEDS_BY_TABLE && is_in_table);
}

static DraftNeed *add_need(Draws *draws, FarmDraft *draft, const DraftGroup *group,
                           const NeedRecipe *recipe) {
    static const double SCALES[] = {1.0, 10.0, 100.0, 1000.0};
    const double scale = SCALES[recipe->decimals];
    const double drawn = recipe->least + (recipe->most - recipe->least) * draw_share(draws);
    DraftNeed *need = &draft->needs[draft->need_count++];
    *need = (DraftNeed){
        .group = group->name,
        .need = recipe->need,
        .value = round(drawn * pow(group->weight_kg, recipe->power) * scale) / scale,
        .unit = recipe->unit,
        .other_unit = recipe->other_unit,
        .times = recipe->times,
    };
    return need;
}

/* For the whole winter, from or to a day, or two figures parted by a day. */
static void draft_figure(Draws *draws, FarmDraft *draft, const DraftGroup *group,
                         const NeedRecipe *recipe) {
    const int days = calendar_days_between(draft->first_day, draft->last_day);
    const Day day = calendar_add(draft->first_day, draw_whole(draws, 1, days));
    DraftNeed *need = add_need(draws, draft, group, recipe);
    switch (draw_whole(draws, 0, 4)) {
    case 0:
    case 1:
        return;
    case 2:
        need->from = (DraftDate){true, day};
        return;
    case 3:
        need->until = (DraftDate){true, day};
        return;
    default:
        need->until = (DraftDate){true, calendar_add(day, -1)};
        need = add_need(draws, draft, group, recipe);
        need->from = (DraftDate){true, day};
    }
}

/* One to four needs, each of them once. */
static void draft_figures(Draws *draws, FarmDraft *draft, const DraftGroup *group) {
    const int count = draw_whole(draws, 1, MOST_ROWS_OF_GROUP / 2);
    bool is_drawn[RECIPES] = {false};
    for (int i = 0; i < count; i++) {
        const int recipe = draw_whole(draws, 0, RECIPES - 1);
        if (!is_drawn[recipe] && may_have(draft, group, recipe))
            draft_figure(draws, draft, group, &NEEDS[recipe]);
        is_drawn[recipe] = true;
    }
}

/* Half of the farms leave it as it is. */
static double drawn_caution_weight(unsigned long long seed) {
    static const double WEIGHTS[] = {0.0, 0.2, 3.0, 20.0};
    Draws draws = draws_new(seed ^ CAUTION_STREAM);
    return draw_chance(&draws, 0.5) ? 1.0 : WEIGHTS[draw_whole(&draws, 0, 3)];
}

void draft_options(Arena *arena, unsigned long long seed, FarmDraft *draft) {
    Draws draws = draws_new(seed ^ STREAM);
    draft->ways.needs_way = draw_chance(&draws, 0.3) ? NEEDS_BY_TABLE : NEEDS_BY_EQUATIONS;
    draft->ways.cold_way = draw_chance(&draws, 0.4) ? COLD_BY_MODEL : COLD_BY_TABLE;
    draft->ways.microbial_form = draw_chance(&draws, 0.5)   ? MICROBIAL_TEN_PERCENT
                                 : draw_chance(&draws, 0.5) ? MICROBIAL_THIRTEEN_PERCENT
                                                            : MICROBIAL_2016;
    draft->ways.are_asked = draw_chance(&draws, 0.5);
    draft->ways.caution_weight = drawn_caution_weight(seed);
    draft->needs = ARENA_ARRAY(arena, DraftNeed, draft->group_count * MOST_ROWS_OF_GROUP);
    if (draw_chance(&draws, 0.6))
        return;
    for (int g = 0; g < draft->group_count; g++) {
        if (draw_chance(&draws, 0.7))
            draft_figures(&draws, draft, &draft->groups[g]);
    }
}

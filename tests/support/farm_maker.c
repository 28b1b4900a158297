#include "support/farm_maker.h"
#include "base/text.h"
#include "support/farm_feeds.h"
#include "support/farm_options.h"
#include <assert.h>
#include <math.h>
#include <string.h>

Draws draws_new(unsigned long long seed) { return (Draws){seed}; }

/* SplitMix64: a counter and three scramblings of it. */
static unsigned long long next(Draws *draws) {
    unsigned long long z = draws->state += 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
}

double draw_share(Draws *draws) { return (double)(next(draws) >> 11) * 0x1p-53; }

int draw_whole(Draws *draws, int least, int most) {
    return least + (int)(next(draws) % (unsigned long long)(most - least + 1));
}

bool draw_chance(Draws *draws, double share) { return draw_share(draws) < share; }

double draw_between(Draws *draws, double least, double most, int decimals) {
    static const double SCALES[] = {1.0, 10.0, 100.0, 1000.0};
    assert(decimals >= 0 && decimals < 4);
    const double scale = SCALES[decimals];
    return round((least + (most - least) * draw_share(draws)) * scale) / scale;
}

/* ---- cattle ---- */

typedef struct {
    const char *cattle_class, *word;
    double least_kg, most_kg, least_mature, most_mature, least_gain, most_gain;
    double calves; /* chance that the group is bred */
    int most_head;
} CattleRecipe;

static const CattleRecipe CATTLE[] = {
    {"cow", "cows", 540, 690, 0, 0, 0, 0, 0.8, 200},
    {"bred heifer", "bred heifers", 430, 500, 560, 680, 0.2, 0.45, 1, 60},
    {"replacement heifer", "replacements", 230, 300, 560, 680, 0.5, 0.75, 0, 80},
    {"steer", "steers", 230, 380, 580, 700, 0.5, 0.9, 0, 120},
    {"feeder heifer", "feeder heifers", 220, 340, 520, 640, 0.5, 0.9, 0, 80},
    {"bull", "bulls", 820, 1050, 0, 0, 0, 0, 0, 9},
    {"bull calf", "bull calves", 270, 360, 800, 950, 0.4, 0.7, 0, 15},
};
#define CATTLE_RECIPES ((int)(sizeof CATTLE / sizeof CATTLE[0]))

static void draft_calving(Draws *draws, const FarmDraft *draft, DraftGroup *group) {
    const Day start = calendar_add(draft->first_day, draw_whole(draws, 60, 190));
    group->calving_start = (DraftDate){true, start};
    group->calving_end = (DraftDate){true, calendar_add(start, draw_whole(draws, 25, 70))};
    group->milk_kg = draw_between(draws, 6.5, 10.5, 1);
    group->birth_kg = draw_between(draws, 35, 43, 1);
    if (draw_chance(draws, 0.5))
        group->weaning = (DraftDate){true, calendar_add(start, 205)};
}

static DraftGroup draft_group(Arena *arena, Draws *draws, const FarmDraft *draft, int number) {
    static const char *const BREEDS[] = {"", "beef", "beef", "dairy cross",
                                         "bos indicus cross"};
    static const char *const COATS[] = {"", "winter", "heavy winter", "fall"};
    static const char *const SHELTERS[] = {"windbreak", "bush", "barn", "open"};
    static const char *const DELIVERIES[] = {"mixed", "mixed", "mixed", "layered",
                                             "free choice"};
    const CattleRecipe *recipe =
        number == 0 ? &CATTLE[0] : &CATTLE[draw_whole(draws, 0, CATTLE_RECIPES - 1)];
    DraftGroup group = {
        .name = arena_print(arena, "Pen %d %s", number + 1, recipe->word),
        .cattle_class = recipe->cattle_class,
        .head = draw_whole(draws, 2, recipe->most_head),
        .weight_kg = draw_between(draws, recipe->least_kg, recipe->most_kg, 0),
        .mature_kg = NOTHING,
        .condition_9 = NOTHING,
        .target_9 = NOTHING,
        .milk_kg = NOTHING,
        .birth_kg = NOTHING,
        .gain_kg = NOTHING,
        .breed = one_of(draws, BREEDS, 5),
        .coat = one_of(draws, COATS, 4),
        .shelter = one_of(draws, SHELTERS, 4),
        .delivery = one_of(draws, DELIVERIES, 5),
    };
    if (recipe->most_mature > 0.0) {
        group.mature_kg = draw_between(draws, recipe->least_mature, recipe->most_mature, 0);
        group.gain_kg = draw_between(draws, recipe->least_gain, recipe->most_gain, 2);
    } else if (draw_chance(draws, 0.7)) {
        group.condition_9 = draw_between(draws, 8, 12, 0) / 2.0;
        if (group.condition_9 <= 5.0 && draw_chance(draws, 0.4)) {
            group.target_9 = group.condition_9 + 0.5;
            group.target_date =
                (DraftDate){true, calendar_add(draft->first_day, draw_whole(draws, 70, 130))};
        }
    }
    if (draw_chance(draws, recipe->calves))
        draft_calving(draws, draft, &group);
    return group;
}

/* ---- winter ---- */

/* A prairie year, C by the month, January first. */
static const double MEAN_C[] = {-15, -12, -6, 4, 11, 16, 19, 18, 12, 4, -6, -12};

static void draft_months(Arena *arena, Draws *draws, FarmDraft *draft, int days) {
    const bool leaves_normals = days > 190 || calendar_month(draft->last_day) == 6;
    draft->month_count = leaves_normals || draw_chance(draws, 0.7) ? 12 : 0;
    draft->months = ARENA_ARRAY(arena, DraftMonth, 12);
    const double colder = draw_between(draws, -4, 4, 1);
    for (int m = 0; m < draft->month_count; m++) {
        const double mean = MEAN_C[m] + colder + draw_between(draws, -2, 2, 1);
        draft->months[m] = (DraftMonth){
            .month = m + 1,
            .mean_c = mean,
            .cold_c = draw_chance(draws, 0.7) ? mean - draw_between(draws, 8, 18, 1) : NOTHING,
            .wind_km_per_h = draw_chance(draws, 0.8) ? draw_between(draws, 8, 22, 0) : NOTHING,
            .wet_days = draw_chance(draws, 0.5) ? draw_whole(draws, 0, 6) : NOTHING,
        };
    }
}

static void draft_winter(Arena *arena, Draws *draws, FarmDraft *draft, FarmSize size) {
    draft->first_day = calendar_add(calendar_day(2026, 11, 1), draw_whole(draws, -14, 20));
    draft->last_day = calendar_add(draft->first_day, size.days - 1);
    draft->yardage = draw_chance(draws, 0.6) ? draw_between(draws, 0.5, 1.6, 2) : NOTHING;
    draft->sulfate_mg = draw_chance(draws, 0.7) ? draw_between(draws, 20, 600, 0) : NOTHING;
    draft->nitrate_mg = draw_chance(draws, 0.5) ? draw_between(draws, 0, 40, 0) : NOTHING;
    draft->carry_over_tonnes =
        !size.is_generous && draw_chance(draws, 0.3) ? draw_between(draws, 2, 20, 0) : NOTHING;
    draft_months(arena, draws, draft, size.days);
}

FarmDraft *farm_drafted(Arena *arena, unsigned long long seed, FarmSize size) {
    Draws draws = draws_new(seed);
    FarmDraft *draft = ARENA_NEW(arena, FarmDraft);
    *draft = (FarmDraft){
        .groups = ARENA_ARRAY(arena, DraftGroup, size.groups),
        .stacks = ARENA_ARRAY(arena, DraftStack, size.stacks),
        .tests = ARENA_ARRAY(arena, DraftTest, size.stacks * 2),
        .offers = ARENA_ARRAY(arena, DraftOffer, size.offers),
        .group_count = size.groups,
        .stack_count = size.stacks,
        .offer_count = size.offers,
        .nitrate_form = (NitrateForm)draw_whole(&draws, 0, 3),
        .is_five_point = draw_chance(&draws, 0.3),
        .imperial = (unsigned)draw_whole(&draws, 0, (int)ALL_IMPERIAL),
    };
    draft_winter(arena, &draws, draft, size);
    for (int g = 0; g < size.groups; g++)
        draft->groups[g] = draft_group(arena, &draws, draft, g);
    const double enough = size.is_generous ? draw_between(&draws, 0.7, 1.5, 2)
                                           : draw_between(&draws, 0.3, 1.6, 2);
    const double even_kg = size.stacks > 0 ? enough * herd_eats(draft) / size.stacks : 0.0;
    for (int s = 0; s < size.stacks; s++)
        draft_stack(arena, &draws, draft, s, even_kg, size.is_generous);
    for (int o = 0; o < size.offers; o++)
        draft_offer(arena, &draws, draft, o, size.is_generous);
    draft_options(arena, seed, draft);
    return draft;
}

void farm_made(Arena *arena, unsigned long long seed, FarmSize size, FarmRequest *request) {
    farm_written(arena, farm_drafted(arena, seed, size), request);
}

/* A figure that changes nothing begins a period all the same, and the day after it the next. */
static void cut_into_periods(Arena *arena, FarmDraft *draft, int days, int days_a_period) {
    const int periods = (days + days_a_period - 1) / days_a_period;
    draft->need_count = 0;
    draft->needs = ARENA_ARRAY(arena, DraftNeed, draft->group_count * periods);
    for (int g = 0; g < draft->group_count; g++) {
        for (int p = 0; p < periods; p += 2) {
            const Day from = calendar_add(draft->first_day, p * days_a_period);
            const Day until = calendar_add(from, days_a_period - 1);
            draft->needs[draft->need_count++] = (DraftNeed){
                .group = draft->groups[g].name,
                .need = "cobalt",
                .from = {true, from},
                .until = {true, p == periods - 1 ? draft->last_day : until},
                .value = 0.15,
                .unit = "ppm",
                .other_unit = "ppm",
                .times = 1.0,
            };
        }
    }
}

void farm_made_of_size(Arena *arena, unsigned long long seed, FarmPreset preset,
                       FarmRequest *request) {
    static const struct {
        FarmSize size;
        int days_a_period;
    } PRESETS[] = {
        [FARM_S] = {{4, 6, 6, 364, true}, 14},
        [FARM_M] = {{8, 28, 12, 364, true}, 14},
        [FARM_L] = {{40, 40, 20, 364, true}, 7},
    };
    const FarmSize size = PRESETS[preset].size;
    FarmDraft *draft = farm_drafted(arena, seed, size);
    draft->first_day = calendar_day(2026, 11, 1);
    draft->last_day = calendar_add(draft->first_day, size.days - 1);
    draft->ways = (DraftWays){.caution_weight = 1.0};
    for (int s = 0; s < size.stacks; s++) {
        draft->stacks[s].from.is_set = draft->stacks[s].until.is_set = false;
        draft->stacks[s].groups = preset == FARM_S ? draft->stacks[s].groups : "";
    }
    for (int g = 0; g < size.groups; g++) {
        DraftGroup *group = &draft->groups[g];
        const double to_grow = 0.9 * group->mature_kg - group->weight_kg;
        if (group->gain_kg * size.days > to_grow) /* a year must not take it past its end */
            group->gain_kg = floor(100.0 * to_grow / size.days) / 100.0;
    }
    for (int o = 0; o < size.offers; o++)
        draft->offers[o].from.is_set = draft->offers[o].until.is_set = false;
    cut_into_periods(arena, draft, size.days, PRESETS[preset].days_a_period);
    farm_written(arena, draft, request);
}

#include "support/farm_maker.h"
#include "base/text.h"
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
    const double scale = pow(10.0, decimals);
    return round((least + (most - least) * draw_share(draws)) * scale) / scale;
}

static const char *one_of(Draws *draws, const char *const *choices, int count) {
    return choices[draw_whole(draws, 0, count - 1)];
}

static double nothing(void) { return (double)NAN; }

/* ------------------------------------------------------------------------------------- cattle
 */

typedef struct {
    const char *cattle_class, *word;
    double least_kg, most_kg, least_mature, most_mature, least_gain, most_gain;
    double calves; /* chance that the group is bred */
    int most_head;
} CattleRecipe;

static const CattleRecipe CATTLE[] = {
    {"cow", "cows", 540, 690, 0, 0, 0, 0, 0.8, 200},
    {"bred heifer", "bred heifers", 430, 500, 560, 680, 0.2, 0.45, 0.9, 60},
    {"replacement heifer", "replacements", 230, 300, 560, 680, 0.5, 0.75, 0, 80},
    {"steer", "steers", 230, 380, 580, 700, 0.6, 1.0, 0, 120},
    {"feeder heifer", "feeder heifers", 220, 340, 520, 640, 0.5, 0.9, 0, 80},
    {"bull", "bulls", 820, 1050, 0, 0, 0, 0, 0, 9},
    {"bull calf", "bull calves", 270, 360, 800, 950, 0.8, 1.1, 0, 15},
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
        .mature_kg = nothing(),
        .condition_9 = nothing(),
        .target_9 = nothing(),
        .milk_kg = nothing(),
        .birth_kg = nothing(),
        .gain_kg = nothing(),
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

/* -------------------------------------------------------------------------------------- feeds
 */

const char *const DRAFT_TESTED[DRAFT_TESTED_COUNT] = {
    "crude_protein_pct", "adf_pct",       "ndf_pct",    "calcium_pct", "phosphorus_pct",
    "magnesium_pct",     "potassium_pct", "sodium_pct", "sulfur_pct"};

/* Typical analyses, rounded; what a real one would be does not matter here. */
typedef struct {
    const char *feed, *word, *kind, *storage[2], *feeding[2];
    double dry_pct, value, share; /* share: of an even share of what the herd eats */
    double tested[DRAFT_TESTED_COUNT], nitrate, test_chance;
} StackRecipe;

static const StackRecipe STACKS[] = {
    {"alfalfa grass hay",
     "mixed hay",
     "round bales",
     {"net wrap rows", "tarp on ground"},
     {"processed", "unrolled"},
     89,
     130,
     1.0,
     {14.5, 36, 51, 1.1, 0.22, 0.26, 2.0, 0.06, 0.22},
     0.1,
     0.6},
    {"oat greenfeed",
     "oat greenfeed",
     "round bales",
     {"twine rows", "net wrap stacked"},
     {"processed", "unrolled"},
     87,
     105,
     1.0,
     {10.5, 36, 57, 0.35, 0.22, 0.20, 2.0, 0.22, 0.17},
     0.4,
     0.85},
    {"barley silage",
     "barley pit",
     "pit",
     {"covered pit", "covered pit"},
     {"bunk", "bunk"},
     37,
     52,
     1.2,
     {11.5, 33, 51, 0.4, 0.27, 0.20, 1.6, 0.15, 0.17},
     0.2,
     0.8},
    {"barley straw",
     "barley straw",
     "round bales",
     {"twine rows", "twine stacked"},
     {"processed", "poor feed on ground"},
     90,
     55,
     0.4,
     {4.8, 48, 76, 0.28, 0.08, 0.14, 1.6, 0.12, 0.15},
     0.1,
     0.3},
    {"cover crop hay early",
     "early mix hay",
     "round bales",
     {"net wrap rows", "shed"},
     {"processed", "cone feeder"},
     87,
     120,
     1.0,
     {14.5, 35, 53, 0.8, 0.28, 0.26, 2.2, 0.17, 0.24},
     0.45,
     0.85},
    {"cover crop hay late",
     "late mix hay",
     "round bales",
     {"net wrap rows", "net wrap on rock"},
     {"unrolled", "bale grazing"},
     87,
     100,
     1.0,
     {11, 34, 54, 0.5, 0.22, 0.22, 1.9, 0.15, 0.19},
     0.25,
     0.85},
    {"brome hay",
     "brome hay",
     "round bales",
     {"twine rows", "tarp on rock"},
     {"unrolled", "open ring"},
     89,
     110,
     1.0,
     {10.5, 37, 60, 0.5, 0.20, 0.18, 1.8, 0.05, 0.17},
     0.1,
     0.5},
    {"cover crop bale silage",
     "bale tube",
     "bale tube",
     {"wrapped", "wrapped"},
     {"bale silage on snow", "bunk"},
     50,
     62,
     0.8,
     {14.5, 35, 53, 0.75, 0.28, 0.26, 2.2, 0.15, 0.22},
     0.3,
     0.85},
    {"slough hay",
     "slough hay",
     "loose",
     {"twine rows", "uncovered pit"},
     {"unrolled", "swath grazing"},
     90,
     70,
     0.4,
     {7.8, 41, 66, 0.4, 0.13, 0.17, 1.3, 0.05, 0.15},
     0.05,
     0.4},
    {"barley grain",
     "barley bin",
     "bin",
     {"grain bin", "grain bin"},
     {"bunk", "with feed"},
     88,
     250,
     0.25,
     {12, 7, 19, 0.05, 0.36, 0.13, 0.55, 0.02, 0.14},
     0.0,
     0.4},
    {"alfalfa hay mid",
     "loft alfalfa",
     "square bales",
     {"shed", "shed"},
     {"sheeted ring", "bunk"},
     90,
     160,
     0.6,
     {17, 35, 46, 1.4, 0.24, 0.28, 2.2, 0.08, 0.27},
     0.1,
     0.6},
    {"corn silage",
     "corn bag",
     "bag",
     {"silage bag", "silage bag"},
     {"bunk", "bunk"},
     35,
     50,
     1.0,
     {8.8, 26, 46, 0.22, 0.22, 0.17, 1.1, 0.02, 0.12},
     0.15,
     0.9},
    {"grass hay average",
     "grass hay",
     "round bales",
     {"net wrap rows", "twine on rock"},
     {"unrolled", "processed"},
     89,
     105,
     1.0,
     {9.2, 38, 62, 0.5, 0.17, 0.17, 1.5, 0.04, 0.15},
     0.08,
     0.5},
    {"barley greenfeed",
     "barley greenfeed",
     "round bales",
     {"twine rows", "net wrap rows"},
     {"processed", "unrolled"},
     88,
     105,
     1.0,
     {10.5, 35, 56, 0.4, 0.24, 0.20, 1.9, 0.20, 0.18},
     0.3,
     0.85},
    {"oat straw",
     "oat straw",
     "round bales",
     {"twine rows", "twine rows"},
     {"processed", "unrolled"},
     91,
     60,
     0.4,
     {4.6, 46, 71, 0.25, 0.08, 0.15, 2.0, 0.2, 0.16},
     0.1,
     0.2},
};
#define STACK_RECIPES ((int)(sizeof STACKS / sizeof STACKS[0]))

typedef struct {
    const char *feed, *word, *feeding;
    double price, load;
    bool is_supplement;
} OfferRecipe;

/* The first six balance any of the cattle above. */
static const OfferRecipe OFFERS[] = {
    {"alfalfa grass hay average", "hay", "unrolled", 165, 16, false},
    {"barley grain", "barley", "bunk", 268, 38, false},
    {"canola meal", "canola meal", "bunk", 385, 38, true},
    {"mineral 2:1", "mineral", "bunk", 2080, 1, true},
    {"limestone", "limestone", "bunk", 380, 1, true},
    {"trace-mineral salt", "salt", "bunk", 820, 1, true},
    {"barley straw", "straw", "processed", 78, 13, false},
    {"magnesium oxide", "magnesium oxide", "bunk", 1350, 1, true},
    {"grain screenings pellets", "pellets", "bunk", 222, 24, false},
    {"brome hay", "brome hay", "unrolled", 150, 16, false},
    {"wheat ddgs", "distillers grains", "bunk", 330, 38, true},
    {"oat grain", "oats", "bunk", 255, 38, false},
    {"dicalcium phosphate", "dicalcium phosphate", "bunk", 1500, 1, true},
    {"alfalfa hay early", "alfalfa", "processed", 210, 16, false},
};
#define OFFER_RECIPES ((int)(sizeof OFFERS / sizeof OFFERS[0]))

/* kg of dry matter the herd eats, near enough to size stacks by. */
static double herd_eats(const FarmDraft *draft) {
    const int days = calendar_days_between(draft->first_day, draft->last_day) + 1;
    double eats = 0.0;
    for (int g = 0; g < draft->group_count; g++)
        eats += draft->groups[g].head * draft->groups[g].weight_kg * 0.024 * days;
    return eats;
}

static void weigh_by_size(Draws *draws, const StackRecipe *recipe, double kg,
                          DraftStack *stack) {
    if (strcmp(recipe->kind, "pit") == 0 || strcmp(recipe->kind, "loose") == 0) {
        const bool is_pit = recipe->kind[0] == 'p';
        stack->density =
            is_pit ? draw_between(draws, 550, 680, 0) : draw_between(draws, 90, 130, 0);
        stack->width_m = draw_between(draws, 5, 9, 1);
        stack->height_m = draw_between(draws, 2, 4, 1);
        stack->length_m = fmin(
            fmax(round(kg / (stack->density * stack->width_m * stack->height_m)), 1.0), 290.0);
    } else if (strcmp(recipe->kind, "bag") == 0) {
        stack->density = draw_between(draws, 520, 640, 0);
        stack->diameter_m = 2.7;
        stack->length_m =
            fmin(fmax(round(kg / (stack->density * 0.7854 * 2.7 * 2.7)), 1.0), 290.0);
    } else if (strcmp(recipe->kind, "bin") == 0) {
        stack->density = draw_between(draws, 600, 660, 0);
        stack->diameter_m = draw_between(draws, 4, 6, 1);
        stack->height_m =
            fmin(fmax(round(10.0 * kg /
                            (stack->density * 0.7854 * stack->diameter_m * stack->diameter_m)) /
                          10.0,
                      0.4),
                 28.0);
    } else {
        stack->density = draw_between(draws, 150, 190, 0);
        stack->diameter_m = draw_between(draws, 1.5, 1.8, 2);
        stack->width_m = draw_between(draws, 1.2, 1.5, 2);
        stack->length_m = stack->width_m; /* square bales */
        stack->height_m = stack->diameter_m;
        stack->count = fmax(round(kg / 520.0), 1.0);
    }
}

static void weigh(Draws *draws, const StackRecipe *recipe, double kg, DraftStack *stack) {
    stack->count = stack->bale_kg = stack->total_tonnes = nothing();
    stack->diameter_m = stack->width_m = stack->length_m = stack->height_m = nothing();
    stack->density = nothing();
    const int way = draw_whole(draws, 0, 2);
    const bool is_bales = strstr(recipe->kind, "bale") != NULL;
    if (way == 0)
        weigh_by_size(draws, recipe, kg, stack);
    else if (way == 1 && is_bales) {
        stack->bale_kg = draw_between(draws, 480, 700, 0);
        stack->count = fmax(round(kg / stack->bale_kg), 1.0);
    } else
        stack->total_tonnes = fmax(round(kg / 100.0) / 10.0, 0.5);
}

static const char *some_groups(Arena *arena, Draws *draws, const FarmDraft *draft) {
    Text text = text_new(arena);
    const int always = draw_whole(draws, 0, draft->group_count - 1);
    for (int g = 0; g < draft->group_count; g++) {
        if (g == always || draw_chance(draws, 0.5))
            text_print(&text, "%s%s", text.length > 0 ? "|" : "", draft->groups[g].name);
    }
    return text.bytes;
}

static void draft_test(Draws *draws, const StackRecipe *recipe, FarmDraft *draft,
                       const char *stack) {
    DraftTest *test = &draft->tests[draft->test_count++];
    *test = (DraftTest){
        .stack = stack,
        .is_as_fed = draw_chance(draws, 0.25),
        .moisture_pct = 100.0 - recipe->dry_pct + draw_between(draws, -1.5, 1.5, 1),
        .cores = draw_chance(draws, 0.7) ? draw_whole(draws, 5, 20) : nothing(),
        .nitrate_no3_pct = nothing(),
    };
    for (int i = 0; i < DRAFT_TESTED_COUNT; i++) {
        const double value = recipe->tested[i] * draw_between(draws, 0.92, 1.08, 3);
        const bool is_wanted = i < 3 || draw_chance(draws, 0.85);
        test->tested[i] = is_wanted ? round(value * 1000.0) / 1000.0 : nothing();
    }
    if (recipe->nitrate > 0.0 && draw_chance(draws, 0.95))
        test->nitrate_no3_pct = recipe->nitrate * draw_between(draws, 0.4, 1.6, 2);
}

static void draft_stack(Arena *arena, Draws *draws, FarmDraft *draft, int number,
                        double even_kg, bool is_generous) {
    const StackRecipe *recipe =
        &STACKS[number < 4 ? (number * 3 + draw_whole(draws, 0, 2)) % STACK_RECIPES
                           : draw_whole(draws, 0, STACK_RECIPES - 1)];
    DraftStack *stack = &draft->stacks[number];
    *stack = (DraftStack){
        .name = arena_print(arena, "Stack %d %s", number + 1, recipe->word),
        .kind = recipe->kind,
        .feed = recipe->feed,
        .storage = one_of(draws, recipe->storage, 2),
        .feeding = one_of(draws, recipe->feeding, 2),
        .loss_pct = draw_chance(draws, 0.2) ? draw_between(draws, 2, 12, 0) : nothing(),
        .waste_pct = draw_chance(draws, 0.2) ? draw_between(draws, 0, 20, 0) : nothing(),
        .value = round(recipe->value * draw_between(draws, 0.8, 1.2, 2)),
        .haul = draw_chance(draws, 0.8) ? draw_between(draws, 4, 14, 0) : nothing(),
        .groups = draft->group_count > 1 && draw_chance(draws, 0.15)
                      ? some_groups(arena, draws, draft)
                      : "",
    };
    weigh(draws, recipe,
          even_kg * recipe->share * draw_between(draws, 0.5, 1.5, 2) /
              (recipe->dry_pct / 100.0),
          stack);
    if (draw_chance(draws, 0.8))
        stack->cut =
            (DraftDate){true, calendar_add(draft->first_day, -draw_whole(draws, 40, 120))};
    if (draw_chance(draws, 0.6))
        stack->counted =
            (DraftDate){true, calendar_add(draft->first_day, -draw_whole(draws, 0, 30))};
    const int days = calendar_days_between(draft->first_day, draft->last_day);
    if (draw_chance(draws, is_generous ? 0.1 : 0.2))
        stack->from =
            (DraftDate){true, calendar_add(draft->first_day, draw_whole(draws, 0, days / 2))};
    if (draw_chance(draws, is_generous ? 0.1 : 0.2))
        stack->until = (DraftDate){
            true, calendar_add(draft->first_day, draw_whole(draws, days / 2 + 1, days))};
    const int tests = draw_chance(draws, recipe->test_chance) ? draw_whole(draws, 1, 2) : 0;
    for (int i = 0; i < tests; i++)
        draft_test(draws, recipe, draft, stack->name);
}

static void draft_offer(Arena *arena, Draws *draws, FarmDraft *draft, int number,
                        bool is_generous) {
    const bool is_sure = is_generous && number < 6;
    const OfferRecipe *recipe =
        &OFFERS[is_generous ? number % OFFER_RECIPES : draw_whole(draws, 0, OFFER_RECIPES - 1)];
    DraftOffer *offer = &draft->offers[number];
    *offer = (DraftOffer){
        .name = arena_print(arena, "Seller %d %s", number + 1, recipe->word),
        .feed = recipe->feed,
        .feeding = recipe->feeding,
        .price = round(recipe->price * draw_between(draws, 0.85, 1.2, 2)),
        .most_tonnes = nothing(),
        .load_tonnes = draw_chance(draws, 0.5) ? recipe->load : nothing(),
        .waste_pct = draw_chance(draws, 0.2) ? draw_between(draws, 0, 15, 0) : nothing(),
        .shrink_pct = draw_chance(draws, 0.6) ? draw_between(draws, 0, 3, 1) : nothing(),
        .haul = draw_chance(draws, 0.6) ? draw_between(draws, 4, 9, 0) : nothing(),
        .is_supplement = recipe->is_supplement,
        .groups = "",
    };
    const int days = calendar_days_between(draft->first_day, draft->last_day);
    if (is_sure)
        return;
    if (draw_chance(draws, 0.4))
        offer->most_tonnes = draw_between(draws, 1, 90, 0);
    if (draw_chance(draws, 0.15))
        offer->from =
            (DraftDate){true, calendar_add(draft->first_day, draw_whole(draws, 0, days / 2))};
    if (draw_chance(draws, 0.15))
        offer->until = (DraftDate){
            true, calendar_add(draft->first_day, draw_whole(draws, days / 2 + 1, days))};
    if (draft->group_count > 1 && draw_chance(draws, 0.1))
        offer->groups = some_groups(arena, draws, draft);
}

/* ------------------------------------------------------------------------------------- winter
 */

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
            .cold_c =
                draw_chance(draws, 0.7) ? mean - draw_between(draws, 8, 18, 1) : nothing(),
            .wind_km_per_h =
                draw_chance(draws, 0.8) ? draw_between(draws, 8, 22, 0) : nothing(),
            .wet_days = draw_chance(draws, 0.5) ? draw_whole(draws, 0, 6) : nothing(),
        };
    }
}

static void draft_winter(Arena *arena, Draws *draws, FarmDraft *draft, FarmSize size) {
    draft->first_day = calendar_add(calendar_day(2026, 11, 1), draw_whole(draws, -14, 20));
    draft->last_day = calendar_add(draft->first_day, size.days - 1);
    draft->yardage = draw_chance(draws, 0.6) ? draw_between(draws, 0.5, 1.6, 2) : nothing();
    draft->sulfate_mg = draw_chance(draws, 0.7) ? draw_between(draws, 20, 600, 0) : nothing();
    draft->nitrate_mg = draw_chance(draws, 0.5) ? draw_between(draws, 0, 40, 0) : nothing();
    draft->carry_over_tonnes = !size.is_generous && draw_chance(draws, 0.3)
                                   ? draw_between(draws, 2, 20, 0)
                                   : nothing();
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
    return draft;
}

void farm_made(Arena *arena, unsigned long long seed, FarmSize size, FarmRequest *request) {
    farm_written(arena, farm_drafted(arena, seed, size), request);
}

void farm_made_of_size(Arena *arena, unsigned long long seed, FarmPreset preset,
                       FarmRequest *request) {
    const FarmSize size =
        preset == FARM_S ? (FarmSize){4, 6, 6, 181, true} : (FarmSize){8, 28, 12, 365, true};
    FarmDraft *draft = farm_drafted(arena, seed, size);
    draft->first_day = calendar_day(2026, 11, 1);
    draft->last_day = calendar_add(draft->first_day, size.days - 1);
    for (int s = 0; s < size.stacks; s++) {
        draft->stacks[s].from.is_set = draft->stacks[s].until.is_set = false;
        draft->stacks[s].groups = preset == FARM_M ? "" : draft->stacks[s].groups;
        if (preset == FARM_M && s < 12)
            draft->stacks[s].from = (DraftDate){
                true, calendar_day(s < 2 ? 2026 : 2027, s < 2 ? 11 + s : s - 1, 15)};
    }
    for (int o = 0; o < size.offers; o++)
        draft->offers[o].from.is_set = draft->offers[o].until.is_set = false;
    farm_written(arena, draft, request);
}

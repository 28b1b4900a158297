/* The feeds of an invented farm: typical ones, varied. */
#include "support/farm_feeds.h"
#include "base/text.h"
#include <math.h>
#include <string.h>

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
    {"canola hay",
     "canola hay",
     "round bales",
     {"net wrap rows", "twine rows"},
     {"processed", "unrolled"},
     86,
     85,
     0.6,
     {14, 37, 47, 1.2, 0.25, 0.3, 2.2, 0.2, 0.5},
     0.5,
     0.85},
};
#define STACK_RECIPES ((int)(sizeof STACKS / sizeof STACKS[0]))

typedef struct {
    const char *feed, *word, *feeding;
    double price, load;
    bool is_supplement;
} OfferRecipe;

/* The first six balance any of the cattle of farm_maker.c. */
static const OfferRecipe OFFERS[] = {
    {"mineral 2:1", "mineral", "bunk", 2080, 1, true},
    {"alfalfa grass hay average", "hay", "unrolled", 165, 16, false},
    {"barley grain", "barley", "bunk", 268, 38, false},
    {"trace-mineral salt", "salt", "bunk", 820, 1, true},
    {"limestone", "limestone", "bunk", 380, 1, true},
    {"canola meal", "canola meal", "bunk", 385, 38, true},
    {"barley straw", "straw", "processed", 78, 13, false},
    {"magnesium oxide", "magnesium oxide", "bunk", 1350, 1, true},
    {"grain screenings pellets", "pellets", "bunk", 222, 24, false},
    {"brome hay", "brome hay", "unrolled", 150, 16, false},
    {"wheat ddgs", "distillers grains", "bunk", 330, 38, true},
    {"oat grain", "oats", "bunk", 255, 38, false},
    {"dicalcium phosphate", "dicalcium phosphate", "bunk", 1500, 1, true},
    {"alfalfa hay early", "alfalfa", "processed", 210, 16, false},
    {"urea", "urea", "bunk", 900, 1, true},
};
#define OFFER_RECIPES ((int)(sizeof OFFERS / sizeof OFFERS[0]))

/* kg of dry matter the herd eats, near enough to size stacks by. */
double herd_eats(const FarmDraft *draft) {
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
    stack->count = stack->bale_kg = stack->total_tonnes = NOTHING;
    stack->diameter_m = stack->width_m = stack->length_m = stack->height_m = NOTHING;
    stack->density = NOTHING;
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
        .cores = draw_chance(draws, 0.7) ? draw_whole(draws, 5, 20) : NOTHING,
        .nitrate_no3_pct = NOTHING,
    };
    for (int i = 0; i < DRAFT_TESTED_COUNT; i++) {
        const double value = recipe->tested[i] * draw_between(draws, 0.92, 1.08, 3);
        const bool is_wanted = i < 3 || draw_chance(draws, 0.85);
        test->tested[i] = is_wanted ? round(value * 1000.0) / 1000.0 : NOTHING;
    }
    if (recipe->nitrate > 0.0 && draw_chance(draws, 0.95))
        test->nitrate_no3_pct = recipe->nitrate * draw_between(draws, 0.4, 1.6, 2);
}

void draft_stack(Arena *arena, Draws *draws, FarmDraft *draft, int number, double even_kg,
                 bool is_generous) {
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
        .loss_pct = draw_chance(draws, 0.2) ? draw_between(draws, 2, 12, 0) : NOTHING,
        .waste_pct = draw_chance(draws, 0.2) ? draw_between(draws, 0, 20, 0) : NOTHING,
        .value = round(recipe->value * draw_between(draws, 0.8, 1.2, 2)),
        .haul = draw_chance(draws, 0.8) ? draw_between(draws, 4, 14, 0) : NOTHING,
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

void draft_offer(Arena *arena, Draws *draws, FarmDraft *draft, int number, bool is_generous) {
    const bool is_sure = is_generous && number < 6;
    const bool is_in_order = is_generous || (number < 6 && draw_chance(draws, 0.9));
    const OfferRecipe *recipe =
        &OFFERS[is_in_order ? number % OFFER_RECIPES : draw_whole(draws, 0, OFFER_RECIPES - 1)];
    DraftOffer *offer = &draft->offers[number];
    *offer = (DraftOffer){
        .name = arena_print(arena, "Seller %d %s", number + 1, recipe->word),
        .feed = recipe->feed,
        .feeding = recipe->feeding,
        .price = round(recipe->price * draw_between(draws, 0.85, 1.2, 2)),
        .most_tonnes = NOTHING,
        .load_tonnes = draw_chance(draws, 0.5) ? recipe->load : NOTHING,
        .waste_pct = draw_chance(draws, 0.2) ? draw_between(draws, 0, 15, 0) : NOTHING,
        .shrink_pct = draw_chance(draws, 0.6) ? draw_between(draws, 0, 3, 1) : NOTHING,
        .haul = draw_chance(draws, 0.6) ? draw_between(draws, 4, 9, 0) : NOTHING,
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

/* What a ration must hold to. Rations are put together by hand and their supply is multiplied
 * out with the numbers of the book; the safety table is the program's own. */
#include "planner/ration_limit.h"

#include "entry/farm_reading.h"
#include "support/unit.h"
#include <string.h>

#define HERD                                                                                   \
    "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,gain_kg_per_day,"   \
    "delivery\n"                                                                               \
    "Cows,cow,10,600,,2027-04-01,2027-05-15,,mixed\n"                                          \
    "Heifers,replacement heifer,10,280,620,,,0.6,mixed\n"                                      \
    "Bulls,bull,2,900,,,,,mixed\n"

/* in a bunk nothing is wasted, so that the book's numbers are what is eaten */
#define SALE                                                                                   \
    "feed_for_sale,feed,price_per_tonne,feeding,feeding_waste_pct\n"                           \
    "Hay,grass hay average,100,bunk,0\n"                                                       \
    "Straw,barley straw,50,bunk,0\n"                                                           \
    "Barley,barley grain,250,bunk,0\n"                                                         \
    "Greenfeed,oat greenfeed,100,bunk,0\n"                                                     \
    "Mineral,mineral 2:1,2000,bunk,0\n"
#define TESTS                                                                                  \
    "stack,sample,basis,dry_matter_pct,nitrate_no3_pct\n"                                      \
    "Hay,1,dry matter,89,0.10\nHay,2,dry matter,89,0.10\n"                                     \
    "Greenfeed,1,dry matter,88,0.80\nGreenfeed,2,dry matter,88,0.70\n"

enum { HAY, STRAW, BARLEY, GREENFEED, MINERAL, FEEDS };

static FileBytes file_of(const char *name, const char *bytes) {
    return (FileBytes){name, bytes, strlen(bytes)};
}

static PlanQuestion question_of(void **state) {
    Arena *arena = *state;
    FarmRequest request = {.units = UNITS_METRIC};
    request.file[FARM_HERD] = file_of("herd.csv", HERD);
    request.file[FARM_STACKS] = file_of(
        "stacks.csv", "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne,groups\n");
    request.file[FARM_FEED_TESTS] = file_of("feed-tests.csv", TESTS);
    request.file[FARM_FOR_SALE] = file_of("for-sale.csv", SALE);
    request.file[FARM_WINTER] =
        file_of("winter.csv", "setting,value\nfirst_day,2026-11-01\nlast_day,2027-05-20\n"
                              "water_nitrate_mg_per_l,100\nwater_sulfate_mg_per_l,750\n");
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, &request, farm))
        fail_msg("%s", unit_faults(&faults, arena));
    return plan_question(arena, farm);
}

static int block_of(const PlanQuestion *question, int group, Day day) {
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group == group &&
            calendar_days_between(question->blocks[b].from, day) >= 0 &&
            calendar_days_between(day, question->blocks[b].to) >= 0)
            return b;
    }
    fail_msg("no period of group %d", group);
    return -1;
}

typedef struct {
    const RationLimit *const *limits;
    int count;
} Limits;

static BlockState state_at(const PlanQuestion *question, const double *eaten) {
    BlockState at = {0};
    double gain_energy = 0.0;
    double energy = 0.0;
    double dry_matter_kg = 0.0;
    for (int f = 0; f < FEEDS; f++) {
        dry_matter_kg += eaten[f];
        energy += eaten[f] * question->feeds[f].eaten[NUTRIENT_NEM];
        gain_energy += eaten[f] * question->feeds[f].eaten[NUTRIENT_NEG];
    }
    at.diet_nem = energy / dry_matter_kg;
    at.gain_per_upkeep = gain_energy / energy;
    return at;
}

static Limits limits_at(void **state, const PlanQuestion *question, int block,
                        const double *eaten) {
    Limits limits;
    limits.limits =
        ration_limits(*state, question, block, state_at(question, eaten), &limits.count);
    return limits;
}

static int place_of(Limits limits, const char *key) {
    for (int i = 0; i < limits.count; i++) {
        if (strcmp(limits.limits[i]->key, key) == 0)
            return i;
    }
    return -1;
}

static bool has(Limits limits, const char *key) { return place_of(limits, key) >= 0; }

static RationLimit find(Limits limits, const char *key) {
    const int place = place_of(limits, key);
    if (place < 0)
        fail_msg("no limit %s", key);
    return *limits.limits[place];
}

static double supplied(const PlanQuestion *question, Limits limits, const char *key,
                       const double *eaten) {
    const RationLimit limit = find(limits, key);
    return ration_supply(&limit, FEEDS, eaten, ration_microbial_kg(question, eaten));
}

static Day autumn(void) { return calendar_day(2026, 11, 20); }
static Day calving(void) { return calendar_day(2027, 4, 20); }

/* ---- protein ---- */

/* 10 kg of hay, 9.2 % protein, 68 % of it degraded, TDN 57.8: energy allows 578 g of microbes,
 * degraded protein 625.6; MP = 0.64 x 578 + 0.80 x 294.4 = 605.4 g. */
static void energy_holds_the_microbes_on_hay(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 10.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(ration_microbial_kg(&question, eaten), 0.578, 1e-9);
    assert_near(supplied(&question, limits, "metabolizable_protein", eaten), 605.4, 0.1);
    assert_near(supplied(&question, limits, "degradable_protein", eaten), 1.0824, 0.0001);
}

/* 10 kg of straw, 4.9 %, 55 % degraded, TDN 44: 269.5 g against 440; MP = 0.64 x 269.5 + 0.80 x
 * 220.5 = 348.9 g, and the rumen is short of protein. */
static void degraded_protein_holds_the_microbes_on_straw(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[STRAW] = 10.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(ration_microbial_kg(&question, eaten), 0.2695, 1e-9);
    assert_near(supplied(&question, limits, "metabolizable_protein", eaten), 348.9, 0.1);
    assert_true(supplied(&question, limits, "degradable_protein", eaten) <
                find(limits, "degradable_protein").least);
    assert_near(find(limits, "protein_floor").least, 7.0, 0.0);
    assert_near(supplied(&question, limits, "protein_floor", eaten), 4.9, 1e-9);
}

/* The same 10 kg of hay: 0.13 x 5,780 = 751.4 g of microbes is more than is degraded, 625.6;
 * 0.087 x 5,780 + 42.73 = 545.6 g is less. */
static void the_other_forms_of_microbial_protein_are_held_to(void **state) {
    PlanQuestion question = question_of(state);
    Farm farm = *question.farm;
    question.farm = &farm;
    const double eaten[FEEDS] = {[HAY] = 10.0};
    const int block = block_of(&question, 0, autumn());
    farm.winter.microbial_form = MICROBIAL_THIRTEEN_PERCENT;
    Limits limits = limits_at(state, &question, block, eaten);
    assert_near(ration_microbial_kg(&question, eaten), 0.6256, 1e-9);
    assert_near(supplied(&question, limits, "degradable_protein", eaten), 625.6 / 751.4, 1e-4);
    farm.winter.microbial_form = MICROBIAL_2016;
    limits = limits_at(state, &question, block, eaten);
    assert_near(ration_microbial_kg(&question, eaten), 0.54559, 1e-9);
    assert_near(supplied(&question, limits, "degradable_protein", eaten), 625.6 / 545.59, 1e-4);
    const RationLimit held = find(limits, "microbial_from_energy");
    assert_near(held.per_kg[HAY] * 10.0 - held.least, 545.59, 1e-9);
}

/* Of a ration other than the one the curved laws are straightened at: 5 kg of the same hay has
 * 312.8 g degraded for 0.087 x 2,890 + 42.73 = 294.16 g. */
static void the_constant_of_microbial_protein_is_whole_whatever_is_eaten(void **state) {
    PlanQuestion question = question_of(state);
    Farm farm = *question.farm;
    question.farm = &farm;
    farm.winter.microbial_form = MICROBIAL_2016;
    const double at[FEEDS] = {[HAY] = 10.0};
    const double eaten[FEEDS] = {[HAY] = 5.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), at);
    assert_near(supplied(&question, limits, "degradable_protein", eaten), 312.8 / 294.16, 1e-5);
    assert_near(ration_microbial_kg(&question, eaten), 0.29416, 1e-9);
}

/* ---- energy of growing cattle ---- */

/* Of the mix around which it is straightened the row asks for as much as the equation does:
 * upkeep and gain come out of M / NEm + RE / NEg kg of it. */
static void the_gain_row_is_exact_for_its_mix(void **state) {
    const PlanQuestion question = question_of(state);
    const int block = block_of(&question, 1, autumn());
    const Requirement *need = &question.blocks[block].need;
    const double mix[FEEDS] = {[HAY] = 4.0, [BARLEY] = 1.8};
    const Limits limits = limits_at(state, &question, block, mix);
    const BlockState at = state_at(&question, mix);
    const double kg = requirement_nem(need).mcal_per_day / at.diet_nem +
                      need->retained.mcal_per_day / (at.diet_nem * at.gain_per_upkeep);
    const double eaten[FEEDS] = {[HAY] = 4.0 * kg / 5.8, [BARLEY] = 1.8 * kg / 5.8};
    assert_near(supplied(&question, limits, "net_energy", eaten),
                find(limits, "net_energy").least, 1e-9);
}

static void intake_at_its_ration_is_the_law(void **state) {
    const PlanQuestion question = question_of(state);
    const int block = block_of(&question, 0, autumn());
    const Requirement *need = &question.blocks[block].need;
    const double eaten[FEEDS] = {[HAY] = 11.0};
    const Limits limits = limits_at(state, &question, block, eaten);
    const EnergyDensity density = {question.feeds[HAY].eaten[NUTRIENT_NEM]};
    assert_near(find(limits, "dry_matter").most,
                intake_at(need->most, need->shrunk, density).kg_per_day, 1e-9);
    assert_near(supplied(&question, limits, "dry_matter", eaten), 11.0, 1e-9);
    assert_near(supplied(&question, limits, "ndf", eaten), 6.82, 1e-9); /* 62 % */
    assert_near(find(limits, "ndf").most, 7.2, 1e-9);                   /* 0.012 x 600 */
}

/* ---- minerals ---- */

/* K 1.6, Ca 0.56, Mg 0.16 %: 409.2 / (279.4 + 131.6) meq. */
static void ratios_are_of_sums(void **state) {
    const PlanQuestion question = question_of(state);
    const double hay[FEEDS] = {[HAY] = 10.0};
    const int block = block_of(&question, 0, calving());
    const Limits limits = limits_at(state, &question, block, hay);
    assert_near(supplied(&question, limits, "tetany_ratio", hay), 0.9954, 0.0001);
    assert_near(supplied(&question, limits, "calcium_phosphorus_least", hay), 4.0, 1e-9);
    /* 5 kg hay and 5 kg barley: (2.8 + 0.25) / (0.7 + 1.85), not the mean of 4 and 0.135 */
    const double both[FEEDS] = {[HAY] = 5.0, [BARLEY] = 5.0};
    assert_near(supplied(&question, limits, "calcium_phosphorus_least", both), 1.196, 0.001);
    assert_near(supplied(&question, limits, "calcium", both), 30.5, 1e-9); /* g */
}

/* Vitamin A of stored feed is not known, so only the mineral counts: 60 g of 515,464 IU/kg. */
static void an_unknown_counts_as_none_toward_a_need(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 9.94, [MINERAL] = 0.06};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(supplied(&question, limits, "vitamin_a", eaten), 3093.0, 1.0);
    assert_near(find(limits, "vitamin_a").least, 2794.0, 1e-9);
}

/* ---- safety ---- */

static void a_pen_in_the_calving_window_keeps_the_limits_of_both(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 10.0};
    const Limits window = limits_at(state, &question, block_of(&question, 0, calving()), eaten);
    assert_near(find(window, "nitrate_total_late").most, 0.40, 1e-12);
    assert_true(has(window, "nitrate_total_nursing"));
    assert_true(has(window, "nitrate_share_late"));
    assert_near(find(window, "straw_share_late").most, 0.20, 1e-12);
    assert_near(find(window, "straw_weight_late").most, 0.0075 * 600.0, 0.1);
    assert_near(find(window, "magnesium_nursing").least, 0.20, 1e-12);
    assert_true(has(window, "tetany_ratio"));
    const Limits early = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_false(has(early, "nitrate_total_late"));
    assert_false(has(early, "tetany_ratio"));
    assert_near(find(early, "straw_weight").most, 0.0125 * 600.0, 0.1);
    assert_near(find(early, "nitrate_total_dry").most, 0.50, 1e-12);
}

/* 100 mg/L in 4 L to the kg: 0.04 % nitrate; 750 mg/L sulfate: 0.1001 % sulfur. */
static void water_counts(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 5.0, [GREENFEED] = 5.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(supplied(&question, limits, "nitrate_total_dry", eaten), 0.49, 1e-9);
    assert_near(supplied(&question, limits, "sulfur_total", eaten), 0.2751, 0.0001);
}

/* 0.80 % is above 0.664: half of the ration is. */
static void shares_count_every_feed_above_the_line(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 5.0, [GREENFEED] = 5.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(supplied(&question, limits, "nitrate_share_dry", eaten), 0.5, 1e-12);
}

static void what_can_poison_never_gives_and_a_floor_may(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 10.0};
    for (int b = 0; b < question.block_count; b++) {
        const Limits limits = limits_at(state, &question, b, eaten);
        for (int i = 0; i < limits.count; i++) {
            const RationLimit *limit = limits.limits[i];
            if (isfinite(limit->least) && !limit->is_inner)
                assert_true(limit->least_gives > 0.0);
            if (strncmp(limit->key, "nitrate", 7) == 0 ||
                strcmp(limit->key, "grain_weight") == 0 ||
                strcmp(limit->key, "urea_share") == 0)
                assert_near(limit->most_gives, 0.0, 0.0);
        }
    }
}

/* What went wrong: a vitamin that no feed brought was mended by feeding half the ration,
 * because a concentration is short by less in a smaller one. All the minerals together weigh
 * less than the stomach. */
static void no_vitamin_is_worth_an_empty_stomach(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 10.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    double minerals = 0.0;
    double fill = 0.0;
    for (int i = 0; i < limits.count; i++) {
        const RationLimit *limit = limits.limits[i];
        Nutrient nutrient;
        if (!limit->safety && limit->base && nutrient_find(limit->key, &nutrient))
            minerals += limit->least_gives;
        if (strncmp(limit->key, "dry_matter", 10) == 0 && isfinite(limit->least))
            fill = limit->least_gives;
    }
    assert_true(minerals > 0.0);
    assert_true(fill > 9.0 * minerals); /* what is wholly short is priced ninefold */
}

static void straw_and_grain_have_their_ceilings(void **state) {
    const PlanQuestion question = question_of(state);
    const double eaten[FEEDS] = {[HAY] = 4.0, [STRAW] = 3.0, [BARLEY] = 2.0};
    const Limits limits = limits_at(state, &question, block_of(&question, 0, autumn()), eaten);
    assert_near(supplied(&question, limits, "straw_weight", eaten), 3.0, 1e-12);
    assert_near(supplied(&question, limits, "grain_weight", eaten), 2.0, 1e-12);
    assert_near(find(limits, "grain_weight").most, 4.8, 0.05); /* 0.008 x 600 */
    assert_near(find(limits, "grain_weight").warn, 3.0, 0.05); /* 0.005 x 600 */
    assert_near(supplied(&question, limits, "forage_weight", eaten), 7.0, 1e-12);
    assert_near(find(limits, "forage_weight").least, 1.5, 0.01); /* 0.0025 x 600 */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(energy_holds_the_microbes_on_hay),
        UNIT_TEST(degraded_protein_holds_the_microbes_on_straw),
        UNIT_TEST(the_other_forms_of_microbial_protein_are_held_to),
        UNIT_TEST(the_constant_of_microbial_protein_is_whole_whatever_is_eaten),
        UNIT_TEST(the_gain_row_is_exact_for_its_mix),
        UNIT_TEST(intake_at_its_ration_is_the_law),
        UNIT_TEST(ratios_are_of_sums),
        UNIT_TEST(an_unknown_counts_as_none_toward_a_need),
        UNIT_TEST(a_pen_in_the_calving_window_keeps_the_limits_of_both),
        UNIT_TEST(water_counts),
        UNIT_TEST(shares_count_every_feed_above_the_line),
        UNIT_TEST(what_can_poison_never_gives_and_a_floor_may),
        UNIT_TEST(no_vitamin_is_worth_an_empty_stomach),
        UNIT_TEST(straw_and_grain_have_their_ceilings),
    };
    return cmocka_run_group_tests_name("ration limit", tests, NULL, NULL);
}

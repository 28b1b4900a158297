/* The straight lines that stand in a program for the laws of gain and of intake: for any animal
 * no line cuts off a ration that keeps its law, and a ration that keeps to the lines that stay
 * misses the law by little. */
#include "entry/farm_reading.h"
#include "feedstuff/feed_energy.h"
#include "planner/plan_outcome.h"
#include "support/animal_maker.h"
#include "support/hand_question.h"
#include "support/unit.h"

#define CASES 1000
#define ROUNDING 1e-9

/* A mix of a rich and a poor feed, and one of another density at which the lines are drawn. */
typedef struct {
    HandQuestion *hand;
    const Requirement *need;
    double mix[2]; /* shares of the dry matter */
    BlockState of_mix, drawn_at;
} Fed;

static BlockState state_of(const Fed *fed, double rich) {
    const double *a = fed->hand->feeds[0].eaten;
    const double *b = fed->hand->feeds[1].eaten;
    const double nem = rich * a[NUTRIENT_NEM] + (1.0 - rich) * b[NUTRIENT_NEM];
    const double neg = rich * a[NUTRIENT_NEG] + (1.0 - rich) * b[NUTRIENT_NEG];
    return (BlockState){nem, neg / nem};
}

static void add_feed(Fed *fed, double tdn) {
    PlanFeed *feed = hand_offer(fed->hand, "Feed", 0.1);
    feed->eaten[NUTRIENT_NEM] = nem_from_tdn(tdn).mcal_per_kg;
    feed->eaten[NUTRIENT_NEG] = neg_from_tdn(tdn).mcal_per_kg;
}

static Fed fed_by(Arena *arena, int seed) {
    static const MineralNeeds NO_MINERALS;
    Animal animal = animal_made(seed);
    Draws *draws = &animal.draws;
    Fed fed = {.hand = hand_question(arena, 30)};
    add_feed(&fed, draw_between(draws, 65, 88, 1));
    add_feed(&fed, draw_between(draws, 44, 60, 1));
    fed.mix[0] = draw_between(draws, 0.0, 1.0, 3);
    fed.mix[1] = 1.0 - fed.mix[0];
    fed.of_mix = state_of(&fed, fed.mix[0]);
    fed.drawn_at = state_of(&fed, draw_between(draws, 0.0, 1.0, 3));
    PlanBlock *block = hand_group(fed.hand, "Cattle", 10, 0.0, 1);
    block->need = requirement_of(&animal.group, &animal.weather, &NO_MINERALS, animal.from,
                                 animal.from, animal.from);
    fed.need = &block->need;
    return fed;
}

/* kg of the mix that just keep the law. */
static double kg_of_gain(const Fed *fed) {
    const BlockState *of = &fed->of_mix;
    return requirement_nem(fed->need).mcal_per_day / of->diet_nem +
           fed->need->retained.mcal_per_day / (of->diet_nem * of->gain_per_upkeep);
}

static double kg_of_fill(const Fed *fed) {
    return intake_at(fed->need->least, fed->need->shrunk, (EnergyDensity){fed->of_mix.diet_nem})
        .kg_per_day;
}

/* kg of the mix that a line asks for. */
static double kg_of_line(const Fed *fed, const RationLimit *line) {
    return line->least / (fed->mix[0] * line->per_kg[0] + fed->mix[1] * line->per_kg[1]);
}

static bool is_line(const RationLimit *limit, RationLaw law) { return limit->line_of == law; }

static void no_line_of_gain_cuts_off_a_ration_that_keeps_the_law(void **state) {
    int lines = 0;
    for (int seed = 1; seed <= CASES; seed++) {
        const Fed fed = fed_by(*state, seed);
        if (fed.need->retained.mcal_per_day <= 0.0)
            continue;
        int count;
        const RationLimit *const *limits =
            ration_limits(*state, &fed.hand->question, 0, fed.drawn_at, &count);
        for (int i = 0; i < count; i++) {
            if (limits[i]->law != LAW_GAIN && !is_line(limits[i], LAW_GAIN))
                continue;
            lines++;
            if (kg_of_line(&fed, limits[i]) > kg_of_gain(&fed) * (1.0 + ROUNDING))
                fail_msg("seed %d: a line asks for %.9g kg where %.9g gain enough", seed,
                         kg_of_line(&fed, limits[i]), kg_of_gain(&fed));
        }
    }
    assert_true(lines > CASES);
}

/* Mixes above the kink of the law, up to grain alone; of the moving line, where it is one of
 * those forms, up to where they bend. */
static void no_line_of_fill_cuts_off_a_ration_that_keeps_the_law(void **state) {
    int lines = 0;
    for (int seed = 1; seed <= CASES; seed++) {
        const Fed fed = fed_by(*state, seed);
        if (fmin(fed.of_mix.diet_nem, fed.drawn_at.diet_nem) < 0.95 ||
            fed.drawn_at.diet_nem > 1.45)
            continue;
        int count;
        bool bends = false;
        const RationLimit *const *limits =
            ration_limits(*state, &fed.hand->question, 0, fed.drawn_at, &count);
        for (int i = 0; i < count; i++)
            bends = bends || is_line(limits[i], LAW_INTAKE_LEAST);
        for (int i = 0; bends && i < count; i++) {
            const bool moves =
                limits[i]->law == LAW_INTAKE_LEAST && fed.of_mix.diet_nem <= 1.45;
            if (!moves && !is_line(limits[i], LAW_INTAKE_LEAST))
                continue;
            lines++;
            if (kg_of_line(&fed, limits[i]) > kg_of_fill(&fed) * (1.0 + 1e-6))
                fail_msg("seed %d: a line asks for %.9g kg where %.9g fill", seed,
                         kg_of_line(&fed, limits[i]), kg_of_fill(&fed));
        }
    }
    assert_true(lines > CASES / 4);
}

/* Half way between two lines of gain, 0.53 and 0.6 of upkeep's energy, a mix of 0.565 that
 * keeps to both falls short of the law by some 0.2 % of its kilograms; from 0.4 to 0.7 by no
 * more than 1 %. Of fill, from 0.95 to 1.45, by no more than 0.4 % (at 1.45, beyond the last
 * line). */
static void what_keeps_to_the_lines_that_stay_misses_a_law_by_little(void **state) {
    int of_gain = 0, of_fill = 0;
    for (int seed = 1; seed <= CASES; seed++) {
        const Fed fed = fed_by(*state, seed);
        int count;
        const RationLimit *const *limits =
            ration_limits(*state, &fed.hand->question, 0, fed.drawn_at, &count);
        double gain_kg = 0.0, fill_kg = 0.0;
        for (int i = 0; i < count; i++) {
            if (is_line(limits[i], LAW_GAIN))
                gain_kg = fmax(gain_kg, kg_of_line(&fed, limits[i]));
            if (is_line(limits[i], LAW_INTAKE_LEAST))
                fill_kg = fmax(fill_kg, kg_of_line(&fed, limits[i]));
        }
        const BlockState *of = &fed.of_mix;
        const bool has_gain_line =
            gain_kg > 0.0 && of->gain_per_upkeep > 0.4 && of->gain_per_upkeep < 0.7;
        const bool has_fill_line = fill_kg > 0.0 && of->diet_nem >= 0.95 && of->diet_nem < 1.45;
        of_gain += has_gain_line;
        of_fill += has_fill_line;
        if (has_gain_line && gain_kg < 0.99 * kg_of_gain(&fed))
            fail_msg("seed %d: %.6g kg by the lines, %.6g by the law of gain", seed, gain_kg,
                     kg_of_gain(&fed));
        if (has_fill_line && fill_kg < 0.996 * kg_of_fill(&fed))
            fail_msg("seed %d: %.6g kg by the lines, %.6g by the law of intake", seed, fill_kg,
                     kg_of_fill(&fed));
    }
    assert_true(of_gain > CASES / 10 && of_fill > CASES / 10);
}

/* Cows with straw beside grain stood with one line alone at either end of it in turn, of the
 * law of what fills: twelve rounds did not end it, a ration missed the law by 1.9 %, and the
 * farm was said to cost 0.1 % less than it does. What is left of it is a choice among equals,
 * rounds whose costs differ by a part in 25,000 and that miss no law by more than 0.2 %. */
static void a_mix_of_poor_and_rich_feed_does_not_flip_from_round_to_round(void **state) {
    Faults faults = faults_new(*state);
    FarmRequest request;
    Farm farm;
    farm_made_of_size(*state, 5, FARM_M, &request);
    assert_true(farm_read(*state, &faults, &request, &farm));
    const PlanQuestion question = plan_question(*state, &farm);
    const WinterPlan plan = plan_least_cost(*state, &question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_in_range(plan.rounds, 2, 11);
    assert_true(plan.residual < 0.002);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(no_line_of_gain_cuts_off_a_ration_that_keeps_the_law),
        UNIT_TEST(no_line_of_fill_cuts_off_a_ration_that_keeps_the_law),
        UNIT_TEST(what_keeps_to_the_lines_that_stay_misses_a_law_by_little),
        UNIT_TEST(a_mix_of_poor_and_rich_feed_does_not_flip_from_round_to_round),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

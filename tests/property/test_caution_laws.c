/* Laws of caution lines: they weigh in the choice of rations, and neither move a hard limit nor
 * enter a cost that is told.
 */
#include "planner/caution_cost.h"
#include "planner/ration_caution.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#define FARMS 96
#define CLOSE 1e-6 /* of the cost */

enum { WEIGHED, BY_HAND, BEHIND, LINES, LAW_COUNT };

typedef struct {
    double money, passed; /* dollars; what the lines passed weigh, by the weight */
    bool is_found;
} Weighed;

static PlanQuestion question_with(Arena *arena, const PlannedFarm *farm, double weight) {
    Farm *other = ARENA_NEW(arena, Farm);
    *other = farm->farm;
    other->winter.caution_weight = weight;
    PlanQuestion question = farm->question;
    question.farm = other;
    return question;
}

/* With the laws held as the plan left them, by the simplex alone. */
static Weighed at_weight(Arena *arena, const PlannedFarm *farm, double weight) {
    const PlanQuestion question = question_with(arena, farm, weight);
    const RationProgram program =
        ration_program(arena, &question, states_of(arena, &farm->plan), AIM_LEAST_COST);
    const LpSolution solution = lp_solve(program.lp, arena, START_COLD, NULL, 0);
    if (solution.status != LP_OPTIMAL)
        return (Weighed){.is_found = false};
    const double cautions = ration_program_caution(&program, solution.value);
    return (Weighed){solution.cost - cautions, cautions / weight, true};
}

/* The heavier cautions weigh, the less of them is passed and the more is paid for it. */
static const char *more_weight_less_passed(Arena *arena, const PlannedFarm *farm) {
    static const double WEIGHTS[] = {0.05, 0.5, 1.0, 4.0, 20.0};
    if (farm->plan.verdict != PLAN_BALANCED)
        return NULL;
    Weighed last = {.is_found = false};
    for (size_t i = 0; i < sizeof WEIGHTS / sizeof WEIGHTS[0]; i++) {
        const Weighed now = at_weight(arena, farm, WEIGHTS[i]);
        if (!now.is_found)
            return arena_print(arena, "no answer at weight %g", WEIGHTS[i]);
        const double close = CLOSE * (1.0 + fabs(now.money));
        if (last.is_found && (now.money < last.money - close ||
                              now.passed > last.passed + close / WEIGHTS[i - 1]))
            return arena_print(arena,
                               "weight %g: money %.9g after %.9g, passed %.9g after %.9g",
                               WEIGHTS[i], now.money, last.money, now.passed, last.passed);
        last = now;
    }
    return NULL;
}

/* A limit's caution line as the table has it, and what the printed ration is beyond it. */
static double way_gone(const PlannedFarm *farm, int block, const LimitOutcome *of) {
    const SafetyLimit *safety = of->limit->safety;
    const double way = fabs(safety->hard - safety->warn);
    const double scale = safety->kind == LIMIT_WEIGHT_SHARE
                             ? farm->question.blocks[block].need.live_weight.kg
                             : 1.0;
    const double beyond = safety->side == SIDE_MOST ? of->supplied - safety->warn * scale
                                                    : safety->warn * scale - of->supplied;
    return way > 0.0 && beyond > 0.0 ? beyond / (way * scale) : 0.0;
}

/* Minerals do not thin these. */
static bool is_of_what_fills(const SafetyLimit *limit) {
    return limit->subject == SUBJECT_SALT || limit->nutrient == NUTRIENT_SULFUR;
}

/* Of the kinds whose base is the dry matter itself, by the definition: the way gone, times what
 * is eaten over 2 % of live weight. */
static const char *weighs_as_defined(Arena *arena, const PlannedFarm *farm) {
    for (int b = 0; b < farm->question.block_count; b++) {
        const BlockOutcome *block = &farm->plan.blocks[b];
        const Requirement *need = &farm->question.blocks[b].need;
        for (int i = 0; i < block->limit_count; i++) {
            const LimitOutcome *of = &block->limits[i];
            if (!of->limit->safety || of->limit->caution_price <= 0.0 || isnan(of->supplied))
                continue;
            const LimitKind kind = of->limit->safety->kind;
            const bool is_of_all =
                kind == LIMIT_CONCENTRATION && !is_of_what_fills(of->limit->safety);
            const double eaten = is_of_all                    ? block->dry_matter_kg
                                 : kind == LIMIT_WEIGHT_SHARE ? 0.02 * need->live_weight.kg
                                                              : block->filling_kg;
            const double by_hand =
                way_gone(farm, b, of) * eaten / (0.02 * need->live_weight.kg);
            const double said =
                caution_share(of->limit, need, farm->question.feed_count, block->eaten);
            if (kind != LIMIT_RATIO && fabs(by_hand - said) > 1e-9 * (1.0 + said))
                return arena_print(arena, "%s weighs %.9g, by hand %.9g", of->limit->key, said,
                                   by_hand);
        }
    }
    return NULL;
}

static const char *behind_costs_the_difference(Arena *arena, const PlannedFarm *farm) {
    if (farm->plan.verdict != PLAN_BALANCED)
        return NULL;
    const PlanQuestion free = question_with(arena, farm, 0.0);
    const double least = least_cost_with(arena, &free, states_of(arena, &farm->plan));
    const double told = caution_cost(&farm->plan);
    if (fabs(farm->plan.least_cost - told - least) > CLOSE * (1.0 + fabs(least)))
        return arena_print(arena, "%.9g less %.9g is not %.9g", farm->plan.least_cost, told,
                           least);
    return told >= 0.0 ? NULL : "keeping behind the lines earns money";
}

/* A line that is kept to the brim and has a price is not passed, and one passed has none. */
static const char *prices_are_of_lines_kept(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    if (plan->verdict != PLAN_BALANCED)
        return NULL;
    for (int b = 0; b < farm->question.block_count; b++) {
        const BlockLimits *of = &plan->program->blocks[b];
        for (int i = 0; i < of->count; i++) {
            const double price = plan->blocks[b].limits[i].caution_price;
            const bool is_most =
                of->limits[i]->safety && of->limits[i]->safety->side == SIDE_MOST;
            if (of->beyond[i] < 0
                    ? price != 0.0
                    : (is_most ? price > 1e-7 : price < -1e-7) ||
                          (plan->solution.value[of->beyond[i]] > 1e-3 && price != 0.0))
                return arena_print(arena, "%s: price %g", of->limits[i]->key, price);
        }
    }
    return NULL;
}

static void the_heavier_cautions_weigh_the_less_is_passed(void **state) {
    assert_law_held(*state, WEIGHED);
}
static void a_caution_weighs_what_its_definition_says(void **state) {
    assert_law_held(*state, BY_HAND);
}
static void keeping_behind_the_lines_costs_the_difference(void **state) {
    assert_law_held(*state, BEHIND);
}
static void only_a_line_that_is_kept_has_a_price(void **state) {
    assert_law_held(*state, LINES);
}

static void cautions_never_make_a_winter_short(void **state) {
    (void)state;
    int balanced = 0;
    for (int seed = 1; seed <= FARMS / 4; seed++) {
        Arena *arena = arena_open();
        const FarmDraft *draft = farm_drafted(
            arena, (unsigned long long)seed, (FarmSize){2, 3 + seed % 3, 5, 80, seed % 2 == 0});
        const PlannedFarm *farm = asked_farm(arena, draft);
        const PlanQuestion free = question_with(arena, farm, 0.0);
        const PlanQuestion heavy = question_with(arena, farm, 20.0);
        const PlanVerdict verdict = plan_verdict(&free);
        balanced += verdict == PLAN_BALANCED;
        assert_int_equal(plan_verdict(&heavy), verdict);
        arena_close(arena);
    }
    assert_true(balanced >= FARMS / 16);
}

static const Law LAWS[LAW_COUNT] = {
    [WEIGHED] = more_weight_less_passed,
    [BY_HAND] = weighs_as_defined,
    [BEHIND] = behind_costs_the_difference,
    [LINES] = prices_are_of_lines_kept,
};

LAW_BOOK(laws_tried, LAWS, LAW_COUNT, FARMS)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_heavier_cautions_weigh_the_less_is_passed),
        cmocka_unit_test(a_caution_weighs_what_its_definition_says),
        cmocka_unit_test(keeping_behind_the_lines_costs_the_difference),
        cmocka_unit_test(only_a_line_that_is_kept_has_a_price),
        cmocka_unit_test(cautions_never_make_a_winter_short),
    };
    return cmocka_run_group_tests(tests, try_laws, close_book);
}

/* What more or less of anything may do to the cost of a winter. With the states of the plan
 * held the program is linear and the laws are exact, but for the solver's tolerance; planned
 * anew, the intake limits move with the ration and settle within a band, so the cost may too.
 */
#include "planner/price_range.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#define FARMS 200
#define EXACT 1e-7 /* of the cost: the solver's tolerance */
#define HAIR 1e-9  /* the last digits of a sum: an own figure is the same in any cold */
/* Of the cost, planned anew. The least that cattle must be given rises with the energy of what
 * they are given, so a richer and larger ration may settle where a poorer one would too: the
 * rounds end at one of them. Over these farms 0.2 % is the most by which a worse question found
 * a better end. */
#define SETTLING 5e-3

enum { DEARER, MORE_STOCK, RELAXED, COLDER, WORTH, LAW_COUNT };

/* Planning anew takes the most time: each farm does it for one law of four in turn. */
static bool is_turn(unsigned long long seed, int law) { return (int)(seed / 2 % 4) == law; }

static bool is_below(double cost, double than, double tolerance) {
    return cost < than - tolerance * (1.0 + fabs(than));
}

/* Both costs of a change that can only make a winter dearer: NULL when neither is lower;
 * planned only when `anew`. An answer that can no longer be balanced is dearer than any. */
static const char *not_cheaper(Arena *arena, const PlannedFarm *before, PlannedFarm *after,
                               const char *what, bool anew) {
    const BlockState *states = states_of(arena, &before->plan);
    const double cost = plan_least(&before->plan);
    const double changed = least_cost_with(arena, &after->question, states);
    if (is_below(changed, cost, EXACT))
        return arena_print(arena, "%s: states held, %.9g became %.9g", what, cost, changed);
    if (!anew)
        return NULL;
    after->plan = plan_winter(arena, &after->question);
    if (after->plan.verdict == PLAN_BALANCED &&
        is_below(plan_least(&after->plan), plan_least(&before->plan), SETTLING))
        return arena_print(arena, "%s: planned anew, %.9g became %.9g", what,
                           plan_least(&before->plan), plan_least(&after->plan));
    return NULL;
}

/* And of one that can only make it cheaper, or leave it. */
static const char *not_dearer(Arena *arena, const PlannedFarm *before, PlannedFarm *after,
                              const char *what, bool anew) {
    const BlockState *states = states_of(arena, &before->plan);
    const double cost = plan_least(&before->plan);
    const double changed = least_cost_with(arena, &after->question, states);
    if (isnan(changed) || is_below(cost, changed, EXACT))
        return arena_print(arena, "%s: states held, %.9g became %.9g", what, cost, changed);
    if (!anew)
        return NULL;
    after->plan = plan_winter(arena, &after->question);
    if (after->plan.verdict != PLAN_BALANCED)
        return arena_print(arena, "%s: planned anew, it can no longer be balanced", what);
    if (is_below(plan_least(&before->plan), plan_least(&after->plan), SETTLING))
        return arena_print(arena, "%s: planned anew, %.9g became %.9g", what,
                           plan_least(&before->plan), plan_least(&after->plan));
    return NULL;
}

static const char *one_feed_dearer(Arena *arena, const PlannedFarm *before) {
    if (before->plan.verdict != PLAN_BALANCED)
        return NULL;
    Draws draws = draws_new(before->seed);
    const FarmDraft *draft = before->draft;
    FarmDraft dearer = *draft;
    if (draw_chance(&draws, 0.5)) {
        dearer.offers = ARENA_ARRAY(arena, DraftOffer, draft->offer_count);
        memcpy(dearer.offers, draft->offers, sizeof(DraftOffer) * (size_t)draft->offer_count);
        dearer.offers[draw_whole(&draws, 0, draft->offer_count - 1)].price *= 1.4;
    } else {
        dearer.stacks = ARENA_ARRAY(arena, DraftStack, draft->stack_count);
        memcpy(dearer.stacks, draft->stacks, sizeof(DraftStack) * (size_t)draft->stack_count);
        dearer.stacks[draw_whole(&draws, 0, draft->stack_count - 1)].value *= 1.4;
    }
    return not_cheaper(arena, before, asked_farm(arena, &dearer), "a feed 1.4 times as dear",
                       is_turn(before->seed, DEARER));
}

static void a_dearer_feed_never_lowers_the_least_cost(void **state) {
    assert_law_held(*state, DEARER);
}

/* The farm is held against itself without its last stack and the tests of it. A stack with
 * dates is passed over: they cut the periods, and with them what the rations may be. */
static const char *one_stack_more(Arena *arena, const PlannedFarm *with) {
    const FarmDraft *draft = with->draft;
    const DraftStack *last = &draft->stacks[draft->stack_count - 1];
    if (with->plan.verdict != PLAN_BALANCED || last->from.is_set || last->until.is_set)
        return NULL;
    FarmDraft fewer = *draft;
    fewer.stack_count--;
    fewer.test_count = 0;
    fewer.tests = ARENA_ARRAY(arena, DraftTest, draft->test_count);
    for (int t = 0; t < draft->test_count; t++) {
        if (strcmp(draft->tests[t].stack, last->name) != 0)
            fewer.tests[fewer.test_count++] = draft->tests[t];
    }
    return not_cheaper(arena, with, asked_farm(arena, &fewer), "without the last stack",
                       is_turn(with->seed, MORE_STOCK));
}

static void one_more_stack_never_raises_the_cost(void **state) {
    assert_law_held(*state, MORE_STOCK);
}

/* Every line of the safety table a tenth wider. */
static const char *limits_relaxed(Arena *arena, const PlannedFarm *before) {
    if (before->plan.verdict != PLAN_BALANCED)
        return NULL;
    PlannedFarm *after = ARENA_NEW(arena, PlannedFarm);
    after->farm = before->farm;
    const int count = before->farm.limits.count;
    SafetyLimit *limits = ARENA_ARRAY(arena, SafetyLimit, count);
    for (int i = 0; i < count; i++) {
        limits[i] = before->farm.limits.limits[i];
        limits[i].hard *= limits[i].side == SIDE_MOST ? 1.1 : 0.9;
    }
    after->farm.limits.limits = limits;
    after->question = plan_question(arena, &after->farm);
    return not_dearer(arena, before, after, "safety limits a tenth wider",
                      is_turn(before->seed, RELAXED));
}

static void a_limit_relaxed_never_costs_more(void **state) { assert_law_held(*state, RELAXED); }

/* Ten degrees, in the means and in the cold spells. */
static const char *ten_degrees_colder(Arena *arena, const PlannedFarm *before) {
    PlannedFarm *after = ARENA_NEW(arena, PlannedFarm);
    after->farm = before->farm;
    for (int m = 1; m <= 12; m++) {
        after->farm.weather.month[m].mean.celsius -= 10.0;
        after->farm.weather.month[m].cold_spell.celsius -= 10.0;
    }
    after->question = plan_question(arena, &after->farm);
    for (int b = 0; b < before->question.block_count; b++) {
        const Requirement *mild = &before->question.blocks[b].need;
        const Requirement *cold = &after->question.blocks[b].need;
        if (requirement_nem(cold).mcal_per_day < requirement_nem(mild).mcal_per_day - HAIR ||
            requirement_protein(cold).g_per_day < requirement_protein(mild).g_per_day - HAIR ||
            cold->energy.cold < mild->energy.cold)
            return arena_print(arena, "block %d needs less in the cold", b);
    }
    if (before->plan.verdict != PLAN_BALANCED)
        return NULL;
    return not_cheaper(arena, before, after, "ten degrees colder",
                       is_turn(before->seed, COLDER));
}

static void colder_weather_lowers_neither_a_need_nor_the_cost(void **state) {
    assert_law_held(*state, COLDER);
}

/* Of a tonne as fed; of a forage it is also more that may be left at the end. */
static double dual_of_stack(const PlannedFarm *farm, int f) {
    const RationProgram *program = farm->plan.program;
    const double *price = farm->plan.solution.shadow_price;
    const bool is_left =
        program->carry_over_row >= 0 && ration_program_carries_over(&farm->question, f);
    return price[program->stock[f]] +
           (is_left ? price[program->carry_over_row] * farm->question.feeds[f].dry_share : 0.0);
}

/* Every other stack. C is convex in what a stack holds, so its slope lies between what a tonne
 * less and a tonne more would change: (C(b) - C(b - d)) / d <= dual <= (C(b + d) - C(b)) / d.
 */
static const char *worth_brackets(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    if (plan->verdict != PLAN_BALANCED)
        return NULL;
    for (int f = (int)(farm->seed % 2); f < farm->question.own_count; f += 2) {
        const double tonnes =
            fmin(1.0, 0.5 * farm->question.feeds[f].available_kg / KG_PER_TONNE);
        const double dual = dual_of_stack(farm, f);
        const double more = plan_cost_change(arena, plan, f, tonnes * KG_PER_TONNE) / tonnes;
        const double less = -plan_cost_change(arena, plan, f, -tonnes * KG_PER_TONNE) / tonnes;
        const double tolerance = 1e-7 * fabs(plan->solution.cost) / tonnes + 1e-6;
        if (isnan(more))
            return arena_print(arena, "%s: a tonne more cannot be solved",
                               farm->question.feeds[f].name);
        if (more > tolerance || dual > more + tolerance)
            return arena_print(arena, "%s: dual %.9g is above what more changes, %.9g",
                               farm->question.feeds[f].name, dual, more);
        if (!isnan(less) && less > dual + tolerance)
            return arena_print(arena, "%s: dual %.9g is below what less changes, %.9g",
                               farm->question.feeds[f].name, dual, less);
    }
    return NULL;
}

static void the_worth_of_a_stack_from_both_sides_brackets_its_dual_value(void **state) {
    assert_law_held(*state, WORTH);
}

static const Law LAWS[] = {
    [DEARER] = one_feed_dearer,    [MORE_STOCK] = one_stack_more, [RELAXED] = limits_relaxed,
    [COLDER] = ten_degrees_colder, [WORTH] = worth_brackets,
};

LAW_BOOK(laws_tried, LAWS, LAW_COUNT, FARMS)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dearer_feed_never_lowers_the_least_cost),
        cmocka_unit_test(one_more_stack_never_raises_the_cost),
        cmocka_unit_test(a_limit_relaxed_never_costs_more),
        cmocka_unit_test(colder_weather_lowers_neither_a_need_nor_the_cost),
        cmocka_unit_test(the_worth_of_a_stack_from_both_sides_brackets_its_dual_value),
    };
    return cmocka_run_group_tests(tests, try_laws, close_book);
}

/* Laws of the choice of acres on invented farms with invented fields. With the states of a plan
 * held the program is linear and they are exact but for the solver's tolerance; planned anew,
 * the intake limits settle within a band, as in test_money_laws.c. */
#include "entry/farm_reading.h"
#include "planner/cut_plan.h"
#include "support/field_maker.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#define FARMS 40
#define EXACT 1e-6
#define SETTLING 5e-3

typedef struct {
    Farm farm;
    CutQuestion question;
    CutPlan plans[3]; /* mixed, early, late */
} CutFarm;

static const CutFuture FUTURES[3] = {{.days = CUT_AS_PLANNED, .barred_offer = -1},
                                     {.days = CUT_EARLIEST, .barred_offer = -1},
                                     {.days = CUT_LATEST, .barred_offer = -1}};

static CutFarm *cut_farm(Arena *arena, unsigned long long seed) {
    const FarmSize size = {
        .groups = 2, .stacks = 1, .offers = 6, .days = 100, .is_generous = true};
    const FarmDraft *draft = farm_drafted(arena, seed, size);
    CutFarm *made = ARENA_NEW(arena, CutFarm);
    FarmRequest request;
    Faults faults = faults_new(arena);
    farm_written(arena, draft, &request);
    fields_made(arena, seed, draft, &request);
    if (!farm_read(arena, &faults, &request, &made->farm)) {
        print_error("%s", unit_faults(&faults, arena));
        fail_msg("%s", "the farm has faults");
    }
    made->question = cut_question(arena, &made->farm, growing_year_expected());
    for (int i = 0; i < 3; i++)
        made->plans[i] = cut_plan(arena, &made->question, FUTURES[i], NULL);
    return made;
}

typedef const char *CutLaw(Arena *arena, const CutFarm *made);

static void assert_law(CutLaw *law, int least_balanced) {
    int balanced = 0;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const CutFarm *made = cut_farm(arena, seed);
        balanced += made->plans[0].verdict == PLAN_BALANCED;
        const char *broken = law(arena, made);
        if (broken) {
            print_error("farm %llu: %s\n", seed, broken);
            fail_msg("%s", "the law does not hold");
        }
        arena_close(arena);
    }
    assert_true(balanced >= least_balanced);
}

static const char *within_fields(Arena *arena, const CutFarm *made) {
    const Fields *fields = &made->farm.fields;
    for (int i = 0; i < 3; i++) {
        const CutPlan *plan = &made->plans[i];
        if (plan->verdict == PLAN_FAILED)
            return arena_print(arena, "future %d failed: %s", i, plan->plan.remark);
        double *of_field = ARENA_ARRAY(arena, double, fields->field_count);
        for (int c = 0; c < fields->cut_count; c++) {
            of_field[fields->cuts[c].field] += plan->hectares[c];
            if (plan->hectares[c] < 0.0)
                return "hectares below none";
            if (plan->hectares[c] > 0.0 && !cut_future_allows(fields, FUTURES[i], c))
                return "a cut on a day that was not allowed";
            if (plan->plan.taken_kg[c] > plan->made_kg[c] * (1.0 + EXACT) + 0.1)
                return arena_print(arena, "cut %d: %g kg fed of %g made", c,
                                   plan->plan.taken_kg[c], plan->made_kg[c]);
        }
        for (int f = 0; f < fields->field_count; f++) {
            if (of_field[f] > fields->fields[f].hectares * (1.0 + EXACT))
                return arena_print(arena, "field %d: %g ha of %g", f, of_field[f],
                                   fields->fields[f].hectares);
        }
    }
    return NULL;
}

static void no_field_is_cut_beyond_its_area_and_no_feed_fed_beyond_what_it_makes(void **state) {
    (void)state;
    assert_law(within_fields, FARMS * 3 / 4);
}

static const char *total_is_the_programs(Arena *arena, const CutFarm *made) {
    for (int i = 0; i < 3; i++) {
        const CutPlan *plan = &made->plans[i];
        const double of_program = plan_least(&plan->plan) + plan->cost.yardage;
        if (plan->verdict == PLAN_BALANCED &&
            fabs(plan->cost.total - of_program) > EXACT * (1.0 + fabs(of_program)))
            return arena_print(arena, "parts add up to %.9g, the program says %.9g",
                               plan->cost.total, of_program);
    }
    return NULL;
}

static void the_parts_of_the_cost_add_up_to_what_the_program_minimised(void **state) {
    (void)state;
    assert_law(total_is_the_programs, FARMS * 3 / 4);
}

/* Mixed may do what early and late may, and more. */
static const char *more_dates_not_dearer(Arena *arena, const CutFarm *made) {
    for (int i = 1; i < 3; i++) {
        const CutPlan *fewer = &made->plans[i];
        if (fewer->verdict != PLAN_BALANCED)
            continue;
        const double cost = plan_least(&fewer->plan);
        const double with =
            least_cost_with(arena, made->plans[0].question, states_of(arena, &fewer->plan));
        if (isnan(with) || with > cost + EXACT * (1.0 + fabs(cost)))
            return arena_print(arena, "states held, %.9g became %.9g", cost, with);
        if (made->plans[0].verdict != PLAN_BALANCED)
            return "mixed falls short where fewer dates do not";
        if (made->plans[0].cost.total >
            fewer->cost.total + SETTLING * (1.0 + fabs(fewer->cost.total)))
            return arena_print(arena, "planned anew, %.9g became %.9g", fewer->cost.total,
                               made->plans[0].cost.total);
    }
    return NULL;
}

static void another_date_never_costs_more(void **state) {
    (void)state;
    assert_law(more_dates_not_dearer, FARMS * 3 / 4);
}

/* Hectares as planned are one of the choices, and the least-cost one is no worse: the same
 * hectares given back cost the same. */
static const char *same_hectares_same_cost(Arena *arena, const CutFarm *made) {
    const CutPlan *plan = &made->plans[0];
    if (plan->verdict != PLAN_BALANCED)
        return NULL;
    const CutTerms terms = {.hectares = plan->hectares, .price_of = -1};
    const CutPlan held = cut_plan(arena, &made->question, plan->future, &terms);
    const double with = least_cost_with(arena, held.question, states_of(arena, &plan->plan));
    if (isnan(with) ||
        fabs(with - plan_least(&plan->plan)) > EXACT * (1.0 + fabs(plan_least(&plan->plan))))
        return arena_print(arena, "%.9g became %.9g", plan_least(&plan->plan), with);
    return NULL;
}

static void hectares_held_as_planned_cost_what_the_plan_does(void **state) {
    (void)state;
    assert_law(same_hectares_same_cost, FARMS * 3 / 4);
}

/* The first cut, all of its field, against the stack it would make and no field at all: the one
 * costs more by what the whole field costs, less what all of it would fetch. */
static const char *field_is_its_stack(Arena *arena, const CutFarm *made) {
    const PlanQuestion *all = &made->question.question;
    double *hectares = ARENA_ARRAY(arena, double, all->own_count);
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, all->feed_count);
    for (int f = 0; f < all->feed_count; f++) {
        feeds[f] = all->feeds[f];
        if (feeds[f].is_own && f > 0)
            feeds[f].available_kg = 0.0;
    }
    hectares[0] = made->farm.fields.fields[made->farm.fields.cuts[0].field].hectares;
    const CutTerms terms = {.hectares = hectares, .price_of = -1};
    const CutPlan field = cut_plan(arena, &made->question, FUTURES[0], &terms);
    if (field.verdict != PLAN_BALANCED)
        return NULL;
    PlanQuestion stack = *all;
    stack.choices = NULL;
    stack.feeds = feeds;
    const double fixed = hectares[0] * all->choices->cost_per_hectare[0];
    const double cost = plan_least(&field.plan) - fixed;
    const double of_stack = least_cost_with(arena, &stack, states_of(arena, &field.plan));
    if (isnan(of_stack) || fabs(of_stack - cost) > EXACT * (1.0 + fabs(cost) + fabs(fixed)))
        return arena_print(arena, "the field %.9g, its stack %.9g", cost, of_stack);
    return NULL;
}

static void a_field_cut_whole_costs_what_its_stack_does(void **state) {
    (void)state;
    assert_law(field_is_its_stack, FARMS * 3 / 4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_field_is_cut_beyond_its_area_and_no_feed_fed_beyond_what_it_makes),
        cmocka_unit_test(the_parts_of_the_cost_add_up_to_what_the_program_minimised),
        cmocka_unit_test(another_date_never_costs_more),
        cmocka_unit_test(a_field_cut_whole_costs_what_its_stack_does),
        cmocka_unit_test(hectares_held_as_planned_cost_what_the_plan_does),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

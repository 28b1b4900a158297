/* The least cost C is convex in how much of a feed may be had, so what its first kilograms save
 * is the price at which it comes in or leaves, and what its last ones save the price above
 * which there is less of it: differences of C, each one solve from the last prices. A reduced
 * cost would say the same but where the program's corner is degenerate, and there it says too
 * much.
 */
#include "planner/price_range.h"
#include "planner/yard_plan.h"
#include <math.h>

/* By the prices that the plan was found by, or that the last question ended with; where it was
 * solved whole, from its basis, and from nothing where the simplex turns in a circle. */
#define MOST_ITERATIONS 1000

static LpSolution solved_again(Arena *arena, const WinterPlan *plan) {
    if (plan->by_price) {
        const LpSolution by_price = block_program_solve(plan->by_price, arena);
        if (by_price.status != LP_FAILED)
            return by_price;
    }
    const LinearProgram *lp = plan->program->lp;
    const LpSolution solution =
        lp_solve(lp, arena, START_BOUNDS_CHANGED, &plan->solution.basis, MOST_ITERATIONS);
    if (solution.status != LP_FAILED)
        return solution;
    return lp_solve(lp, arena, START_COLD, NULL, 10 * MOST_ITERATIONS);
}

/* To the prices of the plan: after another question, and another far from it. */
static void go_back(const WinterPlan *plan) {
    if (plan->by_price)
        block_program_start_from(plan->by_price, plan->answer);
}

/* kg as fed that the plan, before it was evened out, takes of it. */
static double taken_kg(const WinterPlan *plan, int feed) {
    const PlanQuestion *question = plan->question;
    double eaten = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const int column = plan->program->eaten[b * question->feed_count + feed];
        if (column >= 0)
            eaten += plan->solution.value[column] * question->blocks[b].head *
                     question->blocks[b].days;
    }
    return eaten * plan_taken_per_eaten(&question->feeds[feed]);
}

/* Whether the cost stays without solving for it: more of what has no price, or less of what is
 * left over anyway. `left` is the row of what is kept for spring, or -1. */
static bool costs_the_same(const WinterPlan *plan, int feed, int left, double more_kg) {
    if (more_kg < 0.0)
        return left < 0 &&
               taken_kg(plan, feed) <= plan->question->feeds[feed].available_kg + more_kg;
    return plan->solution.shadow_price[plan->program->stock[feed]] == 0.0 &&
           (left < 0 || plan->solution.shadow_price[left] == 0.0);
}

/* More of a forage is also more of what may be left at the end. */
double plan_cost_change(Arena *arena, const WinterPlan *plan, int feed, double more_kg) {
    const RationProgram *program = plan->program;
    LinearProgram *lp = program->lp;
    const int row = program->stock[feed];
    const int left =
        plan->question->feeds[feed].is_own && ration_program_carries_over(plan->question, feed)
            ? program->carry_over_row
            : -1;
    if (plan->question->feeds[feed].is_own && costs_the_same(plan, feed, left, more_kg))
        return 0.0;
    const double most = lp_row_most(lp, row);
    const double changed = fmax(most + more_kg / KG_PER_TONNE, 0.0);
    const double used_most = left >= 0 ? lp_row_most(lp, left) : 0.0;
    lp_set_row_bounds(lp, row, -NO_LIMIT, changed);
    if (left >= 0)
        lp_set_row_bounds(lp, left, -NO_LIMIT,
                          used_most + (changed - most) * plan->question->feeds[feed].dry_share);
    const LpSolution solution = solved_again(arena, plan);
    lp_set_row_bounds(lp, row, -NO_LIMIT, most);
    if (left >= 0)
        lp_set_row_bounds(lp, left, -NO_LIMIT, used_most);
    return solution.status == LP_OPTIMAL ? solution.cost - plan->solution.cost : (double)NAN;
}

/* The least cost when an offer may not be bought and `free_kg` of it lie there; NO_LIMIT where
 * the herd cannot then be fed. */
static double cost_with_free(Arena *arena, const WinterPlan *plan, int feed, double free_kg) {
    LinearProgram *lp = plan->program->lp;
    const int column = plan->program->bought[feed];
    const int row = plan->program->stock[feed];
    lp_set_column_bounds(lp, column, 0.0, 0.0);
    lp_set_row_bounds(lp, row, -NO_LIMIT, free_kg / KG_PER_TONNE);
    const LpSolution solution = solved_again(arena, plan);
    lp_set_row_bounds(lp, row, -NO_LIMIT, 0.0);
    lp_set_column_bounds(lp, column, 0.0,
                         plan->question->feeds[feed].available_kg / KG_PER_TONNE);
    if (solution.status == LP_INFEASIBLE)
        return NO_LIMIT;
    return solution.status == LP_OPTIMAL ? solution.cost : (double)NAN;
}

double plan_worth_of_first(const WinterPlan *plan, int feed, double paid_kg) {
    Arena *scratch = arena_open();
    const double shrink = plan->question->feeds[feed].shrink_share;
    const double without = cost_with_free(scratch, plan, feed, 0.0);
    const double with = cost_with_free(scratch, plan, feed, paid_kg * (1.0 - shrink));
    go_back(plan);
    arena_close(scratch);
    if (isnan(without) || isnan(with))
        return (double)NAN;
    return isinf(without) ? NO_LIMIT : fmax(without - with, 0.0) / paid_kg;
}

#define TOO_DEAR 100.0 /* times its price: what is still bought then cannot be done without */

/* The least cost when `kg` of an offer are to be had at its price and the rest at TOO_DEAR
 * times that: there is always an answer. *dear_kg is what is bought of the rest. NAN when it
 * cannot be told. */
static double cost_with(Arena *arena, const WinterPlan *plan, int feed, double kg,
                        double *dear_kg) {
    LinearProgram *lp = plan->program->lp;
    const PlanFeed *of = &plan->question->feeds[feed];
    const int column = plan->program->bought[feed];
    const int row = plan->program->stock[feed];
    const double price = lp_cost(lp, column);
    const double most = lp_row_most(lp, row);
    lp_set_cost(lp, column, price * TOO_DEAR);
    lp_set_column_bounds(lp, column, 0.0, (of->available_kg - kg) / KG_PER_TONNE);
    lp_set_row_bounds(lp, row, -NO_LIMIT, most + kg / KG_PER_TONNE * (1.0 - of->shrink_share));
    const LpSolution solution = solved_again(arena, plan);
    lp_set_cost(lp, column, price);
    lp_set_column_bounds(lp, column, 0.0, of->available_kg / KG_PER_TONNE);
    lp_set_row_bounds(lp, row, -NO_LIMIT, most);
    if (solution.status != LP_OPTIMAL)
        return (double)NAN;
    *dear_kg = solution.value[column] * KG_PER_TONNE;
    return solution.cost + price * kg / KG_PER_TONNE;
}

#define NOTHING_KG 1e-3 /* of a purchase: rounding */

static void set_used(const WinterPlan *plan, int feed, PriceRange *of) {
    const double price = plan->question->feeds[feed].price_per_kg;
    const double bought_kg = plan->solution.value[plan->program->bought[feed]] * KG_PER_TONNE;
    const double less_kg = bought_kg * (1.0 - LESS_SHARE);
    Arena *scratch = arena_open();
    double dear_kg = 0.0;
    const double less = cost_with(scratch, plan, feed, less_kg, &dear_kg);
    of->less_above = dear_kg > NOTHING_KG
                         ? NO_LIMIT
                         : price + (less - plan->solution.cost) / (bought_kg - less_kg);
    if (dear_kg > NOTHING_KG) { /* hardly less, and never none */
        of->leaves_above = NO_LIMIT;
    } else {
        go_back(plan);
        const double little = cost_with(scratch, plan, feed, PRICE_STEP_KG, &dear_kg);
        const bool is_needed = dear_kg > NOTHING_KG;
        const double without =
            is_needed ? NO_LIMIT : cost_with(scratch, plan, feed, 0.0, &dear_kg);
        of->leaves_above = price + (without - little) / PRICE_STEP_KG;
    }
    arena_close(scratch);
}

#define NO_WORTH 1e-4 /* share of the price: below the solver's tolerance */

/* What the first kilograms would save if they came for nothing. */
static double price_that_enters(const WinterPlan *plan, int feed) {
    const PlanFeed *of = &plan->question->feeds[feed];
    const double paid_kg = fmin(PRICE_STEP_KG, of->available_kg);
    if (paid_kg <= 0.0)
        return (double)NAN;
    Arena *scratch = arena_open();
    const double change =
        plan_cost_change(scratch, plan, feed, paid_kg * (1.0 - of->shrink_share));
    arena_close(scratch);
    const double worth = -change / paid_kg;
    return worth > NO_WORTH * of->price_per_kg ? fmin(worth, of->price_per_kg) : (double)NAN;
}

/* Where rules of the yard are kept, feeds are barred by number, and no price says anything of
 * that: prices are then those of the plan without the rules. */
const PriceRange *price_ranges(Arena *arena, const WinterPlan *ruled) {
    const WinterPlan *plan = ruled->yard ? ruled->yard->without : ruled;
    const PlanQuestion *question = plan->question;
    PriceRange *ranges = ARENA_ARRAY(arena, PriceRange, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        PriceRange *of = &ranges[f];
        *of = (PriceRange){(double)NAN, (double)NAN, (double)NAN};
        if (plan->verdict != PLAN_BALANCED || question->feeds[f].is_own)
            continue;
        go_back(plan);
        if (plan->bought_kg[f] <= 0.0)
            of->enters_below = price_that_enters(plan, f);
        else if (plan->solution.value[plan->program->bought[f]] * KG_PER_TONNE > PRICE_STEP_KG)
            set_used(plan, f, of);
    }
    return ranges;
}

#include "planner/plan_outcome.h"
#include "cattle/growth.h"
#include "cattle/maintenance.h"
#include "planner/ration_caution.h"
#include "planner/winter_plan.h"
#include <math.h>

#define LEAVINGS_KG 1e-7      /* a head and day: below the solver's own tolerance */
#define SHORT_ENOUGH 1e-6     /* share of a bound that counts as short */
#define LAW_SHORT_ENOUGH 0.02 /* of a law, whose row is a straight line beside it */

static void eaten_from_values(const RationProgram *program, const double *value, int block,
                              double *eaten) {
    const int feeds = program->question->feed_count;
    for (int f = 0; f < feeds; f++) {
        const int column = program->eaten[block * feeds + f];
        eaten[f] = column >= 0 && value[column] > LEAVINGS_KG ? value[column] : 0.0;
    }
}

void outcome_eaten(const RationProgram *program, const LpSolution *solution, int block,
                   double *eaten) {
    eaten_from_values(program, solution->value, block, eaten);
}

BlockState *outcome_states(Arena *arena, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    BlockState *states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        states[b] = ration_state(question, plan->blocks[b].eaten, plan->blocks[b].state);
    return states;
}

/* The row of a ratio is the ratio times what it is of: one unit more of its bound moves the
 * row's side by all of that. */
static double row_per_bound(const WinterPlan *plan, int block, const RationLimit *limit) {
    const int feeds = plan->question->feed_count;
    double base = limit->base_constant;
    for (int f = 0; limit->base && f < feeds; f++) {
        const int column = plan->program->eaten[block * feeds + f];
        base += column >= 0 ? limit->base[f] * plan->solution.value[column] : 0.0;
    }
    return limit->base ? base : 1.0;
}

static double price_of_bound(const WinterPlan *plan, int block, const RationLimit *limit,
                             int row) {
    if (row < 0)
        return 0.0;
    const PlanBlock *of = &plan->question->blocks[block];
    return plan->solution.shadow_price[row] * row_per_bound(plan, block, limit) /
           (of->head * of->days);
}

#define ALL_BUT 0.999 /* of its weight: that far a line is passed, by however little */

/* A line that a ration is beyond costs what it weighs, not money. */
static double price_of_caution(const WinterPlan *plan, int block, int limit) {
    const BlockLimits *of = &plan->program->blocks[block];
    if (of->beyond[limit] < 0)
        return 0.0;
    const double way = caution_way(of->limits[limit], &plan->question->blocks[block].need);
    const double weight = lp_cost(plan->program->lp, of->beyond[limit]);
    const double price = plan->solution.shadow_price[of->warn_row[limit]];
    if (fabs(price) * way > ALL_BUT * weight)
        return 0.0;
    return price_of_bound(plan, block, of->limits[limit], of->warn_row[limit]);
}

/* A ration that holds none of what a ratio is of has enough of the other; one of which nothing
 * is eaten lacks all. */
static double short_by(const LimitOutcome *of, double dry_matter_kg, double enough) {
    if (isnan(of->supplied))
        return dry_matter_kg <= 0.0 && isfinite(of->least) && of->limit->least_gives > 0.0
                   ? fabs(of->least)
                   : 0.0;
    const double below = isfinite(of->least) ? of->least - of->supplied : 0.0;
    const double above = isfinite(of->most) ? of->supplied - of->most : 0.0;
    const double worst = fmax(below, above);
    const double bound = below > above ? of->least : of->most;
    return worst > enough * fmax(fabs(bound), 1.0) ? worst : 0.0;
}

/* A miss of a law is let pass as that of its straight line, unless the program itself fell
 * short. */
static double short_enough(const WinterPlan *plan, const RationLimit *limit, int first_short) {
    const bool is_lacking =
        first_short >= 0 &&
        ration_program_short_share(first_short, plan->solution.value) > SHORT_ENOUGH;
    return limit->law == LAW_NONE || is_lacking ? SHORT_ENOUGH : LAW_SHORT_ENOUGH;
}

/* A limit that is not linear is shown as its law stands at this ration. */
static void show_law(const Requirement *need, const BlockOutcome *outcome, LimitOutcome *of) {
    switch (of->limit->law) {
    case LAW_NONE:
        return;
    case LAW_GAIN:
        of->least = requirement_nem(need).mcal_per_day + need->retained.mcal_per_day;
        of->supplied = outcome->nem_kept + outcome->gain_energy;
        return;
    case LAW_INTAKE_MOST:
        of->supplied = outcome->dry_matter_kg;
        of->most = outcome->intake_most;
        return;
    case LAW_INTAKE_LEAST:
        of->supplied = outcome->filling_kg;
        of->least = outcome->intake_least;
        return;
    }
}

/* What the lines beside a law cost is what the law costs. */
static void add_prices_of_lines(LimitOutcome *limits, int count) {
    for (int line = 0; line < count; line++) {
        const RationLaw law = limits[line].limit->line_of;
        for (int i = 0; law != LAW_NONE && i < count; i++) {
            if (limits[i].limit->law == law)
                limits[i].shadow_price +=
                    limits[line].shadow_price * limits[line].limit->row_times;
        }
    }
}

static void read_limits(Arena *arena, const WinterPlan *plan, int block,
                        BlockOutcome *outcome) {
    const BlockLimits *of = &plan->program->blocks[block];
    LimitOutcome *limits = ARENA_ARRAY(arena, LimitOutcome, of->count);
    for (int i = 0; i < of->count; i++) {
        const RationLimit *limit = of->limits[i];
        limits[i] = (LimitOutcome){
            .limit = limit,
            .supplied = ration_supply(limit, plan->question->feed_count, outcome->eaten,
                                      outcome->microbial_kg),
            .least = limit->least,
            .most = limit->most,
            .shadow_price = price_of_bound(plan, block, limit, of->least_row[i]) +
                            price_of_bound(plan, block, limit, of->most_row[i]),
            .caution_price = price_of_caution(plan, block, i),
        };
        show_law(&plan->question->blocks[block].need, outcome, &limits[i]);
        const double enough = short_enough(plan, limit, of->least_short[i]);
        limits[i].short_by =
            limit->is_inner ? 0.0 : short_by(&limits[i], outcome->dry_matter_kg, enough);
    }
    add_prices_of_lines(limits, of->count);
    outcome->limits = limits;
    outcome->limit_count = of->count;
}

void outcome_run_forward(const PlanQuestion *question, int block, BlockOutcome *outcome) {
    const Requirement *need = &question->blocks[block].need;
    double nem = 0.0;
    double neg = 0.0;
    outcome->dry_matter_kg = outcome->filling_kg = 0.0;
    outcome->cost_per_head_day = 0.0;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        const double eaten = outcome->eaten[f];
        outcome->dry_matter_kg += eaten;
        outcome->filling_kg += ration_feed_fills(feed) ? eaten : 0.0;
        outcome->cost_per_head_day += eaten * plan_cost_per_eaten(question, block, f);
        if (eaten > 0.0) {
            nem += eaten * feed->eaten[NUTRIENT_NEM];
            neg += eaten * feed->eaten[NUTRIENT_NEG];
        }
    }
    const double filling = outcome->filling_kg;
    outcome->diet_nem = filling > 0.0 ? nem / filling : outcome->state.diet_nem;
    const EnergyDensity density = {outcome->diet_nem};
    outcome->intake_most = intake_at(need->most, need->shrunk, density).kg_per_day;
    outcome->intake_least = intake_at(need->least, need->shrunk, density).kg_per_day;
    const double upkeep = requirement_nem(need).mcal_per_day;
    outcome->energy_left = nem - upkeep;
    outcome->nem_kept = fmin(nem, upkeep);
    if (need->retained.mcal_per_day <= 0.0 || nem <= upkeep)
        return;
    outcome->gain_energy = neg * (1.0 - upkeep / nem);
    const EnergyRate kept = {outcome->gain_energy};
    outcome->gain_kg = live_gain_of(gain_from_energy(need->equivalent, kept)).kg_per_day;
    outcome->energy_left = 0.0;
}

static void read_money(WinterPlan *plan, double *taken_kg, double *bought_kg) {
    const PlanQuestion *question = plan->question;
    PlanCost cost = {0};
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        for (int b = 0; b < question->block_count; b++) {
            const PlanBlock *block = &question->blocks[b];
            const double taken = plan->blocks[b].eaten[f] * plan_taken_per_eaten(feed) *
                                 block->head * block->days;
            taken_kg[f] += taken;
            cost.hauling += taken * plan_haul_per_kg(question, b, f);
        }
        if (!feed->is_own)
            bought_kg[f] = taken_kg[f] / (1.0 - feed->shrink_share);
        cost.own_feed += taken_kg[f] * feed->value_per_kg;
        cost.bought += bought_kg[f] * feed->price_per_kg;
    }
    for (int b = 0; b < question->block_count; b++) {
        const PlanBlock *block = &question->blocks[b];
        cost.yardage += block->head * block->days * question->farm->winter.yardage_per_head_day;
        const BlockLimits *of = &plan->program->blocks[b];
        cost.cautions +=
            block->head * block->days *
            caution_of_ration(question, b, of->limits, of->count, plan->blocks[b].eaten);
    }
    cost.total = cost.own_feed + cost.hauling + cost.bought + cost.yardage;
    plan->cost = cost;
    plan->taken_kg = taken_kg;
    plan->bought_kg = bought_kg;
}

double outcome_law_miss(const BlockOutcome *outcome, const Requirement *need,
                        bool is_balanced) {
    const double above = outcome->dry_matter_kg / outcome->intake_most - 1.0;
    if (!is_balanced)
        return fmax(above, 0.0);
    const double below = 1.0 - outcome->filling_kg / outcome->intake_least;
    const double wanted = need->retained.mcal_per_day;
    const double slower = wanted > 0.0 ? 1.0 - outcome->gain_energy / wanted : 0.0;
    return fmax(fmax(above, below), fmax(slower, 0.0));
}

double outcome_cost_held(const WinterPlan *plan, const PlanQuestion *question) {
    Arena *scratch = arena_open();
    BlockState *states = ARENA_ARRAY(scratch, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        states[b] = plan->blocks[b].state;
    const RationProgram program = ration_program(scratch, question, states, AIM_LEAST_COST);
    BlockProgram *blocks;
    const LpSolution solution =
        ration_program_solve(scratch, &program, plan->answer, 0.0, &blocks);
    const double cost = solution.status == LP_OPTIMAL ? solution.cost : (double)NAN;
    arena_close(scratch);
    return cost;
}

void outcome_set_least(WinterPlan *plan, const LpSolution *solution) {
    plan->least_cautions = ration_program_caution(plan->program, solution->value);
    plan->least_cost = solution->cost - plan->least_cautions;
}

void outcome_read(Arena *arena, WinterPlan *plan, const double *value,
                  const BlockState *states) {
    const PlanQuestion *question = plan->question;
    BlockOutcome *blocks = ARENA_ARRAY(arena, BlockOutcome, question->block_count);
    plan->residual = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
        eaten_from_values(plan->program, value, b, eaten);
        blocks[b].eaten = eaten;
        blocks[b].state = states[b];
        blocks[b].microbial_kg = ration_microbial_kg(question, eaten);
        outcome_run_forward(question, b, &blocks[b]);
        read_limits(arena, plan, b, &blocks[b]);
        plan->residual =
            fmax(plan->residual, outcome_law_miss(&blocks[b], &question->blocks[b].need,
                                                  plan->verdict == PLAN_BALANCED));
    }
    plan->blocks = blocks;
    read_money(plan, ARENA_ARRAY(arena, double, question->feed_count),
               ARENA_ARRAY(arena, double, question->feed_count));
    const int carry = plan->program->carry_over_short;
    plan->carry_over_short_kg =
        carry >= 0 && value[carry] > 1e-6 ? value[carry] * KG_PER_TONNE : 0;
}

void outcome_largest_shortage(const RationProgram *program, const LpSolution *solution,
                              FirstShortage *shortage) {
    double largest = 0.0;
    for (int b = 0; b < program->question->block_count; b++) {
        const BlockLimits *of = &program->blocks[b];
        for (int i = 0; i < of->count; i++) {
            const int columns[] = {of->least_short[i], of->most_short[i]};
            for (int side = 0; side < 2; side++) {
                if (columns[side] < 0)
                    continue;
                const double weight =
                    ration_program_short_share(columns[side], solution->value) *
                    lp_cost(program->lp, columns[side]);
                if (weight > largest) {
                    largest = weight;
                    *shortage =
                        (FirstShortage){program->question->blocks[b].group, of->limits[i]};
                }
            }
        }
    }
}

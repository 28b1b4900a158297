/* Two things of the winter are not linear: what cattle can eat depends on the energy of what
 * they eat, and growing cattle split energy between upkeep and gain by the ration itself. Both
 * laws are straightened at a ration, the program is solved, they are straightened anew at its
 * rations, and so on until they stay; each round starts from the last basis. The first ration
 * is a rich one, because a poor one can look infeasible when it is not. */
#include "planner/winter_plan.h"
#include "planner/plan_outcome.h"
#include "planner/steady_ration.h"
#include <math.h>
#include <string.h>

#define MOST_ROUNDS 12
#define SETTLED 1e-4          /* relative change of an intake limit or a share */
#define CLOSE_ENOUGH 0.004    /* miss of an intake limit that needs no further pass */
#define SETTLED_RESIDUAL 0.02 /* miss of an intake limit that is said to the reader */
/* Relative change of the aim by which rations flip between equals: no round will settle them.
 */
#define SAME_COST 1e-5
#define SAME_SHORTAGE 1e-3
#define DAMPED_AFTER 6 /* rounds; a ration that flips between two is met half way */
#define START_NEM_COW 1.45
#define START_NEM_GROWING 1.50
#define START_MAINTENANCE_SHARE 0.55
#define START_GAIN_PER_UPKEEP 0.58 /* NEg to NEm of middling feed */

typedef struct {
    RationProgram program;
    LpSolution solution;
    BlockState *states;
    BlockProgram *blocks;    /* of the last program; NULL: it was solved whole */
    const LpSolution *start; /* of a program of the same shape; NULL: none */
    int rounds;
    double change;
} Iteration;

static BlockState *first_states(Arena *arena, const PlanQuestion *question) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++) {
        const Requirement *need = &question->blocks[b].need;
        const bool grows = need->retained.mcal_per_day > 0.0;
        const double nem = grows ? START_NEM_GROWING : START_NEM_COW;
        states[b] = (BlockState){
            .dry_matter_kg =
                intake_at(need->most, need->shrunk, (EnergyDensity){nem}).kg_per_day,
            .diet_nem = nem,
            .maintenance_share = START_MAINTENANCE_SHARE,
            .gain_per_upkeep = START_GAIN_PER_UPKEEP,
        };
    }
    return states;
}

/* How far a state moves the limits it sets. */
static double change_of(const PlanBlock *block, BlockState a, BlockState b) {
    const Requirement *need = &block->need;
    const double before =
        intake_at(need->most, need->shrunk, (EnergyDensity){a.diet_nem}).kg_per_day;
    const double after =
        intake_at(need->most, need->shrunk, (EnergyDensity){b.diet_nem}).kg_per_day;
    const double share = need->retained.mcal_per_day > 0.0
                             ? fabs(a.maintenance_share - b.maintenance_share) +
                                   fabs(a.gain_per_upkeep - b.gain_per_upkeep)
                             : 0.0;
    return fmax(fabs(after / before - 1.0), share);
}

static double between(double a, double b, double share_of_b) {
    return a + share_of_b * (b - a);
}

static BlockState halfway(BlockState a, BlockState b, double share_of_b) {
    return (BlockState){between(a.dry_matter_kg, b.dry_matter_kg, share_of_b),
                        between(a.diet_nem, b.diet_nem, share_of_b),
                        between(a.maintenance_share, b.maintenance_share, share_of_b),
                        between(a.gain_per_upkeep, b.gain_per_upkeep, share_of_b)};
}

static double move_states(Arena *arena, Iteration *at, const PlanQuestion *question) {
    double largest = 0.0;
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    const double step = at->rounds > DAMPED_AFTER ? 0.5 : 1.0;
    for (int b = 0; b < question->block_count; b++) {
        outcome_eaten(&at->program, &at->solution, b, eaten);
        const BlockState found = ration_state(question, b, eaten, at->states[b]);
        largest = fmax(largest, change_of(&question->blocks[b], at->states[b], found));
        at->states[b] = halfway(at->states[b], found, step);
    }
    return largest;
}

/* The states that given column values make. */
static void states_from_values(Arena *arena, Iteration *at, const PlanQuestion *question,
                               const double *value) {
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    const LpSolution as_solution = {.status = LP_OPTIMAL, .value = value};
    for (int b = 0; b < question->block_count; b++) {
        outcome_eaten(&at->program, &as_solution, b, eaten);
        at->states[b] = ration_state(question, b, eaten, at->states[b]);
    }
}

static LpSolution solve_round(Arena *arena, Iteration *at, const PlanQuestion *question,
                              ProgramAim aim) {
    const LpSolution *near = at->solution.status == LP_OPTIMAL ? &at->solution : at->start;
    at->program = ration_program(arena, question, at->states, aim);
    return ration_program_solve(arena, &at->program, near, &at->blocks);
}

/* Iterates to a ration that agrees with what it was taken to be, from the states in `at` or,
 * when it has none, the first states. False when a program had no solution: `at` then holds the
 * failure. When a later round fails where an earlier did not, the states are drawn back toward
 * the last that worked, a few times. */
static bool iterate(Arena *arena, Iteration *at, const PlanQuestion *question, ProgramAim aim) {
    const size_t bytes = (size_t)question->block_count;
    BlockState *worked = ARENA_ARRAY(arena, BlockState, bytes);
    RationProgram program_worked = {0};
    BlockProgram *blocks_worked = NULL;
    const double same = aim == AIM_LEAST_COST ? SAME_COST : SAME_SHORTAGE;
    Arena *kept = NULL; /* of the last round that worked */
    bool has_worked = false;
    int drawn_back = 0;
    if (!at->states)
        at->states = first_states(arena, question);
    at->change = NO_LIMIT;
    for (at->rounds = 1; at->rounds <= MOST_ROUNDS; at->rounds++) {
        Arena *of_round = arena_open();
        const LpSolution solution = solve_round(of_round, at, question, aim);
        if (solution.status != LP_OPTIMAL) {
            arena_close(of_round);
            if (!has_worked || drawn_back++ >= 6) {
                at->solution = solution;
                if (kept)
                    arena_adopt(arena, kept);
                return false;
            }
            for (int b = 0; b < question->block_count; b++)
                at->states[b] = halfway(worked[b], at->states[b], 0.5);
            continue;
        }
        const bool is_same =
            has_worked && fabs(solution.cost - at->solution.cost) <= same * solution.cost;
        at->solution = solution;
        arena_close(kept);
        kept = of_round;
        for (int b = 0; b < question->block_count; b++)
            worked[b] = at->states[b];
        program_worked = at->program;
        blocks_worked = at->blocks;
        has_worked = true;
        at->change = move_states(arena, at, question);
        if (at->change < SETTLED || is_same)
            break;
    }
    for (int b = 0; b < question->block_count; b++)
        at->states[b] = worked[b];
    at->program = program_worked;
    at->blocks = blocks_worked;
    if (kept)
        arena_adopt(arena, kept);
    return at->solution.status == LP_OPTIMAL;
}

static BlockState *copied_states(Arena *arena, const Iteration *at,
                                 const PlanQuestion *question) {
    BlockState *copy = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++)
        copy[b] = at->states[b];
    return copy;
}

#define NOTHING_SHORT 1e-6 /* of the weighted shortage: below the solver's tolerance */

/* The first states may fail where the winter does not: a gain is reckoned too dear when much of
 * the energy is upkeep. When the least shortage from there is none, its rations give states
 * from which the cost is tried once more. False leaves in `at` the least shortage, or its
 * failure. */
static bool iterate_cost(Arena *arena, Iteration *at, const PlanQuestion *question) {
    if (iterate(arena, at, question, AIM_LEAST_COST))
        return true;
    *at = (Iteration){.solution = {.status = LP_FAILED}};
    if (!iterate(arena, at, question, AIM_LEAST_SHORTAGE) || at->solution.cost > NOTHING_SHORT)
        return false;
    Iteration again = {.solution = {.status = LP_FAILED}};
    again.states = copied_states(arena, at, question);
    if (!iterate(arena, &again, question, AIM_LEAST_COST))
        return false;
    again.rounds += at->rounds;
    *at = again;
    return true;
}

#define SHORT_ROUNDS 6

/* The least cost of being no shorter than the least shortage, with as little slack as the
 * solver can do with. */
static LpSolution cheapest_as_short(Arena *arena, RationProgram *program,
                                    const LpSolution *shortest, const LpSolution *near,
                                    BlockProgram **blocks) {
    LpSolution cheapest = {.status = LP_FAILED, .remark = ""};
    for (double slack = 1e-6; cheapest.status != LP_OPTIMAL && slack < 2e-4; slack *= 10.0) {
        ration_program_hold_shortage(program, shortest->value, slack);
        cheapest = ration_program_solve(arena, program, near, blocks);
    }
    return cheapest;
}

/* With the least shortage in `at`: no shorter than that, the least cost. The laws are followed
 * on, because rations of which feed was free are not those that are fed. *shortage is its
 * weight. */
static bool cheapest_shortage(Arena *arena, Iteration *at, const PlanQuestion *question,
                              double *shortage) {
    if (at->solution.status != LP_OPTIMAL)
        return false;
    LpSolution shortest = at->solution;
    Arena *kept = NULL; /* of the last round that worked */
    BlockState *as_solved = at->states;
    for (int round = 0; round < SHORT_ROUNDS; round++) {
        Arena *of_round = arena_open();
        RationProgram program =
            ration_program(of_round, question, at->states, AIM_LEAST_SHORTAGE);
        BlockProgram *blocks;
        const LpSolution less = ration_program_solve(of_round, &program, &shortest, &blocks);
        LpSolution cheapest = less;
        if (less.status == LP_OPTIMAL)
            cheapest = cheapest_as_short(of_round, &program, &less,
                                         round == 0 ? &less : &at->solution, &blocks);
        if (cheapest.status != LP_OPTIMAL) {
            arena_close(of_round);
            break;
        }
        *shortage = less.cost;
        shortest = less;
        at->program = program;
        at->solution = cheapest;
        at->blocks = blocks;
        arena_close(kept);
        kept = of_round;
        at->rounds++;
        as_solved = copied_states(arena, at, question);
        at->change = move_states(arena, at, question);
        if (at->change < SETTLED)
            break;
    }
    at->states = as_solved;
    if (kept)
        arena_adopt(arena, kept);
    return kept != NULL;
}

/* The plan that the iteration's program gives, its rations evened out where that is wanted. */
static WinterPlan plan_of(Arena *arena, const Iteration *at, const WinterPlan *plan,
                          bool is_evened, const double **value) {
    WinterPlan even = *plan;
    RationProgram *program = ARENA_NEW(arena, RationProgram);
    *program = at->program;
    even.program = program;
    even.solution = at->solution;
    even.by_price = at->blocks;
    even.least_cost = at->solution.cost;
    even.rounds = at->rounds;
    *value = is_evened ? steady_rations(arena, program, &at->solution, &even.is_steady)
                       : at->solution.value;
    BlockState *states = ARENA_ARRAY(arena, BlockState, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++)
        states[b] = at->states[b];
    outcome_read(arena, &even, *value, states);
    return even;
}

#define EVENING_PASSES 4
#define PATIENT_PASSES 16 /* where a miss would have to be told */

static bool wants_pass(int pass, double residual) {
    return residual >= (pass < EVENING_PASSES ? CLOSE_ENOUGH : SETTLED_RESIDUAL) &&
           pass < PATIENT_PASSES;
}

/* Evening rations out moves them away from where the laws were straightened: they are
 * straightened anew at the even rations and the program solved again, until even rations keep
 * to the laws; the pass that came nearest is taken. Where none of the first comes near enough,
 * rations flip between equals: they are then met half way. */
static void even_out(Arena *arena, Iteration *at, WinterPlan *plan) {
    const double *value;
    WinterPlan best = plan_of(arena, at, plan, true, &value);
    for (int pass = 1; plan->verdict == PLAN_BALANCED && wants_pass(pass, best.residual);
         pass++) {
        const BlockState *before = at->states;
        at->states = copied_states(arena, at, plan->question);
        states_from_values(arena, at, plan->question, value);
        for (int b = 0; b < plan->question->block_count && pass >= EVENING_PASSES; b++)
            at->states[b] = halfway(before[b], at->states[b], 0.5);
        const LpSolution solution = solve_round(arena, at, plan->question, AIM_LEAST_COST);
        if (solution.status != LP_OPTIMAL)
            break;
        at->solution = solution;
        at->rounds++;
        const WinterPlan even = plan_of(arena, at, plan, true, &value);
        if (even.residual < best.residual)
            best = even;
    }
    *plan = best;
}

static PlanVerdict solve_winter(Arena *arena, Iteration *at, const PlanQuestion *question) {
    double shortage = NO_LIMIT;
    if (iterate_cost(arena, at, question))
        return PLAN_BALANCED;
    if (!cheapest_shortage(arena, at, question, &shortage))
        return PLAN_FAILED;
    return shortage > NOTHING_SHORT ? PLAN_SHORT : PLAN_BALANCED;
}

PlanVerdict plan_verdict(const PlanQuestion *question) {
    Arena *scratch = arena_open();
    Iteration at = {.solution = {.status = LP_FAILED}};
    const PlanVerdict verdict = solve_winter(scratch, &at, question);
    arena_close(scratch);
    return verdict;
}

/* False, with the reason in the plan, where the machine could not solve it. */
static bool is_solved(Arena *arena, const PlanQuestion *question, Iteration *at,
                      WinterPlan *plan) {
    *at = (Iteration){.solution = {.status = LP_FAILED}};
    *plan = (WinterPlan){.question = question, .remark = ""};
    plan->verdict = solve_winter(arena, at, question);
    plan->rounds = at->rounds;
    if (plan->verdict == PLAN_FAILED)
        plan->remark = at->solution.remark;
    return plan->verdict != PLAN_FAILED;
}

WinterPlan plan_winter(Arena *arena, const PlanQuestion *question) {
    Iteration at;
    WinterPlan plan;
    if (is_solved(arena, question, &at, &plan)) {
        even_out(arena, &at, &plan);
        plan.has_settled = plan.residual < SETTLED_RESIDUAL;
    }
    return plan;
}

WinterPlan plan_least_cost(Arena *arena, const PlanQuestion *question) {
    const double *value;
    Iteration at;
    WinterPlan plan;
    if (is_solved(arena, question, &at, &plan))
        plan = plan_of(arena, &at, &plan, false, &value);
    return plan;
}

static void keep_start(Arena *arena, const Iteration *at, const PlanQuestion *question,
                       PlanStart *start) {
    const LpBasis *basis = &at->solution.basis;
    if (!start->states) {
        start->states = ARENA_ARRAY(arena, BlockState, question->block_count);
        start->price = ARENA_ARRAY(arena, double, basis->row_count);
        start->basis = (LpBasis){basis->row_count, basis->column_count,
                                 ARENA_ARRAY(arena, unsigned char, basis->row_count),
                                 ARENA_ARRAY(arena, unsigned char, basis->column_count)};
    }
    for (int b = 0; b < question->block_count; b++)
        start->states[b] = at->states[b];
    memcpy(start->price, at->solution.shadow_price, (size_t)basis->row_count * sizeof(double));
    memcpy(start->basis.row, basis->row, (size_t)basis->row_count);
    memcpy(start->basis.column, basis->column, (size_t)basis->column_count);
}

/* A scratch arena holds the work; only the start, and what falls short, outlive it. */
bool plan_can_be_balanced(Arena *arena, const PlanQuestion *question, PlanStart *start,
                          FirstShortage *shortage) {
    Arena *scratch = shortage ? arena : arena_open();
    Iteration at = {.solution = {.status = LP_FAILED}};
    const LpSolution near = {.shadow_price = start->price, .basis = start->basis};
    if (start->states) {
        at.states = ARENA_ARRAY(scratch, BlockState, question->block_count);
        for (int b = 0; b < question->block_count; b++)
            at.states[b] = start->states[b];
        at.start = &near;
    }
    const bool is_solved = iterate(scratch, &at, question, AIM_LEAST_SHORTAGE);
    const bool can = is_solved && at.solution.cost <= NOTHING_SHORT;
    if (is_solved)
        keep_start(arena, &at, question, start);
    if (shortage) {
        *shortage = (FirstShortage){-1, NULL};
        if (is_solved && !can)
            outcome_largest_shortage(&at.program, &at.solution, shortage);
    } else {
        arena_close(scratch);
    }
    return can;
}

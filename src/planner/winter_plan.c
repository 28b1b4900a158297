/* The cheapest winter, or where there is none the least short one, then its rations evened out
 * and the laws drawn anew at these until both agree. */
#include "planner/winter_plan.h"
#include "planner/plan_outcome.h"
#include "planner/plan_rounds.h"
#include "planner/steady_ration.h"
#include <math.h>
#include <string.h>

#define CLOSE_ENOUGH 0.004    /* miss of an intake limit that needs no further pass */
#define SETTLED_RESIDUAL 0.02 /* miss of an intake limit that is said to the reader */

/* What the rounds leave is the arena's only when they lead somewhere: the program of a large
 * farm is large. */
static bool has_least_cost(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    Arena *attempt = arena_open();
    if (rounds_iterate(attempt, at, question, AIM_LEAST_COST)) {
        arena_adopt(arena, attempt);
        return true;
    }
    arena_close(attempt);
    return false;
}

/* Of the least shortage only its states and how it ended are kept; how short it is. */
static double least_shortage(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    Arena *attempt = arena_open();
    const bool is_found = rounds_iterate(attempt, at, question, AIM_LEAST_SHORTAGE);
    at->states = is_found ? rounds_copied_states(arena, at, question) : NULL;
    rounds_forget_program(at);
    at->of_blocks = NULL;
    arena_close(attempt);
    return is_found ? at->solution.cost : NO_LIMIT;
}

/* The first states may fail where the winter does not: a gain is reckoned too dear when much of
 * the energy is upkeep. When the least shortage from there is none, its rations give states
 * from which the cost is tried once more. False leaves in `at` the states of the least
 * shortage, or its failure. */
static bool iterate_cost(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    if (has_least_cost(arena, at, question))
        return true;
    const bool only_states = at->only_states;
    *at = plan_rounds(block_start(arena));
    at->only_states = only_states;
    if (least_shortage(arena, at, question) > NOTHING_SHORT)
        return false;
    PlanRounds again = plan_rounds(block_start(arena));
    again.only_states = only_states;
    again.states = rounds_copied_states(arena, at, question);
    if (!has_least_cost(arena, &again, question))
        return false;
    again.rounds += at->rounds;
    *at = again;
    return true;
}

#define SHORT_ROUNDS 6

static const BlockStart *left_by(Arena *arena, const BlockProgram *blocks) {
    BlockStart *answer = block_start(arena);
    if (blocks)
        block_start_take(answer, blocks);
    return answer;
}

/* The least cost of being no shorter than the least shortage, with as little slack as the
 * solver can do with. `built` is the program of blocks of both; NULL: it is solved whole. */
static LpSolution cheapest_as_short(Arena *arena, RationProgram *program,
                                    const LpSolution *shortest, BlockStart *start,
                                    BlockProgram *built, BlockProgram **blocks) {
    LpSolution cheapest = {.status = LP_FAILED, .remark = ""};
    for (double slack = 1e-6; cheapest.status != LP_OPTIMAL && slack < 2e-4; slack *= 10.0) {
        ration_program_hold_shortage(program, shortest->value, slack);
        if (built)
            block_program_reprice(built);
        *blocks = built;
        cheapest = round_solve_built(arena, program, start, blocks);
    }
    return cheapest;
}

/* One round of it: the states in `at` become those of its rations. False, and `at` stays, when
 * it cannot be solved. What is kept of it is the arena's: of a winter that is short no blocks,
 * because nobody asks for its prices. */
static bool take_short_round(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                             BlockStart *start, double *shortage) {
    RationProgram program = ration_program(arena, question, at->states, AIM_SHORTAGE_FIRST);
    Arena *of_blocks = arena_open();
    BlockProgram *const built = block_program(of_blocks, program.lp, &program.shape);
    BlockProgram *blocks = built;
    LpSolution less = round_solve_built(of_blocks, &program, at->start, &blocks);
    LpSolution cheapest = less;
    if (less.status == LP_OPTIMAL)
        cheapest = cheapest_as_short(arena, &program, &less, start, built, &blocks);
    if (cheapest.status != LP_OPTIMAL) {
        arena_close(of_blocks);
        return false;
    }
    *shortage = less.cost;
    at->program = program;
    at->solution = cheapest;
    at->answer = left_by(arena, blocks);
    at->blocks = less.cost > NOTHING_SHORT ? NULL : blocks;
    at->rounds++;
    if (at->blocks)
        arena_adopt(arena, of_blocks);
    else
        arena_close(of_blocks);
    return true;
}

static void forget_round(PlanRounds *at, Arena **kept) {
    rounds_forget_program(at);
    arena_close(*kept);
    *kept = NULL;
}

/* With the least shortage in `at`: no shorter than that, the least cost. The laws are followed
 * on, because rations of which feed was free are not those that are fed. *shortage is its
 * weight. */
static bool cheapest_shortage(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                              double *shortage) {
    if (at->solution.status != LP_OPTIMAL)
        return false;
    BlockStart *start = block_start(arena); /* of the cost: at->start is of the shortage */
    Arena *kept = NULL;                     /* the one program that is in memory */
    bool has_worked = false;
    BlockState *as_solved = at->states;
    for (int round = 0; round < SHORT_ROUNDS; round++) {
        const double last_cost = at->solution.cost;
        forget_round(at, &kept);
        kept = arena_open();
        if (!take_short_round(kept, at, question, start, shortage)) {
            forget_round(at, &kept);
            break;
        }
        has_worked = true;
        as_solved = rounds_copied_states(arena, at, question);
        at->change = round_move_states(arena, at, question);
        if (at->change < SETTLED || (round > 0 && round_has_stood_still(at, last_cost)))
            break;
    }
    at->states = as_solved;
    if (at->only_states)
        forget_round(at, &kept);
    else if (!has_worked)
        at->solution = (LpSolution){.status = LP_FAILED,
                                    .remark = "no rations were found that are no shorter"};
    else if (!kept) { /* back to the last that worked */
        kept = arena_open();
        has_worked = take_short_round(kept, at, question, start, shortage);
    }
    if (kept)
        arena_adopt(arena, kept);
    return has_worked;
}

/* The plan that the iteration's program gives: its rations evened out, or, with `start` NULL,
 * as they were solved. One that is only read keeps no blocks. */
static WinterPlan plan_of(Arena *arena, PlanRounds *at, const WinterPlan *plan, bool is_read,
                          SteadyStart *start, const double **value) {
    WinterPlan even = *plan;
    RationProgram *program = ARENA_NEW(arena, RationProgram);
    *program = at->program;
    even.program = program;
    even.solution = at->solution;
    even.answer = at->answer ? at->answer : left_by(arena, at->blocks);
    if (is_read)
        rounds_let_blocks_go(at);
    even.by_price = at->blocks;
    outcome_set_least(&even, &at->solution);
    even.rounds = at->rounds;
    *value = start ? steady_rations(arena, program, &at->solution, even.answer, start,
                                    &even.is_steady)
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
 * rations flip between equals: they are then met half way. `solved` holds what was solved
 * before, and is the arena's or closed. */
static void even_out(Arena *arena, Arena *solved, PlanRounds *at, WinterPlan *plan,
                     bool is_read) {
    const double *value;
    Arena *of_start = arena_open();
    SteadyStart start = {.arena = of_start};
    WinterPlan best = plan_of(solved, at, plan, is_read, &start, &value);
    Arena *of_best = NULL; /* NULL: what was solved before */
    Arena *last = NULL;
    for (int pass = 1; plan->verdict == PLAN_BALANCED && wants_pass(pass, best.residual);
         pass++) {
        const BlockState *before = at->states;
        at->states = rounds_copied_states(arena, at, plan->question);
        round_states_from_values(arena, at, plan->question, value);
        for (int b = 0; b < plan->question->block_count && pass >= EVENING_PASSES; b++)
            at->states[b] = round_halfway(before[b], at->states[b], 0.5);
        if (last != of_best)
            arena_close(last);
        last = arena_open();
        const LpSolution solution = round_solve(last, last, at, plan->question, AIM_LEAST_COST);
        if (solution.status != LP_OPTIMAL)
            break;
        at->solution = solution;
        at->rounds++;
        const WinterPlan even = plan_of(last, at, plan, is_read, &start, &value);
        if (even.residual >= best.residual)
            continue;
        arena_close(of_best);
        best = even;
        of_best = last;
    }
    if (last != of_best)
        arena_close(last);
    arena_adopt(arena, of_best ? of_best : solved);
    if (of_best)
        arena_close(solved);
    arena_close(of_start);
    *plan = best;
}

static PlanVerdict solve_winter(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    double shortage = NO_LIMIT;
    if (iterate_cost(arena, at, question))
        return PLAN_BALANCED;
    if (!cheapest_shortage(arena, at, question, &shortage))
        return PLAN_FAILED;
    return shortage > NOTHING_SHORT ? PLAN_SHORT : PLAN_BALANCED;
}

PlanVerdict plan_verdict_as_planned(const PlanQuestion *question) {
    Arena *scratch = arena_open();
    PlanRounds at = plan_rounds(block_start(scratch));
    at.only_states = true;
    const PlanVerdict verdict = solve_winter(scratch, &at, question);
    arena_close(scratch);
    return verdict;
}

PlanVerdict plan_verdict(const PlanQuestion *question) {
    Arena *scratch = arena_open();
    const PlanQuestion lighter = plan_question_without_cautions(scratch, question);
    const PlanVerdict verdict = plan_verdict_as_planned(&lighter);
    arena_close(scratch);
    return verdict;
}

/* False, with the reason in the plan, where the machine could not solve it. */
static bool is_solved(Arena *arena, const PlanQuestion *question, PlanRounds *at,
                      WinterPlan *plan) {
    *at = plan_rounds(block_start(arena));
    *plan = (WinterPlan){.question = question, .remark = ""};
    plan->verdict = solve_winter(arena, at, question);
    plan->rounds = at->rounds;
    if (plan->verdict == PLAN_FAILED)
        plan->remark = at->solution.remark;
    return plan->verdict != PLAN_FAILED;
}

/* Only what is read of it stays. */
static WinterPlan read_only(WinterPlan plan) {
    if (plan.verdict == PLAN_FAILED)
        return plan;
    RationProgram program = *plan.program;
    ration_program_let_go(&program);
    plan.program = NULL;
    plan.by_price = NULL;
    return plan;
}

static WinterPlan even_winter(Arena *arena, const PlanQuestion *question, bool is_read) {
    PlanRounds at;
    WinterPlan plan;
    Arena *solved = arena_open();
    if (is_solved(solved, question, &at, &plan)) {
        even_out(arena, solved, &at, &plan, is_read);
        plan.has_settled = plan.residual < SETTLED_RESIDUAL;
    } else {
        arena_close(solved);
    }
    return plan;
}

static WinterPlan cheapest_winter(Arena *arena, const PlanQuestion *question, bool is_read) {
    const double *value;
    PlanRounds at;
    WinterPlan plan;
    if (is_solved(arena, question, &at, &plan)) {
        plan = plan_of(arena, &at, &plan, is_read, NULL, &value);
        plan.has_settled = plan.residual < SETTLED_RESIDUAL;
    }
    return plan;
}

WinterPlan plan_winter(Arena *arena, const PlanQuestion *question) {
    return even_winter(arena, question, false);
}

WinterPlan plan_winter_to_read(Arena *arena, const PlanQuestion *question) {
    return read_only(even_winter(arena, question, true));
}

WinterPlan plan_least_cost(Arena *arena, const PlanQuestion *question) {
    return cheapest_winter(arena, question, false);
}

WinterPlan plan_least_cost_to_read(Arena *arena, const PlanQuestion *question) {
    return read_only(cheapest_winter(arena, question, true));
}

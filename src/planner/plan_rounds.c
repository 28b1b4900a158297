/* Two things of the winter are not linear: what cattle can eat depends on the energy of what
 * they eat, and growing cattle split energy between upkeep and gain by the ration itself. Both
 * laws are straightened at a ration, the program is solved, they are straightened anew at its
 * rations, and so on until they stay; each round starts from what the last one left. The first
 * ration is a rich one, because a poor one can look infeasible when it is not. */
#include "planner/plan_rounds.h"
#include "planner/plan_outcome.h"
#include <math.h>

#define MOST_ROUNDS 12
/* Relative change of the aim by which rations flip between equals: no round will settle them.
 */
#define SAME_COST 1e-5
#define SAME_SHORTAGE 1e-3
/* But of a large farm one group may move far and hardly change the aim. */
#define LITTLE_MOVED 0.02
#define SAME_VERDICT 0.1   /* a shortage that falls no faster does not go to nothing */
#define VERDICT_SHARE 0.01 /* how near a shortage is found where there is one */
#define DAMPED_AFTER 6     /* rounds; a ration that flips between two is met half way */
#define START_NEM_COW 1.45
#define START_NEM_GROWING 1.50
#define START_MAINTENANCE_SHARE 0.55
#define START_GAIN_PER_UPKEEP 0.58 /* NEg to NEm of middling feed */

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

BlockState round_halfway(BlockState a, BlockState b, double share_of_b) {
    return (BlockState){between(a.dry_matter_kg, b.dry_matter_kg, share_of_b),
                        between(a.diet_nem, b.diet_nem, share_of_b),
                        between(a.maintenance_share, b.maintenance_share, share_of_b),
                        between(a.gain_per_upkeep, b.gain_per_upkeep, share_of_b)};
}

double round_move_states(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    double largest = 0.0;
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    const double step = at->rounds > DAMPED_AFTER ? 0.5 : 1.0;
    for (int b = 0; b < question->block_count; b++) {
        outcome_eaten(&at->program, &at->solution, b, eaten);
        const BlockState found = ration_state(question, b, eaten, at->states[b]);
        largest = fmax(largest, change_of(&question->blocks[b], at->states[b], found));
        at->states[b] = round_halfway(at->states[b], found, step);
    }
    return largest;
}

void round_states_from_values(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                              const double *value) {
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    const LpSolution as_solution = {.status = LP_OPTIMAL, .value = value};
    for (int b = 0; b < question->block_count; b++) {
        outcome_eaten(&at->program, &as_solution, b, eaten);
        at->states[b] = ration_state(question, b, eaten, at->states[b]);
    }
}

PlanRounds plan_rounds(BlockStart *start) {
    return (PlanRounds){.solution = {.status = LP_FAILED}, .start = start};
}

void rounds_forget_program(PlanRounds *at) {
    at->program = (RationProgram){0};
    at->blocks = NULL;
    at->answer = NULL;
    at->solution = (LpSolution){.status = at->solution.status,
                                .cost = at->solution.cost,
                                .remark = at->solution.remark};
}

static LpSolution left_to(BlockStart *start, const BlockProgram *blocks, LpSolution solution) {
    if (blocks && solution.status == LP_OPTIMAL)
        block_start_take(start, blocks);
    return solution;
}

LpSolution round_solve_built(Arena *arena, const RationProgram *program, BlockStart *start,
                             BlockProgram **blocks) {
    const LpSolution solution = ration_program_solve_in(arena, program, start, 0.0, blocks);
    return left_to(start, *blocks, solution);
}

LpSolution round_solve_program(Arena *arena, const RationProgram *program, BlockStart *start,
                               BlockProgram **blocks) {
    *blocks = block_program(arena, program->lp, &program->shape);
    return round_solve_built(arena, program, start, blocks);
}

LpSolution round_solve(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                       ProgramAim aim) {
    at->program = ration_program(arena, question, at->states, aim);
    at->answer = NULL;
    if (!at->room)
        return round_solve_program(arena, &at->program, at->start, &at->blocks);
    at->blocks = block_room_program(at->room, arena, at->program.lp, &at->program.shape);
    const LpSolution solution = ration_program_solve_in(
        arena, &at->program, at->start, at->is_verdict ? VERDICT_SHARE : 0.0, &at->blocks);
    return left_to(at->start, at->blocks, solution);
}

/* Relative change of the aim that ends the rounds. */
static double same_aim(const PlanRounds *at, ProgramAim aim) {
    if (aim == AIM_LEAST_COST)
        return SAME_COST;
    return at->is_verdict ? SAME_VERDICT : SAME_SHORTAGE;
}

static void copy_states(const PlanQuestion *question, const BlockState *from, BlockState *to) {
    for (int b = 0; b < question->block_count; b++)
        to[b] = from[b];
}

/* Half way back to the last that worked. */
static void draw_back(const PlanQuestion *question, const BlockState *worked,
                      BlockState *states) {
    for (int b = 0; b < question->block_count; b++)
        states[b] = round_halfway(worked[b], states[b], 0.5);
}

/* Leaves no program, and none in memory. */
static void give_back(PlanRounds *at, Arena **kept) {
    rounds_forget_program(at);
    arena_close(*kept);
    *kept = NULL;
}

bool rounds_iterate(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                    ProgramAim aim) {
    const size_t bytes = (size_t)question->block_count;
    BlockState *worked = ARENA_ARRAY(arena, BlockState, bytes);
    RationProgram program_worked = {0};
    BlockProgram *blocks_worked = NULL;
    const double same = same_aim(at, aim);
    Arena *kept = NULL; /* of the last round that worked */
    bool has_worked = false;
    int drawn_back = 0;
    if (!at->states)
        at->states = first_states(arena, question);
    at->change = NO_LIMIT;
    for (at->rounds = 1; at->rounds <= MOST_ROUNDS; at->rounds++) {
        if (at->is_verdict && has_worked) { /* one program is large enough */
            give_back(at, &kept);
            program_worked = at->program;
            blocks_worked = NULL;
        }
        Arena *of_round = arena_open();
        const LpSolution solution = round_solve(of_round, at, question, aim);
        if (solution.status != LP_OPTIMAL) {
            arena_close(of_round);
            if (!has_worked || drawn_back++ >= 6) {
                at->solution = solution;
                if (kept)
                    arena_adopt(arena, kept);
                return false;
            }
            draw_back(question, worked, at->states);
            continue;
        }
        const bool is_same =
            has_worked && fabs(solution.cost - at->solution.cost) <= same * solution.cost;
        at->solution = solution;
        arena_close(kept);
        kept = of_round;
        copy_states(question, at->states, worked);
        has_worked = true;
        at->change = round_move_states(arena, at, question);
        if (at->only_states)
            give_back(at, &kept);
        program_worked = at->program;
        blocks_worked = at->blocks;
        if (at->change < SETTLED || (is_same && (at->is_verdict || at->change < LITTLE_MOVED)))
            break;
    }
    copy_states(question, worked, at->states);
    at->program = program_worked;
    at->blocks = blocks_worked;
    if (kept)
        arena_adopt(arena, kept);
    return at->solution.status == LP_OPTIMAL;
}

BlockState *rounds_copied_states(Arena *arena, const PlanRounds *at,
                                 const PlanQuestion *question) {
    BlockState *copy = ARENA_ARRAY(arena, BlockState, question->block_count);
    copy_states(question, at->states, copy);
    return copy;
}

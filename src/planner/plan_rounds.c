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
#define LITTLE_MISSED 0.004 /* of a law: what is let pass of even rations too */
#define SAME_VERDICT 0.1    /* a shortage that falls no faster does not go to nothing */
#define VERDICT_SHARE 0.01  /* how near a shortage is found where there is one */
/* How near the cost of a round is found that another follows, as a share of it. */
#define FIRST_SHARE 1e-2
#define LATER_SHARE 2e-6
#define DAMPED_AFTER 6    /* rounds; a ration that flips between two is met half way */
#define MOST_DRAWN_BACK 2 /* rounds without an answer; the least shortage then tells more */
#define START_NEM_COW 1.45
#define START_NEM_GROWING 1.50
#define START_GAIN_PER_UPKEEP 0.58 /* NEg to NEm of middling feed */

static BlockState *first_states(Arena *arena, const PlanQuestion *question) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, question->block_count);
    for (int b = 0; b < question->block_count; b++) {
        const bool grows = question->blocks[b].need.retained.mcal_per_day > 0.0;
        states[b] =
            (BlockState){grows ? START_NEM_GROWING : START_NEM_COW, START_GAIN_PER_UPKEEP};
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
    const bool grows = need->retained.mcal_per_day > 0.0;
    return fmax(fabs(after / before - 1.0),
                grows ? fabs(a.gain_per_upkeep - b.gain_per_upkeep) : 0.0);
}

BlockState round_halfway(BlockState a, BlockState b, double share_of_b) {
    const double share_of_a = 1.0 - share_of_b;
    return (BlockState){share_of_a * a.diet_nem + share_of_b * b.diet_nem,
                        share_of_a * a.gain_per_upkeep + share_of_b * b.gain_per_upkeep};
}

double round_move_states(Arena *arena, PlanRounds *at, const PlanQuestion *question) {
    double largest = 0.0;
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    const double step = at->rounds > DAMPED_AFTER ? 0.5 : 1.0;
    for (int b = 0; b < question->block_count; b++) {
        outcome_eaten(&at->program, &at->solution, b, eaten);
        const BlockState found = ration_state(question, eaten, at->states[b]);
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
        at->states[b] = ration_state(question, eaten, at->states[b]);
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

void rounds_let_blocks_go(PlanRounds *at) {
    if (!at->of_blocks)
        return;
    arena_close(at->of_blocks);
    at->of_blocks = NULL;
    at->blocks = NULL;
}

LpSolution round_solve_built(Arena *arena, const RationProgram *program, BlockStart *start,
                             BlockProgram **blocks) {
    const LpSolution solution = ration_program_solve_in(arena, program, start, 0.0, blocks);
    return left_to(start, *blocks, solution);
}

LpSolution round_solve(Arena *arena, Arena *of_solution, PlanRounds *at,
                       const PlanQuestion *question, ProgramAim aim) {
    at->program = ration_program(arena, question, at->states, aim);
    at->answer = NULL;
    at->blocks = at->room
                     ? block_room_program(at->room, arena, at->program.lp, &at->program.shape)
                     : block_program(arena, at->program.lp, &at->program.shape);
    const LpSolution solution = ration_program_solve_in(
        of_solution, &at->program, at->start, at->room ? at->content : 0.0, &at->blocks);
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

/* The rounds of one aim. One program is in memory at a time: that of a large farm is large. */
typedef struct {
    Arena *arena;
    PlanRounds *at;
    const PlanQuestion *question;
    ProgramAim aim;
    Arena *of_program, *of_solution; /* NULL: none is kept */
    BlockState *worked;              /* those of the last round that had an answer */
    bool has_worked;
    int drawn_back;
} Following;

static void give_back(Following *rounds) {
    rounds_forget_program(rounds->at);
    arena_close(rounds->of_program);
    arena_close(rounds->of_solution);
    rounds->of_program = rounds->of_solution = NULL;
}

/* Solves the program of the states in `at`, in place of the last one. One without an answer
 * leaves none, and what `at` says is of the last. */
static LpSolution solve_next(Following *rounds) {
    give_back(rounds);
    rounds->of_program = arena_open();
    rounds->of_solution = arena_open();
    const LpSolution solution = round_solve(rounds->of_program, rounds->of_solution, rounds->at,
                                            rounds->question, rounds->aim);
    if (solution.status == LP_OPTIMAL)
        rounds->at->solution = solution;
    else
        give_back(rounds);
    return solution;
}

static double first_content(const Following *rounds) {
    if (rounds->at->is_verdict)
        return VERDICT_SHARE;
    return rounds->aim == AIM_LEAST_COST ? FIRST_SHARE : 0.0;
}

/* The same program as near as prices come, in place of what was found; what was proposed is
 * used again. */
static void solve_nearer(Following *rounds) {
    PlanRounds *at = rounds->at;
    if (at->is_verdict || at->content == 0.0)
        return;
    at->content = 0.0;
    if (!at->blocks) /* solved whole */
        return;
    block_program_be_content_with(at->blocks, 0.0);
    arena_close(rounds->of_solution);
    rounds->of_solution = arena_open();
    const LpSolution nearer =
        ration_program_solve_in(rounds->of_solution, &at->program, NULL, 0.0, &at->blocks);
    at->solution = left_to(at->start, at->blocks, nearer);
}

/* By how much the rations found miss the laws. A row is off by the square of the distance from
 * its state: rations that flip between equals may lie far from it and keep the law. */
static double largest_miss(const Following *rounds) {
    const PlanRounds *at = rounds->at;
    Arena *scratch = arena_open();
    double *eaten = ARENA_ARRAY(scratch, double, rounds->question->feed_count);
    double largest = 0.0;
    for (int b = 0; b < rounds->question->block_count; b++) {
        BlockOutcome outcome = {.eaten = eaten, .state = rounds->worked[b]};
        outcome_eaten(&at->program, &at->solution, b, eaten);
        outcome_run_forward(rounds->question, b, &outcome);
        largest =
            fmax(largest, outcome_law_miss(&outcome, &rounds->question->blocks[b].need, true));
    }
    arena_close(scratch);
    return largest;
}

static bool is_settled(const Following *rounds, bool is_same) {
    const PlanRounds *at = rounds->at;
    if (at->change < SETTLED || !is_same)
        return at->change < SETTLED;
    if (at->is_verdict || at->change < LITTLE_MOVED)
        return true;
    return rounds->aim == AIM_LEAST_COST && !at->only_states &&
           largest_miss(rounds) < LITTLE_MISSED;
}

/* Takes the states that were found. Whether they are those the program was of, which is then
 * solved as near as prices come. */
static bool take_states(Following *rounds, bool is_same) {
    PlanRounds *at = rounds->at;
    rounds->has_worked = true;
    copy_states(rounds->question, at->states, rounds->worked);
    at->change = round_move_states(rounds->arena, at, rounds->question);
    const bool has_settled = is_settled(rounds, is_same);
    if (!has_settled || at->content == 0.0 || at->is_verdict)
        return has_settled;
    solve_nearer(rounds);
    if (at->solution.status != LP_OPTIMAL)
        return true;
    copy_states(rounds->question, rounds->worked, at->states);
    at->change = round_move_states(rounds->arena, at, rounds->question);
    return is_settled(rounds, is_same);
}

/* Leaves the states, the program and the answer of the last round that worked. */
static bool end_with_worked(Following *rounds) {
    PlanRounds *at = rounds->at;
    copy_states(rounds->question, rounds->worked, at->states);
    if (at->only_states)
        give_back(rounds);
    else if (rounds->of_program)
        solve_nearer(rounds);
    else if (!at->is_verdict) {
        at->content = 0.0;
        at->solution = solve_next(rounds);
    }
    return at->solution.status == LP_OPTIMAL;
}

static bool follow(Following *rounds) {
    PlanRounds *at = rounds->at;
    const double same = same_aim(at, rounds->aim);
    at->content = first_content(rounds);
    at->change = NO_LIMIT;
    for (at->rounds = 1; at->rounds <= MOST_ROUNDS; at->rounds++) {
        const double last_cost = at->solution.cost;
        const LpSolution solution = solve_next(rounds);
        if (solution.status != LP_OPTIMAL) {
            if (!rounds->has_worked || rounds->drawn_back++ >= MOST_DRAWN_BACK) {
                at->solution = solution;
                return false;
            }
            draw_back(rounds->question, rounds->worked, at->states);
            continue;
        }
        const bool is_same =
            rounds->has_worked && fabs(solution.cost - last_cost) <= same * solution.cost;
        if (take_states(rounds, is_same))
            break;
        if (rounds->aim == AIM_LEAST_COST && at->content > 0.0)
            at->content = LATER_SHARE;
    }
    return end_with_worked(rounds);
}

bool rounds_iterate(Arena *arena, PlanRounds *at, const PlanQuestion *question,
                    ProgramAim aim) {
    Following rounds = {.arena = arena,
                        .at = at,
                        .question = question,
                        .aim = aim,
                        .worked = ARENA_ARRAY(arena, BlockState, question->block_count)};
    const bool has_room = at->room != NULL;
    if (!has_room) {
        at->of_blocks = arena_open();
        arena_adopt(arena, at->of_blocks);
        at->room = ARENA_NEW(at->of_blocks, BlockRoom);
        at->room->arena = at->of_blocks;
    }
    if (!at->states)
        at->states = first_states(arena, question);
    const bool is_found = follow(&rounds);
    if (!has_room)
        at->room = NULL;
    if (rounds.of_program) {
        arena_adopt(arena, rounds.of_program);
        arena_adopt(arena, rounds.of_solution);
    }
    return is_found;
}

bool round_has_stood_still(const PlanRounds *at, double last_cost) {
    return at->change < LITTLE_MOVED &&
           fabs(at->solution.cost - last_cost) <= SAME_COST * at->solution.cost;
}

BlockState *rounds_copied_states(Arena *arena, const PlanRounds *at,
                                 const PlanQuestion *question) {
    BlockState *copy = ARENA_ARRAY(arena, BlockState, question->block_count);
    copy_states(question, at->states, copy);
    return copy;
}

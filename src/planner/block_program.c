#include "planner/block_program.h"
#include "base/quantity.h"
#include "planner/block_master.h"
#include <math.h>
#include <string.h>

#define MOST_ROUNDS 600
#define CENTER_SHARE 0.5
/* The price of using more of a tying row than there is, in terms of what a unit of them costs
 * on the whole; raised until nothing is, or the program taken to be infeasible. */
#define FIRST_PENALTY 4.0
#define PENALTY_TIMES 10.0
#define PENALTY_RAISES 7
#define OVERUSED_GAP 1e-3 /* near enough to see that a penalty is too low */
#define CLOSE_ENOUGH 1e-7 /* where the master is solved no nearer */
#define OVERUSE 1e-10     /* of 1 + the bound */
#define IN_USE 1e-11      /* share of a proposal */
#define IMPROVES 1e-10    /* of the cost of a family */

BlockProgram *block_program(Arena *arena, const LinearProgram *lp, const BlockShape *shape) {
    if (lp_row_count(lp) != shape->row_count || lp_column_count(lp) != shape->column_count)
        return NULL;
    BlockParts *parts = block_parts(arena, lp, shape);
    if (!parts)
        return NULL;
    BlockProgram *program = ARENA_NEW(arena, BlockProgram);
    *program = (BlockProgram){
        .arena = arena,
        .parts = parts,
        .center = ARENA_ARRAY(arena, double, parts->tie_count),
        .price = ARENA_ARRAY(arena, double, parts->tie_count),
        .master_price = ARENA_ARRAY(arena, double, parts->tie_count),
        .family_price = ARENA_ARRAY(arena, double, shape->family_count),
        .own_value = ARENA_ARRAY(arena, double, parts->own_count),
        .asked = block_master_proposal(arena, parts),
        .gap = BLOCK_PROGRAM_GAP,
        .most_rounds = MOST_ROUNDS,
    };
    program->basis.row =
        ARENA_ARRAY(arena, unsigned char, parts->tie_count + shape->family_count);
    return program;
}

BlockEffort block_program_effort(const BlockProgram *program) {
    BlockEffort effort = program->effort;
    effort.block_steps = small_steps(program->parts->work);
    return effort;
}

void block_program_be_content_with(BlockProgram *program, double share) {
    program->content = share;
}

/* ---- prices to begin with ---- */

/* A row that a column of no block feeds without limit costs no more than that column. */
static void first_prices(BlockProgram *program) {
    const BlockParts *parts = program->parts;
    const LinearProgram *lp = parts->lp;
    memset(program->center, 0, (size_t)parts->tie_count * sizeof(double));
    for (int c = 0; c < parts->own_count; c++) {
        const int column = parts->own_column[c];
        const int first = parts->terms.start[column];
        if (parts->terms.start[column + 1] != first + 1 || lp_column_most(lp, column) <= 0.0)
            continue;
        const int tie = parts->tie_of_row[parts->terms.row[first]];
        const double coefficient = parts->terms.coefficient[first];
        const double price = lp_cost(lp, column) / coefficient;
        const bool helps = isfinite(lp_row_most(lp, parts->tie_row[tie])) ? coefficient < 0.0
                                                                          : coefficient > 0.0;
        if (helps && (program->center[tie] == 0.0 || fabs(price) < fabs(program->center[tie])))
            program->center[tie] = price;
    }
    program->has_prices = true;
}

/* Cost for each unit of all tying rows that the first proposals use; at least 1. */
static double mean_cost_of_use(const BlockProgram *program) {
    double cost = 0.0;
    double use = 0.0;
    for (int p = 0; p < program->count; p++) {
        cost += fabs(program->proposals[p].cost);
        for (int t = 0; t < program->parts->tie_count; t++)
            use += fabs(program->proposals[p].use[t]);
    }
    return use > 0.0 ? fmax(cost / use, 1.0) : 1.0;
}

/* ---- the blocks at given prices ---- */

static double at_bound(double price, double least, double most) {
    if (price == 0.0)
        return 0.0;
    return price * (price > 0.0 ? least : most);
}

/* What tying rows and columns of no block add to the bound. */
static double bound_of_ties(const BlockProgram *program) {
    const BlockParts *parts = program->parts;
    const LinearProgram *lp = parts->lp;
    double bound = 0.0;
    for (int t = 0; t < parts->tie_count; t++)
        bound += at_bound(program->price[t], lp_row_least(lp, parts->tie_row[t]),
                          lp_row_most(lp, parts->tie_row[t]));
    for (int c = 0; c < parts->own_count; c++) {
        const int column = parts->own_column[c];
        double reduced = lp_cost(lp, column);
        for (int k = parts->terms.start[column]; k < parts->terms.start[column + 1]; k++)
            reduced -= program->price[parts->tie_of_row[parts->terms.row[k]]] *
                       parts->terms.coefficient[k];
        if (fabs(reduced) > 1e-9 * (1.0 + fabs(lp_cost(lp, column))))
            bound += at_bound(reduced, lp_column_least(lp, column), lp_column_most(lp, column));
    }
    return bound;
}

/* Asks every family; keeps what the master would gain by. */
static LpStatus ask_blocks(BlockProgram *program, bool *has_more) {
    BlockParts *parts = program->parts;
    double bound = bound_of_ties(program);
    *has_more = false;
    program->effort.rounds++;
    for (int f = 0; f < parts->shape.family_count; f++) {
        Proposal *asked = &program->asked;
        memcpy(asked->price, program->price, (size_t)parts->tie_count * sizeof(double));
        const LpStatus status = block_parts_propose(parts, f, asked);
        if (status != LP_OPTIMAL)
            return status;
        bound += block_priced(program, asked, program->price) - asked->over;
        const double saves =
            program->family_price[f] - block_priced(program, asked, program->master_price);
        if (program->has_master && saves <= IMPROVES * (1.0 + fabs(asked->cost)))
            continue;
        block_master_keep(program, f);
        *has_more = true;
    }
    program->effort.block_solves += parts->shape.block_count;
    if (bound > program->best_bound) {
        program->best_bound = bound;
        memcpy(program->center, program->price, (size_t)parts->tie_count * sizeof(double));
    }
    return LP_OPTIMAL;
}

/* ---- prices until they settle ---- */

static void draw_prices(BlockProgram *program, double center_share) {
    for (int t = 0; t < program->parts->tie_count; t++)
        program->price[t] =
            center_share * program->center[t] + (1.0 - center_share) * program->master_price[t];
}

static bool is_within(const BlockProgram *program, double gap) {
    return program->master_cost - program->best_bound <=
           gap * (1.0 + fabs(program->master_cost));
}

static bool is_closed(const BlockProgram *program) {
    if (program->overuse <= OVERUSE && program->master_cost - program->best_bound <=
                                           program->content * fabs(program->master_cost))
        return true;
    return is_within(program, program->overuse > OVERUSE ? fmax(OVERUSED_GAP, program->gap)
                                                         : program->gap);
}

/* Asks the blocks and, if they have something new, the master. *is_moved tells whether prices
 * changed by it. */
static LpStatus take_round(BlockProgram *program, double center_share, bool *is_moved) {
    bool has_more;
    *is_moved = false;
    block_master_drop_idle(program);
    draw_prices(program, center_share);
    LpStatus status = ask_blocks(program, &has_more);
    if (status != LP_OPTIMAL || !has_more)
        return status;
    const int before = program->effort.master_iterations;
    status = block_master_solve(program);
    *is_moved = program->effort.master_iterations > before;
    return status;
}

/* Until the master and the blocks agree at this penalty. Where neither moves at the master's
 * own prices, they agree as near as the master is solved. */
static LpStatus settle(BlockProgram *program) {
    LpStatus status = block_master_solve(program);
    double center_share = CENTER_SHARE;
    for (int round = 0; status == LP_OPTIMAL && !is_closed(program); round++) {
        bool is_moved;
        if (round == program->most_rounds)
            return LP_FAILED;
        status = take_round(program, center_share, &is_moved);
        if (!is_moved && center_share == 0.0)
            return is_within(program, fmax(CLOSE_ENOUGH, program->gap)) ? status : LP_FAILED;
        center_share = is_moved ? CENTER_SHARE : 0.0;
    }
    return status;
}

static LpStatus find_prices(BlockProgram *program) {
    const size_t bytes = (size_t)program->parts->tie_count * sizeof(double);
    if (!program->has_prices)
        first_prices(program);
    program->best_bound = -NO_LIMIT;
    memcpy(program->price, program->center, bytes);
    bool has_more;
    LpStatus status = ask_blocks(program, &has_more);
    if (program->first_penalty == 0.0)
        program->first_penalty = FIRST_PENALTY * mean_cost_of_use(program);
    program->penalty = program->first_penalty;
    for (int raise = 0; status == LP_OPTIMAL && raise < PENALTY_RAISES; raise++) {
        status = settle(program);
        if (status != LP_OPTIMAL || program->overuse <= OVERUSE)
            return status;
        program->penalty *= PENALTY_TIMES;
    }
    return status == LP_OPTIMAL ? LP_INFEASIBLE : status;
}

/* ---- the answer ---- */

/* NULL when a ration cannot be told from its basis. */
static double *values_of(const BlockProgram *program, Arena *arena) {
    BlockParts *parts = program->parts;
    double *value = ARENA_ARRAY(arena, double, lp_column_count(parts->lp));
    for (int c = 0; c < parts->own_count; c++)
        value[parts->own_column[c]] = program->own_value[c];
    for (int p = 0; p < program->count; p++) {
        if (program->share[p] > IN_USE &&
            !block_parts_add_values(parts, program->family[p], &program->proposals[p],
                                    program->share[p], value))
            return NULL;
    }
    return value;
}

static void own_duals(const BlockProgram *program, double *reduced_cost, double *shadow_price,
                      LpBasis *basis) {
    const BlockParts *parts = program->parts;
    for (int t = 0; t < parts->tie_count; t++) {
        shadow_price[parts->tie_row[t]] = program->center[t];
        basis->row[parts->tie_row[t]] = BASIC;
    }
    for (int c = 0; c < parts->own_count; c++) {
        const int column = parts->own_column[c];
        reduced_cost[column] = lp_cost(parts->lp, column);
        for (int k = parts->terms.start[column]; k < parts->terms.start[column + 1]; k++)
            reduced_cost[column] -= program->center[parts->tie_of_row[parts->terms.row[k]]] *
                                    parts->terms.coefficient[k];
        /* A purchase that pays for its row stands for it in the basis. */
        const int first = parts->terms.start[column];
        const int row =
            parts->terms.start[column + 1] == first + 1 ? parts->terms.row[first] : -1;
        const bool pays = row >= 0 && program->own_value[c] > 0.0 && basis->row[row] == BASIC;
        basis->column[column] = pays ? BASIC : AT_LEAST;
        if (pays)
            basis->row[row] = isfinite(lp_row_most(parts->lp, row)) ? AT_MOST : AT_LEAST;
    }
}

LpSolution block_program_solve(BlockProgram *program, Arena *arena) {
    BlockParts *parts = program->parts;
    const LinearProgram *lp = parts->lp;
    const LpStatus status = find_prices(program);
    if (status != LP_OPTIMAL)
        return (LpSolution){.status = status, .remark = "no prices were found for the stacks"};
    const double *value = values_of(program, arena);
    if (!value)
        return (LpSolution){.status = LP_FAILED, .remark = "a ration could not be read"};
    double *reduced_cost = ARENA_ARRAY(arena, double, lp_column_count(lp));
    double *shadow_price = ARENA_ARRAY(arena, double, lp_row_count(lp));
    LpBasis basis = {lp_row_count(lp), lp_column_count(lp),
                     ARENA_ARRAY(arena, unsigned char, lp_row_count(lp)),
                     ARENA_ARRAY(arena, unsigned char, lp_column_count(lp))};
    for (int b = 0; b < parts->shape.block_count; b++) {
        const LpStatus solved =
            block_parts_duals(parts, b, program->center, reduced_cost, shadow_price, &basis);
        if (solved != LP_OPTIMAL)
            return (LpSolution){.status = LP_FAILED, .remark = "a ration could not be priced"};
    }
    own_duals(program, reduced_cost, shadow_price, &basis);
    return (LpSolution){.status = LP_OPTIMAL,
                        .cost = lp_cost_of(lp, value),
                        .value = value,
                        .reduced_cost = reduced_cost,
                        .shadow_price = shadow_price,
                        .basis = basis,
                        .iterations = program->effort.master_iterations,
                        .remark = ""};
}

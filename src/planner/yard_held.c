#include "planner/yard_held.h"
#include <math.h>
#include <string.h>

#define WHOLE_ROWS 20000 /* of more, the simplex takes longer than anyone waits for */

/* What is left of a row of the yard when the whole numbers are put in. */
typedef struct {
    double constant;
    int terms;           /* with columns of the base */
    int column;          /* the last of them */
    double per_unit;     /* its coefficient */
    int block;           /* of all of them; -1: of several, or none */
    bool is_open;        /* it has a column that is not fixed */
    bool is_of_left_out; /* of a feed that is not in the ration */
    bool is_shut;        /* of a face: nothing is taken of it, or all that is wanted */
    bool has_negative;   /* coefficient */
} Rest;

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    const double *fixed;
    LpTerms terms;
    Rest *rests; /* by row after the base's */
    RationProgram *held;
} Holder;

static bool *used_columns(const Holder *holder) {
    const YardProgram *yard = holder->yard;
    const PlanQuestion *question = yard->base->question;
    bool *is_used = ARENA_ARRAY(holder->arena, bool, lp_column_count(yard->lp));
    for (int i = 0; i < question->block_count * question->feed_count; i++) {
        if (yard->used[i] >= 0)
            is_used[yard->used[i]] = true;
    }
    return is_used;
}

static void add_base_term(const Holder *holder, Rest *rest, int column, double coefficient) {
    const int block = holder->yard->base->shape.block_of_column[column];
    rest->block = rest->terms == 0 || rest->block == block ? block : -1;
    rest->has_negative |= coefficient < 0.0;
    rest->terms++;
    rest->column = column;
    rest->per_unit = coefficient;
}

static void find_rests(Holder *holder) {
    const YardProgram *yard = holder->yard;
    const bool *is_used = used_columns(holder);
    holder->rests = ARENA_ARRAY(holder->arena, Rest, lp_row_count(yard->lp) - yard->base_rows);
    for (int j = 0; j < lp_column_count(yard->lp); j++) {
        for (int k = holder->terms.start[j]; k < holder->terms.start[j + 1]; k++) {
            const int row = holder->terms.row[k] - yard->base_rows;
            if (row < 0)
                continue;
            Rest *rest = &holder->rests[row];
            if (j < yard->base_columns)
                add_base_term(holder, rest, j, holder->terms.coefficient[k]);
            else if (isfinite(holder->fixed[j]))
                rest->constant += holder->terms.coefficient[k] * holder->fixed[j];
            else
                rest->is_open = true;
            rest->is_of_left_out |= is_used[j] && holder->fixed[j] < 0.5;
        }
    }
    for (int i = 0; i < yard->slice_count * yard->base->question->feed_count; i++) {
        if (yard->shut[i] >= 0)
            holder->rests[yard->shut[i] - yard->base_rows].is_shut = true;
    }
}

/* Of what is not open nothing is eaten: a bound of each column and no row of many rations. */
static void hold_shut(const Holder *holder, const int *row_of) {
    const YardProgram *yard = holder->yard;
    for (int j = 0; j < yard->base_columns; j++) {
        for (int k = holder->terms.start[j]; k < holder->terms.start[j + 1]; k++) {
            const int row = holder->terms.row[k] - yard->base_rows;
            if (row >= 0 && row_of[row] < 0 && holder->rests[row].is_shut &&
                !holder->rests[row].is_open && holder->rests[row].constant == 0.0)
                lp_set_column_bounds(holder->held->lp, j, 0.0, 0.0);
        }
    }
}

#define ROUNDING 1e-6 /* between two bounds that should be one */

/* A row of one column as bounds of it. False when these leave it nothing: it must stay a row.
 */
static bool hold_column(LinearProgram *lp, const Rest *rest, double least, double most) {
    const double at_least = (rest->per_unit > 0.0 ? least : most) / rest->per_unit;
    const double at_most = (rest->per_unit > 0.0 ? most : least) / rest->per_unit;
    const double low = fmax(lp_column_least(lp, rest->column), at_least);
    const double high = fmin(lp_column_most(lp, rest->column), at_most);
    if (low > high + ROUNDING * (1.0 + fabs(high)))
        return false;
    lp_set_column_bounds(lp, rest->column, low, fmax(high, low));
    return true;
}

/* Of what is bought by the load there is no more than whole loads. */
static void hold_purchases(const Holder *holder) {
    const YardProgram *yard = holder->yard;
    for (int f = 0; f < yard->base->question->feed_count; f++) {
        const int loads = yard->loads[f];
        if (loads < 0 || isfinite(holder->fixed[loads]))
            continue;
        const Rest rest = {.column = yard->base->bought[f], .per_unit = 1.0};
        hold_column(holder->held->lp, &rest, -NO_LIMIT,
                    lp_column_most(yard->lp, loads) * yard->base->question->feeds[f].load_kg /
                        KG_PER_TONNE);
    }
}

/* Row numbers in the held program, -1 of those that became bounds or say nothing. */
static int *add_rows(Holder *holder) {
    const YardProgram *yard = holder->yard;
    LinearProgram *lp = holder->held->lp;
    const int extra = lp_row_count(yard->lp) - yard->base_rows;
    int *row_of = ARENA_ARRAY(holder->arena, int, extra);
    for (int i = 0; i < extra; i++) {
        const Rest *rest = &holder->rests[i];
        const double least = lp_row_least(yard->lp, yard->base_rows + i) - rest->constant;
        const double most = lp_row_most(yard->lp, yard->base_rows + i) - rest->constant;
        row_of[i] = -1;
        if (rest->is_open || rest->terms == 0)
            continue;
        if (rest->terms == 1 && hold_column(lp, rest, least, most))
            continue;
        const bool says_nothing = rest->is_shut || rest->is_of_left_out ||
                                  yard->is_idle[yard->base_rows + i] ||
                                  (most >= NO_LIMIT && least <= 0.0 && !rest->has_negative);
        if (rest->terms == 1 || !says_nothing)
            row_of[i] = lp_add_row(lp, least, most);
    }
    return row_of;
}

static void extend_shape(Holder *holder, const int *row_of) {
    const YardProgram *yard = holder->yard;
    BlockShape *shape = &holder->held->shape;
    const int rows = lp_row_count(holder->held->lp);
    int *block_of_row = ARENA_ARRAY(holder->arena, int, rows);
    memcpy(block_of_row, shape->block_of_row, (size_t)yard->base_rows * sizeof(int));
    for (int i = 0; i < lp_row_count(yard->lp) - yard->base_rows; i++) {
        if (row_of[i] >= 0)
            block_of_row[row_of[i]] = holder->rests[i].block;
    }
    shape->block_of_row = block_of_row;
    shape->row_count = rows;
}

RationProgram yard_held_program(Arena *arena, const YardProgram *yard, const double *fixed) {
    RationProgram held = *yard->base;
    held.lp = lp_copy(yard->base->lp, arena);
    Holder holder = {arena, yard, fixed, lp_terms(yard->lp, arena), NULL, &held};
    find_rests(&holder);
    hold_purchases(&holder);
    const int *row_of = add_rows(&holder);
    hold_shut(&holder, row_of);
    for (int j = 0; j < yard->base_columns; j++) {
        for (int k = holder.terms.start[j]; k < holder.terms.start[j + 1]; k++) {
            const int row = holder.terms.row[k] - yard->base_rows;
            if (row >= 0 && row_of[row] >= 0)
                lp_add_term(held.lp, row_of[row], j, holder.terms.coefficient[k]);
        }
    }
    extend_shape(&holder, row_of);
    return held;
}

bool yard_ties_periods(const YardRules *rules) {
    return rules->is_on[YARD_RULE_LARGEST_CHANGE];
}

bool yard_chooses_feeds(const YardRules *rules) {
    return rules->is_on[YARD_RULE_MOST_FEEDS] || rules->is_on[YARD_RULE_LEAST_SHARE];
}

/* Rows of the winter itself: those the question's shape had before any were added. */
static int rows_of_base(const RationProgram *held) {
    int rows = 0;
    for (int b = 0; b < held->question->block_count; b++) {
        const BlockLimits *of = &held->blocks[b];
        for (int i = 0; i < of->count; i++) {
            rows = of->least_row[i] >= rows ? of->least_row[i] + 1 : rows;
            rows = of->most_row[i] >= rows ? of->most_row[i] + 1 : rows;
            rows = of->warn_row[i] >= rows ? of->warn_row[i] + 1 : rows;
        }
    }
    return held->carry_over_row >= rows ? held->carry_over_row + 1 : rows;
}

LpSolution yard_held_near(Arena *arena, const RationProgram *held, const LpSolution *of) {
    const int rows = lp_row_count(held->lp);
    const int base_rows = rows_of_base(held);
    const size_t shared =
        (size_t)(of->basis.row_count < base_rows ? of->basis.row_count : base_rows);
    double *price = ARENA_ARRAY(arena, double, rows);
    LpSolution near = {.status = LP_OPTIMAL, .shadow_price = price, .basis = of->basis};
    near.basis.row_count = rows;
    near.basis.row = ARENA_ARRAY(arena, unsigned char, rows);
    memset(near.basis.row, BASIC, (size_t)rows);
    memcpy(near.basis.row, of->basis.row, shared);
    memcpy(price, of->shadow_price, shared * sizeof *price);
    return near;
}

LpSolution yard_held_solve(Arena *arena, const RationProgram *held, const LpSolution *near,
                           double content, BlockProgram **blocks) {
    LpSolution start = {.status = LP_FAILED};
    if (near)
        start = yard_held_near(arena, held, near);
    *blocks = block_program(arena, held->lp, &held->shape);
    if (*blocks) {
        block_program_be_content_with(*blocks, content);
        if (near)
            block_program_start_near(*blocks, &start);
        const LpSolution solution = block_program_solve(*blocks, arena);
        if (solution.status != LP_FAILED)
            return solution;
    }
    *blocks = NULL;
    if (lp_row_count(held->lp) > WHOLE_ROWS)
        return (LpSolution){.status = LP_FAILED, .remark = "prices did not settle"};
    return near ? lp_solve(held->lp, arena, START_BOUNDS_CHANGED, &start.basis, 0)
                : lp_solve(held->lp, arena, START_COLD, NULL, 0);
}

#include "planner/small_work.h"
#include <string.h>

#define ROUNDING 1e-12 /* of the dearest basic column: no price is surer */
#define MOST_PASSES 4

SmallWork *small_work(Arena *arena, int most_rows, int most_columns) {
    const int square = most_rows < most_columns ? most_rows : most_columns;
    SmallWork *work = ARENA_NEW(arena, SmallWork);
    *work = (SmallWork){
        .shifted = ARENA_ARRAY(arena, double, most_columns),
        .basic = ARENA_ARRAY(arena, int, most_columns),
        .tight = ARENA_ARRAY(arena, int, most_rows),
        .place_of_column = ARENA_ARRAY(arena, int, most_columns),
        .place_of_row = ARENA_ARRAY(arena, int, most_rows),
        .column_side = ARENA_ARRAY(arena, unsigned char, most_columns),
        .row_side = ARENA_ARRAY(arena, unsigned char, most_rows),
        .factor = ARENA_ARRAY(arena, double, square *square),
        .swap = ARENA_ARRAY(arena, int, square),
        .value = ARENA_ARRAY(arena, double, most_columns),
        .activity = ARENA_ARRAY(arena, double, most_rows),
        .price = ARENA_ARRAY(arena, double, most_rows),
        .reduced = ARENA_ARRAY(arena, double, most_columns),
        .column_rate = ARENA_ARRAY(arena, double, most_columns),
        .row_rate = ARENA_ARRAY(arena, double, most_rows),
        .side = ARENA_ARRAY(arena, double, square),
        .solved = ARENA_ARRAY(arena, double, square),
        .dense_basic = ARENA_ARRAY(arena, int, square),
        .dense_value = ARENA_ARRAY(arena, double, square),
        .ways = ARENA_ARRAY(arena, Way, most_rows + most_columns),
        .allowed = ARENA_ARRAY(arena, double, most_rows + most_columns),
    };
    return work;
}

const double *small_values(const SmallWork *work) { return work->value; }
const double *small_reduced_costs(const SmallWork *work) { return work->reduced; }
const double *small_row_prices(const SmallWork *work) { return work->price; }
bool small_is_as_before(const SmallWork *work) { return work->is_as_before; }
long small_steps(const SmallWork *work) { return work->steps; }

double small_cost(const SmallWork *work) {
    double cost = 0.0;
    for (int j = 0; j < work->program->columns; j++)
        cost += work->cost[j] * work->value[j];
    return cost;
}

void small_basis_reset(const SmallProgram *program, SmallBasis *basis) {
    memset(basis->row, BASIC, (size_t)program->rows);
    memset(basis->column, AT_LEAST, (size_t)program->columns);
    basis->keeps_bounds = false;
    if (basis->kept)
        basis->kept->is_good = false;
}

/* ---- primal steps ---- */

/* The sizes of the terms that make a reduced cost: what of it is rounding goes with them. */
static double size_of(const SmallWork *work, int column) {
    double size = fabs(work->cost[column]);
    for (int t = 0; t < work->count; t++) {
        const int row = work->tight[t];
        size += fabs(work->price[row] * term_at(work->program, row, column));
    }
    return size;
}

/* The variable that saves most for each unit moved, or the first that saves; -1: none. */
static int saving_variable(const SmallWork *work, bool first) {
    const SmallProgram *program = work->program;
    int best = -1;
    double most = 0.0;
    for (int j = 0; j < program->columns; j++) {
        const double saves =
            work->column_side[j] == AT_MOST ? work->reduced[j] : -work->reduced[j];
        if (saves <= most || work->place_of_column[j] >= 0 ||
            program->least[j] == program->most[j] ||
            saves <= OPTIMAL * size_of(work, j) + ROUNDING * work->largest_price)
            continue;
        best = j;
        most = saves;
        if (first)
            return best;
    }
    for (int i = 0; i < program->rows; i++) {
        const double saves = work->row_side[i] == AT_MOST ? work->price[i] : -work->price[i];
        if (saves <= most || saves <= OPTIMAL * work->largest_price ||
            work->place_of_row[i] < 0 || program->row_least[i] == program->row_most[i])
            continue;
        best = program->columns + i;
        most = saves;
        if (first)
            return best;
    }
    return best;
}

/* How fast each basic variable rises as `variable` moves from its bound inward. */
static void find_column_of(SmallWork *work, int variable) {
    const SmallProgram *program = work->program;
    const bool of_row = is_row(work, variable);
    const double sign = side_of(work, variable) == AT_MOST ? -1.0 : 1.0;
    for (int t = 0; t < work->count; t++)
        work->side[t] = of_row ? 0.0 : -sign * term_at(program, work->tight[t], variable);
    if (of_row)
        work->side[work->place_of_row[variable - program->columns]] = sign;
    small_solve_columns(work, work->side, work->solved);
    for (int s = 0; s < work->count; s++)
        work->column_rate[work->basic[s]] = work->solved[s];
    for (int i = 0; i < program->rows; i++)
        work->row_rate[i] = of_row ? 0.0 : sign * term_at(program, i, variable);
    small_add_basic(work, work->row_rate);
}

/* A basic variable that a move brings toward a bound. */
static inline void add_way(SmallWork *work, int *count, int variable, Stand at, double rate) {
    const double bound = rate > 0.0 ? at.most : at.least;
    if (fabs(rate) < LEAST_PIVOT || isinf(bound))
        return;
    const double room = rate > 0.0 ? bound - at.value : at.value - bound;
    work->ways[*count] = (Way){variable, room > 0.0 ? room : 0.0, fabs(rate)};
    work->allowed[(*count)++] = slack_allowed(bound);
}

/* The basic variable that stops the move: among near ties the surest pivot; -1: none. *room is
 * how far it lets the move go. */
static int primal_leaving(SmallWork *work, bool first, double *room) {
    const SmallProgram *program = work->program;
    int count = 0;
    for (int j = 0; j < program->columns; j++) {
        if (work->place_of_column[j] >= 0)
            add_way(work, &count, j, stand_of_column(work, j), work->column_rate[j]);
    }
    for (int i = 0; i < program->rows; i++) {
        if (work->place_of_row[i] < 0)
            add_way(work, &count, program->columns + i, stand_of_row(work, i),
                    work->row_rate[i]);
    }
    const int best = small_surest_way(work, count, first);
    *room = best < 0 ? HUGE_VAL : work->ways[best].price_or_room / work->ways[best].rate;
    return best < 0 ? -1 : work->ways[best].variable;
}

static void cross_over(SmallWork *work, int variable) {
    const unsigned char other = side_of(work, variable) == AT_MOST ? AT_LEAST : AT_MOST;
    if (is_row(work, variable))
        work->row_side[variable - work->program->columns] = other;
    else
        work->column_side[variable] = other;
}

static LpStatus primal_steps(SmallWork *work) {
    for (int step = 0; step < MOST_STEPS; step++) {
        const bool bland = step >= BLAND_AFTER;
        small_find_prices(work, work->cost);
        const int in = saving_variable(work, bland);
        if (in < 0)
            return LP_OPTIMAL;
        find_column_of(work, in);
        double room;
        const int out = primal_leaving(work, bland, &room);
        const Stand at = stand_of(work, in);
        const double range = at.most - at.least;
        work->steps++;
        if (isfinite(range) && range <= room) {
            cross_over(work, in);
        } else if (out < 0) {
            return LP_UNBOUNDED;
        } else {
            small_exchange(work, out, rate_of(work, out) > 0.0 ? AT_MOST : AT_LEAST, in);
            if (!small_factorise(work))
                return LP_FAILED;
        }
        small_find_values(work);
    }
    return LP_FAILED;
}

static LpStatus solve_from_here(SmallWork *work) {
    for (int pass = 0; pass < MOST_PASSES; pass++) {
        small_find_values(work);
        if (small_worst_variable(work, true) >= 0) {
            small_shift_costs(work);
            const LpStatus status = small_dual_steps(work);
            if (status != LP_OPTIMAL)
                return status;
        }
        const LpStatus status = primal_steps(work);
        if (status != LP_OPTIMAL || small_worst_variable(work, true) < 0)
            return status;
    }
    return LP_FAILED;
}

/* No other costs make a step of it: a step would have to save something. */
static bool is_still_best(SmallWork *work) {
    small_find_prices(work, work->cost);
    work->is_as_before = saving_variable(work, false) < 0;
    return work->is_as_before;
}

bool small_stand_at(SmallWork *work, const SmallProgram *program, const SmallBasis *basis) {
    work->program = program;
    work->is_as_before = false;
    small_read_basis(work, basis);
    if (work->count < 0 || !small_factorise(work))
        return false;
    small_find_values(work);
    return true;
}

/* False when it is no basis. */
static bool begin_at(SmallWork *work, const SmallBasis *basis) {
    if (basis->kept && basis->kept->is_good) {
        small_read_kept(work, basis);
        return true;
    }
    small_read_basis(work, basis);
    return work->count >= 0 && small_factorise(work);
}

/* *is_moved: the basis is another now. */
static LpStatus solve_from(SmallWork *work, SmallBasis *basis, bool *is_moved) {
    const long steps_before = work->steps;
    LpStatus status = LP_FAILED;
    *is_moved = false;
    const bool is_basis = begin_at(work, basis);
    const bool is_slack = work->count == 0;
    if (is_basis) {
        if (basis->keeps_bounds && is_still_best(work))
            return LP_OPTIMAL;
        status = solve_from_here(work);
    }
    if (status == LP_FAILED || (status == LP_INFEASIBLE && !is_slack)) {
        small_take_slack_basis(work);
        status = solve_from_here(work);
        *is_moved = true;
    }
    *is_moved = *is_moved || work->steps > steps_before;
    small_write_basis(work, basis);
    return status;
}

LpStatus small_solve(SmallWork *work, const SmallProgram *program, const double *cost,
                     SmallBasis *basis) {
    bool is_moved;
    work->program = program;
    work->cost = cost;
    work->is_as_before = false;
    if (basis->kept && !basis->keeps_bounds)
        basis->kept->is_good = false; /* it may be of any other basis */
    const LpStatus status = solve_from(work, basis, &is_moved);
    if (!basis->kept)
        return status;
    if (is_moved || status != LP_OPTIMAL)
        basis->kept->is_good = false;
    else if (!basis->kept->is_good)
        small_keep(work, basis->kept);
    return status;
}

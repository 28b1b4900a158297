#include "planner/small_work.h"
#include <string.h>

#define OPTIMAL 1e-10    /* of the terms a reduced cost is made of */
#define ROUNDING 1e-12   /* of the dearest basic column: no price is surer */
#define LEAST_PIVOT 1e-9 /* of terms near one */
#define BLAND_AFTER 200
#define MOST_STEPS 2000
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

/* ---- dual steps ---- */

/* Costs under which the basis is optimal but for its bounds: a column that would gain by moving
 * is made to gain nothing, and a tight row with the wrong sign has its activity priced. */
static void shift_costs(SmallWork *work) {
    const SmallProgram *program = work->program;
    memcpy(work->shifted, work->cost, (size_t)program->columns * sizeof(double));
    small_find_prices(work, work->cost);
    for (int j = 0; j < program->columns; j++) {
        if (work->place_of_column[j] >= 0)
            continue;
        const bool gains =
            work->column_side[j] == AT_MOST ? work->reduced[j] > 0.0 : work->reduced[j] < 0.0;
        if (gains)
            work->shifted[j] -= work->reduced[j];
    }
    for (int t = 0; t < work->count; t++) {
        const int row = work->tight[t];
        const bool is_equality = program->row_least[row] == program->row_most[row];
        const bool gains =
            work->row_side[row] == AT_MOST ? work->price[row] > 0.0 : work->price[row] < 0.0;
        if (!gains || is_equality)
            continue;
        for (int j = 0; j < program->columns; j++)
            work->shifted[j] -= work->price[row] * term_at(program, row, j);
    }
}

/* The basic variable farthest beyond its bound, or the first of any; -1: none. */
static int worst_variable(const SmallWork *work, bool first) {
    const SmallProgram *program = work->program;
    int worst = -1;
    double most = 0.0;
    for (int j = 0; j < program->columns; j++) {
        if (work->place_of_column[j] < 0)
            continue;
        const double far = fabs(beyond(stand_of_column(work, j)));
        if (far <= most)
            continue;
        most = far;
        worst = j;
        if (first)
            return worst;
    }
    for (int i = 0; i < program->rows; i++) {
        if (work->place_of_row[i] >= 0)
            continue;
        const double far = fabs(beyond(stand_of_row(work, i)));
        if (far <= most)
            continue;
        most = far;
        worst = program->columns + i;
        if (first)
            return worst;
    }
    return worst;
}

/* How fast a basic variable rises with each variable that is not basic. */
static void find_row_of(SmallWork *work, int variable) {
    const SmallProgram *program = work->program;
    const bool of_row = is_row(work, variable);
    const int own = variable - program->columns;
    for (int s = 0; s < work->count; s++)
        work->side[s] = of_row ? term_at(program, own, work->basic[s]) : 0.0;
    if (!of_row)
        work->side[work->place_of_column[variable]] = 1.0;
    small_solve_rows(work, work->side, work->solved);
    const int dense = dense_columns(program);
    for (int j = 0; j < program->columns; j++)
        work->column_rate[j] = of_row ? term_at(program, own, j) : 0.0;
    for (int t = 0; t < work->count; t++) {
        work->row_rate[work->tight[t]] = work->solved[t];
        if (work->solved[t] != 0.0)
            take_off(work->column_rate, work->solved[t], row_terms(work, work->tight[t]),
                     dense);
    }
    for (int k = 0; k < program->singles; k++) {
        if (work->place_of_row[program->single_row[k]] >= 0)
            work->column_rate[dense + k] -=
                work->row_rate[program->single_row[k]] * program->single_term[k];
    }
}

/* The ways that move the leaving variable toward its bound; returns how many. */
static int dual_ways(SmallWork *work, bool rises) {
    const SmallProgram *program = work->program;
    int count = 0;
    for (int j = 0; j < program->columns; j++) {
        const double rate = work->column_rate[j];
        const bool grows = work->column_side[j] != AT_MOST;
        if (work->place_of_column[j] < 0 && fabs(rate) >= LEAST_PIVOT &&
            (rate > 0.0) == (grows == rises) && program->least[j] != program->most[j])
            work->ways[count++] = (Way){j, fabs(work->reduced[j]), fabs(rate)};
    }
    for (int i = 0; i < program->rows; i++) {
        if (work->place_of_row[i] < 0)
            continue;
        const double rate = work->row_rate[i];
        const bool grows = work->row_side[i] != AT_MOST;
        if (fabs(rate) >= LEAST_PIVOT && (rate > 0.0) == (grows == rises) &&
            program->row_least[i] != program->row_most[i])
            work->ways[count++] = (Way){program->columns + i, fabs(work->price[i]), fabs(rate)};
    }
    return count;
}

/* The way of the least ratio; of those that come to it with what is allowed each, the one with
 * the surest pivot, or the first. -1: there is none. */
static int surest_way(const SmallWork *work, int count, bool first) {
    double least = HUGE_VAL;
    for (int w = 0; w < count; w++) {
        const double allowed = first ? 0.0 : work->allowed[w];
        const double ratio = (work->ways[w].price_or_room + allowed) / work->ways[w].rate;
        if (ratio < least)
            least = ratio;
    }
    int best = -1;
    for (int w = 0; w < count; w++) {
        const Way *way = &work->ways[w];
        if (way->price_or_room / way->rate > least)
            continue;
        if (best < 0 || (!first && way->rate > work->ways[best].rate))
            best = w;
    }
    return best;
}

/* The cheapest way for the leaving variable to move; among near ties the surest pivot. -1:
 * there is none. */
static int dual_entering(SmallWork *work, bool rises, bool first) {
    const double give = OPTIMAL * work->largest_price;
    const int count = dual_ways(work, rises);
    for (int w = 0; w < count; w++)
        work->allowed[w] = give;
    const int best = surest_way(work, count, first);
    return best < 0 ? -1 : work->ways[best].variable;
}

static LpStatus dual_steps(SmallWork *work) {
    for (int step = 0; step < MOST_STEPS; step++) {
        const bool bland = step >= BLAND_AFTER;
        const int out = worst_variable(work, bland);
        if (out < 0)
            return LP_OPTIMAL;
        const bool rises = beyond(stand_of(work, out)) < 0.0;
        small_find_prices(work, work->shifted);
        find_row_of(work, out);
        const int in = dual_entering(work, rises, bland);
        if (in < 0)
            return LP_INFEASIBLE;
        small_exchange(work, out, rises ? AT_LEAST : AT_MOST, in);
        work->steps++;
        if (!small_factorise(work))
            return LP_FAILED;
        small_find_values(work);
    }
    return LP_FAILED;
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
    const int best = surest_way(work, count, first);
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
        if (worst_variable(work, true) >= 0) {
            shift_costs(work);
            const LpStatus status = dual_steps(work);
            if (status != LP_OPTIMAL)
                return status;
        }
        const LpStatus status = primal_steps(work);
        if (status != LP_OPTIMAL || worst_variable(work, true) < 0)
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

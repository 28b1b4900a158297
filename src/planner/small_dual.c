/* From a basis that breaks bounds to one that breaks none, at costs under which it is optimal.
 */
#include "planner/small_work.h"
#include <string.h>

/* Costs under which the basis is optimal but for its bounds: a column that would gain by moving
 * is made to gain nothing, and a tight row with the wrong sign has its activity priced. */
void small_shift_costs(SmallWork *work) {
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

int small_worst_variable(const SmallWork *work, bool first) {
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

int small_surest_way(const SmallWork *work, int count, bool first) {
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
    const int best = small_surest_way(work, count, first);
    return best < 0 ? -1 : work->ways[best].variable;
}

LpStatus small_dual_steps(SmallWork *work) {
    for (int step = 0; step < MOST_STEPS; step++) {
        const bool bland = step >= BLAND_AFTER;
        const int out = small_worst_variable(work, bland);
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

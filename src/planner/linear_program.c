/* GLPK ends the process when it meets a mistake of ours. Its error hook jumps back here
 * instead; afterwards its whole environment is freed, which frees the problem too, and nothing
 * set between setjmp and longjmp is read again. */
#include "planner/linear_program.h"
#include "base/quantity.h"
#include <assert.h>
#include <glpk.h>
#include <math.h>
#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
    const char *name;
    double cost, least, most;
} Line;

typedef struct {
    int row, column;
    double coefficient;
} Term;

struct LinearProgram {
    Arena *arena;
    Line *rows, *columns;
    Term *terms;
    int row_count, row_room, column_count, column_room, term_count, term_room;
};

LinearProgram *lp_new(Arena *arena) {
    LinearProgram *lp = ARENA_NEW(arena, LinearProgram);
    lp->arena = arena;
    return lp;
}

static void *grown(Arena *arena, const void *items, int count, int *room, size_t size) {
    *room = *room == 0 ? 256 : *room * 2;
    void *larger = arena_take(arena, (size_t)*room, size);
    if (count > 0)
        memcpy(larger, items, (size_t)count * size);
    return larger;
}

LinearProgram *lp_copy(const LinearProgram *lp, Arena *arena) {
    LinearProgram *copy = ARENA_NEW(arena, LinearProgram);
    *copy = *lp;
    copy->arena = arena;
    copy->rows = ARENA_ARRAY(arena, Line, lp->row_room);
    copy->columns = ARENA_ARRAY(arena, Line, lp->column_room);
    copy->terms = ARENA_ARRAY(arena, Term, lp->term_room);
    memcpy(copy->rows, lp->rows, (size_t)lp->row_count * sizeof(Line));
    memcpy(copy->columns, lp->columns, (size_t)lp->column_count * sizeof(Line));
    memcpy(copy->terms, lp->terms, (size_t)lp->term_count * sizeof(Term));
    return copy;
}

int lp_add_column(LinearProgram *lp, const char *name, double cost, double least, double most) {
    assert(isfinite(cost) && !isnan(least) && !isnan(most) && least <= most);
    if (lp->column_count == lp->column_room)
        lp->columns =
            grown(lp->arena, lp->columns, lp->column_count, &lp->column_room, sizeof(Line));
    lp->columns[lp->column_count] = (Line){name, cost, least, most};
    return lp->column_count++;
}

int lp_add_row(LinearProgram *lp, const char *name, double least, double most) {
    assert(!isnan(least) && !isnan(most) && least <= most);
    if (lp->row_count == lp->row_room)
        lp->rows = grown(lp->arena, lp->rows, lp->row_count, &lp->row_room, sizeof(Line));
    lp->rows[lp->row_count] = (Line){name, 0.0, least, most};
    return lp->row_count++;
}

void lp_add_term(LinearProgram *lp, int row, int column, double coefficient) {
    assert(isfinite(coefficient) && row >= 0 && row < lp->row_count && column >= 0 &&
           column < lp->column_count);
    if (coefficient == 0.0)
        return;
    if (lp->term_count == lp->term_room)
        lp->terms = grown(lp->arena, lp->terms, lp->term_count, &lp->term_room, sizeof(Term));
    lp->terms[lp->term_count++] = (Term){row, column, coefficient};
}

void lp_set_cost(LinearProgram *lp, int column, double cost) {
    assert(isfinite(cost));
    lp->columns[column].cost = cost;
}

void lp_set_column_bounds(LinearProgram *lp, int column, double least, double most) {
    assert(least <= most);
    lp->columns[column].least = least;
    lp->columns[column].most = most;
}

void lp_set_row_bounds(LinearProgram *lp, int row, double least, double most) {
    assert(least <= most);
    lp->rows[row].least = least;
    lp->rows[row].most = most;
}

int lp_row_count(const LinearProgram *lp) { return lp->row_count; }
int lp_column_count(const LinearProgram *lp) { return lp->column_count; }
double lp_cost(const LinearProgram *lp, int column) { return lp->columns[column].cost; }
double lp_row_least(const LinearProgram *lp, int row) { return lp->rows[row].least; }
double lp_row_most(const LinearProgram *lp, int row) { return lp->rows[row].most; }
double lp_column_least(const LinearProgram *lp, int column) {
    return lp->columns[column].least;
}
double lp_column_most(const LinearProgram *lp, int column) { return lp->columns[column].most; }

/* What rounding leaves of two numbers that should cancel is no coefficient: scaling would take
 * it for one and blow its row up. */
#define LEAVINGS_SHARE 1e-12 /* of the largest in its row */

static void drop_leavings(const LinearProgram *lp, Arena *arena, LpTerms *by) {
    double *largest = ARENA_ARRAY(arena, double, lp->row_count);
    for (int k = 0; k < by->start[lp->column_count]; k++)
        largest[by->row[k]] = fmax(largest[by->row[k]], fabs(by->coefficient[k]));
    int kept = 0;
    for (int j = 0; j < lp->column_count; j++) {
        const int first = by->start[j];
        by->start[j] = kept;
        for (int k = first; k < by->start[j + 1]; k++) {
            if (fabs(by->coefficient[k]) <= LEAVINGS_SHARE * largest[by->row[k]])
                continue;
            by->row[kept] = by->row[k];
            by->coefficient[kept++] = by->coefficient[k];
        }
    }
    by->start[lp->column_count] = kept;
}

LpTerms lp_terms(const LinearProgram *lp, Arena *arena) {
    LpTerms by = {
        .start = ARENA_ARRAY(arena, int, lp->column_count + 1),
        .row = ARENA_ARRAY(arena, int, lp->term_count),
        .coefficient = ARENA_ARRAY(arena, double, lp->term_count),
    };
    int *begin = ARENA_ARRAY(arena, int, lp->column_count + 1);
    for (int t = 0; t < lp->term_count; t++)
        begin[lp->terms[t].column + 1]++;
    for (int j = 0; j < lp->column_count; j++)
        begin[j + 1] += begin[j];
    int *next = ARENA_ARRAY(arena, int, lp->column_count);
    int *order = ARENA_ARRAY(arena, int, lp->term_count);
    for (int t = 0; t < lp->term_count; t++) {
        const int column = lp->terms[t].column;
        order[begin[column] + next[column]++] = t;
    }
    int *place_of_row = ARENA_ARRAY(arena, int, lp->row_count); /* place + 1 in this column */
    int count = 0;
    for (int j = 0; j < lp->column_count; j++) {
        by.start[j] = count;
        for (int k = begin[j]; k < begin[j + 1]; k++) {
            const Term *term = &lp->terms[order[k]];
            const int place = place_of_row[term->row] - 1;
            if (place >= by.start[j]) {
                by.coefficient[place] += term->coefficient;
                continue;
            }
            place_of_row[term->row] = count + 1;
            by.row[count] = term->row;
            by.coefficient[count++] = term->coefficient;
        }
    }
    by.start[lp->column_count] = count;
    drop_leavings(lp, arena, &by);
    return by;
}

static int bound_kind(double least, double most) {
    if (least == most)
        return GLP_FX;
    if (isfinite(least) && isfinite(most))
        return GLP_DB;
    if (isfinite(least))
        return GLP_LO;
    return isfinite(most) ? GLP_UP : GLP_FR;
}

static double finite_or_zero(double bound) { return isfinite(bound) ? bound : 0.0; }

static void load(glp_prob *problem, const LinearProgram *lp, Arena *arena) {
    glp_set_obj_dir(problem, GLP_MIN);
    if (lp->row_count > 0)
        glp_add_rows(problem, lp->row_count);
    if (lp->column_count > 0)
        glp_add_cols(problem, lp->column_count);
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = &lp->rows[i];
        glp_set_row_bnds(problem, i + 1, bound_kind(row->least, row->most),
                         finite_or_zero(row->least), finite_or_zero(row->most));
    }
    const LpTerms by = lp_terms(lp, arena);
    int *indices = ARENA_ARRAY(arena, int, lp->row_count + 1);
    double *values = ARENA_ARRAY(arena, double, lp->row_count + 1);
    for (int j = 0; j < lp->column_count; j++) {
        const Line *column = &lp->columns[j];
        glp_set_obj_coef(problem, j + 1, column->cost);
        glp_set_col_bnds(problem, j + 1, bound_kind(column->least, column->most),
                         finite_or_zero(column->least), finite_or_zero(column->most));
        const int count = by.start[j + 1] - by.start[j];
        for (int k = 0; k < count; k++) {
            indices[k + 1] = by.row[by.start[j] + k] + 1;
            values[k + 1] = by.coefficient[by.start[j] + k];
        }
        glp_set_mat_col(problem, j + 1, count, indices, values);
    }
}

static int solver_place(unsigned char place, double least, double most) {
    if (place == BASIC)
        return GLP_BS;
    if (least == most)
        return GLP_NS;
    if (place == AT_MOST && isfinite(most))
        return GLP_NU;
    if (isfinite(least))
        return GLP_NL;
    return isfinite(most) ? GLP_NU : GLP_NF;
}

static bool set_basis(glp_prob *problem, const LinearProgram *lp, const LpBasis *start) {
    if (!start || start->row_count != lp->row_count || start->column_count != lp->column_count)
        return false;
    for (int i = 0; i < lp->row_count; i++)
        glp_set_row_stat(problem, i + 1,
                         solver_place(start->row[i], lp->rows[i].least, lp->rows[i].most));
    for (int j = 0; j < lp->column_count; j++)
        glp_set_col_stat(
            problem, j + 1,
            solver_place(start->column[j], lp->columns[j].least, lp->columns[j].most));
    return glp_factorize(problem) == 0;
}

static unsigned char own_place(int status) {
    if (status == GLP_BS)
        return BASIC;
    return status == GLP_NU ? AT_MOST : AT_LEAST;
}

static LpSolution read_back(glp_prob *problem, const LinearProgram *lp, Arena *arena) {
    double *value = ARENA_ARRAY(arena, double, lp->column_count);
    double *reduced = ARENA_ARRAY(arena, double, lp->column_count);
    double *activity = ARENA_ARRAY(arena, double, lp->row_count);
    double *shadow = ARENA_ARRAY(arena, double, lp->row_count);
    LpBasis basis = {lp->row_count, lp->column_count,
                     ARENA_ARRAY(arena, unsigned char, lp->row_count),
                     ARENA_ARRAY(arena, unsigned char, lp->column_count)};
    for (int j = 0; j < lp->column_count; j++) {
        value[j] = glp_get_col_prim(problem, j + 1);
        reduced[j] = glp_get_col_dual(problem, j + 1);
        basis.column[j] = own_place(glp_get_col_stat(problem, j + 1));
    }
    for (int i = 0; i < lp->row_count; i++) {
        activity[i] = glp_get_row_prim(problem, i + 1);
        shadow[i] = glp_get_row_dual(problem, i + 1);
        basis.row[i] = own_place(glp_get_row_stat(problem, i + 1));
    }
    return (LpSolution){.status = LP_OPTIMAL,
                        .cost = glp_get_obj_val(problem),
                        .value = value,
                        .reduced_cost = reduced,
                        .activity = activity,
                        .shadow_price = shadow,
                        .basis = basis,
                        .remark = ""};
}

#define FINE 1e-9 /* the solver allows itself 1e-7 */

static int quiet(void *info, const char *text) {
    (void)info;
    (void)text;
    return 1; /* said: not to be written to the terminal */
}

static void jump_back(void *info) {
    jmp_buf *back = info;
    longjmp(*back, 1);
}

static glp_smcp settings(int method, int ratio_test, LpEffort effort) {
    glp_smcp control;
    glp_init_smcp(&control);
    if (effort.is_fine)
        control.tol_dj = control.tol_bnd = FINE;
    control.msg_lev = GLP_MSG_OFF;
    control.meth = method;
    control.r_test = ratio_test;
    control.it_lim = effort.iteration_limit;
    return control;
}

static LpStatus outcome_of(int failed, int status) {
    if (failed != 0)
        return LP_FAILED;
    if (status == GLP_OPT)
        return LP_OPTIMAL;
    if (status == GLP_NOFEAS)
        return LP_INFEASIBLE;
    return status == GLP_UNBND ? LP_UNBOUNDED : LP_FAILED;
}

/* Past so many iterations for each row and column the method goes round in a circle: winters
 * take up to 0.8. The last attempt may be slow. Own choice. */
static const int CIRCLE[] = {3, 3, 10};

static int attempt_limit(glp_prob *problem, int attempt, int iteration_limit) {
    const int lines = glp_get_num_rows(problem) + glp_get_num_cols(problem);
    const int circle = CIRCLE[attempt] * lines + 500;
    return iteration_limit > 0 && iteration_limit < circle ? iteration_limit : circle;
}

/* The ladder: the method that fits the start; then cold primal; then cold primal with the
 * textbook ratio test, which is slower and steadier. The flipping ratio test would be quicker,
 * but reads memory that it never set. */
static LpStatus run(glp_prob *problem, LpStart how, bool has_basis, LpEffort effort) {
    static const int RATIO[] = {GLP_RT_HAR, GLP_RT_HAR, GLP_RT_STD};
    for (int attempt = has_basis ? 0 : 1; attempt < 3; attempt++) {
        if (attempt > 0)
            glp_std_basis(problem);
        const bool is_dual = attempt == 0 && how == START_BOUNDS_CHANGED;
        const int limit = attempt_limit(problem, attempt, effort.iteration_limit);
        const glp_smcp control = settings(is_dual ? GLP_DUALP : GLP_PRIMAL, RATIO[attempt],
                                          (LpEffort){limit, effort.is_fine});
        const int failed = glp_simplex(problem, &control);
        const LpStatus status = outcome_of(failed, glp_get_status(problem));
        if (status != LP_FAILED || (failed == GLP_EITLIM && limit == effort.iteration_limit))
            return status;
    }
    return LP_FAILED;
}

static LpSolution failure(LpStatus status, const char *remark) {
    return (LpSolution){.status = status, .remark = remark};
}

LpSolution lp_solve_with(const LinearProgram *lp, Arena *arena, LpStart how,
                         const LpBasis *start, LpEffort effort) {
    if (lp->column_count == 0)
        return failure(LP_FAILED, "the program has no columns");
    Arena *const scratch = arena_open(); /* a program is large, and a winter solves many */
    jmp_buf back;
    if (setjmp(back)) {
        glp_error_hook(NULL, NULL);
        glp_free_env();
        arena_close(scratch);
        return failure(LP_FAILED, "the solver met an inner fault");
    }
    glp_term_hook(quiet, NULL);
    glp_error_hook(jump_back, &back);
    glp_prob *problem = glp_create_prob();
    load(problem, lp, scratch);
    glp_scale_prob(problem, GLP_SF_EQ | GLP_SF_2N);
    const bool has_basis = how != START_COLD && set_basis(problem, lp, start);
    const LpStatus status = run(problem, how, has_basis, effort);
    LpSolution solution = status == LP_OPTIMAL
                              ? read_back(problem, lp, arena)
                              : failure(status, "no optimal solution was found");
    solution.iterations = glp_get_it_cnt(problem);
    glp_delete_prob(problem);
    glp_error_hook(NULL, NULL);
    glp_term_hook(NULL, NULL);
    arena_close(scratch);
    return solution;
}

LpSolution lp_solve(const LinearProgram *lp, Arena *arena, LpStart how, const LpBasis *start,
                    int iteration_limit) {
    return lp_solve_with(lp, arena, how, start, (LpEffort){iteration_limit, false});
}

static void mps_bound(Text *out, const char *kind, const char *name, double value) {
    text_print(out, " %s B %s %.17g\n", kind, name, value);
}

static void mps_columns(const LinearProgram *lp, Text *out) {
    const LpTerms by = lp_terms(lp, lp->arena);
    text_add(out, "COLUMNS\n");
    for (int j = 0; j < lp->column_count; j++) {
        text_print(out, " %s COST %.17g\n", lp->columns[j].name, lp->columns[j].cost);
        for (int k = by.start[j]; k < by.start[j + 1]; k++)
            text_print(out, " %s %s %.17g\n", lp->columns[j].name, lp->rows[by.row[k]].name,
                       by.coefficient[k]);
    }
}

static void mps_rows(const LinearProgram *lp, Text *out) {
    text_add(out, "ROWS\n N COST\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = &lp->rows[i];
        const char *kind = "N";
        if (row->least == row->most)
            kind = "E";
        else if (isfinite(row->most))
            kind = "L";
        else if (isfinite(row->least))
            kind = "G";
        text_print(out, " %s %s\n", kind, row->name);
    }
}

void lp_mps_text(const LinearProgram *lp, Text *out) {
    text_add(out, "NAME WINTER FREE\n"); /* some readers take it for fixed columns otherwise */
    mps_rows(lp, out);
    mps_columns(lp, out);
    text_add(out, "RHS\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = &lp->rows[i];
        const double side = isfinite(row->most) ? row->most : row->least;
        if (isfinite(side) && side != 0.0)
            text_print(out, " RHS %s %.17g\n", row->name, side);
    }
    text_add(out, "RANGES\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = &lp->rows[i];
        if (isfinite(row->most) && isfinite(row->least) && row->most > row->least)
            text_print(out, " RANGE %s %.17g\n", row->name, row->most - row->least);
    }
    text_add(out, "BOUNDS\n");
    for (int j = 0; j < lp->column_count; j++) {
        const Line *column = &lp->columns[j];
        if (!isfinite(column->least))
            text_print(out, " %s B %s\n", isfinite(column->most) ? "MI" : "FR", column->name);
        else if (column->least != 0.0)
            mps_bound(out, "LO", column->name, column->least);
        if (isfinite(column->most))
            mps_bound(out, "UP", column->name, column->most);
    }
    text_add(out, "ENDATA\n");
}

/* GLPK ends the process when it meets a mistake of ours. Its error hook jumps back here
 * instead; afterwards its whole environment is freed, which frees the problem too, and nothing
 * set between setjmp and longjmp is read again. */
#include "planner/linear_program_data.h"
#include <glpk.h>
#include <math.h>
#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

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
        const Line *row = line_at(&lp->rows, i);
        glp_set_row_bnds(problem, i + 1, bound_kind(row->least, row->most),
                         finite_or_zero(row->least), finite_or_zero(row->most));
    }
    const LpTerms by = lp_terms(lp, arena);
    int *indices = ARENA_ARRAY(arena, int, lp->row_count + 1);
    double *values = ARENA_ARRAY(arena, double, lp->row_count + 1);
    for (int j = 0; j < lp->column_count; j++) {
        const Line *column = line_at(&lp->columns, j);
        glp_set_obj_coef(problem, j + 1, *cost_at(&lp->columns, j));
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
                         solver_place(start->row[i], line_at(&lp->rows, i)->least,
                                      line_at(&lp->rows, i)->most));
    for (int j = 0; j < lp->column_count; j++)
        glp_set_col_stat(problem, j + 1,
                         solver_place(start->column[j], line_at(&lp->columns, j)->least,
                                      line_at(&lp->columns, j)->most));
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

static glp_smcp settings(int method, int ratio_test, LpCare care) {
    glp_smcp control;
    glp_init_smcp(&control);
    if (care.is_fine)
        control.tol_dj = control.tol_bnd = FINE;
    control.msg_lev = GLP_MSG_OFF;
    control.meth = method;
    control.r_test = ratio_test;
    control.it_lim = care.iteration_limit;
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
static LpStatus run(glp_prob *problem, LpStart how, bool has_basis, LpCare care) {
    static const int RATIO[] = {GLP_RT_HAR, GLP_RT_HAR, GLP_RT_STD};
    for (int attempt = has_basis ? 0 : 1; attempt < 3; attempt++) {
        if (attempt > 0)
            glp_std_basis(problem);
        const bool is_dual = attempt == 0 && how == START_BOUNDS_CHANGED;
        const int limit = attempt_limit(problem, attempt, care.iteration_limit);
        const glp_smcp control = settings(is_dual ? GLP_DUALP : GLP_PRIMAL, RATIO[attempt],
                                          (LpCare){limit, care.is_fine});
        const int failed = glp_simplex(problem, &control);
        const LpStatus status = outcome_of(failed, glp_get_status(problem));
        if (status != LP_FAILED || (failed == GLP_EITLIM && limit == care.iteration_limit))
            return status;
    }
    return LP_FAILED;
}

static LpSolution failure(LpStatus status, const char *remark) {
    return (LpSolution){.status = status, .remark = remark};
}

LpSolution lp_solve_with(const LinearProgram *lp, Arena *arena, LpStart how,
                         const LpBasis *start, LpCare care) {
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
    const LpStatus status = run(problem, how, has_basis, care);
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
    return lp_solve_with(lp, arena, how, start, (LpCare){iteration_limit, false});
}

/* ---- whole numbers ---- */

typedef struct {
    LpEffort effort;
    int first_iteration, nodes;
    const double *known; /* from 1, as the solver counts; NULL once it was told */
    double bound;
} Search;

/* The solver asks here at each node. The bound is read before a node is chosen, when all that
 * are open stand in its list. */
static void at_node(glp_tree *tree, void *info) {
    Search *search = info;
    const int reason = glp_ios_reason(tree);
    if (reason == GLP_IHEUR && search->known) {
        glp_ios_heur_sol(tree, search->known);
        search->known = NULL;
    }
    if (reason != GLP_ISELECT)
        return;
    const int best = glp_ios_best_node(tree);
    if (best != 0 && search->nodes > 0)
        search->bound = fmax(search->bound, glp_ios_node_bound(tree, best));
    const int iterations = glp_get_it_cnt(glp_ios_get_prob(tree)) - search->first_iteration;
    if (search->nodes++ >= search->effort.nodes || iterations > search->effort.iterations)
        glp_ios_terminate(tree);
}

static const double *counted_from_one(const LinearProgram *lp, Arena *arena,
                                      const double *known) {
    if (!known)
        return NULL;
    double *from_one = ARENA_ARRAY(arena, double, lp->column_count + 1);
    for (int j = 0; j < lp->column_count; j++)
        from_one[j + 1] = *whole_at(&lp->columns, j) ? round(known[j]) : known[j];
    return from_one;
}

static int branch_and_bound(glp_prob *problem, Search *search) {
    glp_iocp control;
    glp_init_iocp(&control);
    control.msg_lev = GLP_MSG_OFF;
    control.mip_gap = search->effort.gap;
    control.cb_func = at_node;
    control.cb_info = search;
    search->first_iteration = glp_get_it_cnt(problem);
    return glp_intopt(problem, &control);
}

static LpWhole read_whole(glp_prob *problem, const LinearProgram *lp, Arena *arena, int ended,
                          const Search *search) {
    const int status = glp_mip_status(problem);
    LpWhole whole = {
        .status = LP_OPTIMAL, .nodes = search->nodes, .bound = search->bound, .remark = ""};
    if (status != GLP_OPT && status != GLP_FEAS) {
        whole.status = status == GLP_NOFEAS ? LP_INFEASIBLE : LP_FAILED;
        whole.remark = "no whole numbers were found";
        return whole;
    }
    double *value = ARENA_ARRAY(arena, double, lp->column_count);
    for (int j = 0; j < lp->column_count; j++) {
        value[j] = glp_mip_col_val(problem, j + 1);
        value[j] = *whole_at(&lp->columns, j) ? round(value[j]) : value[j];
    }
    whole.value = value;
    whole.cost = glp_mip_obj_val(problem);
    if (ended == 0 && status == GLP_OPT)
        whole.bound = whole.cost;
    whole.bound = fmin(whole.bound, whole.cost);
    return whole;
}

static void keep_known(const LinearProgram *lp, Arena *arena, const double *known,
                       LpWhole *whole) {
    double *value = ARENA_ARRAY(arena, double, lp->column_count);
    whole->status = LP_OPTIMAL;
    whole->cost = 0.0;
    for (int j = 0; j < lp->column_count; j++) {
        value[j] = known[j];
        whole->cost += *cost_at(&lp->columns, j) * known[j];
    }
    whole->value = value;
    whole->bound = fmin(whole->bound, whole->cost);
}

static const LpCare AS_USUAL = {0, false};

LpWhole lp_solve_whole(const LinearProgram *lp, Arena *arena, const LpBasis *start,
                       const double *known, LpEffort effort) {
    if (lp->column_count == 0)
        return (LpWhole){.status = LP_FAILED, .remark = "the program has no columns"};
    Arena *const scratch = arena_open();
    jmp_buf back;
    if (setjmp(back)) {
        glp_error_hook(NULL, NULL);
        glp_free_env();
        arena_close(scratch);
        return (LpWhole){.status = LP_FAILED, .remark = "the solver met an inner fault"};
    }
    glp_term_hook(quiet, NULL);
    glp_error_hook(jump_back, &back);
    glp_prob *problem = glp_create_prob();
    load(problem, lp, scratch);
    glp_scale_prob(problem, GLP_SF_EQ | GLP_SF_2N);
    const bool has_basis = set_basis(problem, lp, start);
    const LpStatus status = run(problem, START_BOUNDS_CHANGED, has_basis, AS_USUAL);
    LpWhole whole = {.status = status == LP_INFEASIBLE ? LP_INFEASIBLE : LP_FAILED,
                     .remark = "no optimal solution was found"};
    if (status == LP_OPTIMAL) {
        for (int j = 0; j < lp->column_count; j++) {
            if (*whole_at(&lp->columns, j))
                glp_set_col_kind(problem, j + 1, GLP_IV);
        }
        Search search = {.effort = effort,
                         .known = counted_from_one(lp, scratch, known),
                         .bound = glp_get_obj_val(problem)};
        const int ended = branch_and_bound(problem, &search);
        whole = read_whole(problem, lp, arena, ended, &search);
    }
    if (whole.status == LP_FAILED && known && status == LP_OPTIMAL)
        keep_known(lp, arena, known, &whole);
    whole.iterations = glp_get_it_cnt(problem);
    glp_delete_prob(problem);
    glp_error_hook(NULL, NULL);
    glp_term_hook(NULL, NULL);
    arena_close(scratch);
    return whole;
}

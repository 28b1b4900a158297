#include "planner/yard_loads.h"
#include "planner/block_choice.h"
#include <math.h>
#include <string.h>

#define MOST_NODES 80
#define LINKED_NODES 40 /* where periods are tied: each takes many times longer */
#define WHOLE_TO 1e-6
#define EQUAL 1e-6        /* share of the cost within which loads are as good as others */
#define LINKED_EQUAL 2e-4 /* the same where periods are tied */

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    LinearProgram *lp;
    BlockProgram *blocks;
    YardLoads *found;
    int nodes, most_nodes;
    double equal;
    bool is_unsure; /* a program was neither solved nor proved to have no answer */
} Tree;

static double load_tonnes(const Tree *tree, int f) {
    return tree->yard->base->question->feeds[f].load_kg / KG_PER_TONNE;
}

/* The feed whose purchase is furthest from whole loads; -1: all are whole. */
static int least_whole(const Tree *tree, const double *value) {
    double worst = WHOLE_TO;
    int at = -1;
    for (int f = 0; f < tree->yard->base->question->feed_count; f++) {
        if (tree->yard->loads[f] < 0)
            continue;
        const double loads = value[tree->yard->base->bought[f]] / load_tonnes(tree, f);
        const double off = fabs(loads - round(loads));
        if (off > worst) {
            worst = off;
            at = f;
        }
    }
    return at;
}

static void keep(Tree *tree, const LpSolution *solution, double bound) {
    const PlanQuestion *question = tree->yard->base->question;
    double *loads = ARENA_ARRAY(tree->arena, double, question->feed_count);
    for (int f = 0; f < question->feed_count; f++)
        loads[f] =
            tree->yard->loads[f] < 0
                ? (double)NAN
                : round(solution->value[tree->yard->base->bought[f]] / load_tonnes(tree, f));
    *tree->found = (YardLoads){LP_OPTIMAL, solution->cost, fmin(tree->found->bound, bound),
                               loads, *solution};
}

static void search_from(Tree *tree, double above) {
    const LpSolution solution = block_program_solve(tree->blocks, tree->arena);
    tree->nodes++;
    if (solution.status == LP_INFEASIBLE)
        return;
    const double bound =
        fmax(above, block_choice_bound(tree->blocks)); /* also of what did not settle */
    YardLoads *found = tree->found;
    const bool has_found = found->status == LP_OPTIMAL;
    if (solution.status != LP_OPTIMAL ||
        (has_found && bound >= found->cost - tree->equal * fabs(found->cost))) {
        tree->is_unsure |= solution.status != LP_OPTIMAL;
        found->bound = fmin(found->bound, bound);
        return;
    }
    const int f = least_whole(tree, solution.value);
    if (f < 0) {
        if (!has_found || solution.cost < found->cost)
            keep(tree, &solution, bound);
        found->bound = fmin(found->bound, bound);
        return;
    }
    if (tree->nodes >= tree->most_nodes) {
        tree->is_unsure = true;
        found->bound = fmin(found->bound, bound);
        return;
    }
    const int column = tree->yard->base->bought[f];
    const double load = load_tonnes(tree, f);
    const double least = lp_column_least(tree->lp, column);
    const double most = lp_column_most(tree->lp, column);
    const double loads = solution.value[column] / load;
    const bool is_up_first = loads - floor(loads) > 0.5;
    for (int side = 0; side < 2; side++) {
        const bool is_up = (side == 0) == is_up_first;
        const double to = (is_up ? ceil(loads) : floor(loads)) * load;
        if (is_up && to > most * (1.0 + 1e-9))
            continue;
        lp_set_column_bounds(tree->lp, column, is_up ? to : least, is_up ? fmax(most, to) : to);
        search_from(tree, bound);
    }
    lp_set_column_bounds(tree->lp, column, least, most);
}

YardLoads yard_whole_loads(Arena *arena, const YardProgram *yard, LinearProgram *lp,
                           BlockProgram *blocks) {
    YardLoads found = {.status = LP_INFEASIBLE, .bound = NO_LIMIT};
    const bool is_linked = yard->first_change < lp_row_count(yard->lp);
    Tree tree = {.arena = arena,
                 .yard = yard,
                 .lp = lp,
                 .blocks = blocks,
                 .found = &found,
                 .most_nodes = is_linked ? LINKED_NODES : MOST_NODES,
                 .equal = is_linked ? LINKED_EQUAL : EQUAL};
    search_from(&tree, -NO_LIMIT);
    if (found.status != LP_OPTIMAL && tree.is_unsure)
        found.status = LP_FAILED;
    for (int f = 0; found.status == LP_OPTIMAL && f < yard->base->question->feed_count; f++) {
        const double bought = found.loads[f] * load_tonnes(&tree, f);
        if (isfinite(found.loads[f]))
            lp_set_column_bounds(lp, yard->base->bought[f], bought, bought);
    }
    return found;
}

#include "planner/yard_fixing.h"
#include "planner/steady_ration.h"
#include <math.h>
#include <string.h>

#define MOST_SOLVES 600.0
#define SOLVES_TIMES_ROWS 3.6e6 /* of a large program fewer: each takes longer */
#define STEPS_TIMES_ROWS 1.5e8  /* of the simplex in all of them: what is hard is left */
#define GIVEN_KG 1e-6           /* dry matter a head and day */

/* Faces and loads are few from the start, and loads alone at the end. */
static const LpEffort SHARED = {1000, 60000, 1e-4};
static const LpEffort LOADS = {1000, 30000, 1e-4};

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    const PlanQuestion *question;
    const double *target;
    LpSolution best; /* of the program as it is fixed now */
    bool has_most, has_least, by_target;
    int solves, steps;
    double *most_loads; /* [feed_count] of whole_loads, before any was fixed */
    bool *must;         /* [block_count * feed_count] cannot be done without */
    bool *not_whole;
} Search;

/* Bounds to be tried on one column. */
typedef struct {
    int column;
    double least, most;
} Fix;

static int steps_left(const Search *search) {
    const double rows = fmax(lp_row_count(search->yard->lp), 1.0);
    const bool may_solve = search->solves < fmin(MOST_SOLVES, SOLVES_TIMES_ROWS / rows);
    return may_solve ? (int)(STEPS_TIMES_ROWS / rows) - search->steps : 0;
}

static bool may_solve(const Search *search) { return steps_left(search) > 0; }

static bool solve(Search *search) {
    if (!may_solve(search))
        return false;
    search->solves++;
    const LpSolution solution = lp_solve(search->yard->lp, search->arena, START_BOUNDS_CHANGED,
                                         &search->best.basis, steps_left(search));
    search->steps += solution.iterations;
    if (solution.status == LP_OPTIMAL)
        search->best = solution;
    return solution.status == LP_OPTIMAL;
}

/* Tries all of them at once; where that cannot be, each half, down to one. Sets has_failed of
 * those that cannot. */
static void fix_all(Search *search, const Fix *fixes, int count, bool *has_failed) {
    LinearProgram *lp = search->yard->lp;
    if (count == 0)
        return;
    Fix *before = ARENA_ARRAY(search->arena, Fix, count);
    for (int i = 0; i < count; i++) {
        const int column = fixes[i].column;
        before[i] = (Fix){column, lp_column_least(lp, column), lp_column_most(lp, column)};
        lp_set_column_bounds(lp, column, fixes[i].least, fixes[i].most);
        has_failed[i] = false;
    }
    if (solve(search))
        return;
    for (int i = 0; i < count; i++)
        lp_set_column_bounds(lp, before[i].column, before[i].least, before[i].most);
    if (count == 1) {
        has_failed[0] = true;
        return;
    }
    fix_all(search, fixes, count / 2, has_failed);
    fix_all(search, fixes + count / 2, count - count / 2, has_failed + count / 2);
}

static bool fix_one(Search *search, int column, double value) {
    const Fix fix = {column, value, value};
    bool has_failed;
    fix_all(search, &fix, 1, &has_failed);
    return !has_failed;
}

static int cell(const Search *search, int block, int feed) {
    return block * search->question->feed_count + feed;
}

static double eaten(const Search *search, int block, int feed) {
    const int column = search->yard->base->eaten[cell(search, block, feed)];
    return column >= 0 ? search->best.value[column] : 0.0;
}

static int all_cells(const Search *search) {
    return search->question->block_count * search->question->feed_count;
}

/* ---- branch and bound over a few of the whole columns ---- */

typedef struct {
    const int *columns;
    int count;
} Columns;

static LinearProgram *with_only(Search *search, Columns columns) {
    LinearProgram *lp = lp_copy(search->yard->lp, search->arena);
    for (int j = 0; j < lp_column_count(lp); j++)
        lp_set_whole(lp, j, false);
    for (int i = 0; i < columns.count; i++) {
        if (columns.columns[i] >= 0)
            lp_set_whole(lp, columns.columns[i], true);
    }
    return lp;
}

static bool fix_at(Search *search, Columns columns, const double *value) {
    for (int i = 0; i < columns.count; i++) {
        const int column = columns.columns[i];
        if (column >= 0)
            lp_set_column_bounds(search->yard->lp, column, value[column], value[column]);
    }
    return solve(search);
}

static bool has_any(Columns of) { return yard_has_any(of.columns, of.count); }

/* The bound holds for the whole program where nothing was fixed before. */
static bool branch_over(Search *search, Columns columns, LpEffort effort, double *bound) {
    if (!has_any(columns))
        return true;
    const LpWhole whole = lp_solve_whole(with_only(search, columns), search->arena,
                                         &search->best.basis, NULL, effort);
    if (bound)
        *bound = fmax(*bound, whole.bound);
    return whole.status == LP_OPTIMAL && fix_at(search, columns, whole.value);
}

/* ---- which feeds are in a ration ---- */

/* Of two feeds of a ration the one to be done without first: the one less wanted, or given
 * less. */
static bool goes_before(const Search *search, int a, int b) {
    const int *eaten_column = search->yard->base->eaten;
    if (search->by_target && fabs(search->target[a] - search->target[b]) > GIVEN_KG)
        return search->target[a] < search->target[b];
    return search->best.value[eaten_column[a]] < search->best.value[eaten_column[b]];
}

/* The feed of a ration that goes next; -1 when the ration keeps to its rules or nothing can go.
 */
static int to_leave_out(const Search *search, int block) {
    const FeedingRules *rules = &search->question->farm->winter.rules;
    double filling = 0.0;
    int count = 0;
    int first = -1;    /* to go when there are too many */
    int smallest = -1; /* to go when it is too little */
    for (int f = 0; f < search->question->feed_count; f++) {
        const int at = cell(search, block, f);
        const double kg = eaten(search, block, f);
        if (search->yard->used[at] < 0 || kg <= GIVEN_KG)
            continue;
        count++;
        filling += kg;
        if (search->must[at])
            continue;
        if (first < 0 || goes_before(search, at, cell(search, block, first)))
            first = f;
        if (smallest < 0 || kg < eaten(search, block, smallest))
            smallest = f;
    }
    if (search->has_most && count > rules->most_feeds)
        return first;
    const double least_kg = search->has_least ? rules->least_share * filling - GIVEN_KG : 0.0;
    return smallest >= 0 && eaten(search, block, smallest) < least_kg ? smallest : -1;
}

/* One feed a ration and pass goes; what cannot go must stay. */
static bool leave_out(Search *search) {
    const int blocks = search->question->block_count;
    Fix *fixes = ARENA_ARRAY(search->arena, Fix, blocks);
    int *cells = ARENA_ARRAY(search->arena, int, blocks);
    bool *has_failed = ARENA_ARRAY(search->arena, bool, blocks);
    int count = 0;
    for (int b = 0; b < blocks; b++) {
        const int f = to_leave_out(search, b);
        if (f < 0)
            continue;
        cells[count] = cell(search, b, f);
        fixes[count++] = (Fix){search->yard->used[cell(search, b, f)], 0.0, 0.0};
    }
    fix_all(search, fixes, count, has_failed);
    for (int i = 0; i < count; i++) {
        if (!has_failed[i])
            continue;
        search->must[cells[i]] = true;
        if (!fix_one(search, search->yard->used[cells[i]], 1.0))
            return false;
    }
    return count > 0;
}

/* Each feed that is given is in, each other is out; false when that breaks a rule after all. */
static bool settle_sets(Search *search) {
    for (int i = 0; i < all_cells(search); i++) {
        const int used = search->yard->used[i];
        if (used < 0)
            continue;
        const bool is_given = search->best.value[search->yard->base->eaten[i]] > GIVEN_KG;
        lp_set_column_bounds(search->yard->lp, used, is_given, is_given);
    }
    return solve(search);
}

/* True when sets were found that keep the rules; the program is then held to them. */
static bool sets_in_order(Search *search, bool by_target) {
    search->by_target = by_target;
    while (may_solve(search) && leave_out(search))
        ;
    return settle_sets(search);
}

static void hold_sets(Search *search, const bool *is_in, bool is_free) {
    for (int i = 0; i < all_cells(search); i++) {
        search->must[i] = false;
        if (search->yard->used[i] >= 0)
            lp_set_column_bounds(search->yard->lp, search->yard->used[i],
                                 is_free ? 0.0 : is_in[i], is_free ? 1.0 : is_in[i]);
    }
}

/* Twice, with what was least wanted going first and with what is given least, and the cheaper
 * taken: neither is always the better. */
static bool choose_sets(Search *search) {
    if (!has_any((Columns){search->yard->used, all_cells(search)}))
        return true;
    const LpSolution before = search->best;
    const bool has_first = sets_in_order(search, true);
    const LpSolution first = search->best;
    bool *is_in = ARENA_ARRAY(search->arena, bool, all_cells(search));
    for (int i = 0; i < all_cells(search); i++)
        is_in[i] = search->yard->used[i] >= 0 &&
                   lp_column_least(search->yard->lp, search->yard->used[i]) > 0.0;
    hold_sets(search, is_in, true);
    search->best = before;
    const bool has_second = sets_in_order(search, false);
    if (!has_first || (has_second && search->best.cost <= first.cost))
        return has_second;
    hold_sets(search, is_in, false);
    search->best = first;
    return true;
}

/* ---- bales ---- */

/* The even rations with the feeds so far chosen: bales are rounded from these. */
static const double *even_target(Search *search) {
    RationProgram program = *search->yard->base;
    program.lp = search->yard->lp;
    bool is_steady;
    return steady_rations(search->arena, &program, &search->best, NULL, NULL, &is_steady);
}

/* The column of a ration with the fewest bales that are not whole yet: the many are rounded
 * last, when a bale more or less is a small share. -1: none is left. */
static int fewest_bales(const Search *search, int block, const double *even,
                        const bool *is_done) {
    int fewest = -1;
    for (int f = 0; f < search->question->own_count; f++) {
        const int column = search->yard->bales[cell(search, block, f)];
        if (column >= 0 && !is_done[column] && (fewest < 0 || even[column] < even[fewest]))
            fewest = column;
    }
    return fewest;
}

/* Rounded the other way, or a bale further off, or not at all. */
static bool round_otherwise(Search *search, int column, double wanted) {
    const double nearest = round(wanted);
    const double side = nearest > wanted ? -1.0 : 1.0;
    const double others[] = {nearest + side, nearest - side, nearest + 2.0 * side};
    const double most = lp_column_most(search->yard->lp, column);
    for (int i = 0; i < 3; i++) {
        if (others[i] >= 0.0 && others[i] <= most && fix_one(search, column, others[i]))
            return true;
    }
    return false;
}

static void give_up_whole(Search *search, int column) {
    for (int i = 0; i < all_cells(search); i++) {
        if (search->yard->bales[i] == column)
            search->not_whole[i] = true;
    }
    lp_set_whole(search->yard->lp, column, false);
}

static int one_pass(Search *search, const double *even, bool *is_done) {
    const int blocks = search->question->block_count;
    Fix *fixes = ARENA_ARRAY(search->arena, Fix, blocks);
    bool *has_failed = ARENA_ARRAY(search->arena, bool, blocks);
    int count = 0;
    for (int b = 0; b < blocks; b++) {
        const int column = fewest_bales(search, b, even, is_done);
        if (column < 0)
            continue;
        is_done[column] = true;
        const double nearest =
            fmin(round(even[column]), floor(lp_column_most(search->yard->lp, column)));
        fixes[count++] = (Fix){column, nearest, nearest};
    }
    fix_all(search, fixes, count, has_failed);
    for (int i = 0; i < count; i++) {
        if (has_failed[i] && !round_otherwise(search, fixes[i].column, even[fixes[i].column]))
            give_up_whole(search, fixes[i].column);
    }
    return count;
}

static bool choose_bales(Search *search) {
    if (!has_any((Columns){search->yard->bales, all_cells(search)}))
        return true;
    const double *even = even_target(search);
    bool *is_done = ARENA_ARRAY(search->arena, bool, lp_column_count(search->yard->lp));
    while (one_pass(search, even, is_done) > 0)
        ;
    return may_solve(search);
}

/* ---- all of it: faces and loads of all feeds ---- */

static Columns shared_columns(const Search *search) {
    const int feeds = search->question->feed_count;
    const int faces = search->yard->slice_count * feeds;
    int *columns = ARENA_ARRAY(search->arena, int, faces + feeds);
    memcpy(columns, search->yard->open, (size_t)faces * sizeof *columns);
    memcpy(columns + faces, search->yard->loads, (size_t)feeds * sizeof *columns);
    return (Columns){columns, faces + feeds};
}

/* A feed of which no load was wanted is not bought; of the others at least so many, or from
 * none. */
static bool free_loads(Search *search, bool from_none) {
    LinearProgram *lp = search->yard->lp;
    for (int f = 0; f < search->question->feed_count; f++) {
        const int loads = search->yard->loads[f];
        if (loads < 0 || lp_column_least(lp, loads) <= 0.0)
            continue;
        lp_set_column_bounds(lp, loads, from_none ? 0.0 : lp_column_least(lp, loads),
                             search->most_loads[f]);
    }
    return solve(search);
}

/* Loads come first: what is bought is bought, and rations are made of it. When these are whole,
 * the loads are counted once more. */
static bool quick_choice(Search *search, double *bound) {
    const Columns loads = {search->yard->loads, search->question->feed_count};
    for (int f = 0; f < loads.count; f++)
        search->most_loads[f] =
            loads.columns[f] < 0 ? 0.0 : lp_column_most(search->yard->lp, loads.columns[f]);
    if (!branch_over(search, shared_columns(search), SHARED, bound))
        return false;
    if (!has_any(loads))
        return choose_sets(search) && choose_bales(search);
    return free_loads(search, false) && choose_sets(search) && choose_bales(search) &&
           free_loads(search, true) && branch_over(search, loads, LOADS, NULL);
}

bool yard_fix(Arena *arena, const YardProgram *yard, const LpBasis *start,
              const YardRules *rules, const double *target, YardChoice *choice) {
    const PlanQuestion *question = yard->base->question;
    const int cells = question->block_count * question->feed_count;
    Search search = {
        .arena = arena,
        .yard = yard,
        .question = question,
        .target = target,
        .has_most = rules->is_on[YARD_RULE_MOST_FEEDS],
        .has_least = rules->is_on[YARD_RULE_LEAST_SHARE],
        .must = ARENA_ARRAY(arena, bool, cells),
        .not_whole = ARENA_ARRAY(arena, bool, cells),
        .most_loads = ARENA_ARRAY(arena, double, question->feed_count),
    };
    search.best.basis = yard_basis(arena, yard, start);
    if (!solve(&search))
        return false;
    double bound = search.best.cost;
    if (!quick_choice(&search, &bound))
        return false;
    *choice = (YardChoice){
        .fixed = yard_columns_fixed(arena, yard->lp, search.best.value),
        .not_whole = search.not_whole,
        .cost = search.best.cost,
        .bound = fmin(bound, search.best.cost),
        .solves = search.solves,
    };
    return true;
}

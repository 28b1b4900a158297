#include "planner/yard_fixing.h"
#include "planner/yard_fixing_parts.h"
#include <math.h>
#include <string.h>

#define MOST_SOLVES 600.0
#define SOLVES_TIMES_ROWS 3.6e6 /* of a large program fewer: each takes longer */
#define STEPS_TIMES_ROWS 1.5e8  /* of the simplex in all of them: what is hard is left */
#define GIVEN_KG 1e-6           /* dry matter a head and day */

/* Faces and loads are few from the start, and loads alone at the end. */
static const LpEffort SHARED = {1000, 60000, 1e-4};
static const LpEffort LOADS = {1000, 30000, 1e-4};

static int steps_left(const FixSearch *search) {
    const double rows = fmax(lp_row_count(search->yard->lp), 1.0);
    const bool may_solve = search->solves < fmin(MOST_SOLVES, SOLVES_TIMES_ROWS / rows);
    return may_solve ? (int)(STEPS_TIMES_ROWS / rows) - search->steps : 0;
}

bool yard_fix_may_solve(const FixSearch *search) { return steps_left(search) > 0; }

bool yard_fix_solve(FixSearch *search, LpStart how) {
    if (!yard_fix_may_solve(search))
        return false;
    search->solves++;
    const LpSolution solution =
        lp_solve(search->yard->lp, search->arena, how, &search->best.basis, steps_left(search));
    search->steps += solution.iterations;
    if (solution.status == LP_OPTIMAL)
        search->best = solution;
    return solution.status == LP_OPTIMAL;
}

static bool solve(FixSearch *search) { return yard_fix_solve(search, START_BOUNDS_CHANGED); }

void yard_fix_all(FixSearch *search, const Fix *fixes, int count, bool *has_failed) {
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
    yard_fix_all(search, fixes, count / 2, has_failed);
    yard_fix_all(search, fixes + count / 2, count - count / 2, has_failed + count / 2);
}

bool yard_fix_one(FixSearch *search, int column, double value) {
    const Fix fix = {column, value, value};
    bool has_failed;
    yard_fix_all(search, &fix, 1, &has_failed);
    return !has_failed;
}

static double eaten(const FixSearch *search, int block, int feed) {
    const int column = search->yard->base->eaten[yard_fix_cell(search, block, feed)];
    return column >= 0 ? search->best.value[column] : 0.0;
}

/* ---- branch and bound over a few of the whole columns ---- */

typedef struct {
    const int *columns;
    int count;
} Columns;

static LinearProgram *with_only(FixSearch *search, Columns columns) {
    LinearProgram *lp = lp_copy(search->yard->lp, search->arena);
    for (int j = 0; j < lp_column_count(lp); j++)
        lp_set_whole(lp, j, false);
    for (int i = 0; i < columns.count; i++) {
        if (columns.columns[i] >= 0)
            lp_set_whole(lp, columns.columns[i], true);
    }
    return lp;
}

static bool fix_at(FixSearch *search, Columns columns, const double *value) {
    for (int i = 0; i < columns.count; i++) {
        const int column = columns.columns[i];
        if (column >= 0)
            lp_set_column_bounds(search->yard->lp, column, value[column], value[column]);
    }
    return solve(search);
}

static bool has_any(Columns of) { return yard_has_any(of.columns, of.count); }

/* The bound holds for the whole program where nothing was fixed before. */
static bool branch_over(FixSearch *search, Columns columns, LpEffort effort, double *bound) {
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
static bool goes_before(const FixSearch *search, int a, int b) {
    const int *eaten_column = search->yard->base->eaten;
    if (search->by_target && fabs(search->target[a] - search->target[b]) > GIVEN_KG)
        return search->target[a] < search->target[b];
    return search->best.value[eaten_column[a]] < search->best.value[eaten_column[b]];
}

/* The feed of a ration that goes next; -1 when the ration keeps to its rules or nothing can go.
 */
static int to_leave_out(const FixSearch *search, int block) {
    const FeedingRules *rules = &search->question->farm->winter.rules;
    double filling = 0.0;
    int count = 0;
    int first = -1;    /* to go when there are too many */
    int smallest = -1; /* to go when it is too little */
    for (int f = 0; f < search->question->feed_count; f++) {
        const int at = yard_fix_cell(search, block, f);
        const double kg = eaten(search, block, f);
        if (search->yard->used[at] < 0 || kg <= GIVEN_KG)
            continue;
        count++;
        filling += kg;
        if (search->must[at])
            continue;
        if (first < 0 || goes_before(search, at, yard_fix_cell(search, block, first)))
            first = f;
        if (smallest < 0 || kg < eaten(search, block, smallest))
            smallest = f;
    }
    if (search->has_most && count > rules->most_feeds)
        return first;
    const double least_kg = search->has_least ? rules->least_share * filling - GIVEN_KG : 0.0;
    return smallest >= 0 && eaten(search, block, smallest) < least_kg ? smallest : -1;
}

/* A feed that cannot go from one ration, because those before and after have it and it may not
 * change so fast, goes from all of them around it. */
static bool leave_out_around(FixSearch *search, int at) {
    const int feeds = search->question->feed_count;
    const int block = at / feeds;
    const int feed = at % feeds;
    const int group = search->question->blocks[block].group;
    int first = block;
    int last = block;
    while (first > 0 && search->question->blocks[first - 1].group == group &&
           eaten(search, first - 1, feed) > GIVEN_KG)
        first--;
    while (last + 1 < search->question->block_count &&
           search->question->blocks[last + 1].group == group &&
           eaten(search, last + 1, feed) > GIVEN_KG)
        last++;
    Fix *before = ARENA_ARRAY(search->arena, Fix, last - first + 1);
    for (int b = first; b <= last; b++) {
        const int used = search->yard->used[yard_fix_cell(search, b, feed)];
        if (used < 0 || search->must[yard_fix_cell(search, b, feed)])
            return false;
        before[b - first] = (Fix){used, lp_column_least(search->yard->lp, used),
                                  lp_column_most(search->yard->lp, used)};
    }
    for (int b = first; b <= last; b++)
        lp_set_column_bounds(search->yard->lp, before[b - first].column, 0.0, 0.0);
    if (solve(search))
        return true;
    for (int b = first; b <= last; b++)
        lp_set_column_bounds(search->yard->lp, before[b - first].column,
                             before[b - first].least, before[b - first].most);
    return false;
}

/* One feed a ration and pass goes; what cannot go must stay. */
static bool leave_out(FixSearch *search) {
    const int blocks = search->question->block_count;
    Fix *fixes = ARENA_ARRAY(search->arena, Fix, blocks);
    int *cells = ARENA_ARRAY(search->arena, int, blocks);
    bool *has_failed = ARENA_ARRAY(search->arena, bool, blocks);
    int count = 0;
    for (int b = 0; b < blocks; b++) {
        const int f = to_leave_out(search, b);
        if (f < 0)
            continue;
        cells[count] = yard_fix_cell(search, b, f);
        fixes[count++] = (Fix){search->yard->used[yard_fix_cell(search, b, f)], 0.0, 0.0};
    }
    yard_fix_all(search, fixes, count, has_failed);
    for (int i = 0; i < count; i++) {
        if (!has_failed[i] || (search->is_tied && leave_out_around(search, cells[i])))
            continue;
        search->must[cells[i]] = true;
        if (!yard_fix_one(search, search->yard->used[cells[i]], 1.0))
            return false;
    }
    return count > 0;
}

/* Each feed that is given is in, each other is out; false when that breaks a rule after all. */
static bool settle_sets(FixSearch *search) {
    for (int i = 0; i < yard_fix_cells(search); i++) {
        const int used = search->yard->used[i];
        if (used < 0)
            continue;
        const bool is_given = search->best.value[search->yard->base->eaten[i]] > GIVEN_KG;
        lp_set_column_bounds(search->yard->lp, used, is_given, is_given);
    }
    return solve(search);
}

/* True when sets were found that keep the rules; the program is then held to them. */
static bool sets_in_order(FixSearch *search, bool by_target) {
    search->by_target = by_target;
    while (yard_fix_may_solve(search) && leave_out(search))
        ;
    return settle_sets(search);
}

static void hold_sets(FixSearch *search, const bool *is_in, bool is_free) {
    for (int i = 0; i < yard_fix_cells(search); i++) {
        search->must[i] = false;
        if (search->yard->used[i] >= 0)
            lp_set_column_bounds(search->yard->lp, search->yard->used[i],
                                 is_free ? 0.0 : is_in[i], is_free ? 1.0 : is_in[i]);
    }
}

/* The sets that are known, held; false where they are none or have no answer. */
static bool known_sets(FixSearch *search) {
    if (!search->known)
        return false;
    hold_sets(search, search->known, false);
    return solve(search);
}

/* A way to sets of feeds: thinned first, with so many periods before and after in view, or not;
 * and then what was least wanted, or what is given least, going first. */
typedef struct {
    int reach; /* 0: not thinned */
    bool by_target;
} SetWay;

static const SetWay WAYS[] = {{4, false}, {2, false}, {8, false}, {0, true}, {0, false}};
enum { THINNED_WAYS = 3, SET_WAYS = sizeof WAYS / sizeof *WAYS };
#define FEED_BY_FEED_ROWS 3000 /* of more it takes long, and is left where thinning does */

/* Each way from the same start, and the cheapest taken: none is always the best. */
static bool cheapest_sets(FixSearch *search, const SetWay *ways, int count) {
    const LpSolution before = search->best;
    LpSolution best = {.status = LP_FAILED};
    bool *is_in = ARENA_ARRAY(search->arena, bool, yard_fix_cells(search));
    if (known_sets(search)) {
        best = search->best;
        memcpy(is_in, search->known, (size_t)yard_fix_cells(search) * sizeof *is_in);
    }
    for (int way = 0; way < count; way++) {
        hold_sets(search, is_in, true);
        search->best = before;
        if ((ways[way].reach > 0 && !yard_fix_thin(search, ways[way].reach)) ||
            !sets_in_order(search, ways[way].by_target) ||
            (best.status == LP_OPTIMAL && search->best.cost >= best.cost))
            continue;
        best = search->best;
        for (int i = 0; i < yard_fix_cells(search); i++)
            is_in[i] = search->yard->used[i] >= 0 &&
                       lp_column_least(search->yard->lp, search->yard->used[i]) > 0.0;
    }
    hold_sets(search, is_in, best.status != LP_OPTIMAL);
    search->best = best.status == LP_OPTIMAL ? best : before;
    return best.status == LP_OPTIMAL;
}

/* Thinned where a change ties periods. */
static bool choose_sets(FixSearch *search) {
    if (!has_any((Columns){search->yard->used, yard_fix_cells(search)}))
        return true;
    const bool is_large = lp_row_count(search->yard->lp) > FEED_BY_FEED_ROWS;
    const int first = search->is_tied ? 0 : THINNED_WAYS;
    return (search->is_tied && is_large && cheapest_sets(search, WAYS, THINNED_WAYS)) ||
           cheapest_sets(search, WAYS + first, SET_WAYS - first);
}

/* ---- all of it: faces and loads of all feeds ---- */

static Columns shared_columns(const FixSearch *search) {
    const int feeds = search->question->feed_count;
    const int faces = search->yard->slice_count * feeds;
    int *columns = ARENA_ARRAY(search->arena, int, faces + feeds);
    memcpy(columns, search->yard->open, (size_t)faces * sizeof *columns);
    memcpy(columns + faces, search->yard->loads, (size_t)feeds * sizeof *columns);
    return (Columns){columns, faces + feeds};
}

/* A feed of which no load was wanted is not bought; of the others at least so many, or from
 * none. */
static bool free_loads(FixSearch *search, bool from_none) {
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
static bool quick_choice(FixSearch *search, double *bound) {
    const Columns loads = {search->yard->loads, search->question->feed_count};
    for (int f = 0; f < loads.count; f++)
        search->most_loads[f] =
            loads.columns[f] < 0 ? 0.0 : lp_column_most(search->yard->lp, loads.columns[f]);
    if (!branch_over(search, shared_columns(search), SHARED, bound))
        return false;
    if (!has_any(loads))
        return choose_sets(search) && yard_fix_bales(search);
    return free_loads(search, false) && choose_sets(search) && yard_fix_bales(search) &&
           free_loads(search, true) && branch_over(search, loads, LOADS, NULL);
}

bool yard_fix(Arena *arena, const YardProgram *yard, const LpBasis *start,
              const YardRules *rules, const double *target, const bool *known,
              YardChoice *choice) {
    const PlanQuestion *question = yard->base->question;
    const int cells = question->block_count * question->feed_count;
    FixSearch search = {
        .arena = arena,
        .yard = yard,
        .question = question,
        .target = target,
        .known = known,
        .has_most = rules->is_on[YARD_RULE_MOST_FEEDS],
        .has_least = rules->is_on[YARD_RULE_LEAST_SHARE],
        .is_tied = rules->is_on[YARD_RULE_LARGEST_CHANGE],
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
        .value = search.best.value,
        .solves = search.solves,
    };
    return true;
}

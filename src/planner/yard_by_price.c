#include "planner/yard_by_price.h"
#include "planner/steady_ration.h"
#include "planner/yard_by_price_parts.h"
#include "planner/yard_held.h"
#include "planner/yard_loads.h"
#include <math.h>
#include <string.h>

#define BOUND_GAP 1e-4  /* of the cost, at which prices are good enough */
#define BALE_ROUNDS 4   /* with whole bales, to raise the bound */
#define SET_NODES 3000  /* of one ration: which feeds */
#define BALE_NODES 600  /* of one ration: bales too */
#define MANY_BALED 8    /* stacks by the bale in one ration */
#define BOUND_NODES 200 /* of one ration: bales, for the bound alone */

static int cells(const PriceSearch *search) {
    return search->question->block_count * search->question->feed_count;
}

static bool is_ruled(const PriceSearch *search) {
    return yard_chooses_feeds(search->rules) || search->rules->is_on[YARD_RULE_WHOLE_BALES];
}

/* ---- the bound, and the prices to begin at ---- */

/* Whole bales only raise it: their prices are those without them. */
static double bound_with_bales(PriceSearch *search) {
    if (!search->ruled || !search->rules->is_on[YARD_RULE_WHOLE_BALES])
        return -NO_LIMIT;
    yard_make_rules(search, true, BOUND_NODES);
    block_choice_rules(search->ruled, search->rule, BOUND_GAP, BALE_ROUNDS);
    block_program_solve(search->ruled, search->arena);
    return block_choice_bound(search->ruled);
}

static bool has_let_go(const PriceSearch *search) {
    for (int i = 0; i < cells(search); i++) {
        if (search->not_whole[i])
            return true;
    }
    return false;
}

static void free_purchases(const PriceSearch *search, LinearProgram *lp) {
    const PlanQuestion *question = search->question;
    for (int f = 0; f < question->feed_count; f++) {
        const int loads = search->yard->loads[f];
        if (loads >= 0)
            lp_set_column_bounds(lp, search->yard->base->bought[f], 0.0,
                                 lp_column_most(search->yard->lp, loads) *
                                     question->feeds[f].load_kg / KG_PER_TONNE);
    }
}

static void note_loads(PriceSearch *search, const YardLoads *loads) {
    for (int f = 0; loads->status == LP_OPTIMAL && f < search->question->feed_count; f++) {
        if (search->yard->loads[f] >= 0)
            search->fixed[search->yard->loads[f]] = loads->loads[f];
    }
}

/* The loads to begin with are those wanted where something is held back of the stacks: with the
 * very least of loads there may be nothing left to round bales with. */
static void take_loads(PriceSearch *search, LinearProgram *lp, BlockProgram *ruled) {
    yard_keep_reserves(search, lp, 2.0);
    const YardLoads loads = yard_whole_loads(search->arena, search->yard, lp, ruled);
    yard_keep_reserves(search, lp, -2.0);
    note_loads(search, &loads);
}

/* Loads are those of the bound where no bales are rounded; where periods are tied too, since
 * there a second tree would take long. */
static bool holds_nothing_back(const PriceSearch *search) {
    return yard_ties_periods(search->rules) || !search->rules->is_on[YARD_RULE_WHOLE_BALES];
}

/* Of the whole, its faces free. *row_price is that of the rations' rules; the loads that would
 * be bought are noted, but only whether any is. False when it is proved that the rules cannot
 * be kept. */
static bool find_bound(PriceSearch *search, const LpSolution *near, double *bound,
                       const double **row_price) {
    Arena *arena = search->arena;
    double *nothing_fixed = ARENA_ARRAY(arena, double, lp_column_count(search->yard->lp));
    for (int j = 0; j < lp_column_count(search->yard->lp); j++)
        nothing_fixed[j] = (double)NAN;
    const RationProgram free = yard_held_program(arena, search->yard, nothing_fixed);
    BlockProgram *ruled = block_program(arena, free.lp, &free.shape);
    *row_price = near->shadow_price;
    if (!ruled)
        return true;
    const LpSolution start = yard_held_near(arena, &free, near);
    block_program_start_near(ruled, &start);
    yard_make_rules(search, false, SET_NODES);
    block_choice_rules(ruled, search->rule, BOUND_GAP, BOUND_ROUNDS);
    const LpSolution root = block_program_solve(ruled, arena);
    search->solves++;
    if (root.status == LP_INFEASIBLE)
        return false;
    *bound = fmax(*bound, block_choice_bound(ruled));
    if (root.status == LP_OPTIMAL)
        *row_price = root.shadow_price;
    if (search->rules->is_on[YARD_RULE_WHOLE_LOADS]) {
        const YardLoads loads = yard_whole_loads(arena, search->yard, free.lp, ruled);
        if (loads.status == LP_INFEASIBLE)
            return false;
        if (loads.status == LP_OPTIMAL)
            *bound = fmax(*bound, loads.bound);
        free_purchases(search, free.lp);
        if (holds_nothing_back(search)) {
            note_loads(search, &loads);
        } else {
            take_loads(search, free.lp, ruled);
            free_purchases(search, free.lp);
        }
    }
    search->ruled = ruled;
    return true;
}

/* ---- all of it ---- */

static const double *even_rations(PriceSearch *search) {
    const PlanQuestion *question = search->question;
    bool is_steady;
    const double *value =
        steady_rations(search->arena, &search->held, &search->solution, NULL, NULL, &is_steady);
    double *even = ARENA_ARRAY(search->arena, double, cells(search));
    for (int i = 0; i < question->block_count * question->feed_count; i++)
        even[i] = search->held.eaten[i] >= 0 ? value[search->held.eaten[i]] : 0.0;
    return even;
}

/* As if no bales had been let go. */
static void whole_again(const PriceSearch *search) {
    for (int i = 0; i < cells(search); i++) {
        if (search->not_whole[i])
            lp_set_whole(search->yard->lp, search->yard->bales[i], true);
        search->not_whole[i] = false;
    }
}

/* The most stacks that come by the bale in a ration. */
static int most_baled(const PriceSearch *search) {
    int most = 0;
    for (int b = 0; b < search->question->block_count; b++) {
        int count = 0;
        for (int f = 0; f < search->question->feed_count; f++)
            count += search->yard->bales[b * search->question->feed_count + f] >= 0;
        most = count > most ? count : most;
    }
    return most;
}

static bool choose_bales(PriceSearch *search, const LpSolution *near, const double *row_price,
                         bool is_narrow, double bound) {
    bool *is_far = ARENA_ARRAY(search->arena, bool, search->question->block_count);
    search->is_narrow = is_narrow;
    whole_again(search);
    yard_make_rules(search, true, BALE_NODES);
    if (!yard_rations_can(search, row_price, is_far) || !yard_decide_all(search, near, is_far))
        return false;
    yard_improve(search, is_far, bound);
    return true;
}

/* Feeds first; bales are then chosen near the even rations of these. Of many stacks the tree of
 * one ration would be too large: it then has only the feeds of the even ration. */
static bool choose_rations(PriceSearch *search, const double *row_price, double bound) {
    const LpSolution near = search->solution;
    search->is_narrow = false;
    if (yard_chooses_feeds(search->rules)) {
        const bool *is_far = ARENA_ARRAY(search->arena, bool, search->question->block_count);
        yard_make_rules(search, false, SET_NODES);
        if (!yard_decide_all(search, &near, is_far))
            return false;
        yard_improve(search, is_far, bound);
    }
    if (!search->rules->is_on[YARD_RULE_WHOLE_BALES])
        return true;
    search->target = even_rations(search);
    return (most_baled(search) <= MANY_BALED &&
            choose_bales(search, &near, row_price, false, bound)) ||
           choose_bales(search, &near, row_price, true, bound);
}

static void free_loads(PriceSearch *search) {
    for (int f = 0; f < search->question->feed_count; f++) {
        if (search->yard->loads[f] >= 0)
            search->fixed[search->yard->loads[f]] = (double)NAN;
    }
}

/* Loads last, for rations that are chosen; loads of feed that was thought not worth one may be
 * bought after all. */
/* Loads once more, for the rations that are chosen; what is not cheaper than the loads they
 * were chosen with is dropped. */
static bool choose_loads(PriceSearch *search, double bound) {
    const int columns = lp_column_count(search->yard->lp);
    double *kept = ARENA_ARRAY(search->arena, double, columns);
    bool are_whole = true;
    for (int f = 0; f < search->question->feed_count; f++) {
        if (search->yard->loads[f] >= 0)
            are_whole = are_whole && isfinite(search->fixed[search->yard->loads[f]]);
    }
    const RationProgram held = search->held;
    const LpSolution solution = search->solution;
    if (are_whole && (yard_ties_periods(search->rules) ||
                      solution.cost - bound <= YARD_GAP / 2.0 * fabs(solution.cost)))
        return true;
    memcpy(kept, search->fixed, (size_t)columns * sizeof *kept);
    free_loads(search);
    if (yard_hold_chosen(search, &solution) && search->blocks) {
        const YardLoads loads =
            yard_whole_loads(search->arena, search->yard, search->held.lp, search->blocks);
        note_loads(search, &loads);
        if (loads.status == LP_OPTIMAL && (!are_whole || loads.cost < solution.cost) &&
            yard_hold_chosen(search, &loads.solution))
            return true;
    }
    memcpy(search->fixed, kept, (size_t)columns * sizeof *kept);
    search->held = held;
    search->solution = solution;
    return are_whole;
}

/* What no rule speaks of, or was let go, stays free; of the others each has its number. What
 * was let go and is not given needs no bales. */
static void give_numbers(const PriceSearch *search) {
    for (int i = 0; i < cells(search); i++) {
        const int used = search->yard->used[i];
        const int bales = search->yard->bales[i];
        const int eaten = search->yard->base->eaten[i];
        const double kg = eaten >= 0 ? search->solution.value[eaten] : 0.0;
        if (used >= 0 && isnan(search->fixed[used]))
            search->fixed[used] = kg > GIVEN_KG;
        if (bales >= 0 && kg <= GIVEN_KG && !search->is_without_bales) {
            search->not_whole[i] = false;
            search->fixed[bales] = 0.0;
            lp_set_whole(search->yard->lp, bales, true);
        }
    }
}

/* The same group by group, where a change ties periods. Where bales will not come out whole
 * beside feeds so chosen, the feeds stay. */
static bool choose_by_group(PriceSearch *search, double bound) {
    const LpSolution near = search->solution;
    const double *target = search->target;
    whole_again(search);
    if (!yard_hold_chosen(search, &near) ||
        (yard_chooses_feeds(search->rules) && !yard_sets_by_group(search, bound)))
        return false;
    if (!search->rules->is_on[YARD_RULE_WHOLE_BALES])
        return true;
    search->target = even_rations(search);
    if (!yard_bales_by_group(search))
        yard_let_go_all(search);
    search->target = target;
    return true;
}

static bool choose_all(PriceSearch *search, const double *row_price, double bound) {
    return yard_ties_periods(search->rules) ? choose_by_group(search, bound)
                                            : choose_rations(search, row_price, bound);
}

/* Rations and loads, once with the loads it is begun with and once with these free. */
static bool choose_everything(PriceSearch *search, const LpSolution *near,
                              const double *row_price, double bound) {
    if (!yard_hold_chosen(search, near))
        return false;
    if (is_ruled(search) && !choose_all(search, row_price, bound)) {
        free_loads(search);
        for (int b = 0; b < search->question->block_count; b++)
            yard_free_ration(search, b);
        if (!search->rules->is_on[YARD_RULE_WHOLE_LOADS] || !yard_hold_chosen(search, near) ||
            !choose_all(search, row_price, bound))
            return false;
    }
    return choose_loads(search, bound);
}

static PriceSearch new_search(Arena *arena, const YardProgram *yard, const LpSolution *near,
                              const YardRules *rules, const double *target, double *fixed) {
    const PlanQuestion *question = yard->base->question;
    return (PriceSearch){
        .arena = arena,
        .yard = yard,
        .question = question,
        .rules = rules,
        .target = target,
        .rule = ARENA_ARRAY(arena, BlockRule, question->block_count),
        .of_ration = block_program(arena, yard->base->lp, &yard->base->shape),
        .fixed = fixed,
        .not_whole = ARENA_ARRAY(arena, bool, question->block_count * question->feed_count),
        .solution = *near,
    };
}

LpStatus yard_bound_by_price(Arena *arena, const YardProgram *yard, const LpSolution *near,
                             const YardRules *rules, double *bound) {
    double *fixed = ARENA_ARRAY(arena, double, lp_column_count(yard->lp));
    for (int j = 0; j < lp_column_count(yard->lp); j++)
        fixed[j] = (double)NAN;
    PriceSearch search = new_search(arena, yard, near, rules, NULL, fixed);
    const double *row_price;
    if (!search.of_ration)
        return LP_FAILED;
    return find_bound(&search, near, bound, &row_price) ? LP_OPTIMAL : LP_INFEASIBLE;
}

LpStatus yard_search_by_price(Arena *arena, const YardProgram *yard, const LpSolution *near,
                              const YardRules *rules, const double *target,
                              YardChoice *choice) {
    PriceSearch search = new_search(arena, yard, near, rules, target, choice->fixed);
    const double *row_price;
    if (!search.of_ration)
        return LP_FAILED;
    if (!find_bound(&search, near, &choice->bound, &row_price))
        return LP_INFEASIBLE;
    const double with_bales = fmax(choice->bound, bound_with_bales(&search));
    search.open = yard_held_program(arena, yard, search.fixed).lp;
    if (!choose_everything(&search, near, row_price, with_bales)) {
        whole_again(&search);
        return LP_FAILED;
    }
    give_numbers(&search);
    choice->not_whole = search.not_whole;
    choice->is_without_bales = search.is_without_bales;
    choice->cost = search.solution.cost;
    /* Where bales were let go, a plan may cost less than one of whole bales everywhere. */
    if (!has_let_go(&search))
        choice->bound = with_bales;
    choice->bound = fmin(choice->bound, choice->cost);
    choice->solves = search.solves;
    return LP_OPTIMAL;
}

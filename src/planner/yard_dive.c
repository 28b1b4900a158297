/* All rations at once at prices of what they share, each keeping its rules. The answer mixes
 * few of them: the others are decided, the stacks and prices follow, and so on down to the
 * last. */
#include "planner/yard_by_price_parts.h"
#include "planner/yard_linked.h"
#include "planner/yard_search.h"
#include <math.h>
#include <string.h>

#define DIVE_GAP 1e-4      /* of the cost */
#define FEW 4              /* rations that are decided one at a time */
#define MOST_LET_GO 8      /* rations whose bales are let go because nothing else is left, */
#define LET_GO_SHARE 0.05  /* or of a large farm this share of them */
#define PARTS 4            /* of the rations, decided anew one after the other */
#define RESERVE_BALES 2.0  /* a week */
#define RESERVE_SHARE 0.02 /* of a stack */
#define RESERVE_OF_LOADS 0.005
#define LITTLE_RESERVE 0.25
#define UNMIXED 0.999 /* weight of a part that is as good as all of a ration */

/* The program with what is fixed so far; false when it has no answer. */
bool yard_hold_chosen(PriceSearch *search, const LpSolution *near) {
    const LpSolution solution = yard_linked_solve(search->arena, search->yard, search->fixed,
                                                  near, &search->held, &search->blocks);
    search->solves++;
    if (solution.status != LP_OPTIMAL)
        return false;
    search->solution = solution;
    return true;
}

/* ---- what is held back ---- */

/* What rounding the last bales may take more of a stack than prices foresee, tonnes as fed: a
 * few bales a week in the longest period, but never much of the stack. */
static double bale_reserve(const PriceSearch *search, int feed) {
    const PlanQuestion *question = search->question;
    double bales = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        const int at = b * question->feed_count + feed;
        if (search->yard->bales[at] >= 0)
            bales =
                fmax(bales,
                     RESERVE_BALES * question->blocks[b].days /
                         (7.0 * yard_bale_weeks(&question->blocks[b], &question->feeds[feed])));
    }
    return fmin(bales * question->feeds[feed].bale_kg,
                RESERVE_SHARE * question->feeds[feed].available_kg) /
           KG_PER_TONNE;
}

/* The same of what is bought by loads that are settled. */
static double load_reserve(const PriceSearch *search, int feed) {
    const int loads = search->yard->loads[feed];
    if (loads < 0 || isnan(search->fixed[loads]))
        return 0.0;
    return RESERVE_OF_LOADS * search->fixed[loads] * search->question->feeds[feed].load_kg /
           KG_PER_TONNE;
}

void yard_keep_reserves(const PriceSearch *search, LinearProgram *lp, double reserve) {
    for (int f = 0; f < search->question->feed_count; f++) {
        const int row = search->yard->base->stock[f];
        const double kept = bale_reserve(search, f) + load_reserve(search, f);
        if (row >= 0)
            lp_set_row_bounds(lp, row, lp_row_least(lp, row),
                              lp_row_most(lp, row) - reserve * kept);
    }
}

/* ---- diving ---- */

/* The program as held so far, in which what was wanted is a little cheaper, and bales of the
 * rations not decided stay near it. */
static RationProgram leaned_program(PriceSearch *search, Arena *arena, const bool *is_decided,
                                    const bool *is_far, double reserve) {
    const PlanQuestion *question = search->question;
    RationProgram leaned = yard_held_program(arena, search->yard, search->fixed);
    double *added = ARENA_ARRAY(arena, double, question->feed_count);
    double *least = ARENA_ARRAY(arena, double, question->feed_count);
    double *most = ARENA_ARRAY(arena, double, question->feed_count);
    yard_keep_reserves(search, leaned.lp, reserve);
    for (int b = 0; b < question->block_count; b++) {
        const BlockRule *rule = &search->rule[b];
        yard_lean(search, b, !is_far[b], added, least, most);
        for (int i = 0; i < rule->count; i++) {
            const int column = rule->column[i];
            lp_set_cost(leaned.lp, column, lp_cost(leaned.lp, column) + added[i]);
            if (!is_decided[b])
                lp_set_column_bounds(leaned.lp, column, least[i], most[i]);
        }
    }
    return leaned;
}

/* The parts of one ration, the largest first. */
enum { MOST_PARTS = 4 };
typedef struct {
    const BlockPart *part[MOST_PARTS];
    int count;
} Parts;

static void add_part(Parts *of, const BlockPart *part) {
    if (of->count == MOST_PARTS)
        return;
    int at = of->count++;
    for (; at > 0 && of->part[at - 1]->weight < part->weight; at--)
        of->part[at] = of->part[at - 1];
    of->part[at] = part;
}

static double main_weight(const Parts *of) { return of->count > 0 ? of->part[0]->weight : 0.0; }

static void take_part(PriceSearch *search, const BlockPart *part) {
    const BlockRule *rule = &search->rule[part->block];
    double *value = ARENA_ARRAY(search->arena, double, rule->count);
    for (int k = 0; k < part->count; k++) {
        for (int i = 0; i < rule->count; i++) {
            if (rule->column[i] == part->column[k])
                value[i] = part->value[k];
        }
    }
    yard_take(search, part->block, value);
}

/* Decides every ration that is of one part; how many are left. */
static int decide_unmixed(PriceSearch *search, const Parts *parts, bool *is_decided) {
    int left = 0;
    for (int b = 0; b < search->question->block_count; b++) {
        if (is_decided[b])
            continue;
        is_decided[b] = search->rule[b].count == 0 || main_weight(&parts[b]) >= UNMIXED;
        left += !is_decided[b];
        if (is_decided[b] && parts[b].count > 0)
            take_part(search, parts[b].part[0]);
    }
    return left;
}

/* Of those left the one that is nearest to being of one part. -1: none has any. */
static int decide_one(PriceSearch *search, const Parts *parts, bool *is_decided) {
    int next = -1;
    for (int b = 0; b < search->question->block_count; b++) {
        if (!is_decided[b] && parts[b].count > 0 &&
            (next < 0 || main_weight(&parts[b]) > main_weight(&parts[next])))
            next = b;
    }
    if (next < 0)
        return -1;
    take_part(search, parts[next].part[0]);
    is_decided[next] = true;
    return next;
}

/* Prices for the rations that are not decided yet, each keeping its rules, and from them the
 * parts they are of; LP_FAILED too where these are not found. */
static LpStatus ask_undecided(PriceSearch *search, const LpSolution *near,
                              const bool *is_decided, const bool *is_far, double reserve,
                              Parts *parts) {
    const int blocks = search->question->block_count;
    Arena *scratch = arena_open(); /* a program of the winter each time: all but the parts */
    const RationProgram leaned = leaned_program(search, scratch, is_decided, is_far, reserve);
    BlockProgram *ruled = block_program(scratch, leaned.lp, &leaned.shape);
    LpStatus status = LP_FAILED;
    if (ruled) {
        const LpSolution start = yard_held_near(scratch, &leaned, near);
        block_program_start_near(ruled, &start);
        const BlockRule none = {.count = 0};
        BlockRule *undecided = ARENA_ARRAY(scratch, BlockRule, blocks);
        for (int b = 0; b < blocks; b++)
            undecided[b] = is_decided[b] ? none : search->rule[b];
        block_choice_rules(ruled, undecided, DIVE_GAP, BOUND_ROUNDS);
        status = block_program_solve(ruled, scratch).status;
        search->solves++;
    }
    int count = 0;
    const BlockPart *found =
        status == LP_OPTIMAL ? block_choice_parts(ruled, search->arena, &count) : NULL;
    memset(parts, 0, (size_t)blocks * sizeof *parts);
    for (int p = 0; found && p < count; p++) {
        if (found[p].weight > 0.0)
            add_part(&parts[found[p].block], &found[p]);
    }
    arena_close(scratch);
    return status != LP_OPTIMAL || found ? status : LP_FAILED;
}

/* One way down the tree of all rations. */
typedef struct {
    const LpSolution *near;
    bool *is_decided, *is_far;
    double reserve;  /* held back of stacks for the last bales, in terms of bale_reserve */
    bool may_let_go; /* bales of the last rations, where nothing else is left */
    int left;        /* rations not decided */
    int let_go;      /* rations of which they were */
    int taken_back;  /* times that a part of what was decided was undecided again */
    int last, tried; /* the ration decided by itself, and how many of its parts were tried */
    Parts last_parts;
} Dive;

/* The bales of a few rations that are not decided need not be whole; false when none were. */
static bool let_bales_go(PriceSearch *search, Dive *dive) {
    int rations = 0;
    if (dive->let_go >= fmax(MOST_LET_GO, LET_GO_SHARE * search->question->block_count))
        return false;
    for (int b = 0; b < search->question->block_count && rations < FEW; b++) {
        bool any = false;
        for (int i = 0; !dive->is_decided[b] && i < search->rule[b].count; i++)
            any |= yard_let_go(search, b, i);
        rations += any;
    }
    dive->let_go += rations;
    return rations > 0;
}

/* What is not mixed is decided, then half of the rest, or of a few one. */
static bool go_on(PriceSearch *search, Dive *dive, const Parts *parts) {
    dive->left = decide_unmixed(search, parts, dive->is_decided);
    dive->last = -1;
    const bool are_few = dive->left <= FEW;
    for (int wanted = are_few ? dive->left > 0 : dive->left / 2; wanted > 0; wanted--) {
        const int block = decide_one(search, parts, dive->is_decided);
        if (block < 0)
            return false;
        dive->last = are_few ? block : -1;
        dive->left--;
    }
    if (dive->last >= 0)
        dive->last_parts = parts[dive->last];
    dive->tried = 1;
    return true;
}

/* Every fourth of the rations, others each time, is undecided again. */
static bool take_back_some(PriceSearch *search, Dive *dive) {
    if (dive->taken_back == PARTS)
        return false;
    for (int b = dive->taken_back; b < search->question->block_count; b += PARTS) {
        dive->left += dive->is_decided[b];
        dive->is_decided[b] = false;
        yard_free_ration(search, b);
    }
    dive->taken_back++;
    dive->last = -1;
    return true;
}

/* What is decided leaves no answer for the rest. */
static bool go_back(PriceSearch *search, Dive *dive) {
    bool is_eased = false;
    for (int b = 0; b < search->question->block_count; b++) {
        is_eased |= !dive->is_decided[b] && !dive->is_far[b];
        dive->is_far[b] = dive->is_far[b] || !dive->is_decided[b];
    }
    if (is_eased || dive->reserve > 0.0) {
        dive->reserve = 0.0;
        return true;
    }
    if (dive->last >= 0 && dive->tried < dive->last_parts.count) {
        take_part(search, dive->last_parts.part[dive->tried++]);
        return true;
    }
    if (!dive->may_let_go)
        return false;
    if (dive->last >= 0) {
        dive->is_decided[dive->last] = false;
        yard_free_ration(search, dive->last);
        dive->last = -1;
        dive->left++;
    }
    return let_bales_go(search, dive) || take_back_some(search, dive);
}

/* True, and all is held, when every ration was decided. */
static bool dive_down(PriceSearch *search, Dive dive) {
    const int blocks = search->question->block_count;
    Parts *parts = ARENA_ARRAY(search->arena, Parts, blocks);
    dive.left = blocks;
    dive.last = -1;
    while (dive.left > 0 || !yard_hold_chosen(search, dive.near)) {
        const LpStatus status = dive.left > 0
                                    ? ask_undecided(search, dive.near, dive.is_decided,
                                                    dive.is_far, dive.reserve, parts)
                                    : LP_INFEASIBLE;
        if (status == LP_OPTIMAL ? !go_on(search, &dive, parts) : !go_back(search, &dive))
            return false;
    }
    return true;
}

static bool has_whole_amounts(const PriceSearch *search) {
    return search->rules->is_on[YARD_RULE_WHOLE_BALES] ||
           search->rules->is_on[YARD_RULE_WHOLE_LOADS];
}

/* All rations at once, with more held back of the stacks where that fails, and then with some
 * bales let go. */
bool yard_decide_all(PriceSearch *search, const LpSolution *near, const bool *is_far) {
    static const double RESERVES[] = {1.0, 4.0, 1.0};
    const int blocks = search->question->block_count;
    const int attempts = has_whole_amounts(search) ? 3 : 1;
    for (int attempt = 0; attempt < attempts; attempt++) {
        bool *is_decided = ARENA_ARRAY(search->arena, bool, blocks);
        bool *far = ARENA_ARRAY(search->arena, bool, blocks);
        for (int b = 0; b < blocks; b++) {
            far[b] = is_far[b];
            yard_free_ration(search, b);
        }
        const Dive dive = {.near = near,
                           .is_decided = is_decided,
                           .is_far = far,
                           .reserve = RESERVES[attempt],
                           .may_let_go = attempt == 2};
        if (dive_down(search, dive))
            return true;
    }
    return false;
}

/* Every fourth ration decided anew beside the others, while the plan may be far from the bound;
 * what is not cheaper is dropped. */
void yard_improve(PriceSearch *search, const bool *is_far, double bound) {
    const int blocks = search->question->block_count;
    const int columns = lp_column_count(search->yard->lp);
    double *kept = ARENA_ARRAY(search->arena, double, columns);
    for (int part = 0; part < PARTS; part++) {
        const double cost = search->solution.cost;
        if (cost - bound <= YARD_GAP / 2.0 * fabs(cost))
            return;
        bool *is_decided = ARENA_ARRAY(search->arena, bool, blocks);
        bool *far = ARENA_ARRAY(search->arena, bool, blocks);
        const RationProgram held = search->held;
        const LpSolution solution = search->solution;
        BlockProgram *by = search->blocks;
        memcpy(kept, search->fixed, (size_t)columns * sizeof *kept);
        for (int b = 0; b < blocks; b++) {
            is_decided[b] = b % PARTS != part;
            far[b] = is_far[b];
            if (!is_decided[b])
                yard_free_ration(search, b);
        }
        const Dive dive = {.near = &solution,
                           .is_decided = is_decided,
                           .is_far = far,
                           .reserve = LITTLE_RESERVE};
        if (dive_down(search, dive) && search->solution.cost < cost)
            continue;
        memcpy(search->fixed, kept, (size_t)columns * sizeof *kept);
        search->held = held;
        search->solution = solution;
        search->blocks = by;
    }
}

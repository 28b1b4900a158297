/* Rules are tried all together; when that finds nothing, without the largest change; when that
 * does not either, one by one in the order of
 * yard_rule.def, each kept if it can be beside those before it. With the whole numbers fixed
 * what is left is a linear program again, and rations are evened out within it, so that evening
 * out breaks no rule. */
#include "planner/yard_plan.h"
#include "planner/plan_outcome.h"
#include "planner/plan_rounds.h"
#include "planner/steady_ration.h"
#include "planner/yard_linked.h"
#include <math.h>

#define PASSES 4
#define MORE_PASSES 8      /* by half steps, where a law would be missed too far */
#define CLOSE_ENOUGH 0.004 /* miss of a law that needs no further pass */
#define MOST_MISS 0.01     /* beyond it a plan does not count as keeping the cattle's needs */
/* A winter that is short may not be shorter for a rule: a hair more of each shortage, for
 * rounding. */
#define HAIR 1e-4

static BlockState *states_of_plan(Arena *arena, const WinterPlan *plan) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, plan->question->block_count);
    for (int b = 0; b < plan->question->block_count; b++)
        states[b] = plan->blocks[b].state;
    return states;
}

/* The program of the winter at these states; of a short one, with no need shorter than without
 * rules. */
static RationProgram program_at(Arena *arena, const WinterPlan *free,
                                const BlockState *states) {
    const bool is_short = free->verdict == PLAN_SHORT;
    RationProgram program = ration_program(arena, free->question, states,
                                           is_short ? AIM_SHORTAGE_FIRST : AIM_LEAST_COST);
    if (is_short)
        ration_program_hold_shortage(&program, free->solution.value, HAIR);
    return program;
}

static const double *rations_of(Arena *arena, const WinterPlan *plan) {
    const int feeds = plan->question->feed_count;
    double *rations = ARENA_ARRAY(arena, double, plan->question->block_count *feeds);
    for (int b = 0; b < plan->question->block_count; b++) {
        for (int f = 0; f < feeds; f++)
            rations[b * feeds + f] = plan->blocks[b].eaten[f];
    }
    return rations;
}

/* What is paid for is whole loads, whatever of them is fed. */
static void count_loads(Arena *arena, WinterPlan *plan, const YardProgram *yard,
                        struct YardOutcome *outcome) {
    const PlanQuestion *question = plan->question;
    double *loads = ARENA_ARRAY(arena, double, question->feed_count);
    double *left = ARENA_ARRAY(arena, double, question->feed_count);
    double *bought = ARENA_ARRAY(arena, double, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        loads[f] = (double)NAN;
        bought[f] = plan->bought_kg[f];
        if (yard->loads[f] < 0)
            continue;
        loads[f] = outcome->choice.fixed[yard->loads[f]];
        bought[f] = loads[f] * feed->load_kg;
        const double more = bought[f] - plan->bought_kg[f];
        left[f] = fmax(more, 0.0) * (1.0 - feed->shrink_share);
        plan->cost.bought += more * feed->price_per_kg;
        plan->cost.total += more * feed->price_per_kg;
    }
    plan->bought_kg = bought;
    outcome->loads = loads;
    outcome->left_kg = left;
}

typedef struct {
    Arena *arena;
    const WinterPlan *free;
    YardRules rules;
    const YardChoice *choice;
    bool *is_idle;   /* as in YardProgram: of every pass */
    LpSolution near; /* of the program with the rules, solved last */
    int rounds;
} Passes;

/* The rules held at given states and evened out; false when they cannot be held there. */
static bool held_at(Passes *passes, const BlockState *states, WinterPlan *plan,
                    const double **value) {
    Arena *arena = passes->arena;
    RationProgram *base = ARENA_NEW(arena, RationProgram);
    *base = program_at(arena, passes->free, states);
    RationProgram *held = ARENA_NEW(arena, RationProgram);
    YardProgram yard = yard_program(arena, base, &passes->rules);
    yard.is_idle = passes->is_idle;
    BlockProgram *blocks;
    const LpSolution solution =
        yard_linked_solve(arena, &yard, passes->choice->fixed, &passes->near, held, &blocks);
    passes->rounds++;
    if (solution.status != LP_OPTIMAL)
        return false;
    passes->near = solution;
    *plan = *passes->free;
    plan->program = held;
    plan->solution = solution;
    plan->by_price = blocks;
    outcome_set_least(plan, &solution);
    plan->rounds += passes->rounds;
    LpSolution of_whole;
    const RationProgram whole =
        yard_linked_whole(arena, &yard, passes->choice->fixed, &solution, &of_whole);
    *value = steady_rations(arena, &whole, &of_whole, NULL, NULL, &plan->is_steady);
    outcome_read(arena, plan, *value, states);
    return true;
}

static const BlockState *half_way(Arena *arena, const BlockState *from, const BlockState *to,
                                  int count) {
    BlockState *middle = ARENA_ARRAY(arena, BlockState, count);
    for (int b = 0; b < count; b++)
        middle[b] = round_halfway(from[b], to[b], 0.5);
    return middle;
}

/* As without rules, the laws are straightened anew at the even rations until these keep to
 * them; the pass that came nearest is taken. Where whole numbers leave rations little room they
 * flip, or cannot follow: they are then met half way. */
static bool settled(Passes *passes, WinterPlan *plan) {
    Arena *arena = passes->arena;
    const int blocks = passes->free->question->block_count;
    const BlockState *states = states_of_plan(arena, passes->free);
    const double *value;
    if (!held_at(passes, states, plan, &value))
        return false;
    /* What is short, and by how much, is known of the first states alone. */
    const bool may_move = passes->free->verdict != PLAN_SHORT;
    const BlockState *next = outcome_states(arena, plan);
    for (int pass = 1; may_move && pass < PASSES + MORE_PASSES; pass++) {
        if (plan->residual < (pass < PASSES ? CLOSE_ENOUGH : MOST_MISS))
            break;
        if (pass >= PASSES)
            next = half_way(arena, states, next, blocks);
        WinterPlan last;
        if (!held_at(passes, next, &last, &value)) {
            next = half_way(arena, states, next, blocks);
            continue;
        }
        states = next;
        next = outcome_states(arena, &last);
        if (last.residual < plan->residual)
            *plan = last;
    }
    plan->has_settled = plan->residual < MOST_MISS;
    return plan->residual < fmax(MOST_MISS, passes->free->residual);
}

/* As it was searched: with its whole columns free again. */
static const LinearProgram *searched_program(Arena *arena, const RationProgram *base,
                                             const YardRules *rules, const YardChoice *choice) {
    const YardProgram yard = yard_program(arena, base, rules);
    const int cells = base->question->block_count * base->question->feed_count;
    for (int i = 0; i < cells; i++) {
        if (choice->not_whole[i])
            lp_set_whole(yard.lp, yard.bales[i], false);
    }
    return yard.lp;
}

static bool plan_that_keeps(Arena *arena, const WinterPlan *free, YardRules rules,
                            WinterPlan *plan, struct YardOutcome *outcome) {
    const RationProgram base = program_at(arena, free, states_of_plan(arena, free));
    BlockProgram *blocks;
    const LpSolution start = yard_held_solve(arena, &base, &free->solution, 0.0, &blocks);
    if (start.status != LP_OPTIMAL)
        return false;
    const YardProgram yard = yard_program(arena, &base, &rules);
    YardChoice choice;
    if (!yard_search(arena, &yard, &start, &rules, rations_of(arena, free), &choice))
        return false;
    Passes passes = {.arena = arena,
                     .free = free,
                     .rules = rules,
                     .choice = &choice,
                     .is_idle = yard.is_idle};
    passes.near = start;
    WinterPlan found;
    if (!settled(&passes, &found))
        return false;
    *plan = found;
    outcome->kept = rules;
    outcome->kept.is_on[YARD_RULE_WHOLE_BALES] &= !choice.is_without_bales;
    outcome->choice = choice;
    outcome->not_whole = choice.not_whole;
    outcome->gap = fmax(choice.cost - choice.bound, 0.0) / fmax(fabs(choice.cost), 1e-9);
    outcome->is_proved = outcome->gap <= YARD_GAP;
    outcome->program = searched_program(arena, &base, &rules, &choice);
    count_loads(arena, plan, &yard, outcome);
    return true;
}

/* Each rule beside those before it that could be kept. */
static bool one_by_one(Arena *arena, const WinterPlan *free, const YardRules *asked,
                       WinterPlan *plan, struct YardOutcome *outcome) {
    YardRules kept = {{false}};
    bool any = false;
    for (int rule = 0; rule < YARD_RULE_COUNT; rule++) {
        if (!asked->is_on[rule])
            continue;
        YardRules with = kept;
        with.is_on[rule] = true;
        if (plan_that_keeps(arena, free, with, plan, outcome)) {
            kept = with;
            any = true;
        }
    }
    return any;
}

/* The change from period to period is the hardest to keep beside others: many of them may be
 * kept without it. */
static bool all_but_changes(Arena *arena, const WinterPlan *free, const YardRules *asked,
                            WinterPlan *plan, struct YardOutcome *outcome) {
    YardRules rest = *asked;
    rest.is_on[YARD_RULE_LARGEST_CHANGE] = false;
    return asked->is_on[YARD_RULE_LARGEST_CHANGE] && yard_rules_count(&rest) > 1 &&
           plan_that_keeps(arena, free, rest, plan, outcome);
}

static void nothing_kept(Arena *arena, const WinterPlan *plan, struct YardOutcome *outcome) {
    const PlanQuestion *question = plan->question;
    double *loads = ARENA_ARRAY(arena, double, question->feed_count);
    for (int f = 0; f < question->feed_count; f++)
        loads[f] = (double)NAN;
    outcome->loads = loads;
    outcome->left_kg = ARENA_ARRAY(arena, double, question->feed_count);
    outcome->not_whole = ARENA_ARRAY(arena, bool, question->block_count * question->feed_count);
}

WinterPlan plan_with_yard_rules(Arena *arena, const PlanQuestion *question) {
    WinterPlan *without = ARENA_NEW(arena, WinterPlan);
    *without = plan_winter(arena, question);
    const WinterPlan free = *without;
    const YardRules asked = yard_rules_asked(question);
    const int count = yard_rules_count(&asked);
    if (count == 0 || free.verdict == PLAN_FAILED)
        return free;
    struct YardOutcome *outcome = ARENA_NEW(arena, struct YardOutcome);
    outcome->asked = asked;
    outcome->without = without;
    WinterPlan plan = free;
    nothing_kept(arena, &free, outcome);
    if (!plan_that_keeps(arena, &free, asked, &plan, outcome) &&
        !all_but_changes(arena, &free, &asked, &plan, outcome) &&
        (count == 1 || !one_by_one(arena, &free, &asked, &plan, outcome)))
        plan = free;
    plan.yard = outcome;
    return plan;
}

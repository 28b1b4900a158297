#include "planner/cost_error.h"
#include "base/text.h"
#include "feedstuff/feed_energy.h"
#include "planner/plan_outcome.h"
#include "planner/price_range.h"
#include "planner/yard_plan.h"
#include "stock/analysis_error.h"
#include <math.h>

/* TDN moved, and with it what is reckoned from it, by as much. */
static void move_energy(PlanFeed *feed, double units) {
    const double before = feed->eaten[NUTRIENT_TDN];
    const double after = fmax(before + units, 0.0);
    feed->eaten[NUTRIENT_TDN] = after;
    feed->eaten[NUTRIENT_NEM] +=
        nem_from_tdn(after).mcal_per_kg - nem_from_tdn(before).mcal_per_kg;
    feed->eaten[NUTRIENT_NEG] +=
        neg_from_tdn(after).mcal_per_kg - neg_from_tdn(before).mcal_per_kg;
}

static void move_protein(PlanFeed *feed, double units) {
    const double before = feed->eaten[NUTRIENT_CRUDE_PROTEIN];
    if (!(before > 0.0))
        return;
    const double times = fmax(before + units, 0.0) / before;
    feed->eaten[NUTRIENT_CRUDE_PROTEIN] *= times;
    feed->degraded *= times;
    feed->undegraded *= times;
}

/* The least cost of the plan's last program, laws held straight, with one feed's test moved. */
static double cost_moved(const WinterPlan *plan, int feed, ErrorKind kind, double units) {
    Arena *scratch = arena_open();
    PlanQuestion moved = *plan->question;
    PlanFeed *feeds = ARENA_ARRAY(scratch, PlanFeed, moved.feed_count);
    for (int f = 0; f < moved.feed_count; f++)
        feeds[f] = plan->question->feeds[f];
    if (kind == ERROR_OF_ENERGY)
        move_energy(&feeds[feed], units);
    else
        move_protein(&feeds[feed], units);
    moved.feeds = feeds;
    const double cost = outcome_cost_held(plan, &moved);
    arena_close(scratch);
    return cost - plan->solution.cost;
}

static double change_when(const WinterPlan *plan, int feed, ErrorKind kind, double by) {
    if (kind != ERROR_OF_WEIGHT)
        return cost_moved(plan, feed, kind, by);
    Arena *scratch = arena_open();
    const double change =
        plan_cost_change(scratch, plan, feed, by * plan->question->feeds[feed].available_kg);
    arena_close(scratch);
    return change;
}

static double standard_of(const Stack *stack, ErrorKind kind) {
    switch (kind) {
    case ERROR_OF_WEIGHT:
        return stack->weight_error_share;
    case ERROR_OF_ENERGY:
        return stack_energy_error(stack);
    case ERROR_OF_PROTEIN:
    case ERROR_KIND_COUNT:
        break;
    }
    return stack_protein_error(stack);
}

/* Feed that nobody may have moves nothing. */
const CostError *cost_errors(Arena *arena, const WinterPlan *ruled) {
    const WinterPlan *plan = ruled->yard ? ruled->yard->without : ruled;
    const PlanQuestion *question = plan->question;
    if (plan->verdict != PLAN_BALANCED)
        return NULL;
    CostError *errors = ARENA_ARRAY(arena, CostError, question->own_count * ERROR_KIND_COUNT);
    for (int f = 0; f < question->own_count; f++) {
        const Stack *stack = &question->farm->inventory.stacks.stacks[question->feeds[f].place];
        for (int kind = 0; kind < ERROR_KIND_COUNT; kind++) {
            CostError *of = &errors[f * ERROR_KIND_COUNT + kind];
            *of = (CostError){standard_of(stack, (ErrorKind)kind), 0.0, 0.0};
            if (isnan(of->standard) || !plan_may_be_fed(question, f))
                continue;
            of->up = change_when(plan, f, (ErrorKind)kind, of->standard);
            of->down = change_when(plan, f, (ErrorKind)kind, -of->standard);
        }
    }
    return errors;
}

static const CostError NOTHING_MOVES = {0.0, 0.0, 0.0};

static const CostError *of_stack(const WinterPlan *plan, const CostError *errors,
                                 const char *name, int kind) {
    for (int f = 0; f < plan->question->own_count; f++) {
        if (text_same_letters(plan->question->feeds[f].name, name))
            return &errors[f * ERROR_KIND_COUNT + kind];
    }
    return &NOTHING_MOVES;
}

/* The larger of both sides; where one cannot be balanced, the other speaks for both. */
static double squared(const CostError *a, const CostError *b) {
    const double up = fabs(b->up - a->up), down = fabs(b->down - a->down);
    const double larger = fmax(up, down);
    return isnan(larger) ? 0.0 : larger * larger;
}

double cost_difference_error(const WinterPlan *a, const CostError *of_a, const WinterPlan *b,
                             const CostError *of_b) {
    if (!of_a || !of_b)
        return (double)NAN;
    double sum = 0.0;
    for (int kind = 0; kind < ERROR_KIND_COUNT; kind++) {
        for (int f = 0; f < a->question->own_count; f++) {
            const char *name = a->question->feeds[f].name;
            sum += squared(&of_a[f * ERROR_KIND_COUNT + kind], of_stack(b, of_b, name, kind));
        }
        for (int f = 0; f < b->question->own_count; f++) {
            const char *name = b->question->feeds[f].name;
            if (of_stack(a, of_a, name, kind) == &NOTHING_MOVES)
                sum += squared(&NOTHING_MOVES, &of_b[f * ERROR_KIND_COUNT + kind]);
        }
    }
    return sqrt(sum);
}

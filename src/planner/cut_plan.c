#include "planner/cut_plan.h"
#include "planner/plan_outcome.h"
#include <math.h>
#include <stdlib.h>

static Day middle_of(const Winter *winter) {
    return calendar_add(winter->first_day,
                        calendar_days_between(winter->first_day, winter->last_day) / 2);
}

static const Farm *farm_of_cuts(Arena *arena, const Farm *farm, GrowingYear year) {
    const Fields *fields = &farm->fields;
    Farm *next = ARENA_NEW(arena, Farm);
    Stack *stacks = ARENA_ARRAY(arena, Stack, fields->cut_count);
    const char **names = ARENA_ARRAY(arena, const char *, fields->cut_count);
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        stacks[c] =
            field_cut_stack(cut, &fields->fields[cut->field], year, middle_of(&farm->winter));
        names[c] = cut->name;
    }
    *next = *farm;
    next->inventory.stacks = (Stacks){stacks, names, fields->cut_count};
    return next;
}

static const struct FieldChoices *choices_of(Arena *arena, const CutQuestion *of) {
    const Fields *fields = &of->farm->fields;
    struct FieldChoices *choices = ARENA_NEW(arena, struct FieldChoices);
    int *field = ARENA_ARRAY(arena, int, fields->cut_count);
    double *tonnes = ARENA_ARRAY(arena, double, fields->cut_count);
    double *cost = ARENA_ARRAY(arena, double, fields->cut_count);
    double *most = ARENA_ARRAY(arena, double, fields->cut_count);
    double *field_most = ARENA_ARRAY(arena, double, fields->field_count);
    for (int i = 0; i < fields->field_count; i++)
        field_most[i] = fields->fields[i].hectares;
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        const double hectares = fields->fields[cut->field].hectares;
        const double left_kg =
            stack_as_fed(&of->farm->inventory.stacks.stacks[c]).kg / hectares;
        field[c] = cut->field;
        most[c] = hectares;
        tonnes[c] = left_kg / KG_PER_TONNE;
        cost[c] = field_cut_cost(cut, of->year) - left_kg * cut->value_per_kg;
    }
    *choices = (struct FieldChoices){
        .field_count = fields->field_count,
        .field_least = ARENA_ARRAY(arena, double, fields->field_count),
        .field_most = field_most,
        .count = fields->cut_count,
        .field = field,
        .tonnes_per_hectare = tonnes,
        .cost_per_hectare = cost,
        .least = ARENA_ARRAY(arena, double, fields->cut_count),
        .most = most,
    };
    return choices;
}

CutQuestion cut_question(Arena *arena, const Farm *farm, GrowingYear year) {
    CutQuestion of = {.farm = farm_of_cuts(arena, farm, year), .year = year};
    of.question = plan_question(arena, of.farm);
    of.question.choices = choices_of(arena, &of);
    return of;
}

/* ---- which days a future allows ---- */

/* How far a day is from the one a future wants; the least of a field is its day. */
static int off_wish(CutFuture future, Day cut) {
    switch (future.days) {
    case CUT_EARLIEST:
        return cut.number;
    case CUT_LATEST:
        return -cut.number;
    case CUT_ON_DAY:
        return abs(calendar_days_between(future.day, cut));
    case CUT_AS_PLANNED:
        break;
    }
    return 0;
}

bool cut_future_allows(const Fields *fields, CutFuture future, int cut) {
    const FieldCut *of = &fields->cuts[cut];
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *other = &fields->cuts[c];
        const int less = off_wish(future, of->cut) - off_wish(future, other->cut);
        const bool is_as_near_but_later = less == 0 && other->cut.number < of->cut.number;
        if (other->field == of->field &&
            (less > 0 || (is_as_near_but_later && future.days == CUT_ON_DAY)))
            return false;
    }
    return true;
}

static const struct FieldChoices *choices_under(Arena *arena, const CutQuestion *of,
                                                CutFuture future, const double *hectares) {
    const struct FieldChoices *all = of->question.choices;
    struct FieldChoices *choices = ARENA_NEW(arena, struct FieldChoices);
    double *least = ARENA_ARRAY(arena, double, all->count);
    double *most = ARENA_ARRAY(arena, double, all->count);
    for (int c = 0; c < all->count; c++) {
        if (hectares)
            least[c] = most[c] = hectares[c];
        else
            most[c] = cut_future_allows(&of->farm->fields, future, c) ? all->most[c] : 0.0;
    }
    *choices = *all;
    choices->least = least;
    choices->most = most;
    return choices;
}

static PlanQuestion *question_under(Arena *arena, const CutQuestion *of, CutFuture future,
                                    const CutTerms *terms) {
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = of->question;
    question->choices = choices_under(arena, of, future, terms ? terms->hectares : NULL);
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, question->feed_count);
    for (int f = 0; f < question->feed_count; f++) {
        feeds[f] = of->question.feeds[f];
        if (feeds[f].is_own)
            continue;
        if (feeds[f].place == future.barred_offer)
            feeds[f].available_kg = 0.0;
        if (terms && feeds[f].place == terms->price_of)
            feeds[f].price_per_kg = terms->price_per_kg;
    }
    question->feeds = feeds;
    return question;
}

/* ---- what it costs ---- */

static void set_cost(CutPlan *plan, const CutQuestion *of) {
    const Fields *fields = &of->farm->fields;
    const PlanCost *fed = &plan->plan.cost;
    CutCost *cost = &plan->cost;
    *cost = (CutCost){.bought = fed->bought,
                      .hauling = fed->hauling,
                      .yardage = fed->yardage,
                      .cautions = fed->cautions};
    for (int c = 0; c < fields->cut_count; c++) {
        const FieldCut *cut = &fields->cuts[c];
        const double grazing = plan->hectares[c] * field_cut_grazing(cut);
        cost->grazing += grazing;
        cost->growing += plan->hectares[c] * field_cut_cost(cut, of->year) + grazing;
        cost->surplus += (plan->made_kg[c] - plan->plan.taken_kg[c]) * cut->value_per_kg;
    }
    cost->total = cost->growing - cost->grazing - cost->surplus + cost->bought + cost->hauling +
                  cost->yardage + cost->cautions;
}

#define NO_HECTARES 1e-6 /* below the solver's tolerance: none */

CutPlan cut_plan(Arena *arena, const CutQuestion *of, CutFuture future, const CutTerms *terms) {
    CutPlan plan = {.future = future};
    plan.question = question_under(arena, of, future, terms);
    plan.plan = plan_least_cost(arena, plan.question);
    plan.verdict = plan.plan.verdict;
    if (plan.verdict == PLAN_FAILED)
        return plan;
    const struct FieldChoices *choices = plan.question->choices;
    double *hectares = ARENA_ARRAY(arena, double, choices->count);
    double *made = ARENA_ARRAY(arena, double, choices->count);
    for (int c = 0; c < choices->count; c++) {
        const double found = plan.plan.solution.value[plan.plan.program->hectares[c]];
        hectares[c] = found > NO_HECTARES ? fmin(found, choices->most[c]) : 0.0;
        made[c] = hectares[c] * choices->tonnes_per_hectare[c] * KG_PER_TONNE;
    }
    plan.hectares = hectares;
    plan.made_kg = made;
    set_cost(&plan, of);
    return plan;
}

const double *cut_mean_ration(Arena *arena, const CutPlan *plan, int group) {
    const PlanQuestion *question = plan->question;
    double *eaten = ARENA_ARRAY(arena, double, question->feed_count);
    double days = 0.0;
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group != group)
            continue;
        days += question->blocks[b].days;
        for (int f = 0; f < question->feed_count; f++)
            eaten[f] += plan->plan.blocks[b].eaten[f] * question->blocks[b].days;
    }
    for (int f = 0; f < question->feed_count; f++)
        eaten[f] /= days;
    return eaten;
}

/* ---- the price at which the answer turns ---- */

/* Costs of both at a price; false where either cannot be balanced. */
static bool costs_at(const CutQuestion *of, const CutFuture pair[2], int offer,
                     double price_per_kg, double cost[2]) {
    const CutTerms terms = {.price_of = offer, .price_per_kg = price_per_kg};
    bool are_balanced = true;
    for (int i = 0; i < 2; i++) {
        Arena *scratch = arena_open();
        const CutPlan plan = cut_plan(scratch, of, pair[i], &terms);
        are_balanced &= plan.verdict == PLAN_BALANCED;
        cost[i] = plan.cost.total;
        arena_close(scratch);
    }
    return are_balanced;
}

#define STEP_TIMES 1.25
#define STEPS 6           /* to nearly four times, and to nearly a quarter */
#define TURN_STEPS 12     /* of narrowing */
#define TURN_NEAR 2e-4    /* share of the price */
#define BESIDE_SHARE 0.02 /* just below and just above, a share of the price */

typedef struct {
    double price, cost[2];
} Looked;

static double ahead(const Looked *at) { return at->cost[0] - at->cost[1]; }

/* The road of differences has corners and no curves between: a straight line through both ends
 * meets the turn, or draws an end near; the end that stays twice counts half (Illinois). */
static double narrowed(const CutQuestion *of, const CutFuture pair[2], int offer, Looked low,
                       Looked high) {
    double at_low = ahead(&low);
    double at_high = ahead(&high);
    int stayed = 0;
    double price = low.price;
    for (int i = 0; i < TURN_STEPS && high.price - low.price > TURN_NEAR * high.price; i++) {
        Looked between;
        price = (low.price * at_high - high.price * at_low) / (at_high - at_low);
        between.price = price;
        if (!costs_at(of, pair, offer, price, between.cost))
            break;
        const double there = ahead(&between);
        if (fabs(there) <= 1e-7 * fabs(between.cost[0]))
            break;
        if ((there < 0.0) == (at_low < 0.0)) {
            low = between;
            at_low = there;
            at_high = stayed < 0 ? at_high / 2.0 : at_high;
            stayed = -1;
        } else {
            high = between;
            at_high = there;
            at_low = stayed > 0 ? at_low / 2.0 : at_low;
            stayed = 1;
        }
    }
    return price;
}

/* Just beside the turn, where the cheaper of the two is the other one on either side; else
 * where that was seen already. */
static CutTurn found_turn(const CutQuestion *of, const CutFuture pair[2], int offer, Looked low,
                          Looked high) {
    const double price = narrowed(of, pair, offer, low, high);
    Looked below = {.price = price * (1.0 - BESIDE_SHARE)};
    Looked above = {.price = price * (1.0 + BESIDE_SHARE)};
    const bool are_told = costs_at(of, pair, offer, below.price, below.cost) &&
                          costs_at(of, pair, offer, above.price, above.cost);
    if (!are_told || ahead(&below) * ahead(&above) >= 0.0) {
        below = low;
        above = high;
    }
    return (CutTurn){price,         below.price,   above.price,  below.cost[0],
                     below.cost[1], above.cost[0], above.cost[1]};
}

CutTurn cut_turn(const CutQuestion *of, CutFuture first, CutFuture second, int offer) {
    const CutFuture pair[2] = {first, second};
    CutTurn none = {.price_per_kg = (double)NAN};
    Looked up;
    up.price = of->farm->inventory.for_sale.offers[offer].price_per_kg;
    none.low_per_kg = none.high_per_kg = up.price;
    if (!costs_at(of, pair, offer, up.price, up.cost))
        return none;
    Looked down = up;
    bool goes_up = true;
    bool goes_down = true;
    for (int step = 0; step < STEPS && (goes_up || goes_down); step++) {
        Looked next = {.price = up.price * STEP_TIMES};
        goes_up = goes_up && costs_at(of, pair, offer, next.price, next.cost);
        if (goes_up && ahead(&up) * ahead(&next) < 0.0)
            return found_turn(of, pair, offer, up, next);
        up = goes_up ? next : up;
        next.price = down.price / STEP_TIMES;
        goes_down = goes_down && costs_at(of, pair, offer, next.price, next.cost);
        if (goes_down && ahead(&down) * ahead(&next) < 0.0)
            return found_turn(of, pair, offer, next, down);
        down = goes_down ? next : down;
    }
    none.low_per_kg = down.price;
    none.high_per_kg = up.price;
    return none;
}

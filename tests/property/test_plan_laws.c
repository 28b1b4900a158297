/* A plan against itself: its sums, its verdict, and that it is the same plan however the farm
 * is written down. */
#include "planner/runout.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#define FARMS 200
#define CLOSE 1e-6 /* relative: the solver's tolerance */
#define EXACTLY                                                                                \
    1e-8 /* of one question solved by prices, proven to 1e-9, and by the simplex               \
          */

/* Of the cost, planned anew: the intake limits settle with the ration. */
#define SETTLING 1e-3

enum { NOT_OVERDRAWN, SUM, VERDICT, FINITE, TWICE, ORDER, UNITS, DAYS, LAW_COUNT };

/* Planning anew takes the most time: each farm does it for one law of four in turn. */
static bool is_turn(const PlannedFarm *farm, int law) {
    return (int)(farm->seed / 2 % 4) == law - TWICE;
}

static bool is_less(double a, double b) {
    return a < b - CLOSE * fmax(fmax(fabs(a), fabs(b)), 1.0);
}

static bool differs(double a, double b, double share) {
    return fabs(a - b) > share * (1.0 + fmax(fabs(a), fabs(b)));
}

/* ---- stock and money ---- */

/* A kg eaten takes 1 / (1 - waste) / dry matter of the stack, a day of every head. */
static double taken_by_hand(const PlannedFarm *farm, int f) {
    const PlanFeed *feed = &farm->question.feeds[f];
    double taken = 0.0;
    for (int b = 0; b < farm->question.block_count; b++) {
        const PlanBlock *block = &farm->question.blocks[b];
        taken += farm->plan.blocks[b].eaten[f] / (1.0 - feed->waste_share) / feed->dry_share *
                 block->head * block->days;
    }
    return taken;
}

static const char *nothing_overdrawn(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    double forage_left = 0.0;
    for (int f = 0; f < farm->question.feed_count; f++) {
        const PlanFeed *feed = &farm->question.feeds[f];
        const double taken = taken_by_hand(farm, f);
        const double bought = feed->is_own ? taken : taken / (1.0 - feed->shrink_share);
        if (is_less(feed->available_kg, bought))
            return arena_print(arena, "%s: %.9g kg of %.9g", feed->name, bought,
                               feed->available_kg);
        if (fabs(plan->taken_kg[f] - taken) > 1e-9 * (1.0 + taken) ||
            (!feed->is_own && fabs(plan->bought_kg[f] - bought) > 1e-9 * (1.0 + bought)))
            return arena_print(arena, "%s: %.12g kg taken, by hand %.12g", feed->name,
                               plan->taken_kg[f], taken);
        if (feed->is_own && feed_class_kind(feed->feed->feed_class)->is_forage)
            forage_left += (feed->available_kg - taken) * feed->dry_share;
    }
    const double wanted = farm->farm.winter.carry_over_kg;
    const double lacks = fmax(wanted - forage_left, 0.0);
    if (wanted > 0.0 && lacks > plan->carry_over_short_kg + 1e-5 * wanted + 0.1)
        return arena_print(arena, "%.9g kg to be left over, %.9g is, %.9g said to be short",
                           wanted, forage_left, plan->carry_over_short_kg);
    return NULL;
}

static const char *costs_add_up(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    double bought = 0.0;
    double own = 0.0;
    double hauling = 0.0;
    for (int f = 0; f < farm->question.feed_count; f++) {
        const PlanFeed *feed = &farm->question.feeds[f];
        const double taken = taken_by_hand(farm, f);
        bought += taken / (1.0 - feed->shrink_share) * feed->price_per_kg;
        own += taken * feed->value_per_kg;
        hauling += taken * feed->haul_per_kg;
    }
    double by_rations = 0.0;
    double yardage = 0.0;
    for (int b = 0; b < farm->question.block_count; b++) {
        const PlanBlock *block = &farm->question.blocks[b];
        by_rations += plan->blocks[b].cost_per_head_day * block->head * block->days;
        yardage += farm->farm.winter.yardage_per_head_day * block->head * block->days;
    }
    const double feed = bought + own + hauling;
    const double close = 1e-9 * (1.0 + feed);
    if (fabs(plan->cost.bought - bought) > close || fabs(plan->cost.own_feed - own) > close ||
        fabs(plan->cost.hauling - hauling) > close ||
        fabs(plan->cost.yardage - yardage) > close)
        return arena_print(arena, "a part of %.9g does not add up", feed);
    if (fabs(plan->cost.total - feed - yardage) > close || fabs(by_rations - feed) > close)
        return arena_print(arena, "total %.9g, by parts %.9g, by rations %.9g",
                           plan->cost.total, feed + yardage, by_rations + yardage);
    const double weighed = feed + plan->cost.cautions;
    if (is_less(weighed, plan_least(plan)) ||
        is_less(plan_least(plan) * (1.0 + farm->farm.winter.steady_cost_share), weighed))
        return arena_print(arena, "feed and cautions weigh %.9g, evened out from %.9g", weighed,
                           plan_least(plan));
    return NULL;
}

/* ---- what is said of the plan ---- */

static const char *verdict_says_so(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    if (plan->verdict == PLAN_FAILED)
        return arena_print(arena, "the plan failed: %s", plan->remark);
    const char *what = NULL;
    double most = 0.0;
    for (int b = 0; b < farm->question.block_count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            const LimitOutcome *limit = &plan->blocks[b].limits[i];
            if (limit->short_by < 0.0)
                return arena_print(arena, "%s is short by %g", limit->limit->key,
                                   limit->short_by);
            if (limit->short_by > most) {
                most = limit->short_by;
                what = limit->limit->key;
            }
        }
    }
    if (plan->verdict == PLAN_BALANCED && (what || plan->carry_over_short_kg > 0.0))
        return arena_print(arena, "balanced, and short of %s by %g", what ? what : "carry-over",
                           what ? most : plan->carry_over_short_kg);
    if (plan->verdict == PLAN_SHORT && !what && plan->carry_over_short_kg <= 0.0)
        return arena_print(arena, "short, but of nothing; miss %.3g", plan->residual);
    return NULL;
}

static const char *everything_is_a_number(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    const double whole[] = {plan->cost.total,          plan->least_cost,
                            plan->least_cautions,      plan->cost.cautions,
                            plan->carry_over_short_kg, plan->residual};
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        if (!isfinite(whole[i]))
            return arena_print(arena, "number %zu of the plan is %g", i, whole[i]);
    }
    for (int b = 0; b < farm->question.block_count; b++) {
        const BlockOutcome *of = &plan->blocks[b];
        const double numbers[] = {of->microbial_kg,      of->dry_matter_kg, of->filling_kg,
                                  of->diet_nem,          of->intake_most,   of->intake_least,
                                  of->cost_per_head_day, of->nem_kept,      of->gain_energy,
                                  of->gain_kg,           of->energy_left};
        for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
            if (!isfinite(numbers[i]))
                return arena_print(arena, "number %zu of block %d is %g", i, b, numbers[i]);
        }
        for (int f = 0; f < farm->question.feed_count; f++) {
            if (!(of->eaten[f] >= 0.0 && of->eaten[f] < 50.0))
                return arena_print(arena, "block %d eats %g of feed %d", b, of->eaten[f], f);
        }
        for (int i = 0; i < of->limit_count; i++) {
            const LimitOutcome *limit = &of->limits[i];
            if (!isfinite(limit->shadow_price) || !isfinite(limit->short_by) ||
                (!isfinite(limit->supplied) && of->dry_matter_kg > 0.0))
                return arena_print(arena, "%s of block %d: supplied %g, price %g, short %g",
                                   limit->limit->key, b, limit->supplied, limit->shadow_price,
                                   limit->short_by);
        }
    }
    return NULL;
}

/* ---- the same farm, otherwise ---- */

static const char *twice_the_farm(Arena *arena, const PlannedFarm *once) {
    PlannedFarm *twice = ARENA_NEW(arena, PlannedFarm);
    twice->farm = once->farm;
    const Herd *herd = &once->farm.herd;
    const Inventory *inventory = &once->farm.inventory;
    HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, herd->count);
    for (int g = 0; g < herd->count; g++) {
        groups[g] = herd->groups[g];
        groups[g].head *= 2.0;
    }
    Stack *stacks = ARENA_ARRAY(arena, Stack, inventory->stacks.count);
    for (int s = 0; s < inventory->stacks.count; s++) {
        stacks[s] = inventory->stacks.stacks[s];
        stacks[s].counted_kg *= 2.0;
    }
    Offer *offers = ARENA_ARRAY(arena, Offer, inventory->for_sale.count);
    for (int o = 0; o < inventory->for_sale.count; o++) {
        offers[o] = inventory->for_sale.offers[o];
        offers[o].most_kg *= 2.0;
    }
    twice->farm.herd.groups = groups;
    twice->farm.inventory.stacks.stacks = stacks;
    twice->farm.inventory.for_sale.offers = offers;
    twice->farm.winter.carry_over_kg *= 2.0;
    twice->question = plan_question(arena, &twice->farm);
    if (once->plan.verdict == PLAN_BALANCED) {
        const double cost =
            least_cost_with(arena, &twice->question, states_of(arena, &once->plan));
        if (isnan(cost) || differs(cost, 2.0 * plan_least(&once->plan), CLOSE))
            return arena_print(arena, "states held, %.12g became %.12g",
                               plan_least(&once->plan), cost);
    }
    if (!is_turn(once, TWICE))
        return NULL;
    twice->plan = plan_winter(arena, &twice->question);
    if (twice->plan.verdict != once->plan.verdict ||
        (once->plan.verdict == PLAN_BALANCED &&
         differs(plan_least(&twice->plan), 2.0 * plan_least(&once->plan), SETTLING)))
        return arena_print(arena, "planned anew, %.12g became %.12g", plan_least(&once->plan),
                           plan_least(&twice->plan));
    return NULL;
}

static void shuffle(Draws *draws, void *items, int count, size_t size, void *room) {
    char *bytes = items;
    for (int i = count - 1; i > 0; i--) {
        const size_t j = (size_t)draw_whole(draws, 0, i) * size;
        memcpy(room, bytes + j, size);
        memcpy(bytes + j, bytes + (size_t)i * size, size);
        memcpy(bytes + (size_t)i * size, room, size);
    }
}

static void *copied(Arena *arena, const void *items, int count, size_t size) {
    void *copy = arena_take(arena, (size_t)count, size);
    if (count > 0)
        memcpy(copy, items, (size_t)count * size);
    return copy;
}

static FarmDraft *shuffled(Arena *arena, const FarmDraft *draft, unsigned long long seed) {
    Draws draws = draws_new(seed);
    FarmDraft *other = ARENA_NEW(arena, FarmDraft);
    *other = *draft;
    other->groups = copied(arena, draft->groups, draft->group_count, sizeof(DraftGroup));
    other->stacks = copied(arena, draft->stacks, draft->stack_count, sizeof(DraftStack));
    other->tests = copied(arena, draft->tests, draft->test_count, sizeof(DraftTest));
    other->offers = copied(arena, draft->offers, draft->offer_count, sizeof(DraftOffer));
    other->months = copied(arena, draft->months, draft->month_count, sizeof(DraftMonth));
    other->needs = copied(arena, draft->needs, draft->need_count, sizeof(DraftNeed));
    DraftStack room[2]; /* the largest row */
    assert_true(sizeof room >= sizeof(DraftGroup) && sizeof room >= sizeof(DraftTest));
    shuffle(&draws, other->groups, draft->group_count, sizeof(DraftGroup), room);
    shuffle(&draws, other->stacks, draft->stack_count, sizeof(DraftStack), room);
    shuffle(&draws, other->tests, draft->test_count, sizeof(DraftTest), room);
    shuffle(&draws, other->offers, draft->offer_count, sizeof(DraftOffer), room);
    shuffle(&draws, other->months, draft->month_count, sizeof(DraftMonth), room);
    shuffle(&draws, other->needs, draft->need_count, sizeof(DraftNeed), room);
    return other;
}

/* The states of the same groups at the same time in another order of rows. */
static const BlockState *states_for(Arena *arena, const PlannedFarm *of,
                                    const PlannedFarm *other) {
    BlockState *states = ARENA_ARRAY(arena, BlockState, other->question.block_count);
    for (int b = 0; b < other->question.block_count; b++) {
        const PlanBlock *block = &other->question.blocks[b];
        for (int a = 0; a < of->question.block_count; a++) {
            const PlanBlock *same = &of->question.blocks[a];
            if (same->from.number == block->from.number &&
                strcmp(of->farm.herd.groups[same->group].name,
                       other->farm.herd.groups[block->group].name) == 0)
                states[b] = of->plan.blocks[a].state;
        }
    }
    return states;
}

static const char *same_plan(Arena *arena, const PlannedFarm *farm, PlannedFarm *other, int law,
                             double exactly) {
    if (other->question.block_count != farm->question.block_count)
        return "other periods";
    if (farm->plan.verdict == PLAN_BALANCED) {
        const double cost =
            least_cost_with(arena, &other->question, states_for(arena, farm, other));
        if (isnan(cost) || differs(cost, plan_least(&farm->plan), exactly))
            return arena_print(arena, "states held, %.12g became %.12g",
                               plan_least(&farm->plan), cost);
    }
    if (!is_turn(farm, law))
        return NULL;
    other->plan = plan_winter(arena, &other->question);
    if (other->plan.verdict != farm->plan.verdict)
        return "another verdict";
    if (farm->plan.verdict == PLAN_BALANCED &&
        differs(plan_least(&other->plan), plan_least(&farm->plan), SETTLING))
        return arena_print(arena, "planned anew, %.12g became %.12g", plan_least(&farm->plan),
                           plan_least(&other->plan));
    return NULL;
}

static const char *rows_in_any_order(Arena *arena, const PlannedFarm *farm) {
    PlannedFarm *other = asked_farm(arena, shuffled(arena, farm->draft, farm->seed));
    return same_plan(arena, farm, other, ORDER, CLOSE);
}

/* Feeds and needs to a few units in the last place of what was written, fifteen digits. */
static const char *same_question(Arena *arena, const PlanQuestion *metric,
                                 const PlanQuestion *imperial) {
    for (int f = 0; f < metric->feed_count; f++) {
        const PlanFeed *a = &metric->feeds[f];
        const PlanFeed *b = &imperial->feeds[f];
        if (differs(a->value_per_kg, b->value_per_kg, 1e-12) ||
            differs(a->price_per_kg, b->price_per_kg, 1e-12) ||
            differs(a->haul_per_kg, b->haul_per_kg, 1e-12) ||
            (isfinite(a->available_kg) && differs(a->available_kg, b->available_kg, 1e-12)))
            return arena_print(arena, "%s is another feed in pounds", a->name);
    }
    for (int b = 0; b < metric->block_count; b++) {
        const Requirement *kg = &metric->blocks[b].need;
        const Requirement *lb = &imperial->blocks[b].need;
        if (differs(requirement_nem(kg).mcal_per_day, requirement_nem(lb).mcal_per_day,
                    1e-11) ||
            differs(requirement_protein(kg).g_per_day, requirement_protein(lb).g_per_day,
                    1e-11) ||
            differs(kg->retained.mcal_per_day, lb->retained.mcal_per_day, 1e-11) ||
            differs(kg->ndf_most_kg, lb->ndf_most_kg, 1e-11) ||
            differs(kg->most.added, lb->most.added, 1e-11) ||
            differs(kg->least.added, lb->least.added, 1e-11))
            return arena_print(arena, "block %d needs something else in pounds", b);
        for (int i = 0; i < NUTRIENT_COUNT; i++) {
            if (differs(kg->mineral_least[i], lb->mineral_least[i], 1e-11))
                return arena_print(arena, "block %d needs other minerals in pounds", b);
        }
    }
    return NULL;
}

static const char *metric_or_imperial(Arena *arena, const PlannedFarm *farm) {
    FarmDraft metric = *farm->draft;
    FarmDraft imperial = *farm->draft;
    metric.imperial = 0;
    imperial.imperial = ALL_IMPERIAL;
    const PlannedFarm *in_metric = asked_farm(arena, &metric);
    PlannedFarm *in_imperial = asked_farm(arena, &imperial);
    const char *why = same_question(arena, &in_metric->question, &in_imperial->question);
    return why ? why : same_plan(arena, farm, in_imperial, UNITS, EXACTLY);
}

/* ---- days on hand ---- */

static const char *days_make_sense(Arena *arena, const PlannedFarm *farm,
                                   const DaysOnHand *days) {
    const int winter =
        calendar_days_between(farm->farm.winter.first_day, farm->farm.winter.last_day) + 1;
    double there = 0.0;
    for (int f = 0; f < farm->question.own_count; f++) {
        const PlanFeed *feed = &farm->question.feeds[f];
        bool is_barred = true;
        for (int b = 0; b < farm->question.block_count; b++)
            is_barred = is_barred && plan_permission(&farm->question, b, f) != MAY_BE_FED;
        if (!is_barred)
            there += feed->available_kg * feed->dry_share * (1.0 - feed->waste_share);
    }
    /* Of a winter that is short: the published intake at 1.25 Mcal a kg, or less where the
     * nutritionist lets them have less. */
    double eaten = 0.0;
    for (int b = 0; b < farm->question.block_count; b++) {
        const Requirement *need = &farm->question.blocks[b].need;
        const Requirement *said = &farm->question.blocks[b].by_equations;
        const EnergyDensity middling = {1.25};
        const double enough =
            fmin(intake_at(said->least, need->shrunk, middling).kg_per_day / 0.9,
                 intake_at(need->most, need->shrunk, middling).kg_per_day);
        eaten += (farm->plan.verdict == PLAN_BALANCED ? farm->plan.blocks[b].dry_matter_kg
                                                      : enough) *
                 farm->question.blocks[b].head * farm->question.blocks[b].days;
    }
    if (differs(days->gross_days, there / eaten * winter, 1e-9))
        return arena_print(arena, "gross %.9g days, by hand %.9g", days->gross_days,
                           there / eaten * winter);
    if (days->balanced_days < 0 || days->balanced_days > winter ||
        days->lasts_all_winter != (days->balanced_days == winter))
        return arena_print(arena, "%d days of %d, lasts %d", days->balanced_days, winter,
                           days->lasts_all_winter);
    return NULL;
}

static const char *days_rise_with_stock(Arena *arena, const PlannedFarm *farm) {
    if (!is_turn(farm, DAYS) || farm->seed % 16 > 7) /* a dozen plans each time */
        return NULL;
    const DaysOnHand days = days_on_hand(arena, &farm->plan);
    const char *why = days_make_sense(arena, farm, &days);
    if (why)
        return why;
    PlannedFarm more = *farm;
    Stack *stacks = copied(arena, farm->farm.inventory.stacks.stacks,
                           farm->farm.inventory.stacks.count, sizeof(Stack));
    Draws draws = draws_new(farm->seed);
    stacks[draw_whole(&draws, 0, farm->farm.inventory.stacks.count - 1)].counted_kg *= 1.5;
    more.farm.inventory.stacks.stacks = stacks;
    more.question = plan_question(arena, &more.farm);
    more.plan.question = &more.question;
    const DaysOnHand more_days = days_on_hand(arena, &more.plan);
    if (more_days.gross_days < days.gross_days || more_days.balanced_days < days.balanced_days)
        return arena_print(arena, "gross %.6g days became %.6g, balanced %d became %d",
                           days.gross_days, more_days.gross_days, days.balanced_days,
                           more_days.balanced_days);
    return NULL;
}

/* Else the laws would hold of nothing. */
static void of_the_farms_tried_a_third_can_be_balanced_and_a_sixth_cannot(void **state) {
    const LawBook *book = *state;
    assert_in_range(book->balanced, book->farms / 3, book->farms * 5 / 6);
}

static void no_stack_and_no_seller_is_overdrawn(void **state) {
    assert_law_held(*state, NOT_OVERDRAWN);
}

static void balanced_means_short_of_nothing_and_short_of_something_named(void **state) {
    assert_law_held(*state, VERDICT);
}

static void the_costs_add_up(void **state) { assert_law_held(*state, SUM); }

static void every_number_of_a_plan_is_a_number(void **state) {
    assert_law_held(*state, FINITE);
}

static void twice_the_cattle_and_twice_the_stock_cost_twice(void **state) {
    assert_law_held(*state, TWICE);
}

static void the_order_of_rows_changes_nothing(void **state) { assert_law_held(*state, ORDER); }

static void the_same_farm_in_pounds_and_feet_has_the_same_plan(void **state) {
    assert_law_held(*state, UNITS);
}

static void days_on_hand_never_fall_when_a_stack_grows(void **state) {
    assert_law_held(*state, DAYS);
}

static const Law LAWS[LAW_COUNT] = {
    [NOT_OVERDRAWN] = nothing_overdrawn,
    [SUM] = costs_add_up,
    [VERDICT] = verdict_says_so,
    [FINITE] = everything_is_a_number,
    [TWICE] = twice_the_farm,
    [ORDER] = rows_in_any_order,
    [UNITS] = metric_or_imperial,
    [DAYS] = days_rise_with_stock,
};

LAW_BOOK(laws_tried, LAWS, LAW_COUNT, FARMS)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_the_farms_tried_a_third_can_be_balanced_and_a_sixth_cannot),
        cmocka_unit_test(no_stack_and_no_seller_is_overdrawn),
        cmocka_unit_test(the_costs_add_up),
        cmocka_unit_test(balanced_means_short_of_nothing_and_short_of_something_named),
        cmocka_unit_test(every_number_of_a_plan_is_a_number),
        cmocka_unit_test(twice_the_cattle_and_twice_the_stock_cost_twice),
        cmocka_unit_test(the_order_of_rows_changes_nothing),
        cmocka_unit_test(the_same_farm_in_pounds_and_feet_has_the_same_plan),
        cmocka_unit_test(days_on_hand_never_fall_when_a_stack_grows),
    };
    return cmocka_run_group_tests(tests, try_laws, close_book);
}

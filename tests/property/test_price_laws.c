/* Prices said of a plan, tried: the plan's last program is built anew with the price a little
 * inside and a little outside, and with a tonne more and less in each stack. Of that program,
 * the laws straight at the plan's rations and the rations not evened out, they hold exactly. */
#include "planner/price_range.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#define FARMS 200
#define ASIDE 0.01 /* of a price: how far inside and outside */
#define EXACT 1e-7 /* of the cost: the solver's tolerance */

enum { ENTERS, LESS, LEAVES, WORTH, LAW_COUNT };

typedef struct {
    double cost, bought_kg;
} Answer;

/* The question with one feed's price and stock changed, solved from nothing. */
static Answer asked_again(Arena *arena, const PlannedFarm *farm, int f, double price,
                          double available_kg) {
    PlanQuestion question = farm->question;
    PlanFeed *feeds = ARENA_ARRAY(arena, PlanFeed, question.feed_count);
    for (int i = 0; i < question.feed_count; i++)
        feeds[i] = question.feeds[i];
    feeds[f].price_per_kg = price;
    feeds[f].available_kg = available_kg;
    question.feeds = feeds;
    const RationProgram program =
        ration_program(arena, &question, states_of(arena, &farm->plan), AIM_LEAST_COST);
    const LpSolution solution = lp_solve(program.lp, arena, START_COLD, NULL, 0);
    if (solution.status != LP_OPTIMAL)
        return (Answer){(double)NAN, (double)NAN};
    const double bought = feeds[f].is_own ? 0.0 : solution.value[program.bought[f]];
    return (Answer){solution.cost, bought * KG_PER_TONNE};
}

static Answer at_price(Arena *arena, const PlannedFarm *farm, int f, double price) {
    return asked_again(arena, farm, f, price, farm->question.feeds[f].available_kg);
}

/* One offer of those said to be in a case, another for each farm; -1: none. */
static int chosen(const PlannedFarm *farm, const PriceRange *prices, int law) {
    const int offers = farm->question.feed_count - farm->question.own_count;
    for (int i = 0; i < offers; i++) {
        const int f = farm->question.own_count + (int)((farm->seed / 2 + (unsigned)i) %
                                                       (unsigned)offers);
        const double said = law == ENTERS ? prices[f].enters_below
                            : law == LESS ? prices[f].less_above
                                          : prices[f].leaves_above;
        if (!isnan(said))
            return f;
    }
    return -1;
}

static const char *broke(Arena *arena, const PlannedFarm *farm, int f, const char *what,
                         double said, Answer answer) {
    return arena_print(arena, "%s: %s; said %.9g, %.9g kg at a cost of %.12g, %.12g before",
                       farm->question.feeds[f].name, what, said, answer.bought_kg, answer.cost,
                       farm->plan.solution.cost);
}

static const char *enters_where_it_is_said(Arena *arena, const PlannedFarm *farm) {
    const PriceRange *prices = price_ranges(arena, &farm->plan);
    const int f = chosen(farm, prices, ENTERS);
    if (f < 0)
        return NULL;
    const double said = prices[f].enters_below;
    const double asked = farm->question.feeds[f].price_per_kg;
    const Answer inside = at_price(arena, farm, f, said * (1.0 - ASIDE));
    if (!(inside.bought_kg > 1e-6) || !(inside.cost < farm->plan.solution.cost))
        return broke(arena, farm, f, "nothing is bought below", said, inside);
    const Answer outside = at_price(arena, farm, f, fmin(said * (1.0 + ASIDE), asked));
    if (said < asked * (1.0 - ASIDE) && !(outside.bought_kg < PRICE_STEP_KG))
        return broke(arena, farm, f, "some is bought above", said, outside);
    return NULL;
}

static const char *lessens_where_it_is_said(Arena *arena, const PlannedFarm *farm) {
    const PriceRange *prices = price_ranges(arena, &farm->plan);
    const int f = chosen(farm, prices, LESS);
    if (f < 0)
        return NULL;
    const double said = prices[f].less_above;
    const double now_kg =
        farm->plan.solution.value[farm->plan.program->bought[f]] * KG_PER_TONNE;
    const double asked = farm->question.feeds[f].price_per_kg;
    const bool is_always = !isfinite(said);
    const Answer inside =
        at_price(arena, farm, f, is_always ? 50.0 * asked : fmax(said * (1.0 - ASIDE), asked));
    if (!(inside.bought_kg >= now_kg * (1.0 - LESS_SHARE) * (1.0 - 1e-6)))
        return broke(arena, farm, f, "much less is bought below", said, inside);
    if (is_always)
        return NULL;
    const Answer outside = at_price(arena, farm, f, said * (1.0 + ASIDE));
    if (!(outside.bought_kg < now_kg * (1.0 - 1e-6)))
        return broke(arena, farm, f, "as much is bought above", said, outside);
    return NULL;
}

static const char *leaves_where_it_is_said(Arena *arena, const PlannedFarm *farm) {
    const PriceRange *prices = price_ranges(arena, &farm->plan);
    const int f = chosen(farm, prices, LEAVES);
    if (f < 0)
        return NULL;
    const double said = prices[f].leaves_above;
    const double asked = farm->question.feeds[f].price_per_kg;
    const bool is_always = !isfinite(said);
    const Answer inside =
        at_price(arena, farm, f, is_always ? 50.0 * asked : fmax(said * (1.0 - ASIDE), asked));
    if (!(inside.bought_kg > (is_always ? PRICE_STEP_KG : 1e-6)))
        return broke(arena, farm, f, "none is bought below", said, inside);
    if (is_always)
        return NULL;
    const Answer outside = at_price(arena, farm, f, said * (1.0 + ASIDE));
    if (!(outside.bought_kg < PRICE_STEP_KG * (1.0 + 1e-6)))
        return broke(arena, farm, f, "it is still bought above", said, outside);
    return NULL;
}

/* One stack of each farm, a tonne more and a tonne (or half of it) less. */
static const char *worth_is_what_planning_anew_finds(Arena *arena, const PlannedFarm *farm) {
    const WinterPlan *plan = &farm->plan;
    if (plan->verdict != PLAN_BALANCED || farm->question.own_count == 0)
        return NULL;
    const int f = (int)((farm->seed / 2) % (unsigned)farm->question.own_count);
    const PlanFeed *feed = &farm->question.feeds[f];
    const double steps[] = {1000.0, -fmin(1000.0, 0.5 * feed->available_kg)};
    for (int i = 0; i < 2; i++) {
        const double said = plan_cost_change(arena, plan, f, steps[i]);
        const Answer found = asked_again(arena, farm, f, 0.0, feed->available_kg + steps[i]);
        if (isnan(said) != isnan(found.cost) ||
            fabs(plan->solution.cost + said - found.cost) > EXACT * (1.0 + fabs(found.cost)))
            return arena_print(arena, "%s: %g kg change %.12g by %.9g, found %.12g", feed->name,
                               steps[i], plan->solution.cost, said, found.cost);
    }
    return NULL;
}

static void an_unused_feed_enters_below_the_price_said_and_not_above(void **state) {
    assert_law_held(*state, ENTERS);
}

static void less_of_a_bought_feed_is_taken_above_the_price_said_and_not_below(void **state) {
    assert_law_held(*state, LESS);
}

static void a_bought_feed_leaves_above_the_price_said_and_not_below(void **state) {
    assert_law_held(*state, LEAVES);
}

static void the_worth_of_a_tonne_either_way_is_what_solving_from_nothing_finds(void **state) {
    assert_law_held(*state, WORTH);
}

static void a_hundred_farms_were_tried(void **state) {
    const LawBook *book = *state;
    if (book->farms == FARMS)
        assert_true(book->balanced >= 100);
}

static const Law LAWS[] = {
    [ENTERS] = enters_where_it_is_said,
    [LESS] = lessens_where_it_is_said,
    [LEAVES] = leaves_where_it_is_said,
    [WORTH] = worth_is_what_planning_anew_finds,
};

static int try_laws(void **state) {
    *state = laws_tried(LAWS, LAW_COUNT, FARMS);
    return 0;
}

static int close_book(void **state) {
    law_book_close(*state);
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_unused_feed_enters_below_the_price_said_and_not_above),
        cmocka_unit_test(less_of_a_bought_feed_is_taken_above_the_price_said_and_not_below),
        cmocka_unit_test(a_bought_feed_leaves_above_the_price_said_and_not_below),
        cmocka_unit_test(the_worth_of_a_tonne_either_way_is_what_solving_from_nothing_finds),
        cmocka_unit_test(a_hundred_farms_were_tried),
    };
    return cmocka_run_group_tests(tests, try_laws, close_book);
}

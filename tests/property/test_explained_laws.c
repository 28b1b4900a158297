/* What is said to explain a plan, tried.
 *
 * Prices: the plan's last program is built anew with the price a little inside and a little
 * outside, and with a tonne more and less in each stack. Of that program, the laws straight at
 * the plan's rations and the rations not evened out, they hold exactly.
 *
 * Rations for a cold day: multiplied out against the laws themselves. */
#include "outcome/plan_report.h"
#include "planner/cold_spell.h"
#include "planner/price_range.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#define FARMS 200
#define ASIDE 0.01 /* of a price: how far inside and outside */
#define EXACT 1e-7 /* of the cost: the solver's tolerance */

enum { PRICES, WORTH, COLD_SAFE, COLD_ENOUGH, WORDS, LAW_COUNT };

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

enum { ENTERS, LESS, LEAVES };

/* One offer of those said to be in a case, another for each farm; -1: none. */
static int chosen(const PlannedFarm *farm, const PriceRange *prices, int law) {
    const int offers = farm->question.feed_count - farm->question.own_count;
    for (int i = 0; i < offers; i++) {
        const int f =
            farm->question.own_count + (int)((farm->seed / 2 + (unsigned)i) % (unsigned)offers);
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

static const char *enters_where_it_is_said(Arena *arena, const PlannedFarm *farm,
                                           const PriceRange *prices) {
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

static const char *lessens_where_it_is_said(Arena *arena, const PlannedFarm *farm,
                                            const PriceRange *prices) {
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

static const char *leaves_where_it_is_said(Arena *arena, const PlannedFarm *farm,
                                           const PriceRange *prices) {
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

static const char *prices_hold(Arena *arena, const PlannedFarm *farm) {
    const PriceRange *prices = price_ranges(arena, &farm->plan);
    const char *why = enters_where_it_is_said(arena, farm, prices);
    why = why ? why : lessens_where_it_is_said(arena, farm, prices);
    return why ? why : leaves_where_it_is_said(arena, farm, prices);
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

/* ---- a cold day ---- */

static const ColdSpell *spell_of(Arena *arena, const PlannedFarm *farm, int group) {
    const ColdSpell *spell = &cold_spells(arena, &farm->plan)[group];
    return spell->block >= 0 ? spell : NULL;
}

static const char *rises_are_small(Arena *arena, const PlannedFarm *farm,
                                   const ColdSpell *spell) {
    double concentrates = 0.0;
    double away = 0.0;
    for (int f = 0; f < farm->question.feed_count; f++) {
        const PlanFeed *feed = &farm->question.feeds[f];
        const FeedClass of = feed->feed->feed_class;
        const double rise = spell->eaten[f] - farm->plan.blocks[spell->block].eaten[f];
        if (!(spell->eaten[f] >= 0.0))
            return arena_print(arena, "%s: %g kg eaten", feed->name, spell->eaten[f]);
        away += fmax(-rise, 0.0);
        if (rise <= 1e-6)
            continue;
        if (of == FEED_CLASS_NPN || of == FEED_CLASS_MINERAL ||
            feed->eaten[NUTRIENT_NITRATE] > NITRATE_OF_NO_RISE ||
            plan_permission(&farm->question, spell->block, f) != MAY_BE_FED ||
            rise > RISE_SHARE * farm->plan.blocks[spell->block].dry_matter_kg + 1e-6)
            return arena_print(arena, "%s goes up by %g kg", feed->name, rise);
        if (!feed_class_kind(of)->is_forage)
            concentrates += rise / (1.0 - feed->waste_share) / feed->dry_share;
    }
    if (away > RISE_SHARE * farm->plan.blocks[spell->block].dry_matter_kg + 1e-6)
        return arena_print(arena, "%g kg are taken away", away);
    if (concentrates > CONCENTRATE_STEP_KG + 1e-6)
        return arena_print(arena, "grain and meals go up by %g kg", concentrates);
    return NULL;
}

/* Safety limits and the room, as they hold for the period; a ration that is past one already
 * goes no further. */
static const char *limits_hold(Arena *arena, const PlannedFarm *farm, const ColdSpell *spell) {
    const BlockOutcome *now = &farm->plan.blocks[spell->block];
    for (int i = 0; i < now->limit_count; i++) {
        const RationLimit *limit = now->limits[i].limit;
        const bool is_room = strcmp(limit->key, "ndf") == 0;
        if (!limit->safety && !is_room)
            continue;
        const int feeds = farm->question.feed_count;
        const double was = ration_supply(limit, feeds, now->eaten, now->microbial_kg);
        const double is = ration_supply(limit, feeds, spell->eaten,
                                        ration_microbial_kg(&farm->question, spell->eaten));
        const double close = 1e-6 * (1.0 + fabs(was));
        if (is > fmax(limit->most, was) + close || is < fmin(limit->least, was) - close)
            return arena_print(arena, "%s: %.9g, was %.9g, of %g to %g", limit->key, is, was,
                               limit->least, limit->most);
    }
    return NULL;
}

static const char *cold_days_are_safe(Arena *arena, const PlannedFarm *farm) {
    const char *why = NULL;
    for (int g = 0; !why && g < farm->farm.herd.count; g++) {
        const ColdSpell *spell = spell_of(arena, farm, g);
        if (!spell)
            continue;
        why = rises_are_small(arena, farm, spell);
        why = why ? why : limits_hold(arena, farm, spell);
    }
    return why;
}

/* Of mature cattle: the NEm of the day's ration and what is said to lack are the need; and they
 * can eat it, within what the straightened law misses. */
static const char *cold_days_add_up(Arena *arena, const PlannedFarm *farm) {
    for (int g = 0; g < farm->farm.herd.count; g++) {
        const ColdSpell *spell = spell_of(arena, farm, g);
        if (!spell)
            continue;
        const PlanBlock *block = &farm->question.blocks[spell->block];
        const BlockOutcome *now = &farm->plan.blocks[spell->block];
        double nem = 0.0;
        double dry_matter = 0.0;
        double filling = 0.0;
        for (int f = 0; f < farm->question.feed_count; f++) {
            const PlanFeed *feed = &farm->question.feeds[f];
            nem += spell->eaten[f] > 0.0 ? spell->eaten[f] * feed->eaten[NUTRIENT_NEM] : 0.0;
            dry_matter += spell->eaten[f];
            filling += ration_feed_fills(feed) ? spell->eaten[f] : 0.0;
        }
        const double need =
            requirement_nem(&block->need).mcal_per_day + block->need.cold_spell_energy;
        if (nem + spell->lack_mcal < need - 0.051)
            return arena_print(arena, "group %d: %g Mcal and %g lacking of %g", g, nem,
                               spell->lack_mcal, need);
        const double most =
            intake_at(block->need.most, block->need.shrunk, (EnergyDensity){nem / filling})
                .kg_per_day;
        if (dry_matter > fmax(most, now->dry_matter_kg) * 1.01)
            return arena_print(arena, "group %d eats %g kg of %g", g, dry_matter, most);
    }
    return NULL;
}

/* ---- what sets the cost ---- */

/* A bound that is not there has no price, and no number that is none is said. */
static const char *only_numbers_are_said(Arena *arena, const PlannedFarm *farm) {
    const PlanFindings findings = {.plan = &farm->plan, .units = UNITS_METRIC};
    for (int g = 0; g < farm->farm.herd.count; g++) {
        int first;
        const int count = group_blocks(&farm->question, g, &first);
        const char *words = binding_words(arena, &findings, first, count);
        if (strstr(words, " nan") || strstr(words, "$nan") || strstr(words, "-nan") ||
            strstr(words, " inf") || strstr(words, "$inf") || strstr(words, "-inf"))
            return words;
    }
    return NULL;
}

/* ---- */

static void a_price_said_holds_just_inside_and_just_outside(void **state) {
    assert_law_held(*state, PRICES);
}

static void the_worth_of_a_tonne_either_way_is_what_solving_from_nothing_finds(void **state) {
    assert_law_held(*state, WORTH);
}

static void a_cold_day_raises_nothing_that_harms_and_breaks_no_limit(void **state) {
    assert_law_held(*state, COLD_SAFE);
}

static void a_cold_day_is_covered_or_said_to_lack(void **state) {
    assert_law_held(*state, COLD_ENOUGH);
}

static void what_sets_the_cost_is_said_in_numbers(void **state) {
    assert_law_held(*state, WORDS);
}

static void a_hundred_balanced_farms_were_tried(void **state) {
    const LawBook *book = *state;
    if (book->farms == FARMS)
        assert_true(book->balanced >= 100);
}

static const Law LAWS[] = {
    [PRICES] = prices_hold,           [WORTH] = worth_is_what_planning_anew_finds,
    [COLD_SAFE] = cold_days_are_safe, [COLD_ENOUGH] = cold_days_add_up,
    [WORDS] = only_numbers_are_said,
};

LAW_BOOK(laws_tried, LAWS, LAW_COUNT, FARMS)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_price_said_holds_just_inside_and_just_outside),
        cmocka_unit_test(the_worth_of_a_tonne_either_way_is_what_solving_from_nothing_finds),
        cmocka_unit_test(a_cold_day_raises_nothing_that_harms_and_breaks_no_limit),
        cmocka_unit_test(a_cold_day_is_covered_or_said_to_lack),
        cmocka_unit_test(what_sets_the_cost_is_said_in_numbers),
        cmocka_unit_test(a_hundred_balanced_farms_were_tried),
    };
    return cmocka_run_group_tests(tests, try_laws, close_book);
}

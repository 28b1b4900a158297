/* What is said to mend a short winter, done: with it the winter is balanced, with a little less
 * it is not. Farms small and short. */
#include "outcome/plan_report.h"
#include "planner/mend.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

#ifdef __SANITIZE_ADDRESS__
#define FARMS 6
#else
#define FARMS 45
#endif

typedef struct {
    Arena *arena;
    int short_farms, mends, pairs, kinds[MEND_FEWER_DAYS + 1], ruled_out;
    Text enough, too_little, costs, order, rashly, unnamed;
} Tried;

/* The farm's own files with the mend in them, where they can hold it: more for sale, or fewer
 * head. Elsewhere, and for the days, the question. */
static PlanQuestion done(Arena *arena, const PlannedFarm *farm, const Mend *mend,
                         double amount) {
    Farm *other = ARENA_NEW(arena, Farm);
    *other = farm->farm;
    if (mend->kind == MEND_MORE_FOR_SALE && !mend->beside.book) {
        const int count = other->inventory.for_sale.count;
        Offer *offers = ARENA_ARRAY(arena, Offer, count);
        for (int o = 0; o < count; o++)
            offers[o] = other->inventory.for_sale.offers[o];
        offers[mend->place - farm->question.own_count].most_kg += amount;
        if (mend->beside.name)
            offers[mend->beside.place - farm->question.own_count].most_kg += mend->beside.kg;
        other->inventory.for_sale.offers = offers;
        return plan_question(arena, other);
    }
    if (mend->kind == MEND_FEWER_HEAD && amount < other->herd.groups[mend->place].head) {
        HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, other->herd.count);
        for (int g = 0; g < other->herd.count; g++)
            groups[g] = other->herd.groups[g];
        groups[mend->place].head -= amount;
        other->herd.groups = groups;
        return plan_question(arena, other);
    }
    if (mend->kind == MEND_TEST && mend->other_test.reckoned <= 0.0) {
        const int count = other->inventory.stacks.count;
        Stack *stacks = ARENA_ARRAY(arena, Stack, count);
        for (int s = 0; s < count; s++)
            stacks[s] = other->inventory.stacks.stacks[s];
        Feedstuff *feed = &stacks[mend->place].feed;
        const double reckoned = mend->test.reckoned - amount;
        feed->analysis.of[mend->test.nutrient] =
            (Reading){reckoned, FROM_LABORATORY, SOURCE_NONE};
        if (mend->test.nutrient == NUTRIENT_NITRATE)
            feed->nitrate_for_safety = reckoned;
        other->inventory.stacks.stacks = stacks;
        return plan_question(arena, other);
    }
    if (mend->kind == MEND_LESS_GAIN) {
        HerdGroup *groups = ARENA_ARRAY(arena, HerdGroup, other->herd.count);
        for (int g = 0; g < other->herd.count; g++)
            groups[g] = other->herd.groups[g];
        groups[mend->place].gain.kg_per_day -= amount;
        other->herd.groups = groups;
        return plan_question(arena, other);
    }
    if (mend->kind == MEND_LESS_CARRY_OVER) {
        other->winter.carry_over_kg -= amount;
        return plan_question(arena, other);
    }
    return mended_question(arena, &farm->question, mend, amount);
}

static PlanVerdict verdict_with(const PlannedFarm *farm, const Mend *mend, double amount,
                                PlanVerdict (*verdict_of)(const PlanQuestion *)) {
    Arena *arena = arena_open();
    const PlanQuestion question = done(arena, farm, mend, amount);
    const PlanVerdict verdict = verdict_of(&question);
    arena_close(arena);
    return verdict;
}

/* Too little either way: at the very edge the two may differ. */
static bool is_balanced_with(const PlannedFarm *farm, const Mend *mend, double amount) {
    return verdict_with(farm, mend, amount, plan_verdict) == PLAN_BALANCED &&
           verdict_with(farm, mend, amount, plan_verdict_as_planned) == PLAN_BALANCED;
}

static void try_mend(Tried *tried, const PlannedFarm *farm, const Mend *mend) {
    const char *what =
        arena_print(tried->arena, "seed %llu, kind %d, %s, %.9g and not %.9g\n", farm->seed,
                    (int)mend->kind, mend->name, mend->enough, mend->not_enough);
    tried->mends++;
    tried->kinds[mend->kind]++;
    if (verdict_with(farm, mend, mend->enough, plan_verdict_as_planned) != PLAN_BALANCED)
        text_add(&tried->enough, what);
    tried->pairs += mend->beside.name != NULL;
    const double closest = mend_step(mend, mend->enough);
    if (mend->enough - mend->not_enough > closest * (1.0 + 1e-9) ||
        is_balanced_with(farm, mend, mend->not_enough))
        text_add(&tried->too_little, what);
    if (mend->kind == MEND_MORE_FOR_SALE) {
        const PlanFeed *feed = &farm->question.feeds[mend->place];
        double paid = mend->enough *
                      (feed->price_per_kg + (1.0 - feed->shrink_share) * feed->haul_per_kg);
        if (mend->beside.name) {
            const PlanFeed *other = &farm->question.feeds[mend->beside.place];
            paid += mend->beside.kg *
                    (other->price_per_kg + (1.0 - other->shrink_share) * other->haul_per_kg);
        }
        if (fabs(mend->cost - paid) > 1e-9 * paid)
            text_add(&tried->costs, what);
    } else if (!isnan(mend->cost)) {
        text_add(&tried->costs, what);
    }
}

/* Where prices prove a twentieth of the shortage for what is left of the winter, it is short.
 */
static void try_what_is_ruled_out(Tried *tried, const PlannedFarm *farm,
                                  const ShortageProof *proof, const Mend *mend, double amount) {
    Arena *arena = arena_open();
    const PlanQuestion question = mended_question(arena, &farm->question, mend, amount);
    const int without = mend->kind == MEND_LESS_GAIN ? mend->place : -1;
    if (shortage_proven(proof, &question, without) > 0.05 * proof->proven) {
        tried->ruled_out++;
        if (plan_verdict(&question) == PLAN_BALANCED)
            text_print(&tried->rashly, "seed %llu, kind %d, place %d, %.9g\n", farm->seed,
                       (int)mend->kind, mend->place, amount);
    }
    arena_close(arena);
}

static void try_proof(Tried *tried, const PlannedFarm *farm) {
    Arena *arena = arena_open();
    const PlanQuestion *question = &farm->question;
    PlanStart start = {0};
    plan_can_be_balanced(arena, question, &start, NULL);
    for (int g = 0; g < farm->farm.herd.count; g++) {
        const HerdGroup *group = &farm->farm.herd.groups[g];
        for (int part = 1; part <= 3; part++) {
            const Mend fewer = {.kind = MEND_FEWER_HEAD, .place = g, .name = ""};
            const Mend less = {.kind = MEND_LESS_GAIN, .place = g, .name = ""};
            try_what_is_ruled_out(tried, farm, &start.proof, &fewer,
                                  floor(group->head * part / 3.5));
            if (group->gain.kg_per_day > 0.0)
                try_what_is_ruled_out(tried, farm, &start.proof, &less,
                                      group->gain.kg_per_day * part / 3.0);
        }
    }
    for (int days = 5; days < winter_days(&farm->farm.winter); days += 9) {
        const Mend fewer = {.kind = MEND_FEWER_DAYS, .place = -1, .name = ""};
        try_what_is_ruled_out(tried, farm, &start.proof, &fewer, days);
    }
    for (int f = question->own_count; f < question->feed_count; f++) {
        const Mend more = {.kind = MEND_MORE_FOR_SALE, .place = f, .name = ""};
        for (double kg = 100.0; isfinite(question->feeds[f].available_kg) && kg < 1e6;
             kg *= 4.0)
            try_what_is_ruled_out(tried, farm, &start.proof, &more, kg);
    }
    arena_close(arena);
}

/* What stands first names a group and its lack, or that not enough is left over. */
static void try_verdict(Tried *tried, Arena *arena, const PlannedFarm *farm) {
    const Herd *herd = &farm->farm.herd;
    const char *verdict = plan_report(arena, &farm->plan, UNITS_METRIC)->verdict;
    const char *lack = strstr(verdict, "The plan spreads the lack over the winter: ");
    bool is_named = farm->plan.carry_over_short_kg > 0.0 && strstr(verdict, "carry-over");
    for (int g = 0; lack && g < herd->count; g++)
        is_named |= strstr(lack, herd->names[g]) != NULL;
    if (!is_named)
        text_print(&tried->unnamed, "seed %llu: %s\n", farm->seed, verdict);
}

static void try_farm(Tried *tried, int seed) {
    Arena *arena = arena_open();
    const FarmSize size = {1 + seed % 2, 2 + seed % 3, 2 + seed % 4, 50 + seed % 21, false};
    PlannedFarm *farm =
        planned_farm(arena, farm_drafted(arena, (unsigned long long)seed, size));
    farm->seed = (unsigned long long)seed;
    const Mend *mends;
    const int count = mends_of(arena, &farm->plan, &mends);
    tried->short_farms += farm->plan.verdict == PLAN_SHORT;
    if (farm->plan.verdict == PLAN_SHORT) {
        try_proof(tried, farm);
        try_verdict(tried, arena, farm);
    }
    for (int i = 0; i < count; i++) {
        try_mend(tried, farm, &mends[i]);
        if (i > 0 && mends[i - 1].kind != MEND_TEST && !isnan(mends[i].cost) &&
            !(mends[i - 1].cost <= mends[i].cost))
            text_print(&tried->order, "seed %d, mend %d\n", seed, i);
    }
    arena_close(arena);
}

static int try_farms(void **state) {
    Arena *arena = arena_open();
    Tried *tried = ARENA_NEW(arena, Tried);
    *tried = (Tried){.arena = arena,
                     .enough = text_new(arena),
                     .too_little = text_new(arena),
                     .costs = text_new(arena),
                     .order = text_new(arena),
                     .rashly = text_new(arena),
                     .unnamed = text_new(arena)};
    for (int seed = 1; seed <= FARMS; seed++)
        try_farm(tried, seed);
    *state = tried;
    return 0;
}

static int close_farms(void **state) {
    arena_close(((Tried *)*state)->arena);
    return 0;
}

static void assert_nothing(const Text *broken) {
    if (broken->length > 0)
        fail_msg("%s", broken->bytes);
}

static void with_the_mend_the_winter_is_balanced(void **state) {
    assert_nothing(&((const Tried *)*state)->enough);
}

static void with_a_little_less_it_is_not(void **state) {
    assert_nothing(&((const Tried *)*state)->too_little);
}

static void the_cost_is_that_of_the_feed_and_its_hauling(void **state) {
    assert_nothing(&((const Tried *)*state)->costs);
}

static void what_prices_rule_out_does_not_mend(void **state) {
    const Tried *tried = *state;
    assert_nothing(&tried->rashly);
    assert_true(FARMS < 45 || tried->ruled_out >= 100);
}

static void the_cheapest_is_first(void **state) {
    assert_nothing(&((const Tried *)*state)->order);
}

static void a_short_winter_names_who_lacks_what(void **state) {
    assert_nothing(&((const Tried *)*state)->unnamed);
}

/* So that the laws above are not of nothing. */
static void many_mends_of_every_kind_were_tried(void **state) {
    const Tried *tried = *state;
    if (FARMS < 45)
        return;
    assert_true(tried->short_farms >= 20);
    assert_true(tried->mends >= 20);
    for (int kind = 0; kind <= MEND_FEWER_DAYS; kind++)
        assert_true(tried->kinds[kind] > 0);
    assert_true(tried->pairs > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(with_the_mend_the_winter_is_balanced),
        cmocka_unit_test(with_a_little_less_it_is_not),
        cmocka_unit_test(the_cost_is_that_of_the_feed_and_its_hauling),
        cmocka_unit_test(what_prices_rule_out_does_not_mend),
        cmocka_unit_test(the_cheapest_is_first),
        cmocka_unit_test(a_short_winter_names_who_lacks_what),
        cmocka_unit_test(many_mends_of_every_kind_were_tried),
    };
    return cmocka_run_group_tests(tests, try_farms, close_farms);
}

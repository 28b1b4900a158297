/* What holds of futures of any farm: what-ifs on invented farms, through the files and readers
 * that any what-if goes through. */
#include "entry/farm_reading.h"
#include "entry/future.h"
#include "planner/break_even.h"
#include "planner/cost_error.h"
#include "planner/least_cost.h"
#include "present/present.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <stdlib.h>
#include <string.h>

#ifdef __SANITIZE_ADDRESS__
#define FARMS 6
#else
#define FARMS 60
#endif
#define EXACT 1e-7 /* of the cost: the solver's tolerance */

typedef struct {
    Arena *arena;
    FarmRequest request;
    Farm farm;
    PlanQuestion question;
    WinterPlan plan; /* of the least cost */
    const FarmDraft *draft;
    double own_cost; /* dollars beside the plan */
    int varied;      /* the offer whose price is */
    int seed;
} Asked;

static Asked *asked_future(Arena *arena, const Asked *as_it_is, const char *what_if) {
    Asked *of = ARENA_NEW(arena, Asked);
    *of = *as_it_is;
    Faults faults = faults_new(arena);
    const FileBytes file = {"what-if.csv", what_if, strlen(what_if)};
    WhatIf changes;
    if (!what_if_parse(arena, &faults, &file, "herd.csv", &changes) ||
        !future_read(arena, &faults, &of->request, file.name, changes.changes, changes.count,
                     &of->farm))
        fail_msg("seed %d: %s%s", of->seed, what_if, unit_faults(&faults, arena));
    of->question = plan_question(arena, &of->farm);
    of->plan = plan_least_cost(arena, &of->question);
    return of;
}

static Asked *farm_of(Arena *arena, int seed) {
    Asked *of = ARENA_NEW(arena, Asked);
    Faults faults = faults_new(arena);
    const FarmSize size = {1 + seed % 3, 3 + seed % 3, 6, 60 + seed % 31, seed % 4 != 0};
    of->arena = arena;
    of->seed = seed;
    FarmDraft *draft = farm_drafted(arena, (unsigned long long)seed + 900, size);
    draft->imperial = 0; /* so that the headings are known */
    of->draft = draft;
    farm_written(arena, of->draft, &of->request);
    assert_true(farm_read(arena, &faults, &of->request, &of->farm));
    of->question = plan_question(arena, &of->farm);
    of->plan = plan_least_cost(arena, &of->question);
    return of;
}

#define HEADINGS "file,row,column,value\n"

/* A change that gives more room, of those that the farm's files can hold. */
static const char *relaxing(Arena *arena, const Asked *as_it_is) {
    const FarmDraft *draft = as_it_is->draft;
    const DraftOffer *offer = &draft->offers[as_it_is->seed % draft->offer_count];
    const DraftStack *stack = &draft->stacks[as_it_is->seed % draft->stack_count];
    switch (as_it_is->seed % 3) {
    case 0:
        return arena_print(arena, HEADINGS "for-sale,%s,price_per_tonne,%.10g\n", offer->name,
                           0.7 * offer->price);
    case 1:
        return arena_print(arena, HEADINGS "stacks,%s,value_per_tonne,%.10g\n", stack->name,
                           0.7 * stack->value);
    default:
        return arena_print(arena, HEADINGS "stacks,%s,groups,\n", stack->name);
    }
}

static void a_future_without_changes_is_the_farm_as_it_is(void **state) {
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const Asked *as_it_is = farm_of(arena, seed);
        const Asked *same = asked_future(arena, as_it_is, HEADINGS);
        assert_int_equal(same->plan.verdict, as_it_is->plan.verdict);
        assert_near(plan_least(&same->plan), plan_least(&as_it_is->plan), 0.0);
        const CostError *a = cost_errors(arena, &as_it_is->plan);
        const CostError *b = cost_errors(arena, &same->plan);
        if (as_it_is->plan.verdict == PLAN_BALANCED)
            assert_near(cost_difference_error(&as_it_is->plan, a, &same->plan, b), 0.0, 0.0);
        arena_close(arena);
    }
    (void)state;
}

static void a_what_if_that_gives_more_room_never_costs_more(void **state) {
    int balanced = 0, cheaper = 0;
    for (int seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const Asked *as_it_is = farm_of(arena, seed);
        const char *what_if = relaxing(arena, as_it_is);
        const Asked *more = asked_future(arena, as_it_is, what_if);
        if (as_it_is->plan.verdict == PLAN_BALANCED) {
            const double before = plan_least(&as_it_is->plan);
            const LeastCost beside = least_cost_beside(&more->plan, &as_it_is->plan);
            const double after = beside.money + beside.cautions;
            balanced++;
            cheaper += after < before * (1.0 - EXACT);
            assert_int_equal(more->plan.verdict, PLAN_BALANCED);
            if (after > before * (1.0 + EXACT))
                fail_msg("seed %d: %s%.9g became %.9g", seed, what_if, before, after);
        }
        arena_close(arena);
    }
    assert_true(balanced > FARMS / 3);
    assert_true(cheaper > balanced / 10); /* the law was put to the proof */
    (void)state;
}

/* The price of the varied offer, in the question itself. */
static CostPoint cost_at_price(void *context, double at) {
    const Asked *of = context;
    Arena *scratch = arena_open();
    PlanQuestion question = of->question;
    PlanFeed *feeds = ARENA_ARRAY(scratch, PlanFeed, question.feed_count);
    for (int f = 0; f < question.feed_count; f++)
        feeds[f] = question.feeds[f];
    feeds[question.own_count + of->varied].price_per_kg = at;
    question.feeds = feeds;
    const WinterPlan plan = plan_least_cost(scratch, &question);
    const CostPoint point = {.at = at,
                             .is_balanced = plan.verdict == PLAN_BALANCED,
                             .cost = plan_least(&plan) + of->own_cost};
    arena_close(scratch);
    return point;
}

#define PAIRS (FARMS / 6)

/* With half of every stack lost, and as much money besides as that costs with the most bought
 * offer at its own price: which of the two costs less turns on that price. */
static Asked *with_less_of_all(Arena *arena, Asked *as_it_is) {
    Text what_if = text_new(arena);
    text_add(&what_if, HEADINGS);
    for (int s = 0; s < as_it_is->draft->stack_count; s++)
        text_print(&what_if, "stacks,%s,storage_loss_pct,50\n",
                   as_it_is->draft->stacks[s].name);
    Asked *other = asked_future(arena, as_it_is, what_if.bytes);
    const PlanQuestion *question = &other->question;
    const double *bought_kg = other->plan.bought_kg + question->own_count;
    for (int o = 1; o < question->feed_count - question->own_count; o++) {
        if (bought_kg[o] > bought_kg[other->varied])
            other->varied = o;
    }
    as_it_is->varied = other->varied;
    other->own_cost = plan_least(&as_it_is->plan) - plan_least(&other->plan);
    return other;
}

static void a_break_even_is_the_same_from_either_side_and_costs_the_same_there(void **state) {
    int found = 0;
    for (int seed = 1; seed <= PAIRS; seed++) {
        Arena *arena = arena_open();
        Asked *as_it_is = farm_of(arena, 4 * seed + 1); /* generous: it can be balanced */
        Asked *other = with_less_of_all(arena, as_it_is);
        const double price =
            other->question.feeds[other->question.own_count + other->varied].price_per_kg;
        const CurveRange range = {0.5 * price, 1.7 * price, false};
        BreakEven one[4], two[4];
        const int count = break_evens(cost_at_price, as_it_is, other, range, NULL, one, 4);
        assert_int_equal(break_evens(cost_at_price, other, as_it_is, range, NULL, two, 4),
                         count);
        for (int i = 0; i < count; i++) {
            const double a = cost_at_price(as_it_is, one[i].at).cost;
            const double b = cost_at_price(other, one[i].at).cost;
            assert_near(two[i].at, one[i].at, 0.0);
            assert_true(one[i].a_is_cheaper_below != two[i].a_is_cheaper_below);
            assert_near(a, b, 1e-4 * a);
        }
        found += count;
        arena_close(arena);
    }
    assert_true(found > PAIRS / 4);
    (void)state;
}

static const char *page_of(Arena *arena, const FarmRequest *request) {
    Faults faults = faults_new(arena);
    const TaskResult result = task_compare(arena, &faults, request);
    assert_non_null(result.report);
    Text text = text_new(arena);
    present_text(result.report, (TextStyle){.width = 80}, &text);
    present_json(result.report, &text);
    return text.bytes;
}

static void the_same_futures_make_the_same_page(void **state) {
    for (int seed = 1; seed <= 3; seed++) {
        Arena *arena = arena_open();
        Asked *as_it_is = farm_of(arena, seed);
        const char *what_if = relaxing(arena, as_it_is);
        const FileBytes files[] = {{"some.csv", what_if, strlen(what_if)},
                                   {"none.csv", HEADINGS, strlen(HEADINGS)}};
        as_it_is->request.what_ifs = files;
        as_it_is->request.what_if_count = 2;
        as_it_is->request.wants_ship = true;
        as_it_is->request.ship_from = as_it_is->farm.winter.first_day;
        const char *first = page_of(arena, &as_it_is->request);
        assert_string_equal(page_of(arena, &as_it_is->request), first);
        arena_close(arena);
    }
    (void)state;
}

static const Figure *member(const Figure *of, const char *key) {
    for (const Figure *figure = of->first; figure; figure = figure->next) {
        if (text_same(figure->key, key))
            return figure;
    }
    print_error("no figure is called %s\n", key);
    abort();
}

/* The figures of the two futures when the price of an offer is varied that the second does not
 * have. */
static const Figure *varied_without(Arena *arena, int seed, int offer) {
    Asked *as_it_is = farm_of(arena, seed);
    const char *name = as_it_is->draft->offers[offer].name;
    const char *what_if =
        arena_print(arena, "file,row,column,value,change\nfor-sale,%s,,,remove\n", name);
    FileBytes *file = ARENA_NEW(arena, FileBytes);
    *file = (FileBytes){"without.csv", what_if, strlen(what_if)};
    const char *vary[] = {"for-sale", name, "price_per_tonne", "100", "500"};
    as_it_is->request.what_ifs = file;
    as_it_is->request.what_if_count = 1;
    as_it_is->request.vary = vary;
    Faults faults = faults_new(arena);
    const TaskResult result = task_compare(arena, &faults, &as_it_is->request);
    assert_int_equal(faults.wrong_count, 0);
    return member(member(result.report->figures, "varied"), "futures");
}

static void a_number_that_a_future_does_not_have_changes_nothing_in_it(void **state) {
    bool is_found = false; /* an offer that the farm can do without */
    for (int offer = 0; offer < 6 && !is_found; offer++) {
        const Figure *futures = varied_without(*state, 5, offer);
        const Figure *pieces = member(futures->first->next, "pieces");
        assert_true(pieces->first && pieces->first == pieces->last);
        is_found = member(pieces->first, "balanced")->truth;
        if (is_found)
            assert_near(member(pieces->first, "cost_from")->number,
                        member(pieces->first, "cost_to")->number, 0.0);
    }
    assert_true(is_found);
}

static void a_future_that_is_short_at_every_value_is_one_piece_without_a_cost(void **state) {
    const Figure *futures = varied_without(*state, 2, 1);
    const Figure *pieces = member(futures->first->next, "pieces");
    assert_true(pieces->first && pieces->first == pieces->last);
    assert_false(member(pieces->first, "balanced")->truth);
    assert_true(isnan(member(pieces->first, "cost_from")->number));
    assert_null(member(pieces->first, "feeds")->first);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_future_without_changes_is_the_farm_as_it_is),
        cmocka_unit_test(a_what_if_that_gives_more_room_never_costs_more),
        cmocka_unit_test(a_break_even_is_the_same_from_either_side_and_costs_the_same_there),
        cmocka_unit_test(the_same_futures_make_the_same_page),
        UNIT_TEST(a_number_that_a_future_does_not_have_changes_nothing_in_it),
        UNIT_TEST(a_future_that_is_short_at_every_value_is_one_piece_without_a_cost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

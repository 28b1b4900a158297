#include "planner/cut_plan.h"
#include "support/text_farm.h"

#define HERD                                                                                   \
    "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,gain_kg_per_day,"   \
    "delivery\n"                                                                               \
    "Cows,cow,60,610,,2027-04-01,2027-05-10,,mixed\n"                                          \
    "Calves,replacement heifer,25,260,620,,,0.7,mixed\n"
#define WINTER "setting,value\nfirst_day,2026-11-01\nlast_day,2027-03-31\n"
#define NO_STACK                                                                               \
    "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne,groups\n"                    \
    "Elsewhere,loose,brome hay,1,shed,bunk,400,Others\n"
#define FIELD_HEAD                                                                             \
    "field,area_hectares,feed,growth,seeded_date,cut_date,way,yield_tonnes_per_hectare,"       \
    "yield_basis,basis,moisture_pct,crude_protein_pct,ndf_pct,tdn_pct,nitrate_no3_pct,"        \
    "field_loss_pct,rain_chance_pct,seed_per_hectare,putting_up_per_tonne,storage,"            \
    "storage_loss_pct,feeding,value_per_tonne,haul_per_tonne\n"
#define EARLY                                                                                  \
    "Home,45,cover-crop hay early,mix,2026-05-20,2026-07-19,hay,3.2,dry matter,dry matter,14," \
    "15,52,62,0.1,20,0,90,18,net wrap rows,6,unrolled,30,8\n"
#define LATE                                                                                   \
    "Home,45,cover-crop hay late,mix,2026-05-20,2026-08-15,hay,4.9,dry matter,dry matter,14,"  \
    "10,57,57,0.1,20,0,165,18,net wrap rows,6,unrolled,30,8\n"

static const char *sale_at(Arena *arena, double barley_per_tonne) {
    return arena_print(arena,
                       "feed_for_sale,feed,price_per_tonne,feeding\n"
                       "Barley,barley grain,%.9g,bunk\n"
                       "Canola meal,canola meal,390,bunk\n"
                       "Hay,brome hay,190,unrolled\n"
                       "Mineral,mineral 2:1,1900,bunk\nLimestone,limestone,350,bunk\n"
                       "Salt,trace-mineral salt,700,bunk\n",
                       barley_per_tonne);
}

typedef struct {
    const char *stacks, *tests, *fields;
    double barley_per_tonne;
} Files;

static const Farm *farm_of(Arena *arena, Files files) {
    const char *const bytes[FARM_FILE_COUNT] = {
        [FARM_HERD] = HERD,
        [FARM_STACKS] = files.stacks,
        [FARM_FEED_TESTS] = files.tests,
        [FARM_FOR_SALE] = sale_at(arena, files.barley_per_tonne),
        [FARM_WINTER] = WINTER,
        [FARM_FIELDS] = files.fields,
    };
    return text_farm(arena, bytes);
}

/* The stack that the early field makes, worked out here: 45 ha of 3.2 t, a fifth lost, at 86 %
 * dry matter, is 45 x 3.2 x 0.8 / 0.86 t as it lies. */
#define SETTLED_SHARE 1e-4 /* within which the rounds of the curved laws end */

static void a_field_with_one_cutting_date_equals_the_stack_it_would_make(void **state) {
    Arena *arena = *state;
    const double tonnes = 45.0 * 3.2 * 0.8 / 0.86;
    const Farm *of_field = farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY, 260.0});
    const Farm *of_stack = farm_of(
        arena,
        (Files){arena_print(arena,
                            "stack,kind,feed,cut_date,total_tonnes,storage,storage_loss_pct,"
                            "feeding,value_per_tonne,haul_per_tonne\n"
                            "Home,round bales,cover-crop hay early,2026-07-19,%.17g,"
                            "net wrap rows,6,unrolled,30,8\n",
                            tonnes),
                "stack,basis,moisture_pct,crude_protein_pct,ndf_pct,tdn_pct,nitrate_no3_pct,"
                "sulfur_pct\n"
                "Home,dry matter,14,15,52,62,0.1,0.28\n", /* what the book expects of a field */
                NULL, 260.0});
    const CutQuestion question = cut_question(arena, of_field, growing_year_expected());
    const double whole[] = {45.0};
    const CutTerms all_of_it = {.hectares = whole, .price_of = -1};
    const CutFuture future = {.days = CUT_AS_PLANNED, .barred_offer = -1};
    const CutPlan cut = cut_plan(arena, &question, future, &all_of_it);
    const PlanQuestion stack_question = plan_question(arena, of_stack);
    const WinterPlan stack = plan_least_cost(arena, &stack_question);
    assert_int_equal(cut.verdict, PLAN_BALANCED);
    assert_int_equal(stack.verdict, PLAN_BALANCED);
    /* What it cost to make is paid; what is not fed fetches its value. */
    const double making = 45.0 * 90.0 + tonnes * 18.0;
    const double left = (tonnes * 0.94 - stack.taken_kg[0] / 1000.0) * 30.0;
    const double fed =
        stack.cost.total - stack.cost.own_feed + stack.cost.cautions + making - left;
    assert_near(cut.cost.total, fed, SETTLED_SHARE * fed);
    assert_near(cut.cost.growing, making, 1e-6 * making);
    for (int f = 0; f < cut.question->feed_count; f++)
        assert_near(cut.plan.taken_kg[f], stack.taken_kg[f],
                    SETTLED_SHARE * (1000.0 + stack.taken_kg[f]));
}

static const CutFuture FIRST = {.days = CUT_EARLIEST, .barred_offer = -1};
static const CutFuture SECOND = {.days = CUT_LATEST, .barred_offer = -1};

static double cost_at(Arena *arena, CutFuture future, double barley_per_tonne) {
    const Farm *farm =
        farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY LATE, barley_per_tonne});
    const CutQuestion question = cut_question(arena, farm, growing_year_expected());
    const CutPlan plan = cut_plan(arena, &question, future, NULL);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    return plan.cost.total;
}

/* The farm is read and planned anew with barley just below and just above the price. */
static void the_answer_turns_at_the_price_that_is_told(void **state) {
    Arena *arena = *state;
    const Farm *farm = farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY LATE, 260.0});
    const CutQuestion question = cut_question(arena, farm, growing_year_expected());
    const CutTurn turn = cut_turn(&question, FIRST, SECOND, 0);
    assert_true(isfinite(turn.price_per_kg));
    const double price = turn.price_per_kg * 1000.0;
    const double below =
        cost_at(arena, FIRST, price * 0.98) - cost_at(arena, SECOND, price * 0.98);
    const double above =
        cost_at(arena, FIRST, price * 1.02) - cost_at(arena, SECOND, price * 1.02);
    assert_true(below * above < 0.0);
    const double at = cost_at(arena, FIRST, price);
    assert_near(cost_at(arena, SECOND, price), at, 1e-4 * at);
    assert_near(turn.first_low - turn.second_low, below, 1e-4 * at);
    assert_near(turn.first_high - turn.second_high, above, 1e-4 * at);
    /* From the other side it is the same price. */
    const CutTurn other = cut_turn(&question, SECOND, FIRST, 0);
    assert_near(other.price_per_kg, turn.price_per_kg, 1e-3 * turn.price_per_kg);
}

static void two_futures_that_are_the_same_have_no_turn(void **state) {
    Arena *arena = *state;
    const Farm *farm = farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY, 260.0});
    const CutQuestion question = cut_question(arena, farm, growing_year_expected());
    const CutTurn turn = cut_turn(&question, FIRST, SECOND, 0);
    assert_true(isnan(turn.price_per_kg));
    assert_true(turn.low_per_kg < 0.260 && turn.high_per_kg > 0.260);
}

static void a_feed_that_is_barred_is_not_bought(void **state) {
    Arena *arena = *state;
    const Farm *farm = farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY LATE, 120.0});
    const CutQuestion question = cut_question(arena, farm, growing_year_expected());
    const CutFuture barred = {.days = CUT_LATEST, .barred_offer = 0};
    const int barley = question.question.own_count;
    const CutPlan with = cut_plan(arena, &question, SECOND, NULL);
    const CutPlan without = cut_plan(arena, &question, barred, NULL);
    assert_true(with.plan.bought_kg[barley] > 1.0);
    assert_near(without.plan.bought_kg[barley], 0.0, 0.0);
}

/* Rain takes dry matter and TDN; a chance of it lies between never and always. */
static void rain_as_expected_costs_between_a_dry_year_and_a_wet_one(void **state) {
    Arena *arena = *state;
    static const char RAINED[] = FIELD_HEAD
        "Home,45,cover-crop hay late,mix,2026-05-20,2026-08-15,hay,4.9,dry matter,dry "
        "matter,14,10,57,57,0.1,20,40,90,18,net wrap rows,6,unrolled,30,8\n";
    const Farm *farm = farm_of(arena, (Files){NO_STACK, NULL, RAINED, 260.0});
    double cost[3];
    const double rain[3] = {0.0, (double)NAN, 1.0};
    for (int i = 0; i < 3; i++) {
        const GrowingYear year = {rain[i], 0.0, 0.0};
        const CutQuestion question = cut_question(arena, farm, year);
        cost[i] = cut_plan(arena, &question, SECOND, NULL).cost.total;
    }
    assert_true(cost[0] < cost[1] && cost[1] < cost[2]);
}

static void a_day_asked_for_is_each_fields_nearest(void **state) {
    Arena *arena = *state;
    const Farm *farm = farm_of(arena, (Files){NO_STACK, NULL, FIELD_HEAD EARLY LATE, 260.0});
    CutFuture on = {.days = CUT_ON_DAY, .day = calendar_day(2026, 7, 25), .barred_offer = -1};
    assert_true(cut_future_allows(&farm->fields, on, 0));
    assert_false(cut_future_allows(&farm->fields, on, 1));
    on.day = calendar_day(2026, 9, 1);
    assert_false(cut_future_allows(&farm->fields, on, 0));
    assert_true(cut_future_allows(&farm->fields, on, 1));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_field_with_one_cutting_date_equals_the_stack_it_would_make),
        UNIT_TEST(the_answer_turns_at_the_price_that_is_told),
        UNIT_TEST(two_futures_that_are_the_same_have_no_turn),
        UNIT_TEST(a_feed_that_is_barred_is_not_bought),
        UNIT_TEST(rain_as_expected_costs_between_a_dry_year_and_a_wet_one),
        UNIT_TEST(a_day_asked_for_is_each_fields_nearest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

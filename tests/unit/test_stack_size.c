/* Stacks measured with a tape and a rope, with a density of their own and with the book's. */
#include "stock/stack.h"
#include "support/own_tables.h"
#include "support/told.h"

static Stacks parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const StockContext context = {.book = own_book(arena),
                                  .handling = own_handling(arena),
                                  .tests = ARENA_NEW(arena, FeedTests),
                                  .first_day = calendar_day(2026, 11, 1),
                                  .last_day = calendar_day(2027, 5, 15),
                                  .densities = own_densities(arena)};
    return stacks_parse(arena, faults, &context, "stacks.csv", bytes, length);
}

static void read_stacks(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_stacks
#define HEAD "stack,kind,feed,storage,feeding,value_per_tonne"
#define OF(kind, feed) "A," kind "," feed ",shed,unrolled,90"
#define SILAGE(kind) "A," kind ",barley silage,covered pile,bunk,55"
#define DENSE ",density_kg_per_m3,density_basis"
#define HAY "grass hay average"

static Stack only_stack(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Stacks stacks = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(stacks.count, 1);
    return stacks.stacks[0];
}

static double dry_share(const Stack *stack) {
    return stack->feed.analysis.dry_matter.value / 100.0;
}

/* ---- shapes ---- */

static void a_pit_with_its_slopes_measured_is_more_than_a_box(void **state) {
    /* 2.8 (8 + 10)/2 = 25.2 m2 times 40 + 12/2 m */
    const Stack pit =
        only_stack(state, HEAD ",width_m,top_width_m,height_m,length_m,ramps_m" DENSE
                               "\n" SILAGE("pit") ",8,10,2.8,40,12,640,as fed\n");
    assert_near(pit.counted_kg, 25.2 * 46.0 * 640.0, 1e-6);
    assert_true(stack_has_face(&pit));
    const Stack box = only_stack(state, HEAD ",width_m,height_m,length_m" DENSE
                                             "\n" SILAGE("pit") ",9,2.8,46,640,as fed\n");
    assert_near(box.counted_kg, pit.counted_kg, 1e-6); /* the mean sizes of the same */
}

static void a_pile_has_a_top_and_ramps(void **state) {
    const Stack pile =
        only_stack(state, HEAD ",width_m,top_width_m,height_m,length_m,ramps_m" DENSE
                               "\n" SILAGE("drive-over pile") ",16,4,2,20,12,600,as fed\n");
    assert_near(pile.counted_kg, 2.0 * 10.0 * 26.0 * 600.0, 1e-6);
    assert_true(stack_has_face(&pile));
    const Stack wedge = only_stack(state, HEAD ",width_m,height_m,length_m" DENSE
                                               "\n" SILAGE("wedge") ",8,3,12,600,as fed\n");
    assert_near(wedge.counted_kg, 8.0 * 3.0 * 12.0 / 2.0 * 600.0, 1e-6);
}

static void a_bin_may_be_heaped_and_have_a_hopper(void **state) {
    const double area = 3.14159265358979 / 4.0 * 25.0;
    const Stack bin =
        only_stack(state, HEAD ",diameter_m,height_m,cone_height_m,hopper_height_m" DENSE
                               "\n" OF("bin", "barley grain") ",5,4,1.2,2.4,640,as fed\n");
    assert_near(bin.counted_kg, area * (4.0 + 0.4 + 0.8) * 640.0, 1e-3);
}

static void long_and_round_stacks_are_measured_with_a_rope(void **state) {
    /* 16 ft wide, 38 over, 50 long: 0.52 x 38 - 0.44 x 16 = 12.72, times 16 x 50 = 10,176 ft3
     */
    const double kg_of_ft3 = 0.3048 * 0.3048 * 0.3048 * 67.0;
    const Stack low = only_stack(state, HEAD ",width_ft,length_ft,over_ft" DENSE "\n" OF(
                                            "low long stack", HAY) ",16,50,38,67,as fed\n");
    assert_near(low.counted_kg, 10176.0 * kg_of_ft3, 0.01);
    const Stack high = only_stack(state, HEAD ",width_ft,length_ft,over_ft" DENSE "\n" OF(
                                             "high long stack", HAY) ",16,50,38,67,as fed\n");
    assert_near(high.counted_kg, (0.52 * 38 - 0.46 * 16) * 800.0 * kg_of_ft3, 0.01);
    const Stack flat = only_stack(state, HEAD ",width_ft,length_ft,over_ft" DENSE "\n" OF(
                                             "flat long stack", HAY) ",16,50,38,67,as fed\n");
    assert_near(flat.counted_kg, (0.56 * 38 - 0.55 * 16) * 800.0 * kg_of_ft3, 0.01);
    const Stack round = only_stack(state, HEAD ",around_ft,over_ft" DENSE "\n" OF(
                                              "round stack", HAY) ",60,42,67,as fed\n");
    assert_near(round.counted_kg, (0.04 * 42 - 0.012 * 60) * 3600.0 * kg_of_ft3, 0.01);
}

static void bales_of_a_tube_may_be_counted_by_its_length(void **state) {
    const Stack tube =
        only_stack(state, HEAD ",bale_weight_kg,width_m,length_m\n"
                               "A,bale tube,cover-crop bale silage,wrapped,unrolled,60,700,"
                               "1.2,61\n");
    assert_near(tube.bale_count, 50, 0); /* 61 / 1.2 = 50.8 */
    assert_near(tube.counted_kg, 50 * 700.0, 1e-6);
}

static void a_size_that_is_missing_says_how_to_measure_it(void **state) {
    assert_told(HEAD ",width_m,top_width_m,height_m,length_m,ramps_m\n" SILAGE(
                    "drive-over pile") ",16,4,2,20,^\n",
                "ramps_m: is empty, but 'drive-over pile' is measured by it when nothing is "
                "weighed: both sloped ends together, along the ground; 0 where there are none");
    assert_told(
        HEAD ",width_m,length_m,over_m\n" OF("low long stack", HAY) ",5,15,^\n",
        "over_m: is empty, but 'low long stack' is measured by it when nothing is weighed: "
        "a rope from the ground on one side over the top to the ground on the other");
    assert_told(HEAD ",around_m,over_m\n" OF("round stack", HAY) ",^,12\n",
                "a rope around it at the foot");
}

/* ---- the book's density ---- */

static void bales_that_were_measured_lie_as_dense_as_the_book_says(void **state) {
    const Stack hay = only_stack(
        state, HEAD ",count,diameter_m,width_m\n" OF("round bales", HAY) ",40,1.8,1.5\n");
    const double volume = 3.14159265358979 / 4.0 * 1.8 * 1.8 * 1.5;
    assert_near(stack_counted_dry_matter(&hay).kg, 40 * volume * 150.0, 1e-3);
    assert_near(hay.weight_error_share, 0.09, 1e-12);
    assert_true(hay.density_is_books);
    assert_int_equal(hay.density_source, SOURCE_HFG_BALE_DENSITY);
    const Stack straw = only_stack(state, HEAD ",count,diameter_m,width_m\n" OF(
                                              "round bales", "barley straw") ",40,1.8,1.5\n");
    assert_near(stack_counted_dry_matter(&straw).kg, 40 * volume * 96.0, 1e-3);
    assert_near(straw.weight_error_share, 0.12, 1e-12);
}

static void a_farms_own_density_or_error_goes_before_the_books(void **state) {
    const Stack own = only_stack(state, HEAD ",count,diameter_m,width_m" DENSE "\n" OF(
                                            "round bales", HAY) ",40,1.8,1.5,180,as fed\n");
    assert_false(own.density_is_books);
    assert_near(own.weight_error_share, 0.09, 1e-12);
    const Stack error =
        only_stack(state, HEAD ",count,diameter_m,width_m,weight_error_pct\n" OF(
                              "round bales", HAY) ",40,1.8,1.5,6\n");
    assert_true(error.density_is_books);
    assert_near(error.weight_error_share, 0.06, 1e-12);
}

static void grain_lies_by_its_test_weight(void **state) {
    const Stack oats =
        only_stack(state, HEAD ",diameter_m,height_m\n" OF("bin", "oat grain") ",5,4\n");
    assert_near(oats.counted_kg, 3.14159265358979 / 4.0 * 25.0 * 4.0 * 520.0, 1e-3);
    assert_near(oats.weight_error_share, 0.04, 1e-12);
}

/* 20 ft across and 40 deep: 8.0 + 0.15 x 40 = 14 lb of dry matter a cubic foot, 88 tons; of
 * haylage 5.9 + 4 = 9.9 lb. */
static void an_upright_silo_is_denser_the_deeper_it_is(void **state) {
    const double cubic_feet = 3.14159265358979 * 100.0 * 40.0;
    const Stack corn =
        only_stack(state, HEAD ",diameter_ft,height_ft\n"
                               "A,upright silo,corn silage,upright silo,bunk,55,20,40\n");
    assert_near(stack_counted_dry_matter(&corn).kg, cubic_feet * 14.0 * 0.45359237, 1.0);
    assert_true(corn.density_is_books);
    const Stack hay =
        only_stack(state, HEAD ",diameter_ft,height_ft\n"
                               "A,upright silo,barley silage,upright silo,bunk,55,20,40\n");
    assert_near(stack_counted_dry_matter(&hay).kg, cubic_feet * 9.9 * 0.45359237, 1.0);
    assert_near(hay.counted_kg * dry_share(&hay), stack_counted_dry_matter(&hay).kg, 1e-6);
}

/* Turnip tops have 14 % of dry matter: at 208 kg of it a m3 a bag would be half as heavy again
 * as water. */
static void wet_feed_in_a_bag_is_no_heavier_than_a_bag_can_be(void **state) {
    Faults faults = faults_new(*state);
    const char *bytes = HEAD ",diameter_m,length_m\n"
                             "A,bag,turnip tops,silage bag,bunk,55,2.7,30\n";
    const Stacks stacks = parse(*state, &faults, bytes, strlen(bytes));
    assert_int_equal(stacks.count, 1);
    assert_near(stacks.stacks[0].counted_kg, 3.14159265358979 / 4.0 * 2.7 * 2.7 * 30.0 * 1000.0,
                1e-3);
    assert_non_null(strstr(unit_faults(&faults, *state),
                           "would make 1486 kg/m3 as fed, and no bag is denser than 1000"));
}

static void what_no_book_knows_has_to_be_weighed(void **state) {
    assert_told(HEAD ",length_m,width_m,height_m" DENSE "\n" OF("loose", HAY) ",10,4,3,^,\n",
                "'A': is measured, but no book says how dense Grass hay (Saskatchewan survey "
                "mean) lies as 'loose'; weigh it, or write density with density_basis");
}

static void every_row_of_the_book_is_of_a_kind_and_inside_its_range(void **state) {
    const BookDensities *densities = own_densities(*state);
    for (int i = 0; i < densities->count; i++) {
        bool is_kind = false;
        for (int kind = 0; kind < STACK_KIND_COUNT; kind++)
            is_kind |= text_same(densities->rows[i].kind, stack_kind_name((StackKind)kind));
        const char *feed = densities->rows[i].feed;
        const bool is_feed = text_same(feed, "straw") || text_same(feed, "forage") ||
                             book_find(own_book(*state), feed);
        assert_true(is_kind && is_feed);
        assert_true(densities->rows[i].weight_error_share > 0.0);
    }
}

/* Nothing is known of it, not even what the book would call it. */
static void a_stack_by_tape_of_a_feed_nobody_knows_is_one_fault(void **state) {
    static const char BYTES[] =
        HEAD ",diameter_m,height_m\nA,bin,oats,grain bin,bunk,180,6,4\n";
    Faults faults = faults_new(*state);
    parse(*state, &faults, BYTES, strlen(BYTES));
    assert_int_equal(faults.wrong_count, 1);
    assert_non_null(strstr(unit_faults(&faults, *state), "feed: 'oats' is not known"));
}

/* 0.10 a tonne is 0.09 a ton of 907 kg; it was once 4.5e-05 a lb. */
static void a_price_far_off_is_told_in_tonnes_and_tons_without_powers_of_ten(void **state) {
    assert_told("stack,kind,feed,storage,feeding,total_tonnes,value_per_tonne\n"
                "A,loose," HAY ",shed,unrolled,50,^0.10\n",
                "doubt: value_per_tonne: 0.10 a tonne (0.09 a ton) is unusual for grass hay, "
                "which runs from 20 to 450 a tonne; is the unit right?");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_pit_with_its_slopes_measured_is_more_than_a_box),
        UNIT_TEST(a_pile_has_a_top_and_ramps),
        UNIT_TEST(a_bin_may_be_heaped_and_have_a_hopper),
        UNIT_TEST(long_and_round_stacks_are_measured_with_a_rope),
        UNIT_TEST(bales_of_a_tube_may_be_counted_by_its_length),
        UNIT_TEST(a_size_that_is_missing_says_how_to_measure_it),
        UNIT_TEST(bales_that_were_measured_lie_as_dense_as_the_book_says),
        UNIT_TEST(a_farms_own_density_or_error_goes_before_the_books),
        UNIT_TEST(grain_lies_by_its_test_weight),
        UNIT_TEST(an_upright_silo_is_denser_the_deeper_it_is),
        UNIT_TEST(wet_feed_in_a_bag_is_no_heavier_than_a_bag_can_be),
        UNIT_TEST(what_no_book_knows_has_to_be_weighed),
        UNIT_TEST(a_stack_by_tape_of_a_feed_nobody_knows_is_one_fault),
        UNIT_TEST(a_price_far_off_is_told_in_tonnes_and_tons_without_powers_of_ten),
        UNIT_TEST(every_row_of_the_book_is_of_a_kind_and_inside_its_range),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

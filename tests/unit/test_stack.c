#include "stock/stack.h"
#include "support/own_tables.h"
#include "support/told.h"

static StockContext context_of(Arena *arena, Day first_day, Day last_day) {
    FeedTests *none = ARENA_NEW(arena, FeedTests);
    return (StockContext){own_book(arena), own_handling(arena), none, first_day,
                          last_day,        own_densities(arena)};
}

static Stacks parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const StockContext context =
        context_of(arena, calendar_day(2026, 11, 1), calendar_day(2027, 5, 15));
    return stacks_parse(arena, faults, &context, "stacks.csv", bytes, length);
}

static void read_stacks(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

static void read_stacks_of_unknown_days(Arena *arena, Faults *faults, const char *bytes,
                                        size_t length) {
    const StockContext context =
        context_of(arena, calendar_day(2000, 11, 1), calendar_day(2000, 10, 31));
    stacks_parse(arena, faults, &context, "stacks.csv", bytes, length);
}

#define TOLD_READER read_stacks
#define HEAD "stack,kind,feed,storage,feeding,value_per_tonne"
#define BALES "A,round bales,oat greenfeed,net wrap rows,unrolled,90"
#define SQUARES "A,square bales,oat greenfeed,shed,unrolled,90"
#define PIT "A,pit,barley silage,covered pit,bunk,55"
#define BIN "A,bin,barley grain,grain bin,bunk,220"
#define WEIGHED HEAD ",count,bale_weight_kg"

static Stack only_stack(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Stacks stacks = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(stacks.count, 1);
    return stacks.stacks[0];
}

static void a_stack_tells_what_is_to_be_watched_for_in_it(void **state) {
    const Stack stack =
        only_stack(state, WEIGHED ",watch_for\n" BALES ",100,600,Heated|Vetch\n");
    assert_int_equal(stack.feed.watch, WATCH_BIT(WATCH_HEATED) | WATCH_BIT(WATCH_VETCH));
    const char *grass = "A,round bales,brome hay,net wrap rows,unrolled,90,100,600";
    const Stack hay =
        only_stack(state, arena_print(*state, "%s,watch_for\n%s,kochia\n", WEIGHED, grass));
    assert_near(hay.feed.nitrate_for_safety, 2.0, 1e-12); /* and of grass alone 0.2 */
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^mice\n", "is not known");
}

static void frost_on_what_is_no_sorghum_is_doubted(void **state) {
    (void)state;
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^frosted\n",
                "doubt: watch_for: 'frosted' is of sorghum and sudangrass");
    assert_tells_nothing(WEIGHED ",watch_for\nA,round bales,sorghum-sudan hay,net wrap rows,"
                                 "unrolled,90,100,600,frosted\n");
}

/* Until there was a word for it nothing kept treated greenfeed from cattle. */
static void what_was_ammoniated_or_froze_in_lumps_can_be_written_and_is_checked(void **state) {
    const char *straw = "A,round bales,barley straw,net wrap rows,processed,50,100,600";
    const Stack treated = only_stack(
        state, arena_print(*state, "%s,watch_for\n%s,Ammonia-treated\n", WEIGHED, straw));
    assert_int_equal(treated.feed.watch, WATCH_BIT(WATCH_AMMONIATED));
    assert_tells_nothing(WEIGHED ",watch_for\nA,round bales,barley straw,net wrap rows,"
                                 "processed,50,100,600,ammoniated\n");
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^ammoniated\n",
                "doubt: watch_for: 'ammoniated' is of straw");
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^frozen lumps\n",
                "doubt: watch_for: 'frozen lumps' is of wet feed");
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^frozen\n",
                "'frozen' is not known; is it 'frosted' or 'frozen lumps'?");
    assert_told(WEIGHED ",watch_for\nA,round bales,canola hay,net wrap rows,processed,50,100,"
                        "600,^brassica\n",
                "doubt: watch_for: 'brassica' is of a mix");
    assert_told(WEIGHED ",watch_for\n" BALES ",100,600,^radish\n", "did you mean 'brassica'?");
    assert_told(WEIGHED ",watch_for\nA,round bales,wheat straw,net wrap rows,processed,50,100,"
                        "600,^durum\n",
                "doubt: watch_for: 'durum' is told for");
}

/* ---- how surely ---- */

static double error_of(void **state, const char *bytes) {
    return only_stack(state, bytes).weight_error_share;
}

/* sqrt(7^2 / n + 2^2) % of n bales weighed */
static void a_weight_is_as_sure_as_it_was_found(void **state) {
    assert_near(error_of(state, WEIGHED "\n" BALES ",100,600\n"), 0.10, 1e-12);
    assert_near(error_of(state, WEIGHED ",weighed\n" BALES ",100,600,10\n"),
                sqrt(4.9 + 4.0) / 100.0, 1e-12);
    assert_near(error_of(state, WEIGHED ",weighed\n" BALES ",100,600,1\n"),
                sqrt(49.0 + 4.0) / 100.0, 1e-12);
    assert_near(error_of(state, WEIGHED ",weighed\n" BALES ",100,600,100\n"), 0.015, 1e-12);
    assert_near(error_of(state, HEAD ",total_tonnes\n" PIT ",300\n"), 0.20, 1e-12);
    assert_near(error_of(state, HEAD ",total_tonnes,weighed\n" PIT ",300,31\n"), 0.04, 1e-12);
    assert_near(error_of(state, WEIGHED ",weighed,weight_error_pct\n" BALES ",100,600,10,5\n"),
                0.05, 1e-12);
    assert_told(WEIGHED ",weight_error_pct\n" BALES ",100,600,^80\n", "80");
}

/* ---- how much ---- */

static void bales_counted_and_weighed(void **state) {
    const Stack stack = only_stack(state, WEIGHED "\n" BALES ",100,600\n");
    assert_near(stack.counted_kg, 60000, 1e-6);
    assert_near(stack.bale_count, 100, 0);
    assert_near(stack.value_per_kg, 0.090, 1e-12);
    assert_near(stack_counted_dry_matter(&stack).kg,
                60000 * stack.feed.analysis.dry_matter.value / 100, 1e-6);
}

static void a_total_in_tons_is_two_thousand_pounds_each(void **state) {
    const Stack stack = only_stack(state, HEAD ",total_tons\n" BALES ",50\n");
    assert_near(stack.counted_kg, 50 * 907.18474, 1e-6);
}

static void round_bales_by_size_and_density(void **state) {
    /* 0.7854 x 1.5 x 1.5 x 1.2 m = 2.1206 m3; x 180 kg/m3 x 50 bales */
    const Stack stack = only_stack(
        state, HEAD ",count,diameter_m,width_m,density_kg_per_m3,density_basis\n" BALES
                    ",50,1.5,1.2,180,as fed\n");
    assert_near(stack.counted_kg, 2.12058 * 180 * 50, 1);
}

static void a_density_of_dry_matter_is_divided_by_the_dry_matter(void **state) {
    const Stack stack = only_stack(
        state, HEAD ",count,diameter_m,width_m,density_kg_per_m3,density_basis\n" BALES
                    ",50,1.5,1.2,176,dry matter\n");
    assert_near(stack.counted_kg, 2.12058 * 176 / 0.88 * 50,
                1); /* the book's greenfeed: 88 % */
}

static void square_bales_by_size_need_the_size_of_one_and_the_count(void **state) {
    const char *const head =
        HEAD ",count,width_m,length_m,height_m,density_kg_per_m3,density_basis\n" SQUARES;
    const Stack stack =
        only_stack(state, arena_print(*state, "%s,640,0.46,0.95,0.36,170,as fed\n", head));
    assert_near(stack.counted_kg, 0.46 * 0.95 * 0.36 * 170 * 640, 1e-6);
    assert_told(arena_print(*state, "%s,^,0.46,0.95,0.36,170,as fed\n", head),
                "how many bales are in 'A'?");
    /* the size of the whole stack */
    assert_told(arena_print(*state, "%s,640,6,^20,5,170,as fed\n", head),
                "write the size of one bale");
}

static void pits_bags_and_bins_by_size(void **state) {
    const Stack pit = only_stack(
        state, HEAD ",width_m,length_m,height_m,density_kg_per_m3,density_basis\n" PIT
                    ",7,35,2.4,620,as fed\n");
    assert_near(pit.counted_kg, 7 * 35 * 2.4 * 620, 1e-6);
    const Stack bin =
        only_stack(state, HEAD ",diameter_ft,height_ft,density_lb_per_ft3,density_basis\n" BIN
                               ",14,10,40,as fed\n");
    /* 0.7854 x 14 x 14 x 10 ft3 x 40 lb */
    assert_near(bin.counted_kg, 153.938 * 10 * 40 * 0.45359237, 1);
}

static void no_way_or_two_ways_to_weigh_is_a_fault(void **state) {
    assert_told(HEAD "\n^" BALES "\n", "nothing says how much is there");
    assert_told(HEAD ",count\n^" BALES ",40\n", "nothing says how much is there");
    assert_told(WEIGHED ",total_tonnes\n" BALES ",100,600,^60\n",
                "the weight is given twice over");
    assert_told(HEAD ",count,total_tonnes,bale_weight_kg\n" BALES ",100,60,^600\n",
                "the weight is given twice over");
    assert_told(HEAD ",total_tonnes,density_kg_per_m3\n" PIT ",300,^600\n",
                "the weight is given twice over");
}

static void a_count_or_a_size_that_is_missing_is_told(void **state) {
    assert_told(WEIGHED "\n" BALES ",^,600\n", "how many bales are in 'A'?");
    assert_told(HEAD ",count,diameter_m,width_m,density_kg_per_m3,density_basis\n" BALES
                     ",50,^,^,180,^\n",
                "diameter_m: is empty", "width_m: is empty", "needed");
    assert_told(HEAD ",width_m,length_m,height_m,density_kg_per_m3,density_basis\n" PIT
                     ",7,^,2.4,620,as fed\n",
                "length_m: is empty, but 'pit'");
}

static void nothing_left_is_read_with_a_doubt(void **state) {
    assert_told(WEIGHED "\n" BALES ",^0,600\n", "doubt: nothing left of 'A'");
    assert_told(HEAD ",total_tonnes\n" BALES ",^0\n", "doubt: nothing left of 'A'");
    assert_told(HEAD ",total_tonnes\n" BALES ",^1e-9\n", "doubt: nothing left of 'A'");
    assert_told(WEIGHED "\n" BALES ",^0.12,600\n", "doubt: 0.12 is read as nothing left");
}

static void amounts_below_nothing_or_in_words_are_a_fault(void **state) {
    assert_told(WEIGHED "\n" BALES ",^-4,^-600\n", "outside", "outside");
    assert_told(WEIGHED "\n" BALES ",^about 40,^1.340\n", "count", "outside 10 to 1500");
    assert_told(HEAD ",total_tonnes\n" BALES ",^150000\n", "outside");
    assert_told(HEAD ",total_tonnes\n" BALES ",^1 500\n", "write 1500");
}

static void a_bale_in_the_other_unit_is_doubted(void **state) {
    assert_told(WEIGHED "\n" BALES ",100,^1340\n", "doubt: is the unit right?");
    assert_told(HEAD ",count,bale_weight_lb\n" BALES ",100,^150\n",
                "doubt: is the unit right?");
    assert_told(WEIGHED "\n" SQUARES ",100,^70\n", "doubt: is the unit right?");
    assert_told(HEAD ",count,total_tonnes\n" BALES ",100,^600\n", "doubt: is the unit right?");
    assert_tells_nothing(WEIGHED "\n" SQUARES ",100,28\n");
}

static void a_density_in_the_other_unit_or_on_the_other_basis_is_a_fault(void **state) {
    const char *const head =
        HEAD ",width_m,length_m,height_m,density_kg_per_m3,density_basis\n" PIT ",7,35,2.4";
    assert_told(arena_print(*state, "%s,^40,as fed\n", head), "is it in the other unit");
    assert_told(arena_print(*state, "%s,^900,dry matter\n", head), "on the other basis?");
    assert_told(arena_print(*state, "%s,^20,as fed\n", head), "outside 30 to 1000");
}

static void bales_of_an_impossible_size_are_a_fault(void **state) {
    assert_told(HEAD ",count,diameter_ft,width_ft,density_lb_per_ft3,density_basis\n" BALES
                     ",50,^18,5,10,as fed\n",
                "write the size of one bale");
    assert_told(HEAD ",count,diameter_m,width_m,density_kg_per_m3,density_basis\n" BALES
                     ",50,^60,1.2,180,as fed\n",
                "outside 0.5 to 40");
}

/* ---- what it is and how it is kept ---- */

static void a_stack_of_more_than_a_herd_eats_is_doubted(void **state) {
    assert_told(WEIGHED "\n^" BALES ",100000,600\n", "doubt: 60000 tonnes in one stack");
}

static void hauling_by_the_load_is_doubted(void **state) {
    assert_told(HEAD ",total_tonnes,haul_per_tonne\n" BALES ",50,^250\n",
                "doubt: by the load?");
}

static void words_that_are_not_known_name_the_nearest(void **state) {
    assert_told(HEAD
                ",total_tonnes\nA,^round bail,^oat greenfed,^net warp rows,^unroled,90,50\n",
                "did you mean 'round bales'?", "did you mean 'oat_greenfeed'?",
                "did you mean 'net wrap rows'?", "did you mean 'unrolled'?");
    assert_told(HEAD ",total_tonnes\nA,^,^,^,^,^,50\n", "needed", "needed", "needed", "needed",
                "needed");
}

static void half_a_feed_or_a_common_word_names_what_it_may_be(void **state) {
    assert_told(HEAD ",total_tonnes\nA,round bale,^straw,^twine,^ring feeder,60,50\n",
                "'oat_straw'", "'twine rows', 'twine stacked' or 'twine on rock'",
                "is it 'open ring' or 'sheeted ring'?");
}

static void the_book_is_listed_once_a_file(void **state) {
    assert_told(HEAD ",total_tonnes\nA,pit,^zork,covered pit,bunk,60,50\n"
                     "B,pit,^zorg,covered pit,bunk,60,50\n",
                "is none of: barley_grain, ", "'zorg' is none of those listed for line 2");
}

static void a_faulty_heading_is_told_once_and_not_for_each_stack(void **state) {
    assert_told(HEAD ",^tons\n" BALES ",40\nB,pit,barley silage,covered pit,bunk,55,300\n",
                "write total_tons");
    assert_told(HEAD ",^number,bale_weight_kg\n" BALES ",40,600\n", "write count");
    assert_told("stack,kind,feed,storage,feeding,^price,total_tonnes\n" BALES ",40\n",
                "write value_per_tonne, value_per_ton or value_per_lb");
}

static void a_total_in_both_units_says_how_to_add_them(void **state) {
    assert_told(HEAD ",total tons,^total tonnes\n" BALES
                     ",40,\nB,pit,barley silage,covered pit,bunk,55,,300\n",
                "write all of it in one; 1 tonne = 1.102 ton");
}

static void a_row_of_an_unknown_kind_and_feed_still_tells_its_other_mistakes(void **state) {
    assert_told(WEIGHED ",use_from,haul_per_tonne\n"
                        "A,^heap,^oats?,shed,unrolled,^90$,^x,^-600,^2027-13-01,^free\n",
                "kind", "feed", "write 90", "count", "outside", "no month 13",
                "haul_per_tonne");
}

static void numbers_of_columns_that_are_not_used_are_read_for_their_mistakes(void **state) {
    assert_told(WEIGHED ",length_m,density_basis\n" BALES ",100,600,^twelve,^frozen\n",
                "is not a number", "is none of: as fed, dry matter");
}

static void own_feed_is_never_free(void **state) {
    assert_told(HEAD ",total_tonnes\nA,bin,barley grain,grain bin,bunk,^0,50\n",
                "0 would make it free");
    assert_told(HEAD ",total_tonnes\nA,bin,barley grain,grain bin,bunk,^,50\n", "needed");
    assert_told(HEAD ",total_tonnes\nA,bin,barley grain,grain bin,bunk,^-5,50\n", "outside");
}

static void a_price_of_a_pound_under_a_tonne_is_doubted(void **state) {
    assert_told(HEAD ",total_tonnes\nA,bin,barley grain,grain bin,bunk,^0.12,50\n",
                "doubt: is the unit right?");
    assert_told(HEAD ",total_tonnes\nA,round bales,oat greenfeed,shed,unrolled,^1100,50\n",
                "doubt: is the unit right?");
}

static void losses_of_nothing_and_losses_as_shares_of_one_are_doubted(void **state) {
    const char *const head =
        HEAD ",total_tonnes,storage_loss_pct,feeding_waste_pct\n" BALES ",50";
    assert_told(arena_print(*state, "%s,^0,^0\n", head), "doubt: nothing lost",
                "doubt: reckon with the table");
    assert_told(arena_print(*state, "%s,^0.08,^0.12\n", head), "doubt: write 8",
                "doubt: write 12");
    assert_told(arena_print(*state, "%s,^80,^-1\n", head), "outside 0 to 60",
                "outside 0 to 60");
    assert_tells_nothing(arena_print(*state, "%s,7,11\n", head));
}

static void own_losses_take_the_place_of_the_tables(void **state) {
    const Stack own = only_stack(
        state, HEAD ",total_tonnes,storage_loss_pct,feeding_waste_pct\n" BALES ",50,10,25\n");
    assert_near(own.loss_share, 0.10, 1e-12);
    assert_near(own.waste_share, 0.25, 1e-12);
    assert_near(stack_as_fed(&own).kg, 45000, 1e-6);
    const Stack table = only_stack(state, HEAD ",total_tonnes\n" BALES ",50\n");
    assert_near(table.waste_share, 0.12, 1e-12); /* feeding-waste.csv, unrolled */
    assert_true(table.loss_share > 0.0 && table.loss_share < 0.06);
}

/* Each stack with one sample of its own of this moisture: the samples stand in the other file.
 */
static const char *told_of_sample(void **state, const char *stack, double moisture) {
    static const char *const HEADING = "stack,basis,moisture_pct";
    Faults faults = faults_new(*state);
    const char *sample = arena_print(*state, "%s\nA,dry matter,%g\n", HEADING, moisture);
    const FeedTests tests =
        feed_tests_parse(*state, &faults, "feed-tests.csv", sample, strlen(sample));
    StockContext context =
        context_of(*state, calendar_day(2026, 11, 1), calendar_day(2027, 5, 15));
    context.tests = &tests;
    const char *bytes = arena_print(*state, HEAD ",total_tonnes\n%s,50\n", stack);
    stacks_parse(*state, &faults, &context, "stacks.csv", bytes, strlen(bytes));
    return unit_faults(&faults, *state);
}

static void a_sample_is_judged_by_how_its_stack_is_kept(void **state) {
    static const char WRAPPED[] = "A,round bales,oat greenfeed,wrapped,unrolled,90";
    static const char PILE[] = "A,loose,barley silage,covered pile,bunk,55";
    static const char BAG[] = "A,bag,barley grain,silage bag,bunk,220";
    assert_string_equal(told_of_sample(state, BALES, 13), "");
    assert_non_null(strstr(told_of_sample(state, BALES, 33), "feed-tests.csv:2:14: doubt"));
    assert_non_null(strstr(told_of_sample(state, BALES, 33), "too wet for hay"));
    assert_string_equal(told_of_sample(state, WRAPPED, 50), "");
    assert_non_null(strstr(told_of_sample(state, WRAPPED, 13), "too dry for wrapped bales"));
    assert_string_equal(told_of_sample(state, PIT, 65), "");
    assert_non_null(strstr(told_of_sample(state, PIT, 45), "too dry for chopped silage"));
    assert_non_null(strstr(told_of_sample(state, PILE, 45), "too dry for chopped silage"));
    assert_non_null(strstr(told_of_sample(state, BIN, 22), "too wet for dry grain"));
    assert_string_equal(told_of_sample(state, BAG, 22), "");
}

static void hay_too_wet_and_silage_too_dry_are_doubted(void **state) {
    assert_told(HEAD
                ",total_tonnes\nA,round bales,cover crop bale silage,^net wrap rows,unrolled,"
                "90,50\n",
                "doubt: do not keep unwrapped");
    assert_told(HEAD ",total_tonnes\nA,^pit,oat greenfeed,covered pit,bunk,55,300\n",
                "doubt: too dry for silage");
    assert_tells_nothing(
        HEAD ",total_tonnes\nA,bale tube,cover crop bale silage,wrapped,bunk,60,50\n"
             "B,round bales,cover crop bale silage,wrapped,bunk,60,50\n"
             "C,bag,barley grain,silage bag,bunk,200,50\n");
}

/* ---- dates ---- */

static void dates_in_an_impossible_order_are_a_fault(void **state) {
    const char *const head =
        HEAD ",total_tonnes,cut_date,counted_date,use_from,use_until\n" BALES;
    assert_told(arena_print(*state, "%s,50,^2026-10-25,2026-10-20,,\n", head),
                "is after counted_date");
    assert_told(arena_print(*state, "%s,50,^2027-07-20,,,\n", head),
                "is after the first feeding day");
    assert_told(arena_print(*state, "%s,50,,^2027-10-20,,\n", head),
                "is after the last feeding day");
    assert_told(arena_print(*state, "%s,50,,,2027-03-01,^2027-02-01\n", head),
                "is before use_from");
}

static void dates_of_another_year_are_doubted(void **state) {
    const char *const head =
        HEAD ",total_tonnes,cut_date,counted_date,use_from,use_until\n" BALES;
    assert_told(arena_print(*state, "%s,50,^2016-07-20,2026-10-20,,\n", head),
                "doubt: 10 years old");
    assert_told(arena_print(*state, "%s,50,,^2025-10-20,,\n", head),
                "doubt: is the year right?");
    assert_told(arena_print(*state, "%s,50,,,,^2026-03-25\n", head),
                "doubt: before the first feeding day");
    assert_told(arena_print(*state, "%s,50,,,^2027-12-05,\n", head),
                "doubt: after the last feeding day");
}

static void a_date_that_cannot_be_read_is_told_once(void **state) {
    const char *const head =
        HEAD ",total_tonnes,cut_date,counted_date,use_from,use_until\n" BALES;
    assert_told(arena_print(*state, "%s,50,2027-01-05,^10/20/2026,^soon,2026-11-05\n", head),
                "write 2026-10-20", "is not a date");
}

static void without_the_winters_days_no_date_is_held_against_them(void **state) {
    told_check(*state, read_stacks_of_unknown_days,
               HEAD
               ",total_tonnes,cut_date,counted_date,use_until\n" BALES
               ",50,2026-07-20,2026-10-20,2027-03-25\nB,pit,barley silage,covered pit,bunk,"
               "55,200,2026-08-01,,2027-02-01\n",
               (const char *const[]){NULL}, __FILE__, __LINE__);
}

/* ---- names and lists ---- */

static void names_differ_by_more_than_case_and_blanks(void **state) {
    assert_told(HEAD ",total_tonnes\n" BALES
                     ",50\n^a ,pit,barley silage,covered pit,bunk,55,50\n",
                "is already on line 2");
    assert_told(HEAD ",total_tonnes\n^,pit,barley silage,covered pit,bunk,55,50\n", "needed");
}

static void names_may_hold_quotes_bars_and_separators(void **state) {
    const Stack stack = only_stack(
        state,
        HEAD ",total_tonnes\n\"Hay \"\"best\"\", east|west\",pit,barley silage,covered pit,"
             "bunk,55,50\n");
    assert_string_equal(stack.name, "Hay \"best\", east|west");
}

static void a_row_whose_name_begins_with_a_hash_is_not_lost_without_a_word(void **state) {
    assert_told(HEAD ",total_tonnes\n" BALES ",50\n~#3 east,pit,barley silage,covered pit,bunk,"
                     "55,50\n# a remark, with a comma\n",
                "doubt: put the name in quotation marks");
    const Stack stack = only_stack(
        state, HEAD ",total_tonnes\n\"#3 east\",pit,barley silage,covered pit,bunk,55,50\n");
    assert_string_equal(stack.name, "#3 east");
}

static void groups_are_a_list_and_a_list_of_nothing_is_a_fault(void **state) {
    const Stack stack =
        only_stack(state, HEAD ",total_tonnes,groups\n" BALES ",50,Cows| bred heifers |\n");
    assert_int_equal(stack.allowance.group_count, 2);
    assert_true(allowance_covers(&stack.allowance, "BRED HEIFERS"));
    assert_false(allowance_covers(&stack.allowance, "Bulls"));
    assert_told(HEAD ",total_tonnes,groups\n" BALES ",50,^|\n", "names no group");
    const Stack all = only_stack(state, HEAD ",total_tonnes,groups\n" BALES ",50,\n");
    assert_true(allowance_covers(&all.allowance, "Bulls"));
}

/* ---- files ---- */

static void empty_files_and_missing_headings_are_told_once(void **state) {
    assert_told("@", "the file is empty");
    assert_tells_nothing(HEAD "\n");
    assert_told("~~stack,kind,feed,storage,total_tonnes\n"
                "A,pit,barley silage,covered pit,50\nB,pit,barley silage,covered pit,50\n",
                "feeding is missing", "value_per_tonne");
}

static void twenty_thousand_stacks_are_refused_at_once(void **state) {
    Text text = text_new(*state);
    text_add(&text, HEAD ",total_tonnes\n");
    for (int i = 0; i < 20000; i++)
        text_print(&text, "A%d,heap,oats,shed,unrolled,90,50\n", i);
    Faults faults = faults_new(*state);
    assert_null(parse(*state, &faults, text.bytes, text.length).stacks);
    assert_int_equal(faults.wrong_count, 1);
    assert_non_null(strstr(faults.first->text, "is it the right file?"));
}

/* ---- faces and yards ---- */

static void a_face_and_a_yard_are_read(void **state) {
    const Stack stack =
        only_stack(state, HEAD
                   ",total_tonnes,haul_to_other_yard_per_tonne,least_face_lb_per_day,yard\n" PIT
                   ",200,6,1000,Home quarter\n");
    assert_true(stack_has_face(&stack));
    assert_near(stack.least_face_kg_per_day, 453.59237, 1e-9);
    assert_near(stack.other_yard_per_kg, 0.006, 1e-12);
    assert_string_equal(stack.yard, "Home quarter");
    const Stack bales = only_stack(state, WEIGHED "\n" BALES ",100,600\n");
    assert_false(stack_has_face(&bales));
    assert_near(bales.least_face_kg_per_day + bales.other_yard_per_kg, 0, 0);
}

static void a_face_that_cannot_be_is_a_fault(void **state) {
    assert_told(HEAD ",total_tonnes,least_face_kg_per_day\n" BALES ",60,^200\n",
                "round bales have no face that spoils");
    assert_told(HEAD ",total_tonnes,least_face_kg_per_day\n" PIT ",60,^61000\n",
                "is more a day than all there is of it");
    assert_told(HEAD ",total_tonnes,least_face_kg_per_day\n" PIT ",60,^-5\n", "outside");
    assert_told(HEAD ",total_tonnes,least_face_kg_per_day\n" PIT ",60,^12000\n",
                "doubt: least_face_kg_per_day: empties it in 5.0 days; is it for a week?");
}

static void a_haul_to_another_yard_wants_the_stacks_own(void **state) {
    assert_told(HEAD ",total_tonnes,haul_to_other_yard_per_tonne\n" PIT ",60,^6\n",
                "doubt: haul_to_other_yard_per_tonne: is not used");
    assert_told(HEAD ",total_tonnes,haul_to_other_yard_per_tonne,yard\n" PIT ",60,^160,Home\n",
                "doubt: haul_to_other_yard_per_tonne: 160 a tonne is more than hauling costs");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_tells_what_is_to_be_watched_for_in_it),
        UNIT_TEST(frost_on_what_is_no_sorghum_is_doubted),
        UNIT_TEST(what_was_ammoniated_or_froze_in_lumps_can_be_written_and_is_checked),
        UNIT_TEST(bales_counted_and_weighed),
        UNIT_TEST(a_total_in_tons_is_two_thousand_pounds_each),
        UNIT_TEST(round_bales_by_size_and_density),
        UNIT_TEST(a_density_of_dry_matter_is_divided_by_the_dry_matter),
        UNIT_TEST(square_bales_by_size_need_the_size_of_one_and_the_count),
        UNIT_TEST(pits_bags_and_bins_by_size),
        UNIT_TEST(a_weight_is_as_sure_as_it_was_found),
        UNIT_TEST(no_way_or_two_ways_to_weigh_is_a_fault),
        UNIT_TEST(a_count_or_a_size_that_is_missing_is_told),
        UNIT_TEST(nothing_left_is_read_with_a_doubt),
        UNIT_TEST(amounts_below_nothing_or_in_words_are_a_fault),
        UNIT_TEST(a_bale_in_the_other_unit_is_doubted),
        UNIT_TEST(a_density_in_the_other_unit_or_on_the_other_basis_is_a_fault),
        UNIT_TEST(bales_of_an_impossible_size_are_a_fault),
        UNIT_TEST(a_stack_of_more_than_a_herd_eats_is_doubted),
        UNIT_TEST(hauling_by_the_load_is_doubted),
        UNIT_TEST(words_that_are_not_known_name_the_nearest),
        UNIT_TEST(half_a_feed_or_a_common_word_names_what_it_may_be),
        UNIT_TEST(the_book_is_listed_once_a_file),
        UNIT_TEST(a_faulty_heading_is_told_once_and_not_for_each_stack),
        UNIT_TEST(a_total_in_both_units_says_how_to_add_them),
        UNIT_TEST(a_row_of_an_unknown_kind_and_feed_still_tells_its_other_mistakes),
        UNIT_TEST(numbers_of_columns_that_are_not_used_are_read_for_their_mistakes),
        UNIT_TEST(own_feed_is_never_free),
        UNIT_TEST(a_price_of_a_pound_under_a_tonne_is_doubted),
        UNIT_TEST(losses_of_nothing_and_losses_as_shares_of_one_are_doubted),
        UNIT_TEST(own_losses_take_the_place_of_the_tables),
        UNIT_TEST(a_sample_is_judged_by_how_its_stack_is_kept),
        UNIT_TEST(hay_too_wet_and_silage_too_dry_are_doubted),
        UNIT_TEST(dates_in_an_impossible_order_are_a_fault),
        UNIT_TEST(dates_of_another_year_are_doubted),
        UNIT_TEST(a_date_that_cannot_be_read_is_told_once),
        UNIT_TEST(without_the_winters_days_no_date_is_held_against_them),
        UNIT_TEST(names_differ_by_more_than_case_and_blanks),
        UNIT_TEST(names_may_hold_quotes_bars_and_separators),
        UNIT_TEST(a_row_whose_name_begins_with_a_hash_is_not_lost_without_a_word),
        UNIT_TEST(groups_are_a_list_and_a_list_of_nothing_is_a_fault),
        UNIT_TEST(empty_files_and_missing_headings_are_told_once),
        UNIT_TEST(twenty_thousand_stacks_are_refused_at_once),
        UNIT_TEST(a_face_and_a_yard_are_read),
        UNIT_TEST(a_face_that_cannot_be_is_a_fault),
        UNIT_TEST(a_haul_to_another_yard_wants_the_stacks_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

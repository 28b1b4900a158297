#include "stock/field.h"
#include "support/own_tables.h"
#include "support/told.h"

static const GrowthCurves *curves_of(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *stages = own_table("growth-stages.csv");
    const EmbeddedFile *kinds = own_table("growth-kinds.csv");
    const GrowthCurves *curves = growth_curves_parse(
        arena, &faults, stages->bytes, stages->length, kinds->bytes, kinds->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    return curves;
}

static Fields parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const FeedTests none = {NULL, NULL, 0};
    const EmbeddedFile *table = own_table("harvest-ways.csv");
    const StockContext stock = {
        own_book(arena),           own_handling(arena),       &none,
        calendar_day(2026, 11, 1), calendar_day(2027, 5, 15), own_densities(arena)};
    const FieldContext context = {
        &stock, curves_of(arena),
        harvest_ways_parse(arena, faults, table->bytes, table->length)};
    return fields_parse(arena, faults, &context, "fields.csv", bytes, length);
}

static void read_fields(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_fields
#define HEAD                                                                                   \
    "field,area_acres,feed,growth,seeded_date,cut_date,way,yield_tonnes_per_acre,yield_basis," \
    "basis,crude_protein_pct,tdn_pct,storage,feeding"
#define HOME "Home,100,cover-crop hay early,mix,2027-05-20,"
#define REST ",net wrap rows,unrolled"

static Fields fields_of(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Fields fields = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    return fields;
}

static double figure(const FieldCut *cut, Nutrient nutrient) {
    return reading_or(cut->tested.mean.of[nutrient], (double)NAN);
}

static void a_row_is_a_day_and_a_way_of_a_field(void **state) {
    const Fields fields = fields_of(
        state, HEAD "\n" HOME "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST "\n"
                    "Home,,cover-crop bale silage,mix,2027-05-20,2027-07-19,bale silage,,,,,,"
                    "wrapped,bunk\n");
    assert_int_equal(fields.field_count, 1);
    assert_int_equal(fields.cut_count, 2);
    assert_near(fields.fields[0].hectares, 40.468564224, 1e-9);
    assert_near(fields.cuts[0].yield_kg_per_hectare, 1400.0 / 0.40468564224, 1e-6);
    assert_string_equal(fields.cuts[0].name, "Home, 2027-07-19, hay");
    /* The same day standing is the same crop, whatever it is put up as. */
    assert_near(fields.cuts[1].yield_kg_per_hectare, fields.cuts[0].yield_kg_per_hectare, 1e-9);
    assert_near(figure(&fields.cuts[1], NUTRIENT_CRUDE_PROTEIN), 15.0, 0.0);
    assert_near(figure(&fields.cuts[1], NUTRIENT_TDN), 62.0, 0.0);
}

static void one_own_record_draws_the_curve_through_it(void **state) {
    const Fields fields =
        fields_of(state, HEAD "\n" HOME "2027-08-08,hay,2.0,dry matter,dry matter,12,61" REST
                              "\n"                       /* day 80 */
                  HOME "2027-07-17,hay,,,,," REST "\n"); /* day 58 */
    const FieldCut *early = &fields.cuts[1];
    assert_int_equal(early->yield_origin, GROWN_BY_CURVE);
    /* At heading 0.58 of soft dough, and 4.5 protein and 3 TDN above it (growth-stages.csv). */
    assert_near(early->yield_kg_per_hectare, 0.58 * 2000.0 / 0.40468564224, 1e-6);
    assert_near(figure(early, NUTRIENT_CRUDE_PROTEIN), 12.0 + 4.5, 1e-9);
    assert_near(figure(early, NUTRIENT_TDN), 61.0 + 3.0, 1e-9);
    assert_false(early->has_own_test);
}

static void two_own_records_are_kept_and_the_curve_only_joins_them(void **state) {
    const Fields fields =
        fields_of(state, HEAD "\n" HOME "2027-07-17,hay,1.0,dry matter,dry matter,20,70" REST
                              "\n"                                               /* 58 */
                  HOME "2027-08-08,hay,2.0,dry matter,dry matter,8,55" REST "\n" /* 80 */
                  HOME "2027-07-28,hay,,,,," REST "\n");                         /* 69 */
    assert_near(fields.cuts[0].yield_kg_per_hectare, 1000.0 / 0.40468564224, 1e-9);
    assert_near(fields.cuts[1].yield_kg_per_hectare, 2000.0 / 0.40468564224, 1e-9);
    const FieldCut *between = &fields.cuts[2];
    /* Half way: protein is off by +4 and -3.5, so +0.25 of the curve's 13.25; TDN by +5 and -7.
     */
    assert_near(figure(between, NUTRIENT_CRUDE_PROTEIN), 13.25 + 0.25, 1e-9);
    assert_near(figure(between, NUTRIENT_TDN), 63.0 + 1.0 / 6.0 - 1.0, 1e-9);
}

static void without_a_test_the_curve_tells_and_the_book_the_rest(void **state) {
    const Fields fields =
        fields_of(state, HEAD "\n" HOME "2027-07-17,hay,1.2,dry matter,,," REST "\n");
    const FieldCut *cut = &fields.cuts[0];
    assert_near(figure(cut, NUTRIENT_CRUDE_PROTEIN), 16.0, 0.0);
    assert_near(figure(cut, NUTRIENT_NDF), 52.0, 0.0);
    assert_near(figure(cut, NUTRIENT_TDN), 65.0, 0.0);
    assert_near(cut->yield_spread_share, 0.25, 0.0);
    const Stack stack = field_cut_stack(cut, &fields.fields[0], growing_year_expected(),
                                        calendar_day(2027, 2, 1));
    assert_near(stack.feed.nitrate_for_safety, 0.0, 0.0); /* and the page says so */
    /* The book's calcium of the kind. */
    assert_near(stack.feed.analysis.of[NUTRIENT_CALCIUM].value,
                book_find(own_book(*state), "cover_crop_hay_early")
                    ->analysis.of[NUTRIENT_CALCIUM]
                    .value,
                0.0);
}

/* Of a stack it is 0.30 % until it is tested. */
static void sulfur_that_no_row_expects_is_the_books_and_holds_no_crop_back(void **state) {
    const Fields fields = fields_of(
        state, HEAD "\n" HOME "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST "\n");
    const Day middle = calendar_day(2027, 2, 1);
    const Stack stack =
        field_cut_stack(&fields.cuts[0], &fields.fields[0], growing_year_expected(), middle);
    assert_near(stack.feed.analysis.of[NUTRIENT_SULFUR].value, 0.28, 1e-12);
    assert_false(stack.feed.sulfur_is_assumed);
}

static void yields_as_fed_and_in_other_units_come_out_the_same(void **state) {
    const double expected = 2000.0 * 0.85 / 0.40468564224;
    const Fields fed =
        fields_of(state, HEAD "\n" HOME "2027-08-08,hay,2.0,as fed,dry matter,12,61" REST "\n");
    assert_near(fed.cuts[0].yield_kg_per_hectare, expected, 1e-6); /* hay at 85 % */
    const Fields tons = fields_of(
        state, "field,area_hectares,feed,cut_date,way,yield_tons_per_acre,yield_basis,storage,"
               "feeding\n"
               "Home,10,brome hay,2027-07-10,hay,1,dry matter,net wrap rows,unrolled\n");
    assert_near(tons.cuts[0].yield_kg_per_hectare, 907.18474 / 0.40468564224, 1e-6);
}

/* 100 acres, 1.4 t standing, a fifth left in the field, a third of cuts rained on for 8 %. */
static void what_comes_home_is_what_stands_less_the_losses_of_the_way_and_rain(void **state) {
    const Fields fields =
        fields_of(state, HEAD
                  ",rain_chance_pct,seed_per_acre,cutting_per_acre,putting_up_per_tonne\n" HOME
                  "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST ",50,40,20,15\n");
    const FieldCut *cut = &fields.cuts[0];
    const double acre = 0.40468564224;
    const GrowingYear dry = {.rain = 0.0};
    const GrowingYear wet = {.rain = 1.0};
    assert_near(field_cut_put_up(cut, dry) * acre, 1400.0 * 0.8 / 0.85, 1e-6);
    assert_near(field_cut_put_up(cut, wet) * acre, 1400.0 * 0.8 * 0.92 / 0.85, 1e-6);
    assert_near(field_cut_put_up(cut, growing_year_expected()) * acre,
                1400.0 * 0.8 * 0.96 / 0.85, 1e-6);
    assert_near(field_cut_cost(cut, dry) * acre, 60.0 + 1.4 * 0.8 / 0.85 * 15.0, 1e-9);
    const Stack rained = field_cut_stack(cut, &fields.fields[0], wet, calendar_day(2027, 2, 1));
    assert_near(rained.feed.analysis.of[NUTRIENT_TDN].value, 62.0 - 4.0, 1e-9);
}

static void custom_rates_by_the_bale_are_by_its_weight(void **state) {
    const Fields fields = fields_of(
        state, HEAD ",bale_weight_kg,baling_per_bale,hauling_per_bale\n" HOME
                    "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST ",600,15,6\n");
    assert_near(fields.cuts[0].cost_per_kg, 21.0 / 600.0, 1e-12);
}

static void faults_stand_at_their_cells(void **state) {
    assert_told(HEAD "\n" HOME "2027-07-19,hay,^,,,," REST "\n",
                "no other date of the field has one");
    assert_told(HEAD "\n" HOME "2027-07-19,hay,1.4,^,dry matter,15,62" REST "\n",
                "yield_basis: is empty");
    assert_told(HEAD "\n" HOME "2027-07-19,hay,1.4,dry matter,^,15,62" REST "\n",
                "basis: is empty beside an expected test");
    assert_told(HEAD "\n" HOME "2027-07-19,^swath,1.4,dry matter,dry matter,15,62" REST "\n",
                "'swath' is none of: hay, bale silage");
    assert_told(HEAD "\n" HOME "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST "\n"
                     "Home,^90,cover-crop hay early,mix,2027-05-20,2027-08-08,hay,,,,," REST
                     "\n",
                "a field has one area");
    assert_told(HEAD "\n" HOME "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST "\n^" HOME
                     "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST "\n",
                "the same field, date and way are on line 2");
    assert_told(HEAD "\nHome,100,cover-crop hay early,mix,^2027-08-20,2027-07-19,hay,1.4,dry "
                     "matter,dry matter,15,62" REST "\n",
                "is not before cut_date");
    assert_told(HEAD ",bale_weight_kg,baling_per_bale\n" HOME
                     "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST ",^,15\n",
                "bale_weight: is empty");
    assert_told(HEAD "\n" HOME "2027-08-08,hay,2,dry matter,dry matter,12,61" REST "\n" HOME
                     "^2027-10-20,hay,,,,," REST "\n",
                "doubt: cut_date: 153 days after seeding lies outside the mix curve");
}

static void a_year_or_a_worth_that_looks_wrong_is_a_doubt(void **state) {
    assert_told(HEAD "\nHome,100,cover-crop hay early,mix,2029-05-20,^2029-07-19,hay,1.4,dry "
                     "matter,dry matter,15,62" REST "\n",
                "doubt: cut_date: 2029-07-19 is more than a year from");
    assert_told(HEAD ",field_loss_pct\n" HOME
                     "2027-08-08,hay,2.0,dry matter,dry matter,12,61" REST ",0\n" HOME
                     "2027-07-17,hay,,,,," REST ",^\n",
                "doubt: field_loss: 20% is taken off a yield drawn through that of line 2");
    assert_told(HEAD ",value_per_tonne\n" HOME
                     "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST ",^6000\n",
                "outside");
    assert_told(HEAD ",value_per_tonne\n" HOME
                     "2027-07-19,hay,1.4,dry matter,dry matter,15,62" REST ",^900\n",
                "doubt: value_per_tonne: 900.00 a tonne (816.47 a ton)");
}

static void the_curve_is_straight_between_stages_and_level_beyond(void **state) {
    const GrowthCurves *curves = curves_of(*state);
    const GrowthCurve *barley = &curves->curves[0];
    assert_string_equal(barley->name, "barley");
    assert_near(growth_at(barley, GROWN_YIELD, 55.0), 0.49, 1e-12);
    assert_near(growth_at(barley, GROWN_PROTEIN, 10.0), 21.0, 0.0);
    assert_near(growth_at(barley, GROWN_TDN, 300.0), 58.0, 0.0);
    assert_string_equal(growth_stage_name(barley, 81.0), "soft dough");
    assert_false(growth_covers(barley, 44.0));
    /* The published anchors it is laid through. */
    const double boot = growth_at(barley, GROWN_YIELD, 52.0);
    assert_true(boot >= 0.38 && boot <= 0.42); /* [UMN_SMALL_GRAIN] */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_row_is_a_day_and_a_way_of_a_field),
        UNIT_TEST(one_own_record_draws_the_curve_through_it),
        UNIT_TEST(two_own_records_are_kept_and_the_curve_only_joins_them),
        UNIT_TEST(without_a_test_the_curve_tells_and_the_book_the_rest),
        UNIT_TEST(sulfur_that_no_row_expects_is_the_books_and_holds_no_crop_back),
        UNIT_TEST(yields_as_fed_and_in_other_units_come_out_the_same),
        UNIT_TEST(what_comes_home_is_what_stands_less_the_losses_of_the_way_and_rain),
        UNIT_TEST(custom_rates_by_the_bale_are_by_its_weight),
        UNIT_TEST(faults_stand_at_their_cells),
        UNIT_TEST(a_year_or_a_worth_that_looks_wrong_is_a_doubt),
        UNIT_TEST(the_curve_is_straight_between_stages_and_level_beyond),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Sheets of winters worked by hand. A kg eaten of the feeds of support/hand_question.h takes
 * 1 / 0.81 kg of the stack. */
#include "outcome/feed_sheets.h"

#include "support/told_report.h"
#include "support/unit.h"

static const Report *sheets_of(Arena *arena, HandQuestion *hand, Units units) {
    for (int g = 0; g < HAND_MOST; g++)
        hand->groups[g].yard = "";
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *plan = plan_winter(arena, &hand->question);
    const PlanFindings findings = plan_findings(arena, plan, units);
    return feed_sheets(arena, &findings);
}

static bool has_table(const ReportSection *section, const char *key) {
    for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_TABLE && strcmp(piece->table->key, key) == 0)
            return true;
    }
    return false;
}

static const ReportTable *table_of(const ReportSection *section, const char *key) {
    static const Cell NO_CELLS[8];
    static ReportRow NO_ROW = {.cells = NO_CELLS};
    static const ReportColumn NO_COLUMNS[8];
    static const ReportTable NONE = {.first = &NO_ROW, .last = &NO_ROW, .columns = NO_COLUMNS};
    for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_TABLE && strcmp(piece->table->key, key) == 0)
            return piece->table;
    }
    fail_msg("no table is named %s", key);
    return &NONE;
}

static int rows_of(const ReportTable *table) {
    int rows = 0;
    for (const ReportRow *row = table->first; row; row = row->next)
        rows++;
    return rows;
}

/* For sale, so that no file of stacks is asked for; no more than so much of it. */
static PlanFeed *some(HandQuestion *hand, const char *name, double price, double most_kg) {
    PlanFeed *feed = hand_offer(hand, name, price);
    feed->available_kg = most_kg;
    return feed;
}

static HandQuestion *ten_cows_on_hay(Arena *arena) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Hay", 0.1)->bale_kg = 500.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    return hand;
}

/* 12 Mcal of 1.2 a kg are 10 kg of dry matter a head: 12.346 as fed and put out, 123.46 for ten
 * cows, 0.2469 of a bale of 500 kg a day and 1.728 a week. */
static void a_sheet_loads_what_the_ration_puts_out(void **state) {
    const Report *sheets = sheets_of(*state, ten_cows_on_hay(*state), UNITS_METRIC);
    assert_string_equal(sheets->first->heading, "Cows: 1 Nov to 30 Nov 2026");
    assert_null(sheets->first->next);
    const ReportTable *load = table_of(sheets->first, "load");
    const Cell *hay = load->first->cells;
    assert_string_equal(hay[0].text, "Hay");
    assert_near(hay[1].number, 123.0, 1e-9);
    assert_near(hay[2].number, 123.0, 1e-9);
    assert_near(hay[3].number, 0.2469, 1e-4);
    assert_near(hay[4].number, 1.7284, 1e-4);
    assert_near(hay[5].number, 12.346, 1e-3);
    assert_true(load->last->is_total);
}

/* 123.457 kg are 272.18 lb. */
static void the_scale_may_read_in_pounds(void **state) {
    const Report *sheets = sheets_of(*state, ten_cows_on_hay(*state), UNITS_MIXED);
    const ReportTable *load = table_of(sheets->first, "load");
    assert_string_equal(load->columns[1].unit, "lb");
    assert_near(load->first->cells[1].number, 272.0, 1e-9);
}

/* One cow on 10 kg of hay without magnesium, which is to be 0.1 % of the diet: x kg of a
 * mineral of 54 % with 54 x = 0.1 (10 + x) is 0.01855 kg of dry matter, and 22.9 g put out. It
 * was 0.0 kg on the scale, and not on the sheet. */
static void a_handful_for_one_cow_is_on_her_sheet_in_grams(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Hay", 0.1);
    PlanFeed *mineral = hand_offer(hand, "Magnesium oxide", 1.0);
    hand->stuffs[1].feed_class = FEED_CLASS_MINERAL;
    mineral->degraded = mineral->undegraded = 0.0;
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        mineral->eaten[n] = n == NUTRIENT_MAGNESIUM ? 54.0 : 0.0;
    hand_nutrient_limit(hand, "magnesium", NUTRIENT_MAGNESIUM, 0.1, 0.1)->side = SIDE_LEAST;
    hand_group(hand, "House cow", 1, 12.0, 30);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    const ReportTable *load = table_of(sheets->first, "load");
    const ReportRow *second = load->first->next;
    assert_false(second->is_total);
    if (second->is_total)
        return;
    const Cell *row = second->cells;
    assert_string_equal(row[0].text, "Magnesium oxide (g)");
    assert_near(row[1].number, 23.0, 1e-9);
    assert_int_equal(row[2].kind, CELL_EMPTY); /* the scale does not show it */
    assert_near(load->last->cells[1].number, 12.0, 1e-9);
    assert_near(row[5].number, 22.9, 0.05);
}

/* Hay and silage are not enough; barley is the rest. */
static void the_scale_adds_up_what_stands_above_it(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2000.0);
    some(hand, "Silage", 0.1, 9000.0)->dry_share = 0.4;
    hand_offer(hand, "Barley", 0.3);
    hand->stuffs[2].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    const ReportTable *load = table_of(sheets->first, "load");
    double scale = 0.0;
    for (const ReportRow *row = load->first; row && !row->is_total; row = row->next) {
        scale += row->cells[1].number;
        assert_near(row->cells[2].number, scale, 1e-9);
    }
    assert_near(load->last->cells[1].number, scale, 1e-9);
}

/* Long dry feed, then grain, silage on top. */
static void silage_is_loaded_last(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Silage", 0.1, 3000.0)->dry_share = 0.4;
    some(hand, "Hay", 0.1, 2000.0);
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    const ReportTable *load = table_of(sheets->first, "load");
    assert_string_equal(load->first->cells[0].text, "Hay");
    assert_string_equal(load->first->next->cells[0].text, "Silage");
}

static void a_way_of_feeding_says_what_to_do_with_the_load(void **state) {
    static const struct {
        Delivery delivery;
        const char *caption;
    } WAYS[] = {{DELIVERY_MIXED, "Load in this order, for all 10, a day"},
                {DELIVERY_LAYERED, "Put out in this order, for all 10, a day"},
                {DELIVERY_FREE_CHOICE, "Put before them, and no more, for all 10, a day"}};
    for (size_t i = 0; i < sizeof WAYS / sizeof *WAYS; i++) {
        HandQuestion *hand = ten_cows_on_hay(*state);
        hand->groups[0].delivery = WAYS[i].delivery;
        const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
        assert_string_equal(table_of(sheets->first, "load")->caption, WAYS[i].caption);
    }
}

static void waste_is_in_the_amounts_and_said(void **state) {
    const Report *sheets = sheets_of(*state, ten_cows_on_hay(*state), UNITS_METRIC);
    assert_true(report_says(sheets, "The amounts allow for waste: 10 % of Hay."));
}

/* Half hay and half greenfeed of 0.8 % NO3, which is above what needs no care. */
static void a_feed_high_in_nitrate_is_the_caution_that_stands_there(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2000.0);
    some(hand, "Greenfeed", 0.01, 2000.0)->eaten[NUTRIENT_NITRATE] = 0.8;
    hand_group(hand, "Cows", 10, 12.0, 30);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    assert_true(report_says(sheets, "Greenfeed carries nitrate, 0.80 % NO3. Where such feed"));
    assert_false(has_table(sheets->first, "step_up")); /* no line of nitrate is watched here */
}

/* Cattle that are fed free choice are not told to have it fully mixed. */
static void a_sheet_of_unmixed_feed_does_not_ask_for_the_mixer(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2000.0);
    some(hand, "Greenfeed", 0.01, 2000.0)->eaten[NUTRIENT_NITRATE] = 0.4;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->groups[0].delivery = DELIVERY_FREE_CHOICE;
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    assert_true(report_says(sheets, "Greenfeed carries nitrate, 0.40 % NO3. Fill them on the "
                                    "other feed first"));
    assert_false(report_says(sheets, "fully mixed"));
}

/* With the line watched it comes in by quarters, four days each, and in full on the 13th day:
 * four rows, not thirteen. */
static void days_that_load_the_same_are_one_row(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2600.0);
    some(hand, "Greenfeed", 0.01, 1200.0)->eaten[NUTRIENT_NITRATE] = 0.8;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    const ReportTable *steps = table_of(sheets->first, "step_up");
    assert_int_equal(rows_of(steps), 4);
    assert_string_equal(steps->first->cells[0].text, "1 Nov to 4 Nov");
    assert_string_equal(steps->last->cells[0].text, "13 Nov");
}

/* Torn bales to be fed by 10 November, and too high in nitrate for any cattle: they lie there
 * still when the second sheet is printed. */
static void a_feed_kept_for_safety_is_still_forbidden_after_its_dates(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_own(hand, "Torn bales", 0.01, 2000.0)->eaten[NUTRIENT_NITRATE] = 2.0;
    hand_offer(hand, "Hay", 0.1);
    hand_group(hand, "Cows", 10, 12.0, 10);
    hand_period(hand, 12.0, 20);
    SafetyLimit *limit = hand_nitrate_limit(hand, 0.5);
    limit->kind = LIMIT_EACH_FEED;
    hand_bar(hand, 0, 0, limit);
    hand_not_then(hand, 1, 0);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    int said = 0;
    for (const ReportSection *sheet = sheets->first; sheet; sheet = sheet->next)
        for (const ReportPiece *piece = sheet->first; piece; piece = piece->next)
            said += piece->kind == PIECE_REMARK &&
                    strstr(piece->text, "Never to this group, for its safety: Torn bales.");
    assert_int_equal(said, 2);
}

static bool says(const ReportSection *sheet, const char *words) {
    for (const ReportPiece *piece = sheet->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_REMARK && strstr(piece->text, words))
            return true;
    }
    return false;
}

/* Put up on 20 September: 56 days are over on 15 November, and "never" would be wrong. */
static void a_feed_that_has_to_wait_is_told_with_its_day(void **state) {
    HandQuestion *hand = hand_november(*state);
    PlanFeed *silage = hand_own(hand, "Silage", 0.01, 2000.0);
    hand_offer(hand, "Hay", 0.1);
    hand_group(hand, "Cows", 10, 12.0, 14);
    hand_period(hand, 12.0, 16);
    silage->put_up = calendar_day(2026, 9, 20);
    hand->stuffs[0].feed_class = FEED_CLASS_SORGHUM;
    hand->stuffs[0].watch = WATCH_BIT(WATCH_FROSTED);
    const SafetyLimit *limit = hand_feeds_limit(hand, "cyanide_frosted", LIMIT_DAYS_KEPT,
                                                "frosted_sorghum", 56.0, 56.0);
    hand_bar(hand, 0, 0, limit);
    hand_not_then(hand, 1, 0); /* so that no file of stacks is asked for */
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    assert_true(says(sheets->first, "Not before 15 Nov, for its safety: Silage."));
    assert_false(says(sheets->first, "Never"));
    assert_false(says(sheets->first->next, "Silage"));
}

/* The one caution of a sheet was that of nitrate, whatever else was in the load. */
static void what_of_a_load_can_poison_is_on_its_sheet(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Sudan hay", 0.01)->eaten[NUTRIENT_PRUSSIC_ACID_DRY] = 650.0;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(hand, "cyanide_dry", NUTRIENT_PRUSSIC_ACID_DRY, 500.0, 1000.0)->kind =
        LIMIT_EACH_FEED;
    const char *acid = "Sudan hay can hold prussic acid: on fast breathing";
    const char *horses = "Sudan hay kills horses (ionophore)";
    assert_true(says(sheets_of(*state, hand, UNITS_METRIC)->first, acid));
    assert_false(says(sheets_of(*state, hand, UNITS_METRIC)->first, horses));
    hand->feeds[0].eaten[NUTRIENT_PRUSSIC_ACID_DRY] = 450.0;
    hand->stuffs[0].watch = WATCH_BIT(WATCH_IONOPHORE);
    assert_false(says(sheets_of(*state, hand, UNITS_METRIC)->first, acid));
    assert_true(says(sheets_of(*state, hand, UNITS_METRIC)->first, horses));
}

/* Bought for one group, it lies in the yard where the other is fed too. */
static void what_was_bought_for_others_is_forbidden_where_it_is_kept_out(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Meal", 0.05);
    hand_offer(hand, "Hay", 0.1);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_group(hand, "Calves", 10, 12.0, 30);
    SafetyLimit *limit = hand_feeds_limit(hand, "no_meal", LIMIT_SHARE, "meal", 0.0, 0.0);
    limit->stages = STAGE_BIT(STAGE_CALF);
    hand->stuffs[0].feed_class = FEED_CLASS_MEAL;
    hand->blocks[1].need.stages = STAGE_BIT(STAGE_CALF);
    hand_bar(hand, 1, 0, limit);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    const char *words = "Never to this group, for its safety: Meal.";
    assert_false(says(sheets->first, words));
    assert_true(says(sheets->first->next, words));
}

/* 4 kg of grain a head are 8.8 lb of dry matter. */
static void grain_of_a_caution_is_in_the_units_of_the_scale(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2222.2);
    hand_offer(hand, "Barley", 0.3);
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_feeds_limit(hand, "Grain a head and day; cows", LIMIT_WEIGHT_SHARE, "grain", 0.003,
                     0.01);
    const Report *sheets = sheets_of(*state, hand, UNITS_IMPERIAL);
    assert_true(report_says(
        sheets, "Grain a head and day: 8.8 lb of dry matter eaten here. Bring grain "
                "up by 1 lb (0.5 kg) a head every second day and never by more"));
}

static void there_are_lines_to_write_on(void **state) {
    const Report *sheets = sheets_of(*state, ten_cows_on_hay(*state), UNITS_METRIC);
    const ReportTable *record = table_of(sheets->first, "record");
    assert_non_null(record->first);
    for (int column = 0; column < record->column_count; column++)
        assert_int_equal(record->first->cells[column].kind, CELL_EMPTY);
}

/* A sheet of two pages is half lost in a tractor: four rows of a schedule, and what stands
 * above them, leave fewer lines than a sheet without has. */
static void a_schedule_takes_the_place_of_lines_to_write_on(void **state) {
    HandQuestion *hand = hand_november(*state);
    some(hand, "Hay", 0.1, 2600.0);
    some(hand, "Greenfeed", 0.01, 1200.0)->eaten[NUTRIENT_NITRATE] = 0.8;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_nitrate_limit(hand, 0.5);
    const Report *with = sheets_of(*state, hand, UNITS_METRIC);
    const Report *without = sheets_of(*state, ten_cows_on_hay(*state), UNITS_METRIC);
    assert_true(has_table(with->first, "step_up"));
    const int lines_with = rows_of(table_of(with->first, "record"));
    const int lines_without = rows_of(table_of(without->first, "record"));
    assert_true(lines_with >= 2);
    assert_true(lines_without >= lines_with + 4);
    assert_true(lines_without <= 14);
}

/* Either kills, and one stood in the place of the other. */
static void straw_high_in_nitrate_near_calving_is_warned_of_for_both(void **state) {
    HandQuestion *hand = hand_november(*state);
    hand_offer(hand, "Straw", 0.05)->eaten[NUTRIENT_NITRATE] = 0.40;
    hand->stuffs[0].feed_class = FEED_CLASS_STRAW;
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand_feeds_limit(hand, "share", LIMIT_SHARE, "straw", 0.20, 0.20)->stages =
        STAGE_BIT(STAGE_OPEN) | STAGE_BIT(STAGE_LATE);
    const Report *sheets = sheets_of(*state, hand, UNITS_METRIC);
    assert_true(report_says(sheets, "Straw carries nitrate, 0.40 % NO3."));
    assert_true(report_says(sheets, "More straw than is safe for long. It keeps them from"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_sheet_loads_what_the_ration_puts_out),
        UNIT_TEST(the_scale_may_read_in_pounds),
        UNIT_TEST(a_handful_for_one_cow_is_on_her_sheet_in_grams),
        UNIT_TEST(the_scale_adds_up_what_stands_above_it),
        UNIT_TEST(silage_is_loaded_last),
        UNIT_TEST(a_way_of_feeding_says_what_to_do_with_the_load),
        UNIT_TEST(waste_is_in_the_amounts_and_said),
        UNIT_TEST(a_feed_high_in_nitrate_is_the_caution_that_stands_there),
        UNIT_TEST(a_sheet_of_unmixed_feed_does_not_ask_for_the_mixer),
        UNIT_TEST(days_that_load_the_same_are_one_row),
        UNIT_TEST(a_feed_kept_for_safety_is_still_forbidden_after_its_dates),
        UNIT_TEST(a_feed_that_has_to_wait_is_told_with_its_day),
        UNIT_TEST(what_of_a_load_can_poison_is_on_its_sheet),
        UNIT_TEST(what_was_bought_for_others_is_forbidden_where_it_is_kept_out),
        UNIT_TEST(grain_of_a_caution_is_in_the_units_of_the_scale),
        UNIT_TEST(there_are_lines_to_write_on),
        UNIT_TEST(a_schedule_takes_the_place_of_lines_to_write_on),
        UNIT_TEST(straw_high_in_nitrate_near_calving_is_warned_of_for_both),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

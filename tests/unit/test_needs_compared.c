/* The equations and the published table side by side, as they are shown. The needs are plain
 * numbers of the test's own, so that every difference can be worked by hand. */
#include "outcome/needs_compared.h"
#include "present/present.h"
#include "support/hand_question.h"
#include "support/unit.h"

#include <string.h>

enum { ENERGY_CELL = 1, PROTEIN_CELL = 4, CALCIUM_CELL = 7, PHOSPHORUS_CELL = 10 };

/* Of cows: 12 Mcal of which 1 for cold beside 10.8, 400 g protein beside 440, 20 g calcium
 * beside 25, 15 g phosphorus beside 24. */
static PlanBlock *add_period(HandQuestion *hand, bool is_first) {
    PlanBlock *block =
        is_first ? hand_group(hand, "Cows", 10, 0.0, 15) : hand_period(hand, 0.0, 15);
    block->by_equations = (Requirement){.energy = {.maintenance = 11.0, .cold = 1.0},
                                        .protein = {.maintenance = 400.0},
                                        .calcium = {20.0},
                                        .phosphorus = {15.0}};
    block->by_table = (TableNeed){.is_printed = true,
                                  .nem = {10.8},
                                  .equations_nem = {12.0},
                                  .protein = {440.0},
                                  .calcium = {25.0},
                                  .phosphorus = {24.0},
                                  .calcium_share = 1.0,
                                  .phosphorus_share = 1.0};
    return block;
}

static PlanBlock *cows(Arena *arena, HandQuestion **hand) {
    *hand = hand_question(arena, 30);
    return add_period(*hand, true);
}

static const Report *compared(Arena *arena, const HandQuestion *hand) {
    Report *report = report_new(arena, "needs");
    report_section(report, "needs", "Needs");
    needs_compared_add(report, &hand->question, UNITS_METRIC, 0, hand->question.block_count);
    return report;
}

static const Cell *first_row(const Report *report) {
    for (const ReportPiece *piece = report->first->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_TABLE)
            return piece->table->first->cells;
    }
    fail_msg("%s", "there is no table");
    static const Cell NOTHING[1 + 3 * 4];
    return NOTHING;
}

/* All that is said beside the table. */
static const char *words(Arena *arena, const Report *report) {
    Text text = text_new(arena);
    for (const ReportPiece *piece = report->first->first; piece; piece = piece->next) {
        if (piece->kind == PIECE_PARAGRAPH)
            text_print(&text, "%s\n", piece->text);
    }
    return text.bytes;
}

static void assert_three(const Cell *cells, double equations, double table, double percent) {
    assert_near(cells[0].number, equations, 1e-9);
    assert_near(cells[1].number, table, 1e-9);
    assert_near(cells[2].number, percent, 1e-9);
}

/* 10.8 / 12 is 10 % less, 440 / 400 10 % more, 25 / 20 25 % more, 24 / 15 60 % more. */
static void all_four_needs_stand_beside_the_table_in_a_row(void **state) {
    HandQuestion *hand;
    cows(*state, &hand);
    const Cell *cells = first_row(compared(*state, hand));
    assert_string_equal(cells[0].text, "1 Nov");
    assert_three(&cells[ENERGY_CELL], 12.0, 10.8, -10.0);
    assert_three(&cells[PROTEIN_CELL], 400.0, 440.0, 10.0);
    assert_three(&cells[CALCIUM_CELL], 20.0, 25.0, 25.0);
    assert_three(&cells[PHOSPHORUS_CELL], 15.0, 24.0, 60.0);
}

static void the_table_fits_a_page_of_80_columns_in_one_piece(void **state) {
    for (int units = UNITS_METRIC; units <= UNITS_IMPERIAL; units++) {
        HandQuestion *hand;
        PlanBlock *block = cows(*state, &hand);
        block->by_table.nem.mcal_per_day = block->by_table.equations_nem.mcal_per_day = 28.8;
        block->by_table.protein.g_per_day = 1234.0; /* "1,234": as wide as a cow's can be */
        Report *report = report_new(*state, "needs");
        report_section(report, "needs", "Needs");
        needs_compared_add(report, &hand->question, (Units)units, 0, 1);
        Text text = text_new(*state);
        present_text(report, (TextStyle){.width = 80}, &text);
        assert_null(strstr(text.bytes, "(continued)"));
        assert_non_null(strstr(text.bytes, "1 Nov"));
    }
}

static void what_differs_most_is_said_with_its_day_and_why(void **state) {
    HandQuestion *hand;
    cows(*state, &hand);
    assert_string_equal(words(*state, compared(*state, hand)),
                        "Furthest apart: phosphorus from 1 Nov, 60 % more by the table, "
                        "whose shares of the diet hold a margin for winter.\n");
}

/* In the second period the table's phosphorus is three times the equations'. */
static void the_worst_of_all_periods_is_the_one_that_is_said(void **state) {
    HandQuestion *hand;
    cows(*state, &hand);
    add_period(hand, false)->by_table.phosphorus.g_per_day = 45.0;
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "phosphorus from 16 Nov, 200 % more by the table"));
}

/* 4 of 12 Mcal are for cold, and the table says 6 less: cold is most of it. */
static void
energy_below_the_equations_is_put_down_to_cold_where_that_is_most_of_it(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_table.phosphorus.g_per_day = 15.0;
    block->by_equations.energy = (EnergyParts){.maintenance = 8.0, .cold = 4.0};
    block->by_table.nem.mcal_per_day = 6.0;
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "NEm from 1 Nov, 50 % less by the table: the equations add 4.0 Mcal "
                           "for cold, and the table nothing."));
    block->by_equations.energy = (EnergyParts){.maintenance = 11.0, .cold = 1.0};
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "NEm from 1 Nov, 50 % less by the table.\n"));
    block->by_equations.energy =
        (EnergyParts){.maintenance = 8.5, .cold = 1.0, .condition = 2.5};
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "the equations add 3.5 Mcal for cold and condition, and the table "
                           "nothing."));
}

static void of_growing_cattle_the_table_is_said_not_to_know_the_gain(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_equations.gain.kg_per_day = 0.7;
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "60 % more by the table, which is printed for no one weight or "
                           "gain.\n"));
}

/* Bred heifers have the line of cows: its margin is what is above, their gain what is below. */
static void of_bred_heifers_what_is_known_of_cows_goes_before_their_gain(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_equations.gain.kg_per_day = 0.3;
    block->by_equations.days_pregnant = 200.0;
    assert_non_null(strstr(words(*state, compared(*state, hand)), "a margin for winter.\n"));
    block->by_table.phosphorus.g_per_day = 3.0;
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "80 % less by the table, which is printed for no one weight or "
                           "gain.\n"));
}

/* Only the margin of dry cows is known of calcium [docs/equations/disagreements.md]. */
static void no_reason_is_given_where_none_is_known(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_equations.stages = STAGE_BIT(STAGE_NURSING);
    block->by_table.calcium.g_per_day = 60.0;
    assert_non_null(strstr(words(*state, compared(*state, hand)),
                           "calcium from 1 Nov, 200 % more by the table.\n"));
}

static void a_mineral_the_table_does_not_print_is_left_empty_and_that_is_said(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_table.phosphorus_share = 0.0;
    const Report *report = compared(*state, hand);
    const Cell *cells = first_row(report);
    assert_near(cells[PHOSPHORUS_CELL].number, 15.0, 1e-9);
    assert_int_equal(cells[PHOSPHORUS_CELL + 1].kind, CELL_EMPTY);
    assert_int_equal(cells[PHOSPHORUS_CELL + 2].kind, CELL_EMPTY);
    assert_non_null(strstr(words(*state, report),
                           "For days of which the table prints no calcium "
                           "or phosphorus the equations stand"));
    assert_non_null(strstr(words(*state, report), "Furthest apart: calcium from 1 Nov"));
}

static void cattle_the_table_has_no_line_for_are_told_so(void **state) {
    HandQuestion *hand;
    PlanBlock *block = cows(*state, &hand);
    block->by_table = (TableNeed){.is_printed = false};
    hand->groups[0].cattle_class = CATTLE_STEER;
    assert_string_equal(
        words(*state, compared(*state, hand)),
        "The published table has no line for a steer: nothing stands beside the "
        "equations, which are followed whichever way is chosen.\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(all_four_needs_stand_beside_the_table_in_a_row),
        UNIT_TEST(the_table_fits_a_page_of_80_columns_in_one_piece),
        UNIT_TEST(what_differs_most_is_said_with_its_day_and_why),
        UNIT_TEST(the_worst_of_all_periods_is_the_one_that_is_said),
        UNIT_TEST(energy_below_the_equations_is_put_down_to_cold_where_that_is_most_of_it),
        UNIT_TEST(of_growing_cattle_the_table_is_said_not_to_know_the_gain),
        UNIT_TEST(of_bred_heifers_what_is_known_of_cows_goes_before_their_gain),
        UNIT_TEST(no_reason_is_given_where_none_is_known),
        UNIT_TEST(a_mineral_the_table_does_not_print_is_left_empty_and_that_is_said),
        UNIT_TEST(cattle_the_table_has_no_line_for_are_told_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

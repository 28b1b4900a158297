/* What is said of cold in every period. The winters are those of support/hand_question.h. */
#include "support/told_report.h"
#include "support/unit.h"

/* 10 kg of hay for 12 Mcal. The cold takes a kg more to the 15th of November and `then_mcal` /
 * 1.2 kg from there on. */
static const Report *told(Arena *arena, double then_mcal) {
    static const Stack LOOSE = {.loss_is_users = true, .waste_is_users = true};
    HandQuestion *hand = hand_november(arena);
    hand->farm.inventory.stacks.stacks = &LOOSE;
    hand->farm.weather.month[11].cold_spell = (Temperature){-30.0};
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 15)->need.cold_spell_energy = 1.2;
    hand_period(hand, 12.0, 15)->need.cold_spell_energy = then_mcal;
    return hand_report(arena, hand);
}

static const ReportTable *table_of(const Report *report, const char *key) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind == PIECE_TABLE && strcmp(piece->table->key, key) == 0)
                return piece->table;
        }
    }
    return NULL;
}

static void a_period_whose_change_is_another_has_a_row(void **state) {
    const ReportTable *table = table_of(told(*state, 2.4), "cold_periods");
    assert_non_null(table);
    if (!table)
        return;
    assert_int_equal(table->column_count, 5);
    assert_ptr_equal(table->first, table->last); /* the other is told above */
    assert_string_equal(table->first->cells[0].text, "1 Nov to 15 Nov");
    assert_near(table->first->cells[2].number, 1.2, 1e-9);
    assert_near(table->first->cells[4].number, 1.0 / 0.81, 1e-5);
}

/* A kg eaten by 100 head on ten days, as it is on the 15th: 1000 / 0.81 kg. */
static void what_ten_days_take_of_each_stack_is_told_by_month(void **state) {
    const ReportTable *table = table_of(told(*state, 2.4), "cold_months");
    assert_non_null(table);
    if (!table)
        return;
    assert_int_equal(table->column_count, 2);
    assert_string_equal(table->columns[1].label, "Nov");
    assert_string_equal(table->first->cells[0].text, "Hay");
    assert_near(table->first->cells[1].number, 1.0 / 0.81, 1e-4);
}

static void periods_alike_are_told_once(void **state) {
    const Report *report = told(*state, 1.3);
    assert_null(table_of(report, "cold_periods"));
    assert_null(table_of(report, "cold_months"));
    assert_true(report_says(report, "Cows, from 16 Nov, at -30 C (1.3 Mcal a day more)"));
}

/* A quarter of a kilogram of hay covers the cold, before the 16th the old, from then on the
 * new: near enough to be told once, were the new hay in the yard before. */
static void nothing_is_added_that_is_not_in_the_yard_then(void **state) {
    static const Stack LOOSE[2] = {{.loss_is_users = true, .waste_is_users = true},
                                   {.loss_is_users = true, .waste_is_users = true}};
    HandQuestion *hand = hand_november(*state);
    hand->farm.inventory.stacks.stacks = LOOSE;
    hand->farm.weather.month[11].cold_spell = (Temperature){-30.0};
    hand_own(hand, "Old hay", 0.10, 100000);
    hand_own(hand, "New hay", 0.05, 100000);
    hand_group(hand, "Cows", 100, 12.0, 15)->need.cold_spell_energy = 0.3;
    hand_period(hand, 12.0, 15)->need.cold_spell_energy = 0.33;
    hand_not_then(hand, 0, 1);
    const ReportTable *table = table_of(hand_report(*state, hand), "cold_periods");
    assert_non_null(table);
    if (!table)
        return;
    assert_string_equal(table->first->cells[0].text, "1 Nov to 15 Nov");
    assert_ptr_equal(table->first, table->last);
    assert_string_equal(table->columns[4].label, "Old hay");
    assert_near(table->first->cells[4].number, 0.25 / 0.81, 1e-5);
}

/* No cold in the first half: nothing to hold the second against, and no row. */
static void a_period_without_a_cold_spell_is_alike_to_none(void **state) {
    static const Stack LOOSE = {.loss_is_users = true, .waste_is_users = true};
    HandQuestion *hand = hand_november(*state);
    hand->farm.inventory.stacks.stacks = &LOOSE;
    hand->farm.weather.month[11].cold_spell = (Temperature){-30.0};
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 10)->need.cold_spell_energy = 0.0;
    hand_period(hand, 12.0, 10)->need.cold_spell_energy = 2.4;
    hand_period(hand, 12.0, 10)->need.cold_spell_energy = 1.2;
    const ReportTable *table = table_of(hand_report(*state, hand), "cold_periods");
    assert_non_null(table);
    if (!table)
        return;
    assert_ptr_equal(table->first, table->last);
    assert_string_equal(table->first->cells[0].text, "21 Nov to 30 Nov");
}

static void cold_by_period_is_told_once(void **state) {
    const Report *report = told(*state, 12.0);
    int times = 0;
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next)
            times +=
                piece->kind == PIECE_TABLE && strcmp(piece->table->key, "cold_periods") == 0;
    }
    assert_int_equal(times, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_period_whose_change_is_another_has_a_row),
        UNIT_TEST(what_ten_days_take_of_each_stack_is_told_by_month),
        UNIT_TEST(a_period_without_a_cold_spell_is_alike_to_none),
        UNIT_TEST(periods_alike_are_told_once),
        UNIT_TEST(nothing_is_added_that_is_not_in_the_yard_then),
        UNIT_TEST(cold_by_period_is_told_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* What is shown of needs. The winters are those of support/hand_question.h. */
#include "outcome/needs_report.h"
#include "support/hand_question.h"
#include "support/unit.h"

#include <string.h>

/* -10 C that feel like -20 with the wind. */
static HandQuestion *windy_november(Arena *arena, ColdWay way) {
    HandQuestion *hand = hand_question(arena, 30);
    PlanBlock *block = hand_group(hand, "Cows", 10, 12.0, 30);
    block->need.air.celsius = -10.0;
    block->need.felt.celsius = way == COLD_BY_MODEL ? -10.0 : -20.0;
    hand->farm.weather.cold_way = way;
    return hand;
}

/* The row of the table of needs; NULL when it has none of that label. */
static const Cell *row_of(Arena *arena, const HandQuestion *hand, const char *label) {
    const Report *report = needs_report(arena, &hand->question, UNITS_METRIC);
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->kind != PIECE_TABLE || strcmp(piece->table->key, "needs") != 0)
                continue;
            for (const ReportRow *row = piece->table->first; row; row = row->next) {
                if (strcmp(row->cells[0].text, label) == 0)
                    return row->cells;
            }
        }
    }
    return NULL;
}

static void by_the_coat_table_the_cold_felt_with_wind_has_a_row(void **state) {
    const Cell *row =
        row_of(*state, windy_november(*state, COLD_BY_TABLE), "Felt, with wind, C");
    assert_non_null(row);
    if (row)
        assert_near(row[1].number, -20.0, 1e-9);
}

/* It reckons with the wind itself: a row of what is felt would say the air again. */
static void by_the_heat_balance_no_cold_felt_with_wind_is_shown(void **state) {
    const HandQuestion *hand = windy_november(*state, COLD_BY_MODEL);
    assert_null(row_of(*state, hand, "Felt, with wind, C"));
    assert_non_null(row_of(*state, hand, "Air, C"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(by_the_coat_table_the_cold_felt_with_wind_has_a_row),
        UNIT_TEST(by_the_heat_balance_no_cold_felt_with_wind_is_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

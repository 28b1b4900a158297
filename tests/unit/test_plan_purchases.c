/* The table of what to buy. The winters are those of support/hand_question.h. */
#include "base/text.h"
#include "support/told_report.h"
#include "support/unit.h"

/* Ten cows for 30 days on bought hay without calcium, and so many g of it wanted a head and
 * day, which a mineral of 10 % brings: 10 g of dry matter for each, 10 / 0.81 as it is bought.
 */
static HandQuestion *wanting_calcium(Arena *arena, double grams) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Hay", 0.10);
    PlanFeed *mineral = hand_offer(hand, "Mineral", 1.0);
    hand->stuffs[1].feed_class = FEED_CLASS_MINERAL;
    for (int n = 0; n < NUTRIENT_COUNT; n++)
        mineral->eaten[n] = 0.0;
    mineral->degraded = mineral->undegraded = 0.0;
    mineral->eaten[NUTRIENT_CALCIUM] = 10.0;
    hand_group(hand, "Cows", 10, 12.0, 30)->need.calcium.g_per_day = grams;
    return hand;
}

static const ReportTable *purchases_of(const Report *report) {
    for (const ReportSection *section = report->first; section; section = section->next) {
        for (const ReportPiece *piece = section->first; piece; piece = piece->next) {
            if (piece->table && text_same(piece->table->key, "purchases"))
                return piece->table;
        }
    }
    return NULL;
}

/* 0.081 g are 0.81 g of it, 1 g bought: 300 g for 300 days of a head, 10.6 oz. */
static void a_handful_of_mineral_is_not_bought_as_0_000_t(void **state) {
    const ReportTable *table =
        purchases_of(hand_report(*state, wanting_calcium(*state, 0.081)));
    assert_non_null(table);
    assert_string_equal(table->first->next->cells[0].text, "Mineral (g)");
    assert_near(table->first->next->cells[1].number, 300.0, 0.5);
    assert_int_equal(table->first->next->cells[1].decimals, 0);
}

/* A hundred times that is 30 kg. */
static void a_bag_of_mineral_is_bought_in_tonnes(void **state) {
    const ReportTable *table = purchases_of(hand_report(*state, wanting_calcium(*state, 8.1)));
    assert_non_null(table);
    assert_string_equal(table->first->next->cells[0].text, "Mineral");
    assert_near(table->first->next->cells[1].number, 0.030, 1e-4);
    assert_int_equal(table->first->next->cells[1].decimals, 3);
}

/* 0.3 g in all. */
static void what_no_scale_shows_is_not_bought(void **state) {
    const ReportTable *table =
        purchases_of(hand_report(*state, wanting_calcium(*state, 0.000081)));
    assert_non_null(table);
    assert_string_equal(table->first->cells[0].text, "Hay");
    assert_string_equal(table->first->next->cells[0].text, "Total");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_handful_of_mineral_is_not_bought_as_0_000_t),
        UNIT_TEST(a_bag_of_mineral_is_bought_in_tonnes),
        UNIT_TEST(what_no_scale_shows_is_not_bought),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

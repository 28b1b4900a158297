/* Rules inside one small program, by hand and beside GLPK's branch and bound on drawn ones. */
#include "base/quantity.h"
#include "planner/small_choice.h"
#include "support/farm_maker.h"
#include "support/unit.h"

enum { MOST_FEEDS = 6, MOST_ROWS = 4 };

typedef struct {
    SmallProgram program;
    const double *row[MOST_ROWS];
    double term[MOST_ROWS * MOST_FEEDS], row_least[MOST_ROWS], row_most[MOST_ROWS];
    double least[MOST_FEEDS], most[MOST_FEEDS], cost[MOST_FEEDS];
    int column[MOST_FEEDS];
    double kg[MOST_FEEDS], bale[MOST_FEEDS];
    SmallRule rule;
} Ration;

static void ration_of(Ration *ration, int rows, int feeds) {
    *ration = (Ration){.program = {.rows = rows,
                                   .columns = feeds,
                                   .term = ration->row,
                                   .row_least = ration->row_least,
                                   .row_most = ration->row_most,
                                   .least = ration->least,
                                   .most = ration->most}};
    for (int i = 0; i < rows; i++) {
        ration->row_least[i] = -NO_LIMIT;
        ration->row_most[i] = NO_LIMIT;
        ration->row[i] = &ration->term[i * feeds];
    }
    for (int f = 0; f < feeds; f++) {
        ration->most[f] = NO_LIMIT;
        ration->column[f] = f;
        ration->kg[f] = 1.0;
    }
    ration->rule = (SmallRule){feeds, ration->column, ration->kg, ration->bale, 0, 0.0, 5000};
}

static SmallChoice chosen(Arena *arena, Ration *ration, SmallChooser **chooser) {
    unsigned char *row = ARENA_ARRAY(arena, unsigned char, ration->program.rows);
    unsigned char *column = ARENA_ARRAY(arena, unsigned char, ration->program.columns);
    SmallBasis basis = {row, column, false, NULL};
    small_basis_reset(&ration->program, &basis);
    *chooser = small_chooser(arena, MOST_ROWS, MOST_FEEDS);
    return small_choose(*chooser, &ration->program, ration->cost, &basis, &ration->rule);
}

/* 13.2 Mcal of at most 12 kg: poor hay of 1.0 at 5 cents, good of 1.5 at 10. Free: 9.6 and 2.4.
 */
static void two_hays(Ration *ration) {
    ration_of(ration, 2, 2);
    ration->term[0] = 1.0;
    ration->term[1] = 1.5;
    ration->term[2] = ration->term[3] = 1.0;
    ration->row_least[0] = 13.2;
    ration->row_most[1] = 12.0;
    ration->cost[0] = 0.05;
    ration->cost[1] = 0.10;
}

static void without_a_rule_it_is_the_program_itself(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_int_equal(choice.status, LP_OPTIMAL);
    assert_near(choice.cost, 9.6 * 0.05 + 2.4 * 0.10, 1e-9);
    assert_near(choice.bound, choice.cost, 1e-9);
}

/* The poor hay alone has 12 Mcal in 12 kg; of the good one 8.8 kg do. */
static void one_feed_is_the_one_that_can_do_alone(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    ration.rule.most = 1;
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_int_equal(choice.status, LP_OPTIMAL);
    assert_near(choice.cost, 0.88, 1e-9);
    assert_near(small_chosen(chooser)[0], 0.0, 1e-9);
}

/* 0.7 + 0.45 Mcal a kg: 11.478 kg at 6.5 cents are cheaper than the good hay alone. */
static void a_feed_is_in_by_its_least_share_or_out(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    ration.rule.least_share = 0.30;
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_near(choice.cost, 13.2 / 1.15 * 0.065, 1e-9);
    ration.rule.least_share = 0.50; /* half and half: 1.25 Mcal a kg at 7.5 cents */
    assert_near(chosen(*state, &ration, &chooser).cost, 13.2 / 1.25 * 0.075, 1e-9);
}

/* Bales of 5 kg of the good hay: one, and 5.7 kg of the poor. */
static void bales_come_out_whole(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    ration.bale[1] = 5.0;
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_near(choice.cost, 0.50 + 5.7 * 0.05, 1e-9);
    assert_near(small_chosen(chooser)[1], 5.0, 1e-12);
}

/* What is lacking of the energy costs $1 a Mcal: with no more than 8 kg of the good hay, 12 kg
 * of the poor lack as much, 1.2 Mcal, and cost less. */
static void a_column_of_what_a_row_lacks_stays_beside_the_rule(void **state) {
    Ration ration;
    SmallChooser *chooser;
    int lacking_row[1] = {0};
    double lacking_term[1] = {1.0};
    two_hays(&ration);
    ration.most[1] = 8.0;
    ration.program.columns = 3;
    ration.program.singles = 1;
    ration.program.single_row = lacking_row;
    ration.program.single_term = lacking_term;
    ration.most[2] = NO_LIMIT;
    ration.cost[2] = 1.0;
    ration.rule.most = 1;
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_int_equal(choice.status, LP_OPTIMAL);
    assert_near(choice.cost, 12.0 * 0.05 + 1.2, 1e-9);
    assert_near(small_chosen(chooser)[2], 1.2, 1e-9);
}

static void that_nothing_keeps_the_rule_is_proved(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    ration.rule.most = 1;
    ration.most[1] = 8.0;
    assert_int_equal(chosen(*state, &ration, &chooser).status, LP_INFEASIBLE);
}

static void a_tree_cut_short_still_says_what_nothing_undercuts(void **state) {
    Ration ration;
    SmallChooser *chooser;
    two_hays(&ration);
    ration.rule.most = 1;
    ration.rule.most_nodes = 1;
    const SmallChoice choice = chosen(*state, &ration, &chooser);
    assert_int_equal(choice.status, LP_FAILED);
    assert_near(choice.bound, 0.72, 1e-9);
}

/* ---- beside GLPK ---- */

static void drawn_ration(Draws *draws, Ration *ration) {
    const int feeds = draw_whole(draws, 3, MOST_FEEDS);
    ration_of(ration, MOST_ROWS, feeds);
    for (int f = 0; f < feeds; f++) {
        for (int i = 0; i < 3; i++)
            ration->term[i * feeds + f] = draw_between(draws, 0.2, 2.0, 2);
        ration->term[3 * feeds + f] = 1.0;
        ration->cost[f] = draw_between(draws, 0.02, 0.3, 3);
        ration->most[f] = draw_chance(draws, 0.2) ? draw_between(draws, 1.0, 6.0, 1) : 30.0;
        ration->bale[f] = draw_chance(draws, 0.3) ? draw_between(draws, 0.5, 3.0, 2) : 0.0;
    }
    for (int i = 0; i < 3; i++)
        ration->row_least[i] = draw_between(draws, 4.0, 12.0, 1);
    ration->row_most[3] = draw_between(draws, 9.0, 16.0, 1);
    ration->rule.most = draw_chance(draws, 0.7) ? draw_whole(draws, 1, 3) : 0;
    ration->rule.least_share =
        draw_chance(draws, 0.5) ? draw_between(draws, 0.05, 0.3, 2) : 0.0;
}

/* x <= 30 z; x >= s D - 30 s (1 - z); x = bale times a whole number. */
static LpWhole by_glpk(Arena *arena, const Ration *ration) {
    const int feeds = ration->program.columns;
    LinearProgram *lp = lp_new(arena);
    for (int f = 0; f < feeds; f++)
        lp_add_column(lp, ration->cost[f], 0.0, ration->most[f]);
    for (int i = 0; i < MOST_ROWS; i++) {
        lp_add_row(lp, ration->row_least[i], ration->row_most[i]);
        for (int f = 0; f < feeds; f++)
            lp_add_term(lp, i, f, ration->term[i * feeds + f]);
    }
    const int few =
        lp_add_row(lp, -NO_LIMIT, ration->rule.most > 0 ? ration->rule.most : (double)feeds);
    for (int f = 0; f < feeds; f++) {
        const int in = lp_add_column(lp, 0.0, 0.0, 1.0);
        lp_set_whole(lp, in, true);
        lp_add_term(lp, few, in, 1.0);
        const int use = lp_add_row(lp, -NO_LIMIT, 0.0);
        lp_add_term(lp, use, f, 1.0);
        lp_add_term(lp, use, in, -30.0);
        const double share = ration->rule.least_share;
        const int least = lp_add_row(lp, -NO_LIMIT, 30.0 * share);
        for (int g = 0; g < feeds; g++)
            lp_add_term(lp, least, g, share - (g == f ? 1.0 : 0.0));
        lp_add_term(lp, least, in, 30.0 * share);
        if (ration->bale[f] <= 0.0)
            continue;
        const int bales = lp_add_column(lp, 0.0, 0.0, 100.0);
        lp_set_whole(lp, bales, true);
        const int baled = lp_add_row(lp, 0.0, 0.0);
        lp_add_term(lp, baled, f, 1.0);
        lp_add_term(lp, baled, bales, -ration->bale[f]);
    }
    const LpEffort effort = {20000, 200000, 0.0};
    return lp_solve_whole(lp, arena, NULL, NULL, effort);
}

enum { DRAWN = 400 };

static void on_drawn_rations_it_costs_what_glpk_finds(void **state) {
    (void)state;
    Draws draws = draws_new(77);
    int found = 0;
    for (int i = 0; i < DRAWN; i++) {
        Arena *arena = arena_open();
        Ration ration;
        SmallChooser *chooser;
        drawn_ration(&draws, &ration);
        const SmallChoice choice = chosen(arena, &ration, &chooser);
        const LpWhole whole = by_glpk(arena, &ration);
        assert_int_equal(choice.status == LP_OPTIMAL, whole.status == LP_OPTIMAL);
        if (choice.status == LP_OPTIMAL) {
            found++;
            assert_near(choice.cost, whole.cost, 2e-5 * whole.cost);
            assert_true(choice.bound <= whole.cost * (1.0 + 1e-6));
            assert_true(choice.bound >= choice.cost * (1.0 - 2e-5));
        }
        arena_close(arena);
    }
    assert_true(found > DRAWN / 4 && found < DRAWN);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(without_a_rule_it_is_the_program_itself),
        UNIT_TEST(one_feed_is_the_one_that_can_do_alone),
        UNIT_TEST(a_feed_is_in_by_its_least_share_or_out),
        UNIT_TEST(bales_come_out_whole),
        UNIT_TEST(a_column_of_what_a_row_lacks_stays_beside_the_rule),
        UNIT_TEST(that_nothing_keeps_the_rule_is_proved),
        UNIT_TEST(a_tree_cut_short_still_says_what_nothing_undercuts),
        UNIT_TEST(on_drawn_rations_it_costs_what_glpk_finds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* A nutritionist's own figures: read, placed, and put in the place of the equations. */
#include "cattle/own_need.h"
#include "support/own_tables.h"
#include "support/told.h"

#define HERD                                                                                   \
    "group,class,head,weight_kg,mature_weight_kg,calving_start,calving_end,gain_kg_per_day\n"  \
    "Cows,cow,40,600,,2027-03-20,2027-05-10,\nHeifers,replacement heifer,10,300,620,,,0.6\n"
#define HEAD "group,need,from,until,value,unit\n"

typedef struct {
    Herd herd;
    const MineralNeeds *minerals;
    Day first_day, last_day;
} Ground;

static Ground ground_of(Arena *arena) {
    Faults faults = faults_new(arena);
    Ground ground = {.first_day = calendar_day(2026, 11, 1),
                     .last_day = calendar_day(2027, 5, 15)};
    const EmbeddedFile *file = own_table("mineral-needs.csv");
    ground.minerals =
        mineral_needs_parse(arena, &faults, file->name, file->bytes, file->length);
    ground.herd = herd_parse(arena, &faults, ground.first_day, ground.last_day, "herd.csv",
                             HERD, strlen(HERD));
    assert_string_equal(unit_faults(&faults, arena), "");
    return ground;
}

static OwnNeeds parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const Ground ground = ground_of(arena);
    return own_needs_parse(arena, faults, &ground.herd, ground.minerals, ground.first_day,
                           ground.last_day, "needs.csv", bytes, length);
}

static void read_needs(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_needs

static OwnNeeds read_plain(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const OwnNeeds needs = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    return needs;
}

static void a_figure_is_read_in_its_units_and_dates(void **state) {
    const OwnNeeds needs =
        read_plain(state, HEAD "cows,metabolizable_protein,2027-01-01,,1.5,lb\n"
                               "Heifers,dry_matter_most,,2026-12-31,20,lb/day\n"
                               "Cows,vitamin_a,,,1000,IU/lb\nCows,copper,,,15,ppm\n");
    assert_int_equal(needs.count, 4);
    assert_near(needs.needs[0].value, 1.5 * 453.59237, 1e-9);
    assert_true(needs.needs[0].has_from && !needs.needs[0].has_until);
    assert_int_equal(needs.needs[1].group, 1);
    assert_near(needs.needs[1].value, 20 * KG_PER_POUND, 1e-9);
    assert_near(needs.needs[2].value, 1000 / KG_PER_POUND, 1e-9);
    assert_int_equal(needs.needs[3].nutrient, NUTRIENT_COPPER);
}

static void what_is_not_known_is_told_where_it_stands(void **state) {
    assert_told(HEAD "^Cow,calcium,,,30,g\n", "no group named 'Cow'");
    assert_told(HEAD "Cows,^calcum,,,30,g\n", "did you mean 'calcium'");
    assert_told(HEAD "Cows,^crude_protein,,,9,pct\n", "crude_protein");
    assert_told(HEAD "^,^,,,30,g\n", "group: the cell is empty", "need: the cell is empty");
}

static void a_unit_of_another_kind_is_a_fault(void **state) {
    assert_told(HEAD "Cows,calcium,,,30,^Mcal\n", "is not that of calcium, g");
    assert_told(HEAD "Cows,copper,,,15,^pct\n", "is not that of copper, ppm");
    assert_told(HEAD "Cows,calcium,,,30,^\n", "needed");
}

static void a_figure_no_animal_needs_is_a_fault(void **state) {
    assert_told(HEAD "Cows,net_energy_maintenance,,,^140,Mcal\n", "outside 2 to 50 Mcal");
    assert_told(HEAD "Cows,copper,,,^1500,ppm\n", "outside 0 to 200 ppm"); /* 20 times 10 */
    assert_told(HEAD "Cows,^net_energy_gain,,,3,Mcal\n", "a cow is not grown");
}

/* 0.077 x 576^0.75 is 9.05 Mcal for the cow of 600 kg; heifers are 300 kg. */
static void a_figure_that_such_an_animal_cannot_have_is_doubted(void **state) {
    (void)state;
    assert_told(HEAD "Cows,net_energy_maintenance,,,^6,Mcal\n",
                "doubt: value: the upkeep of this weight alone is about 9.1 Mcal");
    assert_told(HEAD "Heifers,dry_matter_least,,,^40,lb\n",
                "doubt: value: 6.0 % of the live weight in dry matter");
    assert_told(HEAD "Cows,dry_matter_most,,,^5,kg\n",
                "doubt: value: 0.8 % of the live weight");
}

/* The weight is a fault of the herd file; needs.csv is read all the same. */
static void a_figure_for_a_group_whose_weight_is_a_fault_is_read(void **state) {
    static const char NO_WEIGHT[] = "group,class,head,weight_kg\nCows,cow,60,heavy\n";
    Faults faults = faults_new(*state);
    Ground ground = ground_of(*state);
    ground.herd = herd_parse(*state, &faults, ground.first_day, ground.last_day, "herd.csv",
                             NO_WEIGHT, strlen(NO_WEIGHT));
    assert_true(faults.wrong_count > 0);
    const char *const bytes = HEAD "Cows,net_energy_maintenance,,,6,Mcal\n";
    const OwnNeeds needs =
        own_needs_parse(*state, &faults, &ground.herd, ground.minerals, ground.first_day,
                        ground.last_day, "needs.csv", bytes, strlen(bytes));
    assert_int_equal(needs.count, 1);
}

static void a_figure_that_such_an_animal_can_have_is_not_doubted(void **state) {
    read_plain(state, HEAD "Cows,net_energy_maintenance,,,8.5,Mcal\n"
                           "Cows,dry_matter_least,,,0,kg\nHeifers,dry_matter_most,,,9,kg\n");
}

static void dates_that_cannot_be_are_faults_and_those_of_another_year_doubts(void **state) {
    assert_told(HEAD "Cows,calcium,2027-02-01,^2027-01-01,30,g\n", "is before from");
    assert_told(HEAD "Cows,calcium,^soon,,30,g\n", "soon");
    assert_told(HEAD "Cows,calcium,^2028-01-01,,30,g\n", "doubt: none of these days is fed");
}

static void the_same_need_twice_for_one_day_is_a_fault(void **state) {
    assert_told(HEAD "Cows,calcium,,2027-01-31,30,g\nCows,^calcium,2027-01-31,,40,g\n",
                "on line 2");
    assert_tells_nothing(HEAD "Cows,calcium,,2027-01-31,30,g\nCows,calcium,2027-02-01,,40,g\n"
                              "Heifers,calcium,,,25,g\n");
}

static void to_be_full_may_not_take_more_than_they_can_eat(void **state) {
    assert_told(HEAD "Cows,dry_matter_most,,,12,kg\nCows,dry_matter_least,,,^13,kg\n",
                "dry_matter_most is below dry_matter_least");
}

/* ---- applied ---- */

static Requirement need_of_equations(void) {
    Requirement need = {.shrunk = {576.0}};
    need.energy.maintenance = 9.0;
    need.energy.cold = 1.0;
    need.protein.maintenance = 500.0;
    need.calcium.g_per_day = 20.0;
    need.most = intake_law(INTAKE_OPEN_COW, (FeedRate){0.0}, 1.0);
    return need;
}

static Requirement applied(void **state, const char *bytes, Day from, Day to) {
    const OwnNeeds needs = read_plain(state, bytes);
    Requirement need = need_of_equations();
    own_needs_apply(&needs, 0, from, to, &need);
    return need;
}

static void a_figure_wins_over_the_equations(void **state) {
    const Requirement need = applied(state,
                                     HEAD "Cows,net_energy_maintenance,,,13,Mcal\n"
                                          "Cows,metabolizable_protein,,,700,g\n"
                                          "Cows,dry_matter_most,,,11,kg\n"
                                          "Heifers,calcium,,,90,g\n",
                                     calendar_day(2027, 1, 1), calendar_day(2027, 1, 31));
    assert_near(requirement_nem(&need).mcal_per_day, 13.0, 1e-9);
    assert_near(requirement_protein(&need).g_per_day, 700.0, 1e-9);
    for (int n = 0; n < 3; n++)
        assert_near(
            intake_at(need.most, need.shrunk, (EnergyDensity){1.0 + 0.2 * n}).kg_per_day, 11.0,
            1e-9);
    assert_near(need.calcium.g_per_day, 20.0, 0.0); /* another group's figure */
    assert_true((need.own_kinds & NEED_BIT(NEED_NEM)) &&
                (need.own_kinds & NEED_BIT(NEED_PROTEIN)));
    assert_false(need.own_kinds & NEED_BIT(NEED_CALCIUM));
}

static void each_figure_holds_in_the_periods_of_its_own_days(void **state) {
    const char *figures = HEAD "Cows,calcium,,2027-04-10,30,g\n"
                               "Cows,calcium,2027-04-26,,50,g\n";
    const Requirement first =
        applied(state, figures, calendar_day(2027, 4, 1), calendar_day(2027, 4, 10));
    const Requirement between =
        applied(state, figures, calendar_day(2027, 4, 11), calendar_day(2027, 4, 25));
    const Requirement last =
        applied(state, figures, calendar_day(2027, 4, 26), calendar_day(2027, 4, 30));
    assert_near(first.calcium.g_per_day, 30.0, 0.0);
    assert_near(between.calcium.g_per_day, 20.0, 0.0); /* the equations */
    assert_near(last.calcium.g_per_day, 50.0, 0.0);
}

static void outside_its_days_a_figure_changes_nothing(void **state) {
    const Requirement need = applied(state, HEAD "Cows,calcium,,2027-03-31,30,g\n",
                                     calendar_day(2027, 4, 1), calendar_day(2027, 4, 30));
    assert_near(need.calcium.g_per_day, 20.0, 0.0);
    assert_int_equal(need.own_kinds, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_figure_is_read_in_its_units_and_dates),
        UNIT_TEST(what_is_not_known_is_told_where_it_stands),
        UNIT_TEST(a_unit_of_another_kind_is_a_fault),
        UNIT_TEST(a_figure_no_animal_needs_is_a_fault),
        UNIT_TEST(a_figure_that_such_an_animal_cannot_have_is_doubted),
        UNIT_TEST(a_figure_for_a_group_whose_weight_is_a_fault_is_read),
        UNIT_TEST(a_figure_that_such_an_animal_can_have_is_not_doubted),
        UNIT_TEST(dates_that_cannot_be_are_faults_and_those_of_another_year_doubts),
        UNIT_TEST(the_same_need_twice_for_one_day_is_a_fault),
        UNIT_TEST(to_be_full_may_not_take_more_than_they_can_eat),
        UNIT_TEST(a_figure_wins_over_the_equations),
        UNIT_TEST(each_figure_holds_in_the_periods_of_its_own_days),
        UNIT_TEST(outside_its_days_a_figure_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* The published table in the place of the equations. */
#include "cattle/requirement_table.h"
#include "support/own_tables.h"
#include "support/told.h"

static void read_table(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    requirement_table_parse(arena, faults, "requirement-table.csv", bytes, length);
}

#define TOLD_READER read_table
#define HEAD "animal,nutrient,value,unit,how_known,source\n"

static const RequirementTable *own(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = own_table("requirement-table.csv");
    const RequirementTable *table =
        requirement_table_parse(arena, &faults, file->name, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    return table;
}

/* As printed: 55, 60, 65 % TDN and 7, 9, 11 % protein [CANADIAN_CATTLEMEN_WINTER]. */
static void the_own_table_holds_what_is_printed(void **state) {
    const RequirementTable *table = own(*state);
    for (int row = TABLE_MID_PREGNANCY; row <= TABLE_NURSING; row++) {
        assert_near(table->pct[row][TABLE_TDN], 55 + 5 * row, 1e-9);
        assert_near(table->pct[row][TABLE_CRUDE_PROTEIN], 7 + 2 * row, 1e-9);
    }
    assert_near(table->pct[TABLE_LATE_PREGNANCY][TABLE_CALCIUM], 0.0, 0.0);
    assert_int_equal(table->source[TABLE_NURSING][TABLE_CALCIUM], SOURCE_MB_STRETCHING);
}

static void a_line_that_is_not_known_or_missing_is_a_fault(void **state) {
    assert_told(HEAD "^late,tdn,60,pct,page,MB_STRETCHING\n", "late pregnancy");
    assert_told(HEAD "nursing,tdn,60,^ppm,page,MB_STRETCHING\n", "pct");
    assert_told(HEAD "nursing,tdn,^,pct,page,MB_STRETCHING\n", "needed");
}

static Requirement said_of(CattleClass cattle_class, double days_to_calving) {
    static MineralNeeds no_minerals;
    Weather weather = {.normals_station = ""};
    for (int month = 1; month <= 12; month++)
        weather.month[month] = (MonthWeather){.mean = {-15.0}, .cold_spell = {-30.0}};
    const Day day = calendar_day(2027, 1, 15);
    HerdGroup group = {
        .cattle_class = cattle_class,
        .head = 1,
        .weight = {625.0},
        .condition = 5.0,
        .breed_factor = 1.0,
        .coat = COAT_HEAVY,
        .calf_birth_weight = {38.5},
        .peak_milk = {9.0},
        .is_bred = cattle_class == CATTLE_COW,
        .calving_start = calendar_add(day, (int)days_to_calving),
        .calving_end = calendar_add(day, (int)days_to_calving),
    };
    return requirement_of(&group, &weather, &no_minerals, day, day, day);
}

/* 600 kg shrunk, 120 days to calving: day 163. 55 % TDN is 1.141 Mcal NEm; SBW^0.75 121.23;
 * intake 121.23 (0.04997 x 1.302 + 0.04631) / 1.141 = 11.833 kg, so 13.50 Mcal, 0.67 x 7 % of
 * it = 555 g, calcium 0.20 % = 23.7 g. */
static void a_cow_in_mid_pregnancy_is_worked_by_hand(void **state) {
    const Requirement said = said_of(CATTLE_COW, 120);
    const TableNeed need = requirement_by_table(own(*state), &said);
    assert_true(need.is_printed);
    assert_near(need.nem.mcal_per_day, 13.50, 0.02);
    assert_near(need.protein.g_per_day, 555.0, 1.0);
    assert_near(need.calcium.g_per_day, 23.7, 0.1);
    assert_near(need.calcium_share, 1.0, 1e-9);
    assert_near(need.equations_nem.mcal_per_day, requirement_nem(&said).mcal_per_day, 1e-9);
}

static void what_is_not_printed_stays_with_the_equations(void **state) {
    const Requirement late = said_of(CATTLE_COW, 30);
    const TableNeed need = requirement_by_table(own(*state), &late);
    assert_near(need.calcium.g_per_day, late.calcium.g_per_day, 1e-9);
    assert_near(need.calcium_share + need.phosphorus_share, 0.0, 0.0);
    const Requirement bull = said_of(CATTLE_BULL, 0);
    const TableNeed none = requirement_by_table(own(*state), &bull);
    assert_false(none.is_printed);
    Requirement followed = bull;
    requirement_follow_table(&none, &followed);
    assert_false(followed.follows_table);
    assert_near(requirement_nem(&followed).mcal_per_day, requirement_nem(&bull).mcal_per_day,
                0.0);
}

static void followed_the_table_is_the_whole_need(void **state) {
    const Requirement said = said_of(CATTLE_COW, 120);
    const TableNeed need = requirement_by_table(own(*state), &said);
    Requirement followed = said;
    requirement_follow_table(&need, &followed);
    assert_near(requirement_nem(&followed).mcal_per_day, need.nem.mcal_per_day, 1e-9);
    assert_near(requirement_protein(&followed).g_per_day, need.protein.g_per_day, 1e-9);
    assert_true(followed.energy.cold > 0.0); /* shown, but nothing is added for it */
}

/* A heifer's line is another publication's than a cow's, and what is printed for neither is the
 * equations'. */
static void each_figure_names_the_publication_its_line_is_from(void **state) {
    const RequirementTable *table = own(*state);
    const Requirement heifer = {.table_row_share[TABLE_REPLACEMENT_HEIFER] = 1.0};
    const Requirement late = said_of(CATTLE_COW, 30.0);
    assert_int_equal(requirement_table_source(table, &heifer, TABLE_TDN), SOURCE_MB_STRETCHING);
    assert_int_equal(requirement_table_source(table, &late, TABLE_TDN),
                     SOURCE_CANADIAN_CATTLEMEN_WINTER);
    assert_int_equal(requirement_table_source(table, &late, TABLE_CALCIUM), SOURCE_NONE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_own_table_holds_what_is_printed),
        UNIT_TEST(a_line_that_is_not_known_or_missing_is_a_fault),
        UNIT_TEST(a_cow_in_mid_pregnancy_is_worked_by_hand),
        UNIT_TEST(what_is_not_printed_stays_with_the_equations),
        UNIT_TEST(followed_the_table_is_the_whole_need),
        UNIT_TEST(each_figure_names_the_publication_its_line_is_from),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

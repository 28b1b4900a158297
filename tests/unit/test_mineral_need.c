#include "cattle/mineral_need.h"
#include "support/own_tables.h"
#include "support/told.h"

static void read_needs(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const MineralNeeds *needs =
        mineral_needs_parse(arena, faults, "mineral-needs.csv", bytes, length);
    assert_int_equal(needs == NULL, faults->wrong_count > 0);
}

#define TOLD_READER read_needs
#define HEAD "nutrient,animal,least,unit,how_known,source\n"

static void the_own_table_is_read_without_a_fault(void **state) {
    const EmbeddedFile *file = own_table("mineral-needs.csv");
    Faults faults = faults_new(*state);
    const MineralNeeds *needs =
        mineral_needs_parse(*state, &faults, file->name, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, *state), "");
    /* as printed in the rows of the table */
    assert_near(needs->least[NUTRIENT_MAGNESIUM][ANIMAL_NURSING], 0.20, 1e-12);
    assert_near(needs->least[NUTRIENT_COPPER][ANIMAL_GROWING], 10, 1e-12);
    assert_near(needs->least[NUTRIENT_COPPER][ANIMAL_PREGNANT], 10, 1e-12);
    assert_near(needs->least[NUTRIENT_CALCIUM][ANIMAL_NURSING], 0, 0); /* has an equation */
    assert_int_equal(needs->source[NUTRIENT_COPPER], SOURCE_UADA_MP391);
}

static void what_is_not_known_or_left_out_is_a_fault_and_not_a_need_of_nothing(void **state) {
    assert_told(HEAD "^kopper,all,10,ppm,page,UADA_MP391\n", "'kopper' is not known");
    assert_told(HEAD "copper,^cows,10,ppm,page,UADA_MP391\n", "is none of: growing");
    assert_told(HEAD "copper,^,10,ppm,page,UADA_MP391\n", "needed");
    assert_told(HEAD "copper,all,^,ppm,page,UADA_MP391\n", "needed");
    assert_told(HEAD "copper,all,^-1,ppm,page,UADA_MP391\n", "outside");
}

static void a_unit_that_is_not_the_nutrients_is_a_fault(void **state) {
    assert_told(HEAD "copper,all,0.001,^pct,page,UADA_MP391\n", "is not that of copper, ppm");
    assert_told(HEAD "copper,all,10,^,page,UADA_MP391\n", "is not that of copper, ppm");
}

/* A mineral of 2,500 IU/kg would take 150 g a head and day for 35 IU of 11 kg of dry matter. */
static void iron_and_vitamins_d_and_e_are_told_and_no_ration_is_held_to_them(void **state) {
    const EmbeddedFile *file = own_table("mineral-needs.csv");
    Faults faults = faults_new(*state);
    const MineralNeeds *needs =
        mineral_needs_parse(*state, &faults, file->name, file->bytes, file->length);
    assert_near(needs->guide[NUTRIENT_VITAMIN_D], 275, 1e-12); /* [MSD_VITAMINS] */
    assert_near(needs->guide[NUTRIENT_VITAMIN_E], 35, 1e-12);
    assert_near(needs->guide[NUTRIENT_VITAMIN_A], 0, 0);
    assert_near(needs->told[NUTRIENT_IRON], 50, 1e-12); /* [UADA_MP391] */
    assert_near(needs->guide[NUTRIENT_IRON], 0, 0);
    for (int animal = 0; animal < ANIMAL_COUNT; animal++)
        assert_near(needs->least[NUTRIENT_VITAMIN_E][animal], 0, 0);
    assert_told("nutrient,animal,least,unit,how_known,source,use\n"
                "vitamin_e,^nursing,35,iu_per_kg,page,MSD_VITAMINS,guide\n",
                "of all cattle");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(iron_and_vitamins_d_and_e_are_told_and_no_ration_is_held_to_them),
        UNIT_TEST(the_own_table_is_read_without_a_fault),
        UNIT_TEST(what_is_not_known_or_left_out_is_a_fault_and_not_a_need_of_nothing),
        UNIT_TEST(a_unit_that_is_not_the_nutrients_is_a_fault),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

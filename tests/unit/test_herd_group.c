#include "cattle/herd_group.h"
#include "support/told.h"

static Herd parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    return herd_parse(arena, faults, calendar_day(2026, 11, 1), calendar_day(2027, 5, 15),
                      "herd.csv", bytes, length);
}

static void read_herd(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

static void read_herd_of_unknown_days(Arena *arena, Faults *faults, const char *bytes,
                                      size_t length) {
    herd_parse(arena, faults, calendar_day(2000, 11, 1), calendar_day(2000, 10, 31), "herd.csv",
               bytes, length);
}

#define TOLD_READER read_herd
#define HEAD "group,class,head,weight_kg,calving_start,calving_end"
#define COW "Cows,cow,40,600,2027-03-20,2027-05-10"
#define CATTLE "group,class,head,weight_kg,mature_weight_kg,gain_kg_per_day"

static HerdGroup only_group(void **state, const char *bytes) {
    Faults faults = faults_new(*state);
    const Herd herd = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_int_equal(herd.count, 1);
    return herd.groups[0];
}

static void a_plain_group_is_read_without_a_word(void **state) {
    const HerdGroup group = only_group(state, HEAD "\n" COW "\n");
    assert_string_equal(group.name, "Cows");
    assert_near(group.head, 40, 0);
    assert_near(group.weight.kg, 600, 1e-9);
    assert_true(group.is_bred);
    assert_int_equal(calendar_days_between(group.calving_start, group.calving_end), 51);
    assert_near(group.condition, 5, 1e-9); /* average of 9 when nobody said */
    assert_false(group.has_target);
}

static void a_bunk_is_as_long_in_feet_as_in_metres(void **state) {
    assert_near(only_group(state, HEAD "\n" COW "\n").bunk_length_m, 0, 0);
    const HerdGroup group = only_group(state, HEAD ",bunk_length_ft\n" COW ",260\n");
    assert_near(group.bunk_length_m, 79.2, 0.05);
    assert_told(HEAD ",bunk_length_m\n" COW ",^0\n", "outside 0.5 to");
}

static void pounds_and_the_five_point_scale_become_kilograms_and_nine_points(void **state) {
    const HerdGroup group = only_group(
        state, "group,class,head,weight_lb,condition_score_5,calving_start,calving_end\n"
               "Cows,cow,40,1300,3,2027-03-20,2027-05-10\n");
    assert_near(group.weight.kg, 1300 * 0.45359237, 1e-6);
    assert_near(group.condition, 5, 1e-9); /* the middle of one scale is that of the other */
}

static void a_file_as_a_european_spreadsheet_saves_it_is_read(void **state) {
    const HerdGroup group =
        only_group(state, "\xEF\xBB\xBFgroup;class;head;weight_kg;condition_score_9;"
                          "calving_start;calving_end\r\n"
                          "Cows;cow;40;612,5;5,5;2027-03-20;2027-05-10\r\n");
    assert_near(group.weight.kg, 612.5, 1e-9);
    assert_near(group.condition, 5.5, 1e-9);
}

static void numbers_with_blanks_and_signs_are_refused_with_the_cure(void **state) {
    assert_told(HEAD "\nCows,cow,^1 200,^$600,2027-03-20,2027-05-10\n", "write 1200",
                "write 600");
    assert_told(HEAD "\nCows,cow,^\"1,200\",600,2027-03-20,2027-05-10\n", "write 1200");
}

static void heads_are_whole_and_at_least_one(void **state) {
    assert_told(HEAD "\nA,cow,^3.5,600,2027-03-20,2027-05-10\n", "is not a whole number");
    assert_told(HEAD "\nA,cow,^-4,600,2027-03-20,2027-05-10\n", "outside 1 to");
    assert_told(HEAD "\nA,cow,^0,600,2027-03-20,2027-05-10\n", "outside 1 to");
    assert_told(HEAD "\nA,cow,^,600,2027-03-20,2027-05-10\n", "needed");
}

static void a_weight_in_the_other_unit_is_told(void **state) {
    assert_told(HEAD "\nA,cow,4,^1370,2027-03-20,2027-05-10\n", "outside 100 to 1300");
    assert_told(HEAD "\nA,cow,4,^1240,2027-03-20,2027-05-10\n",
                "doubt: weight_kg: 1.24e+03 kg");
    assert_told("group,class,head,weight_lb,calving_start,calving_end\n"
                "A,cow,4,^620,2027-03-20,2027-05-10\n",
                "doubt: is the unit right");
    assert_told(HEAD "\nA,cow,4,^-600,2027-03-20,2027-05-10\n", "outside");
    assert_told(HEAD "\nA,cow,4,^0,2027-03-20,2027-05-10\n", "outside");
}

static void a_growing_animal_at_its_mature_weight_is_told(void **state) {
    assert_told(CATTLE "\nA,replacement heifer,4,600,^270,0.6\n", "outside 300 to 1300");
    assert_told(CATTLE "\nA,replacement heifer,4,620,^560,0.6\n", "are the columns swapped?");
    assert_told(CATTLE "\nA,replacement heifer,4,570,^620,0.6\n", "doubt: more than grown");
}

static void a_gain_in_the_other_unit_is_told(void **state) {
    assert_told(CATTLE "\nA,replacement heifer,4,260,620,^1.5\n", "doubt: is the unit right?");
    assert_told(CATTLE "\nA,steer,4,260,620,^0\n", "doubt: is the unit right?");
    assert_told(CATTLE "\nA,steer,4,260,620,^-0.5\n", "outside 0 to 2.2");
    assert_told(CATTLE "\nA,steer,4,260,620,^3.2\n", "outside 0 to 2.2");
}

static void
growing_cattle_need_a_mature_weight_and_a_gain_and_both_are_told_at_once(void **state) {
    assert_told(CATTLE "\nA,steer,4,260,^,^\n", "mature_weight: is empty", "gain: is empty");
}

static void a_gain_of_grown_cattle_is_a_fault(void **state) {
    assert_told(CATTLE "\nA,bull,4,900,,^0.5\n", "a bull is grown");
}

static void conditions_off_the_scale_or_on_the_other_one_are_told(void **state) {
    assert_told(HEAD ",condition_score_9\n" COW ",^55\n", "outside 1 to 9");
    assert_told(HEAD ",condition_score_9\n" COW ",^3\n", "doubt: 5-point scale");
    assert_told(HEAD ",condition_score_5\n" COW ",^5.5\n", "outside 1 to 5");
    assert_told(HEAD ",condition_score_5\n" COW ",^5\n", "doubt: 9-point scale");
    assert_told(HEAD ",condition_score_5,condition_score_9\n" COW ",^3,5\n", "both scales");
    assert_told(HEAD ",^condition_score\n" COW ",5\n", "condition_score");
}

static void a_target_that_nothing_comes_of_is_told(void **state) {
    const char *const head = HEAD ",condition_score_9,target_condition_9,target_date\n" COW;
    assert_told(arena_print(*state, "%s,4,5,^2026-03-01\n", head), "is the year right?");
    assert_told(arena_print(*state, "%s,4,,^2027-03-01\n", head),
                "doubt: no target_condition goes with it");
    assert_told(arena_print(*state, "%s,,^5.5,2027-03-01\n", head), "doubt: is not given");
    assert_told(CATTLE ",target_condition_9\nA,steer,4,260,620,0.9,^6\n",
                "doubt: set its gain instead");
}

static void calving_ends_after_it_starts_and_both_are_given(void **state) {
    assert_told(HEAD "\nA,cow,4,600,2027-05-10,^2027-03-20\n", "is before calving_start");
    assert_told(HEAD "\nA,cow,4,600,^2027-03-20,\n", "give both or neither");
    assert_told(HEAD "\nA,cow,4,600,^,2027-03-20\n", "give both or neither");
    assert_told(HEAD "\nA,cow,4,600,2027-03-20,^2028-03-20\n", "is the year wrong?");
    assert_told(HEAD "\nA,bull,4,900,^2027-03-20,2027-05-10\n", "a bull does not calve");
}

static void a_calving_of_another_year_is_a_fault(void **state) {
    assert_told(HEAD "\nA,cow,4,600,^2026-03-20,2026-05-10\n", "more than a year before");
    assert_told(HEAD "\nA,cow,4,600,^2028-03-20,2028-05-10\n", "is the year wrong?");
    assert_told(HEAD "\nA,cow,4,600,^1900-03-20,1900-05-10\n", "more than a year before");
}

static void fall_calving_cows_are_read_without_a_word(void **state) {
    assert_tells_nothing(HEAD "\nA,cow,4,600,2026-08-20,2026-10-10\n");
    assert_tells_nothing(HEAD "\nA,cow,4,600,2027-09-01,2027-10-10\n");
}

static void
cows_without_calving_are_open_with_a_doubt_and_heifers_in_calf_are_a_fault(void **state) {
    assert_told(HEAD "\nA,cow,4,600,^,\n", "doubt: taken to be open");
    assert_told(CATTLE ",calving_start,calving_end\nA,bred heifer,4,480,620,0.4,^,\n",
                "when does the first heifer");
}

static void weaning_comes_after_calving(void **state) {
    assert_told(HEAD ",weaning_date\n" COW ",^2026-10-20\n", "is before calving_end");
    assert_told(HEAD ",weaning_date\n" COW ",^2028-10-20\n", "doubt: is the year right?");
    assert_told(HEAD ",weaning_date\nA,bull,4,900,,,^2026-10-20\n", "no calving_start");
    assert_tells_nothing(HEAD ",weaning_date\n" COW ",2027-10-20\n");
}

static void dates_that_are_no_dates_are_told_with_the_cure(void **state) {
    assert_told(HEAD "\nA,cow,4,600,^2027-02-30,^15/04/2027\n", "Feb 2027 has 28 days",
                "write 2027-04-15");
}

static void milk_and_calves_in_the_other_unit_are_told(void **state) {
    assert_told(HEAD ",peak_milk_kg_per_day\n" COW ",^20\n", "doubt: is the unit right?");
    assert_told(HEAD ",peak_milk_lb_per_day\n" COW ",^9\n", "doubt: is the unit right?");
    assert_told(HEAD ",calf_birth_weight_kg\n" COW ",^86\n", "outside 20 to 65");
    assert_tells_nothing(HEAD ",peak_milk_kg_per_day,breed\n" COW ",20,dairy cross\n");
}

static void words_that_are_not_known_name_the_nearest(void **state) {
    assert_tells_nothing(HEAD ",grazing\n" COW ",bale grazing\n");
    assert_told(HEAD ",grazing\n" COW ",^bail grazing\n", "did you mean 'bale grazing'?");
    assert_told(HEAD ",breed,coat,shelter,delivery\n" COW ",^beaf,^wintr,^windbrake,^layred\n",
                "did you mean 'beef'?", "did you mean 'winter'?", "did you mean 'windbreak'?",
                "did you mean 'layered'?");
}

static void a_class_may_be_in_the_plural_and_half_a_class_names_the_whole_ones(void **state) {
    assert_tells_nothing(HEAD ",mature_weight_kg\nA,Cows,4,600,2027-03-20,2027-05-10,\n"
                              "B,bred heifers,4,500,2027-03-20,2027-05-10,640\n");
    assert_tells_nothing(CATTLE "\nA,Steers,40,280,640,0.8\nB,bull calves,4,300,900,0.8\n");
    assert_told(HEAD "\nA,^heifer,4,500,,\nB,^replacement,4,300,,\n",
                "is it 'bred heifer', 'replacement heifer' or 'feeder heifer'?",
                "did you mean 'replacement heifer'?");
}

static void a_faulty_heading_is_told_once_and_not_for_each_group(void **state) {
    assert_told("group,class,^number,^wt,^mature weight,^adg\n"
                "A,steer,40,620,1400,2\nB,steer,50,700,1400,2\n",
                "write head", "write weight_kg or weight_lb",
                "mature_weight_kg or mature_weight_lb",
                "write gain_kg_per_day or gain_lb_per_day");
    assert_told("group,class,head,weight_kg,^calving date,calving_end\n" COW "\n",
                "write calving_start");
}

static void a_row_of_an_unknown_class_still_tells_its_other_mistakes(void **state) {
    assert_told(HEAD ",mature_weight_kg,gain_kg_per_day\n"
                     "A,^llama,^x,^-1,^2027-13-01,^soon,^99,^9\n",
                "is none of: cow", "head", "weight_kg", "month 13", "is not a date",
                "mature_weight_kg", "gain_kg_per_day");
}

static void names_differ_by_more_than_case_and_blanks(void **state) {
    assert_told(HEAD "\n" COW "\n^COWS ,cow,4,600,2027-03-20,2027-05-10\n",
                "is already on line 2");
    assert_told(HEAD "\n^,cow,4,600,2027-03-20,2027-05-10\n", "needed");
}

static void a_name_that_a_list_of_groups_would_part_is_a_fault(void **state) {
    assert_told(HEAD "\n^Cows|old,cow,4,600,2027-03-20,2027-05-10\n", "has a '|' in it");
    assert_told(HEAD "\n^Cows/old,cow,4,600,2027-03-20,2027-05-10\n", "has a '/' in it");
}

static void a_long_or_odd_name_cannot_spoil_the_message(void **state) {
    char row[700] = HEAD "\n\"";
    const size_t head = strlen(row);
    memset(row + head, 'x', 500);
    row[head + 500] = '\x1B';
    strcpy(row + head + 501, "\",cow,4,600,2027-03-20,\n");
    Faults faults = faults_new(*state);
    parse(*state, &faults, row, strlen(row));
    assert_int_equal(faults.wrong_count, 1);
    assert_true(strlen(faults.first->text) < 200);
    assert_null(strchr(faults.first->text, '\x1B'));
}

static void files_without_groups_are_told(void **state) {
    assert_told("@", "the file is empty");
    assert_told("@" HEAD "\n", "has no group of cattle");
    assert_told("~~group,class,calving_start,calving_end\nA,cow,2027-03-20,2027-05-10\n"
                "B,cow,2027-03-20,2027-05-10\n",
                "head is missing", "weight_kg or weight_lb is missing");
}

static void twenty_thousand_rows_are_no_herd(void **state) {
    Text text = text_new(*state);
    text_add(&text, HEAD "\n");
    for (int i = 0; i < 20000; i++)
        text_print(&text, "A%d,cow,4,600,2027-03-20,2027-05-10\n", i);
    Faults faults = faults_new(*state);
    assert_null(parse(*state, &faults, text.bytes, text.length).groups);
    assert_int_equal(faults.wrong_count, 1);
    assert_non_null(strstr(faults.first->text, "is it the right file?"));
}

static void without_the_winters_days_no_date_is_held_against_them(void **state) {
    told_check(*state, read_herd_of_unknown_days,
               HEAD ",condition_score_9,target_condition_9,target_date\n" COW
                    ",4,5,2027-03-01\n",
               (const char *const[]){NULL}, __FILE__, __LINE__);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_plain_group_is_read_without_a_word),
        UNIT_TEST(a_bunk_is_as_long_in_feet_as_in_metres),
        UNIT_TEST(pounds_and_the_five_point_scale_become_kilograms_and_nine_points),
        UNIT_TEST(a_file_as_a_european_spreadsheet_saves_it_is_read),
        UNIT_TEST(numbers_with_blanks_and_signs_are_refused_with_the_cure),
        UNIT_TEST(heads_are_whole_and_at_least_one),
        UNIT_TEST(a_weight_in_the_other_unit_is_told),
        UNIT_TEST(a_growing_animal_at_its_mature_weight_is_told),
        UNIT_TEST(a_gain_in_the_other_unit_is_told),
        UNIT_TEST(growing_cattle_need_a_mature_weight_and_a_gain_and_both_are_told_at_once),
        UNIT_TEST(a_gain_of_grown_cattle_is_a_fault),
        UNIT_TEST(conditions_off_the_scale_or_on_the_other_one_are_told),
        UNIT_TEST(a_target_that_nothing_comes_of_is_told),
        UNIT_TEST(calving_ends_after_it_starts_and_both_are_given),
        UNIT_TEST(a_calving_of_another_year_is_a_fault),
        UNIT_TEST(fall_calving_cows_are_read_without_a_word),
        UNIT_TEST(cows_without_calving_are_open_with_a_doubt_and_heifers_in_calf_are_a_fault),
        UNIT_TEST(weaning_comes_after_calving),
        UNIT_TEST(dates_that_are_no_dates_are_told_with_the_cure),
        UNIT_TEST(milk_and_calves_in_the_other_unit_are_told),
        UNIT_TEST(words_that_are_not_known_name_the_nearest),
        UNIT_TEST(a_class_may_be_in_the_plural_and_half_a_class_names_the_whole_ones),
        UNIT_TEST(a_faulty_heading_is_told_once_and_not_for_each_group),
        UNIT_TEST(a_row_of_an_unknown_class_still_tells_its_other_mistakes),
        UNIT_TEST(names_differ_by_more_than_case_and_blanks),
        UNIT_TEST(a_name_that_a_list_of_groups_would_part_is_a_fault),
        UNIT_TEST(a_long_or_odd_name_cannot_spoil_the_message),
        UNIT_TEST(files_without_groups_are_told),
        UNIT_TEST(twenty_thousand_rows_are_no_herd),
        UNIT_TEST(without_the_winters_days_no_date_is_held_against_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

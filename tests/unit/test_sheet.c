#include "base/sheet.h"

#include "base/quantity.h"
#include "support/unit.h"
#include <string.h>

/* Every unit family is here once. */
enum {
    GROUP,
    KIND,
    HEAD,
    WEIGHT,
    PROTEIN,
    HAND,
    PRICE,
    LENGTH,
    DENSITY,
    COLD,
    WIND,
    GAIN,
    NEM,
    COPPER,
    VITAMIN_A,
    NITRATE,
    DATE,
    COLUMN_COUNT
};

static const SheetColumn COLUMNS[COLUMN_COUNT] = {
    [GROUP] = {"group", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    [KIND] = {"class", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    [HEAD] = {"head", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 100000},
    [WEIGHT] = {"weight", UNIT_MASS, COLUMN_OPTIONAL, 20, 1500},
    [PROTEIN] = {"crude_protein", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    [HAND] = {"total", UNIT_TONNAGE, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [PRICE] = {"price", UNIT_PRICE, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [LENGTH] = {"length", UNIT_LENGTH, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [DENSITY] = {"density", UNIT_BULK_DENSITY, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [COLD] = {"cold", UNIT_TEMPERATURE, COLUMN_OPTIONAL, -60, 40},
    [WIND] = {"wind", UNIT_SPEED, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [GAIN] = {"gain", UNIT_DAILY_MASS, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [NEM] = {"nem", UNIT_ENERGY_DENSITY, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [COPPER] = {"copper", UNIT_TRACE, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [VITAMIN_A] = {"vitamin_a", UNIT_VITAMIN, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [NITRATE] = {"nitrate", UNIT_NITRATE_ION, COLUMN_OPTIONAL, 0, NO_LIMIT},
    [DATE] = {"date", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

typedef struct {
    Arena *arena;
    Faults faults;
    Sheet *sheet;
} Parsed;

static Parsed *parsed(Arena *arena, const char *bytes) {
    Parsed *const parsed = ARENA_NEW(arena, Parsed);
    parsed->arena = arena;
    parsed->faults = faults_new(arena);
    parsed->sheet = sheet_parse(arena, &parsed->faults, "a.csv", bytes, strlen(bytes), COLUMNS,
                                COLUMN_COUNT);
    return parsed;
}

/* A sheet of the group "cows" with one more cell. */
static Parsed *parsed_cell(Arena *arena, const char *heading, const char *cell) {
    return parsed(arena, arena_print(arena, "group,\"%s\"\ncows,\"%s\"\n", heading, cell));
}

static void assert_faults(const Parsed *parsed, const char *expected) {
    assert_string_equal(unit_faults(&parsed->faults, parsed->arena), expected);
}

static void assert_heading_fault(Arena *arena, const char *heading, const char *expected) {
    const char *const file = arena_print(arena, "group,%s\n", heading);
    assert_faults(parsed(arena, file), arena_print(arena, "a.csv:1:7: %s\n", expected));
}

static double number_of(Arena *arena, int column, const char *heading, const char *cell) {
    const Parsed *const parsed = parsed_cell(arena, heading, cell);
    double value = (double)NAN;
    assert_true(sheet_number(parsed->sheet, 0, column, &value));
    assert_faults(parsed, "");
    return value;
}

static void assert_number_fault(Arena *arena, int column, const char *heading, const char *cell,
                                const char *expected) {
    const Parsed *const parsed = parsed_cell(arena, heading, cell);
    double value = 4711;
    assert_false(sheet_number(parsed->sheet, 0, column, &value));
    assert_true(value == 4711);
    assert_faults(parsed, arena_print(arena, "a.csv:2:6: %s\n", expected));
}

/* ---- headings ---- */

static void headings_are_found_in_any_order(void **state) {
    const Parsed *const p = parsed(*state, "weight_kg,group\n640,cows\n");
    assert_faults(p, "");
    assert_int_equal(sheet_row_count(p->sheet), 1);
    assert_true(sheet_has(p->sheet, WEIGHT));
    assert_false(sheet_has(p->sheet, HEAD));
    assert_string_equal(sheet_text(p->sheet, 0, GROUP), "cows");
    assert_string_equal(sheet_text(p->sheet, 0, HEAD), "");
    assert_string_equal(place_text(sheet_place(p->sheet, 0, GROUP), *state), "a.csv:2:5: ");
    assert_string_equal(place_text(sheet_place(p->sheet, 0, HEAD), *state), "a.csv:2: ");
}

static void the_way_a_heading_is_written_does_not_matter(void **state) {
    static const struct {
        const char *written;
        int column;
    } HEADINGS[] = {
        {"Weight kg", WEIGHT},
        {"WEIGHT-KG", WEIGHT},
        {"Weight (kg)", WEIGHT},
        {" weight__kg ", WEIGHT},
        {"Weight [lb]", WEIGHT},
        {"Crude protein %", PROTEIN},
        {"crude.protein.pct", PROTEIN},
        {"Cold, \xC2\xB0"
         "C",
         COLD},
        {"Price $/tonne", PRICE},
        {"NEm (Mcal/kg)", NEM},
        {"density (lb/ft3)", DENSITY},
        {"density kg/m\xC2\xB3", DENSITY},
        {"gain kg/day", GAIN},
        {"copper mg/kg", COPPER},
        {"Nitrate NO\xE2\x82\x83 %", NITRATE},
    };
    for (size_t i = 0; i < sizeof HEADINGS / sizeof HEADINGS[0]; i++) {
        const Parsed *const p = parsed_cell(*state, HEADINGS[i].written, "1");
        assert_faults(p, "");
        assert_true(sheet_has(p->sheet, HEADINGS[i].column));
    }
}

static void a_heading_is_shown_as_written(void **state) {
    const Parsed *const p = parsed_cell(*state, "Weight (lb)", "1400");
    assert_string_equal(sheet_heading(p->sheet, WEIGHT), "Weight (lb)");
    assert_string_equal(sheet_heading(p->sheet, HEAD), "head");
    assert_near(sheet_as_written(p->sheet, WEIGHT, 45.359237), 100, 1e-9);
}

static void the_users_own_columns_are_nobodys_business(void **state) {
    assert_faults(parsed(*state, "group,x_ear_tag,X-remark,x_ear_tag\ncows,1,2,3\n"), "");
}

static void an_unknown_heading_names_the_nearest(void **state) {
    assert_heading_fault(
        *state, "wieght_kg",
        "'wieght_kg' is not a heading of this file; did you mean 'weight_kg'?");
    assert_heading_fault(
        *state, "Weight lbs",
        "'Weight lbs' is not a heading of this file; did you mean 'weight_lb'?");
}

static void an_unknown_heading_like_none_lists_them_all(void **state) {
    assert_heading_fault(
        *state, "zork",
        "'zork' is not a heading of this file (a column of your own begins with x_); the "
        "headings "
        "are: group, class, head, weight_kg/_lb, crude_protein_pct, total_tonnes/_tons, "
        "price_per_tonne/_per_ton/_per_lb, length_m/_ft, density_kg_per_m3/_lb_per_ft3, "
        "cold_c/_f, "
        "wind_km_per_h/_mph/_m_per_s, gain_kg_per_day/_lb_per_day, "
        "nem_mcal_per_kg/_mcal_per_lb, "
        "copper_ppm/_mg_per_kg, vitamin_a_iu_per_kg/_iu_per_lb, "
        "nitrate_no3_pct/_no3_ppm/_n_pct/_n_ppm/_kno3_pct/_kno3_ppm, date");
}

static void the_list_of_headings_is_told_once_a_file(void **state) {
    const Parsed *const p = parsed(*state, "group,zork,blorb\ncows,1,2\n");
    assert_int_equal(p->faults.wrong_count, 2);
    assert_non_null(strstr(p->faults.first->text, "the headings are: group, class"));
    assert_string_equal(p->faults.last->text, "'blorb' is none of the headings listed above");
}

static void another_word_is_read_where_it_says_the_same_with_its_unit(void **state) {
    assert_near(number_of(*state, PROTEIN, "CP (%)", "11"), 11, 0);
    assert_near(number_of(*state, COPPER, "Cu ppm", "8"), 8, 0);
    assert_near(number_of(*state, NITRATE, "NO3-N ppm", "10000"),
                number_of(*state, NITRATE, "nitrate_n_ppm", "10000"), 0);
    assert_near(number_of(*state, NITRATE, "Nitrate-N (ppm)", "10000"),
                number_of(*state, NITRATE, "nitrate_n_ppm", "10000"), 0);
}

static void another_word_that_leaves_something_to_guess_names_the_heading(void **state) {
    static const char *const CASES[][2] = {
        {"CP", "'CP' is not a heading of this file: write crude_protein_pct"},
        {"Protein %", "'Protein %' is not a heading of this file: write crude_protein_pct"},
        {"Cu", "'Cu' is not a heading of this file: write copper_ppm or copper_mg_per_kg"},
        {"tons", "'tons' is not a heading of this file: write total_tons"},
        {"number", "'number' is not a heading of this file: write head"},
        {"cost per bale", "'cost per bale' is not a heading of this file: write "
                          "price_per_tonne, price_per_ton or price_per_lb"},
        {"NO3", "'NO3' is not a heading of this file: write nitrate_no3_pct or "
                "nitrate_no3_ppm"},
        {"nitrate_n", "'nitrate_n' needs its unit: nitrate_n_pct or nitrate_n_ppm"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++)
        assert_heading_fault(*state, CASES[i][0], CASES[i][1]);
}

static void nitrite_is_not_taken_for_a_nitrate(void **state) {
    const Parsed *const p = parsed(*state, "group,nitrite_ppm\n");
    assert_int_equal(p->faults.wrong_count, 1);
    assert_null(strstr(p->faults.first->text, "did you mean"));
}

static void a_heading_without_its_unit_says_which_there_are(void **state) {
    assert_heading_fault(*state, "weight", "'weight' needs its unit: weight_kg or weight_lb");
    assert_heading_fault(
        *state, "Price",
        "'Price' needs its unit: price_per_tonne, price_per_ton or price_per_lb");
    assert_heading_fault(*state, "weight_hundredweight",
                         "'weight_hundredweight' has a unit that is not read here: write "
                         "weight_kg or weight_lb");
}

static void nitrate_without_its_ion_is_never_guessed(void **state) {
    static const char *const HEADINGS[] = {"nitrate", "nitrate_pct", "nitrate_ppm"};
    for (size_t i = 0; i < 3; i++) {
        assert_heading_fault(
            *state, HEADINGS[i],
            arena_print(*state,
                        "'%s' has to say as what the nitrate was reported: nitrate_no3_pct, "
                        "nitrate_no3_ppm, nitrate_n_pct, nitrate_n_ppm, nitrate_kno3_pct or "
                        "nitrate_kno3_ppm",
                        HEADINGS[i]));
    }
}

static void a_heading_twice_or_in_two_units_is_a_fault(void **state) {
    assert_faults(
        parsed(*state, "group,weight_kg,Weight lb,Group\n"),
        "a.csv:1:17: 'Weight lb' and 'weight_kg' say the same thing: write all of it in one; 1 "
        "kg = 2.205 lb\n"
        "a.csv:1:27: 'Group' is there twice: take one away\n");
}

static void a_missing_heading_that_is_needed_is_a_fault(void **state) {
    const Parsed *const p = parsed(*state, "# herd\nhead\n120\n");
    assert_faults(p, "a.csv:2: the heading group is missing\n");
    int head = 0; /* and the rest can be read on */
    assert_true(sheet_whole_number(p->sheet, 0, HEAD, &head));
    assert_int_equal(head, 120);
}

static void what_a_faulty_heading_hides_is_not_told_to_be_missing(void **state) {
    const Parsed *const p = parsed(*state, "groop,weight\ncows,640\n");
    assert_false(sheet_require(p->sheet, 0, GROUP));
    assert_false(sheet_require(p->sheet, 0, WEIGHT));
    assert_false(sheet_is_left_out(p->sheet, 0, WEIGHT));
    assert_true(sheet_is_left_out(p->sheet, 0, HEAD));
    assert_faults(p, "a.csv:1:1: 'groop' is not a heading of this file; did you mean 'group'?\n"
                     "a.csv:1:7: 'weight' needs its unit: weight_kg or weight_lb\n");
}

static void a_column_with_cells_but_no_heading_is_a_fault(void **state) {
    assert_faults(parsed(*state, "group,,head\ncows,,120\n"), "");
    assert_faults(parsed(*state, "group,,head\ncows,7,120\n"),
                  "a.csv:1:7: a column without a heading: give it one (a column of your own "
                  "begins with x_)\n");
}

static void a_table_that_cannot_be_read_is_no_sheet(void **state) {
    const Parsed *const p = parsed(*state, "");
    assert_null(p->sheet);
    assert_int_equal(p->faults.wrong_count, 1);
}

/* ---- rows ---- */

static void a_row_of_nothing_but_own_columns_is_empty(void **state) {
    const Parsed *const p = parsed(*state, "group,head,x_note\ncows,1,\n,,\n,,total below\n");
    assert_false(sheet_row_is_empty(p->sheet, 0));
    assert_true(sheet_row_is_empty(p->sheet, 1));
    assert_true(sheet_row_is_empty(p->sheet, 2));
}

static void an_empty_cell_that_is_needed_is_a_fault(void **state) {
    const Parsed *const p = parsed(*state, "group,head\ncows,\n");
    assert_true(sheet_require(p->sheet, 0, GROUP));
    assert_false(sheet_require(p->sheet, 0, HEAD));
    assert_false(sheet_require(p->sheet, 0, WEIGHT));
    assert_faults(p, "a.csv:2: weight: the cell is empty; it is needed\n"
                     "a.csv:2:6: head: the cell is empty; it is needed\n");
}

/* ---- numbers ---- */

/* A short ton is 2,000 lb; a foot 0.3048 m; a mile 1.609344 km; a pound 0.45359237 kg: all by
 * definition. 32 F is 0 C and -40 is the same on both scales. */
static void numbers_come_in_the_programs_own_units(void **state) {
    assert_near(number_of(*state, HEAD, "head", "120"), 120, 0);
    assert_near(number_of(*state, WEIGHT, "weight_kg", "640.5"), 640.5, 0);
    assert_near(number_of(*state, WEIGHT, "weight_lb", "1000"), 453.59237, 1e-9);
    assert_near(number_of(*state, HAND, "total_tonnes", "1.5"), 1500, 1e-9);
    assert_near(number_of(*state, HAND, "total_tons", "1"), 2000 * 0.45359237, 1e-9);
    assert_near(number_of(*state, PRICE, "price_per_tonne", "80"), 0.08, 1e-12);
    assert_near(number_of(*state, PRICE, "price_per_ton", "100"), 0.05 / 0.45359237, 1e-12);
    assert_near(number_of(*state, PRICE, "price_per_lb", "0.05"), 0.05 / 0.45359237, 1e-12);
    assert_near(number_of(*state, LENGTH, "length_ft", "10"), 3.048, 1e-12);
    assert_near(number_of(*state, DENSITY, "density_lb_per_ft3", "62.428"), 1000,
                0.01); /* water */
    assert_near(number_of(*state, COLD, "cold_f", "32"), 0, 1e-12);
    assert_near(number_of(*state, COLD, "cold_f", "-40"), -40, 1e-12);
    assert_near(number_of(*state, WIND, "wind_m_per_s", "10"), 36, 1e-12);
    assert_near(number_of(*state, WIND, "wind_mph", "10"), 16.09344, 1e-9);
    assert_near(number_of(*state, GAIN, "gain_lb_per_day", "2"), 0.90718474, 1e-12);
    assert_near(number_of(*state, NEM, "nem_mcal_per_lb", "0.45359237"), 1, 1e-12);
    assert_near(number_of(*state, COPPER, "copper_mg_per_kg", "8"), 8, 0);
    assert_near(number_of(*state, VITAMIN_A, "vitamin_a_iu_per_lb", "0.45359237"), 1, 1e-12);
}

/* From the standard atomic weights N 14.007, O 15.999, K 39.098: NO3 is 62.004, KNO3 101.102.
 */
static void nitrate_is_brought_to_per_cent_of_the_ion(void **state) {
    const double no3 = 14.007 + 3 * 15.999;
    assert_near(number_of(*state, NITRATE, "nitrate_no3_pct", "0.5"), 0.5, 0);
    assert_near(number_of(*state, NITRATE, "nitrate_no3_ppm", "5000"), 0.5, 1e-12);
    assert_near(number_of(*state, NITRATE, "nitrate_n_pct", "1"), no3 / 14.007, 5e-5);
    assert_near(number_of(*state, NITRATE, "nitrate_n_ppm", "10000"), no3 / 14.007, 5e-5);
    assert_near(number_of(*state, NITRATE, "nitrate_kno3_pct", "1"), no3 / (no3 + 39.098),
                5e-5);
    assert_near(number_of(*state, NITRATE, "nitrate_kno3_ppm", "10000"), no3 / (no3 + 39.098),
                5e-5);
}

static void what_is_written_comes_back_from_own_units(void **state) {
    static const struct {
        int column;
        const char *heading;
    } CASES[] = {{WEIGHT, "weight_lb"},           {HAND, "total_tons"},
                 {PRICE, "price_per_lb"},         {COLD, "cold_f"},
                 {DENSITY, "density_lb_per_ft3"}, {NITRATE, "nitrate_kno3_ppm"}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const Parsed *const p = parsed_cell(*state, CASES[i].heading, "77.5");
        double own = 0;
        assert_true(sheet_number(p->sheet, 0, CASES[i].column, &own));
        assert_near(sheet_as_written(p->sheet, CASES[i].column, own), 77.5, 1e-9);
    }
}

static void numbers_are_read_as_a_spreadsheet_writes_them(void **state) {
    assert_near(number_of(*state, COLD, "cold_c", "-12.5"), -12.5, 0);
    assert_near(number_of(*state, COLD, "cold_c", "+5"), 5, 0);
    assert_near(number_of(*state, COLD, "cold_c", ".5"), 0.5, 0);
    assert_near(number_of(*state, COLD, "cold_c", "5."), 5, 0);
    assert_near(number_of(*state, HAND, "total_tonnes", "1.2E+03"), 1.2e6, 1e-6);
}

static void an_empty_cell_is_not_a_number_and_not_a_fault(void **state) {
    const Parsed *const p = parsed_cell(*state, "weight_kg", "");
    double value = 4711;
    int whole;
    Day day;
    assert_false(sheet_number(p->sheet, 0, WEIGHT, &value));
    assert_false(sheet_number(p->sheet, 0, PROTEIN, &value));
    assert_false(sheet_whole_number(p->sheet, 0, HEAD, &whole));
    assert_false(sheet_date(p->sheet, 0, DATE, &day));
    assert_int_equal(sheet_choice(p->sheet, 0, KIND, NULL, 0), -1);
    assert_true(value == 4711);
    assert_faults(p, "");
}

static void what_is_no_number_is_placed_with_its_cure(void **state) {
    static const struct {
        const char *cell, *fault;
    } CASES[] = {
        {"1o.2", "'1o.2' is not a number"},
        {"10O", "'10O' is not a number"},
        {"inf", "'inf' is not a number"},
        {"nan", "'nan' is not a number"},
        {"0x1p3", "'0x1p3' is not a number"},
        {"1e999", "'1e999' is not a number"},
        {"1e", "'1e' has letters in it: write the number alone, in the unit of the heading"},
        {"1.2.3", "'1.2.3' is not a number"},
        {"--5", "'--5' is not a number"},
        {"1,250", "'1,250' has a comma in it: write 1250"},
        {"1,250,000.5", "'1,250,000.5' has a comma in it: write 1250000.5"},
        {"12,5", "'12,5' has a comma in it: write 12.5"},
        {"1.250,5", "'1.250,5' has a comma in it: write 1250.5"},
        {"1 250", "'1 250' has a blank in it: write 1250"},
        {"1\xC2\xA0"
         "250",
         "'1\xC2\xA0"
         "250' has a blank in it: write 1250"},
        {"$80", "'$80' has a $ sign: leave it out and write 80"},
        {"$ 1,250", "'$ 1,250' has a $ sign: leave it out and write 1250"},
        {"85%", "'85%' has a % sign: leave it out and write 85"},
        {"12 kg",
         "'12 kg' has letters in it: write the number alone, in the unit of the heading"},
        {"<0.01",
         "'<0.01' is a limit, not a number: write the value to reckon with, or leave the "
         "cell empty"},
        {"N/A", "'N/A' is not a number: leave the cell empty when it is not known"},
        {"-", "'-' is not a number: leave the cell empty when it is not known"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_number_fault(*state, PROTEIN, "crude_protein_pct", CASES[i].cell,
                            arena_print(*state, "crude_protein_pct: %s", CASES[i].fault));
    }
}

static void a_long_or_dirty_text_is_echoed_short_and_clean(void **state) {
    const char *const first_60 = "a text that goes on and on and on and on and on and on and o";
    assert_int_equal(strlen(first_60), 60);
    assert_number_fault(*state, HEAD, "head", arena_print(*state, "%sn and on", first_60),
                        arena_print(*state, "head: '%s...' is not a number", first_60));
    assert_number_fault(*state, HEAD, "head", "1\n\x1B[2J2", "head: '1??[2J2' is not a number");
}

static void a_number_outside_its_limits_is_a_fault_in_the_unit_written(void **state) {
    assert_number_fault(*state, PROTEIN, "crude_protein_pct", "99",
                        "crude_protein_pct: 99 is outside 0 to 60");
    assert_number_fault(*state, WEIGHT, "weight_kg", "1501",
                        "weight_kg: 1501 is outside 20 to 1500");
    /* 20 kg is 44.09 lb, 1500 kg is 3307 lb */
    assert_number_fault(*state, WEIGHT, "weight_lb", "3308",
                        "weight_lb: 3308 is outside 44.09 to 3307");
    assert_number_fault(*state, COLD, "cold_f", "-77", "cold_f: -77 is outside -76 to 104");
    assert_number_fault(*state, PRICE, "price_per_tonne", "-3",
                        "price_per_tonne: -3 is below 0");
}

static void the_limits_named_are_themselves_allowed(void **state) {
    assert_near(number_of(*state, PROTEIN, "crude_protein_pct", "60"), 60, 0);
    assert_near(number_of(*state, PROTEIN, "crude_protein_pct", "0"), 0, 0);
    assert_near(number_of(*state, WEIGHT, "weight_lb", "3307"), 1500, 0); /* a hair too much */
    assert_near(number_of(*state, COLD, "cold_f", "-76"), -60, 1e-12);
}

static void a_decimal_comma_is_read_where_it_separates_nothing(void **state) {
    const Parsed *const p = parsed(*state, "group;weight_kg;total_tonnes\ncows;640,5;1.5\n");
    double value = 0;
    assert_true(sheet_number(p->sheet, 0, WEIGHT, &value));
    assert_near(value, 640.5, 0);
    assert_true(sheet_number(p->sheet, 0, HAND, &value));
    assert_near(value, 1500, 1e-9);
    assert_faults(p, "");
}

static void a_comma_that_may_part_thousands_is_a_doubt(void **state) {
    const Parsed *const p = parsed(*state, "group\ttotal_tonnes\ncows\t1,250\ncalves\t0,250\n");
    double value = 0;
    assert_true(sheet_number(p->sheet, 0, HAND, &value));
    assert_near(value, 1250, 1e-9); /* 1.25 t */
    assert_true(sheet_number(p->sheet, 1, HAND, &value));
    assert_faults(p,
                  "a.csv:2:6: doubt: total_tonnes: '1,250' is read as 1.25; if thousands are "
                  "meant, leave the comma out\n");
}

static void a_whole_number_has_no_fraction(void **state) {
    const Parsed *const p = parsed(*state, "group,head\na,120\nb,120.0\nc,12.5\nd,-1\n");
    int head = 0;
    assert_true(sheet_whole_number(p->sheet, 0, HEAD, &head));
    assert_true(sheet_whole_number(p->sheet, 1, HEAD, &head));
    assert_int_equal(head, 120);
    assert_false(sheet_whole_number(p->sheet, 2, HEAD, &head));
    assert_false(sheet_whole_number(p->sheet, 3, HEAD, &head));
    assert_faults(p, "a.csv:4:3: head: '12.5' is not a whole number\n"
                     "a.csv:5:3: head: -1 is outside 0 to 100000\n");
}

/* ---- dates ---- */

static void an_iso_date_is_read(void **state) {
    const Parsed *const p = parsed_cell(*state, "date", "2026-11-01");
    Day day;
    assert_true(sheet_date(p->sheet, 0, DATE, &day));
    assert_int_equal(day.number, calendar_day(2026, 11, 1).number);
    assert_faults(p, "");
}

static void another_date_says_what_to_write(void **state) {
    static const char *const CASES[][2] = {
        {"11/01/2026", "could be Nov 1 or Jan 11: write 2026-11-01 or 2026-01-11"},
        {"1/4/26", "could be Jan 4 or Apr 1: write 2026-01-04 or 2026-04-01"},
        {"25/12/2026", "is not in the form year-month-day: write 2026-12-25"},
        {"12/25/2026", "is not in the form year-month-day: write 2026-12-25"},
        {"5/5/2026", "is not in the form year-month-day: write 2026-05-05"},
        {"Nov 1 2026", "is not in the form year-month-day: write 2026-11-01"},
        {"November 1, 2026", "is not in the form year-month-day: write 2026-11-01"},
        {"1 Sept. 2026", "is not in the form year-month-day: write 2026-09-01"},
        {"1-Nov-26", "is not in the form year-month-day: write 2026-11-01"},
        {"2026 Nov 1", "is not in the form year-month-day: write 2026-11-01"},
        {"2026/11/1", "is not in the form year-month-day: write 2026-11-01"},
        {"20261101", "is not in the form year-month-day: write 2026-11-01"},
        {"46327", "is a spreadsheet's count of days: it stands for 2026-11-01, write that"},
        {"2026-11-01 08:00", "has more than a date in it: write 2026-11-01"},
        {"2026-02-30", "is not a date: Feb 2026 has 28 days, not 30"},
        {"2028-02-30", "is not a date: Feb 2028 has 29 days, not 30"},
        {"2026-13-01", "is not a date: there is no month 13 (it is year-month-day)"},
        {"1820-01-01", "has a year that is outside 1900 to 2199"},
        {"Nov 2026", "lacks its day or its year: write year-month-day, as in 2026-11-01"},
        {"-2026-11-01", "has a minus sign in front of it: write 2026-11-01"},
        {"-12-08-29",
         "has a minus sign in front of it: write year-month-day, as in 2026-11-01"},
        {"-", "is not a date: write year-month-day, as in 2026-11-01"},
        {"soon", "is not a date: write year-month-day, as in 2026-11-01"},
        {"2026", "is not a date: write year-month-day, as in 2026-11-01"},
        {"31/31/2026", "is not a date: write year-month-day, as in 2026-11-01"},
        {"999999999999", "is not a date: write year-month-day, as in 2026-11-01"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const Parsed *const p = parsed_cell(*state, "date", CASES[i][0]);
        Day day;
        assert_false(sheet_date(p->sheet, 0, DATE, &day));
        assert_faults(
            p, arena_print(*state, "a.csv:2:6: date: '%s' %s\n", CASES[i][0], CASES[i][1]));
    }
}

/* ---- choices and lists ---- */

static const char *const CLASSES[] = {"cow", "bred heifer", "bull"};

static int choice_of(const Parsed *parsed) {
    return sheet_choice(parsed->sheet, 0, KIND, CLASSES, 3);
}

static void a_choice_may_be_written_in_any_case_and_joined_anyhow(void **state) {
    static const char *const WRITTEN[] = {"bred heifer", "Bred-Heifer", "BRED_HEIFER",
                                          "bredheifer", "bred  heifer"};
    for (size_t i = 0; i < sizeof WRITTEN / sizeof WRITTEN[0]; i++) {
        const Parsed *const p = parsed_cell(*state, "class", WRITTEN[i]);
        assert_int_equal(choice_of(p), 1);
        assert_faults(p, "");
    }
}

static void another_choice_names_the_nearest_or_all(void **state) {
    const Parsed *p = parsed_cell(*state, "class", "bred hiefer");
    assert_int_equal(choice_of(p), -1);
    assert_faults(
        p, "a.csv:2:6: class: 'bred hiefer' is not known; did you mean 'bred heifer'?\n");
    p = parsed_cell(*state, "class", "zebra");
    assert_int_equal(choice_of(p), -1);
    assert_faults(p, "a.csv:2:6: class: 'zebra' is none of: cow, bred heifer, bull\n");
    p = parsed_cell(*state, "class", "bred");
    assert_int_equal(choice_of(p), -1);
}

static void a_long_list_of_choices_is_told_once_a_column(void **state) {
    static const char *const LETTERS[] = {"alpha", "beta", "gamma", "delta", "epsilon",
                                          "zeta",  "eta",  "theta", "iota"};
    const Parsed *const p = parsed(*state, "group,class\na,zork\nb,zorg\n");
    assert_int_equal(sheet_choice(p->sheet, 0, KIND, LETTERS, 9), -1);
    assert_int_equal(sheet_choice(p->sheet, 1, KIND, LETTERS, 9), -1);
    assert_faults(p, "a.csv:2:3: class: 'zork' is none of: alpha, beta, gamma, delta, epsilon, "
                     "zeta, eta, theta, iota\n"
                     "a.csv:3:3: class: 'zorg' is none of those listed for line 2\n");
}

static void a_list_is_cut_at_its_separators(void **state) {
    static const char *const EXPECTED[] = {"older cows", "heifers", "bulls", "calves"};
    const Parsed *const p =
        parsed_cell(*state, "class", "| older cows |heifers/bulls + calves||");
    const char **pieces;
    assert_int_equal(sheet_list(p->sheet, 0, KIND, &pieces), 4);
    for (int i = 0; i < 4; i++)
        assert_string_equal(pieces[i], EXPECTED[i]);
    assert_int_equal(sheet_list(p->sheet, 0, HEAD, &pieces), 0);
}

static void a_sheet_knows_where_its_faults_go(void **state) {
    const Parsed *const p = parsed(*state, "group\n");
    assert_ptr_equal(sheet_faults(p->sheet), &p->faults);
    assert_ptr_equal(sheet_arena(p->sheet), *state);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(headings_are_found_in_any_order),
        UNIT_TEST(the_way_a_heading_is_written_does_not_matter),
        UNIT_TEST(a_heading_is_shown_as_written),
        UNIT_TEST(the_users_own_columns_are_nobodys_business),
        UNIT_TEST(an_unknown_heading_names_the_nearest),
        UNIT_TEST(an_unknown_heading_like_none_lists_them_all),
        UNIT_TEST(the_list_of_headings_is_told_once_a_file),
        UNIT_TEST(another_word_is_read_where_it_says_the_same_with_its_unit),
        UNIT_TEST(another_word_that_leaves_something_to_guess_names_the_heading),
        UNIT_TEST(nitrite_is_not_taken_for_a_nitrate),
        UNIT_TEST(a_heading_without_its_unit_says_which_there_are),
        UNIT_TEST(nitrate_without_its_ion_is_never_guessed),
        UNIT_TEST(a_heading_twice_or_in_two_units_is_a_fault),
        UNIT_TEST(a_missing_heading_that_is_needed_is_a_fault),
        UNIT_TEST(what_a_faulty_heading_hides_is_not_told_to_be_missing),
        UNIT_TEST(a_column_with_cells_but_no_heading_is_a_fault),
        UNIT_TEST(a_table_that_cannot_be_read_is_no_sheet),
        UNIT_TEST(a_row_of_nothing_but_own_columns_is_empty),
        UNIT_TEST(an_empty_cell_that_is_needed_is_a_fault),
        UNIT_TEST(numbers_come_in_the_programs_own_units),
        UNIT_TEST(nitrate_is_brought_to_per_cent_of_the_ion),
        UNIT_TEST(what_is_written_comes_back_from_own_units),
        UNIT_TEST(numbers_are_read_as_a_spreadsheet_writes_them),
        UNIT_TEST(an_empty_cell_is_not_a_number_and_not_a_fault),
        UNIT_TEST(what_is_no_number_is_placed_with_its_cure),
        UNIT_TEST(a_long_or_dirty_text_is_echoed_short_and_clean),
        UNIT_TEST(a_number_outside_its_limits_is_a_fault_in_the_unit_written),
        UNIT_TEST(the_limits_named_are_themselves_allowed),
        UNIT_TEST(a_decimal_comma_is_read_where_it_separates_nothing),
        UNIT_TEST(a_comma_that_may_part_thousands_is_a_doubt),
        UNIT_TEST(a_whole_number_has_no_fraction),
        UNIT_TEST(an_iso_date_is_read),
        UNIT_TEST(another_date_says_what_to_write),
        UNIT_TEST(a_choice_may_be_written_in_any_case_and_joined_anyhow),
        UNIT_TEST(another_choice_names_the_nearest_or_all),
        UNIT_TEST(a_long_list_of_choices_is_told_once_a_column),
        UNIT_TEST(a_list_is_cut_at_its_separators),
        UNIT_TEST(a_sheet_knows_where_its_faults_go),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "feedstuff/feed_test.h"
#include "support/own_tables.h"
#include "support/told.h"

static FeedTests parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    return feed_tests_parse(arena, faults, "feed-tests.csv", bytes, length);
}

/* As the farm is read: the stack of each test is of one feed of the book, cut on one day. */
static void read_as(Arena *arena, Faults *faults, const char *bytes, size_t length,
                    const char *book_feed) {
    const FeedTests tests = parse(arena, faults, bytes, length);
    const BookFeed *book = book_find(own_book(arena), book_feed);
    assert_non_null(book);
    feed_tests_check_class(faults, &tests, "A", book, KEPT_ANYHOW);
    const Day cut = calendar_day(2026, 7, 20), last_day = calendar_day(2027, 5, 15);
    const Day first_day = calendar_day(2026, 11, 1);
    feed_tests_check_dates(faults, &tests, "A", &cut, &first_day, &last_day);
}

static void read_row(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}
static void read_cover_crop(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "cover_crop_hay_early");
}
/* Bought: nobody knows when it was cut. */
static void read_bought(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    const FeedTests tests = parse(arena, faults, bytes, length);
    const Day first_day = calendar_day(2026, 11, 1);
    feed_tests_check_dates(faults, &tests, "A", NULL, &first_day, NULL);
}
static void read_straw(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "barley_straw");
}
static void read_alfalfa(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "alfalfa_hay_mid");
}
static void read_barley(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "barley_grain");
}
static void read_screenings(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "grain_screenings_pellets");
}
static void read_limestone(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "limestone");
}
static void read_urea(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    read_as(arena, faults, bytes, length, "urea");
}

#define TOLD_READER read_row
#define told_of(reader, marked, ...)                                                           \
    told_check(*state, reader, marked, (const char *const[]){__VA_ARGS__, NULL}, __FILE__,     \
               __LINE__)
#define nothing_told_of(reader, marked)                                                        \
    told_check(*state, reader, marked, (const char *const[]){NULL}, __FILE__, __LINE__)
#define HEAD "stack,basis,moisture_pct"

/* ---- the row itself ---- */

static void a_stack_a_basis_and_a_moisture_are_needed(void **state) {
    assert_told(HEAD "\n^,dry matter,12\n", "needed");
    assert_told(HEAD "\nA,^,12\n", "needed");
    assert_told(HEAD "\nA,dry matter,^\n", "moisture_pct: is empty and so is dry_matter_pct");
    assert_told(HEAD "\nA,^frozen,12\n", "is none of: dry matter, as fed");
    assert_told("~stack,moisture_pct\nA,12\n", "basis is missing");
}

static void moisture_and_dry_matter_have_to_agree(void **state) {
    assert_told(HEAD ",dry_matter_pct\nA,dry matter,12,^12\n", "do not add up to 100");
    assert_tells_nothing(HEAD ",dry_matter_pct\nA,dry matter,12,88\n");
    assert_told(HEAD "\nA,dry matter,^-12\nB,dry matter,^112\nC,dry matter,^12%\n", "outside",
                "outside", "leave it out and write 12");
}

static void a_part_above_its_whole_is_a_fault(void **state) {
    assert_told(HEAD ",adf_pct,ndf_pct\nA,dry matter,12,^55,36\n", "are the columns swapped?");
    assert_told(HEAD ",lignin_pct,adf_pct\nA,dry matter,12,^28,6\n",
                "are the columns swapped?");
    assert_told(HEAD ",adicp_pct,crude_protein_pct\nA,dry matter,12,^12,9\n",
                "is a part of Crude protein");
    assert_told(HEAD ",nem_mcal_per_kg,neg_mcal_per_kg\nA,dry matter,12,0.7,^1.3\n",
                "are the columns swapped?");
}

static void
parts_that_are_more_than_the_feed_are_a_fault_though_one_is_not_known(void **state) {
    assert_told(HEAD ",crude_protein_pct,ndf_pct,crude_fat_pct,ash_pct\n"
                     "A,dry matter,12,^18,75,4,12\n",
                "add up to 109.0%");
    assert_told(HEAD ",ndf_pct,ash_pct\nA,dry matter,12,^75,35\n", "add up to 110.0%");
    assert_told(HEAD ",crude_protein_pct,ndf_pct,ash_pct\nA,dry matter,12,^18,74,12\n",
                "doubt: add up to 104.0%");
}

static void more_starch_than_the_other_parts_leave_is_doubted(void **state) {
    static const char HEADING[] =
        HEAD ",crude_protein_pct,ndf_pct,crude_fat_pct,ash_pct,starch_pct\n";
    assert_told(arena_print(*state, "%sA,dry matter,12,14,52,2,8,^40\n", HEADING),
                "doubt: is more than the 24% that");
    assert_tells_nothing(arena_print(*state, "%sA,dry matter,12,14,52,2,8,25\n", HEADING));
    assert_tells_nothing(arena_print(*state, "%sA,dry matter,12,14,52,,8,40\n", HEADING));
}

static void acid_bound_protein_above_the_neutral_is_doubted(void **state) {
    static const char HEADING[] = HEAD ",crude_protein_pct,adicp_pct,ndicp_pct\n";
    assert_told(arena_print(*state, "%sA,dry matter,12,14,^1.6,1.0\n", HEADING),
                "doubt: are the columns swapped?");
    assert_tells_nothing(arena_print(*state, "%sA,dry matter,12,14,1.1,1.0\n", HEADING));
}

static void soil_and_swapped_minerals_show_in_a_forage(void **state) {
    told_of(read_cover_crop, HEAD ",ash_pct,iron_ppm\nA,dry matter,12,^15,^900\n",
            "doubt: soil in the sample?", "doubt: soil in the sample?");
    told_of(read_cover_crop, HEAD ",ndf_pct,lignin_pct\nA,dry matter,12,52,^16\n",
            "doubt: 31% of the NDF would be lignin");
    told_of(read_alfalfa, HEAD ",calcium_pct,phosphorus_pct\nA,dry matter,12,^0.2,1.2\n",
            "doubt: the wrong way about for legume forage");
    told_of(read_barley, HEAD ",calcium_pct,phosphorus_pct\nA,dry matter,12,^0.4,0.05\n",
            "doubt: the wrong way about for grain");
    nothing_told_of(read_cover_crop, HEAD ",ash_pct,iron_ppm,calcium_pct,phosphorus_pct\n"
                                          "A,dry matter,12,13,400,0.2,0.25\n");
}

static void a_sheet_of_dry_matter_typed_as_fed_is_a_fault(void **state) {
    assert_told(HEAD ",ndf_pct\nA,as fed,62,^52\n", "is the basis right?"); /* 137 % */
    assert_told(HEAD ",adf_pct\nA,as fed,62,^35\n", "is the basis right?"); /* 92 % */
}

static void zero_where_a_feed_has_some_is_a_fault_not_a_figure(void **state) {
    assert_told(HEAD ",crude_protein_pct,calcium_pct,copper_ppm\nA,dry matter,12,^0,^0,^0\n",
                "leave the cell empty", "leave the cell empty", "leave the cell empty");
    assert_tells_nothing(HEAD
                         ",crude_protein_pct,calcium_pct,copper_ppm\nA,dry matter,12,,,\n");
}

static void words_for_not_known_are_told_to_be_left_out(void **state) {
    assert_told(HEAD ",calcium_pct,zinc_ppm,iron_ppm\nA,dry matter,12,^n/a,^<5,^1o.2\n",
                "leave the cell empty when it is not known", "is a limit, not a number",
                "is not a number");
    assert_told(HEAD ",calcium_pct,zinc_ppm\nA,dry matter,12,^-0.4,^-5\n", "outside",
                "outside");
}

/* ---- nitrate ---- */

static void nitrate_without_its_ion_is_refused(void **state) {
    assert_told(HEAD ",^nitrate_pct\nA,dry matter,12,0.4\n",
                "as what the nitrate was reported");
    assert_told(HEAD ",^nitrate\nA,dry matter,12,0.4\n", "as what the nitrate was reported");
    assert_told(HEAD ",nitrate_no3_pct,^nitrate_n_ppm\nA,dry matter,12,0.4,900\n",
                "say the same thing");
}

static void every_ion_comes_out_as_the_same_nitrate(void **state) {
    /* 0.75 % NO3 = 1694 ppm NO3-N (14.007/62.004) = 1.223 % KNO3 (101.102/62.004) */
    static const char *const SAME[] = {"nitrate_no3_pct\nA,dry matter,12,0.75\n",
                                       "nitrate_no3_ppm\nA,dry matter,12,7500\n",
                                       "nitrate_n_pct\nA,dry matter,12,0.16943\n",
                                       "nitrate_n_ppm\nA,dry matter,12,1694.3\n",
                                       "nitrate_kno3_pct\nA,dry matter,12,1.2229\n",
                                       "nitrate_kno3_ppm\nA,dry matter,12,12229\n"};
    for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
        Faults faults = faults_new(*state);
        const char *bytes = arena_print(*state, HEAD ",%s", SAME[i]);
        const FeedTests tests = parse(*state, &faults, bytes, strlen(bytes));
        assert_string_equal(unit_faults(&faults, *state), "");
        assert_near(tests.tests[0].analysis.of[NUTRIENT_NITRATE].value, 0.75, 1e-4);
    }
}

static void
a_percentage_of_nitrate_under_ppm_is_a_fault_and_ppm_under_a_percentage_too(void **state) {
    assert_told(HEAD ",nitrate_no3_ppm\nA,dry matter,12,^0.85\n", "is it a percentage?");
    assert_told(HEAD ",nitrate_n_ppm\nA,dry matter,12,^0.17\n", "is it a percentage?");
    assert_told(HEAD ",nitrate_no3_pct\nA,dry matter,12,^8500\n", "outside 0 to 6");
}

static const FeedTest *read_tests(void **state, const char *bytes, FeedTests *tests) {
    Faults faults = faults_new(*state);
    *tests = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    return tests->tests;
}

/* 40 % dry matter: 200 ppm as sampled are 500 ppm of dry matter, whatever basis the rest of the
 * sheet is on. */
static void prussic_acid_dry_and_wet_each_tell_the_other(void **state) {
    static const char *const SAME[] = {
        "prussic_acid_wet_ppm\nA,as fed,60,200\n", "HCN wet ppm\nA,dry matter,60,200\n",
        "prussic_acid_dry_ppm\nA,as fed,60,500\n", "hcn_dry_mg_per_kg\nA,dry matter,60,500\n"};
    for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
        FeedTests tests;
        const FeedTest *test =
            read_tests(state, arena_print(*state, HEAD ",%s", SAME[i]), &tests);
        assert_near(test->analysis.of[NUTRIENT_PRUSSIC_ACID_WET].value, 200, 1e-9);
        assert_near(test->analysis.of[NUTRIENT_PRUSSIC_ACID_DRY].value, 500, 1e-9);
    }
    assert_told(HEAD ",prussic_acid_dry_ppm,prussic_acid_wet_ppm\nA,as fed,60,200,^500\n",
                "doubt: are the columns mixed up?");
    assert_told(HEAD ",^prussic_acid_ppm\nA,as fed,60,200\n", "prussic_acid_dry_ppm");
}

/* 1 ppm of a feed of 30 % dry matter is 3.33 ppm of dry matter [ONTARIO_MYCOTOXIN]. */
static void toxins_are_read_in_either_unit_and_on_either_basis(void **state) {
    FeedTests tests;
    const FeedTest *test =
        read_tests(state,
                   HEAD ",vomitoxin_ppm,aflatoxin_ppb,ergot_ppm,t_2_ppb,mould_cfu_per_g\n"
                        "A,as fed,70,1,6,0.3,90,800000\n",
                   &tests);
    assert_near(test->analysis.of[NUTRIENT_DON].value, 3.333, 0.001);
    assert_near(test->analysis.of[NUTRIENT_AFLATOXIN].value, 20.0, 1e-9); /* ppb */
    assert_near(test->analysis.of[NUTRIENT_ERGOT].value, 1000.0, 1e-9);   /* ppb */
    assert_near(test->analysis.of[NUTRIENT_T2].value, 0.3, 1e-12);        /* ppm */
    assert_near(test->analysis.of[NUTRIENT_MOULD].value, 800000.0, 1e-6); /* no share of mass */
    assert_int_equal(test->analysis.of[NUTRIENT_HT2].origin, FROM_NOWHERE);
}

static void a_toxin_of_zero_is_tested_and_not_found(void **state) {
    FeedTests tests;
    const FeedTest *test =
        read_tests(state, HEAD ",don_ppm,ergot_ppb\nA,dry matter,12,0,\n", &tests);
    assert_int_equal(test->analysis.of[NUTRIENT_DON].origin, FROM_LABORATORY);
    assert_near(test->analysis.of[NUTRIENT_DON].value, 0, 0);
    assert_int_equal(test->analysis.of[NUTRIENT_ERGOT].origin, FROM_NOWHERE);
}

/* The mean of 1 and 7 ppm would pass 5, and the part of the stack at 7 would not. */
static void of_several_samples_the_one_with_most_of_a_toxin_counts(void **state) {
    FeedTests tests;
    read_tests(state,
               HEAD ",cores,don_ppm,calcium_pct\nA,dry matter,12,20,1,0.4\n"
                    "A,dry matter,12,20,7,0.6\nA,dry matter,12,20,,0.5\n",
               &tests);
    const Tested tested = feed_tests_combined(&tests, "A");
    assert_near(tested.mean.of[NUTRIENT_DON].value, 7.0, 0);
    assert_near(tested.mean.of[NUTRIENT_CALCIUM].value, 0.5, 1e-12);
    assert_int_equal(tested.mean.of[NUTRIENT_ERGOT].origin, FROM_NOWHERE);
}

static void nitrate_of_zero_is_read_as_none_with_a_doubt(void **state) {
    assert_told(HEAD ",nitrate_no3_pct\nA,dry matter,12,^0\n", "doubt: none found");
}

/* ---- slips of unit ---- */

static void net_energy_of_a_pound_under_a_kilogram_is_a_fault(void **state) {
    /* TDN 60 gives NEm 1.31 Mcal/kg, 0.59 Mcal/lb */
    assert_told(HEAD ",tdn_pct,nem_mcal_per_kg\nA,dry matter,12,60,^0.59\n",
                "head the column nem_mcal_per_lb");
    assert_told(HEAD ",tdn_pct,nem_mcal_per_lb\nA,dry matter,12,60,^1.31\n",
                "head the column nem_mcal_per_kg");
    assert_told(HEAD ",tdn_pct,nem_mcal_per_kg\nA,dry matter,12,60,^1.9\n",
                "doubt: is far from");
    assert_tells_nothing(HEAD ",tdn_pct,nem_mcal_per_lb\nA,dry matter,12,60,0.59\n");
}

static void net_energy_is_judged_by_fibre_where_no_tdn_is_given(void **state) {
    told_of(read_cover_crop, HEAD ",adf_pct,nem_mcal_per_kg\nA,dry matter,12,37,^0.59\n",
            "head the column nem_mcal_per_lb");
}

static void protein_and_fibre_typed_as_shares_of_one_are_a_fault(void **state) {
    told_of(read_cover_crop,
            HEAD ",crude_protein_pct,adf_pct,ndf_pct\n"
                 "A,dry matter,12,^0.12,^^0.35,^^0.55\n",
            "was a share of one typed?", "was a share of one typed?", "doubt: is outside",
            "was a share of one typed?", "doubt: is outside");
    told_of(read_screenings, HEAD ",crude_protein_pct\nA,dry matter,12,^0.14\n",
            "was a share of one typed?");
    assert_told(HEAD ",rdp_pct_of_cp\nA,dry matter,12,^0.72\n", "write 72");
    assert_told(HEAD ",rdp_pct_of_cp\nA,dry matter,12,^9\n", "doubt: dry matter?");
    assert_told(HEAD ",soluble_protein_pct_of_cp\nA,dry matter,12,^0.4\n", "write 40");
    assert_told(HEAD ",rdp_pct_of_cp,soluble_protein_pct_of_cp\nA,dry matter,12,70,^80\n",
                "are the columns swapped?");
}

static void moisture_typed_as_a_share_or_as_zero_is_a_fault(void **state) {
    told_of(read_cover_crop, HEAD "\nA,dry matter,^0.12\n", "as the sample was received");
    told_of(read_cover_crop, HEAD "\nA,dry matter,^0\n", "as the sample was received");
    assert_told("stack,basis,dry_matter_pct\nA,dry matter,^0.88\n", "outside 5 to 100");
}

static void moisture_typed_for_dry_matter_is_doubted(void **state) {
    told_of(read_cover_crop, HEAD "\nA,dry matter,^88\n", "doubt: mixed up?");
    told_of(read_straw, "stack,basis,dry_matter_pct\nA,dry matter,^11\n", "doubt: mixed up?");
}

static void bound_protein_given_as_a_share_of_protein_is_doubted(void **state) {
    assert_told(HEAD ",crude_protein_pct,adicp_pct\nA,dry matter,12,12,^8\n",
                "doubt: write 0.96"); /* 8 % of 12 */
    assert_told(HEAD ",crude_protein_pct,adicp_pct\nA,dry matter,12,12,^2\n",
                "doubt: the feed has heated");
}

static void minerals_in_the_other_unit_are_doubted(void **state) {
    told_of(read_cover_crop,
            HEAD ",calcium_pct,copper_ppm,sodium_pct\nA,dry matter,12,^8,^0.0007,^12\n",
            "doubt: is the unit right?", "doubt: is the unit right?",
            "doubt: is the unit right?");
    nothing_told_of(read_limestone, "stack,basis,dry_matter_pct,calcium_pct,copper_ppm\n"
                                    "A,as fed,99.5,36,3\n");
    nothing_told_of(read_urea, "stack,basis,dry_matter_pct,crude_protein_pct\n"
                               "A,as fed,99,281\n");
}

static void a_tdn_far_from_the_fibres_is_doubted_at_its_cell(void **state) {
    told_of(read_cover_crop, HEAD ",adf_pct,tdn_pct\nA,dry matter,12,37,^72\n",
            "doubt: ask the laboratory");
    told_of(read_cover_crop, HEAD ",tdn_pct\nA,dry matter,12,^25\n",
            "doubt: unusual for cover-crop mix");
}

/* ---- the practice the program was asked to know ---- */

static void cover_crops_outside_the_usual_ranges_are_read_without_complaint(void **state) {
    nothing_told_of(read_cover_crop, HEAD ",crude_protein_pct\nA,dry matter,12,8\n"
                                          "A,dry matter,14,24\nA,dry matter,38,9\n"
                                          "A,dry matter,61,19\nA,dry matter,72,13\n");
}

static void a_protein_no_feed_of_the_class_has_is_doubted_at_its_cell(void **state) {
    told_of(read_cover_crop, HEAD ",crude_protein_pct\nA,dry matter,12,^44\n",
            "doubt: runs from");
    told_of(read_straw, HEAD ",crude_protein_pct\nA,dry matter,12,^15\n", "doubt: runs from");
}

/* ---- more than one row ---- */

static void the_same_sample_twice_is_told(void **state) {
    assert_told(HEAD ",sample,adf_pct\nA,dry matter,12,17,36\n^A,dry matter,13,17,37\n",
                "is already on line 2");
    assert_told(HEAD ",adf_pct,ndf_pct,ash_pct\nA,dry matter,12,36,57,9\n"
                     "^a,dry matter,12,36,57,9\n",
                "doubt: the same sample twice?");
    /* one number for two parts of one report, and the same number of two stacks */
    assert_tells_nothing(HEAD ",sample,adf_pct,calcium_pct\nA,dry matter,12,17,36,\n"
                              "A,dry matter,12,17,,0.4\nB,dry matter,12,17,36,\n");
}

static void a_sample_older_than_the_crop_is_doubted(void **state) {
    told_of(read_cover_crop,
            HEAD ",date\nA,dry matter,12,^2025-09-14\nA,dry matter,12,2026-09-14\n",
            "doubt: last year's feed?");
    told_of(read_bought,
            HEAD ",date\nA,dry matter,12,^2025-10-31\nA,dry matter,12,2025-11-01\n",
            "doubt: more than a year before feeding begins");
    told_of(read_cover_crop, HEAD ",date\nA,dry matter,12,^2028-09-14\n",
            "doubt: is the year right?");
    told_of(read_cover_crop, HEAD ",date\nA,dry matter,12,^14/09/2026\n", "write 2026-09-14");
}

static void cores_are_at_least_one(void **state) {
    assert_told(HEAD ",cores\nA,dry matter,12,^0\nA,dry matter,12,^-3\n", "outside 1 to 1000",
                "outside 1 to 1000");
}

/* ---- files ---- */

static void a_semicolon_file_with_decimal_commas_is_read(void **state) {
    Faults faults = faults_new(*state);
    const char *bytes = "\xEF\xBB\xBFStack;Basis;Moisture %;Crude protein %\r\n"
                        "A;Dry Matter;12,5;14,2\r\n";
    const FeedTests tests = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    assert_near(tests.tests[0].analysis.dry_matter.value, 87.5, 1e-9);
    assert_near(tests.tests[0].analysis.of[NUTRIENT_CRUDE_PROTEIN].value, 14.2, 1e-9);
}

static void no_file_and_no_rows_are_no_tests(void **state) {
    Faults faults = faults_new(*state);
    assert_int_equal(parse(*state, &faults, NULL, 0).count, 0);
    assert_int_equal(parse(*state, &faults, HEAD "\n", sizeof HEAD).count, 0);
    assert_int_equal(faults.wrong_count, 0);
    assert_told("@", "the file is empty");
}

static void twenty_thousand_samples_are_refused_at_once(void **state) {
    Text text = text_new(*state);
    text_add(&text, HEAD "\n");
    for (int i = 0; i < 20000; i++)
        text_print(&text, "Stack %d,dry matter,12\n", i);
    Faults faults = faults_new(*state);
    assert_int_equal(parse(*state, &faults, text.bytes, text.length).count, 0);
    assert_int_equal(faults.wrong_count, 1);
    assert_non_null(strstr(faults.first->text, "is it the right file?"));
}

static void
columns_of_the_laboratory_that_are_not_used_are_kept_without_complaint(void **state) {
    assert_tells_nothing(HEAD ",rfv,rfq,nfc_pct,nel_mcal_per_lb,laboratory,note,x_bin\n"
                              "A,dry matter,12,110,n/a,25,0.6,Lab,wet day,3\n");
    assert_told(HEAD ",^crude protien %\nA,dry matter,12,11\n",
                "did you mean 'crude_protein_pct'");
}

/* ---- as laboratories head and people write it ---- */

static void a_sheet_headed_as_the_laboratory_heads_it_is_read(void **state) {
    const char *bytes = "Stack,Lab no,Basis,Moisture %,CP %,ADF %,TDN (%),Ca (%),P %,Cu (ppm),"
                        "NO3-N ppm\n"
                        "A,7,DM,12,11,36,58,0.5,0.2,8,1000\n";
    Faults faults = faults_new(*state);
    const FeedTests tests = parse(*state, &faults, bytes, strlen(bytes));
    assert_string_equal(unit_faults(&faults, *state), "");
    const Analysis *of = &tests.tests[0].analysis;
    assert_string_equal(tests.tests[0].sample, "7");
    assert_near(of->of[NUTRIENT_CRUDE_PROTEIN].value, 11, 1e-9);
    assert_near(of->of[NUTRIENT_CALCIUM].value, 0.5, 1e-9);
    assert_near(of->of[NUTRIENT_COPPER].value, 8, 1e-9);
    /* 1,000 ppm of nitrogen are 0.1 %, and NO3 weighs 62.004 / 14.007 of its nitrogen */
    assert_near(of->of[NUTRIENT_NITRATE].value, 0.1 * 62.004 / 14.007, 1e-4);
}

static void what_the_laboratory_leaves_unsaid_is_asked_for_not_guessed(void **state) {
    assert_told(
        "^name,basis,moisture_pct,^Ca,^protein,^Zn,^NO3-N,^nitrate ppm\nA,dry matter,12\n",
        "write stack", "write calcium_pct", "write crude_protein_pct",
        "write zinc_ppm or zinc_mg_per_kg", "write nitrate_n_pct or nitrate_n_ppm",
        "has to say as what the nitrate was reported");
}

static void a_word_for_the_basis_is_read(void **state) {
    assert_tells_nothing(HEAD
                         "\nA,DM,12\nB,dry basis,12\nC,AF,12\nD,as received,12\nE,As is,12\n");
}

static void a_faulty_heading_is_told_once_and_not_for_each_row(void **state) {
    assert_told("stack,basis,^moisture\nA,dry matter,12\nB,dry matter,13\nC,dry matter,14\n",
                "'moisture' needs its unit: moisture_pct");
    assert_told("stack,basis,^DM\nA,dry matter,88\n", "write dry_matter_pct");
}

static void parts_per_million_under_a_percentage_name_the_heading(void **state) {
    assert_told(HEAD ",nitrate_n_pct\nA,dry matter,12,^1450\n",
                "it looks like ppm: head the column nitrate_n_ppm");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_a_basis_and_a_moisture_are_needed),
        UNIT_TEST(a_sheet_headed_as_the_laboratory_heads_it_is_read),
        UNIT_TEST(what_the_laboratory_leaves_unsaid_is_asked_for_not_guessed),
        UNIT_TEST(a_word_for_the_basis_is_read),
        UNIT_TEST(a_faulty_heading_is_told_once_and_not_for_each_row),
        UNIT_TEST(parts_per_million_under_a_percentage_name_the_heading),
        UNIT_TEST(moisture_and_dry_matter_have_to_agree),
        UNIT_TEST(a_part_above_its_whole_is_a_fault),
        UNIT_TEST(parts_that_are_more_than_the_feed_are_a_fault_though_one_is_not_known),
        UNIT_TEST(more_starch_than_the_other_parts_leave_is_doubted),
        UNIT_TEST(acid_bound_protein_above_the_neutral_is_doubted),
        UNIT_TEST(soil_and_swapped_minerals_show_in_a_forage),
        UNIT_TEST(a_sheet_of_dry_matter_typed_as_fed_is_a_fault),
        UNIT_TEST(zero_where_a_feed_has_some_is_a_fault_not_a_figure),
        UNIT_TEST(words_for_not_known_are_told_to_be_left_out),
        UNIT_TEST(nitrate_without_its_ion_is_refused),
        UNIT_TEST(every_ion_comes_out_as_the_same_nitrate),
        UNIT_TEST(a_percentage_of_nitrate_under_ppm_is_a_fault_and_ppm_under_a_percentage_too),
        UNIT_TEST(prussic_acid_dry_and_wet_each_tell_the_other),
        UNIT_TEST(toxins_are_read_in_either_unit_and_on_either_basis),
        UNIT_TEST(a_toxin_of_zero_is_tested_and_not_found),
        UNIT_TEST(of_several_samples_the_one_with_most_of_a_toxin_counts),
        UNIT_TEST(nitrate_of_zero_is_read_as_none_with_a_doubt),
        UNIT_TEST(net_energy_of_a_pound_under_a_kilogram_is_a_fault),
        UNIT_TEST(net_energy_is_judged_by_fibre_where_no_tdn_is_given),
        UNIT_TEST(protein_and_fibre_typed_as_shares_of_one_are_a_fault),
        UNIT_TEST(moisture_typed_as_a_share_or_as_zero_is_a_fault),
        UNIT_TEST(moisture_typed_for_dry_matter_is_doubted),
        UNIT_TEST(bound_protein_given_as_a_share_of_protein_is_doubted),
        UNIT_TEST(minerals_in_the_other_unit_are_doubted),
        UNIT_TEST(a_tdn_far_from_the_fibres_is_doubted_at_its_cell),
        UNIT_TEST(cover_crops_outside_the_usual_ranges_are_read_without_complaint),
        UNIT_TEST(a_protein_no_feed_of_the_class_has_is_doubted_at_its_cell),
        UNIT_TEST(the_same_sample_twice_is_told),
        UNIT_TEST(a_sample_older_than_the_crop_is_doubted),
        UNIT_TEST(cores_are_at_least_one),
        UNIT_TEST(a_semicolon_file_with_decimal_commas_is_read),
        UNIT_TEST(no_file_and_no_rows_are_no_tests),
        UNIT_TEST(twenty_thousand_samples_are_refused_at_once),
        UNIT_TEST(columns_of_the_laboratory_that_are_not_used_are_kept_without_complaint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

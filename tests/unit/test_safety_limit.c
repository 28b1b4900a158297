#include "cattle/safety_limit.h"
#include "feedstuff/feed_test.h"
#include "support/own_tables.h"
#include "support/told.h"

static SafetyLimits parse(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    return safety_limits_parse(arena, faults, "safety-limits.csv", bytes, length);
}

static void read_limits(Arena *arena, Faults *faults, const char *bytes, size_t length) {
    parse(arena, faults, bytes, length);
}

#define TOLD_READER read_limits
#define HEAD "limit,label,kind,subject,unit,applies_to,warn,hard,side,how_known,source\n"
#define END ",page,MB_NITRATE\n"

static SafetyLimits own_limits(void **state) {
    const EmbeddedFile *file = own_table("safety-limits.csv");
    Faults faults = faults_new(*state);
    const SafetyLimits limits = parse(*state, &faults, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, *state), "");
    return limits;
}

static const SafetyLimit *limit_named(const SafetyLimits *limits, const char *id) {
    for (int i = 0; i < limits->count; i++) {
        if (text_same(limits->limits[i].id, id))
            return &limits->limits[i];
    }
    fail_msg("no limit %s", id);
    return NULL;
}

static Feedstuff feed_of(void **state, const char *book_feed) {
    const BookFeed *book = book_find(own_book(*state), book_feed);
    assert_non_null(book);
    const FeedTests none = {NULL, NULL, 0};
    const Tested tested = feed_tests_combined(&none, "");
    return feedstuff_complete("a feed", &tested, book);
}

static void the_own_table_is_read_without_a_fault(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *dry = limit_named(&limits, "nitrate_total_dry");
    assert_int_equal(dry->kind, LIMIT_CONCENTRATION);
    assert_int_equal(dry->nutrient, NUTRIENT_NITRATE);
    assert_near(dry->hard, 0.50, 1e-12); /* % NO3, as printed in the table */
    assert_true(limit_is_watched(dry));
    assert_true(limit_applies(dry, STAGE_BIT(STAGE_DRY), DELIVERY_MIXED));
    assert_false(limit_applies(dry, STAGE_BIT(STAGE_BULL), DELIVERY_MIXED));
}

static void every_line_of_the_own_table_is_watched(void **state) {
    const SafetyLimits limits = own_limits(state);
    for (int i = 0; i < limits.count; i++) {
        if (!limit_is_watched(&limits.limits[i]))
            fail_msg("%s is not watched", limits.limits[i].id);
    }
}

/* 2,200 IU/kg for more than 60 days is printed [NRC_DAIRY_VITAMIN_D]; of A and E the figures
 * from memory and our own, as the table says. The dearest minerals of the book, 300 g to a cow
 * of 600 kg who eats 11 kg, bring 0.3 x 50,000 / 11 = 1,364 IU/kg of D: told, and still
 * allowed. */
static void vitamins_are_held_below_what_cattle_bear(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *d = limit_named(&limits, "vitamin_d_most");
    assert_int_equal(d->nutrient, NUTRIENT_VITAMIN_D);
    assert_int_equal(d->side, SIDE_MOST);
    assert_near(d->hard, 2200.0, 1e-9);
    assert_true(d->warn < 1364.0);
    assert_near(limit_named(&limits, "vitamin_a_most")->hard, 66000.0, 1e-9);
    assert_near(limit_named(&limits, "phosphorus_most")->hard, 0.7, 1e-12);
    assert_told(HEAD "a,A,concentration,vitamin_d,^ppm,all,1,2,most" END, "is not that of");
    assert_tells_nothing(HEAD "a,A,concentration,vitamin_d,iu_per_kg,all,1,2,most" END);
}

static void a_limit_on_what_nothing_is_read_of_is_kept_and_not_watched(void **state) {
    static const char BYTES[] =
        HEAD "a,A,concentration,arsenic,ppm,all,1,2,most" END "b,B,water,arsenic,mg_per_l,all,"
             "1,2,most" END;
    Faults faults = faults_new(*state);
    const SafetyLimits limits = parse(*state, &faults, BYTES, sizeof BYTES - 1);
    assert_int_equal(faults.wrong_count, 0);
    assert_int_equal(limits.count, 2);
    assert_false(limit_is_watched(&limits.limits[0]));
    assert_false(limit_is_watched(&limits.limits[1]));
    assert_false(limit_applies(&limits.limits[0], STAGE_ALL, DELIVERY_MIXED));
}

static bool holds(const SafetyLimits *limits, const char *id, Stage stage) {
    return limit_applies(limit_named(limits, id), STAGE_BIT(stage), DELIVERY_MIXED);
}

/* Clemson's "not for pregnant cows" under the one; the prairie's dilution under the other, and
 * never in the last 60 days. */
static void a_limit_of_a_practice_holds_where_the_farm_follows_it(void **state) {
    const SafetyLimits table = own_limits(state);
    Winter winter = {.farm = ""};
    const SafetyLimits strict = safety_limits_followed(*state, &table, &winter);
    assert_true(holds(&strict, "nitrate_feed_dry", STAGE_DRY));
    assert_false(holds(&strict, "nitrate_share_dry_prairie", STAGE_DRY));
    winter.practice[CHOICE_NITRATE] = 1;
    const SafetyLimits prairie = safety_limits_followed(*state, &table, &winter);
    assert_false(holds(&prairie, "nitrate_feed_dry", STAGE_DRY));
    assert_true(holds(&prairie, "nitrate_feed_dry", STAGE_NURSING));
    assert_true(holds(&prairie, "nitrate_share_dry_prairie", STAGE_DRY));
    assert_true(holds(&prairie, "nitrate_feed_late", STAGE_LATE));
    assert_true(holds(&prairie, "nitrate_feed_all", STAGE_DRY));
}

static void sulfur_is_held_to_the_usual_most_unless_the_farm_allows_more(void **state) {
    const SafetyLimits table = own_limits(state);
    Winter winter = {.farm = ""};
    const SafetyLimits usual = safety_limits_followed(*state, &table, &winter);
    assert_true(holds(&usual, "sulfur_total", STAGE_DRY));
    assert_false(holds(&usual, "sulfur_forage_diet", STAGE_DRY));
    winter.practice[CHOICE_SULFUR] = 1;
    const SafetyLimits forage = safety_limits_followed(*state, &table, &winter);
    assert_false(holds(&forage, "sulfur_total", STAGE_DRY));
    assert_true(holds(&forage, "sulfur_forage_diet", STAGE_DRY));
    assert_true(holds(&usual, "sulfur_forage_line", STAGE_DRY));
    assert_true(holds(&forage, "sulfur_forage_line", STAGE_DRY));
}

static void what_is_watched_for_in_a_feed_is_told_by_the_farmer(void **state) {
    const SafetyLimits limits = own_limits(state);
    Feedstuff hay = feed_of(state, "cover_crop_hay_late");
    assert_false(limit_covers(limit_named(&limits, "vetch_share"), &hay));
    hay.watch = WATCH_BIT(WATCH_VETCH) | WATCH_BIT(WATCH_SWEET_CLOVER);
    assert_true(limit_covers(limit_named(&limits, "vetch_share"), &hay));
    assert_false(limit_covers(limit_named(&limits, "kochia_share"), &hay));
    assert_true(limit_covers(limit_named(&limits, "sweet_clover_share"), &hay));
    /* tested, its dicoumarol counts instead */
    hay.analysis.of[NUTRIENT_DICOUMAROL] = (Reading){0.0, FROM_LABORATORY, SOURCE_NONE};
    assert_false(limit_covers(limit_named(&limits, "sweet_clover_share"), &hay));
}

static void a_limit_on_picking_holds_only_where_cattle_can_pick(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *limit = limit_named(&limits, "nitrate_feed_free_choice");
    assert_false(limit_applies(limit, STAGE_ALL, DELIVERY_MIXED));
    assert_true(limit_applies(limit, STAGE_ALL, DELIVERY_LAYERED));
    assert_true(limit_applies(limit, STAGE_BIT(STAGE_CALF), DELIVERY_FREE_CHOICE));
}

/* 0.40 % is the most of the diet in the last 60 days and for calves, so of each feed too. */
static void cattle_that_pick_in_the_last_weeks_have_the_line_of_those_weeks(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *limit = limit_named(&limits, "nitrate_feed_free_choice_late");
    assert_true(limit->hard == limit_named(&limits, "nitrate_total_late")->hard);
    assert_true(limit->hard == limit_named(&limits, "nitrate_total_calf")->hard);
    assert_true(limit_applies(limit, STAGE_BIT(STAGE_LATE), DELIVERY_FREE_CHOICE));
    assert_true(limit_applies(limit, STAGE_BIT(STAGE_CALF), DELIVERY_LAYERED));
    assert_false(limit_applies(limit, STAGE_BIT(STAGE_DRY), DELIVERY_FREE_CHOICE));
    assert_false(limit_applies(limit, STAGE_BIT(STAGE_LATE), DELIVERY_MIXED));
}

static void a_limit_on_feeds_covers_those_of_its_class(void **state) {
    const SafetyLimits limits = own_limits(state);
    const Feedstuff straw = feed_of(state, "barley_straw");
    const Feedstuff grain = feed_of(state, "barley_grain");
    const Feedstuff canola = feed_of(state, "canola_hay");
    const Feedstuff turnip = feed_of(state, "turnip_tops");
    const Feedstuff distillers = feed_of(state, "wheat_ddgs");
    const SafetyLimit *of_straw = limit_named(&limits, "straw_share_late");
    const SafetyLimit *of_canola = limit_named(&limits, "canola_forage_share");
    const SafetyLimit *of_distillers = limit_named(&limits, "distillers_share");
    assert_true(limit_covers(of_straw, &straw) && !limit_covers(of_straw, &grain));
    assert_true(limit_covers(of_canola, &canola) && !limit_covers(of_canola, &turnip));
    assert_true(limit_covers(of_distillers, &distillers) &&
                !limit_covers(of_distillers, &grain));
    assert_true(limit_covers(limit_named(&limits, "grain_weight"), &grain));
    assert_true(limit_covers(limit_named(&limits, "forage_weight"), &straw));
}

/* What is not known of bulls and calves is no reason to let them eat more of it than cows. */
static void lines_that_pages_print_for_cows_hold_for_bulls_and_calves_too(void **state) {
    const SafetyLimits limits = own_limits(state);
    for (int stage = 0; stage < STAGE_COUNT; stage++) {
        assert_true(holds(&limits, "kochia_share", (Stage)stage));
        assert_true(holds(&limits, "canola_forage_share", (Stage)stage));
        assert_true(holds(&limits, "distillers_share", (Stage)stage));
    }
}

static int straw_lines(const SafetyLimits *limits, LimitKind kind, Stage stage) {
    int count = 0;
    for (int i = 0; i < limits->count; i++) {
        const SafetyLimit *limit = &limits->limits[i];
        count += limit->kind == kind && text_same(limit->subject_text, "straw") &&
                 limit_applies(limit, STAGE_BIT(stage), DELIVERY_MIXED);
    }
    return count;
}

/* Its share gives in a winter that is short, so that nobody may be without the weight. Cows of
 * the last days are of the last 60 too. */
static void every_stage_has_one_share_and_one_weight_of_straw(void **state) {
    const SafetyLimits limits = own_limits(state);
    for (int stage = 0; stage < STAGE_COUNT; stage++) {
        const int wanted = stage == STAGE_CLOSE ? 0 : 1;
        assert_int_equal(straw_lines(&limits, LIMIT_SHARE, (Stage)stage), wanted);
        assert_int_equal(straw_lines(&limits, LIMIT_WEIGHT_SHARE, (Stage)stage), wanted);
    }
    assert_true(limit_named(&limits, "straw_weight_late")->hard <
                limit_named(&limits, "straw_weight")->hard);
}

static void triticale_silage_is_weighed_until_ergot_and_vomitoxin_are_tested(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *weighed = limit_named(&limits, "toxins_untested_share");
    const SafetyLimit *held = limit_named(&limits, "ergot_untested_share");
    Feedstuff silage = feed_of(state, "triticale_silage");
    const Feedstuff grain = feed_of(state, "triticale_grain");
    const Feedstuff oats = feed_of(state, "oat_silage");
    assert_true(weighed->caution_price > 0.0 && weighed->warn <= 0.20);
    assert_true(limit_covers(weighed, &silage) && !limit_covers(held, &silage));
    assert_true(limit_covers(weighed, &grain) && limit_covers(held, &grain));
    assert_false(limit_covers(weighed, &oats));
    silage.analysis.of[NUTRIENT_ERGOT] = (Reading){0.0, FROM_LABORATORY, SOURCE_NONE};
    assert_true(limit_covers(weighed, &silage));
    silage.analysis.of[NUTRIENT_DON] = (Reading){0.0, FROM_LABORATORY, SOURCE_NONE};
    assert_false(limit_covers(weighed, &silage));
}

/* Durum stands beside rye and triticale where ergot and vomitoxin are looked for; the book has
 * wheat alone. */
static void wheat_that_is_durum_is_held_until_it_is_tested(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *held = limit_named(&limits, "ergot_untested_share");
    Feedstuff wheat = feed_of(state, "wheat_grain");
    assert_false(limit_covers(held, &wheat));
    wheat.watch = WATCH_BIT(WATCH_DURUM);
    assert_true(limit_covers(held, &wheat));
    wheat.analysis.of[NUTRIENT_ERGOT] = (Reading){0.0, FROM_LABORATORY, SOURCE_NONE};
    assert_false(limit_covers(held, &wheat));
    assert_true(limit_covers(limit_named(&limits, "toxins_untested_share"), &wheat));
    Feedstuff straw = feed_of(state, "wheat_straw");
    straw.watch = WATCH_BIT(WATCH_DURUM);
    assert_false(limit_covers(limit_named(&limits, "toxins_untested_share"), &straw));
}

static void a_share_of_feeds_above_a_number_may_be_of_any_nutrient(void **state) {
    const SafetyLimits limits = own_limits(state);
    const SafetyLimit *cyanide = limit_named(&limits, "cyanide_share");
    assert_int_equal(cyanide->nutrient, NUTRIENT_PRUSSIC_ACID_DRY);
    assert_near(cyanide->above, 500.0, 1e-9);
    assert_near(limit_named(&limits, "nitrate_share_late")->above, 0.664, 1e-9);
    static const char BYTES[] = HEAD "a,A,share_above,arsenic>5,share,all,0,0.3,most" END;
    Faults faults = faults_new(*state);
    const SafetyLimits unknown = parse(*state, &faults, BYTES, sizeof BYTES - 1);
    assert_false(limit_is_watched(&unknown.limits[0]));
}

static void a_limit_left_half_written_is_a_fault_and_not_no_limit(void **state) {
    assert_told(HEAD "^,A,^,nitrate,pct_no3,all,0.3,0.5,^" END, "needed", "needed", "needed");
    assert_told(HEAD "a,A,concentration,^,pct_no3,^,0.3,^,most" END, "needed", "needed",
                "needed");
    assert_told(HEAD "a,A,^consentration,nitrate,pct_no3,^lat,0.3,0.5,^mots" END,
                "did you mean 'concentration'?", "'lat' is not a stage",
                "did you mean 'most'?");
    assert_told(HEAD "a,A,concentration,nitrate,pct_no3,^dry:lax,0.3,0.5,most" END,
                "names no practice");
}

static void a_limit_in_another_unit_would_never_bind_and_is_a_fault(void **state) {
    assert_told(HEAD "a,A,concentration,nitrate,^ppm,all,3000,5000,most" END,
                "is not that of nitrate, % NO3");
    assert_told(HEAD "a,A,concentration,copper,^pct,all,0.003,0.004,most" END,
                "is not that of copper, ppm");
    assert_told(HEAD "a,A,concentration,aflatoxin,^ppm,all,0.02,0.1,most" END,
                "is not that of aflatoxin, ppb");
    assert_told(HEAD "a,A,share,straw,share,late,10,^20,most" END, "shares of one");
    assert_told(HEAD "a,A,concentration,nitrate,pct_no3,all,^0.5,0.3,most" END, "beyond hard");
    assert_told(HEAD "a,A,concentration,magnesium,pct,late,^0.12,0.14,least" END,
                "beyond hard");
}

static void water_brings_nitrate_and_sulfur_by_what_winter_cattle_drink(void **state) {
    (void)state;
    /* 1000 mg/L sulfate, 4 L a kg of dry matter: 4000 mg x 0.33376 S = 1335 mg/kg = 0.1335 % */
    assert_near(water_adds(NUTRIENT_SULFUR, 1000, 0), 0.13350, 1e-4);
    assert_near(water_adds(NUTRIENT_NITRATE, 1000, 100), 0.04, 1e-12); /* 400 mg/kg */
    assert_near(water_adds(NUTRIENT_COPPER, 1000, 100), 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_own_table_is_read_without_a_fault),
        UNIT_TEST(every_line_of_the_own_table_is_watched),
        UNIT_TEST(vitamins_are_held_below_what_cattle_bear),
        UNIT_TEST(a_limit_on_what_nothing_is_read_of_is_kept_and_not_watched),
        UNIT_TEST(a_limit_of_a_practice_holds_where_the_farm_follows_it),
        UNIT_TEST(sulfur_is_held_to_the_usual_most_unless_the_farm_allows_more),
        UNIT_TEST(what_is_watched_for_in_a_feed_is_told_by_the_farmer),
        UNIT_TEST(a_limit_on_picking_holds_only_where_cattle_can_pick),
        UNIT_TEST(cattle_that_pick_in_the_last_weeks_have_the_line_of_those_weeks),
        UNIT_TEST(a_limit_on_feeds_covers_those_of_its_class),
        UNIT_TEST(lines_that_pages_print_for_cows_hold_for_bulls_and_calves_too),
        UNIT_TEST(every_stage_has_one_share_and_one_weight_of_straw),
        UNIT_TEST(triticale_silage_is_weighed_until_ergot_and_vomitoxin_are_tested),
        UNIT_TEST(wheat_that_is_durum_is_held_until_it_is_tested),
        UNIT_TEST(a_share_of_feeds_above_a_number_may_be_of_any_nutrient),
        UNIT_TEST(a_limit_left_half_written_is_a_fault_and_not_no_limit),
        UNIT_TEST(a_limit_in_another_unit_would_never_bind_and_is_a_fault),
        UNIT_TEST(water_brings_nitrate_and_sulfur_by_what_winter_cattle_drink),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

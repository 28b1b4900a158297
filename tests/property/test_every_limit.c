/* Each line of the safety table on a farm of its own, on which the cheap feed breaks it:
 * without the line the cattle eat past it, with it they stop there, and on a farm where the
 * cheap feed is harmless it changes nothing. What is eaten is multiplied out here. A line of a
 * kind or of something that has no case here fails. */
#include "base/unit_family.h"
#include "entry/farm_reading.h"
#include "outcome/plan_cautions.h"
#include "planner/winter_plan.h"
#include "support/own_tables.h"
#include "support/unit.h"
#include <string.h>

#define CHEAP_PRICE 50.0
#define MIDDLE_PRICE 100.0
#define DEAR_PRICE 200.0
#define DEAREST_PRICE 900.0

enum { MOST_TESTED = 4, MOST_FEEDS = 4, CHEAP = 0, DEAR = 1 };

typedef struct {
    Nutrient nutrient;
    double value; /* in its own unit */
} TestedValue;

typedef struct {
    const char *book, *watch_for;
    double price;
    int moisture_pct;
    TestedValue tested[MOST_TESTED];
    int tested_count;
} TrialFeed;

/* A farm of ten cows for a month, who need next to nothing but to be filled with 8 kg. */
typedef struct {
    TrialFeed feed[MOST_FEEDS];
    int feed_count;
    const char *delivery;
    double calcium_g, bunk_m;
    const char *settings; /* of winter.csv */
} Trial;

static TrialFeed trial_feed(const char *book, double price) {
    return (TrialFeed){.book = book, .watch_for = "", .price = price, .moisture_pct = 10};
}

static void test_holds(TrialFeed *feed, Nutrient nutrient, double value) {
    feed->tested[feed->tested_count++] = (TestedValue){nutrient, value};
}

/* Cheap hay and dear hay, the water clean. */
static Trial two_feeds(const char *cheap, const char *dear) {
    return (Trial){
        .feed = {trial_feed(cheap, CHEAP_PRICE), trial_feed(dear, DEAR_PRICE)},
        .feed_count = 2,
        .delivery = "mixed",
        .calcium_g = 2.0,
        .settings = "water_sulfate_mg_per_l,30\nwater_nitrate_mg_per_l,0\n",
    };
}

/* ---- the farm as files ---- */

static const char *feed_name(int feed) {
    static const char *const NAMES[MOST_FEEDS] = {"Cheap", "Dear", "Dearest", "Greenfeed"};
    return NAMES[feed];
}

static const char *heading_of(Arena *arena, Nutrient nutrient) {
    int count;
    const NutrientKind *kind = nutrient_kind(nutrient);
    return arena_print(arena, "%s%s", kind->stem, unit_forms(kind->family, &count)[0].suffix);
}

/* Two samples of each, so that nitrate carries no margin; a file for each would not be read, so
 * that every figure has a row with a column of its own. */
static const char *tests_text(Arena *arena, const Trial *trial) {
    bool is_used[NUTRIENT_COUNT] = {false};
    Text text = text_new(arena);
    text_add(&text, "stack,sample,basis,moisture_pct");
    for (int f = 0; f < trial->feed_count; f++) {
        for (int i = 0; i < trial->feed[f].tested_count; i++)
            is_used[trial->feed[f].tested[i].nutrient] = true;
    }
    for (int n = 0; n < NUTRIENT_COUNT; n++) {
        if (is_used[n])
            text_print(&text, ",%s", heading_of(arena, (Nutrient)n));
    }
    for (int row = 0; row < 2 * trial->feed_count; row++) {
        const TrialFeed *feed = &trial->feed[row / 2];
        if (feed->tested_count == 0)
            continue;
        text_print(&text, "\n%s,%d,dry matter,%d", feed_name(row / 2), row,
                   feed->moisture_pct + row % 2);
        for (int n = 0; n < NUTRIENT_COUNT; n++) {
            if (!is_used[n])
                continue;
            text_add(&text, ",");
            for (int i = 0; i < feed->tested_count; i++) {
                if (feed->tested[i].nutrient == (Nutrient)n)
                    text_print(&text, "%.10g", feed->tested[i].value);
            }
        }
    }
    text_add(&text, "\n");
    return text.bytes;
}

static const char *sale_text(Arena *arena, const Trial *trial) {
    Text text = text_new(arena);
    text_add(&text, "feed_for_sale,feed,price_per_tonne,feeding,feeding_waste_pct,watch_for\n");
    for (int f = 0; f < trial->feed_count; f++)
        text_print(&text, "%s,%s,%g,bunk,0,%s\n", feed_name(f), trial->feed[f].book,
                   trial->feed[f].price, trial->feed[f].watch_for);
    return text.bytes;
}

static void set_file(FarmRequest *request, int file, const char *bytes) {
    request->file[file] = (FileBytes){FARM_FILE_NAME[file], bytes, strlen(bytes)};
}

static const Farm *farm_of(Arena *arena, const Trial *trial) {
    FarmRequest request = {.units = UNITS_METRIC};
    set_file(&request, FARM_HERD,
             arena_print(arena,
                         "group,class,head,weight_kg,delivery,bunk_length_m\n"
                         "Cows,cow,10,600,%s,%s\n",
                         trial->delivery,
                         trial->bunk_m > 0.0 ? arena_print(arena, "%g", trial->bunk_m) : ""));
    set_file(&request, FARM_STACKS,
             "stack,kind,feed,total_tonnes,storage,feeding,value_per_tonne,groups\n"
             "Elsewhere,loose,brome_hay,1,shed,bunk,400,Others\n");
    set_file(&request, FARM_FEED_TESTS, tests_text(arena, trial));
    set_file(&request, FARM_FOR_SALE, sale_text(arena, trial));
    set_file(&request, FARM_WINTER,
             arena_print(arena, "setting,value\nfirst_day,2026-11-01\nlast_day,2026-11-30\n%s",
                         trial->settings));
    set_file(&request, FARM_NEEDS,
             arena_print(arena,
                         "group,need,value,unit\nCows,net_energy_maintenance,4,Mcal\n"
                         "Cows,metabolizable_protein,50,g\nCows,calcium,%g,g\n"
                         "Cows,phosphorus,2,g\nCows,dry_matter_most,12,kg\n"
                         "Cows,dry_matter_least,8,kg\nCows,ndf_most,20,kg\n",
                         trial->calcium_g));
    Farm *farm = ARENA_NEW(arena, Farm);
    Faults faults = faults_new(arena);
    if (!farm_read(arena, &faults, &request, farm)) {
        print_error("%s", unit_faults(&faults, arena));
        fail_msg("%s", "the farm has faults");
    }
    return farm;
}

/* ---- the plan under one line, or none ---- */

static WinterPlan plan_under(Arena *arena, const Trial *trial, const SafetyLimit *limit) {
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *farm_of(arena, trial);
    SafetyLimit *of = ARENA_NEW(arena, SafetyLimit);
    *of = limit ? *limit : (SafetyLimit){.id = ""};
    of->stages = STAGE_ALL; /* who it holds for is told by test_safety_limit.c */
    farm->limits = (SafetyLimits){of, limit ? 1 : 0};
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    *question = plan_question(arena, farm);
    assert_int_equal(question->block_count, 1);
    const WinterPlan plan = plan_winter(arena, question);
    if (plan.verdict != PLAN_BALANCED)
        fail_msg("%s: is not balanced", limit ? limit->id : "no limit");
    return plan;
}

static double known(double value) { return isnan(value) ? 0.0 : value; }

/* Place of a trial's feed among those of the question: the stack comes first. */
static double eaten(const WinterPlan *plan, int feed) {
    return plan->blocks[0].eaten[1 + feed];
}
static const PlanFeed *feed_at(const WinterPlan *plan, int feed) {
    return &plan->question->feeds[1 + feed];
}

static double brings(const WinterPlan *plan, Nutrient nutrient) {
    double sum = 0.0;
    for (int f = 0; f + 1 < plan->question->feed_count; f++)
        sum += eaten(plan, f) * known(feed_at(plan, f)->eaten[nutrient]);
    return sum;
}

/* Dry matter of the cheap feed, of forage, of what fills, of all. */
static double cheap_kg(const WinterPlan *plan) { return eaten(plan, CHEAP); }

static double sum_where(const WinterPlan *plan, bool (*is_one)(FeedClass of)) {
    double sum = 0.0;
    for (int f = 0; f + 1 < plan->question->feed_count; f++)
        sum += is_one(feed_at(plan, f)->feed->feed_class) ? eaten(plan, f) : 0.0;
    return sum;
}
static bool is_any(FeedClass of) { return of < FEED_CLASS_COUNT; }
static bool fills(FeedClass of) { return of != FEED_CLASS_MINERAL && of != FEED_CLASS_NPN; }
static bool is_forage(FeedClass of) { return feed_class_kind(of)->is_forage; }

static double of_dry_matter(const WinterPlan *plan, double amount) {
    return amount / sum_where(plan, is_any);
}

/* What a line looks at, from the ration alone. */
static double looked_at(const WinterPlan *plan, const SafetyLimit *limit) {
    const char *subject = limit->subject_text;
    const double covered =
        text_same(subject, "forage") ? sum_where(plan, is_forage) : cheap_kg(plan);
    switch (limit->kind) {
    case LIMIT_SHARE:
        return covered / sum_where(plan, fills);
    case LIMIT_SHARE_ABOVE:
        return feed_at(plan, CHEAP)->eaten[limit->nutrient] > limit->above
                   ? covered / sum_where(plan, fills)
                   : 0.0;
    case LIMIT_WEIGHT_SHARE:
        return covered / 600.0;
    case LIMIT_EACH_FEED:
    case LIMIT_DAYS_KEPT:
        return cheap_kg(plan);
    case LIMIT_CONCENTRATION:
    case LIMIT_RATIO:
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    if (text_same(subject, "salt"))
        return of_dry_matter(plan, 2.542 * brings(plan, NUTRIENT_SODIUM)) +
               4.0 * 400.0 * 2.542 / 1e4;
    if (text_same(subject, "calcium/phosphorus"))
        return brings(plan, NUTRIENT_CALCIUM) / brings(plan, NUTRIENT_PHOSPHORUS);
    if (text_same(subject, "copper/molybdenum"))
        return brings(plan, NUTRIENT_COPPER) / brings(plan, NUTRIENT_MOLYBDENUM);
    if (text_same(subject, "potassium/(calcium+magnesium)"))
        return 255.74 * brings(plan, NUTRIENT_POTASSIUM) /
               (499.0 * brings(plan, NUTRIENT_CALCIUM) +
                822.64 * brings(plan, NUTRIENT_MAGNESIUM));
    if (text_same(subject, "npn_protein/crude_protein"))
        return cheap_kg(plan) * feed_at(plan, CHEAP)->eaten[NUTRIENT_CRUDE_PROTEIN] /
               brings(plan, NUTRIENT_CRUDE_PROTEIN);
    const double water_sulfur = 4.0 * 30.0 * 0.33376 / 1e4;
    if (text_same(subject, "npn_protein/supplement_protein")) { /* hay below 7 % is none */
        const double urea =
            cheap_kg(plan) * feed_at(plan, CHEAP)->eaten[NUTRIENT_CRUDE_PROTEIN];
        const PlanFeed *hay = feed_at(plan, DEAR);
        const double of_hay = eaten(plan, DEAR) * hay->eaten[NUTRIENT_CRUDE_PROTEIN];
        const bool is_poor = hay->eaten[NUTRIENT_CRUDE_PROTEIN] < 7.0;
        return urea / (brings(plan, NUTRIENT_CRUDE_PROTEIN) - (is_poor ? of_hay : 0.0));
    }
    if (text_same(subject, "sulfur/forage_line"))
        return (of_dry_matter(plan, brings(plan, NUTRIENT_SULFUR)) + water_sulfur) /
               (0.18 + 0.80 * of_dry_matter(plan, sum_where(plan, is_forage)));
    return of_dry_matter(plan, brings(plan, limit->nutrient)) +
           (limit->nutrient == NUTRIENT_SULFUR ? water_sulfur : 0.0);
}

/* ---- a farm that tempts past the line, and one that does not ---- */

typedef struct {
    const char *subject, *book, *watch_for;
} NamedFeed;

static const NamedFeed NAMED[] = {
    {"straw", "barley_straw", ""},
    {"grain", "barley_grain", ""},
    {"meal", "canola_meal", ""},
    {"brassica", "canola_hay_late", ""},
    {"canola_forage", "canola_hay", ""},
    {"distillers_grains", "wheat_ddgs", ""},
    {"screenings_pellets", "grain_screenings_pellets", ""},
    {"vetch", "cover_crop_hay_late", "vetch"},
    {"kochia", "cover_crop_hay_late", "kochia|vetch"},
    {"buckwheat", "cover_crop_hay_late", "buckwheat"},
    {"ammoniated", "barley_straw", "ammoniated"},
    {"ammoniated_amiss", "oat_greenfeed", "ammoniated"},
    {"frozen_lumps", "barley_silage", "frozen lumps"},
    {"untested_sweet_clover", "alfalfa_hay_mid", "sweet clover"},
    {"mouldy_sweet_clover", "alfalfa_hay_mid", "sweet clover|heated"},
    {"untested_ergot", "rye_grain", ""},
    {"untested_toxins", "triticale_silage", ""},
};

/* Cheap feed of the kind against dear hay; or the kind dear, and nothing tempts. */
static Trial trial_of_named(const char *subject, bool is_tempting) {
    for (size_t i = 0; i < sizeof NAMED / sizeof NAMED[0]; i++) {
        if (!text_same(NAMED[i].subject, subject))
            continue;
        Trial trial = two_feeds(NAMED[i].book, "brome_hay");
        trial.feed[CHEAP].watch_for = NAMED[i].watch_for;
        /* so that no need of the rumen stands before the line */
        test_holds(&trial.feed[CHEAP], NUTRIENT_CRUDE_PROTEIN, 12.0);
        test_holds(&trial.feed[CHEAP], NUTRIENT_DEGRADABLE_SHARE, 80.0);
        if (!is_tempting)
            trial.feed[CHEAP].price = DEAREST_PRICE;
        return trial;
    }
    fail_msg("no case for %s", subject);
    return (Trial){.feed_count = 0};
}

/* Hay short of degradable protein, which urea brings cheaply and meal dearly. */
static Trial trial_of_urea(const SafetyLimit *limit, bool is_tempting) {
    /* with which no urea is wanted; hay of 6.5 % is a poor one, beside which urea stands alone
     */
    const bool is_held = limit->hard > 0.0 && limit->subject != SUBJECT_NPN_SUPPLEMENT;
    const double enough = is_held ? 6.5 : 9.0;
    Trial trial = two_feeds("urea", "brome_hay");
    trial.feed[trial.feed_count++] = trial_feed("canola_meal", DEAREST_PRICE);
    test_holds(&trial.feed[DEAR], NUTRIENT_CRUDE_PROTEIN, is_tempting ? 3.2 : enough);
    test_holds(&trial.feed[DEAR], NUTRIENT_DEGRADABLE_SHARE, is_tempting ? 50.0 : 80.0);
    return trial;
}

/* Hay short of calcium, which limestone brings cheaply and alfalfa dearly. */
static Trial trial_of_mineral(bool is_tempting) {
    Trial trial = two_feeds("limestone", "brome_hay");
    trial.feed[trial.feed_count++] = trial_feed("alfalfa_hay_mid", DEAREST_PRICE);
    test_holds(&trial.feed[DEAR], NUTRIENT_CALCIUM, 0.25);
    trial.calcium_g = is_tempting ? 195.0 : 60.0;
    return trial;
}

static Trial trial_of_share(const SafetyLimit *limit, bool is_tempting) {
    const char *subject = limit->subject_text;
    if (limit->kind == LIMIT_SHARE_ABOVE) {
        Trial trial = two_feeds("oat_greenfeed", "brome_hay");
        test_holds(&trial.feed[CHEAP], limit->nutrient,
                   limit->above * (is_tempting ? 1.01 : 0.99));
        test_holds(&trial.feed[DEAR], limit->nutrient, 0.0);
        return trial;
    }
    if (text_same(subject, "urea"))
        return trial_of_urea(limit, is_tempting);
    if (text_same(subject, "mineral"))
        return trial_of_mineral(is_tempting);
    if (text_same(subject, "forage")) /* a least: what is not forage is cheap, or is dear */
        return is_tempting ? two_feeds("barley_grain", "brome_hay")
                           : two_feeds("brome_hay", "barley_grain");
    return trial_of_named(subject, is_tempting);
}

static Trial trial_of_content(const SafetyLimit *limit, bool is_tempting) {
    Trial trial = two_feeds("brome_hay", "brome_hay");
    const bool is_salt = limit->subject == SUBJECT_SALT;
    const Nutrient nutrient = is_salt ? NUTRIENT_SODIUM : limit->nutrient;
    const double hard = is_salt ? limit->hard / 2.542 : limit->hard;
    const bool is_most = limit->side == SIDE_MOST;
    if (is_salt) /* with 0.41 % of salt from the water */
        trial.settings = "water_sulfate_mg_per_l,30\nwater_nitrate_mg_per_l,0\n"
                         "water_sodium_mg_per_l,400\n";
    test_holds(&trial.feed[CHEAP], nutrient, hard * (is_most == is_tempting ? 1.5 : 0.6));
    test_holds(&trial.feed[DEAR], nutrient, hard * (is_most ? 0.3 : 2.5));
    if (nutrient == NUTRIENT_CRUDE_PROTEIN) { /* the rumen has enough of it either way */
        test_holds(&trial.feed[CHEAP], NUTRIENT_DEGRADABLE_SHARE, 95.0);
        test_holds(&trial.feed[DEAR], NUTRIENT_DEGRADABLE_SHARE, 95.0);
        test_holds(&trial.feed[CHEAP], NUTRIENT_TDN, 45.0);
        test_holds(&trial.feed[DEAR], NUTRIENT_TDN, 45.0);
        trial.feed[CHEAP].tested[0].value = is_tempting ? 6.0 : 9.0;
    }
    return trial;
}

static Trial trial_of_each_feed(const SafetyLimit *limit, bool is_tempting) {
    Trial trial = two_feeds("cover_crop_hay_late", "brome_hay");
    test_holds(&trial.feed[DEAR], NUTRIENT_NITRATE, 0.0);
    if (limit->subject == SUBJECT_HEATED) {
        trial.feed[CHEAP].watch_for = "heated";
        test_holds(&trial.feed[CHEAP], NUTRIENT_NITRATE, is_tempting ? 0.31 : 0.29);
        return trial;
    }
    if (limit->subject ==
        SUBJECT_UREA_BESIDE) { /* hay that is short of protein, and greenfeed */
        trial = trial_of_urea(limit, true);
        TrialFeed *greenfeed = &trial.feed[trial.feed_count++];
        *greenfeed = trial_feed("oat_greenfeed", MIDDLE_PRICE);
        test_holds(greenfeed, NUTRIENT_NITRATE, is_tempting ? 0.45 : 0.29);
        test_holds(greenfeed, NUTRIENT_CRUDE_PROTEIN, 3.2);
        test_holds(greenfeed, NUTRIENT_DEGRADABLE_SHARE, 50.0);
        return trial;
    }
    if (limit->nutrient != NUTRIENT_NITRATE)
        test_holds(&trial.feed[CHEAP], NUTRIENT_NITRATE, 0.0);
    test_holds(&trial.feed[CHEAP], limit->nutrient, limit->hard * (is_tempting ? 1.01 : 0.99));
    return trial;
}

/* For sale from the first day of November, when it lay there at the latest: nobody waits as
 * long as the month is, or it was tested, and then the days are nothing. */
static Trial trial_of_days(const SafetyLimit *limit, bool is_tempting) {
    Trial trial = two_feeds("sorghum_sudan_silage", "brome_hay");
    test_holds(&trial.feed[CHEAP], NUTRIENT_NITRATE, 0.0);
    trial.feed[CHEAP].watch_for = "frosted";
    trial.feed[CHEAP].moisture_pct = 50;
    if (!is_tempting)
        test_holds(&trial.feed[CHEAP], NUTRIENT_PRUSSIC_ACID_DRY, 0.0);
    assert_true(limit->hard >= 30.0); /* days of the winter */
    return trial;
}

typedef struct {
    const char *subject;
    LimitSide side;
    struct {
        Nutrient nutrient;
        double cheap, dear, mild;
    } values[3];
    int count;
} RatioCase;

static const RatioCase RATIOS[] = {
    {"calcium/phosphorus",
     SIDE_LEAST,
     {{NUTRIENT_CALCIUM, 0.2, 0.8, 0.6}, {NUTRIENT_PHOSPHORUS, 0.3, 0.2, 0.2}},
     2},
    {"calcium/phosphorus",
     SIDE_MOST,
     {{NUTRIENT_CALCIUM, 1.6, 0.3, 0.5}, {NUTRIENT_PHOSPHORUS, 0.1, 0.2, 0.2}},
     2},
    {"potassium/(calcium+magnesium)",
     SIDE_MOST,
     {{NUTRIENT_POTASSIUM, 3.0, 1.0, 1.0},
      {NUTRIENT_CALCIUM, 0.2, 0.6, 0.6},
      {NUTRIENT_MAGNESIUM, 0.1, 0.2, 0.2}},
     3},
    {"copper/molybdenum",
     SIDE_LEAST,
     {{NUTRIENT_COPPER, 5.0, 10.0, 10.0}, {NUTRIENT_MOLYBDENUM, 5.0, 1.0, 1.0}},
     2},
};

static Trial trial_of_ratio(const SafetyLimit *limit, bool is_tempting) {
    if (limit->subject == SUBJECT_NPN_PROTEIN || limit->subject == SUBJECT_NPN_SUPPLEMENT)
        return trial_of_urea(limit, is_tempting);
    if (limit->subject == SUBJECT_SULFUR_LINE) { /* 0.18 % without forage */
        Trial trial = two_feeds("barley_grain", "brome_hay");
        test_holds(&trial.feed[CHEAP], NUTRIENT_SULFUR, is_tempting ? 0.30 : 0.12);
        test_holds(&trial.feed[DEAR], NUTRIENT_SULFUR, 0.10);
        return trial;
    }
    for (size_t i = 0; i < sizeof RATIOS / sizeof RATIOS[0]; i++) {
        const RatioCase *of = &RATIOS[i];
        if (!text_same(of->subject, limit->subject_text) || of->side != limit->side)
            continue;
        Trial trial = two_feeds("brome_hay", "brome_hay");
        for (int v = 0; v < of->count; v++) {
            test_holds(&trial.feed[CHEAP], of->values[v].nutrient,
                       is_tempting ? of->values[v].cheap : of->values[v].mild);
            test_holds(&trial.feed[DEAR], of->values[v].nutrient, of->values[v].dear);
        }
        return trial;
    }
    fail_msg("no case for %s", limit->id);
    return (Trial){.feed_count = 0};
}

static Trial trial_when_mixed(const SafetyLimit *limit, bool is_tempting) {
    switch (limit->kind) {
    case LIMIT_CONCENTRATION:
        return trial_of_content(limit, is_tempting);
    case LIMIT_EACH_FEED:
        return trial_of_each_feed(limit, is_tempting);
    case LIMIT_DAYS_KEPT:
        return trial_of_days(limit, is_tempting);
    case LIMIT_SHARE:
    case LIMIT_SHARE_ABOVE:
    case LIMIT_WEIGHT_SHARE:
        return trial_of_share(limit, is_tempting);
    case LIMIT_RATIO:
        return trial_of_ratio(limit, is_tempting);
    case LIMIT_WATER:
    case LIMIT_FACILITY:
    case LIMIT_KIND_COUNT:
        break;
    }
    fail_msg("no case for %s", limit->id);
    return (Trial){.feed_count = 0};
}

static Trial trial_of(const SafetyLimit *limit, bool is_tempting) {
    Trial trial = trial_when_mixed(limit, is_tempting);
    if (limit->condition == CONDITION_NOT_MIXED)
        trial.delivery = "free choice";
    return trial;
}

/* ---- the laws ---- */

#define CLOSE 1e-6
#define NEAR_THE_LINE 0.97 /* rations are evened out within a little of the least cost */

static bool is_past(LimitSide side, double bound, double value) {
    return side == SIDE_MOST ? value > bound * (1.0 + CLOSE) + CLOSE
                             : value < bound * (1.0 - CLOSE) - CLOSE;
}

/* A share that may be all of a diet only weighs: a little cheaper is not enough to pass it. */
static bool only_weighs(const SafetyLimit *limit) {
    return (limit->kind == LIMIT_SHARE || limit->kind == LIMIT_SHARE_ABOVE) &&
           limit->side == SIDE_MOST && limit->hard >= 1.0;
}

#define A_LITTLE_CHEAPER (DEAR_PRICE - 5.0)

static void try_weighed(Arena *arena, const SafetyLimit *limit) {
    Trial trial = trial_of(limit, true);
    trial.feed[CHEAP].price = A_LITTLE_CHEAPER;
    const WinterPlan freely = plan_under(arena, &trial, NULL);
    const WinterPlan held = plan_under(arena, &trial, limit);
    const double past = looked_at(&freely, limit), at = looked_at(&held, limit);
    if (!is_past(SIDE_MOST, limit->warn, past))
        fail_msg("%s: nothing tempts past %g: %g", limit->id, limit->warn, past);
    if (is_past(SIDE_MOST, limit->warn, at) || at < limit->warn * NEAR_THE_LINE)
        fail_msg("%s: stops at %g, and not at %g", limit->id, at, limit->warn);
    const Trial dear = trial_of(limit, true);
    const WinterPlan needed = plan_under(arena, &dear, limit);
    if (!is_past(SIDE_MOST, limit->warn, looked_at(&needed, limit)))
        fail_msg("%s: forbids what much money speaks for", limit->id);
}

static void try_ration(Arena *arena, const SafetyLimit *limit) {
    /* a feed that breaks a line on each feed is not eaten at all */
    const bool is_all_or_none =
        limit->kind == LIMIT_EACH_FEED || limit->kind == LIMIT_DAYS_KEPT;
    const double bound = is_all_or_none ? 0.0 : limit->hard;
    const LimitSide side = is_all_or_none ? SIDE_MOST : limit->side;
    const Trial tempting = trial_of(limit, true);
    const WinterPlan freely = plan_under(arena, &tempting, NULL);
    const WinterPlan held = plan_under(arena, &tempting, limit);
    const double past = looked_at(&freely, limit), at = looked_at(&held, limit);
    if (!is_past(side, bound, past))
        fail_msg("%s: nothing tempts past %g: %g", limit->id, bound, past);
    if (is_past(side, bound, at))
        fail_msg("%s: %g is past %g", limit->id, at, bound);
    const bool is_near =
        side == SIDE_MOST ? at >= bound * NEAR_THE_LINE : at <= bound / NEAR_THE_LINE;
    if (!is_near)
        fail_msg("%s: stops at %g, far from %g", limit->id, at, bound);
    const Trial mild = trial_of(limit, false);
    const WinterPlan without = plan_under(arena, &mild, NULL);
    const WinterPlan with = plan_under(arena, &mild, limit);
    const double free_value = looked_at(&without, limit), kept = looked_at(&with, limit);
    if (!is_all_or_none && is_past(side, bound, free_value))
        fail_msg("%s: the harmless farm is past it, %g", limit->id, free_value);
    if (fabs(free_value - kept) > CLOSE * fmax(fabs(free_value), 1.0))
        fail_msg("%s: %g without it, %g with it", limit->id, free_value, kept);
    if (is_all_or_none && kept <= 0.0)
        fail_msg("%s: bars a feed that keeps to it", limit->id);
}

static const Caution *caution_of(Arena *arena, const WinterPlan *plan, const char *topic) {
    const Caution *cautions;
    const int count = plan_cautions(arena, plan, UNITS_METRIC, &cautions);
    for (int i = 0; i < count; i++) {
        if (text_same(cautions[i].topic, topic))
            return &cautions[i];
    }
    return NULL;
}

static void assert_cautioned(Arena *arena, const SafetyLimit *limit, const Trial *trial,
                             const char *topic, bool is_cautioned, Severity severity) {
    const WinterPlan plan = plan_under(arena, trial, limit);
    const Caution *caution = caution_of(arena, &plan, topic);
    if ((caution != NULL) != is_cautioned)
        fail_msg("%s: %s", limit->id, caution ? caution->fact : "says nothing");
    if (caution)
        assert_int_equal(caution->severity, severity);
}

static void try_water(Arena *arena, const SafetyLimit *limit) {
    const char *setting = limit->subject == SUBJECT_WATER_SULFATE   ? "water_sulfate_mg_per_l"
                          : limit->subject == SUBJECT_WATER_NITRATE ? "water_nitrate_mg_per_l"
                          : limit->subject == SUBJECT_WATER_SOLIDS
                              ? "water_dissolved_solids_mg_per_l"
                              : NULL;
    if (!setting)
        fail_msg("no case for %s", limit->id);
    Trial trial = two_feeds("brome_hay", "brome_hay");
    trial.settings = arena_print(arena, "%s,%g\n", setting, limit->warn * 0.99);
    assert_cautioned(arena, limit, &trial, "water test", false, SEVERITY_NOTE);
    trial.settings = arena_print(arena, "%s,%g\n", setting, limit->warn * 1.01);
    assert_cautioned(arena, limit, &trial, "water test", true, SEVERITY_CAUTION);
    if (limit->subject != SUBJECT_WATER_SOLIDS)
        return; /* winter.csv refuses the others from the hard line on */
    trial.settings = arena_print(arena, "%s,%g\n", setting, limit->hard * 1.01);
    assert_cautioned(arena, limit, &trial, "water test", true, SEVERITY_DANGER);
}

static void try_bunk(Arena *arena, const SafetyLimit *limit) {
    if (limit->subject != SUBJECT_BUNK)
        fail_msg("no case for %s", limit->id);
    Trial trial = two_feeds("brome_hay", "brome_hay");
    assert_cautioned(arena, limit, &trial, "bunk space", false, SEVERITY_NOTE); /* not said */
    trial.bunk_m = 10 * limit->warn * 1.01 / 100.0; /* ten cows, cm a head */
    assert_cautioned(arena, limit, &trial, "bunk space", false, SEVERITY_NOTE);
    trial.bunk_m = 10 * limit->hard * 1.01 / 100.0;
    assert_cautioned(arena, limit, &trial, "bunk space", true, SEVERITY_CAUTION);
    trial.bunk_m = 10 * limit->hard * 0.99 / 100.0;
    assert_cautioned(arena, limit, &trial, "bunk space", true, SEVERITY_DANGER);
    trial.delivery = "free choice"; /* at a ring they take turns */
    assert_cautioned(arena, limit, &trial, "bunk space", false, SEVERITY_NOTE);
}

static void every_line_of_the_table_binds_where_it_is_broken_and_nowhere_else(void **state) {
    const EmbeddedFile *file = own_table("safety-limits.csv");
    Faults faults = faults_new(*state);
    const SafetyLimits limits =
        safety_limits_parse(*state, &faults, file->name, file->bytes, file->length);
    assert_true(limits.count > 70);
    for (int i = 0; i < limits.count; i++) {
        Arena *arena = arena_open();
        const SafetyLimit *limit = &limits.limits[i];
        if (!limit_is_watched(limit))
            fail_msg("no case for %s: it is not watched", limit->id);
        if (limit->kind == LIMIT_WATER)
            try_water(arena, limit);
        else if (limit->kind == LIMIT_FACILITY)
            try_bunk(arena, limit);
        else if (only_weighs(limit))
            try_weighed(arena, limit);
        else
            try_ration(arena, limit);
        arena_close(arena);
    }
}

/* The line does what it is for: without it urea and nitrate meet in one diet. */
static void urea_is_in_no_diet_above_0_3_nitrate(void **state) {
    const EmbeddedFile *file = own_table("safety-limits.csv");
    Faults faults = faults_new(*state);
    const SafetyLimits limits =
        safety_limits_parse(*state, &faults, file->name, file->bytes, file->length);
    const SafetyLimit *line = NULL;
    for (int i = 0; i < limits.count; i++) {
        if (limits.limits[i].subject == SUBJECT_UREA_BESIDE)
            line = &limits.limits[i];
    }
    assert_non_null(line);
    const Trial trial = trial_of(line, true);
    const WinterPlan freely = plan_under(*state, &trial, NULL);
    assert_true(cheap_kg(&freely) > 0.01);
    assert_true(of_dry_matter(&freely, brings(&freely, NUTRIENT_NITRATE)) > 0.3);
    const WinterPlan held = plan_under(*state, &trial, line);
    assert_true(cheap_kg(&held) <= 0.0);
    assert_true(of_dry_matter(&held, brings(&held, NUTRIENT_NITRATE)) > 0.3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(urea_is_in_no_diet_above_0_3_nitrate),
        UNIT_TEST(every_line_of_the_table_binds_where_it_is_broken_and_nowhere_else),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* What publications work out with pencil and paper, given to the planner: rations for a need
 * that is told, mixtures within a limit, and what a given mixture comes to by the planner's own
 * rows. A pound stands where the planner has a kilogram: it knows no difference. */
#include "published/published.h"

#include "cattle/protein_requirement.h"
#include "entry/embedded.h"
#include "feedstuff/book_value.h"
#include "feedstuff/feed_test.h"
#include "planner/winter_plan.h"
#include "support/hand_question.h"

#include <stdio.h>
#include <string.h>

#define DAYS 30
#define GRAMS_PER_PERCENT 10.0 /* in a kilogram */

/* One animal for 30 days that eats whatever it is given and of which only what the case names
 * is asked. */
static HandQuestion *one_head(Arena *arena) {
    HandQuestion *hand = hand_question(arena, DAYS);
    PlanBlock *block = hand_group(hand, "Head", 1.0, 0.0, DAYS);
    block->need.least = (IntakeLaw){.added = 1.0};
    block->need.most = (IntakeLaw){.added = 100.0};
    block->need.ndf_most_kg = NO_LIMIT;
    return hand;
}

/* As listed: nothing lost, no water in it. All its protein counts alike, whatever becomes of it
 * in the rumen, as the page adds it up. */
static void set_feed(PlanFeed *feed, double tdn, double crude_protein) {
    feed->dry_share = 1.0;
    feed->waste_share = 0.0;
    feed->eaten[NUTRIENT_NEM] = tdn / 100.0;
    feed->eaten[NUTRIENT_TDN] = 0.0;
    feed->eaten[NUTRIENT_CRUDE_PROTEIN] = crude_protein;
    feed->degraded = 0.0;
    feed->undegraded = GRAMS_PER_PERCENT * crude_protein;
}

/* in: TDN and protein needed a day; hay eaten a day, its TDN and protein %; the same and the
 * price of a first feed to buy, and of a second (price 0: there is none); which of them. The
 * cheapest amount of it a day. */
static double call_planned_amount(const double *in) {
    Arena *arena = arena_open();
    HandQuestion *hand = one_head(arena);
    PlanBlock *block = &hand->blocks[0];
    block->need.energy.maintenance = in[0];
    block->need.protein.maintenance = MP_PER_UNDEGRADED_PROTEIN * in[1] * GRAMS_PER_KG;
    set_feed(hand_own(hand, "Hay", 0.0, in[2] * DAYS), in[3], in[4]);
    set_feed(hand_offer(hand, "First", in[7]), in[5], in[6]);
    if (in[10] > 0.0)
        set_feed(hand_offer(hand, "Second", in[10]), in[8], in[9]);
    const WinterPlan plan = plan_winter(arena, &hand->question);
    const double amount =
        plan.verdict == PLAN_BALANCED ? plan.blocks[0].eaten[(int)in[11]] : (double)NAN;
    arena_close(arena);
    return amount;
}

/* in: limit, nitrate from water, of the diluent, of the hot feed, all %. The share of the hot
 * feed, which is the cheaper, in a ration of 10. */
static double call_planned_hot_share(const double *in) {
    Arena *arena = arena_open();
    HandQuestion *hand = one_head(arena);
    hand->blocks[0].need.least = (IntakeLaw){.added = 10.0};
    PlanFeed *hot = hand_own(hand, "Hot", 0.05, NO_LIMIT);
    hot->eaten[NUTRIENT_NITRATE] = in[3];
    PlanFeed *diluent = hand_own(hand, "Diluent", 0.10, NO_LIMIT);
    diluent->eaten[NUTRIENT_NITRATE] = in[2];
    hand_nitrate_limit(hand, in[0]);
    hand->farm.winter.water_nitrate_mg_per_l =
        in[1] * PPM_PER_PERCENT / WATER_PER_KG_DRY_MATTER;
    const WinterPlan plan = plan_winter(arena, &hand->question);
    const double *eaten = plan.blocks[0].eaten;
    const double share =
        plan.verdict == PLAN_BALANCED ? eaten[0] / (eaten[0] + eaten[1]) : (double)NAN;
    arena_close(arena);
    return share;
}
/* kg of diluent for a kg of hot feed: limit, diluent, hot feed */
static double call_planned_diluent(const double *in) {
    const double mixture[] = {in[0], 0.0, in[1], in[2]};
    const double hot = call_planned_hot_share(mixture);
    return (1.0 - hot) / hot;
}

/* What the row of the first limit makes of these amounts of the feeds. */
static double supplied(Arena *arena, const HandQuestion *hand, const double *eaten) {
    int count = 0;
    const BlockState state = {.diet_nem = 1.2};
    const RationLimit *const *limits = ration_limits(arena, &hand->question, 0, state, &count);
    for (int i = 0; i < count; i++) {
        if (limits[i]->safety == &hand->limits[0])
            return ration_supply(limits[i], hand->question.feed_count, eaten, 0.0);
    }
    return (double)NAN;
}

/* pairs of kg and %, three feeds, with clean water */
static double call_diet_of_three(const double *in) {
    Arena *arena = arena_open();
    HandQuestion *hand = one_head(arena);
    for (int feed = 0; feed < 3; feed++)
        hand_own(hand, "Feed", 0.1, NO_LIMIT)->eaten[NUTRIENT_NITRATE] = in[2 * feed + 1];
    hand_nitrate_limit(hand, 6.0);
    const double eaten[] = {in[0], in[2], in[4]};
    const double nitrate = supplied(arena, hand, eaten);
    arena_close(arena);
    return nitrate;
}

static double ratio_of_two(LimitSubject subject, const double *first, const double *second,
                           const Nutrient *nutrients, int count) {
    Arena *arena = arena_open();
    HandQuestion *hand = one_head(arena);
    PlanFeed *feeds[] = {hand_own(hand, "First", 0.1, NO_LIMIT),
                         hand_own(hand, "Second", 0.1, NO_LIMIT)};
    for (int i = 0; i < count; i++) {
        feeds[0]->eaten[nutrients[i]] = first[i + 1];
        feeds[1]->eaten[nutrients[i]] = second[i + 1];
    }
    hand->limits[hand->farm.limits.count++] = (SafetyLimit){.id = "ratio",
                                                            .label = "Ratio",
                                                            .kind = LIMIT_RATIO,
                                                            .subject = subject,
                                                            .stages = STAGE_ALL,
                                                            .side = SIDE_MOST,
                                                            .hard = 10.0};
    const double eaten[] = {first[0], second[0]};
    const double ratio = supplied(arena, hand, eaten);
    arena_close(arena);
    return ratio;
}
/* two feeds: kg, K, Ca, Mg % each */
static double call_tetany_of_two(const double *in) {
    static const Nutrient CATIONS[] = {NUTRIENT_POTASSIUM, NUTRIENT_CALCIUM,
                                       NUTRIENT_MAGNESIUM};
    return ratio_of_two(SUBJECT_TETANY_RATIO, in, in + 4, CATIONS, 3);
}
/* two feeds: kg, Ca, P % each */
static double call_calcium_phosphorus(const double *in) {
    static const Nutrient BONE[] = {NUTRIENT_CALCIUM, NUTRIENT_PHOSPHORUS};
    return ratio_of_two(SUBJECT_CALCIUM_TO_PHOSPHORUS, in, in + 3, BONE, 2);
}

/* What the water brings, % of dry matter: mg/L */
static double call_water_nitrate(const double *in) {
    return water_adds(NUTRIENT_NITRATE, 0.0, in[0]);
}
static double call_water_sulfur_pct(const double *in) {
    return water_adds(NUTRIENT_SULFUR, in[0], 0.0);
}
/* g a day: mg/L of sulfate, kg of dry matter a day */
static double call_water_sulfur(const double *in) {
    return call_water_sulfur_pct(in) * GRAMS_PER_PERCENT * in[1];
}

/* What the tables the program carries and its reader of feed tests make of it */

/* As they hold under the cautious practices. */
static SafetyLimits own_limits(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = embedded_find("safety-limits.csv");
    const SafetyLimits limits =
        safety_limits_parse(arena, &faults, file->name, file->bytes, file->length);
    const Winter cautious = {0}; /* the first practice of each choice */
    return safety_limits_followed(arena, &limits, &cautious);
}
/* weight -> kg or lb of straw a day that the safety table allows */
static double call_straw_most(const double *in) {
    Arena *arena = arena_open();
    const SafetyLimits limits = own_limits(arena);
    double most = (double)NAN;
    for (int i = 0; i < limits.count; i++) {
        if (strcmp(limits.limits[i].id, "straw_weight") == 0)
            most = limits.limits[i].hard * in[0];
    }
    arena_close(arena);
    return most;
}
/* 1 for cows in calf, 0 for open ones; nitrate of a feed, ppm NO3-N: the share of a mixed
 * ration that the lines on single feeds leave it, 0 where one bars it */
static double call_nitrate_feed_share(const double *in) {
    const StageSet stages = STAGE_BIT(in[0] > 0.0 ? STAGE_DRY : STAGE_OPEN);
    const double pct = in[1] * NO3_PER_NITRATE_N / PPM_PER_PERCENT;
    Arena *arena = arena_open();
    const SafetyLimits limits = own_limits(arena);
    double share = 1.0;
    for (int i = 0; i < limits.count; i++) {
        const SafetyLimit *limit = &limits.limits[i];
        const bool is_of_nitrate = limit->subject == SUBJECT_NUTRIENT &&
                                   limit->nutrient == NUTRIENT_NITRATE &&
                                   limit_applies(limit, stages, DELIVERY_MIXED);
        if (is_of_nitrate && limit->kind == LIMIT_EACH_FEED && pct > limit->hard)
            share = 0.0;
        if (is_of_nitrate && limit->kind == LIMIT_SHARE_ABOVE && pct > limit->above)
            share = fmin(share, limit->hard);
    }
    arena_close(arena);
    return share;
}
/* 0 for sorghum-sudan, 1 for millet; 1 where it froze; dry matter % a laboratory found: the
 * days it lies before any is fed */
static double call_sorghum_days_shut(const double *in) {
    Arena *arena = arena_open();
    Feedstuff feed = {.feed_class = FEED_CLASS_SORGHUM,
                      .book_feed = in[0] > 0.0 ? "millet_hay" : "sorghum_sudan_hay",
                      .watch = in[1] > 0.0 ? WATCH_BIT(WATCH_FROSTED) : 0};
    feed.analysis.dry_matter = (Reading){in[2], FROM_LABORATORY, SOURCE_NONE};
    const SafetyLimits limits = own_limits(arena);
    double days = 0.0;
    for (int i = 0; i < limits.count; i++) {
        if (limits.limits[i].kind == LIMIT_DAYS_KEPT && limit_covers(&limits.limits[i], &feed))
            days = fmax(days, limits.limits[i].hard);
    }
    arena_close(arena);
    return days;
}
/* 0 for hay, 1 for straw, that was ammoniated; 1 for cows nursing, 0 for dry ones: the most of
 * a diet that it may be by the lines on such feed */
static double call_ammoniated_share(const double *in) {
    Arena *arena = arena_open();
    const Feedstuff feed = {.feed_class = in[0] > 0.0 ? FEED_CLASS_STRAW : FEED_CLASS_GRASS,
                            .book_feed = "",
                            .watch = WATCH_BIT(WATCH_AMMONIATED)};
    const StageSet stages = STAGE_BIT(in[1] > 0.0 ? STAGE_NURSING : STAGE_DRY);
    const SafetyLimits limits = own_limits(arena);
    double share = 1.0;
    for (int i = 0; i < limits.count; i++) {
        const SafetyLimit *limit = &limits.limits[i];
        if (strncmp(limit->subject_text, "ammoniated", strlen("ammoniated")) == 0 &&
            limit_applies(limit, stages, DELIVERY_MIXED) && limit_covers(limit, &feed))
            share = fmin(share, limit->hard);
    }
    arena_close(arena);
    return share;
}
/* % of urea as it lies that stands for so much crude protein % */
static double call_urea_for_protein(const double *in) {
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = embedded_find("book-feeds.csv");
    const BookFeed *urea =
        book_find(book_parse(arena, &faults, file->name, file->bytes, file->length), "urea");
    const double protein = urea->analysis.of[NUTRIENT_CRUDE_PROTEIN].value *
                           urea->analysis.dry_matter.value / 100.0;
    arena_close(arena);
    return in[0] / protein * 100.0;
}
/* value as fed, dry matter %: as the reader of feed tests brings it onto dry matter */
static double call_dry_basis(const double *in) {
    Arena *arena = arena_open();
    Faults faults = faults_new(arena);
    char bytes[160];
    const int length = snprintf(bytes, sizeof bytes,
                                "stack,sample,basis,dry_matter_pct,iron_ppm\n"
                                "Stack,1,as fed,%.17g,%.17g\n",
                                in[1], in[0]);
    const FeedTests tests =
        feed_tests_parse(arena, &faults, "feed-tests.csv", bytes, (size_t)length);
    const double dry =
        tests.count == 1 ? tests.tests[0].analysis.of[NUTRIENT_IRON].value : (double)NAN;
    arena_close(arena);
    return dry;
}
/* price as fed, % wasted -> what is paid for a unit eaten */
static double call_price_after_loss(const double *in) {
    const PlanFeed feed = {
        .dry_share = 1.0, .price_per_kg = in[0], .waste_share = in[1] / 100.0};
    const PlanBlock block = {0};
    const HerdGroup group = {0};
    const Farm farm = {.herd = {.groups = &group, .count = 1}};
    const PlanQuestion question = {
        .farm = &farm, .feeds = &feed, .feed_count = 1, .blocks = &block, .block_count = 1};
    return plan_cost_per_eaten(&question, 0, 0);
}

const PublishedFunction PLANNED_FUNCTIONS[] = {
    {"planned_amount", 12, call_planned_amount},        /* any weight, % -> weight/day */
    {"planned_hot_share", 4, call_planned_hot_share},   /* % -> share */
    {"planned_diluent", 3, call_planned_diluent},       /* % -> kg/kg */
    {"diet_of_three", 6, call_diet_of_three},           /* kg, % -> % */
    {"tetany_of_two", 8, call_tetany_of_two},           /* kg, % -> meq/meq */
    {"calcium_phosphorus", 6, call_calcium_phosphorus}, /* kg, % -> ratio */
    {"water_nitrate", 1, call_water_nitrate},           /* mg/L -> % */
    {"water_sulfur_pct", 1, call_water_sulfur_pct},     /* mg/L -> % */
    {"water_sulfur", 2, call_water_sulfur},             /* mg/L, kg -> g/day */
    {"nitrate_feed_share", 2, call_nitrate_feed_share}, /* ppm NO3-N -> share */
    {"sorghum_days_shut", 3, call_sorghum_days_shut},   /* dry matter % -> days */
    {"ammoniated_share", 2, call_ammoniated_share},     /* -> share */
    {"straw_most", 1, call_straw_most},                 /* any weight -> weight/day */
    {"urea_for_protein", 1, call_urea_for_protein},     /* % -> % */
    {"dry_basis", 2, call_dry_basis},                   /* as it lies, DM % */
    {"price_after_loss", 2, call_price_after_loss},     /* price, % -> price */
    {NULL, 0, NULL},
};

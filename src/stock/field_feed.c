/* What a cut is worth as feed and what it costs: the stack it would make. */
#include "feedstuff/book_value.h"
#include "feedstuff/feed_energy.h"
#include "stock/field.h"
#include <math.h>

GrowingYear growing_year_expected(void) { return (GrowingYear){(double)NAN, 0.0, 0.0}; }

/* How often it rains on the cut: of one year never or always, on the whole by the chance. */
static double rain_of(const FieldCut *cut, GrowingYear year) {
    if (isnan(year.rain))
        return cut->rain_chance;
    return cut->rain_chance > 0.0 ? year.rain : 0.0;
}

/* kg of dry matter of a hectare that come home: y (1 - field loss) (1 - r rain loss), r the
 * chance of rain, or 0 or 1. [OWN_CHOICE] docs/equations/cutting-date.md */
static double dry_matter_home(const FieldCut *cut, GrowingYear year) {
    const double stands = cut->yield_kg_per_hectare *
                          fmax(1.0 + year.yield_deviations * cut->yield_spread_share, 0.0);
    return stands * (1.0 - cut->field_loss_share) *
           (1.0 - rain_of(cut, year) * cut->rain_loss_share);
}

double field_cut_put_up(const FieldCut *cut, GrowingYear year) {
    return dry_matter_home(cut, year) / cut->dry_share;
}

double field_cut_grazing(const FieldCut *cut) {
    return cut->regrowth_kg_per_hectare * cut->regrowth_use_share * cut->grazing_value_per_kg;
}

double field_cut_cost(const FieldCut *cut, GrowingYear year) {
    return cut->cost_per_hectare + field_cut_put_up(cut, year) * cut->cost_per_kg -
           field_cut_grazing(cut);
}

/* Net energy follows TDN as it does for every feed. */
static void set_tdn(Feedstuff *feed, double tdn) {
    Reading *of = feed->analysis.of;
    of[NUTRIENT_TDN].value = tdn;
    of[NUTRIENT_NEM].value = nem_from_tdn(tdn).mcal_per_kg;
    of[NUTRIENT_NEG].value = neg_from_tdn(tdn).mcal_per_kg;
}

/* Of a crop that nobody can test the book's figure is expected, and not what holds a stack back
 * until it is tested; with nitrate it is so too. */
static void expect_sulfur(Feedstuff *feed, const BookFeed *book) {
    if (!feed->sulfur_is_assumed)
        return;
    feed->analysis.of[NUTRIENT_SULFUR] = book->analysis.of[NUTRIENT_SULFUR];
    feed->sulfur_is_assumed = false;
}

/* A year as expected without rain leaves the figures as they are tested. */
static Feedstuff grown_feed(const FieldCut *cut, GrowingYear year) {
    Feedstuff feed = feedstuff_complete(cut->name, &cut->tested, cut->book);
    const double tdn_less =
        rain_of(cut, year) * cut->rain_tdn_loss - year.quality_deviations * cut->tdn_spread;
    Reading *protein = &feed.analysis.of[NUTRIENT_CRUDE_PROTEIN];
    if (tdn_less != 0.0 && reading_is_known(feed.analysis.of[NUTRIENT_TDN]))
        set_tdn(&feed, fmax(feed.analysis.of[NUTRIENT_TDN].value - tdn_less, 1.0));
    if (reading_is_known(*protein))
        protein->value =
            fmax(protein->value + year.quality_deviations * cut->protein_spread, 0.0);
    expect_sulfur(&feed, cut->book);
    feed.watch = cut->watch;
    return feed;
}

/* Of the winter after the cut: the one asked for, or the same a year on. */
static Day day_in_that_year(Day cut, Day middle) {
    Day day = cut;
    while (calendar_days_between(day, middle) < 0)
        day = calendar_add(day, -365);
    return day;
}

static double months_kept(Day cut, Day middle) {
    return calendar_days_between(day_in_that_year(cut, middle), middle) /
           STORAGE_DAYS_PER_MONTH;
}

Stack field_cut_stack(const FieldCut *cut, const Field *field, GrowingYear year, Day middle) {
    Stack stack = {
        .name = cut->name,
        .kind = cut->way->kind,
        .feed = grown_feed(cut, year),
        .cut = cut->cut,
        .counted = cut->cut,
        .has_cut = true,
        .put_up = day_in_that_year(cut->cut, middle),
        .counted_kg = field_cut_put_up(cut, year) * field->hectares,
        .waste_share = cut->waste_share,
        .protein_left = cut->protein_left,
        .storage = cut->storage,
        .feeding = cut->feeding,
        .value_per_kg = cut->value_per_kg,
        .haul_per_kg = cut->haul_per_kg,
        .yard = "",
        .allowance = cut->allowance,
        .place = cut->place,
    };
    stack.loss_is_users = !isnan(cut->storage_loss_share);
    stack.loss_share =
        stack.loss_is_users
            ? cut->storage_loss_share
            : storage_loss_between(cut->storage->loss, 0.0, months_kept(cut->cut, middle));
    return stack;
}

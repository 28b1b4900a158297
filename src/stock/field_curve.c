/* What a row does not say of its yield, protein, NDF and TDN follows its curve, moved to go
 * through what the field's other rows do say; minerals are those of the row nearest in time
 * that has them. With rows on either side the curve only shapes the way between them. */
#include "feedstuff/book_value.h"
#include "stock/field_column.h"
#include <math.h>
#include <stdlib.h>

static const Nutrient NUTRIENT_OF[GROWN_COUNT] = {
    [GROWN_YIELD] = NUTRIENT_COUNT,
    [GROWN_PROTEIN] = NUTRIENT_CRUDE_PROTEIN,
    [GROWN_NDF] = NUTRIENT_NDF,
    [GROWN_TDN] = NUTRIENT_TDN,
};

/* TDN by the best route the row's own figures allow; NAN where only the book tells. */
static double own_tdn(const FieldCut *cut) {
    if (!cut->book)
        return (double)NAN;
    const Feedstuff feed = feedstuff_complete(cut->name, &cut->tested, cut->book);
    return feed.route < ROUTE_BOOK ? feed.tdn_by_route[feed.route] : (double)NAN;
}

static double own_figure(const FieldCut *cut, Grown which) {
    if (which == GROWN_YIELD)
        return cut->yield_kg_per_hectare;
    if (which == GROWN_TDN)
        return own_tdn(cut);
    return reading_or(cut->tested.mean.of[NUTRIENT_OF[which]], (double)NAN);
}

typedef struct {
    const FieldCut *cuts;
    const double *own; /* [count] the figure of each row; NAN: it has none */
    int count;
} Records;

/* The record of the field nearest to a day on one side of it; of one day, that of the same way.
 * days NAN: there is none. */
static GrowthRecord nearest_record(const Records *records, const FieldCut *of, bool is_before) {
    GrowthRecord nearest = {(double)NAN, (double)NAN};
    bool is_same_way = false;
    for (int i = 0; i < records->count; i++) {
        const FieldCut *cut = &records->cuts[i];
        if (cut->field != of->field || !cut->has_cut || isnan(records->own[i]))
            continue;
        const int apart = calendar_days_between(of->cut, cut->cut);
        if (is_before ? apart > 0 : apart < 0)
            continue;
        const double days = of->days + apart;
        const double gap = fabs((double)apart);
        const double best = fabs(nearest.days - of->days); /* NAN at first */
        if (gap > best || (gap == best && (is_same_way || cut->way != of->way)))
            continue;
        nearest = (GrowthRecord){days, records->own[i]};
        is_same_way = cut->way == of->way;
    }
    return nearest;
}

static const double *own_figures(Arena *arena, const FieldCut *cuts, int count, Grown which) {
    double *own = ARENA_ARRAY(arena, double, count);
    for (int i = 0; i < count; i++)
        own[i] = own_figure(&cuts[i], which);
    return own;
}

/* A figure of a row that has none; NAN: nothing tells. A record of the same day needs no curve.
 */
static double filled_figure(const Records *records, const FieldCut *of, Grown which) {
    FieldCut at = *of;
    const bool has_days = !isnan(of->days);
    if (!has_days)
        at.days = 0.0; /* only a record of the day itself can be used */
    const GrowthRecord before = nearest_record(records, &at, true);
    const GrowthRecord after = nearest_record(records, &at, false);
    if (before.days == at.days)
        return before.value;
    if (!has_days || !of->curve)
        return (double)NAN;
    if (isnan(before.days) && isnan(after.days))
        return which == GROWN_YIELD ? (double)NAN : growth_at(of->curve, which, of->days);
    return growth_through_records(of->curve, which, of->days, before, after);
}

static void fill_test(FieldCut *cut, Grown which, double value) {
    if (isnan(value))
        return;
    const double most = nutrient_kind(NUTRIENT_OF[which])->most;
    cut->tested.mean.of[NUTRIENT_OF[which]] =
        (Reading){fmin(fmax(value, 1.0), most), FROM_CALCULATION, SOURCE_OWN_CHOICE};
    cut->test_by_curve[which] = true;
}

/* What changes little from one date to the next beside protein, fibre and energy. */
static bool is_carried(Nutrient nutrient) {
    const UnitFamily family = nutrient_kind(nutrient)->family;
    if (nutrient_is_hazard(nutrient))
        return false;
    return family == UNIT_TRACE || family == UNIT_VITAMIN || family == UNIT_NITRATE_ION ||
           nutrient == NUTRIENT_CALCIUM || nutrient == NUTRIENT_PHOSPHORUS ||
           nutrient == NUTRIENT_MAGNESIUM || nutrient == NUTRIENT_POTASSIUM ||
           nutrient == NUTRIENT_SODIUM || nutrient == NUTRIENT_SULFUR ||
           nutrient == NUTRIENT_CHLORIDE || nutrient == NUTRIENT_DEGRADABLE_SHARE;
}

/* The row of the field nearest in time that says this nutrient. */
static const FieldCut *nearest_with(const FieldCut *as_read, int count, const FieldCut *of,
                                    Nutrient nutrient) {
    const FieldCut *nearest = NULL;
    for (int i = 0; i < count; i++) {
        const FieldCut *cut = &as_read[i];
        if (cut->field != of->field || !cut->has_cut ||
            cut->tested.mean.of[nutrient].origin != FROM_LABORATORY)
            continue;
        if (!nearest || abs(calendar_days_between(cut->cut, of->cut)) <
                            abs(calendar_days_between(nearest->cut, of->cut)))
            nearest = cut;
    }
    return nearest;
}

static void carry_minerals(const FieldCut *as_read, int count, FieldCut *cut) {
    for (int n = 0; n < NUTRIENT_COUNT; n++) {
        if (!is_carried((Nutrient)n) || cut->tested.mean.of[n].origin == FROM_LABORATORY)
            continue;
        const FieldCut *from = nearest_with(as_read, count, cut, (Nutrient)n);
        if (!from)
            continue;
        cut->tested.mean.of[n] = from->tested.mean.of[n];
        cut->tested.mean.of[n].origin = FROM_CALCULATION;
        if (n == NUTRIENT_NITRATE)
            cut->tested.nitrate_highest = from->tested.nitrate_highest;
    }
}

static void fault_no_yield(const Sheet *sheet, int row, const FieldCut *cut) {
    const Place place = sheet_place(sheet, row, FIELD_YIELD);
    if (!sheet_is_left_out(sheet, row, FIELD_YIELD))
        return; /* it was written, and is told of where it is read */
    fault_add(sheet_faults(sheet), place,
              "yield: is empty, and %s; write what this cut would yield",
              !cut->curve        ? "no growth curve is named"
              : isnan(cut->days) ? "the curve needs a seeded_date"
                                 : "no other date of the field has one for the curve to go "
                                   "through");
}

static void doubt_days(const Sheet *sheet, int row, const FieldCut *cut) {
    const bool uses_curve =
        cut->yield_origin == GROWN_BY_CURVE || cut->test_by_curve[GROWN_TDN];
    if (uses_curve && cut->curve && !isnan(cut->days) && !growth_covers(cut->curve, cut->days))
        doubt_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_CUT_DATE),
                  "cut_date: %.0f days after seeding lies outside the %s curve, %.0f to %.0f "
                  "days; its end is taken",
                  cut->days, cut->curve->name, cut->curve->stages[0].days,
                  cut->curve->stages[cut->curve->count - 1].days);
}

/* A yield that is what came home loses nothing more in the field; one drawn through it would.
 */
static void doubt_loss(const Sheet *sheet, int row, const Records *yields,
                       const FieldCut *cut) {
    if (cut->yield_origin != GROWN_BY_CURVE || cut->field_loss_share <= 0.0)
        return;
    for (int i = 0; i < yields->count; i++) {
        if (yields->cuts[i].field == cut->field && !isnan(yields->own[i]) &&
            yields->cuts[i].field_loss_share <= 0.0) {
            doubt_add(sheet_faults(sheet), sheet_place(sheet, row, FIELD_LOSS),
                      "field_loss: %.3g%% is taken off a yield drawn through that of line %d, "
                      "which loses nothing; write 0 here too where that is what came home",
                      100.0 * cut->field_loss_share, yields->cuts[i].place.line);
            return;
        }
    }
}

void field_cuts_fill(const Sheet *sheet, FieldCut *cuts, const int *rows, int count) {
    Arena *arena = sheet_arena(sheet);
    FieldCut *as_read = ARENA_ARRAY(arena, FieldCut, count);
    Records records[GROWN_COUNT];
    for (int i = 0; i < count; i++)
        as_read[i] = cuts[i];
    for (int which = 0; which < GROWN_COUNT; which++)
        records[which] =
            (Records){as_read, own_figures(arena, as_read, count, (Grown)which), count};
    for (int i = 0; i < count; i++) {
        FieldCut *cut = &cuts[i];
        if (!cut->has_cut)
            continue;
        for (int which = 0; which < GROWN_COUNT; which++) {
            if (!isnan(records[which].own[i])) {
                cut->has_own_test |= which != GROWN_YIELD;
                continue;
            }
            const double value = filled_figure(&records[which], &as_read[i], (Grown)which);
            if (which == GROWN_YIELD) {
                cut->yield_kg_per_hectare = value;
                cut->yield_origin = GROWN_BY_CURVE;
            } else {
                fill_test(cut, (Grown)which, value);
            }
        }
        carry_minerals(as_read, count, cut);
        if (isnan(cut->yield_kg_per_hectare)) {
            fault_no_yield(sheet, rows[i], cut);
            cut->yield_kg_per_hectare = 0.0;
        }
        doubt_days(sheet, rows[i], cut);
        doubt_loss(sheet, rows[i], &records[GROWN_YIELD], cut);
    }
}

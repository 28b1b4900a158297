#include "outcome/cut_report.h"
#include "outcome/day_words.h"
#include "outcome/dearer_chart.h"
#include "outcome/weighed_words.h"
#include <math.h>

typedef double FutureFigure(const CutFindings *findings, FutureName name, int which);

/* A row of one figure a future; left out where all are nothing. */
static void futures_row(ReportTable *table, const CutFindings *findings, const char *label,
                        FutureFigure *figure, int which, double times, int decimals) {
    Cell cells[FUTURE_COUNT + 1];
    int count = 0;
    bool has_any = false;
    cells[count++] = text_cell(label);
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (!findings->is_there[name])
            continue;
        const double value = figure(findings, (FutureName)name, which) * times;
        has_any |= isfinite(value) && fabs(value) >= 0.5 * pow(10.0, -decimals);
        cells[count++] = number_cell(value, decimals);
    }
    if (has_any)
        report_row(table, cells);
}

/* ---- side by side ---- */

static double dry_matter_made(const CutFindings *findings, FutureName name) {
    double sum = 0.0;
    for (int c = 0; c < findings->farm->fields.cut_count; c++)
        sum += findings->plans[name].made_kg[c] *
               findings->plans[name].question->feeds[c].dry_share;
    return sum;
}

static double offer_bought(const CutFindings *findings, FutureName name) {
    const int feed = findings->plans[name].question->own_count + findings->wishes.offer;
    return findings->wishes.offer < 0 ? (double)NAN
                                      : findings->plans[name].plan.bought_kg[feed];
}

static double least_total(const CutFindings *findings) {
    double least = NO_LIMIT;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (findings->is_there[name] && findings->plans[name].verdict == PLAN_BALANCED)
            least = fmin(least, findings->plans[name].cost.total);
    }
    return least;
}

static void add_side_by_side(Report *report, const CutFindings *findings, Units units) {
    Arena *arena = report->arena;
    const Offer *offer = future_offer(findings);
    const ReportColumn columns[] = {
        {"number", "", "", 1},
        {"future", "Next year", "", 0},
        {"acres", "Cut", measure_unit(units, MEASURE_AREA), 1},
        {"made", "Made, dry matter", measure_unit(units, MEASURE_TONNAGE), 1},
        {"total", "Winter costs", "$", 1},
        {"more", "Dearer by", "$", 1},
        {"bought", "Bought of it", measure_unit(units, MEASURE_TONNAGE), 1},
    };
    report_section(report, "side_by_side", "Side by side");
    ReportTable *table = report_table(report, "futures", "", columns, offer ? 7 : 6);
    const double least = least_total(findings);
    PricedFuture futures[FUTURE_COUNT];
    int number = 0;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (!findings->is_there[name])
            continue;
        const CutPlan *plan = &findings->plans[name];
        const bool is_balanced = plan->verdict == PLAN_BALANCED;
        const double total = is_balanced ? plan->cost.total : (double)NAN;
        futures[number] =
            (PricedFuture){future_label(arena, findings, (FutureName)name), total};
        const Cell cells[] = {
            number_cell(++number, 0),
            text_cell(arena_print(arena, "%s%s",
                                  future_words(arena, findings, (FutureName)name),
                                  is_balanced ? "" : ": falls short")),
            measure_cell(units, MEASURE_AREA, future_hectares(findings, (FutureName)name)),
            measure_cell(units, MEASURE_TONNAGE, dry_matter_made(findings, (FutureName)name)),
            number_cell(total, 0),
            number_cell(total - least, 0),
            measure_cell(units, MEASURE_TONNAGE, offer_bought(findings, (FutureName)name))};
        report_row(table, cells);
    }
    dearer_chart(report, futures, number);
    report_paragraph(
        report,
        "Each is the cheapest balanced winter of feed for the herd as its file has it, from %s "
        "to %s, with yardage, before rations are evened out and without rules of the yard. "
        "Acres are any part of a field, and none is cut that is not wanted. Feed of "
        "stacks.csv is this winter's and is not counted%s.",
        day_short(arena, findings->farm->winter.first_day),
        day_short(arena, findings->farm->winter.last_day),
        offer ? "; all else for sale may be bought in each" : "");
    if (findings->wishes.date_count > 0)
        report_paragraph(report, "On a day that was asked for, each field is cut on its own "
                                 "date nearest to it.");
}

/* ---- acres, money, purchases, what is eaten ---- */

static double acres_figure(const CutFindings *findings, FutureName name, int cut) {
    return findings->plans[name].hectares[cut] / HECTARES_PER_ACRE;
}

static double bought_figure(const CutFindings *findings, FutureName name, int offer) {
    const CutPlan *plan = &findings->plans[name];
    return plan->plan.bought_kg[plan->question->own_count + offer];
}

static double eaten_figure(const CutFindings *findings, FutureName name, int feed) {
    const PlanFeed *of = &findings->plans[name].question->feeds[feed];
    return findings->plans[name].plan.taken_kg[feed] / plan_taken_per_eaten(of);
}

enum {
    COST_GROWING,
    COST_GRAZING,
    COST_SURPLUS,
    COST_BOUGHT,
    COST_HAULING,
    COST_YARDAGE,
    COST_CAUTIONS,
    COST_COUNT
};

static double cost_figure(const CutFindings *findings, FutureName name, int which) {
    const CutCost *cost = &findings->plans[name].cost;
    if (findings->plans[name].verdict != PLAN_BALANCED)
        return (double)NAN;
    const double of[] = {cost->growing, -cost->grazing, -cost->surplus, cost->bought,
                         cost->hauling, cost->yardage,  cost->cautions};
    return of[which];
}

static double made_figure(const CutFindings *findings, FutureName name, int cut) {
    return findings->plans[name].made_kg[cut];
}

static void add_acres(Report *report, const CutFindings *findings, Units units) {
    const Fields *fields = &findings->farm->fields;
    const double times = measure_shown(units, MEASURE_TONNAGE, 1.0);
    report_section(report, "acres", "What to cut, and when");
    ReportTable *acres =
        futures_table(report, findings, "acres", "", "Field, day and way", "acres");
    for (int c = 0; c < fields->cut_count; c++)
        futures_row(acres, findings, fields->cuts[c].name, acres_figure, c, 1.0, 0);
    ReportTable *made =
        futures_table(report, findings, "made", "What it makes, as fed, after storage",
                      "Field, day and way", measure_unit(units, MEASURE_TONNAGE));
    for (int c = 0; c < fields->cut_count; c++)
        futures_row(made, findings, fields->cuts[c].name, made_figure, c, times, 0);
}

static void add_shortages(Report *report, const CutFindings *findings) {
    for (int name = 0; name < FUTURE_COUNT; name++) {
        const CutPlan *plan = &findings->plans[name];
        if (findings->is_there[name] && plan->verdict == PLAN_SHORT)
            report_paragraph(
                report,
                "\"%s\" cannot feed the herd in balance, whatever else of the list "
                "is bought: it leaves %s. It has no cost to compare.",
                future_words(report->arena, findings, (FutureName)name),
                future_lack_words(report->arena, plan));
    }
}

static void add_cost_table(Report *report, const CutFindings *findings) {
    static const char *const LABELS[] = {"Growing and making feed",   "Regrowth grazed",
                                         "Feed left over, sold",      "Feed bought",
                                         "Hauling and feeding out",   "Yardage",
                                         "Caution lines passed weigh"};
    ReportTable *table = futures_table(report, findings, "costs", "", "", "$");
    for (int which = 0; which < COST_COUNT; which++)
        futures_row(table, findings, LABELS[which], cost_figure, which, 1.0, 0);
    Cell cells[FUTURE_COUNT + 1] = {text_cell("Total")};
    int count = 1;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        const CutPlan *plan = &findings->plans[name];
        if (findings->is_there[name])
            cells[count++] =
                number_cell(plan->verdict == PLAN_BALANCED ? plan->cost.total : (double)NAN, 0);
    }
    report_total_row(table, cells);
}

static const char *totals_weighed_words(Arena *arena, const CutFindings *findings) {
    double least = NO_LIMIT;
    double most = 0.0;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        const CutPlan *plan = &findings->plans[name];
        if (!findings->is_there[name] || plan->verdict != PLAN_BALANCED)
            continue;
        least = fmin(least, plan->cost.cautions);
        most = fmax(most, plan->cost.cautions);
    }
    return weighed_words(arena, least, most);
}

static void add_costs(Report *report, const CutFindings *findings) {
    report_section(report, "costs", "What it costs");
    if (isfinite(least_total(findings))) {
        cut_cost_chart(report, findings);
        add_cost_table(report, findings);
        const char *weighed = totals_weighed_words(report->arena, findings);
        if (weighed[0] != '\0')
            report_paragraph(report, "%s", weighed + 1);
    }
    add_shortages(report, findings);
}

static void add_purchases(Report *report, const CutFindings *findings, double times,
                          const char *unit) {
    const PlanQuestion *question = findings->plans[FUTURE_PLANNED].question;
    const int offers = question->feed_count - question->own_count;
    if (offers == 0)
        return;
    report_section(report, "purchases", "What to buy");
    ReportTable *buy = futures_table(report, findings, "purchases", "", "Feed, as fed", unit);
    for (int i = 0; i < offers; i++)
        futures_row(buy, findings, question->feeds[question->own_count + i].name, bought_figure,
                    i, times, 1);
}

static void add_feed(Report *report, const CutFindings *findings, Units units) {
    const PlanQuestion *question = findings->plans[FUTURE_PLANNED].question;
    const double times = measure_shown(units, MEASURE_TONNAGE, 1.0);
    const char *unit = measure_unit(units, MEASURE_TONNAGE);
    add_purchases(report, findings, times, unit);
    report_section(report, "eaten", "What the herd eats");
    ReportTable *eaten =
        futures_table(report, findings, "eaten",
                      "All groups, the whole winter, dry matter eaten", "Feed", unit);
    for (int f = 0; f < question->feed_count; f++)
        futures_row(eaten, findings, question->feeds[f].name, eaten_figure, f, times, 1);
}

/* ---- the mixed one by group ---- */

static void add_rations(Report *report, const CutFindings *findings, Units units) {
    const CutPlan *plan = &findings->plans[FUTURE_PLANNED];
    const PlanQuestion *question = plan->question;
    const ReportColumn columns[] = {
        {"group", "Group", "", 0},
        {"feed", "Feed", "", 0},
        {"eaten", "A head and day", measure_unit(units, MEASURE_FEED), 1},
        {"share", "Of all it eats", "%", 1},
    };
    report_section(report, "rations", "The mixed plan by group");
    ReportTable *table =
        report_table(report, "rations", "Dry matter, the mean of the winter", columns, 4);
    for (int g = 0; g < findings->farm->herd.count; g++) {
        const double *eaten = cut_mean_ration(report->arena, plan, g);
        double all = 0.0;
        for (int f = 0; f < question->feed_count; f++)
            all += eaten[f];
        const char *group = findings->farm->herd.groups[g].name;
        for (int f = 0; f < question->feed_count; f++) {
            if (eaten[f] <= 0.005 * all) /* minerals and crumbs are in the table above */
                continue;
            const Cell cells[] = {text_cell(group), text_cell(question->feeds[f].name),
                                  measure_cell(units, MEASURE_FEED, eaten[f]),
                                  number_cell(100.0 * eaten[f] / all, 0)};
            report_row(table, cells);
            group = "";
        }
    }
}

Report *cut_report(Arena *arena, const CutFindings *findings, Units units) {
    const Winter *winter = &findings->farm->winter;
    Report *report =
        report_new(arena, arena_print(arena, "Next year's cut%s%s, for a winter of %d days",
                                      winter->farm[0] != '\0' ? ": " : "", winter->farm,
                                      winter_days(winter)));
    cut_report_verdict(report, findings, units);
    add_side_by_side(report, findings, units);
    add_acres(report, findings, units);
    add_costs(report, findings);
    add_feed(report, findings, units);
    add_rations(report, findings, units);
    cut_report_turn(report, findings, units);
    cut_report_basis(report, findings, units);
    cut_report_figures(report, findings);
    return report;
}

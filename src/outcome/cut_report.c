#include "outcome/cut_report.h"
#include "base/text.h"
#include "outcome/day_words.h"
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

static double hectares_of(const CutFindings *findings, FutureName name) {
    double sum = 0.0;
    for (int c = 0; c < findings->farm->fields.cut_count; c++)
        sum += findings->plans[name].hectares[c];
    return sum;
}

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
        {"more", "More", "$", 1},
        {"bought", "Of it bought", measure_unit(units, MEASURE_TONNAGE), 1},
    };
    report_section(report, "side_by_side", "Side by side");
    ReportTable *table = report_table(report, "futures", "", columns, offer ? 7 : 6);
    const double least = least_total(findings);
    int number = 0;
    for (int name = 0; name < FUTURE_COUNT; name++) {
        if (!findings->is_there[name])
            continue;
        const CutPlan *plan = &findings->plans[name];
        const bool is_balanced = plan->verdict == PLAN_BALANCED;
        const double total = is_balanced ? plan->cost.total : (double)NAN;
        const Cell cells[] = {
            number_cell(++number, 0),
            text_cell(arena_print(arena, "%s%s",
                                  future_words(arena, findings, (FutureName)name),
                                  is_balanced ? "" : ": falls short")),
            measure_cell(units, MEASURE_AREA, hectares_of(findings, (FutureName)name)),
            measure_cell(units, MEASURE_TONNAGE, dry_matter_made(findings, (FutureName)name)),
            number_cell(total, 0),
            number_cell(total - least, 0),
            measure_cell(units, MEASURE_TONNAGE, offer_bought(findings, (FutureName)name))};
        report_row(table, cells);
    }
    report_paragraph(
        report,
        "Each is the cheapest balanced winter of %s under its heading, with yardage, before "
        "rations are evened out and without rules of the yard. Acres are any part of a field, "
        "and none is cut that is not wanted. Feed of stacks.csv is this winter's and is not "
        "counted%s.",
        findings->farm->winter.farm[0] != '\0' ? findings->farm->winter.farm : "this herd",
        offer ? "; all else for sale may be bought in each" : "");
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

enum { COST_GROWING, COST_GRAZING, COST_SURPLUS, COST_BOUGHT, COST_HAULING, COST_YARDAGE };

static double cost_figure(const CutFindings *findings, FutureName name, int which) {
    const CutCost *cost = &findings->plans[name].cost;
    if (findings->plans[name].verdict != PLAN_BALANCED)
        return (double)NAN;
    const double of[] = {cost->growing, -cost->grazing, -cost->surplus,
                         cost->bought,  cost->hauling,  cost->yardage};
    return of[which];
}

static void add_acres(Report *report, const CutFindings *findings) {
    report_section(report, "acres", "What to cut, and when");
    ReportTable *table =
        futures_table(report, findings, "acres", "", "Field, day and way", "acres");
    for (int c = 0; c < findings->farm->fields.cut_count; c++)
        futures_row(table, findings, findings->farm->fields.cuts[c].name, acres_figure, c, 1.0,
                    0);
}

/* The need that lacks the largest share of its bound. */
static const char *lack_words(Arena *arena, const CutPlan *plan) {
    double most = 0.0;
    const char *words = "the herd short";
    for (int b = 0; b < plan->question->block_count; b++) {
        const BlockOutcome *block = &plan->plan.blocks[b];
        for (int i = 0; i < block->limit_count; i++) {
            const LimitOutcome *of = &block->limits[i];
            const double bound = isfinite(of->least) ? of->least : of->most;
            const double share = of->short_by / fmax(fabs(bound), 1e-9);
            if (of->short_by <= 0.0 || of->limit->is_inner || share <= most)
                continue;
            most = share;
            words = arena_print(
                arena, "%s short of %s, most from %s",
                plan->question->farm->herd.groups[plan->question->blocks[b].group].name,
                of->limit->label, day_short(arena, plan->question->blocks[b].from));
        }
    }
    return words;
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
                lack_words(report->arena, plan));
    }
}

static void add_cost_table(Report *report, const CutFindings *findings) {
    static const char *const LABELS[] = {"Growing and making feed", "Regrowth grazed",
                                         "Feed left over, sold",    "Feed bought",
                                         "Hauling and feeding out", "Yardage"};
    ReportTable *table = futures_table(report, findings, "costs", "", "", "$");
    for (int which = 0; which <= COST_YARDAGE; which++)
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

static void add_costs(Report *report, const CutFindings *findings) {
    report_section(report, "costs", "What it costs");
    if (isfinite(least_total(findings)))
        add_cost_table(report, findings);
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
        double days = 0.0;
        double all = 0.0;
        double *eaten = ARENA_ARRAY(report->arena, double, question->feed_count);
        for (int b = 0; b < question->block_count; b++) {
            if (question->blocks[b].group != g)
                continue;
            days += question->blocks[b].days;
            for (int f = 0; f < question->feed_count; f++)
                eaten[f] += plan->plan.blocks[b].eaten[f] * question->blocks[b].days;
        }
        for (int f = 0; f < question->feed_count; f++)
            all += eaten[f];
        const char *group = findings->farm->herd.groups[g].name;
        for (int f = 0; f < question->feed_count; f++) {
            if (eaten[f] <= 0.005 * all) /* minerals and crumbs are in the table above */
                continue;
            const Cell cells[] = {text_cell(group), text_cell(question->feeds[f].name),
                                  measure_cell(units, MEASURE_FEED, eaten[f] / days),
                                  number_cell(100.0 * eaten[f] / all, 0)};
            report_row(table, cells);
            group = "";
        }
    }
}

/* ---- the verdict ---- */

static const char *price_words(Arena *arena, Units units, double per_kg) {
    return arena_print(arena, "%s a %s",
                       money_words(arena,
                                   per_kg / (units == UNITS_IMPERIAL ? 1.0 / KG_PER_SHORT_TON
                                                                     : 1.0 / KG_PER_TONNE),
                                   0),
                       units == UNITS_IMPERIAL ? "ton" : "tonne");
}

/* "Below $240 a tonne ... early is cheaper; above it, late." */
static void add_turn(Report *report, const CutFindings *findings, Units units) {
    Arena *arena = report->arena;
    const CutTurn *turn = &findings->turn;
    const Offer *offer = future_offer(findings);
    if (!offer || !findings->has_turn)
        return;
    const char *first = future_words(arena, findings, FUTURE_FIRST_BUY);
    const char *second = future_words(arena, findings, FUTURE_SECOND_BUY);
    report_section(report, "turn", "The price at which the answer turns");
    if (isnan(turn->price_per_kg)) {
        const CutPlan *a = &findings->plans[FUTURE_FIRST_BUY];
        const CutPlan *b = &findings->plans[FUTURE_SECOND_BUY];
        report_paragraph(report,
                         "%s is the cheaper of the two at any price of %s that was looked at, "
                         "from %s to %s.",
                         a->cost.total < b->cost.total ? first : second, offer->name,
                         price_words(arena, units, turn->low_per_kg),
                         price_words(arena, units, turn->high_per_kg));
        return;
    }
    const bool first_is_below = turn->first_low < turn->second_low;
    report_paragraph(report,
                     "At %s for %s the two cost the same. Below it, \"%s\" is cheaper; "
                     "above it, \"%s\". Today it is %s. Both were planned anew on "
                     "either side:",
                     price_words(arena, units, turn->price_per_kg), offer->name,
                     first_is_below ? first : second, first_is_below ? second : first,
                     price_words(arena, units, offer->price_per_kg));
    const ReportColumn columns[] = {
        {"price", "Price", measure_unit(units, MEASURE_PRICE), 1},
        {"first", first, "$", 1},
        {"second", second, "$", 1},
    };
    ReportTable *table = report_table(report, "turn", "", columns, 3);
    const Cell low[] = {measure_cell(units, MEASURE_PRICE, turn->low_per_kg),
                        number_cell(turn->first_low, 0), number_cell(turn->second_low, 0)};
    const Cell high[] = {measure_cell(units, MEASURE_PRICE, turn->high_per_kg),
                         number_cell(turn->first_high, 0), number_cell(turn->second_high, 0)};
    report_row(table, low);
    report_row(table, high);
}

/* Of the futures with one rule for all fields: the cheapest, and by how much it beats the other
 * day. */
static void add_cheapest(Text *text, const CutFindings *findings) {
    Arena *arena = text->arena;
    const FutureName best = findings->cheapest;
    if (best == FUTURE_COUNT)
        return;
    const double cost = findings->plans[best].cost.total;
    FutureName next = FUTURE_COUNT;
    for (int name = 1 - (int)best % 2; name < FUTURE_PLANNED; name += 2) {
        const CutPlan *plan = &findings->plans[name];
        if (findings->is_there[name] && plan->verdict == PLAN_BALANCED &&
            (next == FUTURE_COUNT || plan->cost.total < findings->plans[next].cost.total))
            next = (FutureName)name;
    }
    text_print(text, " With one rule for all fields, \"%s\" is cheapest, for %s more",
               future_words(arena, findings, best),
               money_words(arena, cost - findings->plans[FUTURE_PLANNED].cost.total, 0));
    if (next != FUTURE_COUNT)
        text_print(text, " and %s less than \"%s\"",
                   money_words(arena, findings->plans[next].cost.total - cost, 0),
                   future_words(arena, findings, next));
    text_add(text, ".");
}

static void add_verdict(Report *report, const CutFindings *findings, Units units) {
    Arena *arena = report->arena;
    const CutPlan *planned = &findings->plans[FUTURE_PLANNED];
    if (!findings->is_balanced) {
        report_verdict(
            report, SEVERITY_DANGER,
            "Next winter falls short with each field cut as it feeds best and all that "
            "is for sale: it leaves %s. More acres, another feed for sale or fewer "
            "cattle would mend it.",
            lack_words(arena, planned));
        return;
    }
    Text text = text_new(arena);
    text_print(
        &text, "Cheapest is to cut %s acres, each field on its own day: the winter costs %s.",
        number_words(arena, hectares_of(findings, FUTURE_PLANNED) / HECTARES_PER_ACRE, 0),
        money_words(arena, planned->cost.total, 0));
    add_cheapest(&text, findings);
    const Offer *offer = future_offer(findings);
    if (offer && findings->has_turn && !isnan(findings->turn.price_per_kg))
        text_print(&text,
                   " Between the two days the answer turns at %s for %s; today it is "
                   "%s.",
                   price_words(arena, units, findings->turn.price_per_kg), offer->name,
                   price_words(arena, units, offer->price_per_kg));
    text_print(&text, " It is a plan on expected yields and tests: see what it rests on.");
    report_verdict(report, SEVERITY_NOTE, "%s", text.bytes);
}

Report *cut_report(Arena *arena, const CutFindings *findings, Units units) {
    const Winter *winter = &findings->farm->winter;
    Report *report =
        report_new(arena, arena_print(arena, "Next year's cut%s%s, for a winter of %d days",
                                      winter->farm[0] != '\0' ? ": " : "", winter->farm,
                                      winter_days(winter)));
    add_verdict(report, findings, units);
    add_side_by_side(report, findings, units);
    add_acres(report, findings);
    add_costs(report, findings);
    add_feed(report, findings, units);
    add_rations(report, findings, units);
    add_turn(report, findings, units);
    cut_report_basis(report, findings, units);
    cut_report_figures(report, findings);
    return report;
}

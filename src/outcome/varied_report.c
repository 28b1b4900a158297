#include "outcome/varied_report.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_findings.h"
#include <math.h>

typedef struct {
    Report *report;
    const VariedCost *varied;
    Units units;
    int decimals; /* of the number */
} Varied;

/* As many as tell a thousandth of the range. */
static int decimals_of(const CurveRange *range) {
    if (range->is_whole)
        return 0;
    const double wanted = ceil(3.5 - log10(range->to - range->from));
    return wanted < 0.0 ? 0 : wanted > 6.0 ? 6 : (int)wanted;
}

static Cell value_cell(const Varied *of, double at) {
    if (of->varied->is_day)
        return text_cell(day_words(of->report->arena, (Day){(int)at}));
    return number_cell(at, of->decimals);
}

static const char *value_words(const Varied *of, double at) {
    Arena *arena = of->report->arena;
    return of->varied->is_day ? day_words(arena, (Day){(int)at})
                              : number_words(arena, at, of->decimals);
}

/* ---- break-even ---- */

#define SHOWN_OPEN 1.0 /* dollars: what is less leaves nothing open */

static const char *even_words(const Varied *of, const VariedPair *pair, const BreakEven *even) {
    const VariedFuture *futures = of->varied->futures;
    const char *below = futures[even->a_is_cheaper_below ? pair->a : pair->b].name;
    const char *above = futures[even->a_is_cheaper_below ? pair->b : pair->a].name;
    Arena *arena = of->report->arena;
    if (of->varied->range.is_whole)
        return arena_print(arena, "up to %s '%s' is the cheaper, from %s '%s'",
                           value_words(of, even->before), below, value_words(of, even->behind),
                           above);
    return arena_print(
        arena,
        "they cost the same at %s (%s in all); below it '%s' is the cheaper, above "
        "it '%s'",
        value_words(of, even->at), money_words(arena, even->cost, 0), below, above);
}

/* Where there is none: the one that is cheaper at every value of the grid that both can be
 * planned at. */
static const char *no_even_words(const Varied *of, const VariedPair *pair) {
    const VariedFuture *a = &of->varied->futures[pair->a];
    const VariedFuture *b = &of->varied->futures[pair->b];
    int cheaper_a = 0, cheaper_b = 0, both = 0;
    for (int i = 0; i < of->varied->grid_count; i++) {
        const double more = b->cost[i] - a->cost[i];
        both += isfinite(more);
        cheaper_a += more > SAME_COST_SHARE * a->cost[i];
        cheaper_b += more < -SAME_COST_SHARE * a->cost[i];
    }
    if (both == 0)
        return "at no value can both be fed in balance";
    if (cheaper_a == 0 && cheaper_b == 0)
        return "they cost the same at every value tried";
    if (cheaper_a > 0 && cheaper_b > 0)
        return "now one and now the other is the cheaper, with values between at which one of "
               "them cannot be fed in balance";
    const int cheaper = cheaper_a > 0 ? cheaper_a : cheaper_b;
    return arena_print(
        of->report->arena, "'%s' is the cheaper%s", cheaper_a > 0 ? a->name : b->name,
        cheaper < both ? ", or costs the same, at every value tried" : " at every value tried");
}

/* How far the answer may be trusted; "" where it is not known. */
static const char *open_words(const Varied *of, const VariedPair *pair) {
    Arena *arena = of->report->arena;
    Text text = text_new(arena);
    if (!isfinite(pair->open) || pair->open < SHOWN_OPEN)
        return "";
    const char *open = money_words(arena, pair->open, 0);
    if (varied_is_open_everywhere(of->varied, pair))
        return arena_print(arena,
                           " At no value tried do they differ by more than tests and weights "
                           "leave open (%s).",
                           open);
    for (int k = 0; k < pair->count; k++) {
        const CurveRange around = varied_open(of->varied, pair, &pair->found[k]);
        text_print(&text, "%s %s to %s", k > 0 ? ", and from" : " From about",
                   value_words(of, around.from), value_words(of, around.to));
    }
    if (pair->count > 0)
        text_print(&text,
                   " they differ by no more than tests and weights leave open (%s): weigh and "
                   "test before you choose by it.",
                   open);
    return text.bytes;
}

static void add_break_evens(const Varied *of) {
    for (int i = 0; i < of->varied->pair_count; i++) {
        const VariedPair *pair = &of->varied->pairs[i];
        Text text = text_new(of->report->arena);
        if (pair->other_herd && pair->count == 0)
            continue;
        for (int k = 0; k < pair->count; k++)
            text_print(&text, "%s%s", k > 0 ? "; and again: " : "",
                       even_words(of, pair, &pair->found[k]));
        report_paragraph(of->report, "'%s' and '%s': %s.%s%s",
                         of->varied->futures[pair->a].name, of->varied->futures[pair->b].name,
                         pair->count > 0 ? text.bytes : no_even_words(of, pair),
                         pair->other_herd ? " They do not both feed the days of cattle of the "
                                            "farm as it is: go by what the cattle bring, too."
                                          : "",
                         open_words(of, pair));
    }
}

/* ---- the curve ---- */

static void find_extent(const VariedCost *varied, double *least, double *most) {
    *least = HUGE_VAL;
    *most = -HUGE_VAL;
    for (int i = 0; i < varied->future_count; i++) {
        for (int at = 0; at < varied->grid_count; at++) {
            *least = fmin(*least, varied->futures[i].cost[at]); /* passes over NAN */
            *most = fmax(*most, varied->futures[i].cost[at]);
        }
    }
}

/* What the curves show: where the first two meet, or how far they reach. */
static const char *finding(const Varied *of) {
    const VariedCost *varied = of->varied;
    Arena *arena = of->report->arena;
    double least, most;
    for (int i = 0; i < varied->pair_count; i++) {
        const VariedPair *pair = &varied->pairs[i];
        if (pair->count > 0)
            return arena_print(arena, "'%s' and '%s' cost the same at %s",
                               varied->futures[pair->a].name, varied->futures[pair->b].name,
                               value_words(of, pair->found[0].at));
    }
    find_extent(varied, &least, &most);
    if (!(least <= most))
        return arena_print(arena, "At no %s can the herd be fed in balance", varied->heading);
    return arena_print(arena, "The winter costs %s to %s as %s changes",
                       money_words(arena, least, 0), money_words(arena, most, 0),
                       varied->heading);
}

static void add_chart(const Varied *of) {
    const VariedCost *varied = of->varied;
    Arena *arena = of->report->arena;
    ReportChart *chart = chart_new(arena, CHART_CURVE, "cost_curve", finding(of),
                                   (ChartAxis){varied->is_day ? AXIS_DAYS : AXIS_NUMBERS,
                                               varied->heading, "", of->decimals},
                                   (ChartAxis){AXIS_NUMBERS, "Cost at the least", "$", 0});
    chart_alternative(
        chart, "Cost of each future over %s from %s to %s; the numbers are in the tables.",
        varied->what, value_words(of, varied->range.from), value_words(of, varied->range.to));
    for (int i = 0; i < varied->future_count; i++) {
        const VariedFuture *future = &varied->futures[i];
        ChartSeries *series = chart_series(chart, future->name);
        for (int p = 0; p < future->piece_count; p++) {
            chart_point(series, future->pieces[p].from, future->pieces[p].cost_from);
            chart_point(series, future->pieces[p].to, future->pieces[p].cost_to);
        }
    }
    for (int i = 0; i < varied->pair_count; i++) {
        for (int k = 0; k < varied->pairs[i].count; k++) {
            const BreakEven *even = &varied->pairs[i].found[k];
            chart_mark(chart, arena_print(arena, "same at %s", value_words(of, even->at)),
                       even->at, even->cost);
        }
    }
    report_chart(of->report, chart);
}

#define PICTURE_COLUMNS 40

/* A line of points with the letter of each future where its cost lies; `=` for several. */
static const char *picture_line(const Varied *of, int at, double least, double most) {
    char line[PICTURE_COLUMNS + 1];
    for (int i = 0; i < PICTURE_COLUMNS; i++)
        line[i] = '.';
    line[PICTURE_COLUMNS] = '\0';
    for (int i = 0; i < of->varied->future_count; i++) {
        const double cost = of->varied->futures[i].cost[at];
        if (isnan(cost))
            continue;
        const double share = most > least ? (cost - least) / (most - least) : 0.0;
        const int place = (int)(share * (PICTURE_COLUMNS - 1) + 0.5);
        line[place] = (char)(line[place] == '.' ? 'a' + i % 26 : '=');
    }
    return arena_print(of->report->arena, "%s", line);
}

static void add_costs(const Varied *of) {
    const VariedCost *varied = of->varied;
    Arena *arena = of->report->arena;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, varied->future_count + 1);
    columns[0] = (ReportColumn){"value", varied->heading, "", !varied->is_day};
    for (int i = 0; i < varied->future_count; i++)
        columns[i + 1] = (ReportColumn){
            arena_print(arena, "future_%d", i),
            arena_print(arena, "%c: %s", 'a' + i % 26, varied->futures[i].name), "$", 1};
    ReportTable *table =
        report_table_of_chart(of->report, "cost_by_value", "In all, at the least, $", columns,
                              varied->future_count + 1);
    for (int at = 0; at < varied->grid_count; at++) {
        Cell *cells = ARENA_ARRAY(arena, Cell, varied->future_count + 1);
        cells[0] = value_cell(of, varied->grid[at]);
        for (int i = 0; i < varied->future_count; i++)
            cells[i + 1] = number_cell(varied->futures[i].cost[at], 0);
        report_row(table, cells);
    }
}

static void add_picture(const Varied *of) {
    const VariedCost *varied = of->varied;
    Arena *arena = of->report->arena;
    double least, most;
    find_extent(varied, &least, &most);
    if (!(least <= most))
        return;
    const ReportColumn columns[] = {
        {"value", varied->heading, "", !varied->is_day},
        {"picture",
         arena_print(arena, "from %s on the left to %s on the right",
                     money_words(arena, least, 0), money_words(arena, most, 0)),
         "", 0},
    };
    ReportTable *table = report_table_drawn(
        of->report, "picture", "Drawn: a letter a future, = for several", columns, 2);
    for (int at = 0; at < varied->grid_count; at++)
        report_row(table, (Cell[]){value_cell(of, varied->grid[at]),
                                   text_cell(picture_line(of, at, least, most))});
}

/* ---- pieces ---- */

#define NAMED_SHARE 0.1 /* of the most that is bought of one feed */

static const char *bought_words(const Varied *of, const CostPiece *piece) {
    const CostPoint *within = &piece->within;
    Text text = text_new(of->report->arena);
    double most = 0.0;
    if (!within->is_balanced)
        return "cannot be fed in balance";
    for (int f = 0; f < within->feed_count; f++)
        most = within->is_bought[f] ? fmax(most, within->taken_kg[f]) : most;
    for (int f = 0; f < within->feed_count; f++) {
        if (!within->is_bought[f] || within->taken_kg[f] <= NAMED_SHARE * most)
            continue;
        text_print(&text, "%s%s %s", text.length > 0 ? "; " : "",
                   weight_words(of->report->arena, of->units, within->taken_kg[f]),
                   within->name[f]);
    }
    return text.length > 0 ? text.bytes : "nothing";
}

static void add_pieces(const Varied *of, const VariedFuture *future) {
    static const ReportColumn COLUMNS[] = {
        {"from", "From", "", 1},
        {"to", "To", "", 1},
        {"cost_from", "Costs", "$", 1},
        {"cost_to", "to", "$", 1},
        {"bought", "Most of what is bought", "", 0},
    };
    ReportTable *table = report_table(of->report, "pieces", future->name, COLUMNS, 5);
    for (int p = 0; p < future->piece_count; p++) {
        const CostPiece *piece = &future->pieces[p];
        report_row(table,
                   (Cell[]){value_cell(of, piece->from), value_cell(of, piece->to),
                            number_cell(piece->cost_from, 0), number_cell(piece->cost_to, 0),
                            text_cell(bought_words(of, piece))});
    }
}

void varied_report_add(Report *report, const VariedCost *varied, Units units) {
    const Varied of = {report, varied, units, decimals_of(&varied->range)};
    report_section(report, "varied",
                   arena_print(report->arena, "As one number changes: %s", varied->what));
    if (varied->pair_count > 0)
        add_break_evens(&of);
    for (int i = 0; i < varied->future_count; i++) {
        if (varied->futures[i].lacks_it)
            report_paragraph(
                report, "'%s' has no such number any more: it costs the same at every value.",
                varied->futures[i].name);
    }
    add_chart(&of);
    add_costs(&of);
    add_picture(&of);
    report_part(report, "pieces", "Where the rations change");
    for (int i = 0; i < varied->future_count; i++)
        add_pieces(&of, &varied->futures[i]);
    report_paragraph(
        report,
        "Each value was planned anew, at the least cost: without evening rations out, and "
        "without rules of the yard. Within a piece no feed comes in, "
        "goes out or is used up, but for its ends; of a price the cost is straight, and the "
        "tonnes bought are its slope. What caution lines passed weigh is counted. In a what-if "
        "that changes this very number it is the "
        "number here that counts.");
    varied_figures(report->figures, varied);
}

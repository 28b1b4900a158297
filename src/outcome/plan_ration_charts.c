/* A group's ration through the winter, and what it brings of each need where it comes nearest
 * to it, as charts. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/ration_limit.h"
#include <math.h>
#include <string.h>

typedef struct {
    Report *report;
    const PlanFindings *findings;
    const char *name;
    int first, count; /* blocks of the group */
} Group;

static double shown_feed(const Group *group, double kg) {
    return measure_shown(group->findings->units, MEASURE_FEED, kg);
}

/* Put out in all periods, a head. */
static double fed_kg(const Group *group, int feed) {
    const WinterPlan *plan = group->findings->plan;
    double kg = 0.0;
    for (int b = group->first; b < group->first + group->count; b++)
        kg += put_out_kg(plan, b, feed) * plan->question->blocks[b].days;
    return kg;
}

static double all_feed_kg(const Group *group, int block) {
    const WinterPlan *plan = group->findings->plan;
    double kg = 0.0;
    for (int f = 0; f < plan->question->feed_count; f++)
        kg += put_out_kg(plan, block, f);
    return kg;
}

static const char *ration_title(const Group *group) {
    Arena *arena = group->report->arena;
    const PlanQuestion *question = group->findings->plan->question;
    int main_feed = 0;
    for (int f = 1; f < question->feed_count; f++) {
        if (fed_kg(group, f) > fed_kg(group, main_feed))
            main_feed = f;
    }
    double least = HUGE_VAL;
    double most = 0.0;
    for (int b = group->first; b < group->first + group->count; b++) {
        least = fmin(least, all_feed_kg(group, b));
        most = fmax(most, all_feed_kg(group, b));
    }
    return arena_print(arena, "%s get %s to %s a head and day; %s is the largest part",
                       group->name,
                       number_words(arena, shown_feed(group, least),
                                    measure_decimals(group->findings->units, MEASURE_FEED)),
                       measure_words(arena, group->findings->units, MEASURE_FEED, most),
                       question->feeds[main_feed].name);
}

static void add_band(ReportChart *chart, const Group *group, int feed) {
    const WinterPlan *plan = group->findings->plan;
    ChartSeries *series = chart_series(chart, plan->question->feeds[feed].name);
    for (int b = group->first; b < group->first + group->count; b++)
        chart_point(series, plan->question->blocks[b].from.number,
                    shown_feed(group, put_out_kg(plan, b, feed)));
}

static void add_ration_chart(const Group *group) {
    const PlanQuestion *question = group->findings->plan->question;
    const Units units = group->findings->units;
    ReportChart *chart =
        chart_new(group->report->arena, CHART_BANDS, "ration", ration_title(group),
                  (ChartAxis){AXIS_DAYS, "", "", 0},
                  (ChartAxis){AXIS_NUMBERS,
                              arena_print(group->report->arena, "%s a head and day, as fed",
                                          measure_unit(units, MEASURE_FEED)),
                              "", measure_decimals(units, MEASURE_FEED)});
    chart->last_x =
        calendar_add(question->blocks[group->first + group->count - 1].to, 1).number;
    Text words = text_new(group->report->arena);
    for (int f = 0; f < question->feed_count; f++) {
        if (!ration_feed_fills(&question->feeds[f]) || fed_kg(group, f) <= 0.0)
            continue;
        add_band(chart, group, f);
        text_print(&words, "%s%s", words.length > 0 ? "; " : "", question->feeds[f].name);
    }
    chart_alternative(chart,
                      "The feeds of the ration of %s, stacked, through the winter: %s. The "
                      "table below holds the amounts.",
                      group->name, words.bytes);
    if (chart->first_series)
        report_chart(group->report, chart);
}

/* Where a need is met most closely. */
typedef struct {
    int block;
    const LimitOutcome *outcome;
    double share; /* supplied of least */
} Tightest;

#define EQUALLY_MET 1e-4 /* of a need: the last bits of a solve name no period */

/* What fills cattle, and what is least for their safety, is a need where it is lacking. */
static bool is_need(const LimitOutcome *of) {
    if (of->limit->is_inner || !isfinite(of->least) || of->least <= 0.0 ||
        of->least >= NO_LIMIT || !isfinite(of->supplied))
        return false;
    const bool is_plain = !of->limit->safety && of->limit->law != LAW_INTAKE_MOST &&
                          of->limit->law != LAW_INTAKE_LEAST;
    return is_plain || of->short_by > EQUALLY_MET * of->least;
}

/* The least share of a need that any period of the group has. */
static double least_met(const Group *group, const char *key) {
    double least = NO_LIMIT;
    for (int b = group->first; b < group->first + group->count; b++) {
        const LimitOutcome *of = block_limit(&group->findings->plan->blocks[b], key);
        if (of && is_need(of))
            least = fmin(least, of->supplied / of->least);
    }
    return least;
}

/* Of all periods of the group the one that meets this need most closely, the first of equals;
 * `any` is one of them. */
static Tightest tightest_of(const Group *group, Tightest any) {
    const char *key = any.outcome->limit->key;
    const double least = least_met(group, key);
    for (int b = group->first; b < group->first + group->count; b++) {
        const LimitOutcome *of = block_limit(&group->findings->plan->blocks[b], key);
        if (of && is_need(of) && of->supplied / of->least <= least + EQUALLY_MET)
            return (Tightest){b, of, of->supplied / of->least};
    }
    return any;
}

/* The needs of any of the group's periods, in their own order. */
static int needs_of(const Group *group, Tightest **needs) {
    const WinterPlan *plan = group->findings->plan;
    int room = 0;
    for (int b = group->first; b < group->first + group->count; b++)
        room += plan->blocks[b].limit_count;
    *needs = ARENA_ARRAY(group->report->arena, Tightest, room);
    int count = 0;
    for (int b = group->first; b < group->first + group->count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            const LimitOutcome *of = &plan->blocks[b].limits[i];
            bool is_known = !is_need(of);
            for (int n = 0; n < count; n++)
                is_known |= text_same((*needs)[n].outcome->limit->key, of->limit->key);
            if (!is_known)
                (*needs)[count++] =
                    tightest_of(group, (Tightest){b, of, of->supplied / of->least});
        }
    }
    return count;
}

static const char *need_label(Arena *arena, const Tightest *need) {
    const char *label = need->outcome->limit->label;
    return arena_print(arena, "%.*s", (int)strcspn(label, ";"), label);
}

enum { NAMED_NEEDS = 3 };

/* "Net energy (NEm), Protein and 2 more": those below a share of the need. */
static const char *names_below(Arena *arena, const Tightest *needs, int count, double share) {
    Text names = text_new(arena);
    int found = 0;
    for (int n = 0; n < count; n++) {
        if (needs[n].share < share && found++ < NAMED_NEEDS)
            text_print(&names, "%s%s", names.length > 0 ? ", " : "",
                       need_label(arena, &needs[n]));
    }
    if (found > NAMED_NEEDS)
        text_print(&names, " and %d more", found - NAMED_NEEDS);
    return names.bytes;
}

#define ALL_OF_IT 0.995
#define NO_MORE 1.005

static const char *supply_title(const Group *group, const Tightest *needs, int count) {
    Arena *arena = group->report->arena;
    const char *lacking = names_below(arena, needs, count, ALL_OF_IT);
    if (lacking[0] != '\0')
        return arena_print(arena, "%s lack %s", group->name, lacking);
    const char *tightest = names_below(arena, needs, count, NO_MORE);
    if (tightest[0] != '\0')
        return arena_print(arena, "%s get all they need; nothing to spare of %s", group->name,
                           tightest);
    return arena_print(arena, "%s get more than they need of everything", group->name);
}

static void add_need_row(const Group *group, ReportTable *table, const Tightest *need) {
    Arena *arena = group->report->arena;
    const RationLimit *limit = need->outcome->limit;
    const PlanBlock *block = &group->findings->plan->question->blocks[need->block];
    const Units units = group->findings->units;
    const bool is_weight = text_same(limit->unit, "kg");
    const double times =
        is_weight ? measure_shown(units, MEASURE_FEED, 1.0) : limit->shown_times;
    report_row(table,
               (Cell[]){text_cell(need_label(arena, need)),
                        text_cell(day_short(arena, block->from)),
                        number_cell(need->outcome->supplied * times, limit->decimals),
                        number_cell(need->outcome->least * times, limit->decimals),
                        text_cell(is_weight ? measure_unit(units, MEASURE_FEED) : limit->unit),
                        number_cell(100.0 * need->share, 0)});
}

static void add_supply_chart(const Group *group) {
    static const ReportColumn COLUMNS[] = {
        {"need", "Need", "", 0},    {"from", "From", "", 0}, {"supplied", "Brought", "", 1},
        {"least", "Needed", "", 1}, {"unit", "In", "", 0},   {"share", "Of the need", "%", 1},
    };
    Arena *arena = group->report->arena;
    Tightest *needs;
    const int count = needs_of(group, &needs);
    if (count == 0)
        return;
    ReportChart *chart =
        chart_new(arena, CHART_LIMIT_BARS, "supply", supply_title(group, needs, count),
                  (ChartAxis){AXIS_CATEGORIES, "", "", 0},
                  (ChartAxis){AXIS_NUMBERS, "Of the need", "%", 0});
    ChartSeries *series = chart_series(chart, "The ration brings");
    chart_limit(chart, "the need, 100 %", 100.0);
    report_chart(group->report, chart);
    ReportTable *table =
        report_table_of_chart(group->report, "supply", "Where each need is met most closely",
                              COLUMNS, (int)(sizeof COLUMNS / sizeof COLUMNS[0]));
    Text words = text_new(arena);
    for (int n = 0; n < count; n++) {
        chart_category(chart, need_label(arena, &needs[n]));
        chart_point(series, n, 100.0 * needs[n].share);
        add_need_row(group, table, &needs[n]);
        text_print(&words, "%s%s %.0f %%", n > 0 ? "; " : "", need_label(arena, &needs[n]),
                   100.0 * needs[n].share);
    }
    chart_alternative(chart,
                      "What the ration of %s brings of each need in the period where it comes "
                      "nearest to it, in per cent of the need: %s.",
                      group->name, words.bytes);
}

static Group group_of(Report *report, const PlanFindings *findings, int group) {
    Group of = {.report = report,
                .findings = findings,
                .name = findings->plan->question->farm->herd.names[group]};
    of.count = group_blocks(findings->plan->question, group, &of.first);
    return of;
}

void plan_report_ration_chart(Report *report, const PlanFindings *findings, int group) {
    const Group of = group_of(report, findings, group);
    add_ration_chart(&of);
}

void plan_report_supply_chart(Report *report, const PlanFindings *findings, int group) {
    const Group of = group_of(report, findings, group);
    add_supply_chart(&of);
}

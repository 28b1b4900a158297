/* Will it last? What became of the plan in winters drawn as they come. */
#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/plan_report.h"
#include "planner/hard_winter.h"
#include "stock/weight_error.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* All and none are said only of all and none. */
double winters_of_a_hundred(double share) {
    const double rounded = round(100.0 * share);
    if (rounded >= 100.0 && share < 1.0)
        return 99.0;
    return rounded <= 0.0 && share > 0.0 ? 1.0 : rounded;
}

static Cell hundred_cell(double share) {
    return isfinite(share) ? number_cell(winters_of_a_hundred(share), 0) : empty_cell();
}

/* "in 32 of 100 winters", "in all winters drawn". */
const char *winters_share_words(Arena *arena, double share) {
    if (share >= 1.0)
        return "in all winters drawn";
    if (share <= 0.0)
        return "in none of the winters drawn";
    return arena_print(arena, "in %.0f of 100 winters", winters_of_a_hundred(share));
}

const char *winters_verdict_words(Arena *arena, const WinterPlan *plan) {
    if (!plan->winters || plan->winters->done == 0)
        return "";
    return arena_print(arena, " That feed lasts to turnout %s: see Will it last.",
                       winters_share_words(arena, plan->winters->share));
}

static Cell day_cell(Arena *arena, const RunoutDays *runout, int share) {
    return text_cell(runout->lasts[share] ? "lasts" : day_short(arena, runout->day[share]));
}

static void add_row(ReportTable *table, const char *name, Cell chance,
                    const RunoutDays *runout) {
    Arena *arena = table->arena;
    report_row(table, (Cell[]){text_cell(name), chance, day_cell(arena, runout, IN_ONE_OF_TEN),
                               day_cell(arena, runout, IN_HALF),
                               day_cell(arena, runout, IN_NINE_OF_TEN)});
}

#define LEAST_USED_KG 1.0

static void add_table(Report *report, const WinterPlan *plan) {
    static const ReportColumn COLUMNS[] = {
        {"what", "", "", 0},
        {"lasts", "Fed to turnout", "of 100", 1},
        {"one_of_ten", "1 in 10 by", "", 0},
        {"half", "Half by", "", 0},
        {"nine_of_ten", "9 in 10 by", "", 0},
    };
    const PlanQuestion *question = plan->question;
    const HardWinters *winters = plan->winters;
    ReportTable *table =
        report_table(report, "winters", "When a group is short of feed, and when a feed ends",
                     COLUMNS, COUNT(COLUMNS));
    add_row(table, "All groups", hundred_cell(winters->share), &winters->herd);
    for (int g = 0; g < question->farm->herd.count && question->farm->herd.count > 1; g++)
        add_row(table, question->farm->herd.names[g], hundred_cell(winters->group_share[g]),
                &winters->group_short[g]);
    for (int f = 0; f < question->feed_count; f++) {
        if (winters->used_kg[f] >= LEAST_USED_KG)
            add_row(table, question->feeds[f].name, empty_cell(), &winters->feeds[f]);
    }
}

static void add_loads(Report *report, const WinterPlan *plan, Units units) {
    Arena *arena = report->arena;
    const PlanQuestion *question = plan->question;
    const HardWinters *winters = plan->winters;
    ReportTable *table = NULL;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, 4);
    columns[0] = (ReportColumn){"feed", "Feed", "", 0};
    columns[1] = (ReportColumn){"load", "Load", measure_unit(units, MEASURE_TONNAGE), 1};
    columns[2] = (ReportColumn){"cost", "Costs", "$", 1};
    columns[3] = (ReportColumn){"lasts", "Then fed to turnout", "of 100", 1};
    for (int f = question->own_count; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (!isfinite(winters->share_with_load[f]))
            continue;
        if (!table)
            table = report_table(report, "one_load_more",
                                 "One load more of one feed, bought now", columns, 4);
        report_row(
            table,
            (Cell[]){text_cell(feed->name), measure_cell(units, MEASURE_TONNAGE, feed->load_kg),
                     number_cell(feed->load_kg * (feed->price_per_kg + feed->haul_per_kg), 0),
                     hundred_cell(winters->share_with_load[f])});
    }
}

/* Below it a page says why the chance is no better. */
#define SURE_SHARE 0.9

static void add_shortfall(Report *report, const WinterPlan *plan, Units units) {
    const HardWinters *winters = plan->winters;
    if (winters->worst_short_kg <= 0.0)
        return;
    report_paragraph(
        report,
        "In the worst tenth of the winters %s of dry matter to put out is lacking, "
        "on the mean.%s",
        weight_words(report->arena, units, winters->worst_short_kg),
        winters->share < SURE_SHARE
            ? " The plan buys what the mean winter takes and no more, so that about "
              "half of all winters ask for more than it has; how much to lay in "
              "beside it is yours to choose."
            : "");
}

/* Hunger that no feed in the yard could still. */
#define TOLD_COLD_SHARE 0.05

static void add_cold(Report *report, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const HardWinters *winters = plan->winters;
    Text text = text_new(report->arena);
    for (int g = 0; g < question->farm->herd.count; g++) {
        if (winters->group_cold_share[g] >= TOLD_COLD_SHARE)
            text_print(&text, "%s%s %.0f", text.length > 0 ? "; " : "",
                       question->farm->herd.names[g],
                       winters_of_a_hundred(winters->group_cold_share[g]));
    }
    if (text.length > 0)
        report_paragraph(
            report,
            "Winters of 100 in which cold, or feed poorer than was thought, at some "
            "time asks for more of the ration than they can eat, so that they draw on "
            "condition or gain less, whatever is in the yard: %s. Better feed, not "
            "more, helps then.",
            text.bytes);
}

/* Stacks nobody weighed or measured: weighing is the cheapest way to a surer answer. */
static void add_unweighed(Report *report, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    Text text = text_new(report->arena);
    if (plan->winters->share >= SURE_SHARE)
        return;
    for (int f = 0; f < question->own_count; f++) {
        const Stack *stack =
            &farm_counted(question->farm)->stacks.stacks[question->feeds[f].place];
        if (plan->winters->used_kg[f] >= LEAST_USED_KG &&
            stack->weight_error_share >= weight_error_share(stack->kind, WEIGHT_BY_EYE, 0.0))
            text_print(&text, "%s%s", text.length > 0 ? "; " : "", stack->name);
    }
    if (text.length > 0)
        report_paragraph(
            report,
            "How it was weighed is not said of: %s. Weigh ten bales, or the loads, "
            "and write how many under `weighed` in stacks.csv: the days above draw "
            "nearer together, and the count may come out other than it is.",
            text.bytes);
}

/* Fed over a scale for long and not counted again: what is left is known less well by the day.
 */
#define TOLD_TIMES 1.5

static void add_uncounted(Report *report, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const Farm *farm = question->farm;
    Text text = text_new(report->arena);
    for (int f = 0; farm->is_rest_of_winter && f < question->own_count; f++) {
        const Stack *now = &farm->inventory.stacks.stacks[question->feeds[f].place];
        const Stack *counted =
            &farm_counted(question->farm)->stacks.stacks[question->feeds[f].place];
        if (plan->winters->used_kg[f] >= LEAST_USED_KG &&
            now->weight_error_share >= TOLD_TIMES * counted->weight_error_share)
            text_print(&text, "%s%s (%.0f %%)", text.length > 0 ? "; " : "", now->name,
                       100.0 * now->weight_error_share);
    }
    if (text.length > 0)
        report_paragraph(
            report,
            "Fed by weight since it was counted, so that what the whole stack was off by lies "
            "on what is left, which may be off by so much: %s. Count it again: `winterstack "
            "fed` with --left-bales or --left-weight.",
            text.bytes);
}

static const char *spread_words(Arena *arena, const WinterPlan *plan) {
    const Farm *farm = plan->question->farm;
    const Day first = farm->winter.first_day;
    bool all_users = true;
    bool no_users = true;
    for (Day day = first; calendar_days_between(day, farm->winter.last_day) >= 0;
         day = calendar_first_of_next_month(day)) {
        const bool is_users = farm->weather.month[calendar_month(day)].spread_is_users;
        all_users = all_users && is_users;
        no_users = no_users && !is_users;
    }
    if (all_users)
        return "your own spread of each month's mean temperature";
    return arena_print(
        arena, "the spread of each month's mean temperature from year to year, for %s%s",
        farm->weather.normals_station,
        no_users ? "" : ", or your own where weather.csv has it");
}

static void add_basis(Report *report, const WinterPlan *plan) {
    Arena *arena = report->arena;
    const Farm *farm = plan->question->farm;
    const HardWinters *winters = plan->winters;
    report_paragraph(
        report,
        "This is no forecast. It rests on %s; on turnout on %s, give or take %.0f days; on how "
        "well each stack was weighed or measured; on how far its energy may be from its test, "
        "or "
        "from the book; and on waste that differs by a quarter. It knows nothing of a sick "
        "herd, a "
        "burnt stack, or feed that spoils more than the table says. The rations are this "
        "plan's, more or less of them as cattle need; what is bought is no more than this plan "
        "buys, minerals aside. When a stack ends, other forage of that ration stands in by its "
        "energy, then other forage in the yard that the group may have; grain, pellets and "
        "meals "
        "are never raised. That counts feed; it is not a ration to feed: plan again when a "
        "stack "
        "ends early.%s",
        spread_words(arena, plan), day_words(arena, farm->winter.last_day),
        farm->weather.turnout_spread_days,
        farm->winter.carry_over_kg > 0.0
            ? " Forage to be left over is counted as there to be eaten."
            : "");
    report_paragraph(
        report,
        "The same seed (%llu) draws the same winters; `--seed` takes another number, "
        "`--winters` more of them.",
        (unsigned long long)winters->seed);
}

void plan_report_winters(Report *report, const WinterPlan *plan, Units units,
                         const char *of_what) {
    const HardWinters *winters = plan->winters;
    if (!winters)
        return;
    Arena *arena = report->arena;
    report_section(report, "winters", "Will it last?");
    if (of_what[0] != '\0')
        report_paragraph(report, "%s", of_what);
    if (winters->remark[0] != '\0')
        report_remark(report, SEVERITY_CAUTION, "winters", winters->remark, "");
    if (winters->done == 0)
        return;
    const double give_or_take = ceil(200.0 * winters->share_error);
    report_paragraph(
        report,
        "Fed as planned, every group has enough to turnout %s (%s drawn%s). Turnout comes "
        "between %s and %s in eight of ten.",
        winters_share_words(arena, winters->share), number_words(arena, winters->done, 0),
        give_or_take > 0.0
            ? arena_print(arena, "; others drawn could make it %.0f more or fewer",
                          give_or_take)
            : "",
        day_short(arena, winters->turnout_first), day_short(arena, winters->turnout_last));
    plan_report_winters_chart(report, plan);
    add_table(report, plan);
    add_shortfall(report, plan, units);
    add_loads(report, plan, units);
    add_cold(report, plan);
    add_unweighed(report, plan);
    add_uncounted(report, plan);
    add_basis(report, plan);
}

/* ---- figures ---- */

static void add_days(Figure *of, const RunoutDays *runout) {
    static const char *const KEYS[RUNOUT_SHARES] = {"one_of_ten", "half", "nine_of_ten"};
    Figure *days = figure_child(of, "ends_by");
    for (int i = 0; i < RUNOUT_SHARES; i++)
        figure_text(days, KEYS[i],
                    runout->lasts[i] ? NULL : day_iso(of->arena, runout->day[i]));
}

void plan_winters_figures(Figure *root, const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    const HardWinters *winters = plan->winters;
    if (!winters || winters->done == 0) {
        figure_nothing(root, "winters");
        return;
    }
    Figure *of = figure_child(root, "winters");
    figure_number(of, "asked", winters->asked);
    figure_number(of, "drawn", winters->done);
    figure_number(of, "seed", (double)winters->seed);
    figure_text(of, "remark", winters->remark[0] != '\0' ? winters->remark : NULL);
    figure_number(of, "chance", winters->share);
    figure_number(of, "chance_error", winters->share_error);
    figure_number(of, "worst_tenth_short_dry_matter_kg", winters->worst_short_kg);
    figure_text(of, "turnout_one_of_ten", day_iso(of->arena, winters->turnout_first));
    figure_text(of, "turnout_nine_of_ten", day_iso(of->arena, winters->turnout_last));
    add_days(of, &winters->herd);
    Figure *groups = figure_list(of, "groups");
    for (int g = 0; g < question->farm->herd.count; g++) {
        Figure *row = figure_list_object(groups);
        figure_text(row, "group", question->farm->herd.names[g]);
        figure_number(row, "chance", winters->group_share[g]);
        figure_number(row, "cold_beyond_eating", winters->group_cold_share[g]);
        add_days(row, &winters->group_short[g]);
    }
    Figure *feeds = figure_list(of, "feeds");
    for (int f = 0; f < question->feed_count; f++) {
        Figure *row = figure_list_object(feeds);
        figure_text(row, "feed", question->feeds[f].name);
        figure_number(row, "mean_used_kg", winters->used_kg[f]);
        figure_number(row, "chance_with_one_load_more", winters->share_with_load[f]);
        add_days(row, &winters->feeds[f]);
    }
}

#include "base/text.h"
#include "entry/compare_parts.h"
#include "outcome/ship_report.h"
#include "planner/least_cost.h"
#include <math.h>

#define A_WEEK 7

/* The least the winter costs, yardage with it, with one day of a file moved; NAN where it
 * cannot be planned so. */
static double cost_with_day(const FarmRequest *request, FarmFile file, const char *row,
                            const char *column, Day day) {
    Arena *scratch = arena_open();
    Faults aside = faults_new(scratch);
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(day, text);
    const Change change = {.kind = CHANGE_SET,
                           .file = file,
                           .row = row,
                           .column = column,
                           .value = text,
                           .place = {"", 0, 0},
                           .row_place = {"", 0, 0},
                           .column_place = {"", 0, 0},
                           .value_place = {"", 0, 0}};
    Farm farm;
    double cost = (double)NAN;
    if (future_read(scratch, &aside, request, "", &change, 1, &farm)) {
        const PlanQuestion question = plan_question(scratch, &farm);
        const WinterPlan plan = plan_least_cost(scratch, &question);
        cost = least_total(&plan);
    }
    arena_close(scratch);
    return cost;
}

static MovedDay moved(const FarmRequest *request, const char *what, FarmFile file,
                      const char *row, const char *column, Day day, double as_it_is) {
    return (MovedDay){
        .what = what,
        .day = day,
        .sooner =
            cost_with_day(request, file, row, column, calendar_add(day, -A_WEEK)) - as_it_is,
        .later =
            cost_with_day(request, file, row, column, calendar_add(day, A_WEEK)) - as_it_is,
    };
}

static double cost_as_it_is(const PlanQuestion *question) {
    Arena *scratch = arena_open();
    const WinterPlan plan = plan_least_cost(scratch, question);
    const double cost = least_total(&plan);
    arena_close(scratch);
    return cost;
}

static bool is_in_winter(const Winter *winter, Day day) {
    return calendar_days_between(winter->first_day, day) >= 0 &&
           calendar_days_between(day, winter->last_day) >= 0;
}

static int moved_days(Arena *arena, const FarmRequest *request, const PlanQuestion *question,
                      const MovedDay **days) {
    const Farm *farm = question->farm;
    const double as_it_is = cost_as_it_is(question);
    MovedDay *list = ARENA_ARRAY(arena, MovedDay, farm->herd.count + 1);
    int count = 0;
    list[count++] = moved(request, "Last feeding day", FARM_WINTER, "last_day", "value",
                          farm->winter.last_day, as_it_is);
    for (int g = 0; g < farm->herd.count; g++) {
        const HerdGroup *group = &farm->herd.groups[g];
        if (group->has_weaning && is_in_winter(&farm->winter, group->weaning))
            list[count++] =
                moved(request, arena_print(arena, "Weaning, %s", group->name), FARM_HERD,
                      group->name, "weaning_date", group->weaning, as_it_is);
    }
    *days = list;
    return count;
}

bool compare_shipped(Report *report, Faults *faults, const FarmRequest *request,
                     const PlanQuestion *question) {
    Arena *arena = report->arena;
    const Farm *farm = question->farm;
    const Winter *winter = &farm->winter;
    Shipping shipping = {.herd = &farm->herd, .from = request->ship_from};
    if (calendar_days_between(winter->first_day, shipping.from) < 0)
        shipping.from = winter->first_day;
    if (!is_in_winter(winter, shipping.from)) {
        char last[CALENDAR_TEXT_BYTES], asked[CALENDAR_TEXT_BYTES];
        calendar_print(winter->last_day, last);
        calendar_print(shipping.from, asked);
        fault_add(faults, (Place){"--ship", 0, 0},
                  "%s is after the last feeding day, %s: no feed is left to be saved", asked,
                  last);
        return false;
    }
    HeadWorth *worth = ARENA_ARRAY(arena, HeadWorth, farm->herd.count);
    for (int g = 0; g < farm->herd.count; g++)
        worth[g] = head_worth(question, g, shipping.from);
    shipping.worth = worth;
    shipping.day_count = moved_days(arena, request, question, &shipping.days);
    ship_report_add(report, &shipping);
    return true;
}

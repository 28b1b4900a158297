#include "outcome/feed_sheets.h"

#include "base/text.h"
#include "outcome/day_words.h"
#include "outcome/feed_sheet_words.h"
#include "outcome/plan_report.h"
#include "planner/ration_limit.h"
#include <math.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))
#define DAYS_A_WEEK 7.0
#define SMALL_LOAD 10.0 /* shown with a decimal below it */

/* So that a sheet is one page: rows that all its tables have between them, rows that the head
 * of a schedule takes, and lines to write on. */
enum {
    ROWS_OF_PAGE = 16,
    ROWS_OF_STEP_HEAD = 4,
    FEWEST_LINES = 2,
    MOST_LINES = 12,
    LETTERS_OF_NAME = 36,
    LETTERS_OF_LINE = 90,
    LINES_OF_WORDS = 6 /* that every sheet has room for beside those rows */
};

typedef struct {
    Report *report;
    Arena *arena;
    const PlanFindings *findings;
    int block;
    const PlanBlock *of;
} FeedSheet;

static double load_kg(const FeedSheet *sheet, int feed) {
    return put_out_kg(sheet->findings->plan, sheet->block, feed) * sheet->of->head;
}

static Measure measure_of(const FeedSheet *sheet, int feed) {
    return load_measure(&sheet->findings->plan->question->feeds[feed], load_kg(sheet, feed));
}

static double rounded(double shown) {
    return shown < SMALL_LOAD ? round(shown * 10.0) / 10.0 : round(shown);
}

/* As it can be weighed, so that the column and the running total of the scale agree. */
static double as_loaded(const FeedSheet *sheet, int feed, double kg) {
    return rounded(measure_shown(sheet->findings->units, measure_of(sheet, feed), kg));
}

static double on_the_scale(const FeedSheet *sheet, double kg) {
    return rounded(measure_shown(sheet->findings->units, MEASURE_WEIGHT, kg));
}

static Cell load_cell(double shown) {
    return shown > 0.0 ? number_cell(shown, shown < SMALL_LOAD ? 1 : 0) : empty_cell();
}

/* What goes into the mixer first: long dry feed, then grain, pellets and meal, then minerals,
 * and silage on top, which carries the fine feed into the rest. Common practice, no source; the
 * manual of the mixer comes before it. */
enum { PLACE_LONG, PLACE_CONCENTRATE, PLACE_MINERAL, PLACE_WET, PLACE_COUNT };

static int place_of(const PlanFeed *feed) {
    if (!ration_feed_fills(feed))
        return PLACE_MINERAL;
    if (!feed_class_kind(feed->feed->feed_class)->is_forage)
        return feed->feed->feed_class == FEED_CLASS_MOLASSES ? PLACE_WET : PLACE_CONCENTRATE;
    return feed->dry_share * 100.0 < MOST_DRY_MATTER_OF_SILAGE ? PLACE_WET : PLACE_LONG;
}

/* The feeds of the ration of which there is enough to be weighed, in the order they are loaded;
 * returns how many. */
static int in_order(const FeedSheet *sheet, int **feeds) {
    const PlanQuestion *question = sheet->findings->plan->question;
    *feeds = ARENA_ARRAY(sheet->arena, int, question->feed_count);
    int count = 0;
    for (int place = 0; place < PLACE_COUNT; place++) {
        for (int f = 0; f < question->feed_count; f++) {
            if (place_of(&question->feeds[f]) == place &&
                as_loaded(sheet, f, load_kg(sheet, f)) > 0.0)
                (*feeds)[count++] = f;
        }
    }
    return count;
}

static const char *caption(const FeedSheet *sheet) {
    const HerdGroup *group =
        &sheet->findings->plan->question->farm->herd.groups[sheet->of->group];
    const char *what = group->delivery == DELIVERY_MIXED     ? "Load in this order"
                       : group->delivery == DELIVERY_LAYERED ? "Put out in this order"
                                                             : "Put before them, and no more";
    return arena_print(sheet->arena, "%s, for all %.0f, a day", what, sheet->of->head);
}

static Cell bales_cell(const FeedSheet *sheet, int feed, double days) {
    const double bale = sheet->findings->plan->question->feeds[feed].bale_kg;
    if (bale <= 0.0)
        return empty_cell();
    const double bales = load_kg(sheet, feed) * days / bale;
    return number_cell(bales, bales < 0.01 ? 3 : bales < 0.1 ? 2 : 1);
}

static const ReportColumn *load_columns(const FeedSheet *sheet) {
    const Units units = sheet->findings->units;
    const char *weight = measure_unit(units, MEASURE_WEIGHT);
    const ReportColumn columns[] = {
        {"feed", "Feed", "", 0},
        {"load", "Load", weight, 1},
        {"scale", "Scale shows", weight, 1},
        {"bales_day", "Bales", "a day", 1},
        {"bales_week", "Bales", "a week", 1},
        {"a_head", "A head", measure_unit(units, MEASURE_FEED), 1},
    };
    ReportColumn *kept = ARENA_ARRAY(sheet->arena, ReportColumn, COUNT(columns));
    for (int i = 0; i < COUNT(columns); i++)
        kept[i] = columns[i];
    return kept;
}

enum { LOAD_COLUMNS = 6 };

static Cell head_cell(const FeedSheet *sheet, Measure measure, double kg) {
    if (measure == MEASURE_SMALL_FEED) {
        const double little = measure_shown(sheet->findings->units, measure, kg);
        return number_cell(little, little < 0.1 ? 2 : little < SMALL_LOAD ? 1 : 0);
    }
    const double shown = measure_shown(sheet->findings->units, MEASURE_FEED, kg);
    return number_cell(shown, shown < 1.0 ? 2 : 1);
}

static const ReportTable *add_load(const FeedSheet *sheet) {
    const PlanQuestion *question = sheet->findings->plan->question;
    int *feeds;
    const int count = in_order(sheet, &feeds);
    ReportTable *table =
        report_table(sheet->report, "load", caption(sheet), load_columns(sheet), LOAD_COLUMNS);
    double scale = 0.0;
    double a_head = 0.0;
    for (int i = 0; i < count; i++) {
        const PlanFeed *of = &question->feeds[feeds[i]];
        const Measure measure = measure_of(sheet, feeds[i]);
        const double head_kg = put_out_kg(sheet->findings->plan, sheet->block, feeds[i]);
        const bool is_on_scale = measure == MEASURE_WEIGHT; /* which shows no handful */
        scale += is_on_scale ? on_the_scale(sheet, load_kg(sheet, feeds[i])) : 0.0;
        a_head += head_kg;
        report_row(
            table,
            (Cell[]){text_cell(load_name(sheet->arena, sheet->findings->units, of, measure)),
                     load_cell(as_loaded(sheet, feeds[i], load_kg(sheet, feeds[i]))),
                     is_on_scale ? number_cell(scale, 0) : empty_cell(),
                     bales_cell(sheet, feeds[i], 1.0), bales_cell(sheet, feeds[i], DAYS_A_WEEK),
                     head_cell(sheet, measure, head_kg)});
    }
    report_total_row(table,
                     (Cell[]){text_cell("All of it"), number_cell(scale, 0), empty_cell(),
                              empty_cell(), empty_cell(),
                              measure_cell(sheet->findings->units, MEASURE_FEED, a_head)});
    return table;
}

/* The schedule of this group that runs on any day of this period, or NULL. */
static const StepUp *running_step(const FeedSheet *sheet) {
    for (int i = 0; i < sheet->findings->step_up_count; i++) {
        const StepUp *step = &sheet->findings->step_ups[i];
        const Day last = calendar_add(step->from, step->days - 1);
        if (step->group == sheet->of->group &&
            calendar_days_between(step->from, sheet->of->to) >= 0 &&
            calendar_days_between(sheet->of->from, last) >= 0)
            return step;
    }
    return NULL;
}

static const char *feed_name(const FeedSheet *sheet, int feed) {
    return sheet->findings->plan->question->feeds[feed].name;
}

static const ReportColumn *step_columns(const FeedSheet *sheet, const StepUp *step, int count) {
    ReportColumn *columns = ARENA_ARRAY(sheet->arena, ReportColumn, count);
    const Units units = sheet->findings->units;
    columns[0] = (ReportColumn){"day", "Day", "", 0};
    for (int f = 0; f < step->feed_count; f++) {
        const int feed = step->feeds[f].feed;
        columns[f + 1] =
            (ReportColumn){arena_print(sheet->arena, "feed_%d", f + 1), feed_name(sheet, feed),
                           measure_unit(units, measure_of(sheet, feed)), 1};
    }
    if (step->in_place >= 0)
        columns[count - 1] = (ReportColumn){"in_place", feed_name(sheet, step->in_place),
                                            measure_unit(units, MEASURE_WEIGHT), 1};
    return columns;
}

/* What one day of a schedule puts out, as loaded, in the order of the columns. */
static double step_load(const FeedSheet *sheet, const StepUp *step, int day, int column) {
    if (column == step->feed_count)
        return on_the_scale(sheet, step->in_place_kg[day] * sheet->of->head);
    return as_loaded(sheet, step->feeds[column].feed,
                     step->put_out_kg[day * step->feed_count + column] * sheet->of->head);
}

static bool is_as_day_before(const FeedSheet *sheet, const StepUp *step, int day, int columns) {
    for (int column = 0; column < columns; column++) {
        if (step_load(sheet, step, day, column) != step_load(sheet, step, day - 1, column))
            return false;
    }
    return true;
}

/* A row for each run of days that load the same. */
static void add_step_rows(const FeedSheet *sheet, const StepUp *step, ReportTable *table,
                          int columns) {
    const int first = calendar_days_between(step->from, sheet->of->from);
    const int last = calendar_days_between(step->from, sheet->of->to);
    int day = first > 0 ? first : 0;
    while (day < step->days && day <= last) {
        int end = day;
        while (end + 1 < step->days && end + 1 <= last &&
               is_as_day_before(sheet, step, end + 1, columns))
            end++;
        Cell *cells = ARENA_ARRAY(sheet->arena, Cell, columns + 1);
        cells[0] = text_cell(day_span(sheet->arena, calendar_add(step->from, day),
                                      calendar_add(step->from, end)));
        for (int column = 0; column < columns; column++)
            cells[column + 1] = load_cell(step_load(sheet, step, day, column));
        report_row(table, cells);
        day = end + 1;
    }
}

static const ReportTable *add_step(const FeedSheet *sheet, const StepUp *step) {
    const int columns = step->feed_count + (step->in_place >= 0 ? 1 : 0);
    ReportTable *table = report_table(
        sheet->report, "step_up",
        arena_print(sheet->arena,
                    "Being brought in: on these days load this of these feeds for all %.0f, "
                    "the others as above. A day missed is not caught up: go back to where "
                    "they were",
                    sheet->of->head),
        step_columns(sheet, step, columns + 1), columns + 1);
    add_step_rows(sheet, step, table, columns);
    return table;
}

/* A long name takes more lines than one. */
static int rows_taken(const ReportTable *table) {
    int rows = 0;
    for (const ReportRow *row = table->first; row; row = row->next)
        rows += 1 + text_columns(row->cells[0].text) / LETTERS_OF_NAME;
    return rows;
}

/* None where the tables above take the whole page. */
static void add_lines(const FeedSheet *sheet, int rows_above) {
    if (rows_above > ROWS_OF_PAGE)
        return;
    const char *weight = measure_unit(sheet->findings->units, MEASURE_WEIGHT);
    const ReportColumn columns[] = {
        {"day", "Day", "", 0},        {"loaded", "Loaded", weight, 0},
        {"left", "Left over", "", 0}, {"head", "Head", "", 0},
        {"by", "Fed by", "", 0},      {"seen", "What was seen", "", 0},
    };
    ReportColumn *kept = ARENA_ARRAY(sheet->arena, ReportColumn, COUNT(columns));
    for (int i = 0; i < COUNT(columns); i++)
        kept[i] = columns[i];
    ReportTable *table =
        report_table(sheet->report, "record", "What was fed", kept, COUNT(columns));
    const int room = ROWS_OF_PAGE - rows_above;
    const int most = room < FEWEST_LINES ? FEWEST_LINES : room > MOST_LINES ? MOST_LINES : room;
    const Cell *blank = ARENA_ARRAY(sheet->arena, Cell, COUNT(columns));
    for (int i = 0; i < most && i < sheet->of->days; i++)
        report_row(table, blank);
}

static int lines_of(const char *words) {
    return (text_columns(words) + LETTERS_OF_LINE - 1) / LETTERS_OF_LINE;
}

/* Returns how many lines they take. */
static int add_words(const FeedSheet *sheet, const char *words) {
    if (words[0] != '\0')
        report_paragraph(sheet->report, "%s", words);
    return lines_of(words);
}

static const char *heading(const FeedSheet *sheet) {
    const bool is_one_day = sheet->of->days == 1;
    return arena_print(sheet->arena, "%s: %s%s%s",
                       sheet->findings->plan->question->farm->herd.names[sheet->of->group],
                       is_one_day ? "" : day_short(sheet->arena, sheet->of->from),
                       is_one_day ? "" : " to ", day_words(sheet->arena, sheet->of->to));
}

static void add_sheet(const FeedSheet *sheet) {
    const HerdGroup *group =
        &sheet->findings->plan->question->farm->herd.groups[sheet->of->group];
    const StepUp *step = running_step(sheet);
    report_section(sheet->report, "sheet", heading(sheet));
    report_paragraph(sheet->report, "%.0f head, %s%s%s. %d %s.", sheet->of->head,
                     group->delivery == DELIVERY_MIXED     ? "fed mixed"
                     : group->delivery == DELIVERY_LAYERED ? "fed in layers"
                                                           : "free choice",
                     group->yard[0] != '\0' ? ", yard " : "", group->yard, sheet->of->days,
                     sheet->of->days == 1 ? "day" : "days");
    const char *forbidden = sheet_forbidden_words(sheet->arena, sheet->findings, sheet->block);
    if (forbidden[0] != '\0')
        report_remark(sheet->report, SEVERITY_DANGER, "sheet", forbidden, "");
    const char *poison = sheet_poison_words(sheet->arena, sheet->findings, sheet->block);
    if (poison[0] != '\0')
        report_remark(sheet->report, SEVERITY_DANGER, "sheet", poison, "");
    const char *care = sheet_caution_words(sheet->arena, sheet->findings, sheet->block);
    report_remark(sheet->report, SEVERITY_CAUTION, "sheet", care, "");
    int words = lines_of(forbidden) + lines_of(poison) + lines_of(care);
    int rows = rows_taken(add_load(sheet));
    if (step)
        rows += ROWS_OF_STEP_HEAD + rows_taken(add_step(sheet, step));
    words += add_words(sheet, sheet_cold_words(sheet->arena, sheet->findings, sheet->block));
    words += add_words(sheet, sheet_waste_words(sheet->arena, sheet->findings, sheet->block));
    add_lines(sheet, rows + (words > LINES_OF_WORDS ? words - LINES_OF_WORDS : 0));
}

Report *feed_sheets(Arena *arena, const PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    const Winter *winter = &question->farm->winter;
    Report *report = report_new(arena, arena_print(arena, "Feed sheets%s%s, %s to %s",
                                                   winter->farm[0] ? ": " : "", winter->farm,
                                                   day_words(arena, winter->first_day),
                                                   day_words(arena, winter->last_day)));
    for (int b = 0; b < question->block_count; b++) {
        const FeedSheet sheet = {.report = report,
                                 .arena = arena,
                                 .findings = findings,
                                 .block = b,
                                 .of = &question->blocks[b]};
        add_sheet(&sheet);
    }
    return report;
}

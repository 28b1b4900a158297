#include "outcome/feeds_report.h"
#include "base/text.h"
#include <math.h>
#include <string.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* A figure not from the laboratory carries a letter after it. */
static const char *mark_of(Origin origin) {
    switch (origin) {
    case FROM_LABORATORY:
        return "";
    case FROM_CALCULATION:
        return " c";
    case FROM_BOOK:
        return " b";
    case FROM_ASSUMPTION:
        return " a";
    case FROM_NOWHERE:
        break;
    }
    return "";
}

static Cell reading_cell(Arena *arena, Reading reading, int decimals, double times) {
    if (!reading_is_known(reading))
        return empty_cell();
    return text_cell(
        arena_print(arena, "%.*f%s", decimals, reading.value * times, mark_of(reading.origin)));
}

static Cell nutrient_cell(Arena *arena, Units units, const Feedstuff *feed, Nutrient nutrient) {
    const NutrientKind *kind = nutrient_kind(nutrient);
    const bool is_energy = kind->family == UNIT_ENERGY_DENSITY;
    const double times = is_energy ? measure_shown(units, MEASURE_ENERGY_DENSITY, 1.0) : 1.0;
    return reading_cell(arena, feed->analysis.of[nutrient], kind->decimals, times);
}

static const Nutrient FIRST_TABLE[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_ADF, NUTRIENT_NDF,
                                       NUTRIENT_TDN,           NUTRIENT_NEM, NUTRIENT_NEG};
static const Nutrient SECOND_TABLE[] = {NUTRIENT_CALCIUM,   NUTRIENT_PHOSPHORUS,
                                        NUTRIENT_MAGNESIUM, NUTRIENT_POTASSIUM,
                                        NUTRIENT_SULFUR,    NUTRIENT_NITRATE};

typedef struct {
    Report *report;
    const Farm *farm;
    Units units;
} Feeds;

static int feed_count(const Farm *farm) {
    return farm->inventory.stacks.count + farm->inventory.for_sale.count;
}

static const Feedstuff *feed_at(const Farm *farm, int place) {
    const int stacks = farm->inventory.stacks.count;
    return place < stacks ? &farm->inventory.stacks.stacks[place].feed
                          : &farm->inventory.for_sale.offers[place - stacks].feed;
}

static void add_analysis(const Feeds *feeds, const char *key, const char *caption,
                         const Nutrient *nutrients, int count, bool with_dry_matter) {
    Arena *arena = feeds->report->arena;
    const int before = with_dry_matter ? 2 : 1;
    ReportColumn *columns = ARENA_ARRAY(arena, ReportColumn, count + before);
    columns[0] = (ReportColumn){"feed", "Feed", "", 0};
    if (with_dry_matter)
        columns[1] = (ReportColumn){"dry_matter", "DM", "%", 1};
    for (int i = 0; i < count; i++) {
        const NutrientKind *kind = nutrient_kind(nutrients[i]);
        const char *label = nutrients[i] == NUTRIENT_CRUDE_PROTEIN ? "CP" : kind->label;
        const char *unit = kind->family == UNIT_ENERGY_DENSITY
                               ? measure_unit(feeds->units, MEASURE_ENERGY_DENSITY)
                               : kind->unit;
        columns[i + before] = (ReportColumn){kind->stem, label, unit, 1};
    }
    ReportTable *table = report_table(feeds->report, key, caption, columns, count + before);
    for (int f = 0; f < feed_count(feeds->farm); f++) {
        const Feedstuff *feed = feed_at(feeds->farm, f);
        Cell *cells = ARENA_ARRAY(arena, Cell, count + before);
        cells[0] = text_cell(feed->name);
        if (with_dry_matter)
            cells[1] = reading_cell(arena, feed->analysis.dry_matter, 0, 1.0);
        for (int i = 0; i < count; i++)
            cells[i + before] = nutrient_cell(arena, feeds->units, feed, nutrients[i]);
        report_row(table, cells);
    }
}

/* TDN by every route the laboratory's figures allow: their spread is how far to trust it. */
static const char *spread_words(Arena *arena, const Feedstuff *feed) {
    Text text = text_new(arena);
    for (int route = 0; route < ROUTE_COUNT; route++) {
        if ((EnergyRoute)route == feed->route || isnan(feed->tdn_by_route[route]))
            continue;
        text_print(&text, "%s%.1f by %s", text.length > 0 ? ", " : "",
                   feed->tdn_by_route[route], energy_route_name((EnergyRoute)route));
    }
    return text.bytes ? text.bytes : "";
}

static void add_routes(const Feeds *feeds) {
    static const ReportColumn COLUMNS[] = {
        {"feed", "Feed", "", 0},       {"tdn", "TDN", "%", 1},
        {"route", "By", "", 0},        {"others", "Other ways would say", "", 0},
        {"samples", "Samples", "", 1}, {"cores", "Cores", "", 1},
    };
    Arena *arena = feeds->report->arena;
    report_section(feeds->report, "energy", "How the energy was found");
    ReportTable *table = report_table(feeds->report, "routes", "", COLUMNS, COUNT(COLUMNS));
    for (int f = 0; f < feed_count(feeds->farm); f++) {
        const Feedstuff *feed = feed_at(feeds->farm, f);
        if (feed->route == ROUTE_NONE)
            continue;
        report_row(
            table,
            (Cell[]){text_cell(feed->name), number_cell(feed->tdn_by_route[feed->route], 1),
                     text_cell(energy_route_name(feed->route)),
                     text_cell(spread_words(arena, feed)), number_cell(feed->sample_count, 0),
                     feed->core_count > 0.0 ? number_cell(feed->core_count, 0) : empty_cell()});
    }
    report_paragraph(
        feeds->report,
        "TDN is found the best way the laboratory's figures allow, DE, ME, NEm and NEg "
        "from it in one way for every feed. A laboratory's own net energy is not used: "
        "two laboratories with the same fibre may print different energy.");
}

static void add_stacks(const Feeds *feeds) {
    Arena *arena = feeds->report->arena;
    const char *tons = measure_unit(feeds->units, MEASURE_TONNAGE);
    const ReportColumn columns[] = {
        {"stack", "Stack", "", 0},
        {"counted", "Counted", tons, 1},
        {"storage_loss", "Storage loss", "%", 1},
        {"as_fed", "To feed", tons, 1},
        {"dry_matter", "Dry matter", tons, 1},
        {"waste", "Feeding waste", "%", 1},
    };
    ReportColumn *kept = ARENA_ARRAY(arena, ReportColumn, COUNT(columns));
    memcpy(kept, columns, sizeof columns);
    report_section(feeds->report, "on_hand", "What is on the yard");
    ReportTable *table = report_table(feeds->report, "on_hand", "", kept, COUNT(columns));
    for (int i = 0; i < feeds->farm->inventory.stacks.count; i++) {
        const Stack *stack = &feeds->farm->inventory.stacks.stacks[i];
        report_row(
            table,
            (Cell[]){text_cell(stack->name),
                     measure_cell(feeds->units, MEASURE_TONNAGE, stack->counted_kg),
                     number_cell(stack->loss_share * 100.0, 1),
                     measure_cell(feeds->units, MEASURE_TONNAGE, stack_as_fed(stack).kg),
                     measure_cell(feeds->units, MEASURE_TONNAGE, stack_dry_matter(stack).kg),
                     number_cell(stack->waste_share * 100.0, 1)});
    }
    report_paragraph(
        feeds->report,
        "Storage loss is of dry matter, from the count to mid-winter; feeding waste is "
        "of what is put out. Either can be set in stacks.csv.");
}

static void add_flags(const Feeds *feeds) {
    Arena *arena = feeds->report->arena;
    report_section(feeds->report, "flags", "Worth knowing");
    for (int f = 0; f < feed_count(feeds->farm); f++) {
        const Feedstuff *feed = feed_at(feeds->farm, f);
        if (feed->nitrate_is_assumed && feed->nitrate_for_safety > 1.0)
            report_remark(
                feeds->report, SEVERITY_CAUTION, "nitrate",
                arena_print(arena,
                            "%s has no nitrate test and is of a kind that can carry it: "
                            "it is reckoned at %.1f %% NO3 until tested.",
                            feed->name, feed->nitrate_for_safety),
                "SDSU_NITRATE_WATER");
        if (!feed->nitrate_is_assumed && feed->nitrate_for_safety > 0.3)
            report_remark(
                feeds->report, SEVERITY_CAUTION, "nitrate",
                arena_print(arena, "%s: nitrate is reckoned at %.2f %% NO3%s.", feed->name,
                            feed->nitrate_for_safety,
                            feed->nitrate_for_safety >
                                    reading_or(feed->analysis.of[NUTRIENT_NITRATE],
                                               feed->nitrate_for_safety) +
                                        1e-9
                                ? ", the highest sample, or the only one with 15 % added"
                                : ""),
                "MB_NITRATE");
    }
    report_remark(
        feeds->report, SEVERITY_NOTE, "letters",
        "A figure without a letter is the laboratory's; c is calculated from it, b is the "
        "book's for the kind of feed named in the feed column, a is assumed. A dash is not "
        "known.",
        "");
}

/* ---- figures ---- */

static void add_reading(Figure *list, const char *name, const char *unit, Reading reading) {
    Figure *of = figure_list_object(list);
    figure_text(of, "nutrient", name);
    figure_text(of, "unit", unit);
    figure_number(of, "value", reading_or(reading, (double)NAN));
    figure_text(of, "origin", origin_name(reading.origin));
    figure_text(of, "source", source_key(reading.source));
}

static void add_figures(Figure *list, const Feedstuff *feed, bool is_own) {
    Figure *of = figure_list_object(list);
    figure_text(of, "feed", feed->name);
    figure_truth(of, "own", is_own);
    figure_text(of, "book_feed", feed->book_feed);
    figure_text(of, "class", feed_class_kind(feed->feed_class)->key);
    figure_text(of, "origin", feed->sample_count > 0 ? "laboratory" : "book");
    figure_number(of, "samples", feed->sample_count);
    figure_number(of, "dry_matter_pct", feed->analysis.dry_matter.value);
    figure_text(of, "dry_matter_origin", origin_name(feed->analysis.dry_matter.origin));
    figure_text(of, "energy_route", energy_route_name(feed->route));
    Figure *routes = figure_child(of, "tdn_by_route");
    static const char *const KEYS[ROUTE_COUNT] = {"digestibility", "lignin", "fibre",
                                                  "laboratory", "book"};
    for (int route = 0; route < ROUTE_COUNT; route++)
        figure_number(routes, KEYS[route], feed->tdn_by_route[route]);
    Figure *nutrients = figure_list(of, "nutrients");
    for (int i = 0; i < NUTRIENT_COUNT; i++)
        add_reading(nutrients, nutrient_kind((Nutrient)i)->stem,
                    nutrient_kind((Nutrient)i)->unit, feed->analysis.of[i]);
    figure_number(of, "nitrate_for_safety_pct", feed->nitrate_for_safety);
    Figure *flags = figure_list(of, "flags");
    if (feed->nitrate_is_assumed)
        figure_list_text(flags, "nitrate not tested");
    if (feed->sample_count == 0)
        figure_list_text(flags, "no laboratory test");
}

Report *feeds_report(Arena *arena, const Farm *farm, Units units) {
    Feeds feeds = {report_new(arena, "What the feeds are"), farm, units};
    if (farm->inventory.stacks.count > 0)
        add_stacks(&feeds);
    report_section(feeds.report, "analysis", "Analysis, of dry matter");
    add_analysis(&feeds, "analysis", "Protein, fibre, energy", FIRST_TABLE, COUNT(FIRST_TABLE),
                 true);
    add_analysis(&feeds, "minerals", "Minerals and nitrate", SECOND_TABLE, COUNT(SECOND_TABLE),
                 false);
    add_routes(&feeds);
    add_flags(&feeds);
    Figure *list = figure_list(feeds.report->figures, "feeds");
    for (int f = 0; f < feed_count(farm); f++)
        add_figures(list, feed_at(farm, f), f < farm->inventory.stacks.count);
    Figure *book = figure_list(feeds.report->figures, "book_feeds");
    for (int i = 0; i < farm->book->count; i++)
        figure_list_text(book, farm->book->feeds[i].feed);
    report_section(feeds.report, "book", "Feeds of the book");
    Text names = text_new(arena);
    for (int i = 0; i < farm->book->count; i++)
        text_print(&names, "%s%s", i > 0 ? ", " : "", farm->book->feeds[i].feed);
    report_paragraph(
        feeds.report,
        "For the feed column of stacks.csv and for-sale.csv (blanks may stand for the "
        "underlines): %s.",
        names.bytes);
    return feeds.report;
}

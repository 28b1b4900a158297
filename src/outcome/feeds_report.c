#include "outcome/feeds_report.h"
#include "base/text.h"
#include "outcome/feeds_parts.h"
#include <math.h>
#include <string.h>

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

/* A figure not from the laboratory carries a letter after it. */
static const char *mark_of(Origin origin) {
    switch (origin) {
    case FROM_LABORATORY:
        return "";
    case FROM_CALCULATION:
        return "c";
    case FROM_BOOK:
        return "b";
    case FROM_ASSUMPTION:
        return "a";
    case FROM_NOWHERE:
        break;
    }
    return "";
}

static Cell reading_cell(Reading reading, int decimals, double times) {
    if (!reading_is_known(reading))
        return empty_cell();
    return marked_cell(number_cell(reading.value * times, decimals), mark_of(reading.origin));
}

static Cell nutrient_cell(Units units, const Feedstuff *feed, Nutrient nutrient) {
    const NutrientKind *kind = nutrient_kind(nutrient);
    const bool is_energy = kind->family == UNIT_ENERGY_DENSITY;
    const double times = is_energy ? measure_shown(units, MEASURE_ENERGY_DENSITY, 1.0) : 1.0;
    return reading_cell(feed->analysis.of[nutrient], kind->decimals, times);
}

static const Nutrient FIRST_TABLE[] = {NUTRIENT_CRUDE_PROTEIN, NUTRIENT_ADF, NUTRIENT_NDF,
                                       NUTRIENT_TDN,           NUTRIENT_NEM, NUTRIENT_NEG};
static const Nutrient SECOND_TABLE[] = {NUTRIENT_CALCIUM,   NUTRIENT_PHOSPHORUS,
                                        NUTRIENT_MAGNESIUM, NUTRIENT_POTASSIUM,
                                        NUTRIENT_SULFUR,    NUTRIENT_NITRATE};

int feeds_count(const Farm *farm) {
    return farm->inventory.stacks.count + farm->inventory.for_sale.count;
}

const Feedstuff *feeds_at(const Farm *farm, int place) {
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
    for (int f = 0; f < feeds_count(feeds->farm); f++) {
        const Feedstuff *feed = feeds_at(feeds->farm, f);
        Cell *cells = ARENA_ARRAY(arena, Cell, count + before);
        cells[0] = text_cell(feed->name);
        if (with_dry_matter)
            cells[1] = reading_cell(feed->analysis.dry_matter, 0, 1.0);
        for (int i = 0; i < count; i++)
            cells[i + before] = nutrient_cell(feeds->units, feed, nutrients[i]);
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
        {"feed", "Feed", "", 0},
        {"tdn", "TDN", "%", 1},
        {"route", "By", "", 0},
        {"others", "Other ways would say", "", 0},
    };
    Arena *arena = feeds->report->arena;
    report_section(feeds->report, "energy", "How the energy was found");
    ReportTable *table = report_table(feeds->report, "routes", "", COLUMNS, COUNT(COLUMNS));
    for (int f = 0; f < feeds_count(feeds->farm); f++) {
        const Feedstuff *feed = feeds_at(feeds->farm, f);
        if (feed->route == ROUTE_NONE)
            continue;
        report_row(table, (Cell[]){text_cell(feed->name),
                                   number_cell(feed->tdn_by_route[feed->route], 1),
                                   text_cell(energy_route_name(feed->route)),
                                   text_cell(spread_words(arena, feed))});
    }
    report_paragraph(
        feeds->report,
        "TDN is found the best way the laboratory's figures allow, DE, ME, NEm and NEg "
        "from it in one way for every feed. A laboratory's own net energy is not used: "
        "two laboratories with the same fibre may print different energy.");
}

/* Shown beside the figures a plan uses, and used by none. */
static void add_information(const Feeds *feeds) {
    static const ReportColumn COLUMNS[] = {
        {"feed", "Feed", "", 0},      {"soluble_protein", "Soluble", "% of CP", 1},
        {"rdp", "RDP", "% of CP", 1}, {"rup", "RUP", "% of CP", 1},
        {"ndicp", "NDICP", "%", 1},   {"adicp", "ADICP", "%", 1},
        {"nfc", "NFC", "%", 1},       {"rfv", "RFV", "", 1},
    };
    ReportTable *table = report_table(feeds->report, "information",
                                      "Parts of the protein; NFC and RFV for information",
                                      COLUMNS, COUNT(COLUMNS));
    for (int f = 0; f < feeds_count(feeds->farm); f++) {
        const Feedstuff *feed = feeds_at(feeds->farm, f);
        if (feed->feed_class == FEED_CLASS_MINERAL)
            continue;
        const Cell cells[COUNT(COLUMNS)] = {
            text_cell(feed->name),
            nutrient_cell(feeds->units, feed, NUTRIENT_SOLUBLE_SHARE),
            nutrient_cell(feeds->units, feed, NUTRIENT_DEGRADABLE_SHARE),
            reading_cell(feed->rup, 0, 1.0),
            nutrient_cell(feeds->units, feed, NUTRIENT_NDICP),
            nutrient_cell(feeds->units, feed, NUTRIENT_ADICP),
            reading_cell(feed->nfc, 1, 1.0),
            reading_cell(feed->rfv, 0, 1.0),
        };
        report_row(table, cells);
    }
    report_paragraph(
        feeds->report,
        "Degradable protein (RDP) is the book's for the kind and stage unless it was tested; "
        "what the rumen does not degrade (RUP) is the rest. Soluble protein is a part of RDP; "
        "where it was not tested, 30 %% is assumed of hay, 55 %% of silage and 25 %% of cereal "
        "grain, from memory, and left out of other feeds; nothing is made of it. NFC and RFV "
        "are used in no ration; RFV is of hay and silage of legumes and grass only.");
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

Report *feeds_report(Arena *arena, const Farm *farm, Units units) {
    Feeds feeds = {report_new(arena, "What the feeds are"), farm, units};
    if (farm->inventory.stacks.count > 0)
        add_stacks(&feeds);
    report_section(feeds.report, "analysis", "Analysis, of dry matter");
    add_analysis(&feeds, "analysis", "Protein, fibre, energy", FIRST_TABLE, COUNT(FIRST_TABLE),
                 true);
    add_analysis(&feeds, "minerals", "Minerals and nitrate", SECOND_TABLE, COUNT(SECOND_TABLE),
                 false);
    add_information(&feeds);
    add_routes(&feeds);
    feeds_add_trust(&feeds);
    feeds_add_worth_testing(&feeds);
    feeds_add_flags(&feeds);
    feeds_add_figures(&feeds);
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

#include "stock/price_list.h"
#include "base/text.h"

enum {
    OFFER_NAME,
    OFFER_FEED,
    OFFER_PRICE,
    OFFER_FROM,
    OFFER_UNTIL,
    OFFER_MOST,
    OFFER_LOAD,
    OFFER_FEEDING,
    OFFER_WASTE,
    OFFER_SHRINK,
    OFFER_HAUL,
    OFFER_SUPPLEMENT,
    OFFER_GROUPS,
    OFFER_NOTE,
    OFFER_COLUMN_COUNT
};

static const SheetColumn COLUMNS[OFFER_COLUMN_COUNT] = {
    {"feed_for_sale", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feed", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"price", UNIT_PRICE, COLUMN_REQUIRED, 0.001, 50},
    {"available_from", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"available_until", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"most", UNIT_TONNAGE, COLUMN_OPTIONAL, 0, 1.0e8},
    {"load", UNIT_TONNAGE, COLUMN_OPTIONAL, 1, 100000},
    {"feeding", UNIT_PLAIN, COLUMN_REQUIRED, 0, 0},
    {"feeding_waste", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 60},
    {"shrink", UNIT_PERCENT, COLUMN_OPTIONAL, 0, 40},
    {"haul", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"supplement", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"groups", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

static const char *const NO_YES[] = {"no", "yes"};

static void read_feeding(const Sheet *sheet, int row, const StockContext *context, Offer *offer) {
    double percent;
    offer->feeding = feeding_choice(context->handling, sheet, row, OFFER_FEEDING);
    offer->waste_share = offer->feeding ? offer->feeding->waste_share : 0.0;
    if (sheet_number(sheet, row, OFFER_WASTE, &percent))
        offer->waste_share = percent / 100.0;
    if (sheet_number(sheet, row, OFFER_SHRINK, &percent))
        offer->shrink_share = percent / 100.0;
    offer->protein_left = protein_left_factor(
        offer->waste_share, offer->feeding ? offer->feeding->protein_waste_factor : 1.0);
}

static Offer read_offer(const Sheet *sheet, int row, const StockContext *context) {
    Offer offer = {
        .name = sheet_text(sheet, row, OFFER_NAME),
        .place = sheet_place(sheet, row, OFFER_NAME),
        .most_kg = NO_LIMIT,
    };
    sheet_require(sheet, row, OFFER_NAME);
    if (sheet_require(sheet, row, OFFER_PRICE))
        sheet_number(sheet, row, OFFER_PRICE, &offer.price_per_kg);
    sheet_number(sheet, row, OFFER_MOST, &offer.most_kg);
    sheet_number(sheet, row, OFFER_LOAD, &offer.load_kg);
    sheet_number(sheet, row, OFFER_HAUL, &offer.haul_per_kg);
    read_feeding(sheet, row, context, &offer);
    offer.is_supplement = sheet_choice(sheet, row, OFFER_SUPPLEMENT, NO_YES, 2) == 1;
    offer.allowance =
        allowance_read(sheet, row, OFFER_FROM, OFFER_UNTIL, OFFER_GROUPS, context);
    const BookFeed *book = book_choice(context->book, sheet, row, OFFER_FEED);
    if (!book)
        return offer;
    const Tested tested = feed_tests_combined(context->tests, offer.name);
    offer.feed = feedstuff_complete(offer.name, &tested, book);
    feed_tests_check_class(sheet_faults(sheet), context->tests, offer.name, book);
    return offer;
}

PriceList price_list_parse(Arena *arena, Faults *faults, const StockContext *context,
                           const char *file, const char *bytes, size_t length) {
    if (!bytes)
        return (PriceList){NULL, NULL, 0};
    const Sheet *sheet =
        sheet_parse(arena, faults, file, bytes, length, COLUMNS, OFFER_COLUMN_COUNT);
    if (!sheet)
        return (PriceList){NULL, NULL, 0};
    const int rows = sheet_row_count(sheet);
    Offer *offers = ARENA_ARRAY(arena, Offer, rows);
    const char **names = ARENA_ARRAY(arena, const char *, rows);
    int count = 0;
    for (int row = 0; row < rows; row++) {
        if (sheet_row_is_empty(sheet, row))
            continue;
        offers[count] = read_offer(sheet, row, context);
        names[count] = offers[count].name;
        count++;
    }
    return (PriceList){offers, names, count};
}

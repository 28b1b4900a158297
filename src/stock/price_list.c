#include "stock/price_list.h"
#include "feedstuff/feed_sampling.h"
#include "stock/feed_price.h"
#include "stock/stack_column.h"

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
    OFFER_WATCH_FOR,
    OFFER_NOTE,
    OFFER_DISTANCE,
    OFFER_FREIGHT_RATE,
    OFFER_FREIGHT,
    OFFER_DELIVERED_UNTIL,
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
    {"watch_for", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"note", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
    {"freight_distance", UNIT_DISTANCE, COLUMN_OPTIONAL, 0, 5000},
    {"freight_rate", UNIT_MILEAGE, COLUMN_OPTIONAL, 0, 100},
    {"freight", UNIT_PRICE, COLUMN_OPTIONAL, 0, 1},
    {"delivered_until", UNIT_PLAIN, COLUMN_OPTIONAL, 0, 0},
};

#define MOST_OFFERS 200

static const char *const NO_YES[] = {"no", "yes"};

static void read_feeding(const Sheet *sheet, int row, const StockContext *context,
                         Offer *offer) {
    double percent;
    offer->feeding = feeding_choice(context->handling, sheet, row, OFFER_FEEDING);
    offer->waste_share = offer->feeding ? offer->feeding->waste_share : 0.0;
    if (sheet_number(sheet, row, OFFER_WASTE, &percent)) {
        stock_check_share(sheet, row, OFFER_WASTE, percent / 100.0,
                          (StockShare){offer->waste_share, 0.5});
        offer->waste_share = percent / 100.0;
    }
    if (sheet_number(sheet, row, OFFER_SHRINK, &percent)) {
        stock_check_share(sheet, row, OFFER_SHRINK, percent / 100.0, (StockShare){0.0, 0.1});
        offer->shrink_share = percent / 100.0;
    }
    offer->protein_left = protein_left_factor(
        offer->waste_share, offer->feeding ? offer->feeding->protein_waste_factor : 1.0);
}

static void read_amounts(const Sheet *sheet, int row, Offer *offer) {
    const bool has_most = sheet_number(sheet, row, OFFER_MOST, &offer->most_kg);
    const bool has_load = sheet_number(sheet, row, OFFER_LOAD, &offer->load_kg);
    const Place place = sheet_place(sheet, row, OFFER_MOST);
    const char *heading = sheet_heading(sheet, OFFER_MOST);
    if (has_most && offer->most_kg <= 0.0) {
        doubt_add(
            sheet_faults(sheet), place,
            "%s: 0 is read as none to be had; leave the cell empty where there is no limit",
            heading);
    } else if (has_most && has_load && offer->load_kg > offer->most_kg) {
        doubt_add(sheet_faults(sheet), place,
                  "%s: all there is to be had is less than one load", heading);
    }
}

static void fault_missing(const Sheet *sheet, int row, int column, const char *beside) {
    if (sheet_is_left_out(sheet, row, column))
        fault_add(sheet_faults(sheet), sheet_place(sheet, row, column),
                  "%s: is empty beside %s; freight needs the distance, the rate and the load",
                  sheet_heading(sheet, column), beside);
}

/* The price is then the seller's at his gate. By weight, or by distance, rate and load. */
static double read_freight(const Sheet *sheet, int row, const Offer *offer) {
    double distance_km = 0.0;
    double per_km = 0.0;
    double freight = 0.0;
    const bool has_distance = sheet_number(sheet, row, OFFER_DISTANCE, &distance_km);
    const bool has_rate = sheet_number(sheet, row, OFFER_FREIGHT_RATE, &per_km);
    if (sheet_number(sheet, row, OFFER_FREIGHT, &freight)) {
        if (has_distance || has_rate)
            fault_add(sheet_faults(sheet), sheet_place(sheet, row, OFFER_FREIGHT),
                      "%s: the distance or its rate is there too; keep one way",
                      sheet_heading(sheet, OFFER_FREIGHT));
        return freight;
    }
    if (has_distance && !has_rate)
        fault_missing(sheet, row, OFFER_FREIGHT_RATE, "the distance");
    if (has_rate && !has_distance)
        fault_missing(sheet, row, OFFER_DISTANCE, "the rate");
    if (!has_distance || !has_rate)
        return 0.0;
    if (offer->load_kg <= 0.0) {
        fault_missing(sheet, row, OFFER_LOAD, "the distance");
        return 0.0;
    }
    return freight_per_kg(distance_km, per_km, offer->load_kg);
}

/* A last day of hauling so long after the winter is of another year. Own choice. */
#define STRAY_DAYS 90

/* A road ban ends hauling and not feeding: what came before it lies in the yard. */
static void read_delivery(const Sheet *sheet, int row, const StockContext *context,
                          Offer *offer) {
    offer->has_delivered_until =
        sheet_date(sheet, row, OFFER_DELIVERED_UNTIL, &offer->delivered_until);
    if (!offer->has_delivered_until)
        return;
    const Place place = sheet_place(sheet, row, OFFER_DELIVERED_UNTIL);
    const char *heading = sheet_heading(sheet, OFFER_DELIVERED_UNTIL);
    const char *date = sheet_text(sheet, row, OFFER_DELIVERED_UNTIL);
    const bool has_from = !sheet_is_left_out(sheet, row, OFFER_FROM);
    const bool has_until = !sheet_is_left_out(sheet, row, OFFER_UNTIL);
    if (has_from && calendar_days_between(offer->allowance.from, offer->delivered_until) < 0) {
        fault_add(sheet_faults(sheet), place,
                  "%s: %s is before %s, %s; swap them, or mend the year", heading, date,
                  sheet_heading(sheet, OFFER_FROM), sheet_text(sheet, row, OFFER_FROM));
    } else if (has_until &&
               calendar_days_between(offer->allowance.until, offer->delivered_until) > 0) {
        doubt_add(
            sheet_faults(sheet), place,
            "%s: %s is after %s, from which on none of it is fed; leave one of them empty",
            heading, date, sheet_heading(sheet, OFFER_UNTIL));
    } else if (stock_days_are_known(context) &&
               calendar_days_between(offer->delivered_until, context->first_day) > 0) {
        doubt_add(sheet_faults(sheet), place,
                  "%s: %s is before the first feeding day: none of it is bought in a plan from "
                  "then on; what came by then is a row of stacks.csv",
                  heading, date);
    } else if (stock_days_are_known(context) &&
               calendar_days_between(context->last_day, offer->delivered_until) > STRAY_DAYS) {
        doubt_add(
            sheet_faults(sheet), place,
            "%s: %s is long after the last feeding day, so that nothing is held to it; is "
            "the year right?",
            heading, date);
    }
}

/* How it will be kept nobody says: dry, where the book has it dry. */
#define LEAST_DRY_MATTER_OF_DRY_FEED 80.0

static Keeping offer_keeping(const BookFeed *book) {
    const bool is_dry =
        reading_or(book->analysis.dry_matter, 0.0) >= LEAST_DRY_MATTER_OF_DRY_FEED;
    if (is_dry && book->feed_class == FEED_CLASS_GRAIN)
        return KEPT_AS_DRY_GRAIN;
    return is_dry && feed_class_kind(book->feed_class)->is_forage ? KEPT_AS_HAY : KEPT_ANYHOW;
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
    read_amounts(sheet, row, &offer);
    if (sheet_number(sheet, row, OFFER_HAUL, &offer.haul_per_kg))
        stock_check_haul(sheet, row, OFFER_HAUL, offer.haul_per_kg);
    const double asked_per_kg = offer.price_per_kg;
    offer.freight_per_kg = read_freight(sheet, row, &offer);
    offer.price_per_kg += offer.freight_per_kg;
    read_feeding(sheet, row, context, &offer);
    offer.is_supplement = sheet_choice(sheet, row, OFFER_SUPPLEMENT, NO_YES, 2) == 1;
    offer.allowance =
        allowance_read(sheet, row, OFFER_FROM, OFFER_UNTIL, OFFER_GROUPS, context);
    read_delivery(sheet, row, context, &offer);
    const BookFeed *book = book_choice(context->book, sheet, row, OFFER_FEED);
    const WatchSet watch = feed_watch_read(sheet, row, OFFER_WATCH_FOR);
    if (!book)
        return offer;
    offer.feed = feed_tests_completed(context->tests, offer.name, book);
    feedstuff_watch(&offer.feed, watch);
    stock_check_watch(sheet, row, OFFER_WATCH_FOR, &offer.feed);
    feed_tests_check_class(sheet_faults(sheet), context->tests, offer.name, book,
                           offer_keeping(book));
    feed_tests_check_dates(sheet_faults(sheet), context->tests, offer.name, NULL,
                           stock_days_are_known(context) ? &offer.allowance.from : NULL,
                           stock_days_are_known(context) ? &context->last_day : NULL);
    stock_check_price(sheet, row, OFFER_PRICE, book->feed_class, asked_per_kg);
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
    if (rows > MOST_OFFERS) {
        fault_add(faults, (Place){file, 0, 0},
                  "has %d rows; at most %d feeds for sale are read: is it the right file?",
                  rows, MOST_OFFERS);
        return (PriceList){NULL, NULL, 0};
    }
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

/* The book: published composition of feeds, for what no test tells (models/coefficients/
 * book-feeds.csv). */
#ifndef FEEDSTUFF_BOOK_VALUE_H
#define FEEDSTUFF_BOOK_VALUE_H

#include "feedstuff/feedstuff.h"

struct BookFeed {
    const char *feed, *label; /* "oat_greenfeed", "Oat greenfeed (hay)" */
    FeedClass feed_class;
    Analysis analysis;       /* dry matter basis */
    double untested_sulfur;  /* % of dry matter a plan reckons with at least where no laboratory
                                looked, of kinds that gather it; 0: none */
    double untested_nitrate; /* % NO3, likewise, where it is more than its class's */
    double processing_factor; /* of the summative equation; 1 where the row has none */
    const char *sources;      /* the row's source column */
};

typedef struct {
    const BookFeed *feeds;
    const char *const *names; /* of the feeds, for suggestions */
    int count;
} BookValues;

/* NULL when faults were added. Every value is FROM_BOOK; its source is SOURCE_OWN_CHOICE or
 * SOURCE_BOOK_MEMORY where the row says so, else the row's first source. */
const BookValues *book_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                             size_t length);

const BookFeed *book_find(const BookValues *book, const char *feed); /* NULL: no such feed */

/* A cell that names a feed of the book: NULL with a placed fault naming the nearest. */
const BookFeed *book_choice(const BookValues *book, const Sheet *sheet, int row, int column);

#endif

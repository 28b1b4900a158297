/* The published tables the program carries, for tests of the readers that need them. */
#ifndef SUPPORT_OWN_TABLES_H
#define SUPPORT_OWN_TABLES_H

#include "entry/embedded.h"
#include "feedstuff/book_value.h"
#include "stock/book_density.h"
#include "stock/handling.h"
#include "support/unit.h"

static inline const EmbeddedFile *own_table(const char *name) {
    const EmbeddedFile *file = embedded_find(name);
    assert_non_null(file);
    return file;
}

static inline const BookValues *own_book(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = own_table("book-feeds.csv");
    const BookValues *book = book_parse(arena, &faults, file->name, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    assert_non_null(book);
    return book;
}

static inline const Handling *own_handling(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *storage = own_table("storage-losses.csv");
    const EmbeddedFile *feeding = own_table("feeding-waste.csv");
    const Handling *handling = handling_parse(arena, &faults, storage->bytes, storage->length,
                                              feeding->bytes, feeding->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    assert_non_null(handling);
    return handling;
}

static inline const BookDensities *own_densities(Arena *arena) {
    Faults faults = faults_new(arena);
    const EmbeddedFile *file = own_table("book-densities.csv");
    const BookDensities *densities =
        book_densities_parse(arena, &faults, file->name, file->bytes, file->length);
    assert_string_equal(unit_faults(&faults, arena), "");
    assert_non_null(densities);
    return densities;
}

#endif

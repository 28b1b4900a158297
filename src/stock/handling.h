/* How feed is kept and how it is fed: published losses and wastes (models/coefficients/
 * storage-losses.csv and feeding-waste.csv). */
#ifndef STOCK_HANDLING_H
#define STOCK_HANDLING_H

#include "base/sheet.h"
#include "base/source.h"
#include "stock/storage_loss.h"

typedef struct {
    const char *name;
    StorageLoss loss;
    SourceKey source;
} StorageKind;

typedef struct {
    const char *name;
    double waste_share; /* of the dry matter offered */
    double
        protein_waste_factor; /* protein is wasted this many times as much: leaves go first */
    SourceKey source;
} FeedingKind;

typedef struct {
    const StorageKind *storages;
    const char *const *storage_names;
    int storage_count;
    const FeedingKind *feedings;
    const char *const *feeding_names;
    int feeding_count;
} Handling;

/* NULL when faults were added. */
const Handling *handling_parse(Arena *arena, Faults *faults, const char *storage_bytes,
                               size_t storage_length, const char *feeding_bytes,
                               size_t feeding_length);

/* A placed fault and NULL when the cell is empty or names none. */
const StorageKind *storage_choice(const Handling *handling, const Sheet *sheet, int row,
                                  int column);
const FeedingKind *feeding_choice(const Handling *handling, const Sheet *sheet, int row,
                                  int column);

/* Share of the protein (or anything that goes with the leaves) left in what is eaten, per share
 * of dry matter left: (1 - waste * factor) / (1 - waste). */
double protein_left_factor(double waste_share, double protein_waste_factor);

#endif

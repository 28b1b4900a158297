/* The numbers of one row of stacks.csv that may tell its weight, each read once, wanted or not,
 * so that every mistake is told. */
#ifndef STOCK_STACK_AMOUNT_H
#define STOCK_STACK_AMOUNT_H

#include "stock/stack_column.h"

typedef struct {
    double value;
    bool is_written, is_read;
} Amount;

enum { FIRST_AMOUNT = STACK_BALES, AMOUNT_COUNT = STACK_DENSITY - STACK_BALES + 1 };

typedef struct {
    const Sheet *sheet;
    int row;
    Amount of[AMOUNT_COUNT];
} Amounts;

static inline const Amount *amount_of(const Amounts *amounts, int column) {
    return &amounts->of[column - FIRST_AMOUNT];
}

static inline double value_of(const Amounts *amounts, int column) {
    return amount_of(amounts, column)->value;
}

static inline Place place_of(const Amounts *amounts, int column) {
    return sheet_place(amounts->sheet, amounts->row, column);
}

/* ---- by the tape: stack_size.c ---- */

bool is_counted_in_bales(StackKind kind);

/* The columns a kind is measured by; ends with -1. */
const int *stack_size_columns(StackKind kind);

/* Whether one of them is written; whether all are read, with a fault for each that is left out.
 */
bool stack_has_a_size(const Amounts *amounts, StackKind kind);
bool stack_has_sizes(const Amounts *amounts, StackKind kind);

/* m3 of one bale, or of the whole pile. */
double stack_volume(const Amounts *amounts, StackKind kind);

/* Between which densities, kg/m3 as fed, a kind lies: wide of what is met [OWN_CHOICE]; pounds
 * a cubic foot typed for kg/m3 lie far outside. */
typedef struct {
    double least, most;
} DensityRange;
DensityRange stack_density_range(StackKind kind);

/* Bales in a tube as long as its length: they touch. 0 where that is not said. */
double stack_tube_bales(const Amounts *amounts, StackKind kind);

#endif

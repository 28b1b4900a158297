#include "stock/stack_error.h"
#include <math.h>

/* Shares, two times in three [OWN_CHOICE]: weights taken together come over a truck scale; the
 * mean of a few bales, or of a guess, is missed by 100 lb in 1,200; a book density stands for a
 * pile it was never measured in. */
#define ERROR_OF_TOTAL 0.03
#define ERROR_OF_BALE_WEIGHT 0.08
#define ERROR_OF_MEASURED_BALES 0.09
#define ERROR_OF_BAG 0.09
#define ERROR_OF_PIT 0.15
#define ERROR_OF_BIN 0.04
#define ERROR_OF_LOOSE 0.20

/* Units of a forage like it that the book speaks for [OWN_CHOICE]: as one field, cut and year
 * differ from the next. */
#define ENERGY_ERROR_OF_BOOK 5.0
#define PROTEIN_ERROR_OF_BOOK 2.5

static double error_by_size(StackKind kind) {
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_SQUARE_BALES:
    case STACK_BALE_TUBE:
        return ERROR_OF_MEASURED_BALES;
    case STACK_BAG:
        return ERROR_OF_BAG;
    case STACK_PIT:
        return ERROR_OF_PIT;
    case STACK_BIN:
        return ERROR_OF_BIN;
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return ERROR_OF_LOOSE;
}

double stack_weight_error(const Stack *stack) {
    if (stack->is_by_size)
        return error_by_size(stack->kind);
    return stack->is_by_total ? ERROR_OF_TOTAL : ERROR_OF_BALE_WEIGHT;
}

static double error_of(const Stack *stack, const SampleError *error, double of_book) {
    if (!feed_class_kind(stack->feed.feed_class)->is_forage)
        return (double)NAN;
    const double known = fmax(error->working, error->between); /* NAN only where both are */
    return isnan(known) ? of_book : known;
}

double stack_energy_error(const Stack *stack) {
    return error_of(stack, &stack->feed.sampling.tdn, ENERGY_ERROR_OF_BOOK);
}

double stack_protein_error(const Stack *stack) {
    return error_of(stack, &stack->feed.sampling.crude_protein, PROTEIN_ERROR_OF_BOOK);
}

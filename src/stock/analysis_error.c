#include "stock/analysis_error.h"
#include <math.h>

/* Units of a forage like it that the book speaks for [OWN_CHOICE]: as one field, cut and year
 * differ from the next. */
#define ENERGY_ERROR_OF_BOOK 5.0
#define PROTEIN_ERROR_OF_BOOK 2.5

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

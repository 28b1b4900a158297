/* How far the tests of a stack may be off; its weight: weight_error.h. */
#ifndef STOCK_ANALYSIS_ERROR_H
#define STOCK_ANALYSIS_ERROR_H

#include "stock/stack.h"

/* Standard errors of its analysis, units of TDN and of crude protein: of the samples by how
 * well the stack was cored or by how they differ, whichever is more; of a forage that nobody
 * tested, of the book. NAN: nothing is said of such feed. */
double stack_energy_error(const Stack *stack);
double stack_protein_error(const Stack *stack);

#endif

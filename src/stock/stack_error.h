/* How far what is known of a stack may be off. */
#ifndef STOCK_STACK_ERROR_H
#define STOCK_STACK_ERROR_H

#include "stock/stack.h"

/* Standard error of its weight, as a share of it, by how it was found. */
double stack_weight_error(const Stack *stack);

/* Standard errors of its analysis, units of TDN and of crude protein: of the samples by how
 * well the stack was cored or by how they differ, whichever is more; of a forage that nobody
 * tested, of the book. NAN: nothing is said of such feed. */
double stack_energy_error(const Stack *stack);
double stack_protein_error(const Stack *stack);

#endif

/* What the prices of a winter that falls short prove of winters like it. Prices of the stacks
 * bound the least shortage from below, whatever else changes: what each ration owes goes with
 * its head and days, what the stacks give with what is in them. One question that was solved so
 * rules out many that need not be. */
#ifndef PLANNER_SHORTAGE_PROOF_H
#define PLANNER_SHORTAGE_PROOF_H

#include "planner/ration_program.h"

/* Zeroed at first. Weights as in the program of least shortage. */
typedef struct {
    double *owed;   /* [block_count] of each ration, a head and day; NULL: nothing is known */
    double *stock;  /* [feed_count] price of the feed's row, a tonne as fed */
    double *bought; /* [feed_count] reduced cost of what is bought, a tonne as fed */
    double carry_over; /* price of its row, a tonne of dry matter */
    double proven;     /* the bound of the question it was taken of */
} ShortageProof;

/* Of a program of least shortage and its solution by prices. Memory is taken once: the next
 * must be of as many rations and feeds. */
void shortage_proof_take(Arena *arena, const RationProgram *program, const LpSolution *solution,
                         ShortageProof *proof);

/* Of a question of that shape. */
ShortageProof shortage_proof_copied(Arena *arena, const ShortageProof *proof,
                                    const PlanQuestion *question);

/* At least so short is a question of the same rations and feeds, by the laws as they stood when
 * the proof was taken: head, days, stocks, what is for sale and what is kept for spring may be
 * others. With a group, whatever that group needs, and were it sold (-1: none). 0 where nothing
 * is known. */
double shortage_proven(const ShortageProof *proof, const PlanQuestion *question,
                       int without_group);

#endif
